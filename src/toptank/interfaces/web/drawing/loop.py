"""The cooling loop on a page: the drawing, and what there is to tell of the part that is touched."""

from __future__ import annotations

import asyncio
from typing import TYPE_CHECKING

from nicegui import ui

from toptank.interfaces.web.drawing.loop_picture import loop_picture
from toptank.interfaces.web.drawing.loop_small import loop_small
from toptank.interfaces.web.elements.tags import link, press, tag
from toptank.interfaces.web.work import moment
from toptank.shop.door import job_verbs, loop_parts
from toptank.shop.door import what_if_verbs as what_if
from toptank.units.refusal import Refusal
from toptank.units.sentence import said_each

if TYPE_CHECKING:
    from toptank.interfaces.web.elements.tags import Event
    from toptank.shop.door import PartTold, WhatIf
    from toptank.units.conversion import System

TOUCHED = """(event) => {
  if (event.type === "keydown") {
    if (event.key !== "Enter" && event.key !== " ") return;
    event.preventDefault();
  }
  const part = event.target.closest("[data-part]");
  if (part) emit(part.dataset.part);
}"""
"""Hears a part by finger, mouse or key."""

FIELDS_TOLD = 8


class LoopView:
    """The drawing and the card of the part that was touched last."""

    def __init__(self, number: int, *, shown: bool = False) -> None:
        """Put it here; it draws once it is shown."""
        self.number, self.shown, self.answer = number, shown, None
        with tag("div", classes="loop-frame", tabindex="0", role="region", aria_label="drawing of the loop") as frame:
            self.picture = ui.html("", sanitize=False)
        for happens in ("click", "keydown"):
            frame.on(happens, self._touched, js_handler=TOUCHED)
        self.card = tag("div", classes="note part-card", role="status", aria_live="polite")
        with self.card:
            tag(
                "p", "Touch a part for its figures: where they come from, and what the sheet says of it.", "small quiet"
            )

    def show(self, answer: WhatIf) -> None:
        """Draw the loop of an answer, if anybody looks."""
        self.answer = answer
        if self.shown:
            job = answer.job
            small = loop_small(answer.loop, job.system, limit=job.limit)
            self.picture.set_content(
                f'<div class="loop-wide">{loop_of(answer)}</div><div class="loop-narrow">{small}</div>'
            )

    async def _touched(self, event: Event) -> None:
        if self.answer is None:
            return
        try:
            told = await asyncio.to_thread(loop_parts.part_told, self.answer.job, str(event.args))
        except Refusal:
            return  # no part of ours: a page that was tampered with
        self.card.clear()
        with self.card:
            self._tell(told, self.answer.job.system)

    def _tell(self, told: PartTold, system: System) -> None:
        tag("h3", told.part.replace("_", " "))
        tag("p", f"Its figure: {told.explanation.means}.")
        with tag("details"):
            tag("summary", "Equations, sources, assumptions")
            assumed = said_each(told.explanation.assumptions, system)
            for words in (told.explanation.equations, told.explanation.sources, assumed):
                with tag("ul", classes="small"):
                    for one in words:
                        tag("li", one)
        with tag("ul", classes="small"):
            for one in told.fields[:FIELDS_TOLD]:
                with tag("li"):
                    tag("span", f"{one.means}: {one.value} ")
                    tag("span", one.how, f"tag {one.how}")
        with tag("div", classes="line-up"):
            link("Its fields on the sheet", f"/job/{self.number}/sheet#part-{told.part}", "press plain")
            press("Close", self._close, "plain")

    def _close(self) -> None:
        self.card.clear()
        with self.card:
            tag("p", "Touch a part for its figures.", "small quiet")


def loop_of(answer: WhatIf) -> str:
    """Draw the loop of a what-if answer in the units of its job."""
    job = answer.job
    title = f"{answer.duty.name}: {job.title}"
    return loop_picture(answer.loop, job.system, title=title, limit=job.limit, invented=job.invented)


def dressed() -> None:
    """Give a page the style of drawings, and the way from a part to its fields."""
    ui.add_head_html(
        '<link rel="stylesheet" href="/look/drawing/drawing.css"><script src="/look/drawing/loop.js"></script>'
    )


def loop(number: int) -> None:
    """Put the drawing of the first duty here, for the job of that number; it is drawn when it is opened."""
    dressed()
    with tag("details", classes="sheet") as drawer:
        tag("summary", "The loop as a drawing: touch a part to get to its fields")
        view = LoopView(number)

    async def opened(event: Event) -> None:
        view.shown = bool(event.args)
        if not view.shown:
            return
        try:
            job = await asyncio.to_thread(job_verbs.stored_job, number)
            answer = await moment(drawer.client, lambda: what_if.what_if(job, what_if.Changes()))
        except Refusal:
            return  # the page itself says what is wrong with the job
        view.show(answer)

    drawer.on("toggle", opened, js_handler="(event) => emit(event.target.open)")
