"""A road test that went well is said to work; the doubt of the worst day stands below, beside the order's chance."""

import pytest

from toptank.shop.answers.summaries.verdict_summary import works, worst_day_now


def test_a_drive_as_forecast_under_the_limit_says_that_the_repair_works() -> None:
    assert works("as forecast", 0.5, proves=True, cool=True).startswith("The repair works: it ran as forecast")
    assert works("better", 0.1, proves=True, cool=True).startswith("The repair works: it ran cooler")


def test_one_that_proves_little_says_so_in_the_same_breath() -> None:
    assert works("as forecast", 0.5, proves=False, cool=True).startswith("The repair works, as far as this drive shows")


@pytest.mark.parametrize(
    ("word", "place", "cool", "said"),
    [
        ("worse", 0.99, True, "Not right yet"),
        ("as forecast", 0.5, False, "went over the customer's limit"),
        ("as forecast", 0.85, True, "hot side"),
    ],
)
def test_what_did_not_go_well_is_not_said_to_work(word: str, place: float, cool: bool, said: str) -> None:
    told = works(word, place, proves=True, cool=cool)
    assert said in told
    assert "works" not in told


def test_the_chance_of_the_order_is_named_beside_the_one_after_the_road_test() -> None:
    """Remedies and order said 24 %, after the road test it is 61 %: both stand there, with which is which."""
    told = worst_day_now(0.61, 0.24, "towing")
    assert told == (
        "Worst day (towing): 6 chances in 10 to stay cool; the order says 2 chances in 10, before this road test."
    )
    assert worst_day_now(0.82, 0.79, "towing") == "Worst day (towing): 8 chances in 10 to stay cool, as the order says."
