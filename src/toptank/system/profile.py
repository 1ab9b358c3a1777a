"""A profile: the duty against time that a drive is made of."""

import dataclasses
from dataclasses import dataclass

import numpy as np

from toptank.system.duty import Duty
from toptank.system.numerics.jax_library import jax
from toptank.system.vehicle import Vehicle
from toptank.units.arrays import Real


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Profile:
    """Duties on an even grid of time. Every array, those inside `duty` too, has the shape (step,).

    What stands at a step holds from its time to the next one. Build it with `Profile.of`, which fills in what is left
    out and refuses uneven grids.

    time : from 0 on, evenly spaced [s]
    distance : road behind the vehicle [m]
    running : 1 with the engine on, 0 shut down [1]
    duty : speed [m/s], grade [1], altitude [m], ambient [K], air_conditioning [1] and all else that a duty has
    """

    time: Real
    distance: Real
    running: Real
    duty: Duty

    @classmethod
    def of(cls, *, time: Real, duty: Duty, running: Real = 1.0, distance: Real | None = None) -> "Profile":
        """Make a profile of numbers and arrays: a number holds all the way; distance is that of the speed.

        Parameters
        ----------
        time : (step,), evenly spaced, two or more [s]; moved so that it begins at 0
        duty : fields are numbers or arrays (step,)
        running : number or (step,) [1]
        distance : (step,) [m]; left out: what the speed gives

        Raises
        ------
        ValueError : the times are too few or not evenly spaced
        """
        grid = np.asarray(time, float)
        if grid.ndim != 1 or len(grid) < 2:
            raise ValueError("time: a profile needs two steps at the least")
        steps = np.diff(grid)
        if not (steps[0] > 0.0 and np.allclose(steps, steps[0], rtol=1e-6, atol=1e-6)):
            raise ValueError("time: the steps of a profile must be even and forward")

        def spread(value: Real) -> np.ndarray:
            return np.array(np.broadcast_to(np.asarray(value, float), grid.shape))

        filled = jax.tree.map(spread, duty)
        if distance is None:
            distance = np.concatenate([[0.0], np.cumsum(filled.speed[:-1] * steps)])
        return cls(time=grid - grid[0], distance=spread(distance), running=spread(running), duty=filled)

    def slowed(self, share: float, where: Real) -> "Profile":
        """The same road with its speed cut to a share [1] where a mask (step,) holds; it takes so much longer."""
        slow = np.asarray(where, bool) & (np.asarray(self.speed) > 0.0)
        ends = np.cumsum(np.where(slow, 1.0 / share, 1.0)[:-1]) * self.step
        time = np.arange(0.0, ends[-1] + 0.5 * self.step, self.step)
        at = np.minimum(np.searchsorted(ends, time + 1e-9, side="right"), len(slow) - 1)

        def taken(leaf: Real) -> Real:
            return np.asarray(leaf)[at]

        duty: Duty = jax.tree.map(taken, self.duty)
        begins = np.concatenate([[0.0], ends])
        distance = np.interp(time, begins, np.asarray(self.distance))
        duty = dataclasses.replace(duty, speed=np.where(slow[at], share * duty.speed, duty.speed))
        return Profile(time=time, distance=distance, running=np.asarray(self.running)[at], duty=duty)

    @property
    def step(self) -> Real:
        """Length of a step [s]."""
        return self.time[1] - self.time[0]

    @property
    def speed(self) -> Real:
        """Road speed at each step [m/s]."""
        return self.duty.speed

    @property
    def grade(self) -> Real:
        """Rise of the road over its length on the map at each step [1]."""
        return self.duty.grade

    @property
    def altitude(self) -> Real:
        """Height above the sea at each step [m]."""
        return self.duty.altitude

    @property
    def ambient(self) -> Real:
        """Air temperature outside at each step [K]."""
        return self.duty.ambient

    @property
    def air_conditioning(self) -> Real:
        """1 where the air conditioning is switched on [1]."""
        return self.duty.air_conditioning


# A duty is a tree only where a vehicle is known: the two are registered together.
assert Vehicle
jax.tree_util.register_dataclass(Profile)
