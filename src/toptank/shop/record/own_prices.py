"""The shop's own price book: a file beside the record, which every choice and order goes by where none is named.

It is the same file that `--prices` names: the shop can read, copy and change it with an editor.
"""

from __future__ import annotations

import hashlib
from typing import TYPE_CHECKING

from toptank.shop.files.atomic_write import write_whole
from toptank.shop.files.toml_file import shortened
from toptank.shop.job.price_book import FORMAT, HIGHEST, PriceBook, built_in, checked_currency, known_parts, read_prices
from toptank.shop.record.store.opening import store_file
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

NAME = "prices.toml"
FIGURES = ("labour", "lost_day", "gone_without")
"""Prices that belong to no part."""


def place() -> Path:
    """Return where the shop's own price book lies."""
    return store_file().with_name(NAME)


def read() -> PriceBook:
    """Return the shop's own price book, or the built-in one where it has none.

    Raises
    ------
    Refusal : if it cannot be read
    """
    path = place()
    return read_prices(path) if path.is_file() else built_in()


def mark() -> str:
    """Name what the prices are: another name, other prices; empty for those that are built in."""
    try:
        return hashlib.sha256(place().read_bytes()).hexdigest()
    except OSError:
        return ""


def keep(path: Path) -> PriceBook:
    """Make a price book the shop's own, to the last comment; return it.

    Raises
    ------
    Refusal : if it cannot be used; what the shop had stays then
    """
    book = read_prices(path)
    _write(path.read_bytes())
    return book


def save(said: Mapping[str, str]) -> PriceBook:
    """Write the book from what was typed: "currency", `FIGURES`, and parts by their ids; return it.

    A part without a price keeps the built-in one. Where nothing at all is typed the shop has no book of its own again;
    the currency of the built-in book alone is nothing.

    Raises
    ------
    Refusal : for the first price that cannot be used, or where the file that is there cannot be read: it was written
        by hand, and its prices would be lost; what the shop had stays then
    """
    typed = {key: text.strip() for key, text in said.items() if text.strip()}
    figures = {key: _price(typed[key], key) for key in FIGURES if key in typed}
    parts = {part: _price(typed[part], part) for part in known_parts() if part in typed}
    invented = built_in()
    currency = checked_currency(typed.get("currency", invented.currency))
    _check_written()
    if not figures and not parts and currency == invented.currency:
        place().unlink(missing_ok=True)
        return invented
    if "labour" not in figures:
        fix = "type what an hour of work costs the customer"
        raise Refusal(field="labour", value="(missing)", limit="is needed beside prices of your own", fix=fix)
    lines = [f'format = "{FORMAT}"', f"currency = {_quoted(currency)}"]
    lines += [f"{key} = {price!r}" for key, price in figures.items()]
    lines += ["", "[parts]", *(f"{part} = {price!r}" for part, price in parts.items()), ""]
    _write("\n".join(lines).encode("utf-8"))
    return read()


def _check_written() -> None:
    """Refuse to write over a file that cannot be read."""
    try:
        read()
    except Refusal as refusal:
        limit = f"cannot be read as it stands ({refusal})"
        fix = "put that right in the file, or move it elsewhere, and save again"
        raise Refusal(field="prices", value=str(place()), limit=limit, fix=fix) from refusal


def _write(content: bytes) -> None:
    path = place()
    path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    write_whole(path, content, replace=True)


def _price(text: str, field: str) -> float:
    """Read a price as people type it: 1,250 or 24.50 or 24,50; a sign of money is not needed."""
    bare = text.strip("$€£ ").replace(" ", "")
    whole, comma, rest = bare.rpartition(",")
    if comma:
        bare = bare.replace(",", "") if len(rest) == 3 or "." in rest else f"{whole.replace('.', '')}.{rest}"
    try:
        price = float(bare)
    except ValueError:
        price = -1.0
    if not 0.0 <= price <= HIGHEST:
        limit = f"must be a price between 0 and {HIGHEST:,.0f}"
        raise Refusal(field=field, value=shortened(text), limit=limit, fix="write it like 24.50, or leave it empty")
    return price


def _quoted(text: str) -> str:
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'
