"""gnielinski1976 and gnielinski2013: a flat tube from laminar to turbulent flow; churchill1977: its friction."""

from collections.abc import Callable
from typing import Any

from toptank.equations.tube import friction_darcy, nusselt_tube

Table = Callable[[str], list[dict[str, str]]]


def test_a_flat_tube_has_the_published_nusselt_number_in_every_regime(published: Any, table: Table) -> None:
    for row in table("gnielinski_flat_tube.csv"):
        Re, value = float(row["Re"]), float(row["Nu"])
        regime = "stephan1959" if Re <= 2300 else "gnielinski2013" if Re < 4000 else "gnielinski1976"
        published(
            source=regime, where="flat tube, evaluated independently", unit="1",
            quantity=f"Nusselt number, flat tube, Re {Re:g}", value=value,
            # within: the same relations in another program, printed to six digits
            within=1e-3 * value, because="same relations, other program: 0.1 %",
            computed=nusselt_tube(Re, 6.3, 0.137, 3.85e-3, 0.43, 2300.0),
        )  # fmt: skip


def test_a_flat_tube_has_the_published_friction(published: Any, table: Table) -> None:
    for row in table("gnielinski_flat_tube.csv"):
        for column, roughness in (("f_D_smooth", 0.0), ("f_D_rough", 0.002)):
            value = float(row[column])
            published(
                source="churchill1977", where="evaluated independently", unit="1",
                quantity=f"Darcy factor, Re {row['Re']}, roughness {roughness:g}", value=value,
                # within: the same relation; the other program takes 64/Re up to 2000, 0.13 % below at that point
                within=2e-3 * value, because="same relation, other program, 64/Re up to 2000: 0.2 %",
                computed=friction_darcy(float(row["Re"]), roughness),
            )  # fmt: skip
