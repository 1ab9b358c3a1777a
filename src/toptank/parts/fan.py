"""The fan: blades, what drives them and how fast it may turn."""

from dataclasses import dataclass
from math import pi

from toptank.equations.fan import driven_speed, fan_pressure, fan_torque, wind_torque
from toptank.equations.viscous_clutch import slip_torque_gain
from toptank.units.arrays import Real, namespace
from toptank.units.declaration import declare, declare_choice, declare_yes_no
from toptank.units.dimension import COUNT, FRACTION, LENGTH, NUMBER, ROTATION, TEMPERATURE

RIGID_RATIO = 0.995
"""Driven over driving speed of a fan bolted to its pulley [1]."""

MOTOR_RATIO = 0.85
"""Loaded over no-load speed of a healthy electric fan [1]; judgement."""

FED, LEFT_UNFED = 0.2, 0.01
"""Share of a motor's no-load speed above which it holds its blades to it; share of that hold left without current [1];
judgement."""

CLEAR_OF_PUSH = 1.15
"""Least of `free_running` over the root of what is left of the pressure [1]; judgement.

Blades that nothing drives are in the air's way, whatever gap and doubt leave of their pressure."""

LEAST_POWER = 0.6
"""Power coefficient over pressure x flow coefficient x left^1.5 below which blades cannot be [1].

By the curve below it, some flow would take more of the blades than they take of the shaft: no car fan comes near."""

MOST_WIND_POWER = 3.2
"""Power coefficient over pressure x flow coefficient beyond which wind is not helped further [1].

Beyond it, blades in the wind would give their drive more than the air loses."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fan:
    """One engine-driven fan, or one or more electric fans side by side."""

    # fmt: off
    drive: Real = declare_choice(
        "what drives the fan", ("viscous clutch", "bolted to the pulley", "electric"), typical="viscous clutch",
        measure="finned hub with a coil or spring in front: clutch; plain hub: bolted; motor: electric")
    diameter: Real = declare(
        "diameter over the blade tips", LENGTH, hard=(0.15, 1.2), plausible=(0.25, 0.75), typical=0.457, spread=0.012,
        measure="tape from the hub centre to a tip, doubled")
    count: Real = declare(
        "number of fans side by side", COUNT, hard=(1, 3), plausible=(1, 2), typical=1, spread=0.0,
        measure="count them")
    belt_ratio: Real = declare(
        "fan pulley speed over engine speed", NUMBER, hard=(0.3, 3.0), plausible=(0.8, 1.6), typical=1.0,
        spread=0.06, relative=True, measure="crank pulley diameter over fan pulley diameter")
    belt_slip: Real = declare(
        "share of speed lost by the slipping belt", FRACTION, hard=(0.0, 0.99), plausible=(0.0, 0.5), typical=0.0,
        spread=0.01, measure="turn the pulley by hand, engine off: it must not slip; optical tachometer")
    motor_speed: Real = declare(
        "speed of an electric fan without load", ROTATION, hard=(10, 100), plausible=(25, 60), typical=40, spread=4,
        measure="optical tachometer on the bench; maker's print")
    supply: Real = declare(
        "voltage at the motor over its rated voltage", FRACTION, hard=(0.0, 1.3), plausible=(0.7, 1.1), typical=0.97,
        spread=0.04, measure="voltmeter at the motor plug, fan running")
    switch_on: Real = declare(
        "coolant temperature at which the electric fan runs all the time", TEMPERATURE, hard=(323, 400),
        plausible=(343, 380), typical=366, spread=3, measure="stamped on the switch; thermometer and test lamp")
    switch_off: Real = declare(
        "coolant temperature at which the electric fan stops", TEMPERATURE, hard=(313, 395), plausible=(338, 375),
        typical=360, spread=3, measure="stamped on the switch; thermometer and test lamp")
    first_stage: Real = declare(
        "speed of the electric fan's first stage over full speed; 100 %: one stage only", FRACTION, hard=(0.2, 1.0),
        plausible=(0.4, 1.0), typical=1.0, spread=0.0,
        measure="listen: two speeds, or one of two fans first; it comes on halfway between the two temperatures")
    runs_on: Real = declare_yes_no(
        "electric fan can run with the ignition off", typical=False, doubt=0.2,
        measure="shut it down hot: does the fan go on or come on? Hands off")
    with_air_conditioning: Real = declare_yes_no(
        "electric fan runs whenever the air conditioning is on", typical=True,
        measure="switch the air conditioning on, engine cold: does the fan start?")
    pressure_coefficient: Real = declare(
        "pressure of the blades without flow, over density x speed^2 x diameter^2", NUMBER, hard=(0.05, 3.0),
        plausible=(0.3, 1.6), typical=0.86, spread=0.15, relative=True,
        measure="not measured: more and steeper blades give more; typical, no source")
    flow_coefficient: Real = declare(
        "flow of the blades without pressure, over speed x diameter^3", NUMBER, hard=(0.05, 2.0),
        plausible=(0.25, 0.9), typical=0.52, spread=0.12, relative=True, measure="not measured; typical, no source")
    power_coefficient: Real = declare(
        "power of the blades over density x speed^3 x diameter^5", NUMBER, hard=(0.05, 10.0), plausible=(0.3, 4.5),
        typical=1.6, spread=0.25, relative=True, measure="not measured; old fans 3 and more, typical, no source")
    backwards: Real = declare_yes_no(
        "the fan turns or faces the wrong way", typical=False, measure="paper in front of the grille must cling to it")
    strength: Real = declare(
        "share of the blades' pressure that is left (fouled, cut or missing blades)", FRACTION, hard=(0.0, 1.0),
        plausible=(0.3, 1.0), typical=1.0, spread=0.0, measure="look: bent, cut, missing, wrong-handed blades")
    free_running: Real = declare(
        "flow at which wind turns the blades unaided over that at which they raise no pressure", NUMBER,
        hard=(1.02, 2.5), plausible=(1.05, 1.6), typical=1.25, spread=0.1,
        measure="not measured; judgement: the moment of axial blades ends a little beyond their pressure")
    reversed_push: Real = declare(
        "pressure of the blades running backwards over that of running right", FRACTION, hard=(0.0, 0.8),
        plausible=(0.1, 0.5), typical=0.2, spread=0.06,
        measure="not measured; judgement: curved blades the wrong way round push little")
    # fmt: on

    def clutched(self) -> Real:
        """1 where the engine drives it through a viscous clutch [1]."""
        return namespace(self.drive).where(self.drive < 0.5, 1.0, 0.0)

    def electric(self) -> Real:
        """1 where an electric motor drives it [1]."""
        return namespace(self.drive).where(self.drive > 1.5, 1.0, 0.0)

    def mean_share(self, *, T_switch: Real, air_conditioning: Real) -> Real:
        """Mean speed of a switched electric fan over its full speed [1]: between its temperatures it comes and goes.

        Parameters
        ----------
        T_switch : coolant temperature at the fan switch [K]
        air_conditioning : 1 if the air conditioning is on [1]
        """
        xp = namespace(T_switch, self.switch_on)
        share = xp.clip((T_switch - self.switch_off) / self._band(), 0.0, 1.0)
        return xp.maximum(share, self.with_air_conditioning * air_conditioning)

    def switched_share(self, *, T_switch: Real, share: Real) -> Real:
        """Share of full speed [1] to which the switches set the fan from the share at which it runs now [1].

        Full speed comes on at the upper temperature; the first stage, if there are two, halfway. Each stage goes off
        where the one below it comes on, the last at the lower temperature.

        Parameters
        ----------
        T_switch : coolant temperature at the fan switch [K]
        share : what it runs at now, without what the air conditioning asks [1]
        """
        xp = namespace(T_switch, share, self.switch_on)
        on, off = self.switch_off + self._band(), self.switch_off
        two = self.first_stage < 0.999
        between = xp.where(two, 0.5 * (on + off), off)
        runs = share > 0.01
        full = share > xp.where(two, 0.5 * (1.0 + self.first_stage), 0.5)
        low = xp.where(
            T_switch > xp.where(two, between, on), 1.0, xp.where(T_switch < off, 0.0, xp.where(runs, 1.0, 0.0))
        )
        high = xp.where(T_switch > on, 1.0, xp.where(T_switch < between, 0.0, xp.where(full, 1.0, 0.0)))
        return xp.maximum(self.first_stage * low * xp.where(two, 1.0, 0.0), high)

    def drive_speed(self, *, engine_speed: Real, share: Real) -> Real:
        """Speed the fan would reach without slip [1/s]: pulley speed, or the motor's no-load speed.

        Parameters
        ----------
        engine_speed : crankshaft speed [1/s]
        share : speed to which an electric fan is switched over its full speed [1]
        """
        xp = namespace(engine_speed, share, self.drive)
        pulley = engine_speed * self.belt_ratio * (1.0 - self.belt_slip)
        return xp.where(self.drive > 1.5, self.motor_speed * self.supply * share, pulley)

    def _band(self) -> Real:
        return namespace(self.switch_on).maximum(self.switch_on - self.switch_off, 0.5)

    def speed(
        self, *, drive_speed: Real, clutch_ratio: Real, reference_speed: Real, U: Real, rho: Real, left: Real
    ) -> Real:
        """Speed of the blades [1/s] from the balance of driving and braking moment.

        Parameters
        ----------
        drive_speed : speed without slip [1/s]
        clutch_ratio : driven over driving speed that the viscous clutch reaches at the reference speed [1]
        reference_speed : shaft speed at which that ratio holds [1/s]
        U : speed of the air through the blades [m/s]
        rho : density of the air at the fan [kg/m3]
        left : share of the pressure left by the gap at the blade tips and by doubt of the curve [1]
        """
        xp = namespace(drive_speed, clutch_ratio, U, self.drive)
        ratio = xp.where(self.drive > 1.5, MOTOR_RATIO, xp.where(self.drive > 0.5, RIGID_RATIO, clutch_ratio))
        at = xp.where(self.drive > 1.5, self.motor_speed, reference_speed)
        # The moment of slip belongs to the clutch, not to the day or to a broken blade: it is set with all blades, at
        # the density of a mild day.
        k = slip_torque_gain(r=ratio, N_ref=at, rho=1.15, D=self.diameter, c_P=self.power_coefficient)
        # A motor without current is no brake: the wind turns it against its bearings alone.
        fed = xp.clip(drive_speed / (FED * self.motor_speed), LEFT_UNFED, 1.0)
        k = k * xp.where(self.drive > 1.5, fed, 1.0)
        c_P, c_w = self._moments(left)
        return driven_speed(N_in=drive_speed, k=k, rho=rho, D=self.diameter, c_P=c_P, c_w=c_w, U=U)

    def _moments(self, left: Real) -> tuple[Real, Real]:
        """Power coefficient and wind-milling coefficient of the blades that are there [1].

        Held so that no fan gives the air more power than it takes, and none takes more from the wind than that loses.
        """
        xp = namespace(left, self.power_coefficient, self.pressure_coefficient, self.free_running)
        air = self.pressure_coefficient * self.flow_coefficient
        c_P = xp.maximum(self.power_coefficient, LEAST_POWER * air * left * xp.sqrt(left))
        # U / (N D) is 4/pi of the flow coefficient Q / (N D^3)
        unaided = xp.maximum(self.free_running, CLEAR_OF_PUSH * xp.sqrt(left)) * self.flow_coefficient * (4.0 / pi)
        c_w = xp.minimum(c_P, MOST_WIND_POWER * air) / (unaided * unaided)
        return c_P * self.strength, c_w * self.strength

    def push(self, *, speed: Real, rho: Real, left: Real) -> Real:
        """Pressure that the turning blades would raise without flow [Pa]; negative where they blow against the nose.

        Parameters
        ----------
        speed : speed of the blades [1/s]
        rho : density of the air at the fan [kg/m3]
        left : share of the pressure left by the gap at the blade tips and by doubt of the curve [1]
        """
        xp = namespace(speed, rho, left, self.backwards)
        dead_head = fan_pressure(
            rho=rho, N=speed, D=self.diameter, Q=0.0, psi_0=self.pressure_coefficient, phi_0=self.flow_coefficient
        )
        return dead_head * xp.where(self.backwards > 0.5, -self.reversed_push, 1.0) * left * self.strength

    def hindrance(self, *, flow: Real, rho: Real) -> Real:
        """Pressure that a flow through the blades takes off their push [Pa].

        Parameters
        ----------
        flow : air through all fans [m3/s]
        rho : density of the air at the fan [kg/m3]
        """
        resistance = fan_pressure(
            rho=rho,
            N=0.0,
            D=self.diameter,
            Q=flow / self.count,
            psi_0=self.pressure_coefficient,
            phi_0=self.flow_coefficient,
        )
        return -resistance * self.strength

    def pressure(self, *, speed: Real, flow: Real, rho: Real, left: Real) -> Real:
        """Pressure rise over the fan [Pa]; negative where the blades are in the way of the ram air.

        Parameters
        ----------
        speed : speed of the blades [1/s]
        flow : air through all fans [m3/s]
        rho : density of the air at the fan [kg/m3]
        left : share of the pressure left by the gap at the blade tips and by doubt of the curve [1]
        """
        return self.push(speed=speed, rho=rho, left=left) - self.hindrance(flow=flow, rho=rho)

    def power(self, *, speed: Real, drive_speed: Real, U: Real, rho: Real, left: Real) -> Real:
        """Power that all fans take [W]: of the shaft that drives them; of an electric fan, at the blades.

        A belt gives the moment of the blades at its own speed: what slips away in the clutch is heat that the engine
        pays. The loss of a motor is part of the electric chain. A fan that the wind turns takes nothing.

        Parameters
        ----------
        speed, drive_speed : speed of the blades, speed without slip [1/s]
        U : speed of the air through the blades [m/s]
        rho : density of the air at the fan [kg/m3]
        left : share of the pressure left by the gap at the blade tips and by doubt of the curve [1]
        """
        xp = namespace(speed, drive_speed, U, rho, self.drive)
        c_P, c_w = self._moments(left)
        moment = fan_torque(rho, speed, self.diameter, c_P) - wind_torque(rho, self.diameter, c_w, U)
        paid = xp.where(self.drive > 1.5, speed, drive_speed)
        return 2.0 * pi * xp.maximum(moment, 0.0) * paid * self.count
