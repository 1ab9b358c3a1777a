"""A drive typed as a few legs: "8 miles up 6 % at 45 mph, then idle 10 min", read into a profile.

A leg is a way at a speed, or a time at a speed or standing; it may climb or fall. What is switched on or off behind a
leg holds from that leg on; "engine off" holds for that leg alone.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass, replace

from toptank.units.conversion import System
from toptank.units.dimension import DISTANCE, GRADE, ROTATION, SPEED, TIME
from toptank.units.quantity import parse
from toptank.units.refusal import Refusal

EXAMPLE = "8 miles up 6 % at 45 mph, then idle 10 min"
TOWING_CLIMB = "11.4 miles up 5.8 % at 40 mph, air conditioning on"
"""The climb of the towing trial of SAE J2807: 3,500 ft, 3 to 7 %, here at its mean, and at its least speed."""

DEMO_CLIMB = "6 miles flat at 50 mph, then 5.3 miles up 5 % at 35 mph, then idle 5 min"
"""The road of the built-in example, as in examples/demo-climb.gpx: river road, ridge climb, stop at the farm gate."""

MOST_LETTERS, MOST_LEGS = 2000, 60
LONGEST = 12 * 3600.0
"""Longest drive [s]."""

STEEPEST, FASTEST, FASTEST_TURNING = 0.25, 62.0, 100.0
"""Limits of what is typed: grade [1], speed [m/s], engine speed [1/s]."""

_NUMBER = r"[+-]?\d+(?:\.\d+)?(?:\s*[½¼¾]|\s+\d/\d|/\d+)?"
_SPEED_UNIT = r"mph|mi/h|km/h|kph|kmh|m/s|miles an hour|miles per hour"
_SPEED = re.compile(rf"\bat\s+({_NUMBER})\s*({_SPEED_UNIT})?(?![\w/])")
_TURNING = re.compile(rf"\b(?:at\s+)?({_NUMBER})\s*(rpm|r/min)\b")
_TIME = re.compile(rf"({_NUMBER})\s*(seconds?|secs?|s|minutes?|mins?|min|hours?|hrs?|hr|h)\b")
_WAY = re.compile(rf"({_NUMBER})\s*(miles?|mi|kilomet(?:er|re)s?|km|met(?:er|re)s?|m|feet|ft|yards?|yd)\b")
_UP, _DOWN = r"up|uphill|climb|climbing|climbs|rising", r"down|downhill|falling|descending"
_SLOPE = rf"{_NUMBER}\s*(?:%|percent|per cent)|1\s+in\s+{_NUMBER}"
_GRADE = re.compile(
    rf"\b({_UP}|{_DOWN})\s+(?:an?\s+|at\s+)?(?:grade\s+of\s+)?({_SLOPE})|({_SLOPE})\s*({_UP}|{_DOWN})?(?!\w)"
)
_STANDS = re.compile(r"\b(idle|idling|idles|stop|stopped|stand|standing|wait|waiting|park|parked|stopping)\b")
_OFF = re.compile(r"\b(engine off|shut down|shut off|switched off|key off|heat soak|soak)\b")
_SWITCHES: tuple[tuple[str, str], ...] = (
    ("air_conditioning", r"(?:with\s+)?(?:the\s+)?(?:a/c|ac|air conditioning|air con|cooling)"),
    ("heater", r"(?:with\s+)?(?:the\s+)?heater"),
)
_FILLER = frozenset(
    (
        "a",
        "an",
        "the",
        "of",
        "for",
        "with",
        "and",
        "on",
        "road",
        "hill",
        "grade",
        "flat",
        "level",
        "in",
        "along",
        "drive",
        "driving",
        "cruise",
        "at",
        "then",
    )
)
_PARTS = re.compile(r"\s*(?:[,;\n]|\bthen\b)\s*")


@dataclass(frozen=True, slots=True, kw_only=True)
class Leg:
    """One leg of a drive.

    Parameters
    ----------
    text : as it was written
    seconds : how long it takes [s]
    speed : road speed [m/s]
    grade : rise over way [1]
    running : the engine is on
    in_gear : an automatic stands held on the brake in gear
    engine_speed : held by hand at standstill [1/s]; 0: idle
    air_conditioning, heater : switched on or off from here on; None: as before
    """

    text: str
    seconds: float
    speed: float = 0.0
    grade: float = 0.0
    running: bool = True
    in_gear: bool = False
    engine_speed: float = 0.0
    air_conditioning: bool | None = None
    heater: bool | None = None


def read_legs(text: str, system: System, notes: list[str] | None = None) -> tuple[Leg, ...]:
    """Read a drive as people write it; a unit that was assumed is told in `notes`.

    Raises
    ------
    Refusal : in one sentence, for the first leg that cannot be used
    """
    notes = [] if notes is None else notes
    if len(text) > MOST_LETTERS:
        raise _refusal(text[:40] + " ...", f"has more than {MOST_LETTERS} letters", "shorten it")
    legs: list[Leg] = []
    for written in _parts(text):
        changed = _modified(legs[-1], written) if legs else None
        if changed is not None:
            legs[-1] = changed
        else:
            legs.append(_leg(written, system, notes))
    if not legs:
        raise _refusal(text, "names no leg", f'write e.g. "{EXAMPLE}"')
    if len(legs) > MOST_LEGS:
        raise _refusal(text[:40] + " ...", f"has more than {MOST_LEGS} legs", "take some of them together")
    seconds = sum(leg.seconds for leg in legs)
    if seconds > LONGEST:
        limit = f"takes {seconds / 3600.0:.1f} hours; a drive may take {LONGEST / 3600.0:.0f} at most"
        raise _refusal(text[:60], limit, "shorten it: after an hour of the same, nothing changes any more")
    return tuple(legs)


def _parts(text: str) -> list[str]:
    """Legs, and what changes the one before, each as written; the towing climb by its own figures."""
    parts: list[str] = []
    for part in (one for one in _PARTS.split(_tidy(text)) if one):
        if re.fullmatch(r"(?:the )?(?:standard )?towing climb", part):
            parts += _PARTS.split(TOWING_CLIMB)
        elif "towing climb" in part:
            fix = f'write "towing climb" alone, or its own figures with yours, e.g. "{TOWING_CLIMB}"'
            raise _refusal(part, "says more of the towing climb, which is one leg as it stands", fix)
        else:
            parts.append(part)
    return parts


def _tidy(text: str) -> str:
    plain = " ".join(text.lower().replace("\u2212", "-").replace("\u2013", "-").replace("\u00a0", " ").split())
    plain = re.sub(r"(?<=\d),(?=\d{3}(?!\d))", "", plain)  # 1,500 rpm
    comma = re.search(r"\d+,\d+", plain)
    if comma:
        raise _refusal(comma[0], "has a comma in a figure", f"write {comma[0].replace(',', '.')}")
    return plain


def _modified(leg: Leg, written: str) -> Leg | None:
    """The leg before with what a few words behind it change; None if they are a leg of their own."""
    words = written
    if _OFF.fullmatch(words) or words == "with the engine off":
        if leg.speed > 0.0:
            raise _rolling(f"{leg.text}, {written}")
        return replace(leg, running=False, text=f"{leg.text}, {written}")
    if words in ("in gear", "held in gear"):
        return replace(leg, in_gear=True, text=f"{leg.text}, {written}")
    for key, name in _SWITCHES:
        found = re.fullmatch(rf"(?:{name}\s+(on|off)|(no|without)\s+{name})", words)
        if found:
            return _switched(replace(leg, text=f"{leg.text}, {written}"), key, found[1] == "on")
    return None


def _switched(leg: Leg, key: str, on: bool) -> Leg:
    return replace(leg, air_conditioning=on) if key == "air_conditioning" else replace(leg, heater=on)


def _leg(written: str, system: System, notes: list[str]) -> Leg:
    leg, rest = Leg(text=written, seconds=0.0), written

    def take(pattern: re.Pattern[str]) -> re.Match[str] | None:
        nonlocal rest
        found = pattern.search(rest)
        if found:
            rest = f"{rest[: found.start()]} {rest[found.end() :]}"
        return found

    leg = _with_switches(leg, take)
    turning = take(_TURNING)
    grade = take(_GRADE)
    speed = take(_SPEED)
    seconds, way = take(_TIME), take(_WAY)
    off, stands = take(_OFF), take(_STANDS)
    in_gear = take(re.compile(r"\bin gear\b"))
    level = take(re.compile(r"\b(flat|level)\b"))
    _nothing_left(rest, written)
    if grade is not None:
        sign = -1.0 if re.fullmatch(_DOWN, grade[1] or grade[4] or "up") else 1.0
        slope = parse(grade[2] or grade[3], GRADE, system=system, field="legs").value
        leg = replace(leg, grade=_within(sign * slope, STEEPEST, written, "a grade", "25 %"))
    if level and grade is not None:
        raise _refusal(written, "is both level and a grade", "keep one of the two")
    leg = replace(leg, running=off is None, in_gear=in_gear is not None)
    if turning is not None:
        held = parse(f"{turning[1]} {turning[2]}", ROTATION, system=system, field="legs").value
        leg = replace(leg, engine_speed=_within(held, FASTEST_TURNING, written, "an engine speed", "6,000 rpm"))
    if speed is not None:
        figure = parse(f"{speed[1]} {_speed_unit(speed[2])}".strip(), SPEED, system=system, field="legs")
        if figure.assumed:
            notes.append(f"speed of {written!r}: taken as {figure.unit}")
        leg = replace(leg, speed=_within(figure.value, FASTEST, written, "a speed", "140 mph (220 km/h)"))
    if off is not None and leg.speed > 0.0:
        raise _refusal(
            written, "drives with the engine off", "a vehicle stands while its engine is off: write two legs"
        )
    return replace(leg, seconds=_seconds(leg, written, seconds, way, stands is not None or off is not None, system))


def _seconds(
    leg: Leg, written: str, seconds: re.Match[str] | None, way: re.Match[str] | None, stands: bool, system: System
) -> float:
    """How long a leg takes [s]; refuses what says too little or too much."""
    if stands and (leg.speed > 0.0 or way is not None):
        raise _refusal(written, "both stands and drives", 'write two legs, e.g. "5 miles at 40 mph, then idle 2 min"')
    if seconds is not None and way is not None:
        raise _refusal(written, "says both how far and how long", "keep one of the two, with the speed")
    if seconds is not None:
        if not stands and leg.speed <= 0.0:
            raise _refusal(written, "does not say how fast", 'add a speed, e.g. "at 45 mph", or write "idle 10 min"')
        value = parse(f"{seconds[1]} {seconds[2]}", TIME, system=system, field="legs").value
    elif way is not None:
        if leg.speed <= 0.0:
            raise _refusal(written, "does not say how fast", 'add a speed, e.g. "at 45 mph"')
        value = parse(f"{way[1]} {way[2]}", DISTANCE, system=system, field="legs").value / leg.speed
    else:
        raise _refusal(written, "says neither how far nor how long", f'write e.g. "{EXAMPLE}"')
    if not 0.0 < value <= LONGEST:
        limit = f"takes {value / 3600.0:.3g} hours; a leg takes more than nothing and {LONGEST / 3600.0:.0f} at most"
        raise _refusal(written, limit, "check the figures and their units")
    return value


def _with_switches(leg: Leg, take: Callable[[re.Pattern[str]], re.Match[str] | None]) -> Leg:
    for key, name in _SWITCHES:
        found = take(re.compile(rf"\b{name}\s+(on|off)\b|\b(no|without)\s+{name}\b"))
        if found:
            leg = _switched(leg, key, found[1] == "on")
    return leg


def _nothing_left(rest: str, written: str) -> None:
    left = [word for word in re.split(r"[\s.]+", rest) if word and word not in _FILLER]
    if left:
        raise _refusal(written, f"holds {' '.join(left)!r}, which is not understood", f'write e.g. "{EXAMPLE}"')


def _speed_unit(unit: str | None) -> str:
    return "mph" if unit in ("miles an hour", "miles per hour") else unit or ""


def _within(value: float, most: float, written: str, what: str, limit: str) -> float:
    if abs(value) > most or (value < 0.0 and what != "a grade"):
        raise _refusal(written, f"has {what} beyond {limit}", "check the figure and its unit")
    return value


def _rolling(written: str) -> Refusal:
    return _refusal(written, "drives with the engine off", "a vehicle stands while its engine is off: write two legs")


def _refusal(value: str, limit: str, fix: str) -> Refusal:
    return Refusal(field="legs", value=value, limit=limit, fix=fix)
