"""On which scale a figure's errors are told, and which discrepancy it has."""

import numpy as np

from calibrating.evidence import Figure, Floats

CYCLE = ("fan period", "fan on for", "rate of rise")
"""What is told of a fan that comes and goes: errors are shares, told by logarithms."""


def to_scale(figure: Figure, value: Floats | float) -> Floats:
    """A figure on the scale of its errors: a length of time by its logarithm, an effect over what it is told for."""
    return np.log(np.maximum(value, 1e-3)) if figure.ask in CYCLE else np.asarray(value) / unit_of(figure)


def unit_of(figure: Figure) -> float:
    """What a figure is divided by: effects in kelvin by the difference that they are told at, amounts by themselves."""
    if figure.ask == "hotter by":
        return float(figure.of["at_difference_K"])
    return abs(figure.value) if figure.ask in ("face velocity", "fuel per litre at idle", "liquid carried out") else 1.0


def error_of(figure: Figure) -> float:
    """The error of the measurement on that scale."""
    return figure.error / abs(figure.value) if figure.ask in CYCLE else figure.error / unit_of(figure)


def kind_of(figure: Figure) -> str:
    """Which discrepancy a figure has."""
    if figure.ask in CYCLE:
        return "fan cycle"
    if figure.ask.startswith(("share", "fuel")):
        return "engine"
    if figure.ask.startswith(("hotter", "ratio", "exponent", "face", "liquid")):
        return "effects"
    return figure.regime
