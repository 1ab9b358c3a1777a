"""The answer of a steady balance: where everything settles, and one sentence of reason."""

from dataclasses import dataclass
from enum import IntEnum

from toptank.system.numerics.jax_library import jax
from toptank.units.arrays import Real

EQUATIONS_VERSION = "2026.5"
"""Changes whenever a number can move; kept with every forecast so that it can be explained later."""


class Status(IntEnum):
    """How a balance ended. The worst one that applies is given."""

    REGULATED = 0  # the thermostat holds the temperature
    SETTLED = 1  # thermostat wide open, capacity decides
    SHORT_OF_POWER = 2  # the duty asks more power or speed than the engine has; heat is that of full load at most
    BOILS = 3  # settles above the boiling point under this cap
    NO_BALANCE = 4  # the heat cannot be shed below the highest temperature looked at
    NOT_FOUND = 5  # the search stopped short of a balance: figures at the end of all limits together


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Balance:
    """Temperatures [K], flows [m3/s], heats and powers [W], pressures [Pa], speeds [1/s], velocities [m/s].

    Each field is a number for one vehicle, or an array with one value a draw.
    """

    T_engine_out: Real
    T_top_tank: Real
    T_bottom_hose: Real
    T_engine_in: Real
    T_gauge: Real
    T_transmission: Real
    T_boiling: Real
    T_core_air_in: Real
    T_core_air_out: Real
    T_coil: Real
    T_condensing: Real
    core_flow: Real
    bypass_flow: Real
    thermostat_opening: Real
    tube_reynolds: Real
    core_pressure_drop: Real
    eye_margin: Real
    pump_head_left: Real
    air_capacity_rate: Real
    V_fan_zone: Real
    V_ram_zone: Real
    fan_speed: Real
    clutch_ratio: Real
    fan_power: Real
    engine_speed: Real
    engine_power: Real
    engine_load: Real
    power_short: Real
    fuel_power: Real
    engine_heat: Real
    oil_heat: Real
    transmission_heat: Real
    core_heat: Real
    surface_heat: Real
    heater_heat: Real
    condenser_heat: Real
    compressor_power: Real
    heat_imbalance: Real
    status: Real

    def margin_to_boiling(self) -> Real:
        """How far the hottest coolant is below boiling under this cap [K]; negative: it boils."""
        return self.T_boiling - self.T_engine_out


jax.tree_util.register_dataclass(Balance)


def reason(balance: Balance) -> str:
    """One sentence that says which limit was met and which part to look at, for the balance of one vehicle."""
    status = Status(int(balance.status))
    if status == Status.NO_BALANCE:
        return "The heat cannot be shed at any temperature looked at: air or coolant flow has all but stopped."
    if status == Status.NOT_FOUND:
        return "No balance was found: several figures lie at the end of what is possible. Check the unusual ones."
    if status == Status.BOILS:
        return "The heat settles above the boiling point under this cap: it boils before it balances."
    if status == Status.SHORT_OF_POWER:
        return "The duty asks more power or speed than the engine has: it cannot be held as stated."
    if status == Status.REGULATED:
        share = round(100 * float(balance.thermostat_opening))
        return f"The thermostat is {share} % open and holds the temperature: there is capacity to spare."
    if float(balance.pump_head_left) < 0.97:
        return "Thermostat wide open; the pump is starved near the boiling point, which costs coolant flow."
    if float(balance.tube_reynolds) < 2300:
        return "Thermostat wide open; slow, laminar coolant in the tubes holds back the heat as much as the air does."
    return "Thermostat wide open; the heat that core and air can carry decides the temperature."
