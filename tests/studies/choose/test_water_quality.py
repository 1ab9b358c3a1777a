"""Water for the mix: what is refused, and why."""

import pytest

from toptank.studies.choose.coolant.water_quality import distilled_water_argument, judged, kinds, limits
from toptank.units.refusal import Refusal

# manuals of several engine makers, the same figures in each: chloride, sulphate, hardness, total solids; pH 5.5 to 9.0
AT_THE_LIMIT = {"chloride": 40.0, "sulphate": 100.0, "hardness": 170.0, "total solids": 340.0, "pH": 9.0}


def test_tap_water_at_every_limit_is_still_good() -> None:
    verdict = judged("tap", AT_THE_LIMIT)
    assert verdict.good
    assert verdict.reasons == ()


@pytest.mark.parametrize(
    ("name", "value"),
    [("chloride", 41.0), ("sulphate", 101.0), ("hardness", 171.0), ("total solids", 341.0), ("pH", 9.1), ("pH", 5.4)],
)
def test_one_figure_beyond_its_limit_refuses_the_water_and_says_which(name: str, value: float) -> None:
    for kind in ("tap", "distilled"):
        verdict = judged(kind, AT_THE_LIMIT | {name: value})
        assert not verdict.good
        assert [reason.split()[0] for reason in verdict.reasons] == [name.split()[0]]


def test_tap_water_without_an_analysis_is_refused_with_the_reason() -> None:
    verdict = judged("tap", {})
    assert not verdict.good
    assert "water works" in verdict.reasons[0]
    assert set(verdict.missing) == set(AT_THE_LIMIT)


def test_half_an_analysis_is_not_enough() -> None:
    verdict = judged("tap", {"hardness": 90.0})
    assert not verdict.good
    assert "chloride" in verdict.reasons[0]
    assert "hardness" not in verdict.missing


def test_distilled_water_needs_no_analysis() -> None:
    assert judged("distilled", {}).good


def test_softened_water_is_refused_whatever_the_analysis_says() -> None:
    # common practice, no source; several makers forbid it: salt takes the place of lime
    verdict = judged("softened", AT_THE_LIMIT)
    assert not verdict.good
    assert "salt" in verdict.reasons[0]


def test_every_limit_has_its_source_and_every_kind_its_reason() -> None:
    assert all(limit.source and limit.why for limit in limits())
    assert {limit.name for limit in limits()} == set(AT_THE_LIMIT)
    assert all(kind.because for kind in kinds())


def test_both_sides_of_the_distilled_water_argument_are_told() -> None:
    sides = distilled_water_argument()
    assert len(sides) >= 2
    assert any("eats metal" in side.claim for side in sides)
    assert any("only right water" in side.claim for side in sides)
    assert all(side.known and side.source for side in sides)


def test_water_that_nobody_knows_is_refused() -> None:
    with pytest.raises(Refusal, match="distilled"):
        judged("distiled", {})
    with pytest.raises(Refusal, match="chloride"):
        judged("tap", {"cloride": 12.0})
    with pytest.raises(Refusal, match="zero or more"):
        judged("tap", {"chloride": float("nan")})
