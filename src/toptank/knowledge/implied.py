"""What a word on a sheet says of figures that nobody gave: a kind of fan clutch tells how far it lets the fan slip.

Source   common practice, no source
Range    kinds that a parts list tells apart; a figure that was measured goes before what its kind says
Scatter  the spreads below: clutches of one kind and make differ by as much
"""

from collections.abc import Mapping
from types import MappingProxyType

ENGAGED = "fan_clutch.engaged_ratio"

IMPLIED: Mapping[tuple[str, float], Mapping[str, tuple[float, float]]] = MappingProxyType(
    {
        ("fan_clutch.kind", 0.0): {ENGAGED: (0.55, 0.06)},
        ("fan_clutch.kind", 1.0): {ENGAGED: (0.80, 0.06)},
        ("fan_clutch.kind", 2.0): {ENGAGED: (0.90, 0.04)},
    }
)
"""(path of a choice, its code) -> path of another field -> value and spread that it implies, in SI."""


def implied(values: Mapping[str, float]) -> dict[str, tuple[float, float]]:
    """What stated words imply of fields that are not stated: path -> value and spread."""
    found = {
        path: figure
        for (choice, code), figures in IMPLIED.items()
        if values.get(choice) == code
        for path, figure in figures.items()
    }
    return {path: figure for path, figure in found.items() if path not in values}
