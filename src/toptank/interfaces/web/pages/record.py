"""The record: what was it, notes, photos and logs, every revision, and the file of the job to carry away."""

from __future__ import annotations

import asyncio
from datetime import datetime
from typing import TYPE_CHECKING

from toptank.interfaces.web import changes
from toptank.interfaces.web.elements.tags import drop_draft, link, press, say, table, tag
from toptank.interfaces.web.upload import upload
from toptank.shop.door import (
    answer_cache,
    bursts,
    change_words,
    field_words,
    job_verbs,
    naming,
    next_due,
    ticks,
    what_was_done,
)
from toptank.shop.door import diagnose_verbs as diagnose
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from collections.abc import Sequence

    from toptank.interfaces.web.elements.tags import Event
    from toptank.interfaces.web.frame import JobPage
    from toptank.shop.door import Burst, Revision

AT_THE_END = (("billed", "What was billed", "parts and work"), ("odometer-out", "Odometer when it left", ""))
"""What is asked when a job is closed, each box by its id; kept as a note of the job."""

CLOSING = "() => emit(['cause', 'how', 'billed', 'odometer-out'].map((id) => document.getElementById(id).value))"

SUSPECTS = 8
"""Causes of the diagnosis that head the list of what it was."""

FEW = 3
"""Fields of a burst that are named at once."""


async def build(page: JobPage) -> None:
    """Build the page."""
    history = await asyncio.to_thread(job_verbs.history, page.number)
    with tag("div", classes="lead"):
        tag("h1", "The record")
        confirmed = page.job.confirmed
        was = "It is not known yet what it was."
        if confirmed is not None:
            was = f"It was: {naming.causes(confirmed.causes, page.job.system)}. The job is closed."
        tag("p", was, "answer")
        tag("p", "Nothing here is ever overwritten.", "quiet")
    with tag("div", classes="two"):
        with tag("div", classes="stack"):
            _closing(page)
            _done(page)
            _notes(page)
        with tag("div", classes="stack"):
            _attachments(page)
            _next_due(page)
    _revisions(page, history)


def _closing(page: JobPage) -> None:
    confirmed = page.job.confirmed
    with tag("section", classes="sheet", aria_labelledby="was"):
        tag("h2", "What was it?", id="was")
        if confirmed is not None:
            tag("p", f"{naming.causes(confirmed.causes, page.job.system)}. {confirmed.how}")
            press("Open the job again", lambda: page.do(job_verbs.reopen), "plain")
            return
        tag("p", "Not known yet.", "quiet on-paper-only")
        with tag("div", classes="field not-on-paper"):
            tag("label", "Cause that was found", for_="cause")
            with tag("select", id="cause"):
                tag("option", "choose", value="")
                for one in _likeliest_first(page):
                    tag("option", naming.cause(one, page.job.system), value=one)
        with tag("div", classes="field not-on-paper"):
            tag("label", "How it was found", for_="how")
            tag("input", id="how", maxlength=300, autocomplete="off", data_draft="")

        for key, label, hint in AT_THE_END:
            with tag("div", classes="field not-on-paper"):
                tag("label", label, for_=key)
                tag("input", id=key, maxlength=60, autocomplete="off", placeholder=hint, data_draft="")

        async def close(event: Event) -> None:
            cause, how, *told = map(str, event.args)
            if not cause:
                say("Choose the cause first.")
                return
            labels = [label for _, label, _ in AT_THE_END]
            said = [f"{label}: {text.strip()}" for label, text in zip(labels, told, strict=True) if text.strip()]
            if said:
                await page.do(job_verbs.add_note, "; ".join(said))
            if await page.do(job_verbs.close, [cause], how=how.strip()) is not None:
                for key, _, _ in AT_THE_END:
                    drop_draft(key)

        # What stands in the boxes when it is pressed counts: a choice made before the page was connected too.
        tag("button", "Close the job", "press main", type="button").on("click", close, js_handler=CLOSING)


def _done(page: JobPage) -> None:
    """What was ordered, ticked and seen: the rest of a closed job's story."""
    lines = what_was_done(page.job, page.record)
    if not lines:
        return
    with tag("section", classes="sheet", aria_labelledby="done"):
        tag("h2", "What was done", id="done")
        with tag("ul"):
            for line in lines:
                tag("li", line)


def _likeliest_first(page: JobPage) -> list[str]:
    """Every cause: those that the diagnosis names first, where it is at hand, then the others by name."""
    every = sorted((one.id for one in diagnose.causes()), key=lambda one: naming.cause(one, page.job.system))
    found = answer_cache.cached_diagnosis(page.job)
    ranked = [] if found is None else [one.cause for one in found.causes if one.cause in every][:SUSPECTS]
    return list(dict.fromkeys((*ranked, *every)))


def _notes(page: JobPage) -> None:
    with tag("section", classes="sheet", aria_labelledby="notes"):
        tag("h2", "Notes", id="notes")
        with tag("div", classes="field not-on-paper"):
            tag("label", "Another note", for_="note")
            box = tag("textarea", id="note", maxlength=4000, data_draft="")
        typed = {"text": ""}
        take = "(e) => emit(e.target.value)"
        box.on("input", lambda event: typed.update(text=str(event.args or "")), js_handler=take)

        async def add() -> None:
            if not typed["text"].strip():
                say("Type the note first.")
                return
            try:
                await asyncio.to_thread(job_verbs.add_note, page.number, typed["text"].strip())
            except Refusal as refusal:
                say(str(refusal))
                return
            drop_draft("note")
            changes.noted(page.number)

        press("Keep the note", add)
        with tag("ul", classes="ticks"):
            for note in reversed([one for one in page.record.notes if not ticks.is_tick(one)]):
                with tag("li"):
                    tag("div", when(note.at) + (f", {note.author}" if note.author else ""), "small quiet")
                    tag("p", note.text)


def _attachments(page: JobPage) -> None:
    with tag("section", classes="sheet", aria_labelledby="files"):
        tag("h2", "Photos and logs", id="files")
        with tag("ul", classes="ticks"):
            for one in page.record.attachments:
                with tag("li"):
                    link(one.name, f"/job/{page.number}/file/{one.checksum}", download=True)
                    size = f"{one.size / 1024:,.0f} KiB" if one.size >= 1024 else f"{one.size} bytes"
                    tag("div", f"{size}, {when(one.at)}", "small quiet")
        if not page.record.attachments:
            tag("p", "None yet.", "quiet")
        with tag("div", classes="not-on-paper"):
            upload(page.number, camera=True)
        with tag("div", classes="line-up"):
            link("The job as a file", f"/job/{page.number}/job.toml", "press plain", download=True)


def _next_due(page: JobPage) -> None:
    with tag("section", classes="sheet", aria_labelledby="due"):
        tag("h2", "What is in it, and when it is due", id="due")
        with tag("ul"):
            for line in next_due(page.job):
                tag("li", line)


def _revisions(page: JobPage, history: Sequence[Revision]) -> None:
    with tag("section", classes="sheet", aria_labelledby="revisions"):
        tag("h2", "Every revision", id="revisions")
        tag(
            "p",
            "What was typed into one field within a minute stands together; Undo takes it back together.",
            "small quiet",
        )
        with table("every revision", ("no.", "what, when and by whom", "")):
            for burst in reversed(bursts(history)):
                first, last = burst[0], burst[-1]
                with tag("tr"):
                    tag("td", str(last.number) if first is last else f"{first.number} to {last.number}", "number")
                    with tag("td"):
                        _told(page, burst)
                        tag("div", ", by ".join(filter(None, (when(last.at), last.author))), "small quiet")
                    with tag("td"):
                        _return(page, last)


def _told(page: JobPage, burst: Burst) -> None:
    """What was saved: one thing, or each of a burst with the way back to it."""
    if len(burst) == 1:
        tag("span", change_words(burst[0].note, page.job.system) or "saved")
        return
    told = (field_words(one.note.partition(":")[0], page.job.system) for one in burst)
    paths = list(dict.fromkeys(told))
    with tag("details"):
        tag("summary", f"{', '.join(paths[:FEW])}{' and more' if len(paths) > FEW else ''}: saved {len(burst)} times")
        with tag("ul", classes="ticks"):
            for one in reversed(burst):
                with tag("li", classes="line-up apart"):
                    tag("span", f"{one.number}: {change_words(one.note, page.job.system) or 'saved'}")
                    if one is not burst[-1]:
                        _return(page, one)


def _return(page: JobPage, one: Revision) -> None:
    if one.number != page.record.newest:
        told = f"Back to this: revision {one.number}"
        press("Back to this", lambda: page.do(job_verbs.revert, one.number), "plain", aria_label=told)


def when(at: str) -> str:
    """Write a time by the clock of the shop, to the minute; it is kept in UTC."""
    return f"{datetime.fromisoformat(at).astimezone():%Y-%m-%d %H:%M}"
