"""The picture of a fleet: for each vehicle the air that it bears, beside the air of the day."""

# The types of the plotting library are incomplete:
# pyright: reportUnknownMemberType=false

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from matplotlib import pyplot as plt

from toptank.interfaces.cli.chart import BAND, HOT, INK, PALE, PAPER, in_shop_unit, title, write_figure
from toptank.units.conversion import kelvin, unit_of
from toptank.units.dimension import TEMPERATURE

if TYPE_CHECKING:
    from pathlib import Path

    from matplotlib.figure import Figure

    from toptank.shop.door import FleetAnswer
    from toptank.units.conversion import System

WIDTH, HEIGHT = 9.6, 5.4
LOWEST = -10.0
"""Air below which nothing is drawn [degC]: who bears no more holds on no hot day."""

NAMED = 40
"""Vehicles that can be told by name below the picture."""

NOTE = (
    "Bar: air outside up to which 5 to 9 in 10 of the simulations of a vehicle hold; its lower end is the one to plan "
    "by. Red: this day's hottest hour; dashes: its coolest."
)


def write_fleet_chart(answer: FleetAnswer, out: Path, system: System, *, replace: bool) -> None:
    """Write the picture of a fleet, whole or not at all."""
    write_figure(lambda: draw_fleet(answer, system), out, letters=11, replace=replace)


def draw_fleet(answer: FleetAnswer, system: System) -> Figure:
    """Return the figure of a fleet, the surest vehicle to the left."""
    figure, axes = plt.subplots(figsize=(WIDTH, HEIGHT), facecolor=PAPER)
    axes.set_facecolor(PAPER)
    road = f" on {answer.road}" if answer.road else ""
    head = title(figure, f"{len(answer.vehicles):,} vehicles{road}: the air outside that each bears")
    places = np.arange(len(answer.vehicles))
    low, middle = (
        np.array([in_shop_unit(kelvin(max(getattr(one.bears_degC, end), LOWEST)), system) for one in answer.vehicles])
        for end in ("p10", "p50")
    )
    few = len(places) <= NAMED
    axes.vlines(places, low, middle, color=BAND, linewidth=6.0 if few else max(300.0 / max(len(places), 1), 0.6))
    axes.plot(places, low, linestyle="none", marker="_", color=INK, markersize=7 if few else 2)
    axes.axhline(in_shop_unit(kelvin(answer.day_degC), system), color=HOT, linewidth=2.0)
    axes.axhline(in_shop_unit(kelvin(answer.coolest_degC), system), color=PALE, linewidth=1.2, linestyle="--")
    axes.set_xlim(-0.7, max(len(places) - 0.3, 0.7))
    axes.set_ylabel(f"air outside, {unit_of(TEMPERATURE, system)}", color=INK)
    if few:
        axes.set_xticks(places, [one.id[:18] for one in answer.vehicles], rotation=60, ha="right", parse_math=False)
    else:
        axes.set_xlabel("vehicles, the surest first", color=INK)
    axes.tick_params(colors=INK, length=0)
    axes.grid(axis="y", color=PALE, linewidth=0.5, alpha=0.4)
    for side in ("top", "right", "left"):
        axes.spines[side].set_visible(False)
    figure.text(0.02, 0.015, NOTE, color=PALE, fontsize=8.0, va="bottom", wrap=True)
    figure.tight_layout(rect=(0, 0.06, 1, 1.0 - head / HEIGHT))
    return figure
