"""How much a fill grows from cold to hot, and the bottle that takes it.

Source   density of toptank.media.coolant; growth of metal 0.3 % (iron) to 0.55 % (aluminium) over 80 K and the rule for
         the bottle: common practice, no source
Range    -40 to 125 °C where liquid, 0 to 70 % concentrate
Scatter  growth 0.2 % of volume; hoses swell as well and are left out
"""

from dataclasses import dataclass

from toptank.media import coolant

IRON, ALUMINIUM = 0.003 / 80.0, 0.0055 / 80.0
"""Growth of the volume inside an engine and a core of this metal [1/K]; common practice, no source."""

RESERVE = 0.5
"""What a bottle holds beside the expansion, as a share of it [1]; common practice, no source: half at least."""

COLD_FILL = 1.0 / 3.0
"""Share of the bottle that is full when cold [1]; common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bottle:
    """A recovery bottle: volumes [m3].

    Parameters
    ----------
    volume : smallest that is enough
    cold_mark, hot_mark : volume in it with the engine cold and hot
    expansion : what comes over from cold to hot
    """

    volume: float
    cold_mark: float
    hot_mark: float
    expansion: float


def liquid_growth(T_cold: float, T_hot: float, concentrate: float, glycol: float) -> float:
    """Growth of the liquid alone: density cold over density hot, less one.

    Parameters
    ----------
    T_cold, T_hot : temperatures [K]
    concentrate : share of concentrate by volume [1]
    glycol : 0 ethylene, 1 propylene [1]

    Returns
    -------
    growth : share of the cold volume [1]
    """
    return float(coolant.density(T_cold, concentrate, glycol) / coolant.density(T_hot, concentrate, glycol)) - 1.0


def growth(T_cold: float, T_hot: float, concentrate: float, glycol: float, *, metal: float = IRON) -> float:
    """Growth of the liquid less that of the metal around it: what leaves for the bottle.

    Parameters
    ----------
    T_cold, T_hot : temperatures [K]
    concentrate : share of concentrate by volume [1]
    glycol : 0 ethylene, 1 propylene [1]
    metal : growth of the volume inside [1/K]

    Returns
    -------
    growth : share of the cold volume [1]
    """
    return liquid_growth(T_cold, T_hot, concentrate, glycol) - metal * (T_hot - T_cold)


def recovery_bottle(capacity: float, expansion_share: float) -> Bottle:
    """Size a bottle: a third is full when cold, then comes the expansion, then half as much is left free.

    Parameters
    ----------
    capacity : volume of the system [m3]
    expansion_share : growth from cold to hot [1]

    Returns
    -------
    bottle : the smallest that is enough
    """
    expansion = capacity * expansion_share
    volume = expansion * (1.0 + RESERVE) / (1.0 - COLD_FILL)
    cold = COLD_FILL * volume
    return Bottle(volume=volume, cold_mark=cold, hot_mark=cold + expansion, expansion=expansion)


def marks_in(bottle_volume: float, capacity: float, expansion_share: float) -> Bottle | None:
    """Marks for a bottle that is there, or None where it would run over: cold fill and expansion do not fit.

    Parameters
    ----------
    bottle_volume : what it holds to the brim [m3]
    capacity : volume of the system [m3]
    expansion_share : growth from cold to hot [1]
    """
    expansion, cold = capacity * expansion_share, COLD_FILL * bottle_volume
    if cold + expansion > bottle_volume:
        return None
    return Bottle(volume=bottle_volume, cold_mark=cold, hot_mark=cold + expansion, expansion=expansion)
