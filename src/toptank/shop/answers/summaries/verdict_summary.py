"""What a road test says first: whether the repair works, then what that means for the customer's worst day."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from toptank.shop.answers.summaries.summary import ShortAnswer, chances_in_ten
from toptank.shop.answers.words import naming
from toptank.shop.answers.words.verdict_words import better_drive_words
from toptank.shop.answers.words.wording import chance
from toptank.units.dimension import TEMPERATURE_RISE
from toptank.units.display import show

if TYPE_CHECKING:
    from toptank.shop.answers.log_answers import Verified
    from toptank.units.conversion import System

HOT_SIDE = 0.8
"""Share of repaired vehicles that would have been cooler from which it ran on the hot side [1]."""


def verdict_summary(verified: Verified, system: System) -> ShortAnswer:
    """Say what the road test means: whether the repair works, then the worst day, then what that rests on."""
    answer, day = verified.verdict, verified.verdict.worst_day
    cool = float(np.nanmax(answer.read)) <= verified.job.limit
    said = works(answer.word, answer.place, proves=answer.proves, cool=cool)
    worst = worst_day_now(day.holds_now, day.holds_forecast, day.hardest)
    lines = [worst, _against_forecast(verified, system), *_repair(verified), *_causes(verified, system)]
    return ShortAnswer(answer=said, lines=(*lines, *_better(verified, system)))


def works(word: str, place: float, *, proves: bool, cool: bool) -> str:
    """Answer first whether the repair works, as far as this road test tells.

    Parameters
    ----------
    word : of the verdict, one of `toptank.studies.verify.verdict.WORDS`
    place : share of repaired vehicles that would have been cooler [1]
    proves : the drive was hard enough to tell
    cool : the customer's limit was not passed
    """
    if word == "worse":
        return "Not right yet: it ran hotter than this repair should."
    if not cool:
        return "It ran as forecast, but went over the customer's limit."
    if word == "as forecast" and place >= HOT_SIDE:
        return "It stayed under the limit, but ran on the hot side of the forecast."
    ran = "cooler than forecast" if word == "better" else "as forecast"
    shown = "" if proves else ", as far as this drive shows"
    return f"The repair works{shown}: it ran {ran} and stayed under the limit."


def worst_day_now(now: float, ordered: float, hardest: str) -> str:
    """Say the chance of the worst day after the road test, and why it is not what the order said where it is not.

    Parameters
    ----------
    now, ordered : chance that it holds with what this road test says, and as the order has it [1]
    hardest : condition of that day
    """
    said = f"Worst day ({hardest}): {chances_in_ten(now)} to stay cool"
    if round(10.0 * now) == round(10.0 * ordered):
        return f"{said}, as the order says."
    return f"{said}; the order says {chances_in_ten(ordered)}, before this road test."


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
