"""A drive beforehand: a road typed as legs or given as a GPX file, and how the gauge would go along it.

All that is asked stands in the address, so that a reload, a link or the way back asks the same again.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from toptank.interfaces.web.drawing.strip_chart import says, strip_chart, strip_of
from toptank.interfaces.web.elements.log_verdict_view import figure, put_strip
from toptank.interfaces.web.elements.tags import link, table, tag
from toptank.interfaces.web.pages.record import when
from toptank.interfaces.web.upload import upload
from toptank.interfaces.web.work import Stop, work
from toptank.shop.door import (
    DEMO_CLIMB,
    NOTHING_EASES,
    TOWING_CLIMB,
    answer_cache,
    band,
    chance,
    kept_logs,
    naming,
    plan_taken,
    sentence,
)
from toptank.shop.door import EXAMPLE_LEGS as EXAMPLE
from toptank.shop.door import MOST_LETTERS_OF_LEGS as MOST_LETTERS
from toptank.units.conversion import kelvin, unit_of
from toptank.units.dimension import ALTITUDE, DISTANCE, TEMPERATURE
from toptank.units.display import show, show_estimate
from toptank.units.sentence import said, said_each

if TYPE_CHECKING:
    from toptank.interfaces.web.elements.tags import Tag
    from toptank.interfaces.web.frame import JobPage
    from toptank.shop.door import (
        DriveAnswer,
    )
    from toptank.units.conversion import System

USUAL = 12.0
"""How long a drive takes [s]."""

ROADS = (("The demo climb", DEMO_CLIMB), ("The standard towing climb", TOWING_CLIMB))
ASKED = ("legs", "route", "speed", "ambient", "air_conditioning", "duty", "cold", "plan")
FEW = 6
WEAK = 2.0
"""Percentage of vehicles that are too slow from which the chances are told."""


def build(page: JobPage) -> None:
    """Build the page; the answer is worked out if it is not at hand."""
    asked = replace(answer_cache.Road(), **{key: page.query.get(key, "") for key in ASKED})
    with tag("div", classes="lead"):
        tag("h1", "How would a drive go?")
        tag("p", "Minute by minute: a hill heats only so fast, and a stop at its top boils what the climb did not.")
    _form(page, asked)
    place = tag("div", classes="stack")
    if not (asked.legs.strip() or asked.route):
        return
    job = page.job

    def show_it(answer: DriveAnswer) -> None:
        _answer(page, answer)

    ready, stop = answer_cache.cached_road(job, asked), Stop()
    doing = "Driving the road"

    def ask() -> DriveAnswer:
        return answer_cache.road(page.number, job, asked, stop.go_on)

    work(place, doing, USUAL, ask, show_it, ready=ready, stop=stop)


def _form(page: JobPage, asked: answer_cache.Road) -> None:
    with tag("section", classes="sheet", aria_labelledby="road"):
        tag("h2", "The road", id="road")
        with tag("form", classes="stack", method="get", action=f"/job/{page.number}/route"):
            if asked.route:
                _route(page, asked)
            else:
                with tag("div", classes="field"):
                    with tag("label", "Leg by leg", for_="legs"):
                        tag("small", " way or time, up or down, speed; idle; engine off")
                    tag(
                        "textarea", asked.legs, "short", id="legs", name="legs", maxlength=MOST_LETTERS,
                        placeholder=EXAMPLE, rows=2, data_draft="",
                    )  # fmt: skip
                with tag("div", classes="line-up"):
                    for name, legs in ROADS:
                        link(name, page.address("route", legs=legs, plan=asked.plan))
            with tag("div", classes="fields"):
                _conditions(page, asked)
            with tag("div", classes="line-up"):
                tag("button", "Drive it", "press main", type="submit")
        if not asked.route:
            _gpx(page, asked)


def _route(page: JobPage, asked: answer_cache.Road) -> None:
    names = {one.checksum: one.name for one in kept_logs.routes_of(page.record)}
    tag("input", type="hidden", name="route", value=asked.route)
    with tag("div", classes="line-up apart"):
        tag("p", f"Along {names.get(asked.route, 'a route that is not kept with this job')}")
        link("Another road", page.address("route", plan=asked.plan), "press plain")
    hint = "as its times say; or 50 mph, 35 mph from 3 mi"
    _typed("speed", "How fast", asked.speed, hint, "needed where the file has no times")


def _gpx(page: JobPage, asked: answer_cache.Road) -> None:
    onward = page.address("route", plan=asked.plan, route="-").removesuffix("-")
    label = "Or the road as a GPX file, up to 32 MB"
    upload(page.number, label=label, takes=",".join(kept_logs.ROUTE_ENDINGS), onward=onward)
    kept = kept_logs.routes_of(page.record)[:FEW]
    if kept:
        with tag("div", classes="line-up"):
            tag("span", "Kept with the job:", "small quiet")
            for one in kept:
                address = page.address("route", route=one.checksum, plan=asked.plan)
                link(f"{one.name}, {when(one.at)}", address)


def _conditions(page: JobPage, asked: answer_cache.Road) -> None:
    job = page.job
    duties = [duty.name for duty in (*job.worst_day, *job.duties)]
    hint = "98, or 88 F to 98 F"
    _typed("ambient", "Air outside", asked.ambient, hint, "one figure, or from start to end")
    _pick("duty", "Load and day as at", asked.duty, [("", duties[0]), *((name, name) for name in duties[1:])])
    switch = [("", "as at the condition"), ("on", "on"), ("off", "off")]
    _pick("air_conditioning", "Air conditioning", asked.air_conditioning, switch)
    _pick("cold", "At the start it is", asked.cold, [("", "warm, from a level road"), ("cold", "cold, after a night")])
    choice = answer_cache.cached_choice(job)
    plans = [plan_taken.written(one.plan) for one in choice.plans if one.plan] if choice else []
    asked_plan = plan_taken.key(asked.plan)
    if asked_plan and asked_plan not in plans:
        plans.append(asked_plan)
    if plans:
        words = [
            ("", "as it is now"),
            *((plan, f"after: {sentence(naming.written_plan(plan, job.system))}") for plan in plans),
        ]
        _pick("plan", "The vehicle", asked_plan, words)


def _typed(name: str, label: str, value: str, hint: str, more: str) -> Tag:
    with tag("div", classes="field"):
        with tag("label", label, for_=f"road-{name}"):
            tag("small", f" {more}")
        given = {"value": value} if value else {}
        return tag("input", id=f"road-{name}", name=name, placeholder=hint, maxlength=200, autocomplete="off", **given)


def _pick(name: str, label: str, value: str, choices: list[tuple[str, str]]) -> None:
    with tag("div", classes="field"):
        tag("label", label, for_=f"road-{name}")
        with tag("select", id=f"road-{name}", name=name):
            for key, words in choices:
                tag("option", words, value=key, selected=(key == value) or None)


def _answer(page: JobPage, answer: DriveAnswer) -> None:
    system, strip = page.job.system, strip_of(answer)
    with tag("section", classes="sheet", aria_labelledby="goes"):
        tag("h2", said(answer.peak_says, system), id="goes")
        if answer.done:
            tag("p", f"Taken as done: {naming.remedies(answer.done, system)}.")
        put_strip(strip_chart(strip, system), says(strip, system))
        with tag("div", classes="promised"):
            for words, share in (
                ("holds all the way", answer.holds_pct),
                ("over the limit somewhere", answer.over_limit_pct),
                ("boils", answer.boils_pct),
            ):
                figure(words, chance(share / 100.0))
        if answer.boils_pct > 0.0 or answer.short_of_power_pct > WEAK:
            tag("p", said(answer.chances_says, system))
        if answer.gear_says is not None:
            tag("p", said(answer.gear_says, system))
        _eases(answer, system)
        _stretches(answer, system)
        from_where = "starts cold" if answer.starts_cold else "starts warm"
        tag(
            "p",
            f"Ranges: 8 chances in 10 ({answer.draws:,} simulations, from the {answer.known_by}). It {from_where}; the "
            f"rest is from “{answer.duty}”.",
            "small quiet",
        )
        for remark in dict.fromkeys((*said_each(answer.remarks, system), *said_each(answer.assumed_units, system))):
            tag("p", remark, "small quiet")


def _eases(answer: DriveAnswer, system: System) -> None:
    told = said_each(answer.ease_says, system)
    if not answer.what_would_ease_it:
        tag("div", " ".join(told), "note good")
        return
    if told == (NOTHING_EASES,):
        tag("div", told[0], "note warn")
        return
    with tag("div", classes="note warn"):
        tag("p", "What would ease it:")
        with tag("ul"):
            for line in told:
                tag("li", sentence(line))


def _stretches(answer: DriveAnswer, system: System) -> None:
    hottest = f"gauge at its hottest, {unit_of(TEMPERATURE, system)}"
    with table("stretches of the drive", ("stretch, and where it ends", hottest)):
        for one in answer.stretches:
            with tag("tr"):
                with tag("th", scope="row"):
                    tag("div", said(one.name, system))
                    way = show(1000.0 * one.until_km, DISTANCE, system)
                    height = show_estimate(one.altitude_m, ALTITUDE, system)
                    tag("div", f"after {one.until_minutes:.0f} min and {way}, at a height of {height}", "beneath")
                gauge = one.gauge_at_its_hottest_degC
                tag("td", band((kelvin(gauge.p10), kelvin(gauge.p90)), system), "number")
