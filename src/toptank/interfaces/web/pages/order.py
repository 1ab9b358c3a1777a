"""The work order: which plan, the paper as it will be printed, its steps to be ticked at the bench."""

# The framework's own types are incomplete:
# pyright: reportUnknownMemberType=false

from __future__ import annotations

from typing import TYPE_CHECKING
from urllib.parse import quote

from toptank.interfaces.web import changes
from toptank.interfaces.web.elements.plan_list import plan_list, taker
from toptank.interfaces.web.elements.say_first import say_first
from toptank.interfaces.web.elements.tags import link, press, tag
from toptank.interfaces.web.elements.to_send import to_send
from toptank.interfaces.web.pages.remedies import USUAL
from toptank.interfaces.web.work import Stop, work
from toptank.shop.door import ShortAnswer, answer_cache, naming, plan_taken, ticks
from toptank.units.refusal import Refusal
from toptank.units.sentence import said

if TYPE_CHECKING:
    from toptank.interfaces.web.elements.tags import Event, Renew, Tag
    from toptank.interfaces.web.frame import JobPage
    from toptank.shop.door import ChoiceAnswer, Order, OrderStep


async def build(page: JobPage) -> Renew:
    """Build the page; what is asked of the address is the plan. A tick is shown where it stands."""
    whole = tag("div", classes="stack")
    boxes: dict[str, Tag] = {}
    built = (page.record.shown.number, page.asked)
    with whole:
        _content(page, boxes)

    async def renew() -> None:
        nonlocal built
        if (page.record.shown.number, page.asked) == built:
            _show_ticks(page, boxes)
            return
        built = (page.record.shown.number, page.asked)
        whole.clear()
        with whole:
            _content(page, boxes)

    return renew


def _show_ticks(page: JobPage, boxes: dict[str, Tag]) -> None:
    done = ticks.ticked(page.record)
    for words, box in boxes.items():
        if not box.is_deleted and box.props.get("checked", False) != (words in done):
            box.put("checked", words in done)
            box.update()


def _content(page: JobPage, boxes: dict[str, Tag]) -> None:
    boxes.clear()
    with tag("div", classes="lead"):
        tag("h1", "Work order")
        tag("p", "For the bench with steps to tick, and for the customer in plain words.", "quiet")
    place = tag("div", classes="stack")
    job, plan, stop = page.job, page.asked or None, Stop()

    def ask() -> tuple[Order | None, ChoiceAnswer]:
        choice = answer_cache.choice(job, stop.go_on)
        try:
            return answer_cache.order(job, plan, stop.go_on), choice
        except Refusal:
            return None, choice

    def show(answer: tuple[Order | None, ChoiceAnswer]) -> None:
        order, choice = answer
        if order is None:
            _to_be_chosen(page, choice)
        else:
            _answer(page, order, choice, boxes)

    ready = answer_cache.cached_order(job, plan)
    what = "Finding the fault, comparing repairs, working out the road test"
    work(place, what, USUAL, ask, show, ready=None if ready is None else (ready, answer_cache.choice(job)), stop=stop)


def _to_be_chosen(page: JobPage, choice: ChoiceAnswer) -> None:
    """No plan is taken: say why, and let one be taken here."""
    told = "The plan that was taken is none of this job any more: something that it rests on has changed. Take another."
    if not page.asked:
        told = (
            "No plan on the list holds the worst day, so that none is taken by itself. "
            "Take one all the same, or ask less of the vehicle."
        )
    with tag("div", classes="note warn"):
        tag("p", told)
        link("The worst day and every plan", f"/job/{page.number}/remedies")
    with tag("section", classes="sheet", aria_labelledby="plans"):
        tag("h2", "Order one of these", id="plans")
        plan_list(page, choice)


def addresses(number: int, plan: str) -> tuple[str, str]:
    """Return where the paper of a job lies: PDF and web page."""
    of = f"?of={quote(plan)}" if plan else ""
    return f"/job/{number}/order.pdf{of}", f"/job/{number}/order.html{of}"


def _answer(page: JobPage, order: Order, choice: ChoiceAnswer, boxes: dict[str, Tag]) -> None:
    pdf, paper = addresses(page.number, page.asked)
    say_first(ShortAnswer(answer=f"{order.correction[0]} {order.totals[-1].price}, {order.totals[-1].size}."))
    taken = plan_taken.taken(page.asked, choice)
    with tag("div", classes="line-up apart"):
        with tag("div", classes="field"):
            tag("label", "Plan", for_="plan")
            with tag("select", id="plan") as select:
                for plan in choice.plans:
                    key = plan_taken.written(plan.plan)
                    here = key == taken
                    if plan.plan or here:  # to do nothing may be the best
                        tag("option", said(plan.name, page.job.system), value=key, selected=here or None)
            # A list that is folded shows one line of a name, and of a long one not all.
            tag("div", naming.written_plan(taken, page.job.system), "says")
        with tag("div", classes="line-up"):
            to_print = [link("PDF", pdf, "press main", target="_blank", aria_label="PDF for the printer")]
            more = f"{pdf}{'&' if '?' in pdf else '?'}appendix=true"
            to_print.append(link("PDF with appendix", more, "press plain", target="_blank"))
            printing = tag("button", "Print", "press", type="button")
            printing.on("click", js_handler="() => window.toptank.print('order')")
            to_print.append(printing)

    to_send(page, pdf.partition("?")[1] + pdf.partition("?")[2])

    async def printed() -> None:
        if await page.do(plan_taken.ordered, order.plan, system=page.job.system) is not None:
            changes.noted(page.number)

    for one in to_print:
        one.on("click", printed)

    async def pick(event: Event) -> None:
        await taker(page, plan_taken.read_plan(str(event.args or "")) or ())()

    select.on("change", pick, js_handler="(e) => emit(e.target.value)")
    tag("p", "The order itself is printed by the buttons Print and PDF; this is its list of steps.", "on-paper-only")
    with tag("div", classes="wide-narrow long"):
        with tag("section", classes="stack paper", aria_label="the paper"):
            tag("iframe", classes="paper-preview", src=paper, title="the order as it is printed")
        with tag("section", classes="sheet", aria_labelledby="steps"):
            tag("h2", "At the bench", id="steps")
            _steps(page, order, boxes)


def _steps(page: JobPage, order: Order, boxes: dict[str, Tag]) -> None:
    """Steps to tick; what is ticked is kept with the job."""
    done = ticks.ticked(page.record)
    with tag("ol", classes="ticks steps-to-tick"):
        for step in order.steps:
            with tag("li"):
                time = f" ({step.time})" if step.time else ""
                boxes[step.words] = _tick(page, step.words, done, more=time)
                with tag("div", classes="beneath"):
                    _beneath(page, step, boxes, done)

    async def untick() -> None:
        await page.do(ticks.untick_all)
        changes.noted(page.number)

    press("Untick all", untick, "plain")


def _beneath(page: JobPage, step: OrderStep, boxes: dict[str, Tag], done: frozenset[str]) -> None:
    """What a step may come to, what is done within it, and what is noted of it."""
    if step.told:
        with tag("ul", classes="told"):
            for words in step.told:
                tag("li", words)
    if step.boxes:
        with tag("ul", classes="ticks"):
            for words in step.boxes:
                with tag("li"):
                    boxes[words] = _tick(page, words, done)
    if step.notes:
        with tag("details"):
            tag("summary", "More")
            for words in step.notes:
                tag("p", words, "small quiet")


def _tick(page: JobPage, words: str, done: frozenset[str], *, more: str = "") -> Tag:
    with tag("label"):
        box = tag("input", type="checkbox", checked=words in done)
        with tag("span"):
            tag("span", words)
            tag("span", more, "quiet")

    async def ticked(event: Event) -> None:
        box.props["checked"] = bool(event.args)
        await page.do(ticks.tick, words, bool(event.args))
        changes.noted(page.number)

    box.on("change", ticked, js_handler="(e) => emit(e.target.checked)")
    return box
