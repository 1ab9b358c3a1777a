"""Why a fault stands where it stands, in one sentence that a customer understands: words, and no ratios."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from toptank.shop.answers.words import naming

if TYPE_CHECKING:
    from collections.abc import Sequence

    from toptank.studies.diagnose.diagnosis import Voice
    from toptank.units.conversion import System

REASONED = 3
"""Causes of which a sentence says why they stand where they stand."""

STRONG, CLEAR = 8.0, 2.5
"""Factors on the odds from which a fact speaks strongly, and clearly [1]; judgement."""

HARDLY = 1.25
"""Factor on the odds below which a fact is not worth a word [1]; judgement."""

COMMON = 0.08
"""Chance before anything was told from which a fault is called common [1]; judgement."""


def reason(cause: str, voices: Sequence[Voice], before: float, system: System) -> str:
    """Return what a fault is, what points to it most, and what points away from it most.

    Parameters
    ----------
    cause : its id
    voices : what each piece of evidence says of it
    before : its chance before anything was told [1]
    """
    does = naming.cause_sentence(cause, system)
    points = sorted((one for one in voices if one.factor >= HARDLY), key=_factor, reverse=True)[:2]
    away = sorted((one for one in voices if one.factor <= 1.0 / HARDLY), key=_factor)[:1]
    told, against = (", ".join(_told(one, system) for one in some) for some in (points, away))
    if told and against:
        return f"{does} Points to it: {told}; points away: {against}."
    if told:
        return f"{does} Points to it: {told}."
    if against:
        return f"{does} {'It is common; points away' if before >= COMMON else 'Points away'}: {against}."
    if (small := math.prod(one.factor for one in voices)) >= HARDLY:
        return f"{does} Many small things that were told point to it together, none by itself."
    if small <= 1.0 / HARDLY:
        return f"{does} Many small things that were told point away from it together, none by itself."
    if before >= COMMON:
        return f"{does} Nothing that was told points to it or away: it stands here because it is common."
    return f"{does} Nothing that was told points to it or away: other faults are less likely still."


def _told(one: Voice, system: System) -> str:
    return f"{naming.evidence(one.evidence, system)} ({_how_much(max(one.factor, 1.0 / one.factor))})"


def _factor(one: Voice) -> float:
    return one.factor


def _how_much(factor: float) -> str:
    return "strongly" if factor >= STRONG else "clearly" if factor >= CLEAR else "a little"
