"""Does it go in: a mechanic with a tape, a radiator on offer, a job file."""

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest

Say = Callable[..., Any]

# Invented bay: saddles, a shroud on the support, everything measured but the weight.
BAY = """
[fit]
core_depth_now = "2 in"
mount = "saddles"
support_depth = "3 in"
saddle_width = "3 1/2 in"
saddle_rubber = "1/4 in"
width_between = "28 in"
height_between = "21 in"
shroud_mount = "support"
shroud_to_core = "1/2 in"
shroud_depth = "2 3/4 in"
blade_depth = "2 1/2 in"
blade_in_shroud = "1 1/4 in"
blade_to_engine = "1 1/2 in"
engine_fore_aft = "1/4 in"
engine_up_down = "1/4 in"
pulley_nose_to_core = "4 in"
hood_height = "24 in"
top_hose_side = "right"
top_hose_height = "19 in"
top_hose_diameter = "1 1/2 in"
bottom_hose_side = "left"
bottom_hose_height = "2 in"
bottom_hose_diameter = "1 3/4 in"
cap_reach = "3/4 in"
cap_cam = "large"
cap_kind = "closed"
cap_upper_gasket = true
cap_vacuum_valve = true
cooler_thread = "5/16 flare"
hose_route = "top hose passes the coil"

[shroud]
present = true
fan_to_core = "2 in"
tip_clearance = "1 1/4 in"
"""
OFFER = """
[[offer]]
name = "deep one"
parts = "radiator, cap"
price = "240"
core_depth = { value = "3 1/2 in", how = "plate" }
passes = 1
tank_width = "3 1/2 in"
overall_width = "27 in"
overall_height = "19 1/2 in"
cap_height = "21 1/2 in"
top_port_side = "left"
top_port_height = "19 in"
top_port_diameter = "1 1/2 in"
bottom_port_side = "left"
bottom_port_height = "2 in"
bottom_port_diameter = "1 3/4 in"
neck_depth = "1 in"
neck_cam = "large"
cooler_fittings = false
weight = "40 lb"
"""


@pytest.fixture
def job(tmp_path: Path, job_text: str) -> Callable[..., Path]:
    """Write the example job with more sections."""

    def write(*more: str) -> Path:
        path = tmp_path / "job.toml"
        path.write_text("\n".join((job_text, *more)), encoding="utf-8")
        return path

    return write


def _items(record: Any, name: str) -> dict[str, Any]:
    fit = next(one for one in record["fits"] if one["name"] == name)
    return {item["item"]: item for item in fit["items"]}


def test_a_job_that_says_nothing_of_the_bay_is_told_what_to_measure(say: Say, job: Any) -> None:
    record = say("fit", job(), "--json").record
    (only,) = record["fits"]
    assert only["verdict"] == "not known"
    assert any(line.startswith("[fit] support_depth: ") for line in only["measure_next"])
    assert any(line.startswith("[shroud] fan_to_core: ") for line in only["measure_next"])


def test_an_offer_is_judged_item_by_item(say: Say, job: Any) -> None:
    items = _items(say("fit", job(BAY, OFFER), "--json").record, "deep one")
    # by hand: 1 1/2 in deeper, half of it behind the seat; the shroud stood 1/2 in off
    assert items["shroud to core"]["verdict"] == "rubs"
    assert items["shroud to core"]["length"]["margin_mm"] == pytest.approx(-0.25 * 25.4)
    assert "trim" in items["shroud to core"]["fix"]
    # 2 in less 3/4 in
    assert items["fan to core"]["length"]["gap_mm"] == pytest.approx(1.25 * 25.4)
    assert items["fan to core"]["verdict"] == "clears"
    # 3 1/2 in of saddle less two rubbers of 1/4 in
    assert items["tank in the saddle"]["length"]["margin_mm"] == pytest.approx(-0.5 * 25.4)
    assert items["top port: side"]["verdict"] == "rubs"
    assert items["bottom port: side"]["verdict"] == "clears"
    assert items["reach of the cap to depth of the neck"]["verdict"] == "rubs"
    assert items["weight on the supports"]["verdict"] == "not known"
    assert items["hose routes"]["verdict"] == "not known"
    assert "coil" in items["hose routes"]["note"]


def test_metric_tells_the_same_in_millimetres(say: Say, job: Any) -> None:
    file = job(BAY, OFFER)
    us, metric = (_items(say("fit", file, "--json", *more).record, "deep one") for more in ((), ("--units", "metric")))
    for name, item in us.items():
        for figures in ("length", "weight", "current", "verdict"):
            assert metric[name][figures] == item[figures], name
        assert not re.search(r"\d in\b", metric[name]["says"])


def test_the_screen_says_what_rubs_and_what_to_do(say: Say, job: Any) -> None:
    answer = say("fit", job(BAY, OFFER))
    assert (answer.code, answer.err) == (0, "")
    told = " ".join(answer.out.split())
    assert "Won't fit without changes" in told
    assert "rubs by 1/4 in" in told
    assert "Measure next" in told
    assert "[fit] weight_limit" in told


def test_a_remedy_can_be_tried_by_its_name(say: Say, job: Any) -> None:
    name = "recore, 4-row, 12 fpi"
    record = say("fit", job(BAY, OFFER), "--with", "recore with 4 rows, 12 fins to the inch", "--json").record
    items = _items(record, name)
    # 3 spacings of 0.57 in and a tube of 1/2 in: 2.21 in; half of the 0.21 in more is taken from the fan
    assert items["fan to core"]["length"]["gap_mm"] == pytest.approx(25.4 * (2.0 - 0.105), abs=0.03)
    assert "typical trade figures" in record["fits"][0]["note"]


def test_the_drawing_is_written_and_never_over_another_file(say: Say, job: Any, tmp_path: Path) -> None:
    file, out = job(BAY, OFFER), tmp_path / "stack.svg"
    answer = say("fit", file, "--drawing", out)
    assert (answer.code, answer.err) == (0, "")
    assert ElementTree.parse(out).getroot().tag.endswith("svg")
    again = say("fit", file, "--drawing", out)
    assert (again.code, again.out) == (2, "")
    assert "--force" in again.err
    assert say("fit", file, "--drawing", out, "--force").code == 0


@pytest.mark.parametrize(
    ("more", "words", "told"),
    [
        ("", ("--with", "recore as it wass"), "recore as it was"),
        ("", ("--with", "magic"), "neither a remedy nor an offer"),
        ("", ("--drawing", "stack.bmp"), ".svg"),
        ('[fit]\nsadle_width = "3 in"', (), "saddle_width"),
        ('[fit]\nsaddle_width = "3 psi"', (), "fit.saddle_width"),
        ('[fit]\nsaddle_width = "30 ft"', (), "must lie between"),
        ("[fit]\nsaddle_width = [3]", (), "one figure"),
        ('[fit]\nsaddle_width = { how = "plate" }', (), "has no value"),
        ('[fit]\nsaddle_width = { value = "3 in", spread = "-1 in" }', (), "not negative"),
        ('[fit]\nmount = "glue"', (), "saddles"),
        ("fit = 3", (), "fit"),
        ('[offer]\nname = "x"', (), "two brackets"),
        ('[[offer]]\ncore_depth = "2 in"', (), "offer.name"),
        ('[[offer]]\nname = "x"\nremedy = "replace the cap"', (), "no remedy of the core"),
        ('[[offer]]\nname = "x"\n[[offer]]\nname = "x"', (), "used twice"),
        ('[[offer]]\nname = "x"\ncore_depht = "2 in"', (), "core_depth"),
        (
            '[[offer]]\nname = "x"\ncore_depth = "2 in"\n[[offer]]\nname = "y"\ncore_depth = "2 in"',
            ("--drawing", "stack.svg"),
            "--with",
        ),
    ],
)
def test_what_cannot_be_used_is_told_in_one_sentence(
    say: Say, tmp_path: Path, job_text: str, monkeypatch: pytest.MonkeyPatch, more: str, words: Any, told: str
) -> None:
    monkeypatch.chdir(tmp_path)
    file = tmp_path / "job.toml"
    # a bare key belongs before the first section
    file.write_text(f"{more}\n{job_text}" if more == "fit = 3" else f"{job_text}\n{more}", encoding="utf-8")
    answer = say("fit", file, *words)
    assert (answer.code, answer.out) == (2, "")
    assert answer.err.startswith("toptank: ")
    assert answer.err.count("\n") == 1
    assert told in answer.err
    assert not (tmp_path / "stack.svg").exists()


def test_a_bare_number_and_an_unusual_one_are_told(say: Say, job: Any) -> None:
    record = say("fit", job("[fit]\nsaddle_width = 3\nblade_depth = '9 in'"), "--json").record
    assert any("fit.saddle_width = 3: taken as in" in line for line in record["assumed_units"])
    assert any("fit.blade_depth" in line and "look once more" in line for line in record["remarks"])
