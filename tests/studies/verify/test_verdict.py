"""Check drives of vehicles that are repaired, of such on which the work has done nothing, and of too easy roads."""

import dataclasses
from collections.abc import Callable
from itertools import pairwise
from typing import Any

import numpy as np
import pytest

from toptank.catalogue.causes.all_causes import CAUSES
from toptank.knowledge.conditions import draw_conditions
from toptank.knowledge.draws import draws
from toptank.knowledge.drives.drive_log import DriveLog
from toptank.knowledge.drives.logged import LoggedDrive, doubts_of_the_day, gone_along, shown_at
from toptank.knowledge.model_discrepancy import drawn_misfit
from toptank.knowledge.sheet import duty
from toptank.shop.ask import service
from toptank.shop.log.leg_profile import profile_of
from toptank.shop.log.legs import read_legs
from toptank.studies.verify.telling import FOLLOWS
from toptank.studies.verify.verdict import Repair, Verdict, verdict
from toptank.system.numerics.jax_library import jax
from toptank.system.vehicle import Vehicle

N, SEED = 128, 3
NAMES = tuple(cause.id for cause in CAUSES)
SLIPS, SMALL = NAMES.index("fan_clutch_slips"), NAMES.index("core_too_small")

HARD = "2 miles flat at 50 mph, then 5 miles up 6 % at 35 mph, then idle 5 min"
EASY = "10 miles flat at 45 mph, a/c off"
"""With the air conditioning on, 45 mph on a hot day shows a weak fan: measured, fan off at 60 mph, 9.5 K."""

Driving = Callable[..., Verdict]


def _known_well(values: Any) -> Any:
    """Draws drawn together towards their middle, as readings would; what is chosen or counted stays."""
    middle = np.median(values)
    return np.asarray(values) if np.all(np.mod(values, 1.0) == 0.0) else middle + 0.35 * (np.asarray(values) - middle)


@pytest.fixture(scope="module")
def repair() -> Repair:
    """Return minibuses whose fan clutch hardly turned the fan, before and after a new one."""
    job = service.demo_job()
    sound: Vehicle = jax.tree.map(_known_well, draws(job.sheet, N, SEED))
    slipping = CAUSES[SLIPS].effect(sound, np.full(N, 0.9))
    present = np.zeros((N, len(CAUSES)), bool)
    present[:, SLIPS] = True
    present[: N // 4, SMALL] = True
    small = CAUSES[SMALL].effect(sound, np.where(present[:, SMALL], 0.6, 0.0))
    return Repair(
        before=CAUSES[SMALL].effect(slipping, np.where(present[:, SMALL], 0.6, 0.0)),
        after=small,
        before_then=CAUSES[SMALL].effect(slipping, np.where(present[:, SMALL], 0.6, 0.0)),
        after_then=small,
        present=present,
        mended=np.arange(len(CAUSES)) == SLIPS,
        names=NAMES,
        fails=0.18,
        days=draw_conditions(job.sheet, job.duties, N, SEED),
        asked=tuple(sheet.name for sheet in job.duties),
        limit=390.0,
        limits={sheet.name: 390.0 for sheet in job.duties},
    )


@pytest.fixture(scope="module")
def driven(repair: Repair) -> Driving:
    """Drive a road with one of the possible vehicles, cold, on a hot day, and hold it beside the forecast."""

    def run(road: str, *, repaired: bool, player: int, hotter: float = 0.0) -> Verdict:
        base = dataclasses.replace(duty(service.demo_job().duties[1]), speed=0.0, grade=0.0)
        profile = profile_of(read_legs(road, "us", []), duty=base, ambient=lambda time: 0.0 * time + base.ambient)
        time = np.asarray(profile.time, float)
        silent = DriveLog(time=time, driven={}, read={"gauge": np.full(len(time), float(base.ambient))}, by_hand=False)
        drive = LoggedDrive.of(silent, profile)
        vehicles = repair.after if repaired else repair.before
        drives = gone_along(drive, vehicles, doubts_of_the_day(N, SEED))
        read = np.full(len(time), np.nan)
        at = time[::20]
        warm = np.minimum(at / FOLLOWS, 1.0)  # whatever comes out hotter started as cold as the night
        read[::20] = shown_at(drive, drives, at)[player] + drawn_misfit(at, player) + hotter * warm
        log = dataclasses.replace(silent, read={"gauge": read})
        return verdict(LoggedDrive.of(log, profile), repair, SEED)

    return run


@pytest.fixture(scope="module")
def worse(driven: Driving) -> Verdict:
    """Return the verdict on a hard drive of a vehicle on which the work has done nothing."""
    return driven(HARD, repaired=False, player=50)


def test_a_repaired_vehicle_does_what_was_forecast_on_a_hard_road(driven: Driving) -> None:
    answer = driven(HARD, repaired=True, player=50)
    assert answer.word == "as forecast"
    assert answer.proves
    assert answer.forecast.p10 < answer.difference < answer.forecast.p90
    assert answer.not_taken < 0.18
    assert answer.better is None


def test_work_that_has_done_nothing_comes_out_worse_and_its_cause_comes_back(worse: Verdict) -> None:
    assert worse.word == "worse"
    assert worse.power > 0.5
    assert worse.difference > worse.forecast.p90
    assert worse.not_taken > 2.0 * 0.18, "one in five before the drive"
    assert worse.worst_day.holds_now < worse.worst_day.holds_before < worse.worst_day.holds_forecast
    assert worse.worst_day.gauge_now.p50 > worse.worst_day.gauge_forecast.p50
    assert "fan_clutch_slips" in [one.name for one in worse.back]
    assert all(one.now > one.expected for one in worse.back)


def test_the_hotter_a_drive_comes_out_the_worse_the_news_however_hot(driven: Driving, worse: Verdict) -> None:
    """Beyond all that was reckoned with, too: there the log is doubted besides."""
    drives = [worse, *(driven(HARD, repaired=False, player=50, hotter=more) for more in (15.0, 30.0, 60.0))]
    undone = [one.not_taken for one in drives]
    holds = [one.worst_day.holds_now for one in drives]
    assert all(later >= earlier - 1e-3 for earlier, later in pairwise(undone))
    assert all(later <= earlier + 0.02 for earlier, later in pairwise(holds))
    assert not worse.beyond
    assert drives[-1].beyond


def test_an_easy_drive_that_goes_well_is_no_bad_news_for_the_worst_day(driven: Driving) -> None:
    easy = driven(EASY, repaired=True, player=50)
    assert not easy.proves
    assert easy.worst_day.holds_now > easy.worst_day.holds_before - 0.02


def test_weather_and_road_alone_hardly_make_so_large_a_difference(worse: Verdict) -> None:
    assert 0.0 <= worse.by_weather < 0.05


def test_a_drive_on_the_flat_is_called_too_easy_and_a_better_one_is_proposed(driven: Driving) -> None:
    answer = driven(EASY, repaired=False, player=50)
    assert not answer.proves
    assert answer.better is not None
    assert answer.better.power > answer.power
    assert answer.better.grade > 0.0
    assert answer.better.climb_time > 0.0


def test_the_telling_part_of_a_hard_drive_lies_on_the_climb_or_behind_it(worse: Verdict) -> None:
    assert worse.telling_from > 144.0  # two miles at 50 mph


CLIMB = "1 min flat at 50 mph, then {} min up 4 % at 35 mph"


@pytest.mark.parametrize(
    ("road", "every", "lacks"),
    [
        (CLIMB.format(6), 60, "time"),
        (CLIMB.format(11), 720, "readings"),
        (CLIMB.format(11), 180, ""),
        (CLIMB.format(10), 1, ""),  # ten minutes of a logger
        ("16 min flat at 45 mph, a/c off", 240, ""),  # too easy, and no reading more would help
    ],
)
def test_a_short_drive_or_two_readings_prove_nothing_however_far_the_work_would_show(
    road: str, every: int, lacks: str, repair: Repair
) -> None:
    """Docs, a good check drive: ten minutes at the least; coolant takes four to follow.

    On a climb from a warm start, where the work shows most: by difference alone each of these would prove it.
    """
    base = dataclasses.replace(duty(service.demo_job().duties[1]), speed=0.0, grade=0.0)
    climbs = "up" in road
    air = 305.0 if climbs else 280.0
    profile = profile_of(read_legs(road, "us", []), duty=base, ambient=lambda time: 0.0 * time + air)
    time = np.asarray(profile.time, float)
    read = np.full(len(time), np.nan)
    read[::every] = 365.0
    log = DriveLog(time=time, driven={}, read={"gauge": read}, by_hand=False)
    answer = verdict(LoggedDrive.of(log, profile), repair, SEED)
    assert (answer.power > 0.4) == climbs
    assert answer.lacks == lacks
    assert answer.proves == (climbs and not lacks)
    assert (answer.better is None) == answer.proves, "what proves nothing gets a better drive proposed"
    assert answer.telling_from >= 240.0, "the first minutes show where it came from"
