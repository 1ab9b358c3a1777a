"""The words that say what a figure of a complaint is, as patterns on the text before and after it."""

import re

NUMBER = r"\d{1,3}(?:,\d{3})+|\d+(?:\.\d+)?"

_HOTTER = "above|below|over|more|less|higher|hotter|cooler|warmer"
_UNIT = (
    r"(?:degrees?|deg\.?|°)?\s*(?:fahrenheit|celsius|centigrade|[FC](?![a-z]))"
    rf"|degrees?\b(?!\s+(?:{_HOTTER}))|°"
)
_OTHER_UNIT = (
    r"%|mph|mi\b|miles?|km|kph|psi|lbs?\b|rpm|hp|minutes?|mins?\b|hours?|ft\b|feet|litres?|liters?|l\b|gallons?|quarts?"
    r"|volts?|v\b|amps?|years?|months?|weeks?|days?|seconds?|inch|cid|cc\b|k\b|thermostat|times|grand|stat\b|bar\b"
    r"|st\b|nd\b|rd\b|th\b|s\b|-"
)
TEMPERATURE = re.compile(
    rf"(?P<low>{NUMBER})(?:\s*(?:{_UNIT})?\s*(?:to|and|or|-|–)\s*(?P<high>{NUMBER}))?(?![\d,.]*\d)"
    rf"(?:\s*(?P<unit>{_UNIT})|(?!\s*(?:{_OTHER_UNIT})))",
    re.IGNORECASE,
)
"""A figure or a range that has a unit of temperature, or none at all."""

MILEAGE = re.compile(
    rf"(?P<low>{NUMBER})(?P<k>\s?k\b|\s?thousand)?\s*(?P<unit>miles|mi\b|km\b|kilomet(?:er|re)s)"
    r"|(?P<bare>\d{2,3})k\s+on (?:it|the (?:clock|engine|motor|odometer|car|truck))",
    re.IGNORECASE,
)


def _pattern(*parts: str) -> re.Pattern[str]:
    return re.compile("|".join(parts), re.IGNORECASE)


_TENS = ("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
_FIRST = (
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
    "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen",
)  # fmt: skip
WRITTEN_OUT = {name: at for at, name in enumerate(_FIRST)} | {name: 10 * at for at, name in enumerate(_TENS, 2)}
"""Numbers as they are written out in words."""

WRITTEN_WEATHER = _pattern(
    rf"\b(?:(?P<tens>{'|'.join(_TENS)})[- ])?(?P<last>{'|'.join(WRITTEN_OUT)})[- ]degrees?[- ]"
    r"(?:weather|nights?|days?|mornings?|evenings?|afternoons?|heat|cold|out\b|outside)"
)
"""The weather with its figure written out: "in nine degree weather"."""

ON_THE_CLOCK = _pattern(r"\bon (?:it|the (?:clock|engine|motor|odometer|car|truck))", "odometer", "mileage")
A_TRIP = _pattern(r"\b(?:every|after|first|for|last|about|past)\b[^.]{0,12}$")

NO_READING = _pattern(
    r"\b(?:thermostat|stat)\b(?: (?:is|was|of|rated|with|at|a|an|the))*\s*$",
    r"\brated (?:at|for)? *$",
    r"\bmade to run at *$",
    r"\bopens? (?:at|around|about)? *$",
    r"\b(?:cuts?|comes?|came|kicks?|switch|switches|turns?)[ -](?:in|on|out|off)\b[^.]{0,18}$",
    r"\b(?:on|off) at *$",
    r"\b(?:do|does|did) (?:above|below|at) *$",
    r"\b(?:adds?|another|drops?|dropped|falls?|fell|rises?|rose|gained?|lost|by|within|extra) "
    r"(?:by |about |some |around |another |nearly )*$",
)
"""Before a rating, a switching point, a difference."""

BY_SO_MUCH = _pattern(
    r"^\s*(?:normally|usually|as usual)\b", rf"^\s*(?:\([^)]*\)\s*)?(?:{_HOTTER})\b", r"^\s*(?:thermostat|stat)\b"
)
"""After what it usually reads, a difference, and a rating."""

OF_A_PART = _pattern(
    r"\b(?:core|hose|hoses|tank|block|head|manifold|exhaust|oil|fins?|tubes?|heater|vents?"
    r"|gun|infrared|laser|probe|ir|thermometer)\b[^.,;:]{0,22}$"
)
BY_A_GUN = _pattern(r"^[^.;]{0,30}\b(?:infrared|ir gun|laser|heat gun|temp gun)\b")
OF_THE_FLUID = _pattern(r"\b(?:transmission|trans|gearbox|tranny|atf)\b")

LEADS = _pattern(
    r"\b(?:at|to|of|hits?|reached|reaches|reach|past|over|above|around|about|near|nearly|shows?|showed|says?|said|reads?"
    r"|under|below|towards?|close to|between|passed|was|is|saw|got|goes|touched|touches|sits?|sat|stays?|stood|stands?"
    r"|climbs?|climbed|gauge|temp|needle|from|than|only|just|runs|steady|holds?|some|pinned|and)\s*$"
)
FOLLOWS = _pattern(r"^\s*(?:at|in|on|when|while|sitting|going|climbing|up|every|by|after)\b")
"""Before and after a figure without a unit that is a temperature none the less."""

OUTSIDE = _pattern(r"^\s*(?:outside|out\b|in the shade)")
MINUS = _pattern(r"\b(?:minus|below zero)\s*$", r"(?:^|\s)-\s*$")
OVER = _pattern(r"\b(?:over|above|past|passed|more than|beyond|exceeds?|at least)(?: some| about)?\s*$")
UNDER = _pattern(r"\b(?:under|below|less than|short of|at most|not over)(?: some| about)?\s*$")
NEVER = _pattern(r"\b(?:never|not|no|without|n't|cannot|won't)\b[^.,;:]{0,25}$")
BEFORE = _pattern(
    r"\b(?:its|the|my) (?:usual|normal)(?: (?:figure|reading|place|temperature))?(?: of| at)? *$",
    r"\b(?:used to|normally|usually|until now|in the past|before (?:that|this)|always (?:ran|sat|was|stayed))\b"
    r"(?:(?!\b(?:but|now|then|lately|today)\b)[^.;,])*$",
)
"""What it read while it was well."""

SWINGS = _pattern(
    r"\b(?:drop(?:s|ped)?|fall(?:s|en)?|fell|down|back|swing(?:s|ing)?|cycl(?:es|ing)|hunt(?:s|ing)?"
    r"|fluctuat(?:es|ing)|up again)\b"
)
"""Between two figures of a needle that goes up and comes back."""

DOWNHILL = _pattern(r"^[^.;,]{0,12}\b(?:on the way down|downhill|coming down|going down)\b")
CLAUSE = re.compile(r"[,:]| (?:but|and|except|where|until|then|unless|or|when it|where it) ")

PLACES = (
    (
        "climb",
        _pattern(
            r"\b(?:hills?|grades?|(?:the|an?|long|steep|every|mile|on|last|this|that) climbs?|pass|mountains?|inclines?"
            r"|uphill|upgrade|slope)\b"
        ),
    ),
    (
        "standing",
        _pattern(
            r"\b(?:idl(?:e|es|ed|ing)|parked|red lights?|at (?:a|the) lights?|standing(?! still)|standstill|queues?"
            r"|sitting|waiting|drive-through|at a stop|stop (?:lights?|signs?)|stopped|roadworks)\b"
        ),
    ),
    (
        "traffic",
        _pattern(r"\b(?:traffic|town|city|jam|gridlock|crawl(?:s|ing)?|rush hour|stop-and-go|stop and go|parade)\b"),
    ),
    (
        "road",
        _pattern(
            r"\b(?:highway|freeway|interstate|motorway|turnpike|cruis(?:e|es|ing)|open road|main road|on the road"
            r"|on the move|(?:[4-9]\d|1[0-3]\d) ?(?:mph|km/h|kph))\b"
        ),
    ),
)
"""Conditions, and the words that tell them."""
