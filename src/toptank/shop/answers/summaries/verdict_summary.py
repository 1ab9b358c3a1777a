"""What a road test says first: what it means for the customer's worst day, then whether the repair worked."""

from __future__ import annotations

from typing import TYPE_CHECKING

from toptank.shop.answers import naming
from toptank.shop.answers.summaries.summary import ShortAnswer
from toptank.shop.answers.verdict_words import HOT_SIDE, better_drive_words, means
from toptank.shop.answers.wording import chance
from toptank.units.dimension import TEMPERATURE_RISE
from toptank.units.display import show

if TYPE_CHECKING:
    from toptank.shop.answers.log_answers import Verified
    from toptank.units.conversion import System


def verdict_summary(verified: Verified, system: System) -> ShortAnswer:
    """Say what the road test means: the worst day now, the drive against the forecast, the repair."""
    lines = [_against_forecast(verified, system), *_repair(verified), *_causes(verified, system)]
    day = verified.verdict.worst_day
    return ShortAnswer(answer=means(day.holds_now, day.holds_before), lines=(*lines, *_better(verified, system)))


def _against_forecast(verified: Verified, system: System) -> str:
    """How it ran against the forecast: within it but on the hot side is said so."""
    answer = verified.verdict
    by = show(abs(answer.difference), TEMPERATURE_RISE, system, 0)
    ran = f"{by} {'hotter' if answer.difference > 0.0 else 'cooler'} than forecast"
    if answer.word == "worse":
        return f"Hotter than this repair should be: {ran} on the part of the drive that counts."
    if answer.word == "better":
        return f"Cooler than forecast: {ran} on the part of the drive that counts."
    side = ", but on the hot side" if answer.place >= HOT_SIDE else ""
    return f"Within the forecast{side}: {ran} on the part of the drive that counts."


def _repair(verified: Verified) -> list[str]:
    """Whether the work has taken, as far as this drive can tell."""
    answer = verified.verdict
    told = f"Chance the repair did not work: {chance(answer.not_taken)}."
    if answer.proves:
        return [told]
    short = {"time": "too short", "readings": "read too seldom"}.get(answer.lacks, "too easy")
    return [f"{told} This drive was {short} to prove it."]


def _causes(verified: Verified, system: System) -> list[str]:
    back = verified.verdict.back[:2] if verified.verdict.word == "worse" else ()
    named = " or ".join(f"{naming.cause(one.name, system)} ({chance(one.now)})" for one in back)
    return [f"Check this first: {named}."] if named else []


def _better(verified: Verified, system: System) -> list[str]:
    proposed = better_drive_words(verified, system)
    return [proposed] if proposed else []
