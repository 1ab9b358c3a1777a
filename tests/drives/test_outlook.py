"""What would ease a drive is told of the same possible vehicles as the drive itself."""

import dataclasses

import numpy as np
import pytest

from toptank.jobs.leg_profile import profile_of
from toptank.jobs.legs import read_legs
from toptank.knowledge.draws import draws
from toptank.knowledge.logged import doubts_of_the_day
from toptank.knowledge.typical import typical_sheet
from toptank.studies.route.outlook import outlook
from toptank.system.duty import Duty


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
    asis = outlook(vehicles, road, limit=360.0, before=Duty(ambient=308.0, speed=15.0), unsure=days)
    assert 0.0 < asis.over_limit < 1.0, "a share that two sets of draws would tell differently"
    off = next(one for one in asis.eases if not one.cooled and one.share == 1.0)
    assert (off.over_limit, off.boils) == (asis.over_limit, asis.boils)
    assert tuple(off.peak) == pytest.approx(tuple(asis.peak), abs=1e-6)
    assert off.cooler == pytest.approx(0.0, abs=1e-6)
    assert all(one.over_limit <= asis.over_limit for one in asis.eases)
