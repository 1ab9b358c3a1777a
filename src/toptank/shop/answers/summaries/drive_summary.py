"""What a drive says first: whether it gets over the limit on the way, where, and what would help."""

from __future__ import annotations

from typing import TYPE_CHECKING

from toptank.shop.answers.drive_words import WEAK, ease_words
from toptank.shop.answers.summaries.summary import Summary
from toptank.shop.answers.wording import band, chance, degrees
from toptank.units.dimension import DISTANCE, FRACTION
from toptank.units.display import show

if TYPE_CHECKING:
    from toptank.shop.answers.answers import Driven
    from toptank.units.conversion import System

OFTEN = 0.1
"""Chance to boil from which it is said how much is lost: of fewer vehicles it says little [1]."""

HELPS = 2
"""Ways of asking less of the vehicle that are told."""


def drive_summary(answer: Driven, system: System) -> Summary:
    """Say how hot it gets and where, how likely it goes over the limit or boils, and what would help."""
    road, limit = answer.outlook, degrees(answer.job.limit, system)
    where = f"{road.peak_time / 60.0:.0f} minutes in, at {show(road.peak_distance, DISTANCE, system)}"
    first = (
        f"Chance of going over {limit} on the way: {chance(road.over_limit)}. "
        f"Hottest {where}: {band((road.peak.p10, road.peak.p90), system)}."
    )
    lines = [_boils(answer)]
    if road.short_of_power > WEAK:
        lines.append(f"Not enough power to hold that speed: {chance(road.short_of_power)}.")
    helps = ease_words(answer, system)[:HELPS]
    lines += [f"What would help: {helps[0]}", *helps[1:]] if road.eases else list(helps)
    return Summary(answer=first, lines=tuple(lines))


def _boils(answer: Driven) -> str:
    road = answer.outlook
    said = f"Chance it boils over: {chance(road.boils)}"
    if road.boils < OFTEN:
        return f"{said}."
    return f"{said} (would lose about {show(road.lost, FRACTION, 'us', 0)} of its coolant)."
