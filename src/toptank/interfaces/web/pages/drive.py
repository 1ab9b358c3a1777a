"""Check drive: a log or a few notes of it beside what was forecast, the verdict, and single readings of the gauge."""

from __future__ import annotations

import asyncio
from typing import TYPE_CHECKING

from nicegui import ui

from toptank.interfaces.web import changes
from toptank.interfaces.web.elements.log_place import Question, log_place
from toptank.interfaces.web.elements.log_verdict_view import figure, verdicts
from toptank.interfaces.web.elements.tags import drop_draft, heard, link, tag
from toptank.interfaces.web.pages.remedies import USUAL
from toptank.interfaces.web.work import Stop, work
from toptank.shop.door import (
    after_work,
    answer_cache,
    as_typed,
    kept_logs,
    log_verdicts,
    naming,
    plan_taken,
    sentence,
)
from toptank.units.refusal import Refusal
from toptank.units.sentence import said

if TYPE_CHECKING:
    from collections.abc import Mapping

    from toptank.interfaces.web.elements.tags import Renew, Tag
    from toptank.interfaces.web.frame import JobPage
    from toptank.shop.door import (
        CheckDrive,
        ChoiceAnswer,
        Compared,
    )
    from toptank.units.cancellation import CancelCheck

MARKS = {"as forecast": ("✓ as forecast", "good"), "cooler": ("↓ cooler", "good"), "hotter": ("↑ hotter", "warn"),
         "not better": ("✕ not better", "bad")}  # fmt: skip

HOLDING = 30.0
"""How long a log is held beside the forecast, the choice of remedies not counted [s]."""

GOOD_DRIVE = (
    "The hill of the complaint or one as steep, ten minutes of it at the least; the flat proves nothing.",
    "The same load, and the air conditioning on unless the plan counts on its being off.",
    "Then five minutes standing with the engine running: fan, clutch and shroud show there.",
    "A hot day; read the air in the shade before and after. Somebody else notes: the driver drives.",
    "Stop where it is safe at the customer's limit, at steam, a knock or a warning lamp.",
)


def build(page: JobPage) -> Renew:
    """Build the page. A change by somebody else leaves what is being typed here as it is."""
    with tag("div", classes="lead"):
        tag("h1", "Did it help?")
        tag("p", "Drive the conditions of the order, and hold what was seen beside what was forecast.", "quiet")
    # With a log in hand its verdict comes to stand below it, where the work was seen going on.
    names = ("done", "log", "said", "rows") if page.query.get("log") else ("said", "done", "log", "rows")
    places = {name: tag("div", classes="stack") for name in names}
    said, done, log, rows = (places[name] for name in ("said", "done", "log", "rows"))
    built = page.record.shown.number

    def tell() -> None:
        said.clear()
        with said:
            verdicts(page, kept_logs.said_of(page.record, "verdict"))

    def whole() -> None:
        tell()
        log.clear()
        with log:
            log_place(page, _question(page))
        _work(page, done, rows)

    async def renew() -> None:
        nonlocal built
        if page.record.shown.number != built:
            built = page.record.shown.number
            await page.while_nobody_writes(whole)
            return
        tell()
        _work(page, done, rows)

    whole()
    return renew


def _question(page: JobPage) -> Question:
    plan = page.asked or None

    def ask(checksum: str, told: Mapping[str, str], go_on: CancelCheck) -> object:
        return log_verdicts.verify(
            page.number,
            checksum,
            plan=plan,
            ambient=told["ambient"],
            grade=told["grade"],
            load=told["load"],
            go_on=go_on,
        )

    return Question(
        heading="The drive as it was logged",
        purpose="road test",
        press="Hold it beside the forecast",
        doing="Driving the log, repaired and not repaired",
        usual=HOLDING,
        ask=ask,
        instead=("It was driven before the work", "causes"),
    )


def _work(page: JobPage, done: Tag, rows: Tag) -> None:
    """Work out what the order promised, unless it is at hand."""
    job, plan = page.job, page.asked or None

    stop = Stop()

    def ask() -> tuple[ChoiceAnswer, CheckDrive | Refusal]:
        choice = answer_cache.choice(job, stop.go_on)
        try:
            return choice, answer_cache.check_drive(job, plan, stop.go_on)
        except Refusal as refusal:
            return choice, refusal

    def show(answer: tuple[ChoiceAnswer, CheckDrive | Refusal]) -> None:
        choice, drive = answer
        done.clear()
        with done:
            _done(page, choice)
        if isinstance(drive, Refusal):
            tag("div", str(drive), "note warn", role="alert")
        else:
            _rows(page, drive)

    ready = answer_cache.cached_check_drive(job, plan)
    rows.clear()
    what = "Working out expected readings"
    ready = None if ready is None else (answer_cache.choice(job), ready)
    work(rows, what, USUAL, ask, show, ready=ready, stop=stop, beside=done)


def _done(page: JobPage, choice: ChoiceAnswer) -> None:
    """Which plan was carried out; another one is another address."""
    taken = plan_taken.taken(page.asked, choice)
    with tag("section", classes="sheet", aria_labelledby="done"):
        with tag("div", classes="field"):
            with tag("label", "The work that was done", for_="plan", id="done"):
                tag("small", " as it was ordered")
            with tag("select", id="plan") as box:
                for plan in choice.plans:
                    key = plan_taken.written(plan.plan)
                    here = key == taken
                    if plan.plan or here:  # to do nothing may be the best
                        name = sentence(said(plan.name, page.job.system))
                        tag("option", name, value=key, selected=here or None)
            tag("div", sentence(naming.written_plan(taken, page.job.system)), "says")
        with tag("div", classes="line-up"):
            link("How a drive would go", page.address("route", of=page.asked), "press plain")
        with tag("details"):
            tag("summary", "How to make a drive that proves something")
            with tag("ul"):
                for line in GOOD_DRIVE:
                    tag("li", line)
    heard(box, lambda name: ui.navigate.to(page.address("drive", of=name, log=page.query.get("log", ""))))


def _rows(page: JobPage, drive: CheckDrive) -> None:
    rows = after_work.compared(drive, page.record, page.job.system)
    noted = [one for one in rows if one.verdict]
    with tag("div", classes="lead"):
        tag("h2", "Or single readings, when the gauge has settled")
        tag("p", "For every condition of the order: what it showed without the work, and what to expect now.", "quiet")
    if noted:
        _verdict(page, noted)
    with tag("div", classes="two"):
        for place, one in enumerate(rows):
            _condition(page, place, one)


def _condition(page: JobPage, place: int, one: Compared) -> None:
    with tag("section", classes="sheet", aria_label=f"road test: {one.duty}"):
        with tag("div", classes="line-up apart"):
            tag("h3", one.duty)
            if one.worst:
                tag("span", "worst day", "tag")
            if one.verdict:
                word, look = MARKS[one.verdict]
                tag("span", word, f"tag {look}")
        with tag("div", classes="promised"):
            figure("without the work", one.before)
            figure("to expect after it", one.after)
            figure("seen", ", ".join(one.seen) or "nothing yet")
        if one.says:
            tag("p", one.says)
        _entry(page, place, one.duty)


def _verdict(page: JobPage, noted: list[Compared]) -> None:
    good = [one for one in noted if one.verdict in ("as forecast", "cooler")]
    look = "good" if len(good) == len(noted) else "bad"
    with tag("div", classes=f"note {look}", role="status"):
        tag("p", f"{len(good)} of {len(noted)} conditions that were driven are as forecast or cooler.")
        if len(good) < len(noted):
            link("What else may it be?", f"/job/{page.number}/causes")
        else:
            link("Close the job with what it was", f"/job/{page.number}/record")


def _entry(page: JobPage, place: int, duty: str) -> None:
    typed = {"text": ""}
    with tag("div", classes="field"):
        tag("label", "The gauge showed", for_=f"seen-{place}")
        with tag("div", classes="line-up"):
            such_as = f"such as {as_typed(205, page.job.system)}"
            box = tag("input", id=f"seen-{place}", autocomplete="off", maxlength=40, placeholder=such_as, data_draft="")
            box.style("width: 12rem")
            button = tag("button", "Write it down", "press", type="button")
            button.put("aria_label", f"Write it down: {duty}")
        wrong = tag("div", "", "says", role="alert")
    heard(box, lambda text: typed.update(text=text))

    async def note() -> None:
        try:
            await asyncio.to_thread(after_work.note_after, page.number, duty, typed["text"], system=page.job.system)
        except Refusal as refusal:
            wrong.classes("wrong")
            wrong.set_text(f"{refusal.limit}; {refusal.fix}")
            return
        drop_draft(f"seen-{place}")
        changes.noted(page.number)

    box.on("keydown.enter", note)
    button.on("click", note)
