"""What the columns of a log may be called, and in which unit they are.

Names follow the COVESA Vehicle Signal Specification, release 4 to 6: whoever names a column as it does need not write a
unit, for the standard fixes it. Any other column carries its unit in its head or in a row of units, or is told of in a
mapping. A column without a unit is never guessed.
"""

import functools
import re
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from toptank.shop.files.read_bytes import shortened
from toptank.units.dimension import (
    ALTITUDE,
    ANGLE,
    CURRENT,
    DISTANCE,
    FLOW,
    GRADE,
    POWER,
    PRESSURE,
    ROTATION,
    SPEED,
    TEMPERATURE,
    TORQUE,
    VOLTAGE,
    YES_NO,
    Dimension,
)
from toptank.units.quantity import unit_named
from toptank.units.refusal import Refusal

ENGINE = "Vehicle.Powertrain.CombustionEngine"


@dataclass(frozen=True, slots=True, kw_only=True)
class Channel:
    """A column that is understood.

    Parameters
    ----------
    means : what it is, for people
    dimension : its kind of quantity
    signals : its names in the Vehicle Signal Specification, the newest first, with the unit that it fixes
    words : other names, in small letters, words parted by one space
    hard : limits outside which a figure is no reading but a fault of the logger, in SI
    """

    means: str
    dimension: Dimension
    signals: Mapping[str, str]
    words: tuple[str, ...]
    hard: tuple[float, float]


CHANNELS: Mapping[str, Channel] = MappingProxyType(
    {
        "coolant": Channel(
            means="coolant, by a thermometer of its own",
            dimension=TEMPERATURE,
            signals={
                f"{ENGINE}.EngineCoolant.Temperature": "°C",
                f"{ENGINE}.ECT": "°C",
                "Vehicle.OBD.CoolantTemperature": "°C",
            },
            words=("coolant", "coolant temp", "engine coolant temp", "engine coolant", "ect", "water", "water temp",
                   "cooling water", "engine temp", "top tank", "top tank temp", "top hose", "top hose temp"),
            hard=(230.0, 433.0),
        ),
        "gauge": Channel(
            means="the vehicle's own gauge",
            dimension=TEMPERATURE,
            signals={},
            words=("gauge", "gauge temp", "needle", "dash gauge", "temp gauge"),
            hard=(230.0, 433.0),
        ),
        "ambient": Channel(
            means="air outside",
            dimension=TEMPERATURE,
            signals={"Vehicle.Exterior.AirTemperature": "°C", "Vehicle.OBD.AmbientAirTemperature": "°C"},
            words=("ambient", "ambient temp", "ambient air temp", "outside", "outside temp", "outside air temp", "oat",
                   "aat", "air outside", "outdoor temp", "shade"),
            hard=(233.15, 333.15),
        ),
        "speed": Channel(
            means="road speed",
            dimension=SPEED,
            signals={"Vehicle.Speed": "km/h", "Vehicle.OBD.Speed": "km/h"},
            words=("speed", "vehicle speed", "veh speed", "vss", "road speed", "gps speed",
                   "ground speed", "speed gps", "speed obd"),
            hard=(0.0, 70.0),
        ),
        "distance": Channel(
            means="distance driven",
            dimension=DISTANCE,
            signals={"Vehicle.TraveledDistanceSinceStart": "m", "Vehicle.TraveledDistance": "m"},
            words=("distance", "trip", "trip distance", "odometer", "driven"),
            hard=(0.0, 5e9),
        ),
        "altitude": Channel(
            means="height above the sea",
            dimension=ALTITUDE,
            signals={"Vehicle.CurrentLocation.Altitude": "m"},
            words=("altitude", "elevation", "height", "alt", "ele", "gps altitude"),
            hard=(-500.0, 5500.0),
        ),
        "grade": Channel(
            means="grade of the road",
            dimension=GRADE,
            signals={},
            words=("grade", "gradient", "slope", "incline"),
            hard=(-0.3, 0.4),
        ),
        "engine_speed": Channel(
            means="engine speed",
            dimension=ROTATION,
            signals={f"{ENGINE}.Speed": "rpm", "Vehicle.OBD.EngineSpeed": "rpm"},
            words=("engine speed", "engine rpm", "rpm", "revs", "tacho", "tachometer"),
            hard=(0.0, 150.0),
        ),
        "running": Channel(
            means="engine on",
            dimension=YES_NO,
            signals={f"{ENGINE}.IsRunning": ""},
            words=("engine on", "engine running", "running", "ignition"),
            hard=(0.0, 1.0),
        ),
        "air_conditioning": Channel(
            means="air conditioning on",
            dimension=YES_NO,
            signals={"Vehicle.Cabin.HVAC.IsAirConditioningActive": ""},
            words=("air conditioning", "ac", "a/c", "aircon", "air con", "ac on", "a/c on"),
            hard=(0.0, 1.0),
        ),
        "heater": Channel(
            means="heater fully on",
            dimension=YES_NO,
            signals={},
            words=("heater", "heater on"),
            hard=(0.0, 1.0),
        ),
        "transmission": Channel(
            means="transmission fluid",
            dimension=TEMPERATURE,
            signals={"Vehicle.Powertrain.Transmission.Temperature": "°C"},
            words=("transmission", "transmission temp", "trans temp", "gearbox temp", "atf temp"),
            hard=(230.0, 473.0),
        ),
    }
)  # fmt: skip
"""Key -> channel. What an engine breathes is not the air outside: intake temperature is no ambient."""

_LAST_BRACKET = re.compile(r"^(.*?)\s*[(\[{]([^()\[\]{}]*)[)\]}]\s*$", re.DOTALL)
_BETWEEN = re.compile(r",\s*|\s+in\s+|\s*/\s*|\s+|_|\.")
_FIGURE = re.compile(r"[+-]?[\d.,:]+")
_MEASURED = (
    TEMPERATURE, SPEED, ALTITUDE, DISTANCE, GRADE, ROTATION, PRESSURE, POWER, VOLTAGE, CURRENT, TORQUE, FLOW, ANGLE,
)  # fmt: skip
"""Kinds of quantity that a logger writes, those that are of no use here among them."""

_LONG_WORDS = {"temperature": "temp", "tmp": "temp", "a c": "ac"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Head:
    """The head of a column: what it was called, the words without its unit, the unit; empty where none is written."""

    written: str
    words: str
    unit: str


@functools.lru_cache(maxsize=4096)  # a log is asked for its head in many lines, each column again and again
def head_of(written: str) -> Head:
    """Part a head into its words and its unit: "Coolant Temp (°C)", "coolant_degF", "Speed [km/h]", "Speed (OBD) mph".

    What stands in brackets or behind a comma, slash, space, dot or underscore is a unit only if it is one that is known
    of some quantity; anything else stays among the words. The split whose words mean something goes first, so that the
    h of "speed km/h" is no hour.
    """
    text = " ".join(written.replace("\u00b0 ", "°").split())
    if _FIGURE.fullmatch(text):  # a line of figures is tried as a head too, and names nothing
        return Head(written=text, words=text, unit="")
    if whole := channel_of_words(_plain(text)):  # "A/C" is no unit of A, and "Engine RPM" says both
        last = text.rpartition(" ")[2]
        return Head(written=text, words=_plain(text), unit=last if unit_named(last, CHANNELS[whole].dimension) else "")
    splits = [(_plain(front), unit) for front, unit in _splits(text) if _is_unit(unit)]
    meant = [(words, unit) for words, unit in splits if channel_of_words(words) or words in TIME_WORDS]
    words, unit = (meant or splits or [(_plain(text), "")])[0]
    return Head(written=text, words=words, unit=unit)


def _splits(text: str) -> list[tuple[str, str]]:
    """Every way to part a head into words and what may be a unit; brackets first, long units before short ones."""
    found: list[tuple[str, str]] = []
    if match := _LAST_BRACKET.match(text):
        found.append((match[1], match[2].strip()))
    ends = [match.span() for match in _BETWEEN.finditer(text)]
    return [*found, *((text[:start], text[end:]) for start, end in ends if start > 0 and end < len(text))]


@functools.lru_cache(maxsize=4096)
def _is_unit(text: str) -> bool:
    """Whether a text names a unit of some quantity, of time, or a form of times."""
    known = any(unit_named(text, dimension) for dimension in _MEASURED)
    return known or text.lower() in (*TIME_UNITS, *TIME_FORMS)


TIME_UNITS: Mapping[str, float] = MappingProxyType(
    {word: size for words, size in (
        (("s", "sec", "secs", "second", "seconds"), 1.0),
        (("ms", "msec", "millisecond", "milliseconds"), 1e-3),
        (("min", "mins", "minute", "minutes"), 60.0),
        (("h", "hr", "hrs", "hour", "hours"), 3600.0),
    ) for word in words}
)  # fmt: skip
"""Word for a unit of time -> its seconds."""

TIME_WORDS = (
    "time", "timestamp", "date time", "datetime", "date", "device time", "gps time", "clock", "time of day",
    "local time", "utc time", "elapsed", "elapsed time", "t", "run time", "log time", "iso time", "unix time",
)  # fmt: skip
"""Names of a column of times, in small letters."""

TIME_FORMS = ("hh:mm", "mm:ss", "unix")
"""Forms of a time that cannot be told by looking at it."""


def _plain(text: str) -> str:
    """Small letters, one space between words, the usual short forms."""
    loose = re.sub(r"(?<=[a-z])(?=[A-Z])", " ", text)
    words = re.sub(r"[\s_\-.,:()\[\]{}]+", " ", loose).strip().lower()
    for long, short in _LONG_WORDS.items():
        words = re.sub(rf"\b{long}\b", short, words)
    return words


def channel_named(head: Head) -> str | None:
    """Key of the channel that a head names; None if it names none."""
    for key, channel in CHANNELS.items():
        if any(head.written.lower() == signal.lower() for signal in channel.signals):
            return key
    return channel_of_words(head.words)


def channel_of_words(words: str) -> str | None:
    """Key of the channel that some words name, in small letters; None if they name none."""
    return next((key for key, channel in CHANNELS.items() if words in channel.words), None)


def unit_by_standard(head: Head, key: str) -> str | None:
    """The unit that the Vehicle Signal Specification fixes for a column that is called as there; None for others."""
    for signal, unit in CHANNELS[key].signals.items():
        if head.written.lower() == signal.lower():
            return unit
    return None


def checked_unit(head: Head, key: str, unit: str, field: str) -> str:
    """The unit's own name, or a refusal: of a column without one, or with one of something else."""
    channel = CHANNELS[key]
    if channel.dimension == YES_NO:
        return ""
    found = unit_named(unit, channel.dimension) if unit else None
    if found is not None:
        return found
    units = ", ".join(name for name, _ in channel.dimension.words)
    limit = f"is no unit of {channel.means}" if unit else f"a column for {channel.means} needs its unit"
    usual = channel.dimension.metric
    name = shortened(head.written, 40)
    fix = f'write it in the head, such as "{name} ({usual})", or say --column "{name} = {key} {usual}"'
    if unit:  # another name for it would make other figures of it
        fix = f'turn its figures into {usual}, and write that in the head, such as "{head.words} ({usual})"'
    raise Refusal(field=field, value=unit or "(no unit)", limit=f"{limit}; known are {units}", fix=fix)
