"""A diagnosis on the screen: what it probably is, what speaks for and against it, what to look at next."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich import box
from rich.markup import escape
from rich.table import Table

from toptank.interfaces.cli.tables.heard_table import show_heard, show_questions
from toptank.interfaces.cli.tables.table import CAUTION, console, sentence, show_notes
from toptank.shop.door import REASONED, naming, reason, times_as_likely
from toptank.units.sentence import said

if TYPE_CHECKING:
    from toptank.shop.door import CausesAnswer, ChecksAnswer, Diagnosed, Diagnosis, Evaluation, Summary
    from toptank.units.conversion import System

BAR = 20
"""Signs of a bar that stands for 100 %."""

SHOWN, IN_WORDS, IN_FULL = 8, 4, 3
"""Causes in the table, causes whose voices are told, checks told with their outcomes."""

LEAST = 0.02
DUE = 0.75
"""Probability from which a repair is due beside the first [1]."""

DOUBTED = 0.5
"""Probability of none of these causes from which that is said before all else [1]."""


def percent(share: float) -> str:
    """Write a probability without pretending to more than is known."""
    if share < 0.005:
        return "< 1 %"
    return "> 99 %" if share > 0.995 else f"{100 * share:.0f} %"


def show_diagnosis(answer: Diagnosed, system: System) -> None:
    """Print a diagnosis."""
    found = answer.diagnosis
    console.print(f"[bold]{escape(answer.job.title)}[/bold]" + ("   (invented example)" if answer.job.invented else ""))
    if answer.job.complaint.strip():
        console.print(f"“{escape(' '.join(answer.job.complaint.split()))}”", style="italic")
    if found.unknown >= DOUBTED:
        console.print(
            f"[bold]None of the usual faults explains this ({percent(found.unknown)}): read the figures again, and "
            "check the gauge with a second thermometer, before you believe the table.[/bold]"
        )
    console.print(_causes(found, system))
    console.print(
        f"There is an 80 % chance the fault is in this list: {naming.causes(found.likely, system)}. "
        f"Something else: {percent(found.unknown)}.",
        style="dim",
    )
    if answer.closed_jobs:
        console.print(
            f"{percent(answer.own_share)} of how common each fault is comes from {answer.closed_jobs} closed jobs."
        )
    for one, other, share in found.pairs:
        console.print(f"Together: {naming.cause(one, system)} and {naming.cause(other, system)}, {percent(share)}.")
    _voices(found, system)
    show_heard(answer.job)
    show_questions(found)
    _checks(found, system)
    show_notes(answer.remarks, answer.job.assumed_units, system)
    console.print(CAUTION, style="dim")


def _causes(found: Diagnosis, system: System) -> Table:
    table = Table(box=box.SIMPLE_HEAD, padding=(0, 1), show_edge=False)
    for head in ("likely cause", "chance", "", "how common", "severity", "repair"):
        table.add_column(head, overflow="fold")
    shown = [one for one in found.suspects if one.probability >= LEAST][:SHOWN]
    for one in shown:
        table.add_row(
            f"[bold]{escape(naming.cause(one.cause, system))}[/bold]",
            percent(one.probability),
            "█" * max(1, round(BAR * one.probability)),
            percent(one.before),
            "" if one.severity is None else "–".join(f"{100 * point:.0f}" for point in one.severity[::2]) + " %",
            escape(naming.repair(one.repair, system)),
        )
    return table


def _voices(found: Diagnosis, system: System) -> None:
    """What speaks for and against the first causes."""
    for place, one in enumerate(found.suspects[:IN_WORDS]):
        named = escape(sentence(naming.cause(one.cause, system)))
        if place < REASONED:
            console.print(f"[bold]{named}.[/bold] {escape(reason(one.cause, one.voices, one.before, system))}")
            continue
        voices = [(escape(naming.evidence(voice.evidence, system)), voice.factor) for voice in one.voices]
        speaks = [f"{label} ({times_as_likely(factor)})" for label, factor in voices if factor > 1.0][:3]
        against = [f"{label} ({times_as_likely(factor)})" for label, factor in voices if factor < 1.0][:3]
        parts = [
            f"Points to it: {'; '.join(speaks)}." if speaks else "",
            f"Points away: {'; '.join(against)}." if against else "",
        ]
        if voices:
            console.print(f"[bold]{named}.[/bold] {' '.join(filter(None, parts))}")


def _checks(found: Diagnosis, system: System) -> None:
    if found.settled:
        due = [
            naming.repair(repair, system)
            for repair, chance in found.repairs
            if chance >= DUE and repair != found.settled
        ]
        also = f" Also due: {escape('; '.join(naming.repair(one, system) for one in due))}." if due else ""
        first = escape(naming.repair(found.settled, system))
        console.print(f"No check would change the first repair: [bold]{first}[/bold].{also}")
    if not found.checks:
        return
    console.print("[bold]Next checks, the best first[/bold]")
    for number, check in enumerate(found.checks[:IN_FULL], start=1):
        named, hazard = naming.check(check.check, system), naming.hazard(check.check, system)
        tools = f", {named.tools}" if named.tools else ""
        console.print(f"{number}. [bold]{escape(named.name)}[/bold] ({check.minutes:g} min{escape(tools)})")
        console.print(f"   {escape(named.how)}")
        if hazard:
            console.print(f"   Warning: {escape(hazard)}", style="bold")
        if named.misleads:
            console.print(f"   Can fool you: {escape(named.misleads)}", style="dim")
        table = Table(box=None, padding=(0, 1), show_header=False)
        for outcome in check.outcomes:
            causes = ", ".join(f"{naming.cause(cause, system)} {percent(share)}" for cause, share in outcome.causes)
            seen = naming.seen(check.check, outcome.seen, outcome.low, outcome.high, check.dimension, system)
            table.add_row("  ", escape(seen), percent(outcome.chance), "→", escape(causes))
        console.print(table)
    rest = [f"{naming.check(one.check, system).name} ({one.minutes:g} min)" for one in found.checks[IN_FULL:]]
    if rest:
        console.print(escape("Then: " + "; ".join(rest) + "."), style="dim")


def show_checks(answer: ChecksAnswer, system: System = "us") -> None:
    """Print the list of checks with their hazards."""
    group = ""
    for check in answer.checks:
        if check.group != group:
            group = check.group
            console.print(f"[bold]{sentence(naming.group(group, system))}[/bold]")
        outcomes = " · ".join(said(one.name, system) for one in check.outcomes) or f"a figure ({check.figure or ''})"
        console.print(f"  [bold]{escape(said(check.name, system))}[/bold] ({check.minutes:g} min): {escape(outcomes)}")
        if hazard := said(check.hazard, system):
            console.print(f"    Warning: {escape(hazard)}", style="dim")
    console.print(CAUTION, style="dim")


def show_causes(answer: CausesAnswer, system: System = "us") -> None:
    """Print the causes that are looked for."""
    table = Table("cause", "how common", "what it does", "repair", box=box.SIMPLE_HEAD, show_edge=False)
    for cause in answer.causes:
        name, does, repair = said(cause.name, system), said(cause.does, system), naming.repair(cause.repair, system)
        table.add_row(escape(name), percent(cause.share_pct / 100.0), escape(does), escape(repair))
    console.print(table)
    console.print("How common each is among vehicles that run hot: common practice or judgement.", style="dim")


def show_evaluation(answer: Evaluation, system: System = "us") -> None:
    """Print how good the diagnoses of closed jobs were."""
    heads = ("closed job", "it was", "first guess", "rank", "chance", "complaint alone: rank")
    table = Table(*heads, box=box.SIMPLE_HEAD, show_edge=False)
    for case in answer.cases:
        table.add_row(
            escape(case.name), escape(" or ".join(naming.cause(one, system) for one in case.confirmed)),
            escape(naming.cause(case.first, system)), str(case.told.rank), percent(case.told.probability),
            str(case.complaint.rank),
        )  # fmt: skip
    console.print(table)
    _show_sums(answer)
    for name, summary in (("All that was told", answer.told), ("Complaint alone", answer.complaint)):
        console.print(f"{name}: predicted and actual")
        console.print(_reliability(summary))
    console.print(_by_family(answer))
    if answer.moved:
        within = sum(by <= REWORDED_MOST for by in answer.moved) / len(answer.moved)
        console.print(
            f"Told otherwise within what was said, {100 * within:.0f} % of {len(answer.moved)} readings move the "
            f"leading cause of the complaint alone by 15 points at most; the most is {100 * max(answer.moved):.0f}."
        )
    if answer.walk is not None:
        console.print(
            "Simulated checks until the right repair stands first and likely: as chosen here "
            f"{answer.walk.chosen:.0f} minutes, which finds it in {100 * answer.walk.chosen_finds:.0f} of 100; "
            f"in the usual order {answer.walk.usual:.0f} minutes, which finds it in "
            f"{100 * answer.walk.usual_finds:.0f} of 100."
        )
    for file in answer.left_out:
        console.print(escape(file), style="bold")


REWORDED_MOST = 0.15
"""Points by which a reading told otherwise may move the leading cause [1]."""


def _show_sums(answer: Evaluation) -> None:
    sums = Table("", "all that was told", "complaint alone", box=box.SIMPLE_HEAD, show_edge=False)
    told, complaint = answer.told, answer.complaint
    for name, key in (
        ("first place", "top_1"), ("among the first three", "top_3"), ("among the likely", "in_likely"),
        ("a chart of the trade: first place", "top_1_of_chart"), ("its first three", "top_3_of_chart"),
        ("gauge and something else, where it is neither", "excuse"),
    ):  # fmt: skip
        sums.add_row(name, _share(getattr(told, key)), _share(getattr(complaint, key)))
    for name, key in (
        ("log score", "log_score"), ("log score going by how common each is", "log_score_of_prior"),
        ("log score of a chart of the trade", "log_score_of_chart"),
    ):  # fmt: skip
        sums.add_row(name, f"{getattr(told, key):.2f}", f"{getattr(complaint, key):.2f}")
    console.print(sums)


def _share(share: float | None) -> str:
    return "-" if share is None else f"{100 * share:.0f} %"


def _reliability(summary: Summary) -> Table:
    """Predicted against actual, a bar for each: | the prediction, o what was found."""
    bands = Table("predicted", "repairs", "predicted, mean", "actual", "", box=box.SIMPLE_HEAD, show_edge=False)
    for band in summary.calibration:
        bar = ["."] * BAR
        bar[min(int(BAR * band.stated), BAR - 1)] = "|"
        bar[min(int(BAR * band.found), BAR - 1)] = "o"
        bands.add_row(
            f"{100 * band.low:.0f} to {100 * band.high:.0f} %", str(band.repairs), f"{100 * band.stated:.0f} %",
            f"{100 * band.found:.0f} %", "".join(bar),
        )  # fmt: skip
    return bands


def _by_family(answer: Evaluation) -> Table:
    table = Table(
        "family", "closed jobs", "first", "first three", "family first", "complaint alone: first", "first three",
        "family first", box=box.SIMPLE_HEAD, show_edge=False,
    )  # fmt: skip
    for told, alone in zip(answer.told.families, answer.complaint.families, strict=True):
        shares = (told.top_1, told.top_3, told.family_first, alone.top_1, alone.top_3, alone.family_first)
        table.add_row(told.family, str(told.cases), *(_share(share) for share in shares))
    return table
