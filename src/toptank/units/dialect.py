"""Which English goes with which units: a hood with degrees Fahrenheit, a bonnet with degrees Celsius.

Everything that people read is written in American words and said through here. Only words that have one meaning in a
workshop stand below; where one has two (ground, gas) the phrase stands here, or uk.toml has a text of its own.
"""

import re
from functools import cache
from typing import Literal

from toptank.units.conversion import BRITISH_UNITS, System

Dialect = Literal["us", "uk"]

DIALECT_OF: dict[System, Dialect] = {"us": "us", "metric": "uk", "uk": "uk"}

BRITISH = {
    "A/C": "air con",
    "aluminum": "aluminium",
    "around": "round",
    "bad ground": "bad earth",
    "bug screen": "insect screen",
    "bugs": "insects",
    "burned": "burnt",
    "carburetor": "carburettor",
    "color": "colour",
    "colors": "colours",
    "colored": "coloured",
    "deionized": "deionised",
    "counterclockwise": "anticlockwise",
    "fender": "wing",
    "flashlight": "torch",
    "gasoline": "petrol",
    "gray": "grey",
    "ground connection": "earth connection",
    "highway": "motorway",
    "hood": "bonnet",
    "install": "fit",
    "installed": "fitted",
    "installing": "fitting",
    "installs": "fits",
    "labor": "labour",
    "license plate": "number plate",
    "license": "licence",
    "liter": "litre",
    "liters": "litres",
    "louver": "louvre",
    "louvers": "louvres",
    "modeling": "modelling",
    "molded": "moulded",
    "muffler": "silencer",
    "neutralize": "neutralise",
    "neutralized": "neutralised",
    "pavement": "road",
    "petcock": "drain tap",
    "pings": "pinks",
    "sedan": "saloon",
    "sedans": "saloons",
    "spark plug wrench": "plug spanner",
    "station wagon": "estate",
    "tire": "tyre",
    "tires": "tyres",
    "transmission": "gearbox",
    "transmissions": "gearboxes",
    "truck scale": "weighbridge",
    "turn signals": "indicators",
    "a vacuum leak": "an air leak",
    "vacuum leak": "air leak",
    "windshield": "windscreen",
    "wrench": "spanner",
    "wrenches": "spanners",
}
"""American word or phrase -> British."""

AMERICAN = {
    "aluminium": "aluminum",
    "carburettor": "carburetor",
    "centre": "center",
    "petrol": "gasoline",
    "swept volume": "displacement",
    "torch": "flashlight",
    "tyre": "tire",
    "tyres": "tires",
    "weighbridge": "truck scale",
}
"""British word of a field or of one of its choices -> American: a file has one spelling, a page that of its reader."""

_FIGURE = r"\d[\d./]*(?: \d+/\d+)?"
BOTH_WAYS = re.compile(
    rf"((?:{_FIGURE} to )?{_FIGURE} (?:in|°F|psi|mph|qt|lb|mi|ft2|ft)) "
    r"\(((?:[\d.-]+ to )?-?[\d.]+ (?:mm|°C|kPa|bar|km/h|L|kg|km|m2|m))\)"
)
"""A figure of the shop with the same one in metric units behind it."""

KEPT = ("torque wrench", "level ground")
"""What a British shop says just so."""


def dialect_of(system: System) -> Dialect:
    """Return the English that goes with a system of units."""
    return DIALECT_OF[system]


def spoken(text: str, system: System) -> str:
    """Return a text that is written in American words as it is said where these units are used.

    A figure that is written both ways, "2 in (50 mm)", is said in the one that is used here.
    """

    def in_use(found: re.Match[str]) -> str:
        imperial = system == "us" or (system == "uk" and found[1].rpartition(" ")[2] in BRITISH_UNITS)
        return found[1] if imperial else found[2]

    text = BOTH_WAYS.sub(in_use, text)
    return in_american(text) if dialect_of(system) == "us" else in_british(text)


@cache
def _pattern() -> re.Pattern[str]:
    longest_first = sorted((*BRITISH, *KEPT), key=len, reverse=True)
    return re.compile(rf"(?<![\w`-])(?:{'|'.join(map(re.escape, longest_first))})(?![\w`]|\.\w)", re.IGNORECASE)


_AMERICAN = re.compile(rf"(?<![\w`.-])(?:{'|'.join(sorted(AMERICAN, key=len, reverse=True))})(?![\w`-])", re.IGNORECASE)


def in_american(text: str) -> str:
    """Return a text with the American words, capitals kept; keys like `tyre_radius` are no words and stay."""
    return _AMERICAN.sub(_american, text)


def _american(found: re.Match[str]) -> str:
    american = AMERICAN[found[0].lower()]
    return american[:1].upper() + american[1:] if found[0][0].isupper() else american


def in_british(text: str) -> str:
    """Return a text with the British words, capitals kept. Keys like `hood_louvers` are no words and stay."""
    return _pattern().sub(_british, text)


def _british(found: re.Match[str]) -> str:
    word = found[0]
    british = BRITISH.get(word) or BRITISH.get(word.lower()) or word
    return british[:1].upper() + british[1:] if word[0].isupper() and word not in BRITISH else british
