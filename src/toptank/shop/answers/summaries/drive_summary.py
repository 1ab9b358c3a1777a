"""What a drive says first: whether it gets over the limit on the way, where, and what would help."""

from __future__ import annotations

from typing import TYPE_CHECKING

from toptank.shop.answers.summaries.summary import ShortAnswer
from toptank.shop.answers.words.drive_words import WEAK
from toptank.shop.answers.words.wording import band, chance, degrees
from toptank.units.conversion import kelvin
from toptank.units.dimension import DISTANCE
from toptank.units.display import show
from toptank.units.sentence import said_each

if TYPE_CHECKING:
    from toptank.shop.answers.drive import DriveAnswer
    from toptank.units.conversion import System

OFTEN = 10.0
"""Chance to boil from which it is said how much is lost: of fewer vehicles it says little [%]."""

HELPS = 2
"""Ways of asking less of the vehicle that are told."""


def drive_summary(answer: DriveAnswer, system: System) -> ShortAnswer:
    """Say how hot it gets and where, how likely it goes over the limit or boils, and what would help."""
    limit = degrees(kelvin(answer.limit_degC), system)
    where = f"{answer.peak_minutes:.0f} minutes in, at {show(1000.0 * answer.peak_km, DISTANCE, system)}"
    hottest = band((kelvin(answer.peak_degC.p10), kelvin(answer.peak_degC.p90)), system)
    first = f"Chance of going over {limit} on the way: {_chance(answer.over_limit_pct)}. Hottest {where}: {hottest}."
    lines = [_boils(answer)]
    if answer.short_of_power_pct > 100.0 * WEAK:
        lines.append(f"Not enough power to hold that speed: {_chance(answer.short_of_power_pct)}.")
    helps = said_each(answer.ease_says, system)[:HELPS]
    lines += [f"What would help: {helps[0]}", *helps[1:]] if answer.what_would_ease_it else list(helps)
    return ShortAnswer(answer=first, lines=tuple(lines))


def _boils(answer: DriveAnswer) -> str:
    said = f"Chance it boils over: {_chance(answer.boils_pct)}"
    if answer.boils_pct < OFTEN:
        return f"{said}."
    return f"{said} (would lose about {answer.coolant_lost_pct:.0f} % of its coolant)."


def _chance(percent: float) -> str:
    return chance(percent / 100.0)
