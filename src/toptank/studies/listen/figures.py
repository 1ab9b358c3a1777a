"""Figures that a complaint tells: what the gauge showed and where, the weather, the mileage; proposals to confirm.

A rule reads a figure only where its words say what it is; what is doubtful is left alone, since a person who confirms
ten right ones confirms the wrong one too. Differences ("adds 20 F"), ratings ("a 195 thermostat"), temperatures of parts
and what did not happen are no readings.
"""

import re
from collections.abc import Iterator
from typing import Literal, NamedTuple

Kind = Literal["gauge", "transmission", "weather", "mileage"]

_NUMBER = r"\d{1,3}(?:,\d{3})+|\d+(?:\.\d+)?"
_UNIT = (
    r"(?:degrees?|deg\.?|°)?\s*(?:fahrenheit|celsius|centigrade|[FC](?![a-z]))"
    r"|degrees?(?!\s+(?:above|below|over|more|higher|hotter|cooler|warmer))|°"
)
_TEMPERATURE = re.compile(
    rf"(?P<low>{_NUMBER})(?:\s*(?:{_UNIT})?\s*(?:to|and|or|-|–)\s*(?P<high>{_NUMBER}))?\s*(?P<unit>{_UNIT})?"
    r"(?![\d,.]*\d)(?!\s*(?:%|mph|mi\b|miles?|km|kph|psi|lbs?\b|rpm|hp|minutes?|mins?\b|hours?|ft\b|feet|litres?|liters?|"
    r"l\b|gallons?|quarts?|volts?|v\b|amps?|years?|months?|weeks?|days?|seconds?|inch|in\b|cid|cc\b|k\b|thermostat|"
    r"times|grand|stat\b|bar\b|st\b|nd\b|rd\b|th\b|s\b|-))",
    re.IGNORECASE,
)
_MILEAGE = re.compile(
    rf"(?P<low>{_NUMBER})(?P<k>\s?k\b|\s?thousand)?\s*(?P<unit>miles|mi\b|km\b|kilomet(?:er|re)s)"
    r"(?:\s+(?:on (?:it|the (?:clock|engine|motor|odometer|car|truck))|now|so far|and counting))?"
    r"|(?P<bare>\d{2,3})k\s+on (?:it|the (?:clock|engine|motor|odometer|car|truck))",
    re.IGNORECASE,
)
_ON_THE_CLOCK = re.compile(r"\bon (?:it|the (?:clock|engine|motor|odometer|car|truck))|odometer|mileage", re.IGNORECASE)
_LEAST_MILEAGE = 20_000.0
"""Below this so many miles are rather a trip [mile]; judgement."""

_WEATHER = re.compile(
    r"outside|\bout\b|\bday\b|\bdays\b|weather|ambient|\bshade\b|humid|\bafternoon\b|\bmorning\b|\bheat\b|summer|winter"
    r"|\bair temp|\ba place with\b",
    re.IGNORECASE,
)
_NO_READING = re.compile(
    r"\b(?:thermostat|stat)\b(?: (?:is|was|of|rated|with|at|a|an|the))*\s*$|\brated (?:at|for)? *$|\bmade to run at *$"
    r"|\bopens? (?:at|around|about)? *$|\b(?:cut|cuts|come|comes|came|kick|kicks|switch|switches|turn|turns)[ -](?:in|on|out|off)\b"
    r"[^.]{0,18}$|\b(?:do|does|did) (?:above|below|at) *$|\b(?:adds?|another|drops?|dropped|falls?|fell|rises?|rose|gained?|lost|by|within|extra) "
    r"(?:by |about |some |around |another |nearly )*$",
    re.IGNORECASE,
)
_BY_SO_MUCH = re.compile(r"^\s*(?:above|below|higher|hotter|cooler|warmer|more|less|over)\b|^\s*(?:thermostat|stat)\b", re.I)
_OF_A_PART = re.compile(r"\b(?:core|hose|hoses|tank|block|head|manifold|exhaust|oil|fins?|tubes?)\b[^.,;:]{0,22}$", re.I)
_OF_THE_FLUID = re.compile(r"\b(?:transmission|trans|gearbox|tranny|atf)\b", re.IGNORECASE)
_LEADS = re.compile(
    r"\b(?:at|to|of|hits?|hit|reached|reaches|reach|past|over|above|around|about|near|nearly|shows?|showed|says?|said|read|"
    r"reads|under|below|towards?|close to|between|passed|was|is|saw|sits?|sat|stays?|stood|stands?|climbs?|climbed|gauge|temp|needle|from|than|"
    r"only|just|runs|steady|holds?|some|pinned|and)\s*$",
    re.IGNORECASE,
)
_OVER = re.compile(r"\b(?:over|above|past|passed|more than|beyond|exceeds?|at least)\s*$", re.IGNORECASE)
_UNDER = re.compile(r"\b(?:under|below|less than|short of|at most|not over)\s*$", re.IGNORECASE)
_BEFORE = re.compile(
    r"\b(?:used to|normally|usually|until now|in the past|before (?:that|this)|always (?:ran|sat|was|stayed))\b[^.;]*$",
    re.IGNORECASE,
)
"""What it read while it was well."""

_DOWNHILL = re.compile(r"^[^.;,]{0,12}\b(?:on the way down|downhill|coming down|going down)\b", re.IGNORECASE)
_NEVER = re.compile(r"\b(?:never|not|no|without|n't|cannot|won't)\b[^.,;:]{0,25}$", re.IGNORECASE)

WHERE: tuple[tuple[str, str], ...] = (
    ("climb", r"\b(?:hills?|grades?|climb(?:s|ing)?|pass|mountains?|incline|uphill|upgrade|slope|inclines)\b"),
    (
        "standing",
        r"\b(?:idl(?:e|es|ed|ing)|parked|red lights?|at (?:a|the) lights?|standing(?! still)|standstill|queues?|sitting|waiting|"
        r"drive-through|at a stop|stopped|roadworks|light adds)\b",
    ),
    ("traffic", r"\b(?:traffic|town|city|jam|crawl(?:s|ing)?|rush hour|stop-and-go|stop and go|parade)\b"),
    (
        "road",
        r"\b(?:highway|freeway|interstate|motorway|turnpike|cruis(?:e|es|ing)|open road|main road|on the road|on the move|"
        r"(?:[4-9]\d|1[0-3]\d) ?(?:mph|km/h|kph))\b",
    ),
)
"""Conditions by the words that tell them."""

APART, SPEED_SAYS_LESS = 40, 30
"""Letters that a clause lies off, and by which a speed says less of where it was than a hill; judgement."""

_PLACES = tuple((name, re.compile(words, re.IGNORECASE)) for name, words in WHERE)
_COLDEST_COOLANT, _HOTTEST = 320.0, 420.0
_WARMEST_WEATHER, _COLDEST_WEATHER = 325.0, 233.0
"""What is said of coolant and of weather lies between these [K]; between 47 and 52 °C nobody can tell."""


class Figure(NamedTuple):
    """A figure that a text tells.

    kind : of what
    low, high : [K], of a mileage [m]; None where that side is open
    place : condition of `WHERE`, or empty
    words : what it rests on, with its span in the text
    """

    kind: Kind
    low: float | None
    high: float | None
    place: str
    words: str
    start: int
    end: int


def figures(text: str) -> tuple[Figure, ...]:
    """Figures that a text tells, in its order."""
    flat = re.sub(r"\s", " ", text)
    found = [*_temperatures(flat), *_mileages(flat)]
    return tuple(sorted(found, key=_start))


def _start(one: Figure) -> int:
    return one.start


def _temperatures(text: str) -> Iterator[Figure]:
    for match in _TEMPERATURE.finditer(text):
        start, end = match.start(), match.end()
        if start and (text[start - 1].isalnum() or text[start - 1] in ".,-/$£"):
            continue
        sentence = text.rfind(". ", 0, start) + 1
        before, after = text[sentence:start], text[end:]
        unit = (match["unit"] or "").strip().lower()
        written = [_figure(one) for one in (match["low"], match["high"]) if one]
        celsius = unit.endswith(("c", "celsius", "centigrade")) or "(celsius)" in after[:12].lower()
        if not unit and not (_LEADS.search(before) and 140.0 <= written[0] <= 290.0):
            continue
        if _NO_READING.search(before) or _BY_SO_MUCH.search(after) or _NEVER.search(before) or _BEFORE.search(before):
            continue
        kelvin = [_kelvin(one, celsius=celsius) for one in written]
        kind = _kind(kelvin, before, after)
        if kind is None:
            continue
        lower: float | None = kelvin[0]
        upper: float | None = kelvin[-1]
        if len(kelvin) == 1 and _OVER.search(before):
            upper = None
        elif len(kelvin) == 1 and _UNDER.search(before):
            lower = None
        place = "" if kind == "weather" or _DOWNHILL.search(after) else _place(text, start, end)
        yield Figure(kind, lower, upper, place, text[start:end].strip(), start, end)


def _figure(written: str) -> float:
    return float(written.replace(",", ""))


def _kelvin(figure: float, *, celsius: bool) -> float:
    return figure + 273.15 if celsius else (figure + 459.67) / 1.8


def _kind(kelvin: list[float], before: str, after: str) -> Kind | None:
    """What a temperature is of, or None where its words do not say."""
    clause = re.split(r"[;:,]", before)[-1]
    if _COLDEST_WEATHER <= kelvin[0] and kelvin[-1] <= _WARMEST_WEATHER:
        return None if _OF_A_PART.search(clause) else "weather"
    if not (_COLDEST_COOLANT <= kelvin[0] and kelvin[-1] <= _HOTTEST) or _OF_A_PART.search(clause):
        return None
    return "transmission" if _OF_THE_FLUID.search(clause) else "gauge"


def _place(text: str, start: int, end: int) -> str:
    """The condition that the figure's clause tells, else the nearest of its sentence."""
    first = max(text.rfind(". ", 0, start), text.rfind("; ", 0, start)) + 1
    stops = [at for sign in (". ", "; ") if (at := text.find(sign, end)) >= 0]
    last = min(stops, default=len(text))
    near: list[tuple[int, str]] = []
    for name, words in _PLACES:
        for match in words.finditer(text, first, last):
            away = match.start() - end if match.start() >= end else start - match.end()
            between = text[end : match.start()] if match.start() >= end else text[match.end() : start]
            vague = SPEED_SAYS_LESS if match.group()[0].isdigit() else 0
            near.append((away + vague + APART * len(re.findall(r"[,:]| but | and ", between)), name))
    return min(near)[1] if near else ""


def _mileages(text: str) -> Iterator[Figure]:
    for match in _MILEAGE.finditer(text):
        miles = _figure(match["bare"] or match["low"]) * (1000.0 if match["bare"] or match["k"] else 1.0)
        metres = miles * (1000.0 if (match["unit"] or "").lower().startswith("k") else 1609.344)
        told = _ON_THE_CLOCK.search(text[max(match.start() - 25, 0) : match.end()])
        every = re.search(r"\b(?:every|after|first|for|last|about|past)\b[^.]{0,12}$", text[: match.start()], re.I)
        if metres < _LEAST_MILEAGE * 1609.344 or (every and not told):
            continue
        yield Figure("mileage", metres, metres, "", match.group().strip(), match.start(), match.end())
