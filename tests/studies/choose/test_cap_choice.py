"""A cap has margin enough and never strains the weakest part."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from toptank.parts.cap import Cap
from toptank.studies.choose.coolant.cap_choice import ASKED_BY_SYSTEM, CAPS, PART_LIMITS, choose_cap, weakest
from toptank.units.declaration import declarations
from toptank.units.refusal import Refusal

PSI = 6894.757
SOUND = "radiator, copper and brass, sound"


def fahrenheit(degrees: float) -> float:
    return (degrees + 459.67) / 1.8


# steam tables (IAPWS), water at the sea and at 5000 ft, °F
@pytest.mark.parametrize(
    ("altitude", "cap", "boils"), [(0, 0, 212.0), (0, 7, 232.3), (0, 15, 249.7), (1524, 7, 225.8), (1524, 15, 244.8)]
)
def test_boiling_point_under_a_cap(altitude: float, cap: float, boils: float) -> None:
    answer = choose_cap(fahrenheit(180), altitude, 0.0, 0.0, [SOUND], stamped=None)
    row = next(row for row in answer.rows if row.pressure == pytest.approx(cap * PSI, rel=1e-4, abs=1))
    assert row.boiling_point == pytest.approx(fahrenheit(boils), abs=0.3)
    assert row.margin == pytest.approx(fahrenheit(boils) - fahrenheit(180), abs=0.3)


def test_water_at_215_degrees_wants_ten_pounds() -> None:
    # by the same tables: 215 + 20 = 235 °F; 7 psi 232.3 is too little, 10 psi is about 239
    answer = choose_cap(fahrenheit(215), 0.0, 0.0, 0.0, [SOUND], stamped=None)
    assert answer.chosen is not None
    assert answer.chosen.pressure == pytest.approx(10 * PSI, rel=1e-4)


@given(
    worst=st.floats(350.0, 410.0),
    altitude=st.floats(0.0, 4000.0),
    share=st.floats(0.0, 0.6),
    parts=st.lists(st.sampled_from(sorted(PART_LIMITS)), min_size=1),
)
def test_no_cap_is_chosen_above_the_weakest_part_or_without_margin(
    worst: float, altitude: float, share: float, parts: list[str]
) -> None:
    answer = choose_cap(worst, altitude, share, 0.0, parts, stamped=None)
    least = min(PART_LIMITS[part] for part in parts)
    if answer.chosen is not None:
        assert answer.chosen.pressure <= least * 1.000001
        assert answer.chosen.boiling_point - worst >= 20 / 1.8 - 1e-9
    for row in answer.rows:
        assert bool(row.forbidden_by) == (row.pressure > least * 1.000001)


def test_the_makers_cap_is_never_exceeded() -> None:
    answer = choose_cap(fahrenheit(235), 0.0, 0.5, 0.0, [SOUND], stamped=7 * PSI)
    assert answer.chosen is None
    assert "maker" in answer.reason


def test_an_old_heater_core_forbids_what_a_new_radiator_bears() -> None:
    both = ["radiator, all aluminium, welded", "heater core, old or unknown"]
    assert weakest(both)[0] == "heater core, old or unknown"
    answer = choose_cap(fahrenheit(255), 0.0, 0.5, 0.0, both, stamped=None)
    assert answer.chosen is None
    assert "heater core" in answer.reason


def test_a_mile_up_takes_a_stronger_cap() -> None:
    sea, high = (choose_cap(fahrenheit(225), z, 0.5, 0.0, [SOUND], stamped=None).chosen for z in (0.0, 3000.0))
    assert sea is not None
    assert high is not None
    assert high.pressure > sea.pressure


def test_parts_that_are_not_known_are_refused() -> None:
    with pytest.raises(Refusal, match="heater core"):
        weakest(["wooden bucket"])
    with pytest.raises(Refusal, match="weakest part"):
        weakest([])


def test_caps_are_listed_in_order() -> None:
    assert list(CAPS) == sorted(CAPS)


def test_every_kind_of_system_on_a_sheet_says_what_it_asks_of_its_cap() -> None:
    assert set(ASKED_BY_SYSTEM) == set(dict(declarations(Cap))["system"].choices)


def test_a_recovery_bottle_asks_for_two_seals_and_a_vacuum_valve_and_an_open_one_for_room() -> None:
    # common practice, no source
    closed, opened = " ".join(ASKED_BY_SYSTEM["recovery bottle"]), " ".join(ASKED_BY_SYSTEM["open overflow"])
    assert "rim" in closed
    assert "vacuum valve" in closed
    assert "below the neck" in opened
