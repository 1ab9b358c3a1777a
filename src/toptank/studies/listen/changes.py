"""What a complaint says was tried, and what it did: proposals of changes to confirm.

A sentence counts where it names a part, says that it was renewed or worked on, and says what came of it; that may
stand at the head of the next sentence. What is asked, planned or feared, and what it runs hot since, is nothing tried.
"""

import re
from collections.abc import Iterator
from typing import Literal, NamedTuple

from toptank.studies.listen.heats import SENTENCE

Effect = Literal["none", "helped", "worse"]


class Change(NamedTuple):
    """Work that a text says was done, one of `WORK`, what it did, and the sentence that it rests on."""

    part: str
    effect: Effect
    words: str


def _pattern(*parts: str) -> re.Pattern[str]:
    return re.compile("|".join(parts), re.IGNORECASE)


_RAD = r"(?:radiator|rad|core)"
PARTS: tuple[tuple[str, re.Pattern[str]], ...] = (
    (
        "thermostat_removed",
        _pattern(
            r"\b(?:took|taken?|taking|pulled|left|ran)(?: \w+){0,2} (?:thermo)?stat out\b",
            r"\b(?:removed|removing|without) (?:the |a )?(?:thermo)?stat\b",
            r"\b(?:thermo)?stat (?:was |is )?(?:taken out|removed|left out)\b",
        ),
    ),
    ("thermostat", _pattern(r"\b(?:thermo)?stats?\b(?! housing)")),
    ("larger_radiator", _pattern(rf"\b(?:bigger|larger|three-row|four-row|thicker) (?:\w+ )?{_RAD}\b")),
    ("radiator_rodded", _pattern(rf"\b{_RAD}\b[^.,;]{{0,18}}\b(?:rodded|re-?cored|boiled out)\b", r"\brodded\b")),
    (
        "radiator_cleaned",
        _pattern(
            rf"\b(?:clean|wash|hos|blow|blew|blown)(?:ed|ing|e)?\b[^.,;]{{0,16}}\b{_RAD}\b",
            rf"\b{_RAD}\b[^.,;]{{0,16}}\b(?:cleaned|washed|blown out)\b",
        ),
    ),
    ("radiator", _pattern(rf"\b{_RAD}s?\b(?! caps?\b| hoses?\b| fans?\b)")),
    ("cap", _pattern(r"\bcaps?\b")),
    ("water_pump", _pattern(r"\b(?:water ?|coolant ?)?pumps?\b(?<!fuel pump)(?<!oil pump)")),
    ("fan_clutch", _pattern(r"\b(?:fan clutch|clutch fan|viscous (?:fan|coupling))\b")),
    ("fan_control", _pattern(r"\bfan (?:switch|relay|sensor)\b")),
    ("electric_fan", _pattern(r"\belectric (?:cooling )?fans?\b")),
    ("fan", _pattern(r"\bfans?\b(?! (?:clutch|switch|relay|sensor|belt|shroud))(?<!electric fan)(?<!clutch fan)")),
    ("shroud", _pattern(r"\bshroud\b")),
    ("belt", _pattern(r"\bbelts?\b")),
    ("hoses", _pattern(r"\bhoses?\b")),
    ("sender", _pattern(r"\b(?:send(?:er|ing unit)|temp(?:erature)? sensor)\b")),
    ("gauge", _pattern(r"\bgauge\b")),
    ("coolant", _pattern(r"\b(?:coolant|antifreeze)\b(?! (?:pump|loss|temp|sensor|hose))")),
    ("flush", _pattern(r"\bflush(?:ed|ing)?\b")),
    ("head_gasket", _pattern(r"\bhead gaskets?\b")),
    ("heater", _pattern(r"\bheater (?:core|matrix)\b")),
    ("carburettor", _pattern(r"\bcarb(?:urett?or)?s?\b")),
    ("sealer", _pattern(r"\b(?:stop[- ]leak|sealer)\b")),
)
"""Work (id), and how a part that it is done on is called; the first that fits some words has them."""

_ITSELF = frozenset({"thermostat_removed", "radiator_rodded", "radiator_cleaned", "flush"})
"""What names the work itself; of the others it must be said."""

_DONE = _pattern(
    r"\b(?:new|another|different|replac(?:ed|ing)|chang(?:ed|ing)|swapp(?:ed|ing)|renew(?:ed|ing)|fitt(?:ed|ing)"
    r"|install(?:ed|ing)|rebuilt|tried|put (?:in|on)|done)\b"
)
_EFFECTS: tuple[tuple[Effect, re.Pattern[str]], ...] = (
    ("worse", _pattern(r"\b(?:made|makes|got|is|was|runs) (?:it |things )?(?:even |much )?(?:worse|hotter)\b")),
    (
        "helped",
        _pattern(
            r"(?<!not )(?<!n't )(?<!no )\b(?:help(?:ed|s)|improv(?:ed|es)|made it better)\b",
            r"\b(?:a (?:bit|little)|slightly|somewhat) (?:better|cooler)\b",
            r"\b(?:but not|did not|didn't) (?:cured?|fix(?:ed)?)(?: it)? (?:all|entirely|completely|altogether)",
        ),
    ),
    (
        "none",
        _pattern(
            r"\b(?:no|not any|without|nor any) (?:real |noticeable )?"
            r"(?:difference|change|effect|improvement|luck|success|help)\b",
            r"(?:\bnot|n't) (?:help|cure|fix|change|make (?:a|any|the slightest) difference|solve)",
            r"\b(?:none of (?:it|this|that|them)|nothing) (?:has )?(?:helped|changed|worked)\b",
            r"\b(?:to no avail|in vain|changed nothing|same (?:problem|thing|as before|result))\b",
            r"\bstill (?:the same|(?:\w+ ){0,2}(?:hot|overheat\w*|boil\w*|does it|push\w*|climb\w*|in the red))",
            r"\b(?:in spite of|despite)\b",
        ),
    ),
)
"""What came of it, the plainest first."""

_NOT_TRIED = _pattern(
    r"\?\s*$",
    r"\b(?:should|could|would|going to|want(?:s|ed)? to|about to|thinking of|plan(?:ning)? to|needs?|if i|do i"
    r"|whether)\b",
    r"\bother (?:owners?|people)\b|\bmy (?:friend|neighbou?r)\b",
)
_SINCE = _pattern(r"\b(?:ever )?since\b")
_COMES_OF_IT = _pattern(
    r"^\s*(?:and |but )?(?:it|that|this|they|neither|none|nothing|no|still|same|all)\b",
    r"^\s*(?:made|makes|did|does|helped)\b",
)


def changes(text: str) -> tuple[Change, ...]:
    """What a text says was tried, each work once, in its order."""
    flat = re.sub(r"\s", " ", text)
    found: dict[str, Change] = {}
    for one in _told([sentence.group() for sentence in SENTENCE.finditer(flat)]):
        found.setdefault(one.part, one)
    return tuple(found.values())


def _told(sentences: list[str]) -> Iterator[Change]:
    for sentence, after in zip(sentences, [*sentences, ""][1:], strict=True):
        if _NOT_TRIED.search(sentence):
            continue
        effect, words = _effect(sentence), sentence
        if effect is None and _COMES_OF_IT.search(after) and not _NOT_TRIED.search(after):
            effect, words = _effect(after), f"{sentence} {after.strip()}"
        if effect is None or (_SINCE.search(sentence) and effect != "none"):
            continue
        for part in _parts(sentence):
            yield Change(part, effect, " ".join(words.split()))


def _effect(sentence: str) -> Effect | None:
    return next((effect for effect, told in _EFFECTS if told.search(sentence)), None)


def _parts(sentence: str) -> Iterator[str]:
    """Work named in a sentence that says it was done."""
    done = _DONE.search(sentence) is not None
    taken: list[tuple[int, int]] = []
    for part, named in PARTS:
        for match in named.finditer(sentence):
            if any(start < match.end() and match.start() < end for start, end in taken):
                continue
            taken.append(match.span())
            if done or part in _ITSELF:
                yield part
                break
