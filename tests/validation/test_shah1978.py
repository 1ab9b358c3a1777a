"""shah1978: rectangular ducts in laminar flow."""

from collections.abc import Callable
from typing import Any

import pytest

from toptank.equations.duct import friction_rectangular, nusselt_rectangular

QUANTITIES = [("Nu_T", "Nusselt number", nusselt_rectangular), ("fRe", "f Re", friction_rectangular)]


@pytest.mark.parametrize(("column", "name", "equation"), QUANTITIES)
def test_the_polynomial_meets_the_exact_series(
    published: Any, table: Callable[[str], list[dict[str, str]]], column: str, name: str, equation: Any
) -> None:
    for row in table("shah1978_rectangular.csv"):
        value = float(row[column])
        published(
            source="shah1978", where="exact series (from memory)", unit="1",
            quantity=f"{name}, aspect {row['aspect']}", value=value,
            # within: the authors state 0.1 % for their polynomials
            within=0.0012 * value, because="polynomial stated within 0.1 %, printed to four digits",
            computed=equation(float(row["aspect"])),
        )  # fmt: skip


@pytest.mark.parametrize(("column", "name", "equation"), QUANTITIES)
def test_the_polynomial_is_the_published_one(
    published: Any, table: Callable[[str], list[dict[str, str]]], column: str, name: str, equation: Any
) -> None:
    for row in table("shah1978_polynomial.csv"):
        value = float(row[column])
        published(
            source="shah1978", where="polynomial evaluated independently", unit="1",
            quantity=f"{name}, aspect {row['aspect']}", value=value,
            # within: the same polynomial, printed to six digits
            within=1e-4 * value, because="same polynomial, other program: 0.01 %",
            computed=equation(float(row["aspect"])),
        )  # fmt: skip
