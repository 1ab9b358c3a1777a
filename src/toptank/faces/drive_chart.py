"""The chart of a drive: the band of the gauge against time with limit and boiling line, and the road as a strip."""

from typing import Any

from toptank.faces.chart import BAND, HOT, INK, MARGIN, PALE, PAPER, SIDE, WIDTH, in_shop_unit, title
from toptank.units.conversion import System, from_si, unit_of
from toptank.units.dimension import ALTITUDE, DISTANCE, TEMPERATURE

HEIGHT = 6.4
"""Height of the chart without its title [in]."""

STANDS = "#d8d2c0"
GROUND = "#b9b399"

NOTE = (
    "Band: 8 in 10 possible vehicles; line in it: the middle one. Dashes: the limit. "
    "Red: boiling point under this cap. Shaded: standing."
)


def draw_drive(answer: Any, system: System) -> Any:
    """Return the figure of a drive."""
    import matplotlib as mpl

    mpl.use("Agg")
    from matplotlib import pyplot as plt

    road = answer.outlook
    figure, (upper, strip) = plt.subplots(
        2, 1, sharex=True, facecolor=PAPER, gridspec_kw={"height_ratios": (3.2, 1.0), "hspace": 0.08}
    )
    head = title(figure, answer.job.title + (" (invented example)" if answer.job.invented else ""))
    height = HEIGHT + head
    figure.set_size_inches(WIDTH, height)
    minutes = road.time / 60.0
    _gauge(upper, answer, minutes, system)
    _road(strip, road, minutes, system)
    for axes in (upper, strip):
        axes.set_facecolor(PAPER)
        axes.tick_params(colors=INK, length=0)
        axes.set_xlim(0.0, float(minutes[-1]))
        for side in ("top", "right"):
            axes.spines[side].set_visible(False)
        for side in ("left", "bottom"):
            axes.spines[side].set_color(PALE)
        _standing(axes, road, minutes)
    figure.text(SIDE / WIDTH, MARGIN / height, NOTE, color=PALE, fontsize=8.5, va="bottom")
    figure.subplots_adjust(left=0.09, right=0.97, bottom=0.85 / height, top=1.0 - (head + MARGIN) / height)
    return figure


def _gauge(axes: Any, answer: Any, minutes: Any, system: System) -> None:
    road, unit = answer.outlook, unit_of(TEMPERATURE, system)
    low, middle, high, boiling = (
        from_si(values, TEMPERATURE, unit) for values in (road.gauge_p10, road.gauge_p50, road.gauge_p90, road.boiling)
    )
    limit = in_shop_unit(answer.job.limit, system)
    axes.fill_between(minutes, low, high, color=BAND, linewidth=0, zorder=2)
    axes.plot(minutes, middle, color=PAPER, linewidth=2.2, zorder=3)
    axes.plot(minutes, boiling, color=HOT, linewidth=2.2, zorder=4)
    axes.axhline(limit, color=INK, linewidth=1.5, linestyle=(0, (6, 4)), zorder=5)
    told = [float(low.min()), float(high.max()), float(boiling.min()), float(boiling.max()), limit]
    axes.set_ylim(min(told) - 8.0, max(told) + 8.0)
    axes.set_ylabel(f"gauge, {unit}", color=INK)
    axes.grid(axis="y", color=PALE, linewidth=0.5, alpha=0.4)
    peak = in_shop_unit(float(road.gauge_p50.max()), system)
    at = road.peak_time / 60.0
    axes.plot(at, peak, "o", markersize=11, markerfacecolor="none", markeredgecolor=INK, markeredgewidth=2.0, zorder=6)
    axes.annotate(
        f"{peak:.0f} {unit}", (at, peak), (0, 12), textcoords="offset points", ha="left" if at < minutes[-1] / 2 else
        "right", color=INK, fontsize=10.5, bbox={"facecolor": PAPER, "edgecolor": "none", "pad": 0.8}, zorder=6,
    )  # fmt: skip


def _road(axes: Any, road: Any, minutes: Any, system: System) -> None:
    unit = unit_of(ALTITUDE, system)
    ground = from_si(road.altitude, ALTITUDE, unit)
    room = max(float(ground.max() - ground.min()), 1.0)
    base = float(ground.min()) - 0.25 * room
    axes.fill_between(minutes, base, ground, color=GROUND, linewidth=0, zorder=2)
    axes.set_ylim(base, float(ground.max()) + 0.35 * room)
    axes.set_ylabel(f"height, {unit}", color=INK)
    axes.set_xlabel(f"minutes from the start; {unit_of(DISTANCE, system)} on the road above", color=INK)
    from matplotlib.ticker import MaxNLocator

    axes.yaxis.set_major_locator(MaxNLocator(3))
    way = from_si(road.distance, DISTANCE, unit_of(DISTANCE, system))
    for mark in MaxNLocator(6).tick_values(0.0, float(way[-1])):
        if 0.0 <= mark <= float(way[-1]) + 1e-9 and way[-1] > 0.0:
            at = int(abs(way - mark).argmin())
            axes.text(
                minutes[at], ground[at] + 0.06 * room, f"{mark:g}", ha="center", va="bottom", color=INK, fontsize=9
            )


def _standing(axes: Any, road: Any, minutes: Any) -> None:
    """Shade the stretches on which the vehicle stands."""
    begins: float | None = None
    still = [float(b) <= float(a) for a, b in zip(road.distance, road.distance[1:], strict=False)]
    for at, stands in enumerate([*still, False]):
        if stands and begins is None:
            begins = float(minutes[at])
        if not stands and begins is not None:
            axes.axvspan(begins, float(minutes[at]), color=STANDS, linewidth=0, zorder=1)
            begins = None
