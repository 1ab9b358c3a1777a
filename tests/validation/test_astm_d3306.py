"""astm_d3306: what half concentrate, half water must hold out against."""

from typing import Any

from toptank.media.coolant import boiling_temperature, freeze_point

ICE = 273.15
ASKED = (("ethylene", 0.0, -36.4, 108.0), ("propylene", 1.0, -31.0, 104.0))


def test_half_concentrate_freezes_and_boils_where_the_standard_asks(published: Any) -> None:
    for name, code, freezing, boiling in ASKED:
        published(
            source="astm_d3306", where="table of physical requirements (from memory)", unit="°C", value=freezing,
            quantity=f"freeze point of 50 % {name} concentrate, at most", within=1.5,
            because="1.5 K: concentrate holds 93 to 96 % glycol", computed=float(freeze_point(0.5, code)) - ICE,
        )  # fmt: skip
        published(
            source="astm_d3306", where="table of physical requirements (from memory)", unit="°C", value=boiling,
            quantity=f"boiling point of 50 % {name} concentrate, open, at least", within=2.0,
            because="whole degrees; Raoult's law is good for 2 K",
            computed=float(boiling_temperature(101325.0, 0.5, code)) - ICE,
        )  # fmt: skip
