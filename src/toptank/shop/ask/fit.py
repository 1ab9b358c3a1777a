"""The verb of fit: whether a remedy, a radiator on offer, or what is in now, goes into the bay of a job.

Imports of the model stay inside the functions that need it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from toptank.catalogue.remedies.all_remedies import REMEDIES
from toptank.catalogue.words.aliases import meant, plan_of
from toptank.shop.files.atomic_write import check_place, write_whole
from toptank.shop.files.toml_file import shortened
from toptank.studies.choose.fit.candidate import (
    as_it_stands,
    moves_the_fan,
    of_offer,
    of_plan,
    of_remedy,
    on_offer,
)
from toptank.studies.choose.fit.drawing import drawing
from toptank.studies.choose.fit.fit import of_the_fan
from toptank.studies.choose.fit.words import (
    AS_IT_STANDS,
    candidate_name,
    candidate_note,
    candidate_parts,
    fix_words,
    how_to_measure,
    note_words,
    verdict_words,
)
from toptank.units.conversion import System
from toptank.units.nearest import did_you_mean
from toptank.units.refusal import Refusal
from toptank.units.sentence import Text

if TYPE_CHECKING:
    from toptank.catalogue.remedies.remedy import Remedy
    from toptank.knowledge.sheet import Sheet
    from toptank.shop.job.job import Job
    from toptank.studies.choose.fit.candidate import Candidate
    from toptank.studies.choose.fit.fit import Fit
    from toptank.studies.choose.fit.item import Item
    from toptank.studies.choose.fit.measures import FitSheet, Offer


@dataclass(frozen=True, slots=True, kw_only=True)
class Fitted:
    """The answer: one fit for each thing that was to be tried, and what is told beside it."""

    job: Job
    fits: tuple[Fit, ...]
    remarks: tuple[Text, ...]
    assumed_units: tuple[str, ...]


def fit_job(job: Job, *, name: str | None = None) -> Fitted:
    """Answer whether something goes in.

    Parameters
    ----------
    job : with what is known of its bay
    name : a remedy, a plan ("this + that"), or a radiator on offer in the job; without it the plan that was taken, if
        it brings a core or a fan, and every offer of which anything is printed; else what is in now
    """
    from toptank.studies.choose.fit.fit import fit

    bay = job.fit
    if name is not None:
        candidates = (_named(name, job.sheet, bay),)
    else:
        taken = _of_the_plan_taken(job)
        tried = [one.offer.name for one in taken if one.offer is not None]
        others = [offer for offer in bay.offers if offer.facts and offer.name not in tried]
        offered = (of_offer(offer, job.sheet, bay) for offer in others)
        candidates = (*(one.candidate for one in taken), *offered) or (as_it_stands(job.sheet, bay),)
    fits = tuple(fit(job.sheet, bay, candidate) for candidate in candidates)
    return Fitted(job=job, fits=fits, remarks=job.remarks, assumed_units=job.assumed_units)


class _Taken(NamedTuple):
    """The plan that was taken with a radiator on offer, or by itself."""

    offer: Offer | None
    candidate: Candidate


def _of_the_plan_taken(job: Job) -> tuple[_Taken, ...]:
    """What the plan that was taken brings into the bay: with each radiator on offer that would be its core."""
    plan = [remedy for remedy in REMEDIES if remedy.id in (job.plan_taken or ())]
    core = next((remedy for remedy in plan if remedy.group == "core"), None)
    if core is None and not any(moves_the_fan(remedy) for remedy in plan):
        return ()
    offers = () if core is None else on_offer(core, job.fit)
    return tuple(
        _Taken(offer=offer, candidate=of_plan(plan, job.sheet, job.fit, offer=offer)) for offer in offers or (None,)
    )


def fit_plan(job: Job, remedies: Sequence[Remedy], *, offer: Offer | None = None) -> Fit:
    """Answer whether all of a plan goes in together: its core, or a radiator on offer in its place, and its fan.

    Where core and tanks stay only what the fan opens anew is asked.
    """
    from toptank.studies.choose.fit.fit import fit

    answer = fit(job.sheet, job.fit, of_plan(remedies, job.sheet, job.fit, offer=offer))
    return answer if any(remedy.group == "core" for remedy in remedies) else of_the_fan(answer)


def _named(name: str, sheet: Sheet, bay: FitSheet) -> Candidate:
    wanted = " ".join(name.split())
    for offer in bay.offers:
        if offer.name == wanted:
            return of_offer(offer, sheet, bay)
    by_id = {remedy.id: remedy for remedy in REMEDIES}
    if plan := plan_of(wanted):
        together = [by_id[remedy] for remedy in plan]
        return of_plan(together, sheet, bay) if len(together) > 1 else of_remedy(together[0], sheet, bay)
    if wanted == AS_IT_STANDS:
        return as_it_stands(sheet, bay)
    cores = "; ".join(remedy.id for remedy in REMEDIES if remedy.group == "core")
    offered = did_you_mean(wanted, (*(offer.name for offer in bay.offers), AS_IT_STANDS), "")
    fix = offered or meant("remedy", wanted, f"name an offer of this job or a remedy, such as: {cores}")
    limit = "is neither a remedy nor an offer of this job"
    raise Refusal(field="with", value=shortened(wanted), limit=limit, fix=fix)


def check_drawing_file(out: Path, *, replace: bool) -> None:
    """Refuse a file for the drawing that cannot be written, before any work is done."""
    if out.suffix.lower() != ".svg":
        raise Refusal(field="drawing", value=shortened(out), limit="must end in .svg", fix="name the file so")
    check_place(out, replace=replace)


def write_drawing(answer: Fitted, out: Path, system: System, *, replace: bool) -> None:
    """Draw the stack to scale and write it, whole or not at all."""
    if len(answer.fits) != 1:
        named = ", ".join(repr(name(fit, system)) for fit in answer.fits)
        limit = f"shows one radiator, and the job has {len(answer.fits)} on offer"
        raise Refusal(field="drawing", value=shortened(out), limit=limit, fix=f"add --with and one of {named}")
    title = answer.job.title + (" (invented example)" if answer.job.invented else "")
    write_whole(out, picture(answer.fits[0], title, system).encode("utf-8"), replace=replace)


def picture(fit: Fit, title: str, system: System) -> str:
    """Draw the stack to scale, as SVG."""
    return drawing(fit, title, system)


def name(fit: Fit, system: System) -> str:
    """Name what is to go in."""
    return candidate_name(fit.candidate, system)


def told(fit: Fit, system: System) -> tuple[str, str]:
    """Return the parts that are bought, and what is to be known of what is to go in."""
    return candidate_parts(fit.candidate, system), candidate_note(fit.candidate, system)


def words(item: Item, system: System) -> tuple[str, str]:
    """Verdict of an item with its figure, and all else there is to say of it."""
    more = (fix_words(item, system), note_words(item, system))
    return verdict_words(item, system), ". ".join(part.rstrip(".") for part in more if part)


def to_measure(fit: Fit) -> list[str]:
    """What to measure next and how, each once."""
    return [how_to_measure(path) for path in fit.to_measure()]
