"""The chart of a forecast: for each duty the band of the gauge, the boiling line, the limit, what was seen."""

# The types of the plotting library are incomplete:
# pyright: reportUnknownMemberType=false

from __future__ import annotations

import io
import textwrap
from typing import TYPE_CHECKING

import matplotlib as mpl
from matplotlib import pyplot as plt

from toptank.shop.door import check_place, write_whole
from toptank.units.conversion import from_si, unit_of
from toptank.units.dimension import TEMPERATURE
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from toptank.shop.door import DutyForecast, Forecast, Reading
    from toptank.units.conversion import System

mpl.use("Agg")

PAPER, INK, PALE, BAND, HOT = "#f6f3ea", "#22261f", "#6f6c60", "#6fa3ab", "#b3401f"
KINDS = (".png", ".svg")
WIDTH, ROW, TITLE_LINE = 9.6, 0.95, 0.24
"""Width of the chart, height of a duty and of a line of the title [in]."""

SIDE, MARGIN = 0.2, 0.12
"""Empty paper left and right, above and below [in]."""

TITLE_LETTERS, DUTY_LETTERS = 90, 20
"""Letters to a line: of the title if they are narrow, and beside the bars."""

NOTE = (
    "Bar: likely range (8 chances in 10); line in it: most likely. Ring: read. Dashes: the limit. "
    "Red: boiling point under this cap."
)


def check_chart_file(out: Path, *, replace: bool) -> None:
    """Refuse a chart file that cannot be written, before any work is done."""
    if out.suffix.lower() not in KINDS:
        raise Refusal(field="out", value=str(out), limit="must end in .png or .svg", fix="name the file so")
    check_place(out, replace=replace)


def write_chart(answer: Forecast, out: Path, system: System, *, replace: bool) -> None:
    """Write the chart of a forecast, whole or not at all."""
    write_figure(lambda: draw(answer, system), out, letters=12, replace=replace)


def write_figure(drawn: Callable[[], Figure], out: Path, *, letters: int, replace: bool) -> None:
    """Draw a figure with letters of a size [pt] and write it as a picture, whole or not at all."""
    with plt.rc_context({"font.size": letters, "font.family": "DejaVu Sans", "svg.hashsalt": "toptank"}):
        figure, content, kind = drawn(), io.BytesIO(), out.suffix[1:].lower()
        figure.savefig(content, format=kind, dpi=150, metadata={"Date": None} if kind == "svg" else None)
        plt.close(figure)
    write_whole(out, content.getvalue(), replace=replace)


def draw(answer: Forecast, system: System) -> Figure:
    """Return the figure of a forecast."""
    unit, job, duties = unit_of(TEMPERATURE, system), answer.job, answer.duties
    figure, axes = plt.subplots(figsize=(WIDTH, WIDTH), facecolor=PAPER)
    head = title(figure, job.title + (" (invented example)" if job.invented else ""))
    height = 1.6 + head + ROW * len(duties)
    figure.set_size_inches(WIDTH, height)
    axes.set_facecolor(PAPER)
    for row, duty in enumerate(duties):
        _duty(axes, row, duty, [one for one in job.evidence.readings if one.duty == duty.name], system)
    _limit(axes, in_shop_unit(job.limit, system))
    names = [_wrapped(duty.name, DUTY_LETTERS, most=4) for duty in duties]
    axes.set_yticks(range(len(duties)), names, parse_math=False)
    axes.set_ylim(len(duties) - 0.45, -0.65)
    told = [in_shop_unit(kelvin, system) for kelvin in _told(answer)]
    axes.set_xlim(min(told) - 8.0, max(told) + 10.0)
    axes.set_xlabel(f"gauge, {unit}", color=INK)
    axes.tick_params(colors=INK, length=0)
    axes.grid(axis="x", color=PALE, linewidth=0.5, alpha=0.4)
    for side in ("top", "right", "left"):
        axes.spines[side].set_visible(False)
    axes.spines["bottom"].set_color(PALE)
    figure.text(SIDE / WIDTH, MARGIN / height, NOTE, color=PALE, fontsize=8.5, va="bottom")
    figure.tight_layout(rect=(0, 0.35 / height, 1, 1.0 - (head + MARGIN) / height))
    return figure


def _told(answer: Forecast) -> Iterator[float]:
    """Every temperature that the chart shows [K]: none of them may lie outside it."""
    yield answer.job.limit
    for duty in answer.duties:
        yield from (duty.bands.gauge.p10, duty.bands.gauge.p90, duty.bands.boiling_point.p50)
    yield from (reading.figure for reading in answer.job.evidence.readings if reading.figure is not None)


def in_shop_unit(kelvin: float, system: System) -> float:
    """Temperature in the unit of the shop."""
    return float(from_si(kelvin, TEMPERATURE, unit_of(TEMPERATURE, system)))


def _wrapped(text: str, letters: int, most: int | None = None) -> str:
    return "\n".join(textwrap.wrap(text, letters, max_lines=most, placeholder=" ...")) or text


def title(figure: Figure, text: str) -> float:
    """Write the title over as many lines as it takes to fit into the width; return the height that it needs [in]."""
    said = figure.text(
        SIDE / WIDTH, 0.99, "", color=INK, fontsize=13, fontweight="bold", va="top", parse_math=False, in_layout=False
    )
    for letters in range(TITLE_LETTERS, 20, -4):
        said.set_text(_wrapped(text, letters))
        if said.get_window_extent(None).width <= figure.dpi * (WIDTH - 2.0 * SIDE):
            break
    return TITLE_LINE * (said.get_text().count("\n") + 1)


def _limit(axes: Axes, limit: float) -> None:
    axes.axvline(limit, color=INK, linewidth=1.5, linestyle=(0, (6, 4)), zorder=5)
    axes.text(limit, -0.62, "limit", ha="center", va="bottom", color=INK, fontsize=10)


def _duty(axes: Axes, row: int, duty: DutyForecast, readings: list[Reading], system: System) -> None:
    unit = unit_of(TEMPERATURE, system)
    low, middle, high = (in_shop_unit(value, system) for value in duty.bands.gauge)
    boiling = in_shop_unit(duty.bands.boiling_point.p50, system)
    axes.barh(row, high - low, left=low, height=0.42, color=BAND, zorder=2)
    axes.plot([middle, middle], [row - 0.21, row + 0.21], color=PAPER, linewidth=2.5, zorder=3)
    axes.plot([boiling, boiling], [row - 0.34, row + 0.34], color=HOT, linewidth=3, zorder=4)
    ground = {"facecolor": PAPER, "edgecolor": "none", "pad": 0.8}
    axes.text(
        middle, row + 0.27, f"{low:.0f} to {high:.0f} {unit}", bbox=ground, ha="center", va="top", color=INK,
        fontsize=10, zorder=6,
    )  # fmt: skip
    for reading in readings:
        if reading.figure is not None:
            axes.plot(
                in_shop_unit(reading.figure, system), row, "o", markersize=13, markerfacecolor="none",
                markeredgecolor=INK, markeredgewidth=2.2, zorder=6,
            )  # fmt: skip
