"""A sheet written out as TOML: filled, commented, ready to be corrected with a tape in the other hand."""

import math
from decimal import Decimal

from toptank.knowledge.sheet import DutySheet, Fact, Sheet, duty_fields, sections
from toptank.units.conversion import System, from_si, to_si, unit_of
from toptank.units.declaration import Declaration
from toptank.units.dimension import CHOICE, FRACTION, TEMPERATURE, TEMPERATURE_RISE, YES_NO, Dimension
from toptank.units.display import show

HEAD = (
    "# A line marked `assumed` is a guess with a spread (one standard deviation).",
    '# Measured it? Write the plain value instead: face_width = "26 in".',
    '# Read it off a plate or a handbook? { value = "15 psi", how = "plate" }',
)
"""Told once, above the first section."""

_CLOSE = 1e-7
"""Written with as many digits as bring the value back to this share of itself."""


def render(sheet: Sheet, system: System) -> str:
    """Write the parts of a sheet as TOML tables with a comment on each field; reading them gives the sheet back."""
    lines = [*HEAD, ""]
    for section, keys in sections().items():
        lines.append(f"[{section}]")
        for key, declaration in keys.items():
            lines += _field(key, sheet.facts[f"{section}.{key}"], declaration, system)
        lines.append("")
    return "\n".join(lines)


def render_duty(sheet: DutySheet, system: System) -> str:
    """Write one duty as a [[duty]] table."""
    lines = ["[[duty]]", f"name = {quoted(sheet.name)}"]
    for key, declaration in duty_fields().items():
        lines += _field(key, sheet.facts[key], declaration, system)
    return "\n".join([*lines, ""])


def quoted(text: str) -> str:
    """Write a text as a TOML string."""
    plain = text.replace("\\", "\\\\").replace('"', '\\"')
    return '"' + "".join(sign if sign.isprintable() else f"\\u{ord(sign):04x}" for sign in plain) + '"'


def written_value(value: float, declaration: Declaration, system: System) -> str:
    """Write a value as it stands in a file, quotes included."""
    if declaration.dimension == CHOICE:
        return quoted(declaration.choices[int(value)])
    if declaration.dimension == YES_NO:
        return "true" if value > 0.5 else "false"
    return _quantity(value, declaration.dimension, system, declaration.hard)


def _field(key: str, fact: Fact, declaration: Declaration, system: System) -> list[str]:
    value = written_value(fact.value, declaration, system)
    words = f"; {' | '.join(declaration.choices)}" if declaration.dimension == CHOICE else ""
    comment = f"# {declaration.means}{words} (typical {_typical(declaration, system)}). {declaration.measure}"
    spread = _written_spread(fact, declaration, system)
    return [_one_line(comment), f'{key} = {{ value = {value}, how = "{fact.how.value}", spread = {spread} }}']


def _written_spread(fact: Fact, declaration: Declaration, system: System) -> str:
    if declaration.relative or declaration.dimension in (CHOICE, YES_NO):
        return _quantity(fact.spread, FRACTION, system)
    rise = TEMPERATURE_RISE if declaration.dimension == TEMPERATURE else declaration.dimension
    return _quantity(fact.spread, rise, system)


def _typical(declaration: Declaration, system: System) -> str:
    if declaration.choices:
        return declaration.choices[int(declaration.typical)]
    return show(declaration.typical, declaration.dimension, system)


def _quantity(
    value: float, dimension: Dimension, system: System, limits: tuple[float, float] = (-math.inf, math.inf)
) -> str:
    unit = unit_of(dimension, system)
    shown = float(from_si(value, dimension, unit))
    close = _CLOSE * max(abs(value), 1e-12)
    text = f"{shown:.12g}"
    for digits in range(1, 12):
        brief = f"{shown:.{digits}g}"
        again = float(to_si(float(brief), dimension, unit))
        if abs(again - value) <= close and limits[0] <= again <= limits[1]:
            text = brief
            break
    text = f"{Decimal(text):f}"  # no exponents: nobody writes them on a bench
    return text if unit in ("", "1") else quoted(f"{text} {unit}")


def _one_line(text: str) -> str:
    return " ".join(text.split())
