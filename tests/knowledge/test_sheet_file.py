"""What people write in a job file becomes facts, or is refused in one sentence."""

import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from toptank.knowledge.sheet import Fact, Provenance, declaration_of, declared_sheet, duty, fields, overlay
from toptank.knowledge.sheet_file import FactsRead, read_duty, read_sheet, read_tables, render, render_duty
from toptank.knowledge.sheet_text import quoted
from toptank.units.conversion import System
from toptank.units.dimension import CHOICE, COUNT, YES_NO
from toptank.units.refusal import Refusal
from toptank.units.sentence import said_each

# Defined exactly: the international inch and pound, and 1 °F = 5/9 K.
INCH = 0.0254
PSI = 6894.757293168361


def _read(text: str, system: System = "us") -> FactsRead:
    return read_tables(tomllib.loads(text), system=system)


def _fact(text: str, path: str, system: System = "us") -> Fact:
    return _read(text, system).facts[path]


def test_a_plain_value_counts_as_measured() -> None:
    fact = _fact('[core]\nface_width = "26 in"', "core.face_width")
    assert fact.value == pytest.approx(26 * INCH)
    assert fact.how == Provenance.MEASURED
    assert fact.spread == pytest.approx(0.2 * declaration_of("core.face_width").spread)
    assert fact.origin == "job file"


def test_a_plate_is_told_by_a_table() -> None:
    fact = _fact('[cap]\npressure = { value = "15 psi", how = "plate" }', "cap.pressure")
    assert fact.value == pytest.approx(15 * PSI)
    assert fact.how == Provenance.PLATE
    assert fact.spread == pytest.approx(0.1 * declaration_of("cap.pressure").spread)


def test_the_spread_of_a_temperature_is_a_difference() -> None:
    fact = _fact('[thermostat]\nstarts_opening = { value = "180 F", spread = "5 F" }', "thermostat.starts_opening")
    assert fact.value == pytest.approx(273.15 + (180 - 32) / 1.8)
    assert fact.spread == pytest.approx(5 / 1.8)


@pytest.mark.parametrize("spread", ['"15 %"', '"67.5 W/K"'])
def test_a_relative_spread_is_written_as_a_share_or_as_a_quantity(spread: str) -> None:
    fact = _fact(f'[condenser]\nconductance = {{ value = "450 W/K", spread = {spread} }}', "condenser.conductance")
    assert fact.spread == pytest.approx(0.15)


def test_a_share_of_a_length_is_turned_into_a_length() -> None:
    fact = _fact('[core]\nface_width = { value = "26 in", spread = "10 %" }', "core.face_width")
    assert fact.spread == pytest.approx(2.6 * INCH)


def test_the_spread_of_a_choice_is_a_probability() -> None:
    fact = _fact('[core]\nfin_kind = { value = "plain", how = "assumed", spread = "25 %" }', "core.fin_kind")
    assert (fact.value, fact.spread) == (1.0, 0.25)


def test_a_bare_number_takes_the_unit_of_the_shop_and_says_so() -> None:
    read = _read("[core]\nfin_density = 12")
    assert read.facts["core.fin_density"].value == pytest.approx(12 / INCH)
    assert read.assumed_units == ("core.fin_density = 12: taken as fpi",)
    assert _fact("[core]\nface_width = 660", "core.face_width", "metric").value == pytest.approx(0.66)


def test_a_number_without_unit_needs_no_remark_on_units() -> None:
    assert _read("[core]\nrows = 3\n[fan]\nbelt_ratio = 1.1").assumed_units == ()


def test_yes_and_no_and_choices_are_read() -> None:
    read = _read('[condenser]\npresent = false\nrefrigerant = "R12"\n[shroud]\npresent = "yes"')
    assert [read.facts[path].value for path in read.facts] == [0.0, 1.0, 1.0]


def test_an_unusual_value_is_accepted_with_a_remark() -> None:
    read = _read('[core]\nface_width = "60 in"')
    assert read.facts["core.face_width"].value == pytest.approx(60 * INCH)
    assert len(read.remarks) == 1
    assert "core.face_width = 60 in" in str(read.remarks[0])
    assert _read('[core]\nface_width = "26 in"').remarks == ()


REFUSED = {
    "unknown section": ("[cores]\nrows = 2", "cores", "did you mean 'core'?"),
    "unknown key": ("[core]\nrow = 2", "core.row", "did you mean 'rows'?"),
    "key of another part": ('[core]\ntip_clearance = "1 in"', "core.tip_clearance", "[shroud]"),
    "wrong unit": ('[core]\nface_width = "26 psi"', "core.face_width", "mm"),
    "beyond the hard limit": ('[cap]\npressure = "300 psi"', "cap.pressure", "30 psi"),
    "share or percentage": ("[fill]\nconcentrate = 0.5", "fill.concentrate", "write 0.5 % or 50 %"),
    "spread of a share or percentage": (
        '[fill]\nconcentrate = { value = "50 %", spread = 0.05 }',
        "fill.concentrate.spread",
        "write 0.05 % or 5 %",
    ),
    "too much glycol": ('[fill]\nconcentrate = "95 %"', "fill.concentrate", "70 %"),
    "wrong scale": ('[thermostat]\nstarts_opening = "195 C"', "thermostat.starts_opening", "195 °F"),
    "no such word": ('[core]\nfin_kind = "slitted"', "core.fin_kind", "louvered"),
    "not yes or no": ('[shroud]\npresent = "maybe"', "shroud.present", "yes or no"),
    "half a row": ("[core]\nrows = 2.5", "core.rows", "whole number"),
    "not a number": ("[core]\nrows = nan", "core.rows", "finite"),
    "a list": ("[core]\nrows = [2]", "core.rows", "one figure"),
    "a date": ("[core]\nrows = 2001-01-01", "core.rows", "one figure"),
    "not a table": ("core = 3", "core", "[core]"),
    "no value": ('[core]\nrows = { how = "plate" }', "core.rows", "value"),
    "unknown word beside value": ("[core]\nrows = { value = 2, sigma = 1 }", "core.rows.sigma", "spread"),
    "unknown how": ('[core]\nrows = { value = 2, how = "guessed" }', "core.rows.how", "assumed"),
    "negative spread": (
        '[core]\nface_width = { value = "26 in", spread = "-1 in" }',
        "core.face_width.spread",
        "-1 in",
    ),
    "endless spread": ('[core]\nface_width = { value = "26 in", spread = "9 m" }', "core.face_width.spread", "9 m"),
    "share of a temperature": (
        '[thermostat]\nstarts_opening = { value = "180 F", spread = "5 %" }',
        "thermostat.starts_opening.spread",
        "5 F",
    ),
}


@pytest.mark.parametrize(("text", "field", "told"), REFUSED.values(), ids=REFUSED)
def test_what_cannot_be_used_is_refused_by_name_with_a_way_out(text: str, field: str, told: str) -> None:
    with pytest.raises(Refusal) as refused:
        _read(text)
    assert refused.value.field == field
    assert told in str(refused.value)
    assert "\n" not in str(refused.value)


@pytest.mark.parametrize("text", ["[weather]\nwind = 3", "[core]\nfin_height_inside = 3"])
def test_a_word_that_is_not_near_is_not_bent_into_a_known_one(text: str) -> None:
    with pytest.raises(Refusal) as refused:
        _read(text)
    assert "did you mean" not in str(refused.value)  # heater, fin_thickness: more than a slip or two away


def test_a_stray_escape_sign_does_not_reach_the_screen() -> None:
    with pytest.raises(Refusal) as refused:
        _read('[core]\n"ro\\u001bws" = "\\u001b[31m"')
    assert str(refused.value).isprintable()


def test_the_sheet_of_a_job_stands_on_the_typical_vehicle() -> None:
    sheet, read = read_sheet({"core": {"rows": 4}}, like=declared_sheet("typical thing"), name="bay 2", system="us")
    assert sheet.facts["core.rows"].value == 4.0
    assert (sheet.name, sheet.like) == ("bay 2", "typical thing")
    assert set(read.facts) == {"core.rows"}


@pytest.mark.parametrize("system", ["us", "metric"])
def test_a_sheet_written_out_reads_back_the_same(system: System) -> None:
    sheet = overlay(declared_sheet(), _read('[core]\nface_width = "26 3/16 in"\n[cap]\npressure = "7 psi"').facts)
    read = _read(render(sheet, system), system)
    assert read.assumed_units == ()
    assert set(read.facts) == set(sheet.facts)
    for path, fact in sheet.facts.items():
        assert read.facts[path].value == pytest.approx(fact.value, rel=2e-7), path
        assert read.facts[path].spread == pytest.approx(fact.spread, rel=2e-7), path
        assert read.facts[path].how == fact.how


@given(data=st.data(), system=st.sampled_from(["us", "metric"]))
def test_any_possible_value_survives_writing_and_reading(data: st.DataObject, system: System) -> None:
    facts: dict[str, Fact] = {}
    path, declaration = data.draw(st.sampled_from(list(fields())))
    if declaration.dimension in (CHOICE, YES_NO, COUNT):
        value = float(data.draw(st.integers(*(int(limit) for limit in declaration.hard))))
    else:
        value = data.draw(st.floats(*declaration.hard, allow_subnormal=False))
    facts[path] = Fact(value=value, how=Provenance.PLATE, spread=0.0, origin="")
    read = _read(render(overlay(declared_sheet(), facts), system), system).facts[path]
    assert read.value == pytest.approx(value, rel=2e-7, abs=1e-12)


def test_a_written_line_says_what_it_is_and_how_to_find_it() -> None:
    text = render(declared_sheet(), "us")
    assert "# width of the finned face (typical 23.6 in). tape across the fins" in text
    assert 'how = "assumed"' in text


def test_a_duty_is_read_and_written() -> None:
    table: dict[str, object] = {"speed": "40 mph", "grade": "1 in 20", "ambient": "95 F", "air_conditioning": True}
    sheet, read = read_duty(table, name="ridge", system="us")
    assert duty(sheet).grade == pytest.approx(0.05)
    assert duty(sheet).ambient == pytest.approx(308.15)
    assert set(read.facts) == set(table)
    again = tomllib.loads(render_duty(sheet, "us"))["duty"][0]
    assert again.pop("name") == "ridge"
    assert duty(read_duty(again, name="ridge", system="us")[0]).speed == pytest.approx(duty(sheet).speed)


@pytest.mark.parametrize(("system", "taken"), [("us", "90 °F"), ("metric", "32 °C")])
def test_a_duty_without_an_ambient_says_what_it_was_taken_as(system: System, taken: str) -> None:
    # declared in system/duty.py: 305.4 K
    _, read = read_duty({"speed": "40 km/h"}, name="ridge", system=system, within="duty 'ridge'")
    (remark,) = said_each(read.remarks, system)
    assert "duty 'ridge': " in remark
    assert "is not said" in remark
    assert f"is taken as {taken}" in remark
    assert read_duty({"ambient": "90 F"}, name="ridge", system="us")[1].remarks == ()


def test_a_duty_refuses_a_key_of_the_vehicle() -> None:
    with pytest.raises(Refusal, match="core"):
        read_duty({"rows": 2}, name="climb", system="us")
    with pytest.raises(Refusal, match="did you mean 'speed'"):
        read_duty({"sped": 2}, name="climb", system="us")


@given(st.text(st.characters(exclude_categories=("Cs",))))
def test_any_text_comes_back_from_the_file_that_it_is_written_in(text: str) -> None:
    assert tomllib.loads(f"words = {quoted(text)}") == {"words": text}
