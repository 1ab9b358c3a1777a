"""Which figures an answer holds, under which key and in which kind of unit: one list for paper, screen and JSON.

And which fields of a sheet move none of them.
"""

from typing import NamedTuple

from toptank.units.dimension import (
    AIR_SPEED,
    FLOW,
    FRACTION,
    HEAT,
    POWER,
    ROTATION,
    TEMPERATURE,
    TEMPERATURE_RISE,
    Dimension,
)


class Figure(NamedTuple):
    """A figure of a forecast: attribute of its bands (and key, less the unit), kind of quantity, what it means."""

    name: str
    dimension: Dimension
    means: str


FIGURES = (
    Figure("top_tank", TEMPERATURE, "temperature of the coolant in the top tank"),
    Figure("gauge", TEMPERATURE, "what the gauge shows"),
    Figure("bottom_hose", TEMPERATURE, "temperature of the coolant in the bottom hose"),
    Figure("boiling_point", TEMPERATURE, "boiling point of this mix under this cap at this altitude"),
    Figure("margin_to_boiling", TEMPERATURE_RISE, "boiling point less the hottest coolant; negative: it boils"),
    Figure("air_to_boil", TEMPERATURE, "ambient temperature at which this duty would boil"),
    Figure("limiting_ambient", TEMPERATURE, "ambient temperature at which this duty would reach the limit"),
    Figure("transmission", TEMPERATURE, "temperature of the transmission fluid"),
    Figure("condensing", TEMPERATURE, "condensing temperature of the refrigerant"),
    Figure("core_air_in", TEMPERATURE, "air temperature ahead of the core"),
    Figure("core_heat", HEAT, "heat given up by the core"),
    Figure("engine_heat", HEAT, "heat given to the coolant by the engine"),
    Figure("engine_power", POWER, "brake power, fan and air conditioning counted"),
    Figure("engine_speed", ROTATION, "speed of the crankshaft"),
    Figure("core_flow", FLOW, "coolant through the core"),
    Figure("face_velocity", AIR_SPEED, "air velocity ahead of the core, under the fan"),
    Figure("fan_speed", ROTATION, "speed of the blades"),
    Figure("thermostat_opening", FRACTION, "opening of the thermostat over full"),
)

MOVES_NOTHING = {
    "fan.first_stage": "it tells how an electric fan comes and goes on a drive",
    "fan.runs_on": "it tells how a drive goes on after shut-down",
    "fan_clutch.lag": "it tells how late it follows on a drive",
    "fan_clutch.hysteresis": "it tells what a drive comes to as it cools again",
    "fan_clutch.snaps": "it tells whether a drive hunts",
    "thermostat.lag": "it tells how late it follows on a drive",
    "thermostat.hysteresis": "it tells what a drive comes to as it cools again",
    "cap.system": "it tells how the system is topped up",
    "fill.capacity": "it tells how much coolant to order, and how fast a drive warms and cools",
    "fill.in_core": "it tells how fast a drive warms and cools",
    "engine.cold_idle": "it tells how fast a drive warms and cools",
    "engine.metal": "it tells how fast a drive warms and cools",
    "engine.aluminium": "it tells how fast a drive warms and cools",
    "engine.jacket_share": "it tells how fast a drive warms and cools",
    "engine.metal_above_coolant": "it tells how fast a drive warms and cools",
    "engine.oil_volume": "it tells how fast a drive warms and cools",
    "engine.oil_above_coolant": "it tells how fast a drive warms and cools",
    "gauge.lag": "it tells how late it follows on a drive",
    "drivetrain.gearbox_mass": "it tells how fast a drive warms and cools",
}
"""Fields of a sheet that move no figure, each with what it is for; a test changes every field and looks."""

STATUS_WORDS = {
    0: "thermostat holds",
    1: "wide open, settled",
    2: "short of power",
    3: "boils",
    4: "no balance",
    5: "no answer found",
}
"""Words for the status of a draw, by its code."""
