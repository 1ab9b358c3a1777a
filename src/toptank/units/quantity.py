"""What a person wrote, read as a quantity in SI, or refused in one sentence."""

import functools
import re
from collections.abc import Sequence
from dataclasses import dataclass

from toptank.units.conversion import System, from_si, to_si, unit_of
from toptank.units.declaration import Declaration
from toptank.units.dialect import in_british
from toptank.units.dimension import (
    ALTITUDE,
    COUNT,
    DISTANCE,
    DURATION,
    FRACTION,
    GRADE,
    LENGTH,
    MASS,
    STEADY,
    TEMPERATURE,
    VOLUME,
    Dimension,
)
from toptank.units.display import figure, show
from toptank.units.nearest import nearest
from toptank.units.refusal import Refusal

__all__ = [
    "Parsed", "System", "check_hard", "from_si", "parse", "parse_choice", "parse_yes_no", "to_si", "unit_named",
    "unit_of",
]  # fmt: skip

# A zero begins no group of thousands: "0,125 mm" is an eighth of a millimetre, and is asked for with a point.
_DECIMAL = r"(?:(?:[1-9]\d{0,2}(?:,\d{3})+(?!\d)|\d+)(?:\.\d*)?|\.\d+)(?:e[+-]?\d+(?![\d.]))?"
_NUMBER = rf"[+-]?\s?(?:\d+(?:\s+|-)\d+/\d+|\d+/\d+|{_DECIMAL})"
_QUANTITY = re.compile(rf"({_NUMBER})\s*(.*)", re.ASCII | re.IGNORECASE)
_COMPOUND = re.compile(rf"({_NUMBER})\s*([^\d.+-]+?)\s*({_NUMBER})\s*([^\d.+-]+)", re.ASCII | re.IGNORECASE)
_MIX = re.compile(rf"({_DECIMAL})\s*[/:]\s*({_DECIMAL})", re.ASCII | re.IGNORECASE)
_ONE_IN = re.compile(rf"({_DECIMAL})\s*(?:in|:)\s*({_DECIMAL})", re.ASCII | re.IGNORECASE)

_COMPOUNDED = (ALTITUDE, LENGTH, MASS, VOLUME)
_VULGAR = {"½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "⅓": "1/3", "⅔": "2/3"}
_SIGNS = str.maketrans(
    {"−": "-", "–": "-", "’": "'", "′": "'", "”": '"', "″": '"', "²": "2", "³": "3", "º": "°", "˚": "°", "\u00a0": " "}
)
_CASE_MATTERS = frozenset({"mpa", "mv"})
"""Units that mean something a million times as large or as small in the other case."""

_LARGEST = 10**100

_YES, _NO = ("yes", "y", "true", "on"), ("no", "n", "false", "off")


@dataclass(frozen=True, slots=True)
class Parsed:
    """A quantity as read.

    Parameters
    ----------
    value : the quantity in SI
    unit : the unit in which it was read, e.g. "psi"
    assumed : no unit was written and the shop's own was taken
    """

    value: float
    unit: str
    assumed: bool


def parse(text: str | float | bool, dimension: Dimension, *, system: System, field: str) -> Parsed:
    """Read a quantity as people write it: "2 5/8 in", "15 psi", "195F", "50/50", "1 in 20", 12.

    Raises
    ------
    Refusal : if it is no number, is not finite or carries a unit of something else
    """
    written = _tidy(text, dimension, system, field)
    special = _special(written, dimension)
    if special is not None and abs(special) < _LARGEST:
        return Parsed(special, "%" if dimension in (FRACTION, GRADE) else unit_of(dimension, system), False)
    match = _QUANTITY.fullmatch(written)
    number = _number(match[1]) if match else None
    if match is None or number is None:
        raise _no_number(text, dimension, system, field)
    unit = _unit(match[2], text, dimension, system, field)
    if dimension in (FRACTION, GRADE) and not match[2] and 0.0 < abs(number) < 1.0:
        both = f"{figure(number)} % or {figure(100.0 * number)} %"
        raise _refusal(text, "is below 1 without a unit: a share, or percent", f"write {both}", field)
    value = float(to_si(number, dimension, unit))
    if not abs(value) < _LARGEST:  # nor a number that is none in another unit
        raise _refusal(text, "is not a finite number", f"write {_example(dimension, system)}", field)
    if dimension == TEMPERATURE and value < 0.0:
        raise _refusal(text, "lies below absolute zero", "check the figure and its unit", field)
    if dimension == COUNT and not value.is_integer():
        raise _refusal(text, "must be a whole number", "count again", field)
    plain = unit_of(dimension, system) in ("", "1")
    return Parsed(value, "" if plain else unit, assumed=not match[2] and not plain)


def check_hard(value: float, declaration: Declaration, text: str | float, field: str, system: System) -> None:
    """Refuse a value in SI that lies outside the hard limits of its declaration; the message is in shop units."""
    low, high = declaration.hard
    slack = 1e-9 * max(abs(low), abs(high))
    if low - slack <= value <= high + slack:
        return
    dimension = declaration.dimension
    limit = f"{declaration.means} must lie between {show(low, dimension, system)} and {show(high, dimension, system)}"
    fix = f"check the figure and its unit ({declaration.measure})"
    if dimension == TEMPERATURE:
        number, unit = _as_written(value, text, system)
        other = "°F" if unit == "°C" else "°C"
        if unit in ("°C", "°F") and low <= to_si(number, dimension, other) <= high:
            fix = f"did you mean {figure(number)} {other}? Write the unit with it"
    raise _refusal(text, limit, fix, field)


def unit_named(word: str, dimension: Dimension) -> str | None:
    """Own name of the unit that a word stands for, e.g. "°F" for "degF"; None if it is none of the dimension."""
    return _known(word.translate(_SIGNS).strip(), dimension)


def parse_choice(text: object, choices: Sequence[str], field: str) -> float:
    """Read one of a few words; return its code (0, 1, 2, ...). Case, hyphens and a cut-off end do not matter.

    Where the first word is "off", yes and no will do for the last and the first.
    """
    if choices[0] == "off" and (isinstance(text, bool) or str(text).strip().lower() in _YES + _NO):
        return parse_yes_no(text, field) * (len(choices) - 1.0)
    wanted = _plain_word(text) if isinstance(text, str) else ""
    words = [_plain_word(choice) for choice in choices]
    for spelt in (wanted, _plain_word(in_british(wanted))):  # aluminum is aluminium, gasoline petrol
        if spelt in words:
            return float(words.index(spelt))
    near = [
        i for i, word in enumerate(words) if len(wanted) > 1 and (word.startswith(wanted) or wanted.startswith(word))
    ]
    if len(near) == 1:
        return float(near[0])
    guess = nearest(wanted, words)
    fix = f"write {choices[words.index(guess[0])]!r}, if that is meant" if guess else "write one of these words"
    raise _refusal(text, f"must be one of: {', '.join(choices)}", fix, field)


def parse_yes_no(text: object, field: str) -> float:
    """Read yes (1.0) or no (0.0)."""
    if isinstance(text, bool):
        return float(text)
    word = text.strip().lower() if isinstance(text, str) else ""
    if word in _YES or word in _NO:
        return float(word in _YES)
    raise _refusal(text, "must be yes or no", "write yes or no", field)


def _tidy(text: object, dimension: Dimension, system: System, field: str) -> str:
    if isinstance(text, bool) or not isinstance(text, str | int | float):
        raise _no_number(text, dimension, system, field)
    if isinstance(text, int) and abs(text) > _LARGEST:
        raise _refusal("a very large number", "cannot be used", f"write {_example(dimension, system)}", field)
    written = str(text).translate(_SIGNS).strip()
    for sign, plain in _VULGAR.items():
        written = written.replace(sign, f" {plain}")
    written = " ".join(written.split())  # a tab or a line's end between the parts of a figure is a blank
    if written.lstrip("+-").lower() in ("nan", "inf", "infinity"):
        raise _refusal(text, "is not a finite number", f"write {_example(dimension, system)}", field)
    return written


def _special(written: str, dimension: Dimension) -> float | None:
    """A mix such as 60/40, a grade such as 1 in 20, a time called steady, or a length, volume or mass in two units."""
    if dimension is DURATION and written.lower() == "steady":
        return STEADY
    if dimension == FRACTION and (match := _MIX.fullmatch(written)):
        first, second = _number(match[1]), _number(match[2])
        if first is not None and second is not None and abs(first + second - 100.0) < 1e-9:
            return first / 100.0
    if dimension == GRADE and (match := _ONE_IN.fullmatch(written)):
        rise, run = _number(match[1]), _number(match[2])
        return rise / run if rise is not None and run else None
    if dimension in _COMPOUNDED and (match := _COMPOUND.fullmatch(written)):
        pairs = [(_number(match[i]), _known(match[i + 1], dimension)) for i in (1, 3)]
        (large, large_unit), (small, small_unit) = pairs
        if large is None or small is None or large_unit is None or small_unit is None or min(large, small) < 0:
            return None
        first, second = to_si(large, dimension, large_unit), to_si(small, dimension, small_unit)
        return float(first + second) if to_si(1.0, dimension, large_unit) > second else None
    return None


def _number(written: str) -> float | None:
    """Read 1,200 or 2 5/8 or 2-5/8 or 5/8 or -1.5e3; None if a fraction makes no sense."""
    plain = written.replace(",", "").strip()
    sign = -1.0 if plain.startswith("-") else 1.0
    plain = plain.lstrip("+-").strip()
    if "/" not in plain:
        return sign * float(plain)
    whole, _, fraction = plain.replace("-", " ").rpartition(" ")
    top, bottom = (float(part) for part in fraction.split("/"))
    if bottom == 0.0 or (whole and top >= bottom):
        return None
    return sign * (float(whole or 0) + top / bottom)


@functools.cache
def _spellings(dimension: Dimension) -> tuple[dict[str, str], dict[str, str]]:
    """Units by their spelling as written, and by their spelling in small letters."""
    exact = {_plain_unit(word): unit for unit, others in dimension.words for word in (unit, *others)}
    small = {word.lower(): unit for word, unit in exact.items() if word.lower() not in _CASE_MATTERS}
    if dimension == DISTANCE:
        del small["m"]  # "55 M" may be miles
    return exact, small


def _known(word: str, dimension: Dimension) -> str | None:
    exact, small = _spellings(dimension)
    plain = _plain_unit(word)
    return exact.get(plain) or small.get(plain.lower())


def _unit(word: str, text: object, dimension: Dimension, system: System, field: str) -> str:
    """The unit's own name; the shop's unit for a bare number."""
    shop = unit_of(dimension, system)
    if not word:
        if dimension == FRACTION and "/" in str(text):
            raise _refusal(text, "is a share without a unit", "write it in percent, or as a mix such as 50/50", field)
        return shop
    unit = _known(word, dimension)
    if unit is not None:
        return unit
    if word[0] == ",":
        raise _refusal(text, "has a comma that does not set off thousands", "write a point before decimals", field)
    if not dimension.words:
        raise _refusal(text, f"is a {dimension.name} and has no unit", "leave the unit off", field)
    units = ", ".join(unit for unit, _ in dimension.words)
    fix = f"write one of {units}; a bare number means {shop}"
    raise _refusal(text, f"{_short(word)!r} is not a unit of {dimension.name} that is understood", fix, field)


def _as_written(value: float, text: str | float, system: System) -> tuple[float, str]:
    """Number and unit of a temperature as the person wrote it; the shop's unit if it cannot be told."""
    match = _QUANTITY.fullmatch(str(text).translate(_SIGNS).strip())
    unit = (_known(match[2], TEMPERATURE) if match and match[2] else None) or unit_of(TEMPERATURE, system)
    return float(from_si(value, TEMPERATURE, unit)), unit


@functools.lru_cache(maxsize=4096)
def _plain_unit(word: str) -> str:
    plain = re.sub(r"\s+", " ", word.replace(".", "").replace("° ", "°")).strip()
    return re.sub(r"\s*/\s*", "/", plain)


def _plain_word(word: str) -> str:
    return re.sub(r"[\s_-]+", " ", word).strip().lower()


def _example(dimension: Dimension, system: System) -> str:
    unit = unit_of(dimension, system)
    return "a plain number such as 3" if unit in ("", "1") else f'a number with its unit, such as "12 {unit}"'


def _no_number(text: object, dimension: Dimension, system: System, field: str) -> Refusal:
    article = "an" if dimension.name[0] in "aeiou" else "a"
    return _refusal(text, f"is not {article} {dimension.name}", f"write {_example(dimension, system)}", field)


def _refusal(text: object, limit: str, fix: str, field: str) -> Refusal:
    return Refusal(field=field, value=_short(text), limit=limit, fix=fix)


def _short(text: object) -> str:
    shown = "".join(sign if sign.isprintable() else "?" for sign in str(text))
    return shown if len(shown) <= 40 else shown[:37] + "..."
