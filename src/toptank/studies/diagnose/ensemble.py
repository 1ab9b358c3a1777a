"""Possible vehicles with possible causes, settled at every duty that the evidence or a check asks about."""

from collections.abc import Mapping, Sequence
from functools import partial
from typing import Any, NamedTuple, TypeVar

import numpy as np
from numpy.typing import NDArray
from scipy.special import betaincinv, ndtr

from toptank.catalogue.causes.cause import Cause
from toptank.catalogue.checks.measure import IdleCondition, idle_duty
from toptank.knowledge.conditions import draw_conditions
from toptank.knowledge.draws import draws
from toptank.knowledge.sheet import DutySheet, Sheet
from toptank.studies.diagnose.cause_sets import Flags, Floats
from toptank.studies.diagnose.trade_expectation import Expectation
from toptank.system.balance import Balance
from toptank.system.condition import Passage
from toptank.system.condition_batch import Condition, go_through
from toptank.system.duty import Duty
from toptank.system.numerics.jax_library import jax
from toptank.system.population import solve_loose
from toptank.system.vehicle import Vehicle

Of = TypeVar("Of", bound=NamedTuple)

LEAST_SEVERITY = 0.12
"""Below this a cause is ordinary wear, which the sheet's spreads hold already [1]."""


class Ensemble(NamedTuple):
    """n possible vehicles: without and with their causes, the conditions they meet, and how they come through them.

    present and severity have a row a vehicle and a column a cause; a cause that is absent has severity 0. `passages`
    are those of the conditions that were asked about so far.
    by_trade : whether a vehicle is read as the trade expects, and not as the model has it
    off_the_trade : how far it is from what the trade expects, a standard normal number
    expected : what the trade expects at duties
    boils_within : how far under its boiling point the coolant of each is seen to boil [K]; 0: as the stream does
    """

    sound: Vehicle
    vehicle: Vehicle
    present: Flags
    severity: Floats
    conditions: Mapping[str, Condition]
    passages: Mapping[str, Passage]
    idle_balances: Mapping[IdleCondition, Balance]
    outside: Duty
    by_trade: Flags
    off_the_trade: Floats
    expected: Mapping[str, Expectation]
    boils_within: Floats

    @property
    def n(self) -> int:
        """Number of vehicles."""
        return len(self.present)


def severities(causes: Sequence[Cause], present: Flags, rng: np.random.Generator) -> Floats:
    """Draw a severity for every cause that is present; 0 for the others."""
    return severity_from_score(causes, present, rng.standard_normal(present.shape))


def severity_from_score(causes: Sequence[Cause], present: Flags, scores: Floats) -> Floats:
    """Severity of every cause that is present at its score, a standard normal number; 0 for the others."""
    severity = np.zeros(present.shape)
    for column, cause in enumerate(causes):
        rows = np.flatnonzero(present[:, column])
        place = np.asarray(ndtr(scores[rows, column]), float)
        grade = np.asarray(betaincinv(*cause.severity, place), float)
        severity[rows, column] = LEAST_SEVERITY + (1.0 - LEAST_SEVERITY) * grade
    return severity


def apply_causes(
    vehicle: Vehicle, causes: Sequence[Cause], severity: Floats, usual_odds: Floats
) -> tuple[Vehicle, Floats]:
    """Apply every cause at its severity, and say how much likelier these causes are on this vehicle than on the usual.

    Parameters
    ----------
    vehicle : n sound vehicles
    causes, severity : the causes, and a column of severities for each; 0 where it is absent
    usual_odds : mean odds of each cause over the vehicles of the sheet [1]
    """
    factor = np.ones(len(severity))
    for column, cause in enumerate(causes):
        grade = severity[:, column]
        if grade.any():
            factor *= np.where(grade > 0.0, np.asarray(cause.prior_factor(vehicle), float) / usual_odds[column], 1.0)
            vehicle = cause.effect(vehicle, grade)
    return vehicle, factor


def unsettled(
    sound: Vehicle, vehicle: Vehicle, severity: Floats, conditions: Mapping[str, Condition], outside: str | None = None
) -> Ensemble:
    """Vehicles with their causes, before they have met any of their conditions; `outside` names the day of checks."""
    day = conditions[outside or next(iter(conditions))].duty
    n = len(severity)
    model = (np.zeros(n, bool), np.zeros(n))
    return Ensemble(sound, vehicle, severity > 0.0, severity, conditions, {}, {}, day, *model, {}, np.zeros(n))


def settled(possible: Ensemble, names: Sequence[str], idle_conditions: Sequence[IdleCondition]) -> Ensemble:
    """Take vehicles through further conditions by name, and settle them at standing ones on their day."""
    passages = go_through(possible.vehicle, possible.conditions, names, known=possible.passages)
    balances = solve_loose(possible.vehicle, [idle_duty(place, possible.outside) for place in idle_conditions])
    standing = dict(zip(idle_conditions, balances, strict=True))
    return possible._replace(passages=passages, idle_balances={**possible.idle_balances, **standing})


def drawn_vehicles(sheet: Sheet, n: int, seed: int) -> Vehicle:
    """Draw n vehicles of a sheet."""
    return draws(sheet, n, seed)


def drawn_conditions(vehicle: Sheet, duties: Sequence[DutySheet], n: int, seed: int) -> dict[str, Condition]:
    """Draw n days of each duty, and of the runs before them; the duties come first."""
    drawn = draw_conditions(vehicle, duties, n, seed)
    names = [sheet.name for sheet in duties]
    return {name: drawn[name] for name in [*names, *(name for name in drawn if name not in names)]}


def taken(possible: Of, index: NDArray[np.intp]) -> Of:
    """The vehicles at an index; of what they came through, theirs."""
    return jax.tree.map(partial(_taken, index), possible)


def _taken(index: NDArray[np.intp], array: Any) -> np.ndarray:
    return np.asarray(array)[index]
