"""Who the shop is: the head of its paper, and the tax on it; one small file beside the record of jobs.

Like the record itself it is a file that the shop can read, copy and change with an editor.
"""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass
from typing import TYPE_CHECKING

from toptank.shop.files.atomic_write import write_whole
from toptank.shop.files.toml_file import nothing_left, read_document, shortened, take_text
from toptank.shop.record.store.opening import store_file
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

FORMAT = "toptank-shop-1"
NAME = "shop.toml"
LONGEST = 120
"""Longest entry [sign]: it must stand on one line of the paper."""

MOST_TAX = 40.0
"""Highest tax on parts and work that is believed [%]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shop:
    """The head of the shop's paper; everything may be empty.

    Parameters
    ----------
    name, address, phone, email : as they stand on the paper
    tax : on parts and work [%], as it was typed; empty: prices are said without tax
    """

    name: str = ""
    address: str = ""
    phone: str = ""
    email: str = ""
    tax: str = ""

    @property
    def tax_share(self) -> float | None:
        """Tax on parts and work [1]; None where none is named."""
        return float(self.tax) / 100.0 if self.tax else None

    @property
    def lines(self) -> tuple[str, ...]:
        """The head of the paper: name, then address and how to reach the shop; empty where no name is set."""
        if not self.name:
            return ()
        return (self.name, " · ".join(filter(None, (self.address, self.phone, self.email))))


KEYS = tuple(one.name for one in dataclasses.fields(Shop))


def place() -> Path:
    """Return where the settings lie."""
    return store_file().with_name(NAME)


def record_place() -> Path:
    """Return where the record of jobs lies."""
    return store_file()


def empty() -> Shop:
    """Return the settings of a shop that has made none."""
    return Shop()


def read() -> Shop:
    """Return the settings; empty ones where nobody has made any."""
    path = place()
    if not path.is_file():
        return Shop()
    document = read_document(path)
    written = document.pop("format", None)
    if written != FORMAT:
        fix = f'the first line must be format = "{FORMAT}"'
        raise Refusal(field="format", value=shortened(written), limit="is not the shop's settings", fix=fix)
    said = {key: take_text(document, key, otherwise="") for key in KEYS}
    nothing_left(document, "shop", ("format", *KEYS))
    return _checked(said)


def save(said: Mapping[str, str]) -> Shop:
    """Write the settings; what is not named becomes empty.

    Raises
    ------
    Refusal : for the first entry that cannot stand on the paper
    """
    shop = _checked({key: said.get(key, "") for key in KEYS})
    lines = [f'format = "{FORMAT}"', *(f"{key} = {_quoted(getattr(shop, key))}" for key in KEYS), ""]
    path = place()
    path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    write_whole(path, "\n".join(lines).encode("utf-8"), replace=True)
    return shop


def _quoted(text: str) -> str:
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'


def _checked(said: Mapping[str, str]) -> Shop:
    tidy = {key: " ".join(text.split()) for key, text in said.items()}
    for key, text in tidy.items():
        if len(text) > LONGEST:
            limit = f"is longer than {LONGEST} signs"
            raise Refusal(field=key, value=shortened(text), limit=limit, fix="it must stand on one line of the paper")
        if not text.isprintable():
            raise Refusal(
                field=key, value=shortened(text), limit="holds signs that cannot be printed", fix="type it anew"
            )
    tidy["tax"] = _tax(tidy["tax"])
    return Shop(**tidy)


def _tax(text: str) -> str:
    bare = text.removesuffix("%").strip()
    if not bare:
        return ""
    try:
        figure = float(bare.replace(",", "."))
    except ValueError:
        figure = -1.0
    if not 0.0 <= figure <= MOST_TAX:
        limit = f"must lie between 0 and {MOST_TAX:.0f} %"
        raise Refusal(field="tax", value=shortened(text), limit=limit, fix="write it like 8.25, or leave it empty")
    return f"{figure:g}"
