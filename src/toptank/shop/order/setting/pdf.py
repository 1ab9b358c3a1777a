"""The order as PDF, set by typst with the faces that lie beside it; any warning is a failure.

The same record gives the same bytes: no date, no name of a machine, no face of a machine.
"""

import dataclasses
import json
import re
from importlib import resources
from itertools import product
from typing import Literal

import typst

from toptank.shop.order.checklist import Checklist
from toptank.shop.order.record import Order
from toptank.units.refusal import Refusal

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


def pdf(order: Order, paper: Paper, *, appendix: bool = False, alone: bool = False) -> bytes:
    """Set the order: a page for the bench, a page for the customer; with `appendix` what is behind them.

    With `alone` it is the customer's page and nothing else, to be sent.

    Raises
    ------
    Refusal : if typst cannot set it, or says anything while it does
    """
    written = _UNITS.sub("\u00a0", json.dumps(dataclasses.asdict(order), ensure_ascii=False))
    content, benches = b"", 0
    for aside, size in product((True, False), SIZES):
        content, benches = _set(written, _PAPERS[paper], size, appendix=appendix, alone=alone, aside=aside)
        if benches <= 1:
            return content
    return content if benches <= MOST_BENCHES else _set(written, _PAPERS[paper], SIZES[0], appendix=appendix)[0]


def checklist_pdf(found: Checklist, paper: Paper) -> bytes:
    """Set the next checks, in the largest letters in which they stand on one page.

    Raises
    ------
    Refusal : if typst cannot set it, or says anything while it does
    """
    written = _UNITS.sub("\u00a0", json.dumps(dataclasses.asdict(found), ensure_ascii=False))
    content = b""
    for size in SIZES:
        inputs = {"list": written, "paper": _PAPERS[paper], "size": size}
        content, pages = typeset("checklist.typ", inputs, written, asked="<pages>")
        if pages == 1:
            break
    return content


def _set(
    order: str, paper: str, size: str, *, appendix: bool, alone: bool = False, aside: bool = False
) -> tuple[bytes, int]:
    """Bytes of the document at one size, and the pages of its bench; `aside` gives the steps a column of their own."""
    inputs = {"order": order, "paper": paper, "size": size, "steps-aside": "yes" if aside else ""}
    told = {"appendix": "yes" if appendix else "", "alone": "yes" if alone else ""}
    content, customer_on = typeset("order.typ", inputs | told, order, asked="<customer>")
    return content, customer_on - 1


def typeset(template: str, inputs: dict[str, str], text: str, *, asked: str) -> tuple[bytes, int]:
    """Set a template; return the document, and the number that it writes down under a label.

    Parameters
    ----------
    template : beside this module
    inputs : what it reads
    text : all that stands in them, by which it is known which faces must help
    asked : the label
    """
    carried = _carried(text)
    folder = resources.files("toptank.shop.order.setting")
    with resources.as_file(folder.joinpath(template)) as file, resources.as_file(folder.joinpath("faces")) as faces:
        compiler = typst.Compiler(
            file,
            font_paths=typst.Fonts(include_system_fonts=not carried, font_paths=[faces]),
            ignore_system_fonts=carried,
            sys_inputs=inputs,
        )
        try:
            content, warnings = compiler.compile_with_warnings(format="pdf")
            number = int(json.loads(compiler.query(asked, field="value", one=True)))
        except typst.TypstError as error:
            raise _not_set(error.message) from error
    if warnings:
        raise _not_set(warnings[0].message)
    if not isinstance(content, bytes):
        raise _not_set("no document came of it")
    return content, number


def _carried(text: str) -> bool:
    """Whether the faces carry every sign; for others, such as Chinese ones, those of the machine must help."""
    return all(ord(sign) <= _CARRIED or ord(sign) in _PUNCTUATION for sign in text)


def _not_set(why: str) -> Refusal:
    fix = "write the order as --html, and report this"
    return Refusal(field="pdf", value="order", limit=f"could not be set ({' '.join(why.split())})", fix=fix)
