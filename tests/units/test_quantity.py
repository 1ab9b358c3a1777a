"""What people write, and what it means."""

import math

import pytest

from toptank.units import dimension as d
from toptank.units.declaration import Declaration
from toptank.units.dimension import Dimension
from toptank.units.quantity import System, check_hard, from_si, parse, parse_choice, parse_yes_no, to_si, unit_of
from toptank.units.refusal import Refusal

ALL = [value for value in vars(d).values() if isinstance(value, Dimension)]
WITH_UNITS = [dimension for dimension in ALL if dimension.words]

INCH, FOOT, MILE = 0.0254, 0.3048, 1609.344  # exact by the international agreement of 1959
US_GALLON, IMPERIAL_GALLON = 231 * INCH**3, 4.54609e-3  # exact by definition
POUND, GRAVITY = 0.45359237, 9.80665  # exact by definition
PSI = POUND * GRAVITY / INCH**2


def read(text: str | float, dimension: Dimension, system: System = "us") -> float:
    return parse(text, dimension, system=system, field="field").value


@pytest.mark.parametrize(
    ("text", "dimension", "expected"),
    [
        ("2 5/8 in", d.LENGTH, 2.625 * INCH),
        ("2-5/8 in", d.LENGTH, 2.625 * INCH),
        ("2\t5/8 in", d.LENGTH, 2.625 * INCH),
        ("2\n 5/8\tin", d.LENGTH, 2.625 * INCH),
        ('2 5/8"', d.LENGTH, 2.625 * INCH),
        ("2⅝ in", d.LENGTH, 2.625 * INCH),
        ("5/8", d.LENGTH, 0.625 * INCH),
        (".5 in.", d.LENGTH, 0.5 * INCH),
        ("16 mm", d.LENGTH, 0.016),
        ("5' 2\"", d.LENGTH, 5 * FOOT + 2 * INCH),
        ("5 ft 2 1/2 in", d.LENGTH, 5 * FOOT + 2.5 * INCH),
        ("7,500 ft", d.ALTITUDE, 7500 * FOOT),
        ("7500'", d.ALTITUDE, 7500 * FOOT),
        ("1,234,567.5 ft", d.ALTITUDE, 1234567.5 * FOOT),
        ("12 mi", d.DISTANCE, 12 * MILE),
        ("1 mile", d.DISTANCE, MILE),
        ("1 mile", d.ALTITUDE, MILE),
        ("1.5 miles", d.ALTITUDE, 1.5 * MILE),
        ("2 kilometers", d.ALTITUDE, 2000.0),
        ("12 m", d.DISTANCE, 12.0),
        ("3 sq ft", d.AREA, 3 * FOOT**2),
        ("16 qt", d.VOLUME, 4 * US_GALLON),
        ("3 gal 2 qt", d.VOLUME, 3.5 * US_GALLON),
        ("2 imp gal", d.VOLUME, 2 * IMPERIAL_GALLON),
        ("5.0 L", d.VOLUME, 5e-3),
        ("350 cu in", d.VOLUME, 350 * INCH**3),
        ("350 CI", d.VOLUME, 350 * INCH**3),
        ("1800 cc", d.VOLUME, 1.8e-3),
        ("5,200 lbs", d.MASS, 5200 * POUND),
        ("1.5 t", d.MASS, 1500.0),
        ("195F", d.TEMPERATURE, (195 + 459.67) / 1.8),
        ("195 °F", d.TEMPERATURE, (195 + 459.67) / 1.8),
        ("195 ° f", d.TEMPERATURE, (195 + 459.67) / 1.8),
        ("195 deg F", d.TEMPERATURE, (195 + 459.67) / 1.8),
        ("-10", d.TEMPERATURE, (-10 + 459.67) / 1.8),
        ("−10 C", d.TEMPERATURE, 263.15),
        ("90 degC", d.TEMPERATURE, 363.15),
        ("363.15 K", d.TEMPERATURE, 363.15),
        ("9 F", d.TEMPERATURE_RISE, 5.0),
        ("5 C", d.TEMPERATURE_RISE, 5.0),
        ("15 lb", d.PRESSURE, 15 * PSI),
        ("15 PSI", d.PRESSURE, 15 * PSI),
        ("1.1 bar", d.PRESSURE, 1.1e5),
        ("0.1 MPa", d.PRESSURE, 1e5),
        ("29.9213 inHg", d.PRESSURE, 101325.0),
        ("1 inH2O", d.AIR_PRESSURE, 249.0889),
        ("65", d.SPEED, 65 * MILE / 3600),
        ("36 kph", d.SPEED, 10.0),
        ("3000 rpm", d.ROTATION, 50.0),
        ("100 hp", d.POWER, 100 * 550 * FOOT * POUND * GRAVITY),
        ("100 PS", d.POWER, 7500 * GRAVITY),
        ("1000 Btu/min", d.HEAT, 1e3 * 1055.05585262 / 60),
        ("60 gpm", d.FLOW, US_GALLON),
        ("60 imp gpm", d.FLOW, IMPERIAL_GALLON),
        ("2500 cfm", d.AIR_FLOW, 2500 * FOOT**3 / 60),
        ("50/50", d.FRACTION, 0.5),
        ("60/40", d.FRACTION, 0.6),
        ("50 %", d.FRACTION, 0.5),
        (50, d.FRACTION, 0.5),
        ("0.5 %", d.FRACTION, 0.005),
        (0, d.FRACTION, 0.0),
        (0.0, d.GRADE, 0.0),
        (1, d.FRACTION, 0.01),
        ("6 %", d.GRADE, 0.06),
        ("1 in 20", d.GRADE, 0.05),
        ("1:20", d.GRADE, 0.05),
        ("30°", d.ANGLE, math.pi / 6),
        ("12 fpi", d.FIN_DENSITY, 12 / INCH),
        ("12 fins/in", d.FIN_DENSITY, 12 / INCH),
        ("50 fins/dm", d.FIN_DENSITY, 500.0),
        ("1e-3", d.NUMBER, 1e-3),
        ("3", d.COUNT, 3.0),
    ],
)
def test_a_quantity_means_what_the_trade_means_by_it(text: str | float, dimension: Dimension, expected: float) -> None:
    # rounding only; inH2O and inHg as printed to five and seven figures
    assert read(text, dimension) == pytest.approx(expected, rel=2e-5 if "in" in str(text) else 1e-9)


def test_a_bare_number_takes_the_unit_of_the_shop_and_says_so() -> None:
    us = parse("15", d.PRESSURE, system="us", field="cap.pressure")
    metric = parse(90, d.PRESSURE, system="metric", field="cap.pressure")
    assert (us.unit, us.assumed) == ("psi", True)
    assert (metric.unit, metric.assumed, metric.value) == ("kPa", True, pytest.approx(9e4))
    assert not parse("15 psi", d.PRESSURE, system="metric", field="cap.pressure").assumed
    assert not parse("3", d.COUNT, system="us", field="core.rows").assumed


@pytest.mark.parametrize("system", ["us", "metric"])
@pytest.mark.parametrize("dimension", WITH_UNITS, ids=lambda dimension: dimension.name)
def test_every_unit_survives_the_way_to_si_and_back(dimension: Dimension, system: System) -> None:
    for unit, spellings in dimension.words:
        for word in (unit, *spellings):
            parsed = parse(f"7 {word}", dimension, system=system, field="field")
            assert parsed.unit == unit
            assert from_si(parsed.value, dimension, unit) == pytest.approx(7.0)
            assert to_si(7.0, dimension, unit) == pytest.approx(parsed.value)
    assert unit_of(dimension, system) in dict(dimension.words)


@pytest.mark.parametrize("dimension", WITH_UNITS, ids=lambda dimension: dimension.name)
def test_no_spelling_stands_for_two_units(dimension: Dimension) -> None:
    owners: dict[str, set[str]] = {}
    for unit, spellings in dimension.words:
        for word in (unit, *spellings):
            owners.setdefault(word.lower(), set()).add(unit)
    assert {word: units for word, units in owners.items() if len(units) > 1} == {}


@pytest.mark.parametrize(
    ("text", "dimension", "word"),
    [
        ("195 psi", d.TEMPERATURE, "°F"),
        ("15 bananas", d.PRESSURE, "psi"),
        ("12 m3", d.LENGTH, "in"),
        ("55 M", d.DISTANCE, "mi"),
        ("0.1 mPa", d.PRESSURE, "MPa"),
        ("3 rows", d.COUNT, "leave the unit off"),
        ("2.5", d.COUNT, "whole number"),
        ("1/2", d.FRACTION, "percent"),
        (0.5, d.FRACTION, "write 0.5 % or 50 %"),
        ("0.5", d.FRACTION, "write 0.5 % or 50 %"),
        (0.05, d.GRADE, "write 0.05 % or 5 %"),
        ("-.05", d.GRADE, "write -0.05 % or -5 %"),
        ("1,5 bar", d.PRESSURE, "point"),
        ("0,125 mm", d.LENGTH, "point"),
        ("-0,500 in", d.LENGTH, "point"),
        ("01,250 lb", d.MASS, "point"),
        ("hot", d.TEMPERATURE, "°F"),
        ("", d.TEMPERATURE, "°F"),
        ("nan", d.TEMPERATURE, "finite"),
        ("-inf", d.TEMPERATURE, "finite"),
        (float("nan"), d.TEMPERATURE, "finite"),
        (float("inf"), d.PRESSURE, "finite"),
        ("1e999", d.PRESSURE, "finite"),
        (10**400, d.PRESSURE, "large"),
        ("3/0 in", d.LENGTH, "length"),
        ("2 9/8 in", d.LENGTH, "length"),
        ("-300 C", d.TEMPERATURE, "absolute zero"),
        (True, d.NUMBER, "number"),
        ("12 in 3 ft", d.LENGTH, "unit"),
        ("x" * 5000, d.LENGTH, "length"),
    ],
)
def test_what_cannot_be_read_is_refused_with_a_way_out(text: str | float, dimension: Dimension, word: str) -> None:
    with pytest.raises(Refusal) as refused:
        read(text, dimension)
    assert refused.value.field == "field"
    assert word in str(refused.value)
    assert len(str(refused.value)) < 300


THERMOSTAT = Declaration(
    means="start of opening", dimension=d.TEMPERATURE, hard=(310.0, 390.0), plausible=(344.0, 369.0), typical=361.0,
    spread=2.0, measure="stamped on it",
)  # fmt: skip
CAP = Declaration(
    means="cap pressure", dimension=d.PRESSURE, hard=(0.0, 30 * PSI), plausible=(0.0, 22 * PSI), typical=15 * PSI,
    spread=7000.0, measure="stamped on the cap",
)  # fmt: skip


@pytest.mark.parametrize(
    ("text", "system", "other"), [("195 C", "us", "195 °F"), ("195", "metric", "195 °F"), ("90", "us", "90 °C")]
)
def test_a_figure_of_the_other_scale_is_recognised(text: str, system: System, other: str) -> None:
    value = read(text, d.TEMPERATURE, system)
    with pytest.raises(Refusal, match=f"did you mean {other}"):
        check_hard(value, THERMOSTAT, text, "thermostat.start", system)


def test_a_limit_is_told_in_the_unit_of_the_shop() -> None:
    with pytest.raises(Refusal, match="between 0 psi and 30 psi") as refused:
        check_hard(300 * PSI, CAP, "300 psi", "cap.pressure", "us")
    assert (refused.value.field, refused.value.value) == ("cap.pressure", "300 psi")
    assert "stamped on the cap" in refused.value.fix


def test_a_value_on_the_limit_is_accepted() -> None:
    check_hard(read("30 psi", d.PRESSURE), CAP, "30 psi", "cap.pressure", "us")
    check_hard(0.0, CAP, "0", "cap.pressure", "us")


@pytest.mark.parametrize("text", ["recovery bottle", "Recovery-Bottle", "recovery"])
def test_a_choice_is_read_without_regard_to_case_and_hyphens(text: str) -> None:
    assert parse_choice(text, ("open overflow", "recovery bottle"), "cap.system") == 1.0


@pytest.mark.parametrize("text", ["ethilene", "", "e", 1, None, "other"])
def test_an_unknown_choice_is_refused_with_the_words_to_choose_from(text: object) -> None:
    with pytest.raises(Refusal, match="ethylene, propylene") as refused:
        parse_choice(text, ("ethylene", "propylene"), "fill.glycol")
    if text == "ethilene":
        assert "'ethylene'" in refused.value.fix


def test_yes_and_no() -> None:
    assert [parse_yes_no(text, "f") for text in (True, "Yes", "on", False, "no")] == [1.0, 1.0, 1.0, 0.0, 0.0]
    for text in ("maybe", 1, None, ""):
        with pytest.raises(Refusal, match="yes or no"):
            parse_yes_no(text, "f")
