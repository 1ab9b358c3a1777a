"""What a person says of the columns of a log, on the command line or in the section [log] of the job."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from toptank.shop.files.toml_file import nothing_left, shortened, take_list, take_text
from toptank.shop.log.log_columns import CHANNELS, TIME_FORMS, TIME_UNITS
from toptank.units.dimension import YES_NO
from toptank.units.nearest import did_you_mean
from toptank.units.quantity import unit_named
from toptank.units.refusal import Refusal

TIME, IGNORE = "time", "ignore"
FORMS_OF_TIME = (*TIME_UNITS, *TIME_FORMS)
"""How a column of times may be said to be written; clocks with seconds and ISO times are known by themselves."""

DECIMALS = ("comma", "point")
MOST_COLUMNS = 40


@dataclass(frozen=True, slots=True, kw_only=True)
class Meant:
    """What one column means: a key of `CHANNELS`, `time` or `ignore`, and its unit; empty if the file says it."""

    key: str
    unit: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LogMapping:
    """Columns by their head, in small letters, and the sign before decimals: comma, point, or empty to find it out."""

    columns: Mapping[str, Meant] = field(default_factory=dict[str, "Meant"])
    decimal: str = ""


NO_MAPPING = LogMapping()


def mapping_of(columns: Sequence[str], decimal: str, *, place: str = "column") -> LogMapping:
    """Read a mapping from texts such as "Water = coolant °F", "T = time s", "Boost = ignore"."""
    if len(columns) > MOST_COLUMNS:
        fix = "leave out the columns that nobody needs"
        raise Refusal(field=place, value=f"{len(columns)} columns", limit=f"are more than {MOST_COLUMNS}", fix=fix)
    if decimal and decimal not in DECIMALS:
        limit = 'must be "comma" or "point"'
        raise Refusal(field="decimal", value=shortened(decimal), limit=limit, fix="write one of the two")
    found: dict[str, Meant] = {}
    for written in columns:
        head, equals, told = written.rpartition("=")
        if not equals or not head.strip() or not told.strip():
            fix = 'write it as "Water = coolant °F"'
            raise Refusal(field=place, value=shortened(written), limit="is not a head, an = and a meaning", fix=fix)
        found[plain_head(head)] = _meant(told, written, place)
    return LogMapping(columns=found, decimal=decimal)


def plain_head(head: str) -> str:
    """A head as it is looked up: small letters, one space between words."""
    return " ".join(head.split()).lower()


def _meant(told: str, written: str, place: str) -> Meant:
    word, _, unit = " ".join(told.split()).partition(" ")
    key = word.lower()
    known = (*CHANNELS, TIME, IGNORE)
    if key not in known:
        fix = did_you_mean(key, known, "known are: " + ", ".join(known))
        raise Refusal(field=place, value=shortened(written), limit=f"{shortened(word)!r} is no meaning", fix=fix)
    if key == IGNORE and unit:
        raise Refusal(
            field=place, value=shortened(written), limit="what is ignored has no unit", fix="leave the unit off"
        )
    if key == TIME:
        if unit and unit.lower() not in FORMS_OF_TIME:
            limit = "must be one of: " + ", ".join(FORMS_OF_TIME)
            raise Refusal(field=place, value=shortened(written), limit=limit, fix="or leave it off for a clock")
        return Meant(key=key, unit=unit.lower())
    if key in CHANNELS and unit:
        dimension = CHANNELS[key].dimension
        own = unit_named(unit, dimension)
        if dimension == YES_NO or own is None:
            units = ", ".join(name for name, _ in dimension.words) or "none: it is yes or no"
            limit = f"{shortened(unit)!r} is no unit of {CHANNELS[key].means}"
            raise Refusal(field=place, value=shortened(written), limit=limit, fix=f"known are {units}")
        return Meant(key=key, unit=own)
    return Meant(key=key, unit="")


def together(first: LogMapping, then: LogMapping) -> LogMapping:
    """The first mapping where it says something, the other for the rest."""
    return LogMapping(columns={**then.columns, **first.columns}, decimal=first.decimal or then.decimal)


def take_log_mapping(table: dict[str, object]) -> LogMapping:
    """Take the mapping out of the section [log] of a job."""
    columns = take_list(table, "columns", within="log")
    decimal = take_text(table, "decimal", within="log", otherwise="")
    nothing_left(table, "log", ("columns", "decimal"))
    return mapping_of(columns, decimal, place="log.columns")
