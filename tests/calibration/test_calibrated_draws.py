"""Possible vehicles are drawn from what measurements have taught; what a person measured stays his."""

import dataclasses

import numpy as np
import pytest

from toptank.knowledge.calibrated import CALIBRATED, Calibration, Learnt, calibration
from toptank.knowledge.draws import draws
from toptank.knowledge.model_discrepancy import REGIMES, missed, missed_by_draw
from toptank.knowledge.sheet import Fact, Provenance, overlay
from toptank.knowledge.typical import as_told, typical

NAME = "pickup-1970s-v8-air"
N = 4000


def two() -> Calibration:
    """A calibration of two constants that hang together."""
    return Calibration(
        constants={
            "engine.metal": Learnt(factor=1.25, spread=0.2),
            "engine.friction_pressure": Learnt(factor=0.8, spread=0.1),
        },
        correlation=np.array([[1.0, -0.6], [-0.6, 1.0]]),
        remains={},
        evidence={},
    )


def test_an_assumed_figure_is_drawn_about_what_was_learnt() -> None:
    told, learnt = as_told(NAME).sheet, two()
    drawn = draws(learnt.sheet(told), N, 3, learnt, made_to_hold=False)
    ratio = np.log(np.asarray(drawn.engine.metal) / told.facts["engine.metal"].value)
    # within: 4000 stratified draws; a relative spread is the standard deviation of a log-normal's logarithm, to 2 %
    assert np.exp(np.median(ratio)) == pytest.approx(1.25, rel=0.01)
    assert ratio.std() == pytest.approx(0.2, rel=0.04)


def test_constants_that_hang_together_are_drawn_together() -> None:
    learnt = two()
    drawn = draws(learnt.sheet(as_told(NAME).sheet), N, 3, learnt, made_to_hold=False)
    pair = np.log([np.asarray(drawn.engine.metal), np.asarray(drawn.engine.friction_pressure)])
    # within: the scatter of a correlation over 4000 draws is 0.01
    assert np.corrcoef(pair)[0, 1] == pytest.approx(-0.6, abs=0.04)


def test_what_was_measured_is_left_alone_and_unties_the_rest() -> None:
    told, learnt = as_told(NAME).sheet, two()
    mine = Fact(value=4.0e4, how=Provenance.MEASURED, spread=0.0, origin="job file")
    sheet = overlay(learnt.sheet(told), {"engine.metal": mine})
    drawn = draws(sheet, 64, 3, learnt)
    assert np.all(np.asarray(drawn.engine.metal) == 4.0e4)
    assert np.ptp(np.asarray(drawn.engine.friction_pressure)) > 0.0


def test_learning_twice_is_learning_once() -> None:
    learnt = two()
    once = learnt.sheet(as_told(NAME).sheet)
    assert learnt.sheet(once) == once


def test_a_typical_vehicle_has_what_was_learnt() -> None:
    told, now = as_told(NAME).sheet.facts, typical(NAME).sheet.facts
    moved = [path for path in calibration().constants if now[path].origin.endswith(CALIBRATED)]
    assert len(moved) > 5
    for path in moved:
        assert now[path].value == pytest.approx(told[path].value * calibration().constants[path].factor)


def test_what_is_missed_is_as_wide_as_what_remains() -> None:
    at = {"hot idle": (0.0, 0.0), "moving": (25.0, 0.0), "climb": (20.0, 0.06)}
    for regime in REGIMES:
        speed, grade = at[regime]
        off = missed_by_draw(N, speed, grade)
        assert off.std() == pytest.approx(calibration().remains[regime], rel=0.02)
        assert float(missed(speed, grade)) == calibration().remains[regime]


def test_a_draw_misses_the_same_way_wherever_it_climbs_and_another_way_on_the_flat() -> None:
    speed, grade = np.array([[20.0, 25.0, 20.0]]), np.array([[0.05, 0.0, 0.06]])
    off = missed_by_draw(50, speed, grade)
    assert np.array_equal(off[:, 0], off[:, 2])
    assert abs(np.corrcoef(off[:, 0], off[:, 1])[0, 1]) < 0.5


def test_seeds_are_by_name_and_not_by_place() -> None:
    learnt = two()
    sheet = learnt.sheet(as_told(NAME).sheet)
    fewer = dataclasses.replace(sheet, facts={**sheet.facts, "core.rows": sheet.facts["core.rows"]})
    assert np.array_equal(
        np.asarray(draws(sheet, 32, 1, learnt).core.face_width), np.asarray(draws(fewer, 32, 1, learnt).core.face_width)
    )
