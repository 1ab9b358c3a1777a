"""What a radiator on offer costs goes before the price book: an estimate is signed at the price that is paid."""

from __future__ import annotations

import dataclasses
import re
from typing import TYPE_CHECKING

from toptank.catalogue.remedies.all_remedies import REMEDIES
from toptank.studies.choose.fit.candidate import on_offer

if TYPE_CHECKING:
    from toptank.shop.job.price_book import PriceBook
    from toptank.studies.choose.fit.measures import FitSheet

_FIGURE = re.compile(r"\d[\d,]*(?:\.\d+)?")


def as_offered(book: PriceBook, fit: FitSheet) -> PriceBook:
    """Return the book with the price of each core that is on offer; of several offers the dearest is counted on."""
    prices: dict[str, float] = {}
    for core in (remedy for remedy in REMEDIES if remedy.group == "core" and remedy.parts):
        asked = [found for offer in on_offer(core, fit) if (found := price_of(offer.price)) is not None]
        if asked:
            prices[core.parts[0]] = max(asked)
    own = tuple(dict.fromkeys((*book.own, *prices)))
    return dataclasses.replace(book, parts={**book.parts, **prices}, own=own) if prices else book


def price_of(written: str) -> float | None:
    """Return the first figure of a price as it was written, "$620 plus freight"; None where there is none."""
    found = _FIGURE.search(written)
    return None if found is None else float(found[0].replace(",", ""))
