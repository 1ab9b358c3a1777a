"""How a drive would go, in sentences: its peak, its chances, what would ease it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from toptank.shop.answers.words.wording import band, chance
from toptank.units.dimension import DISTANCE, FRACTION, ROTATION, SPEED, TEMPERATURE_RISE
from toptank.units.display import show

if TYPE_CHECKING:
    from toptank.studies.route.drive_forecast import DriveForecast, Ease
    from toptank.studies.route.shifting import ShiftsDown
    from toptank.units.conversion import System

OFTEN = 0.1
"""Chance to boil from which it is said how much is lost: of fewer vehicles it says little [1]."""

WEAK = 0.02
"""Chance to be too slow from which it is told [1]."""

ROUND = 100.0 / 60.0
"""To what an engine speed is rounded where it is told [1/s]."""

HOLDS_AS_IT_IS = "It stays cool as it is: nothing needs easing."
NOTHING_EASES = "Driving slower or turning the A/C off would hardly help on this drive: it needs the repair."

EASES = 1.0
"""By how much cooler it must run for that to be worth telling a driver [K]: 2 degF on the gauge; judgement."""


def peak_words(road: DriveForecast, system: System) -> str:
    """Say where the gauge peaks, and at what."""
    where = f"{road.peak_time / 60.0:.0f} minutes in, at {show(road.peak_distance, DISTANCE, system)}"
    return f"Hottest {where}: gauge {band((road.peak.p10, road.peak.p90), system)}."


def chance_words(road: DriveForecast) -> str:
    """Say the chances of too hot, of boiling, of too slow."""
    over, boils = chance(road.over_limit), chance(road.boils)
    said = f"Chance of going over the limit on the way: {over}. Chance it boils over: {boils}"
    if road.boils >= OFTEN:
        said += f" (would lose about {show(road.lost, FRACTION, 'us', 0)} of its coolant)"
    if road.short_of_power > WEAK:
        said += f". Not enough power to hold that speed: {chance(road.short_of_power)}"
    return f"{said}."


def gear_words(shift: ShiftsDown, system: System) -> str:
    """Say where it shifts down for a climb, and what that does."""
    turns, instead = (
        show(ROUND * round(speed / ROUND), ROTATION, system) for speed in (shift.engine_speed, shift.instead_of)
    )
    where = f"from {show(shift.distance, DISTANCE, system)} on" if shift.time > 0.0 else "from the start on"
    return (
        f"It shifts down on the climb {where}, {turns} instead of {instead}: "
        "fan and pump turn faster, so it may run cooler there than on a gentler climb in the higher gear."
    )


def ease_words(road: DriveForecast, system: System) -> tuple[str, ...]:
    """Say what asking less of it would do; that nothing need be asked less is said too."""
    if not road.eases:
        return (HOLDS_AS_IT_IS,)
    told = tuple(_eased(one, road, system) for one in road.eases if one.enough or one.cooler >= EASES)
    return told or (NOTHING_EASES,)


def _where(road: DriveForecast, share: float) -> str:
    """Where it is driven slower; a speed is that of the climb that ends in the peak."""
    if road.climbs_alike:
        return "on the climbs " if road.climbs else ""
    slower = f"{100.0 * (1.0 - share):.0f} % slower on the others "
    return f"on the climb where it gets hottest, {slower}" if road.climbs else f"where it gets hottest, {slower}"


def _eased(one: Ease, road: DriveForecast, system: System) -> str:
    asked = [] if one.cooled else ["A/C off"]
    if one.share < 1.0:
        driven = road.climbing_speed
        asked.append(
            f"{show(one.share * driven, SPEED, system, 0)} instead of {show(driven, SPEED, system, 0)} "
            f"{_where(road, one.share)}({one.longer / 60.0:.0f} min longer)"
        )
    said = (
        f"{' and '.join(asked)}: {show(one.cooler, TEMPERATURE_RISE, system, 0)} cooler at its hottest, over the limit "
        f"{chance(one.over_limit)}, boils {chance(one.boils)}"
    )
    return f"{said}: stays cool." if one.enough else f"{said}."
