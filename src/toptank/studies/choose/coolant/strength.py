r"""How strong a coolant is, from a refractometer or a hydrometer, at the temperature at which it was read.

A refractive index follows from what is in the mix: specific refractions add by mass (Lorentz and Lorenz), and the mix
is a little denser than its parts. One constant for each glycol says how much.

Source   gerke2023 for propylene and its slope with temperature; crc_handbook102 as the check for ethylene; index of
         pure ethylene glycol and of water: from memory; errors: ASTM D3321 and common practice
Range    0 to 60 % glycol by mass, 10 to 35 °C for the index, 0 to 50 °C for the gravity
Scatter  index 0.0006, that is 0.6 % of mass; refractometer 1 K of freeze point, hydrometer 8 °F
"""

from collections.abc import Callable
from dataclasses import dataclass

from toptank.media import coolant, mixture, water
from toptank.units.refusal import Refusal

REFRACTOMETER_ERROR = 1.0
"""Of the freeze point [K]; ASTM D3321 as read: ± 1 °C."""

HYDROMETER_ERROR = 8.0 / 1.8
"""Of the freeze point [K]; common practice, no source: ± 8 °F."""

STRIP_TRAP = "test strips show what is left of the inhibitors, not the strength"
WRONG_SCALE_TRAP = (
    "the scale must be that of the glycol: propylene read on the scale of ethylene looks 23 °F (13 °C) safer than it is"
)
BLEND_TRAP = "no instrument of the shop reads a blend of both glycols"
HYDROMETER_TRAP = (
    "inhibitors weigh too: a hydrometer may read 4 to 6 % of volume too rich; take ± 8 °F (± 4 °C) as its best"
)

_PROPYLENE = 1.0
_REFERENCE = 293.15
_WATER_INDEX = 1.3330
_GLYCOL_INDEX = (1.4318, 1.43298)
_CONTRACTION = (0.038, 0.076)
"""How much denser the mix is than its parts, over the product of their volume shares [1]; our fit of the index."""

_PARTS_DENSITY = (998.2, 1113.2, 1036.1)
_WATER_SLOPE, _GLYCOL_SLOPE, _SLOPE_INDEX = 1.0e-4, 2.7e-4, 1.3893
"""Fall of the index a kelvin of water (from memory) and of half propylene (gerke2023), and the latter's index."""

_GRAVITY_WATER = 998.2
_SLACK = 0.002
"""Beyond the scale by so much is still the end of the scale: four divisions of a shop's hydrometer."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Strength:
    """What a reading means.

    Parameters
    ----------
    concentrate : share of concentrate by volume [1]
    low, high : the same at the ends of the instrument's error [1]
    freeze_point : [K]
    remarks : traps of this instrument
    """

    concentrate: float
    low: float
    high: float
    freeze_point: float
    remarks: tuple[str, ...]


def refractive_index(concentrate: float, glycol: float) -> float:
    """Refractive index of a mix at 20 °C (sodium light) [1].

    Parameters
    ----------
    concentrate : share of concentrate by volume [1]
    glycol : 0 ethylene, 1 propylene [1]
    """
    return glycol_index(
        float(mixture.glycol_mass_fraction(mixture.glycol_volume_fraction(concentrate, glycol), glycol)), glycol
    )


def glycol_index(mass_share: float, glycol: float) -> float:
    """Refractive index of a mass share of glycol in water at 20 °C [1]."""
    glycol_density, water_density = _of(glycol, _PARTS_DENSITY[1:]), _PARTS_DENSITY[0]
    ideal = 1.0 / (mass_share / glycol_density + (1.0 - mass_share) / water_density)
    volume_share = mass_share / glycol_density * ideal
    density = ideal * (1.0 + _of(glycol, _CONTRACTION) * volume_share * (1.0 - volume_share))
    refraction = (
        mass_share * _refraction(_of(glycol, _GLYCOL_INDEX)) / glycol_density
        + (1.0 - mass_share) * _refraction(_WATER_INDEX) / water_density
    ) * density
    return ((1.0 + 2.0 * refraction) / (1.0 - refraction)) ** 0.5


def index_at_reference(index: float, T: float) -> float:
    """Turn an index read at a temperature [K] into that at 20 °C [1]; not where the instrument corrects itself."""
    slope = _WATER_SLOPE + (_GLYCOL_SLOPE - _WATER_SLOPE) * (index - _WATER_INDEX) / (_SLOPE_INDEX - _WATER_INDEX)
    return index + slope * (T - _REFERENCE)


def from_refractive_index(index: float, T: float, glycol: float) -> Strength:
    """Strength from a refractive index.

    Parameters
    ----------
    index : as read [1]
    T : temperature of the sample [K]; 20 °C where the instrument corrects itself
    glycol : 0 ethylene, 1 propylene [1]
    """
    corrected = index_at_reference(index, T)
    strongest = _strongest(glycol)
    low, high = refractive_index(0.0, glycol) - _SLACK, refractive_index(strongest, glycol) + _SLACK
    if not low <= corrected <= high:
        raise Refusal(
            field="refractive index",
            value=f"{index:g}",
            limit=f"must lie between {low:.3f} and {high:.3f} at 20 °C for this glycol",
            fix="clean the prism, set it to zero with distilled water, ask which glycol it is, and read again",
        )
    share = _share_where(lambda c: refractive_index(c, glycol), corrected, strongest)
    return _strength(share, glycol, REFRACTOMETER_ERROR, (WRONG_SCALE_TRAP, BLEND_TRAP, STRIP_TRAP))


def from_freeze_scale(T_scale: float, T: float, *, scale: float, glycol: float) -> Strength:
    """Strength from a refractometer that shows a freeze point.

    Parameters
    ----------
    T_scale : freeze point as read [K]
    T : temperature of the sample [K]; 20 °C where the instrument corrects itself
    scale : glycol of the scale: 0 ethylene, 1 propylene [1]
    glycol : glycol in the coolant: 0 ethylene, 1 propylene [1]
    """
    strongest = _strongest(scale)
    coldest = float(coolant.freeze_point(strongest, scale))
    if not coldest <= T_scale <= water.ICE + REFRACTOMETER_ERROR:
        raise Refusal(
            field="freeze point",
            value=f"{T_scale - 273.15:.0f} °C",
            limit=f"must lie between {coldest - 273.15:.0f} and 0 °C",
            fix="a stronger mix does not protect more: thin it and read again",
        )
    index = refractive_index(_share_of_freezing(T_scale, scale), scale)
    return from_refractive_index(index, T, glycol)


def from_specific_gravity(gravity: float, T: float, glycol: float) -> Strength:
    """Strength from a hydrometer: ethylene glycol only.

    Parameters
    ----------
    gravity : as read, against water at 20 °C [1]
    T : temperature of the sample [K]; the density of the mix at this temperature is what the hydrometer feels
    glycol : 0 ethylene, 1 propylene [1]
    """
    if glycol == _PROPYLENE:
        raise Refusal(
            field="specific gravity",
            value=f"{gravity:g}",
            limit="says nothing of propylene glycol, which is hardly denser than water",
            fix="use a refractometer with a scale for propylene",
        )

    def read(share: float) -> float:
        return float(coolant.density(T, share, glycol)) / _GRAVITY_WATER

    if not read(0.0) - _SLACK <= gravity <= read(coolant.RICHEST) + _SLACK:
        raise Refusal(
            field="specific gravity",
            value=f"{gravity:g}",
            limit=f"must lie between {read(0.0):.3f} and {read(coolant.RICHEST):.3f} at this temperature",
            fix="free the float of bubbles, read the temperature of the sample, and read again",
        )
    share = _share_where(read, gravity, coolant.RICHEST)
    return _strength(share, glycol, HYDROMETER_ERROR, (HYDROMETER_TRAP, BLEND_TRAP, STRIP_TRAP))


def _strength(share: float, glycol: float, error: float, remarks: tuple[str, ...]) -> Strength:
    freezes = float(coolant.freeze_point(share, glycol))
    low, high = (_share_of_freezing(freezes + sign * error, glycol) for sign in (1.0, -1.0))
    return Strength(
        concentrate=share, low=min(low, share), high=max(high, share), freeze_point=freezes, remarks=remarks
    )


def _share_of_freezing(T: float, glycol: float) -> float:
    return _share_where(lambda c: -float(coolant.freeze_point(c, glycol)), -T, _strongest(glycol))


def _strongest(glycol: float) -> float:
    """Share of concentrate beyond which the freeze point is not followed [1]."""

    def by_mass(c: float) -> float:
        return float(mixture.glycol_mass_fraction(mixture.glycol_volume_fraction(c, glycol), glycol))

    return min(_share_where(by_mass, coolant.STRONGEST_FREEZING, 1.0), coolant.RICHEST)


def _share_where(rises: Callable[[float], float], value: float, most: float) -> float:
    """Share between 0 and `most` at which a rising function has a value, or the nearer end; halved 50 times."""
    low, high = 0.0, most
    for _ in range(50):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if rises(middle) < value else (low, middle)
    return 0.5 * (low + high)


def _refraction(index: float) -> float:
    return (index * index - 1.0) / (index * index + 2.0)


def _of(glycol: float, pair: tuple[float, ...]) -> float:
    return pair[0] + glycol * (pair[1] - pair[0])
