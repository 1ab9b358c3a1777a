"""What a log shows by itself, and how much a log is worth."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from toptank.knowledge.drives.clock_jumps import in_order
from toptank.knowledge.drives.drive_log import DriveLog, on_a_grid
from toptank.knowledge.drives.stretches import fastest_fall, fastest_rise, opening, settled, swings
from toptank.knowledge.drives.track import Floats
from toptank.knowledge.model_discrepancy import (
    covariance,
    drawn_misfit,
    independent,
    log_likelihood,
    looked_at,
    mean_error,
)


def _log(temperature: Floats, speed: Floats | float = 20.0) -> DriveLog:
    time = np.arange(float(len(temperature)))
    noise = np.random.default_rng(0).normal(0.0, 0.2, len(time))
    columns = {"gauge": temperature + noise, "speed": np.broadcast_to(np.asarray(speed, float), time.shape)}
    return on_a_grid(time, columns, by_hand=False)


def test_stretches_that_had_settled_are_found_and_a_rise_is_none() -> None:
    time = np.arange(1500.0)
    temperature = 360.0 + 20.0 * np.clip((time - 500.0) / 500.0, 0.0, 1.0)
    speed = np.where(time < 500.0, 22.0, 15.0)
    found = settled(_log(temperature, speed))
    assert [round(one.temperature) for one in found] == [360, 380]
    assert found[0].end < 520.0
    assert found[1].begin >= 990.0
    assert found[1].driven["speed"] == pytest.approx(15.0)


@pytest.mark.parametrize(("second", "count"), [(373.0, 0), (361.5, 1)])
def test_two_notes_that_do_not_agree_are_no_settled_stretch(second: float, count: int) -> None:
    """Twenty minutes alike: 12 K more is a rise that goes on, half a kelvin is none; between notes nobody read."""
    time = np.array([0.0, 1200.0])
    noted = {"gauge": np.array([361.0, second]), "speed": np.array([20.0, 20.0])}
    log = on_a_grid(time, noted, by_hand=True)
    assert len(settled(log)) == count


def test_a_clutch_that_hunts_is_seen_and_a_quiet_gauge_is_not() -> None:
    time = np.arange(1800.0)
    swinging = _log(370.0 + 4.0 * np.sin(2.0 * np.pi * time / 150.0))
    found = swings(swinging)
    assert found is not None
    assert found.period == pytest.approx(150.0, rel=0.05)
    assert found.height == pytest.approx(8.0, abs=1.0)
    assert swings(_log(370.0 + 0.0 * time)) is None
    assert swings(_log(370.0 + 4.0 * np.sin(2.0 * np.pi * time / 1600.0))) is None


@pytest.mark.parametrize("minutes", [6, 12])
def test_what_a_model_misses_anyway_is_hardly_ever_taken_for_swings(minutes: int) -> None:
    """As a finding it would speak for causes: turning points alone were found in 20 to 60 of 100 such drives."""
    time = np.arange(60.0 * minutes)
    seen = [swings(_log(370.0 + 12.0 * np.exp(-time / 230.0) + drawn_misfit(time, seed))) for seed in range(40)]
    assert sum(one is not None for one in seen) <= 1
    hunting = [_log(370.0 + 4.5 * np.sin(time / 16.0 + seed) + drawn_misfit(time, seed)) for seed in range(10)]
    periods = [one.period for one in map(swings, hunting) if one is not None]
    assert len(periods) >= 9
    assert periods == pytest.approx([2.0 * np.pi * 16.0] * len(periods), rel=0.1)


def test_swings_of_a_drive_that_itself_goes_up_and_down_are_no_hunting() -> None:
    time = np.arange(1800.0)
    wave = np.sin(2.0 * np.pi * time / 150.0)
    assert swings(_log(370.0 + 4.0 * wave, 15.0 + 8.0 * wave)) is None


def test_a_stop_that_raises_the_needle_is_told_as_a_rise_while_standing() -> None:
    time = np.arange(900.0)
    temperature = 365.0 + np.clip(time - 600.0, 0.0, 60.0) * (11.1 / 60.0) - np.clip(time - 700.0, 0.0, 100.0) * 0.05
    log = _log(temperature, np.where(time < 600.0, 20.0, 0.0))
    rise, fall = fastest_rise(log), fastest_fall(log)
    assert rise is not None
    assert fall is not None
    assert rise.standing
    assert rise.change == pytest.approx(11.1, abs=1.0)
    assert fall.change == pytest.approx(-3.0, abs=0.6)


@pytest.mark.parametrize("opens", [350.0, 363.0])
def test_an_opening_thermostat_breaks_off_the_rise_of_a_warm_up(opens: float) -> None:
    time = np.arange(900.0)
    rising = np.minimum(300.0 + 0.15 * time, opens)
    seen = opening(_log(rising))
    assert seen is not None
    assert seen == pytest.approx(opens, abs=3.0)
    exponential = 300.0 + 60.0 * (1.0 - np.exp(-time / 300.0))
    assert opening(_log(exponential)) is None, "a rise that slows down by itself is no opening"


def test_a_thousand_readings_are_worth_hardly_more_than_twenty() -> None:
    def worth(n: int, length: float) -> float:
        return independent(covariance(np.linspace(0.0, length, n), noise=0.7, start=0.0))

    assert worth(400, 1200.0) < 1.15 * worth(20, 1200.0)
    assert worth(20, 1200.0) < 5.0
    assert worth(20, 7200.0) > 2.0 * worth(20, 1200.0)


def test_no_more_readings_are_looked_at_than_say_something_new() -> None:
    read = np.full(10_800, 360.0)
    read[::7] = np.nan
    places = looked_at(read)
    assert len(places) <= 240
    assert np.isfinite(read[places]).all()
    assert np.diff(places).min() >= 15
    assert looked_at(read[:90]).tolist() == [1, 20, 40, 60, 80]


def test_the_likelihood_of_a_log_prefers_the_draw_that_made_it_and_forgives_a_log_of_something_else() -> None:
    time = np.arange(0.0, 1200.0, 30.0)
    spread = covariance(time, noise=0.7, start=5.0)
    rng = np.random.default_rng(3)
    courses = 360.0 + 15.0 * rng.standard_normal((50, 1)) + 8.0 * rng.standard_normal((50, 1)) * (time / 1200.0)
    right = 0
    for draw in range(50):
        read = courses[draw] + np.linalg.cholesky(spread) @ rng.standard_normal(len(time))
        likelihood = log_likelihood(time, read, courses, spread)
        right += int(likelihood[draw] > np.quantile(likelihood, 0.8))
    assert right > 40
    strange = log_likelihood(time, courses[0] + 80.0 * np.sin(time / 40.0), courses, spread)
    assert np.ptp(strange) < 1.0, "a log of another vehicle says nothing of this one"


def test_a_steady_error_is_found_with_the_scatter_that_is_said() -> None:
    time = np.arange(0.0, 1200.0, 30.0)
    spread = covariance(time, noise=0.7, start=0.0)
    weights, variance = mean_error(spread, np.ones(len(time)))
    errors = np.linalg.cholesky(spread) @ np.random.default_rng(4).standard_normal((len(time), 4000))
    assert weights.sum() == pytest.approx(1.0)
    assert np.std(weights @ errors) == pytest.approx(np.sqrt(variance), rel=0.05)


@given(st.lists(st.floats(-1e6, 1e6), max_size=40))
def test_rows_in_order_never_fall_and_none_could_be_added(times: list[float]) -> None:
    time = np.array(times)
    kept = in_order(time)
    assert (np.diff(time[kept]) >= 0.0).all()
    for row in set(range(len(time))) - set(kept.tolist()):
        more = time[np.sort(np.append(kept, row))]
        assert (np.diff(more) < 0.0).any()
