"""The answer to a question of fit in words: clears by, rubs by and what is done about it, tight, or what to measure."""

from toptank.catalogue.words.words import plan_words, words
from toptank.studies.choose.fit.candidate import REMEDY_MEASURES, Candidate
from toptank.studies.choose.fit.item import ONE_SIDED, Item, Verdict
from toptank.studies.choose.fit.measures import cut, measure_of, tape
from toptank.units.conversion import System
from toptank.units.dimension import CHOICE, CURRENT, LENGTH, MASS
from toptank.units.display import show

AS_IT_STANDS = "what is in now"
"""What is said, and may be written, for what is in now."""

FROM_MEMORY = "Weights and sizes of new parts are typical trade figures: measure the actual part."
"""Told with every remedy that brings a measure of its own, so that no such figure passes for a measured one."""


def candidate_name(candidate: Candidate, system: System) -> str:
    """Name what is to go in: an offer, a plan, or what is in now."""
    if candidate.name:
        return candidate.name
    return plan_words(candidate.remedies, system) if candidate.remedies else AS_IT_STANDS


def candidate_parts(candidate: Candidate, system: System) -> str:
    """Name what is bought for it."""
    named = words(system).part
    return ", ".join(filter(None, (candidate.parts, *(named[part].name for part in candidate.bought))))


def candidate_note(candidate: Candidate, system: System) -> str:
    """Say what is to be known of it."""
    named = [words(system).remedy[one] for one in candidate.noted]
    memory = FROM_MEMORY if any(one in REMEDY_MEASURES for one in candidate.noted) else ""
    return " ".join(filter(None, (*(text for one in named for text in (one.note, one.limits)), memory)))


def amount(value: float, item: Item, system: System) -> str:
    """Write a figure of an item: a length as a tape reads it, a weight as scales do."""
    return tape(value, system) if item.dimension == LENGTH else show(value, item.dimension, system)


def verdict_words(item: Item, system: System, *, beside_the_gap: bool = False) -> str:
    """Write the verdict with its figure: "clears by 3/4 in"; what is there too, unless it stands beside."""
    if item.verdict == Verdict.NOT_KNOWN:
        return "not known"
    if item.margin is None or item.spread is None or item.dimension == CHOICE:
        return "fits" if item.verdict == Verdict.CLEARS else "does not match"
    figure = amount(abs(item.margin), item, system)
    if item.verdict == Verdict.TIGHT:
        doubt = amount(ONE_SIDED * item.spread, item, system)
        there = f" ({_there(item, system)})" if item.least and not item.pair and not beside_the_gap else ""
        return f"tight: {figure} {'to spare' if item.margin >= 0.0 else 'short'}, doubtful by {doubt}{there}"
    if item.pair and item.gap is not None:
        differ = f"differ by {amount(item.gap, item, system)}"
        allowed = "" if item.least is None else f", {amount(item.least, item, system)} is allowed"
        return f"alike: {differ}" if item.verdict == Verdict.CLEARS else f"{differ}{allowed}"
    clears = item.verdict == Verdict.CLEARS
    if item.dimension == MASS:
        return f"lighter than the limit by {figure}" if clears else f"too heavy by {figure}"
    if item.dimension == CURRENT:
        return f"{figure} to spare" if clears else f"{figure} short"
    if not item.least:
        return f"clears by {figure}" if clears else f"rubs by {figure}"
    there = "" if beside_the_gap else f" ({_there(item, system)})"
    return f"{'clears' if clears else 'short'} by {figure}{there}"


def _there(item: Item, system: System) -> str:
    """What is there and what must be: a margin alone would pass for the gap itself."""
    gap, needed = item.gap or 0.0, amount(item.least or 0.0, item, system)
    return f"{amount(abs(gap), item, system)} {'there' if gap >= 0.0 else 'of overlap'}, {needed} needed"


def fix_words(item: Item, system: System) -> str:
    """Write what is done about it, with how much; empty where nothing needs it."""
    gains = cut(item.amount, system) if item.dimension == LENGTH else amount(item.amount, item, system)
    return item.fix.replace("{amount}", gains)


def note_words(item: Item, system: System) -> str:
    """Write what else there is to say."""
    if item.wanted is None:
        return item.note
    short = amount(item.wanted - (item.gap or 0.0), item, system)
    return item.note.replace("{wanted}", amount(item.wanted, item, system)).replace("{short}", short)


def how_to_measure(path: str) -> str:
    """Write what to measure and how, after the key to write it under."""
    section, _, key = path.partition(".")
    declaration = measure_of(path)
    where = f"[[{section}]] {key}" if section == "offer" else f"[{section}] {key}"
    return f"{where}: {declaration.means} ({declaration.in_the_bay()})"


def answer_words(item: Item, system: System) -> str:
    """Write the whole answer to one question."""
    said = verdict_words(item, system)
    if item.verdict == Verdict.TIGHT:
        said += f"; measure again: {', '.join(measure_of(path).means for path in item.measure)}"
    elif item.verdict == Verdict.NOT_KNOWN and item.measure:
        said += f": measure {', '.join(measure_of(path).means for path in item.measure)}"
    elif item.fix:
        said += f": {fix_words(item, system)}"
    note = note_words(item, system)
    return f"{said}. {note}" if note else f"{said}."
