"""A forecast: where every duty settles, with a band, and what the band rests on."""

import dataclasses
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from toptank.knowledge.draws import draw_duty, draws
from toptank.knowledge.model_discrepancy import missed_by_draw, off_by
from toptank.knowledge.sensitivity import shares_of_variance
from toptank.knowledge.sheet import DutySheet, Provenance, Sheet, duty, vehicle
from toptank.system.balance import EQUATIONS_VERSION, Balance, Status, reason
from toptank.system.duty import Duty
from toptank.system.margins import COLDEST
from toptank.system.population import margins, solve
from toptank.system.vehicle import Vehicle

DRAWS = 2047
"""Draws of a forecast; with the central vehicle in front, half of the longest batch."""

SEED = 20261125
"""Seed of a forecast that names none: the same sheet gives the same band."""


class Band(NamedTuple):
    """Tenth, fiftieth and ninetieth percentile of the draws, in SI."""

    p10: float
    p50: float
    p90: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Bands:
    """The bands of one duty: temperatures, margin [K]; heats, power [W]; flow [m3/s]; velocity [m/s]; speeds [1/s].

    `air_to_boil` and `limiting_ambient` are not a number (nan) where no ambient temperature looked at is cold enough.
    """

    top_tank: Band
    gauge: Band
    bottom_hose: Band
    boiling_point: Band
    margin_to_boiling: Band
    air_to_boil: Band
    limiting_ambient: Band
    transmission: Band
    condensing: Band
    core_air_in: Band
    core_heat: Band
    engine_heat: Band
    engine_power: Band
    engine_speed: Band
    core_flow: Band
    face_velocity: Band
    fan_speed: Band
    thermostat_opening: Band


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class DutyForecast:
    """The forecast of one duty.

    Parameters
    ----------
    name : of the duty
    sheet : the duty as drawn
    bands : percentiles of the draws
    shares : share of the draws for each status that occurs [1]
    central : balance of the vehicle of central values
    reason : one sentence on the central balance
    widest : (path of an assumption, share of the variance of the top tank temperature that it explains), widest first
    T_top_tank : every draw of the top tank temperature [K]
    equations_version : names the equations that gave these numbers
    """

    name: str
    sheet: DutySheet
    bands: Bands
    shares: dict[Status, float]
    central: Balance
    reason: str
    widest: tuple[tuple[str, float], ...]
    T_top_tank: NDArray[np.float64]
    equations_version: str = EQUATIONS_VERSION


def forecast(
    sheet: Sheet, duties: Sequence[DutySheet], *, n: int = DRAWS, seed: int = SEED, limit: float
) -> tuple[DutyForecast, ...]:
    """Forecast every duty of a vehicle.

    Parameters
    ----------
    sheet : what is known of the vehicle
    duties : the duties
    n : number of draws
    seed : same seed, same draws
    limit : coolant temperature that the limiting ambient must not exceed [K]
    """
    if not duties:
        return ()
    drawn = draws(sheet, n, seed)
    days = [draw_duty(day, n, seed) for day in duties]
    # One batch for everything: each duty's central vehicle in front of its draws.
    vehicles = _joined([part for _ in duties for part in (vehicle(sheet), drawn)])
    asked = _joined([part for day, central in zip(days, duties, strict=True) for part in (duty(central), day)])
    with ThreadPoolExecutor(2) as both:  # each compiles its kernel in a fresh process: side by side, half the wait
        settled, ambients = both.submit(solve, vehicles, asked), both.submit(margins, vehicles, asked, limit)
    balance, (boil, ambient) = settled.result(), ambients.result()
    rows = [slice(i * (n + 1), (i + 1) * (n + 1)) for i in range(len(duties))]
    return tuple(
        _one(sheet, drawn, asked_day, day, _rows(balance, piece), boil[piece][1:], ambient[piece][1:])
        for asked_day, day, piece in zip(duties, days, rows, strict=True)
    )


def _one(
    sheet: Sheet,
    drawn: Vehicle,
    day_sheet: DutySheet,
    day: Duty,
    rows: Balance,
    air_to_boil: NDArray[np.float64],
    limiting_ambient: NDArray[np.float64],
) -> DutyForecast:
    central, spread = _rows(rows, 0), _rows(rows, slice(1, None))
    off = missed_by_draw(len(spread.T_gauge), np.asarray(day.speed, float), np.asarray(day.grade, float))
    spread = off_by(spread, day)
    air_to_boil, limiting_ambient = (
        np.where(found > COLDEST, np.maximum(found - off, COLDEST), found) for found in (air_to_boil, limiting_ambient)
    )
    columns, assumed = _columns(sheet, drawn, day_sheet, day)
    status: NDArray[np.int64] = np.asarray(spread.status, int)
    return DutyForecast(
        name=day_sheet.name,
        sheet=day_sheet,
        bands=_bands(spread, air_to_boil, limiting_ambient),
        shares={code: share for code in Status if (share := np.count_nonzero(status == code) / len(status)) > 0.0},
        central=central,
        reason=reason(central),
        widest=shares_of_variance(spread.T_top_tank, columns, assumed),
        T_top_tank=spread.T_top_tank,
    )


def _bands(spread: Balance, air_to_boil: NDArray[np.float64], limiting_ambient: NDArray[np.float64]) -> Bands:
    return Bands(
        top_tank=band_of(spread.T_top_tank),
        gauge=band_of(spread.T_gauge),
        bottom_hose=band_of(spread.T_bottom_hose),
        boiling_point=band_of(spread.T_boiling),
        margin_to_boiling=band_of(spread.margin_to_boiling()),
        air_to_boil=_band_of_ambients(air_to_boil),
        limiting_ambient=_band_of_ambients(limiting_ambient),
        transmission=band_of(spread.T_transmission),
        condensing=band_of(spread.T_condensing),
        core_air_in=band_of(spread.T_core_air_in),
        core_heat=band_of(spread.core_heat),
        engine_heat=band_of(spread.engine_heat),
        engine_power=band_of(spread.engine_power),
        engine_speed=band_of(spread.engine_speed),
        core_flow=band_of(spread.core_flow),
        face_velocity=band_of(spread.V_fan_zone),
        fan_speed=band_of(spread.fan_speed),
        thermostat_opening=band_of(spread.thermostat_opening),
    )


def band_of(values: NDArray[np.float64]) -> Band:
    """Return the tenth, fiftieth and ninetieth percentile of draws."""
    p10, p50, p90 = np.percentile(values, (10.0, 50.0, 90.0)).tolist()
    return Band(p10, p50, p90)


def _band_of_ambients(values: NDArray[np.float64]) -> Band:
    """Band of ambient temperatures; a search that ended at the coldest one has found none."""
    below = np.percentile(values, (10.0, 50.0, 90.0), method="lower")  # the draw just below each percentile
    found = zip(band_of(values), below, strict=True)
    return Band(*(value if draw > COLDEST else float("nan") for value, draw in found))


def _columns(
    sheet: Sheet, drawn: Vehicle, day_sheet: DutySheet, day: Duty
) -> tuple[dict[str, NDArray[np.float64]], set[str]]:
    """Draws of every field that varies, and which of them are assumptions."""
    facts = {**sheet.facts, **{f"duty.{key}": fact for key, fact in day_sheet.facts.items()}}
    columns: dict[str, NDArray[np.float64]] = {}
    for path in facts:
        section, _, key = path.partition(".")
        values = getattr(day if section == "duty" else getattr(drawn, section), key)
        if np.ptp(values) > 0.0:
            columns[path] = values
    return columns, {path for path, fact in facts.items() if fact.how == Provenance.ASSUMED}


def _joined(records: Sequence[Any]) -> Any:
    """One record of long arrays from several records of numbers or arrays."""
    first = records[0]
    pieces: dict[str, Any] = {}
    for field in dataclasses.fields(first):
        values = [getattr(record, field.name) for record in records]
        nested = dataclasses.is_dataclass(values[0])
        pieces[field.name] = _joined(values) if nested else np.concatenate([np.atleast_1d(value) for value in values])
    return dataclasses.replace(first, **pieces)


def _rows(balance: Balance, rows: slice | int) -> Balance:
    return dataclasses.replace(
        balance, **{field.name: getattr(balance, field.name)[rows] for field in dataclasses.fields(balance)}
    )
