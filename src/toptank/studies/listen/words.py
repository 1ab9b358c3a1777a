"""The words of a complaint: small letters, stems, contractions opened, and where each stood in the text."""

import re
from collections.abc import Collection
from functools import cache
from typing import Any, NamedTuple

import snowballstemmer  # pyright: ignore[reportMissingTypeStubs]  # it ships none
from rapidfuzz import process
from rapidfuzz.distance import OSA

SHORTEST_MISSPELT = 6
"""Letters below which a word that nobody knows is left as it is: short words are one letter apart too often."""

MISSPELT = {
    "guage": "gauge", "guages": "gauges", "radiater": "radiator", "thermastat": "thermostat",
    "temprature": "temperature", "resevoir": "reservoir", "anti-freeze": "antifreeze", "stat": "thermostat",
    "stats": "thermostats", "rads": "rad", "leek": "leak", "leeks": "leaks", "leeking": "leaking",
    "dissapear": "disappear", "dissapears": "disappears",
    "dissapearing": "disappearing", "disapearing": "disappearing", "trafic": "traffic",
    "hoes": "hose", "pressurising": "pressure", "pressurizing": "pressure", "temps": "temp", "tempature": "temperature",
    "loosing": "losing", "looses": "loses", "seezed": "seized", "viscus": "viscous", "shrowd": "shroud",
    "breaks": "brakes",
}  # fmt: skip
"""Words that are often misspelt or cut short beyond what one letter mends."""

AS_THEY_ARE = ("timing", "cooler", "coolers", "jumped")
"""Words whose stem means another thing."""

NUMERALS = ("thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety", "hundred")
"""Words that are no misspelling of another: thirty miles are not thirsty."""

RUN_TOGETHER = (
    "dont", "doesnt", "didnt", "isnt", "wasnt", "wont", "wouldnt", "hasnt", "havent", "couldnt", "arent", "werent",
    "hadnt", "shouldnt", "dosent", "doesent", "dosnt", "doesn", "aint",
)  # fmt: skip
"""Contractions without their sign, as they are often typed."""

DENYING = ("not", "no", "never", "none", "nothing", "nobody", "without", "neither", "nor")
"""Words that deny what follows; they are not stemmed."""

_TOKEN = re.compile(r"[a-z]+\d+[a-z]*|\d+(?:[.,]\d+)*|[a-z]+(?:[-/'’][a-z]+)*|[.,;:!?()]", re.IGNORECASE)
_IN_ONE = (
    (re.compile(r"\bfan belt", re.IGNORECASE), "    belt"),
    (re.compile(r"\bcooling (?=fan|system)", re.IGNORECASE), "        "),
    (re.compile(r"\bover[ -](?=heat)", re.IGNORECASE), " over"),
    (re.compile(r"\bair con\b", re.IGNORECASE), " aircon"),
    (re.compile(r"\b(?:hot|warm) (?:and|then) cold\b(?! (?:weather|days?))", re.IGNORECASE), "hot-and-cold"),
    (re.compile(r"\b(?:four|4)[ -]wheel drive", re.IGNORECASE), "  "),
)
"""Words that mean one thing together, in as many letters as they had."""

_AIR_CONDITIONING = re.compile(r"\ba\.\s?c\b\.?|\ba/c\b", re.IGNORECASE)
_SENTENCE_ENDS = ".;!?"
# It has no types of its own.
_ENGLISH: Any = snowballstemmer.stemmer("english")  # pyright: ignore[reportUnknownMemberType, reportUnknownVariableType]


class Word(NamedTuple):
    """One word: its stem or sign, and its span in the text as it was written."""

    stem: str
    start: int
    end: int


@cache
def stem(word: str) -> str:
    """The stem of a word in small letters."""
    word = MISSPELT.get(word, word)
    return word if word[0].isdigit() or word in (*DENYING, *AS_THEY_ARE) else str(_ENGLISH.stemWord(word))


def words_of(text: str, known: Collection[str] = ()) -> tuple[Word, ...]:
    """Words and signs of a text in order; "doesn't" is two words, "." ends a sentence, "," a clause.

    Parameters
    ----------
    text : as it was written
    known : stems; a longer word that is none of them and one letter away from one is read as that one
    """
    text = _AIR_CONDITIONING.sub(lambda found: "a/c".ljust(len(found.group())), text)
    for together, one in _IN_ONE:
        text = together.sub(lambda found, one=one: one.rjust(len(found.group())), text)
    words: list[Word] = []
    for found in _TOKEN.finditer(text):
        token = found.group().lower().replace("’", "'")
        words += [Word(_spelled(part, known), *found.span()) for part in _opened(token) if part]
    return tuple(words)


def _opened(token: str) -> tuple[str, ...]:
    """A contraction as the words it stands for."""
    if token in _SENTENCE_ENDS:
        return (".",)
    if token in ("(", ")", ":"):
        return (",",)
    if token == "won't":
        return ("will", "not")
    if token in ("can't", "cannot", "cant"):
        return ("can", "not")
    if token.endswith("n't"):
        return (token[:-3], "not")
    if token in RUN_TOGETHER:
        return (token[:-2], "not")
    return (token.split("'")[0],)


def _spelled(word: str, known: Collection[str]) -> str:
    if not word[0].isalpha():
        return word
    stemmed = stem(word)
    if stemmed in known or word in NUMERALS or len(word) < SHORTEST_MISSPELT or not known:
        return stemmed
    near = process.extractOne(stemmed, _near(stemmed, tuple(known)), scorer=OSA.distance, score_cutoff=1)
    return near[0] if near is not None else stemmed


def _near(stemmed: str, known: tuple[str, ...]) -> list[str]:
    """Known stems that begin alike and are about as long."""
    return [one for one in known if one[0] == stemmed[0] and len(one) >= SHORTEST_MISSPELT - 1]
