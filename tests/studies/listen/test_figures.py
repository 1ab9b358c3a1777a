"""Figures are read out of a complaint: nearly all that are there, and hardly one that is not."""

from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

import pytest

from toptank.shop.job.job_file import read_job
from toptank.studies.listen.figures import Figure, figures

HERE = Path(__file__).parent
CASES = HERE.parents[2] / "examples" / "cases"

LEAST_RIGHT, LEAST_FOUND = 0.95, 0.85
"""What is wanted of proposals (issue 13)."""

OF_CASES = {
    "bs01": "gauge 250;weather 90", "bs02": "weather 80", "bt02": "gauge 212", "cp02": "gauge 200 climb;gauge 170 -",
    "ctl01": "weather 95;gauge 185 road;gauge 195 standing", "ctl02": "gauge 203 road;weather 100",
    "fc01": "weather 80;gauge 190;gauge 215 climb", "fc04": "gauge 240", "fc05": "gauge 220 climb;gauge 220",
    "fc08": "gauge 198 road;gauge 207 standing", "fu02": "gauge 160 road", "fu03": "gauge 190;gauge 212",
    "gg01": "gauge 220", "gg04": "gauge 240", "la01": "weather 38", "la03": "gauge 245 standing", "la04": "weather 107",
    "la05": "weather 40", "la06": "weather 110", "sc02": "weather 70", "sc06": "gauge 194", "sh02": "weather 90",
    "sh03": "gauge 215 standing", "sh04": "gauge 170 road;gauge 190 climb;gauge 212 standing", "sh05": "gauge 180 -",
    "sh06": "gauge 208 road", "th05": "weather 86", "th06": "gauge 205", "tr01": "transmission 190 standing",
    "us01": "gauge 212", "wp02": "weather 100", "wp04": "gauge 180;gauge 150;gauge 180;gauge 210;gauge 160",
}  # fmt: skip
"""What a reader finds in the complaints of the told cases; the cases that are not named tell no figure of the kind."""


class Wanted(NamedTuple):
    """A figure that is told: kind, what is read in degF or miles, and the places that may be named; none: any."""

    kind: str
    figure: float
    places: tuple[str, ...]

    def met_by(self, one: Figure) -> bool:
        """Whether a proposal is this figure, at a place that may be named."""
        metres = one.low if one.low is not None else one.high
        assert metres is not None
        figure = metres / 1609.344 if one.kind == "mileage" else metres * 1.8 - 459.67
        near = abs(figure - self.figure) <= 1.0
        return one.kind == self.kind and near and (not self.places or (one.place or "-") in self.places)


def _wanted(told: str) -> list[Wanted]:
    found: list[Wanted] = []
    for one in filter(None, told.split(";")):
        kind, figure, *places = one.split()
        found.append(Wanted(kind, float(figure.split("-")[0]), tuple(places[0].split(",")) if places else ()))
    return found


def _counted(texts: list[tuple[str, str]]) -> tuple[int, int, int]:
    """How many proposals are right and wrong, how many figures are missed."""
    right = wrong = missed = 0
    for text, told in texts:
        left = _wanted(told)
        for one in figures(text):
            met = next((wanted for wanted in left if wanted.met_by(one)), None)
            right, wrong = (right + 1, wrong) if met else (right, wrong + 1)
            if met:
                left.remove(met)
        missed += len(left)
    return right, wrong, missed


def _own() -> list[tuple[str, str]]:
    lines = (HERE / "told_figures.txt").read_text(encoding="utf-8").splitlines()
    return [(text, told) for text, _, told in (line.partition("|") for line in lines if not line.startswith("#"))]


def _of_cases() -> list[tuple[str, str]]:
    return [(read_job(path).complaint, OF_CASES.get(path.stem, "")) for path in sorted(CASES.glob("*.toml"))]


@pytest.mark.parametrize("texts", [_own, _of_cases])
def test_nearly_all_figures_are_found_and_hardly_one_is_made_up(
    texts: Callable[[], list[tuple[str, str]]],
) -> None:
    right, wrong, missed = _counted(texts())
    assert right >= 40
    assert right / (right + wrong) >= LEAST_RIGHT
    assert right / (right + missed) >= LEAST_FOUND


@pytest.mark.parametrize(
    "text",
    [
        "I put in a 195 thermostat and a 16 psi cap.",
        "Drops 20 degrees with the heater on.",
        "The fan comes on at 210 F.",
        "The lower hose is 140 F.",
        "It used to sit at 190 F.",
        "Never got above 210 F.",
        "It is a 1978 with a 350 and a 12 inch fan, 40 miles from home.",
    ],
)
def test_ratings_differences_parts_and_what_was_not_so_are_no_readings(text: str) -> None:
    assert figures(text) == ()


def test_a_range_a_side_and_a_unit_are_read_as_they_are_said() -> None:
    both, over, under = figures("It runs 90 to 95 C in town. Past 230 F on the grade. Under 200 F on the road.")
    assert (both.low, both.high) == pytest.approx((363.15, 368.15))
    assert over.low == pytest.approx((230.0 + 459.67) / 1.8)
    assert over.high is None
    assert under.low is None
    assert [one.place for one in (both, over, under)] == ["traffic", "climb", "road"]
