"""Conditions that a complaint names: which of a job's is meant, and what is written where it has none of the kind."""

from __future__ import annotations

from typing import TYPE_CHECKING

from toptank.knowledge.sheet import DECLARED
from toptank.shop.job.intake import PRESETS
from toptank.studies.listen.heat_words import places_in

if TYPE_CHECKING:
    from toptank.knowledge.sheet import DutySheet
    from toptank.shop.job.job import Job

PLACE_WORDS = {
    "climb": "on a climb",
    "standing": "standing",
    "traffic": "in traffic",
    "road": "on the road",
    "towing": "towing",
}
"""Conditions as they are called where the job has none of the kind yet."""

SOMEWHERE = "driving"

COOLED_WORDS = {True: "A/C on", False: "A/C off"}
"""What is added to the name of a condition of which it is said."""

STANDS, CREEPS, CLIMBS = 1.0, 9.0, 0.025
"""Speeds up to which a condition is standing and traffic [m/s], grade from which it is a climb [1]."""

_PRESET = {"climb": "hill", "standing": "idle", "road": "highway", "towing": "towing"}
_CREEPING = {"us": "12 mph", "metric": "20 km/h"}
"""Mean speed of stop and go; common practice, no source."""


def at_place(place: str, job: Job, *, cooled: bool | None = None) -> str | None:
    """Name of the job's condition of a kind, None where it has none or the kind is not said."""
    fit = (duty for duty in job.duties if place and kind_of(duty) == place)
    return next((duty.name for duty in fit if cooled is None or cooled_of(duty) is cooled), None)


def cooled_of(duty: DutySheet) -> bool | None:
    """Whether the air conditioning is on, where somebody said so."""
    told = duty.facts["air_conditioning"]
    return None if told.origin == DECLARED else told.value > 0.5


def kind_of(duty: DutySheet) -> str:
    """Which of the conditions that a complaint names a duty is; empty where nobody has said where it was."""
    if duty.facts["speed"].origin == DECLARED:
        return next(iter(places_in(duty.name)), "")
    speed, grade = duty.facts["speed"].value, duty.facts["grade"].value
    if duty.name == PLACE_WORDS["towing"]:
        return "towing"
    if speed <= STANDS:
        return "standing"
    if grade >= CLIMBS:
        return "climb"
    return "traffic" if speed <= CREEPS else "road"


def added(
    name: str, place: str, job: Job, *, cooled: bool | None = None
) -> tuple[tuple[tuple[str, dict[str, str]], ...], tuple[tuple[str, str, str], ...]]:
    """Rows and values of a condition that the job has not: the usual figures of its kind, marked as assumed."""
    if name in {duty.name for duty in job.duties}:
        return (), ()
    row = {"name": name} | ({} if cooled is None else {"air_conditioning": "yes" if cooled else "no"})
    if place == "standing":
        return (("duty", {**row, "speed": "0 mph"}),), ()
    usual = {"speed": _CREEPING[job.system]} if place == "traffic" else _usual(place, job)
    at = len(job.duties)
    return (("duty", row),), tuple((f"duty.{at}.{key}", typed, "assumed") for key, typed in usual.items())


def _usual(place: str, job: Job) -> dict[str, str]:
    """Speed, grade and trailer of the preset of a kind; the weather is left to what was told."""
    preset = next((one for one in PRESETS if one.name == _PRESET.get(place)), None)
    return {key: typed for key, typed in preset.figures[job.system].items() if key != "ambient"} if preset else {}
