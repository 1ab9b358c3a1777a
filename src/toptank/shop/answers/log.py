"""The answer to `log`: what was read, what it shows, how it moves the causes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from toptank.shop.answers.answer import (
    Amount,
    Answer,
    Count,
    Headed,
    Percent,
    Remarked,
    Texts,
    degC,
    filled,
    headed,
    minutes,
    pct,
)
from toptank.shop.answers.words.log_words import shown_lines
from toptank.system.balance import EQUATIONS_VERSION
from toptank.units.sentence import Sentences

if TYPE_CHECKING:
    from toptank.knowledge.drives.stretches import Rate, Stretch, Swings
    from toptank.shop.answers.log_answers import Logged, Shown
    from toptank.shop.log.log_file import LogFile


class LogColumn(Answer):
    """A column of a log.

    Parameters
    ----------
    means : what it is taken as; null: left out
    unit : that it was taken in
    """

    head: str
    means: str | None
    unit: str
    note: str


class LogFileAnswer(Answer):
    """A log as it was read.

    Parameters
    ----------
    minutes : its length
    """

    file: str
    rows: Count
    minutes: Amount
    noted_by_hand: bool
    columns: tuple[LogColumn, ...]


class SettledStretch(Answer):
    """A stretch in which nothing changed; times from the start."""

    from_minutes: Amount
    to_minutes: Amount
    temperature_degC: float


class FastChange(Answer):
    """A fast change; time from the start, how long, whether the vehicle stood, and its engine ran."""

    from_minutes: Amount
    seconds: Amount
    change_K: float
    standing: bool
    engine_on: bool


class SwingsAnswer(Answer):
    """Something that comes and goes; `seconds` of one swing."""

    from_minutes: Amount
    to_minutes: Amount
    height_K: Amount
    seconds: Amount


class ShownAnswer(Answer):
    """What a log shows by itself."""

    settled: tuple[SettledStretch, ...]
    fastest_rise: FastChange | None
    fastest_fall: FastChange | None
    swings: SwingsAnswer | None
    thermostat_seen_to_open_at_degC: float | None


class MovedCause(Answer):
    """A cause before and with the log."""

    cause: str
    before_pct: Percent
    with_the_log_pct: Percent


class LogAnswer(LogFileAnswer, Headed, Remarked):
    """A log as evidence.

    Parameters
    ----------
    equations_version : names the equations that gave these figures
    seed : same seed, same answer
    says : what the log shows by itself, in sentences
    independent_readings : that the log is worth, however many rows it has [1]
    none_of_these_pct : none of the causes that are looked for
    effective_draws : equal draws that would say as much [1]
    """

    equations_version: str
    seed: Count
    shows: ShownAnswer
    says: Texts
    independent_readings: Amount
    causes: tuple[MovedCause, ...]
    none_of_these_pct: Percent
    draws: Count
    effective_draws: Amount


def log_answer(found: Logged) -> LogAnswer:
    """Return a log as evidence."""
    given = {
        "equations_version": EQUATIONS_VERSION,
        "shows": _shown(found.shown),
        "says": Sentences(shown_lines, (found.shown,)),
        "independent_readings": round(found.worth, 2),
        "causes": tuple(filled(MovedCause, one, {"with_the_log_pct": pct(one.after)}) for one in found.moved),
        "none_of_these_pct": pct(found.unknown),
        "draws": found.drawn,
        "effective_draws": round(found.draws_worth, 1),
    }
    return filled(LogAnswer, found, dict(file_answer(found.file)) | headed(found.job) | given)


def file_answer(file: LogFile) -> LogFileAnswer:
    """Return a log as it was read."""
    return LogFileAnswer(
        file=file.name,
        rows=file.rows,
        minutes=minutes(file.log.length),
        noted_by_hand=file.log.by_hand,
        columns=tuple(
            LogColumn(head=one.head, means=one.key or None, unit=one.unit, note=one.note) for one in file.columns
        ),
    )


def _shown(shown: Shown) -> ShownAnswer:
    given = {
        "settled": tuple(filled(SettledStretch, one, _between(one)) for one in shown.stretches),
        "fastest_rise": _rate(shown.rise),
        "fastest_fall": _rate(shown.fall),
        "swings": None if shown.swings is None else _swings(shown.swings),
        "thermostat_seen_to_open_at_degC": None if shown.opening is None else degC(shown.opening),
    }
    return filled(ShownAnswer, shown, given)


def _between(one: Stretch | Swings) -> dict[str, float]:
    return {"from_minutes": minutes(one.begin), "to_minutes": minutes(one.end)}


def _swings(swings: Swings) -> SwingsAnswer:
    return filled(SwingsAnswer, swings, _between(swings) | {"seconds": round(swings.period, 1)})


def _rate(rate: Rate | None) -> FastChange | None:
    if rate is None:
        return None
    told = {"from_minutes": minutes(rate.begin), "seconds": round(rate.length, 1), "engine_on": rate.running}
    return filled(FastChange, rate, told)
