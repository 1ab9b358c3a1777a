"""Remedies: the customer's worst day, what each plan would do on it, and which one to take."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeAlias

from nicegui import ui

from toptank.interfaces.web.drawing.loop import dressed
from toptank.interfaces.web.drawing.three_points import goes_without, three_points
from toptank.interfaces.web.drawing.trade_off import hardest, trade_off
from toptank.interfaces.web.elements.plan_list import plan_list, taker
from toptank.interfaces.web.elements.say_first import dimmed, say_first
from toptank.interfaces.web.elements.tags import link, press, say, table, tag
from toptank.interfaces.web.fields import Form
from toptank.interfaces.web.work import Stop, work
from toptank.shop.door import (
    answer_cache,
    chance,
    choice_summary,
    gauge_band,
    invented_prices,
    last_answers,
    money,
    own_prices,
    plan_marks,
    plan_taken,
    reached_outside,
    remedies_form,
    sentence,
    three_plans,
)
from toptank.shop.door import edit_verbs as edit
from toptank.shop.door import working_time as time
from toptank.units.conversion import kelvin
from toptank.units.dialect import spoken
from toptank.units.sentence import said, said_each

if TYPE_CHECKING:
    from collections.abc import Sequence

    from toptank.interfaces.web.elements.tags import Event, Tag
    from toptank.interfaces.web.frame import JobPage
    from toptank.shop.door import (
        ChoiceAnswer,
        NamedPlan,
        PlanAnswer,
        PlanDuty,
    )
    from toptank.units.conversion import System

USUAL = 25.0
"""How long a choice takes, its diagnosis included [s]."""

_Ids: TypeAlias = tuple[str, ...]
BESIDE = 4
"""Plans side by side at most."""


def build(page: JobPage) -> None:
    """Build the page; the answer is worked out if it is not at hand."""
    with tag("div", classes="lead"):
        tag("h1", "What would hold the worst day")
        tag(
            "p",
            "Every plan is tried on the same simulations of this vehicle.",
            "quiet",
        )
    _worst_day(page)
    job, stop = page.job, Stop()
    place, old = tag("div", classes="stack"), tag("div", classes="stack")
    ready = answer_cache.cached_choice(job)
    before = None if ready is not None else page.last_choice
    kept = last_answers.last_choice(page.record, job) if ready is None and before is None else None
    if kept is not None:
        before = kept.answer
    if before is not None:
        with old, dimmed(kept is None or not kept.holds):
            _answer(page, before)
    record = page.record

    def ask() -> ChoiceAnswer:
        answer = answer_cache.choice(job, stop.go_on)
        last_answers.keep(record, job, answer)
        return answer

    def show(answer: ChoiceAnswer) -> None:
        page.last_choice = answer
        old.clear()
        _answer(page, answer)

    what, room = "Trying each repair on the worst day", "page" if before is None else "none"
    work(place, what, USUAL, ask, show, ready=ready, stop=stop, room=room)


def _worst_day(page: JobPage) -> None:
    job, form = page.job, Form(page)
    with tag("details", classes="sheet folded", open=bool(job.worst_day) or None):
        tag("summary", f"The worst day: {remedies_form.worst_day_words(job)}")
        if not job.worst_day:
            tag("p", remedies_form.worst_day_taken(job))
            press("Change it", lambda: page.do(edit.set_worst_day, remedies_form.offered_rows(job)))
            return
        for place, (name, fields) in enumerate(remedies_form.worst_day_form(page.document, job)):
            with tag("fieldset"):
                tag("legend", name)
                with tag("div", classes="fields"):
                    for field in fields:
                        form.put(field)
                if len(job.worst_day) > 1:
                    press("Take out", page.taker("worst_day", place), "plain", aria_label=f"Take out {name}")
        with tag("div", classes="line-up"):
            named = {"name": remedies_form.next_name(job)}
            press("Add a condition", lambda: page.do(edit.add_row, "worst_day", named))
            press("Back to what is offered", lambda: page.do(edit.set_worst_day, []), "plain")


def _answer(page: JobPage, answer: ChoiceAnswer) -> None:
    system = page.job.system
    say_first(choice_summary(answer, system))
    three = three_plans(answer, system)
    _three(page, answer, three)
    shown = [remedy for one in three for remedy in one.plan.plan]
    if invented := invented_prices(shown, own_prices.read(), system):
        with tag("p", f"{invented} ", "note warn"):
            link("Put your own in", "/settings")
    if answer.recommended is not None:
        _recommended(page, answer)
    for remark in said_each(answer.remarks, system):
        tag("div", remark, "note warn")
    dressed()
    with tag("section", classes="sheet", aria_labelledby="buys"):
        tag("h2", "What more money buys", id="buys")
        with tag("div", classes="wide-only trade-off-frame"):
            ui.html(three_points(answer, three, system), sanitize=False)
        with tag("div", classes="narrow-only stack"):
            ui.html(three_points(answer, three, system, narrow=True), sanitize=False)
        told = "The square: leave it as it is. Small rings: other plans that nothing cheaper beats"
        asks = any(goes_without(plan) for plan in answer.plans)
        tag("p", f"{told}{'; with a bar: the customer goes without something' if asks else ''}.", "small quiet")
    _beside(page, answer)
    _every(page, answer)


def _three(page: JobPage, answer: ChoiceAnswer, three: Sequence[NamedPlan]) -> None:
    """Three plans by a person's name for them: work, price, hours, chance, and what each does not do."""
    system = page.job.system
    with tag("ul", classes="three", aria_label="three plans"):
        for one in three:
            with tag("li", classes="plan taken" if one.recommended else "plan"):
                with tag("div", classes="plan-name"):
                    tag("span", one.letter, "letter")
                    tag("h2", one.called)
                if one.recommended:
                    tag("span", "recommended", "small quiet")
                with tag("div", classes="plan-figures"):
                    tag("b", money(one.plan.cost, answer.currency))
                    tag("span", time(one.plan.minutes))
                    tag("b", f"stays cool {_holds(one.plan)}")
                with tag("ul", classes="small"):
                    for remedy in one.plan.remedies:
                        tag("li", said(remedy.name, system))
                if one.does_not:
                    tag("p", spoken(one.does_not, system), "small quiet")
                named = f"Order plan {one.letter}"
                press(named, taker(page, one.plan.plan), "main" if one.recommended else "plain", aria_label=named)


def _every(page: JobPage, answer: ChoiceAnswer) -> None:
    """Every plan that was worth listing, behind a fold: what the three named ones leave out."""
    with tag("details", classes="sheet folded", open=answer.recommended is None or None):
        tag("summary", f"All {len(answer.plans)} plans, from the cheapest on")
        why = "A plan is listed where nothing cheaper holds as well, or where a check may make it the one to take."
        tag("p", why, "small quiet")
        with tag("div", classes="wide-only trade-off-frame"):
            ui.html(trade_off(answer, page.job.system), sanitize=False)
        with tag("div", classes="narrow-only stack"):
            _named(page, answer)
        _plans(page, answer)


def _recommended(page: JobPage, answer: ChoiceAnswer) -> None:
    system = page.job.system
    plan = next(one for one in answer.plans if one.plan == answer.recommended)
    with tag("section", classes="sheet", aria_labelledby="taken"):
        tag("span", "take this", "small quiet")
        tag("h2", sentence(said(plan.name, system)), id="taken")
        _goes_in(page, plan)
        tag(
            "p",
            f"Chance it stays cool on the worst day: {_holds(plan)} (as it is: {_holds(answer.plans[0])}), for "
            f"{money(plan.cost, answer.currency)} and {time(plan.minutes)}. Hardest: {plan.hardest_duty}.",
        )
        if (ambient := plan.limiting_ambient_degC) is not None:
            told = reached_outside((kelvin(ambient.p10), kelvin(ambient.p90)), "the customer's limit", system)
            if told:
                tag("p", told, "quiet")
        for remedy in plan.remedies:
            if limits := said(remedy.limits, system):
                tag("p", f"{sentence(said(remedy.name, system))}: {limits}", "small quiet")
        with tag("div", classes="line-up"):
            press("Write the order", taker(page, plan.plan), "main")
            link("How a drive would go", page.address("route", plan=plan_taken.written(plan.plan)), "press plain")


def _holds(plan: PlanAnswer) -> str:
    return chance(plan.holds_pct / 100.0)


def _goes_in(page: JobPage, plan: PlanAnswer) -> None:
    """Say in the same breath whether it goes in."""
    if plan.goes_in is None:
        return
    looks = {"clears": "note good", "rubs": "note warn"}
    with tag("div", classes=looks.get(plan.goes_in.fit, "note")):
        tag("p", said(plan.goes_in.says, page.job.system))
        link("The fit, measure by measure", page.address("fit"))


def _named(page: JobPage, answer: ChoiceAnswer) -> None:
    """The numbers of the drawing by name, where it has no room for them: price, chance and gauge beneath the name."""
    with tag("ol", classes="bars"):
        for number, plan in enumerate(answer.plans):
            with tag("li", classes="numbered"):
                _number(number, plan, answer)
                with tag("div"):
                    if plan.plan in (answer.recommended, answer.does_not_go_in):
                        taken = plan.plan == answer.recommended
                        tag("div", "take this" if taken else "won't fit", "small quiet")
                    tag("b", sentence(said(plan.name, page.job.system)))
                    tag("div", f"{money(plan.cost, answer.currency)}; holds in {_holds(plan)}")
                    tag("div", f"{plan.hardest_duty}: {_gauge(hardest(plan), page.job.system)}", "small quiet")


def _number(number: int, plan: PlanAnswer, answer: ChoiceAnswer) -> None:
    """A plan's letter or number as in the drawing: in a square where nothing is done, on ink where recommended."""
    shape, ground = "" if plan.plan else " nothing", " taken" if plan.plan == answer.recommended else ""
    tag("span", plan_marks(answer)[number], f"of{shape}{ground}")


def _plans(page: JobPage, answer: ChoiceAnswer) -> None:
    with tag("details", open=answer.recommended is None or None):
        tag("summary", "Order another plan" if answer.recommended else "Order one of them all the same")
        plan_list(page, answer)


def _beside(page: JobPage, answer: ChoiceAnswer) -> None:
    """Up to four plans side by side; the vehicle as it is and the three with a name, until others are picked."""
    plans = [plan.plan for plan in answer.plans]
    picked = [plan for plan in page.beside if plan in plans] or _side_by_side(answer, page.job.system)
    with tag("section", classes="sheet", aria_labelledby="beside"):
        tag("h2", "Side by side", id="beside")
        tag("p", "The likely range of the gauge (8 chances in 10).", "small quiet")
        place = tag("div", classes="stack")
        _table(page, answer, picked, place)
        with tag("details"):
            tag("summary", f"Which plans, {BESIDE} at most")
            with tag("ul", classes="ticks"):
                for number in range(len(plans)):
                    _pick(page, answer, number, picked, place)


def _side_by_side(answer: ChoiceAnswer, system: System) -> list[_Ids]:
    """The vehicle as it is, and the plans that have a name."""
    named = {one.plan.plan for one in three_plans(answer, system)}
    return [one.plan for one in answer.plans if not one.plan or one.plan in named]


def _pick(page: JobPage, answer: ChoiceAnswer, number: int, picked: list[_Ids], place: Tag) -> None:
    plan = answer.plans[number].plan
    with tag("li"), tag("label"):
        box = tag("input", type="checkbox", checked=plan in picked)
        tag("span", f"{plan_marks(answer)[number]}: {sentence(said(answer.plans[number].name, page.job.system))}")

    def pick(event: Event) -> None:
        on = bool(event.args)
        if on and plan not in picked and len(picked) >= BESIDE:
            box.put("checked", False)  # noted first: the browser shows it ticked already
            box.update()
            ui.run_javascript(f"getHtmlElement({box.id}).checked = false")
            say(f"{BESIDE} stand there already: take one out first.")
            return
        box.props["checked"] = on
        picked[:] = [one for one in picked if one != plan] + ([plan] if on else [])
        page.beside = list(picked)
        _table(page, answer, picked, place)

    box.on("change", pick, js_handler="(e) => emit(e.target.checked)")


def _table(page: JobPage, answer: ChoiceAnswer, picked: list[_Ids], place: Tag) -> None:
    system = page.job.system
    plans = [(number, plan) for number, plan in enumerate(answer.plans) if plan.plan in picked]
    place.clear()
    with place:
        if not plans:
            tag("p", "None is picked.", "quiet")
            return
        with tag("ul", classes="legend"):
            for number, plan in plans:
                with tag("li", classes="numbered"):
                    _number(number, plan, answer)
                    tag("span", sentence(said(plan.name, system)))
        named = ("", *(f"plan {plan_marks(answer)[number]}" if plan.plan else "as it is" for number, plan in plans))
        with tag("div", classes="beside", style=f"--plans:{len(plans)}"), table("plans side by side", named):
            _row("holds the worst day", [_holds(plan) for _, plan in plans])
            _row("cost", [money(plan.cost, answer.currency) for _, plan in plans])
            _row("work", [time(plan.minutes) for _, plan in plans])
            fits = [plan.goes_in for _, plan in plans]
            if any(fits):
                _row("fit", ["nothing to fit" if fit is None else fit.in_short for fit in fits])
            for at, duty in enumerate(plans[0][1].duties):
                _row(duty.duty, [_gauge(plan.duties[at], system) for _, plan in plans])


def _gauge(duty: PlanDuty, system: System) -> str:
    if duty.under_boiling_pct < 50.0:
        return "boils"
    gauge, boil = duty.gauge_degC, 1.0 - duty.under_boiling_pct / 100.0
    shown = gauge_band(kelvin(gauge.p10), kelvin(gauge.p90), float("inf"), system)
    return shown if boil < 0.1 else f"{shown}, boils in {chance(boil)}"


def _row(name: str, cells: list[str]) -> None:
    with tag("tr"):
        tag("th", name, scope="row")
        for cell in cells:
            tag("td", cell)
