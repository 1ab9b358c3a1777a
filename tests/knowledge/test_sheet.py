"""A sheet is complete, and says of every fact how well it is known."""

import dataclasses

import pytest

from toptank.knowledge.sheet import (
    DutySheet,
    Fact,
    Provenance,
    Sheet,
    assumptions,
    declaration_of,
    declared_sheet,
    duty,
    duty_sheet,
    fields,
    overlay,
    spread_known,
    vehicle,
)

WIDE = Fact(value=0.7, how=Provenance.MEASURED, spread=0.01, origin="tape")


def test_a_sheet_has_a_fact_for_every_field_of_every_part() -> None:
    sheet, parts = declared_sheet(), vehicle(declared_sheet())
    expected = {
        f"{part.name}.{field.name}"
        for part in dataclasses.fields(parts)
        for field in dataclasses.fields(getattr(parts, part.name))
    }
    assert set(sheet.facts) == expected
    assert len(expected) > 100


def test_a_sheet_with_a_hole_is_not_made() -> None:
    facts = dict(declared_sheet().facts)
    del facts["core.rows"]
    with pytest.raises(ValueError, match=r"core\.rows"):
        Sheet(name="holed", like="", facts=facts)


def test_a_duty_with_a_hole_is_not_made() -> None:
    with pytest.raises(ValueError, match="speed"):
        DutySheet(name="holed", facts={})


def test_a_better_fact_replaces_the_assumption_and_no_other() -> None:
    before = declared_sheet()
    after = overlay(before, {"core.face_width": WIDE})
    assert vehicle(after).core.face_width == 0.7
    assert set(assumptions(before)) - set(assumptions(after)) == {"core.face_width"}
    assert vehicle(before).core.face_width != 0.7


def test_a_fact_of_no_field_is_not_taken() -> None:
    with pytest.raises(KeyError, match=r"core\.wheels"):
        overlay(declared_sheet(), {"core.wheels": WIDE})


def test_the_doubts_of_the_model_are_assumptions() -> None:
    assert "doubts.air_heat_transfer" in assumptions(declared_sheet())


def test_what_a_duty_does_not_say_is_assumed() -> None:
    climb = duty_sheet("climb", {"speed": Fact(value=20.0, how=Provenance.MEASURED, spread=0.0, origin="phone")})
    assert duty(climb).speed == 20.0
    assert climb.facts["head_wind"].how == Provenance.ASSUMED


@pytest.mark.parametrize("path", [path for path, _ in fields()])
def test_a_plate_is_never_vaguer_than_a_tape_nor_a_tape_than_a_guess(path: str) -> None:
    guess, tape, plate = (
        spread_known(declaration_of(path), how) for how in (Provenance.ASSUMED, Provenance.MEASURED, Provenance.PLATE)
    )
    assert plate <= tape <= guess


def test_what_was_counted_or_seen_is_certain() -> None:
    for path in ("core.rows", "core.fin_kind", "condenser.present"):
        assert spread_known(declaration_of(path), Provenance.MEASURED) == 0.0


def test_a_stated_spread_is_kept_however_it_was_found() -> None:
    for how in Provenance:
        assert spread_known(declaration_of("cap.pressure"), how, 500.0) == 500.0
