"""The verb of fit: whether a remedy, a radiator on offer, or what is in now, goes into the bay of a job.

Imports of the model stay inside the functions that need it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from toptank.shop.files.toml_file import shortened
from toptank.units.conversion import System, from_si, unit_of
from toptank.units.dimension import CHOICE
from toptank.units.display import key_suffix
from toptank.units.nearest import did_you_mean
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from toptank.catalogue.remedies.remedy import Remedy
    from toptank.knowledge.sheet import Sheet
    from toptank.shop.job.job import Job
    from toptank.studies.choose.fit.candidate import Candidate
    from toptank.studies.choose.fit.fit import Fit
    from toptank.studies.choose.fit.item import Item
    from toptank.studies.choose.fit.measures import FitSheet, Offer


@dataclass(frozen=True, slots=True, kw_only=True)
class FitAnswer:
    """The answer: one fit for each thing that was to be tried, and what is told beside it."""

    job: Job
    fits: tuple[Fit, ...]
    remarks: tuple[str, ...]
    assumed_units: tuple[str, ...]


def fit_job(job: Job, *, name: str | None = None) -> FitAnswer:
    """Answer whether something goes in.

    Parameters
    ----------
    job : with what is known of its bay
    name : a remedy, a plan ("this + that"), or a radiator on offer in the job; without it every offer, or what is in
        now if there is none
    """
    from toptank.studies.choose.fit.candidate import as_it_stands, of_offer
    from toptank.studies.choose.fit.fit import fit

    bay = job.fit
    if name is not None:
        candidates = (_named(name, job.sheet, bay),)
    elif bay.offers:
        candidates = tuple(of_offer(offer, job.sheet, bay) for offer in bay.offers)
    else:
        candidates = (as_it_stands(job.sheet, bay),)
    fits = tuple(fit(job.sheet, bay, candidate) for candidate in candidates)
    return FitAnswer(job=job, fits=fits, remarks=job.remarks, assumed_units=job.assumed_units)


def fit_plan(job: Job, remedies: Sequence[Remedy], *, offer: Offer | None = None) -> Fit:
    """Answer whether all of a plan goes in together: its core, or a radiator on offer in its place, and its fan.

    Where core and tanks stay only what the fan opens anew is asked.
    """
    from toptank.studies.choose.fit.candidate import of_plan
    from toptank.studies.choose.fit.fit import fit, of_the_fan

    answer = fit(job.sheet, job.fit, of_plan(remedies, job.sheet, job.fit, offer=offer))
    return answer if any(remedy.group == "core" for remedy in remedies) else of_the_fan(answer)


def _named(name: str, sheet: Sheet, bay: FitSheet) -> Candidate:
    from toptank.catalogue.remedies.all_remedies import REMEDIES
    from toptank.studies.choose.fit.candidate import AS_IT_STANDS, as_it_stands, of_offer, of_plan, of_remedy

    wanted = " ".join(name.split())
    for offer in bay.offers:
        if offer.name == wanted:
            return of_offer(offer, sheet, bay)
    for remedy in REMEDIES:
        if remedy.name == wanted:
            return of_remedy(remedy, sheet, bay)
    together = [remedy for part in wanted.split(" + ") for remedy in REMEDIES if remedy.name == part]
    if len(together) > 1 and len(together) == wanted.count(" + ") + 1:
        return of_plan(together, sheet, bay)
    if wanted == AS_IT_STANDS:
        return as_it_stands(sheet, bay)
    known = (*(offer.name for offer in bay.offers), *(remedy.name for remedy in REMEDIES), AS_IT_STANDS)
    cores = "; ".join(remedy.name for remedy in REMEDIES if remedy.group == "core")
    fix = did_you_mean(wanted, known, f"name an offer of this job or a remedy, such as: {cores}")
    limit = "is neither a remedy nor an offer of this job"
    raise Refusal(field="with", value=shortened(wanted), limit=limit, fix=fix)


def check_drawing_file(out: Path, *, replace: bool) -> None:
    """Refuse a file for the drawing that cannot be written, before any work is done."""
    from toptank.shop.files.atomic_write import check_place

    if out.suffix.lower() != ".svg":
        raise Refusal(field="drawing", value=shortened(out), limit="must end in .svg", fix="name the file so")
    check_place(out, replace=replace)


def write_drawing(answer: FitAnswer, out: Path, system: System, *, replace: bool) -> None:
    """Draw the stack to scale and write it, whole or not at all."""
    from toptank.shop.files.atomic_write import write_whole

    if len(answer.fits) != 1:
        named = ", ".join(repr(fit.candidate.name) for fit in answer.fits)
        limit = f"shows one radiator, and the job has {len(answer.fits)} on offer"
        raise Refusal(field="drawing", value=shortened(out), limit=limit, fix=f"add --with and one of {named}")
    title = answer.job.title + (" (invented example)" if answer.job.invented else "")
    write_whole(out, picture(answer.fits[0], title, system).encode("utf-8"), replace=replace)


def picture(fit: Fit, title: str, system: System) -> str:
    """Draw the stack to scale, as SVG."""
    from toptank.studies.choose.fit.drawing import drawing

    return drawing(fit, title, system)


def words(item: Item, system: System) -> tuple[str, str]:
    """Verdict of an item with its figure, and all else there is to say of it."""
    from toptank.studies.choose.fit.words import mend_words, note_words, verdict_words

    more = (mend_words(item, system), note_words(item, system))
    return verdict_words(item, system), ". ".join(part.rstrip(".") for part in more if part)


def to_measure(fit: Fit) -> list[str]:
    """What to measure next and how, each once."""
    from toptank.studies.choose.fit.words import how_to_measure

    return [how_to_measure(path) for path in fit.to_measure()]


def fit_json(answer: FitAnswer, system: System) -> dict[str, Any]:
    """Return an answer as a record; every figure carries its unit in its key."""
    return {
        "title": answer.job.title,
        "invented": answer.job.invented,
        "units": system,
        "fits": [_record(fit, system) for fit in answer.fits],
        "remarks": list(answer.remarks),
        "assumed_units": list(answer.assumed_units),
    }


def _record(fit: Fit, system: System) -> dict[str, Any]:
    candidate = fit.candidate
    return {
        "name": candidate.name,
        "parts": candidate.parts,
        "price": candidate.price,
        "note": candidate.note,
        "verdict": fit.verdict().value,
        "items": [_item(item, system) for item in fit.items],
        "measure_next": to_measure(fit),
    }


def _item(item: Item, system: System) -> dict[str, Any]:
    from toptank.studies.choose.fit.words import answer_words, mend_words, note_words

    record: dict[str, Any] = {"item": item.name, "verdict": item.verdict.value, "says": answer_words(item, system)}
    if item.dimension != CHOICE:
        unit, suffix = unit_of(item.dimension, system), key_suffix(item.dimension, system)
        for key in ("gap", "least", "margin", "spread"):
            value = getattr(item, key)
            record[f"{key}_{suffix}"] = None if value is None else round(float(from_si(value, item.dimension, unit)), 4)
    return record | {
        "mend": mend_words(item, system) or None,
        "note": note_words(item, system) or None,
        "measure": list(item.measure),
        "source": item.source,
    }
