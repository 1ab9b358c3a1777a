"""The readings to expect after the work, at the job's own duties and at those of the worst day.

The same possible vehicles as in the choice, before and after the plan, and what in it rests on assumptions.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from toptank.knowledge.conditions import draw_conditions
from toptank.knowledge.model_discrepancy import off_by
from toptank.knowledge.sensitivity import shares_of_variance
from toptank.knowledge.sheet import TIMING_KEYS, Provenance
from toptank.knowledge.stop_limit import limit_in
from toptank.shop.ask.choice.possible_vehicles import possible_vehicles
from toptank.shop.ask.choice.told_days import as_told
from toptank.studies.choose.worst_day_forecast import WorstDayCase, repaired
from toptank.system.condition_batch import go_through

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from toptank.knowledge.sheet import DutySheet
    from toptank.shop.answers.answers import Chosen
    from toptank.studies.choose.worst_day_forecast import WorstDayForecast
    from toptank.system.condition import Passage
    from toptank.system.condition_batch import Condition
    from toptank.system.vehicle import Vehicle


class Ends(NamedTuple):
    """10, 50 and 90 % points [K]."""

    p10: float
    p50: float
    p90: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Expected:
    """One duty: gauge and boiling point before and after the work [K]; of the worst day, the highest gauge in it.

    Parameters
    ----------
    duty : its sheet
    worst : it belongs to the worst day
    before, after : the gauge
    boils_before, boils_after : where the coolant boils
    limit : that holds in it [K]: at a short stop it is higher than on the road
    under_limit : chance that the coolant stays under it after the work [1]
    """

    duty: DutySheet
    worst: bool
    before: Ends
    after: Ends
    boils_before: Ends
    boils_after: Ends
    limit: float
    under_limit: float


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckDrive:
    """All duties, the hardest of the worst day, and what is assumed and widens its band: path, share of variance."""

    duties: tuple[Expected, ...]
    hardest: Expected
    widest: tuple[tuple[str, float], ...]


def cuts_cooling(plan: WorstDayForecast) -> bool:
    """Whether the plan is reckoned with the air conditioning off: then it must be off on the check drive."""
    return any(remedy.group == "load" for remedy in plan.remedies)


def expected(chosen: Chosen, plan: WorstDayForecast) -> CheckDrive:
    """Settle the possible vehicles of a choice before and after a plan; same draws, same seed as the choice itself.

    What the model misses is in the bands, as in those of the choice: the same drive is promised on both.
    """
    job, n, seed = chosen.job, chosen.draws, chosen.seed
    possible = possible_vehicles(job, chosen.weighed, n, seed)
    subjects = WorstDayCase(
        vehicle=possible.vehicle, sound=possible.sound, severity=possible.severity, days={}, limit=job.judged_by
    )
    after = repaired(subjects, plan.remedies)
    sheets = _asked(job.duties, chosen.worst_day)
    drawn = draw_conditions(job.sheet, [sheet for sheet, _ in sheets], n, seed)
    days = as_told(job, possible, drawn)
    before_all, after_all = go_through(possible.vehicle, days), go_through(after, days)
    before_off, after_off = (
        {name: off_by(passage, days[name]) for name, passage in gone.items()} for gone in (before_all, after_all)
    )
    duties = tuple(
        _expected(
            sheet, worst, before_off[sheet.name], after_off[sheet.name], limit_in(drawn[sheet.name], job.judged_by)
        )
        for sheet, worst in sheets
    )
    place = next(i for i, one in enumerate(duties) if one.worst and one.duty.name == plan.hardest)
    hardest = duties[place].duty
    widest = _widest(chosen, after, days[hardest.name], after_all[hardest.name], hardest)
    return CheckDrive(duties=duties, hardest=duties[place], widest=widest)


def _asked(own: Sequence[DutySheet], worst: Sequence[DutySheet]) -> list[tuple[DutySheet, bool]]:
    """The job's own duties, then those of the worst day; what is the same in both is asked once."""
    known = {duty.name: duty for duty in worst}
    only_own = [duty for duty in own if duty != known.get(duty.name)]
    return [*((duty, False) for duty in only_own), *((duty, True) for duty in worst)]


def _expected(sheet: DutySheet, worst: bool, before: Passage, after: Passage, limit: float) -> Expected:
    import numpy as np

    return Expected(
        duty=sheet,
        worst=worst,
        before=_ends(before.T_gauge_peak if worst else before.end.T_gauge),
        after=_ends(after.T_gauge_peak if worst else after.end.T_gauge),
        boils_before=_ends(before.end.T_boiling),
        boils_after=_ends(after.end.T_boiling),
        limit=limit,
        under_limit=float(np.mean(np.asarray(after.T_peak, float) < limit)),
    )


def _ends(values: object) -> Ends:
    return Ends(*(float(value) for value in np.quantile(np.asarray(values, float), (0.1, 0.5, 0.9))))


def _widest(
    chosen: Chosen, vehicle: Vehicle, day: Condition, passage: Passage, sheet: DutySheet
) -> tuple[tuple[str, float], ...]:
    """The assumptions that widen the band of the gauge after the work most; doubts of the model are not told."""
    import numpy as np

    columns: dict[str, NDArray[np.float64]] = {}
    for field in dataclasses.fields(vehicle):
        part = getattr(vehicle, field.name)
        for one in dataclasses.fields(part):
            columns[f"{field.name}.{one.name}"] = np.asarray(getattr(part, one.name), float)
    for one in dataclasses.fields(day.duty):
        columns[f"duty.{one.name}"] = np.asarray(getattr(day.duty, one.name), float)
    for key, name in TIMING_KEYS.items():
        columns[f"duty.{key}"] = np.asarray(getattr(day.timing, name), float)
    varying = {path: column for path, column in columns.items() if column.ndim and np.ptp(column) > 0.0}
    facts = {**chosen.job.sheet.facts, **{f"duty.{key}": fact for key, fact in sheet.facts.items()}}
    assumed = {
        path
        for path, fact in facts.items()
        if fact.how == Provenance.ASSUMED and fact.spread > 0.0 and not path.startswith("doubts.")
    }
    return shares_of_variance(np.asarray(passage.T_gauge_peak, float), varying, assumed)
