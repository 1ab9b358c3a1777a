"""The answer of mixing as JSON: every key carries its unit."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from toptank.shop.answers.as_json import keyed, pair
from toptank.shop.answers.coolant_json import family_json, strength_json
from toptank.shop.ask.coolant.mix import CAP
from toptank.units.conversion import System
from toptank.units.dimension import FRACTION, PRESSURE, TEMPERATURE, VOLUME, Dimension

if TYPE_CHECKING:
    from toptank.shop.ask.coolant.mix import Mixed, Reading
    from toptank.studies.choose.coolant.mix import Points, Recipe


def mix_json(answer: Mixed, system: System) -> dict[str, Any]:
    """Return what to drain and what to add, with every key in its unit."""
    low, usual, high = answer.corrected
    return {
        "units": system,
        "glycol": answer.glycol,
        **pair("capacity", answer.capacity, VOLUME, system),
        **pair("now", answer.now, FRACTION, system),
        **pair("want", answer.wanted, FRACTION, system),
        **pair("drainable", answer.drainable, FRACTION, system),
        "counted_as_pure": _recipe(answer.recipe, system),
        "corrected": {
            **_recipe(usual, system),
            **pair("drain_least", high.drained, VOLUME, system),
            **pair("drain_most", low.drained, VOLUME, system),
            **_three("glycol_in_concentrate", answer.glycol_shares, FRACTION, system),
            **_three("pure_recipe_gives", answer.gives, FRACTION, system),
        },
        "drain_all": {
            **pair("drain", answer.refill.drained, VOLUME, system),
            **pair("concentrate", answer.refill.concentrate, VOLUME, system),
            **pair("water", answer.refill.water, VOLUME, system),
            **pair("reached", answer.refill.reached, FRACTION, system),
            "reaches": answer.refill.reaches,
        },
        "premix": {
            **_maybe("exchange", answer.premixed.exchanged, VOLUME, system),
            **pair("reached", answer.premixed.reached, FRACTION, system),
            "reaches": answer.premixed.exchanged is not None,
        },
        "before": _reading(answer.before, system),
        "after": _reading(answer.after, system),
        **pair("cap", CAP, PRESSURE, system),
        "read": None if answer.read is None else strength_json(answer.read, system),
        "family": None if answer.family is None else family_json(answer.family),
        "remarks": list(answer.remarks),
        "assumed_units": list(answer.assumed_units),
    }


def _recipe(recipe: Recipe, system: System) -> dict[str, Any]:
    return {
        "rounds": [
            {
                **pair("drain", one.drained, VOLUME, system),
                **pair("concentrate", one.concentrate, VOLUME, system),
                **pair("water", one.water, VOLUME, system),
                **pair("share", one.share, FRACTION, system),
            }
            for one in recipe.rounds
        ],
        **pair("drain", recipe.drained, VOLUME, system),
        **pair("reached", recipe.reached, FRACTION, system),
        "reaches": recipe.reaches,
        "rounds_needed": recipe.rounds_needed,
    }


def _reading(reading: Reading, system: System) -> dict[str, Any]:
    least, usual, most = reading.corrected
    return {
        **pair("share", reading.share, FRACTION, system),
        "counted_as_pure": _points(reading.pure, system),
        "corrected": _points(usual, system),
        "corrected_least_glycol": _points(least, system),
        "corrected_most_glycol": _points(most, system),
    }


def _points(points: Points, system: System) -> dict[str, Any]:
    return {
        **_maybe("freeze", points.freeze, TEMPERATURE, system),
        **_maybe("boil_open", points.boil_open, TEMPERATURE, system),
        **_maybe("boil_capped", points.boil_capped, TEMPERATURE, system),
    }


def _maybe(name: str, value: float | None, dimension: Dimension, system: System) -> dict[str, float | None]:
    return {keyed(name, dimension, system): None} if value is None else {**pair(name, value, dimension, system)}


def _three(
    name: str, values: tuple[float, float, float], dimension: Dimension, system: System
) -> dict[str, dict[str, float]]:
    least, usual, most = (next(iter(pair(name, value, dimension, system).values())) for value in values)
    return {keyed(name, dimension, system): {"least": least, "usual": usual, "most": most}}
