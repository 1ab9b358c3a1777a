"""Logs as loggers and pencils write them: the same drive in any spelling, and never a unit that nobody has said."""

import os
import tomllib
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from toptank.shop.ask import service
from toptank.shop.ask.logs.log_drive import logged_drive
from toptank.shop.log import log_text
from toptank.shop.log.log_columns import CHANNELS, head_of
from toptank.shop.log.log_file import LogFile, read_log
from toptank.shop.log.log_mapping import NO_MAPPING, LogMapping, mapping_of
from toptank.units.conversion import from_si
from toptank.units.dimension import SPEED, TEMPERATURE
from toptank.units.refusal import Refusal

Reading = Callable[..., LogFile]


@pytest.fixture
def read(tmp_path: Path) -> Reading:
    """Write a text into a file and read it as a log."""

    def run(text: str | bytes, *columns: str, decimal: str = "") -> LogFile:
        file = tmp_path / "log.csv"
        file.write_bytes(text.encode("utf-8") if isinstance(text, str) else text)
        return read_log(file, mapping_of(columns, decimal))

    return run


SPELLINGS = {
    "plain": "time (s),Coolant Temp (°C),Speed [km/h]\n0,80.5,36\n1,81.5,36\n2,82.5,72\n",
    "semicolon and comma": "time (s);coolant °C;speed km/h\n0;80,5;36\n1;81,5;36\n2;82,5;72\n",
    "tab, Fahrenheit, miles": "time_s\tcoolant_degF\tspeed_mph\n0\t176.9\t22.369\n1\t178.7\t22.369\n2\t180.5\t44.739\n",
    "row of units": "Time;ECT;Vehicle speed\ns;°C;m/s\n0;80.5;10\n1;81.5;10\n2;82.5;20\n",
    "clock past midnight": "time of day,coolant (C),speed (m/s)\n"
    "23:59:59,80.5,10\n00:00:00,81.5,10\n00:00:01,82.5,20\n",
    "iso": "timestamp,coolant (K),speed (m/s)\n2026-08-14T10:00:00.0Z,353.65,10\n2026-08-14T10:00:01Z,354.65,10\n"
    "2026-08-14T10:00:02Z,355.65,20\n",
    "standard": "Time (s),Vehicle.Powertrain.CombustionEngine.ECT,Vehicle.Speed\n0,80.5,36\n1,81.5,36\n2,82.5,72\n",
    "standard, newer": "Time (s),Vehicle.Powertrain.CombustionEngine.EngineCoolant.Temperature,Vehicle.Speed\n"
    "0,80.5,36\n1,81.5,36\n2,82.5,72\n",
    "units in the cells": "elapsed (mm:ss),coolant,speed\n"
    "0:00,176.9 F,10 m/s\n0:01,178.7 F,10 m/s\n0:02,180.5 F,20 m/s\n",
    "clock of twelve hours, past 12:59": "clock,coolant (°C),speed (m/s)\n12:59:59,80.5,10\n1:00:00,81.5,10\n"
    "1:00:01,82.5,20\n",
    "ten a second, twice told, quoted": 'time (ms),"coolant, °C",speed (m/s),note\n'
    '0,80.4,10,"a, b"\n500,80.6,10,\n500,80.6,10,\n1000,81.5,10,\n2000,82.5,20,\n',
    "preamble and missing": "Logger 7\nfirmware;3\n#time (s);coolant (°C);speed (m/s);oil pressure\n"
    "0;80.5;10;-\n0.4;--;N/A;\n1;81.5;10\n2;82.5;20;3\n",
    "since 1970": "unix time,coolant (°C),speed (m/s)\n1786701600,80.5,10\n1786701601,81.5,10\n1786701602,82.5,20\n",
    "old code page": "time (s);coolant (°C);speed (m/s)\n0;80,5;10\n1;81,5;10\n2;82,5;20\n".encode("latin-1"),
}


@pytest.mark.parametrize("name", SPELLINGS)
def test_the_same_drive_is_read_from_every_spelling(name: str, read: Reading) -> None:
    log = read(SPELLINGS[name]).log
    assert log.time.tolist() == [0.0, 1.0, 2.0]
    assert log.read["coolant"] == pytest.approx([353.65, 354.65, 355.65], abs=0.01)
    assert log.driven["speed"] == pytest.approx([10.0, 10.0, 20.0], abs=0.001)


@pytest.mark.parametrize(
    ("text", "field", "fix"),
    [
        ("time (s),coolant\n0,80\n1,81\n", "coolant", "--column"),
        ("time (s),coolant (°C),speed\n0,80,50\n1,81,50\n", "speed", "--column"),
        ("time (s),coolant (psi)\n0,80\n1,81\n", "coolant", "°C"),
        ("time,coolant (°C)\n0,80\n1,81\n", "time", "time (s)"),
        ("time,coolant (°C)\n1:00,80\n1:30,81\n", "time", "mm:ss"),
        ("time (s);coolant (°C)\n0;80,125\n1;81,250\n", "log", "--decimal"),
        ("time (s),coolant (°C)\n0,190\n1,195\n2,200\n", "coolant", "°F"),
        ("time (s),coolant (°C)\n0,80 F\n1,81 F\n", "coolant", "one unit"),
        ("time (s),coolant (C)\n0,80,5\n1,81,5\n", "log", "semicolon"),
        ("T1,T2\n0,80\n1,81\n", "log", "--column"),
        ("time (s),coolant (°C)\n", "log", "saved"),
        ("time (s),coolant (°C)\n3,80\n2,80\n1,80\n0,80\n", "time", "sort"),
        ("time (h),coolant (°C)\n0,80\n1,80\n99,80\n", "time", "one drive"),
        ("", "log", "first line"),
        (b"\x89PNG\r\n\x1a\n\x00\x00", "log", "comma separated"),
    ],
)
def test_what_cannot_be_told_is_refused_with_what_to_do(text: str | bytes, field: str, fix: str, read: Reading) -> None:
    with pytest.raises(Refusal) as refused:
        read(text)
    assert field in refused.value.field
    assert fix in refused.value.fix


def test_a_mapping_says_what_heads_do_not(read: Reading) -> None:
    text = "T;W;V;Boost (psi);Coolant (°C)\n0;176,925;22,369;9;20\n1;178,725;22,369;9;20\n"
    told = ("T = time s", "W = coolant degF", "V = speed mph", "coolant (°C) = ignore")
    log = read(text, *told, decimal="comma").log
    assert log.read["coolant"] == pytest.approx([353.65, 354.65], abs=0.03)
    assert log.driven["speed"] == pytest.approx(10.0, abs=0.001)


@pytest.mark.parametrize("column", ["W", "= coolant", "W = cooolant °F", "W = coolant psi", "W = air_conditioning °C",
                                    "W = ignore °C", "W = time psi"])  # fmt: skip
def test_a_mapping_that_says_nothing_is_refused(column: str) -> None:
    with pytest.raises(Refusal):
        mapping_of([column], "")


def test_rows_that_jump_and_wild_figures_are_left_out_and_told(read: Reading) -> None:
    rows = [f"{t},{80 + 0.01 * t:.2f},20" for t in range(600)]
    rows[200] = "200,185.0,20"
    rows[300] = "90000,83.00,20"
    rows[301] = "12,83.00,20"
    rows[400] = "400,120.0,999"
    file = read("time (s),coolant (°C),speed (m/s)\n" + "\n".join(rows) + "\n")
    assert file.log.time[-1] == 599.0
    coolant = file.log.read["coolant"]
    assert np.nanmax(coolant) < 360.0
    assert np.isnan(coolant[[200, 300, 301, 400]]).all(), "what was not read is not made up"
    assert np.nanmax(file.log.driven["speed"]) == pytest.approx(20.0)
    told = " ".join(file.remarks)
    assert "2 rows are left out because their times jump" in told
    assert "impossible" in told
    assert "wild" in told


RAILS = {"°C": ("-40", "215"), "°F": ("-40", "419")}


@pytest.mark.parametrize(("unit", "cell"), [(unit, cell) for unit, cells in RAILS.items() for cell in cells])
def test_cells_of_a_thermometer_that_is_not_plugged_in_are_no_temperature(unit: str, cell: str, read: Reading) -> None:
    """Both ends of a byte less 40 (from memory) are told and left out; where there is nothing else, it is refused."""
    warm = {"°C": 88, "°F": 190}[unit]
    head = f"time (s),coolant ({unit}),speed (m/s),gauge ({unit})\n"
    late = [f"{t},{cell if t < 200 else warm},20,{warm}" for t in range(600)]
    file = read(head + "\n".join(late) + "\n")
    assert np.isnan(file.log.read["coolant"][:200]).all(), "no cold start"
    assert np.isfinite(file.log.read["coolant"][200:]).all()
    assert any("200 readings of coolant" in remark and "plugged in" in remark for remark in file.remarks)
    dead = [f"{t},{cell},20,{warm}" for t in range(600)]
    assert read(head + "\n".join(dead) + "\n").log.place == "gauge"
    with pytest.raises(Refusal, match="not plugged in"):
        read((head + "\n".join(dead) + "\n").replace(f"gauge ({unit})", "note"))


def test_a_thermometer_that_shows_freezing_for_ten_minutes_of_driving_is_refused(read: Reading) -> None:
    rows = [f"{t},0,20" for t in range(600)]
    with pytest.raises(Refusal, match="never moves"):
        read("time (s),coolant (°C),speed (m/s)\n" + "\n".join(rows) + "\n")


def _warm(unit: str, warm: float, seconds: int, rise: float = 0.0) -> str:
    rows = [f"{t},{warm + rise * t:.1f},{20 if t % 60 < 40 else 0}" for t in range(0, seconds + 1, 5)]
    return f"time (s),coolant ({unit}),speed (m/s)\n" + "\n".join(rows) + "\n"


def test_a_short_log_in_the_wrong_unit_is_refused_as_soon_as_an_engine_would_have_got_warmer(read: Reading) -> None:
    """88 °C under a head of °F for four minutes; an engine that starts in frost and takes its time is believed."""
    with pytest.raises(Refusal, match="stands still near 31 °C"):
        read(_warm("°F", 88, 240))
    with pytest.raises(Refusal, match="stands still"):
        read(_warm("°F", 91, 240, rise=-0.01))
    slow = read(_warm("°C", 5, 240, rise=2.0 / 180.0))  # the slowest of the logged cold starts
    assert float(np.nanmax(slow.log.read["coolant"])) == pytest.approx(273.15 + 5 + 240 / 90.0, abs=0.06)
    minute = read(_warm("°F", 88, 60))  # too short to tell: it is read, and said
    assert any("if the engine was warm, its column is in the other unit" in one for one in minute.remarks)
    assert not any("other unit" in one for one in read(_warm("°C", 88, 60)).remarks)


@pytest.mark.parametrize(("unit", "warm", "doubted"), [("°F", 88, True), ("°C", 145, True), ("°C", 88, False)])
def test_a_unit_that_no_engine_bears_out_is_refused(unit: str, warm: int, doubted: bool, read: Reading) -> None:
    """88 °C under a head of °F, a figure in °F under a head of °C: never a silent wrong unit."""
    rows = [f"{t},{warm - (t % 50 == 0)},20" for t in range(900)]
    text = f"time (s),coolant ({unit}),speed (m/s)\n" + "\n".join(rows) + "\n"
    if not doubted:
        assert read(text).log.place == "coolant"
        return
    with pytest.raises(Refusal, match="look at the unit of its column"):
        read(text)
    beside = text.replace("coolant", "gauge", 1).replace("speed (m/s)", "coolant (°C)").replace(",20\n", ",88\n")
    file = read(beside)
    assert file.log.place == "coolant"
    assert any("is left out: it" in remark for remark in file.remarks)


@pytest.mark.parametrize("column", ["rpm", "engine on"])
def test_an_engine_that_is_off_at_fifty_miles_an_hour_is_doubted_and_not_soaked(column: str, read: Reading) -> None:
    """Standing, off is off."""
    turns = {"rpm": 2500, "engine on": 1}[column]
    rows = [f"{t},88,{22 if t < 400 else 0},{turns if t < 100 else 0}" for t in range(600)]
    file = read(f"time (s),coolant (°C),speed (m/s),{column}\n" + "\n".join(rows) + "\n")
    drive, notes, _ = logged_drive(file, service.demo_job(), ambient="90 F", grade="0 %", system="us")
    assert np.all(np.asarray(drive.profile.running)[:400] == 1.0)
    assert any("300 s of driving at up to 49 mph" in str(note) for note in notes)
    if column == "engine on":
        assert np.all(np.asarray(drive.profile.running)[400:] == 0.0)
    else:
        assert np.all(np.asarray(drive.profile.duty.engine_speed) == 0.0), "the engine speed is not used"


def test_a_rev_counter_that_drops_out_for_seconds_is_believed_for_the_rest(read: Reading) -> None:
    """An hour on the road and ten minutes parked: the engine is off there, and geared for the six seconds without."""
    rows = [f"{t},88,{22 if t < 3600 else 0},{2500 if t < 3000 or 3006 <= t < 3600 else 0}" for t in range(4200)]
    file = read("time (s),coolant (°C),speed (m/s),rpm\n" + "\n".join(rows) + "\n")
    drive, notes, _ = logged_drive(file, service.demo_job(), ambient="90 F", grade="0 %", system="us")
    running, turns = np.asarray(drive.profile.running), np.asarray(drive.profile.duty.engine_speed)
    assert np.all(running[:3600] == 1.0)
    assert np.all(running[3600:] == 0.0)
    assert turns[[10, 3003]] == pytest.approx([2500 / 60, 0.0])
    assert any("6 s of driving" in str(note) for note in notes)


@pytest.mark.parametrize("shows", ["0", "-40"])
def test_of_two_thermometers_the_one_that_is_plugged_in_is_read(shows: str, read: Reading) -> None:
    rows = [f"{t},{shows},{80 + t % 7},20" for t in range(600)]
    file = read("time (s),coolant (°C),coolant temp (°C),speed (m/s)\n" + "\n".join(rows) + "\n")
    assert np.nanmin(file.log.read["coolant"]) == pytest.approx(353.15)


def test_a_minus_is_read_however_it_is_written(read: Reading) -> None:
    """The sign of the keyboard, of a text program (U+2212), a dash."""
    rows = "\n".join(f"{t},88,{sign}5.5,{sign}3" for t, sign in enumerate("-\u2212\u2013"))
    log = read(f"time (s),coolant (°C),ambient (°C),grade (%)\n{rows}\n").log
    assert log.driven["ambient"] == pytest.approx(267.65)
    assert log.driven["grade"] == pytest.approx(-0.03)


def test_a_gap_is_told_and_readings_in_it_are_not_made_up(read: Reading) -> None:
    rows = [f"{t},80,{20 if t < 100 else 30}" for t in (*range(100), *range(160, 200))]
    file = read("time (s),coolant (°C),speed (m/s)\n" + "\n".join(rows) + "\n")
    assert any("A gap of 61 s" in remark for remark in file.remarks)
    assert np.isnan(file.log.read["coolant"][100:160]).all()


def test_a_table_noted_by_hand_holds_what_was_driven_until_the_next_line(read: Reading) -> None:
    text = (
        "clock,gauge,speed,grade,A/C\n14:00,195 F,50 mph,0 %,on\n14:06,215 F,35 mph,5 %,on\n14:15,225 F,0 mph,0 %,off\n"
    )
    log = read(text).log
    assert log.by_hand
    assert log.length == 900.0
    assert log.driven["speed"][[0, 359, 360, 899]] == pytest.approx([22.35, 22.35, 15.65, 15.65], abs=0.01)
    assert log.driven["grade"][[100, 500]].tolist() == [0.0, 0.05]
    assert log.driven["air_conditioning"][[0, 899, 900]].tolist() == [1.0, 1.0, 0.0]
    assert np.isfinite(log.read["gauge"]).sum() == 3


def test_a_table_is_read_as_a_passenger_writes_it(read: Reading) -> None:
    """Doubts, words for nothing, slopes in words, a time with its unit; a nought needs no unit, the rest do."""
    text = (
        "time,gauge,speed,grade\n0 min,~195 F,50 mph,flat\n6 min,205 F,35 mph,5 % up\n14 min,218 F?,0,down 2 %\n"
        "20 min,222 F,stopped,0\n"
    )
    log = read(text).log
    assert log.length == 1200.0
    assert log.driven["speed"][[0, 400, 900, 1200]] == pytest.approx([22.35, 15.65, 0.0, 0.0], abs=0.01)
    assert log.driven["grade"][[0, 400, 900, 1200]] == pytest.approx([0.0, 0.05, -0.02, 0.0])
    assert log.read["gauge"][840] == pytest.approx(376.48, abs=0.01)
    with pytest.raises(Refusal, match="needs its unit"):
        read(text.replace("50 mph", "50").replace("35 mph", "35"))
    with pytest.raises(Refusal, match="14:05"):
        read("clock,gauge (F),speed (mph)\n14.05,195,50\n14.11,205,35\n")


def test_of_two_columns_for_one_thing_the_fuller_one_is_taken(read: Reading) -> None:
    file = read("time (s),GPS speed (m/s),speed (km/h),coolant (°C)\n0,-,36,80\n1,-,36,80\n2,20,36,80\n")
    assert file.log.driven["speed"] == pytest.approx(10.0)
    assert [column.key for column in file.columns] == ["time", "", "speed", "coolant"]


def test_the_air_that_the_engine_breathes_is_not_the_air_outside(read: Reading) -> None:
    file = read("time (s),Intake Air Temperature(°C),coolant (°C)\n0,60,80\n1,60,80\n")
    assert "ambient" not in file.log.driven


def test_three_hours_of_ten_readings_a_second_are_read(read: Reading) -> None:
    n = 108_000
    rows = "\n".join(f"{i / 10:.1f},{80 + i % 10},{50 + i % 7},{300 + i / 100:.1f},1,2,3,4" for i in range(n))
    file = read(f"time (s),coolant (°C),speed (km/h),altitude (m),a,b,c,d\n{rows}\n")
    assert file.rows == n
    assert len(file.log.time) == 10_800
    assert file.log.read["coolant"] == pytest.approx(357.65, abs=0.01)


def test_half_a_gigabyte_is_refused_unread(tmp_path: Path) -> None:
    file = tmp_path / "log.csv"
    file.write_text("time (s),coolant (°C)\n", encoding="utf-8")
    os.truncate(file, 500_000_000)
    with pytest.raises(Refusal, match="larger than 64 MiB"):
        read_log(file)


def test_the_page_of_logs_names_every_column_and_its_table_can_be_read(read: Reading) -> None:
    page = (Path(__file__).parents[3] / "docs" / "check-drive.md").read_text(encoding="utf-8")
    assert all(f"`{key}`" in page for key in (*CHANNELS, "time"))
    log = read(page.partition("```text\n")[2].partition("```")[0]).log
    assert log.by_hand
    assert log.length == 900.0
    columns = tomllib.loads(page.partition("```toml\n")[2].partition("```")[0])["log"]["columns"]
    assert mapping_of(columns, "comma").columns["w1"].key == "coolant"


TEMPERATURES = {"°C": ("°C", "C", "degC", "celsius"), "°F": ("°F", "F", "degF"), "K": ("K",)}
SPEEDS = {"km/h": ("km/h", "kph"), "mph": ("mph", "MPH"), "m/s": ("m/s",)}
HEADS = {"coolant": ("Coolant Temp", "engine coolant temperature", "ECT", "waterTemp"), "speed": ("Speed", "GPS speed")}
PUT_TOGETHER = ("{} ({})", "{} [{}]", "{}_{}", "{}, {}", "{} {}", "{}({})")


@given(
    seen=st.lists(st.tuples(st.floats(250.0, 400.0), st.floats(0.0, 60.0)), min_size=2, max_size=12),
    temperature=st.sampled_from([(own, word) for own, words in TEMPERATURES.items() for word in words]),
    speed=st.sampled_from([(own, word) for own, words in SPEEDS.items() for word in words]),
    heads=st.tuples(st.sampled_from(HEADS["coolant"]), st.sampled_from(HEADS["speed"])),
    form=st.sampled_from(PUT_TOGETHER),
    separator=st.sampled_from([",", ";", "\t", "|"]),
    comma=st.booleans(),
    digits=st.integers(0, 4),
)
def test_a_figure_is_read_as_it_was_meant_or_refused_never_as_something_else(
    seen: list[tuple[float, float]],
    temperature: tuple[str, str],
    speed: tuple[str, str],
    heads: tuple[str, str],
    form: str,
    separator: str,
    comma: bool,
    digits: int,
    tmp_path_factory: pytest.TempPathFactory,
) -> None:
    def cell(value: float) -> str:
        text = f"{value:.{digits}f}"
        text = text.replace(".", ",") if comma else text
        return f'"{text}"' if separator == "," else text

    head = [form.format(name, unit) for name, (_, unit) in zip(heads, (temperature, speed), strict=True)]
    lines = [separator.join(["time (s)", *(f'"{one}"' for one in head)])]
    for second, (kelvin, metres) in enumerate(seen):
        shown = [float(from_si(kelvin, TEMPERATURE, temperature[0])), float(from_si(metres, SPEED, speed[0]))]
        lines.append(separator.join([str(20 * second), *map(cell, shown)]))
    file = tmp_path_factory.mktemp("log") / "log.csv"
    file.write_text("\n".join(lines), encoding="utf-8")
    answer = _read_or_refused(file)
    if isinstance(answer, Refusal):
        assert (comma, digits, "--decimal" in answer.fix) == (True, 3, True), answer
        return
    log = answer.log
    places = 20 * np.arange(len(seen))
    rounding = 0.51 * 10.0**-digits
    assert log.read["coolant"][places] == pytest.approx([kelvin for kelvin, _ in seen], abs=rounding)
    assert log.driven["speed"][places[:-1]] == pytest.approx([metres for _, metres in seen[:-1]], abs=rounding)


def _read_or_refused(file: Path, mapping: LogMapping = NO_MAPPING) -> LogFile | Refusal:
    try:
        return read_log(file, mapping)
    except Refusal as refusal:
        return refusal


PIECES = (
    "time", "time (s)", "clock", "coolant", "coolant (°C)", "gauge (F)", "speed (km/h)", "A/C", "grade (%)",
    "altitude (ft)", ",", ",", ",", ";", "\t", "\n", "\n", "\n", '"', "'", "#", "0", "1", "80", "81.5", "82,5",
    "1e400", "-", "nan", "12:00:00", "12:00", "7:5", "2026-08-14T10:00:00Z", "2026-13-99 25:61:61", "yes", "off",
    "210 F", "99:99:99 pm", " ", "°", "\ufeff", "\r", "1786701600", "9" * 30, "km/h", "s", "Vehicle.Speed", "(",
    ")", "=", "µ", "\u202e", "1,234", "1.234,5",
)  # fmt: skip


@given(st.one_of(st.lists(st.sampled_from(PIECES), max_size=60).map("".join).map(str.encode), st.binary(max_size=200)))
def test_whatever_stands_in_the_file_it_is_read_or_refused(
    tmp_path_factory: pytest.TempPathFactory, raw: bytes
) -> None:
    file = tmp_path_factory.mktemp("log") / "log.csv"
    file.write_bytes(raw)
    for mapping in (NO_MAPPING, LogMapping(decimal="comma")):
        answer = _read_or_refused(file, mapping)
        if isinstance(answer, Refusal):
            assert "\n" not in str(answer)
            continue
        log = answer.log
        assert all(np.isfinite(values).all() for values in log.driven.values())
        assert all(((values > 229.0) & (values < 474.0) | np.isnan(values)).all() for values in log.read.values())


def test_no_whole_line_is_looked_up_as_one_head(read: Reading, monkeypatch: pytest.MonkeyPatch) -> None:
    """With a sign that parts none of it, a line of four hundred cells is one: word by word that took a minute."""
    asked: list[str] = []
    monkeypatch.setattr(log_text, "head_of", lambda head: asked.append(head) or head_of(head))
    heads = ",".join(f"Sensor {i} (V)" for i in range(398))
    rows = "".join(f"{10 * row},90.{row}," + ",".join(f"{row}.{i}" for i in range(398)) + "\n" for row in range(60))
    file = read(f"time (s),coolant (°C),{heads}\n{rows}")
    assert max(map(len, asked)) < 40
    assert (len(file.columns), file.rows) == (400, 60)
