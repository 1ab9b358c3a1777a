"""What a mechanic reads: by how much, what mends it, what to measure."""

import re
from typing import Any

from toptank.studies.choose.fit.item import Verdict
from toptank.studies.choose.fit.words import answer_words, how_to_measure

INCH = 0.0254


def test_clears_by_and_rubs_by_are_told_in_the_units_of_the_shop(bench: Any) -> None:
    item = bench.item(bench.fits(), "fan to core")
    assert answer_words(item, "us").startswith("clears by 1 1/4 in")
    assert answer_words(item, "metric").startswith("clears by 32 mm")


def test_a_margin_never_passes_for_the_gap_itself(bench: Any) -> None:
    """2 in are there and 3/4 in needed; tips 3/4 in from the shroud keep 1/2 in, short of the inch that is wanted."""
    assert "(2 in there, 3/4 in needed)" in answer_words(bench.item(bench.fits(), "fan to core"), "us")
    near = bench.item(bench.fits(sheet={"shroud.tip_clearance": 0.75 * INCH}), "blade tip to shroud")
    assert answer_words(near, "us").startswith("clears by 1/4 in (3/4 in there, 1/2 in needed)")
    assert "1/4 in short of the 1 in wanted" in answer_words(near, "us")
    short = bench.item(bench.fits(sheet={"shroud.tip_clearance": 0.25 * INCH}), "blade tip to shroud")
    assert answer_words(short, "us").startswith("short by 1/4 in (1/4 in there, 1/2 in needed): trim")


def test_a_shroud_that_touches_is_trimmed_by_enough(bench: Any) -> None:
    said = answer_words(bench.item(bench.fits(offer={"core_depth": 4.0}), "shroud to core"), "us")
    match = re.match(r"rubs by 1/2 in: trim (\d+)/16 in off the front lip", said)
    assert match is not None
    assert int(match[1]) >= 9  # eight sixteenths bring it to nought, and the spread wants more


def test_what_is_tight_says_by_how_much_it_is_doubtful_and_what_to_measure_again(bench: Any) -> None:
    item = bench.item(bench.fits(offer={"core_depth": 3.0}), "core in the saddle")
    assert item.verdict == Verdict.TIGHT
    said = answer_words(item, "us")
    assert "doubtful by" in said
    assert "measure again" in said


def test_what_is_not_known_says_what_to_measure_and_how(bench: Any) -> None:
    answer = bench.fits({"saddle_width": None})
    said = answer_words(bench.item(answer, "core in the saddle"), "us")
    assert said.startswith("not known: measure clear width of a saddle")
    told = [how_to_measure(path) for path in answer.to_measure()]
    assert any(line.startswith("[fit] saddle_width: ") and "tape inside the U" in line for line in told)


def test_no_placeholder_reaches_the_reader(bench: Any) -> None:
    for changed in ({}, {"core_depth": 4.0, "weight": 40.0, "neck_depth": 1.0, "overall_width": 40.0}):
        for system in ("us", "metric"):
            for item in bench.fits({"blade_to_engine": 0.1, "blade_in_shroud": 0.1}, changed).items:
                assert "{" not in answer_words(item, system)


def test_two_sizes_that_must_be_alike_are_told_apart(bench: Any) -> None:
    name = "reach of the cap to depth of the neck"
    assert answer_words(bench.item(bench.fits(), name), "us").startswith("alike: differ by 0 in")
    said = answer_words(bench.item(bench.fits(offer={"neck_depth": 1.0}), name), "us")
    assert said.startswith("differ by 1/4 in, 1/16 in is allowed: a cap made for this neck")
