"""What a road test says, in sentences: for the mechanic on the screen, and plainer for the customer on paper."""

import numpy as np

from toptank.knowledge.forecast import Band
from toptank.shop.answers.log_answers import Verified
from toptank.shop.answers.words import naming
from toptank.shop.answers.words.log_words import clock_words, worth_words
from toptank.studies.verify.better_drive import Proposal
from toptank.studies.verify.verdict import Verdict
from toptank.units.conversion import System
from toptank.units.dimension import GRADE, SPEED, TEMPERATURE, TEMPERATURE_RISE
from toptank.units.display import show

LITTLE = 0.25
"""Difference too small to be told hotter from cooler [K]."""


HOT_SIDE = 0.8
"""Share of repaired vehicles that would have been cooler from which it ran on the hot side [1]; judgement."""

BEYOND = (
    "Neither a repair that works nor one that did nothing would show this: check the log first, its units and its "
    "gauge, then look for something else that has gone wrong."
)
"""Said where a drive lies outside all that was thought of."""


def headline(answer: Verdict) -> str:
    """The verdict in one line."""
    said = {"as forecast": "As forecast", "better": "Better than forecast", "worse": "Worse than forecast"}[answer.word]
    if answer.word == "as forecast" and answer.place >= HOT_SIDE:
        said = "Within the forecast, but on the hot side"
    if answer.lacks:
        short = "is too short" if answer.lacks == "time" else "has too few readings"
        return f"{said}, but this drive {short} to prove it"
    if answer.word == "as forecast" and not answer.proves:
        return f"{said}, but this drive proves little"
    return said


def verdict_says(verified: Verified, system: System) -> tuple[str, ...]:
    """Say it all, the headline first."""
    return (headline(verified.verdict), *verdict_lines(verified, system))


def verdict_lines(verified: Verified, system: System) -> tuple[str, ...]:
    """What the verdict rests on and what follows from it, for the mechanic."""
    answer = verified.verdict
    lines = [
        *_over_the_limit(verified, system),
        f"On the part of the drive that counts ({_part(answer)}) the {_instrument(verified)} ran "
        f"{_hotter(answer.difference, system)} than the forecast. If the repair worked you would see "
        f"{_span(answer.forecast, system)}; if it did nothing, {_span(answer.unrepaired, system)}.",
        f"This drive could tell a good repair from a bad one {_times_in_ten(answer.power)}." + _why_not(answer),
    ]
    if answer.beyond:
        lines.append(BEYOND)
    if answer.word != "as forecast":
        lines.append(f"Chance that weather and road alone make that difference: {_chance(answer.by_weather)}.")
    lines.append(f"Chance the repair did not work: {_chance(answer.not_taken)}.")
    day = answer.worst_day
    lines.append(
        f"Worst day: chance to stay cool {_chance(day.holds_now)}; {_ordered(day.holds_forecast)}. Gauge on "
        f"{day.hardest!r} {_band(day.gauge_now, system)}; the forecast was {_band(day.gauge_forecast, system)}."
    )
    if answer.word == "worse":
        back = ", ".join(
            f"{naming.cause(one.name, system)} {_chance(one.expected)} → {_chance(one.now)}" for one in answer.back[:4]
        )
        lines.append(
            f"More likely again: {back}." if back else "No single fault stands out: check the work itself first."
        )
    if proposed := better_drive_words(verified, system):
        lines.append(proposed)
    lines.append(f"{len(answer.read_time):,} readings, but worth {worth_words(answer.worth)}.")
    return tuple(lines)


def customer_lines(verified: Verified, system: System) -> tuple[str, ...]:
    """The verdict in plain words."""
    answer, day = verified.verdict, verified.verdict.worst_day
    minutes = float(verified.drive.log.time[-1]) / 60.0
    said = {
        "as forecast": "the gauge did what we said it would.",
        "better": "the gauge stayed lower than we said it would.",
        "worse": "the gauge ran hotter than we said it would. We will look further before you rely on it.",
    }[answer.word]
    first = f"After the repair we drove it for {minutes:.0f} minutes, and {said}"
    lines = [f"(Simulated, for the example.) {first}" if verified.invented and verified.file is None else first]
    if not answer.proves:
        lines.append(
            "That drive was too short to prove it; a longer one would."
            if answer.lacks
            else "That drive was too easy to prove it; a harder one would."
        )
    lines.append(
        f"The chance that it stays cool on your worst day is now {_chance(day.holds_now)}; "
        f"{_ordered(day.holds_forecast)}."
    )
    return tuple(lines)


def _ordered(share: float) -> str:
    """The chance that remedies and order name, so that whoever compares finds it again."""
    return f"the order says {_chance(share)}, before this road test"


def _part(answer: Verdict) -> str:
    begin, end = clock_words(answer.telling_from), clock_words(answer.telling_to)
    return f"at {end}" if begin == end else f"{begin} to {end}"


def _why_not(answer: Verdict) -> str:
    """Why a drive proves nothing; empty where it does."""
    if answer.lacks == "time":
        return (
            f" Too short to prove anything: the last reading is at {clock_words(float(answer.read_time[-1]))}, and the "
            "coolant takes four minutes to follow. Drive at least ten, most of them uphill."
        )
    if answer.lacks == "readings":
        return (
            f" Too few readings to prove anything: {len(answer.read_time)}, with {answer.telling_readings} on the part "
            "that counts. Note at least three, two of them late on the climb or at the stop after it."
        )
    return "" if answer.proves else " Too easy to prove anything."


def _over_the_limit(verified: Verified, system: System) -> tuple[str, ...]:
    """Say it first where the customer's limit was passed, whatever the work has done."""
    hottest, limit = float(np.nanmax(verified.verdict.read)), verified.job.limit
    if hottest <= limit:
        return ()
    shown, bound = show(hottest, TEMPERATURE, system, 0), show(limit, TEMPERATURE, system, 0)
    return (f"It went over the customer's limit: {shown} was read, {bound} is the limit.",)


def _instrument(verified: Verified) -> str:
    return "gauge" if verified.drive.log.place == "gauge" else "coolant"


def _hotter(kelvin: float, system: System) -> str:
    if abs(kelvin) < LITTLE:
        return "no hotter or cooler"
    return f"{show(abs(kelvin), TEMPERATURE_RISE, system, 0)} {'hotter' if kelvin > 0.0 else 'cooler'}"


def _span(band: Band, system: System) -> str:
    return f"{_hotter(band.p10, system)} to {_hotter(band.p90, system)}"


def _band(band: Band, system: System) -> str:
    return f"{show(band.p10, TEMPERATURE, system)} to {show(band.p90, TEMPERATURE, system)}"


def _times_in_ten(share: float) -> str:
    times = round(10.0 * share)
    return f"{times} times in 10" if times > 1 else "once in 10 times" if times == 1 else "hardly ever"


def _chance(share: float) -> str:
    if share < 0.01:
        return "under 1 %"
    return "over 99 %" if share > 0.99 else f"{100.0 * share:.0f} %"


def better_drive_words(verified: Verified, system: System) -> str:
    """Which drive would prove more; empty where this one proves enough."""
    return "" if verified.verdict.proves else _proposed(verified.verdict.better, verified, system)


def _proposed(better: Proposal | None, verified: Verified, system: System) -> str:
    if better is None:
        return (
            "No safe drive would prove more on a day like that: drive this one again with a second thermometer, or "
            "wait for a hotter day."
        )
    switch = f", A/C {'on' if better.air_conditioning else 'off'}"
    cooled = switch if verified.cooled else ""
    return (
        f"A better drive at {show(better.ambient, TEMPERATURE, system)}: {better.climb_time / 60.0:.0f} minutes up "
        f"{show(better.grade, GRADE, system)} at {show(better.speed, SPEED, system, 0)}{cooled}, then "
        f"{better.idle_time / 60.0:.0f} minutes at idle; it could tell a good repair from a bad one "
        f"{_times_in_ten(better.power)}. Pull over at {show(verified.job.limit, TEMPERATURE, system)}; if all is well "
        f"it stays under {show(better.hottest, TEMPERATURE, system)}."
    )
