"""A forecast: what the gauge reads at the end of every duty, with a band, and what the band rests on.

A duty that is steady is settled; any other is come to and lasts as long as it does. Boiling counts at any time in it.
"""

import dataclasses
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from toptank.knowledge.conditions import came_before, central_conditions, draw_conditions
from toptank.knowledge.draws import draws
from toptank.knowledge.model_discrepancy import missed_in, off_by
from toptank.knowledge.sensitivity import shares_of_variance
from toptank.knowledge.sheet import TIMING_KEYS, DutySheet, Provenance, Sheet, vehicle
from toptank.knowledge.stop_limit import limit_in
from toptank.system.balance import EQUATIONS_VERSION, Balance, Status, reason
from toptank.system.condition import Passage
from toptank.system.condition_batch import Condition, go_through
from toptank.system.condition_margins import limiting_ambients
from toptank.system.margins import COLDEST
from toptank.system.numerics.jax_library import jax
from toptank.system.population import margins
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

    They are those at its end, but for the least margin to boiling and the highest reading (`gauge_peak`) in it.
    `air_to_boil` and `limiting_ambient` are not a number (nan) where no ambient temperature looked at is cold enough.
    """

    top_tank: Band
    gauge: Band
    gauge_peak: Band
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
    came_before : what it comes after, in words; empty where it is steady
    limit : that holds in it [K]: at a short stop it is higher than on the road
    bands : percentiles of the draws
    boils_after : time after its beginning at which the draws that boil do [s]; None where few do, or it is steady
    shares : share of the draws for each status that occurs [1]
    central : balance of the vehicle of central values at the end of it
    reason : one sentence on that
    widest : (path of an assumption, share of the variance of the top tank temperature that it explains), widest first
    T_top_tank : every draw of the top tank temperature [K]
    equations_version : names the equations that gave these numbers
    """

    name: str
    sheet: DutySheet
    came_before: str
    limit: float
    bands: Bands
    boils_after: Band | None
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
    limit : coolant temperature that must not be exceeded on the road [K]
    """
    if not duties:
        return ()
    drawn = draws(sheet, n, seed)
    days, middle = draw_conditions(sheet, duties, n, seed), central_conditions(sheet, duties)
    # One batch for everything: each condition's central vehicle in front of its draws.
    vehicles = _joined([vehicle(sheet), drawn])
    conditions = {name: _with_central(middle[name], day) for name, day in days.items()}
    few: tuple[Vehicle, dict[str, Condition]] = jax.tree.map(_Head(FOR_AMBIENT), (drawn, days))

    def ambients(name: str) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        if days[name].settled():
            return margins(drawn, days[name].duty, limit)
        most = limit_in(days[name], limit)
        return limiting_ambients(few[0], few[1], name), limiting_ambients(few[0], few[1], name, most)

    names = [day.name for day in duties]
    with ThreadPoolExecutor(2) as both:  # each compiles its kernel in a fresh process: side by side, half the wait
        gone = both.submit(go_through, vehicles, conditions, closely=True)
        found = both.submit(lambda: {name: ambients(name) for name in names})
    passages, limits = gone.result(), found.result()
    return tuple(
        _one(sheet, drawn, one, days[one.name], limit, passages[one.name], *limits[one.name]) for one in duties
    )


FOR_AMBIENT = 256
"""Draws with which the ambient is sought at which a condition that lasts boils or passes the limit."""

SELDOM = 0.05
"""Share of the draws that boil below which it is not said when they do [1]."""


def _one(
    sheet: Sheet,
    drawn: Vehicle,
    day_sheet: DutySheet,
    day: Condition,
    limit: float,
    passage: Passage,
    air_to_boil: NDArray[np.float64],
    limiting_ambient: NDArray[np.float64],
) -> DutyForecast:
    central, spread = first_of(passage), off_by(jax.tree.map(_but_first, passage), day)
    air_to_boil, limiting_ambient = (
        np.where(found > COLDEST, np.maximum(found - missed_in(day, len(found)), COLDEST), found)
        for found in (air_to_boil, limiting_ambient)
    )
    columns, assumed = _columns(sheet, drawn, day_sheet, day)
    status: NDArray[np.int64] = np.asarray(spread.end.status, int)
    boils = np.isfinite(spread.boils_after)
    return DutyForecast(
        name=day_sheet.name,
        sheet=day_sheet,
        came_before=came_before(day_sheet),
        limit=limit_in(day, limit),
        bands=_bands(spread, air_to_boil, limiting_ambient),
        boils_after=band_of(spread.boils_after[boils]) if float(boils.mean()) >= SELDOM else None,
        shares={code: share for code in Status if (share := np.count_nonzero(status == code) / len(status)) > 0.0},
        central=central.end,
        reason=reason_of(central),
        widest=shares_of_variance(spread.end.T_top_tank, columns, assumed),
        T_top_tank=spread.end.T_top_tank,
    )


def reason_of(passage: Passage) -> str:
    """One sentence on how one vehicle goes through a condition: when it boils, or what limits it at the end."""
    after = float(passage.boils_after)
    if np.isfinite(after):
        return f"The coolant reaches its boiling point under this cap after {max(after / 60.0, 1.0):.0f} min of it."
    return reason(passage.end)


def first_of(passage: Passage) -> Passage:
    """How the first of many went."""
    return jax.tree.map(_first, passage)


def _first(leaf: NDArray[np.float64]) -> Any:
    return np.asarray(leaf)[0]


def _but_first(leaf: NDArray[np.float64]) -> NDArray[np.float64]:
    return np.asarray(leaf)[1:]


@dataclass(frozen=True, slots=True)
class _Head:
    n: int

    def __call__(self, leaf: Any) -> NDArray[np.float64]:
        return np.asarray(leaf, float)[: self.n]


def _with_central(central: Condition, drawn: Condition) -> Condition:
    joined = {name: _joined([getattr(central, name), getattr(drawn, name)]) for name in ("duty", "timing")}
    return dataclasses.replace(drawn, **joined)


def _bands(passage: Passage, air_to_boil: NDArray[np.float64], limiting_ambient: NDArray[np.float64]) -> Bands:
    spread = passage.end
    return Bands(
        top_tank=band_of(spread.T_top_tank),
        gauge=band_of(spread.T_gauge),
        gauge_peak=band_of(passage.T_gauge_peak),
        bottom_hose=band_of(spread.T_bottom_hose),
        boiling_point=band_of(spread.T_boiling),
        margin_to_boiling=band_of(passage.least_margin),
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
    sheet: Sheet, drawn: Vehicle, day_sheet: DutySheet, day: Condition
) -> tuple[dict[str, NDArray[np.float64]], set[str]]:
    """Draws of every field that varies, and which of them are assumptions."""
    facts = {**sheet.facts, **{f"duty.{key}": fact for key, fact in day_sheet.facts.items()}}
    columns: dict[str, NDArray[np.float64]] = {}
    for path in facts:
        section, _, key = path.partition(".")
        owner = getattr(drawn, section) if section != "duty" else day.timing if key in TIMING_KEYS else day.duty
        values = getattr(owner, TIMING_KEYS.get(key, key) if section == "duty" else key)
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
