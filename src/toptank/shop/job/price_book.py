"""The shop's price book: what parts and an hour cost the customer."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from importlib import resources
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING, cast

from toptank.catalogue.remedies.all_remedies import REMEDIES
from toptank.catalogue.words.aliases import id_of, meant
from toptank.shop.files.toml_file import nothing_left, read_document, shortened, take_table
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from toptank.catalogue.remedies.remedy import Remedy

FORMAT, FORMER = "toptank-prices-2", ("toptank-prices-1",)
"""Format that is written: parts by their ids; formats that are read too."""

HIGHEST = 100_000.0
LOST_DAY = 3000.0
"""Price of a worst day that is not held where the book names none: tow, day, second visit, the risk to a head gasket.

Invented, like every price of the built-in book."""


GONE_WITHOUT = 500.0
"""Price of going without the air conditioning on the worst day where the book names none; invented."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceBook:
    """Prices in the shop's money: each part, an hour of work, a worst day that is not held, one without cooled air.

    `own` names the parts that the shop priced itself; the prices of all others are invented, and so is the hour where
    `own_labour` is not said. Two books with the same prices are the same.
    """

    currency: str
    labour: float
    lost_day: float
    gone_without: float
    parts: Mapping[str, float]
    own: tuple[str, ...] = field(default=(), compare=False)
    own_labour: bool = field(default=False, compare=False)

    def cost(self, remedies: "Sequence[Remedy]") -> float:
        """What some remedies cost together."""
        parts = sum(self.parts[part] for remedy in remedies for part in remedy.parts)
        return parts + self.labour * sum(remedy.minutes for remedy in remedies) / 60.0


def known_parts() -> tuple[str, ...]:
    """Id of every part that a remedy asks for."""
    return tuple(dict.fromkeys(part for remedy in REMEDIES for part in remedy.parts))


def built_in() -> PriceBook:
    """The price book that comes with toptank; its figures are invented."""
    with resources.as_file(resources.files("toptank.shop.job").joinpath("price_book.toml")) as path:
        return replace(read_prices(path), own=(), own_labour=False)


def read_prices(path: Path) -> PriceBook:
    """Read a price book; parts that it does not name keep the built-in price.

    Raises
    ------
    Refusal : in one sentence, for the first thing that cannot be used
    """
    document = read_document(path)
    written = document.pop("format", None)
    if written not in (FORMAT, *FORMER):
        fix = f'the first line must be format = "{FORMAT}"'
        raise Refusal(field="format", value=shortened(written), limit="is not a price book", fix=fix)
    currency = checked_currency(document.pop("currency", "$"))
    labour = _price(document.pop("labour", None), "labour")
    lost_day = _price(document.pop("lost_day"), "lost_day") if "lost_day" in document else LOST_DAY
    gone_without = _price(document.pop("gone_without", GONE_WITHOUT), "gone_without")
    known = known_parts()
    prices: dict[str, float] = {}
    for written_part, price in take_table(document, "parts").items():
        part = id_of("part", written_part)
        if part not in known:
            fix = meant("part", written_part, "toptank prices lists the parts")
            raise Refusal(
                field=f"parts.{shortened(written_part)}", value=shortened(price), limit="is not a known part", fix=fix
            )
        prices[part] = _price(price, f"parts.{part}")
    nothing_left(document, "price book", ("format", "currency", "labour", "lost_day", "gone_without", "parts"))
    own = tuple(sorted(prices))
    missing = [part for part in known if part not in prices]
    if missing:
        book = built_in()
        prices |= {part: book.parts[part] for part in missing}
    return PriceBook(
        currency=currency,
        labour=labour,
        lost_day=lost_day,
        gone_without=gone_without,
        parts=MappingProxyType(prices),
        own=own,
        own_labour=True,
    )


def checked_currency(written: object) -> str:
    """Return the shop's money.

    Raises
    ------
    Refusal : if it is no sign or short word
    """
    if not isinstance(written, str) or not 1 <= len(written) <= 4 or not written.isprintable():
        fix = 'write currency = "$"'
        raise Refusal(field="currency", value=shortened(written), limit="must be a sign or short word", fix=fix)
    return written


def _price(value: object, field: str) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float) or not 0.0 <= float(value) <= HIGHEST:
        limit = f"must be a figure between 0 and {HIGHEST:,.0f}"
        raise Refusal(field=field, value=shortened(value), limit=limit, fix="write it without a sign of money")
    return float(cast("float", value))
