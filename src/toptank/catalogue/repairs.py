"""Repairs: what must be done about a cause, and which remedies do it. The links stand with causes and remedies.

Source   which remedy makes which repair: common practice, no source
Range    every repair of a cause; setting the pump's drive right is no remedy that is priced
Scatter  none; each is held to take back half of what the fault costs by a test
"""

from collections.abc import Mapping
from types import MappingProxyType

from toptank.catalogue.causes.all_causes import CAUSES, NOTHING_TO_REPAIR
from toptank.catalogue.remedies.all_remedies import REMEDIES

REPAIRS: tuple[str, ...] = tuple(dict.fromkeys([*(cause.repair for cause in CAUSES), NOTHING_TO_REPAIR]))
"""Every repair once, in the order of the causes; the last is to repair nothing."""

MADE_BY: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {repair: made for repair in REPAIRS if (made := tuple(remedy.id for remedy in REMEDIES if repair in remedy.mends))}
)
"""Ids of the remedies that make a repair; a repair that no remedy makes is not in it."""


def mends_of(cause: str) -> tuple[str, ...]:
    """Ids of the remedies that mend a cause; none where no remedy does."""
    repair = next(one.repair for one in CAUSES if one.id == cause)
    return MADE_BY.get(repair, ())
