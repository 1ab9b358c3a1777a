"""Which prices of some work are not yet the shop's own: one sentence for the paper, the page and the terminal."""

from __future__ import annotations

from typing import TYPE_CHECKING

from toptank.catalogue.remedies.all_remedies import REMEDIES
from toptank.shop.answers.words import naming

if TYPE_CHECKING:
    from collections.abc import Iterable

    from toptank.shop.job.price_book import PriceBook
    from toptank.units.conversion import System

BUILT_IN_PRICES = "Prices are invented examples of the built-in price book, not yet the shop's own."
MOST_INVENTED = 4
"""Parts that are named; of more only their number is said."""


def invented_prices(plan: Iterable[str], book: PriceBook, system: System) -> str:
    """Return what of the prices of some remedies (ids) is not yet the shop's own; empty where all of it is.

    A shop that has set its hour has a book of its own, whatever the figure: each part that it has not priced is
    invented still.
    """
    if not book.own_labour:
        return BUILT_IN_PRICES
    done = set(plan)
    needed = (part for remedy in REMEDIES if remedy.id in done for part in remedy.parts)
    left = dict.fromkeys(part for part in needed if part not in book.own)
    if not left:
        return ""
    named = (
        ", ".join(naming.part(part, system) for part in left) if len(left) <= MOST_INVENTED else f"{len(left)} parts"
    )
    return f"Invented examples, not yet the shop's own prices: {named}."
