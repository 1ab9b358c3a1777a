"""The possible vehicles of a job as it stands, kept between questions: a live answer cannot wait for a diagnosis.

Kept by a checksum of what they depend on, so that a job that was changed never gets the vehicles of its former self.
"""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, field
from functools import partial
from typing import TYPE_CHECKING, Any, Literal

import numpy as np

from toptank.catalogue.causes.all_causes import CAUSES
from toptank.catalogue.remedies.all_remedies import REMEDIES
from toptank.knowledge.conditions import central_conditions
from toptank.knowledge.draws import draws
from toptank.knowledge.forecast import SEED
from toptank.shop.ask.choice.possible_vehicles import possible_vehicles
from toptank.shop.cache.answer_cache import cached_diagnosed
from toptank.shop.cache.kept import KEPT
from toptank.studies.choose.worst_day_forecast import WorstDayCase, repaired
from toptank.system.condition_batch import go_through
from toptank.system.numerics.jax_library import jax

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from toptank.catalogue.remedies.remedy import Remedy
    from toptank.knowledge.forecast import Band
    from toptank.shop.answers.answers import Diagnosed
    from toptank.shop.job.job import Job
    from toptank.system.vehicle import Vehicle

DRAWS = 2048
"""Possible vehicles of a live answer: one batch of the compiled kernel."""

FOR_THE_MIDDLE = 512
"""Vehicles among which the one nearest the middle is looked for."""

DUTIES_FOR_THE_MIDDLE = 6

RestsOn = Literal["diagnosis", "sheet"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class EnsembleNow:
    """Possible vehicles of one job.

    Parameters
    ----------
    vehicles : `DRAWS` draws
    middle : the one of them that stands nearest the middle of all at the job's duties
    rests_on : whether the draws are what a diagnosis left, or the sheet's
    at_duties : the gauge of all of them at a duty that was asked already, by the duty's name and figures
    """

    vehicles: Vehicle
    middle: Vehicle
    rests_on: RestsOn
    at_duties: dict[str, Band] = field(default_factory=dict[str, "Band"])


def checksum(job: Job) -> str:
    """Checksum of all that the possible vehicles of a job depend on."""
    facts = [(path, fact.value, fact.spread) for path, fact in job.sheet.facts.items()]
    days = [(duty.name, duty.after, [(fact.value, fact.spread) for fact in duty.facts.values()]) for duty in job.duties]
    done = [remedy.id for remedy in work_done(job)]
    return hashlib.sha256(repr((facts, days, job.evidence, job.confirmed if done else None, done)).encode()).hexdigest()


def work_done(job: Job) -> tuple[Remedy, ...]:
    """The work that was done: that of the plan that was taken, once the job is closed; what is gone without is none."""
    if job.confirmed is None or job.plan_taken is None:
        return ()
    return tuple(one for one in REMEDIES if one.id in job.plan_taken and not one.concession)


def remember(diagnosed: Diagnosed) -> None:
    """Go on with what a diagnosis left, whenever the same job is asked about."""
    job = diagnosed.job
    possible = possible_vehicles(job, diagnosed.weighed, DRAWS, diagnosed.seed)
    vehicles = _as_repaired(job, possible.vehicle, possible.sound, possible.severity)
    _keep(checksum(job), _settled(job, vehicles, "diagnosis"))


def _as_repaired(job: Job, vehicle: Vehicle, sound: Vehicle, severity: NDArray[np.float64]) -> Vehicle:
    """The vehicles with the work that was done."""
    done = work_done(job)
    case = WorstDayCase(vehicle=vehicle, sound=sound, severity=severity, days={}, limit=job.judged_by)
    return repaired(case, done) if done else vehicle


def ensemble_now(job: Job) -> EnsembleNow:
    """Return the possible vehicles of a job: those of a diagnosis that is at hand, or those of its sheet."""
    mark = checksum(job)
    known = _there(mark)
    if known is None or known.rests_on == "sheet":
        diagnosed = cached_diagnosed(job)
        if diagnosed is not None:
            remember(diagnosed)
            known = _there(mark)
    if known is not None:
        return known
    sound = draws(job.sheet, DRAWS, SEED)
    healthy = np.zeros((DRAWS, len(CAUSES)))
    found = _settled(job, _as_repaired(job, sound, sound, healthy), "sheet")
    _keep(mark, found)
    return found


def _there(mark: str) -> EnsembleNow | None:
    return KEPT.there(f"vehicles {mark}")


def _keep(mark: str, found: EnsembleNow) -> None:
    if found.rests_on == "diagnosis" or _there(mark) is None:
        KEPT.put(f"vehicles {mark}", found)


def _settled(job: Job, vehicles: Vehicle, rests_on: RestsOn) -> EnsembleNow:
    """Look for the vehicle nearest the middle in temperature, heat, coolant and air, at the duties together."""
    few = jax.tree.map(partial(_first, FOR_THE_MIDDLE), vehicles)
    away = np.zeros(FOR_THE_MIDDLE)
    names = [duty.name for duty in job.duties[:DUTIES_FOR_THE_MIDDLE]]
    passages = go_through(few, central_conditions(job.sheet, job.duties), names)
    for balance in (passages[name].end for name in names):
        for values in (balance.T_gauge, balance.core_heat, balance.core_flow, balance.V_fan_zone):
            column = np.asarray(values, float)
            away += np.abs(column - np.median(column)) / max(float(column.std()), 1e-9)
    place = int(away.argmin())
    return EnsembleNow(vehicles=vehicles, middle=jax.tree.map(partial(_at, place), few), rests_on=rests_on)


def _first(n: int, leaf: Any) -> np.ndarray:
    return np.asarray(leaf, float)[:n] if np.ndim(leaf) else np.asarray(leaf, float)


def _at(place: int, leaf: Any) -> np.ndarray:
    return np.asarray(leaf, float)[place] if np.ndim(leaf) else np.asarray(leaf, float)
