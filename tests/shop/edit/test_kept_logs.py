"""A log beside a job: noted line by line, its columns asked for where they cannot be read, and named over the net."""

from pathlib import Path

import pytest

from toptank.shop.edit import kept_logs
from toptank.shop.log.log_file import read_log
from toptank.shop.log.noted_table import NotedRow, table_text
from toptank.shop.record import job_verbs
from toptank.units.refusal import Refusal

UNNAMED = "T1;T2;V;Boost\n0;90;80;1\n60;92,5;80;1\n120;95;80;1\n180;97;0;1\n"


@pytest.fixture
def number(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> int:
    monkeypatch.setenv("TOPTANK_STORE", str(tmp_path / "jobs.sqlite"))
    return job_verbs.open_told("pickup-1970s-v8-air", title="Logged", complaint="", system="us").job


def _row(at: str = "", gauge: str = "", speed: str = "", grade: str = "", air_conditioning: str = "") -> NotedRow:
    return NotedRow(at=at, gauge=gauge, speed=speed, grade=grade, air_conditioning=air_conditioning)


def test_lines_noted_by_hand_read_back_as_they_were_meant(tmp_path: Path) -> None:
    rows = [_row("14:00", "195", "50", "flat", "on"), _row(), _row("14:06", "", "35 mph", "5"), _row("14:10", "104 C")]
    file = tmp_path / "noted.csv"
    file.write_text(table_text(rows, "us"), encoding="utf-8")
    log = read_log(file).log
    assert (log.by_hand, log.length) == (True, 600.0)
    assert log.read["gauge"][0] == pytest.approx((195.0 - 32.0) / 1.8 + 273.15, abs=0.01)
    assert log.read["gauge"][600] == pytest.approx(104.0 + 273.15, abs=0.01)
    assert log.driven["speed"][360] == pytest.approx(35.0 * 0.44704)
    assert log.driven["speed"][359] == pytest.approx(50.0 * 0.44704)  # holds until the next line
    assert log.driven["grade"][600] == pytest.approx(0.05)
    assert log.driven["air_conditioning"].tolist() == [1.0] * 601


@pytest.mark.parametrize(
    ("rows", "field", "words"),
    [
        ([_row("0", "195", "50")], "table", "2 lines with a reading"),
        ([_row("14:00", "195"), _row("6", "200")], "time", "clocks in some lines"),
        ([_row("noon", "195"), _row("6", "200")], "line 1, time", "is no time"),
        ([_row("0", "195"), _row("", "200")], "line 2, time", "is needed"),
        ([_row("0", "195"), _row("6", "200 psi")], "line 2, gauge", "not a unit of temperature"),
        ([_row("0", "195", "fast"), _row("6", "200")], "line 1, speed", ""),
        ([_row("0", "195", "", "", "maybe"), _row("6", "200")], "line 1, A/C", "on or off"),
        ([_row("0", "195"), _row("5", "200"), _row("4", "210")], "line 3, time", "is before 5 in the line above"),
        ([_row("14:00", "195"), _row("13:50", "200")], "line 2, time", "is before 14:00 in the line above"),
    ],
)
def test_a_line_that_cannot_be_used_is_named(rows: list[NotedRow], field: str, words: str) -> None:
    with pytest.raises(Refusal) as told:
        table_text(rows, "us")
    assert told.value.field == field
    assert words in str(told.value)


def test_a_clock_goes_past_noon_and_midnight() -> None:
    for before, after in (("12:59", "1:00"), ("23:55", "0:05")):
        assert after in table_text([_row(before, "195"), _row(after, "200")], "us")


def test_columns_that_cannot_be_read_are_asked_for_and_kept_with_the_job(number: int, tmp_path: Path) -> None:
    file = tmp_path / "../odd name.csv"
    file.write_text(UNNAMED, encoding="utf-8")
    checksum = job_verbs.attach(number, file).checksum
    seen = kept_logs.look(number, checksum)
    assert "no line that names a time" in seen.refused
    assert "--" not in seen.refused  # a page has no options
    assert [(one.head, one.key, one.cells[1]) for one in seen.columns] == [
        ("T1", "", "60"), ("T2", "", "92,5"), ("V", "", "80"), ("Boost", "", "1"),
    ]  # fmt: skip
    with pytest.raises(Refusal, match="no unit of"):
        kept_logs.say_columns(number, checksum, [("T2", "gauge", "psi")])
    told = [("T1", "time", "s"), ("T2", "gauge", "°C"), ("V", "speed", "km/h"), ("Boost", "", "")]
    kept_logs.say_columns(number, checksum, told)
    seen = kept_logs.look(number, checksum)
    assert (seen.refused, seen.rows, seen.minutes, seen.needs_ambient, seen.needs_grade) == ("", 4, 3.0, True, True)
    assert list(job_verbs.stored_job(number).log.columns) == ["t1", "t2", "v"]  # what is left out by itself is not told

    other = kept_logs.keep_text(number, "W1,time (s),gauge,speed (mph)\n1,0,90,50\n2,60,91,50\n", "other.csv").checksum
    asked = {one.head: one.asks for one in kept_logs.look(number, other).columns}
    assert "needs its unit" in asked["gauge"]
    assert asked["time (s)"] == asked["speed (mph)"] == asked["W1"] == ""
    kept_logs.say_columns(number, other, [("gauge", "gauge", "°C"), ("W1", "", ""), ("time (s)", "time", "s")])
    columns = job_verbs.stored_job(number).log.columns
    assert set(columns) == {"t1", "t2", "v", "gauge"}  # those of the other log stay


def test_the_air_outside_never_names_a_file_over_the_net() -> None:
    assert kept_logs.typed_air(" 88 F to 95 F ") == "88 F to 95 F"
    assert kept_logs.typed_air("") is None
    for name in ("/somewhere/hosts.txt", "weather.CSV ", "x.tsv", "88 F to /somewhere/a.csv"):
        with pytest.raises(Refusal, match="is no temperature"):
            kept_logs.typed_air(name)
