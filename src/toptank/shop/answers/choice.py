"""The answers to `choose` and `prices`."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

from pydantic import Field

from toptank.catalogue.checks.check import checks
from toptank.shop.answers.answer import (
    Amount,
    Answer,
    Band,
    Count,
    FitVerdict,
    Headed,
    Percent,
    Remarked,
    Text,
    Texts,
    band,
    degC,
    filled,
    headed,
    pct,
)
from toptank.shop.answers.words import naming
from toptank.shop.ask.choice.plan_fit import plan_fit
from toptank.units.conversion import System
from toptank.units.sentence import Sentence

if TYPE_CHECKING:
    from toptank.catalogue.remedies.remedy import Remedy
    from toptank.shop.answers.answers import Chosen
    from toptank.shop.job.job import Job
    from toptank.shop.job.price_book import PriceBook
    from toptank.studies.choose.decision import Decisive
    from toptank.studies.choose.worst_day_forecast import WorstDayForecast


class WorstDayAnswer(Answer):
    """A duty of the worst day."""

    name: str
    ambient_degC: float


class RemedyAnswer(Answer):
    """A remedy of a plan: what it is, what limits it, which parts (ids) it takes."""

    id: str
    name: Text
    note: Text
    limits: Text
    parts: tuple[str, ...]


class GoesIn(Answer):
    """Whether a plan goes into the bay, as far as that was measured.

    Parameters
    ----------
    fit : clears, tight, rubs or not known
    in_short : for a table
    with_changes : it goes in, with what is done to the bay where it must be: read it with `fit`
    """

    fit: FitVerdict
    with_changes: bool
    in_short: str
    says: Text


class PlanDuty(Answer):
    """A duty of the worst day after a plan: the peaks in it.

    Parameters
    ----------
    limit_degC : that holds in it: at a short stop it is higher than on the road
    boils_after_minutes : time after its beginning at which those that boil do; null where few do, or it is steady
    """

    duty: str
    top_tank_degC: Band
    gauge_degC: Band
    limit_degC: float
    under_limit_pct: Percent
    under_boiling_pct: Percent
    boils_after_minutes: Band | None


class PlanAnswer(Answer):
    """One plan on the worst day.

    Parameters
    ----------
    plan : ids of its remedies; none: nothing is done
    name : in words
    remedies : what they force included; none is doing nothing
    asks_the_customer : what the customer goes without; null if nothing
    goes_in : null where core, tanks and fan stay as they are
    cost : in `currency`
    minutes : working time
    holds_pct : possible vehicles under limit and boiling at every duty
    limiting_ambient_degC : outside, at which its hardest duty reaches the limit; null where it was not solved for
    """

    plan: tuple[str, ...]
    name: Text
    remedies: tuple[RemedyAnswer, ...]
    asks_the_customer: Text | None
    goes_in: GoesIn | None
    cost: Amount
    minutes: Amount
    holds_pct: Percent
    hardest_duty: str
    limiting_ambient_degC: Band | None
    duties: Annotated[tuple[PlanDuty, ...], Field(min_length=1)]


class BranchAnswer(Answer):
    """What is done where one of these things is seen; `plan` is null where none holds."""

    seen: Texts
    chance_pct: Percent
    plan: tuple[str, ...] | None


class CheckFirst(Answer):
    """The check to make first; where the plan depends on it, the plan for each thing that is seen.

    Parameters
    ----------
    check : its id
    name : in words
    minutes : working time
    saves : on average, its own time paid, in `currency`; 0 where the plan does not depend on it
    branches : empty where the plan does not depend on it
    """

    check: str
    name: Text
    how: Text
    hazard: Text
    minutes: Amount
    saves: Amount
    branches: tuple[BranchAnswer, ...]


class LeftInAnswer(Answer):
    """A likely fault that the recommended plan leaves: its repair, what that costs later in `currency`."""

    repair: str
    needed_pct: Percent
    cost: Amount


class ChoiceAnswer(Headed, Remarked):
    """What each plan does on the worst day.

    Parameters
    ----------
    draws : possible vehicles
    seed : same seed, same answer
    limit_degC : what the customer wants to stay under
    plans : doing nothing first, then by rising cost
    repair_alone : repairs what is most likely broken and upgrades nothing; null where no priced work does
    recommended : a plan; null where none on the list holds
    does_not_go_in : plan that would be recommended if only it went in; null where nothing bars the best one
    check_first : the one that the diagnosis puts first; null where it puts none
    holds_if_nothing_is_asked_pct : the recommended work where the customer goes without nothing; null where it asks
        nothing
    leaves_in : likely faults that the recommended plan leaves
    """

    draws: Count
    seed: Count
    currency: str
    limit_degC: float
    worst_day: tuple[WorstDayAnswer, ...]
    plans: tuple[PlanAnswer, ...]
    repair_alone: PlanAnswer | None
    recommended: tuple[str, ...] | None
    does_not_go_in: tuple[str, ...] | None
    check_first: CheckFirst | None
    holds_if_nothing_is_asked_pct: Percent | None
    leaves_in: tuple[LeftInAnswer, ...]


class PricesAnswer(Answer):
    """A price book; the built-in prices stand in for what it leaves out.

    Parameters
    ----------
    labour_an_hour : of work, in `currency`
    lost_day : a worst day that is not held, in `currency`
    gone_without : the customer goes without the air conditioning on the worst day, in `currency`
    parts : price of each, in `currency`
    own : parts that the shop priced itself; the prices of all others are invented
    own_labour : whether the hour is the shop's own, and not invented
    """

    currency: str
    labour_an_hour: Amount
    lost_day: Amount
    gone_without: Amount
    parts: dict[str, Amount]
    own: tuple[str, ...]
    own_labour: bool


def choice_answer(found: Chosen) -> ChoiceAnswer:
    """Return remedies on the worst day."""
    job, asking_nothing = found.job, found.asking_nothing
    worst_day = ((duty.name, degC(duty.facts["ambient"].value)) for duty in found.worst_day)
    return filled(
        ChoiceAnswer,
        found,
        headed(job)
        | {
            "currency": found.book.currency,
            "limit_degC": degC(job.judged_by),
            "worst_day": tuple(WorstDayAnswer(name=name, ambient_degC=ambient) for name, ambient in worst_day),
            "plans": tuple(_plan(one, job) for one in found.outlooks),
            "repair_alone": None if found.repair_alone is None else _plan(found.repair_alone, job),
            "recommended": None if found.recommended is None else found.recommended.ids,
            "does_not_go_in": None if found.does_not_fit is None else found.does_not_fit.ids,
            "check_first": _check(found.first_check, found.decisive) if found.first_check else None,
            "holds_if_nothing_is_asked_pct": None if asking_nothing is None else pct(asking_nothing.holds),
            "leaves_in": tuple(filled(LeftInAnswer, one, {"cost": round(one.cost, 2)}) for one in found.leaves_in),
            "remarks": (*job.remarks, *found.remarks),
            "assumed_units": job.assumed_units,
        },
    )


def _check(check: str, decides: Decisive | None) -> CheckFirst:
    return CheckFirst(
        check=check,
        name=Sentence(_check_name, (check,)),
        how=Sentence(_check_how, (check,)),
        hazard=Sentence(naming.hazard, (check,)),
        minutes=checks()[check].minutes,
        saves=0.0 if decides is None else round(decides.saves, 2),
        branches=() if decides is None else _branches(decides),
    )


def _branches(one: Decisive) -> tuple[BranchAnswer, ...]:
    return tuple(
        BranchAnswer(
            seen=tuple(Sentence(naming.seen, (one.check, *each, one.dimension)) for each in branch.seen),
            chance_pct=pct(branch.chance),
            plan=None if branch.plan is None else branch.plan.ids,
        )
        for branch in one.branches
    )


def _check_name(check: str, system: System) -> str:
    return naming.check(check, system).name


def _check_how(check: str, system: System) -> str:
    return naming.check(check, system).how


def _remedy(remedy: Remedy) -> RemedyAnswer:
    name, note, limits = (Sentence(_remedy_words, (remedy.id, word)) for word in ("name", "note", "limits"))
    return RemedyAnswer(id=remedy.id, name=name, note=note, limits=limits, parts=tuple(remedy.parts))


def _remedy_words(remedy: str, what: str, system: System) -> str:
    return getattr(naming.remedy(remedy, system), what)


def _plan(one: WorstDayForecast, job: Job) -> PlanAnswer:
    fit = plan_fit(job, one.remedies)
    goes_in = None
    if fit is not None:
        verdict = fit.fit.verdict().value
        goes_in = GoesIn(fit=verdict, with_changes=fit.goes_in, in_short=fit.word(), says=Sentence(fit.says))
    duties = (filled(PlanDuty, duty, {"top_tank_degC": band(duty.coolant, degC)}) for duty in one.duties)
    given = {
        "plan": one.ids,
        "name": Sentence(naming.plan, (one.ids,)),
        "remedies": tuple(map(_remedy, one.remedies)),
        "asks_the_customer": Sentence(naming.concession, (one.ids,)) if one.concession else None,
        "goes_in": goes_in,
        "cost": round(one.cost, 2),
        "hardest_duty": one.hardest,
        "duties": tuple(duties),
    }
    return filled(PlanAnswer, one, given)


def prices_answer(book: PriceBook) -> PricesAnswer:
    """Return a price book."""
    return filled(PricesAnswer, book, {"labour_an_hour": book.labour, "parts": dict(book.parts)})
