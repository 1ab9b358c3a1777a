"""Whether the plan goes in, core and fan together, for the bench: the answer, what rubs or is tight, what to measure.

Where a radiator on offer in the job would be that core, the paper is written for it: its sizes, its price, its misfits.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from toptank.catalogue.remedies.remedy import Remedy
from toptank.knowledge.sheet import Fact, Provenance
from toptank.shop.answers.words import naming
from toptank.shop.answers.words.wording import ASSUMED, sentence
from toptank.shop.ask import fit
from toptank.shop.ask.choice.plan_fit import asks_for_fit, fits_of
from toptank.shop.job.job import Job
from toptank.studies.choose.fit.candidate import REMEDY_MEASURES
from toptank.studies.choose.fit.fit import Fit
from toptank.studies.choose.fit.item import Item, Verdict
from toptank.studies.choose.fit.measures import Offer, measure_of, tape
from toptank.studies.choose.fit.words import FROM_MEMORY, fix_words
from toptank.units.conversion import System

LINES = 2
"""Tight places, and measures, that are told. What rubs is told whole."""

OTHERWISE_DEEP = 0.006
"""How far the depth of the core on offer may lie from the one that was forecast [m]: a quarter inch; judgement."""

IN_ONE_LINE = {
    Verdict.CLEARS: "Fit: everything clears on paper; try it in place before you buy it all the same.",
    Verdict.TIGHT: "Fit: touch and go; measure again before you buy it.",
    Verdict.RUBS: "Fit: won't fit without changes.",
    Verdict.NOT_KNOWN: "Fit: not confirmed yet, some of it was never measured.",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class FitTold:
    """What the paper says of the fit.

    Parameters
    ----------
    lines : the answer; none where the plan brings neither core nor fan
    more : what it rests on: tight places, what else is on offer, whose figures they are
    to_do : what is to be done about it before the part is bought or while it is laid in
    misfit : that it does not go in as it is and where, in one sentence; empty where nothing is known to rub
    size, price : of the radiator on offer that the paper is written for; empty where there is none
    """

    lines: tuple[str, ...] = ()
    more: tuple[str, ...] = ()
    to_do: tuple[str, ...] = ()
    misfit: str = ""
    size: str = ""
    price: str = ""


def fit_lines(job: Job, remedies: Sequence[Remedy], system: System) -> FitTold:
    """Return what is said of the plan's core and fan; of several radiators on offer, of the one that fits best."""
    asking = asks_for_fit(remedies)
    if asking is None:
        return FitTold()
    by_remedy = fit.fit_plan(job, remedies)
    tried = fits_of(job, remedies)
    offer, best = tried[0].offer, tried[0].fit
    if offer is None:
        what = "The core of this plan" if asking.group == "core" else "The fan of this plan"
        return FitTold(
            lines=_answer(by_remedy),
            more=(*_tight(by_remedy, system), *_memory(remedies)),
            to_do=tuple(_to_do(by_remedy, system)),
            misfit=_misfit(by_remedy, what),
        )
    unlike = _unlike_the_forecast(best, by_remedy, system)
    more = [f"Written for the radiator on offer: {offer.name}.", *_tight(best, system)]
    forecast = naming.remedy(asking.id, system).name.removeprefix("install ").removeprefix("fit ")
    ask = () if unlike else (f"Ask for its rows, tubes and fins: the forecast is for “{forecast}”.",)
    more += _memory([remedy for remedy in remedies if remedy is not asking])
    more += [
        f"Also on offer, {one.offer.name}: {IN_ONE_LINE[one.fit.verdict()].removeprefix('Fit: ')}"
        for one in tried[1:]
        if one.offer is not None
    ]
    return FitTold(
        lines=(*_answer(best), *((unlike,) if unlike else ())),
        more=tuple(more),
        to_do=(*_to_do(best, system), *ask),
        misfit=_misfit(best, "The radiator on offer"),
        size=_size(offer, system),
        price=offer.price,
    )


def _answer(answer: Fit) -> tuple[str, ...]:
    """The answer in a line; what rubs is told by the boxes of its step."""
    return () if answer.of(Verdict.RUBS) else (IN_ONE_LINE[answer.verdict()],)


def _tight(answer: Fit, system: System) -> Iterator[str]:
    tight = answer.of(Verdict.TIGHT)[:LINES]
    if tight:
        yield f"Tight: {'; '.join(f'{item.name}, {_by_how_much(item, system)}' for item in tight)}."


def _to_do(answer: Fit, system: System) -> Iterator[str]:
    """Each place that rubs with what is done about it, and what is to be measured."""
    for item in answer.of(Verdict.RUBS):
        verdict, _ = fit.words(item, system)
        repair = sentence(fix_words(item, system)).partition(":")[0].rstrip(".")
        yield ": ".join(filter(None, (sentence(item.name), verdict))) + (f". {repair}." if repair else ".")
    # On paper the name of the field in the job file says nothing: what it means is enough.
    measures = [measure_of(path).means for path in answer.to_measure()]
    if measures:
        left = len(measures) - LINES
        rest = f"; and {left} more, see Fit" if left > 0 else ""
        yield f"Measure first: {'; '.join(measures[:LINES])}{rest}."


def _by_how_much(item: Item, system: System) -> str:
    return fit.words(item, system)[0].removeprefix("tight: ")


def _misfit(answer: Fit, what: str) -> str:
    rubs = [item.name for item in answer.of(Verdict.RUBS)]
    if not rubs:
        return ""
    if not answer.goes_in():
        stuck = "; ".join(item.name for item in answer.wants_another_part())
        return f"{what} cannot be made to fit: {stuck}. Take another, or move what carries it."
    return f"{what} won't fit without changes, which are not in the price."


def _memory(remedies: Sequence[Remedy]) -> list[str]:
    """Say where a figure of the fit is nobody's measure."""
    return [FROM_MEMORY] if any(remedy.id in REMEDY_MEASURES for remedy in remedies) else []


def _unlike_the_forecast(answer: Fit, by_remedy: Fit, system: System) -> str:
    """What is on offer may cool otherwise than the core that was forecast: say how, as far as it is known."""
    offered, forecast = answer.candidate, by_remedy.candidate
    apart: list[str] = []
    if not offered.depth.missing and abs(offered.depth.value - forecast.depth.value) > OTHERWISE_DEEP:
        apart.append(f"it is {tape(offered.depth.value, system)} deep, {tape(forecast.depth.value, system)} was")
    if None not in (offered.passes, forecast.passes) and offered.passes != forecast.passes:
        apart.append(f"{offered.passes:.0f} passes, {forecast.passes:.0f} was")
    if not apart:
        return ""
    return f"Not the core that was forecast: {', '.join(apart)}. The bands below do not hold for it."


def _size(offer: Offer, system: System) -> str:
    """Sizes by which it is ordered, as far as they are known."""
    facts = offer.facts

    def length(key: str) -> str:
        return f"{tape(facts[key].value, system)}{_assumed(facts[key])}" if key in facts else ""

    across = [length(key) for key in ("overall_width", "overall_height")]
    words = [
        f"{length('core_depth')} deep" if "core_depth" in facts else "",
        f"{' × '.join(across)} over all" if all(across) else "",
    ]
    return f"{offer.name}: {', '.join(filter(None, words))}" if any(words) else offer.name


def _assumed(fact: Fact) -> str:
    return f" {ASSUMED}" if fact.how == Provenance.ASSUMED else ""
