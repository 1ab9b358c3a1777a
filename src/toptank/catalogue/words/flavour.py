"""Which English is spoken where which units are used."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Literal

from toptank.units.conversion import System

Flavour = Literal["us", "uk"]

FLAVOUR_OF: Mapping[System, Flavour] = MappingProxyType({"us": "us", "metric": "uk"})
"""Flavour of each system of units; a third one (°C, miles, psi) would be British too."""


def flavour_of(system: System) -> Flavour:
    """Return the English that goes with a system of units."""
    return FLAVOUR_OF[system]
