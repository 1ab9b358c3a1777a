"""The fan of a vehicle that nobody looked at: the usual one of its kind, now and then another, or the one told of."""

import dataclasses

from toptank.catalogue.checks.check import checks
from toptank.catalogue.symptoms.symptom import symptoms
from toptank.knowledge.sheet import Provenance, Sheet, overlay
from toptank.studies.diagnose.evidence import Evidence

DRIVE = "fan.drive"

ANOTHER = 0.05
"""Chance that a vehicle has another kind of fan than is usual for its kind [1]; judgement: makers changed over from
belt to electric fans within a model, and owners convert. No more, because the blades stay those of the usual kind."""

MISTOLD = 0.03
"""Chance that it has not the kind of fan that was told of [1]; judgement."""

DRIVES = {"viscous_clutch": 0.0, "electric_fan": 2.0}
"""Code of the drive that a check or a symptom is about, by what the vehicle must have for it."""


def with_fan_in_doubt(sheet: Sheet, evidence: Evidence) -> Sheet:
    """Sheet whose fan may be another, where its kind alone says which it has.

    A typical vehicle stands in for what nobody said; it must not rule out a cause. What was told of a clutch or of an
    electric fan, or found at one, says which kind it is.
    """
    drive = sheet.facts[DRIVE]
    if drive.how != Provenance.ASSUMED or drive.spread > 0.0:
        return sheet
    about = [symptoms()[one.symptom].only_on for one in evidence.symptoms if not one.denied]
    about += [checks()[one.check].only_on for one in evidence.findings]
    told = {DRIVES[part] for part in about if part in DRIVES}
    if len(told) == 1:
        fact = dataclasses.replace(drive, value=told.pop(), spread=MISTOLD)
    else:
        fact = dataclasses.replace(drive, spread=ANOTHER)
    return overlay(sheet, {DRIVE: fact})
