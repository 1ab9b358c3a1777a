"""Every remedy leaves a vehicle that can be built, helps where it says so and leaves the rest alone."""

import dataclasses
from typing import Any

import numpy as np
import pytest

from toptank.catalogue.causes.all_causes import CAUSES, with_causes
from toptank.catalogue.remedies.all_remedies import REMEDIES
from toptank.catalogue.remedies.core import PLASTIC_TANKS, WELDED
from toptank.catalogue.remedies.remedy import Remedy
from toptank.catalogue.words.words import words
from toptank.knowledge.draws import draws
from toptank.knowledge.sheet import declaration_of, sections
from toptank.knowledge.typical import typical_names, typical_sheet
from toptank.studies.choose.worst_day_forecast import (
    WorstDayCase,
    WorstDayForecast,
    fitting,
    forced,
    repaired,
    undominated,
    weighed,
)
from toptank.system.condition_batch import Condition
from toptank.system.duty import Duty
from toptank.system.vehicle import Vehicle

N = 64
PICKUP = "pickup-1970s-v8-air"
SOUND = draws(typical_sheet(PICKUP), N, 3)
CLIMB = Duty(ambient=311.0, speed=20.1, grade=0.05, air_conditioning=1.0)
IDLE = Duty(ambient=311.0, speed=0.0, air_conditioning=1.0)
every_remedy = pytest.mark.parametrize("remedy", REMEDIES, ids=[remedy.id for remedy in REMEDIES])


def _named(name: str) -> Remedy:
    return next(remedy for remedy in REMEDIES if remedy.id == name)


def _changed(vehicle: Vehicle, part: str, **values: float) -> Vehicle:
    owner = getattr(vehicle, part)
    filled = {key: np.full(N, value) for key, value in values.items()}
    return dataclasses.replace(vehicle, **{part: dataclasses.replace(owner, **filled)})


def _subjects(sound: Vehicle, causes: dict[str, float] | None = None, limit: float = 380.0) -> WorstDayCase:
    severity = np.zeros((N, len(CAUSES)))
    for column, cause in enumerate(CAUSES):
        severity[:, column] = (causes or {}).get(cause.id, 0.0)
    days = {"climb": Condition.steady(CLIMB), "idle": Condition.steady(IDLE)}
    return WorstDayCase(with_causes(sound, severity), sound, severity, days, limit)


def _free(_remedies: Any) -> float:
    return 0.0


def _weighed(sound: Vehicle, causes: dict[str, float] | None, *remedies: Remedy) -> WorstDayForecast:
    return weighed(_subjects(sound, causes), [remedies], _free)[0]


@pytest.mark.parametrize("name", typical_names())
def test_what_a_remedy_leaves_lies_inside_the_hard_limits(name: str) -> None:
    sound = draws(typical_sheet(name), N, 3)
    for remedy in REMEDIES:
        after = remedy.effect(sound, sound)
        for section, keys in sections().items():
            for key in keys:
                low, high = declaration_of(f"{section}.{key}").hard
                values = np.asarray(getattr(getattr(after, section), key), float)
                assert np.all((values >= low) & (values <= high)), f"{remedy.id}: {section}.{key}"


@every_remedy
def test_it_says_what_it_takes_and_what_it_will_not_do(remedy: Remedy) -> None:
    assert remedy.minutes > 0.0
    named = words("us").remedy[remedy.id]
    assert named.note.endswith(".")
    assert named.limits.endswith(".")
    known = {one.id for one in REMEDIES}
    assert set(remedy.forces) <= known


@pytest.mark.parametrize(
    ("cause", "name"),
    [
        ("tubes_scaled", "rod_core"),
        ("fins_blocked", "clean_core_outside"),
        ("fins_loose", "recore_as_it_was"),
        ("fan_clutch_slips", "replace_fan_clutch"),
        ("pump_worn", "replace_water_pump"),
        ("thermostat_stuck", "replace_thermostat"),
        ("lower_hose_collapses", "replace_lower_hose"),
        ("ignition_late", "set_timing"),
        ("air_bypasses_core", "seal_core"),
        ("shroud_missing", "fit_shroud"),
        ("brakes_drag", "free_brakes"),
    ],
)
def test_it_takes_back_most_of_what_the_fault_that_it_mends_had_cost(cause: str, name: str) -> None:
    """Half of the rise at the duty that the fault hurts most, at the least."""
    sound = draws(typical_sheet(PICKUP), N, 3)
    healthy, ill = _weighed(sound, None), _weighed(sound, {cause: 0.9})
    after = _weighed(sound, {cause: 0.9}, _named(name))
    rise = [bad.coolant.p50 - good.coolant.p50 for good, bad in zip(healthy.duties, ill.duties, strict=True)]
    worst = int(np.argmax(rise))
    assert rise[worst] > 1.0
    assert ill.duties[worst].coolant.p50 - after.duties[worst].coolant.p50 > 0.5 * rise[worst]


@pytest.mark.parametrize(
    ("part", "found", "name"),
    [
        ("core", {"scale_thickness": 5e-4}, "rod_core"),
        ("core", {"blocked_face": 0.5}, "clean_core_outside"),
        ("core", {"loose_fins": 0.6}, "recore_as_it_was"),
        ("hoses", {"collapse": 0.8}, "replace_lower_hose"),
        ("thermostat", {"largest_opening": 0.03}, "replace_thermostat"),
        ("fill", {"air": 0.3}, "top_up_bleed"),
        ("engine", {"late_ignition": 0.4}, "set_timing"),
        ("grille", {"leakage": 0.7}, "seal_core"),
    ],
)
def test_what_the_sheet_itself_tells_to_be_wrong_is_put_right_too(
    part: str, found: dict[str, float], name: str
) -> None:
    """The fault was measured and stands in the sheet: the vehicle without causes has it."""
    sound = _changed(draws(typical_sheet(PICKUP), N, 3), part, **found)
    before, after = _weighed(sound, None), _weighed(sound, None, _named(name))
    gain = [bad.coolant.p50 - good.coolant.p50 for bad, good in zip(before.duties, after.duties, strict=True)]
    assert max(gain) > 1.0


def test_a_deeper_core_with_more_fins_cools_the_climb_of_an_old_two_row_one() -> None:
    """Common practice, no source: three rows of 14 fins take 10 to 25 degF off the climb of an old two-row core."""
    old = _changed(draws(typical_sheet(PICKUP), N, 3), "core", scale_thickness=2e-4)
    before = _weighed(old, None).duties[0].coolant.p50
    after = _weighed(old, None, _named("recore_3_row"))
    assert 5.0 < before - after.duties[0].coolant.p50 < 16.0


def test_work_that_it_forces_is_done_with_it_and_once_only() -> None:
    two = forced((_named("rod_core"), _named("replace_water_pump")), SOUND)
    assert [remedy.id for remedy in two].count("drain_fill_bleed") == 1


def test_topping_up_takes_time_and_is_no_work_of_its_own_where_all_is_drained() -> None:
    stat, pump = _named("replace_thermostat"), _named("replace_water_pump")
    assert [remedy.id for remedy in forced((stat,), SOUND)] == [stat.id, "top_up_bleed"]
    assert _named("top_up_bleed").minutes > 0.0
    for plan in ((stat, pump), (_named("top_up_bleed"), pump)):
        names = [remedy.id for remedy in forced(plan, SOUND)]
        assert "top_up_bleed" not in names
        assert names.count("drain_fill_bleed") == 1


def test_two_passes_force_the_cooler_out_of_the_tank() -> None:
    names = [remedy.id for remedy in forced((_named("recore_two_pass"),), SOUND)]
    assert "transmission_cooler_aside" in names


def test_nobody_buys_a_cooler_for_a_manual_gearbox() -> None:
    by_hand = _changed(draws(typical_sheet(PICKUP), N, 3), "drivetrain", kind=0.0)
    for passes in ("recore_two_pass", "recore_three_pass"):
        assert [remedy.group for remedy in forced((_named(passes),), by_hand)] == ["core", "coolant"]


def test_what_is_soldered_is_recored_and_aluminium_is_replaced() -> None:
    """Common practice, no source: crimped and welded tanks are not opened for another core."""
    sound = draws(typical_sheet(PICKUP), N, 3)
    for metal, recored in ((0.0, True), (1.0, False)):
        names = {remedy.id for remedy in fitting(_changed(sound, "core", material=metal))}
        assert ("recore_as_it_was" in names) == recored
        assert ("rod_core" in names) == recored
        assert {name for name in names if name.startswith("aluminium_radiator")} == {WELDED, PLASTIC_TANKS}


def test_an_electric_fan_is_not_offered_a_clutch() -> None:
    names = {remedy.id for remedy in fitting(draws(typical_sheet("wagon-1990s-v6-air"), N, 3))}
    assert "replace_fan_clutch" not in names
    assert "repair_electric_fan" in names


def test_of_two_plans_the_dearer_and_worse_is_left_out() -> None:
    sound = draws(typical_sheet(PICKUP), N, 3)
    base = _weighed(sound, None)
    plans = [
        dataclasses.replace(base, remedies=(), holds=0.1, cost=0.0),
        dataclasses.replace(base, remedies=(REMEDIES[0],), holds=0.5, cost=100.0),
        dataclasses.replace(base, remedies=(REMEDIES[1],), holds=0.4, cost=200.0),
        dataclasses.replace(base, remedies=(REMEDIES[2],), holds=0.9, cost=300.0),
        dataclasses.replace(base, remedies=(REMEDIES[3],), holds=0.05, cost=50.0),
    ]
    assert [plan.holds for plan in undominated(plans)] == [0.1, 0.5, 0.9]


def test_going_without_something_pushes_out_no_plan_that_asks_nothing() -> None:
    sound = draws(typical_sheet(PICKUP), N, 3)
    base = _weighed(sound, None)
    without = (_named("air_conditioning_off"),)
    plans = [
        dataclasses.replace(base, remedies=done, holds=holds, cost=cost)
        for done, holds, cost in (
            ((), 0.1, 0.0),
            (without, 0.8, 9.0),
            ((REMEDIES[0],), 0.5, 100.0),
            ((REMEDIES[1], *without), 0.7, 110.0),
            ((REMEDIES[2],), 0.9, 300.0),
            ((REMEDIES[3], *without), 0.85, 400.0),
        )
    ]
    assert [plan.holds for plan in undominated(plans)] == [0.1, 0.8, 0.5, 0.9]


def test_a_plan_is_its_remedies_one_after_the_other() -> None:
    sound = draws(typical_sheet(PICKUP), N, 3)
    rod, clutch = _named("rod_core"), _named("replace_fan_clutch")
    both = repaired(_subjects(sound, {"tubes_scaled": 0.8, "fan_clutch_slips": 0.7}), (rod, clutch))
    assert np.all(np.asarray(both.core.scale_thickness) <= 3e-5)
    np.testing.assert_array_equal(both.fan_clutch.engaged_ratio, sound.fan_clutch.engaged_ratio)


def test_a_smaller_pulley_turns_pump_and_fan_on_one_shaft_quicker_and_no_electric_fan() -> None:
    """Nearly every belt-driven fan is bolted to the pump's shaft; common practice, no source."""
    pulley = _named("smaller_pump_pulley")
    for name, fan in ((PICKUP, 1.15), ("wagon-1990s-v6-air", 1.0)):
        sound = draws(typical_sheet(name), N, 3)
        after = repaired(_subjects(sound), (pulley,))
        assert after.water_pump.belt_ratio / sound.water_pump.belt_ratio == pytest.approx(np.full(N, 1.15))
        assert after.fan.belt_ratio / sound.fan.belt_ratio == pytest.approx(np.full(N, fan))


def test_a_recore_brings_new_brass_tubes_and_no_wider_face() -> None:
    """Common practice, no source: new brass tubes are .070 to .080 in thick."""
    sound = draws(typical_sheet(PICKUP), N, 3)
    case = _subjects(sound, {"core_too_small": 0.8})
    for name in ("recore_as_it_was", "recore_3_row", "recore_two_pass"):
        after = repaired(case, (_named(name),))
        assert np.all((after.core.tube_thickness >= 0.070 * 0.0254) & (after.core.tube_thickness <= 0.080 * 0.0254))
        np.testing.assert_array_equal(after.core.face_width, case.vehicle.core.face_width)


def test_louvers_in_the_hood_cool_the_road_and_not_the_idle() -> None:
    """car_reports1936: 7 K in general, 10 K on a hill, of louvres that must have been about twice as large."""
    old = draws(typical_sheet("open-car-1930s-four"), N, 3)
    before, after = _weighed(old, None), _weighed(old, None, _named("hood_louvers"))
    climb, idle = (one.coolant.p50 - two.coolant.p50 for one, two in zip(before.duties, after.duties, strict=True))
    assert 3.0 < climb < 10.0
    assert idle < 0.5 * climb
