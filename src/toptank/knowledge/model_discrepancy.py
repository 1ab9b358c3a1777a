"""How a temperature may differ from the right model of the right vehicle: by how much, in which regime, how long.

By how much is measured: what the calibration leaves unexplained (`calibrated.toml`, docs/calibration.md). Bands of
forecasts, drives and repairs, the errors of readings and of logs all take it from here.

What the model misses - gusts, traffic, the fuel of the day, heat that goes where it does not look - comes and goes
within minutes, and the engine's heat store carries it on for minutes more: C / (k W) = 190 kJ/K over 0.8 to 1.0 kW/K is
200 to 250 s. Readings a few minutes apart therefore miss the same way: a log is worth a few independent readings,
however often it was written.
"""

import dataclasses

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtri

from toptank.knowledge.calibrated import calibration
from toptank.knowledge.drives.track import Floats
from toptank.system.balance import Status
from toptank.system.condition import Passage
from toptank.system.condition_batch import Condition
from toptank.system.drive_batch import Drives
from toptank.system.profile import Profile
from toptank.system.trajectory import AT_THE_BOIL
from toptank.units.arrays import Real

STANDS, CLIMBS = 3.0, 0.025
"""Speed below which a vehicle idles or creeps [m/s], grade from which it climbs [1]: where the regimes part."""

REGIMES = ("hot idle", "moving", "climb")

_OF_THE_COOLANT = ("T_engine_out", "T_top_tank", "T_gauge", "T_bottom_hose", "T_engine_in")
"""Temperatures of a balance that what the model misses moves."""

LASTING = 0.7
"""Share of the variance of what is missed that lasts for a drive [1], as the calibration takes it; judgement."""

MISSED = float(np.sqrt(np.mean([calibration().remains[regime] ** 2 for regime in REGIMES])))
"""What the model misses of a warm vehicle on a road of all regimes, one standard deviation [K]."""

SLOW, SLOW_TIME = MISSED * LASTING**0.5, 600.0
"""What the model misses for long [K], and for how long [s]: some times the 200 to 250 s of the heat store; the time is
a judgement."""

QUICK, QUICK_TIME = MISSED * (1.0 - LASTING) ** 0.5, 90.0
"""What it misses for a minute or two: a gear, a gust, the lag of a thermostat, a fan that comes later [K], [s]; the
time is a judgement."""

START, START_TIME = 5.0, 300.0
"""What is unknown of where it started, at the least [K], and how long that lasts [s]: the heat store again."""

THERMOMETER, NEEDLE = 0.7, 2.5
"""Reading of an instrument that is logged, of a needle by eye [K]; judgement."""

MISTAKEN, WILD = 0.015, 25.0
"""Share of logs that are not what they say, another road, a loose probe [1], as of a reading; their scatter [K]."""

APART, MOST = 20.0, 240
"""Time between the readings that are looked at [s], and how many: more within one drive say nothing new."""


def missed(speed: float | Floats, grade: float | Floats) -> Floats:
    """What the model misses of a warm vehicle, one standard deviation [K], by speed [m/s] and grade [1]."""
    remains = calibration().remains
    stands = np.asarray(speed, float) < STANDS
    climbs = np.asarray(grade, float) > CLIMBS
    return np.where(stands, remains["hot idle"], np.where(climbs, remains["climb"], remains["moving"]))


def missed_by_draw(n: int, speed: float | Floats, grade: float | Floats) -> Floats:
    """The same as it turns out for each of n draws [K]: one number a draw and regime, whatever else is drawn.

    Parameters
    ----------
    n : number of draws
    speed, grade : numbers, or one a draw (draw,), or along a drive (1, point) [m/s], [1]
    """
    speed, grade = np.asarray(speed, float), np.asarray(grade, float)
    stands, climbs = speed < STANDS, grade > CLIMBS
    idle, moving, climb = (_by_regime(regime, n) for regime in REGIMES)
    if speed.ndim == 2:
        idle, moving, climb = idle[:, None], moving[:, None], climb[:, None]
    return np.where(stands, idle, np.where(climbs, climb, moving))


def missed_in(condition: Condition, n: int) -> Floats:
    """What is missed of each of n draws in a condition [K]; stop and go counts as idling."""
    speed = 0.0 if condition.halting() else _first(n, condition.duty.speed)
    return missed_by_draw(n, speed, _first(n, condition.duty.grade))


def _first(n: int, figure: Real) -> Floats:
    """A number, or the first n of an array of draws."""
    values = np.asarray(figure, float)
    return values[:n] if values.ndim else values


def off_by(passage: Passage, condition: Condition) -> Passage:
    """Passages of n draws through a condition, their coolant off by what the model misses.

    A draw that boils stays so: how far beyond its boiling point it would go is not known. Of one that boils only by
    what is missed it is not known when.
    """
    off = missed_in(condition, np.size(passage.T_peak))
    off = np.where(np.asarray(passage.least_margin, float) <= AT_THE_BOIL, 0.0, off)
    end = passage.end
    moved = {name: np.asarray(getattr(end, name), float) + off for name in _OF_THE_COOLANT}
    margin = np.maximum(np.asarray(passage.least_margin, float) - off, 0.0)
    status = np.asarray(end.status, int)
    status = np.where(margin <= AT_THE_BOIL, np.maximum(status, Status.BOILS), status)
    return passage._replace(
        end=dataclasses.replace(end, **moved, status=status),
        T_peak=passage.T_peak + off,
        T_gauge_peak=passage.T_gauge_peak + off,
        least_margin=margin,
    )


def off_along(drives: Drives, profile: Profile) -> Drives:
    """Drives of n draws along a profile, their coolant off by what the model misses where they are.

    The peak may move to where another regime is: it is never below what the points show. A draw that boils stays so.
    """
    speed, grade = np.asarray(profile.speed, float), np.asarray(profile.grade, float)
    n, points = len(drives.peak), slice(None, None, drives.every)
    boils = drives.boiled()
    off = np.where(boils[:, None], 0.0, missed_by_draw(n, speed[None, points], grade[None, points]))
    at_peak = np.where(boils, 0.0, missed_by_draw(n, speed[drives.peak_step], grade[drives.peak_step]))
    gauge, engine_out = drives.gauge + off, drives.engine_out + off
    highest = gauge.argmax(axis=1)
    seen, peak = gauge[np.arange(n), highest], drives.peak + at_peak
    margin = np.minimum(drives.least_margin - at_peak, (drives.boiling - engine_out).min(axis=1))
    return dataclasses.replace(
        drives,
        gauge=gauge,
        engine_out=engine_out,
        peak=np.maximum(peak, seen),
        peak_step=np.where(seen > peak, highest * drives.every, drives.peak_step),
        least_margin=np.where(boils, 0.0, np.maximum(margin, 0.0)),
    )


def _by_regime(regime: str, n: int) -> Floats:
    """Stratified normal numbers of the size that remains in a regime (draw,) [K]."""
    rng = np.random.default_rng((23, REGIMES.index(regime), n))
    return np.asarray(calibration().remains[regime] * ndtri((rng.permutation(n) + rng.random(n)) / n), np.float64)


def looked_at(read: Floats) -> NDArray[np.intp]:
    """Index of readings at least `APART` from each other, at most `MOST`; one a second, NaN stands for none."""
    known = np.flatnonzero(np.isfinite(read))
    slot = np.floor(known / APART)
    first = known[np.concatenate([[True], np.diff(slot) > 0])] if len(known) else known
    if len(first) <= MOST:
        return first
    return first[np.unique(np.linspace(0, len(first) - 1, MOST).round().astype(np.intp))]


def covariance(time: Floats, *, noise: float, start: float) -> Floats:
    """Covariance of what readings at these times [s] miss [K2].

    Parameters
    ----------
    time : (reading,), from the start of the drive on [s]
    noise : of the instrument [K]
    start : how far off the start may be [K]
    """
    apart = np.abs(time[:, None] - time[None, :])
    early = np.exp(-(time[:, None] + time[None, :]) / START_TIME)
    slow, quick = SLOW**2 * np.exp(-apart / SLOW_TIME), QUICK**2 * np.exp(-apart / QUICK_TIME)
    return slow + quick + start**2 * early + noise**2 * np.eye(len(time))


def drawn_misfit(time: Floats, seed: int, *, start: float = 0.0) -> Floats:
    """One course of what the right model may miss, an instrument's scatter included (reading,) [K].

    Parameters
    ----------
    time : (reading,), from the start of the drive on [s]
    seed : same seed, same course
    start : how far off the start may be [K]
    """
    spread = covariance(time, noise=THERMOMETER, start=start)
    return np.asarray(np.linalg.cholesky(spread) @ np.random.default_rng((seed, 23)).standard_normal(len(time)), float)


def log_likelihood(time: Floats, read: Floats, shown: Floats, spread: Floats) -> Floats:
    """Logarithm of the likelihood of a log on every draw, over its density at its mode.

    Parameters
    ----------
    time, read : (reading,) [s], [K]
    shown : (draw, reading), what each draw would show [K]
    spread : covariance of the readings [K2]
    """
    # A log that is not what it says wanders far from all that was thought, and slowly, like any drive.
    apart = np.abs(time[:, None] - time[None, :])
    wild = spread + WILD**2 * np.exp(-apart / SLOW_TIME)
    middle = np.median(shown, axis=0)
    meant, height = _gauss(read[None, :] - shown, spread)
    anywhere, other_height = _gauss((read - middle)[None, :], wild)
    return np.logaddexp(np.log1p(-MISTAKEN) + meant, np.log(MISTAKEN) + anywhere + other_height - height)


def _gauss(off: Floats, spread: Floats) -> tuple[Floats, float]:
    """Logarithm of a normal density over its mode, for rows of errors [K], and of the mode itself, less a constant."""
    root = np.linalg.cholesky(spread)
    white = np.asarray(np.linalg.solve(root, off.T), np.float64)
    return -0.5 * np.sum(white * white, axis=0), -float(np.sum(np.log(np.diag(root))))


def independent(spread: Floats) -> float:
    """How many independent readings would say as much of a steady error as these do [1]."""
    if len(spread) == 0:
        return 0.0
    return float(np.hypot(SLOW, QUICK) ** 2 / mean_error(spread, np.ones(len(spread)))[1])


def waves(time: Floats, read: Floats, periods: Floats) -> tuple[Floats, Floats]:
    """Amplitude of a wave of each period in readings [K], and how far it stands out of what the right model misses [1].

    Estimated by generalised least squares beside a level, a trend and a bend. Of what is missed alone, the square of
    the second has a chi-square distribution with two degrees of freedom.

    Parameters
    ----------
    time, read : (reading,) [s], [K]
    periods : (period,) [s]
    """
    root = np.linalg.cholesky(covariance(time, noise=THERMOMETER, start=0.0))
    way = (time - time.mean()) / np.ptp(time)
    turns = 2.0 * np.pi * (time - time.mean())[:, None] / periods
    columns = np.concatenate([read[:, None], way[:, None] ** [0, 1, 2], np.cos(turns), np.sin(turns)], axis=1)
    white = np.asarray(np.linalg.solve(root, columns), np.float64)
    slow = np.linalg.qr(white[:, 1:4])[0]
    left = white - slow @ (slow.T @ white)
    y, cosine, sine = left[:, 0], left[:, 4 : 4 + len(periods)], left[:, 4 + len(periods) :]
    c_c, c_s, s_s = (np.sum(a * b, axis=0) for a, b in ((cosine, cosine), (cosine, sine), (sine, sine)))
    y_c, y_s, span = y @ cosine, y @ sine, c_c * s_s - c_s**2
    of_cosine, of_sine = (s_s * y_c - c_s * y_s) / span, (c_c * y_s - c_s * y_c) / span
    return np.hypot(of_cosine, of_sine), np.sqrt(np.maximum(of_cosine * y_c + of_sine * y_s, 0.0))


def mean_error(spread: Floats, weight: Floats) -> tuple[Floats, float]:
    """Weights of the best estimate of an error that follows `weight` over the readings, and its variance [K2].

    The estimate is `weights @ (read - shown)`: generalised least squares.
    """
    solved = np.asarray(np.linalg.solve(spread, weight), np.float64)
    scale = float(weight @ solved)
    return np.asarray(solved / scale, np.float64), 1.0 / scale
