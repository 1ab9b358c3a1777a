"""The work order of a job: diagnosis, choice and check drive brought together in one record.

Imports of the model stay inside the verb.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from toptank.jobs.answers import Chosen, Diagnosed
    from toptank.jobs.job import Job
    from toptank.jobs.log_answers import Verified
    from toptank.jobs.order.record import Order
    from toptank.studies.choose.outlook import Outlook
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
) -> Order:
    """Write the work order of a job.

    Parameters
    ----------
    job : as read
    system : units of the paper; those of the job if none are named
    seed, draws, price_book : as in `diagnose` and `choose`
    plan : a plan of the choice by its name; the recommended one if none is named
    diagnosed, chosen : answers that are there already, so that they need not be found twice
    fit : answers whether the core of the plan goes in, one sentence each; asked of the job where None is given
    verified : the check drive, once it was driven

    Raises
    ------
    Refusal : if no plan holds, or the one that is named is not in the choice
    """
    from toptank.jobs import choose_verbs, diagnose_verbs
    from toptank.jobs.order.check_drive import expected
    from toptank.jobs.order.contents import contents
    from toptank.jobs.order.fit_lines import FitTold, fit_lines
    from toptank.jobs.verdict_words import customer_lines

    diagnosed = diagnosed or diagnose_verbs.diagnose(job, seed=seed)
    chosen = chosen or choose_verbs.choose(
        job, seed=seed, draws=draws, price_book=price_book, diagnosed=diagnosed, system=system
    )
    taken = taken_plan(chosen, plan)
    system = system or job.system
    told = fit_lines(job, taken.remedies, system) if fit is None else FitTold(lines=tuple(fit))
    driven = () if verified is None else customer_lines(verified, system)
    return contents(diagnosed, chosen, taken, expected(chosen, taken), system, fit=told, driven=driven)


def taken_plan(chosen: Chosen, name: str | None) -> Outlook:
    """The plan that is ordered: by its name, or the recommended one."""
    if name is None:
        if chosen.recommended is None:
            fix = "ask less of the vehicle, or name one of the plans of `toptank choose` with --plan"
            limit = "no remedy on the list holds the worst day, so that there is nothing to order"
            raise Refusal(field="plan", value="none", limit=limit, fix=fix)
        return chosen.recommended
    from toptank.jobs.toml_file import shortened
    from toptank.units.nearest import did_you_mean

    wanted = " ".join(name.split()).lower()
    names = [one.name for one in chosen.outlooks]
    for one in chosen.outlooks:
        if one.name.lower() == wanted:
            return one
    fix = did_you_mean(name, names, "copy the name of a plan from `toptank choose`")
    raise Refusal(field="plan", value=shortened(name), limit="is not a plan of this job", fix=fix)
