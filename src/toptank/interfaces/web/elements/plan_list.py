"""Every plan with its chance and price: pressing one takes it, and leads to its order."""

from __future__ import annotations

from typing import TYPE_CHECKING

from nicegui import ui

from toptank.interfaces.web.elements.tags import press, tag
from toptank.interfaces.web.pages.causes import bar
from toptank.shop.door import money, plan_taken, sentence
from toptank.shop.door import working_time as time
from toptank.units.sentence import said

if TYPE_CHECKING:
    from collections.abc import Awaitable, Callable, Sequence

    from toptank.interfaces.web.frame import JobPage
    from toptank.shop.door import ChoiceAnswer


def plan_list(page: JobPage, answer: ChoiceAnswer) -> None:
    """Put the plans here, from the cheapest on."""
    with tag("ol", classes="bars"):
        for plan in answer.plans:
            if plan.plan:
                name = sentence(said(plan.name, page.job.system))
                with tag("li"):
                    bar(name, plan.holds_pct, before=answer.plans[0].holds_pct, classes="good")
                    with tag("div", classes="line-up apart"):
                        told = [f"{money(plan.cost, answer.currency)}, {time(plan.minutes)}"]
                        told += [f"hardest: {plan.hardest_duty}"]
                        told += [] if plan.goes_in is None else [f"fit: {plan.goes_in.in_short}"]
                        tag("span", "; ".join(told), "small quiet")
                        press("Order this", taker(page, plan.plan), "plain", aria_label=f"Order this: {name}")


def taker(page: JobPage, plan: Sequence[str]) -> Callable[[], Awaitable[None]]:
    """Return what takes a plan and shows its order."""

    async def take() -> None:
        if await page.do(plan_taken.take, plan) is not None:
            ui.navigate.to(f"/job/{page.number}/order")

    return take
