"""car_reports1934: water boiling under early pressure caps, measured."""

from typing import Any

from toptank.media.water import boiling_temperature


def test_water_boiled_under_early_caps_where_it_should(published: Any) -> None:
    for cap, reported in ((0.0, 100.0), (2.0, 103.0), (4.5, 107.0), (6.0, 110.0)):
        published(
            source="car_reports1934", where="reports of 1923, 1926, 1934", unit="°C", value=reported,
            quantity=f"water boils under {cap:g} psi, measured", within=1.0,
            because="reported in whole degrees, gauge of the day",
            computed=float(boiling_temperature(101325.0 + cap * 6894.757)) - 273.15,
        )  # fmt: skip
