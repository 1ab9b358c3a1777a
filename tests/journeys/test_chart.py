"""The chart of a forecast: all of it is on the paper, and what matters lies in front."""

from collections.abc import Iterator
from types import SimpleNamespace
from typing import Any

import pytest

from toptank.interfaces.cli.chart import HOT, INK, draw
from toptank.knowledge.forecast import Band

BAND = SimpleNamespace(gauge=Band(360.0, 375.0, 390.0), boiling_point=Band(395.0, 397.0, 399.0))  # invented


def _answer(
    title: str = "Pickup", names: tuple[str, ...] = ("long grade",), limit: float = 380.0, seen: float = 370.0
) -> Any:
    readings = (SimpleNamespace(duty=names[0], figure=seen), SimpleNamespace(duty=names[0], figure=None))
    job = SimpleNamespace(title=title, invented=True, limit=limit, evidence=SimpleNamespace(readings=readings))
    return SimpleNamespace(job=job, duties=[SimpleNamespace(name=name, bands=BAND) for name in names])


@pytest.fixture
def drawn() -> Iterator[Any]:
    """Draw, and close what was drawn."""
    from matplotlib import pyplot as plt

    yield lambda *words, **more: draw(_answer(*words, **more), "us")
    plt.close("all")


def _texts(figure: Any) -> Iterator[Any]:
    axes = figure.axes[0]
    yield from (
        one for one in [*figure.texts, *axes.texts, *axes.get_yticklabels(), axes.xaxis.label] if one.get_text()
    )


@pytest.mark.parametrize(
    "title",
    [
        "Pickup",
        "Orchard tour minibus, 1970s, 5.0 L V8, automatic, roof air conditioning, trailer with twelve bicycles on it",
        "W" * 90,
        "long " * 40,
    ],
    ids=["short", "long", "wide", "very long"],
)
@pytest.mark.parametrize("names", [("a",), ("ridge climb with a trailer, in August, both windows open", "idle")])
def test_nothing_written_is_cut_or_overwritten(drawn: Any, title: str, names: tuple[str, ...]) -> None:
    figure = drawn(title, names)
    figure.canvas.draw()
    paper = figure.bbox
    for text in _texts(figure):
        box = text.get_window_extent()
        assert paper.x0 <= box.x0 <= box.x1 <= paper.x1, text.get_text()
        assert paper.y0 <= box.y0 <= box.y1 <= paper.y1, text.get_text()
    written, note = figure.texts
    assert "".join(written.get_text().split()) == "".join(f"{title} (invented example)".split())  # all of it
    limit = next(text for text in figure.axes[0].texts if text.get_text() == "limit")
    assert not written.get_window_extent().overlaps(limit.get_window_extent())
    assert not note.get_window_extent().overlaps(figure.axes[0].xaxis.label.get_window_extent())


def test_the_limit_and_the_boiling_point_lie_in_front_of_the_bars(drawn: Any) -> None:
    axes = drawn().axes[0]
    bar = max(patch.get_zorder() for patch in axes.patches)
    limit = next(line for line in axes.lines if line.get_color() == INK and line.get_linestyle() == "--")
    boiling = next(line for line in axes.lines if line.get_color() == HOT)
    assert limit.get_zorder() > bar
    assert boiling.get_zorder() > bar


@pytest.mark.parametrize(("limit", "seen"), [(330.0, 370.0), (430.0, 370.0), (380.0, 300.0), (380.0, 470.0)])
def test_a_limit_or_a_reading_far_from_the_bars_is_still_on_the_paper(drawn: Any, limit: float, seen: float) -> None:
    low, high = drawn(limit=limit, seen=seen).axes[0].get_xlim()
    for kelvin in (limit, seen, *BAND.gauge, BAND.boiling_point.p50):
        assert low < (kelvin - 273.15) * 1.8 + 32 < high
