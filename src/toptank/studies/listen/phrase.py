"""Phrases of symptoms.toml as patterns over the words of a complaint."""

import re
from collections.abc import Iterator, Sequence
from functools import cache

from toptank.catalogue.symptoms.symptom import word_classes
from toptank.studies.listen.words import DENYING, Word, stem

GAP, WIDE_GAP = 4, 10
"""Words that `*` may stand for inside a clause, and `**` inside a sentence."""

_DENIAL = "(?:" + "|".join(DENYING) + ")"
_WORD = rf"(?!(?:{'|'.join(DENYING)}|but|although|though|until) )[^ .,]+"


@cache
def pattern(phrase: str) -> re.Pattern[str]:
    """A phrase as a pattern over stems, each followed by one space."""
    parts = [_part(part) for part in phrase.split()]
    return re.compile(r"(?<![^ ])" + "".join(parts))


def _part(part: str) -> str:
    if part == "*":
        return rf"(?:{_WORD} ){{0,{GAP}}}?"
    if part == "**":
        return rf"(?:[^ .]+ ){{0,{WIDE_GAP}}}?"
    if part == "NOT":
        return _DENIAL + " "
    if part == "#":
        return r"\d[^ ]* "
    choice = "(?:" + "|".join(" ".join(map(_one, words)) for words in _stems(part.removesuffix("?"))) + ") "
    return f"(?:{choice})?" if part.endswith("?") else choice


def _one(word: str) -> str:
    return {"NOT": _DENIAL, "#": r"\d[^ ]*"}.get(word, re.escape(word))


def _stems(part: str) -> tuple[tuple[str, ...], ...]:
    """Stems of alternatives; a class in braces brings its words, "_" joins the words of one alternative."""
    found: list[tuple[str, ...]] = []
    for one in part.split("|"):
        for words in word_classes()[one[1:-1]] if one.startswith("{") else (one,):
            found += [tuple(word if word in ("NOT", "#") else stem(word) for word in words.split("_"))]
    return tuple(dict.fromkeys(found))


def stems_in(phrase: str) -> Iterator[str]:
    """Every stem that a phrase can match."""
    for part in phrase.split():
        if part not in ("*", "**", "NOT", "#"):
            yield from (word for words in _stems(part.removesuffix("?")) for word in words if word not in ("NOT", "#"))


def spaced(words: Sequence[Word]) -> tuple[str, tuple[int, ...]]:
    """Stems with one space after each, and where in that text each begins."""
    starts: list[int] = []
    at = 0
    for word in words:
        starts.append(at)
        at += len(word.stem) + 1
    return "".join(word.stem + " " for word in words), tuple(starts)
