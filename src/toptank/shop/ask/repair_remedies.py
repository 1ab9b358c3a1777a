"""Where diagnosis and choice meet: which remedies mend which fault, what may be broken, what can be looked at.

Source   what each remedy says that it cures or makes up for: common practice, no source
Range    every repair of a cause that some remedy makes; a smaller duty is none
Scatter  none; a test over all pairs holds that a remedy cures what it says and nothing else
"""

from collections.abc import Mapping
from itertools import pairwise
from types import MappingProxyType

import numpy as np

from toptank.catalogue.causes.all_causes import CAUSES
from toptank.catalogue.checks.check import Check
from toptank.catalogue.remedies.all_remedies import REMEDIES
from toptank.knowledge.sheet import Sheet
from toptank.shop.answers.diagnose_json import between_figures
from toptank.shop.job.price_book import PriceBook
from toptank.studies.choose.decision import CheckModel, Fault, Flags, LossModel
from toptank.studies.choose.worst_day_forecast import forced
from toptank.studies.diagnose.cause_sets import Floats
from toptank.studies.diagnose.ensemble import Ensemble
from toptank.studies.diagnose.next_check import open_checks, settle_at_idle_conditions
from toptank.units.conversion import System


def _mended_by(repair: str) -> tuple[str, ...]:
    causes = {cause.name for cause in CAUSES if cause.repair == repair}
    return tuple(remedy.name for remedy in REMEDIES if causes & {*remedy.cures, *remedy.makes_up_for})


MENDED_BY: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {repair: named for repair in dict.fromkeys(cause.repair for cause in CAUSES) if (named := _mended_by(repair))}
)
"""Remedies that mend a fault, by its repair. Setting the pump's drive right is no remedy that is priced."""


def mends_of(cause: str) -> tuple[str, ...]:
    """Remedies that mend a cause; none where no remedy does."""
    repair = next(one.repair for one in CAUSES if one.name == cause)
    return MENDED_BY.get(repair, ())


def loss_model_of(
    possible: Ensemble, sheet: Sheet, book: PriceBook, done: set[str], system: System, *, checks: bool
) -> LossModel:
    """Return what there is to lose for these possible vehicles.

    Parameters
    ----------
    possible : the draws that plans are weighed with
    sheet : of the vehicle, for the facts that could still be measured
    book : prices
    done : checks that were made
    system : units in which figures of a check are told
    checks : whether anything is to be looked at at all
    """
    split = tuple(_splits(possible, sheet, done, system)) if checks else ()
    return LossModel(
        cost_of_failure=book.lost_day,
        cost_of_concession=book.gone_without,
        labour=book.labour / 60.0,
        faults=tuple(_faults(possible, book)),
        checks=split,
    )


def _faults(possible: Ensemble, book: PriceBook) -> list[Fault]:
    found: list[Fault] = []
    for repair, remedies in MENDED_BY.items():
        columns = [place for place, cause in enumerate(CAUSES) if cause.repair == repair]
        there: Flags = np.any(possible.present[:, columns], axis=1)
        if there.any():
            costs = [book.cost(forced((remedy,), possible.vehicle)) for remedy in REMEDIES if remedy.name in remedies]
            found.append(Fault(repair, there, frozenset(remedies), min(costs)))
    return found


def _splits(possible: Ensemble, sheet: Sheet, done: set[str], system: System) -> list[CheckModel]:
    return [
        CheckModel(
            check.name,
            check.how,
            check.hazard,
            check.minutes,
            _outcomes(check, edges, system),
            np.asarray(chances, float),
        )
        for check, chances, edges in open_checks(sheet, settle_at_idle_conditions(possible), done)
    ]


def _outcomes(check: Check, edges: Floats | None, system: System) -> tuple[str, ...]:
    """What can be seen, in words."""
    if edges is None or check.dimension is None:
        return check.outcomes
    ends = [None, *(float(edge) for edge in edges), None]
    return tuple(between_figures(low, high, check.dimension, system) for low, high in pairwise(ends))
