"""What there is to tell of a part of the loop: where its figures come from, and what the sheet says of it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from toptank.knowledge.sheet import Provenance, sections
from toptank.shop.ask.explain import explain
from toptank.shop.files.toml_file import shortened
from toptank.units.conversion import System
from toptank.units.dimension import CHOICE, YES_NO
from toptank.units.display import show
from toptank.units.nearest import did_you_mean
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from toptank.shop.answers.bench import ExplainAnswer
    from toptank.shop.job.job import Job

FIGURE_OF = {
    "core": "core_heat",
    "hoses": "core_flow",
    "grille": "face_velocity",
    "shroud": "face_velocity",
    "fan": "fan_speed",
    "water_pump": "core_flow",
    "thermostat": "thermostat_opening",
    "engine": "engine_heat",
    "heater": "engine_heat",
    "condenser": "condensing",
    "transmission_cooler": "transmission",
    "gauge": "gauge",
}
"""Sections of the sheet that the loop shows, each with the figure that is explained when it is touched."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PartField:
    """One field of a part as it stands: path, what it is, value as shown, how it is known."""

    path: str
    means: str
    value: str
    how: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PartTold:
    """A part: its section, the explanation of its main figure, its fields that a bay can find or somebody did."""

    part: str
    explanation: ExplainAnswer
    fields: tuple[PartField, ...]


def part_told(job: Job, part: str, system: System | None = None) -> PartTold:
    """Tell of a part.

    Raises
    ------
    Refusal : for a part that the loop does not show
    """
    if part not in FIGURE_OF:
        fix = did_you_mean(part, FIGURE_OF, f"name one of: {', '.join(FIGURE_OF)}")
        raise Refusal(field="part", value=shortened(part), limit="is no part of the loop", fix=fix)
    system = system or job.system
    told: list[PartField] = []
    for key, declaration in sections()[part].items():
        fact = job.sheet.facts[f"{part}.{key}"]
        if not declaration.measurable() and fact.how == Provenance.ASSUMED:
            continue
        if declaration.dimension in (CHOICE, YES_NO):
            value = declaration.choices[round(fact.value)]
        else:
            value = show(fact.value, declaration.dimension, system)
        told.append(PartField(path=f"{part}.{key}", means=declaration.means, value=value, how=fact.how.value))
    return PartTold(part=part, explanation=explain(FIGURE_OF[part]), fields=tuple(told))
