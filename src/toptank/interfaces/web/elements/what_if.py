"""The strip that is docked below every page after the sheet: what the gauge would do on another day, and the loop.

It is one line until it is opened.

The dials answer while they are turned: the newest wish is worked out next, older ones are dropped.
"""

# The framework's own types are incomplete:
# pyright: reportUnknownMemberType=false

from __future__ import annotations

import asyncio
from typing import TYPE_CHECKING

from nicegui import background_tasks, ui

from toptank.interfaces.web.drawing.live_band import ends, live_band, marks_at, says
from toptank.interfaces.web.drawing.loop import LoopView, dressed
from toptank.interfaces.web.elements.tags import press, tag
from toptank.interfaces.web.work import moment
from toptank.shop.door import answer_cache, job_verbs, sentence
from toptank.shop.door import what_if_verbs as what_if
from toptank.units.dimension import TEMPERATURE
from toptank.units.display import show
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from collections.abc import Awaitable, Callable

    from toptank.interfaces.web.elements.tags import Event, Tag
    from toptank.shop.door import Dial, Job, WhatIf

LOOKS, EVERY = 120, 1.5
"""So often, every so many seconds, a strip that rests on the sheet looks whether a diagnosis has come to hand."""

STALE_FOR = 20
"""After so many looks an answer of the former diagnosis is given up for one that rests on the sheet."""

THROTTLE = 0.08
"""A dial that is turned is heard so often [s]."""

NAMES = {"ambient": "Air outside", "grade": "Grade", "speed": "Speed"}


def what_if_strip(number: int) -> Callable[[], Awaitable[None]]:
    """Put the strip here, for the job of that number; what comes back brings it up to date after a change."""
    strip = _Strip(number)
    background_tasks.create(strip.begin(), name="what if")
    return strip.renew


class _Strip:
    """One strip on one page: what is wished for, and the elements that show the answer."""

    def __init__(self, number: int) -> None:
        self.number = number
        self.client = ui.context.client
        self.job: Job | None = None
        self.duty: str | None = None
        self.wished: dict[str, str] = {}
        self.busy, self.again = False, False
        self.rests_on = ""
        self.stale, self.looking = False, False
        self.outputs: dict[str, Tag] = {}
        dressed()
        ui.add_head_html('<link rel="stylesheet" href="/look/what_if.css">')
        with tag("section", classes="what-if", aria_labelledby="what-if-name") as self.whole, tag("details"):
            with tag("summary", classes="strip"):
                tag("h2", "What if", id="what-if-name")
                self.told = tag("span", "Working it out …", "big", role="status", aria_live="polite")
            self.dials = tag("div", classes="dials")
            with tag("div", classes="band"):
                self.line = ui.html("", sanitize=False).classes("line-frame")
                with tag("div", classes="marks small quiet", aria_hidden="true"):
                    self.limit_mark, self.boils_mark = tag("span", "", "mark"), tag("span", "", "mark below")
                with tag("div", classes="ends small quiet", aria_hidden="true"):
                    self.low, self.high = tag("span", "", "number"), tag("span", "", "number")
                self.as_it_was = tag("p", "", "small quiet")
            with tag("div", classes="line-up apart"):
                self.more = tag("p", "", "small quiet")
                self.reset = press("As in the job", self._as_it_was, "plain", disabled=True)
            with tag("details") as self.drawer:
                tag("summary", "The loop at this condition")
                self.loop = LoopView(number)
        self.drawer.on("toggle", self._opened, js_handler="(event) => emit(event.target.open)")

    async def begin(self) -> None:
        """Answer, and once more when a diagnosis that is worked out meanwhile tells more."""
        await self.renew()

    async def _look_for_a_diagnosis(self) -> None:
        """Answer as soon as the diagnosis of the job as it is now has come to hand; at last without one."""
        try:
            for look in range(LOOKS):
                await asyncio.sleep(EVERY)
                if self.whole.is_deleted or (self.rests_on == "diagnosis" and not self.stale):
                    return
                known = self.job is not None and await asyncio.to_thread(_diagnosed, self.job)
                if known or (self.stale and look >= STALE_FOR):
                    await self._answer()
        finally:
            self.looking = False

    async def renew(self) -> None:
        """Read the job again and answer anew; what was turned stays turned."""
        try:
            job = await asyncio.to_thread(_stored, self.number)
        except Refusal as refusal:
            with self.client:
                self.told.set_text(str(refusal))
            return
        if self.whole.is_deleted:
            return
        first = self.job is None or _shown(self.job) != _shown(job)
        self.job = job
        if first:
            with self.client:
                await self._build_dials(job)
        # What is there already stays, dimmed, while the diagnosis is worked out anew: without it the answer would be
        # that of a vehicle of which nothing is known.
        self.stale = self.rests_on == "diagnosis" and not await asyncio.to_thread(_diagnosed, job)
        if self.stale:
            self.whole.classes("stale")
        else:
            await self._answer()
        if not self.looking and (self.stale or self.rests_on != "diagnosis"):
            self.looking = True
            background_tasks.create(self._look_for_a_diagnosis(), name="what if: diagnosis")

    async def _build_dials(self, job: Job) -> None:
        duties = [duty.name for duty in await asyncio.to_thread(what_if.duties_of, job)]
        if self.duty not in duties:
            self.duty = duties[0]
            self.wished.clear()
        dials = await asyncio.to_thread(lambda: what_if.dials(job, duty=self.duty))
        if self.whole.is_deleted:  # the page was closed meanwhile
            return
        on = next(d for d in what_if.duties_of(job) if d.name == self.duty).facts["air_conditioning"].value > 0.5
        self.dials.clear()
        with self.dials:
            self._duty_choice(duties)
            for dial in dials:
                self._dial(dial)
            with tag("label", classes="dial switch"):
                tag("span", "Air conditioning", "name")
                on = self.wished.get("air_conditioning", "yes" if on else "no") == "yes"
                box = tag("input", type="checkbox", checked=on or None)
            box.on("change", self._switched, js_handler="(event) => emit(event.target.checked)")

    def _duty_choice(self, duties: list[str]) -> None:
        with tag("div", classes="dial"):
            tag("label", "Condition", for_="what-if-duty")
            with tag("select", id="what-if-duty") as choice:
                for name in duties:
                    tag("option", name, value=name, selected=(name == self.duty) or None)
        choice.on("change", self._chosen, js_handler="(event) => emit(event.target.value)")

    def _dial(self, dial: Dial) -> None:
        key, stands = dial.key, float(self.wished.get(dial.key, f"{dial.value}").split()[0])
        with tag("div", classes="dial"):
            with tag("div", classes="line-up apart"):
                tag("label", NAMES[key], for_=f"what-if-{key}")
                self.outputs[key] = tag("output", f"{stands:g} {dial.unit}", "number", for_=f"what-if-{key}")
            turned = tag(
                "input", type="range", id=f"what-if-{key}", min=dial.low, max=dial.high, step=dial.step, value=stands,
                aria_valuetext=f"{stands:g} {dial.unit}", title=dial.means,
            )  # fmt: skip

        async def hear(event: Event) -> None:
            value = float(event.args)
            self.wished[key] = f"{value:g} {dial.unit}"
            self.outputs[key].set_text(self.wished[key])
            turned.put("aria_valuetext", self.wished[key])
            turned.props["value"] = value  # known here, so that a redrawn page stands where the hand left it
            await self._answer()

        turned.on("input", hear, throttle=THROTTLE, js_handler="(event) => emit(event.target.value)")

    async def _chosen(self, event: Event) -> None:
        self.duty = str(event.args)
        await self._as_it_was()

    async def _switched(self, event: Event) -> None:
        self.wished["air_conditioning"] = "yes" if event.args else "no"
        await self._answer()

    async def _opened(self, event: Event) -> None:
        self.loop.shown = bool(event.args)
        if self.loop.shown:
            await self._answer()

    async def _as_it_was(self) -> None:
        self.wished.clear()
        if self.job is not None:
            await self._build_dials(self.job)
            await self._answer()

    async def _answer(self) -> None:
        """Answer the newest wish; a wish that comes meanwhile is answered next."""
        if self.busy or self.job is None:
            self.again = True
            return
        self.busy = True
        try:
            self.again = True
            while self.again and not self.whole.is_deleted:
                self.again = False
                await self._one_answer(self.job)
        finally:
            self.busy = False

    async def _one_answer(self, job: Job) -> None:
        changes = what_if.Changes(**self.wished)
        try:
            answer = await moment(self.client, lambda: what_if.what_if(job, changes, duty=self.duty))
        except Refusal as refusal:
            if not self.whole.is_deleted:
                with self.client:
                    self.told.set_text(str(refusal))
            return
        if self.whole.is_deleted:
            return
        with self.client:
            self._show(answer)

    def _show(self, answer: WhatIf) -> None:
        system, self.rests_on, self.stale = answer.job.system, answer.rests_on, False
        self.whole.classes(remove="stale")
        self.line.set_content(live_band(answer, system))
        low, high = ends(answer, system)
        self.low.set_text(low)
        self.high.set_text(high)
        told = (f"limit {show(answer.limit, TEMPERATURE, system)}",
                f"boils {show(answer.boiling_point.p50, TEMPERATURE, system)}")  # fmt: skip
        for mark, words, place in zip((self.limit_mark, self.boils_mark), told, marks_at(answer), strict=True):
            mark.set_text(words)
            mark.style(f"--at:{min(max(place, 8.0), 92.0):.1f}%")
        self.as_it_was.set_text("The bar below the line: as in the job." if answer.changed else "")
        self.told.set_text(f"{sentence(answer.duty.name)}: {says(answer, system)}")
        rests = "what the diagnosis left" if answer.rests_on == "diagnosis" else "the sheet alone"
        self.more.set_text(" ".join((f"Rests on {rests}: {answer.draws:,} simulations.", *answer.remarks)))
        self.reset.put("disabled", None if self.wished else True)
        self.reset.update()
        self.loop.show(answer)


def _shown(job: Job) -> object:
    """What the dials are made from."""
    return job.system, [(duty.name, list(duty.facts.values())) for duty in (*job.duties, *job.worst_day)]


def _stored(number: int) -> Job:
    return job_verbs.stored_job(number)


def _diagnosed(job: Job) -> bool:
    return answer_cache.cached_diagnosis(job) is not None
