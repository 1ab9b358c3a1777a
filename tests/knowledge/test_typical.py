"""Typical vehicles are what a shop would nod at."""

import dataclasses
import tomllib
from importlib import resources

import numpy as np
import pytest

from toptank.knowledge.sheet import DECLARED, Provenance, declaration_of, duty, fields, vehicle
from toptank.knowledge.sheet_file import read_tables, render
from toptank.knowledge.typical import Typical, typical, typical_names, typical_sheet
from toptank.system.balance import Status
from toptank.system.population import solve
from toptank.units.conversion import System
from toptank.units.dimension import CHOICE
from toptank.units.refusal import Refusal

FEWEST_NAMED = 40
"""Fewest fields that a typical vehicle says more about than the declarations do."""

UNUSUAL = {
    "heater.conductance": "no cabin, no heater",
    "drivetrain.axle_ratio": "a tractor's final drives count as axle",
    "drivetrain.tyre_radius": "a tractor's rear wheel",
}
"""Fields outside the usual limits in machines that do not carry people on the road."""

OFF_ROAD = ("generator-1980s-diesel", "tractor-1960s-diesel")

TYPICAL = [typical(name) for name in typical_names()]
each = pytest.mark.parametrize("one", TYPICAL, ids=lambda one: one.name)


def test_there_are_enough_of_them() -> None:
    assert len(TYPICAL) >= 16
    assert len({one.title for one in TYPICAL}) == len(TYPICAL)


@each
def test_it_says_where_its_values_come_from(one: Typical) -> None:
    assert "no source" in one.where
    assert len(one.title) > 15


@each
def test_its_name_carries_its_era(one: Typical) -> None:
    assert any(f"{decade}s" in one.name for decade in range(1930, 2000, 10))


@each
def test_it_says_more_than_the_declarations_do(one: Typical) -> None:
    named = [path for path, fact in one.sheet.facts.items() if fact.origin != DECLARED]
    assert len(named) >= FEWEST_NAMED


@each
def test_nothing_of_it_counts_as_measured(one: Typical) -> None:
    assert {fact.how for fact in one.sheet.facts.values()} == {Provenance.ASSUMED}


@each
def test_its_values_are_usual_ones(one: Typical) -> None:
    for path, declaration in fields():
        if one.name in OFF_ROAD and path in UNUSUAL:
            continue
        low, high = declaration.plausible
        assert low - 1e-9 * abs(low) <= one.sheet.facts[path].value <= high + 1e-9 * abs(high), path


@each
def test_a_quantity_that_it_names_carries_a_spread(one: Typical) -> None:
    sure = {"fan.count", "engine.cylinders", "core.rows", "core.passes", "drivetrain.top_ratio"}
    for path, fact in one.sheet.facts.items():
        if declaration_of(path).choices == () and fact.origin != DECLARED and path not in sure and fact.value != 0.0:
            assert fact.spread > 0.0, path


@each
def test_its_air_conditioning_is_in_its_name(one: Typical) -> None:
    assert ("air" in one.name.split("-")) == (one.sheet.facts["condenser.present"].value > 0.5)


@each
def test_a_pedal_for_the_clutch_means_no_cooler_in_the_tank(one: Typical) -> None:
    manual = one.sheet.facts["drivetrain.kind"].value < 0.5
    if manual:
        assert one.sheet.facts["transmission_cooler.place"].value == 0.0


@each
def test_a_diesel_turns_more_of_its_fuel_into_work(one: Typical) -> None:
    diesel = one.sheet.facts["engine.fuel"].value > 0.5
    assert (one.sheet.facts["engine.indicated_efficiency"].value > 0.4) == diesel


def test_caps_follow_the_era() -> None:
    # Common practice, no source: open systems before the war, 4 to 10 psi in the fifties, 13 to 16 psi later.
    by_era = {one.name: one.sheet.facts["cap.pressure"].value / 6894.757 for one in TYPICAL if one.name not in OFF_ROAD}
    assert by_era["open-car-1930s-four"] == 0.0
    assert 4 <= by_era["saloon-1950s-six"] <= 10
    assert all(13 <= value <= 18 for name, value in by_era.items() if "1980s" in name or "1990s" in name)


@pytest.mark.parametrize("system", ["us", "metric"])
@each
def test_it_survives_being_written_out_and_read_again(one: Typical, system: System) -> None:
    read = read_tables(tomllib.loads(render(one.sheet, system)), system=system)
    assert read.assumed_units == ()
    for path, fact in one.sheet.facts.items():
        assert read.facts[path].value == pytest.approx(fact.value, rel=2e-7), path


def test_its_file_says_what_it_is() -> None:
    folder = resources.files("toptank.knowledge").joinpath("typical")
    for file in folder.iterdir():
        document = tomllib.loads(file.read_text(encoding="utf-8"))
        assert {"title", "where", "usual"} <= set(document)


@pytest.mark.parametrize("asked", ["pickup-1970s-v8", "tractor", ""])
def test_an_unknown_name_is_refused_with_the_nearest(asked: str) -> None:
    with pytest.raises(Refusal) as refused:
        typical_sheet(asked)
    assert refused.value.field == "vehicle.like"


@pytest.mark.parametrize("asked", ["lorry-1970s", "pickup", "tractor-of-my-uncle"])
def test_a_name_that_is_not_near_gets_the_list_instead_of_a_guess(asked: str) -> None:
    with pytest.raises(Refusal, match="`toptank vehicles` lists them") as refused:
        typical(asked)
    assert "did you mean" not in str(refused.value)


def test_every_healthy_one_does_its_usual_work_on_a_mild_day_without_boiling() -> None:
    balances = [solve(vehicle(one.sheet), duty(one.usual)) for one in TYPICAL]
    margins = {one.name: float(b.margin_to_boiling()[0]) for one, b in zip(TYPICAL, balances, strict=True)}
    status = {one.name: Status(int(b.status[0])) for one, b in zip(TYPICAL, balances, strict=True)}
    assert {one.name for one in TYPICAL if duty(one.usual).ambient > 300.0} == set()  # 80 °F and no more
    assert {name: margin for name, margin in margins.items() if margin < 14.0} == {}  # 25 °F; judgement
    assert {name: s for name, s in status.items() if s not in (Status.REGULATED, Status.SETTLED)} == {}


LEFT_IN_TRAFFIC = 23.0 / 1.8
"""What is left to boiling at the least [K]: a 1950s six reads up to 210 °F in traffic and boils at 233 °F under 7 psi;
common practice, no source."""


def test_every_healthy_one_idles_on_a_hot_day_without_boiling() -> None:
    hot = {"ambient": 308.15, "speed": 0.0, "engine_speed": 0.0, "shaft_load": 0.0}
    for one in TYPICAL:
        balance = solve(vehicle(one.sheet), dataclasses.replace(duty(one.usual), **hot))
        assert float(balance.margin_to_boiling()[0]) > LEFT_IN_TRAFFIC, one.name


def test_the_choice_words_are_those_of_the_declarations() -> None:
    for one in TYPICAL:
        for path, fact in one.sheet.facts.items():
            declaration = declaration_of(path)
            if declaration.dimension == CHOICE:
                assert fact.value in np.arange(len(declaration.choices)), path
