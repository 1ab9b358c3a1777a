"""Gearbox, converter, axle and tyres: engine speed and the heat of the transmission."""

import math
from dataclasses import dataclass

from toptank.parts.engine import Engine
from toptank.units.arrays import Real, namespace
from toptank.units.declaration import declare, declare_choice, declare_yes_no
from toptank.units.dimension import FRACTION, LENGTH, MASS, NUMBER, ROTATION

HELD_LOAD = 0.75
"""Share of full load beyond which the driver or the gearbox takes a lower gear [1]; judgement."""

IN_AUTOMATIC_FLUID, IN_MANUAL_OIL = 0.75, 0.35
"""Share of the losses between crankshaft and road that heats the gearbox, not axle and tyres [1]; judgement."""

LEAST_SPEED = 1.6
"""Engine speed, over idle, below which a lower gear is taken [1]; judgement."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Drivetrain:
    """From the crankshaft to the road."""

    # fmt: off
    kind: Real = declare_choice(
        "gearbox", ("manual", "automatic"), typical="automatic", measure="count the pedals")
    axle_ratio: Real = declare(
        "axle ratio (driveshaft turns per wheel turn)", NUMBER, hard=(1.0, 20.0), plausible=(2.2, 20.0), typical=3.4,
        spread=0.2, measure="tag on the axle; turns of the shaft for one turn of both wheels")
    tyre_radius: Real = declare(
        "rolling radius of the driven tyres", LENGTH, hard=(0.15, 1.0), plausible=(0.22, 0.9), typical=0.345,
        spread=0.01, measure="hub centre to the ground, loaded")
    top_ratio: Real = declare(
        "ratio of the highest gear", NUMBER, hard=(0.4, 3.0), plausible=(0.6, 1.2), typical=1.0, spread=0.0,
        measure="handbook; overdrive is below 1")
    second_ratio: Real = declare(
        "ratio of the next lower gear", NUMBER, hard=(0.5, 6.0), plausible=(1.0, 2.0), typical=1.48, spread=0.03,
        measure="handbook")
    third_ratio: Real = declare(
        "ratio of the gear below that", NUMBER, hard=(0.8, 12.0), plausible=(1.4, 4.0), typical=2.48, spread=0.05,
        measure="handbook")
    efficiency: Real = declare(
        "share of the power that reaches the wheels, converter slip not counted", FRACTION, hard=(0.5, 0.99),
        plausible=(0.8, 0.96), typical=0.89, spread=0.015,
        measure="not measured: automatic 0.88, manual 0.92, typical, no source")
    stall_speed: Real = declare(
        "engine speed with the converter stalled at full load", ROTATION, hard=(10, 80), plausible=(22, 50),
        typical=30, spread=2.5, measure="handbook; do not try it on a hot engine")
    lock_up: Real = declare_yes_no(
        "converter locks in the highest gear", typical=False,
        measure="handbook; the speed drops once more after the last shift")
    gearbox_mass: Real = declare(
        "mass of the gearbox with its fluid", MASS, hard=(3, 1500), plausible=(20, 250), typical=75, spread=0.25,
        relative=True, measure="handbook; typical, no source")
    # fmt: on

    def turbine_speed(self, *, speed: Real, ratio: Real) -> Real:
        """Speed of the gearbox input [1/s] at a road speed [m/s] in a gear ratio [1]."""
        return speed * ratio * self.axle_ratio / (2.0 * math.pi * self.tyre_radius)

    def slip(self, *, load: Real, speed: Real) -> Real:
        """Slip of an open converter [1] at a load [1] and an engine speed [1/s].

        The speed at which the converter stalls goes with the root of the moment; the slip falls with the fourth
        power of the speed above it. Judgement, within the 2 to 5 % of cruising and 5 to 15 % of climbing that are told.
        """
        xp = namespace(load, speed, self.stall_speed)
        x = self.stall_speed * xp.sqrt(xp.clip(load, 0.0, 1.2) + 1e-9) / speed
        return xp.minimum(x * x * x * x, 0.6)

    def choose(
        self, *, speed: Real, wheel_power: Real, gear: Real, engine: Engine, rho: Real
    ) -> tuple[Real, Real, Real]:
        """Engine speed [1/s], power at the crankshaft for the wheels [W], heat left in the gearbox and converter [W].

        Parameters
        ----------
        speed : road speed [m/s]
        wheel_power : power at the driven wheels, never negative [W]
        gear : 0 the highest that holds the speed, unless the next one races; 1 highest, 2 next, 3 below that [1]
        engine : the engine that must give the power
        rho : density of the air [kg/m3]
        """
        xp = namespace(speed, wheel_power, gear, rho, self.axle_ratio)
        shaft_power = wheel_power / self.efficiency
        chosen = self.third_ratio
        for number, ratio, lower in (
            (2.0, self.second_ratio, self.third_ratio),
            (1.0, self.top_ratio, self.second_ratio),
        ):
            n = self.turbine_speed(speed=speed, ratio=ratio)
            holds = shaft_power <= HELD_LOAD * engine.most_power(speed=xp.maximum(n, 1.0), rho=rho)
            turns = n >= LEAST_SPEED * engine.idle_speed
            too_fast = self.turbine_speed(speed=speed, ratio=lower) > engine.top_speed
            chosen = xp.where(xp.where(gear > 0.5, gear <= number + 0.5, (holds & turns) | too_fast), ratio, chosen)
        turbine = self.turbine_speed(speed=speed, ratio=chosen)
        locked = self.lock_up * xp.where(chosen <= self.top_ratio, 1.0, 0.0)
        open_converter = xp.where(self.kind > 0.5, 1.0 - locked, 0.0)
        n = xp.maximum(turbine, engine.idle_speed)
        slip = 0.0 * n
        for _ in range(4):
            load = shaft_power / (1.0 - slip) / engine.most_power(speed=n, rho=rho)
            slip = self.slip(load=load, speed=n) * open_converter
            n = xp.maximum(turbine / (1.0 - slip), engine.idle_speed)
        power = shaft_power / (1.0 - slip)
        in_fluid = xp.where(self.kind > 0.5, IN_AUTOMATIC_FLUID, IN_MANUAL_OIL)
        return n, power, in_fluid * (power - wheel_power)

    def standing_drag(self, *, engine: Engine, in_gear: Real, rho: Real) -> Real:
        """Power turned into heat in the stalled converter at idle in gear [W]."""
        xp = namespace(in_gear, rho, self.stall_speed)
        n = engine.idle_speed
        share = (n / self.stall_speed) * (n / self.stall_speed)
        drag = share * engine.most_power(speed=n, rho=rho)
        return xp.where(self.kind > 0.5, in_gear * drag, 0.0)
