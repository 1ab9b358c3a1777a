"""The shroud by hand: what the fan draws through, and what slips past."""

from collections.abc import Callable
from math import pi
from typing import Any

import numpy as np
import pytest

from toptank.parts.shroud import Shroud

INCH = 0.0254
FITTED, MISSING = 1.0, 0.0
BAY = {"fan_diameter": 0.45, "fans": 1.0, "face_area": 0.25}
DRAWN, RIM = {"widening": 0.8}, {"rim_reach": 0.03}


def test_bare_blades_close_to_the_core_draw_through_their_circle_and_farther_off_through_more() -> None:
    """Common practice, read in a study guide: a 17 in fan on a core of 22.25 x 18.25 in covers 56 % of it.

    By our own trial of a cowl that adds a third of air standing still, the circle grows by 0.8 of the gap.
    """
    face = {"fan_diameter": 17.0 * INCH, "fans": 1.0, "face_area": 22.25 * 18.25 * INCH * INCH}
    close, off, far, farther = (
        Shroud(present=MISSING, fan_to_core=gap).fan_share(**face, **DRAWN) for gap in (0.003, 0.05, 0.1, 0.3)
    )
    assert close == pytest.approx(0.56, abs=0.01)
    assert off == pytest.approx(0.56 * ((17.0 * INCH + 0.04) / (17.0 * INCH)) ** 2, abs=0.005)
    assert far == farther > off


def test_a_shroud_spreads_the_draught_over_what_it_covers() -> None:
    assert Shroud(present=FITTED, coverage=0.9).fan_share(**BAY, **DRAWN) == pytest.approx(0.9)
    # never all of it: a rest of the face is kept for ram air
    assert Shroud(present=FITTED, coverage=1.0).fan_share(**BAY, **DRAWN) < 1.0
    assert Shroud(present=MISSING).fan_share(**BAY | {"fans": 3.0}, **DRAWN) < 1.0  # circles that overlap the edges


def test_gaps_leak_by_their_area_and_bare_blades_by_their_rim() -> None:
    shroud = {"gap_share": 0.02, "fan_to_core": 0.05}
    assert Shroud(present=FITTED, **shroud).leak_area(**BAY, **RIM) == pytest.approx(0.005)  # 2 % of 0.25 m2
    assert Shroud(present=MISSING, **shroud).leak_area(**BAY, **RIM) == pytest.approx(pi * 0.45 * 0.03)
    assert Shroud(present=MISSING, **shroud).leak_area(**BAY | {"fans": 2.0}, **RIM) == pytest.approx(
        2 * pi * 0.45 * 0.03
    )


def test_no_gap_leaks_more_than_bare_blades_do() -> None:
    shroud = {"fan_to_core": 0.02, "gap_share": np.linspace(0.0, 0.5, 51)}
    torn, bare = (Shroud(present=fitted, **shroud).leak_area(**BAY, **RIM) for fitted in (FITTED, MISSING))
    assert np.all(np.diff(torn) >= 0.0)
    assert torn[-1] == pytest.approx(pi * 0.45 * 0.02)
    assert np.all(torn <= bare)


def test_flaps_need_a_shroud_to_sit_in() -> None:
    assert Shroud(present=FITTED, flap_share=0.1).flap_area(face_area=0.25) == pytest.approx(0.025)
    assert Shroud(present=MISSING, flap_share=0.1).flap_area(face_area=0.25) == 0.0


def test_a_gap_of_a_hundredth_of_the_diameter_costs_three_to_five_percent() -> None:
    """From memory: 3 to 5 % of the fan's pressure for each 1 % of diameter."""
    left = Shroud(present=FITTED, tip_clearance=0.0045).clearance_factor(fan_diameter=0.45, bare_left=0.86)
    assert 0.95 <= left <= 0.97


def test_wider_gaps_never_help_and_bare_blades_have_none() -> None:
    gaps = np.linspace(0.001, 0.2, 50)
    left = Shroud(present=FITTED, tip_clearance=gaps).clearance_factor(fan_diameter=0.45, bare_left=0.86)
    bare = Shroud(present=MISSING, tip_clearance=0.001).clearance_factor(fan_diameter=0.45, bare_left=0.86)
    assert np.all(np.diff(left) <= 0.0)
    assert left[0] < 1.0
    assert left[-1] == pytest.approx(0.6)
    assert bare == pytest.approx(0.86)


def test_many_at_once_answer_as_each_alone(same_one_by_one: Callable[..., None]) -> None:
    def all_of_it(diameter: Any, **shroud: Any) -> tuple[Any, ...]:
        bay = {"fan_diameter": diameter, "fans": 1.0, "face_area": 0.25}
        part = Shroud(**shroud)
        share, leak, flap = part.fan_share(**bay, **DRAWN), part.leak_area(**bay, **RIM), part.flap_area(face_area=0.25)
        return share, leak, flap, part.clearance_factor(fan_diameter=diameter, bare_left=0.86)

    same_one_by_one(
        all_of_it, diameter=[0.4, 0.45, 0.5], present=[1.0, 0.0, 1.0], coverage=[0.8, 0.9, 1.0],
        tip_clearance=[0.01, 0.01, 0.1], flap_share=[0.1, 0.1, 0.05],
    )  # fmt: skip
