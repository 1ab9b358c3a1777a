"""Which check to make next: how much each would tell about what to repair, for every minute that it takes."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from toptank.catalogue.causes.all_causes import CAUSE_IDS, CAUSES
from toptank.catalogue.checks.check import Check, checks
from toptank.catalogue.checks.measure import IdleCondition
from toptank.catalogue.repairs import REPAIRS
from toptank.studies.diagnose.asking.open_checks import FACT, open_checks
from toptank.studies.diagnose.cause_sets import Floats
from toptank.studies.diagnose.ensemble import Ensemble, settled
from toptank.studies.diagnose.evidence import Evidence
from toptank.studies.diagnose.likelihood import outcome_chances
from toptank.studies.diagnose.posterior import PosteriorSample, Question, resampled
from toptank.units.dimension import Dimension

SAMPLE = 2048
OVERHEAD = 1.0
"""Minutes that go with every check, however short [min]."""

EASY = 1.25
"""What a check without tools or hazard may be worse by and still come first [1]."""

SELDOM = 0.03
"""Outcomes rarer than this decide nothing [1]."""

STILL_SURE = 0.75
"""Probability at which a repair stays right even if another is surer still [1]."""

WORTH_DOING = 0.01
"""Least information of a check that is worth naming [bit]."""

MUST_DO = ("level_cold", "second_thermometer")
"""What is looked at before money is spent, where it could still say something: is there coolant, is it truly hot;
common practice, no source."""

COSTLY = ("on_the_road", "taken_apart")
"""Groups of checks before which that comes: they cost money or an hour."""

AT_THE_NECK = (
    "cap_tester", "inspect_cap", "look_in_neck", "look_of_coolant", "refractometer", "flow_in_neck", "pressure_test",
    "combustion_leak_test", "bubbles_belt_off", "fill_core_and_let_go",
)  # fmt: skip
"""Checks for which the cap comes off: whoever takes it off sees the level; common practice, no source."""

FORERUNNERS = {"paper_test": ("electric_fan_hot",)} | dict.fromkeys(AT_THE_NECK, ("level_cold",))
"""What is looked at before a check, where it could still say something: nobody holds paper to an electric fan that he
has not seen run."""

CONFIRMED_FROM, CERTAIN = 0.7, 0.97
"""Probability of a repair from which it is confirmed before its part is bought, and from which it needs it no more if a
check has shown it [1]; judgement."""

SHOWS = 0.5
"""How often a check must show a cause for what it showed to count as seen [1]; judgement."""

TO_CONFIRM = 10.0
"""Minutes that go with a confirming check: it is made once, and a glance that tells little confirms nothing [min];
judgement."""

READ_WITH = (
    ("second_thermometer", "repair_gauge"),
    ("timing_light", "set_timing"),
    ("refractometer", "change_coolant"),
    ("cap_tester", "replace_cap"),
)
"""Checks whose figure shows the fault that a repair puts right."""

TYPICAL_SEVERITY = 0.7
"""Severity at which a check is asked how well it confirms [1]."""

TOLD = 8
IN_FULL = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """If you see this (id; empty for a figure): its chance [1], causes that it leaves [1], what to repair first."""

    seen: str
    low: float | None
    high: float | None
    chance: float
    causes: tuple[tuple[str, float], ...]
    repair: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Suggestion:
    """A check worth making: what it tells [bit], the minutes it takes [min], what each outcome would mean.

    `field` is set where it measures a fact of the sheet that is only assumed, `dimension` where a figure is read.
    """

    check: str
    field: str
    minutes: float
    information: float
    dimension: Dimension | None
    outcomes: tuple[Outcome, ...]


def repairs_of(with_none: Floats, weight: Floats) -> dict[str, float]:
    """Probability that each repair is needed, the likeliest first; draws without a cause need none."""
    needed = weight @ repair_indicators(with_none)
    order = np.argsort(-needed, kind="stable")
    return {REPAIRS[place]: float(needed[place]) for place in order if needed[place] > 0.0}


def first_repair(repairs: Mapping[str, float]) -> str:
    """The repair that is needed most probably."""
    return next(iter(repairs))


def suggest(question: Question, weighed: PosteriorSample, seed: int) -> tuple[tuple[Suggestion, ...], bool]:
    """Return the checks worth making, the best first, and whether the first repair no longer depends on any of them.

    It does as long as nobody has seen the fault where a check could show it: nobody lifts a head for words alone.
    """
    possible = settle_at_idle_conditions(resampled(weighed, SAMPLE, seed))
    with_none = cause_indicators(possible)
    needed = repair_indicators(with_none)
    even = np.full(possible.n, 1.0 / possible.n)
    done = {finding.check for finding in question.evidence.findings}
    rated: list[_Rated] = []
    repairs = repairs_of(with_none, even)
    first = first_repair(repairs)
    needs_first = needed[:, [REPAIRS.index(first)]]
    left = tuple(open_checks(question.sheet, possible, done))
    for check, chances, edges in left:
        information = information_of(chances, needed, even)
        outcomes = _outcomes(check, chances, edges, with_none, needed)
        rated.append(
            _Rated(
                told=ease(check) / minutes_with(check, {one.id for one, _, _ in left}) * information,
                confirms=_confirms(check, first, weighed.before),
                suggestion=_suggestion(check, information, outcomes),
                decides=_decides(chances, needs_first[:, 0], outcomes, first),
                costly=check.group in COSTLY,
                after=forerunners(check),
            )
        )
    seen = _was_seen(question.evidence, first)
    unseen = not seen and any(one.confirms > 0.0 and not one.costly for one in rated)
    certain = repairs[first] >= CERTAIN and seen
    confirm = repairs[first] >= CONFIRMED_FROM and not certain
    told = _in_order(rated, confirm=confirm)
    worth = [one for one in rated if one.suggestion.information >= WORTH_DOING]
    return tuple(one.suggestion for one in told[:TOLD]), not unseen and not any(one.decides for one in worth)


def stands_first(checks: Sequence[Suggestion], *, settled: bool) -> Suggestion | None:
    """Return the check that stands first, on every page and paper: the best one, while the first repair depends on it.

    What a plan costs or saves asks for no other: the page of causes would say one thing and the order another.
    """
    return checks[0] if checks and not settled else None


def _was_seen(evidence: Evidence, repair: str) -> bool:
    """Whether a check has shown a cause that a repair puts right."""
    shown = {cause.id for cause in CAUSES if cause.repair == repair}
    return any(
        (check := checks().get(finding.check)) is not None
        and finding.outcome in check.abnormal
        and any(
            finding.decisive or check.shown_by[cause][check.abnormal.index(str(finding.outcome))] >= SHOWS
            for cause in shown & set(check.shown_by)
        )
        for finding in evidence.findings
    )


def _confirms(check: Check, first: str, before: Floats) -> float:
    """What a check tells a minute of a repair that is as likely as not [bit/min]; 0 where it does not see its causes.

    The rivals are all other causes as they come in, not those that the evidence has left: what confirms should tell
    the fault from what it could be mistaken for. An instrument that reads the gauge's own fault does so too.
    """
    if check.dimension is not None:
        return 1.0 / (check.minutes + TO_CONFIRM) if (check.id, first) in READ_WITH else 0.0
    its_own = np.array([cause.repair == first for cause in CAUSES])
    shows = [cause.id in check.shown_by for cause in CAUSES]
    share = before[:-1] * its_own
    if not (share * shows).any():
        return 0.0
    chances = outcome_chances(check, CAUSES, TYPICAL_SEVERITY * np.eye(len(CAUSES)))
    rivals = before[:-1] * ~its_own
    given, otherwise = share @ chances / share.sum(), rivals @ chances / rivals.sum()
    both = 0.5 * (given + otherwise)
    bits = 0.5 * (_divergence(given, both) + _divergence(otherwise, both))
    return float(bits) / (check.minutes + TO_CONFIRM)


class _Rated(NamedTuple):
    """A check: what it tells of all repairs, and of the first one [bit/min]; if it decides, if it costs, after what."""

    told: float
    confirms: float
    suggestion: Suggestion
    decides: bool
    costly: bool
    after: tuple[str, ...]


def forerunners(check: Check) -> tuple[str, ...]:
    """Checks (id) that are made before a check, where they could still say something."""
    return MUST_DO if check.group in COSTLY else FORERUNNERS.get(check.id, ())


def minutes_with(check: Check, left: Collection[str]) -> float:
    """Minutes of a check with all that goes with it: before paper is held to it the electric fan has to run [min]."""
    before = (name for name in FORERUNNERS.get(check.id, ()) if name in left and name not in MUST_DO)
    return check.minutes + OVERHEAD + sum(checks()[name].minutes for name in before)


def _in_order(rated: Sequence[_Rated], *, confirm: bool) -> list[_Rated]:
    """Checks, the best first: what confirms a repair that is nearly sure, what must be done before a costly one."""
    order = sorted(
        (one for one in rated if one.suggestion.information >= WORTH_DOING), key=_by_what_it_tells, reverse=True
    )
    cheap = [one for one in rated if not one.costly and one.confirms > 0.0]
    if confirm and cheap:
        best = max(cheap, key=_by_what_it_confirms)
        # A fault that is nearly sure is looked at itself: the level would say no more of it.
        first = [one for one in cheap if one.suggestion.check in set(best.after) - set(MUST_DO)]
        return [*first, best, *(one for one in _preceded(order) if one not in (*first, best))]
    return _preceded(order)


def _preceded(order: Sequence[_Rated]) -> list[_Rated]:
    """The same order, each check after those that are made before it."""
    placed: list[_Rated] = []
    by_name = {one.suggestion.check: one for one in order}
    for one in order:
        before = (by_name[name] for name in one.after if name in by_name)
        placed += [each for each in (*before, one) if not any(each is other for other in placed)]
    return placed


def _by_what_it_tells(one: _Rated) -> float:
    return one.told


def _by_what_it_confirms(one: _Rated) -> float:
    return one.confirms


def ease(check: Check) -> float:
    """What a check counts for that needs no tools and holds no hazard, against others [1]."""
    return EASY if check.bare_hands and not check.hazards else 1.0


def settle_at_idle_conditions(possible: Ensemble) -> Ensemble:
    """The same vehicles, settled at the standing duties at which instruments are read."""
    return settled(possible, (), tuple(IdleCondition))


def cause_indicators(possible: Ensemble) -> Floats:
    """Which causes every vehicle has, with a last column for none at all [1]."""
    return np.concatenate([possible.present, ~possible.present.any(axis=1, keepdims=True)], axis=1).astype(float)


def _decides(chances: Floats, needs_first: Floats, outcomes: tuple[Outcome, ...], first: str) -> bool:
    """Whether some outcome that is not rare puts another repair first and leaves this one in doubt."""
    left = needs_first @ chances / chances.sum(axis=0).clip(min=1e-12)
    often = chances.mean(axis=0) >= SELDOM
    others = np.array([one.repair != first for one in outcomes])
    return bool(np.any(often & others & (left < STILL_SURE)))


def _suggestion(check: Check, information: float, outcomes: tuple[Outcome, ...]) -> Suggestion:
    return Suggestion(
        check=check.id,
        field=check.field if check.group == FACT else "",
        minutes=check.minutes,
        information=information,
        dimension=check.dimension,
        outcomes=outcomes,
    )


def information_of(chances: Floats, needed: Floats, weight: Floats) -> float:
    """What an outcome tells of every repair, added up [bit].

    Parameters
    ----------
    chances : chance of every outcome, a row a vehicle [1]
    needed : which repairs every vehicle needs [1]
    weight : of every vehicle, summing to 1 [1]
    """
    overall = weight @ chances
    share = weight @ needed
    useful = (share > 0.005) & (share < 0.995)
    inside = needed[:, useful] * weight[:, None]
    outside = (1.0 - needed[:, useful]) * weight[:, None]
    given = inside.T @ chances / inside.sum(axis=0)[:, None]
    otherwise = outside.T @ chances / outside.sum(axis=0)[:, None]
    bits = share[useful] * _divergence(given, overall) + (1.0 - share[useful]) * _divergence(otherwise, overall)
    return float(bits.sum())


def _divergence(given: Floats, overall: Floats) -> Floats:
    """How far chances are from the overall ones, a row each [bit]."""
    ratio = np.where(given > 0.0, given / np.maximum(overall, 1e-12), 1.0)
    return np.sum(given * np.log2(ratio), axis=-1)


def _outcomes(
    check: Check, chances: Floats, edges: Floats | None, with_none: Floats, needed: Floats
) -> tuple[Outcome, ...]:
    outcomes: list[Outcome] = []
    for place in range(chances.shape[1]):
        weight = chances[:, place]
        total = float(weight.sum())
        total = max(total, 1e-12)
        causes = weight @ with_none / total
        order = np.argsort(-causes, kind="stable")[:IN_FULL]
        outcomes.append(
            Outcome(
                seen="" if edges is not None else check.outcomes[place],
                low=None if edges is None or place == 0 else float(edges[place - 1]),
                high=None if edges is None or place == len(edges) else float(edges[place]),
                chance=total / len(weight),
                causes=tuple((CAUSE_IDS[int(cause)], float(causes[cause])) for cause in order),
                repair=REPAIRS[int(np.argmax(weight @ needed))],
            )
        )
    return tuple(outcomes)


def repair_indicators(with_none: Floats) -> Floats:
    """Which repairs every draw needs, a column a repair [1]."""
    wanted = np.zeros((len(CAUSES) + 1, len(REPAIRS)))
    for row, cause in enumerate(CAUSES):
        wanted[row, REPAIRS.index(cause.repair)] = 1.0
    wanted[-1, -1] = 1.0
    return np.minimum(with_none @ wanted, 1.0)
