"""The sheet: what is in the vehicle, grouped by what one stands in front of."""

from __future__ import annotations

import asyncio
from operator import attrgetter
from typing import TYPE_CHECKING

from nicegui import ui

from toptank.interfaces.web.drawing.loop import loop
from toptank.interfaces.web.elements.tags import link, tag
from toptank.interfaces.web.fields import Form
from toptank.interfaces.web.work import work
from toptank.shop.door import (
    answer_cache,
    gauge_band,
    service,
    sheet_form,
)
from toptank.units.conversion import kelvin, unit_of
from toptank.units.dialect import spoken
from toptank.units.dimension import LENGTH

if TYPE_CHECKING:
    from toptank.interfaces.web.elements.tags import Renew, Tag
    from toptank.interfaces.web.frame import JobPage
    from toptank.shop.door import (
        Assumption,
        DutyAnswer,
        ForecastAnswer,
        Group,
    )
    from toptank.units.conversion import System

USUAL = 4.0
"""How long a forecast takes [s]."""


KEEP_PLACE = """
  if (document.activeElement === document.body) document.getElementById("f-fan-drive")?.focus({preventScroll: true});
"""
"""Where fields are put anew, whoever chose what drives the fan stands there still."""


async def build(page: JobPage) -> Renew:
    """Build the page."""
    groups = sheet_form(page.document, page.job, page.job.system)
    with tag("div", classes="lead"):
        tag("h1", "What is in it")
        count = tag("p", _counted(page), "quiet")
        tag("p", f"Guesses are those of: {await asyncio.to_thread(_like, page)}.", "quiet")
    with tag("nav", classes="line-up", aria_label="places"):
        for group in groups:
            link(group.name, f"#{_anchor(group)}", "press plain")
    first = tag("section", classes="sheet", aria_labelledby="first")
    _worth_measuring(page, first)
    loop(page.number)
    sections = [tag("section", classes="sheet", id=_anchor(group), aria_label=group.name) for group in groups]
    forms = [Form(page) for _ in groups]
    for form, group, section in zip(forms, groups, sections, strict=True):
        _fill(form, group, section)

    async def renew() -> None:
        groups = sheet_form(page.document, page.job, page.job.system)
        for form, group, section in zip(forms, groups, sections, strict=True):
            _show(form, group, section)
        count.set_text(_counted(page))
        _worth_measuring(page, first)

    return renew


def _like(page: JobPage) -> str:
    titles = {one.name: one.title for one in service.vehicles().vehicles}
    title = titles.get(page.job.sheet.like, page.job.sheet.like)
    return spoken(title, page.job.system)


def _counted(page: JobPage) -> str:
    tape = ", inches as on the tape: 2 5/8" if unit_of(LENGTH, page.job.system) == "in" else ""
    hows = [fact.how.value for path, fact in page.job.sheet.facts.items() if not path.startswith("doubts.")]
    return (
        f"{hows.count('measured')} measured, {hows.count('plate')} read off a plate, {hows.count('assumed')} assumed. "
        "What a tape and a look can tell is shown, the rest is folded away. A dashed line is a guess: write the figure "
        f"over it{tape}. Leave what nobody knows."
    )


def _anchor(group: Group) -> str:
    return "at-" + group.name.split(",")[0].split(" ")[0].lower()


def _show(form: Form, group: Group, section: Tag) -> None:
    """Show what stands in the record; where another kind of fan has other fields, those."""
    by_path = {field.path: field for field in group.fields}
    if by_path.keys() == {path for path, _ in form.elements}:
        for (path, _), element in form.elements.items():
            element.show(by_path[path])
        return
    form.elements.clear()
    section.clear()
    _fill(form, group, section)
    ui.run_javascript(KEEP_PLACE)


def _fill(form: Form, group: Group, section: Tag) -> None:
    with section:
        with tag("div", classes="lead"):
            tag("h2", group.name)
            tag("p", group.where, "quiet")
        first = [field for field in group.fields if field.first or field.typed]
        more = [field for field in group.fields if field not in first and field.measurable]
        rest = [field for field in group.fields if field not in first and not field.measurable]
        with tag("div", classes="fields"):
            for field in first:
                form.put(field)
        for fields, told in (
            (more, "more for caliper, instruments and handbook"),
            (rest, "more that no shop can measure"),
        ):
            if fields:
                with tag("details"):
                    tag("summary", f"{len(fields)} {told}", aria_label=f"{group.name}: {len(fields)} {told}")
                    with tag("div", classes="fields"):
                        for field in fields:
                            form.put(field)


def _worth_measuring(page: JobPage, place: Tag) -> None:
    place.clear()
    with place:
        tag("h2", "Worth measuring first", id="first")
        told = tag("div", classes="stack")
        job = page.job

        def show(answer: ForecastAnswer) -> None:
            _told(page, answer)

        what, ready = "Working out each condition", answer_cache.cached_forecast(job)
        work(told, what, USUAL, lambda: answer_cache.forecast(job), show, ready=ready, room="lines")


def _told(page: JobPage, answer: ForecastAnswer) -> None:
    widest: dict[str, Assumption] = {}
    for one in (one for duty in answer.duties for one in duty.widest if one.measurable):
        if one.share_pct > (widest[one.field].share_pct if one.field in widest else 0.0):
            widest[one.field] = one
    with tag("ul"):
        for duty in answer.duties:
            tag("li", f"{duty.name}: a sound vehicle like this sheet {_shown(duty, page.job.system)}")
    if not widest:
        tag("p", "No single guess stands out: nothing that a tape can tell would narrow the bands by much.")
        return
    tag("p", "These guesses widen the bands most:")
    with tag("ol"):
        for one in sorted(widest.values(), key=attrgetter("share_pct"), reverse=True)[:5]:
            with tag("li"):
                if one.field.startswith("duty."):
                    tag("span", f"{one.means}: {one.share_pct:.0f} % of the spread")
                else:
                    place = "f-" + one.field.replace(".", "-").replace("_", "-")
                    link(one.means, f"#{place}")
                    tag("span", f": {one.share_pct:.0f} % of the spread; {one.measure}")


def _shown(duty: DutyAnswer, system: System) -> str:
    """What the gauge would show there; a band without a figure is that of vehicles that boil at once."""
    low, high, boils = duty.gauge_degC.p10, duty.gauge_degC.p90, duty.boiling_point_degC.p50
    if low is None or high is None or boils is None:
        return "would boil"
    band = gauge_band(kelvin(low), kelvin(high), kelvin(boils), system)
    return "would boil" if band == "boils" else f"would show {band}"
