"""What the engine is asked and gives off, each figure worked by hand from the relation that its docstring states."""

import dataclasses

import pytest

from toptank.knowledge.sheet import vehicle
from toptank.knowledge.typical import typical_sheet
from toptank.system.duty import Duty
from toptank.system.sides import heat_side
from toptank.system.sides.heat_side import Demand

HOT_IDLE = Duty(ambient=305.0, speed=0.0)
BUILT = vehicle(typical_sheet("pickup-1970s-v8-air"))


def _demand(**changed: float) -> Demand:
    asked = Demand(engine_speed=10.0, drive_power=4000.0, transmission_heat=3000.0, most_power=9000.0, cooling_load=0.0)
    return asked._replace(**changed)


@pytest.mark.parametrize(("drive", "taken"), [(1.0, 1000.0), (2.0, 2564.1)])
def test_a_kilowatt_at_the_blades_costs_the_engine_that_by_belt_and_two_and_a_half_by_wire(
    drive: float, taken: float
) -> None:
    """Motor 0.7 times alternator 0.55 is 0.39: 1,000 / 0.39 = 2,564 W."""
    built = dataclasses.replace(BUILT, fan=dataclasses.replace(BUILT.fan, drive=drive))
    day, asked = heat_side.weather(HOT_IDLE), _demand(most_power=100e3)
    with_fan, without = (
        heat_side.engine_heat(built, asked, day, fan_power=power, compressor_power=0.0).power for power in (1000.0, 0.0)
    )
    assert float(with_fan - without) == pytest.approx(taken, abs=0.1)
    assert float(without) == pytest.approx(4000.0 + float(built.engine.accessories))


def test_the_engine_drives_the_compressor_and_gives_no_more_than_it_can() -> None:
    day = heat_side.weather(HOT_IDLE)
    cooled = heat_side.engine_heat(BUILT, _demand(most_power=100e3), day, fan_power=0.0, compressor_power=2500.0)
    alone = heat_side.engine_heat(BUILT, _demand(most_power=100e3), day, fan_power=0.0, compressor_power=0.0)
    assert float(cooled.power - alone.power) == pytest.approx(2500.0)
    assert float(cooled.coolant) > float(alone.coolant)
    short = heat_side.engine_heat(BUILT, _demand(most_power=3000.0), day, fan_power=0.0, compressor_power=2500.0)
    assert float(short.short_of) == pytest.approx(4000.0 + float(BUILT.engine.accessories) + 2500.0 - 3000.0)
    assert float(alone.short_of) == 0.0


def test_heat_to_the_coolant_is_that_of_oil_and_metal_and_scales_with_what_is_unsure_of_it() -> None:
    day, asked = heat_side.weather(HOT_IDLE), _demand(most_power=100e3)
    one = heat_side.engine_heat(BUILT, asked, day, fan_power=0.0, compressor_power=0.0)
    assert float(one.coolant) == pytest.approx(float(one.to_oil + one.to_metal))
    more = dataclasses.replace(BUILT, doubts=dataclasses.replace(BUILT.doubts, coolant_heat=1.1))
    told = heat_side.engine_heat(more, asked, day, fan_power=0.0, compressor_power=0.0)
    before = float(BUILT.doubts.coolant_heat)
    assert float(told.coolant) == pytest.approx(float(one.coolant) * 1.1 / before)
    assert float(told.fuel) == pytest.approx(float(one.fuel))


def test_what_the_oil_takes_of_the_gas_s_heat_the_metal_does_not() -> None:
    day, asked = heat_side.weather(HOT_IDLE), _demand(most_power=100e3)
    little, much = (
        heat_side.engine_heat(
            dataclasses.replace(BUILT, engine=dataclasses.replace(BUILT.engine, oil_share=share)), asked, day,
            fan_power=0.0, compressor_power=0.0,
        ) for share in (0.1, 0.3)
    )  # fmt: skip
    assert float(much.to_oil - little.to_oil) == pytest.approx(float(little.to_metal - much.to_metal))
    assert float(much.to_oil) > float(little.to_oil)


@pytest.mark.parametrize(("speed", "more", "flushed"), [(0.0, 1.0, 1.0), (15.0, 2.0, 1.3086), (27.0, 2.8, 2.0)])
def test_the_outside_of_the_engine_gives_off_more_the_faster_it_goes(speed: float, more: float, flushed: float) -> None:
    """By hand: (1 + v/15) of its conductance standing, less the warmth of the bay over 1 + (v/27)^2."""
    conductance, bay = float(BUILT.engine.surface_conductance), float(BUILT.doubts.bay_warmth)
    found = heat_side.surface_conductance(BUILT, dataclasses.replace(HOT_IDLE, speed=speed))
    assert float(found) == pytest.approx(conductance * more * (1.0 - bay / flushed), rel=1e-4)


@pytest.mark.parametrize(("share", "metal", "oil"), [(1.0, 1.0, 1.0), (0.5, 0.7579, 0.5548), (0.01, 0.2460, 0.0508)])
def test_metal_and_oil_give_their_heat_up_by_powers_of_the_engine_s_speed(
    share: float, metal: float, oil: float
) -> None:
    """By hand: 0.5^0.4, 0.5^0.85; below 3 % of the highest speed it falls no further: 0.03^0.4, 0.03^0.85."""
    found = heat_side.turning(BUILT, share * float(BUILT.engine.top_speed))
    assert [float(one) for one in found] == pytest.approx([metal, oil], abs=1e-4)


def test_an_engine_that_idles_a_fifth_faster_drags_by_the_cube_and_only_where_it_idles() -> None:
    """By hand: 3,000 W of drag by 1.2^3 - 1 = 0.728 are 2,184 W more, and as much heat in the gearbox."""
    faster = heat_side.at_faster_idle(_demand(), idles=1.0, ratio=1.2)
    assert float(faster.engine_speed) == pytest.approx(12.0)
    assert float(faster.drive_power) == pytest.approx(6184.0)
    assert float(faster.transmission_heat) == pytest.approx(5184.0)
    assert float(faster.most_power) == pytest.approx(10800.0)
    assert heat_side.at_faster_idle(_demand(), idles=0.0, ratio=1.2) == _demand()


def test_who_stands_idles_unless_the_speed_of_the_engine_is_told() -> None:
    assert float(heat_side.idles(HOT_IDLE)) == 1.0
    assert float(heat_side.idles(dataclasses.replace(HOT_IDLE, speed=0.4))) == 0.0
    assert float(heat_side.idles(dataclasses.replace(HOT_IDLE, engine_speed=25.0))) == 0.0


@pytest.mark.parametrize(("speed", "wind", "felt"), [(20.0, 5.0, 25.0), (20.0, -5.0, 15.0), (5.0, -9.0, 0.0)])
def test_wind_from_ahead_adds_and_a_following_one_takes_off_down_to_nothing(
    speed: float, wind: float, felt: float
) -> None:
    assert float(heat_side.air_speed(dataclasses.replace(HOT_IDLE, speed=speed, head_wind=wind))) == felt


def test_what_the_driver_takes_off_the_shaft_is_driven_too() -> None:
    day = heat_side.weather(HOT_IDLE)
    with_pump = heat_side.demand(BUILT, dataclasses.replace(HOT_IDLE, shaft_load=3000.0), day)
    without = heat_side.demand(BUILT, HOT_IDLE, day)
    assert float(with_pump.drive_power - without.drive_power) == pytest.approx(3000.0)
    assert float(without.engine_speed) == float(BUILT.engine.idle_speed)


@pytest.mark.parametrize(("flow", "between"), [(0.0, 0.0), (10.0, 0.5), (90.0, 0.9)])
def test_the_hot_tank_stands_where_the_flow_puts_it_between_core_and_engine(flow: float, between: float) -> None:
    """By hand: flow over flow and 10 W/K of the way from the core to the engine."""
    assert heat_side.tank_temperature(380.0, 340.0, flow) == pytest.approx(340.0 + 40.0 * between)
