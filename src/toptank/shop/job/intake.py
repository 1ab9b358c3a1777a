"""A job from what is asked at the counter: what it is, when it runs hot, where the needle stood, what was changed.

The usual figures of a condition stand in until somebody says better (common practice, no source), and are marked as
assumed; a figure that was typed is one that was said.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from toptank.catalogue.words.aliases import id_of
from toptank.knowledge.sheet import duty_fields
from toptank.knowledge.sheet_text import quoted
from toptank.knowledge.typical import typical
from toptank.shop.job.job_file import FORMAT
from toptank.shop.job.write_up import KEYS
from toptank.units.dialect import spoken
from toptank.units.dimension import TEMPERATURE
from toptank.units.display import show
from toptank.units.quantity import parse
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from toptank.units.conversion import System


@dataclass(frozen=True, slots=True, kw_only=True)
class Preset:
    """A condition that a driver names in one word, with its usual figures in the units of the shop."""

    name: str
    figures: Mapping[System, Mapping[str, str]]


def _preset(name: str, us: Mapping[str, str], metric: Mapping[str, str]) -> Preset:
    uk = {key: us[key] if key == "speed" else text for key, text in metric.items()}
    return Preset(name=name, figures={"us": us, "metric": metric, "uk": uk})


def _day(ambient: str, speed: str, grade: str) -> dict[str, str]:
    return {"ambient": ambient, "speed": speed, "grade": grade}


PRESETS = (
    _preset("idle", _day("85 F", "0 mph", "0 %"), _day("30 C", "0 km/h", "0 %")),
    _preset("town", _day("85 F", "25 mph", "0 %"), _day("30 C", "40 km/h", "0 %")),
    _preset("highway", _day("85 F", "60 mph", "0 %"), _day("30 C", "100 km/h", "0 %")),
    _preset("hill", _day("85 F", "45 mph", "6 %"), _day("30 C", "70 km/h", "6 %")),
    _preset(
        "towing",
        _day("85 F", "50 mph", "3 %") | {"trailer_mass": "3500 lb"},
        _day("30 C", "80 km/h", "3 %") | {"trailer_mass": "1600 kg"},
    ),
)
"""Common practice, no source."""

REPLACED = ("thermostat", "cap", "radiator", "water_pump", "fan_clutch", "hoses", "belt", "sender")
"""Work that is asked for by a tick: what is changed first in a shop; judgement."""


def usual(name: str, system: System) -> Mapping[str, str]:
    """Return the usual figures of a preset in the units of the shop."""
    return next(one.figures[system] for one in PRESETS if one.name == name)


def has_air_conditioning(like: str) -> bool:
    """Whether a typical vehicle, by its name, has what a driver may have had on."""
    return typical(like).sheet.facts["condenser.present"].value > 0.5


def in_units(key: str, text: str, before: System, system: System) -> str:
    """Return a figure that was typed in other units of the shop; what cannot be read stays as it was typed.

    Parameters
    ----------
    key : of the condition, or "gauge"
    """
    dimension = TEMPERATURE if key == "gauge" else duty_fields()[key].dimension
    try:
        read = parse(text, dimension, system=before, field=key)
    except Refusal:
        return text
    return show(read.value, dimension, system).replace("°", "") if read.assumed or read.unit else text


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen:
    """A condition and what the gauge did in it.

    Parameters
    ----------
    name : of the condition
    figures : its keys with what was typed
    needle : where it stood, one of `NEEDLE`; empty where a figure was read or nothing
    gauge : the figure that was read, as typed
    words : fine, warm, hot or boiled; empty
    cooled : the air conditioning was on
    """

    name: str
    figures: Mapping[str, str]
    needle: str = ""
    gauge: str = ""
    words: str = ""
    cooled: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Intake:
    """All that was said; what is empty was not."""

    like: str
    system: System
    title: str = ""
    complaint: str = ""
    seen: Sequence[Seen] = ()
    level: str = ""
    loss: str = ""
    replaced: Sequence[str] = ()
    distance: str = ""
    write_up: Mapping[str, str] = field(default_factory=dict[str, str])


def intake_text(told: Intake) -> str:
    """Return the job file of what was said; a job of which nobody named a condition has one, as on any page."""
    one = typical(told.like)
    kind = one.title.partition(",")[0]
    lines = [
        f'format = "{FORMAT}"',
        f'units = "{told.system}"',
        "",
        "[job]",
        f"title = {quoted(told.title.strip() or spoken(kind, told.system))}",
        f"complaint = {quoted(told.complaint.strip())}",
        f'limit = "{"225 F" if told.system == "us" else "107 C"}"',
        "",
        "[vehicle]",
        f'like = "{one.name}"',
    ]
    lines += _table("[write_up]", {key: told.write_up.get(key, "") for key in KEYS})
    lines += _table("[history]", {"distance": told.distance})
    seen = told.seen or (Seen(name="where it runs hot", figures={}),)
    for at in seen:
        lines += [*_table("[[duty]]", {"name": at.name}), *_figures(at, told.system)]
        if at.cooled and has_air_conditioning(one.name):
            lines.append('air_conditioning = "yes"')
    for at in seen:
        said = {"gauge": at.gauge, "needle": at.needle, "words": at.words}
        if any(said.values()):
            lines += _table("[[reading]]", {"duty": at.name, **said})
    for check, outcome in (("level_cold", told.level), ("coolant_loss", told.loss)):
        lines += _table("[[check]]", {"name": check, "outcome": outcome}) if outcome else []
    for part in told.replaced:
        lines += _table("[[changed]]", {"part": id_of("work", part) or part, "effect": "none"})
    return "\n".join((*lines, ""))


def _figures(seen: Seen, system: System) -> list[str]:
    """The figures of a condition; what stands as the form had it was said by nobody."""
    usual = next((dict(one.figures[system]) for one in PRESETS if one.name == seen.name), dict[str, str]())
    lines: list[str] = []
    for key, typed in seen.figures.items():
        text = typed.strip()
        if text:
            said = quoted(text)
            lines.append(
                f'{key} = {{ value = {said}, how = "assumed" }}' if text == usual.get(key) else f"{key} = {said}"
            )
    return lines


def _table(head: str, values: Mapping[str, str]) -> list[str]:
    said = [f"{key} = {quoted(value.strip())}" for key, value in values.items() if value.strip()]
    return ["", head, *said] if said else []
