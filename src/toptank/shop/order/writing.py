"""The work order of a job: diagnosis, choice and check drive brought together in one record.

Imports of the model stay inside the verb.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from toptank.shop.answers.words.verdict_words import customer_lines
from toptank.shop.ask import diagnose
from toptank.shop.ask.choice import choose
from toptank.shop.order.check_drive import expected
from toptank.shop.order.contents import contents
from toptank.shop.order.fit_lines import FitTold, fit_lines
from toptank.shop.record import plan_taken, shop_settings

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from toptank.shop.answers.answers import Chosen, Diagnosed
    from toptank.shop.answers.log_answers import Verified
    from toptank.shop.job.job import Job
    from toptank.shop.order.record import Order
    from toptank.shop.record.shop_settings import Shop
    from toptank.units.conversion import System


def order(
    job: Job,
    *,
    system: System | None = None,
    seed: int | None = None,
    draws: int | None = None,
    price_book: Path | None = None,
    plan: str | None = None,
    diagnosed: Diagnosed | None = None,
    chosen: Chosen | None = None,
    fit: Sequence[str] | None = None,
    verified: Verified | None = None,
    shop: Shop | None = None,
) -> Order:
    """Write the work order of a job.

    Parameters
    ----------
    job : as read
    system : units of the paper; those of the job if none are named
    seed, draws, price_book : as in `diagnose` and `choose`
    plan : a plan of the choice by its name; the one that was taken, else the recommended one, if none is named
    diagnosed, chosen : answers that are there already, so that they need not be found twice
    fit : answers whether the core of the plan goes in, one sentence each; asked of the job where None is given
    verified : the check drive, once it was driven
    shop : head of the paper; what the shop has set where None is given

    Raises
    ------
    Refusal : if no plan holds, or the one that is named is not in the choice
    """
    job = plan_taken.asked_for(job, plan)
    diagnosed = diagnosed or diagnose.diagnose(job, seed=seed)
    chosen = chosen or choose.choose(job, seed=seed, draws=draws, price_book=price_book, diagnosed=diagnosed)
    taken = plan_taken.plan_of(chosen, plan)
    system = system or job.system
    told = fit_lines(job, taken.remedies, system) if fit is None else FitTold(lines=tuple(fit))
    driven = () if verified is None else customer_lines(verified, system)
    return contents(
        diagnosed,
        chosen,
        taken,
        expected(chosen, taken),
        system,
        fit=told,
        shop=shop_settings.read() if shop is None else shop,
        driven=driven,
    )
