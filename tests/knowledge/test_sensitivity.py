"""Which assumption widens the band: shares that are known on paper are found in draws."""

import numpy as np
import pytest

from toptank.knowledge.sensitivity import shares_of_variance


def _columns(n: int, seed: int) -> dict[str, np.ndarray]:
    rng = np.random.default_rng(seed)
    return {name: rng.normal(size=n) for name in ("a", "b", "c", "d")}


def test_shares_of_a_sum_are_those_of_its_variances() -> None:
    x = _columns(4000, 1)
    # Variances 4, 1 and 0.25 of 5.25 in all.
    shares = dict(shares_of_variance(2 * x["a"] + x["b"] - 0.5 * x["c"], x, {"a", "b", "c", "d"}))
    assert list(shares) == ["a", "b", "c"]
    assert shares["a"] == pytest.approx(4 / 5.25, abs=0.03)
    assert shares["b"] == pytest.approx(1 / 5.25, abs=0.03)


def test_what_was_measured_is_not_told_but_takes_its_part() -> None:
    x = _columns(4000, 2)
    shares = dict(shares_of_variance(3 * x["a"] + x["b"], x, {"b"}))
    assert list(shares) == ["b"]
    assert shares["b"] == pytest.approx(0.1, abs=0.03)


def test_a_curved_but_rising_effect_counts_in_full() -> None:
    x = _columns(2000, 3)
    assert dict(shares_of_variance(np.exp(3 * x["a"]), x, {"a"}))["a"] > 0.98


def test_a_flat_result_rests_on_nothing() -> None:
    assert shares_of_variance(np.full(1000, 355.0), _columns(1000, 4), {"a"}) == ()


def test_noise_alone_gives_no_share() -> None:
    x = _columns(4000, 5)
    assert shares_of_variance(np.random.default_rng(99).normal(size=4000), x, set(x)) == ()


def test_a_choice_has_its_weight() -> None:
    x = _columns(4000, 6)
    x["switch"] = (x["d"] > 0.0).astype(float)
    shares = dict(shares_of_variance(0.2 * x["a"] + 5 * x["switch"], x, {"switch", "a"}))
    assert shares["switch"] > shares["a"]
