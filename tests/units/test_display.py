"""Figures as the shop reads them."""

import math
import subprocess
import sys

import pytest

from toptank.units import dimension as d
from toptank.units.dimension import Dimension
from toptank.units.display import key_suffix, show
from toptank.units.quantity import System, parse


@pytest.mark.parametrize(
    ("value", "dimension", "system", "shown"),
    [
        (373.15, d.TEMPERATURE, "us", "212 °F"),
        (373.15, d.TEMPERATURE, "metric", "100 °C"),
        (255.372222, d.TEMPERATURE, "us", "0 °F"),
        (5.0, d.TEMPERATURE_RISE, "us", "9 °F"),
        (0.066675, d.LENGTH, "us", "2.62 in"),
        (0.0254, d.LENGTH, "us", "1 in"),
        (103421.36, d.PRESSURE, "us", "15 psi"),
        (2286.0, d.ALTITUDE, "us", "7500 ft"),
        (50.0, d.ROTATION, "us", "3000 rpm"),
        (0.5, d.FRACTION, "us", "50 %"),
        (3.0, d.COUNT, "us", "3"),
        (0.0, d.FLOW, "us", "0 gpm"),
        (12345.0, d.NUMBER, "us", "12345"),
        (1e308, d.NUMBER, "us", "1e308"),
        (math.nan, d.NUMBER, "us", "-"),
    ],
)
def test_a_figure_is_shown_in_the_unit_of_the_shop(
    value: float, dimension: Dimension, system: System, shown: str
) -> None:
    assert show(value, dimension, system) == shown


def test_digits_fix_the_decimals() -> None:
    assert show(373.15, d.TEMPERATURE, "us", digits=1) == "212.0 °F"
    assert show(0.066675, d.LENGTH, "us", digits=3) == "2.625 in"
    assert show(-1e-9, d.NUMBER, "us", digits=2) == "0.00"


def test_what_is_shown_can_be_read_again() -> None:
    for dimension in (d.TEMPERATURE, d.LENGTH, d.PRESSURE, d.FLOW, d.TORQUE, d.CONDUCTIVITY, d.FOULING, d.FRACTION):
        for system in ("us", "metric"):
            text = show(300.0, dimension, system, digits=6)
            assert parse(text, dimension, system="us", field="f").value == pytest.approx(300.0, rel=1e-5)


@pytest.mark.parametrize(
    ("dimension", "us", "metric"),
    [
        (d.TEMPERATURE, "degF", "degC"),
        (d.PRESSURE, "psi", "kPa"),
        (d.FLOW, "gpm", "L_per_min"),
        (d.SPEED, "mph", "km_per_h"),
        (d.FRACTION, "pct", "pct"),
        (d.NUMBER, "", ""),
    ],
)
def test_a_key_ends_with_its_unit(dimension: Dimension, us: str, metric: str) -> None:
    assert (key_suffix(dimension, "us"), key_suffix(dimension, "metric")) == (us, metric)


def test_every_key_suffix_is_a_plain_identifier() -> None:
    for dimension in (value for value in vars(d).values() if isinstance(value, Dimension)):
        for system in ("us", "metric"):
            suffix = key_suffix(dimension, system)
            assert suffix == "" or suffix.isidentifier(), suffix


def test_reading_this_layer_does_not_import_scipy() -> None:
    code = "import sys, toptank.units.quantity; print('scipy' in sys.modules, 'jax' in sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.split() == ["False", "False"]
