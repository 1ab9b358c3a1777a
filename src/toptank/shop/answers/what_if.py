"""The answer to `what-if`: the band of the gauge at a duty that is otherwise, and the loop of the middle vehicle."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

from toptank.shop.answers.answer import (
    Answer,
    Band,
    Count,
    Headed,
    Percent,
    Remarked,
    Text,
    degC,
    filled,
    headed,
    km_per_h,
    pct,
    rounded,
)
from toptank.shop.ask.loop import CoolerPlace, FanDrive

if TYPE_CHECKING:
    from toptank.shop.ask.loop import Loop
    from toptank.shop.ask.what_if import WhatIf


class LoopAnswer(Answer):
    """The cooling loop of the vehicle in the middle.

    Parameters
    ----------
    fan_zone_pct : of the face of the core, that lies under the fan
    """

    engine_out_degC: float
    bottom_hose_degC: float
    engine_in_degC: float
    gauge_degC: float
    boiling_point_degC: float
    ambient_degC: float
    core_air_in_degC: float
    core_air_out_degC: float
    transmission_degC: float
    condensing_degC: float
    core_flow_L_per_min: float
    bypass_flow_L_per_min: float
    thermostat_opening_pct: float
    face_velocity_m_per_s: float
    ram_velocity_m_per_s: float
    fan_zone_pct: float
    fan_speed_rpm: float
    engine_speed_rpm: float
    fan_power_kW: float
    engine_power_kW: float
    engine_heat_kW: float
    core_heat_kW: float
    surface_heat_kW: float
    heater_heat_kW: float
    transmission_heat_kW: float
    condenser_heat_kW: float
    boils: bool
    short_of_power: bool
    unbalanced: bool
    heater_on: bool
    air_conditioning_on: bool
    has_shroud: bool
    has_condenser: bool
    crossflow: bool
    passes: Count
    fans: Count
    fan_drive: FanDrive
    cooler: CoolerPlace


class WhatIfAnswer(Headed, Remarked):
    """What the gauge would show at the end of a duty.

    Parameters
    ----------
    equations_version : names the equations that gave these figures
    draws : possible vehicles
    rests_on : where the possible vehicles come from
    changed : what is otherwise than in the job
    limit_degC : that holds in this duty: at a short stop it is higher than what the customer wants to stay under
    came_before : what the duty comes after; empty where it is steady
    lasts_minutes : how long it lasts, in the middle; null where it is steady
    gauge_degC : what the gauge shows
    gauge_peak_degC : highest reading of the gauge in it
    top_tank_degC : coolant in the top tank
    boiling_point_degC : where this mix boils under this cap
    gauge_before_degC : the gauge at the duty as the job has it
    reason : one sentence on the vehicle in the middle
    loop : of the vehicle in the middle
    """

    equations_version: str
    draws: Count
    rests_on: Literal["diagnosis", "sheet"]
    duty: str
    ambient_degC: float
    grade_pct: float
    speed_km_per_h: float
    air_conditioning: bool
    changed: tuple[Literal["ambient", "grade", "speed", "air_conditioning"], ...]
    limit_degC: float
    came_before: str
    lasts_minutes: float | None
    gauge_degC: Band
    gauge_peak_degC: Band
    top_tank_degC: Band
    boiling_point_degC: Band
    gauge_before_degC: Band
    over_limit_pct: Percent
    chance_to_boil_pct: Percent
    reason: Text
    loop: LoopAnswer


def what_if_answer(found: WhatIf) -> WhatIfAnswer:
    """Return the answer to a what-if."""
    facts = found.duty.facts
    return filled(
        WhatIfAnswer,
        found,
        headed(found.job)
        | {
            "duty": found.duty.name,
            "ambient_degC": degC(facts["ambient"].value),
            "grade_pct": pct(facts["grade"].value),
            "speed_km_per_h": km_per_h(facts["speed"].value),
            "air_conditioning": facts["air_conditioning"].value > 0.5,
            "lasts_minutes": rounded(facts["for"].value / 60.0) if found.came_before else None,
            "chance_to_boil_pct": pct(found.boils),
            "loop": filled(LoopAnswer, found.loop, _named_otherwise(found.loop)),
        },
    )


def _named_otherwise(loop: Loop) -> dict[str, object]:
    return {
        "boiling_point_degC": degC(loop.T_boiling),
        "thermostat_opening_pct": pct(loop.opening),
        "face_velocity_m_per_s": rounded(loop.V_fan_zone),
        "ram_velocity_m_per_s": rounded(loop.V_ram_zone),
    }
