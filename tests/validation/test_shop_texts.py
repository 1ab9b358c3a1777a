"""shop_texts: boiling points of coolant as the trade tells them (no source)."""

from typing import Any

from toptank.media.coolant import boiling_temperature

PSI = 6894.757
TOLD = ((0.5, 0.0, 226.0), (0.5, 0.0, 223.0), (0.5, 15.0, 265.0), (0.5, 15.0, 262.0), (0.7, 15.0, 276.0))


def test_told_boiling_points_are_about_right(published: Any) -> None:
    for mix, cap, told in TOLD:
        published(
            source="shop_texts", where="web texts, no source", unit="°F", value=told,
            quantity=f"{100 * mix:g} % concentrate boils under {cap:g} psi (told {told:g})",
            within=4.0, because="texts differ by 3 °F, and round the share of glycol",
            computed=float(boiling_temperature(101325.0 + cap * PSI, mix, 0.0)) * 1.8 - 459.67,
        )  # fmt: skip
