"""Remedies: the customer's worst day, what each plan would do on it, and which one to take."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any
from urllib.parse import quote

from nicegui import ui

from toptank.faces.web.drawing.loop import dressed
from toptank.faces.web.drawing.trade_off import trade_off
from toptank.faces.web.fields import Form
from toptank.faces.web.pages.causes import bar
from toptank.faces.web.tags import link, press, table, tag
from toptank.faces.web.work import work
from toptank.jobs import at_hand, remedies_form
from toptank.jobs.order.wording import band, chance, gauge_band, money, sentence, time

if TYPE_CHECKING:
    from toptank.faces.web.frame import JobPage

USUAL = 25.0
"""How long a choice takes, its diagnosis included [s]."""

BESIDE = 4
"""Plans side by side at most."""


def build(page: JobPage) -> Any:
    """Build the page; the answer is worked out if it is not at hand."""
    with tag("div", classes="lead"):
        tag("h1", "What would hold the worst day")
        tag(
            "p",
            "The same possible vehicles go through every plan: what is in doubt about this one stays in doubt in each.",
            "quiet",
        )
    _worst_day(page)
    place = tag("div", classes="stack")
    job = page.job

    def show(answer: Any) -> None:
        _answer(page, answer)

    ready = at_hand.choice_if_there(job)
    work(place, "Trying remedies on possible vehicles", USUAL, lambda: at_hand.choice(job), show, ready=ready)


def _worst_day(page: JobPage) -> None:
    from toptank.jobs import edit_verbs

    job, form = page.job, Form(page)
    with tag("details", classes="sheet folded", open=bool(job.worst_day) or None):
        tag("summary", f"The worst day: {remedies_form.worst_day_words(job)}")
        if not job.worst_day:
            tag("p", "The customer named none, so a long climb, the flat and hot idle on a hot day are taken.")
            press("Change it", lambda: page.do(edit_verbs.set_worst_day, remedies_form.offered_rows(job)))
            return
        for place, (name, fields) in enumerate(remedies_form.worst_day_form(page.document, job)):
            with tag("fieldset"):
                tag("legend", name)
                with tag("div", classes="fields"):
                    for field in fields:
                        form.put(field)
                if len(job.worst_day) > 1:
                    press("Take out", page.taker("worst_day", place), "plain", aria_label=f"Take out {name}")
        with tag("div", classes="line-up"):
            named = {"name": remedies_form.next_name(job)}
            press("Add a condition", lambda: page.do(edit_verbs.add_row, "worst_day", named))
            press("Back to what is offered", lambda: page.do(edit_verbs.set_worst_day, []), "plain")


def _answer(page: JobPage, answer: Any) -> None:
    for remark in answer.remarks:
        tag("div", remark, "note warn")
    if answer.recommended is not None:
        _recommended(page, answer)
    with tag("section", classes="sheet", aria_labelledby="plans"):
        tag("h2", "Every plan that none beats", id="plans")
        tag("p", "From the cheapest on: each further one costs more and holds better.", "small quiet")
        dressed()
        with tag("div", classes="strip-frame", tabindex="0", role="region", aria_label="price against chance to hold"):
            ui.html(trade_off(answer, page.job.system), sanitize=False)
        _plans(page, answer)
    _beside(page, answer)


def _recommended(page: JobPage, answer: Any) -> None:
    plan = answer.recommended
    with tag("section", classes="sheet", aria_labelledby="taken"):
        tag("span", "take this", "small quiet")
        tag("h2", sentence(plan.name), id="taken")
        nothing = chance(answer.outlooks[0].holds)
        tag(
            "p",
            f"Holds the worst day in {chance(plan.holds)} of the possible vehicles (doing nothing: {nothing}), for "
            f"{money(plan.cost, answer.book.currency)} and {time(plan.minutes)}. Hardest: {plan.hardest}.",
        )
        if plan.limiting_ambient is not None:
            reach = band((plan.limiting_ambient.p10, plan.limiting_ambient.p90), page.job.system)
            tag("p", f"There the customer's limit is reached at {reach} outside.", "quiet")
        for remedy in plan.remedies:
            if remedy.limits:
                tag("p", f"{sentence(remedy.name)}: {remedy.limits}", "small quiet")
        with tag("div", classes="line-up"):
            link("Write the order", _order(page, plan), "press main")
            link("How a drive would go", page.address("route", plan=plan.name), "press plain")


def _order(page: JobPage, plan: Any) -> str:
    return f"/job/{page.number}/order?of={quote(plan.name)}"


def _plans(page: JobPage, answer: Any) -> None:
    with tag("details"):
        tag("summary", "Order another plan")
        with tag("ol", classes="bars"):
            for plan in answer.outlooks:
                if plan.remedies:
                    with tag("li"):
                        bar(sentence(plan.name), plan.holds, before=answer.outlooks[0].holds, classes="good")
                        with tag("div", classes="line-up apart"):
                            cost = money(plan.cost, answer.book.currency)
                            tag("span", f"{cost}, {time(plan.minutes)}; hardest: {plan.hardest}", "small quiet")
                            link("Order this", _order(page, plan), "press plain", aria_label=f"Order this: {plan.name}")


def _beside(page: JobPage, answer: Any) -> None:
    """Up to four plans side by side: nothing, the recommended one, the surest, and the one between."""
    plans = remedies_form.side_by_side(answer, BESIDE)
    system = page.job.system
    with tag("section", classes="sheet", aria_labelledby="beside"):
        tag("h2", "Side by side", id="beside")
        tag("p", "What the gauge shows in 8 of 10 possible vehicles.", "small quiet")
        with table("plans side by side", ("", *(sentence(plan.name) for plan in plans))):
            _row("holds the worst day", [chance(plan.holds) for plan in plans])
            _row("cost", [money(plan.cost, answer.book.currency) for plan in plans])
            _row("work", [time(plan.minutes) for plan in plans])
            for place, duty in enumerate(plans[0].duties):
                cells = [_gauge(plan.duties[place], system) for plan in plans]
                _row(duty.duty, cells)


def _gauge(duty: Any, system: Any) -> str:
    if duty.under_boiling < 0.5:
        return "boils"
    return gauge_band(duty.gauge.p10, duty.gauge.p90, float("inf"), system) + (
        "" if duty.under_boiling > 0.9 else f", boils in {chance(1.0 - duty.under_boiling)}"
    )


def _row(name: str, cells: list[str]) -> None:
    with tag("tr"):
        tag("th", name, scope="row")
        for cell in cells:
            tag("td", cell)
