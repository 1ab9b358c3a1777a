"""Drives in time: they settle where `steady` does, keep their heat, do not depend on the step, and never give a NaN."""

import dataclasses
from collections.abc import Callable
from typing import Any

import jax
import numpy as np
import pytest
from hypothesis import Phase, example, given, settings
from hypothesis import strategies as st

from toptank.knowledge.draws import draws
from toptank.knowledge.sheet import vehicle
from toptank.knowledge.typical import typical_names, typical_sheet
from toptank.system.balance import Status
from toptank.system.drive import cold_start, drive
from toptank.system.drive_batch import BUCKETS, Drives, Unsure, drive_all
from toptank.system.duty import Duty
from toptank.system.population import solve
from toptank.system.profile import Profile
from toptank.system.trajectory import Trajectory, reason
from toptank.system.vehicle import Vehicle

N = BUCKETS[1]
EASY = Duty(ambient=300.0, speed=18.0)
PLAY = {"fan_clutch": {"snaps": 0.0}, "engine": {"cold_idle": 1.0}}
"""No clutch that knows but two ends, and no fast idle of a cold engine: neither has a steady balance to settle at."""

NO_PLAY = PLAY | {"thermostat": {"hysteresis": 0.0}, "fan_clutch": {"hysteresis": 0.0, "snaps": 0.0}}


def _with(vehicles: Vehicle, changes: dict[str, dict[str, Any]]) -> Vehicle:
    parts = {part: dataclasses.replace(getattr(vehicles, part), **values) for part, values in changes.items()}
    return dataclasses.replace(vehicles, **parts)


def _hill(dt: float = 1.0, seconds: float = 1500.0) -> Profile:
    """Level, a climb, a stop, shut down hot, on again: every kind of change there is."""
    time = np.arange(0.0, seconds, dt)
    part = np.minimum(time * 5.0 / seconds, 4.999).astype(int)
    duty = Duty(
        ambient=308.0,
        altitude=200.0 + 0.5 * time,
        speed=np.choose(part, [24.0, 18.0, 0.0, 0.0, 15.0]),
        grade=np.choose(part, [0.0, 0.06, 0.0, 0.0, -0.02]),
        air_conditioning=np.choose(part, [1.0, 1.0, 1.0, 0.0, 0.0]),
        heater=np.choose(part, [0.0, 0.0, 0.0, 0.0, 1.0]),
    )
    return Profile.of(time=time, duty=duty, running=np.choose(part, [1.0, 1.0, 1.0, 0.0, 1.0]))


@pytest.fixture(scope="module")
def one_drive() -> Callable[[Vehicle, Profile], Trajectory]:
    """The drive of one vehicle, compiled once a length."""
    return jax.jit(drive)


@given(
    name=st.sampled_from(typical_names()),
    seed=st.integers(0, 2**31),
    ambient=st.floats(283.0, 318.0),
    altitude=st.floats(0.0, 2500.0),
    speed=st.one_of(st.just(0.0), st.floats(4.0, 30.0)),
    grade=st.floats(-0.02, 0.06),
    cooled=st.booleans(),
    heated=st.booleans(),
)
# Shrinking 128 vehicles takes hours.
@settings(max_examples=6, phases=(Phase.explicit, Phase.generate))
# A fan switched on at standstill: its air was once not found again, and vans came to rest 18 K hotter than the balance.
@example(
    name="van-1980s-rear-four", seed=425322517, ambient=307.0, altitude=391.0, speed=0.0, grade=0.01, cooled=True,
    heated=True,
)  # fmt: skip
# A thermostat hunting every 13 s about its balance: looked at every 51 s it seemed to rest, 2 K beside it.
@example(
    name="tractor-1960s-diesel", seed=2651937, ambient=283.8, altitude=0.0, speed=12.0, grade=0.052, cooled=False,
    heated=True,
)  # fmt: skip
def test_a_long_constant_drive_settles_where_the_steady_balance_does(
    name: str, seed: int, ambient: float, altitude: float, speed: float, grade: float, cooled: bool, heated: bool
) -> None:
    """Three hours after an easy road, over vehicles without play: within 0.2 K where nothing moves any more.

    With play, what regulates may stand anywhere between where it opens and where it shuts: the coolant then settles no
    higher than that of the same vehicle with its thermostat opening by half its play later, and no lower than with that
    half earlier and the fan shutting by its play later,
    but for the odd one in which a fan half engaged heats the engine more than its air takes away. An electric fan
    between its two temperatures comes and goes, a thermostat may hunt; what boils is held at the boiling point.
    """
    duty = Duty(
        ambient=ambient, altitude=altitude, speed=speed, grade=grade, air_conditioning=float(cooled),
        heater=float(heated),
    )  # fmt: skip
    vehicles = draws(typical_sheet(name), N, seed)
    profile = Profile.of(time=np.arange(0.0, 10_800.0, 3.0), duty=duty)
    easier = dataclasses.replace(duty, speed=0.8 * speed, grade=min(grade, 0.0), air_conditioning=0.0)
    for changed, play in ((NO_PLAY, False), (PLAY, True)):
        asked = _with(vehicles, changed)
        balance = solve(asked, duty)
        drives = drive_all(asked, profile, before=easier)
        assert np.all(np.isfinite(drives.gauge))
        T = drives.engine_out[:, -1]
        part = np.asarray(asked.fan.mean_share(T_switch=balance.T_engine_out, air_conditioning=float(cooled)))
        comes_and_goes = (asked.fan.electric() > 0.5) & (part > 0.0) & (part < 1.0)
        holds = balance.status < Status.BOILS
        rests = holds & ~drives.boiled() & ~comes_and_goes & (np.ptp(drives.engine_out[:, -200:], axis=1) < 0.02)
        starts_cool = solve(asked, easier).margin_to_boiling() > 0.0  # slower, air may be scarcer: some boil before
        assert not np.any(drives.boiled() & starts_cool & (balance.margin_to_boiling() > 3.0))
        if not play:
            assert np.all(np.abs(T - balance.T_engine_out)[rests] < 0.2)
        else:
            stamp, half = asked.thermostat.starts_opening, 0.5 * asked.thermostat.hysteresis
            opens_early = {
                "thermostat": {"starts_opening": stamp - half},
                "fan_clutch": {"engages": asked.fan_clutch.engages - asked.fan_clutch.hysteresis},
            }
            coolest = np.minimum(solve(_with(asked, opens_early), duty).T_engine_out, balance.T_engine_out)
            opens_late = {"thermostat": {"starts_opening": stamp + half}}
            hottest = np.maximum(solve(_with(asked, opens_late), duty).T_engine_out, balance.T_engine_out)
            assert np.all((hottest + 0.2 > T)[rests])
            assert np.all((coolest - 0.2 < T)[rests])


def test_nearly_all_of_a_population_rests_after_three_hours_so_that_the_comparison_is_no_empty_one() -> None:
    vehicles = draws(typical_sheet("pickup-1970s-v8-air"), N, 5)
    duty = Duty(ambient=305.0, speed=20.0, grade=0.03, air_conditioning=1.0)
    profile = Profile.of(time=np.arange(0.0, 10_800.0, 3.0), duty=duty)
    drives = drive_all(_with(vehicles, NO_PLAY), profile, before=EASY, every=100)
    assert np.mean(np.abs(drives.engine_out[:, -1] - drives.engine_out[:, -4]) < 0.02) > 0.9


def test_heat_balances_over_a_drive_with_everything_in_it(one_drive: Any) -> None:
    """Made less given off is stored: within a thousandth of what was made, boiling and shut-down included."""
    weak = _with(vehicle(typical_sheet("pickup-1970s-v8-air")), {"cap": {"holds": 0.1}, "core": {"blocked_face": 0.4}})
    for one in (vehicle(typical_sheet("wagon-1990s-v6-air")), weak):
        course = one_drive(one, _hill())
        made = np.asarray(course.engine_heat + course.gearbox_heat_made)[:-1]
        gone = np.asarray(
            course.core_heat + course.surface_heat + course.heater_heat + course.gearbox_heat + course.expelled_heat
        )[:-1]
        stored = float(course.stored_heat[-1] - course.stored_heat[0])
        assert np.sum(made - gone) == pytest.approx(stored, abs=1e-3 * np.sum(made))
    assert int(course.status()) == Status.BOILS
    assert float(course.coolant_lost[-1]) > 0.01


@pytest.mark.parametrize("name", ["pickup-1970s-v8-air", "wagon-1990s-v6-air"])
def test_half_the_step_moves_the_peak_by_less_than_a_tenth_of_a_kelvin(name: str) -> None:
    """Every vehicle with a belt-driven fan; where a degree decides whether an electric fan comes on, the middle one.

    A thermostat that hunts magnifies whatever differs, a start by a fiftieth of a kelvin as well as the step: no step
    is short enough for the phase of such a vehicle, of which there are few.
    """
    vehicles, moved = draws(typical_sheet(name), N, 3), 0.02
    whole, half = (drive_all(vehicles, _hill(dt), before=EASY, every=50) for dt in (1.0, 0.5))
    warmer = dataclasses.replace(EASY, ambient=EASY.ambient + moved)
    calm = np.abs(drive_all(vehicles, _hill(), before=warmer, every=50).peak - whole.peak) < moved
    belt = np.broadcast_to(vehicles.fan.electric() < 0.5, N)
    assert np.mean(calm | ~belt) > 0.95
    assert np.all(np.abs(whole.peak - half.peak)[belt & calm] < 0.1)
    assert abs(np.median(whole.peak) - np.median(half.peak)) < 0.1


SIX = ("minibus-1970s-v8-air", "motorhome-1970s-v8-air", "saloon-1950s-six", "saloon-1980s-four-air",
       "van-1980s-rear-four", "wagon-1990s-v6-air")  # fmt: skip


@pytest.mark.parametrize("name", SIX)
def test_at_each_step_that_is_used_half_of_it_moves_the_peak_by_less_than_a_tenth_of_a_kelvin(name: str) -> None:
    """One second of a forecast, two of a long log, three of a proposal: level, a climb, a stop where the needle jumps.

    The peak comes seconds after the stop, where the flows must be found again at once.
    """

    def peak(dt: float) -> float:
        time = np.arange(0.0, 900.0, dt)
        part = np.minimum(time / 300.0, 2.999).astype(int)
        speed, grade = np.choose(part, [20.0, 18.0, 0.0]), np.choose(part, [0.0, 0.06, 0.0])
        duty = Duty(ambient=308.0, altitude=200.0, speed=speed, grade=grade, air_conditioning=1.0)
        return float(drive_all(vehicle(typical_sheet(name)), Profile.of(time=time, duty=duty), before=EASY).peak[0])

    assert [abs(peak(dt) - peak(0.5 * dt)) for dt in (1.0, 2.0, 3.0)] == pytest.approx([0.0] * 3, abs=0.1)


def test_nothing_inside_the_hard_limits_gives_a_nan(random_draws: Any) -> None:
    """Vehicles and days anywhere inside the limits, the engine shut down and on again: every track is finite."""
    vehicles, _ = random_draws(4 * N, 11, "hard")
    _, duties = random_draws(300, 12, "hard")
    along = jax.tree.map(lambda leaf: np.repeat(leaf, 5), duties)
    running = np.repeat((np.arange(300) % 4 > 0).astype(float), 5)
    wild = Profile.of(time=np.arange(1500.0), duty=along, running=running)
    for before in (None, EASY):
        drives = drive_all(vehicles, wild, before=before, every=7)
        for field in dataclasses.fields(Drives):
            assert np.all(np.isfinite(getattr(drives, field.name))), field.name


def test_a_population_drives_as_its_members_do_one_by_one(one_drive: Any) -> None:
    vehicles, profile = draws(typical_sheet("saloon-1980s-four-air"), 3, 3), _hill()
    first = jax.tree.map(lambda leaf: float(leaf[0]), profile.duty)
    together = drive_all(vehicles, profile, before=first)
    for i in range(3):
        alone = one_drive(jax.tree.map(lambda field, i=i: float(field[i]), vehicles), profile)
        np.testing.assert_allclose(together.gauge[i], np.asarray(alone.T_gauge), atol=2e-3)
        assert together.peak[i] == pytest.approx(float(np.max(alone.T_gauge)), abs=2e-3)
        assert together.lost[i] == float(alone.coolant_lost[-1])


def test_thinned_tracks_are_those_of_every_step_and_the_peak_is_still_that_of_all() -> None:
    vehicles, profile = draws(typical_sheet("pickup-1970s-v8-air"), N, 3), _hill()
    every_step, thinned = drive_all(vehicles, profile, before=EASY), drive_all(vehicles, profile, before=EASY, every=7)
    np.testing.assert_array_equal(every_step.gauge[:, ::7], thinned.gauge)
    np.testing.assert_array_equal(every_step.peak, thinned.peak)
    assert np.all(every_step.gauge[np.arange(N), every_step.peak_step] == every_step.peak)


def _in_second_gear() -> Profile:
    hill = _hill()
    return dataclasses.replace(hill, duty=dataclasses.replace(hill.duty, gear=np.full(1500, 2.0)))


@pytest.mark.parametrize("name", ["pickup-1970s-v8-air", "compact-1960s-six", "truck-1970s-six"])
def test_a_hotter_day_of_a_draw_is_a_hotter_drive(name: str) -> None:
    """In one gear and without play in thermostat and clutch: no draw with a belt-driven fan has a lower peak."""
    vehicles = _with(draws(typical_sheet(name), N, 3), NO_PLAY)
    peaks = [
        drive_all(vehicles, _in_second_gear(), before=EASY, every=100, unsure=Unsure(ambient=np.full(N, more))).peak
        for more in (0.0, 8.0)
    ]
    rise = (peaks[1] - peaks[0])[np.broadcast_to(vehicles.fan.electric() < 0.5, N)]
    assert np.all(rise > -0.1)
    assert np.median(rise) > 2.0


@pytest.mark.parametrize("name", ["wagon-1990s-v6-air", "compact-1960s-six"])
def test_what_a_hotter_day_may_cool_is_gear_and_overshoot(name: str) -> None:
    """Thin air may ask for a lower gear, which turns pump and fan faster; wax and fan switches overshoot by chance.

    Few draws then peak lower on a hotter day, and none by more than a fan's two temperatures lie apart.
    """
    vehicles = draws(typical_sheet(name), N, 3)
    peaks = [
        drive_all(vehicles, _hill(), before=None, every=100, unsure=Unsure(ambient=np.full(N, more))).peak
        for more in (0.0, 6.0)
    ]
    rise = peaks[1] - peaks[0]
    assert np.all(rise > -4.0)
    assert np.mean(rise < -0.5) < 0.2


def test_the_gradient_of_the_hottest_moment_is_that_of_finite_differences() -> None:
    """Through lags, play and boiling point: fins, iron, wax and fan, at a moment of the climb."""
    built = _with(vehicle(typical_sheet("pickup-1970s-v8-air")), {"core": {"scale_thickness": 1e-4}})
    fields = (("core", "fin_density"), ("engine", "metal"), ("thermostat", "lag"), ("fan_clutch", "engaged_ratio"))
    values = np.array([float(getattr(getattr(built, part), name)) for part, name in fields])
    time = np.arange(400.0)
    profile = Profile.of(time=time, duty=Duty(ambient=308.0, speed=18.0, grade=np.where(time < 30.0, 0.0, 0.07)))

    def at_the_top(shares: Any) -> Any:
        changed = built
        for (part, name), value, share in zip(fields, values, shares, strict=True):
            changed = _with(changed, {part: {name: value * share}})
        warm = cold_start(changed, Duty(ambient=355.0))  # all of it at 355 K
        return drive(changed, profile, warm).T_engine_out[-1]

    both = jax.jit(lambda shares, along: jax.jvp(at_the_top, (shares,), (along,)))
    ones, h = np.ones(len(fields)), 1e-4
    for place in range(len(fields)):
        along = np.eye(len(fields))[place]
        _, slope = both(ones, along)
        up, down = (float(both(ones + sign * h * along, along)[0]) for sign in (1.0, -1.0))
        assert float(slope) == pytest.approx((up - down) / (2.0 * h), rel=0.01, abs=2e-4), fields[place]
        assert abs(float(slope)) > 1e-3, f"{fields[place]} moves nothing: no test"


def test_reasons_say_how_it_went(one_drive: Any) -> None:
    built = vehicle(typical_sheet("pickup-1970s-v8-air"))
    weak = _with(built, {"cap": {"holds": 0.0}, "core": {"blocked_face": 0.7}})
    assert "past the cap" in reason(one_drive(weak, _hill()), step=1.0)
    assert "wide open for a while" in reason(one_drive(built, _hill()), step=1.0)
    level = dataclasses.replace(_hill(), duty=jax.tree.map(lambda leaf: leaf * 0.0 + leaf[0], _hill().duty))
    cool = dataclasses.replace(
        level, running=np.ones(1500), duty=dataclasses.replace(level.duty, ambient=np.full(1500, 285.0))
    )
    assert "thermostat holds" in reason(one_drive(built, cool), step=1.0)
