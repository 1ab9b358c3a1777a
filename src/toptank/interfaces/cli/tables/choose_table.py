"""Remedies on the screen: what stays cool on the worst day, at what price, and what to watch."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich import box
from rich.markup import escape
from rich.table import Table

from toptank.interfaces.cli.tables.diagnose_table import percent
from toptank.interfaces.cli.tables.forecast_table import band
from toptank.interfaces.cli.tables.table import CAUTION, console, say, show_notes
from toptank.shop.door import invented_prices, naming, plan_fit, reached_outside
from toptank.units.conversion import unit_of
from toptank.units.dimension import TEMPERATURE
from toptank.units.display import show

if TYPE_CHECKING:
    from toptank.shop.door import Chosen, Decisive, PriceBook
    from toptank.units.conversion import System


def show_choice(answer: Chosen, system: System) -> None:
    """Print remedies on the worst day."""
    console.print(f"[bold]{escape(answer.job.title)}[/bold]" + ("   (invented example)" if answer.job.invented else ""))
    days = "; ".join(
        f"{escape(duty.name)} at {show(duty.facts['ambient'].value, TEMPERATURE, system)}" for duty in answer.worst_day
    )
    console.print(f"Worst day: {days}. Limit {show(answer.job.limit, TEMPERATURE, system)}.")
    limit = show(answer.job.limit, TEMPERATURE, system)
    table = Table(box=box.SIMPLE_HEAD, padding=(0, 1), show_edge=False)
    for head in ("", "plan", "stays cool", "cost", "hours", f"worst, {unit_of(TEMPERATURE, system)}"):
        table.add_column(head, overflow="fold")
    for number, one in enumerate(answer.outlooks, start=1):
        mark = "bold" if one is answer.recommended else ""
        hardest = next(duty for duty in one.duties if duty.duty == one.hardest)
        named = naming.plan(one.ids, system) + (" (won't fit)" if one is answer.does_not_fit else "")
        table.add_row(
            str(number), escape(named), percent(one.holds),
            f"{answer.book.currency}{one.cost:,.0f}" if one.remedies else "", f"{one.minutes / 60:.1f}",
            f"{band(hardest.coolant, TEMPERATURE, system)} {escape(one.hardest)}", style=mark,
        )  # fmt: skip
    console.print(table)
    console.print(
        say(
            f"Stays cool: chance the gauge stays under {limit} and nothing boils, on every part of that day "
            f"({answer.draws:,} simulations). Only the best plan at each price is listed; plans that ask the customer "
            "to go without something are extra.",
            system,
        ),
        style="dim",
    )
    chosen = answer.recommended
    if answer.first_check:
        _check_first(answer.first_check, answer.decisive, answer.book.currency, system)
    if chosen is not None:
        without = "If you skip that check, go with" if answer.first_check else "Go with"
        fit = plan_fit(answer.job, chosen.remedies)
        in_place = "" if fit is None else f" {fit.says(system)}"
        console.print(f"{without}: [bold]{escape(naming.plan(chosen.ids, system))}[/bold].{escape(in_place)}")
        for remedy in chosen.remedies:
            words = naming.remedy(remedy.id, system)
            console.print(f"  {escape(words.name)}: {escape(words.note)} {escape(words.limits)}", style="dim")
        console.print(f"  {counted_with(answer.book)}", style="dim")
        if invented := invented_prices(chosen.ids, answer.book, system):
            console.print(f"  {escape(invented)}", style="dim")
        for one in answer.leaves_in:
            later = f"{answer.book.currency}{one.cost:,.0f}"
            console.print(
                f"  It does not cover: {escape(naming.repair(one.repair, system))}, needed in {percent(one.needed)} of "
                f"cases; {later} if that is done later.",
                style="bold",
            )
        ends = chosen.limiting_ambient
        if ends is not None and (told := reached_outside((ends.p10, ends.p90), limit, system)):
            console.print(f"Hardest: {escape(repr(chosen.hardest))}. {told}")
    show_notes([*answer.job.remarks, *answer.remarks], answer.job.assumed_units, system)
    console.print(CAUTION, style="dim")


def counted_with(book: PriceBook) -> str:
    """Prices that no part has, and by which plans are taken or left."""
    lost, without = (f"{escape(book.currency)}{price:,.0f}" for price in (book.lost_day, book.gone_without))
    return (
        f"Picked for lowest expected cost, counting an overheat on the worst day as {lost} and going without A/C as "
        f"{without}."
    )


def _check_first(first: str, check: Decisive | None, currency: str, system: System) -> None:
    """The check that stands first; where the plan depends on it, the plan for whatever it shows."""
    named, hazard = naming.check(first, system), naming.hazard(first, system)
    worth = "." if check is None else f": it decides the job (saves about {currency}{check.saves:,.0f} on average)."
    console.print(f"[bold]Do this check first: {escape(named.name)}[/bold]{worth}")
    console.print(f"  {escape(named.how)}", style="dim")
    if hazard:
        console.print(f"  Warning: {escape(hazard)}", style="bold")
    if check is None:
        return
    for branch in check.branches:
        plan = "no plan on this list stays cool" if branch.plan is None else naming.plan(branch.plan.ids, system)
        seen = escape(naming.branch(check, branch, system))
        console.print(f"  {seen} ({percent(branch.chance)}): [bold]{escape(plan)}[/bold]")
    rest = 1.0 - sum(branch.chance for branch in check.branches)
    if rest > 0.001:
        console.print(f"  anything else ({percent(rest)}): note it in the job and run choose again")


def show_prices(book: PriceBook, system: System = "us") -> None:
    """Print a price book."""
    table = Table("part", book.currency, "", box=box.SIMPLE_HEAD, show_edge=False)
    own = frozenset(book.own)
    for part, price in book.parts.items():
        table.add_row(
            escape(naming.part(part, system)), f"{price:,.2f}".removesuffix(".00"), "" if part in own else "invented"
        )
    console.print(table)
    invented = "" if book.own_labour else " (invented)"
    console.print(
        say(
            f"An hour of labor: {book.currency}{book.labour:,.0f}{invented}. An overheat on the worst day: "
            f"{book.currency}{book.lost_day:,.0f}, going without A/C: {book.currency}{book.gone_without:,.0f}. "
            + ("" if own else "The built-in figures are invented: put your own in on the page The shop, or --keep."),
            system,
        ),
        style="dim",
    )
