"""Readings of a refractometer and of a hydrometer against printed tables, and the traps."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from toptank.media import coolant
from toptank.studies.choose.coolant.strength import (
    from_freeze_scale,
    from_refractive_index,
    from_specific_gravity,
    glycol_index,
    index_at_reference,
    refractive_index,
)
from toptank.units.refusal import Refusal

ETHYLENE, PROPYLENE = 0.0, 1.0
LAB = 293.15


# crc_handbook102, concentrative properties, 20 °C: mass share of ethylene glycol, index
@pytest.mark.parametrize(
    ("mass", "index"),
    [(0.1, 1.3425), (0.2, 1.3523), (0.32, 1.3646), (0.4, 1.3728), (0.48, 1.3811), (0.52, 1.3851), (0.6, 1.3931)],
)
def test_index_of_ethylene_glycol(mass: float, index: float) -> None:
    # within: 0.0006 is 0.6 % of mass, what ± 1 °C of a shop's refractometer is worth
    assert glycol_index(mass, ETHYLENE) == pytest.approx(index, abs=6e-4)


# gerke2023 (open dataset, Abbe refractometer, 20 °C): mass share of propylene glycol, index
@pytest.mark.parametrize(("mass", "index"), [(0.5, 1.38933), (0.6, 1.39915), (0.7, 1.40905), (1.0, 1.43298)])
def test_index_of_propylene_glycol(mass: float, index: float) -> None:
    assert glycol_index(mass, PROPYLENE) == pytest.approx(index, abs=6e-4)


# gerke2023: the same samples at 25 and 30 °C
@pytest.mark.parametrize(
    ("at", "index", "at_20"),
    [(25, 1.38809, 1.38933), (30, 1.38671, 1.38933), (25, 1.39784, 1.39915), (30, 1.39645, 1.39915)],
)
def test_a_warm_sample_is_brought_to_20_degrees(at: float, index: float, at_20: float) -> None:
    assert index_at_reference(index, at + 273.15) == pytest.approx(at_20, abs=3e-4)


def test_warm_water_reads_as_water() -> None:
    # from memory: water 1.3330 at 20 °C, 1.3325 at 25 °C
    assert from_refractive_index(1.3325, 298.15, ETHYLENE).concentrate == pytest.approx(0.0, abs=0.01)


# crc_handbook102: index and freeze point of the same row
@pytest.mark.parametrize(("index", "celsius"), [(1.3646, -16.23), (1.3728, -23.84), (1.3811, -33.30), (1.3851, -38.81)])
def test_index_and_freeze_point_of_one_row(index: float, celsius: float) -> None:
    # within: 0.0006 of index, 0.6 % of mass, 0.8 K at the strong end
    found = from_refractive_index(index, LAB, ETHYLENE)
    assert found.freeze_point - 273.15 == pytest.approx(celsius, abs=1.0)
    assert found.low < found.concentrate < found.high


def test_propylene_on_the_scale_of_ethylene_looks_thirteen_degrees_safer() -> None:
    # ASTM D3321: errors of 18 °F and more. 50 % propylene by mass, index 1.3893 (gerke2023), freezes at about -32 °C;
    # the same index in crc_handbook102 is 56 % ethylene, -44.8 °C
    shown = from_refractive_index(1.38933, LAB, ETHYLENE)
    true = from_freeze_scale(shown.freeze_point, LAB, scale=ETHYLENE, glycol=PROPYLENE)
    assert shown.freeze_point - 273.15 == pytest.approx(-44.8, abs=1.5)
    assert true.freeze_point - 273.15 == pytest.approx(-32.0, abs=1.5)
    assert any("scale" in remark for remark in true.remarks)


@given(share=st.floats(0.05, 0.58))
def test_a_scale_of_the_right_glycol_says_what_is_in(share: float) -> None:
    for glycol in (ETHYLENE, PROPYLENE):
        read = float(coolant.freeze_point(share, glycol))
        found = from_freeze_scale(read, LAB, scale=glycol, glycol=glycol)
        assert found.concentrate == pytest.approx(share, abs=1e-4)


def test_gravity_of_half_and_half() -> None:
    # ashrae_glycol2009, 50 % by volume, inhibited, 20 °C: 1073.35 kg/m3 over water's 998.2
    assert from_specific_gravity(1073.35 / 998.2, LAB, ETHYLENE).concentrate == pytest.approx(0.5, abs=0.01)


def test_a_hot_sample_reads_thin_until_it_is_corrected() -> None:
    # ashrae_glycol2009, 50 %: 1052.04 kg/m3 at 60 °C; the slope is about -0.0004 of gravity for each kelvin
    hot = 1.0520 / 0.9982
    assert from_specific_gravity(hot, 333.15, ETHYLENE).concentrate == pytest.approx(0.5, abs=0.02)
    assert from_specific_gravity(hot, LAB, ETHYLENE).concentrate < 0.4


def test_a_hydrometer_is_rougher_than_a_refractometer_and_says_why() -> None:
    index = refractive_index(0.5, ETHYLENE)
    sharp, rough = from_refractive_index(index, LAB, ETHYLENE), from_specific_gravity(1.0754, LAB, ETHYLENE)
    assert rough.high - rough.low > 3 * (sharp.high - sharp.low)
    assert any("inhibitors weigh" in remark for remark in rough.remarks)
    assert any("strips" in remark for remark in rough.remarks)


def test_a_hydrometer_says_nothing_of_propylene() -> None:
    with pytest.raises(Refusal, match="propylene"):
        from_specific_gravity(1.04, LAB, PROPYLENE)


@pytest.mark.parametrize("gravity", [0.9, 1.2])
def test_a_gravity_off_the_scale_is_refused(gravity: float) -> None:
    with pytest.raises(Refusal, match="bubbles"):
        from_specific_gravity(gravity, LAB, ETHYLENE)


def test_an_index_off_the_scale_is_refused() -> None:
    with pytest.raises(Refusal, match="prism"):
        from_refractive_index(1.43, LAB, ETHYLENE)


@pytest.mark.parametrize("celsius", [-70.0, 5.0])
def test_a_freeze_point_off_the_scale_is_refused(celsius: float) -> None:
    with pytest.raises(Refusal, match="freeze point"):
        from_freeze_scale(celsius + 273.15, LAB, scale=ETHYLENE, glycol=ETHYLENE)
