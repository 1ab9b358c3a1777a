"""Every typical vehicle reads, with its middle values, what its kind reads when it is sound."""

import functools
from typing import Any

import numpy as np
import pytest

from toptank.knowledge.sheet import duty, vehicle_of
from toptank.knowledge.sound_readings import (
    DOUBT,
    HILL_SECONDS,
    flat,
    hill_and_stop,
    idle,
    sound_readings,
    traffic,
)
from toptank.knowledge.typical import typical, typical_names, typical_sheet
from toptank.system.drive_batch import drive_all
from toptank.system.population import solve
from toptank.system.vehicle import Vehicle

ROAD = tuple(name for name in typical_names() if "idle" in sound_readings(name).figures)
OFF_ROAD = tuple(name for name in typical_names() if name not in ROAD)

MISSED = {
    # Open cars of the 1930s were measured: 1.83 m/s through the face at 1,000 rpm. With that air this engine, which
    # burns 6 kW at idle, does not get warmer; the list is from memory.
    ("open-car-1930s-four", "traffic"): 20.0 / 1.8,
}
"""Figures of the list that are not met, each with how far it is missed at the most [K], and why."""


def _together(names: tuple[str, ...]) -> Vehicle:
    sheets = [typical_sheet(name).facts for name in names]
    return vehicle_of({path: np.array([facts[path].value for facts in sheets]) for path in sheets[0]})


@functools.cache
def _read() -> dict[tuple[str, str], float]:
    """What every typical vehicle reads under every condition of its list [K]."""
    found: dict[tuple[str, str], float] = {}

    def note(names: tuple[str, ...], condition: str, values: Any) -> None:
        found.update({(name, condition): float(value) for name, value in zip(names, values, strict=True)})

    everyone = _together(ROAD)
    for condition, (before, profile) in (("idle", idle()), ("traffic", traffic())):
        gauge = drive_all(everyone, profile, before=before).gauge
        note(ROAD, condition, gauge[:, -240:].max(axis=1))
    roads = {name: (one.flat_speed, one.hill_speed, one.trailer) for name in ROAD if (one := sound_readings(name))}
    for level, climb, trailer in sorted(set(roads.values())):
        those = tuple(name for name, road in roads.items() if road == (level, climb, trailer))
        note(those, "flat", solve(_together(those), flat(level)).T_gauge)
        gauge = drive_all(_together(those), hill_and_stop(climb, trailer), before=flat(level)).gauge
        note(those, "hill", gauge[:, HILL_SECONDS - 1])
        note(those, "stop", gauge[:, HILL_SECONDS:].max(axis=1) - gauge[:, HILL_SECONDS - 1])
    for name in OFF_ROAD:
        note((name,), "work", solve(_together((name,)), duty(typical(name).usual)).T_gauge)
    return found


def _missed_by(name: str, condition: str) -> float:
    """How far a reading lies outside its range [K]."""
    low, high = sound_readings(name).figures[condition]
    value = _read()[name, condition]
    return max(low - value, value - high, 0.0)


def test_every_typical_vehicle_has_a_list_and_says_where_it_comes_from() -> None:
    for name in typical_names():
        listed = sound_readings(name)
        assert listed.figures
        assert "no source" in listed.origin
        assert all(low < high for low, high in listed.figures.values())


@pytest.mark.parametrize("name", typical_names())
def test_a_sound_typical_vehicle_reads_what_its_kind_reads(name: str) -> None:
    """Within 8 °F of the range, which is how far each figure of the list is doubtful."""
    for condition in sound_readings(name).figures:
        allowed = MISSED.get((name, condition), DOUBT)
        shown = (
            f"{name}, {condition}: {_read()[name, condition] * 1.8 - (0.0 if condition == 'stop' else 459.67):.0f} °F"
        )
        assert _missed_by(name, condition) <= allowed, shown


def test_four_figures_in_five_lie_inside_their_ranges() -> None:
    missed = {
        (name, condition): round(1.8 * _missed_by(name, condition))
        for name in typical_names()
        for condition in sound_readings(name).figures
    }
    outside = {key: by for key, by in missed.items() if by > 0}
    assert len(outside) <= 0.2 * len(missed), outside


def test_what_is_missed_is_still_missed() -> None:
    """A figure that is met again leaves the list of those that are not."""
    assert [key for key in MISSED if _missed_by(*key) <= DOUBT] == []
