"""How hot a complaint says that it ran, in words and where: proposals of readings to confirm.

Every clause is read by itself: what it says of the heat, whether it denies it, and the condition that it names. One
that names none takes it from the clause beside it that says nothing of heat.
"""

import re
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

from toptank.studies.listen import heat_words as words
from toptank.studies.listen.heat_words import State, cooled_in, places_in

SENTENCE = re.compile(r"[^.!?]+(?:\.\d+[^.!?]*)*[.!?]?")
_CLAUSE_ENDS = re.compile(
    r"[,:;()]|\s(?=(?:but|and(?! go\b)|except|though|although|while the|while it|until|then|unless|where it|when it|yet"
    r"|or when)\s)"
)
_DENIED_WITHIN = 4
"""Words before a word of heat in which a denial denies it; judgement."""

_SEVERITY: tuple[State, ...] = ("fine", "warm", "hot", "boiled")
_ONLY = re.compile(r"\b(?:only|just|except)\b", re.IGNORECASE)


class Heat(NamedTuple):
    """What a text says of the heat at a condition.

    state : fine, warm, hot or boiled, as a reading has it
    place : condition of `heat_words.ORDER`, or empty where none is named
    cooled : with the air conditioning on, or off; None where nobody said
    words : the clause it rests on, with its span in the text
    """

    state: State
    place: str
    cooled: bool | None
    words: str
    start: int
    end: int


class _Clause(NamedTuple):
    text: str
    start: int
    places: tuple[str, ...]
    cooled: bool | None
    state: State | None
    denied: bool


def heats(text: str) -> tuple[Heat, ...]:
    """What a text says of the heat, the hottest of each condition; without condition only where none was hot.

    A sentence that asks, or tells of other vehicles, says nothing.
    """
    flat = re.sub(r"\s", " ", text)
    found = [one for sentence in SENTENCE.finditer(flat) for one in _of_sentence(sentence.group(), sentence.start())]
    hottest: dict[tuple[str, bool | None], Heat] = {}
    for one in _placed_as_when_cooled(found):
        known = hottest.get((one.place, one.cooled))
        if known is None or _SEVERITY.index(one.state) > _SEVERITY.index(known.state):
            hottest[one.place, one.cooled] = one
    placed = any(place and one.state != "fine" for (place, _), one in hottest.items())
    left = [one for (place, _), one in hottest.items() if place or (one.state != "fine" and not placed)]
    return tuple(sorted(left, key=_start))


def _placed_as_when_cooled(found: Sequence[Heat]) -> list[Heat]:
    """The same; what is fine with the air conditioning off, nobody said where, is so where it is hot with it on."""
    where = next((one.place for one in found if one.cooled and one.state != "fine"), "")
    return [
        one._replace(place=where) if one.state == "fine" and one.cooled is False and not one.place else one
        for one in found
    ]


def _start(one: Heat) -> int:
    return one.start


def _of_sentence(sentence: str, offset: int) -> Iterator[Heat]:
    if words.QUESTION.search(sentence) or words.OTHERS.search(sentence):
        return
    clauses = _clauses(sentence, offset)
    for at, clause in enumerate(clauses):
        state, places = clause.state, clause.places
        if state is None and not (state := _contrasted(clauses, at)):
            continue
        if words.AFTER_STOP.search(clause.text):
            continue
        if not places:
            places = _beside(clauses[:at], ()) if state == "fine" else _beside(clauses[:at], clauses[at + 1 :])
        if clause.denied:
            if not places or words.NO_MORE.search(clause.text):
                continue
            state = "fine"
        cooled = clause.cooled if clause.cooled is not None else _cooled_before(clauses[:at])
        if state == "fine" and not places and cooled is not False:
            continue
        start = clause.start + len(clause.text) - len(clause.text.lstrip())
        told = clause.text.strip()
        yield Heat(state, places[0] if places else "", cooled, told, start, start + len(told))


def _cooled_before(before: Sequence[_Clause]) -> bool | None:
    """What the clause before says of the air conditioning, where that says nothing of heat: "switch it on and ..."."""
    return before[-1].cooled if before and before[-1].state is None else None


def _clauses(sentence: str, offset: int) -> list[_Clause]:
    """The clauses of a sentence."""
    bounds = [0, *(found.start() for found in _CLAUSE_ENDS.finditer(sentence)), len(sentence)]
    found: list[_Clause] = []
    for start, end in pairwise(bounds):
        text = sentence[start:end]
        begin = len(text) - len(text.lstrip(" ,:()"))
        body = text[begin:].rstrip(".!?; ")
        if body:
            found.append(_Clause(body, offset + start + begin, places_in(body), cooled_in(body), *_state(body)))
    return found


def _state(clause: str) -> tuple[State | None, bool]:
    """What a clause says of heat, and whether it denies it."""
    if words.NO_MORE.search(clause):
        return None, False
    for state, told in words.STATES:
        for match in told.finditer(clause):
            before = clause[: match.start()]
            if words.OF_ELSE.search(before) and state != "fine":
                continue
            near = " ".join([*before.split()[-_DENIED_WITHIN:], match.group()])
            return state, state != "fine" and bool(words.NOT_SO.search(near) or re.match(r"\s*not\b", clause, re.I))
    return None, False


def _contrasted(clauses: Sequence[_Clause], at: int) -> State | None:
    """Hot, where a clause but names the condition at which it is, unlike the one before: "never there, only here"."""
    clause = clauses[at]
    if not clause.places or at == 0 or not _ONLY.search(clause.text):
        return None
    before = clauses[at - 1]
    return "hot" if before.denied or before.state == "fine" else None


def _beside(before: Sequence[_Clause], after: Sequence[_Clause]) -> tuple[str, ...]:
    """Conditions of the nearest clause beside one that says nothing of heat itself, those before first."""
    for other in (*reversed(before), *after):
        if other.state is None and other.places:
            return other.places
        if other.state is not None:
            return ()
    return ()
