"""The verb of mixing: what to drain and what to add, and what the mix then bears, as a record for screen and JSON.

Imports of the model stay inside the verb.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from toptank.jobs.as_json import keyed, pair
from toptank.jobs.typed_figure import between
from toptank.units.conversion import System
from toptank.units.dimension import FRACTION, PRESSURE, TEMPERATURE, VOLUME, Dimension
from toptank.units.quantity import parse_choice

if TYPE_CHECKING:
    from toptank.studies.choose.mix import Points, Premixed, Recipe, Refill

GLYCOLS = ("ethylene", "propylene")
CAP = 103421.4
"""Gauge pressure of the cap under which the second boiling point is told [Pa]: 15 psi."""

BOUNDS = (0.4, 0.6)
"""Share of concentrate that the trade keeps to [1]; common practice, no source."""

PROTECTS = 0.33
"""Share of concentrate below which protection from corrosion is too thin [1]; manuals of engine makers, as read."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """A percentage read both ways: where it freezes and boils as glycol itself, and as concentrate of three strengths.

    Parameters
    ----------
    share : the percentage [1]
    pure : taken as glycol itself
    corrected : taken as concentrate that holds least, usual and most glycol
    """

    share: float
    pure: Points
    corrected: tuple[Points, Points, Points]


@dataclass(frozen=True, slots=True, kw_only=True)
class Mixed:
    """The answer: volumes [m3], shares [1], temperatures [K].

    Parameters
    ----------
    capacity, now, wanted, drainable, glycol : as asked
    recipe : the least to drain; concentrate counts as pure, as its own percentage does
    corrected : the same with percentages of glycol itself, for concentrate of least, usual and most glycol
    glycol_shares : glycol in a volume of those three concentrates
    gives : share of glycol that the recipe really gives where percentages are of glycol, by those three
    refill : the other way: drain all that drains, then concentrate, then water
    premixed : what ready mixed half and half can do
    before, after : what the mix bears
    remarks, assumed_units : what to look at again
    """

    capacity: float
    now: float
    wanted: float
    drainable: float
    glycol: str
    recipe: Recipe
    corrected: tuple[Recipe, Recipe, Recipe]
    glycol_shares: tuple[float, float, float]
    gives: tuple[float, float, float]
    refill: Refill
    premixed: Premixed
    before: Reading
    after: Reading
    remarks: tuple[str, ...]
    assumed_units: tuple[str, ...]


def mix(*, capacity: str, now: str, want: str, drainable: str, glycol: str, system: System) -> Mixed:
    """What to drain and what to add for a wanted share, in one or two rounds; what the mix bears before and after."""
    from toptank.equations.atmosphere import SEA_LEVEL_P
    from toptank.studies.choose import mix as study

    notes: list[str] = []
    volume = between("capacity", capacity, VOLUME, 0.001, 0.2, system, notes)
    inside = between("now", now, FRACTION, 0.0, 1.0, system, notes)
    wanted = between("want", want, FRACTION, 0.0, 0.7, system, notes)
    drains = between("drainable", drainable, FRACTION, 0.05, 1.0, system, notes)
    code = parse_choice(glycol, GLYCOLS, "glycol")
    least, usual, most = study.GLYCOL_SHARES

    def recipe(strength: float) -> Recipe:
        return study.recipe(volume, drains, inside, wanted, strength=strength)

    def bears(share: float) -> Reading:
        def at(k: float) -> Points:
            return study.points(k * share, code, SEA_LEVEL_P, CAP)

        return Reading(share=share, pure=at(1.0), corrected=(at(least), at(usual), at(most)))

    plain = recipe(1.0)

    def given(strength: float) -> float:
        share = inside
        for one in plain.rounds:
            share += (strength * one.concentrate - share * one.drained) / volume
        return share

    filled = study.refill(volume, drains, inside, wanted)
    premixed = study.with_premix(volume, drains, inside, wanted)
    held = study.freezing_is_held(usual * max(inside, wanted), code)
    return Mixed(
        capacity=volume,
        now=inside,
        wanted=wanted,
        drainable=drains,
        glycol=GLYCOLS[int(code)],
        recipe=plain,
        corrected=(recipe(least), recipe(usual), recipe(most)),
        glycol_shares=study.GLYCOL_SHARES,
        gives=(given(least), given(usual), given(most)),
        refill=filled,
        premixed=premixed,
        before=bears(inside),
        after=bears(plain.reached),
        remarks=tuple(_remarks(inside, wanted, plain, premixed, held)),
        assumed_units=tuple(notes),
    )


def _remarks(now: float, wanted: float, plain: Recipe, premixed: Premixed, held: bool) -> list[str]:
    found: list[str] = []
    if not plain.reaches:
        needed = plain.rounds_needed
        how = f"it takes {needed} rounds" if needed else "no number of rounds does"
        found.append(
            f"two rounds end at {_percent(plain.reached)}, not at {_percent(wanted)}; {how}: "
            "open the block drains too, so that more comes out"
        )
    if premixed.exchanged is None and wanted > now:
        wet = "the block keeps water" if now == 0.0 else "the block keeps weaker coolant"
        instead = "concentrate can, as above" if plain.reaches else "concentrate cannot in two rounds either"
        found.append(
            f"half and half premix cannot reach {_percent(wanted)}, as {wet}: it ends at {_percent(premixed.reached)}; "
            f"{instead}"
        )
    if not BOUNDS[0] <= wanted <= BOUNDS[1]:
        found.append("the trade keeps between 40 and 60 % of concentrate (common practice, no source)")
    if wanted < PROTECTS:
        found.append("below 30 to 33 % inhibitors are too thin to protect metal")
    if held:
        found.append(
            "beyond 60 % glycol by mass the freeze point is no longer followed; a stronger mix protects no more"
        )
    return found


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


def _percent(share: float) -> str:
    return f"{100.0 * share:.0f} %"
