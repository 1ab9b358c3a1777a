"""Repairs: what must be done about a cause, and which remedies do it. The links stand with causes and remedies.

Source   what each remedy says that it cures or makes up for: common practice, no source
Range    every repair of a cause; a repair of nothing is no remedy
Scatter  none; a test over all pairs holds that a remedy cures what it says and nothing else
"""

from collections.abc import Mapping
from types import MappingProxyType

from toptank.catalogue.causes.all_causes import CAUSES, NOTHING_TO_REPAIR
from toptank.catalogue.remedies.all_remedies import REMEDIES

REPAIRS: tuple[str, ...] = tuple(dict.fromkeys([*(cause.repair for cause in CAUSES), NOTHING_TO_REPAIR]))
"""Every repair once, in the order of the causes; the last is to repair nothing."""


def _made_by(repair: str) -> tuple[str, ...]:
    causes = {cause.id for cause in CAUSES if cause.repair == repair}
    return tuple(remedy.id for remedy in REMEDIES if causes & {*remedy.cures, *remedy.makes_up_for})


MADE_BY: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {repair: made for repair in REPAIRS if (made := _made_by(repair))}
)
"""Ids of the remedies that make a repair; a repair that no remedy makes is not in it."""


def mends_of(cause: str) -> tuple[str, ...]:
    """Ids of the remedies that mend a cause; none where no remedy does."""
    repair = next(one.repair for one in CAUSES if one.id == cause)
    return MADE_BY.get(repair, ())
