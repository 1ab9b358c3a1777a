"""lange_handbook15: freezing points of propylene glycol itself in water, by volume."""

from typing import Any

from toptank.media.coolant import freeze_point
from toptank.media.mixture import GLYCOL_SHARES

# The signs of the figures below zero are lost in the copy that was read; all of these lie below 0 °C.
PRINTED = ((0.25, -8.9), (0.30, -12.8), (0.35, -16.1), (0.40, -20.6), (0.45, -26.7), (0.50, -33.3))


def test_pure_propylene_glycol_in_water(published: Any) -> None:
    for v, printed in PRINTED:
        published(
            source="lange_handbook15", where="table 5.13", unit="°C", value=printed,
            quantity=f"freezing point of {100 * v:g} % pure propylene glycol by volume", within=1.5,
            because="whole degrees Fahrenheit; at 25 % the table lies 0.8 K off its own neighbours",
            computed=float(freeze_point(v / GLYCOL_SHARES[1], 1.0)) - 273.15,
        )  # fmt: skip
