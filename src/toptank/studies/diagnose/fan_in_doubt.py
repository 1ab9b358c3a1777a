"""The fan of a vehicle that nobody looked at: the usual one of its kind, unless another was told of."""

import dataclasses

from toptank.catalogue.checks.check import checks
from toptank.catalogue.symptoms.symptom import symptoms
from toptank.knowledge.sheet import Provenance, Sheet, overlay
from toptank.studies.diagnose.evidence import Evidence

DRIVE = "fan.drive"

MISTOLD = 0.03
"""Chance that it has not the kind of fan that was told of [1]; judgement."""

DRIVES = {"viscous_clutch": 0.0, "electric_fan": 2.0}
"""Code of the drive that a check or a symptom is about, by what the vehicle must have for it."""


def with_fan_in_doubt(sheet: Sheet, evidence: Evidence) -> Sheet:
    """Sheet with the kind of fan that was told of, where otherwise only the kind of vehicle says which it has.

    A typical vehicle stands in for what nobody said; what was told of a clutch or of an electric fan, or found at one,
    says which kind it is. Without that the usual one stands: the blades and the rest of another are not known.
    """
    drive = sheet.facts[DRIVE]
    if drive.how != Provenance.ASSUMED or drive.spread > 0.0:
        return sheet
    about = [symptoms()[one.symptom].only_on for one in evidence.symptoms if not one.denied]
    about += [checks()[one.check].only_on for one in evidence.findings]
    told = {DRIVES[part] for part in about if part in DRIVES}
    if len(told) != 1:
        return sheet
    return overlay(sheet, {DRIVE: dataclasses.replace(drive, value=told.pop(), spread=MISTOLD)})
