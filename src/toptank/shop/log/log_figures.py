"""Cells of a log as figures in SI; the sign before decimals is found out only where it can be told."""

from collections.abc import Mapping
from types import MappingProxyType

import numpy as np
import polars as pl

from toptank.knowledge.drives.track import Floats
from toptank.shop.files.read_bytes import shortened
from toptank.shop.log.log_columns import CHANNELS
from toptank.shop.log.sensor_limits import rails
from toptank.units.conversion import from_si
from toptank.units.dimension import TEMPERATURE, YES_NO
from toptank.units.quantity import to_si, unit_named
from toptank.units.refusal import Refusal

UNREADABLE, IMPOSSIBLE = 0.2, 0.05
"""Share of cells that are no figures, and of figures that lie outside what the channel can be, from which a column is
refused [1]; judgement: fewer are faults of the logger and left out."""

MOST_UNITS = 4
_WORDS = {"yes": 1.0, "y": 1.0, "on": 1.0, "true": 1.0, "1": 1.0, "1.0": 1.0, "active": 1.0,
          "no": 0.0, "n": 0.0, "off": 0.0, "false": 0.0, "0": 0.0, "0.0": 0.0, "inactive": 0.0}  # fmt: skip

_ONE_COMMA = r"^[+-]?\d+,\d+"
_THOUSANDS = r"^[+-]?[1-9]\d{0,2}(?:,\d{3})+(?:\.\d*)?\D*$"
_BOTH = r"^[+-]?\d{1,3}(?:\.\d{3})+,\d+\D*$"


_ZEROS: Mapping[str, str] = MappingProxyType(
    {"speed": r"^(?:stopped|stop|standing|stood|stands|idle|idling|parked)$", "grade": r"^(?:flat|level)$"}
)
"""Words of people for nothing of a channel, in small letters."""

BARE_ZERO = r"^[+-]?0+(?:[.,]0*)?$"
"""A figure that needs no unit where its scale begins at nothing: of speeds and grades."""


def plain_cells(cells: pl.Series, key: str) -> pl.Series:
    """Cells less what people write around a figure: "~195 F", "218 F?", "stopped", "flat", "up 5 %", "3 % down"."""
    plain = cells.str.replace(r"^[~≈]\s*", "").str.replace(r"\s*\?$", "")
    if key not in _ZEROS:
        return plain
    lower = plain.str.to_lowercase()
    plain = pl.select(pl.when(lower.str.contains(_ZEROS[key])).then(pl.lit("0")).otherwise(plain)).to_series()
    if key == "grade":
        falls = plain.str.contains(r"(?i)\bdown(?:hill)?\b")
        bare = plain.str.replace_all(r"(?i)\s*\b(?:up|down)(?:hill)?\b\s*", "").str.strip_chars()
        plain = pl.select(pl.when(falls).then(pl.lit("-") + bare).otherwise(bare)).to_series()
    return plain


def decimal_comma(cells: pl.DataFrame, separator: str, stated: str) -> bool:
    """Whether figures have a comma before their decimals.

    Raises
    ------
    Refusal : every comma may as well set off thousands, and nobody has said what it does
    """
    if stated:
        return stated == "comma"
    surely, either, points = 0, 0, False
    example = ""
    for name in cells.columns:
        known = cells[name].drop_nulls()
        column = known.filter(~known.str.contains(":", literal=True))  # no clocks
        points = points or bool(column.str.contains(r"^[+-]?\d*\.\d+\D*$").any())
        column = column.filter(column.str.contains(",", literal=True))
        one = column.filter(column.str.contains(_ONE_COMMA))
        thousands = one.str.contains(_THOUSANDS)
        surely += int((~thousands).sum()) + int(column.str.contains(_BOTH).sum())
        either += int(thousands.sum())
        if int(thousands.sum()) and not example:
            example = str(one.filter(thousands)[0])
    if surely:
        return True
    if either and not points:
        limit = "may be a figure with decimals or one in the thousands"
        fix = "say --decimal comma or --decimal point"
        raise Refusal(field="log", value=example, limit=limit, fix=fix)
    return False


def figures(cells: pl.Series, key: str, unit: str, comma: bool, field: str) -> tuple[Floats, str, int]:
    """Figures of a column in SI, NaN where a cell says nothing, their unit, and how many an unplugged sensor wrote.

    Parameters
    ----------
    cells : texts; null where nothing stands
    key : the channel
    unit : its unit; empty where every cell says it, or where it is yes or no
    comma : figures have a comma before their decimals
    field : what the column is called in a refusal

    Raises
    ------
    Refusal : too many cells are no figures, or lie outside what the channel can be
    """
    channel = CHANNELS[key]
    if channel.dimension == YES_NO:
        lower = cells.str.to_lowercase()
        found = lower.replace_strict(_WORDS, default=None, return_dtype=pl.Float64)
        _enough_read(cells, found, "yes or no", "write yes or no, on or off, 1 or 0", field)
        return _array(found), "", 0
    figure, words = _parted(cells, comma)
    _enough_read(cells, figure, "a figure", "check the logger, or leave the column out", field)
    if unit:
        own = words.filter(words.is_not_null() & (words != "")).unique().to_list()
        strange = [word for word in own if unit_named(str(word), channel.dimension) != unit]
        if strange:
            fix = f"write all of it in one unit and name that in the head; the head says {unit}"
            raise Refusal(field=field, value=shortened(strange[0], 20), limit="stands in a cell of the column", fix=fix)
        values = np.asarray(to_si(_array(figure), channel.dimension, unit), float)
    else:
        values, unit = _each_with_its_unit(figure, words, key, field)
    unplugged = rails(values, key)
    values = np.where(unplugged, np.nan, values)
    _possible(values, key, unit, field)
    return values, unit, int(unplugged.sum())


def _parted(cells: pl.Series, comma: bool) -> tuple[pl.Series, pl.Series]:
    """Figure and what stands behind it, of every cell."""
    bare = cells.cast(pl.Float64, strict=False)
    if not comma and int(bare.is_finite().sum()) == int(cells.is_not_null().sum()):  # as most loggers write
        return bare, pl.repeat("", len(cells), dtype=pl.String, eager=True)
    plain = cells.str.replace_all(r"[\s\u00a0\u202f']", "")
    if comma:
        plain = plain.str.replace_all(".", "", literal=True).str.replace(",", ".", literal=True)
    else:
        plain = plain.str.replace_all(",", "", literal=True)
    parts = plain.str.extract_groups(r"^([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d{1,3})?)(.*)$").struct.unnest()
    figure = parts.to_series(0).cast(pl.Float64, strict=False)
    finite = figure.is_finite().fill_null(False)
    return pl.select(pl.when(finite).then(figure)).to_series(), parts.to_series(1)


def _each_with_its_unit(figure: pl.Series, words: pl.Series, key: str, field: str) -> tuple[Floats, str]:
    """Cells such as "210 F"; one without a unit among them is left out, for it may mean anything."""
    dimension = CHANNELS[key].dimension
    said = [str(word) for word in words.drop_nulls().unique().to_list() if word]
    units = {word: unit_named(word, dimension) for word in said}
    unknown = [word for word, unit in units.items() if unit is None]
    if unknown or not said or len(said) > MOST_UNITS:
        known = ", ".join(name for name, _ in dimension.words)
        value = shortened(unknown[0], 20) if unknown else "(no unit)"
        limit = f"is no unit of {CHANNELS[key].means}"
        raise Refusal(field=field, value=value, limit=limit, fix=f"known are {known}")
    values = np.full(len(figure), np.nan)
    plain = _array(figure)
    for word, unit in units.items():
        here = np.asarray((words == word).fill_null(False).to_numpy(), bool)
        values[here] = to_si(plain[here], dimension, unit or "")
    if key in _ZEROS:
        values[np.asarray((words == "").fill_null(False).to_numpy(), bool) & (plain == 0.0)] = 0.0
    return values, ", ".join(sorted({unit for unit in units.values() if unit}))


def _enough_read(cells: pl.Series, found: pl.Series, what: str, fix: str, field: str) -> None:
    written = int(cells.is_not_null().sum())
    strange = cells.filter(cells.is_not_null() & found.is_null())
    if len(strange) > UNREADABLE * written:
        limit = f"is not {what}, like {len(strange):,} of {written:,} cells of the column"
        raise Refusal(field=field, value=shortened(strange[0], 30), limit=limit, fix=fix)


def _possible(values: Floats, key: str, unit: str, field: str) -> None:
    """Refuse a column of which many figures cannot be what it says; a wrong unit shows so."""
    channel = CHANNELS[key]
    low, high = channel.hard
    known = values[np.isfinite(values)]
    outside = known[(known < low) | (known > high)]
    if len(outside) <= IMPOSSIBLE * len(known):
        return
    from toptank.units.display import figure as written

    worst = float(outside[np.argmax(np.abs(outside - 0.5 * (low + high)))])
    first = unit.partition(",")[0]
    ends = " and ".join(written(float(from_si(end, channel.dimension, first))) for end in channel.hard)
    other = {"°C": "°F", "°F": "°C"}.get(first) if channel.dimension == TEMPERATURE else None
    fix = f"is it in {other}? Put the right unit into the head" if other else "check its unit, and the sensor"
    limit = f"{channel.means} lies between {ends} {first}"
    value = f"{written(float(from_si(worst, channel.dimension, first)))} {first}"
    raise Refusal(field=field, value=value, limit=limit, fix=fix)


def _array(column: pl.Series) -> Floats:
    return np.array(column.cast(pl.Float64).fill_null(np.nan).to_numpy(), float)
