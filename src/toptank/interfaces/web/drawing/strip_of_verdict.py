"""The strip of a check drive, out of the verdict as it is kept: nothing is reckoned anew to show it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any, TypeAlias

from toptank.interfaces.web.drawing.strip_chart import Strip
from toptank.units.conversion import to_si, unit_of
from toptank.units.dimension import ALTITUDE, DISTANCE, TEMPERATURE
from toptank.units.display import keyed

if TYPE_CHECKING:
    from toptank.units.conversion import System
    from toptank.units.dimension import Dimension

Kept: TypeAlias = Mapping[str, Any]
"""An answer as it is kept with a job: JSON, also that of earlier versions."""


def strip_of_verdict(said: Kept) -> Strip | None:
    """Return the strip of a verdict (the answer of `verify` as JSON); None of one kept before strips were."""
    if "readings" not in said:
        return None
    system: System = said.get("units", "metric")  # answers that were kept before have the units of their job
    along, read = said["along"], said["readings"]

    def si(table: Kept, name: str, dimension: Dimension = TEMPERATURE) -> list[float]:
        unit = unit_of(dimension, system)
        return [float(to_si(value, dimension, unit)) for value in table[keyed(name, dimension, system)]]

    return Strip(
        title=f"Road test: {said['title']}",
        invented=said["invented"],
        time=[60.0 * minutes for minutes in along["minutes"]],
        distance=si(along, "distance", DISTANCE),
        altitude=si(along, "altitude", ALTITUDE),
        low=si(along, "forecast_low"),
        middle=si(along, "forecast_middle"),
        high=si(along, "forecast_high"),
        boiling=si(along, "boiling_point"),
        limit=float(to_si(said[keyed("limit", TEMPERATURE, system)], TEMPERATURE, unit_of(TEMPERATURE, system))),
        seen_at=[60.0 * minutes for minutes in read["minutes"]],
        seen=si(read, "read"),
    )
