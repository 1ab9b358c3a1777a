"""A sheet written out as TOML: filled, commented, ready to be corrected with a tape in the other hand."""

import math
from collections.abc import Iterator
from decimal import Decimal

from toptank.knowledge.sheet import DutySheet, Fact, Sheet, duty_fields, sections
from toptank.units.conversion import System, from_si, unit_of
from toptank.units.declaration import Declaration
from toptank.units.dimension import (
    CHOICE,
    COUNT,
    DURATION,
    FRACTION,
    STEADY,
    TEMPERATURE,
    TEMPERATURE_RISE,
    YES_NO,
    Dimension,
)
from toptank.units.display import show
from toptank.units.quantity import parse

HEAD = (
    "# A line marked `assumed` is a guess with a spread (one standard deviation).",
    '# Measured it? Write the plain value instead: face_width = "26 in".',
    '# Read it off a plate or a handbook? { value = "15 psi", how = "plate" }',
)
"""Told once, above the first section."""

EXACT = 1e-7
"""Written with as many digits as bring a value back to this share of itself."""

BY_HAND = 4e-3
"""The same as people write: a tape is not read more closely."""

_SPREADS = 5.0
"""How much more freely a spread is rounded than its value: it is a judgement."""

_FINER = {"ft2": ("in2", 0.1), "m2": ("cm2", 0.01)}
"""What a small figure is written in instead, and below how many of the shop's units."""


def render(sheet: Sheet, system: System, *, within: float = EXACT) -> str:
    """Write the parts of a sheet as TOML tables with a comment on each field.

    Reading them gives the sheet back, each value to within that share of itself.
    """
    lines = [*HEAD, ""]
    for section, keys in sections().items():
        lines.append(f"[{section}]")
        for key, declaration in keys.items():
            lines += _field(key, sheet.facts[f"{section}.{key}"], declaration, system, within)
        lines.append("")
    return "\n".join(lines)


def render_duty(sheet: DutySheet, system: System, *, within: float = EXACT) -> str:
    """Write one duty as a [[duty]] table, in the same way."""
    lines = ["[[duty]]", f"name = {quoted(sheet.name)}"]
    if sheet.after:
        lines.append(f"after = {quoted(sheet.after)}")
    for key, declaration in duty_fields().items():
        lines += _field(key, sheet.facts[key], declaration, system, within)
    return "\n".join([*lines, ""])


def quoted(text: str) -> str:
    """Write a text as a TOML string."""
    plain = text.replace("\\", "\\\\").replace('"', '\\"')
    return '"' + "".join(sign if sign.isprintable() else _by_number(sign) for sign in plain) + '"'


def _by_number(sign: str) -> str:
    return f"\\u{ord(sign):04x}" if ord(sign) <= 0xFFFF else f"\\U{ord(sign):08x}"


def written_value(value: float, declaration: Declaration, system: System, *, within: float = EXACT) -> str:
    """Write a value as it stands in a file, quotes included."""
    if declaration.dimension == CHOICE:
        return quoted(declaration.choices[int(value)])
    if declaration.dimension == YES_NO:
        return "true" if value > 0.5 else "false"
    close = EXACT if declaration.dimension == COUNT else within
    return _quantity(value, declaration.dimension, system, close=close, limits=declaration.hard)


def _field(key: str, fact: Fact, declaration: Declaration, system: System, within: float) -> list[str]:
    value = written_value(fact.value, declaration, system, within=within)
    words = f"; {' | '.join(declaration.choices)}" if declaration.dimension == CHOICE else ""
    comment = f"# {declaration.means}{words} (typical {_typical(declaration, system)}). {declaration.in_the_bay()}"
    spread = _written_spread(fact, declaration, system, within)
    return [_one_line(comment), f'{key} = {{ value = {value}, how = "{fact.how.value}", spread = {spread} }}']


def _written_spread(fact: Fact, declaration: Declaration, system: System, within: float) -> str:
    dimension = declaration.dimension
    if declaration.relative or dimension in (CHOICE, YES_NO):
        dimension = FRACTION
    elif dimension == TEMPERATURE:
        dimension = TEMPERATURE_RISE
    return _quantity(fact.spread, dimension, system, close=within if within == EXACT else _SPREADS * within)


def _typical(declaration: Declaration, system: System) -> str:
    if declaration.choices:
        return declaration.choices[int(declaration.typical)]
    return show(declaration.typical, declaration.dimension, system)


def _quantity(
    value: float,
    dimension: Dimension,
    system: System,
    *,
    close: float,
    limits: tuple[float, float] = (-math.inf, math.inf),
) -> str:
    """Write a value as people do: within that share of itself, and within the limits of its field."""
    if dimension is DURATION and value >= STEADY:
        return quoted(show(value, dimension, system))
    unit = _unit(value, dimension, system)
    shown = float(from_si(value, dimension, unit))
    end = f" {unit}" if unit not in ("", "1") else ""
    near = max(close * abs(shown), 1e-9 if dimension == TEMPERATURE else 0.0)  # 0 °F is nothing like 0 K

    def is_it(written: str) -> bool:
        again = parse(written + end, dimension, system=system, field="value").value
        return abs(float(from_si(again, dimension, unit)) - shown) <= near and limits[0] <= again <= limits[1]

    ways = [*(_on_a_rule(shown) if unit == "in" else ()), *(_decimal(shown, digits) for digits in range(1, 13))]
    text = next((way for way in ways if is_it(way)), _decimal(shown, 12)) + end
    return quoted(text) if end else text


def _unit(value: float, dimension: Dimension, system: System) -> str:
    """The unit of the shop, or a finer one where that would ask for a row of zeros."""
    unit = unit_of(dimension, system)
    finer, below = _FINER.get(unit, (unit, 0.0))
    return finer if 0.0 < abs(float(from_si(value, dimension, unit))) < below else unit


def _on_a_rule(shown: float) -> Iterator[str]:
    """Whole inches and the fractions of a rule, the coarsest first."""
    for parts in (1, 2, 4, 8, 16, 32, 64):
        whole, part = divmod(round(shown * parts), parts)
        if part == 0:
            yield str(whole)
        else:
            yield f"{whole} {part}/{parts}" if whole else f"{part}/{parts}"


def _decimal(shown: float, digits: int) -> str:
    return f"{Decimal(f'{shown:.{digits}g}'):f}"  # no exponents: nobody writes them on a bench


def _one_line(text: str) -> str:
    return " ".join(text.split())
