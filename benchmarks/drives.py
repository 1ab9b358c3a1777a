"""Drives: one vehicle and many over two hours, the same right-hand side through SciPy's integrator, and half the step.

`python benchmarks/drives.py` prints them; a slow or busy machine is not a wrong one.
"""

import time
from collections.abc import Callable
from functools import partial

import numpy as np
from scipy.integrate import solve_ivp

from toptank.knowledge.draws import draws
from toptank.knowledge.sheet import vehicle
from toptank.knowledge.typical import typical_names, typical_sheet
from toptank.system.drive import Fixed, State, advance, cold_start, fixed_of
from toptank.system.drive_batch import drive_all
from toptank.system.duty import Duty
from toptank.system.nodes import Nodes
from toptank.system.numerics.jax_library import as_arrays, jax, jnp
from toptank.system.profile import Profile
from toptank.system.step_inputs import StepInputs, step_inputs
from toptank.system.vehicle import Vehicle

HOURS, INSTANT = 2.0, 1e-3
"""Length of the drive [h]; step in which the rates of change are taken [s]."""


def hilly(hours: float = HOURS) -> Profile:
    """Two hours at one hertz over hills, with a stop in each half hour."""
    at = np.arange(hours * 3600.0)
    stands = (at % 1800.0) > 1500.0
    speed = np.where(stands, 0.0, 20.0 + 4.0 * np.sin(at / 97.0))
    grade = np.where(stands, 0.0, 0.03 + 0.03 * np.sin(at / 260.0))
    return Profile.of(time=at, duty=Duty(ambient=308.0, speed=speed, grade=grade, air_conditioning=1.0))


def with_scipy(built: Vehicle, profile: Profile, seconds: int) -> np.ndarray:
    """Coolant temperature [K] each second, by an implicit method of variable step on the same equations.

    The rates are those of `advance` over an instant; flows are followed from call to call, play and switches stand
    where time has left them after each second.
    """
    fixed = jax.jit(fixed_of)(built)
    instant = jax.jit(partial(_rates, built, fixed))
    onward = jax.jit(
        lambda state, duty: advance(built, fixed, state, step_inputs(built, fixed.way, duty, jnp.ones(())), 1.0)[0]
    )
    row = [jax.tree.map(partial(_at, i), profile.duty) for i in range(seconds)]
    state = cold_start(built, row[0])
    found = np.empty(seconds)
    for i in range(seconds):
        found[i] = float(state.T.coolant)
        done = solve_ivp(
            lambda _, T, i=i, state=state: np.asarray(instant(state, row[i], T)),
            (0.0, 1.0), np.array(state.T, float), method="Radau", rtol=1e-6, atol=1e-4,
        )  # fmt: skip
        state = onward(state, row[i])._replace(T=Nodes(*(jnp.asarray(value) for value in done.y[:, -1])))
    return found


def _rates(built: Vehicle, fixed: Fixed, state: State, duty: Duty, T: np.ndarray) -> np.ndarray:
    """What each mass gains a second [K/s]."""
    at = state._replace(T=Nodes(*T))
    after, _ = advance(built, fixed, at, _driven_at(built, fixed, duty), INSTANT)
    return (jnp.stack(list(after.T)) - T) / INSTANT


def _driven_at(built: Vehicle, fixed: Fixed, duty: Duty) -> StepInputs:
    return step_inputs(built, fixed.way, duty, jnp.ones(()))


def _at(i: int, leaf: np.ndarray) -> float:
    return float(leaf[i])


def _seconds(run: Callable[[], object]) -> tuple[float, float]:
    """Seconds on the clock and of the processor, of the second of two runs."""
    run()
    clock, processor = time.perf_counter(), time.process_time()
    run()
    return time.perf_counter() - clock, time.process_time() - processor


def halved(name: str, step: float) -> float:
    """By how much half the step [s] moves the peak of a typical vehicle over level, climb and stop [K]."""

    def peak(dt: float) -> float:
        at = np.arange(0.0, 900.0, dt)
        part = np.minimum(at / 300.0, 2.999).astype(int)
        speed, grade = np.choose(part, [20.0, 18.0, 0.0]), np.choose(part, [0.0, 0.06, 0.0])
        road = Profile.of(time=at, duty=Duty(ambient=308.0, speed=speed, grade=grade, air_conditioning=1.0))
        return float(drive_all(vehicle(typical_sheet(name)), road, before=Duty(ambient=308.0, speed=18.0)).peak[0])

    return abs(peak(step) - peak(0.5 * step))


if __name__ == "__main__":
    pickup, road, piece = typical_sheet("pickup-1970s-v8-air"), hilly(), 60
    middle = as_arrays(vehicle(pickup))
    one = _seconds(lambda: drive_all(middle, road, every=10))
    many = _seconds(lambda: drive_all(draws(pickup, 1000, 1), road, every=10))
    # Each call compiles anew: the difference of two lengths is what the drive itself takes.
    short, long = (_seconds(partial(with_scipy, middle, road, length))[1] for length in (piece // 3, piece))
    ours = drive_all(middle, road).engine_out[0, :piece]
    apart = float(np.max(np.abs(ours - with_scipy(middle, road, piece))))
    whole = (long - short) / (piece - piece // 3) * len(road.time)
    print(f"one vehicle, two hours at 1 Hz: {one[0]:.3f} s on the clock, {one[1]:.3f} s of the processor")
    print(f"1,000 vehicles: {many[0]:.1f} s on the clock, {many[1]:.1f} s of the processor")
    print(f"one through SciPy's Radau, carried on: {whole:.0f} s of the processor, {whole / one[1]:.0f} times as long")
    print(f"apart by {apart:.4f} K at the most over {piece} s from cold")
    for dt in (1.0, 2.0, 3.0):
        moved = {name: halved(name, dt) for name in typical_names()}
        worst = max(moved, key=lambda name: moved[name])
        print(f"half of {dt:g} s moves a peak by {np.median(list(moved.values())):.3f} K in the middle, "
              f"{moved[worst]:.3f} K at the most ({worst})")  # fmt: skip
