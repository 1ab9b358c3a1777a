"""A duty: a steady driving condition, everything that is not the vehicle."""

from dataclasses import dataclass

from toptank.system.numerics.jax_library import jax
from toptank.units.arrays import Real
from toptank.units.declaration import declare, declare_choice, declare_yes_no
from toptank.units.dimension import ALTITUDE, AREA, FRACTION, GRADE, MASS, POWER, ROTATION, SPEED, TEMPERATURE

HEATER_FULL = 2.0
"""Code of a heater that is fully on."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Duty:
    """Weather, road and what is switched on."""

    # fmt: off
    ambient: Real = declare(
        "air temperature outside", TEMPERATURE, hard=(233.15, 333.15), plausible=(255, 323), typical=305.4, spread=1.0,
        measure="thermometer in the shade, not the sun on the car")
    altitude: Real = declare(
        "elevation", ALTITUDE, hard=(-500, 5500), plausible=(-100, 4000), typical=100, spread=30,
        measure="map")
    humidity: Real = declare(
        "relative humidity", FRACTION, hard=(0.0, 1.0), plausible=(0.05, 1.0), typical=0.4, spread=0.1,
        measure="weather report; of little weight")
    speed: Real = declare(
        "road speed", SPEED, hard=(0.0, 70.0), plausible=(0.0, 45.0), typical=0.0, spread=0.0,
        measure="speedometer or phone")
    head_wind: Real = declare(
        "wind against the nose", SPEED, hard=(-30.0, 40.0), plausible=(-12.0, 15.0), typical=0.0, spread=1.0,
        measure="weather report; following wind is negative")
    grade: Real = declare(
        "grade of the road", GRADE, hard=(-0.3, 0.4), plausible=(-0.15, 0.2), typical=0.0,
        spread=0.0, measure="map: height gained over distance")
    air_conditioning: Real = declare_yes_no(
        "air conditioning on", typical=False, measure="switch")
    heater: Real = declare_choice(
        "heater", ("off", "half", "full"), typical="off", measure="lever and blower; full: warmest and fastest")
    gear: Real = declare_choice(
        "gear", ("as needed", "highest", "next lower", "low"), typical="as needed", measure="lever")
    engine_speed: Real = declare(
        "engine speed held by hand or governor; 0: as geared, or idle", ROTATION, hard=(0.0, 150.0),
        plausible=(0.0, 85.0), typical=0.0, spread=0.0, measure="tachometer")
    in_gear: Real = declare_yes_no(
        "automatic held on the brake in gear at standstill", typical=False, measure="lever")
    among_cars: Real = declare_yes_no(
        "stands or crawls among cars on hot asphalt", typical=False,
        measure="a queue on a sunny day: the air at the grille is then some 5 K above the shade")
    shaft_load: Real = declare(
        "power taken by a shaft at standstill or at work: pump, generator, implement", POWER, hard=(0.0, 1e6),
        plausible=(0.0, 3e5), typical=0.0, spread=0.0, measure="plate of the driven machine; fuel used an hour")
    trailer_mass: Real = declare(
        "weight of the trailer", MASS, hard=(0.0, 60000), plausible=(0.0, 8000), typical=0.0, spread=0.0,
        measure="weighbridge")
    trailer_drag_area: Real = declare(
        "drag area added by the trailer", AREA, hard=(0.0, 12.0), plausible=(0.0, 5.0), typical=0.0, spread=0.0,
        measure="box 13 to 17 ft2 (1.2 to 1.6 m2), typical, no source")
    # fmt: on

    def heater_share(self) -> Real:
        """How far the heater is on [1]."""
        return self.heater / HEATER_FULL


jax.tree_util.register_dataclass(Duty)
