"""What no shop could have built is refused, and the person's own figure is named."""

import pytest

from toptank.knowledge.consistency import AGREEMENTS, refuse_what_cannot_be_built
from toptank.knowledge.sheet import declared_sheet
from toptank.knowledge.sheet_file import read_sheet
from toptank.units.refusal import Refusal

IMPOSSIBLE = {
    "tubes overlap": {"core": {"tube_pitch": "6 mm", "tube_thickness": "7 mm"}},
    "round tube": {"core": {"tube_width": "5 mm", "tube_thickness": "6 mm"}},
    "rows overlap": {"core": {"rows": 2, "tube_width": "1 in", "row_pitch": "0.7 in"}},
    "fan stops above its start": {"fan": {"switch_on": "190 F", "switch_off": "200 F"}},
    "clutch slower when engaged": {"fan_clutch": {"engaged_ratio": "20 %", "released_ratio": "40 %"}},
    "thermostat opens less than when shut": {"thermostat": {"largest_opening": "10 %", "smallest_opening": "50 %"}},
    "gears in disorder": {"drivetrain": {"top_ratio": 1.5, "second_ratio": 1.2}},
    "stall below idle": {"drivetrain": {"stall_speed": "650 rpm"}, "engine": {"idle_speed": "700 rpm"}},
}


@pytest.mark.parametrize("tables", IMPOSSIBLE.values(), ids=IMPOSSIBLE)
def test_a_contradiction_is_refused_and_both_figures_are_told(tables: dict[str, object]) -> None:
    with pytest.raises(Refusal) as refused:
        read_sheet(tables, like=declared_sheet(), name="x", system="us")
    assert refused.value.field.split(".")[0] in tables
    assert "{" not in str(refused.value)


def test_a_single_row_needs_no_spacing_of_rows() -> None:
    read_sheet({"core": {"rows": 1, "tube_width": "1.2 in"}}, like=declared_sheet(), name="x", system="us")


def test_an_assumed_partner_is_called_assumed() -> None:
    with pytest.raises(Refusal, match=r"of which fan_clutch\.released_ratio is assumed"):
        read_sheet({"fan_clutch": {"engaged_ratio": "10 %"}}, like=declared_sheet(), name="x", system="us")


def test_the_declared_typical_vehicle_can_be_built() -> None:
    refuse_what_cannot_be_built(declared_sheet(), stated={}, system="us")
    assert len({(rule.first, rule.second) for rule in AGREEMENTS}) == len(AGREEMENTS)
