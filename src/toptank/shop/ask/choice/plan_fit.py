"""Whether a plan goes in, said in the same breath as the plan itself: as it is, with which changes, or not at all.

A measure that nobody took is no reason against a plan: it is said what to measure first.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import product
from typing import TYPE_CHECKING

from toptank.catalogue.remedies.all_remedies import REMEDIES
from toptank.shop.ask import fit as fit_verbs
from toptank.studies.choose.fit.axis import AGREE
from toptank.studies.choose.fit.candidate import as_it_stands, moves_the_fan, on_offer
from toptank.studies.choose.fit.item import Verdict, known
from toptank.studies.choose.fit.measures import measure_of
from toptank.studies.choose.fit.words import fix_words, verdict_words

if TYPE_CHECKING:
    from collections.abc import Sequence

    from toptank.catalogue.remedies.remedy import Remedy
    from toptank.shop.job.job import Job
    from toptank.studies.choose.fit.candidate import Candidate
    from toptank.studies.choose.fit.fit import Fit
    from toptank.studies.choose.fit.item import Item
    from toptank.studies.choose.fit.measures import Offer
    from toptank.units.conversion import System

TOLD = 3
"""Measures that are told; the page of the fit lists them all."""

IN_A_WORD = {
    Verdict.CLEARS: "fits, by what was measured",
    Verdict.TIGHT: "tight: measure again",
    Verdict.RUBS: "won't fit without changes",
    Verdict.NOT_KNOWN: "measure first",
}
_BEST_FIRST = (Verdict.CLEARS, Verdict.TIGHT, Verdict.NOT_KNOWN, Verdict.RUBS)


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanFit:
    """The fit of a plan: of its own core and fan, or of the radiator on offer in the job that would be that core."""

    offer: Offer | None
    fit: Fit

    @property
    def goes_in(self) -> bool:
        """Whether it goes in, with changes where it must."""
        return self.fit.goes_in()

    def rubs(self) -> tuple[Item, ...]:
        """Return the places that rub."""
        return self.fit.of(Verdict.RUBS)

    def word(self) -> str:
        """Return the answer for a table."""
        if not self.goes_in:
            return "cannot be made to fit"
        return IN_A_WORD[self.fit.verdict()]

    def says(self, system: System) -> str:
        """Return the answer in a sentence or two."""
        what = "It" if self.offer is None else f"The radiator on offer, {self.offer.name},"
        verdict = self.fit.verdict()
        if verdict == Verdict.CLEARS:
            return f"{what} fits, by what was measured."
        said: list[str] = []
        if rubs := self.rubs() if self.goes_in else self.fit.wants_another_part():
            how = " as it is" if self.goes_in else " and cannot be made to"
            needs = "What it needs:" if self.goes_in else "It would take"
            where = [f"{fix_words(one, system)} ({one.name}, {verdict_words(one, system)})" for one in rubs]
            said.append(f"{what} won't fit{how}. {needs} {'; '.join(where)}.")
        else:
            said.append(f"{what} is touch and go." if verdict == Verdict.TIGHT else "Fit not confirmed yet.")
        said += [
            f"{_capital(fix_words(one, system))}."
            for one in self.fit.of(Verdict.NOT_KNOWN)
            if one.name == AGREE and one.fix
        ]
        measures = [measure_of(path).means for path in self.fit.to_measure()]
        if measures:
            rest = f"; and {len(measures) - TOLD} more, listed under fit" if len(measures) > TOLD else ""
            said.append(f"Measure first: {'; '.join(measures[:TOLD])}{rest}.")
        return " ".join(said)


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


def asks_for_fit(remedies: Sequence[Remedy]) -> Remedy | None:
    """Return the remedy of a plan whose step tells of the fit: its core, else the first that moves the fan."""
    core = next((remedy for remedy in remedies if remedy.group == "core"), None)
    return core or next((remedy for remedy in remedies if moves_the_fan(remedy)), None)


def fits_of(job: Job, remedies: Sequence[Remedy]) -> tuple[PlanFit, ...]:
    """Return the fit of every radiator on offer that would be the plan's core, the best first; else that of the plan.

    None where it brings neither core nor fan.
    """
    asking = asks_for_fit(remedies)
    if asking is None:
        return ()
    offers = on_offer(asking, job.fit)
    tried = [PlanFit(offer=one, fit=fit_verbs.fit_plan(job, remedies, offer=one)) for one in offers]
    return tuple(sorted(tried, key=_place)) or (PlanFit(offer=None, fit=fit_verbs.fit_plan(job, remedies)),)


def _place(one: PlanFit) -> tuple[bool, int, int]:
    return not one.goes_in, _BEST_FIRST.index(one.fit.verdict()), len(one.fit.of(Verdict.RUBS))


def plan_fit(job: Job, remedies: Sequence[Remedy]) -> PlanFit | None:
    """Return whether a plan goes in; None where it leaves core, tanks and fan where they are."""
    best = next(iter(fits_of(job, remedies)), None)
    return None if best is None or (best.offer is None and _as_it_was(best.fit.candidate, job)) else best


def _as_it_was(candidate: Candidate, job: Job) -> bool:
    stands = as_it_stands(job.sheet, job.fit)
    moved = (candidate.depth, candidate.passes, candidate.tanks_stay, candidate.electric_fan)
    fan = any(key.startswith("fan_") for key in candidate.facts)
    return not fan and moved == (stands.depth, stands.passes, stands.tanks_stay, stands.electric_fan)


def goes_in(job: Job, remedies: Sequence[Remedy]) -> bool:
    """Whether a plan goes in, with changes where it must."""
    found = plan_fit(job, remedies)
    return found is None or found.goes_in


def barred(job: Job) -> tuple[str, ...]:
    """Return what the measures of the bay bar: cores and fans that do not go in, each with where."""
    if not job.fit.offers and not any(known(fact) for fact in job.fit.facts.values()):
        return ()
    cores = [(), *((one,) for one in REMEDIES if one.group == "core")]
    fans = [(), *((one,) for one in REMEDIES if one.group != "core" and moves_the_fan(one))]
    found: list[str] = []
    for core, fan in product(cores, fans):
        one = plan_fit(job, (*core, *fan))
        if one is not None and not one.goes_in:
            where = ", ".join(item.name for item in one.fit.wants_another_part())
            found.append(f"{','.join(remedy.id for remedy in (*core, *fan))}: {where}")
    return tuple(found)
