"""The answer to a question of fit in words: clears by, rubs by and what mends it, tight, or what to measure."""

from toptank.studies.choose.fit_item import ONE_SIDED, Item, Verdict
from toptank.studies.choose.fit_measures import cut, measure_of, tape
from toptank.units.conversion import System
from toptank.units.dimension import CHOICE, LENGTH
from toptank.units.display import show


def amount(value: float, item: Item, system: System) -> str:
    """Write a figure of an item: a length as a tape reads it, a weight as scales do."""
    return tape(value, system) if item.dimension == LENGTH else show(value, item.dimension, system)


def verdict_words(item: Item, system: System) -> str:
    """Write the verdict with its figure: "clears by 3/4 in"."""
    if item.verdict == Verdict.NOT_KNOWN:
        return "not known"
    if item.margin is None or item.spread is None or item.dimension == CHOICE:
        return "fits" if item.verdict == Verdict.CLEARS else "does not match"
    figure = amount(abs(item.margin), item, system)
    if item.verdict == Verdict.TIGHT:
        doubt = amount(ONE_SIDED * item.spread, item, system)
        return f"tight: {figure} {'to spare' if item.margin >= 0.0 else 'short'}, doubtful by {doubt}"
    if item.pair and item.gap is not None:
        differ = f"differ by {amount(item.gap, item, system)}"
        allowed = "" if item.least is None else f", {amount(item.least, item, system)} is allowed"
        return f"alike: {differ}" if item.verdict == Verdict.CLEARS else f"{differ}{allowed}"
    weighs = item.dimension != LENGTH
    if item.verdict == Verdict.CLEARS:
        return f"lighter than the limit by {figure}" if weighs else f"clears by {figure}"
    return f"too heavy by {figure}" if weighs else f"rubs by {figure}"


def mend_words(item: Item, system: System) -> str:
    """Write what mends it, with how much; empty where nothing needs mending."""
    return item.mend.replace("{amount}", cut(item.amount, system) if item.dimension == LENGTH else "")


def note_words(item: Item, system: System) -> str:
    """Write what else there is to say."""
    return item.note.replace("{wanted}", "" if item.wanted is None else tape(item.wanted, system))


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
    elif item.mend:
        said += f": {mend_words(item, system)}"
    note = note_words(item, system)
    return f"{said}. {note}" if note else f"{said}."
