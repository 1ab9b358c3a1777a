"""The answers to `cap`, `water` and `bleed`."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict
from typing import TYPE_CHECKING

from toptank.shop.answers.answer import Amount, Answer, Headed, Remarked, Text, degC, kPa, litres, rounded

if TYPE_CHECKING:
    from toptank.shop.ask.coolant.coolant import CapAndBottle, WaterJudged
    from toptank.studies.choose.coolant.bleeding import Bleeding
    from toptank.studies.choose.coolant.cap_choice import CapRow
    from toptank.studies.choose.coolant.expansion import Bottle


class WaterLimit(Answer):
    """A limit of an analysis: least and most in its `unit`, why, and where it is printed."""

    name: str
    least: float
    most: float
    unit: str
    why: str
    source: str


class ArgumentSide(Answer):
    """One side of the argument: what is said, what is known of it, and from where."""

    claim: str
    known: str
    source: str


class WaterAnswer(Answer):
    """Whether a water may thin concentrate.

    Parameters
    ----------
    good : it may go in
    missing : what the analysis does not tell
    limits : that it is held against
    argument : both sides of the argument about distilled water
    """

    kind: str
    good: bool
    reasons: tuple[str, ...]
    missing: tuple[str, ...]
    limits: tuple[WaterLimit, ...]
    argument: tuple[ArgumentSide, ...]


class BleedLayout(Answer):
    """How to fill one layout and get the air out: steps in order, and cautions."""

    layout: str
    means: str
    steps: tuple[str, ...]
    cautions: tuple[str, ...]
    source: str


class BleedAnswer(Answer):
    """How to fill and bleed, by the layout of the system."""

    layouts: tuple[BleedLayout, ...]


class CapAnswerRow(Answer):
    """One cap.

    Parameters
    ----------
    margin_K : from the worst temperature to boiling
    enough : the margin to aim for is there
    forbidden_by : the part that does not bear it; empty where every part does
    """

    pressure_kPa: Amount
    boils_degC: float
    margin_K: float
    enough: bool
    forbidden_by: str


class BottleAnswer(Answer):
    """A recovery bottle: its volume, volume in it cold and hot, what comes over from cold to hot."""

    volume_L: float
    cold_mark_L: float
    hot_mark_L: float
    expansion_L: float


class CapAnswer(Headed, Remarked):
    """The cap for a job's worst day, and the bottle for its fill.

    Parameters
    ----------
    worst_degC : hottest coolant that it is judged at
    altitude_m : greatest of the worst day
    parts : what the pressure reaches
    assumed_parts : nobody named them
    chosen : the cap to fit; null where there is none
    asked : what the kind of system asks of its cap and level
    bottle : marks in the one that is there; null where none was named, or where it runs over
    assumed : facts that the answer rests on and nobody found
    """

    worst_degC: float
    altitude_m: float
    parts: tuple[str, ...]
    assumed_parts: bool
    caps: tuple[CapAnswerRow, ...]
    chosen: CapAnswerRow | None
    reason: Text
    asked: tuple[str, ...]
    smallest_bottle: BottleAnswer
    bottle: BottleAnswer | None
    runs_over: bool
    assumed: tuple[str, ...]


def water_answer(found: WaterJudged) -> WaterAnswer:
    """Return whether a water may go in."""
    return WaterAnswer(
        kind=found.kind,
        good=found.verdict.good,
        reasons=found.verdict.reasons,
        missing=found.verdict.missing,
        limits=tuple(WaterLimit(**asdict(one)) for one in found.limits),
        argument=tuple(ArgumentSide(**asdict(one)) for one in found.argument),
    )


def bleed_answer(found: Sequence[Bleeding]) -> BleedAnswer:
    """Return how to fill and bleed."""
    return BleedAnswer(layouts=tuple(BleedLayout(**asdict(one)) for one in found))


def cap_answer(found: CapAndBottle) -> CapAnswer:
    """Return cap and bottle of a job."""
    return CapAnswer(
        title=found.job.title,
        invented=found.job.invented,
        worst_degC=degC(found.T_worst),
        altitude_m=rounded(found.altitude),
        parts=found.parts,
        assumed_parts=found.assumed_parts,
        caps=tuple(_cap(row) for row in found.cap.rows),
        chosen=None if found.cap.chosen is None else _cap(found.cap.chosen),
        reason=found.cap.reason,
        asked=found.asked,
        smallest_bottle=_bottle(found.bottle),
        bottle=None if found.marks is None else _bottle(found.marks),
        runs_over=found.own_bottle is not None and found.marks is None,
        assumed=found.assumed,
        remarks=found.remarks,
        assumed_units=found.assumed_units,
    )


def _cap(row: CapRow) -> CapAnswerRow:
    return CapAnswerRow(
        pressure_kPa=kPa(row.pressure),
        boils_degC=degC(row.boiling_point),
        margin_K=rounded(row.margin),
        enough=row.enough,
        forbidden_by=row.forbidden_by,
    )


def _bottle(bottle: Bottle) -> BottleAnswer:
    return BottleAnswer(
        volume_L=litres(bottle.volume),
        cold_mark_L=litres(bottle.cold_mark),
        hot_mark_L=litres(bottle.hot_mark),
        expansion_L=litres(bottle.expansion),
    )
