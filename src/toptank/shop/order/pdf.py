"""The order as PDF, set by typst with the faces that it carries itself; any warning is a failure.

The same record gives the same bytes: no date, no name of a machine, no face of a machine.
"""

import dataclasses
import json
import re
from importlib import resources
from typing import TYPE_CHECKING, Literal

import typst

from toptank.shop.order.record import Order
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from typst import Compiler

Paper = Literal["letter", "a4"]
_PAPERS = {"letter": "us-letter", "a4": "a4"}

SIZES = ("10", "9.5", "9", "8.75", "8.5", "8.25", "8")
"""Sizes of the bench's page, tried from the largest until it fits [pt]; smaller ones are not read at arm's length."""


PAGES = (2, 3)
"""Pages wanted, the customer's included: an order that does not fit on two gives the bench the back of its sheet."""

_CARRIED = 0x052F
"""Last sign of Latin, Greek and Cyrillic, which the faces carry."""

_UNITS = re.compile(r"(?<=\d) (?=%|°|qt\b|L\b|mph\b|km/h|min\b|in\b|psi\b|kPa\b)")
"""A figure and its unit stay on one line."""

_PUNCTUATION = range(0x2000, 0x2600)


def pdf(order: Order, paper: Paper) -> bytes:
    """Set the order.

    Raises
    ------
    Refusal : if typst cannot set it, or says anything while it does
    """
    written = _UNITS.sub("\u00a0", json.dumps(dataclasses.asdict(order), ensure_ascii=False))
    fewest = _set(written, _PAPERS[paper], SIZES[-1])[1]
    wanted = next((pages for pages in PAGES if fewest <= pages), fewest)
    for size in SIZES:
        content, pages = _set(written, _PAPERS[paper], size)
        if pages <= wanted or wanted > PAGES[-1]:  # a long story runs on, uncut, in large letters
            return content
    raise _not_set("its length changes with every try")


def _set(order: str, paper: str, size: str) -> tuple[bytes, int]:
    """Bytes of the document at one size, and its pages."""
    alone = _carried(order)
    with resources.as_file(resources.files("toptank.shop.order").joinpath("order.typ")) as template:
        compiler = typst.Compiler(
            template,
            font_paths=typst.Fonts(include_system_fonts=not alone),
            ignore_system_fonts=alone,
            sys_inputs={"order": order, "paper": paper, "size": size},
        )
        try:
            content, warnings = compiler.compile_with_warnings(format="pdf")
            pages = _pages_of(compiler)
        except typst.TypstError as error:
            raise _not_set(error.message) from error
    if warnings:
        raise _not_set(warnings[0].message)
    if not isinstance(content, bytes):
        raise _not_set("no document came of it")
    return content, pages


def _pages_of(compiler: "Compiler") -> int:
    """Number of pages, which the template writes down at its end."""
    return int(json.loads(compiler.query("<pages>", field="value", one=True)))


def _carried(text: str) -> bool:
    """Whether the faces carry every sign; for others, such as Chinese ones, those of the machine must help."""
    return all(ord(sign) <= _CARRIED or ord(sign) in _PUNCTUATION for sign in text)


def _not_set(why: str) -> Refusal:
    fix = "write the order as --html, and report this"
    return Refusal(field="pdf", value="order", limit=f"could not be set ({' '.join(why.split())})", fix=fix)
