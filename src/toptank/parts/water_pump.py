"""The water pump, its belt and how well the loop feeds it."""

from dataclasses import dataclass

from toptank.equations.pump import pump_pressure
from toptank.units.arrays import Real, namespace
from toptank.units.declaration import declare
from toptank.units.dimension import FLOW, FRACTION, NUMBER, PRESSURE

STATED_SPEED = 2000.0 / 60.0
"""Pump speed at which head and flow are stated [1/s]."""

FULL_HEAD_MARGIN = 25e3
"""Pressure above boiling at the pump eye that keeps the full head [Pa]: 2 to 5 psi, from memory."""

CAVITATING_SHARE = 0.6
"""Share of the head lost when the eye is at the boiling point [1]; judgement."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WaterPump:
    """A centrifugal pump on a belt."""

    # fmt: off
    belt_ratio: Real = declare(
        "pump speed over engine speed", NUMBER, hard=(0.3, 3.0), plausible=(0.8, 1.6), typical=1.05, spread=0.06,
        relative=True, measure="crank pulley diameter over pump pulley diameter")
    belt_slip: Real = declare(
        "share of speed lost by the slipping belt", FRACTION, hard=(0.0, 0.99), plausible=(0.0, 0.5), typical=0.0,
        spread=0.01, measure="turn the pulley by hand, engine off: it must not slip")
    dead_head: Real = declare(
        "pressure rise without flow at 2,000 rpm of the pump", PRESSURE, hard=(2e3, 3e5), plausible=(1e4, 1e5),
        typical=35e3, spread=0.2, relative=True, measure="not measured: 4 to 6 psi for a V8, typical, no source")
    free_flow: Real = declare(
        "flow without resistance at 2,000 rpm of the pump", FLOW, hard=(1e-4, 3e-2), plausible=(8e-4, 1e-2),
        typical=4.2e-3, spread=0.2, relative=True, measure="not measured; typical, no source")
    wear: Real = declare(
        "share of the head lost to worn or rusted vanes", FRACTION, hard=(0.0, 0.9995), plausible=(0.0, 0.6),
        typical=0.03, spread=0.03, measure="pump off: vane height and gap to the housing")
    # fmt: on

    def speed(self, *, engine_speed: Real) -> Real:
        """Speed of the pump [1/s] at an engine speed [1/s]."""
        return engine_speed * self.belt_ratio * (1.0 - self.belt_slip)

    def head_left(self, *, eye_margin: Real) -> Real:
        """Share of the head left by cavitation [1] for the pressure above boiling at the pump eye [Pa]."""
        xp = namespace(eye_margin, self.wear)
        short = xp.clip(1.0 - eye_margin / FULL_HEAD_MARGIN, 0.0, 1.0)
        return 1.0 - CAVITATING_SHARE * short * short * (3.0 - 2.0 * short)

    def pressure(self, *, speed: Real, flow: Real) -> Real:
        """Pressure rise of a healthy pump [Pa] at a speed [1/s] and a flow [m3/s]."""
        return pump_pressure(N=speed, Q=flow, p_0=self.dead_head, N_0=STATED_SPEED, Q_0=self.free_flow)
