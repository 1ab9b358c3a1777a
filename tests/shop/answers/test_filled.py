"""An answer is filled by the names of its keys, each in the unit that ends it."""

import math
from types import SimpleNamespace
from typing import NamedTuple

import numpy as np
import pytest
from pydantic import ValidationError

from toptank.shop.answers.answer import Answer, Band, OpenBand, filled, filled_each


class _Ends(NamedTuple):
    p10: float
    p50: float
    p90: float


class _Told(Answer):
    name: str
    top_tank_degC: OpenBand
    gauge_degC: float
    gain_K_per_kPa: float
    core_flow_L_per_min: float
    face_velocity_m_per_s: float
    holds_pct: float
    lasts_minutes: float | None
    along_km: tuple[float, ...]


def _source(**other: object) -> SimpleNamespace:
    told = {
        "name": "long climb", "top_tank": _Ends(363.15, 373.15, math.nan), "T_gauge": 368.15, "gain": 0.0004,
        "core_flow": 0.002, "face_velocity": 4.0, "holds": 0.9, "lasts": None, "along": np.array([0.0, 1609.344]),
    }  # fmt: skip
    return SimpleNamespace(**told | other)


def test_each_key_is_in_the_unit_that_ends_it() -> None:
    """Worked by hand: 100 °C is 373.15 K, 2 L/s is 120 L/min, 0.4 mK/Pa is 0.4 K/kPa, a mile is 1.60934 km."""
    told = filled(_Told, _source())
    assert told.top_tank_degC == OpenBand(p10=90.0, p50=100.0, p90=None)
    assert (told.gauge_degC, told.gain_K_per_kPa, told.core_flow_L_per_min) == (95.0, 0.4, 120.0)
    assert (told.face_velocity_m_per_s, told.holds_pct, told.lasts_minutes) == (4.0, 90.0, None)
    assert told.along_km == (0.0, 1.60934)
    assert told.name == "long climb"


def test_what_is_given_goes_before_the_source() -> None:
    assert filled(_Told, _source(), {"holds_pct": 1.0, "name": "flat"}).record()["holds_pct"] == 1.0


def test_a_closed_band_refuses_an_end_that_is_no_number() -> None:
    class Closed(Answer):
        top_tank_degC: Band

    with pytest.raises(ValidationError):
        filled_each(Closed, [_source()])


def test_a_key_that_the_source_does_not_know_is_told() -> None:
    class Other(Answer):
        bottom_hose_degC: float

    with pytest.raises(AttributeError, match="T_bottom_hose"):
        filled(Other, _source())
