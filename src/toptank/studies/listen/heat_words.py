"""The words that say how hot it ran without a figure, as patterns on one clause of a complaint."""

import re
from typing import Literal

from toptank.studies.listen.figure_words import PLACES

State = Literal["fine", "warm", "hot", "boiled"]


def _pattern(*parts: str) -> re.Pattern[str]:
    return re.compile("|".join(parts), re.IGNORECASE)


_NEEDLE = r"\b(?:temp(?:erature)?s?|gauge|needle|it|she)\b(?: gauge| needle)?"
_SOME = r"(?: (?!not\b|never\b|no\b)[\w'-]+){0,3}?"
_RUNS = (
    r"\b(?:run(?:s|ning)?|ran|gets?|got|getting|is|was|be|been|goes|went|turns?|becomes?|became|reads?|says?|shows?"
    r"|still)"
)
_A_BIT = r"(?:a (?:bit|little|touch|tad)|slightly|somewhat|rather)"

STATES: tuple[tuple[State, re.Pattern[str]], ...] = (
    (
        "boiled",
        _pattern(
            r"\b(?:blew|blows|blown) (?:its|her|his|the) top\b",
            r"\bboil(?:s|ed|ing)?[- ]?over\b",
            r"(?<!close to )(?<!near to )(?<!near )(?<!nearly )(?<!almost )"
            r"\bboil(?:s|ed|ing)?\b(?! (?:water|point|kettle))",
        ),
    ),
    (
        "warm",
        _pattern(
            rf"\b{_A_BIT} (?:hot|hotter|warm|warmer)\b",
            rf"{_RUNS}{_SOME} warm(?:er)?\b",
            r"^\s*warm(?:er)? (?:at|on|in|when|while|only|going)\b",
            r"\b(?:above|over|past|beyond) (?:the )?(?:middle|half(?:way)?|its usual|usual|normal)\b",
            r"\b(?:higher|hotter|warmer) than (?:usual|normal|it (?:should|used))",
            r"\b(?:close|near) to overheating\b",
            r"\b(?:to|at|past) three[- ]quarters\b",
        ),
    ),
    (
        "hot",
        _pattern(
            r"\bover[- ]?heat(?:s|ed|ing)?\b",
            rf"{_RUNS}{_SOME} hot\b(?! (?:engine|water|air|hose|brake|day|weather|wheel|start|to (?:the )?touch))",
            r"\b(?:uncomfortably|too|dangerously|very|really|so) hot\b(?! (?:day|weather|here|outside|out|to touch))",
            r"\bhot enough\b",
            r"\b(?:close to|near to|near|nearly|almost) boil(?:ed|ing)?\b",
            r"\bheat(?:s|ed|ing) up\b",
            r"\b(?:engine|motor) (?:has |had )?seized\b",
            r"\b(?:in|into|to|toward|towards|for|at|near|on|past|hits?|hit) the red\b(?! (?:light|lamp))",
            r"\bred-?lin(?:es?|ed|ing)\b",
            rf"{_NEEDLE}{_SOME} (?:pegged|pegs|pinned|rose|rises|soars?|soared|spikes?|spiked|jumped|shot up|shoots up"
            r"|skyrockets?|skyrocketed|(?:went|goes) sky[- ]high|maxed|maxes|off the (?:scale|clock)|to the top)\b",
            r"\b(?:temp(?:erature)?s?|gauge|needle)\b(?: gauge| needle)?(?: (?!not\b|never\b)[\w'-]+){0,2}?"
            r" (?:(?:goes|went|going|creeps|crept|shoots|shot)(?: way| right| straight)? up|climbs|climbed)\b",
            r"\b(?:engine|screamed|reads|said|says) hot\b",
            r"\b(?:temp(?:erature)?|engine) (?:warning )?(?:light|lamp) (?:came|comes|went|goes|flickers) on\b",
            r"\b(?:warning|alarm) (?:light|lamp|buzzer) (?:for|of) the (?:temp(?:erature)?|heat|engine)\b",
            rf"{_NEEDLE}{_SOME} (?:at|to|past) (?:its|the) (?:max(?:imum)?|limit|end|stop|peg|top|last mark)\b",
            r"\bat the (?:very )?top of (?:the|its) (?:gauge|dial|scale)\b",
            r"\b(?:flew|swung|moved|went|goes|ran|runs|climb(?:s|ed)|r[io]ses?|jumped)(?: \w+){0,3}? to (?:the )?"
            r"(?:hot|h|max(?:imum)?|peg)\b",
            r"\b(?:it|she|he|engine|motor|(?:start|begin)s? to|started to|began to)\b(?: \w+)? cook(?:s|ed|ing)?\b",
            r"^\s*(?:only )?hot (?:at|on|in|with|when|while|only|going|ever|since|every)\b",
            r"^\s*(?:it )?(?:starts?|started|begins?|began) (?:climbing|creeping|rising|to (?:climb|creep|rise))\b",
            r"\bthe (?:red |warning )?(?:light|lamp) (?:came|comes|went|goes) on\b",
            r"\bidles? (?:too |very )?hot\b",
            # said of the needle without its name, at the end of a clause: "it sits at the lights and climbs"
            r"(?:^|\b(?:it|she|and|then|just|starts? to|begins? to) )(?:climbs?|climbed|rises|creeps? up|crept up)\s*$",
        ),
    ),
    (
        "fine",
        _pattern(
            r"\b(?:is|was|runs?|ran|stays?|stayed|sits?|sat|drives?|just|perfectly|but|and|all|behaves)"
            r"(?: perfectly| quite| just| always| dead| completely)? (?:fine|ok(?:ay)?|normal|cool|well|perfect)\b",
            r"^\s*(?:only |it )?(?:fine|perfect|ok(?:ay)?|normal|cool|no (?:trouble|problems?))\b",
            r"\bat (?:a )?normal temperatures?\b",
            r"\b(?:sits?|stays?|stands?|holds?)(?: right| dead| nicely)* (?:in|at|on) the middle\b",
            r"\b(?:nothing (?:amiss|wrong|unusual)|like a (?:dream|charm|top))\b",
            r"\bcools? (?:right |back )?(?:off|down)\b",
            r"\b(?:drops?|dropped|falls?|fell|goes|went|comes|came) (?:right |straight )?(?:back|down again)\b(?! up)",
            r"\bnever (?:leaves|left|moves off|passes) (?:the )?(?:middle|half(?:way)?|normal)\b",
            r"\bno (?:trouble|problems?)\b",
        ),
    ),
)
"""How hot it was, the strongest first where a clause says two; `warm` goes before the `hot` inside "a bit hot"."""

NOT_SO = _pattern(
    r"\b(?:not|never|no|without|neither|nor|hardly|cannot|won't)\b(?! (?:only|just|sure|matter|idea|long))|n't\b"
)
NO_MORE = _pattern(
    r"\b(?:rarely|seldom|worr(?:y|ied)|afraid|hope|fear|any ?more|any longer|no longer|used to"
    r"|stopped|since then|until)\b"
)
QUESTION = _pattern(r"\?\s*$", r"^\s*(?:does|will|would|could|can|should|may|if|whether)\b")
OTHERS = _pattern(
    r"\bother (?:owners?|people|cars|trucks|vans)\b",
    r"^\s*others\b",
    r"\b(?:a|my) (?:friend|neighbou?r)\b",
    r"\b(?:afraid|fear|worried|worry|case|avoid|prevent|risk|cause|causes|cure|against|before)"
    r" (?:of |it |that |it from )*$",
)
"""What is asked, feared, or told of other vehicles, is no reading of this one."""

OF_ELSE = _pattern(
    r"\b(?:transmission|gearbox|trans|brakes?|wheels?|hubs?|oil|exhaust|heater|air conditioning|a/c|ac|aircon|"
    r"hose|hoses|compressor|alternator|radiator|core)\b[^,;.]{0,14}$",
    r"\b(?:weather|days?|nights?|it's|outside)(?: (?:is|was|were|gets?|got))*\s*$",
)
"""Before a word of heat that is said of another part, or of the day."""

_AIR = r"(?:the |its |my )?(?:air[- ]?con(?:ditioning|ditioner)?|a[/.]?c)\b\.?"
NOT_COOLED = _pattern(
    rf"{_AIR} (?:is |was |turned |switched )?off\b",
    rf"\b(?:without|no|unless) {_AIR}",
    rf"\b(?:turn|switch)(?:ed|ing|es)? off {_AIR}",
    rf"\b(?:turn|switch)(?:ed|ing|es)? {_AIR} off\b",
)
COOLED = _pattern(
    rf"\b(?:with|when|while|if|once|using|running) {_AIR}",
    rf"\b(?:turn|switch|put|have|run)(?:ed|ing|es|s)? (?:on )?{_AIR}",
    rf"{_AIR} (?:is |was |goes |turned |switched )?(?:on|running)\b",
)
"""With the air conditioning off, and on; where both fit it is off."""

AFTER_STOP = _pattern(
    r"\b(?:after|when|once|as soon as|on|upon)\b[^.,;]{0,16}\b(?:shut|shutting|switch|switched|switching|turn|turned"
    r"|turning|park|parked|parking)\b"
    r"[^.,;]{0,12}(?:\boff\b|\bdown\b|$)"
)
"""After it is switched off: heat soak, which no condition of the model stands for; the symptom speaks of it."""

WHERE = (
    (
        "climb",
        _pattern(
            r"\bclimb(?:ed|ing) (?:up|over|in|out|[\d,]+ ?(?:ft|feet|m|metres))\b",
            r"\bgradients?\b",
            r"\bup ?hills?\b",
            r"\bup (?:the |a |that )?(?:canyon|valley|ridge|gorge)\b",
            r"\bpulls? (?:up|out of)\b",
        ),
    ),
    (
        "towing",
        _pattern(
            r"\btow(?:s|ed|ing)?\b",
            r"\b(?:pull|haul|drag)(?:s|ed|ing)? (?:a|the|our|my|his|her) (?:\w+ )?"
            r"(?:trailer|caravan|camper|boat|horse)",
            r"\bwith (?:a|the|our|my) (?:trailer|caravan|boat|horse ?box)\b",
            r"\bhook(?:s|ed)? (?:up )?(?:a|the|our|my) (?:\w+ )?(?:trailer|caravan|boat)\b",
            r"\b(?:trailer|caravan|boat) (?:on|behind|hitched)\b",
        ),
    ),
    (
        "traffic",
        _pattern(r"\b(?:in|during|on) (?:my |the )?(?:commute|school run)\b", r"\bwalking pace\b", r"\bto a crawl\b"),
    ),
    (
        "standing",
        _pattern(
            r"\bat (?:every|each|all|the|a|any) (?:red |traffic |stop )?lights?\b",
            r"\bsits? (?:at|in) (?!(?:the )?(?:middle|half|normal|[\d]))",
            r"\b(?:stood|standing) still\b",
            r"\bin the (?:yard|driveway)\b",
        ),
    ),
    (
        "road",
        _pattern(
            r"\b(?:get|gets|got|getting|keep|keeps|am|i'm|we're|once) (?:moving|rolling|under way|underway)\b",
            r"\bon the way (?:home|back|to|in|out)\b",
            r"\bhard shoulder\b",
            r"\bat speed\b",
            r"\b(?:at|over|above|past) (?:[4-9]\d)\b(?! ?(?:degrees?|deg|°|f\b|c\b|psi|rpm|below|,\d))",
            r"\bon the (?:flat|ring road|dual carriageway|tarmac|a-road)\b",
        ),
    ),
)

ORDER = ("climb", "towing", "traffic", "standing", "road")
"""Where a clause names two conditions the first of these counts: the grade of a freeway is a grade; judgement."""


def cooled_in(clause: str) -> bool | None:
    """Whether a clause says that the air conditioning is on, or off; None where it says nothing of it."""
    if NOT_COOLED.search(clause):
        return False
    return True if COOLED.search(clause) else None


def places_in(clause: str) -> tuple[str, ...]:
    """Conditions that a clause names, the one that counts first."""
    found = {name for name, told in (*PLACES, *WHERE) if told.search(clause)}
    return tuple(name for name in ORDER if name in found)
