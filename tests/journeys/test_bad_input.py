"""What cannot be used is told in one line: field, value, limit, fix. Exit code 2, nothing written."""

import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

Say = Callable[..., Any]
BOIL, FREEZE, DEMO = ("boil",), ("freeze",), ("demo",)


def _refused(answer: Any, *parts: str) -> None:
    """One line on the error stream, nothing on the other: `toptank: FIELD = VALUE: LIMIT; FIX`."""
    assert answer.code == 2
    assert answer.out == ""
    assert "Traceback" not in answer.err
    assert answer.err.count("\n") == 1
    assert len(answer.err) < 400
    head, _, rest = answer.err.strip().partition(": ")
    assert head == "toptank"
    field, _, told = rest.partition(" = ")
    assert field
    assert told.count("; ") >= 1
    assert told.endswith((".", "?"))
    for part in parts:
        assert part in answer.err


@pytest.mark.parametrize(
    ("words", "parts"),
    [
        ((*BOIL, "--cap", "300 psi"), ("cap = 300 psi", "between 0 psi and 30 psi", "figure stamped on it")),
        ((*BOIL, "--cap", "300 psi", "--units", "metric"), ("cap = 300 psi", "kPa")),
        ((*BOIL, "--cap", "-5 psi"), ("cap = -5 psi", "between 0 psi and 30 psi")),
        ((*BOIL, "--cap", "15 qt"), ("cap = 15 qt", "not a unit of pressure", "psi, kPa, bar")),
        ((*BOIL, "--cap", "fifteen"), ("cap = fifteen", "is not a pressure", "12 psi")),
        ((*BOIL, "--cap", "nan"), ("cap = nan", "not a finite number")),
        ((*BOIL, "--cap", "inf"), ("cap = inf", "not a finite number")),
        ((*BOIL, "--cap", "1e999 psi"), ("cap = 1e999 psi", "not a finite number")),
        ((*BOIL, "--cap", ""), ("cap = ", "is not a pressure")),
        ((*BOIL, "--cap", "15\npsi\x1b[31m"), ("cap = 15?psi?[31m",)),
        ((*BOIL, "--mix", "0.5"), ("mix = 0.5", "write 0.5 % or 50 %")),
        ((*FREEZE, "--mix", ".5"), ("mix = .5", "write 0.5 % or 50 %")),
        ((*BOIL, "--mix", "95 %"), ("mix = 95 %", "between 0 % and 70 %", "refractometer")),
        ((*FREEZE, "--mix", "95 %"), ("mix = 95 %", "between 0 % and 70 %", "refractometer")),
        ((*FREEZE, "--mix", "95/5"), ("mix = 95/5", "between 0 % and 70 %")),
        ((*FREEZE, "--mix", "-10 %"), ("mix = -10 %",)),
        ((*FREEZE, "--glycol", "methanol"), ("glycol = methanol", "ethylene, propylene")),
        ((*BOIL, "--altitude", "30000 ft"), ("altitude = 30000 ft", "18045 ft")),
        ((*BOIL, "--altitude", "5000 psi"), ("altitude = 5000 psi", "not a unit of altitude")),
        (("explain", "air-to-boyle"), ("quantity = air-to-boyle", "did you mean 'air_to_boil'?")),
        (("explain", "colour"), ("quantity = colour", "has no explanation here")),
        (("sheet", "new", "--like", "spaceship"), ("spaceship", "toptank vehicles")),
        ((*DEMO, "--full", "--draws", "10"), ("draws = 10", "between 50 and 100,000")),
        ((*DEMO, "--draws", "10"), ("draws = 10", "must lie between")),
        ((*DEMO, "--draws", "10000000"), ("draws = 10000000", "must lie between")),
        ((*DEMO, "--seed", "-1"), ("seed = -1", "must lie between 0 and")),
        ((*DEMO, "--out", "gauge.pdf"), ("out = gauge.pdf", ".png or .svg")),
        ((*DEMO, "--out", "no-such-folder/gauge.png"), ("out = no-such-folder/gauge.png", "folder")),
    ],
)
def test_a_bad_word_on_the_command_line_is_refused(
    say: Say, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, words: tuple[str, ...], parts: tuple[str, ...]
) -> None:
    monkeypatch.chdir(tmp_path)
    _refused(say(*words), *parts)
    assert list(tmp_path.iterdir()) == []


CORE = [
    (("--coolant-in", "200 C"), ("coolant-in = 200 C", "did you mean 200 °F?")),
    (("--coolant-in", "-100 F"), ("coolant-in = -100 F",)),
    (("--air-in", "95 C"), ("air-in = 95 C", "did you mean 95 °F?")),
    (("--coolant-in", "90 F", "--air-in", "100 F"), ("coolant-in = 90 F", "above air-in", "higher temperature")),
    (("--coolant-flow", "0 gpm"), ("coolant-flow = 0 gpm",)),
    (("--coolant-flow", "40 psi"), ("coolant-flow = 40 psi", "not a unit of flow")),
    (("--face-velocity", "-1 m/s"), ("face-velocity = -1 m/s",)),
]


@pytest.mark.parametrize(("words", "parts"), CORE)
def test_a_bench_that_cannot_be_is_refused(
    say: Say, examples: Path, words: tuple[str, ...], parts: tuple[str, ...]
) -> None:
    _refused(say("core", examples / "bench-core.toml", *words), *parts)


SEEN = 'gauge = "215 F"\nwords = "warm"\nnote = "came down within a mile of the top"'
SPOILT = [
    ('"15 psi"', '"300 psi"', ("cap.pressure = 300 psi", "between 0 psi and 30 psi")),
    ('"15 psi"', '"-15 psi"', ("cap.pressure = -15 psi", "between 0 psi and 30 psi")),
    ('"15 psi"', '"15 qt"', ("cap.pressure = 15 qt", "not a unit of pressure")),
    ('value = "15 psi"', "value = nan", ("cap.pressure = nan", "not a finite number")),
    ('value = "15 psi"', "value = -inf", ("cap.pressure = -inf", "not a finite number")),
    ('value = "15 psi"', "value = true", ("cap.pressure = True", "must be one figure")),
    ('value = "15 psi"', 'value = ["15 psi"]', ("cap.pressure", "must be one figure")),
    ('value = "15 psi", ', "", ("cap.pressure", "has no value")),
    ('how = "plate"', 'how = "guessed"', ("cap.pressure.how = guessed", "measured, plate, assumed")),
    ('how = "plate"', 'hwo = "plate"', ("cap.pressure.hwo", "did you mean 'how'?")),
    ('spread = "0.1 mm"', 'spread = "-0.1 mm"', ("core.scale_thickness.spread = -0.1 mm", "not negative")),
    ("[cap]", '[fill]\nconcentrate = "95 %"\n[cap]', ("fill.concentrate = 95 %", "between 0 % and 70 %")),
    ("rows = 2 ", "rows = 2.5 ", ("core.rows = 2.5", "whole number")),
    ("rows = 2 ", "rows = 99 ", ("core.rows = 99", "between 1 and 8")),
    ("rows = 2 ", f"rows = {'9' * 400} ", ("core.rows = a very large number",)),
    ("rows = 2 ", f"rows = {'9' * 5000} ", ("file = ", "too many digits")),
    ("rows = 2 ", "rwos = 2 ", ("core.rwos = 2", "not a known key", "did you mean 'rows'?")),
    ("[cap]", "[cpa]", ("cpa", "is not a section", "did you mean 'cap'?")),
    ("[cap]", "[weather]", ("weather", "is not a section", "the sections are")),
    ('"90 F"', '"90 C"', ("ambient = 90 C", "between -40 °F and 140 °F", "did you mean 90 °F?")),
    ('"45 mph"', '"450 mph"', ("speed = 450 mph", "157 mph")),
    ('"45 mph"', '"45 F"', ("speed = 45 F", "not a unit of speed")),
    ('"6 %"', "0.06", ("grade = 0.06", "write 0.06 % or 6 %")),
    ('"6 %"', '"80 %"', ("grade = 80 %", "between -30 % and 40 %")),
    ('"6 %"', "2026-11-25", ("grade = 2026-11-25", "must be one figure")),
    ("air_conditioning = true", 'air_conditioning = "maybe"', ("air_conditioning = maybe", "must be yes or no")),
    ("air_conditioning = true", 'gear = "reverse"', ("gear = reverse", "must be one of: as needed")),
    ('format = "toptank-job-2"', "", ("format = (missing)", "is needed", 'the first line must be format = "toptank-')),
    ('"toptank-job-2"', '"toptank-job-9"', ("format = toptank-job-9", "is not a job file", "toptank-job-2")),
    ('"toptank-job-2"', "1", ("format = 1", "must be a text")),
    ('units = "us"', 'units = "si"', ("units = si", "write one of the three")),
    ('like = "pickup-1970s-v8-air"', "", ("vehicle.like = (missing)", "is needed")),
    ("pickup-1970s-v8-air", "pickup-1970s-v8-ear", ("like = pickup-1970s-v8-ear", "pickup-1970s-v8-air")),
    ("[vehicle]", "[vehicel]", ("vehicle = (missing)", "is needed", "add a section [vehicle]")),
    ("invented = true", 'invented = "yes"', ("job.invented = yes", "true or false")),
    ("invented = true", "owner = 5", ("job.owner = 5", "not a known key here")),
    ('limit = "220 F"', 'limit = "220 C"', ("job.limit = 220 C", "314 °F")),
    ('title = "Pickup', 'title = "\\u001b[31mPickup', ("job.title = ?[31mPickup", "cannot be printed")),
    ('name = "long grade"', "", ("duty.name = (missing)", "is needed")),
    ('"long grade"', '""', ('duty.name = ""', "must not be empty", "write what the vehicle does")),
    ('"long grade"', '" \\t "', ('duty.name = ""', "must not be empty", "write what the vehicle does")),
    ("[[duty]]", "[duty]", ("duty = ", "must be a list of tables", "[[duty]]")),
    ("[[reading]]", '[[duty]]\nname = "long grade"\n[[reading]]', ("duty.name = long grade", "is used twice")),
    ('duty = "long grade"', 'duty = "long graed"', ("reading.duty = long graed", "did you mean 'long grade'?")),
    ('duty = "long grade"', 'duty = "parade"', ("reading.duty = parade", "is not a duty of this job")),
    ('gauge = "215 F"', 'gauge = "215 C"', ("reading.gauge", "160 °C")),
    ('gauge = "215 F"', 'gauge = "-400 F"', ("reading.gauge = -400 F", "-45 °F")),
    (SEEN, "", ("reading.duty = long grade", "says nothing of what was seen")),
    ('gauge = "215 F"', 'gauge = "-500 F"', ("reading.gauge = -500 F", "below absolute zero")),
    ('words = "warm"', 'words = "scary"', ("reading.words = scary", "fine, warm, hot, boiled")),
    ("[job]", "[job", ("file = ", "is not TOML", "line 5")),
    ("[cap]", "[core]", ("file = ", "is not TOML", "line")),
    ("rows = 2 ", "rows = 2\nrows = 3 ", ("file = ", "is not TOML", "line")),
]


@pytest.mark.parametrize(("right", "wrong", "parts"), SPOILT, ids=[f"{wrong[:40]}" for _, wrong, _ in SPOILT])
def test_a_spoilt_job_file_is_refused(
    say: Say, tmp_path: Path, job_text: str, right: str, wrong: str, parts: tuple[str, ...]
) -> None:
    assert right in job_text
    job, out = tmp_path / "job.toml", tmp_path / "gauge.png"
    job.write_text(job_text.replace(right, wrong, 1), encoding="utf-8")
    _refused(say("forecast", job, "--out", out, "--draws", 50), *parts)
    assert [path.name for path in tmp_path.iterdir()] == ["job.toml"]


def test_a_job_without_a_duty_is_refused(say: Say, tmp_path: Path, job_text: str) -> None:
    job = tmp_path / "job.toml"
    job.write_text(job_text.partition("[[duty]]")[0], encoding="utf-8")
    _refused(say("forecast", job), "duty = 0", "between 1 and 24 duties", "add [[duty]]")


def test_a_job_of_too_many_duties_is_refused(say: Say, tmp_path: Path, job_text: str) -> None:
    job = tmp_path / "job.toml"
    job.write_text(job_text + "".join(f'\n[[duty]]\nname = "{i}"\n' for i in range(24)), encoding="utf-8")
    _refused(say("forecast", job), "duty = 25", "between 1 and 24 duties")


FILES = [
    (b"# " + b"x" * 300_000, ("is larger than 256 KiB",)),
    (b"\x89PNG\r\n\x1a\n\x00\x00\xff\xfe", ("is not text",)),
    (b"\x00" * 100, ("is not TOML",)),
    (b"Dear mechanic, it runs hot.", ("is not TOML",)),
    (b"", ("format = (missing)", "is needed")),
    (b"rows" + b".a" * 2_000 + b" = 1", ("is nested too deeply",)),
    (b"rows = " + b"[" * 50_000, ("is nested too deeply",)),
]


@pytest.mark.parametrize("command", ["forecast", "core"])
@pytest.mark.parametrize(("content", "parts"), FILES, ids=[parts[0] for _, parts in FILES])
def test_a_file_that_is_something_else_is_refused(
    say: Say, tmp_path: Path, command: str, content: bytes, parts: tuple[str, ...]
) -> None:
    file = tmp_path / "job.toml"
    file.write_bytes(content)
    _refused(say(command, file), *parts)


@pytest.mark.parametrize("command", ["forecast", "core"])
def test_a_folder_and_a_missing_file_are_refused(say: Say, tmp_path: Path, command: str) -> None:
    _refused(say(command, tmp_path), "file = ", "is a folder")
    _refused(say(command, tmp_path / "job.toml"), "file = ", "does not exist", "sheet new")
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("command", ["forecast", "core"])
def test_a_pipe_and_a_device_are_refused_at_once(say: Say, tmp_path: Path, command: str) -> None:
    pipe = tmp_path / "job.toml"
    os.mkfifo(pipe)  # opened for reading it would wait for a writer, who never comes
    _refused(say(command, pipe), "file = ", "is a pipe or a device")
    _refused(say(command, "/dev/zero"), "file = /dev/zero", "is a pipe or a device")


def test_a_word_that_is_not_near_gets_no_suggestion(say: Say, tmp_path: Path, job_text: str) -> None:
    job = tmp_path / "job.toml"
    job.write_text(job_text.replace("[cap]", "[weather]"), encoding="utf-8")
    assert "did you mean" not in say("forecast", job).err  # "heater" shares five letters with it and nothing else


def test_a_file_without_a_format_is_told_where_it_goes(say: Say, tmp_path: Path, job_text: str) -> None:
    job = tmp_path / "job.toml"
    job.write_text(job_text.replace('format = "toptank-job-2"', ""), encoding="utf-8")
    for command, written in (("forecast", "toptank-job-2"), ("core", "toptank-core-1")):
        answer = say(command, job)
        _refused(answer, "format = (missing)", f'the first line must be format = "{written}"')
        assert "[file]" not in answer.err  # there is no such section


def test_the_two_kinds_of_file_are_told_apart(say: Say, examples: Path) -> None:
    _refused(say("core", examples / "first-job.toml"), "format = toptank-job-2", "is not a core file")
    _refused(say("forecast", examples / "bench-core.toml"), "format = toptank-core-1", "toptank-job-2")


@pytest.mark.parametrize(
    ("right", "wrong", "parts"),
    [
        ("[core]", "[cap]", ("cap", "is not a section of a core file", "known: core, fill")),
        ("rows = 3", "rows = 0", ("core.rows = 0", "between 1 and 8")),
        ('tube_pitch = "7/16 in"', 'tube_pitch = "1/4 qt"', ("core.tube_pitch", "not a unit of length")),
        ('row_pitch = "11/16 in"', 'row_pitch = "1/2 in"', ("row_pitch", "further apart")),
        ('units = "us"', 'units = "imperial"', ("units = imperial",)),
    ],
)
def test_a_spoilt_core_file_is_refused(
    say: Say, tmp_path: Path, examples: Path, right: str, wrong: str, parts: tuple[str, ...]
) -> None:
    text = (examples / "bench-core.toml").read_text(encoding="utf-8")
    assert right in text
    core = tmp_path / "core.toml"
    core.write_text(text.replace(right, wrong, 1), encoding="utf-8")
    _refused(say("core", core), *parts)


def test_a_file_that_exists_is_not_replaced_without_force(say: Say, examples: Path, tmp_path: Path) -> None:
    sheet, chart = tmp_path / "job.toml", tmp_path / "gauge.svg"
    for file in (sheet, chart):
        file.write_text("mine", encoding="utf-8")
    new = ("sheet", "new", "--like", "roadster-1960s-four", "--out", sheet)
    _refused(say(*new), "exists already", "--force")
    _refused(say("forecast", examples / "first-job.toml", "--out", chart), "exists already", "--force")
    assert sheet.read_text(encoding="utf-8") == chart.read_text(encoding="utf-8") == "mine"
    assert say(*new, "--force").code == 0
    assert sheet.read_text(encoding="utf-8").startswith("format = ")


def test_a_sheet_into_a_folder_that_does_not_exist_is_refused(say: Say, tmp_path: Path) -> None:
    out = tmp_path / "nowhere" / "job.toml"
    _refused(say("sheet", "new", "--like", "roadster-1960s-four", "--out", out), "cannot be written")
    _refused(say("sheet", "new", "--like", "roadster-1960s-four", "--out", tmp_path, "--force"), "cannot be written")
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("words", "parts"),
    [
        (("boil", "--units", "imperial"), ("'imperial' is not one of 'us', 'metric'", "`toptank boil --help`")),
        (("boil", "--colour", "green"), ("no such option: --colour", "`toptank boil --help`")),
        (("boil", "--cpa", "15 psi"), ("no such option: --cpa", "did you mean '--cap'?")),
        (("boil", "--cap"), ("'--cap' requires an argument",)),
        (("boil", "more"), ("more", "`toptank boil --help`")),
        (("boil", "mo\nre\x1b[31m"), ("toptank boil mo re?[31m",)),
        (("cool",), ("no such command 'cool'", "`toptank --help`")),
        (("frecast",), ("no such command 'frecast'", "did you mean 'forecast'?")),
        (("forecast",), ("missing argument 'JOB'",)),
        (("sheet", "new"), ("missing option '--like'", "`toptank sheet new --help`")),
        (("demo", "--draws", "many"), ("'--draws'", "write a whole number")),
    ],
)
def test_a_command_that_does_not_exist_so_is_refused_like_any_other_input(
    say: Say, words: tuple[str, ...], parts: tuple[str, ...]
) -> None:
    _refused(say(*words), "command = toptank", *parts)


@pytest.mark.parametrize("words", [(), ("sheet",)])
def test_a_bare_name_shows_the_help(say: Say, words: tuple[str, ...]) -> None:
    answer = say(*words)
    assert "Usage: toptank" in answer.out + answer.err
    assert "Commands:" in answer.out + answer.err
