"""A gap that adds up from measures: its spread, and what may be said of it."""

import random
from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from toptank.knowledge.sheet import Fact, Provenance, declared
from toptank.studies.choose.fit.item import Sum, Verdict, alike, clearance, known, measured
from toptank.studies.choose.fit.measures import bay_fields, cut, measure_of, tape

INCH = 0.0254


def test_spreads_combine_as_the_root_of_squares() -> None:
    # by hand: 3-4-5
    gap = Sum(0.05, {"a": 0.003}) - Sum(0.02, {"b": 0.004})
    assert gap.value == pytest.approx(0.03)
    assert gap.spread() == pytest.approx(0.005)
    assert gap.widest() == "b"


def test_a_measure_that_comes_in_twice_counts_with_its_sum() -> None:
    # two rubbers of one thickness are wrong together: twice the spread, not the root of two
    rubber = Sum(0.005, {"rubber": 0.001})
    assert (rubber + rubber).spread() == pytest.approx(0.002)
    assert (rubber - rubber).spread() == pytest.approx(0.0)


def test_what_is_missing_stays_missing() -> None:
    gap = Sum(1.0) - measured("fit.saddle_width", None) - Sum(0.2, missing=("fit.saddle_rubber",))
    assert gap.missing == ("fit.saddle_width", "fit.saddle_rubber")
    assert clearance("x", gap).verdict == Verdict.NOT_KNOWN
    assert clearance("x", gap).measure == gap.missing


@pytest.mark.parametrize(
    ("gap", "verdict"),
    # one-sided 5 % of the normal law is 1.645 standard deviations (any table); spread 0.01, least 0.1
    [
        (0.1166, Verdict.CLEARS),
        (0.1163, Verdict.TIGHT),
        (0.1, Verdict.TIGHT),
        (0.0837, Verdict.TIGHT),
        (0.0834, Verdict.RUBS),
    ],
)
def test_clears_and_rubs_need_the_95_percent_side(gap: float, verdict: Verdict) -> None:
    assert clearance("x", Sum(gap, {"a": 0.01}), least=0.1).verdict == verdict


@given(
    margin=st.floats(-0.05, 0.05), first=st.floats(0.0, 0.01), second=st.floats(0.0, 0.01), seed=st.integers(0, 10**6)
)
def test_what_is_said_to_clear_does_so_in_95_of_100(margin: float, first: float, second: float, seed: int) -> None:
    item = clearance("x", Sum(margin, {"a": first, "b": second}))
    dice = random.Random(seed)
    n = 2000
    free = sum(margin + dice.gauss(0.0, first) + dice.gauss(0.0, second) >= 0.0 for _ in range(n)) / n
    doubt = 4.5 * sqrt(0.05 * 0.95 / n)  # four and a half standard errors of a share counted 2000 times
    if item.verdict == Verdict.CLEARS:
        assert free > 0.95 - doubt
    elif item.verdict == Verdict.RUBS:
        assert free < 0.05 + doubt
    else:
        assert 0.05 - doubt < free < 0.95 + doubt


@given(margin=st.floats(-0.1, -0.02), spread=st.floats(0.0, 0.01))
def test_the_mend_gains_enough_to_clear(margin: float, spread: float) -> None:
    item = clearance("x", Sum(margin, {"a": spread}), fix="trim {amount} off")
    assert item.verdict == Verdict.RUBS
    assert clearance("x", Sum(margin + item.amount + 1e-9, {"a": spread})).verdict == Verdict.CLEARS


def test_a_tight_gap_names_the_measure_that_widens_it_most() -> None:
    item = clearance("x", Sum(0.001, {"fit.saddle_width": 0.002, "fit.saddle_rubber": -0.005}))
    assert item.verdict == Verdict.TIGHT
    assert item.measure == ("fit.saddle_rubber",)
    assert not item.fix


def test_two_lengths_are_alike_either_way_round() -> None:
    for first, second in ((1.0, 1.5), (1.5, 1.0)):
        item = alike("x", Sum(first), Sum(second), within=0.25, fix="sleeve")
        assert (item.verdict, item.gap, item.fix) == (Verdict.RUBS, pytest.approx(0.5), "sleeve")
    assert alike("x", Sum(1.0), Sum(1.2), within=0.25, fix="sleeve").verdict == Verdict.CLEARS


def test_a_typical_value_is_not_known_but_a_guess_in_the_job_is() -> None:
    typical = declared(bay_fields()["saddle_width"])
    guess = Fact(value=0.07, how=Provenance.ASSUMED, spread=0.01, origin="job file")
    of_a_class = Fact(value=0.07, how=Provenance.ASSUMED, spread=0.01, origin="typical pickup")
    assert [known(fact) for fact in (typical, guess, of_a_class)] == [False, True, False]
    assert measured("fit.saddle_width", typical).missing == ("fit.saddle_width",)
    assert measured("fit.saddle_width", guess).spread() == pytest.approx(0.01)


@pytest.mark.parametrize(
    ("length", "us", "metric"),
    [
        (0.5 * INCH, "1/2 in", "13 mm"),
        (2.625 * INCH, "2 5/8 in", "67 mm"),
        (1.0 * INCH, "1 in", "25 mm"),
        (0.0, "0 in", "0 mm"),
        (-0.25 * INCH, "-1/4 in", "-6 mm"),
    ],
)
def test_a_tape_reads_fractions(length: float, us: str, metric: str) -> None:
    assert (tape(length, "us"), tape(length, "metric")) == (us, metric)


def test_what_is_cut_off_is_rounded_up() -> None:
    assert cut(0.5 * INCH, "us") == "1/2 in"
    assert cut(0.501 * INCH, "us") == "9/16 in"
    assert cut(0.0121, "metric") == "13 mm"


def test_every_measure_can_be_taken_in_the_bay() -> None:
    for path in ("fit.saddle_width", "offer.tank_width", "shroud.fan_to_core", "shroud.tip_clearance"):
        assert measure_of(path).measurable()
    assert all(declaration.measurable() for declaration in bay_fields().values())
