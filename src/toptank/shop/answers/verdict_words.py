"""What a check drive says, in sentences: for the mechanic on the screen, and plainer for the customer on paper."""

import numpy as np

from toptank.shop.answers import naming
from toptank.shop.answers.log_answers import Verified
from toptank.shop.answers.log_words import clock_words, worth_words
from toptank.studies.verify.better_drive import Proposal
from toptank.studies.verify.verdict import Band, Verdict
from toptank.units.conversion import System
from toptank.units.dimension import GRADE, SPEED, TEMPERATURE, TEMPERATURE_RISE
from toptank.units.display import show

LITTLE = 0.25
"""Difference too small to be told hotter from cooler [K]."""


BEYOND = (
    "Neither work that does what was forecast nor work that does nothing would show this: look at the log first, its "
    "units and its instrument, then for something else that has gone wrong."
)
"""Said where a drive lies outside all that was reckoned with."""


def headline(answer: Verdict) -> str:
    """The verdict in one line."""
    said = {"as forecast": "As forecast", "better": "Better than forecast", "worse": "Worse than forecast"}[answer.word]
    if answer.lacks:
        short = "is too short" if answer.lacks == "time" else "has too few readings"
        return f"{said}, but this drive {short} to prove it"
    return f"{said}, but this drive proves little" if answer.word == "as forecast" and not answer.proves else said


def verdict_says(verified: Verified, system: System) -> tuple[str, ...]:
    """Say it all, the headline first."""
    return (headline(verified.verdict), *verdict_lines(verified, system))


def verdict_lines(verified: Verified, system: System) -> tuple[str, ...]:
    """What the verdict rests on and what follows from it, for the mechanic."""
    answer = verified.verdict
    lines = [
        *_over_the_limit(verified, system),
        f"Where the work would show most, {_part(answer)}, the {_instrument(verified)} ran "
        f"{_hotter(answer.difference, system)} than the middle of the forecast. In 8 of 10 cases: "
        f"{_span(answer.forecast, system)} if the work does what was forecast, {_span(answer.unrepaired, system)} if "
        "it has done nothing.",
        f"Had the work done nothing, this drive would have come out worse in {100.0 * answer.power:.0f} of 100 cases; "
        "of work that does what was forecast 10 in 100 come out worse too." + _why_not(answer),
    ]
    if answer.beyond:
        lines.append(BEYOND)
    if answer.word != "as forecast":
        lines.append(f"Chance that weather and road alone make such a difference: {_chance(answer.by_weather)}.")
    lines.append(f"Chance that the work has done nothing: {_chance(answer.not_taken)}.")
    day = answer.worst_day
    lines.append(
        f"Worst day: holds with {_chance(day.holds_now)}, before this drive {_chance(day.holds_before)} (new parts may "
        f"be bad; {_chance(day.holds_forecast)} if the work does what was forecast); gauge on "
        f"{day.hardest!r} {_band(day.gauge_now, system)}, forecast was {_band(day.gauge_forecast, system)}."
    )
    if answer.word == "worse":
        back = ", ".join(
            f"{naming.cause(one.name, system)} {_chance(one.expected)} → {_chance(one.now)}" for one in answer.back[:4]
        )
        lines.append(
            f"Back up: {back}." if back else "No single cause stands out from it: look at the work itself first."
        )
    if proposed := better_drive_words(verified, system):
        lines.append(proposed)
    lines.append(f"The log is worth {worth_words(answer.worth)}, however many rows it has.")
    return tuple(lines)


def customer_lines(verified: Verified, system: System) -> tuple[str, ...]:
    """The verdict in plain words."""
    answer, day = verified.verdict, verified.verdict.worst_day
    minutes = float(verified.drive.log.time[-1]) / 60.0
    said = {
        "as forecast": "the gauge did what we had said it would.",
        "better": "the gauge stayed lower than we had said it would.",
        "worse": "the gauge ran hotter than we had said it would: we look further before you rely on it.",
    }[answer.word]
    first = f"After the work it was driven for {minutes:.0f} minutes, and {said}"
    lines = [f"(Simulated, for the example.) {first}" if verified.invented and verified.file is None else first]
    if not answer.proves:
        lines.append(
            "That drive was too short, or read too seldom, to prove it; a longer one would."
            if answer.lacks
            else "That drive was too easy to prove it; a harder one would."
        )
    lines.append(
        f"By what it showed, the chance that every part of your worst day stays under your limit and does not boil is "
        f"{_chance(day.holds_now)}; before the drive it was {_chance(day.holds_before)}, bad new parts counted."
    )
    return tuple(lines)


def _part(answer: Verdict) -> str:
    begin, end = clock_words(answer.telling_from), clock_words(answer.telling_to)
    return f"at minute {end}" if begin == end else f"from minute {begin} to {end}"


def _why_not(answer: Verdict) -> str:
    """Why a drive proves nothing; empty where it does."""
    if answer.lacks == "time":
        return (
            f" Too short to prove anything: it is read up to minute {clock_words(float(answer.read_time[-1]))}, "
            "and the coolant takes four minutes to follow what is driven; ten are the least, most of them uphill."
        )
    if answer.lacks == "readings":
        return (
            f" Too few readings to prove anything: {len(answer.read_time)}, and {answer.telling_readings} where the "
            "work would show most; note three at the least, two of them late on the climb or at the stop behind it."
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
        return "no hotter and no cooler"
    return f"{show(abs(kelvin), TEMPERATURE_RISE, system, 0)} {'hotter' if kelvin > 0.0 else 'cooler'}"


def _span(band: Band, system: System) -> str:
    return f"{_hotter(band.p10, system)} to {_hotter(band.p90, system)}"


def _band(band: Band, system: System) -> str:
    return f"{show(band.p10, TEMPERATURE, system)} to {show(band.p90, TEMPERATURE, system)}"


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
            "No drive that is safe for a vehicle in order would prove more on such a day: drive this one again with a "
            "second thermometer, or wait for a hotter day."
        )
    switch = f", air conditioning {'on' if better.air_conditioning else 'off'}"
    cooled = switch if verified.cooled else ""
    return (
        f"A better one at {show(better.ambient, TEMPERATURE, system)}: {better.climb_time / 60.0:.0f} minutes up "
        f"{show(better.grade, GRADE, system)} at {show(better.speed, SPEED, system, 0)}{cooled}, then "
        f"{better.idle_time / 60.0:.0f} minutes at idle; it would show work that has done nothing in "
        f"{100.0 * better.power:.0f} of 100 cases. Stop at {show(verified.job.limit, TEMPERATURE, system)}; if all is "
        f"well it stays under {show(better.hottest, TEMPERATURE, system)}."
    )
