"""The verb of mixing: what to drain and what to add, and what the mix then bears.

Imports of the model stay inside the verb.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from toptank.equations.atmosphere import SEA_LEVEL_P
from toptank.shop.ask.coolant.coolant import family_change, strength_read
from toptank.shop.files.typed_figure import between
from toptank.studies.choose.coolant import mix as study
from toptank.studies.choose.coolant.mix import left_after_rinsing
from toptank.units.conversion import System
from toptank.units.dimension import FRACTION, VOLUME
from toptank.units.quantity import parse, parse_choice
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from toptank.studies.choose.coolant.coolant_families import Compatibility
    from toptank.studies.choose.coolant.mix import Points, Premixed, Recipe, Refill
    from toptank.studies.choose.coolant.strength import Strength

GLYCOLS = ("ethylene", "propylene")
CAP = 103421.4
"""Gauge pressure of the cap under which the second boiling point is told [Pa]: 15 psi."""

BOUNDS = (0.4, 0.6)
"""Share of concentrate that the trade keeps to [1]; common practice, no source."""

STRONGEST = 0.68
"""Share of concentrate beyond which nobody mixes [1]; common practice, no source: 68 % at most."""

MOST_RINSES = 10
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
    read : what the instrument's reading means, where one was given
    family : what to do with the family that is in, where one was named
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
    read: Strength | None
    family: Compatibility | None
    remarks: tuple[str, ...]
    assumed_units: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Instrument:
    """A reading in place of a share: one of refractometer and gravity, the sample's temperature, the scale's glycol."""

    refractometer: str | None = None
    gravity: str | None = None
    sample: str | None = None
    scale: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Families:
    """What is in and what is to go in; whether solder and air are met."""

    inside: str
    new: str
    soldered: bool = True
    sealed: bool = False


LITRES = ("L", "ml", "cm3", "m3")


def system_of(capacity: str) -> System:
    """The units that a capacity is typed in: quarts in, quarts out; litres in, litres out."""
    try:
        typed = parse(capacity, VOLUME, system="us", field="capacity").unit
    except Refusal:  # told when it is worked out
        return "us"
    return "metric" if typed in LITRES else "uk" if typed.startswith("imp") else "us"


def mix(
    *,
    capacity: str,
    now: str | None,
    want: str,
    drainable: str,
    glycol: str,
    system: System,
    instrument: Instrument | None = None,
    rinses: int = 0,
    families: Families | None = None,
) -> Mixed:
    """What to drain and what to add for a wanted share, in one or two rounds; what the mix bears before and after.

    Parameters
    ----------
    capacity, now, want, drainable, glycol : as typed; `now` is None where an instrument was read
    system : units of bare numbers
    instrument : what was read
    rinses : times that it was drained and filled with water since
    families : what is in and what is to go in
    """
    notes: list[str] = []
    volume = between("capacity", capacity, VOLUME, 0.001, 0.2, system, notes)
    read = _read(now, instrument, glycol, system, notes)
    inside = read.concentrate if read is not None else between("now", str(now), FRACTION, 0.0, 1.0, system, notes)
    wanted = _wanted(want, system, notes)
    drains = between("drainable", drainable, FRACTION, 0.05, 1.0, system, notes)
    code = parse_choice(glycol, GLYCOLS, "glycol")
    left = _left_after(rinses, drains)
    inside *= left
    shares = study.GLYCOL_SHARES[int(code)]
    least, usual, most = shares

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
        glycol_shares=shares,
        gives=(given(least), given(usual), given(most)),
        refill=filled,
        premixed=premixed,
        before=bears(inside),
        after=bears(plain.reached),
        read=read,
        family=_family(families),
        remarks=(*_of_rinsing(rinses, left), *_remarks(inside, wanted, plain, premixed, held)),
        assumed_units=tuple(notes),
    )


def _read(
    now: str | None, instrument: Instrument | None, glycol: str, system: System, notes: list[str]
) -> Strength | None:
    """What the instrument read; nothing where a share was typed."""
    one = instrument or Instrument()
    asked = {"now": now, "refractometer": one.refractometer, "gravity": one.gravity}
    given = [name for name, value in asked.items() if value is not None]
    if len(given) != 1:
        limit, fix = (
            "one of --now, --refractometer and --gravity is needed, and only one",
            "say what is in, or what was read",
        )
        raise Refusal(field="now", value=" and ".join(given) or "(missing)", limit=limit, fix=fix)
    if now is not None:
        return None
    return strength_read(
        refractometer=one.refractometer,
        gravity=one.gravity,
        sample=one.sample,
        glycol=glycol,
        scale=one.scale,
        system=system,
        notes=notes,
    )


def _left_after(rinses: int, drains: float) -> float:
    if not 0 <= rinses <= MOST_RINSES:
        limit, fix = f"must lie between 0 and {MOST_RINSES}", "count how often it was drained and filled with water"
        raise Refusal(field="rinses", value=str(rinses), limit=limit, fix=fix)
    return left_after_rinsing(drains, rinses)


def _wanted(want: str, system: System, notes: list[str]) -> float:
    share = between("want", want, FRACTION, 0.0, 1.0, system, notes)
    if share > STRONGEST:
        limit = (
            f"must not be more than {_percent(STRONGEST)}: frost protection is strongest near 60 % and falls "
            "again beyond it, and a stronger mix is thicker and carries less heat"
        )
        raise Refusal(field="want", value=want, limit=limit, fix="50 % is usual; 60 % where it is coldest")
    return share


def _family(families: Families | None) -> Compatibility | None:
    if families is None:
        return None
    return family_change(families.inside, families.new, soldered=families.soldered, sealed=families.sealed)


def _of_rinsing(rinses: int, left: float) -> tuple[str, ...]:
    if rinses == 0:
        return ()
    times = "once" if rinses == 1 else f"{rinses} times"
    return (f"drained and filled with water {times}: {100.0 * left:.1f} % of what was in is left, the rest is water",)


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


def _percent(share: float) -> str:
    return f"{100.0 * share:.0f} %"
