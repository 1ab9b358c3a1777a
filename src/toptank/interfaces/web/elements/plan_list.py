"""Every plan with its chance and price: pressing one takes it, and leads to its order."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from nicegui import ui

from toptank.interfaces.web.elements.tags import press, tag
from toptank.interfaces.web.pages.causes import bar
from toptank.shop.door import money, naming, plan_fit, plan_taken, sentence
from toptank.shop.door import working_time as time

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from toptank.interfaces.web.frame import JobPage


def plan_list(page: JobPage, answer: Any) -> None:
    """Put the plans here, from the cheapest on."""
    with tag("ol", classes="bars"):
        for plan in answer.outlooks:
            if plan.remedies:
                name = sentence(naming.plan(plan.ids, page.job.system))
                with tag("li"):
                    bar(name, plan.holds, before=answer.outlooks[0].holds, classes="good")
                    with tag("div", classes="line-up apart"):
                        cost, fit = money(plan.cost, answer.book.currency), plan_fit(page.job, plan.remedies)
                        told = [f"{cost}, {time(plan.minutes)}", f"hardest: {plan.hardest}"]
                        told += [] if fit is None else [f"fit: {fit.word()}"]
                        tag("span", "; ".join(told), "small quiet")
                        press(
                            "Order this",
                            taker(page, plan.ids),
                            "plain",
                            aria_label=f"Order this: {name}",
                        )


def taker(page: JobPage, plan: Sequence[str]) -> Callable[[], Any]:
    """Return what takes a plan and shows its order."""

    async def take() -> None:
        if await page.do(plan_taken.take, plan) is not None:
            ui.navigate.to(f"/job/{page.number}/order")

    return take
