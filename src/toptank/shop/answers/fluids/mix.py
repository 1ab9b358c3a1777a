"""The answer to `mix`: what to drain, what to add, what the mix then bears."""

from __future__ import annotations

from typing import TYPE_CHECKING

from toptank.shop.answers.answer import Amount, Answer, Glycol, Percent, Remarked, degC, filled, kPa, litres, pct
from toptank.shop.ask.coolant.mix import CAP

if TYPE_CHECKING:
    from toptank.shop.ask.coolant.mix import Mixed, Reading
    from toptank.studies.choose.coolant.mix import Recipe


class StrengthAnswer(Answer):
    """What an instrument's reading means.

    Parameters
    ----------
    low_pct, high_pct : of concentrate, between which it lies
    remarks : traps of this instrument
    """

    concentrate_pct: Percent
    low_pct: Percent
    high_pct: Percent
    freeze_degC: float
    remarks: tuple[str, ...]


class FamilyAnswer(Answer):
    """What to do with the family that is in before another goes in."""

    action: str
    reason: str
    cautions: tuple[str, ...]
    source: str


class MixRound(Answer):
    """Drain, add, mix; the share of concentrate after it."""

    drain_L: Amount
    concentrate_L: Amount
    water_L: Amount
    share_pct: Percent


class RecipeAnswer(Answer):
    """What to do in at most two rounds.

    Parameters
    ----------
    rounds_needed : null where no number of rounds does
    """

    rounds: tuple[MixRound, ...]
    drain_L: Amount
    reached_pct: Percent
    reaches: bool
    rounds_needed: int | None


class Three(Answer):
    """For concentrate that holds least, usual and most glycol, in the unit of its key."""

    least: float
    usual: float
    most: float


class CorrectedRecipe(RecipeAnswer):
    """The same where percentages are of glycol itself, for concentrate of usual strength.

    Parameters
    ----------
    drain_least_L, drain_most_L : for concentrate that holds most and least glycol
    pure_recipe_gives_pct : of glycol, where percentages are of glycol and the other recipe is followed
    """

    drain_least_L: Amount
    drain_most_L: Amount
    glycol_in_concentrate_pct: Three
    pure_recipe_gives_pct: Three


class Refilled(Answer):
    """All that drains is drained, then concentrate goes in first and water after it."""

    drain_L: Amount
    concentrate_L: Amount
    water_L: Amount
    reached_pct: Percent
    reaches: bool


class PremixAnswer(Answer):
    """Ready mixed half and half instead; `exchange_L` is null where it cannot reach the share."""

    exchange_L: Amount | None
    reached_pct: Percent
    reaches: bool


class MixPoints(Answer):
    """Where a mix freezes and boils; null where it is stronger than is followed."""

    freeze_degC: float | None
    boil_open_degC: float | None
    boil_capped_degC: float | None


class MixBears(Answer):
    """What a percentage bears, read both ways."""

    share_pct: Percent
    counted_as_pure: MixPoints
    corrected: MixPoints
    corrected_least_glycol: MixPoints
    corrected_most_glycol: MixPoints


class MixAnswer(Remarked):
    """What to drain and what to add.

    Parameters
    ----------
    now_pct, want_pct : of concentrate
    drainable_pct : of the whole, that comes out
    corrected : percentages of glycol itself
    cap_kPa : under which the second boiling point is told
    read : what the instrument's reading means; null where none was given
    family : null where none was named
    """

    glycol: Glycol
    capacity_L: Amount
    now_pct: Percent
    want_pct: Percent
    drainable_pct: Percent
    counted_as_pure: RecipeAnswer
    corrected: CorrectedRecipe
    drain_all: Refilled
    premix: PremixAnswer
    before: MixBears
    after: MixBears
    cap_kPa: Amount
    read: StrengthAnswer | None
    family: FamilyAnswer | None


def mix_answer(found: Mixed) -> MixAnswer:
    """Return what to drain and what to add."""
    low, usual, high = found.corrected
    return filled(
        MixAnswer,
        found,
        {
            "want_pct": pct(found.wanted),
            "counted_as_pure": filled(RecipeAnswer, found.recipe, _rounds(found.recipe)),
            "corrected": filled(
                CorrectedRecipe,
                usual,
                _rounds(usual)
                | {
                    "drain_least_L": litres(high.drained),
                    "drain_most_L": litres(low.drained),
                    "glycol_in_concentrate_pct": _three(found.glycol_shares),
                    "pure_recipe_gives_pct": _three(found.gives),
                },
            ),
            "drain_all": filled(Refilled, found.refill, {"drain_L": litres(found.refill.drained)}),
            "premix": PremixAnswer(
                exchange_L=None if found.premixed.exchanged is None else litres(found.premixed.exchanged),
                reached_pct=pct(found.premixed.reached),
                reaches=found.premixed.exchanged is not None,
            ),
            "before": _bears(found.before),
            "after": _bears(found.after),
            "cap_kPa": kPa(CAP),
            "read": None
            if found.read is None
            else filled(StrengthAnswer, found.read, {"freeze_degC": degC(found.read.freeze_point)}),
            "family": None
            if found.family is None
            else filled(FamilyAnswer, found.family, {"action": found.family.action.value}),
        },
    )


def _rounds(recipe: Recipe) -> dict[str, object]:
    rounds = (filled(MixRound, one, {"drain_L": litres(one.drained)}) for one in recipe.rounds)
    return {"rounds": tuple(rounds), "drain_L": litres(recipe.drained)}


def _bears(reading: Reading) -> MixBears:
    least, usual, most = (filled(MixPoints, points) for points in reading.corrected)
    given = {
        "counted_as_pure": filled(MixPoints, reading.pure),
        "corrected": usual,
        "corrected_least_glycol": least,
        "corrected_most_glycol": most,
    }
    return filled(MixBears, reading, given)


def _three(values: tuple[float, float, float]) -> Three:
    least, usual, most = map(pct, values)
    return Three(least=least, usual=usual, most=most)
