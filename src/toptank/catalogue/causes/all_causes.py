"""Every cause that is looked for, and what a vehicle without any is called."""

import numpy as np
from numpy.typing import NDArray

from toptank.catalogue.causes.air import CAUSES_OF_AIR
from toptank.catalogue.causes.cause import Cause
from toptank.catalogue.causes.flow import CAUSES_OF_FLOW
from toptank.catalogue.causes.heat import CAUSES_OF_HEAT
from toptank.system.vehicle import Vehicle

CAUSES: tuple[Cause, ...] = (*CAUSES_OF_AIR, *CAUSES_OF_FLOW, *CAUSES_OF_HEAT)

NOTHING_BROKEN = "nothing_broken"
"""The id of no cause at all: sound, and either fine or asked for more than it can."""

NOTHING_TO_REPAIR = "nothing_to_repair"
"""Repair of `NOTHING_BROKEN`."""

CAUSE_IDS: tuple[str, ...] = (*(cause.id for cause in CAUSES), NOTHING_BROKEN)


def with_causes(sound: Vehicle, severity: NDArray[np.float64]) -> Vehicle:
    """Sound vehicles with every cause at its severity, a row a vehicle and a column a cause [1]; 0: without it."""
    vehicle = sound
    for cause, grade in zip(CAUSES, severity.T, strict=True):
        if grade.any():
            vehicle = cause.effect(vehicle, grade)
    return vehicle


def without(severity: NDArray[np.float64], cured: frozenset[str]) -> NDArray[np.float64]:
    """Severities with some causes (ids) taken away."""
    left = np.array([cause.id not in cured for cause in CAUSES])
    return severity * left
