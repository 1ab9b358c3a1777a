"""How long the what-if strip waits, warm: `uv run python benchmarks/live_answer.py`. Printed, never a test."""

import os
import statistics
import time

import numpy as np
from rich.console import Console
from rich.table import Table

from toptank.shop.ask.diagnose import diagnose
from toptank.shop.ask.service import demo_job
from toptank.shop.ask.what_if import Changes, duties_of, what_if
from toptank.shop.cache import ensemble_cache
from toptank.shop.job.job import Job

ASKED = 100


def seconds_of_answers(job: Job) -> list[float]:
    """Ask for changes as a person moves sliders, over all duties; return the seconds of each answer [s]."""
    rng = np.random.default_rng(5)
    names = [duty.name for duty in duties_of(job)]
    seconds: list[float] = []
    for number in range(ASKED):
        changes = Changes(
            ambient=f"{rng.integers(60, 120)} F",
            grade=f"{rng.integers(0, 9)} %",
            speed=f"{rng.integers(0, 70)} mph",
            air_conditioning=bool(rng.integers(2)),
        )
        start = time.perf_counter()
        what_if(job, changes, duty=names[number % len(names)])
        seconds.append(time.perf_counter() - start)
    return seconds


def main() -> None:
    """Measure with the sheet's vehicles, then with those that a diagnosis left, and print."""
    job = demo_job()
    table = Table("what-if, warm", "median", "9 in 10 within", "wanted", title=f"{os.cpu_count()} cores")
    start = time.perf_counter()
    what_if(job, Changes())
    table.add_row("the very first answer", f"{time.perf_counter() - start:.1f} s", "", "")
    for rests_on in ("sheet", "diagnosis"):
        if rests_on == "diagnosis":
            ensemble_cache.remember(diagnose(job))
        seconds = seconds_of_answers(job)
        middle, most = statistics.median(seconds), float(np.quantile(seconds, 0.9))
        table.add_row(f"rests on the {rests_on}", f"{1e3 * middle:.0f} ms", f"{1e3 * most:.0f} ms", "under 250 ms")
    Console().print(table)


if __name__ == "__main__":
    main()
