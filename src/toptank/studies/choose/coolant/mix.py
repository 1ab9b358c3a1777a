"""What to drain and what to add, so that a system holds the share that is wanted.

Volumes add up, what is added mixes with all that stayed, and the system is full before and after. A share is of
concentrate by volume, as on the jug and as everywhere in this program. Where it is of glycol itself, as a refractometer
tells it, the concentrate adds only its own glycol: that is the `strength` of `recipe`.

Source   balance of volumes; what concentrate counts for as glycol: toptank.media.mixture
Range    shares 0 to 1; two rounds at most, as nobody does a third
Scatter  what really drains: 10 % of the system and more, so measure it
"""

import math
from dataclasses import dataclass

from toptank.media import coolant, mixture
from toptank.units.arrays import Real

GLYCOL_SHARES = (
    (0.93, mixture.GLYCOL_SHARES[0], 0.96),
    (0.965, mixture.GLYCOL_SHARES[1], 1.0),
)
"""Least, usual and most glycol that a volume of concentrate counts for [1], ethylene and propylene.

Ethylene: common practice, no source. Propylene: the least that astm_d3306 lets pass, and the whole of it."""

DRAINED_BY = {"cock": 0.45, "cock and block drains": 0.8}
"""Share of the system that comes out [1]. Cock and block drains: common practice, no source, about a fifth stays; the
cock alone empties little more than the core, 40 to 50 % (no source). No two engines are alike: measure it."""

PREMIX = 0.5
"""Share of concentrate in what is sold ready mixed [1]."""

MOST_ROUNDS = 2
_TINY = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Round:
    """Drain, add, mix: volumes [m3], and the share after it [1]."""

    drained: float
    concentrate: float
    water: float
    share: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Recipe:
    """What to do in at most two rounds.

    Parameters
    ----------
    rounds : in order; none where the share is right already
    reached : share at the end [1]
    rounds_needed : rounds that the wanted share takes if each drains all that comes; None where no number is enough
    """

    rounds: tuple[Round, ...]
    reached: float
    rounds_needed: int | None

    @property
    def reaches(self) -> bool:
        """Whether the wanted share is reached."""
        return self.rounds_needed is not None and self.rounds_needed <= MOST_ROUNDS

    @property
    def drained(self) -> float:
        """Volume drained in all [m3]."""
        return sum(one.drained for one in self.rounds)


@dataclass(frozen=True, slots=True, kw_only=True)
class Refill:
    """All that drains is drained, then concentrate goes in first and water after it: volumes [m3], shares [1].

    `reaches` is false where even concentrate alone, or water alone, is not enough: then `reached` is what it gives.
    """

    drained: float
    concentrate: float
    water: float
    reached: float
    reaches: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Premixed:
    """Ready mixed coolant instead of concentrate: volume to exchange [m3], or None where it cannot reach the share.

    `reached` is the nearest share that exchanging all that drains gives [1].
    """

    exchanged: float | None
    reached: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Points:
    """Where a mix freezes and boils [K]; None where the mix is stronger than is followed."""

    freeze: float | None
    boil_open: float | None
    boil_capped: float | None


def exchanged_volume(capacity: float, now: float, wanted: float, added: float) -> float:
    """Volume to drain and to replace, in one round: d = V (wanted - now) / (added - now).

    Parameters
    ----------
    capacity : volume of the system [m3]
    now : share in the system [1]
    wanted : share afterwards [1]
    added : share in what is added [1]

    Returns
    -------
    d : volume [m3]; infinite where nothing of this share leads there
    """
    if abs(wanted - now) < _TINY:
        return 0.0
    if (wanted - now) * (added - wanted) < 0.0 or abs(added - now) < _TINY:
        return math.inf
    return capacity * (wanted - now) / (added - now)


def recipe(capacity: float, drainable: float, now: float, wanted: float, *, strength: float = 1.0) -> Recipe:
    """Return the least to drain and what to put in, in one round or in two.

    Parameters
    ----------
    capacity : volume of the system [m3]
    drainable : share of it that comes out [1]
    now : share in the system [1]
    wanted : share afterwards [1]
    strength : what a volume of concentrate adds to the share: 1, or its glycol where shares are of glycol [1]

    Returns
    -------
    recipe : at most two rounds; where two do not reach the share, two rounds that drain all that comes
    """
    richer = wanted > now
    added = strength if richer else 0.0
    rounds: list[Round] = []
    share = now
    for _ in range(MOST_ROUNDS):
        volume = min(exchanged_volume(capacity, share, wanted, added), drainable * capacity)
        if volume <= 0.0:
            break
        share += (added - share) * volume / capacity
        concentrate, water = (volume, 0.0) if richer else (0.0, volume)
        rounds.append(Round(drained=volume, concentrate=concentrate, water=water, share=share))
        if abs(share - wanted) < _TINY:
            break
    return Recipe(rounds=tuple(rounds), reached=share, rounds_needed=_rounds_needed(drainable, now, wanted, added))


def refill(capacity: float, drainable: float, now: float, wanted: float) -> Refill:
    """Return what goes in after all that drains was drained; after a flush with water, `now` is 0.

    Parameters
    ----------
    capacity : volume of the system [m3]
    drainable : share of it that comes out [1]
    now : share in the system before draining [1]
    wanted : share afterwards [1]

    Returns
    -------
    refill : concentrate and water for what drained
    """
    room = drainable * capacity
    needed = wanted * capacity - now * (capacity - room)
    concentrate = min(max(needed, 0.0), room)
    return Refill(
        drained=room,
        concentrate=concentrate,
        water=room - concentrate,
        reached=now + (concentrate - now * room) / capacity,
        reaches=abs(needed - concentrate) <= _TINY * capacity,
    )


def with_premix(
    capacity: float, drainable: float, now: float, wanted: float, *, share_of_premix: float = PREMIX
) -> Premixed:
    """Return what ready mixed coolant can do. In a block wet with water it never gives its own share.

    Parameters
    ----------
    capacity : volume of the system [m3]
    drainable : share of it that comes out [1]
    now : share in the system [1]
    wanted : share afterwards [1]
    share_of_premix : share of concentrate in what is bought [1]

    Returns
    -------
    premixed : volume to exchange, or how near it comes
    """
    volume = exchanged_volume(capacity, now, wanted, share_of_premix)
    room = drainable * capacity
    if volume <= room * (1.0 + _TINY):
        return Premixed(exchanged=volume, reached=wanted)
    return Premixed(exchanged=None, reached=now + drainable * (share_of_premix - now))


def left_after_rinsing(drainable: float, rounds: int) -> float:
    """Share of the old coolant that is left after draining and refilling with water so many times [1]."""
    return (1.0 - drainable) ** rounds


def points(glycol_volume: float, glycol: float, outside: float, cap: float) -> Points:
    """Where a mix of a volume share of glycol itself freezes and boils.

    Parameters
    ----------
    glycol_volume : share of glycol by volume, volumes before mixing [1]
    glycol : 0 ethylene, 1 propylene [1]
    outside : pressure of the air [Pa]
    cap : gauge pressure that the cap holds [Pa]

    Returns
    -------
    points : freeze and boiling points [K]
    """
    concentrate = glycol_volume / float(mixture.glycol_share(glycol))
    if concentrate > coolant.RICHEST * (1.0 + _TINY):
        return Points(freeze=None, boil_open=None, boil_capped=None)

    def boiling(p: float) -> float:
        return float(coolant.boiling_temperature(p, concentrate, glycol))

    frozen: Real = coolant.freeze_point(concentrate, glycol)
    return Points(freeze=float(frozen), boil_open=boiling(outside), boil_capped=boiling(outside + cap))


def freezing_is_held(glycol_volume: float, glycol: float) -> bool:
    """Whether a mix is so strong that its freeze point is given as that of 60 % glycol by mass."""
    return float(mixture.glycol_mass_fraction(glycol_volume, glycol)) > coolant.STRONGEST_FREEZING


def _rounds_needed(drainable: float, now: float, wanted: float, added: float) -> int | None:
    """What stays of the difference to what is added shrinks by (1 - drainable) in every round."""
    if abs(wanted - now) < _TINY:
        return 0
    left = (added - wanted) / (added - now) if abs(added - now) > _TINY else -1.0
    if left < -_TINY or (left <= _TINY and drainable < 1.0) or drainable <= 0.0:
        return None
    if drainable >= 1.0:
        return 1
    return max(1, math.ceil(math.log(left) / math.log(1.0 - drainable) - _TINY))
