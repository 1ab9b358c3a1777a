"""The page of symptoms: what drivers say, how it is heard, what it speaks for."""

from itertools import groupby

from toptank.catalogue.symptoms.symptom import LEVELS, Symptom, symptoms
from toptank.catalogue.words.words import words


def symptoms_page(made: str) -> str:
    """Return docs/symptoms.md."""
    levels = ", ".join(f"*{level.replace('_', ' ')}* {100 * chance:g} %" for level, chance in LEVELS.items())
    lines = [
        "# Symptoms",
        "",
        made,
        "",
        "What drivers say of a vehicle that runs hot. A job file tells them as `[[symptom]]` with `id` and, where the",
        "driver says that it is *not* so, `denied = true`. Each says how often it is so where one cause alone is",
        f"there, and how often otherwise; the levels are {levels}. All are judgement unless a source is named.",
    ]
    by_category = sorted(symptoms().values(), key=lambda one: one.category)
    for category, found in groupby(by_category, key=lambda one: one.category):
        lines += ["", f"## {category.replace('_', ' ').capitalize()}", ""]
        lines += ["| id | what | speaks for | otherwise | source |", "|---|---|---|---|---|"]
        lines += [_row(one) for one in found]
    return "\n".join(lines) + "\n"


def _row(one: Symptom) -> str:
    named = words("us").cause
    strongest = sorted(one.shows.items(), key=lambda pair: -pair[1])
    shown = ", ".join(
        f"{named[cause].name} {100 * chance:g} %" for cause, chance in strongest if chance > one.otherwise
    )
    against = ", ".join(named[cause].name for cause, chance in strongest if chance < one.otherwise)
    speaks = shown + (f"; against {against}" if against else "")
    return f"| `{one.id}` | {one.words} | {speaks} | {100 * one.otherwise:g} % | {one.source} |"
