"""Drives as people type them, and the profiles that they become."""

import contextlib
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.constants import foot, kmh, mile, mph

from toptank.shop.log.leg_profile import profile_of
from toptank.shop.log.legs import LONGEST, Leg, read_legs
from toptank.system.duty import Duty
from toptank.system.profile import Profile
from toptank.units.refusal import Refusal


def _profile(text: str, **duty: float) -> Profile:
    return profile_of(read_legs(text, "us"), duty=Duty(**duty), ambient=lambda time: 0.0 * time + 300.0)


def _facts(leg: Leg) -> tuple[float, ...]:
    return tuple(round(x, 6) for x in (leg.seconds, leg.speed, leg.grade))


@pytest.mark.parametrize(
    ("text", "seconds", "speed", "grade"),
    [
        ("8 miles up 6 % at 45 mph", 8 * mile / (45 * mph), 45 * mph, 0.06),
        ("20 km flat at 90 km/h", 800.0, 90 * kmh, 0.0),
        ("climb 1 in 20 for 3 miles at 40 mph", 3 * mile / (40 * mph), 40 * mph, 0.05),
        ("6% up 3 miles at 40 mph", 3 * mile / (40 * mph), 40 * mph, 0.06),
        ("10 min at 30 mph down 3 %", 600.0, 30 * mph, -0.03),
        ("1/2 mile at 30 mph", 60.0, 30 * mph, 0.0),
        ("idle for 10 minutes", 600.0, 0.0, 0.0),
        ("stop 90 s", 90.0, 0.0, 0.0),
        ("1.5 h at 55 mph", 5400.0, 55 * mph, 0.0),
    ],
)
def test_a_leg_means_what_its_words_say(text: str, seconds: float, speed: float, grade: float) -> None:
    (leg,) = read_legs(text, "us")
    assert _facts(leg) == pytest.approx((seconds, speed, grade), abs=1e-5)
    assert leg.running


def test_legs_follow_each_other_by_then_comma_and_semicolon() -> None:
    legs = read_legs("8 miles up 6 % at 45 mph, then idle 10 min; 5 mi at 50 mph", "us")
    assert [leg.speed for leg in legs] == pytest.approx([45 * mph, 0.0, 50 * mph])


def test_what_stands_behind_a_leg_changes_that_leg_and_switches_hold_on() -> None:
    off, on, last = read_legs("stop 3 min, engine off, 5 mi at 50 mph, a/c off, idle 2 min in gear at 1,000 rpm", "us")
    assert (off.running, on.running, last.running) == (False, True, True)
    assert (on.air_conditioning, last.air_conditioning) == (False, None)
    assert (last.in_gear, last.engine_speed) == (True, pytest.approx(1000 / 60))
    profile = _profile("2 min at 40 mph, a/c off, idle 2 min", air_conditioning=1.0, ambient=300.0)
    assert np.all(profile.air_conditioning == 0.0)


def test_a_bare_speed_is_that_of_the_shop_and_is_told() -> None:
    notes: list[str] = []
    (leg,) = read_legs("5 km at 60", "metric", notes)
    assert leg.speed == pytest.approx(60 * kmh)
    assert "taken as km/h" in notes[0]


def test_the_towing_climb_lifts_the_vehicle_by_what_the_standard_prints() -> None:
    """SAE J2807: 3,500 ft in 11.4 miles; at the mean grade of 5.8 %, two digits."""
    profile = _profile("the towing climb", altitude=0.0)
    assert profile.altitude[-1] / foot == pytest.approx(3500.0, rel=0.01)
    assert np.all(profile.air_conditioning == 1.0)


def test_a_profile_keeps_way_time_and_height() -> None:
    profile = _profile("8 miles up 6 % at 45 mph, then idle 10 min", altitude=500.0)
    assert profile.time[-1] == 640 + 600
    assert profile.distance[-1] == pytest.approx(8 * mile)
    # 6 % of the way on the map
    assert profile.altitude[-1] - 500.0 == pytest.approx(8 * mile * 0.06 / np.hypot(1.0, 0.06), rel=1e-6)
    assert profile.speed[639] == pytest.approx(45 * mph, rel=1e-3)
    assert profile.speed[640] == 0.0


def test_a_road_driven_more_slowly_is_the_same_road() -> None:
    profile = _profile("1 mile at 40 mph, 2 miles up 6 % at 40 mph, idle 2 min")
    slow = profile.slowed(0.5, np.asarray(profile.grade) > 0.0)
    assert slow.time[-1] - profile.time[-1] == pytest.approx(180.0, abs=1.0)
    assert slow.distance[-1] == pytest.approx(profile.distance[-1])
    assert slow.altitude[-1] == pytest.approx(profile.altitude[-1])
    assert {round(float(v), 2) for v in slow.speed} == {round(40 * mph, 2), round(20 * mph, 2), 0.0}


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "names no leg"),
        ("8 miles up 6 %", "does not say how fast"),
        ("idle", "neither how far nor how long"),
        ("5 miles at 40 mph for 3 min", "both how far and how long"),
        ("8 miles at 400 mph", "beyond 140 mph"),
        ("3 miles up 40 % at 30 mph", "beyond 25 %"),
        ("2,5 km at 50 km/h", "write 2.5"),
        ("5 furlongs at 3 mph", "'5 furlongs'"),
        ("-3 miles at 40 mph", "more than nothing"),
        ("10 min at 0 mph", "does not say how fast"),
        ("stop 5 min at 30 mph", "both stands and drives"),
        ("5 miles at 40 mph, engine off", "drives with the engine off"),
        ("13 h at 40 mph", "12 at most"),
        ("flat 5 miles up 3 % at 40 mph", "both level and a grade"),
    ],
)
def test_what_cannot_be_driven_is_refused_in_one_sentence(text: str, says: str) -> None:
    with pytest.raises(Refusal, match=says) as refused:
        read_legs(text, "us")
    assert refused.value.fix


def test_a_road_above_all_roads_is_refused() -> None:
    with pytest.raises(Refusal, match="where no road is"):
        _profile("60 miles up 8 % at 40 mph", altitude=2000.0)


PIECES = (
    *("up", "down", "at", "idle", "stop", "then", ",", ";", "engine", "off", "a/c", "on", "flat", "1 in 20", "in gear"),
    *("5", "10", "6 %", "mph", "km/h", "miles", "mi", "km", "min", "s", "h", "1/2", "-", ".", "½", "rpm"),
)
WORDS = st.sampled_from(PIECES)


@given(words=st.lists(WORDS, max_size=14), sep=st.sampled_from([" ", ""]))
def test_any_words_are_read_or_refused_and_nothing_else(words: list[Any], sep: str) -> None:
    with contextlib.suppress(Refusal):
        legs = read_legs(sep.join(words), "us")
        assert 0.0 < sum(leg.seconds for leg in legs) <= LONGEST
        assert all(np.isfinite([leg.seconds, leg.speed, leg.grade]).all() for leg in legs)


def test_the_towing_climb_stands_among_other_legs_and_says_what_may_not_be_added_to_it() -> None:
    before, climb, after = read_legs("5 min flat at 40 mph, then the towing climb, then idle 10 min", "us")
    assert (before.seconds, after.seconds) == (300.0, 600.0)
    assert _facts(climb) == _facts(read_legs("towing climb", "us")[0])
    assert climb.air_conditioning
    with pytest.raises(Refusal, match=r"5\.8 %") as refused:
        read_legs("towing climb at 50 mph", "us")
    assert "towing climb" in refused.value.limit
