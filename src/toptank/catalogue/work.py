"""Work that is done against running hot, or just before it: parts changed, cleaned, set. Common practice, no source."""

WORK = (
    "radiator", "larger_radiator", "radiator_cleaned", "radiator_rodded", "thermostat", "thermostat_removed",
    "water_pump", "cap",
    "fan_clutch", "fan", "electric_fan", "fan_control", "shroud", "belt", "hoses", "sender", "gauge", "coolant",
    "flush", "head_gasket", "engine_rebuilt", "ignition_timing", "carburettor", "transmission_cooler", "condenser",
    "grille", "air_filter", "brakes", "exhaust", "heater", "sealer",
)  # fmt: skip
"""Ids of it, in the order in which they are offered; a cause says which of it puts it right or brings it about."""
