"""Figures that a complaint tells: what the gauge showed and where, the weather, the mileage; proposals to confirm.

A rule reads a figure only where its words say what it is; what is doubtful is left alone, since a person who confirms
ten right ones confirms the wrong one too. Differences ("adds 20 F"), ratings ("a 195 thermostat"), temperatures of
parts and what did not happen are no readings.
"""

import re
from collections.abc import Iterator
from typing import Literal, NamedTuple

from toptank.studies.listen import figure_words as words

Kind = Literal["gauge", "transmission", "weather", "mileage"]

METRES_A_MILE = 1609.344
LEAST_MILEAGE = 20_000.0
"""Below this so many miles are rather a trip [mile]; judgement."""

BARE, WARMEST_BARE_WEATHER = (140.0, 290.0), 125.0
"""Figures without a unit that are read as degrees Fahrenheit, of the coolant and of the weather; judgement."""

COLDEST_COOLANT, HOTTEST = 320.0, 420.0
COLDEST_WEATHER, WARMEST_WEATHER = 233.0, 325.0
"""What is said of coolant and of weather lies between these [K]; nearer to each other they cannot be told apart."""

APART, SPEED_SAYS_LESS, FARTHEST = 40, 30, 120
"""Letters that a clause lies off, by which a speed says less of where it was than a hill, and from which a word says
nothing of a figure; judgement."""


class Figure(NamedTuple):
    """A figure that a text tells.

    kind : of what
    low, high : [K], of a mileage [m]; None where that side is open
    place : condition of `figure_words.PLACES`, or empty
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
    read = _swung([*_temperatures(flat)], flat)
    return tuple(sorted([*read, *_written_weather(flat), *_mileages(flat)], key=_start))


def _swung(read: list[Figure], text: str) -> list[Figure]:
    """The same; two figures of one needle that swings between them, in one sentence, are one range."""
    found: list[Figure] = []
    for one in read:
        last = found[-1] if found else None
        between = text[last.start : one.end] if last is not None else ""
        if (
            last is None
            or (last.kind, last.place, one.kind) != ("gauge", one.place, "gauge")
            or None in (last.low, last.high, one.low, one.high)
            or ". " in between
            or not words.SWINGS.search(between)
        ):
            found.append(one)
            continue
        sides = [side for side in (last.low, last.high, one.low, one.high) if side is not None]
        found[-1] = last._replace(low=min(sides), high=max(sides), words=between.strip(), end=one.end)
    return found


def _start(one: Figure) -> int:
    return one.start


def _temperatures(text: str) -> Iterator[Figure]:
    for match in words.TEMPERATURE.finditer(text):
        start, end = match.start(), match.end()
        if start and (text[start - 1].isalnum() or text[start - 1] in ".,-/$£"):
            continue
        before, after = text[text.rfind(". ", 0, start) + 1 : start], text[end:]
        kelvin = _kelvin(match, before, after)
        kind = _kind(kelvin, before, after) if kelvin else None
        if kind is None:
            continue
        one_sided = len(kelvin) == 1
        yield Figure(
            kind,
            None if one_sided and words.UNDER.search(before) else kelvin[0],
            None if one_sided and words.OVER.search(before) else kelvin[-1],
            "" if kind == "weather" or words.DOWNHILL.search(after) else _place(text, start, end),
            text[start:end].strip(),
            start,
            end,
        )


def _written_weather(text: str) -> Iterator[Figure]:
    """The weather written out in words, in degrees Fahrenheit as whoever says it so means them."""
    for match in words.WRITTEN_WEATHER.finditer(text):
        tens = words.WRITTEN_OUT[match["tens"].lower()] if match["tens"] else 0
        kelvin = (tens + words.WRITTEN_OUT[match["last"].lower()] + 459.67) / 1.8
        yield Figure("weather", kelvin, kelvin, "", match.group(), match.start(), match.end())


def _kelvin(match: re.Match[str], before: str, after: str) -> list[float]:
    """One temperature or a range of two [K]; none where the figure is something else."""
    found = [_number(one) for one in (match["low"], match["high"]) if one]
    unit = (match["unit"] or "").strip().lower()
    if not unit:
        coolant = BARE[0] <= found[0] <= BARE[1] and (words.LEADS.search(before) or words.FOLLOWS.search(after))
        if not coolant and not (found[0] <= WARMEST_BARE_WEATHER and words.OUTSIDE.search(after)):
            return []
    celsius = unit.endswith(("c", "celsius", "centigrade")) or "(celsius)" in after[:12].lower()
    sign = -1.0 if words.MINUS.search(before) else 1.0
    return [sign * one + 273.15 if celsius else (sign * one + 459.67) / 1.8 for one in found]


def _number(written: str) -> float:
    return float(written.replace(",", ""))


def _kind(kelvin: list[float], before: str, after: str) -> Kind | None:
    """What a temperature is of, or None where it is no reading or its words do not say."""
    clause = re.split(r"[;:,]", before)[-1]
    if words.OF_A_PART.search(clause) or words.BEFORE.search(before):
        return None
    if words.NO_READING.search(before) or words.BY_SO_MUCH.search(after):
        return None
    if kelvin[0] >= COLDEST_WEATHER and kelvin[-1] <= WARMEST_WEATHER:
        return "weather"
    if not (kelvin[0] >= COLDEST_COOLANT and kelvin[-1] <= HOTTEST):
        return None
    if words.NEVER.search(before) or words.BY_A_GUN.search(after):
        return None
    return "transmission" if words.OF_THE_FLUID.search(clause) else "gauge"


def _place(text: str, start: int, end: int) -> str:
    """The condition that the figure's own clause tells, else the nearest of a sentence that tells no other figure."""
    first = max(text.rfind(". ", 0, start), text.rfind("; ", 0, start)) + 1
    stops = [at for sign in (". ", "; ") if (at := text.find(sign, end)) >= 0]
    last = min(stops, default=len(text))
    alone = len(words.TEMPERATURE.findall(text, first, last)) == 1
    near: list[tuple[int, str]] = []
    for name, told in words.PLACES:
        for match in told.finditer(text, first, last):
            after = match.start() >= end
            between = text[end : match.start()] if after else text[match.end() : start]
            apart = len(words.CLAUSE.findall(between))
            vague = SPEED_SAYS_LESS if match.group()[0].isdigit() else 0
            if not apart or alone:
                near.append((len(between) + vague + APART * apart, name))
    return min(near)[1] if near and min(near)[0] <= FARTHEST else ""


def _mileages(text: str) -> Iterator[Figure]:
    for match in words.MILEAGE.finditer(text):
        thousands = 1000.0 if match["bare"] or match["k"] else 1.0
        metric = (match["unit"] or "").lower().startswith("k")
        metres = _number(match["bare"] or match["low"]) * thousands * (1000.0 if metric else METRES_A_MILE)
        told = words.ON_THE_CLOCK.search(text[max(match.start() - 25, 0) : match.end() + 25])
        if metres < LEAST_MILEAGE * METRES_A_MILE or (words.A_TRIP.search(text[: match.start()]) and not told):
            continue
        yield Figure("mileage", metres, metres, "", match.group().strip(), match.start(), match.end())
