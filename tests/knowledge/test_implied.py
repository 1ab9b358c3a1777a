"""What the kind of a part says of figures that nobody measured."""

import pytest

from toptank.knowledge.implied import IMPLIED
from toptank.knowledge.sheet import Fact, Provenance, declaration_of, declared_sheet
from toptank.knowledge.sheet_file import read_sheet


def _read(clutch: dict[str, object]) -> Fact:
    sheet, _ = read_sheet({"fan_clutch": clutch}, like=declared_sheet(), name="x", system="us")
    return sheet.facts["fan_clutch.engaged_ratio"]


@pytest.mark.parametrize(
    ("kind", "low", "high"), [("standard", 0.5, 0.6), ("heavy-duty", 0.75, 0.85), ("severe-duty", 0.88, 0.92)]
)
def test_a_kind_of_clutch_tells_how_fast_the_hot_fan_turns(kind: str, low: float, high: float) -> None:
    """Common practice, no source: standard ones 50 to 60 % of the shaft, heavy-duty ones 80, severe-duty ones 90."""
    fact = _read({"kind": kind})
    assert low <= fact.value <= high
    assert fact.how == Provenance.ASSUMED
    assert 0.0 < fact.spread <= 0.06


def test_what_was_measured_goes_before_what_its_kind_says() -> None:
    fact = _read({"kind": "severe-duty", "engaged_ratio": "64 %"})
    assert fact.value == pytest.approx(0.64)
    assert fact.how == Provenance.MEASURED


def test_a_sheet_that_says_nothing_of_the_kind_keeps_its_typical_clutch() -> None:
    sheet, _ = read_sheet({"fan": {"diameter": "18 in"}}, like=declared_sheet(), name="x", system="us")
    assert sheet.facts["fan_clutch.engaged_ratio"] == declared_sheet().facts["fan_clutch.engaged_ratio"]


def test_every_word_that_implies_something_is_a_choice_of_the_sheet_and_implies_what_can_be() -> None:
    for (choice, code), figures in IMPLIED.items():
        assert 0 <= code < len(declaration_of(choice).choices)
        for path, (value, spread) in figures.items():
            low, high = declaration_of(path).plausible
            assert low <= value - spread
            assert value + spread <= high
