"""Many vehicles along one profile.

In pieces of one length in time and of two lengths in draws, so that little is compiled.
"""

import dataclasses
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from functools import cache, partial
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from toptank.system.balance import Balance
from toptank.system.drive import State, cold_start, onward, settled_start
from toptank.system.duty import Duty
from toptank.system.numerics.jax_library import jax, jit_quick_compile, jnp
from toptank.system.numerics.kept_programs import keep_compiled
from toptank.system.numerics.kernel import threads
from toptank.system.population import solve
from toptank.system.profile import Profile
from toptank.system.trajectory import Trajectory
from toptank.system.vehicle import Vehicle
from toptank.units.arrays import Real
from toptank.units.cancellation import CancelCheck, never_cancelled

BUCKETS = (1, 128)
"""The two numbers of draws for which kernels are compiled."""

STEPS = 600
"""Steps driven in one go: a profile goes in pieces of this length."""

Floats = NDArray[np.float64]


class Unsure(NamedTuple):
    """What a draw's day differs by from the profile: ambient [K], head wind [m/s]."""

    ambient: Real = 0.0
    head_wind: Real = 0.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Drives:
    """n vehicles along one profile.

    Arrays of shape (draw, point) hold what stood at every `every`-th step; those of shape (draw,) look at every step.

    every : steps from one point to the next
    gauge, engine_out, boiling, transmission : temperatures at the points [K]
    opening : of the thermostat at the points, over full [1]
    fan_speed : at the points [1/s]
    peak, peak_step : highest reading of the gauge [K], the step at which it is seen
    least_margin : least distance of the coolant to its boiling point [K]; 0: it boils
    lost : share of the coolant gone past the cap at the end [1]
    short_of_power : largest power asked beyond full load [W]
    """

    every: int
    gauge: Floats
    engine_out: Floats
    boiling: Floats
    transmission: Floats
    opening: Floats
    fan_speed: Floats
    peak: Floats
    peak_step: NDArray[np.int64]
    least_margin: Floats
    lost: Floats
    short_of_power: Floats

    def boiled(self) -> NDArray[np.bool_]:
        """Whether each vehicle boils somewhere."""
        return self.least_margin <= BOILS


BOILS = 1e-6
"""Distance to the boiling point at which coolant is held when it boils [K]."""

_TRACKS = ("T_gauge", "T_engine_out", "T_boiling", "T_transmission", "thermostat_opening", "fan_speed")


def drive_all(
    vehicles: Vehicle,
    profile: Profile,
    *,
    before: Duty | None = None,
    stood_at: float | None = None,
    unsure: Unsure | None = None,
    every: int = 1,
    go_on: CancelCheck = never_cancelled,
) -> Drives:
    """Drive n vehicles along one profile.

    Parameters
    ----------
    vehicles : fields are numbers or arrays of one length n
    profile : duties on an even grid
    before : duty at which all have settled before the start; left out: they stood overnight and are cold
    stood_at : temperature of the whole engine at the start, where it stood but not long enough to be cold [K]
    unsure : what the day of each draw differs by; numbers or arrays (n,)
    every : steps from one point that is kept to the next
    go_on : is called before every piece, and may stop the work
    """
    unsure = unsure or Unsure()
    first = jax.tree.map(_at_start, profile.duty)
    n = max(np.size(leaf) for leaf in jax.tree.leaves((vehicles, unsure)))
    bucket = BUCKETS[0] if n == 1 else BUCKETS[1]
    if before is None and stood_at is not None:
        starts = _starts(vehicles, dataclasses.replace(first, ambient=stood_at), Unsure(), cold=True, bucket=bucket)
    else:
        starts = _starts(vehicles, first if before is None else before, unsure, cold=before is None, bucket=bucket)
    places = range(0, n, bucket)

    def piece(place: int) -> tuple[list[Floats], list[Floats]]:
        mine, day, start = jax.tree.map(partial(_padded, place, bucket), (vehicles, unsure, starts))
        return _piece(mine, day, start, profile, every, go_on)

    with ThreadPoolExecutor(threads()) as workers:
        pieces = [piece(0), *workers.map(piece, places[1:])]  # the first one may compile
    tracks = [np.concatenate(parts)[:n] for parts in zip(*(kept for kept, _ in pieces), strict=True)]
    ends = [np.concatenate(parts)[:n] for parts in zip(*(end for _, end in pieces), strict=True)]
    peak, peak_step, margin, lost, short = ends
    gauge, engine_out, boiling, transmission, opening, fan_speed = tracks
    return Drives(
        every=every,
        gauge=gauge,
        engine_out=engine_out,
        boiling=boiling,
        transmission=transmission,
        opening=opening,
        fan_speed=fan_speed,
        peak=peak,
        peak_step=peak_step.astype(np.int64),
        least_margin=margin,
        lost=lost,
        short_of_power=short,
    )


def compile_cold(vehicle: Vehicle, duty: Duty) -> None:
    """Compile what drives many vehicles from cold, so that the first such drive need not: for a thread of its own."""
    still = Profile.of(time=np.array([0.0, 1.0]), duty=duty)
    drive_all(vehicle, still, unsure=Unsure(ambient=np.zeros(2)))


def _piece(
    vehicle: Vehicle, unsure: Unsure, state: State, profile: Profile, every: int, go_on: CancelCheck
) -> tuple[list[Floats], list[Floats]]:
    """Drive one bucket of draws all the way: what is kept of the tracks, and what the whole drive came to."""
    keep_compiled()
    steps = len(profile.time)
    kept: list[list[Floats]] = [[] for _ in _TRACKS]
    draws = len(jax.tree.leaves(state)[0])
    peak, at = np.full(draws, -np.inf), np.zeros(draws)
    margin, short, lost = np.full(draws, np.inf), np.zeros(draws), np.zeros(draws)
    for begin in range(0, steps, STEPS):
        go_on()
        rows = jax.tree.map(partial(_padded, begin, STEPS), (profile.duty, profile.running))
        stack, state = _driven()(vehicle, unsure, *rows, float(profile.step), state)
        gauge, engine_out, boiling, transmission, opening, fan, gone, power = np.asarray(stack)[
            :, :, : min(STEPS, steps - begin)
        ]
        for track, values in zip(kept, (gauge, engine_out, boiling, transmission, opening, fan), strict=True):
            track.append(values[:, -begin % every :: every])
        hottest = gauge.argmax(axis=1)
        here = gauge[np.arange(draws), hottest]
        at, peak = np.where(here > peak, begin + hottest, at), np.maximum(peak, here)
        margin = np.minimum(margin, (boiling - engine_out).min(axis=1))
        short, lost = np.maximum(short, power.max(axis=1)), gone[:, -1]
    return [np.concatenate(parts, axis=1) for parts in kept], [peak, at, margin, lost, short]


@cache
def _driven() -> Callable[..., Any]:
    def one(vehicle: Vehicle, unsure: Unsure, duty: Duty, running: Real, dt: Real, state: State) -> Any:
        tracks, end = onward(vehicle, _moved(duty, unsure), running, dt, state, kept=tracked)
        return tracks.T, end

    def tracked(course: Trajectory) -> Real:
        return jnp.stack([getattr(course, name) for name in (*_TRACKS, "coolant_lost", "power_short")])

    return jit_quick_compile(jax.vmap(one, in_axes=(0, 0, None, None, None, 0), out_axes=(1, 0)))


def _starts(vehicles: Vehicle, duty: Duty, unsure: Unsure, *, cold: bool, bucket: int) -> State:
    """Where every draw stands at the start: an array per figure, of a length that the buckets divide."""
    n = max(np.size(leaf) for leaf in jax.tree.leaves((vehicles, unsure)))
    duties = jax.tree.map(partial(_padded, 0, n), _moved(duty, unsure))
    if cold:
        pieces = [
            _cold()(*jax.tree.map(partial(_padded, at, bucket), (vehicles, duties))) for at in range(0, n, bucket)
        ]
    else:
        balance = solve(vehicles, duties)
        pieces = [
            _settled()(*jax.tree.map(partial(_padded, at, bucket), (vehicles, duties, balance)))
            for at in range(0, n, bucket)
        ]
    return jax.tree.map(_joined, *pieces)


@cache
def _cold() -> Callable[..., Any]:
    return jit_quick_compile(jax.vmap(cold_start))


@cache
def _settled() -> Callable[..., Any]:
    def one(vehicle: Vehicle, duty: Duty, balance: Balance) -> State:
        return settled_start(vehicle, duty, balance)

    return jit_quick_compile(jax.vmap(one))


def _moved(duty: Duty, unsure: Unsure) -> Duty:
    return dataclasses.replace(duty, ambient=duty.ambient + unsure.ambient, head_wind=duty.head_wind + unsure.head_wind)


def _at_start(leaf: Any) -> float:
    return float(leaf[0])


def _joined(*pieces: Any) -> Floats:
    return np.concatenate([np.asarray(piece) for piece in pieces])


def _padded(at: int, length: int, leaf: Any) -> Floats:
    """A stretch of an array from a place on, its last figure repeated to the length; a number becomes an array."""
    values = np.asarray(leaf, float)
    if not values.ndim:
        return np.full(length, values)
    part = values[at : at + length]
    return part if len(part) == length else np.concatenate([part, np.repeat(part[-1:], length - len(part), axis=0)])
