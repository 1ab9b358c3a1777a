"""The evidence is figures with their errors, of vehicles in general words; no series is carried."""

import tomllib
from pathlib import Path

import pytest
from calibrating.evidence import FOLDER, REGIMES, Source, read, sources

FILES = sorted(FOLDER.glob("*.toml"))

SHORTEST_LEG, MOST_LEGS = 10.0, 130
"""A leg is a mean over tens of seconds [s]; the longest drive that was logged lasted an hour."""


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_every_source_says_where_it_is_from_and_how_far_it_is_trusted(path: Path) -> None:
    document = tomllib.loads(path.read_text(encoding="utf-8"))
    for key in ("title", "where", "licence", "trust", "regime", "instrument"):
        assert document[key].strip(), f"{path.stem}: {key}"


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_every_figure_has_an_error_and_a_regime(path: Path) -> None:
    for source in read(path):
        assert source.figures
        for figure in source.figures:
            assert figure.error > 0.0
            assert figure.regime in REGIMES


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_a_drive_is_told_in_legs_and_not_as_a_series(path: Path) -> None:
    for source in read(path):
        for drive in source.drives:
            assert len(drive.legs) <= MOST_LEGS
            assert drive.legs[:, 0].min() >= SHORTEST_LEG


def test_a_figure_lies_inside_the_drive_that_it_was_read_on() -> None:
    for source in sources():
        for drive in source.drives:
            end = drive.legs[:, 0].sum()
            for figure in drive.figures:
                assert figure.of.get("until", figure.of.get("at", 0.0)) <= end + 1.0, (source.name, drive.name)


def test_common_practice_is_marked_as_such() -> None:
    told: list[Source] = [source for source in sources() if source.told]
    assert told
    assert all(source.where.startswith("common practice, no source") for source in told)
