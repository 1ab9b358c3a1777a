"""The sheet: what is in the vehicle, grouped by what one stands in front of."""

from __future__ import annotations

import asyncio
from typing import TYPE_CHECKING, Any

from toptank.interfaces.web.drawing.loop import loop
from toptank.interfaces.web.elements.tags import Tag, link, tag
from toptank.interfaces.web.fields import Form
from toptank.interfaces.web.work import work
from toptank.shop.door import Group, answer_cache, gauge_band, service, sheet_form

if TYPE_CHECKING:
    from toptank.interfaces.web.frame import JobPage

USUAL = 4.0
"""How long a forecast takes [s]."""


async def build(page: JobPage) -> Any:
    """Build the page."""
    form = Form(page)
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
    for group in groups:
        _group(form, group)

    async def renew() -> None:
        fields = [field for group in sheet_form(page.document, page.job, page.job.system) for field in group.fields]
        by_path = {field.path: field for field in fields}
        for (path, _), element in form.elements.items():
            element.show(by_path[path])
        count.set_text(_counted(page))
        _worth_measuring(page, first)

    return renew


def _like(page: JobPage) -> str:
    return next((one.title for one in service.vehicles() if one.name == page.job.sheet.like), page.job.sheet.like)


def _counted(page: JobPage) -> str:
    tape = ", inches as on the tape: 2 5/8" if page.job.system == "us" else ""
    hows = [fact.how.value for path, fact in page.job.sheet.facts.items() if not path.startswith("doubts.")]
    return (
        f"{hows.count('measured')} measured, {hows.count('plate')} read off a plate, {hows.count('assumed')} assumed. "
        "What a tape and a look can tell is shown, the rest is folded away. A dashed line is a guess: write the figure "
        f"over it{tape}. Leave what nobody knows."
    )


def _anchor(group: Group) -> str:
    return "at-" + group.name.split(",")[0].split(" ")[0].lower()


def _group(form: Form, group: Group) -> None:
    with tag("section", classes="sheet", id=_anchor(group), aria_label=group.name):
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
            (rest, "more that no bay can measure"),
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

        def show(answer: Any) -> None:
            _told(page, answer)

        what, ready = "Working out each condition", answer_cache.cached_forecast(job)
        work(told, what, USUAL, lambda: answer_cache.forecast(job), show, ready=ready, room="lines")


def _told(page: JobPage, answer: Any) -> None:
    seen: dict[str, Any] = {}
    for duty in answer.widest:
        for one in duty:
            if one.measurable and one.share > seen.get(one.path, (0.0, None))[0]:
                seen[one.path] = (one.share, one)
    with tag("ul"):
        for duty in answer.duties:
            gauge, boils = duty.bands.gauge, duty.bands.boiling_point
            band = gauge_band(gauge.p10, gauge.p90, boils.p50, page.job.system)
            told = "would boil" if band == "boils" else f"would show {band}"
            tag("li", f"{duty.name}: a sound vehicle like this sheet {told}")
    if not seen:
        tag("p", "No single guess stands out: nothing that a tape can tell would narrow the bands by much.")
        return
    tag("p", "These guesses widen the bands most:")
    with tag("ol"):
        for share, one in sorted(seen.values(), key=lambda pair: -pair[0])[:5]:
            with tag("li"):
                if one.path.startswith("duty."):
                    tag("span", f"{one.means}: {100 * share:.0f} % of the spread")
                else:
                    place = "f-" + one.path.replace(".", "-").replace("_", "-")
                    link(one.means, f"#{place}")
                    tag("span", f": {100 * share:.0f} % of the spread; {one.measure}")
