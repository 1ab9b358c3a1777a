"""The first page: every job, the search, and the way to a new one."""

from __future__ import annotations

import asyncio
import json
from datetime import datetime
from operator import attrgetter
from typing import TYPE_CHECKING, cast
from urllib.parse import urlencode

from nicegui import ui

from toptank.interfaces.web.elements.tags import drop_draft, link, press, say, stands_first, tag
from toptank.interfaces.web.shell import plain_page
from toptank.shop.door import job_verbs, naming, service
from toptank.units.conversion import SYSTEM_WORDS, system_named
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from datetime import date

    from toptank.interfaces.web.elements.tags import Event, Tag
    from toptank.shop.door import JobRow


MOST_LETTERS = 200
PAUSE = 0.2
"""The list follows the typing at this distance [s]."""

SHOWN_STATES = {
    "": "All", "open": "Open", "in_work": "In work", "waiting_for_parts": "Waiting for parts",
    "waiting_for_customer": "Waiting for customer", "closed": "Closed",
}  # fmt: skip


async def page(search: str, state: str) -> None:
    """Build the page."""
    jobs = _Jobs(search, state)
    await jobs.read()
    with plain_page("Jobs"):
        with tag("div", classes="lead"):
            tag("h1", "Jobs")
            tag("p", "Every vehicle that ran hot, from what its driver said to what was done about it.", "quiet")
        anything = bool(jobs.rows or search or jobs.state or jobs.trouble)
        if anything:
            jobs.show()
        with tag("div", classes="line-up"):
            link("New job by touch", "/new", "press main")
        with tag("div", classes="two"):
            await _new()
            _example(first=not anything)


class _Jobs:
    """The list of one open page: what is searched for, in which state, and what was found."""

    def __init__(self, search: str, state: str) -> None:
        self.search = search[:MOST_LETTERS]
        self.state = state if state in job_verbs.STATES else ""
        self.rows: Sequence[JobRow] = ()
        self.trouble = ""
        self.buttons: dict[str, Tag] = {}

    async def read(self) -> None:
        """Look for the jobs."""
        try:
            self.rows = await asyncio.to_thread(job_verbs.listed, search=self.search, state=self.state or None)
            self.trouble = ""
        except Refusal as refusal:
            self.rows, self.trouble = (), str(refusal)

    def show(self) -> None:
        """Put search, states and list here."""
        with tag("section", classes="sheet", aria_label="jobs"):
            with tag("form", classes="stack", method="get", action="/", role="search"):
                with tag("div", classes="field"):
                    tag("label", "Search: plate, customer, vehicle, complaint, notes", for_="search")
                    box = tag(
                        "input", id="search", name="search", type="search", maxlength=MOST_LETTERS, autocomplete="off"
                    )
                    stands_first(box, self.search)
                with tag("div", classes="line-up one-of", role="group", aria_label="state"):
                    for word, name in SHOWN_STATES.items():
                        self._state_button(word, name)
            box.on("input", self._typed, js_handler="(e) => emit(e.target.value)", throttle=PAUSE, leading_events=False)
            self.place = tag("div", aria_live="polite")
        self._fill()

    def _state_button(self, word: str, name: str) -> None:
        chosen = "true" if word == self.state else "false"
        button = tag("button", name, "press plain", type="submit", name="state", value=word, aria_pressed=chosen)
        # Without a connection the form asks for the page anew; with one the list alone is filled.
        button.on("click", lambda: self._picked(word), js_handler="(e) => { e.preventDefault(); emit(); }")
        self.buttons[word] = button

    async def _typed(self, event: Event) -> None:
        self.search = str(event.args or "")[:MOST_LETTERS]
        await self._anew()

    async def _picked(self, state: str) -> None:
        self.state = state
        for word, button in self.buttons.items():
            button.put("aria_pressed", "true" if word == state else "false")
            button.update()
        await self._anew()

    async def _anew(self) -> None:
        asked = (self.search, self.state)
        await self.read()
        if asked != (self.search, self.state):  # somebody typed on: that answer follows
            return
        query = urlencode({key: text for key, text in (("search", self.search), ("state", self.state)) if text})
        ui.run_javascript(f"history.replaceState(null, '', {json.dumps('/?' + query if query else '/')})")
        self.place.clear()
        with self.place:
            self._fill_here()

    def _fill(self) -> None:
        with self.place:
            self._fill_here()

    def _fill_here(self) -> None:
        if self.trouble:
            tag("div", self.trouble, "note bad", role="alert")
            return
        if not self.rows:
            tag("p", "No job fits: try fewer letters, or another state.", "quiet")
            return
        today = datetime.now().astimezone().date()
        with tag("ol", classes="jobs"):
            for row in sorted(self.rows, key=attrgetter("number"), reverse=True):
                _line(row, today)


def _line(row: JobRow, today: date) -> None:
    with tag("li"), tag("a", href=f"/job/{row.number}/complaint"):
        tag("span", str(row.number), "no", aria_label=f"job {row.number}")
        tag("span", row.title, "what")
        with tag("span", classes="state"):
            stands = "good" if row.state == "closed" else "warn" if row.waiting_for else ""
            tag("span", SHOWN_STATES[row.stands].lower(), f"tag {stands}".strip())
            if row.promised and row.state == "open":
                late = row.is_late(today)
                tag("span", f" {'late: ' if late else ''}promised {row.promised}", "small late" if late else "small")
            else:
                tag("span", f" saved {row.saved[:10]}", "small quiet")
        if who := ", ".join(filter(None, (row.customer, row.registration))):
            tag("span", who, "who small")
        if row.found:
            tag("span", f"It was: {naming.causes_found(row.found)}.", "who small")
        tag("span", row.complaint or "no complaint noted yet", "words")


async def _new() -> None:
    vehicles = (await asyncio.to_thread(service.vehicles)).vehicles
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
                placeholder="plate, color, owner's word for it",
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
