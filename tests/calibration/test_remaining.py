"""What remains for a vehicle that was not seen: as much more as left-out figures ask for, and bands have ends."""

import dataclasses

import numpy as np
import pytest
from calibrating.counting import ENDLESS, Row
from calibrating.evidence import Figure
from calibrating.remaining import with_left_out

FIT = {"hot idle": 2.0, "moving": 1.0}


def _rows(name: str, off: list[float], *, regime: str = "hot idle", half: float = 4.0) -> list[Row]:
    """Figures of a source that lie so far off the middle of bands of one width."""
    return [
        Row(
            source=name, drive=f"{number}", low=90.0 - half, middle=90.0, high=90.0 + half,
            figure=Figure(ask="mean between", of={}, value=90.0 + miss, error=0.0, regime=regime, fit=True),
        )
        for number, miss in enumerate(off)
    ]  # fmt: skip


def test_bands_that_hold_eight_in_ten_already_get_nothing_more() -> None:
    rows = _rows("a", [0.0, 1.0, -2.0, 3.0, 6.0]) + _rows("b", [1.0, -1.0, 2.0, 3.9, -3.0])
    assert with_left_out(FIT, rows) == pytest.approx(FIT)


def test_bands_that_hold_too_little_are_widened_until_they_hold_eight_in_ten() -> None:
    """Half of the figures lie 6 K off bands of 4 K: these must reach 6 K, which adds root(36 - 16) / 1.2816 K."""
    rows = _rows("a", [0.0, 6.0] * 5) + _rows("b", [0.0, -6.0] * 5)
    wanted = np.hypot(2.0, np.sqrt(36.0 - 16.0) / 1.2816)
    found = with_left_out(FIT, rows)
    assert found["hot idle"] == pytest.approx(wanted, rel=0.03)
    assert found["moving"] == 1.0


def test_many_drives_of_one_source_do_not_outvote_the_others() -> None:
    """Forty of one vehicle inside, four of another outside: by drives nine in ten, by sources with roots less."""
    rows = _rows("many", [0.0] * 40) + _rows("few", [9.0] * 4)
    assert with_left_out(FIT, rows)["hot idle"] > 4.0


def test_figures_of_one_drive_count_once() -> None:
    """Nine figures of one drive outside, four other drives inside: four in five."""
    one = [dataclasses.replace(row, drive="the same") for row in _rows("a", [9.0] * 9)]
    rows = [*one, *_rows("a", [0.0] * 2), *_rows("b", [0.0] * 4)]
    assert with_left_out(FIT, rows) == pytest.approx(FIT)


def test_a_source_is_not_asked_about_itself_and_one_source_alone_says_nothing_of_the_next() -> None:
    rows = _rows("a", [0.0] * 8) + _rows("b", [9.0] * 8)
    assert with_left_out(FIT, rows, without="b") == pytest.approx(FIT)
    assert with_left_out(FIT, _rows("b", [9.0] * 8)) == pytest.approx(FIT)


def test_a_band_without_an_end_holds_nothing() -> None:
    (row,) = _rows("a", [0.0])
    assert row.inside
    endless = Row(source="a", drive="one", figure=row.figure, low=row.low, middle=row.middle, high=10.0 * ENDLESS)
    assert not endless.inside
