"""What was seen acquits: a fact of the sheet that somebody measured holds whatever is wrong.

A cause that would make such a fact otherwise than it was found is as good as cleared, in whatever place the fact was
written down. Only the condition of a part counts here: the size of a core that was measured says nothing of whether it
is large enough.
"""

from collections.abc import Sequence

import numpy as np

from toptank.catalogue.causes.cause import Cause
from toptank.knowledge.sheet import Provenance, Sheet, declaration_of
from toptank.studies.diagnose.cause_sets import Floats
from toptank.system.vehicle import Vehicle

CONDITIONS = (
    "cap.holds", "core.blocked_face", "core.blocked_tubes", "core.loose_fins", "core.scale_thickness",
    "engine.exhaust_back_pressure", "engine.late_ignition", "fan.backwards", "fan.belt_slip", "fan.strength",
    "fan.supply", "fan_clutch.engaged_ratio", "fan_clutch.engages", "fill.air", "fill.concentrate", "gauge.error",
    "grille.leakage", "hoses.collapse", "shroud.gap_share", "shroud.present", "thermostat.largest_opening",
    "thermostat.smallest_opening", "water_pump.belt_slip", "water_pump.wear",
)  # fmt: skip
"""Fields that tell in what condition a part is."""

TRIED = 0.6
"""Severity at which a cause must leave the facts as they were found [1]."""

FAR = 3.0
"""Spreads of a fact by which a cause must move it to contradict it [1]."""

CLEARED = 0.03
"""Share of a cause's prior that is left where a fact contradicts it: misread, or gone bad since [1]; judgement."""


def left_of_prior(sheet: Sheet, causes: Sequence[Cause], vehicle: Vehicle) -> Floats:
    """Share of each cause's prior that the measured facts of a sheet leave [1].

    Parameters
    ----------
    sheet : of the vehicle
    causes : the causes
    vehicle : some sound vehicles of the sheet
    """
    measured = [path for path in CONDITIONS if sheet.facts[path].how == Provenance.MEASURED]
    if not measured:
        return np.ones(len(causes))
    severity = np.full(np.shape(vehicle.core.rows), TRIED)
    return np.array([_left(sheet, cause, vehicle, measured, severity) for cause in causes])


def _left(sheet: Sheet, cause: Cause, vehicle: Vehicle, measured: Sequence[str], severity: Floats) -> float:
    ill = cause.effect(vehicle, severity)
    moved = [abs(_mean(ill, path) - _mean(vehicle, path)) > FAR * _spread(sheet, path) for path in measured]
    return CLEARED if any(moved) else 1.0


def _mean(vehicle: Vehicle, path: str) -> float:
    section, _, key = path.partition(".")
    return float(np.mean(np.asarray(getattr(getattr(vehicle, section), key), float)))


def _spread(sheet: Sheet, path: str) -> float:
    """Spread of a fact as it was found; at least a hundredth of what it may be."""
    declaration = declaration_of(path)
    least = 0.01 * abs(declaration.plausible[1] - declaration.plausible[0])
    fact = sheet.facts[path]
    own = fact.spread * abs(fact.value) if declaration.relative else fact.spread
    return max(own, least, 1e-9)
