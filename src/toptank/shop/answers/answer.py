"""What every answer is made of: frozen, typed, numbers in one fixed unit each, which its key names.

Units and words are chosen when an answer is shown: `record(system)` words its texts; its figures stay as they are.
The meaning of a key stands once, under `Parameters` of its class, and from there goes into the schema.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterable, Mapping
from functools import cache
from typing import TYPE_CHECKING, Annotated, Any, Literal, TypeAlias, TypeVar

import numpy as np
from pydantic import (
    BaseModel,
    ConfigDict,
    Field,
    GetJsonSchemaHandler,
    InstanceOf,
    JsonValue,
    PlainSerializer,
    SerializationInfo,
    WithJsonSchema,
)
from pydantic.json_schema import JsonSchemaValue
from pydantic_core.core_schema import CoreSchema

from toptank.units import dimension as kinds
from toptank.units.conversion import System, from_si
from toptank.units.sentence import Sentence, Sentences, said, said_each

if TYPE_CHECKING:
    from toptank.shop.job.job import Job

DIGITS = 6
"""Figures that a number is told to."""

_TOLD = re.compile(r"^(\w+(?:, \w+)*) : (.*(?:\n    .*)*)", re.MULTILINE)


def _asked(info: SerializationInfo) -> System:
    context: dict[str, System] = info.context or {}
    return context.get("system", "us")


def _text(value: str | Sentence, info: SerializationInfo) -> str:
    return said(value, _asked(info))


def _texts(value: tuple[str | Sentence, ...] | Sentences, info: SerializationInfo) -> list[str]:
    return list(said_each(value, _asked(info)))


Text: TypeAlias = Annotated[
    InstanceOf[str] | InstanceOf[Sentence], PlainSerializer(_text), WithJsonSchema({"type": "string"})
]
"""A text; with figures it is worded when it is shown."""

Texts: TypeAlias = Annotated[
    tuple[InstanceOf[str] | InstanceOf[Sentence], ...] | InstanceOf[Sentences],
    PlainSerializer(_texts),
    WithJsonSchema({"type": "array", "items": {"type": "string"}}),
]
Percent: TypeAlias = Annotated[float, Field(ge=0.0, le=100.0)]
Amount: TypeAlias = Annotated[float, Field(ge=0.0)]
Count: TypeAlias = Annotated[int, Field(ge=0)]
Number: TypeAlias = Annotated[int, Field(ge=1)]
Glycol: TypeAlias = Literal["ethylene", "propylene"]
FitVerdict: TypeAlias = Literal["clears", "tight", "rubs", "not known"]


class Answer(BaseModel):
    """An answer, or a part of one."""

    model_config = ConfigDict(
        frozen=True, extra="forbid", allow_inf_nan=False, json_schema_serialization_defaults_required=True
    )

    def record(self, system: System = "us") -> dict[str, JsonValue]:
        """Return the answer as plain values for JSON; its texts are worded in the units asked."""
        return self.model_dump(mode="json", context={"system": system})

    def json_text(self, system: System = "us") -> str:
        """Return the answer as JSON."""
        return self.model_dump_json(context={"system": system}, ensure_ascii=False)

    @classmethod
    def __get_pydantic_json_schema__(cls, core: CoreSchema, handler: GetJsonSchemaHandler) -> JsonSchemaValue:
        """Put what the docstring tells of each key into the schema."""
        schema = handler(core)
        whole = handler.resolve_ref_schema(schema)
        head = (cls.__doc__ or "").partition("\n\n")[0]
        whole["description"] = " ".join(head.split())
        for told in whole.get("properties", {}).values():
            told.pop("title", None)  # the key in capitals: it says nothing that the key does not
        for names, means in _TOLD.findall(_unindented(cls.__doc__ or "")):
            for name in names.split(", "):
                if name in whole.get("properties", {}):
                    whole["properties"][name]["description"] = " ".join(means.split())
        return schema


def _unindented(doc: str) -> str:
    return re.sub(r"^    ", "", doc, flags=re.MULTILINE)


class Band(Answer):
    """Tenth, fiftieth and ninetieth percentile of the simulations, in the unit of its key."""

    p10: float
    p50: float
    p90: float


class OpenBand(Answer):
    """A band whose ends may be beyond all that was looked at: null there."""

    p10: float | None
    p50: float | None
    p90: float | None


class Headed(Answer):
    """What stands over the answer to a job.

    Parameters
    ----------
    title : of the job
    invented : the figures of the job are made up
    """

    title: str
    invented: bool


class Remarked(Answer):
    """What stands under an answer.

    Parameters
    ----------
    remarks : what to mind of it
    assumed_units : bare numbers, and the unit that they were taken in
    """

    remarks: Texts
    assumed_units: Texts


def rounded(value: float) -> float:
    """Return a number to six figures."""
    return float(f"{float(value):.{DIGITS}g}")


def _fixed(value: float, dimension: kinds.Dimension, unit: str) -> float:
    return rounded(float(from_si(float(value), dimension, unit)))


def degC(kelvin: float) -> float:
    """Return a temperature [K] in °C."""
    return _fixed(kelvin, kinds.TEMPERATURE, "°C")


def kPa(pascal: float) -> float:
    """Return a pressure [Pa] in kPa."""
    return _fixed(pascal, kinds.PRESSURE, "kPa")


def kW(watt: float) -> float:
    """Return a heat flow or a power [W] in kW."""
    return _fixed(watt, kinds.HEAT, "kW")


def litres(cubic_metres: float) -> float:
    """Return a volume [m3] in L."""
    return _fixed(cubic_metres, kinds.VOLUME, "L")


def L_per_min(flow: float) -> float:
    """Return a flow of coolant [m3/s] in L/min."""
    return _fixed(flow, kinds.FLOW, "L/min")


def km(metres: float) -> float:
    """Return a distance [m] in km."""
    return _fixed(metres, kinds.DISTANCE, "km")


def mm(metres: float) -> float:
    """Return a length [m] in mm."""
    return _fixed(metres, kinds.LENGTH, "mm")


def km_per_h(speed: float) -> float:
    """Return a road speed [m/s] in km/h."""
    return _fixed(speed, kinds.SPEED, "km/h")


def rpm(turns: float) -> float:
    """Return a speed of rotation [1/s] in rpm."""
    return _fixed(turns, kinds.ROTATION, "rpm")


def pct(share: float) -> float:
    """Return a share [1] in percent, to a hundredth."""
    return round(100.0 * float(share), 2)


def minutes(seconds: float) -> float:
    """Return a time [s] in minutes, to a hundredth."""
    return round(float(seconds) / 60.0, 2)


def per_kPa(per_pascal: float) -> float:
    """Return what a pascal is worth [1/Pa] for a kilopascal."""
    return rounded(1000.0 * per_pascal)


def band(ends: Any, unit: Callable[[float], float] = rounded) -> Band:
    """Return a band in a unit; `ends` has p10, p50 and p90 in SI."""
    return Band(p10=unit(ends.p10), p50=unit(ends.p50), p90=unit(ends.p90))


_IN: dict[str, Callable[[float], float]] = {
    "L_per_min": L_per_min, "K_per_kPa": per_kPa, "W_per_K": rounded, "km_per_h": km_per_h, "m_per_s": rounded,
    "minutes": minutes, "degC": degC, "kPa": kPa, "kW": kW, "rpm": rpm, "pct": pct, "km": km, "mm": mm,
    "Pa": rounded, "kg": rounded, "K": rounded, "A": rounded, "L": litres, "m": rounded,
}  # fmt: skip
"""What brings SI into the unit that ends a key; a unit that ends in another stands before it."""

AnswerT = TypeVar("AnswerT", bound=Answer)


def filled(kind: type[AnswerT], source: object, given: Mapping[str, object] | None = None) -> AnswerT:
    """Return an answer; a key that is not given is what the source calls so, in the unit that ends the key.

    `core_heat_kW` is `source.core_heat` [W]; `gauge_degC` is `source.gauge` or `source.T_gauge` [K]. A band stays one
    (an end that is not a number is null), a sequence of figures too, and None is null.
    """
    given = given or {}
    told = {key: _told(source, *parted) for key, parted in _parted(kind).items() if key not in given}
    return kind.model_validate(told | dict(given))


def filled_each(kind: type[AnswerT], sources: Iterable[object]) -> tuple[AnswerT, ...]:
    """Return one answer for each source."""
    return tuple(filled(kind, source) for source in sources)


def headed(job: Job) -> dict[str, object]:
    """Return what stands over the answer to a job."""
    return {"title": job.title, "invented": job.invented}


@cache
def _parted(kind: type[Answer]) -> dict[str, tuple[str, Callable[[float], float] | None]]:
    """Each key of an answer: its name without the unit, and what brings SI into that."""

    def parted(key: str) -> tuple[str, Callable[[float], float] | None]:
        unit = next((unit for unit in _IN if key.endswith(f"_{unit}")), None)
        return (key, None) if unit is None else (key.removesuffix(f"_{unit}"), _IN[unit])

    return {key: parted(key) for key in kind.model_fields}


def _told(source: object, name: str, unit: Callable[[float], float] | None) -> object:
    value: Any = getattr(source, name if hasattr(source, name) else f"T_{name}")
    if unit is None or value is None:
        return value
    if hasattr(value, "p50"):
        ends = {end: float(getattr(value, end)) for end in Band.model_fields}
        return {end: None if math.isnan(at) else unit(at) for end, at in ends.items()}
    return unit(value) if np.ndim(value) == 0 else tuple(unit(one) for one in value)
