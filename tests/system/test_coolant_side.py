"""The loop of a warm engine, balanced once more from what it gave: pump against losses, pressure at the pump's eye."""

import dataclasses
from typing import Any

import pytest

from toptank.knowledge.sheet import vehicle
from toptank.knowledge.typical import typical_sheet
from toptank.media import coolant
from toptank.parts.coolant_passage import CoolantPassage
from toptank.system.numerics.jax_library import jit_quick_compile
from toptank.system.sides.coolant_side import CoolantSide, coolant_side
from toptank.system.vehicle import Vehicle

BUILT = vehicle(typical_sheet("pickup-1970s-v8-air"))
T, AIR, HEAT = 365.0, 101_325.0, 40e3
MIX = (BUILT.fill.concentrate, BUILT.fill.glycol)
RHO, C_P = float(coolant.density(T, *MIX)), float(coolant.heat_capacity(T, *MIX))


def _loop(built: Vehicle, opening: Any, engine_speed: Any) -> CoolantSide:
    return coolant_side(
        built, CoolantPassage.of(built.core), T_engine_out=T + 0.0 * opening, opening=opening,
        engine_speed=engine_speed, p_air=AIR, heat=HEAT, load=0.3,
    )  # fmt: skip


COMPILED = jit_quick_compile(_loop)


def _side(built: Vehicle = BUILT, *, opening: float = 1.0, engine_speed: float = 50.0) -> CoolantSide:
    return COMPILED(built, opening, engine_speed)


def test_the_eye_of_the_pump_has_air_and_cap_less_the_lower_hose_and_the_coolant_s_own_pressure() -> None:
    """Half of rho (Q / A)^2 is lost in the lower hose; the coolant comes back cooler by the heat over its flow."""
    found = _side()
    area = float(BUILT.hoses.bottom_area(pump_speed=BUILT.water_pump.speed(engine_speed=50.0)))
    lost = 0.5 * RHO * (float(found.core_flow) / area) ** 2
    back = T - HEAT / float(found.C_total)
    expected = AIR + float(BUILT.cap.held_pressure()) - lost - float(coolant.saturation_pressure(back, *MIX))
    assert lost > 1000.0
    assert float(found.eye_margin) == pytest.approx(expected, rel=1e-3)


def test_capacity_rates_are_those_of_what_goes_round() -> None:
    found = _side(opening=0.5)
    assert float(found.C_core) == pytest.approx(float(found.core_flow) * RHO * C_P)
    assert float(found.C_total - found.C_core) == pytest.approx(float(found.bypass_flow) * RHO * C_P)


def test_the_flow_goes_with_the_speed_of_the_pump_where_losses_go_with_its_square() -> None:
    """Tubes lose a little less than the square: twice the speed brings 2 to 2.1 times the flow while it draws well."""
    slow, fast = (float(_side(engine_speed=speed).core_flow) for speed in (20.0, 40.0))
    assert 2.0 <= fast / slow < 2.1


def test_a_worn_pump_of_half_the_head_moves_less_than_the_root_of_a_half_lets_through_and_more_than_half() -> None:
    worn = dataclasses.replace(BUILT, water_pump=dataclasses.replace(BUILT.water_pump, wear=0.5))
    kept = float(_side(worn).core_flow / _side().core_flow)
    assert 0.5 < kept < 1.0
