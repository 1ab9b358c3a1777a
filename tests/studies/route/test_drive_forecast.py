"""What would ease a drive is told of the same possible vehicles as the drive itself."""

import dataclasses

import numpy as np
import pytest

from toptank.knowledge.draws import draws
from toptank.knowledge.drives.logged import doubts_of_the_day
from toptank.knowledge.sheet import vehicle
from toptank.knowledge.typical import typical_sheet
from toptank.shop.log.leg_profile import profile_of
from toptank.shop.log.legs import read_legs
from toptank.studies.route.drive_forecast import drive_forecast
from toptank.studies.route.shifting import shifts_down
from toptank.system.drive_batch import drive_all
from toptank.system.duty import Duty
from toptank.system.profile import Profile


def test_easing_that_changes_nothing_tells_exactly_what_the_drive_told() -> None:
    """A truck without air conditioning, with the switch on: switching it off is no news, to the last digit."""
    n = 300
    road = profile_of(
        read_legs("8 min up 6 % at 30 mph", "us"),
        duty=Duty(air_conditioning=1.0),
        ambient=lambda time: 0.0 * time + 308.0,
    )
    vehicles, days = draws(typical_sheet("truck-1970s-six"), n, 5), doubts_of_the_day(n, 5)
    vehicles = dataclasses.replace(vehicles, fan=dataclasses.replace(vehicles.fan, with_air_conditioning=np.zeros(n)))
    asis = drive_forecast(vehicles, road, limit=360.0, before=Duty(ambient=308.0, speed=15.0), unsure=days)
    assert 0.0 < asis.over_limit < 1.0, "a share that two sets of draws would tell differently"
    off = next(one for one in asis.eases if not one.cooled and one.share == 1.0)
    assert (off.over_limit, off.boils) == (asis.over_limit, asis.boils)
    assert tuple(off.peak) == pytest.approx(tuple(asis.peak), abs=1e-6)
    assert off.cooler == pytest.approx(0.0, abs=1e-6)
    assert all(one.over_limit <= asis.over_limit for one in asis.eases)


def test_where_a_steeper_climb_is_cooler_it_shifts_down_and_that_is_told() -> None:
    """That a lower gear, with fan and pump faster, cools on a hill is common practice, no source."""
    motorhome, shifts, peaks, fans = vehicle(typical_sheet("motorhome-1970s-v8-air")), [], [], []
    for grade in (0.04, 0.0425):
        road = Profile.of(
            time=np.arange(900.0), duty=Duty(speed=20.0, grade=grade, ambient=308.0, air_conditioning=1.0)
        )
        drives = drive_all(motorhome, road, before=Duty(speed=20.0, ambient=308.0))
        shifts.append(shifts_down(motorhome, road))
        peaks.append(float(drives.engine_out[0, -1]))
        fans.append(float(drives.fan_speed[0, -1]))
    assert peaks[1] < peaks[0] - 2.0
    gentle, steep = shifts
    assert gentle is None, "in the higher gear nothing is told"
    assert steep is not None
    assert steep.engine_speed > 1.25 * steep.instead_of
    assert fans[1] > 1.2 * fans[0]
