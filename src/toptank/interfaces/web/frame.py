"""The frame of every page: head, steps of the job, the page itself, the way on. Every page is built from the record."""

from __future__ import annotations

import asyncio
import json
from collections.abc import Awaitable
from contextlib import suppress
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Concatenate, ParamSpec, TypeAlias, TypeVar, cast
from urllib.parse import urlencode

from nicegui import ui

from toptank.interfaces.web import changes
from toptank.interfaces.web.elements.steps_done import steps_done
from toptank.interfaces.web.elements.tags import link, press, say, tag
from toptank.interfaces.web.elements.what_if import what_if_strip
from toptank.interfaces.web.shell import dress, foot, light_switch, plain_page, way_out
from toptank.shop.door import edit_verbs as edit
from toptank.shop.door import job_document as document
from toptank.shop.door import job_verbs, plan_taken, row_names
from toptank.units.conversion import SYSTEM_WORDS, system_named
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from nicegui.client import Client

    from toptank.interfaces.web.elements.tags import Event, Renew, Tag
    from toptank.shop.door import ChoiceAnswer, DiagnosisAnswer, Job, JobRecord, Names

P = ParamSpec("P")
T = TypeVar("T")

Build: TypeAlias = "Callable[[JobPage], Renew | Awaitable[Renew | None] | None]"
"""What builds a page; where it returns a function, that one is called on a change instead of building anew."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """A step of the job: its place in the address, its name, what is done there."""

    key: str
    name: str
    does: str


STEPS = (
    Step(key="complaint", name="Complaint", does="and readings"),
    Step(key="sheet", name="Sheet", does="what is in it"),
    Step(key="causes", name="Causes", does="and next check"),
    Step(key="remedies", name="Remedies", does="on the worst day"),
    Step(key="fit", name="Fit", does="does it go in"),
    Step(key="coolant", name="Coolant", does="and cap"),
    Step(key="order", name="Work order", does="on paper"),
    Step(key="drive", name="Road test", does="did it help"),
    Step(key="record", name="Record", does="who, what, when"),
)
LONGEST_WRITING, WRITING = 120, 0.5
"""How often a page that is to be built anew asks whether somebody writes on it [1], and at what distance [s]."""

FIRST_WITH_STRIP = 2
"""From the third step on the what-if strip stands under the page."""


@dataclass(slots=True, kw_only=True)
class JobPage:
    """What a page of a job has at hand; `read_again` brings it up to date.

    `query` is what the address says behind its question mark.
    """

    number: int
    step: str
    record: JobRecord
    job: Job
    rows: Names
    client: Client
    query: Mapping[str, str] = field(default_factory=dict[str, str])
    head: Tag | None = None
    beside: Sequence[tuple[str, ...]] = ()
    """Plans that were picked to stand side by side; a page that is built anew keeps them."""
    last_diagnosis: DiagnosisAnswer | None = None
    last_choice: ChoiceAnswer | None = None
    """What stood here before a change: it stays, dimmed, until the new answer is there."""
    announced: tuple[str, Sequence[tuple[str, float]]] | None = None
    """The outcome that was pressed, and what had been announced for it: causes with their chances [%]."""

    def address(self, step: str, **named: str) -> str:
        """Return the address of another page of the job; what is empty is left out."""
        query = urlencode({key.rstrip("_"): value for key, value in named.items() if value})
        return f"/job/{self.number}/{step}" + (f"?{query}" if query else "")

    async def read_again(self) -> None:
        """Read the newest revision."""
        self.record, self.job, self.rows = await asyncio.to_thread(_read, self.number)

    async def while_nobody_writes(self, build: Callable[[], object]) -> None:
        """Build a part of the page anew once nobody writes on it; whoever stood in a field stands there again."""
        place: object = None
        with suppress(TimeoutError):  # a browser that is gone has nobody who writes
            for _ in range(LONGEST_WRITING):
                if self.client.is_deleted or not await self.client.run_javascript("window.toptank.writes()"):
                    break
                await asyncio.sleep(WRITING)
            place = cast("object", await self.client.run_javascript("window.toptank.place()"))
        if self.client.is_deleted:
            return
        answer = build()
        if isinstance(answer, Awaitable):
            await answer
        if place:
            self.client.run_javascript(f"window.toptank.backTo({json.dumps(place)})")

    @property
    def asked(self) -> str:
        """The plan that the address names, else the one that was taken; empty where neither is there."""
        return plan_taken.key(self.query.get("of") or self.job.plan_taken)

    def row_of(self, path: str) -> str:
        """Return the name of the row of a field such as "duty.1.speed"; empty for a field of no list."""
        key, _, rest = path.partition(".")
        place, names = rest.partition(".")[0], self.rows.get(key, ())
        return names[int(place)] if place.isdigit() and int(place) < len(names) else ""

    def taker(self, key: str, place: int) -> Callable[[], Awaitable[object]]:
        """Return what takes the row out that stands at a place now, wherever it stands when it is pressed."""
        row = self.row_of(f"{key}.{place}")
        return lambda: self.do(edit.remove_row, key, place, row=row)

    @property
    def document(self) -> dict[str, object]:
        """The tables of the job as they were typed."""
        return document.parsed(self.record.shown.text)

    async def do(self, verb: Callable[Concatenate[int, P], T], *arguments: P.args, **named: P.kwargs) -> T | None:
        """Let a verb change the job, and tell every page; a refusal is said, and None comes back."""
        try:
            saved = await asyncio.to_thread(verb, self.number, *arguments, **named)
        except Refusal as refusal:
            say(f"Not done: {refusal}")
            return None
        revision = getattr(saved, "number", None)
        if revision is not None and hasattr(saved, "checksum"):
            changes.changed(self.number, revision)
        return saved


def _read(number: int) -> tuple[JobRecord, Job, Names]:
    record = job_verbs.record(number)
    return record, job_verbs.job_of_record(record), row_names.names_of(record.shown)


async def job_page(
    number: int, step: str, build: Build, query: Mapping[str, str] | None = None, *, title: str = ""
) -> None:
    """Build a page of a job; it is built anew, below its head, whenever somebody changes the job.

    `build` is called with the page; where it returns a function, that one is called on a change instead of building.
    `title` names a page that is no step of its own, but stands beside one.
    """
    try:
        record, job, rows = await asyncio.to_thread(_read, number)
    except Refusal as refusal:
        _no_job(refusal)
        return
    place = next(i for i, one in enumerate(STEPS) if one.key == step)
    client, named = ui.context.client, dict(query or {})
    page = JobPage(number=number, step=step, record=record, job=job, rows=rows, client=client, query=named)
    dress(f"{title or STEPS[place].name}: {record.shown.title}")
    link("Skip to the page", "#page", "skip")
    with tag("header", classes="top"):
        page.head = tag("div", classes="top-in")
        _head(page)
    steps = tag("nav", classes="steps", aria_label="steps of the job")
    _steps(steps, page)
    with tag("div", classes="page", tabindex="-1") as main:
        main.props["id"] = "page"
        body = tag("div", classes="stack")
        with body:
            renew = await _built(build, page)
        strip = what_if_strip(number) if place >= FIRST_WITH_STRIP else None
        _onward(number, place)
    foot()

    one_by_one = asyncio.Lock()  # two changes at once would both fill the page

    async def told() -> None:
        async with one_by_one:
            await show_anew()

    async def all_anew() -> None:
        await page.read_again()  # the writing took a while
        body.clear()
        with body:
            await _built(build, page)

    async def show_anew() -> None:
        await page.read_again()
        if page.client.is_deleted:  # closed while it was read
            return
        _head(page)
        _steps(steps, page)
        if renew is not None:
            await renew()
        else:
            await page.while_nobody_writes(all_anew)
        if strip is not None:
            await strip()

    changes.follow(number, page.client, told, shown=record.shown.number)


async def _built(build: Build, page: JobPage) -> Renew | None:
    answer = build(page)
    return await cast("Awaitable[Renew | None]", answer) if isinstance(answer, Awaitable) else answer


def _head(page: JobPage) -> None:
    shown = page.record.shown
    assert page.head is not None
    page.head.clear()
    with page.head:
        link("toptank", "/", "home", aria_label="toptank: all jobs")
        with tag("div", classes="vehicle"):
            tag("b", shown.title, title=shown.title)
            made_up = " · invented example" if page.job.invented else ""
            said = page.job.write_up
            told = (f"Job {page.number}", said.customer, said.registration, shown.state)
            line = " · ".join(filter(None, told)) + made_up
            tag("span", line, title=f"{line} · revision {shown.number}")
        with tag("div", classes="switches"):
            press(
                "Undo",
                lambda: _undo(page),
                "plain",
                disabled=shown.number == 1 or None,
                title="take back the last change",
            )
            _units(page)
            light_switch()
            way_out(page.client)


async def _undo(page: JobPage) -> None:
    saved = await page.do(edit.undo)
    if saved is not None:
        say(f"Taken back ({saved.note}).")


def _units(page: JobPage) -> None:
    with tag("select", classes="press plain", aria_label="units", title="show the job in other units") as choice:
        for system, told in SYSTEM_WORDS.items():
            tag("option", told, value=system, selected=(system == page.job.system) or None)

    async def turn(event: Event) -> None:
        await page.do(edit.set_units, system_named(event.args))

    choice.on("change", turn, js_handler="(event) => emit(event.target.value)")


def _steps(place: Tag, page: JobPage) -> None:
    """The steps of the job, each with a tick once something was done there."""
    done = steps_done(page.job, page.record, page.document)
    place.clear()
    with place, tag("ol"):
        for at, step in enumerate(STEPS, start=1):
            with tag("li"):
                here, ticked = "page" if step.key == page.step else None, step.key in done
                told = f"{at} {step.name}{', done' if ticked else ''}"
                with tag("a", href=page.address(step.key), aria_current=here, aria_label=told):
                    tag("b", f"{at} ✓" if ticked else str(at))
                    tag("span", step.name)


def _onward(number: int, place: int) -> None:
    with tag("nav", classes="onward", aria_label="before and next"):
        if place:
            link(f"← {STEPS[place - 1].name}", f"/job/{number}/{STEPS[place - 1].key}", "press plain")
        else:
            link("← All jobs", "/", "press plain")
        if place + 1 < len(STEPS):
            after = STEPS[place + 1]
            link(f"Next: {after.name}, {after.does} →", f"/job/{number}/{after.key}", "press main")
        else:
            link("All jobs", "/", "press main")


def _no_job(refusal: Refusal) -> None:
    with plain_page("No such job"):
        with tag("div", classes="lead"):
            tag("h1", "There is no such job")
            tag("p", str(refusal))
        with tag("div", classes="line-up"):
            link("All jobs", "/", "press main")
