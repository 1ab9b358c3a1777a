"""Does it go in: every question of fit for a remedy, a radiator on offer or what is in now, answered one by one.

Source   clearances: common practice, no source, each beside its figure; tolerances that nobody states: judgement
Range    one core across the axis of one or more fans
Scatter  the spreads of the measures, combined as the root of the sum of their squares
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from toptank.knowledge.sheet import Sheet
from toptank.studies.choose.fit.across import across
from toptank.studies.choose.fit.axis import Stack, along_the_axis
from toptank.studies.choose.fit.candidate import Candidate
from toptank.studies.choose.fit.item import JUDGEMENT, Item, Verdict
from toptank.studies.choose.fit.measures import FitSheet


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """The answer: the candidate as it stands in the bay, and every question with its answer."""

    candidate: Candidate
    stack: Stack
    items: tuple[Item, ...]

    def of(self, verdict: Verdict) -> tuple[Item, ...]:
        """Return the items of one verdict."""
        return tuple(item for item in self.items if item.verdict == verdict)

    def verdict(self) -> Verdict:
        """Return the answer in one word: it rubs if anything does, it clears if everything does."""
        found = {item.verdict for item in self.items}
        worst = (Verdict.RUBS, Verdict.NOT_KNOWN, Verdict.TIGHT)
        return next((verdict for verdict in worst if verdict in found), Verdict.CLEARS)

    def wants_another_part(self) -> tuple[Item, ...]:
        """Return the items that nothing cures but another part, or setting elsewhere what carries it."""
        return tuple(item for item in self.items if item.another_part)

    def goes_in(self) -> bool:
        """Whether it goes in, with changes where it must; what is not known speaks against nothing."""
        return not self.wants_another_part()

    def to_measure(self) -> tuple[str, ...]:
        """Return the measures that would settle what is not known or tight, each once."""
        open_items = (item for item in self.items if item.verdict in (Verdict.NOT_KNOWN, Verdict.TIGHT))
        return tuple(dict.fromkeys(path for item in open_items for path in item.measure))


FAN_QUESTIONS = ("fan to core", "blade", "electric fans", "pulley nose", "alternator")
"""How the questions begin that a fan alone opens anew."""


def of_the_fan(answer: Fit) -> Fit:
    """Return the questions that a fan alone opens anew, where core and tanks stay as they are."""
    return replace(answer, items=tuple(item for item in answer.items if item.name.startswith(FAN_QUESTIONS)))


NOT_MEASURED, AS_MADE = "all that was not measured", "made for this vehicle: as what comes out"


def _as_made_for_it(items: Sequence[Item]) -> Iterator[Item]:
    """Nothing need be measured of what was made to go in; a measure that was taken and says otherwise goes before."""
    taken = [item for item in items if item.verdict != Verdict.NOT_KNOWN]
    yield from (replace(item, measure=()) if item.verdict == Verdict.TIGHT else item for item in taken)
    if len(taken) < len(items):
        yield Item(name=NOT_MEASURED, verdict=Verdict.CLEARS, note=AS_MADE, source=JUDGEMENT)


def fit(sheet: Sheet, bay: FitSheet, candidate: Candidate) -> Fit:
    """Answer whether a candidate goes in.

    Parameters
    ----------
    sheet : what is known of the vehicle
    bay : what is known of the place that it goes into
    candidate : what is to go in
    """
    stack = Stack(sheet=sheet, fit=bay, candidate=candidate)
    items = (*along_the_axis(stack), *across(sheet, bay, candidate))
    if candidate.choice("direct_fit"):
        items = tuple(_as_made_for_it(items))
    return Fit(candidate=candidate, stack=stack, items=items)
