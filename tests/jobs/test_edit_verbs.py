"""A job changed bit by bit: what was typed stays as typed, what others wrote is never lost, comments stay."""

import tomllib
from pathlib import Path

import pytest

from toptank.jobs import complaint_form, edit_document, edit_verbs, job_verbs
from toptank.jobs.form import sheet_form
from toptank.jobs.job_file import job_of
from toptank.jobs.store import document
from toptank.units.refusal import Refusal

EXAMPLES = Path(__file__).parents[2] / "examples"


@pytest.fixture(autouse=True)
def _own_store(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TOPTANK_STORE", str(tmp_path))


@pytest.fixture
def number() -> int:
    return job_verbs.open_example().job


def _text(number: int) -> str:
    return job_verbs.record(number).shown.text


def _at(number: int, path: str) -> object:
    return edit_document.value_at(document.parsed(_text(number)), path)


def test_a_field_keeps_what_was_typed_and_every_other_line_keeps_its_comment(number: int) -> None:
    before = _text(number)
    edit_verbs.set_field(number, "core.face_width", "25 3/8 in")
    after = _text(number)
    assert _at(number, "core.face_width") == "25 3/8 in"
    changed = [(one, two) for one, two in zip(before.split("\n"), after.split("\n"), strict=True) if one != two]
    assert changed == [('face_width = "25 1/4 in"', 'face_width = "25 3/8 in"')]


def test_a_bare_number_gets_the_unit_that_it_is_taken_in(number: int) -> None:
    edit_verbs.set_field(number, "core.face_height", "17 1/2")
    edit_verbs.set_field(number, "core.rows", "4", how="plate")
    assert _at(number, "core.face_height") == "17 1/2 in"
    assert _at(number, "core.rows") == {"value": 4, "how": "plate"}


def test_an_empty_text_brings_the_guess_back(number: int) -> None:
    edit_verbs.set_field(number, "core.rows", "")
    job = job_verbs.stored_job(number)
    assert _at(number, "core.rows") is None
    assert job.sheet.facts["core.rows"].how.value == "assumed"


def test_what_cannot_be_used_is_refused_and_changes_nothing(number: int) -> None:
    before = _text(number)
    for path, text in (("core.rows", "three and a bit"), ("core.nothing", "3"), ("[x].y", "3"), ("duty.99.speed", "3")):
        with pytest.raises(Refusal):
            edit_verbs.set_field(number, path, text)
    assert _text(number) == before


def test_two_people_at_different_fields_do_not_disturb_each_other(number: int) -> None:
    edit_verbs.set_field(number, "core.rows", "4", base="3")
    edit_verbs.set_field(number, "fan.diameter", "20 in", base="19 in")
    assert (_at(number, "core.rows"), _at(number, "fan.diameter")) == (4, "20 in")


def test_a_clash_at_one_field_is_told_and_overwrites_nothing(number: int) -> None:
    edit_verbs.set_field(number, "core.rows", "4", base="3")
    clash = edit_verbs.set_field(number, "core.rows", "2", base="3")
    assert clash == edit_verbs.Clash(theirs="4")
    assert _at(number, "core.rows") == 4


def test_undo_goes_back_step_by_step_and_loses_nothing(number: int) -> None:
    for rows in ("4", "2"):
        edit_verbs.set_field(number, "core.rows", rows)
    edit_verbs.undo(number)
    assert _at(number, "core.rows") == 4
    edit_verbs.undo(number)
    assert _at(number, "core.rows") == 3
    with pytest.raises(Refusal):
        edit_verbs.undo(number)
    assert len(job_verbs.history(number)) == 5


def test_readings_follow_their_condition_when_it_is_renamed_and_when_it_is_taken_out(number: int) -> None:
    edit_verbs.set_field(number, "duty.1.name", "the steep mile")
    assert [one["duty"] for one in complaint_form.rows_of(document.parsed(_text(number)), "reading")] == [
        "river road",
        "the steep mile",
        "farm gate",
    ]
    edit_verbs.remove_row(number, "duty", 1)
    assert [one.duty for one in job_verbs.stored_job(number).evidence.readings] == ["river road", "farm gate"]


@pytest.mark.parametrize("name", ["orchard-minibus.toml", "first-job.toml", "cases/fc07.toml", "cases/la04.toml"])
def test_other_units_change_no_figure_of_the_job(name: str) -> None:
    text = (EXAMPLES / name).read_text(encoding="utf-8")
    before = job_of(tomllib.loads(text))
    other = "metric" if before.system == "us" else "us"
    after = job_of(tomllib.loads(edit_document.with_units(text, other)))
    assert after.system == other
    assert (after.sheet, after.duties, after.worst_day, after.evidence, after.fit.facts) == (
        before.sheet,
        before.duties,
        before.worst_day,
        before.evidence,
        before.fit.facts,
    )


def test_bare_numbers_keep_their_meaning_when_the_units_are_changed() -> None:
    text = _bare("us").replace("[core]", "[core]\nface_width = 25") + '\n[[reading]]\nduty = "climb"\ngauge = 215\n'
    after = edit_document.with_units(text, "metric")
    table = tomllib.loads(after)
    assert (table["core"]["face_width"], table["reading"][0]["gauge"]) == ("25 in", "215 °F")


def _bare(system: str) -> str:
    head = f'format = "toptank-job-1"\nunits = "{system}"\n[vehicle]\nlike = "pickup-1970s-v8-air"\n'
    return head + '[core]\nrows = 3\n[[duty]]\nname = "climb"\n'


def test_every_field_of_the_form_has_a_label_and_a_way_to_be_found(number: int) -> None:
    job = job_verbs.stored_job(number)
    fields = [field for group in sheet_form(document.parsed(_text(number)), job, "us") for field in group.fields]
    asked = {path for path in job.sheet.facts if not path.startswith("doubts.")}
    assert {field.path for field in fields} == asked
    assert all(field.label and field.measure and (field.typed or field.hint) for field in fields)
