"""The recipe of a fill, in the same words wherever it stands: on the coolant's page and on the order."""

from __future__ import annotations

from typing import TYPE_CHECKING

from toptank.shop.answers.words.wording import shop_volume
from toptank.studies.choose.coolant import mix

if TYPE_CHECKING:
    from toptank.studies.choose.coolant.mix import Refill
    from toptank.units.conversion import System


def after_a_flush(capacity: float, drains: float, wanted: float) -> Refill:
    """What goes in after a flush: what did not drain is water.

    Parameters
    ----------
    capacity : of the whole system [m3]
    drains : share of it that comes out [1]
    wanted : share of concentrate afterwards [1]
    """
    return mix.refill(capacity, drains, 0.0, wanted)


def fill_words(fill: Refill, capacity: float, system: System, water: str = "water") -> str:
    """Say what goes in after a flush, the water that it leaves counted: "10 qt of concentrate, then about 6 qt ..."."""
    concentrate, added = shop_volume(fill.concentrate, system), shop_volume(fill.water, system)
    left = shop_volume(capacity - fill.drained, system)
    return (
        f"{concentrate} of concentrate, then about {added} of {water}; {left} of the flush water stays in, which makes "
        f"{100.0 * fill.reached:.0f} %"
    )
