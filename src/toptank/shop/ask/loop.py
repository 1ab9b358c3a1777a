"""The cooling loop of one vehicle at one duty, as figures to draw: temperatures, flows, heats, and what is fitted."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

import numpy as np

from toptank.system.balance import Status

if TYPE_CHECKING:
    from toptank.system.balance import Balance
    from toptank.system.duty import Duty
    from toptank.system.vehicle import Vehicle

FanDrive = Literal["viscous clutch", "bolted to the pulley", "electric"]
CoolerPlace = Literal["none", "in the tank", "ahead of the core", "out of the core's air"]

FAN_DRIVES: tuple[FanDrive, ...] = ("viscous clutch", "bolted to the pulley", "electric")
COOLER_PLACES: tuple[CoolerPlace, ...] = ("none", "in the tank", "ahead of the core", "out of the core's air")


@dataclass(frozen=True, slots=True, kw_only=True)
class Loop:
    """Temperatures [K], flows [m3/s], heats and powers [W], velocities [m/s], speeds [1/s], shares [1].

    Parameters
    ----------
    T_engine_out, T_bottom_hose, T_engine_in, T_gauge, T_boiling : coolant on its way round, and where it boils
    T_ambient, T_core_air_in, T_core_air_out : air on its way through
    T_transmission, T_condensing : of the other fluids
    core_flow, bypass_flow : coolant through the core, and round it
    opening : of the thermostat over full
    V_fan_zone, V_ram_zone, fan_zone : air ahead of the core under the fan and beside it, share of the face under it
    fan_speed, engine_speed, fan_power, engine_power : of blades and crankshaft
    engine_heat, core_heat, surface_heat, heater_heat, transmission_heat : into and out of the coolant; the last is
        what a cooler in the tank gives to it
    condenser_heat : into the air ahead of the core
    boils, short_of_power, unbalanced : how the balance ended
    """

    T_engine_out: float
    T_bottom_hose: float
    T_engine_in: float
    T_gauge: float
    T_boiling: float
    T_ambient: float
    T_core_air_in: float
    T_core_air_out: float
    T_transmission: float
    T_condensing: float
    core_flow: float
    bypass_flow: float
    opening: float
    V_fan_zone: float
    V_ram_zone: float
    fan_zone: float
    fan_speed: float
    engine_speed: float
    fan_power: float
    engine_power: float
    engine_heat: float
    core_heat: float
    surface_heat: float
    heater_heat: float
    transmission_heat: float
    condenser_heat: float
    boils: bool
    short_of_power: bool
    unbalanced: bool
    heater_on: bool
    air_conditioning_on: bool
    has_shroud: bool
    has_condenser: bool
    crossflow: bool
    passes: int
    fans: int
    fan_drive: FanDrive
    cooler: CoolerPlace


def loop_of(vehicle: Vehicle, duty: Duty, balance: Balance) -> Loop:
    """Collect the figures of one settled vehicle."""

    def one(value: object) -> float:
        return float(np.asarray(value, float).reshape(-1)[0])

    def taken(*names: str) -> dict[str, float]:
        return {name: one(getattr(balance, name)) for name in names}

    core, fan, status = vehicle.core, vehicle.fan, Status(int(one(balance.status)))
    share = vehicle.shroud.fan_share(
        fan_diameter=fan.diameter,
        fans=fan.count,
        face_area=core.face_area(),
        widening=vehicle.doubts.bare_fan_widening,
    )
    temperatures = taken(
        "T_engine_out", "T_bottom_hose", "T_engine_in", "T_gauge", "T_boiling", "T_core_air_in", "T_core_air_out",
        "T_transmission", "T_condensing",
    )  # fmt: skip
    flows = taken("core_flow", "bypass_flow", "V_fan_zone", "V_ram_zone", "fan_speed", "engine_speed")
    heats = taken(
        "fan_power", "engine_power", "engine_heat", "core_heat", "surface_heat", "heater_heat", "transmission_heat",
        "condenser_heat",
    )  # fmt: skip
    return Loop(
        **temperatures,
        **flows,
        **heats,
        T_ambient=one(duty.ambient),
        opening=one(balance.thermostat_opening),
        fan_zone=one(share),
        boils=status == Status.BOILS,
        short_of_power=status == Status.SHORT_OF_POWER,
        unbalanced=status >= Status.NO_BALANCE,
        heater_on=one(duty.heater) > 0.5,
        air_conditioning_on=one(duty.air_conditioning) > 0.5 and one(vehicle.condenser.present) > 0.5,
        has_shroud=one(vehicle.shroud.present) > 0.5,
        has_condenser=one(vehicle.condenser.present) > 0.5,
        crossflow=one(core.arrangement) > 0.5,
        passes=round(one(core.passes)),
        fans=round(one(fan.count)),
        fan_drive=FAN_DRIVES[round(one(fan.drive))],
        cooler=COOLER_PLACES[round(one(vehicle.transmission_cooler.place))],
    )
