"""The order as PDF, set by typst with the faces that lie beside it; any warning is a failure.

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

SIZES = ("11.5", "11", "10.75", "10.5", "10.25", "10")
"""Sizes of the bench's page, tried from the largest until it fits on one page [pt]; smaller ones are not read at arm's
length: a plan of so much work goes on on the back."""

MOST_BENCHES = 2
"""Front and back of a sheet: a long story runs on, uncut, in large letters."""

_CARRIED = 0x052F
"""Last sign of Latin, Greek and Cyrillic, which the faces carry."""

_UNITS = re.compile(r"(?<=\d) (?=%|°|qt\b|L\b|mph\b|km/h|min\b|in\b|psi\b|kPa\b)")
"""A figure and its unit stay on one line."""

_PUNCTUATION = range(0x2000, 0x2600)


def pdf(order: Order, paper: Paper, *, appendix: bool = False) -> bytes:
    """Set the order: a page for the bench, a page for the customer; with `appendix` what is behind them.

    Raises
    ------
    Refusal : if typst cannot set it, or says anything while it does
    """
    written = _UNITS.sub("\u00a0", json.dumps(dataclasses.asdict(order), ensure_ascii=False))
    content, benches = b"", 0
    for aside, size in ((aside, size) for aside in (True, False) for size in SIZES):
        content, benches = _set(written, _PAPERS[paper], size, appendix=appendix, aside=aside)
        if benches == 1:
            return content
    return (
        content
        if benches <= MOST_BENCHES
        else _set(written, _PAPERS[paper], SIZES[0], appendix=appendix, aside=False)[0]
    )


def _set(order: str, paper: str, size: str, *, appendix: bool, aside: bool) -> tuple[bytes, int]:
    """Bytes of the document at one size, and the pages of its bench; `aside` gives the steps a column of their own."""
    alone = _carried(order)
    folder = resources.files("toptank.shop.order")
    with (
        resources.as_file(folder.joinpath("order.typ")) as template,
        resources.as_file(folder.joinpath("faces")) as faces,
    ):
        compiler = typst.Compiler(
            template,
            font_paths=typst.Fonts(include_system_fonts=not alone, font_paths=[faces]),
            ignore_system_fonts=alone,
            sys_inputs={
                "order": order,
                "paper": paper,
                "size": size,
                "appendix": "yes" if appendix else "",
                "steps-aside": "yes" if aside else "",
            },
        )
        try:
            content, warnings = compiler.compile_with_warnings(format="pdf")
            benches = _customer_on(compiler) - 1
        except typst.TypstError as error:
            raise _not_set(error.message) from error
    if warnings:
        raise _not_set(warnings[0].message)
    if not isinstance(content, bytes):
        raise _not_set("no document came of it")
    return content, benches


def _customer_on(compiler: "Compiler") -> int:
    """Page on which the customer's begins, which the template writes down."""
    return int(json.loads(compiler.query("<customer>", field="value", one=True)))


def _carried(text: str) -> bool:
    """Whether the faces carry every sign; for others, such as Chinese ones, those of the machine must help."""
    return all(ord(sign) <= _CARRIED or ord(sign) in _PUNCTUATION for sign in text)


def _not_set(why: str) -> Refusal:
    fix = "write the order as --html, and report this"
    return Refusal(field="pdf", value="order", limit=f"could not be set ({' '.join(why.split())})", fix=fix)
