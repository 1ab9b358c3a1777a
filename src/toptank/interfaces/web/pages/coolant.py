"""Coolant and cap: what is in, what to drain and add, how to fill and bleed, which cap bears the worst day."""

from __future__ import annotations

from typing import TYPE_CHECKING

from toptank.interfaces.web.elements.tags import Tag, table, tag
from toptank.interfaces.web.fields import Form
from toptank.shop.door import after_a_flush, answer_cache, degrees, fill_words, job_coolant, sentence, volume
from toptank.units.dialect import spoken
from toptank.units.dimension import ALTITUDE, PRESSURE, TEMPERATURE_RISE
from toptank.units.display import show, show_estimate
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from collections.abc import Callable

    from toptank.interfaces.web.elements.tags import Event, Renew
    from toptank.interfaces.web.frame import JobPage
    from toptank.shop.door import CapAndBottle, CapRow, CoolantOfJob
    from toptank.units.conversion import System

FULL = "The volumes hold for a full system without air. Measure what comes out: no two engines drain alike."


def build(page: JobPage) -> Renew:
    """Build the page."""
    form = Form(page)
    with tag("div", classes="lead"):
        tag("h1", "What goes in, and under which cap")
        tag("p", "Common practice where nothing else is said; the maker's book goes before.", "quiet")
    asked = {"want": "50 %", "drained_by": job_coolant.ways_to_drain()[-1], "part": "", "at": ""}
    parts = (("", "nobody looked"), *((one, one) for one in job_coolant.weak_parts()))
    with tag("section", classes="sheet", aria_label="wanted"):
        answer = Tag("div", classes="stack")

        def again() -> None:
            answer.clear()
            with answer:
                _answer(page, asked)

        with tag("div", classes="fields"):
            _choice("want", "Concentrate wanted", _alike(job_coolant.WANTED), asked, again)
            _choice("drained_by", "Drained by", _alike(job_coolant.ways_to_drain()), asked, again)
            _choice("part", "The weakest part", parts, asked, again)
            hot = job_coolant.judged_at(page.job, answer_cache.cached_choice(page.job))
            _choice("at", "The cap is judged at", hot, asked, again)
        with answer:
            _answer(page, asked)
        answer.move(target_index=0)
    with tag("section", classes="sheet", aria_labelledby="now"):
        tag("h2", "In it now", id="now")
        with tag("div", classes="fields"):
            for field in job_coolant.coolant_form(page.document, page.job):
                form.put(field)  # always the same ones

    async def renew() -> None:
        form.show(job_coolant.coolant_form(page.document, page.job))
        again()

    return renew


def _alike(words: tuple[str, ...]) -> tuple[tuple[str, str], ...]:
    return tuple((word, word) for word in words)


def _choice(
    key: str, label: str, words: tuple[tuple[str, str], ...], asked: dict[str, str], again: Callable[[], None]
) -> None:
    with tag("div", classes="field"):
        tag("label", label, for_=f"ask-{key}")
        with tag("select", id=f"ask-{key}") as select:
            for word, told in words:
                tag("option", told, value=word, selected=(word == asked[key]) or None)

    def pick(event: Event) -> None:
        asked[key] = str(event.args or "")
        again()

    select.on("change", pick, js_handler="(e) => emit(e.target.value)")


def _answer(page: JobPage, asked: dict[str, str]) -> None:
    job = page.job
    try:
        found = job_coolant.coolant_of(job, **asked)
    except Refusal as refusal:
        tag("div", str(refusal), "note bad", role="alert")
        return
    tag("p", _in_a_sentence(found, job.system), "answer")
    with tag("div", classes="two"):
        with tag("div", classes="stack"):
            _mix(found, job.system)
        with tag("div", classes="stack"):
            _cap(found.cap, job.system)
    with tag("details", classes="on-paper"):
        tag("summary", f"Fill and bleed: {found.bleeding.layout}")
        with tag("ol", classes="ticks"):
            for words in found.bleeding.steps:
                with tag("li"), tag("label"):
                    tag("input", type="checkbox")
                    tag("span", words)
        for words in found.bleeding.cautions:
            tag("div", words, "note warn")


def _in_a_sentence(found: CoolantOfJob, system: System) -> str:
    """The answer of the page: what goes in, and which cap."""
    mixed, chosen = found.mixed, found.cap.cap.chosen
    fill = fill_words(after_a_flush(mixed.capacity, mixed.drainable, mixed.wanted), mixed.capacity, system)
    cap = "no cap keeps the margin" if chosen is None else f"a {show(chosen.pressure, PRESSURE, system, 0)} cap"
    if not mixed.recipe.rounds:
        right = "taken as right, not measured" if "share of concentrate by volume" in found.cap.assumed else "right"
        return f"The strength is {right}, {100 * mixed.now:.0f} %: use {cap}. If it is drained and flushed: {fill}."
    return f"Drain and flush, then {fill}; {cap}."


def _mix(found: CoolantOfJob, system: System) -> None:
    mixed = found.mixed
    now, reached = (f"{100 * share:.0f} %" for share in (mixed.now, mixed.recipe.reached))
    tag("h2", f"It holds {now} now" if now == reached else f"From {now} to {reached}")
    flushed, filled = after_a_flush(mixed.capacity, mixed.drainable, mixed.wanted), mixed.refill
    tag("h3", "Drain, flush, fill")
    tag("p", f"{sentence(fill_words(flushed, mixed.capacity, system))}.")
    tag("h3", "Without a flush, same family only")
    with tag("ol"):
        tag(
            "li",
            f"Drain by {found.drained_by}: about {volume(filled.drained, system)} of {volume(mixed.capacity, system)}.",
        )
        tag("li", f"Concentrate first: {volume(filled.concentrate, system)}.")
        tag("li", spoken(f"Then water: {volume(filled.water, system)}, distilled or deionized.", system))
    tag("h3", "For the strength alone, the least to drain")
    if not mixed.recipe.rounds:
        tag("p", f"None: the strength is {100 * mixed.wanted:.0f} % already.")
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


def _cap(found: CapAndBottle, system: System) -> None:
    chosen, bottle = found.cap.chosen, found.bottle
    tag("h2", "No cap does" if chosen is None else f"Cap: {show(chosen.pressure, PRESSURE, system)}")
    tag("p", f"{sentence(found.cap.reason)}.")
    height = show_estimate(found.altitude, ALTITUDE, system)
    tag(
        "p",
        f"Judged at {degrees(found.T_worst, system)}, up to {height}, with the coolant that is in it.",
        "small quiet",
    )
    guessed = " (assumed: nobody looked)" if found.assumed_parts else ""
    tag("p", f"It reaches: {'; '.join(found.parts)}{guessed}.", "small quiet")
    with table("every cap", ("cap", "boils at", "margin", "")):
        for row in found.cap.rows:
            with tag("tr"):
                tag("td", show(row.pressure, PRESSURE, system), "number")
                tag("td", degrees(row.boiling_point, system), "number")
                tag("td", show(row.margin, TEMPERATURE_RISE, system), "number")
                with tag("td"):
                    word, look = _verdict(row, chosen)
                    tag("span", word, f"tag {look}")
    with tag("ul", classes="small"):
        for words in found.asked:
            tag("li", spoken(sentence(words), system))
        tag(
            "li",
            f"From cold to hot it grows by {volume(bottle.expansion, system)}: a recovery bottle holds at least "
            f"{volume(bottle.volume, system)}, cold mark at {volume(bottle.cold_mark, system)}, hot mark at "
            f"{volume(bottle.hot_mark, system)}.",
        )
        if found.assumed:
            tag("li", f"Assumed, not found: {'; '.join(found.assumed)}.")


def _verdict(row: CapRow, chosen: CapRow | None) -> tuple[str, str]:
    if row is chosen:
        return "✓ this one", "good"
    if row.forbidden_by:
        return "✕ too much", "bad"
    return ("more than needed", "") if row.enough else ("too little", "warn")
