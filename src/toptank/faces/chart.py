"""The chart of a forecast: for each duty the band of the gauge, the boiling line, the limit, what was seen."""

from pathlib import Path
from typing import Any

from toptank.units.conversion import System, from_si, unit_of
from toptank.units.dimension import TEMPERATURE
from toptank.units.refusal import Refusal

PAPER, INK, PALE, BAND, HOT = "#f6f3ea", "#22261f", "#8d8a7c", "#3f6f77", "#b3401f"
KINDS = (".png", ".svg")


def check_chart_file(out: Path, *, replace: bool) -> None:
    """Refuse a chart file that cannot be written, before any work is done."""
    if out.suffix.lower() not in KINDS:
        raise Refusal(field="out", value=str(out), limit="must end in .png or .svg", fix="name the file so")
    if out.exists() and not replace:
        raise Refusal(field="out", value=str(out), limit="exists already", fix="choose another name, or add --force")
    if not out.absolute().parent.is_dir():
        raise Refusal(field="out", value=str(out), limit="lies in a folder that does not exist", fix="make it first")


def write_chart(answer: Any, out: Path, system: System) -> None:
    """Write the chart of a forecast, whole or not at all."""
    import matplotlib as mpl

    mpl.use("Agg")
    from matplotlib import pyplot as plt

    unit = unit_of(TEMPERATURE, system)

    def shown(kelvin: float) -> float:
        return float(from_si(kelvin, TEMPERATURE, unit))

    duties = answer.duties
    with plt.rc_context({"font.size": 12, "font.family": "DejaVu Sans", "svg.hashsalt": "toptank"}):
        figure, axes = plt.subplots(figsize=(9.6, 1.9 + 0.95 * len(duties)), facecolor=PAPER)
        axes.set_facecolor(PAPER)
        for row, duty in enumerate(duties):
            _duty(axes, row, duty, [r for r in answer.job.readings if r.duty == duty.name], shown, unit)
        axes.axvline(shown(answer.job.limit), color=INK, linewidth=1.2, linestyle=(0, (6, 4)), zorder=1)
        axes.text(shown(answer.job.limit), -0.62, "limit", ha="center", va="bottom", color=INK, fontsize=10)
        axes.set_yticks(range(len(duties)), [duty.name for duty in duties], parse_math=False)
        axes.set_ylim(len(duties) - 0.45, -0.65)
        low = min(duty.bands.gauge.p10 for duty in duties)
        high = max([duty.bands.boiling_point.p50 for duty in duties] + [duty.bands.gauge.p90 for duty in duties])
        axes.set_xlim(shown(low) - 8.0, shown(high) + 10.0)
        axes.set_xlabel(f"gauge, {unit}", color=INK)
        axes.tick_params(colors=INK, length=0)
        axes.grid(axis="x", color=PALE, linewidth=0.5, alpha=0.5)
        for side in ("top", "right", "left"):
            axes.spines[side].set_visible(False)
        axes.spines["bottom"].set_color(PALE)
        mark = "  (invented example)" if answer.job.invented else ""
        figure.suptitle(
            f"{answer.job.title}{mark}", x=0.02, ha="left", color=INK, fontsize=13, fontweight="bold", parse_math=False
        )
        note = (
            "Bar: 8 in 10 possible vehicles; line in it: the middle one. Ring: seen. Red: boiling point under this cap."
        )
        figure.text(0.02, 0.015, note, color=PALE, fontsize=9)
        figure.tight_layout(rect=(0, 0.04, 1, 0.97))
        _save(figure, out)
        plt.close(figure)


def _duty(axes: Any, row: int, duty: Any, readings: list[Any], shown: Any, unit: str) -> None:
    low, middle, high = (shown(value) for value in duty.bands.gauge)
    boiling = shown(duty.bands.boiling_point.p50)
    axes.barh(row, high - low, left=low, height=0.42, color=BAND, alpha=0.9, zorder=2)
    axes.plot([middle, middle], [row - 0.21, row + 0.21], color=PAPER, linewidth=2.5, zorder=3)
    axes.plot([boiling, boiling], [row - 0.34, row + 0.34], color=HOT, linewidth=3, zorder=3)
    axes.text(middle, row + 0.27, f"{low:.0f} to {high:.0f} {unit}", ha="center", va="top", color=INK, fontsize=10)
    for reading in readings:
        if reading.gauge is not None:
            axes.plot(
                shown(reading.gauge), row, "o", markersize=13, markerfacecolor="none", markeredgecolor=INK,
                markeredgewidth=2.2, zorder=4,
            )  # fmt: skip


def _save(figure: Any, out: Path) -> None:
    partial = out.with_name(f".{out.name}.part")
    try:
        figure.savefig(
            partial, format=out.suffix[1:].lower(), dpi=150, metadata={"Date": None} if out.suffix == ".svg" else None
        )
        partial.replace(out)
    except OSError as error:
        partial.unlink(missing_ok=True)
        limit = "cannot be written"
        raise Refusal(field="out", value=str(out), limit=limit, fix=error.strerror or "check it") from error
