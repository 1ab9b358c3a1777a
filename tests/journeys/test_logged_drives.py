"""A mechanic with a log: what it shows, how it moves the causes, and whether the repair did what was forecast."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from jsonschema import Draft202012Validator

from toptank.shop.answers.schemas import schemas

DRIVE = """clock, gauge, speed, grade, A/C, ambient
14:00, 195 F, 50 mph, 0 %, on, 92 F
14:06, 196 F, 35 mph, 5 %, on, 92 F
14:10, 228 F, 35 mph, 5 %, on, 92 F
14:15, 244 F, 0 mph, 0 %, on, 93 F
14:17, 253 F, 0 mph, 0 %, on, 93 F
14:20, 255 F, 0 mph, 0 %, on, 93 F
"""


@pytest.fixture
def noted(tmp_path: Path) -> Path:
    """Return a drive that somebody noted by hand, hot at the stop."""
    file = tmp_path / "noted.csv"
    file.write_text(DRIVE, encoding="utf-8")
    return file


@pytest.fixture
def logged(tmp_path: Path) -> Path:
    """Return a logger's file of a climb and a stop, two readings a second."""
    second = np.arange(0.0, 1000.0, 0.5)
    gauge = 195.0 + 27.0 * (1.0 - np.exp(-np.clip(second - 200.0, 0.0, 500.0) / 200.0))
    gauge += 16.0 * (1.0 - np.exp(-np.clip(second - 700.0, 0.0, None) / 90.0))
    speed = np.where(second < 200.0, 50.0, np.where(second < 700.0, 35.0, 0.0))
    height = 900.0 + 0.05 * np.cumsum(np.where((second > 200.0) & (second < 700.0), 51.3, 0.0)) * 0.5
    rows = [
        f"{t:.1f},{g:.1f},{v:.0f},{h:.0f},92,1,7.1" for t, g, v, h in zip(second, gauge, speed, height, strict=True)
    ]
    file = tmp_path / "logged.csv"
    head = "Time (s),W1,Speed [mph],Altitude (ft),Ambient Air Temp (°F),A/C,Boost (psi)"
    file.write_text("\n".join([head, *rows]), encoding="utf-8")
    return file


def test_a_log_is_read_shown_and_weighed(say: Callable[..., Any], logged: Path) -> None:
    record = say("log", "demo", logged, "--column", "W1 = gauge °F", "--json").record
    Draft202012Validator(schemas()["answer-log"]).validate(record)
    assert record["rows"] == 2000
    assert record["independent_readings"] < 6.0
    assert [one["means"] for one in record["columns"]][:2] == ["time", "gauge"]
    assert record["columns"][-1]["means"] is None
    rise = record["shows"]["fastest_rise"]
    assert rise["standing"]
    assert rise["change_K"] == pytest.approx(16.0 / 1.8 * (1.0 - np.exp(-60.0 / 90.0)), abs=1.0 / 1.8)
    moved = [abs(one["with_the_log_pct"] - one["before_pct"]) for one in record["causes"]]
    assert max(moved) > 2.0, "a log in the bay moves the causes"
    # Hot on the climb and hotter still at the stop: air is missing that the fan should bring.
    assert sum(one["with_the_log_pct"] for one in record["causes"] if one["cause"].startswith(("fan", "shroud"))) > 40.0


def test_a_check_drive_is_judged_and_kept_with_its_log(
    say: Callable[..., Any], noted: Path, examples: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("TOPTANK_STORE", str(tmp_path / "jobs.sqlite"))
    say("job", "new", examples / "orchard-minibus.toml")
    record = say("verify", 1, noted, "--done", "replace the fan clutch", "--json").record
    Draft202012Validator(schemas()["answer-verify"]).validate(record)
    assert record["done"] == ["replace_fan_clutch"]
    assert record["verdict"] == "worse"
    assert "over the customer's limit: 255 °F was read, 220 °F is the limit" in record["says"][1], "said first"
    assert record["worst_day"]["holds_now_pct"] <= record["worst_day"]["holds_forecast_pct"]
    kept = say("job", "show", 1, "--json").record
    assert [(one["kind"], one["answer"]) for one in kept["answers"]] == [("verdict", record)]
    assert [one["name"] for one in kept["attachments"]] == ["noted.csv"]


@pytest.mark.parametrize(
    ("text", "more", "words"),
    [
        ("time (s),gauge (F)\n0,195\n300,205\n", (), "does not say how fast it was driven"),
        ("time (s),gauge (F),speed (mph)\n0,195,50\n300,205,50\n", (), "says neither height nor grade"),
        ("time (s),gauge (F),speed (mph)\n0,195,50\n300,205,50\n", ("--grade", "0 %"), "--ambient"),
        ("time (s),speed (mph)\n0,50\n300,50\n", (), "holds no temperature of the engine"),
        ("time (s),gauge (F),speed (mph)\n0,195,50\n30,205,50\n", (), "two readings and 2 minutes"),
        ("time (s),gauge,speed (mph)\n0,195,50\n300,205,50\n", (), "needs its unit"),
        (DRIVE, ("--done", "replace the flux capacitor"), "is no work that is known here"),
    ],
)
def test_what_a_log_does_not_say_is_asked_for_and_never_taken_as_flat_or_mild(
    text: str, more: tuple[str, ...], words: str, say: Callable[..., Any], tmp_path: Path
) -> None:
    file = tmp_path / "log.csv"
    file.write_text(text, encoding="utf-8")
    said = say("verify", "demo", file, *more)
    assert said.code == 2
    assert words in " ".join(said.err.split())
    assert "Traceback" not in said.err


def test_a_route_is_driven_from_its_file(say: Callable[..., Any], examples: Path) -> None:
    route = examples / "demo-climb.gpx"
    record = say("drive", examples / "first-job.toml", "--route", route, "--draws", 50, "--json").record
    assert record["minutes"] == pytest.approx(21.65, abs=0.1)  # 1,299 s by its time stamps
    assert record["distance_km"] == pytest.approx(11.37 * 1.609344, abs=0.08)
    assert record["stretches"][-1]["name"] == "stop at the end"
    assert any("600 m" in remark for remark in record["remarks"])
    assert say("drive", "demo", "--route", route, "--speed", "fast").code == 2
