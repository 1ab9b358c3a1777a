"""What follows late or sticks: wax of the thermostat, coil and fluid of the fan clutch, switches of an electric fan."""

from typing import NamedTuple

from toptank.system.duty import Duty
from toptank.system.numerics.jax_library import jnp
from toptank.system.sides.air_side import FanHeld
from toptank.system.vehicle import Vehicle
from toptank.units.arrays import Real


class ActuatorState(NamedTuple):
    """Where the slow and sticking parts stand.

    T_wax, T_coil : temperatures of wax and clutch, behind those of coolant and air [K]
    wax_set, coil_set : temperatures at which they stand open, engaged, as far as their play has let them follow [K]
    stage : share of full speed to which its switches set an electric fan [1]
    T_sender : temperature of the gauge's sender [K]
    """

    T_wax: Real
    wax_set: Real
    T_coil: Real
    coil_set: Real
    stage: Real
    T_sender: Real

    @classmethod
    def settled(cls, vehicle: Vehicle, *, T_engine_out: Real, T_coil: Real, T_sender: Real) -> "ActuatorState":
        """Where they stand after long rising to, and long standing at, these temperatures [K]."""
        clutch = vehicle.fan_clutch
        return cls(
            T_wax=T_engine_out,
            wax_set=T_engine_out,
            T_coil=T_coil,
            coil_set=clutch.set_temperature(T_coil=T_coil, stood=jnp.where(clutch.snaps > 0.5, clutch.engages, T_coil)),
            stage=vehicle.fan.switched_share(T_switch=T_engine_out, share=jnp.zeros_like(T_engine_out)),
            T_sender=T_sender,
        )

    def opening(self, vehicle: Vehicle) -> Real:
        """Opening of the thermostat over full [1]."""
        return vehicle.thermostat.opening(T=self.wax_set)

    def fan_held(self, vehicle: Vehicle, duty: Duty, running: Real) -> FanHeld:
        """Where clutch and switches stand; without the engine, only a fan wired so runs on."""
        asked = vehicle.fan.with_air_conditioning * duty.air_conditioning * running
        wired = jnp.maximum(running, vehicle.fan.runs_on)
        return FanHeld(
            clutch_ratio=vehicle.fan_clutch.ratio(T_coil=self.coil_set),
            share=jnp.maximum(self.stage * wired, asked),
        )

    def after(self, vehicle: Vehicle, *, T_engine_out: Real, T_coil: Real, T_sender: Real, dt: Real) -> "ActuatorState":
        """Where they stand a step later, with coolant, coil's air and sender's place at these temperatures [K]."""
        thermostat, clutch = vehicle.thermostat, vehicle.fan_clutch
        wax = T_engine_out + (self.T_wax - T_engine_out) * jnp.exp(-dt / thermostat.lag)
        coil = T_coil + (self.T_coil - T_coil) * jnp.exp(-dt / clutch.lag)
        return ActuatorState(
            T_wax=wax,
            wax_set=thermostat.set_temperature(T_wax=wax, stood=self.wax_set),
            T_coil=coil,
            coil_set=clutch.set_temperature(T_coil=coil, stood=self.coil_set),
            stage=vehicle.fan.switched_share(T_switch=T_engine_out, share=self.stage),
            T_sender=T_sender + (self.T_sender - T_sender) * jnp.exp(-dt / vehicle.gauge.lag),
        )
