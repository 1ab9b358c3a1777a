"""What an instrument would read on a possible vehicle: the checks of which the model itself can speak.

Each measure names the standing duties that it compares; the balances at them are settled once for all measures.
"""

import dataclasses
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType

from toptank.system.balance import Balance
from toptank.system.duty import HEATER_FULL, Duty
from toptank.system.vehicle import Vehicle
from toptank.units.arrays import Real
from toptank.units.dimension import AIR_SPEED, FRACTION, TEMPERATURE, TEMPERATURE_RISE, Dimension

FAST_IDLE = 2000.0 / 60.0
"""Engine speed of a raised idle [1/s]."""

COIL_OF_A_BLOCKED_CORE = 355.4
"""Air temperature at the clutch with the core covered until it should have engaged: 180 degF [K]."""


class IdleCondition(StrEnum):
    """Duties at which instruments are read, all at standstill with a hot engine; texts, so that JAX can sort them."""

    IDLE = "idle"
    FAST_IDLE = "fast idle"
    COOLED = "idle, air conditioning on"
    HEATED = "idle, heater on"


def idle_duty(standing: IdleCondition, outside: Duty) -> Duty:
    """The duty on the day of another one: its air, nothing else of it."""
    still = {"speed": 0.0, "grade": 0.0, "gear": 0.0, "shaft_load": 0.0, "trailer_mass": 0.0, "trailer_drag_area": 0.0}
    off = {"air_conditioning": 0.0, "heater": 0.0, "in_gear": 0.0, "engine_speed": 0.0, "head_wind": 0.0}
    on = {
        IdleCondition.IDLE: {},
        IdleCondition.FAST_IDLE: {"engine_speed": FAST_IDLE},
        IdleCondition.COOLED: {"air_conditioning": 1.0},
        IdleCondition.HEATED: {"heater": HEATER_FULL},
    }[standing]
    return dataclasses.replace(outside, **(still | off | on))


Balances = Mapping[IdleCondition, Balance]


@dataclass(frozen=True, slots=True)
class Measure:
    """A figure to be read: its kind, the duties it needs, what it is for vehicle, balances and air outside [K]."""

    dimension: Dimension
    at: tuple[IdleCondition, ...]
    of: Callable[[Vehicle, Balances, Real], Real]


def _gauge_error(vehicle: Vehicle, _at: Balances, _ambient: Real) -> Real:
    return vehicle.gauge.sender_offset + vehicle.gauge.error


def _engaged(vehicle: Vehicle, _at: Balances, _ambient: Real) -> Real:
    return vehicle.fan_clutch.ratio(T_coil=COIL_OF_A_BLOCKED_CORE) * (1.0 - vehicle.fan.belt_slip)


def _change(of: IdleCondition) -> Callable[[Vehicle, Balances, Real], Real]:
    return lambda _v, at, _a: at[of].T_gauge - at[IdleCondition.IDLE].T_gauge


MEASURES: Mapping[str, Measure] = MappingProxyType(
    {
        "gauge_error": Measure(TEMPERATURE_RISE, (), _gauge_error),
        "core_drop": Measure(
            TEMPERATURE_RISE, (IdleCondition.IDLE,),
            lambda _v, at, _a: at[IdleCondition.IDLE].T_top_tank - at[IdleCondition.IDLE].T_bottom_hose,
        ),
        "bottom_hose": Measure(
            TEMPERATURE, (IdleCondition.IDLE,), lambda _v, at, _a: at[IdleCondition.IDLE].T_bottom_hose
        ),
        "fast_idle_change": Measure(
            TEMPERATURE_RISE, (IdleCondition.IDLE, IdleCondition.FAST_IDLE), _change(IdleCondition.FAST_IDLE)
        ),
        "air_conditioning_change": Measure(
            TEMPERATURE_RISE, (IdleCondition.IDLE, IdleCondition.COOLED),
            lambda _v, at, _a: at[IdleCondition.IDLE].T_gauge - at[IdleCondition.COOLED].T_gauge,
        ),
        "heater_change": Measure(
            TEMPERATURE_RISE, (IdleCondition.IDLE, IdleCondition.HEATED), _change(IdleCondition.HEATED)
        ),
        "fan_speed_ratio": Measure(FRACTION, (), _engaged),
        "face_velocity": Measure(
            AIR_SPEED, (IdleCondition.COOLED,),  # with the air conditioning on an electric fan runs
            lambda v, at, _a: at[IdleCondition.COOLED].V_fan_zone * (1.0 - v.core.blocked_face),
        ),
        "front_air_rise": Measure(
            TEMPERATURE_RISE,
            (IdleCondition.IDLE,),
            lambda _v, at, ambient: at[IdleCondition.IDLE].T_core_air_in - ambient,
        ),
    }
)  # fmt: skip
"""Name in checks.toml -> measure."""
