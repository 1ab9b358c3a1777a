"""The fill: air in the loop, and the mixtures that are believed."""

from collections.abc import Callable

import numpy as np
import pytest

from toptank.parts.fill import Fill
from toptank.units.declaration import declarations


def test_a_full_system_keeps_the_whole_head() -> None:
    assert Fill(air=0.0).head_left() == 1.0


def test_a_fifth_of_air_halves_the_head() -> None:
    assert Fill(air=0.2).head_left() == pytest.approx(0.5)  # the docstring's judgement: 1 / (1 + 25 x 0.04)


def test_more_air_always_takes_more_of_the_head_and_the_first_bubbles_take_little() -> None:
    left = Fill(air=np.linspace(0.0, 0.6, 61)).head_left()
    assert np.all(np.diff(left) < 0.0)
    assert left[2] > 0.98  # 2 %: a bubble in the top tank
    assert left[-1] > 0.0


def test_a_mixture_beyond_60_percent_is_remarked_on() -> None:
    """Engine operator's manual: do not exceed 60 % of concentrate; makers ask for a third at the least."""
    declared = dict(declarations(Fill))["concentrate"]
    assert declared.plausible[1] == pytest.approx(0.60)
    assert declared.plausible[0] < 0.33
    assert declared.hard[0] == 0.0  # plain water is a fill too


def test_many_at_once_answer_as_each_alone(same_one_by_one: Callable[..., None]) -> None:
    same_one_by_one(lambda air: Fill(air=air).head_left(), air=[0.0, 0.1, 0.4])
