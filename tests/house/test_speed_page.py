"""The page on speed reasons from what was measured, and says what breaks first."""

import pytest
from docs_of_speed import limits, slope, speed_page


def _size(vehicles: int, seconds: float, memory: float) -> dict[str, float]:
    return {
        "vehicles": vehicles,
        "processor_s": seconds,
        "peak_memory_bytes": memory,
        "bytes_sent_a_vehicle": 200.0,
        "bytes_back_a_vehicle": 1800.0,
    }


def test_growth_is_what_one_vehicle_more_adds() -> None:
    assert slope([_size(100, 25.0, 1e9), _size(1100, 225.0, 1.05e9)], "processor_s") == pytest.approx(0.2)


def test_a_client_that_keeps_every_answer_breaks_first() -> None:
    first, second, *_ = limits([_size(100, 25.0, 1e9), _size(1100, 225.0, 1.05e9)])
    assert "memory of the client" in first.what
    assert (first.figure, first.share) == ("50.0 GB", pytest.approx(50.0 / 16.0))
    # 0.2 s of a core for each of a million vehicles, on 800 cores: 250 s of an hour
    assert second.share == pytest.approx(250.0 / 3600.0)


def test_work_that_takes_longer_breaks_first() -> None:
    first = limits([_size(100, 25.0, 1e9), _size(1100, 50_025.0, 1e9 + 2e6)])[0]
    assert first.what == "work of the machines"


def test_the_page_tells_what_was_wanted_beside_what_was_reached() -> None:
    page = speed_page("")
    assert "40 and 100 million were wanted" in " ".join(page.split())
    assert "not measured" in page
