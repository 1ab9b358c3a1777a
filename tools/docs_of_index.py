"""The index from what a driver says to the pages of the faults behind it, and to the quickest check that shows one."""

from itertools import groupby

from docs_of_diagnosis import anchor

from toptank.catalogue.causes.all_causes import CAUSES
from toptank.catalogue.checks.check import checks
from toptank.catalogue.symptoms.symptom import Symptom, symptoms
from toptank.shop.answers.words import naming

LEADING, CHECKS = 3, 2
"""Faults and checks that are named of each symptom."""

CHAPTERS = frozenset(cause.id for cause in CAUSES)
"""Causes that have a chapter; that nothing is broken has none."""

SURE = 0.7
"""A check mostly shows a fault where it does so in such a share of vehicles that have it badly."""

MOST_SHOWN = 20
"""A check that shows more faults tells that there is one, not which."""

WHEN = (
    ("only when it stands or crawls", "not enough air through the radiator",
     ("fan_clutch_slips", "electric_fan_weak", "shroud_missing")),
    ("only at speed", "not enough coolant or air at load",
     ("tubes_scaled", "lower_hose_collapses", "shroud_chokes_ram_air")),
    ("only up hills or towing", "more heat than the radiator gives off",
     ("core_too_small", "tubes_scaled", "ignition_late")),
    ("everywhere, within minutes", "coolant does not go round, or is not there",
     ("coolant_low", "thermostat_stuck", "belt_slips")),
    ("by jumps", "air, gas or a poor contact", ("coolant_low", "head_gasket_leaks", "gauge_reads_high")),
    ("right after work was done", "what was touched", ("coolant_low", "thermostat_backwards", "fan_backwards")),
    ("the gauge says so, nothing else does", "the gauge", ("gauge_reads_high",)),
)  # fmt: skip
"""When it runs hot, what that mostly means, and faults to read of first: common practice, no source."""


def symptoms_index(made: str) -> str:
    """Return docs/symptoms-index.md."""
    lines = [
        "# From symptom to page",
        "",
        made,
        "",
        "What the driver says, the faults it points to most, and the quickest check that mostly shows each.",
        "To have all that the driver says weighed together, write it down in a job:",
        "[ten minutes with your own vehicle](tutorial.md).",
        "",
        "## When does it run hot?",
        "",
        "Common practice, no source; the program itself weighs figures and not this table.",
        "",
        "| it runs hot | mostly | read first |",
        "|---|---|---|",
        *(f"| {when} | {mostly} | {', '.join(_cause(one) for one in causes)} |" for when, mostly, causes in WHEN),
    ]
    by_category = sorted(symptoms().values(), key=lambda one: one.category)
    for category, found in groupby(by_category, key=lambda one: one.category):
        rows = [_row(one) for one in found if _leading(one)]
        if rows:
            lines += ["", f"## {category.replace('_', ' ').capitalize()}", ""]
            lines += ["| the driver says | points to | check |", "|---|---|---|", *rows]
    return "\n".join(lines) + "\n"


def _row(one: Symptom) -> str:
    leading = _leading(one)
    made = dict.fromkeys(filter(None, map(_showing, leading)))
    told = ", ".join(_check(check) for check in list(made)[:CHECKS]) or "-"
    return f"| {one.words} | {', '.join(_cause(cause) for cause in leading)} | {told} |"


def _showing(cause: str) -> str:
    """The quickest check that mostly shows a fault, else the one that shows it most; empty where none does."""
    shown = {
        check.id: sum(check.shown_by[cause])
        for check in checks().values()
        if cause in check.shown_by and len(check.shown_by) <= MOST_SHOWN
    }
    sure = [id_ for id_, chance in shown.items() if chance >= SURE]
    if sure:
        return min(sure, key=lambda id_: (checks()[id_].minutes, -shown[id_], id_))
    return max(shown, key=lambda id_: (shown[id_], id_), default="")


def _leading(one: Symptom) -> list[str]:
    """The faults that it points to most, most first."""
    pointed = [(chance, cause) for cause, chance in one.shows.items() if chance > one.otherwise]
    return [cause for _, cause in sorted(pointed, key=lambda pair: -pair[0])[:LEADING]]


def _cause(cause: str) -> str:
    name = naming.cause(cause, "us")
    return f"[{name}](causes.md#{anchor(name)})" if cause in CHAPTERS else name


def _check(check: str) -> str:
    name = naming.check(check, "us").name
    return f"[{name}](checks.md#{anchor(name)}) ({checks()[check].minutes:g} min)"
