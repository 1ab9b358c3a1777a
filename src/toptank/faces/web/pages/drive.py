"""Check drive: what the order promised, what was seen after the work, whether it did what was forecast."""

from __future__ import annotations

import asyncio
from typing import TYPE_CHECKING, Any

from toptank.faces.web import changes
from toptank.faces.web.pages.remedies import USUAL
from toptank.faces.web.tags import drop_draft, link, tag
from toptank.faces.web.work import work
from toptank.jobs import after_verbs, at_hand
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from toptank.faces.web.frame import JobPage

MARKS = {"as forecast": ("✓ as forecast", "good"), "cooler": ("↓ cooler", "good"), "hotter": ("↑ hotter", "warn"),
         "not better": ("✕ not better", "bad")}  # fmt: skip


def build(page: JobPage) -> Any:
    """Build the page."""
    with tag("div", classes="lead"):
        tag("h1", "Did it help?")
        tag("p", "Drive the conditions of the order, read the gauge when it has settled, write it down here.", "quiet")
    place = tag("div", classes="stack")
    job, plan = page.job, page.asked or None

    def show(drive: Any) -> None:
        _rows(page, drive)

    ready = at_hand.check_drive_if_there(job, plan)
    work(place, "Reckoning the readings to expect", USUAL, lambda: at_hand.check_drive(job, plan), show, ready=ready)


def _rows(page: JobPage, drive: Any) -> None:
    rows = after_verbs.compared(drive, page.record, page.job.system)
    noted = [one for one in rows if one.verdict]
    if noted:
        _verdict(page, noted)
    for place, one in enumerate(rows):
        with tag("section", classes="sheet", aria_label=f"check drive: {one.duty}"):
            with tag("div", classes="line-up apart"):
                tag("h2", one.duty)
                if one.worst:
                    tag("span", "worst day", "tag")
                if one.verdict:
                    word, look = MARKS[one.verdict]
                    tag("span", word, f"tag {look}")
            with tag("div", classes="promised"):
                _figure("without the work", one.before)
                _figure("to expect after it", one.after)
                _figure("seen", ", ".join(one.seen) or "nothing yet")
            if one.says:
                tag("p", one.says)
            _entry(page, place, one.duty)


def _verdict(page: JobPage, noted: list[Any]) -> None:
    good = [one for one in noted if one.verdict in ("as forecast", "cooler")]
    look = "good" if len(good) == len(noted) else "bad"
    with tag("div", classes=f"note {look}", role="status"):
        tag("p", f"{len(good)} of {len(noted)} conditions that were driven are as forecast or cooler.")
        if len(good) < len(noted):
            link("What else may it be?", f"/job/{page.number}/causes")
        else:
            link("Close the job with what it was", f"/job/{page.number}/record")


def _figure(name: str, words: str) -> None:
    with tag("div"):
        tag("div", name, "small quiet")
        tag("b", words)


def _entry(page: JobPage, place: int, duty: str) -> None:
    typed = {"text": ""}
    with tag("div", classes="field"):
        tag("label", "The gauge showed", for_=f"seen-{place}")
        with tag("div", classes="line-up"):
            box = tag(
                "input", id=f"seen-{place}", autocomplete="off", maxlength=40, placeholder="such as 205", data_draft=""
            )
            box.style("width: 12rem")
            button = tag("button", "Write it down", "press", type="button")
            button.put("aria_label", f"Write it down: {duty}")
        wrong = tag("div", "", "says", role="alert")
    box.on("input", lambda event: typed.update(text=str(event.args or "")), js_handler="(e) => emit(e.target.value)")

    async def note() -> None:
        try:
            await asyncio.to_thread(after_verbs.note_after, page.number, duty, typed["text"], system=page.job.system)
        except Refusal as refusal:
            wrong.classes("wrong")
            wrong.set_text(f"{refusal.limit}; {refusal.fix}")
            return
        drop_draft(f"seen-{place}")
        changes.noted(page.number)

    box.on("keydown.enter", note)
    button.on("click", note)
