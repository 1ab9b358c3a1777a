"""The two questions that need no vehicle: when does it boil, when does it freeze."""

import re
from collections.abc import Callable
from typing import Any

import pytest

from toptank.media import coolant, mixture

Say = Callable[..., Any]


def test_fifteen_pounds_on_half_and_half_boil_at_265(say: Say) -> None:
    # common practice, no source: "265 °F with a 15 psi cap and 50/50"
    answer = say("boil", "--cap", "15 psi", "--mix", "50/50", "--json").record
    assert answer["boiling_point_degC"] == pytest.approx((265 - 32) / 1.8, abs=4 / 1.8)
    assert answer["cap_kPa"] == pytest.approx(15 * 6.894757, rel=1e-5)
    assert answer["mix_pct"] == 50


def test_open_water_at_the_sea_boils_at_212(say: Say) -> None:
    # IAPWS-IF97: 211.95 °F at 1 atm
    answer = say("boil", "--cap", "0 psi", "--mix", "0 %", "--json").record
    assert answer["boiling_point_degC"] == pytest.approx((211.95 - 32) / 1.8, abs=0.06)


def test_a_pound_of_cap_is_worth_two_or_three_degrees_never_twenty(say: Say) -> None:
    answer = say("boil", "--mix", "50/50", "--json").record
    degF_per_psi = 1.8 * 6.894757
    gains = [degF_per_psi * row["gain_K_per_kPa"] for row in answer["caps"] if row["cap_kPa"] > 0]
    assert len(gains) >= 6
    assert all(1.6 <= gain <= 3.3 for gain in gains)
    assert gains == sorted(gains, reverse=True)
    assert 1.7 <= degF_per_psi * answer["gain_at_this_cap_K_per_kPa"] <= 3.1
    assert 1.7 <= degF_per_psi * answer["mean_gain_K_per_kPa"] <= 3.1


def test_the_table_of_caps_holds_the_cap_that_was_asked_for(say: Say) -> None:
    answer = say("boil", "--cap", "13 psi", "--json").record
    row = next(row for row in answer["caps"] if row["cap_kPa"] == pytest.approx(13 * 6.894757, rel=1e-5))
    assert row["boiling_point_degC"] == pytest.approx(answer["boiling_point_degC"])


def test_a_mile_up_it_boils_earlier(say: Say) -> None:
    sea, mile = (say("boil", "--altitude", height, "--json").record for height in ("0 ft", "5280 ft"))
    assert 4 < 1.8 * (sea["boiling_point_degC"] - mile["boiling_point_degC"]) < 12


def test_metric_and_us_boil_at_the_same_heat(say: Say) -> None:
    us = say("boil", "--cap", "15 psi", "--altitude", "2000 ft", "--json").record
    metric = say("boil", "--cap", "15 psi", "--altitude", "2000 ft", "--units", "metric", "--json").record
    assert metric == us
    assert metric["altitude_m"] == pytest.approx(609.6)


@pytest.mark.parametrize(("units", "taken"), [("us", "psi"), ("metric", "kPa")])
def test_a_bare_number_says_which_unit_it_was_given(say: Say, units: str, taken: str) -> None:
    answer = say("boil", "--cap", "14", "--units", units, "--json").record
    assert answer["assumed_units"] == [f"cap = 14: taken as {taken}"]


def test_a_fifth_of_a_bar_is_not_a_bare_number(say: Say) -> None:
    assert say("boil", "--cap", "1.1 bar", "--json").record["assumed_units"] == []


def test_half_and_half_freezes_far_below_zero(say: Say) -> None:
    # common practice, no source: 50/50 ethylene protects to about -34 °F; concentrate here holds 95 % glycol
    answer = say("freeze", "--mix", "50/50", "--json").record
    assert answer["freeze_point_degC"] == pytest.approx((-32 - 32) / 1.8, abs=4 / 1.8)


def test_water_freezes_at_32(say: Say) -> None:
    assert say("freeze", "--mix", "0 %", "--json").record["freeze_point_degC"] == pytest.approx(0, abs=0.1)


def test_metric_and_us_freeze_at_the_same_cold(say: Say) -> None:
    us, metric = (say("freeze", "--mix", "40 %", "--units", units, "--json").record for units in ("us", "metric"))
    assert metric == us


def test_the_screen_tells_the_figure_and_the_caution(say: Say) -> None:
    answer = say("boil", "--cap", "15 psi")
    assert (answer.code, answer.err) == (0, "")
    assert "boiling point" in answer.out
    assert "Never open a hot system" in answer.out


def _gains_on_the_screen(say: Say, units: str) -> list[float]:
    """The mean gain up to the cap, the gain at it, and those of the table."""
    said = say("boil", "--units", units, "--altitude", "2000 ft").out
    words = " ".join(said.split())
    head = re.search(r"is worth ([\d.]+) °[CF] on average, ([\d.]+) °[CF] at this cap", words)
    assert head is not None
    table = [
        line.split()[-1] for line in said.splitlines() if re.match(r" *[\d.]+ (psi|kPa) +[\d.]+ °[CF] +[\d.]+", line)
    ]
    return [float(head[1]), float(head[2]), *map(float, table)]


def test_the_gain_a_kilopascal_is_told_as_closely_as_the_gain_a_pound(say: Say) -> None:
    us, metric = _gains_on_the_screen(say, "us"), _gains_on_the_screen(say, "metric")
    assert len(us) == len(metric) >= 9
    for pound, kilopascal in zip(us, metric, strict=True):
        # each is rounded to three figures: half of the last digit is at most 0.5 %
        assert kilopascal == pytest.approx(pound / 1.8 / 6.894757, rel=0.008)


@pytest.mark.parametrize(("units", "cap"), [("us", "15 psi"), ("us", "0 psi")])
def test_what_a_pound_of_cap_is_worth_is_told_and_no_saying_is_argued_with(say: Say, units: str, cap: str) -> None:
    said = " ".join(say("boil", "--units", units, "--cap", cap).out.split())
    told = re.search(r"Each psi of cap is worth ([\d.]+) °F on average", said)
    assert told is not None
    # water alone (steam tables, from memory): 3.4 °F for the first pound, 2.5 °F a pound up to 15; a mix gains 4 % more
    assert 2.4 < float(told[1]) < 3.7
    assert "20 degrees" not in said


@pytest.mark.parametrize("glycol", ["ethylene", "propylene"])
def test_a_freeze_point_that_is_held_says_so(say: Say, glycol: str) -> None:
    # media/coolant.py: beyond 60 % glycol by mass the figure for 60 % is given
    code = float(glycol == "propylene")
    told: list[bool] = []
    for percent in (40, 50, 58, 66, 70):
        answer = say("freeze", "--glycol", glycol, "--mix", f"{percent} %", "--json").record
        by_mass = mixture.glycol_mass_fraction(mixture.glycol_volume_fraction(percent / 100, code), code)
        held = any("does not protect more" in remark for remark in answer["remarks"])
        assert held == bool(by_mass > coolant.STRONGEST_FREEZING)
        told.append(held)
    assert told[0] is False
    assert told[-1] is True
    assert "is held at the figure for 60 %" in " ".join(say("freeze", "--glycol", glycol, "--mix", "70 %").out.split())


def test_no_mix_is_said_to_protect_more_the_stronger_it_is(say: Say) -> None:
    for mix in ("50 %", "70 %"):
        said = " ".join(say("freeze", "--mix", mix).out.split())
        assert "a stronger mix cools less and protects no better" in said
