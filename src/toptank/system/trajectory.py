"""The course of a drive: every temperature against time, how it ended, and one sentence of reason."""

from dataclasses import dataclass

from toptank.system.balance import Status
from toptank.system.numerics.jax_library import jax
from toptank.units.arrays import Real, namespace

AT_THE_BOIL = 1e-6
"""How near to its boiling point the coolant is held when it boils [K]."""


WIDE_OPEN = 0.999
"""Opening over full beyond which a thermostat regulates no more [1]."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Trajectory:
    """Temperatures [K] at each time, and flows, heats [W] and speeds over the step that begins there.

    Every field but `status` has the axis (step,), for draws (draw, step). Heats are means over the step that close the
    balance of `stored_heat` [J] to rounding. `coolant_lost` is the share of the system's volume that went past the cap.
    """

    T_engine_out: Real
    T_gauge: Real
    T_bottom_hose: Real
    T_metal: Real
    T_oil: Real
    T_transmission: Real
    T_boiling: Real
    T_core_air_in: Real
    T_coil: Real
    thermostat_opening: Real
    core_flow: Real
    clutch_ratio: Real
    fan_speed: Real
    V_fan_zone: Real
    V_ram_zone: Real
    engine_speed: Real
    engine_power: Real
    power_short: Real
    compressor_power: Real
    engine_heat: Real
    gearbox_heat_made: Real
    core_heat: Real
    surface_heat: Real
    heater_heat: Real
    gearbox_heat: Real
    expelled_heat: Real
    stored_heat: Real
    coolant_lost: Real

    def boils(self) -> Real:
        """1 at each time at which the coolant stands at its boiling point [1]."""
        xp = namespace(self.T_engine_out)
        return xp.where(self.T_engine_out >= self.T_boiling - AT_THE_BOIL, 1.0, 0.0)

    def status(self) -> Real:
        """The worst status that the drive comes to, as a steady balance has it; `NO_BALANCE` never applies."""
        xp = namespace(self.T_engine_out)
        open_at_most = xp.max(self.thermostat_opening, axis=-1)
        status = xp.where(open_at_most > WIDE_OPEN, Status.SETTLED, Status.REGULATED)
        status = xp.where(xp.max(self.power_short, axis=-1) > 0.0, Status.SHORT_OF_POWER, status)
        return xp.where(xp.max(self.boils(), axis=-1) > 0.5, Status.BOILS, status)


jax.tree_util.register_dataclass(Trajectory)


def reason(course: Trajectory, *, step: float) -> str:
    """One sentence that says how the drive of one vehicle went; `step` is the profile's [s]."""
    status = Status(int(course.status()))
    hottest = int(course.T_gauge.argmax())
    when = f"{hottest * step / 60.0:.0f} minutes after the start"
    if status == Status.BOILS:
        first = int(course.boils().argmax()) * step / 60.0
        lost = 100.0 * float(course.coolant_lost[-1])
        gone = f"; {lost:.0f} % of the coolant goes past the cap" if lost >= 0.5 else ""
        return f"The coolant reaches its boiling point under this cap {first:.0f} minutes after the start{gone}."
    if status == Status.SHORT_OF_POWER:
        return f"The drive asks more power than the engine has; the gauge is highest {when}."
    if status == Status.REGULATED:
        return "The thermostat holds the temperature all the way: there is capacity to spare."
    return f"The thermostat stands wide open for a while; the gauge is highest {when}."
