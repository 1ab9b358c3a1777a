"""How many minutes of checks it takes to come to the true cause: the tool's choice against the order most shops use.

The outcomes are simulated on vehicles that have the confirmed cause and agree with what was told, so this compares two
ways of choosing under one model; it does not say how long a real search takes.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from toptank.catalogue.causes.all_causes import CAUSE_IDS
from toptank.catalogue.checks.check import Check
from toptank.studies.diagnose.asking.next_check import (
    OVERHEAD,
    WORTH_DOING,
    cause_indicators,
    ease,
    forerunners,
    information_of,
    minutes_with,
    open_checks,
    repair_indicators,
    settle_at_idle_conditions,
)
from toptank.studies.diagnose.cause_sets import Floats, drawn
from toptank.studies.diagnose.ensemble import taken
from toptank.studies.diagnose.posterior import PosteriorSample, Question

USUAL_ORDER = (
    "level_cold",
    "coolant_loss",
    "turn_pulley_by_hand",
    "inspect_cap",
    "feel_hoses",
    "thermostat_in_pan",
    "electric_fan_hot",
    "spin_fan",
    "between_condenser_and_core",
    "lamp_through_core",
    "pressure_test",
    "fill_core_and_let_go",
    "pump_vanes",
    "combustion_leak_test",
    "second_thermometer",
    "timing_light",
    "core_opened",
    "exhaust_back_pressure",
    "block_drain",
)
"""The order in which most shops check, cheap and usual suspects first: common practice, no source.

It ends before the head comes off: that takes a day and is a repair."""

SURE = 0.5
"""Probability of the repair at which the search ends, if it is also the first [1]."""

SAMPLE, TRUTHS = 2048, 4
MOST_CHECKS = 25


@dataclass(frozen=True, slots=True, kw_only=True)
class PolicyCost:
    """Minutes of checks until the right repair stood first and likely, by the tool's choice and by the usual order.

    Where it never did, the minutes of all checks made; in what share of the searches it did [1].
    """

    chosen: float
    usual: float
    chosen_finds: float
    usual_finds: float


OpenChecks = list[tuple[Check, Floats]]
Chooser = Callable[[OpenChecks, Floats, Floats], int | None]


def policy_cost(question: Question, weighed: PosteriorSample, confirmed: Sequence[str], seed: int) -> PolicyCost | None:
    """Mean minutes over a few vehicles that have a confirmed cause; None where no draw has one."""
    places = [CAUSE_IDS.index(cause) for cause in confirmed]
    has = cause_indicators(weighed.possible)[:, places].max(axis=1) * weighed.weight
    if has.sum() <= 0.0:
        return None
    rng = np.random.default_rng((seed, 11))
    index = np.concatenate([drawn(weighed.weight, SAMPLE, rng), drawn(has / has.sum(), TRUTHS, rng)])
    possible = settle_at_idle_conditions(taken(weighed.possible, index))
    with_none = cause_indicators(possible)
    needed = repair_indicators(with_none)
    done = {finding.check for finding in question.evidence.findings}
    asked = [(check, chances) for check, chances, _ in open_checks(question.sheet, possible, done)]
    wanted = repair_indicators(np.eye(len(CAUSE_IDS))[places]).max(axis=0) > 0.0
    minutes, finds = np.zeros(2), np.zeros(2)
    for truth in range(SAMPLE, SAMPLE + TRUTHS):
        outcomes = {check.id: _happens(chances[truth], rng) for check, chances in asked}
        for way, choose in enumerate((most_telling, _next_usual)):
            taken_so_long, found = _search(asked, needed[:SAMPLE], outcomes, wanted, choose)
            minutes[way] += taken_so_long / TRUTHS
            finds[way] += found / TRUTHS
    return PolicyCost(
        chosen=float(minutes[0]), usual=float(minutes[1]), chosen_finds=float(finds[0]), usual_finds=float(finds[1])
    )


def mean_of(walks: Sequence[PolicyCost]) -> PolicyCost | None:
    """The mean of several searches."""
    if not walks:
        return None
    n = len(walks)
    return PolicyCost(
        chosen=sum(walk.chosen for walk in walks) / n,
        usual=sum(walk.usual for walk in walks) / n,
        chosen_finds=sum(walk.chosen_finds for walk in walks) / n,
        usual_finds=sum(walk.usual_finds for walk in walks) / n,
    )


def _happens(chances: Floats, rng: np.random.Generator) -> int:
    """Draw one outcome."""
    reached = np.cumsum(chances)
    place = int(np.sum(reached <= rng.random() * float(reached[-1])))
    return min(place, len(chances) - 1)


def _search(
    asked: OpenChecks, needed: Floats, outcomes: dict[str, int], wanted: Floats, choose: Chooser
) -> tuple[float, bool]:
    """Minutes until a wanted repair is the first and likely, or the checks are used up; whether it came to that."""
    weight = np.full(len(needed), 1.0 / len(needed))
    left, minutes = list(asked), 0.0
    for _ in range(MOST_CHECKS):
        chance = weight @ needed
        if wanted[int(np.argmax(chance))] and chance.max() >= SURE:
            return minutes, True
        place = choose(left, needed, weight)
        if place is None:
            break
        check, chances = left.pop(place)
        minutes += check.minutes + OVERHEAD
        weight = weight * chances[: len(needed), outcomes[check.id]]
        weight = weight / weight.sum()
    return minutes, False


def most_telling(left: OpenChecks, needed: Floats, weight: Floats) -> int | None:
    """Place of what tells most a minute, or of what is made before it."""
    if not left:
        return None
    information = [information_of(chances[: len(needed)], needed, weight) for _, chances in left]
    names = {check.id for check, _ in left}
    told = [ease(one) * bits / minutes_with(one, names) for (one, _), bits in zip(left, information, strict=True)]
    best = int(np.argmax(told))
    places = {check.id: place for place, (check, _) in enumerate(left)}
    before = (places[name] for name in forerunners(left[best][0]) if name in places)
    return next((place for place in before if information[place] >= WORTH_DOING), best)


def _next_usual(left: OpenChecks, _needed: Floats, _weight: Floats) -> int | None:
    names = [check.id for check, _ in left]
    return next((names.index(name) for name in USUAL_ORDER if name in names), None)
