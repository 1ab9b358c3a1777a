"""Which fields of a sheet move no steady figure, and how a vehicle may settle."""

MOVES_NOTHING = {
    "fan.first_stage": "it tells how an electric fan comes and goes on a drive",
    "fan.runs_on": "it tells how a drive goes on after shut-down",
    "fan_clutch.lag": "it tells how late it follows on a drive",
    "fan_clutch.hysteresis": "it tells what a drive comes to as it cools again",
    "fan_clutch.snaps": "it tells whether a drive hunts",
    "thermostat.lag": "it tells how late it follows on a drive",
    "thermostat.hysteresis": "it tells what a drive comes to as it cools again",
    "core.tanks": "it tells whether it can be rodded out or recored, and what its seams bear",
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
    "fan.reversed_push": "it tells what blades do that run backwards",
    "doubts.stirred": "it tells what blades do that run backwards",
    "doubts.bay_breath": "it tells what blades do that run backwards",
    "doubts.carry_out_open": "it tells how much goes past the cap once it boils on a drive",
    "doubts.carry_out_pressed": "it tells how much goes past the cap once it boils on a drive",
    "doubts.cold_friction": "it tells how fast a drive warms",
    "doubts.hot_ground": "it tells how hot it gets standing among other vehicles",
    "fan_clutch.kind": "it tells what ratio to expect where nobody measured it",
    "fill.may_be_missing": "it tells how low the level may stand before tubes run dry",
    "grille.vent_suction": "it tells what louvres or an open bonnet are worth",
    "gauge.lag": "it tells how late it follows on a drive",
    "drivetrain.gearbox_mass": "it tells how fast a drive warms and cools",
}
"""Fields of a sheet that move no figure of a steady condition, each with what it is for; a test changes every field and
looks. Hills, stops and drives last minutes: lags and masses move them."""

STATUS_WORDS = {
    0: "thermostat_holds",
    1: "wide_open",
    2: "short_of_power",
    3: "boils",
    4: "no_balance",
    5: "not_found",
}
"""Keys for the status of a draw, by its code."""
