"""Points of a recorded or planned road, as a receiver or a map gives them: repeated, jumping, with gaps."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

EARTH = 6_371_008.8
"""Mean radius of the earth [m] (IUGG); the way is right within half a percent."""

FASTEST = 70.0
"""Speed beyond which a pair of points is a jump of the receiver [m/s]: the limit of a duty."""

FEWEST_IN_A_ROW = 5
"""Points that must agree with each other to be believed against their neighbours; judgement."""

MOST_JUMPS = 300
"""Short runs of points that are taken out of one track before it is given up."""

SPIKE = 500.0
"""Way there and back from which one point without time stamps is a jump [m]; judgement."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Track:
    """Points in order, each array (point,).

    east, north : place on a plane from the first point on [m]
    elevation : as given [m]; NaN where it is missing
    time : from the first point on [s]; None for a road that nobody has driven
    """

    east: Floats
    north: Floats
    elevation: Floats
    time: Floats | None

    @property
    def n(self) -> int:
        """Number of points."""
        return len(self.east)

    @property
    def way(self) -> Floats:
        """Way along the points [m]."""
        return np.concatenate([[0.0], np.cumsum(np.hypot(np.diff(self.east), np.diff(self.north)))])


@dataclass(frozen=True, slots=True, kw_only=True)
class Dropped:
    """Points that were left out: at the same place or time as another, back in time, out of the way."""

    repeated: int
    backward: int
    jumping: int


class Torn(ValueError):
    """Long pieces of a track lie further apart than any vehicle gets in the time between them."""


def track_of(latitude: Floats, longitude: Floats, elevation: Floats, time: Floats | None) -> Track:
    """Put points [deg] on a plane; each step by its own latitude, so that long roads and the date line do no harm."""
    middle = np.radians(0.5 * (latitude[1:] + latitude[:-1]))
    turned = (np.diff(longitude) + 180.0) % 360.0 - 180.0
    east = EARTH * np.cos(middle) * np.radians(turned)
    north = EARTH * np.radians(np.diff(latitude))
    started = None if time is None else time - time[0]
    return Track(east=_summed(east), north=_summed(north), elevation=elevation, time=started)


def _summed(steps: Floats) -> Floats:
    return np.concatenate([[0.0], np.cumsum(steps)])


def cleaned(track: Track) -> tuple[Track, Dropped]:
    """Leave out points that repeat, go back in time or jump away and back.

    Raises
    ------
    Torn : no short piece is to blame for a jump
    """
    if track.time is None:
        distinct = np.concatenate([[True], np.hypot(np.diff(track.east), np.diff(track.north)) > 0.0])
        tidy = _taken(track, np.flatnonzero(distinct))
        straight = _taken(tidy, _without_spikes(tidy))
        return straight, Dropped(repeated=track.n - tidy.n, backward=0, jumping=tidy.n - straight.n)
    latest = np.maximum.accumulate(np.concatenate([[-np.inf], track.time[:-1]]))
    ahead = track.time > latest
    repeated = int(np.sum(track.time == latest))
    forward = _taken(track, np.flatnonzero(ahead))
    whole = _taken(forward, _without_jumps(forward))
    dropped = Dropped(repeated=repeated, backward=track.n - forward.n - repeated, jumping=forward.n - whole.n)
    return whole, dropped


def _taken(track: Track, index: NDArray[np.intp] | Sequence[int]) -> Track:
    """The points at an index, seen from the first of them."""
    east, north = track.east[index], track.north[index]
    time = None if track.time is None else track.time[index]
    first = len(east) > 0
    return Track(
        east=east - east[0] if first else east,
        north=north - north[0] if first else north,
        elevation=track.elevation[index],
        time=time - time[0] if time is not None and first else time,
    )


def _without_jumps(track: Track) -> NDArray[np.intp]:
    """Index without the short runs of points that no vehicle could have gone to and come back from.

    The shortest run at a time: all at once would take good points with bad ones where they alternate.
    """
    index = np.arange(track.n)
    for _ in range(MOST_JUMPS):
        piece = _taken(track, index)
        assert piece.time is not None
        speed = np.hypot(np.diff(piece.east), np.diff(piece.north)) / np.diff(piece.time)
        breaks = np.flatnonzero(speed > FASTEST) + 1
        if len(breaks) == 0:
            return index
        runs = np.split(np.arange(len(index)), breaks)
        shortest = min(runs, key=len)
        if len(shortest) >= FEWEST_IN_A_ROW:
            raise Torn(f"{len(breaks)} jumps")
        index = np.delete(index, shortest)
    raise Torn("jumps without end")


def _without_spikes(track: Track) -> NDArray[np.intp]:
    """Index without single points far out of the way of their neighbours."""
    if track.n < 3:
        return np.arange(track.n)
    there = np.hypot(np.diff(track.east), np.diff(track.north))
    past = np.hypot(track.east[2:] - track.east[:-2], track.north[2:] - track.north[:-2])
    out = (there[:-1] + there[1:] > SPIKE) & (there[:-1] + there[1:] > 8.0 * past) & (past > 0.0)
    return np.flatnonzero(~np.concatenate([[False], out, [False]]))
