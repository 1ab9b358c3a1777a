"""A forecast is a band; it is steady, narrows with knowledge, and names what it rests on."""

import dataclasses
import functools

import numpy as np
import pytest

from toptank.knowledge.calibrated import calibration
from toptank.knowledge.forecast import Bands, DutyForecast, forecast
from toptank.knowledge.sheet import DutySheet, Fact, Provenance, Sheet, assumptions, duty, duty_sheet, overlay, vehicle
from toptank.knowledge.sheet_file import read_duty
from toptank.knowledge.typical import typical_sheet
from toptank.system.balance import Status
from toptank.system.population import solve

LIMIT = 383.15


def _duty(name: str, table: dict[str, object]) -> DutySheet:
    return read_duty(table, name=name, system="us")[0]


PLAIN = _duty("plain", {"ambient": "85 F", "speed": "50 mph"})
CLIMB = _duty("climb", {"ambient": "95 F", "speed": "30 mph", "grade": "5 %", "for": "steady"})
HILL = _duty("hill", {"ambient": "95 F", "speed": "30 mph", "grade": "5 %", "for": "4 min"})


@functools.cache
def _pickup(seed: int = 1) -> tuple[DutyForecast, DutyForecast]:
    plain, climb = forecast(typical_sheet("pickup-1970s-v8-air"), (PLAIN, CLIMB), seed=seed, limit=LIMIT)
    return plain, climb


def test_each_duty_has_its_forecast_in_order() -> None:
    assert [one.name for one in _pickup()] == ["plain", "climb"]


def test_every_band_is_finite_and_in_order() -> None:
    for one in _pickup():
        for field in dataclasses.fields(Bands):
            band = getattr(one.bands, field.name)
            assert np.all(np.isfinite(band)), field.name
            assert band.p10 <= band.p50 <= band.p90, field.name


def test_shares_of_the_outcomes_add_up() -> None:
    for one in _pickup():
        assert sum(one.shares.values()) == pytest.approx(1.0)
        assert set(one.shares) <= set(Status)


def test_the_climb_is_hotter_than_the_plain() -> None:
    plain, climb = _pickup()
    assert climb.bands.top_tank.p50 > plain.bands.top_tank.p50
    assert climb.bands.air_to_boil.p50 < plain.bands.air_to_boil.p50


def test_the_central_balance_is_that_of_the_central_vehicle() -> None:
    sheet = typical_sheet("pickup-1970s-v8-air")
    alone = solve(vehicle(sheet), duty(CLIMB))
    assert float(_pickup()[1].central.T_top_tank) == pytest.approx(float(alone.T_top_tank[0]), abs=1e-6)
    assert _pickup()[1].reason.endswith(".")


def test_four_minutes_of_a_hill_are_cooler_than_what_it_settles_at_and_say_what_came_before() -> None:
    """The requirement: three minutes of a hill were forecast 12 °F too hot as a steady state."""
    hill, climb = forecast(typical_sheet("pickup-1970s-v8-air"), (HILL, CLIMB), n=256, seed=1, limit=LIMIT)
    assert climb.bands.gauge.p50 - hill.bands.gauge.p50 > 1.0
    assert hill.bands.air_to_boil.p50 > climb.bands.air_to_boil.p50 + 1.0
    assert (hill.came_before, climb.came_before) == ("after a run on the level", "")


def test_two_thousand_draws_give_a_steady_band() -> None:
    # A workshop thermometer tells half a kelvin; the ends of a band are allowed twice that.
    for first, second in zip(_pickup(1), _pickup(2), strict=True):
        for a, b in zip(first.bands.top_tank, second.bands.top_tank, strict=True):
            assert abs(a - b) < 1.0
        assert abs(first.bands.top_tank.p50 - second.bands.top_tank.p50) < 0.5


def test_the_same_seed_gives_the_same_band() -> None:
    again = forecast(typical_sheet("pickup-1970s-v8-air"), (PLAIN, CLIMB), seed=1, limit=LIMIT)
    assert again[1].bands == _pickup(1)[1].bands


def test_the_widest_are_assumptions_with_the_largest_first() -> None:
    widest = _pickup()[1].widest
    assumed = set(assumptions(typical_sheet("pickup-1970s-v8-air"))) | {f"duty.{key}" for key in CLIMB.facts}
    shares = [share for _, share in widest]
    assert {path for path, _ in widest} <= assumed
    assert shares == sorted(shares, reverse=True)
    assert 0.4 < sum(shares) < 1.1


def test_measuring_the_widest_narrows_the_band() -> None:
    sheet = typical_sheet("pickup-1970s-v8-air")
    (before,) = forecast(sheet, (CLIMB,), seed=1, limit=LIMIT)
    known = {
        path: dataclasses.replace(sheet.facts[path], how=Provenance.MEASURED, spread=0.0)
        for path, _ in before.widest[:8]
        if path in sheet.facts
    }
    (after,) = forecast(overlay(sheet, known), (CLIMB,), seed=1, limit=LIMIT)
    # Sound vehicles keep within what their kind reads before anything is measured: less is left to be narrowed.
    assert np.std(after.T_top_tank) < 0.9 * np.std(before.T_top_tank)
    assert not {path for path, _ in after.widest} & set(known)


def test_with_nothing_in_doubt_the_band_is_what_the_model_misses() -> None:
    sheet = typical_sheet("truck-1970s-six")
    certain = {
        path: Fact(value=fact.value, how=Provenance.PLATE, spread=0.0, origin="") for path, fact in sheet.facts.items()
    }
    sure = Sheet(name="sure", like="", facts=certain)
    day = duty_sheet("day", {key: dataclasses.replace(fact, spread=0.0) for key, fact in PLAIN.facts.items()})
    (one,) = forecast(sure, (day,), n=500, limit=LIMIT)
    remains = calibration().remains["moving"]
    width = one.bands.top_tank.p90 - one.bands.top_tank.p10
    # within: the quantiles of a few hundred stratified draws
    assert width == pytest.approx(2.0 * 1.2816 * remains, rel=0.05)
    assert one.widest == ()
    assert one.shares == {Status(int(one.central.status)): 1.0}


def test_where_no_ambient_is_cold_enough_there_is_no_figure() -> None:
    sheet = typical_sheet("pickup-1970s-v8-air")
    closed = {"core.blocked_face": dataclasses.replace(sheet.facts["core.blocked_face"], value=0.95, spread=0.0)}
    (hopeless,) = forecast(overlay(sheet, closed), (CLIMB,), n=50, limit=LIMIT)
    assert np.all(np.isnan(hopeless.bands.air_to_boil))
    (held,) = forecast(sheet, (CLIMB,), n=50, limit=330.0)  # a limit below any thermostat of the trade
    assert np.isnan(held.bands.limiting_ambient.p10)
    assert np.all(np.isfinite(held.bands.air_to_boil))


def test_no_duty_no_forecast() -> None:
    assert forecast(typical_sheet("truck-1970s-six"), (), limit=LIMIT) == ()
