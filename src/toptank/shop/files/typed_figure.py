"""A figure typed on the command line: read with its unit, refused outside its limits, told if its unit was assumed."""

from toptank.units.conversion import System
from toptank.units.declaration import Declaration
from toptank.units.dimension import CHOICE, Dimension
from toptank.units.quantity import check_hard, parse

MEANS = {"cap": "the cap", "mix": "the share of concentrate"}
MEASURE = {
    "cap": "read the figure stamped on it",
    "mix": "refractometer for this glycol; above 60 % it protects and cools less, not more",
}


def between(
    field: str, text: str, dimension: Dimension, low: float, high: float, system: System, notes: list[str]
) -> float:
    """Return a figure in SI that must lie between two limits; a unit that was assumed is told in `notes`."""
    parsed = parse(text, dimension, system=system, field=field)
    declaration = Declaration(
        means=MEANS.get(field, field.replace("-", " ")),
        dimension=dimension,
        hard=(low, high),
        plausible=(low, high),
        typical=low,
        spread=0.0,
        measure=MEASURE.get(field, "write the unit with it"),
    )
    check_hard(parsed.value, declaration, text, field, system)
    if parsed.assumed and dimension != CHOICE:
        notes.append(f"{field} = {text}: taken as {parsed.unit}")
    return parsed.value
