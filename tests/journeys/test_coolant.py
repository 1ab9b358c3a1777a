"""What is in, which water, which cap and bottle, how to bleed: a mechanic at the counter with an instrument."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from toptank.shop.answers.schemas import schemas

Say = Callable[..., Any]
MIX = ("mix", "--capacity", "16 qt")


def _record(say: Say, name: str, *words: object) -> Any:
    record = say(*words, "--json").record
    Draft202012Validator(schemas()[f"answer-{name}"]).validate(record)
    return record


def test_an_instrument_stands_for_the_share(say: Say) -> None:
    """engine_manual2013: 40 % of concentrate freezes at -24 °C (-11 °F), 50 % at -37 °C (-35 °F)."""
    for freezes, share in (("-24 C", 40), ("-37 C", 50)):
        read = _record(say, "mix", *MIX, "--refractometer", freezes, "--want", "60 %")["read"]
        assert read["concentrate_pct"] == pytest.approx(share, abs=1.5)
        assert read["low_pct"] < read["concentrate_pct"] < read["high_pct"]


def test_a_hydrometer_is_corrected_for_the_temperature_of_the_sample(say: Say) -> None:
    """A hot sample is thinner: the same gravity read at 120 °F means more glycol. It says nothing of propylene."""
    cold, hot = (
        _record(say, "mix", *MIX, "--gravity", "1.06", "--sample", sample)["read"]["concentrate_pct"]
        for sample in ("68 F", "120 F")
    )
    assert hot > cold + 3
    refused = say(*MIX, "--gravity", "1.04", "--glycol", "propylene")
    assert (refused.code, refused.err.count("\n")) == (2, 1)
    assert "propylene" in refused.err


def test_the_scale_of_the_other_glycol_misleads_and_that_is_told(say: Say) -> None:
    own, other = (
        _record(say, "mix", *MIX, "--refractometer", "-10 F", "--glycol", "propylene", "--scale", scale)["read"]
        for scale in ("propylene", "ethylene")
    )
    assert other["freeze_degC"] > own["freeze_degC"] + 5.5
    assert any("scale must be that of the glycol" in trap for trap in own["remarks"])


def test_rinsing_leaves_a_fifth_of_what_was_in_each_time(say: Say) -> None:
    """Cock and block drains let out 80 %: 50 % of concentrate is 10 % after one rinse and 2 % after two."""
    for rinses, left in ((1, 10.0), (2, 2.0)):
        assert _record(say, "mix", *MIX, "--now", "50 %", "--rinses", rinses)["now_pct"] == pytest.approx(left)


def test_families_that_do_not_belong_together_are_flushed(say: Say) -> None:
    assert _record(say, "mix", *MIX, "--now", "40 %", "--inside", "OAT", "--new", "IAT")["family"]["action"] == (
        "flush and refill"
    )
    assert "flush" in _record(say, "mix", *MIX, "--now", "40 %", "--new", "IAT")["family"]["action"]
    assert _record(say, "mix", *MIX, "--now", "40 %", "--inside", "IAT", "--new", "IAT")["family"]["action"] == "top up"


def test_tap_water_is_refused_with_the_reason_and_an_analysis_lets_it_in(say: Say) -> None:
    """As manuals of engine makers print it: chloride 40, sulphate 100, hardness 170, solids 340 mg/L, pH 5.5 to 9."""
    refused = _record(say, "water", "water", "tap")
    assert not refused["good"]
    assert "ask the water works" in refused["reasons"][0]
    assert len(refused["argument"]) >= 2
    kept = [
        word
        for figure in ("chloride=39", "sulphate=99", "hardness=169", "total solids=339", "pH=7")
        for word in ("--analysis", figure)
    ]
    assert _record(say, "water", "water", "tap", *kept)["good"]
    spoilt = _record(say, "water", "water", "tap", *kept, "--analysis", "chloride=41")
    assert "chloride 41" in spoilt["reasons"][0]
    assert _record(say, "water", "water", "distilled")["good"]
    assert not _record(say, "water", "water", "softened", *kept)["good"]


def test_a_cap_is_never_above_the_weakest_part_and_a_small_bottle_runs_over(say: Say, examples: Path) -> None:
    job = examples / "orchard-minibus.toml"
    weak = _record(say, "cap", "cap", job, "--part", "soldered core made for 7 psi", "--at", "215 F")
    assert not weak["assumed_parts"]
    assert {row["pressure_kPa"] > 48.3 for row in weak["caps"] if row["forbidden_by"]} == {True}
    assert weak["chosen"]["pressure_kPa"] <= 48.3
    margins = [row["margin_K"] for row in weak["caps"]]
    assert margins == sorted(margins)
    small, large = (_record(say, "cap", "cap", job, "--bottle", size) for size in ("1 qt", "1 gal"))
    assert small["runs_over"]
    assert not large["runs_over"]
    least = large["smallest_bottle"]
    assert least["cold_mark_L"] + least["expansion_L"] == pytest.approx(least["hot_mark_L"], rel=1e-4)
    assert least["hot_mark_L"] < least["volume_L"]


def test_a_system_made_without_pressure_is_never_closed_with_a_stronger_cap(say: Say, tmp_path: Path) -> None:
    """Where nobody read the stamp, what such a vehicle was made for bounds the cap; practice.md f: 4, 7, 13, 16 psi."""
    job = tmp_path / "car.toml"
    for like, most in (("open-car-1930s-four", 0.0), ("tractor-1960s-diesel", 48.3)):
        say("sheet", "new", "--like", like, "--out", job, "--force")
        found = _record(say, "cap", "cap", job, "--at", "190 F", "--part", "radiator, all aluminium, welded")
        assert all(bool(row["forbidden_by"]) == (row["pressure_kPa"] > most) for row in found["caps"])
        assert "assumed" in next(row["forbidden_by"] for row in found["caps"] if row["forbidden_by"])
        assert any("cap" in fact for fact in found["assumed"])


def test_bleeding_is_told_by_layout(say: Say) -> None:
    every = _record(say, "bleed", "bleed")["layouts"]
    (one,) = _record(say, "bleed", "bleed", "crossflow")["layouts"]
    assert one in every
    assert len(every) > 3
    assert one["steps"][0].startswith("Engine cold")


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ((*MIX,), "only one"),
        ((*MIX, "--now", "30 %", "--gravity", "1.05"), "only one"),
        ((*MIX, "--now", "30 %", "--want", "70 %"), "68 %"),
        ((*MIX, "--now", "30 %", "--rinses", "-1"), "rinses"),
        ((*MIX, "--now", "30 %", "--new", "green"), "not a family"),
        ((*MIX, "--refractometer", "-90 F"), "freeze point"),
        (("water", "sea"), "kind of water"),
        (("water", "tap", "--analysis", "chloride"), "chloride=30"),
        (("water", "tap", "--analysis", "lead=1"), "not a figure with a limit"),
        (("bleed", "boxer"), "not a layout"),
        (("cap", "demo", "--part", "tin"), "not a part"),
        (("cap", "demo", "--bottle", "40 gal"), "bottle"),
        (("cap", "demo", "--at", "20 F"), "at = 20 F"),
    ],
)
def test_what_cannot_be_used_is_refused_in_one_sentence(say: Say, words: tuple[str, ...], told: str) -> None:
    said = say(*words)
    assert (said.code, said.out, said.err.count("\n")) == (2, "", 1)
    assert told in said.err


def test_the_screens_say_what_the_records_say(say: Say) -> None:
    assert "not as it is" in say("water", "tap").out
    assert "overflows" in say("cap", "demo", "--bottle", "1 qt").out
    assert "Squeeze" in say("bleed", "downflow, neck highest").out
    assert "Reads " in say(*MIX, "--refractometer", "-10 F").out
