"""A job changed bit by bit: what was typed stays as typed, what others wrote is never lost, comments stay."""

import tomllib
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from toptank.shop.edit import complaint_form, edit, edit_document, row_names
from toptank.shop.edit.form import ONLY_ON, sheet_form
from toptank.shop.job.job_file import job_of
from toptank.shop.record import job_verbs
from toptank.shop.record.store import document
from toptank.shop.record.store.record import JobRecord
from toptank.units.refusal import Refusal

EXAMPLES = Path(__file__).parents[3] / "examples"


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
    edit.set_field(number, "core.face_width", "25 3/8 in")
    after = _text(number)
    assert _at(number, "core.face_width") == "25 3/8 in"
    changed = [(one, two) for one, two in zip(before.split("\n"), after.split("\n"), strict=True) if one != two]
    assert changed == [('face_width = "25 1/4 in"', 'face_width = "25 3/8 in"')]


def test_a_bare_number_gets_the_unit_that_it_is_taken_in(number: int) -> None:
    edit.set_field(number, "core.face_height", "17 1/2")
    edit.set_field(number, "core.rows", "4", how="plate")
    assert _at(number, "core.face_height") == "17 1/2 in"
    assert _at(number, "core.rows") == {"value": 4, "how": "plate"}


def test_an_empty_text_brings_the_guess_back(number: int) -> None:
    edit.set_field(number, "core.rows", "")
    job = job_verbs.stored_job(number)
    assert _at(number, "core.rows") is None
    assert job.sheet.facts["core.rows"].how.value == "assumed"


def test_what_cannot_be_used_is_refused_and_changes_nothing(number: int) -> None:
    before = _text(number)
    for path, text in (("core.rows", "three and a bit"), ("core.nothing", "3"), ("[x].y", "3"), ("duty.99.speed", "3")):
        with pytest.raises(Refusal):
            edit.set_field(number, path, text)
    assert _text(number) == before


def test_two_people_at_different_fields_do_not_disturb_each_other(number: int) -> None:
    edit.set_field(number, "core.rows", "4", base="3")
    edit.set_field(number, "fan.diameter", "20 in", base="19 in")
    assert (_at(number, "core.rows"), _at(number, "fan.diameter")) == (4, "20 in")


def test_a_clash_at_one_field_is_told_and_overwrites_nothing(number: int) -> None:
    edit.set_field(number, "core.rows", "4", base="3")
    clash = edit.set_field(number, "core.rows", "2", base="3")
    assert clash == edit.Clash(theirs="4")
    assert _at(number, "core.rows") == 4


def test_undo_goes_back_step_by_step_and_loses_nothing(number: int) -> None:
    for rows in ("4", "2"):
        edit.set_field(number, "core.rows", rows)
    edit.undo(number)
    assert _at(number, "core.rows") == 4
    edit.undo(number)
    assert _at(number, "core.rows") == 3
    with pytest.raises(Refusal):
        edit.undo(number)
    assert len(job_verbs.history(number)) == 5


def test_readings_follow_their_condition_when_it_is_renamed_and_when_it_is_taken_out(number: int) -> None:
    edit.set_field(number, "duty.1.name", "the steep mile")
    assert [one["duty"] for one in complaint_form.rows_of(document.parsed(_text(number)), "reading")] == [
        "river road",
        "the steep mile",
        "farm gate",
    ]
    edit.remove_row(number, "duty", 1)
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
    of_a_motor = ONLY_ON["electric_fan"]  # the example has a clutch
    asked = {path for path in job.sheet.facts if not path.startswith(("doubts.", *of_a_motor))}
    assert {field.path for field in fields} == asked
    assert all(field.label and field.measure and (field.typed or field.hint) for field in fields)


def test_a_sheet_asks_for_no_clutch_on_an_electric_fan_but_shows_what_was_typed() -> None:
    job = job_verbs.stored_job(job_verbs.open_like("wagon-1990s-v6-air", system="us").job)
    paths = {field.path for group in sheet_form({}, job, "us") for field in group.fields}
    assert not [one for one in paths if one.startswith("fan_clutch.")]
    assert "fan.belt_ratio" not in paths
    assert set(ONLY_ON["electric_fan"]) <= paths
    typed = sheet_form({"fan_clutch": {"kind": "heavy-duty"}}, job, "us")
    assert "fan_clutch.kind" in {field.path for group in typed for field in group.fields}


def _names(number: int, key: str) -> tuple[str, ...]:
    return row_names.names_of(job_verbs.record(number).shown)[key]


def test_what_is_written_follows_its_row_and_never_lands_in_another(number: int) -> None:
    first, second, *_ = _names(number, "duty")
    edit.set_field(number, "duty.1.name", "the steep mile")
    edit.set_units(number, "metric")
    edit.remove_row(number, "duty", 0)
    edit.set_field(number, "duty.1.head_wind", "11 mph", base="", row=second)
    rows = complaint_form.rows_of(document.parsed(_text(number)), "duty")
    assert [one["name"] for one in rows if one.get("head_wind") == "11 mph"] == ["the steep mile"]
    before = _text(number)
    with pytest.raises(Refusal, match="taken out by somebody"):
        edit.set_field(number, "duty.0.head_wind", "12 mph", base="", row=first)
    assert _text(number) == before


def test_two_who_take_out_the_same_reading_take_out_one_even_among_readings_alike(number: int) -> None:
    for _ in range(2):
        edit.add_row(number, "reading", {"duty": "farm gate", "gauge": "218 F"})
    names = _names(number, "reading")
    twin = len(names) - 2
    edit.remove_row(number, "reading", twin, row=names[twin])
    with pytest.raises(Refusal, match="taken out by somebody"):
        edit.remove_row(number, "reading", twin, row=names[twin])
    assert _names(number, "reading") == (*names[:twin], names[twin + 1])


def test_names_of_rows_are_the_same_for_whoever_begins_to_look_later(number: int) -> None:
    edit.remove_row(number, "reading", 0)
    edit.set_field(number, "reading.0.note", "seen twice")
    edit.undo(number)
    told = row_names.names_of(job_verbs.record(number).shown)
    at_first = row_names.names_of(job_verbs.record(number, revision=1).shown)  # an earlier one: reckoned anew
    assert told["reading"] == at_first["reading"][1:]
    assert row_names.names_of(job_verbs.record(number).shown) == told


def test_undo_never_takes_back_what_somebody_else_saved_meanwhile(number: int, monkeypatch: pytest.MonkeyPatch) -> None:
    edit.set_field(number, "core.rows", "4")
    read = job_verbs.record

    def read_slowly(job: int, *, revision: int | None = None) -> JobRecord:
        found = read(job, revision=revision)
        if revision is not None:  # the target is read: now another saves
            edit.set_field(number, "fan.diameter", "20 in")
        return found

    monkeypatch.setattr(job_verbs, "record", read_slowly)
    with pytest.raises(Refusal, match="meanwhile"):
        edit.undo(number)
    assert (_at(number, "core.rows"), _at(number, "fan.diameter")) == (4, "20 in")


def test_loggers_that_post_at_once_lose_nothing(number: int) -> None:
    before = len(complaint_form.rows_of(document.parsed(_text(number)), "reading"))
    with ThreadPoolExecutor(8) as pool:
        said = [{"duty": "farm gate", "gauge": f"{200 + place} F"} for place in range(32)]
        saved = list(pool.map(lambda one: edit.add_row(number, "reading", one, author="logger"), said))
    assert sorted(one.number for one in saved) == list(range(2, 34))
    assert len(complaint_form.rows_of(document.parsed(_text(number)), "reading")) == before + 32


@pytest.mark.parametrize("by", ["Sam\0", "\x1b[2J", "\u202eknarf", "x" * 201])
def test_a_name_that_could_not_be_shown_signs_nothing(number: int, by: str) -> None:
    for verb in (
        lambda: edit.set_field(number, "core.rows", "4", author=by),
        lambda: edit.add_row(number, "reading", {"duty": "farm gate", "gauge": "218 F"}, author=by),
        lambda: edit.undo(number, author=by),
    ):
        with pytest.raises(Refusal, match="by = "):
            verb()
        edit.set_field(number, "core.rows", "2")  # so that there is something to be undone


def test_half_a_sign_is_refused_in_a_sentence(number: int) -> None:
    with pytest.raises(Refusal, match="cannot be printed"):
        edit.set_field(number, "job.complaint", "hot \ud83d")
    with pytest.raises(Refusal, match="cannot be printed"):
        edit.add_row(number, "reading", {"duty": "farm gate", "note": "\udc00"})
    for told in ({"title": "a\0b", "complaint": ""}, {"title": "", "complaint": "\x1b[2J"}):
        with pytest.raises(Refusal, match="cannot be printed"):
            job_verbs.open_told("pickup-1970s-v8-air", system="us", **told)
    with pytest.raises(Refusal, match=r"vehicle\.like = .* is not a typical vehicle"):
        job_verbs.open_told('"\x16', title="named", complaint="", system="us")
    with pytest.raises(Refusal, match="cannot be printed"):
        job_verbs.open_text("format = 'toptank-job-1' # \ud800")
