"""A job as a form: what each field is called, what stands in it, what would stand there if nobody knew.

Made from the declarations of the fields and from the document as it was typed; no field is named here but to say where
in the bay a mechanic stands when he fills it in.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, cast

from toptank.knowledge.conditions import COLD
from toptank.knowledge.sheet import duty_fields, sections
from toptank.shop.ask.fitted import fitted
from toptank.units.conversion import System, unit_of
from toptank.units.declaration import Declaration
from toptank.units.dialect import spoken
from toptank.units.dimension import CHOICE, YES_NO
from toptank.units.display import show, show_estimate
from toptank.units.sentence import said_each

if TYPE_CHECKING:
    from toptank.knowledge.sheet import Fact
    from toptank.shop.job.job import Job

GROUPS = (
    ("Core", "at the front, with a tape and a torch", ("core",)),
    ("Fan, shroud and grille", "between core and engine", ("fan", "fan_clutch", "shroud", "grille", "condenser")),
    ("Engine", "at the block", ("engine", "water_pump", "thermostat", "hoses", "heater")),
    ("Cap and coolant", "at the filler neck, cold", ("cap", "fill")),
    ("Vehicle", "papers, plates and the dash", ("body", "drivetrain", "transmission_cooler", "gauge")),
)
"""Sections of a sheet by where one stands; `doubts` are the model's own and are not asked in the bay."""

FIRST_OF_A_SHEET = frozenset(
    (
        *("core.face_width", "core.face_height", "core.arrangement", "core.rows", "core.fin_density", "core.fin_kind"),
        *(
            "core.material",
            "core.tanks",
            "core.blocked_face",
            "fan.drive",
            "fan.diameter",
            "fan.count",
            "fan.belt_ratio",
        ),
        *("core.tube_kind", "core.tube_thickness", "fan_clutch.kind"),
        *("shroud.present", "shroud.tip_clearance", "shroud.fan_to_core", "condenser.present", "engine.fuel"),
        *("engine.displacement", "engine.idle_speed", "water_pump.belt_ratio", "thermostat.starts_opening"),
        *("cap.pressure", "cap.system", "fill.concentrate", "fill.glycol", "fill.capacity", "body.mass"),
        *("drivetrain.kind", "drivetrain.axle_ratio", "drivetrain.tyre_radius", "transmission_cooler.place"),
    )
)
"""What a newcomer is asked of a vehicle: what a tape, a plate or a look tells in a few minutes, and what bears on the
gauge; judgement."""

ONLY_ON = {
    "viscous_clutch": ("fan_clutch.",),
    "belt_driven_fan": ("fan.belt_ratio", "fan.belt_slip"),
    "electric_fan": (
        *("fan.motor_speed", "fan.supply", "fan.switch_on", "fan.switch_off", "fan.first_stage", "fan.runs_on"),
        "fan.with_air_conditioning",
    ),
}
"""Fields by what a vehicle must have fitted to have them: nobody looks for the clutch of an electric fan."""

HOWS = (("measured", "measured"), ("plate", "off a plate"), ("assumed", "assumed"))
"""How a fact is known, and what it is called on a form."""

FIRST_OF_A_DUTY = ("ambient", "speed", "grade", "altitude", "air_conditioning", "for")
"""What is asked of a duty before anything else; common practice, no source."""

THEN_OF_A_DUTY = ("trailer_mass", "trailer_drag_area", "head_wind", "gear", "heater")
"""What comes next, as it bears more on the gauge than the rest; common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """One field of a form.

    Parameters
    ----------
    path : names it in the document, e.g. "core.rows", "duty.0.speed"
    label : what it is
    unit : what a bare number is taken in
    kind : figure, choice or words
    typed : as it was typed; empty where the document says nothing
    how : measured, plate or assumed; empty where that is not asked
    hint : what is taken while nothing is typed
    echo : the value as it was understood, in the units that are shown, where that says more than what was typed
    measure : how to find it
    choices : words of a choice
    remark : what is to be looked at again
    measurable : whether it can be found in the bay
    first : whether it is among the few that are asked before anything else
    """

    path: str
    label: str
    unit: str = ""
    kind: str = "figure"
    typed: str = ""
    how: str = ""
    hint: str = ""
    echo: str = ""
    measure: str = ""
    choices: tuple[str, ...] = ()
    remark: str = ""
    measurable: bool = True
    first: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Fields that one fills in standing at one place."""

    name: str
    where: str
    fields: tuple[Field, ...]


def sheet_form(document: Mapping[str, object], job: Job, system: System) -> tuple[Group, ...]:
    """Return the sheet of a job, group by group; what the vehicle cannot have is asked only where it was typed."""
    lacks = [paths for one, paths in ONLY_ON.items() if one not in fitted(job.sheet)]
    beside = tuple(path for paths in lacks for path in paths)
    return tuple(
        Group(
            name=name,
            where=where,
            fields=tuple(
                _field(f"{section}.{key}", _table(document, section), key, declaration, job, system)
                for section in inside
                for key, declaration in sections()[section].items()
                if not f"{section}.{key}".startswith(beside) or key in _table(document, section)
            ),
        )
        for name, where, inside in GROUPS
    )


def duty_form(
    table: Mapping[str, object], place: str, facts: Mapping[str, Fact], job: Job, system: System
) -> tuple[Field, ...]:
    """Return the fields of one duty of a job, those that are always asked first; `place` is e.g. "duty.0"."""
    asked = (*FIRST_OF_A_DUTY, *THEN_OF_A_DUTY)
    keys = (*asked, *(key for key in duty_fields() if key not in asked))
    fields = [
        declared_field(f"{place}.{key}", table.get(key), duty_fields()[key], facts[key], system, asks_how=False)
        for key in keys
    ]
    return (*fields[: len(FIRST_OF_A_DUTY)], _after(table, place, job), *fields[len(FIRST_OF_A_DUTY) :])


def _after(table: Mapping[str, object], place: str, job: Job) -> Field:
    """What came before a duty: another one of its list, or a cold engine."""
    duties = job.duties if place.startswith("duty.") else (*job.worst_day, *job.duties)
    names = [duty.name for duty in duties if duty.name != table.get("name")]
    return Field(
        path=f"{place}.after",
        label="what came before",
        kind="choice",
        typed=typed_text(table.get("after"))[0],
        hint="taken: a run on the level, where it matters",
        measure="the driver's word",
        choices=(*dict.fromkeys(names), COLD),
    )


def _field(
    path: str, table: Mapping[str, object], key: str, declaration: Declaration, job: Job, system: System
) -> Field:
    told = (one.partition(": ")[2] for one in said_each(job.remarks, system) if one.startswith(f"{path} = "))
    return declared_field(path, table.get(key), declaration, job.sheet.facts[path], system, remark=next(told, ""))


def declared_field(
    path: str,
    written: object,
    declaration: Declaration,
    fact: Fact,
    system: System,
    *,
    asks_how: bool = True,
    remark: str = "",
) -> Field:
    """Return the field of a declaration: what was written of it, and the fact that was made of that."""
    typed, how = typed_text(written)
    shown = shown_value(fact.value, declaration, system, estimate=not typed)
    unit = unit_of(declaration.dimension, system)
    choice = declaration.dimension in (CHOICE, YES_NO)
    return Field(
        path=path,
        label=spoken(declaration.means, system),
        unit="" if choice or unit == "1" else unit,
        kind="choice" if choice else "figure",
        typed=typed,
        how=(how or ("measured" if typed else "assumed")) if asks_how else "",
        hint=f"{'assumed' if asks_how else 'taken'}: {shown}" if not typed else "not known" if choice else "",
        echo=f"= {shown}" if typed and not choice and not _same(typed, shown) else "",
        measure=spoken(declaration.in_the_bay(), system),
        choices=declaration.choices if choice else (),
        remark=remark if typed else "",
        measurable=declaration.measurable(),
        first=path in FIRST_OF_A_SHEET,
    )


def shown_value(value: float, declaration: Declaration, system: System, *, estimate: bool = False) -> str:
    """Return a value in SI as the shop reads it, an estimate in round figures; the word of a choice."""
    if declaration.choices:
        return spoken(declaration.choices[int(value)], system)
    return (show_estimate if estimate else show)(value, declaration.dimension, system)


def typed_text(written: object) -> tuple[str, str]:
    """Return what stands in a document as it was typed, and the word on how it was found."""
    how = ""
    if isinstance(written, dict):
        table = cast("dict[str, object]", written)
        how, written = str(table.get("how", "")), table.get("value")
    if written is None:
        return "", how
    if isinstance(written, bool):
        return ("yes" if written else "no"), how
    return str(written), how


def _same(typed: str, shown: str) -> bool:
    return typed.replace(" ", "").replace("°", "") == shown.replace(" ", "").replace("°", "")


def _table(document: Mapping[str, object], section: str) -> Mapping[str, object]:
    table = document.get(section)
    return cast("Mapping[str, object]", table) if isinstance(table, dict) else {}
