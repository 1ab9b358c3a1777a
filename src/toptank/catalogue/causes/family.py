"""Families of causes: where to look before anybody knows what to look for."""

from functools import cache

from toptank.catalogue.causes.air import CAUSES_OF_AIR
from toptank.catalogue.causes.flow import CAUSES_OF_FLOW
from toptank.catalogue.causes.heat import CAUSES_OF_HEAT

FAMILIES = ("air", "flow", "heat", "instruments", "nothing")
"""Families, in the order of the catalogue; the gauge is one of its own."""

OF_THE_GAUGE = ("gauge_reads_high", "gauge_reads_low")


@cache
def family_of(cause: str) -> str:
    """Family of a cause by its id; nothing, if it is the id of no cause at all."""
    if cause in OF_THE_GAUGE:
        return "instruments"
    sides = (("air", CAUSES_OF_AIR), ("flow", CAUSES_OF_FLOW), ("heat", CAUSES_OF_HEAT))
    return next((family for family, causes in sides if cause in {one.id for one in causes}), "nothing")
