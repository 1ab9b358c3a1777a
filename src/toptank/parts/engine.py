"""The engine: power asked, fuel burnt, heat given to the coolant."""

from dataclasses import dataclass
from math import radians
from typing import NamedTuple

from toptank.equations.engine_heat import friction_heat, gas_film_heat
from toptank.equations.spark_timing import work_left
from toptank.equations.willans import brake_mean_pressure, fuel_power
from toptank.units.arrays import Real, namespace
from toptank.units.declaration import declare, declare_choice
from toptank.units.dimension import (
    ANGLE,
    AREA,
    CONDUCTANCE,
    COUNT,
    DISPLACEMENT,
    FRACTION,
    HEAVINESS,
    NUMBER,
    POWER,
    PRESSURE,
    ROTATION,
    TEMPERATURE_RISE,
)

STONE_COLD, HOT_IDLE = 283.15, 333.15
"""Coolant temperatures between which a fast idle comes down to that of a hot engine [K]; judgement."""

RHO_STATED = 1.2
"""Density of the air at which full load is stated [kg/m3]."""

SET_LATE_IDLE, SET_LATE = radians(18.0), radians(6.0)
"""Right timing behind the best for power, at idle and with load [rad].

From memory: idle is set at 5 to 10 degrees before top dead centre where 25 to 30 would be best; with load, knock leaves
a few degrees. A late spark therefore costs an idling engine three times as much."""

IDLE_LOAD = 0.15
"""Load over which the timing leaves what it is at idle [1]; judgement."""

IDLE_CIRCUIT = 10e6
"""Fuel power over swept volume at which a carburettor is halfway between idle and main circuit [W/m3]; judgement."""

FILM_PER_RADIAN = 0.20
"""Growth of the gas film's share per radian of late ignition [1/rad]: 5 to 12 % more heat for 10 degrees."""

EXHAUST_LEAST = 0.12
"""Least share of the fuel's heat that leaves as hot gas [1]: 16 parts of gas to one of fuel, 300 K above the air."""

COOLEST_EXHAUST = 120.0
"""Least that gas leaves a cylinder warmer than it entered [K]: the walls alone warm it by 70 to 100 K; judgement."""

FILLING, HEAT_OF_GAS = 0.9, 1030.0
"""Air drawn over that of the swept volume [1]; heat capacity of thin exhaust [J/(kg K)]."""

MIXTURE_FADES = 0.7
"""How much less a wrong mixture heats an idling engine than a loaded one [1]; common practice, no source."""

INJECTION, DIESEL = 0.02, 0.01
"""Share of the fuel that leaves an injected petrol engine or a diesel unburnt [1]; from memory."""

UNBURNT_LOADED = 0.04
"""The same of a carburettor engine under load [1]; from memory."""


class Burnt(NamedTuple):
    """What becomes of the fuel: fuel power, heat through the gas film, heat of friction [W], load [1]."""

    fuel: Real
    film: Real
    friction: Real
    load: Real


@dataclass(frozen=True, slots=True, kw_only=True)
class Engine:
    """A four-stroke engine, petrol or diesel."""

    # fmt: off
    fuel: Real = declare_choice(
        "fuel", ("petrol", "diesel"), typical="petrol", measure="label at the filler; spark plugs or injectors")
    displacement: Real = declare(
        "swept volume", DISPLACEMENT, hard=(0.0003, 0.03), plausible=(0.0008, 0.012), typical=0.005, spread=0.0001,
        measure="plate, handbook or casting number")
    cylinders: Real = declare(
        "number of cylinders", COUNT, hard=(1, 16), plausible=(2, 12), typical=8, spread=0.0,
        measure="count the plugs or injectors")
    idle_speed: Real = declare(
        "speed at hot idle", ROTATION, hard=(4, 40), plausible=(7, 18), typical=11.2, spread=0.8, measure="tachometer")
    top_speed: Real = declare(
        "highest speed held on a long climb", ROTATION, hard=(15, 150), plausible=(30, 90), typical=66, spread=3.0,
        measure="handbook; speed of rated power")
    full_load_pressure: Real = declare(
        "brake mean effective pressure at full load, sea level", PRESSURE, hard=(2e5, 25e5), plausible=(5e5, 14e5),
        typical=8.0e5, spread=0.07, relative=True, measure="from rated torque: 4 pi torque / swept volume")
    indicated_efficiency: Real = declare(
        "share of the fuel's heat turned into work on the pistons", FRACTION, hard=(0.15, 0.55),
        plausible=(0.25, 0.5), typical=0.345, spread=0.012,
        measure="not measured: petrol 0.33 to 0.36, diesel 0.42 to 0.46")
    friction_pressure: Real = declare(
        "mean pressure lost to friction and pumping", PRESSURE, hard=(0.3e5, 6e5), plausible=(0.8e5, 3e5),
        typical=1.5e5, spread=0.12, relative=True, measure="not measured: 1.3 to 1.9 bar, typical, no source")
    film_share: Real = declare(
        "share of the fuel's heat that goes through cylinder walls, head and ports at a light idle (5 kW a litre)",
        FRACTION, hard=(0.1, 0.8), plausible=(0.25, 0.6), typical=0.43, spread=0.02,
        measure="not measured: 0.36 to 0.48 in six logged vehicles, petrol and diesel alike")
    mixture: Real = declare_choice(
        "what makes the mixture of a petrol engine", ("carburettor", "injection"), typical="carburettor", doubt=0.05,
        measure="look under the air filter: a carburettor, or nozzles and a fuel rail")
    unburnt_idle: Real = declare(
        "share of the fuel that leaves a carburettor engine unburnt at idle", FRACTION, hard=(0.0, 0.4),
        plausible=(0.01, 0.25), typical=0.12, spread=0.03,
        measure="exhaust analyser at hot idle: 1 % CO is about 3.5 %, 3 % CO about 11 %, typical, no source")
    late_ignition: Real = declare(
        "ignition or injection later than right, in crank angle", ANGLE, hard=(-0.35, 0.7), plausible=(-0.1, 0.35),
        typical=0.0, spread=0.035, measure="timing light, vacuum hose off and plugged; then the advance sweep")
    mixture_heat: Real = declare(
        "heat to the coolant under load with this mixture over that with the right one", NUMBER, hard=(0.7, 1.5),
        plausible=(0.9, 1.2), typical=1.0, spread=0.02,
        measure="not measured: lean or rich gives 0.95 to 1.10, typical, no source")
    exhaust_back_pressure: Real = declare(
        "back pressure at full load beyond a healthy exhaust", PRESSURE, hard=(0.0, 2e5), plausible=(0.0, 1e5),
        typical=0.0, spread=0.0, measure="gauge ahead of the silencer: under 2 psi at load is healthy")
    accessories: Real = declare(
        "power of alternator, steering pump and the like", POWER, hard=(0.0, 3e4), plausible=(100, 5000), typical=900,
        spread=0.3, relative=True, measure="not measured; judgement")
    jacket_area: Real = declare(
        "clear area of the water jackets, loss of one dynamic head", AREA, hard=(5e-5, 1e-2), plausible=(2e-4, 3e-3),
        typical=7e-4, spread=0.2, relative=True, measure="not measured; sediment makes it small")
    surface_conductance: Real = declare(
        "heat lost from the outside of the engine per kelvin", CONDUCTANCE, hard=(0.0, 300), plausible=(8, 120),
        typical=30, spread=0.3, relative=True, measure="not measured; judgement")
    cold_idle: Real = declare(
        "idle speed stone cold over that when hot", NUMBER, hard=(0.8, 3.0), plausible=(1.0, 2.5), typical=1.6,
        spread=0.2, measure="tachometer after a cold start, choke in: fast idle over hot idle; typical, no source")
    metal: Real = declare(
        "mass of the engine's iron and aluminium over its swept volume", HEAVINESS, hard=(5e3, 4e5),
        plausible=(25e3, 1.5e5), typical=52e3, spread=0.2, relative=True,
        measure="handbook: mass of the bare engine over its litres; iron V8 46 kg/L, small fours more, no source")
    aluminium: Real = declare(
        "share of that mass that is aluminium", FRACTION, hard=(0.0, 1.0), plausible=(0.0, 0.95), typical=0.1,
        spread=0.05, measure="magnet on heads and block")
    jacket_share: Real = declare(
        "share of that mass that warms with the coolant: what the gas heats of heads and bores", FRACTION,
        hard=(0.02, 1.0), plausible=(0.08, 0.5), typical=0.12, spread=0.025,
        measure="not measured: logged warm-ups ask for 0.10 to 0.20")
    metal_above_coolant: Real = declare(
        "that metal above the coolant, in the mean, at full load", TEMPERATURE_RISE, hard=(2, 150),
        plausible=(10, 60), typical=26, spread=6,
        measure="not measured; judgement: shut down hot, the gauge then rises by the 5 to 10 K that are told")
    oil_volume: Real = declare(
        "oil in the sump over swept volume", NUMBER, hard=(0.1, 10), plausible=(0.6, 4), typical=1.0, spread=0.15,
        relative=True, measure="handbook: oil fill over the litres of the engine")
    oil_share: Real = declare(
        "share of the gas film's heat that goes to oil and lower block, besides all friction", FRACTION,
        hard=(0.0, 0.6), plausible=(0.02, 0.25), typical=0.06, spread=0.02, measure="not measured; judgement")
    oil_above_coolant: Real = declare(
        "oil above the coolant at full load and highest speed", TEMPERATURE_RISE, hard=(2, 120), plausible=(10, 60),
        typical=34, spread=5, measure="oil thermometer at the sump after a long climb, less the coolant")
    # fmt: on

    def idle_over_hot(self, *, T_coolant: Real) -> Real:
        """Idle speed at a coolant temperature [K] over that when hot [1]: fast when cold, 1 from HOT_IDLE on."""
        xp = namespace(T_coolant, self.cold_idle)
        cold = xp.clip((HOT_IDLE - T_coolant) / (HOT_IDLE - STONE_COLD), 0.0, 1.0)
        return 1.0 + (self.cold_idle - 1.0) * cold

    def most_power(self, *, speed: Real, rho: Real) -> Real:
        """Brake power at full load [W] at a speed [1/s] and an air density [kg/m3]."""
        return self.full_load_pressure * (rho / RHO_STATED) * self.displacement * speed / 2.0

    def burnt(
        self, *, power: Real, speed: Real, rho: Real, film_power: Real, friction_share: Real, cold: Real = 1.0
    ) -> Burnt:
        """What becomes of the fuel at a brake power.

        Parameters
        ----------
        power : brake power [W]
        speed : crankshaft speed [1/s]
        rho : density of the air [kg/m3]
        film_power : power of the fuel with which the gas film's heat grows [1]
        friction_share : share of friction and pumping that stays in the engine as heat [1]
        cold : friction over that of a warm engine [1]
        """
        xp = namespace(power, speed, rho, self.displacement)
        load = brake_mean_pressure(power, self.displacement, speed) / (self.full_load_pressure * rho / RHO_STATED)
        load = xp.clip(load, 0.0, 1.3)
        idling = xp.exp(-load / IDLE_LOAD)
        friction = self.friction_pressure * cold
        lost = friction + self.exhaust_back_pressure * load
        late = xp.maximum(self.late_ignition, 0.0)
        right = SET_LATE + (SET_LATE_IDLE - SET_LATE) * idling * (self.fuel < 0.5)
        fuel = fuel_power(power, lost, self.displacement, speed, self.indicated_efficiency) * (
            work_left(SET_LATE) / work_left(right + late)
        )
        burns = fuel * (1.0 - self._unburnt(fuel / self.displacement))
        one = self.displacement / self.cylinders
        work = self.indicated_efficiency * fuel
        most = burns - work - self._coolest_exhaust(burns, speed=speed, rho=rho)
        film = gas_film_heat(burns, self.displacement, one, self.film_share, film_power, most)
        rubbed = friction_heat(friction, self.displacement, speed, friction_share)
        return Burnt(
            fuel=fuel,
            film=film
            * (1.0 + FILM_PER_RADIAN * late)
            * (1.0 + (self.mixture_heat - 1.0) * (1.0 - MIXTURE_FADES * idling)),
            friction=rubbed,
            load=load,
        )

    def _coolest_exhaust(self, burns: Real, *, speed: Real, rho: Real) -> Real:
        """Heat that hot gas carries off at the least [W]: it leaves hotter than the walls, and diesels unthrottled."""
        xp = namespace(burns, speed, rho, self.fuel)
        drawn = 0.5 * FILLING * rho * self.displacement * speed
        return xp.maximum(EXHAUST_LEAST * burns, xp.where(self.fuel > 0.5, drawn * HEAT_OF_GAS * COOLEST_EXHAUST, 0.0))

    def _unburnt(self, burning: Real) -> Real:
        """Share of the fuel that leaves unburnt [1], from fuel power over swept volume [W/m3]."""
        xp = namespace(burning, self.mixture, self.fuel)
        idling = 1.0 / (1.0 + (burning / IDLE_CIRCUIT) ** 2)
        carburettor = UNBURNT_LOADED + (self.unburnt_idle - UNBURNT_LOADED) * idling
        return xp.where(self.fuel > 0.5, DIESEL, xp.where(self.mixture > 0.5, INJECTION, carburettor))
