"""The answers to `cap`, `water` and `bleed`."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from toptank.shop.answers.answer import Amount, Answer, Headed, Remarked, Text, degC, filled, filled_each, headed

if TYPE_CHECKING:
    from toptank.shop.ask.coolant.coolant import CapAndBottle, WaterJudged
    from toptank.studies.choose.coolant.bleeding import Bleeding
    from toptank.studies.choose.coolant.cap_choice import CapRow


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
    listed = {"limits": filled_each(WaterLimit, found.limits), "argument": filled_each(ArgumentSide, found.argument)}
    return filled(WaterAnswer, found.verdict, {"kind": found.kind} | listed)


def bleed_answer(found: Sequence[Bleeding]) -> BleedAnswer:
    """Return how to fill and bleed."""
    return BleedAnswer(layouts=filled_each(BleedLayout, found))


def cap_answer(found: CapAndBottle) -> CapAnswer:
    """Return cap and bottle of a job."""
    return filled(
        CapAnswer,
        found,
        headed(found.job)
        | {
            "caps": tuple(_cap(row) for row in found.cap.rows),
            "chosen": None if found.cap.chosen is None else _cap(found.cap.chosen),
            "reason": found.cap.reason,
            "smallest_bottle": filled(BottleAnswer, found.bottle),
            "bottle": None if found.marks is None else filled(BottleAnswer, found.marks),
            "runs_over": found.own_bottle is not None and found.marks is None,
        },
    )


def _cap(row: CapRow) -> CapAnswerRow:
    return filled(CapAnswerRow, row, {"boils_degC": degC(row.boiling_point)})
