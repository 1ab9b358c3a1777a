"""Symptoms that a complaint tells or denies, each with the words it rests on: proposals for a person to confirm."""

import re
from collections.abc import Iterator, Sequence
from functools import cache
from typing import NamedTuple

from toptank.catalogue.symptoms.symptom import Symptom, symptoms
from toptank.studies.listen.figures import figures
from toptank.studies.listen.heats import heats
from toptank.studies.listen.phrase import pattern, spaced, stems_in
from toptank.studies.listen.words import DENYING, Word, words_of

DENIED_FROM = 3
"""Words before a phrase in which a word of denial denies it [1]."""

_NO_DENIAL = ("not onli", "no matter", "no idea", "no longer", "not sure", "without stop", "nothing but", "not just")
_OF_OTHERS = re.compile(r"(?:^|\. )(?:other|anoth owner|anoth car|a friend|my friend|my neighbor|identic)[^.]*")
_IN_VAIN = r"(?:no|not|without|nothing)(?: [^ .]+){0,2} (?:differ|effect|help|chang|cure|improv)"
_TRIED = re.compile(rf"[^.]*(?:{_IN_VAIN}|chang nothing|made no|to no avail)[^.]*")
"""What other vehicles do, and what was tried in vain, is no symptom of this one."""

_LONG_AGO = re.compile(r"[^.]*(?<![^ ])(?:when|back|last time|onc|then) (?:[^ .]+ )*(?:year|month) ago[^.]*")
_OF_THE_PAST = ("work", "onset", "history", "vehicle", "core")
_PAST_SYMPTOM = "head_gasket_before"
"""What a fault of years ago was like is no symptom of today's, but for what was done and how it has been since."""


COLD_SIGN, COLD = "hot_in_cold_weather", 273.15
"""A figure of the weather below freezing [K] is cold weather."""


class Tick(NamedTuple):
    """A symptom that is proposed: told or denied, and the words it rests on with their span in the text."""

    symptom: str
    denied: bool
    words: str
    start: int
    end: int


def ticks(text: str) -> tuple[Tick, ...]:
    """Symptoms told or denied in a text, in the order of the catalogue; one a symptom, what is told before a denial."""
    words = words_of(text, _known())
    line, starts = spaced(words)
    masked = [found.span() for rule in (_OF_OTHERS, _TRIED) for found in rule.finditer(line)]
    long_ago = [found.span() for found in _LONG_AGO.finditer(line)]
    each = (
        _tick(one, text, words, line, starts, masked if _tells_of_the_past(one) else [*masked, *long_ago])
        for one in symptoms().values()
    )
    found = [one for one in each if one is not None]
    if COLD_SIGN not in {one.symptom for one in found}:
        found += _hot_in_the_cold(text)
    told = {one.symptom for one in found if not one.denied}
    return tuple(
        one
        for one in found
        if not any(_says_more(other, one) for other in found)
        and not told.intersection(symptoms()[one.symptom].overruled_by)
    )


def _tells_of_the_past(symptom: Symptom) -> bool:
    return symptom.category in _OF_THE_PAST or symptom.id == _PAST_SYMPTOM


def _hot_in_the_cold(text: str) -> list[Tick]:
    """A figure of cold weather in a text that says it ran hot: hot in cold weather, though no word says cold."""
    cold = next((one for one in figures(text) if one.kind == "weather" and (one.high or one.low or COLD) < COLD), None)
    if cold is None or not any(one.state != "fine" for one in heats(text)):
        return []
    return [Tick(COLD_SIGN, False, cold.words, cold.start, cold.end)]


def _says_more(other: Tick, one: Tick) -> bool:
    """Whether a tick that rests on the same words says what one says, and more."""
    inside = other.start <= one.start and one.end <= other.end
    return inside and not other.denied and not one.denied and one.symptom in symptoms()[other.symptom].covers


def _tick(
    symptom: Symptom,
    text: str,
    words: Sequence[Word],
    line: str,
    starts: Sequence[int],
    masked: Sequence[tuple[int, int]],
) -> Tick | None:
    denials = [(start, end) for start, end in _spans(symptom.denials, line, masked) if not _denied_before(line[:start])]
    masked = [*masked, *(_sentence(line, *span) for span in _spans(symptom.unless, line, ()))]
    told: list[tuple[int, int]] = []
    for phrase in symptom.phrases:
        for start, end in _spans((phrase,), line, masked):
            over = [span for span in denials if start < span[1] and span[0] < end]
            if any(not (start <= first and last < end) for first, last in over):
                continue
            denials = [span for span in denials if span not in over]  # the longer phrase says what they are part of
            if "NOT" not in phrase and _denied_before(line[:start]):
                denials.append((start, end))
            else:
                told.append((start, end))
    spans, denied = (told, False) if told else (denials, True)
    if not spans:
        return None
    start, end = min(spans)
    first, last = starts.index(start), max(place for place, at in enumerate(starts) if at < end)
    begin, stop = words[first].start, words[last].end
    return Tick(symptom.id, denied, text[begin:stop], begin, stop)


def _spans(phrases: Sequence[str], line: str, masked: Sequence[tuple[int, int]]) -> Iterator[tuple[int, int]]:
    for phrase in phrases:
        for found in pattern(phrase).finditer(line):
            start, end = found.span()
            if not any(first <= start and end <= last for first, last in masked):
                yield start, end


def _sentence(line: str, start: int, end: int) -> tuple[int, int]:
    """Where the sentence around a span begins and ends."""
    after = line.find(".", end)
    return line.rfind(".", 0, start) + 1, after if after >= 0 else len(line)


def _denied_before(before: str) -> bool:
    """Whether a word of denial stands shortly before, in the same clause."""
    clause = re.split(r"[.,]| but | although | though | until ", before)[-1]
    near = clause.split()[-DENIED_FROM:]
    text = " ".join(near)
    return any(word in DENYING for word in near) and not any(one in text for one in _NO_DENIAL)


@cache
def _known() -> frozenset[str]:
    """Every stem of the catalogue's phrases."""
    phrases = (phrase for one in symptoms().values() for phrase in (*one.phrases, *one.denials))
    return frozenset(stem for phrase in phrases for stem in stems_in(phrase))
