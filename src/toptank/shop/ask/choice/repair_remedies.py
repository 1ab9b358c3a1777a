"""Where diagnosis and choice meet: what may be broken and what mends it, what can be looked at."""

from itertools import pairwise

import numpy as np

from toptank.catalogue.causes.all_causes import CAUSES
from toptank.catalogue.checks.check import Check
from toptank.catalogue.remedies.all_remedies import REMEDIES
from toptank.catalogue.remedies.core import TOO_SMALL
from toptank.catalogue.remedies.remedy import Remedy
from toptank.catalogue.repairs import MADE_BY
from toptank.knowledge.sheet import Sheet
from toptank.shop.job.price_book import PriceBook
from toptank.studies.choose.decision import CheckModel, Fault, Flags, LossModel, Seen
from toptank.studies.choose.worst_day_forecast import fitting, forced
from toptank.studies.diagnose.asking.next_check import settle_at_idle_conditions
from toptank.studies.diagnose.asking.open_checks import open_checks
from toptank.studies.diagnose.cause_sets import Floats
from toptank.studies.diagnose.ensemble import Ensemble


def loss_model_of(possible: Ensemble, sheet: Sheet, book: PriceBook, first: str) -> LossModel:
    """Return what there is to lose for these possible vehicles.

    Parameters
    ----------
    possible : the draws that plans are weighed with
    sheet : of the vehicle, for the facts that could still be measured
    book : prices
    first : the check that is made first; empty where nothing is to be looked at
    """
    split = tuple(_splits(possible, sheet, first)) if first else ()
    return LossModel(
        cost_of_failure=book.lost_day,
        cost_of_concession=book.gone_without,
        labour=book.labour / 60.0,
        faults=tuple(_faults(possible, book)),
        checks=split,
    )


def _faults(possible: Ensemble, book: PriceBook) -> list[Fault]:
    found: list[Fault] = []
    for repair, remedies in MADE_BY.items():
        columns = [place for place, cause in enumerate(CAUSES) if cause.repair == repair]
        there: Flags = np.any(possible.present[:, columns], axis=1)
        if there.any():
            costs = [book.cost(forced((remedy,), possible.vehicle)) for remedy in REMEDIES if remedy.id in remedies]
            found.append(Fault(repair, there, frozenset(remedies), min(costs)))
    return found


def plain_repair(stakes: LossModel, possible: Ensemble, book: PriceBook) -> tuple[Remedy, ...]:
    """Return the cheapest work that repairs what is most likely broken and upgrades nothing; empty where none does.

    A radiator of another kind is no repair where the one that is in can be cleaned or recored: who tows with two rows
    of brass is not sold one of aluminum because it is 5 dollars cheaper. Empty too where most likely nothing is broken.
    """
    ranked = sorted(stakes.faults, key=lambda fault: float(fault.there.mean()), reverse=True)
    sound = float(np.mean(~possible.present.any(axis=1)))
    for fault in ranked[:1]:
        if sound > float(fault.there.mean()):
            return ()
        broken = {cause.id for cause in CAUSES if cause.repair == fault.repair}
        able = fitting(possible.vehicle)
        cures = [(one,) for one in able if broken & set(one.cures) and not one.concession]
        as_it_was = [plan for plan in cures if TOO_SMALL in broken or not _upgrades(plan[0])]
        if cures:
            return min(as_it_was or cures, key=lambda plan: book.cost(forced(plan, possible.vehicle)))
    return ()


def _upgrades(remedy: Remedy) -> bool:
    """Whether it puts in a core that may be more than the vehicle was made with."""
    return TOO_SMALL in {*remedy.cures, *remedy.makes_up_for}


def _splits(possible: Ensemble, sheet: Sheet, first: str) -> list[CheckModel]:
    return [
        CheckModel(check.id, check.minutes, check.dimension, _seen(check, edges), np.asarray(chances, float))
        for check, chances, edges in open_checks(sheet, settle_at_idle_conditions(possible), set())
        if check.id == first
    ]


def _seen(check: Check, edges: Floats | None) -> tuple[Seen, ...]:
    """What can be seen: outcomes, or figures between edges."""
    if edges is None:
        return tuple(Seen(outcome) for outcome in check.outcomes)
    ends = [None, *(float(edge) for edge in edges), None]
    return tuple(Seen("", low, high) for low, high in pairwise(ends))
