"""What the worst day would look like after each remedy: the same possible vehicles through every plan."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from toptank.catalogue.causes.all_causes import with_causes, without
from toptank.catalogue.remedies.all_remedies import REMEDIES
from toptank.catalogue.remedies.plan import Plan
from toptank.catalogue.remedies.remedy import Remedy
from toptank.knowledge.forecast import Band, band_of
from toptank.knowledge.model_discrepancy import missed_in, off_by
from toptank.knowledge.stop_limit import holds, limit_in, stays_off_the_boil
from toptank.system.condition import Passage
from toptank.system.condition_batch import Condition, go_through, go_through_ensembles
from toptank.system.condition_margins import limiting_ambients
from toptank.system.numerics.jax_library import jax
from toptank.system.vehicle import Vehicle
from toptank.units.cancellation import CancelCheck, never_cancelled

WORTH_MORE = 0.03
"""Chance by which a dearer plan must hold better to be told [1]: less is no reason to pay more; judgement."""

FOR_AMBIENT = 512
"""Draws with which the limiting ambient of a plan is solved."""

Floats = NDArray[np.float64]
Cost = Callable[[Sequence[Remedy]], float]


@dataclass(frozen=True, slots=True, kw_only=True)
class WorstDayDuty:
    """One duty of the worst day: the peaks of coolant and gauge in it [K], chances to stay under limit and boiling [1].

    limit : that holds in it [K]: at a short stop it is higher than on the road
    boils_after : time after its beginning at which those that boil do [s]; None where few do, or it is steady
    """

    duty: str
    coolant: Band
    gauge: Band
    limit: float
    under_limit: float
    under_boiling: float
    boils_after: Band | None = None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class WorstDayForecast:
    """The worst day after one plan.

    Parameters
    ----------
    remedies : what is done, what it forces included; none is doing nothing
    duties : every duty
    holds : chance that all duties stay under limit and boiling [1]
    held : on which draws they do
    limiting_ambient : ambient at which the hardest duty reaches the limit [K], or None where it was not solved
    hardest : name of that duty
    cost, minutes : in the shop's money, working time [min]
    """

    remedies: tuple[Remedy, ...]
    duties: tuple[WorstDayDuty, ...]
    holds: float
    held: NDArray[np.bool_]
    hardest: str
    limiting_ambient: Band | None
    cost: float
    minutes: float

    @property
    def ids(self) -> Plan:
        """The remedies by their ids."""
        return tuple(remedy.id for remedy in self.remedies)

    @property
    def concession(self) -> bool:
        """Whether the customer goes without something."""
        return any(remedy.concession for remedy in self.remedies)


class WorstDayCase(NamedTuple):
    """Possible vehicles as they stand, the same ones when sound, what is wrong, and the conditions of the worst day.

    severity : a row a vehicle and a column a cause; one that is not there has severity 0
    days : the conditions with what comes before them, by name
    limit : coolant stays under on the road [K]
    limits : and in a condition by its name [K]; what its days ask for where it is not named
    asked : the names of those that count; all of them where it is empty
    boils_within : how far under its boiling point the coolant of each is seen to boil [K]; 0: as the stream does
    """

    vehicle: Vehicle
    sound: Vehicle
    severity: Floats
    days: Mapping[str, Condition]
    limit: float
    asked: tuple[str, ...] = ()
    boils_within: Floats | float = 0.0
    limits: Mapping[str, float] = {}

    def limit_at(self, name: str) -> float:
        """What the coolant stays under in a condition [K]."""
        return self.limits[name] if name in self.limits else limit_in(self.days[name], self.limit)

    def names(self) -> tuple[str, ...]:
        """The conditions that count."""
        return self.asked or tuple(self.days)


def fitting(vehicle: Vehicle) -> list[Remedy]:
    """Remedies that can be done to most of the possible vehicles."""
    return [remedy for remedy in REMEDIES if _fits(remedy, vehicle)]


def _fits(remedy: Remedy, vehicle: Vehicle) -> bool:
    return float(np.mean(np.asarray(remedy.fits(vehicle), float))) > 0.5


def forced(plan: Sequence[Remedy], vehicle: Vehicle) -> tuple[Remedy, ...]:
    """A plan with the remedies that it forces; of one group the chosen one stays, unless another includes it.

    What cannot be done to most of the possible vehicles is not forced: a manual gearbox needs no cooler.
    """
    named = [one for remedy in plan for id_ in remedy.forces for one in REMEDIES if one.id == id_]
    wanted = [*plan, *(one for one in named if _fits(one, vehicle))]
    included = {id_ for remedy in wanted for id_ in remedy.includes}
    done: dict[str, Remedy] = {}
    for remedy in wanted:
        if remedy.id not in included:
            done.setdefault(remedy.group, remedy)
    return tuple(done.values())


def repaired(subjects: WorstDayCase, plan: Sequence[Remedy]) -> Vehicle:
    """The vehicles after a plan: worked out anew without the causes that it cures, then changed by what it brings."""
    done = forced(plan, subjects.vehicle)
    cured = cured_by(done)
    vehicle = with_causes(subjects.sound, without(subjects.severity, cured)) if cured else subjects.vehicle
    for remedy in done:
        vehicle = remedy.effect(vehicle, subjects.sound)
    return vehicle


def cured_by(remedies: Sequence[Remedy]) -> frozenset[str]:
    """Ids of the causes that some work takes away."""
    return frozenset(cause for remedy in remedies for cause in remedy.cures)


def weighed(
    subjects: WorstDayCase, plans: Sequence[Sequence[Remedy]], cost: Cost, go_on: CancelCheck = never_cancelled
) -> list[WorstDayForecast]:
    """The worst day after each plan, with all draws; `go_on` is called between them, and may stop the work."""
    gone = go_through_ensembles([repaired(subjects, plan) for plan in plans], subjects.days, go_on)
    return [_outlook(subjects, plan, passages, cost) for plan, passages in zip(plans, gone, strict=True)]


def sound_holds(subjects: WorstDayCase) -> float:
    """Chance that the same vehicles hold the worst day with nothing broken [1]."""
    return float(held_by(subjects.sound, subjects).mean())


def held_by(vehicle: Vehicle, subjects: WorstDayCase) -> NDArray[np.bool_]:
    """Which of some vehicles hold every condition of the worst day (draw,)."""
    names, days = subjects.names(), subjects.days
    passages = go_through(vehicle, days, names)
    within = subjects.boils_within
    held = [holds(off_by(passages[name], days[name]), subjects.limit_at(name), within) for name in names]
    return np.asarray(np.all(held, axis=0), bool)


def _outlook(
    subjects: WorstDayCase, plan: Sequence[Remedy], passages: Mapping[str, Passage], cost: Cost
) -> WorstDayForecast:
    names = subjects.names()
    passages = {name: off_by(passages[name], subjects.days[name]) for name in names}
    limits = {name: subjects.limit_at(name) for name in names}
    within = subjects.boils_within
    outlooks = [_duty(name, passages[name], limits[name], within) for name in names]
    held = np.all([holds(passages[name], limits[name], within) for name in names], axis=0)
    worst = min(outlooks, key=lambda one: (one.under_limit, -one.coolant.p50))
    done = forced(plan, subjects.vehicle)
    return WorstDayForecast(
        remedies=done,
        duties=tuple(outlooks),
        holds=float(held.mean()),
        held=held,
        hardest=worst.duty,
        limiting_ambient=None,
        cost=cost(done),
        minutes=sum(remedy.minutes for remedy in done),
    )


def limiting_ambient(subjects: WorstDayCase, outlook: WorstDayForecast) -> Band:
    """Ambient at which the hardest duty of an outlook reaches the limit [K]."""
    few = first_draws(subjects, FOR_AMBIENT)
    vehicle = repaired(few, outlook.remedies)
    hardest = few.days[outlook.hardest]
    limit = few.limit_at(outlook.hardest)
    at_limit = np.asarray(limiting_ambients(vehicle, few.days, outlook.hardest, limit), float)
    return band_of(at_limit - missed_in(hardest, len(at_limit)))


def undominated(outlooks: Sequence[WorstDayForecast], give: float = 0.0) -> tuple[WorstDayForecast, ...]:
    """Doing nothing, then what no other beats in both cost and chance to hold, the cheapest first.

    A plan that asks the customer to go without something beats none that asks nothing: whether that is worth it, the
    customer says. With some `give` in the chance [1], plans that are beaten by less than that stay too.
    """
    kept: list[WorstDayForecast] = []
    asking_nothing = asking = outlooks[0].holds
    for outlook in sorted(outlooks[1:], key=_cheapest_first):
        beaten_by = max(asking, asking_nothing) if outlook.concession else asking_nothing
        if outlook.holds > beaten_by + WORTH_MORE - give:
            kept.append(outlook)
        if outlook.concession:
            asking = max(asking, outlook.holds)
        else:
            asking_nothing = max(asking_nothing, outlook.holds)
    return (outlooks[0], *kept)


def short_of_limit(outlook: WorstDayForecast) -> float:
    """How far beyond its limit the middle vehicle stands at the duty where it stands furthest [K]."""
    return max((duty.coolant.p50 - duty.limit for duty in outlook.duties), default=0.0)


def _cheapest_first(outlook: WorstDayForecast) -> tuple[float, float]:
    return outlook.cost, -outlook.holds


SELDOM = 0.05
"""Share of the vehicles that boil below which it is not said when they do [1]."""


def _duty(name: str, passage: Passage, limit: float, boils_within: Floats | float) -> WorstDayDuty:
    coolant = np.asarray(passage.T_peak, float)
    boils = np.isfinite(np.asarray(passage.boils_after, float))
    return WorstDayDuty(
        duty=name,
        coolant=band_of(coolant),
        gauge=band_of(np.asarray(passage.T_gauge_peak, float)),
        limit=limit,
        under_limit=float(np.mean(coolant < limit)),
        under_boiling=float(np.mean(stays_off_the_boil(passage, boils_within))),
        boils_after=band_of(passage.boils_after[boils]) if float(boils.mean()) >= SELDOM else None,
    )


def hottest(subjects: WorstDayCase, plans: Sequence[Sequence[Remedy]]) -> list[Floats]:
    """The coolant of every draw after each plan, at the duty where it goes furthest beyond its limit [K]."""
    gone = go_through_ensembles([repaired(subjects, plan) for plan in plans], subjects.days)
    return [_hottest(subjects, passages) for passages in gone]


def _hottest(subjects: WorstDayCase, passages: Mapping[str, Passage]) -> Floats:
    names, days = subjects.names(), subjects.days
    off = [(off_by(passages[name], days[name]), subjects.limit_at(name) - subjects.limit) for name in names]
    return np.max([np.asarray(passage.T_peak, float) - more for passage, more in off], axis=0)


def first_draws(subjects: WorstDayCase, n: int) -> WorstDayCase:
    """The first n of the possible vehicles."""
    head = jax.tree.map(_Head(n), subjects._replace(days=dict(subjects.days), limit=0.0, limits={}, asked=()))
    return head._replace(limit=subjects.limit, limits=subjects.limits, asked=subjects.asked)


@dataclass(frozen=True, slots=True)
class _Head:
    n: int

    def __call__(self, leaf: object) -> Floats:
        return np.asarray(leaf, float)[: self.n] if np.ndim(np.asarray(leaf)) else np.asarray(leaf, float)
