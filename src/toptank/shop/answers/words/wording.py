"""Figures as the paper has them: bands, chances, money, time, and facts of a sheet with how well they are known."""

from collections.abc import Mapping

from toptank.knowledge.sheet import Fact, Provenance
from toptank.units.conversion import System, from_si, unit_of
from toptank.units.declaration import Declaration
from toptank.units.dialect import spoken
from toptank.units.dimension import CHOICE, LENGTH, TEMPERATURE, VOLUME, YES_NO
from toptank.units.display import figure, show, show_estimate

ASSUMED = "(assumed)"
"""Mark behind every value that nobody measured or read off."""


COLDEST, HOTTEST = 233.15, 333.15
"""Air outside that anybody drives in [K]: -40 to 60 degC; judgement."""


def chance(share: float) -> str:
    """Write a probability without pretending to more than is known; it is never nought or certain."""
    if share < 0.01:
        return "under 1 %"
    return "over 99 %" if share > 0.99 else f"{100.0 * share:.0f} %"


def sentence(text: str) -> str:
    """Return a text with a capital in front; capitals within stay."""
    return text[:1].upper() + text[1:]


def degrees(kelvin: float, system: System) -> str:
    """Write a temperature."""
    return show(kelvin, TEMPERATURE, system)


def as_typed(fahrenheit: float, system: System) -> str:
    """Write a temperature without its unit, as an example of what one types: "215", in metric units "102"."""
    return figure(float(from_si((fahrenheit + 459.67) / 1.8, TEMPERATURE, unit_of(TEMPERATURE, system))), 0)


def band(ends: tuple[float, float], system: System) -> str:
    """Write a band of temperatures: "195 to 207 °F"; one figure where both ends read alike."""
    low, high = (figure(float(from_si(end, TEMPERATURE, unit_of(TEMPERATURE, system))), 0) for end in ends)
    unit = unit_of(TEMPERATURE, system)
    return f"{low} {unit}" if low == high else f"{low} to {high} {unit}"


def reached_outside(ends: tuple[float, float], limit: str, system: System) -> str:
    """Say at what air outside a limit is reached; empty where the simulations lie so far apart that it tells nothing.

    `ends` are those of the likely range [K]. Colder or hotter air than anybody drives in is no answer to give.
    """
    low, high = ends
    if low < COLDEST or low > HOTTEST:
        return ""
    reach = f"from {degrees(low, system)} on" if high > HOTTEST else f"at {band(ends, system)}"
    return f"There {limit} is reached {reach} outside."


def gauge_band(low: float, high: float, boils: float, system: System) -> str:
    """Write a band of the gauge; beyond boiling there is no figure to be read."""
    if low >= boils:
        return "boils"
    return f"{degrees(low, system)} to boiling" if high > boils else band((low, high), system)


def volume(value: float, system: System) -> str:
    """Write a volume to a tenth."""
    return show(value, VOLUME, system, 1)


def money(value: float, currency: str) -> str:
    """Write a price."""
    return f"{currency}{value:,.0f}"


def time(minutes: float) -> str:
    """Write a working time."""
    return f"{minutes:.0f} min" if minutes < 60.0 else f"{minutes / 60.0:.1f} h"


def quantity(value: float, declaration: Declaration, system: System) -> str:
    """Write the value of a field; lengths in inches keep their quarters."""
    if declaration.dimension == CHOICE:
        return spoken(declaration.choices[round(value)], system)
    if declaration.dimension == YES_NO:
        return "yes" if value > 0.5 else "no"
    if declaration.dimension == LENGTH and unit_of(LENGTH, system) == "in":
        return f"{show(value, LENGTH, system, 2).removesuffix(' in').rstrip('0').rstrip('.')} in"
    return show(value, declaration.dimension, system)


def mark(fact: Fact) -> str:
    """Return what is written behind a value: nothing where it was measured, otherwise how it is known."""
    return {Provenance.MEASURED: "", Provenance.PLATE: " (plate or handbook)"}.get(fact.how, f" {ASSUMED}")


def told(path: str, facts: Mapping[str, Fact], declaration: Declaration, system: System) -> str:
    """Write a fact with how well it is known."""
    fact = facts[path]
    if fact.how == Provenance.ASSUMED and not declaration.choices and declaration.dimension != LENGTH:
        return f"{show_estimate(fact.value, declaration.dimension, system)}{mark(fact)}"
    return f"{quantity(fact.value, declaration, system)}{mark(fact)}"


QUARTERS = {0: "", 1: " 1/4", 2: " 1/2", 3: " 3/4"}


def shop_volume(value: float, system: System) -> str:
    """Write a volume as a shop says it: quarts to a quarter, litres to a tenth."""
    if system != "us":
        return show(value, VOLUME, system, 1)
    unit = unit_of(VOLUME, system)
    whole, quarter = divmod(round(4.0 * float(from_si(value, VOLUME, unit))), 4)
    return f"{whole or ''}{QUARTERS[quarter]}".strip() + f" {unit}" if whole or quarter else f"0 {unit}"
