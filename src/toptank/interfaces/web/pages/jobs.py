"""The first page: every job, the search, and the way to a new one."""

from __future__ import annotations

import asyncio
from operator import attrgetter
from typing import TYPE_CHECKING, cast

from nicegui import ui

from toptank.interfaces.web.elements.tags import drop_draft, link, press, say, tag
from toptank.interfaces.web.frame import plain_page
from toptank.shop.door import job_verbs, service
from toptank.units.conversion import SYSTEM_WORDS, system_named
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from toptank.interfaces.web.elements.tags import Tag
    from toptank.shop.door import JobRow


async def page(search: str, state: str) -> None:
    """Build the page."""
    state = state if state in ("open", "closed") else ""
    trouble = ""
    try:
        rows = await asyncio.to_thread(job_verbs.listed, search=search, state=state or None)
    except Refusal as refusal:
        rows, trouble = (), str(refusal)
    with plain_page("Jobs"):
        with tag("div", classes="lead"):
            tag("h1", "Jobs")
            tag("p", "Every vehicle that ran hot, from what its driver said to what was done about it.", "quiet")
        if trouble:
            tag("div", trouble, "note bad", role="alert")
        if rows or search or state:
            _list(rows, search, state)
        with tag("div", classes="line-up"):
            link("New job by touch", "/new", "press main")
        with tag("div", classes="two"):
            await _new()
            _example(first=not rows and not search and not state)


def _list(rows: Sequence[JobRow], search: str, state: str) -> None:
    with tag("section", classes="sheet", aria_label="jobs"):
        with tag("form", classes="line-up apart", method="get", action="/", role="search"):
            with tag("div", classes="field"):
                tag("label", "Search in titles, complaints and notes", for_="search")
                tag("input", id="search", name="search", value=search, type="search", maxlength=200)
            with tag("div", classes="line-up"):
                for word, name in (("", "All"), ("open", "Open"), ("closed", "Closed")):
                    chosen = "true" if word == state else "false"
                    tag("button", name, "press plain", type="submit", name="state", value=word, aria_pressed=chosen)
        if not rows:
            tag("p", "No job has all of these words.", "quiet")
            return
        with tag("ol", classes="jobs"):
            for row in sorted(rows, key=lambda one: one.number, reverse=True):
                with tag("li"), tag("a", href=f"/job/{row.number}/complaint"):
                    tag("span", str(row.number), "no", aria_label=f"job {row.number}")
                    tag("span", row.title, "what")
                    with tag("span", classes="state"):
                        tag("span", row.state, "tag good" if row.state == "closed" else "tag")
                        tag("span", f" saved {row.saved[:10]}", "small quiet")
                    tag("span", row.complaint or "no complaint noted yet", "words")


async def _new() -> None:
    vehicles = await asyncio.to_thread(service.vehicles)
    with tag("section", classes="sheet", aria_labelledby="new-job"):
        tag("h2", "New job", id="new-job")
        with tag("div", classes="field"):
            tag("label", "What is it most like?", for_="like")
            with tag("select", id="like", aria_describedby="like-says"):
                tag("option", "choose the nearest", value="")
                for one in sorted(vehicles, key=attrgetter("title")):
                    tag("option", one.title, value=one.name)
            tag("div", "It stands in for whatever nobody has measured yet.", "says", id="like-says")
        with tag("div", classes="field"):
            tag("label", "What do you call it?", for_="title")
            tag(
                "input",
                id="title",
                data_draft="",
                maxlength=120,
                autocomplete="off",
                placeholder="plate, colour, owner's word for it",
            )
        with tag("div", classes="field"):
            tag("label", "What does the driver say?", for_="complaint")
            tag(
                "textarea",
                id="complaint",
                data_draft="",
                maxlength=4000,
                placeholder="where, when, how far up the gauge",
            )
        with tag("fieldset"):
            tag("legend", "Units", "unseen")
            with tag("div", classes="line-up"):
                for system, told in SYSTEM_WORDS.items():
                    with tag("label", classes="line-up"):
                        tag("input", type="radio", name="units", value=system, checked=(system == "us") or None)
                        tag("span", told)
        wrong = tag("div", "", "wrong", role="alert")

        async def open_it() -> None:
            script = (
                "({like: document.getElementById('like').value, title: document.getElementById('title').value,"
                " complaint: document.getElementById('complaint').value,"
                " units: document.querySelector('input[name=units]:checked').value})"
            )
            told = _told(cast("Mapping[str, object]", await ui.run_javascript(script)))
            if told["like"]:
                await _opened(told, wrong)
            else:
                wrong.set_text("Choose first what it is most like: the nearest in age, engine and size will do.")

        press("Open the job", open_it, "main")


def _told(said: Mapping[str, object]) -> dict[str, str]:
    return {key: str(said.get(key, ""))[:4000] for key in ("like", "title", "complaint", "units")}


async def _opened(said: dict[str, str], wrong: Tag) -> None:
    system = system_named(said["units"])
    try:
        opened = await asyncio.to_thread(
            job_verbs.open_told, said["like"], title=said["title"], complaint=said["complaint"], system=system
        )
    except Refusal as refusal:
        wrong.set_text(str(refusal))
        return
    drop_draft("title")
    drop_draft("complaint")
    ui.navigate.to(f"/job/{opened.job}/complaint")


def _example(*, first: bool) -> None:
    with tag("section", classes="sheet", aria_labelledby="example"):
        tag("h2", "The example", id="example")
        tag(
            "p",
            "An orchard's tour minibus that climbs past the mark on the ridge road. Measured, read off and guessed "
            "as on any day; all of it is invented.",
        )
        if first:
            tag("p", "Open it to see every page filled in, then open a job of your own.")

        async def open_it() -> None:
            try:
                opened = await asyncio.to_thread(job_verbs.open_example)
            except Refusal as refusal:
                say(str(refusal))
                return
            ui.navigate.to(f"/job/{opened.job}/complaint")

        with tag("div", classes="line-up"):
            press("Open the example", open_it, "main" if first else "")
        tag("h3", "How a job goes")
        with tag("ol"):
            for words in (
                "Write down what the driver saw, and where.",
                "Measure what is easy; guess nothing that a tape can tell.",
                "Let the causes be weighed, make the check that tells most per minute.",
                "Choose what holds the worst day, see whether it fits.",
                "Print the order; after the drive, compare with the readings it promised.",
            ):
                tag("li", words)
