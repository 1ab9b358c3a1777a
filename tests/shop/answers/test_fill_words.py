"""One recipe for the fill: the coolant's page and the order say the same quantities."""

import pytest

from toptank.shop.answers.words.fill_words import after_a_flush, fill_words
from toptank.units.conversion import System

QUART = 0.000946353
"""[m3]"""


@pytest.mark.parametrize(
    ("system", "said"),
    [
        ("us", "10 qt of concentrate, then about 6 qt of water; 4 qt of the flush water stays in, which makes 50 %"),
        (
            "metric",
            "9.5 L of concentrate, then about 5.7 L of water; 3.8 L of the flush water stays in, which makes 50",
        ),
    ],
)
def test_the_flush_water_that_stays_in_is_counted_and_said(system: System, said: str) -> None:
    """20 qt, 80 % drains: 4 stay as water, so 10 of concentrate and 6 of water make 20 at half and half."""
    fill = after_a_flush(20 * QUART, 0.8, 0.5)
    assert said in fill_words(fill, 20 * QUART, system)
    assert fill.concentrate == pytest.approx(10 * QUART)
    assert fill.water == pytest.approx(6 * QUART)


def test_where_the_cock_alone_is_drained_it_says_what_that_reaches() -> None:
    """20 qt, 45 % drains: 9 of concentrate among 20 are 45 %, however much is wanted."""
    fill = after_a_flush(20 * QUART, 0.45, 0.5)
    assert "9 qt of concentrate, then about 0 qt of water" in fill_words(fill, 20 * QUART, "us")
    assert "makes 45 %" in fill_words(fill, 20 * QUART, "us")
