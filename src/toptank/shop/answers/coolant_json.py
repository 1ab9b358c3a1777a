"""Answers about the coolant as JSON: plain records whose keys carry their unit."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from toptank.shop.answers.as_json import pair
from toptank.units.conversion import System
from toptank.units.dimension import ALTITUDE, FRACTION, PRESSURE, TEMPERATURE, TEMPERATURE_RISE, VOLUME

if TYPE_CHECKING:
    from toptank.shop.ask.coolant.coolant import CapAndBottle, WaterAnswer
    from toptank.studies.choose.coolant.bleeding import Bleeding
    from toptank.studies.choose.coolant.cap_choice import CapRow
    from toptank.studies.choose.coolant.coolant_families import Compatibility
    from toptank.studies.choose.coolant.expansion import Bottle
    from toptank.studies.choose.coolant.strength import Strength


def strength_json(read: Strength, system: System) -> dict[str, Any]:
    """Return what a reading means."""
    return {
        **pair("concentrate", read.concentrate, FRACTION, system),
        **pair("low", read.low, FRACTION, system),
        **pair("high", read.high, FRACTION, system),
        **pair("freeze", read.freeze_point, TEMPERATURE, system),
        "remarks": list(read.remarks),
    }


def family_json(answer: Compatibility) -> dict[str, Any]:
    """Return what to do with the family that is in."""
    return {
        "action": answer.action.value,
        "reason": answer.reason,
        "cautions": list(answer.cautions),
        "source": answer.source,
    }


def water_json(answer: WaterAnswer) -> dict[str, Any]:
    """Return whether a water may go in."""
    return {
        "kind": answer.kind,
        "good": answer.verdict.good,
        "reasons": list(answer.verdict.reasons),
        "missing": list(answer.verdict.missing),
        "limits": [asdict(limit) for limit in answer.limits],
        "argument": [asdict(side) for side in answer.argument],
    }


def bleed_json(answer: Sequence[Bleeding]) -> dict[str, Any]:
    """Return how to fill and bleed."""
    return {"layouts": [asdict(one) for one in answer]}


def cap_json(answer: CapAndBottle, system: System) -> dict[str, Any]:
    """Return cap and bottle of a job."""
    return {
        "title": answer.job.title,
        "invented": answer.job.invented,
        "units": system,
        **pair("worst", answer.T_worst, TEMPERATURE, system),
        **pair("altitude", answer.altitude, ALTITUDE, system),
        "parts": list(answer.parts),
        "assumed_parts": answer.assumed_parts,
        "caps": [_cap(row, system) for row in answer.cap.rows],
        "chosen": None if answer.cap.chosen is None else _cap(answer.cap.chosen, system),
        "reason": answer.cap.reason,
        "asked": list(answer.asked),
        "smallest_bottle": _bottle(answer.bottle, system),
        "bottle": None if answer.marks is None else _bottle(answer.marks, system),
        "runs_over": answer.own_bottle is not None and answer.marks is None,
        "assumed": list(answer.assumed),
        "remarks": list(answer.remarks),
        "assumed_units": list(answer.assumed_units),
    }


def _cap(row: CapRow, system: System) -> dict[str, Any]:
    return {
        **pair("pressure", row.pressure, PRESSURE, system),
        **pair("boils", row.boiling_point, TEMPERATURE, system),
        **pair("margin", row.margin, TEMPERATURE_RISE, system),
        "enough": row.enough,
        "forbidden_by": row.forbidden_by,
    }


def _bottle(bottle: Bottle, system: System) -> dict[str, Any]:
    return {
        key: value for name, size in asdict(bottle).items() for key, value in pair(name, size, VOLUME, system).items()
    }
