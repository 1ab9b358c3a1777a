"""Coolant and cap: what is in, what to drain and add, how to fill and bleed, which cap bears the worst day."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from toptank.faces.web.fields import Form
from toptank.faces.web.tags import Tag, table, tag
from toptank.jobs import at_hand, coolant_of_job
from toptank.jobs.order.wording import degrees, sentence, volume
from toptank.units.dimension import PRESSURE, TEMPERATURE_RISE
from toptank.units.display import show
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from toptank.faces.web.frame import JobPage

FULL = "The volumes hold for a full system without air. Measure what comes out: no two engines drain alike."


def build(page: JobPage) -> Any:
    """Build the page."""
    form = Form(page)
    with tag("div", classes="lead"):
        tag("h1", "What goes in, and under which cap")
        tag("p", "Common practice where nothing else is said; the maker's book goes before.", "quiet")
    with tag("section", classes="sheet", aria_labelledby="now"):
        tag("h2", "In it now", id="now")
        with tag("div", classes="fields"):
            for field in coolant_of_job.coolant_form(page.document, page.job):
                form.put(field)
    asked = {
        "want": "50 %",
        "drained_by": coolant_of_job.ways_to_drain()[-1],
        "part": coolant_of_job.likely_weakest(page.job),
    }
    with tag("section", classes="sheet", aria_label="wanted"):
        answer = Tag("div", classes="stack")

        def again() -> None:
            answer.clear()
            with answer:
                _answer(page, asked)

        with tag("div", classes="fields"):
            _choice("want", "Concentrate wanted", coolant_of_job.WANTED, asked, again)
            _choice("drained_by", "Drained by", coolant_of_job.ways_to_drain(), asked, again)
            _choice("part", "The weakest part", coolant_of_job.weak_parts(), asked, again)
        with answer:
            _answer(page, asked)
        answer.move(target_index=-1)


def _choice(key: str, label: str, words: tuple[str, ...], asked: dict[str, str], again: Any) -> None:
    with tag("div", classes="field"):
        tag("label", label, for_=f"ask-{key}")
        with tag("select", id=f"ask-{key}") as select:
            for word in words:
                tag("option", word, value=word, selected=(word == asked[key]) or None)

    def pick(event: Any) -> None:
        asked[key] = str(event.args or "")
        again()

    select.on("change", pick, js_handler="(e) => emit(e.target.value)")


def _answer(page: JobPage, asked: dict[str, str]) -> None:
    job = page.job
    try:
        found = coolant_of_job.coolant_of(job, **asked, chosen=at_hand.choice_if_there(job))
    except Refusal as refusal:
        tag("div", str(refusal), "note bad", role="alert")
        return
    with tag("div", classes="two"):
        with tag("div", classes="stack"):
            _mix(found, job.system)
        with tag("div", classes="stack"):
            _cap(found, job.system)
    with tag("details", classes="on-paper"):
        tag("summary", f"Fill and bleed: {found.layout}")
        with tag("ol", classes="ticks"):
            for words in found.steps:
                with tag("li"), tag("label"):
                    tag("input", type="checkbox")
                    tag("span", words)
        for words in found.cautions:
            tag("div", words, "note warn")


def _mix(found: Any, system: Any) -> None:
    mixed = found.mixed
    now, reached = (f"{100 * share:.0f} %" for share in (mixed.now, mixed.recipe.reached))
    tag("h2", f"It stays at {now}" if now == reached else f"From {now} to {reached}")
    filled = mixed.refill
    tag("h3", "Drain all, then fill")
    with tag("ol"):
        tag(
            "li",
            f"Drain by {found.drained_by}: about {volume(filled.drained, system)} of {volume(mixed.capacity, system)}.",
        )
        tag("li", f"Concentrate first: {volume(filled.concentrate, system)}.")
        tag("li", f"Then water: {volume(filled.water, system)}, distilled or deionised.")
    tag("h3", "Or the least to drain")
    if not mixed.recipe.rounds:
        tag("p", f"Nothing: it holds {100 * mixed.wanted:.0f} % already.")
    with tag("ol"):
        for one in mixed.recipe.rounds:
            what = "concentrate" if one.concentrate > 0.0 else "water"
            tag("li", f"Drain {volume(one.drained, system)}, add as much {what}: {100 * one.share:.0f} %.")
    after = mixed.after.corrected[1]
    if after.freeze is not None:
        tag("p", f"Freezes at {degrees(after.freeze, system)}.")
    for remark in mixed.remarks:
        tag("div", sentence(remark), "note warn")
    tag("p", FULL, "small quiet")


def _cap(found: Any, system: Any) -> None:
    chosen = found.cap.chosen
    tag("h2", "No cap does" if chosen is None else f"Cap: {show(chosen.pressure, PRESSURE, system)}")
    tag("p", f"{sentence(found.cap.reason)}.")
    tag("p", f"Reckoned for {degrees(found.hottest, system)}: {found.hottest_from}.", "small quiet")
    with table("every cap", ("cap", "boils at", "margin", "")):
        for row in found.cap.rows:
            with tag("tr"):
                tag("td", show(row.pressure, PRESSURE, system), "number")
                tag("td", degrees(row.boiling_point, system), "number")
                tag("td", show(row.margin, TEMPERATURE_RISE, system), "number")
                with tag("td"):
                    word, look = _verdict(row, chosen)
                    tag("span", word, f"tag {look}")


def _verdict(row: Any, chosen: Any) -> tuple[str, str]:
    if row is chosen:
        return "✓ this one", "good"
    if row.forbidden_by:
        return "✕ too much", "bad"
    return ("more than needed", "") if row.enough else ("too little", "warn")
