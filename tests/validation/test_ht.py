"""ht: crossflow by integration, one stream mixed, turbulent tubes, in an independent open library."""

from math import log10
from typing import Any

import pytest
from ht.conv_internal import turbulent_Gnielinski
from ht.hx import effectiveness_from_NTU

from toptank.equations.effectiveness import (
    counterflow_of_passes,
    crossflow,
    crossflow_C_max_mixed,
    crossflow_C_min_mixed,
)
from toptank.equations.tube import nusselt_turbulent

FORMS = [
    ("both unmixed", "crossflow", crossflow),
    ("C_min mixed", "crossflow, mixed Cmin", crossflow_C_min_mixed),
    ("C_max mixed", "crossflow, mixed Cmax", crossflow_C_max_mixed),
]


def _independent(NTU: float, C_r: float, form: str) -> float:
    effectiveness: Any = effectiveness_from_NTU(NTU, C_r, form)
    return float(effectiveness)


@pytest.mark.parametrize(("name", "form", "equation"), FORMS)
def test_crossflow_is_exact(published: Any, name: str, form: str, equation: Any) -> None:
    for NTU in (0.25, 1.0, 2.0, 4.0, 8.0):
        for C_r in (0.1, 0.5, 0.75, 1.0):
            value = _independent(NTU, C_r, form)
            published(
                source="ht", where=f"effectiveness_from_NTU, {form}", unit="1",
                quantity=f"effectiveness, {name}, NTU {NTU:g}, C_r {C_r:g}", value=value,
                # within: both are exact; a tenth of a percent of heat is nothing on the road
                within=0.001 * value, because="both exact: 0.1 %", computed=equation(NTU, C_r),
            )  # fmt: skip


def test_many_passes_in_counterflow_approach_counterflow(published: Any) -> None:
    for C_r in (0.2, 0.5, 1.0):
        value = _independent(1.5, C_r, "counterflow")
        published(
            source="ht", where="effectiveness_from_NTU, counterflow", unit="1",
            quantity=f"effectiveness of twenty passes, NTU 1.5, C_r {C_r:g}", value=value,
            # within: twenty passes are not yet infinitely many
            within=0.002 * value, because="twenty passes for infinitely many: 0.2 %",
            computed=counterflow_of_passes(crossflow(1.5 / 20.0, C_r), C_r, 20.0),
        )  # fmt: skip


def test_turbulent_flow_in_a_long_tube(published: Any) -> None:
    for Re in (4000.0, 7000.0, 20_000.0):
        f = (1.8 * log10(Re) - 1.5) ** -2
        value = float(turbulent_Gnielinski(Re, 6.3, f))
        published(
            source="ht", where="turbulent_Gnielinski, smooth tube", unit="1",
            quantity=f"Nusselt number of a long tube, Re {Re:g}, Pr 6.3", value=value,
            # within: the term of finite length is not zero at a length of a million diameters
            within=0.001 * value, because="length term left at 0.01 %: 0.1 %",
            computed=nusselt_turbulent(Re, 6.3, 1.0, 1e6),
        )  # fmt: skip
