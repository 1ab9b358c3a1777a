"""Speed, as ratios measured in one run: `uv run poe bench`. Never a test: a slow machine is not a wrong one."""

import dataclasses
import os
import resource
import subprocess
import sys
import time
from collections.abc import Callable
from importlib.util import find_spec
from itertools import combinations
from pathlib import Path
from tempfile import TemporaryDirectory

os.environ["TOPTANK_NO_COMPILE_CACHE"] = "1"
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # as units/arrays.py sets it: here NumPy is loaded first

import numpy as np
from one_at_a_time import settle_with_scipy
from rich.console import Console
from rich.table import Table

from toptank.knowledge.conditions import draw_conditions
from toptank.knowledge.draws import draws
from toptank.knowledge.typical import typical_sheet
from toptank.shop.ask.choice.choose import choose
from toptank.shop.ask.choice.worst_day import usual_worst_day
from toptank.shop.ask.diagnose import diagnose, evaluate, question_of
from toptank.shop.ask.service import demo_job
from toptank.shop.job.job import Job
from toptank.studies.choose.worst_day_forecast import WorstDayCase, fitting, weighed
from toptank.studies.diagnose.posterior import infer_posterior, resampled
from toptank.system.balance import Status
from toptank.system.duty import Duty
from toptank.system.numerics.jax_library import jax
from toptank.system.population import solve
from toptank.system.steady import NO_START, QUICK, advance

DRAWS, ONE_BY_ONE, REPEATS = 100_000, 40, 3
DRAWS_OF_A_PLAN, PLANS = 4000, 60
CASES = Path(__file__).parents[1] / "examples" / "cases"
EXAMPLE = Path(__file__).parents[1] / "examples" / "orchard-minibus.toml"
CLIMB = Duty(ambient=305.4, speed=21.0, grade=0.04, air_conditioning=1.0)


def best_seconds(run: Callable[[], object], repeats: int = REPEATS) -> float:
    """Return the shortest of several runs [s]."""
    seconds: list[float] = []
    for _ in range(repeats):
        start = time.perf_counter()
        run()
        seconds.append(time.perf_counter() - start)
    return min(seconds)


def compile_seconds() -> tuple[float, float]:
    """Return the seconds to trace and to compile the kernel of one bucket."""
    vehicles = draws(typical_sheet("pickup-1970s-v8-air"), 4096, 1)
    duties = jax.tree.map(lambda value: np.full(4096, float(value)), CLIMB)
    starts = jax.tree.map(lambda value: np.full(4096, float(value)), NO_START)
    kernel = jax.jit(jax.vmap(lambda vehicle, duty, begin: advance(vehicle, duty, begin, steps=QUICK)))
    start = time.perf_counter()
    traced = kernel.trace(vehicles, duties, starts)
    between = time.perf_counter()
    traced.lower().compile()
    return between - start, time.perf_counter() - between


def process_seconds(*command: str, cache: str | None = None) -> float:
    """Return the seconds of a fresh process of the command line; with a cache folder, kernels are kept there."""
    environment = dict(os.environ)
    if cache is not None:
        environment.pop("TOPTANK_NO_COMPILE_CACHE", None)
        environment["XDG_CACHE_HOME"] = cache
    toptank = Path(sys.executable).with_name("toptank")

    def run() -> None:
        subprocess.run([toptank, *command], env=environment, check=True, capture_output=True)

    return best_seconds(run, 1 if cache is None and command[0] == "demo" else REPEATS)


def studies(table: Table) -> None:
    """Diagnosis and choice in a running process, on the built-in example."""
    job = demo_job()
    diagnose(job)
    table.add_row("diagnose in a running process", f"{best_seconds(lambda: diagnose(job)):.2f} s", "under 1.5 s")
    closed = evaluate(CASES)
    scores = f"first {100 * closed.told.top_1:.0f} %, first three {100 * closed.told.top_3:.0f} %"
    table.add_row(f"{len(closed.cases)} told cases", scores, "65 % and 88 %")
    beside = f"alone {closed.told.log_score_of_prior:.2f}, look-up {closed.told.log_score_of_chart:.2f}"
    table.add_row("log score of the told cases", f"{closed.told.log_score:.2f}; shares {beside}", "better than both")
    likely = f"{100 * closed.told.in_likely:.0f} %"
    table.add_row("statements of 8 in 10 that were right", likely, "70 to 90 %")
    subjects = subjects_of(job)
    plans = [(), *((remedy,) for remedy in fitting(subjects.vehicle))]
    plans += list(combinations(fitting(subjects.vehicle), 2))[: PLANS - len(plans)]

    def weigh_all() -> None:
        weighed(subjects, plans, no_cost)

    weigh_all()
    table.add_row(
        f"{len(plans)} plans, {len(subjects.days)} duties, {DRAWS_OF_A_PLAN:,} draws",
        f"{best_seconds(weigh_all, 2):.1f} s",
        "",
    )
    five = dataclasses.replace(job, worst_day=(*usual_worst_day(job), *job.duties[:2]))
    found = diagnose(five)
    table.add_row(
        f"the same as a whole choice: searched, screened, {DRAWS_OF_A_PLAN:,} draws for the good ones",
        f"{best_seconds(lambda: choose(five, diagnosed=found), 2):.1f} s",
        "under 6 s",
    )


def subjects_of(job: Job) -> WorstDayCase:
    """The example's vehicle, unwell as its evidence leaves it, on five days."""
    possible = resampled(infer_posterior(question_of(job), 1), DRAWS_OF_A_PLAN, 1)
    sheets = [*usual_worst_day(job), *job.duties[:2]]
    days = draw_conditions(job.sheet, sheets, DRAWS_OF_A_PLAN, 1)
    asked = tuple(sheet.name for sheet in sheets)
    return WorstDayCase(possible.vehicle, possible.sound, possible.severity, days, job.limit, asked)


def no_cost(_remedies: object) -> float:
    """Prices do not matter here."""
    return 0.0


def main() -> None:
    """Measure and print."""
    table = Table("what", "measured", "wanted", title=f"{os.cpu_count()} cores, float64")
    trace, build = compile_seconds()
    table.add_row("trace the kernel", f"{trace:.1f} s", "")
    table.add_row("compile the kernel", f"{build:.1f} s", "under 3 s")

    vehicles = draws(typical_sheet("pickup-1970s-v8-air"), DRAWS, 1)
    solve(vehicles, CLIMB)
    balance = solve(vehicles, CLIMB)
    many = DRAWS / best_seconds(lambda: solve(vehicles, CLIMB))
    balanced = balance.status != Status.NO_BALANCE
    worst = np.max(np.abs(balance.heat_imbalance[balanced]) / balance.engine_heat[balanced])
    table.add_row(f"steady, {DRAWS:,} draws", f"{many:,.0f} a second, heats within {worst:.0e}", "150,000 a second")

    some = draws(typical_sheet("pickup-1970s-v8-air"), ONE_BY_ONE, 1)
    temperatures = settle_with_scipy(some, CLIMB)
    one = ONE_BY_ONE / best_seconds(lambda: settle_with_scipy(some, CLIMB), 1)
    apart = np.max(np.abs(temperatures - solve(some, CLIMB).T_engine_out))
    table.add_row("the same through scipy brentq", f"{one:,.0f} a second, {apart:.0e} K apart", "")
    table.add_row("ratio", f"{many / one:,.0f}", "at least 100")

    studies(table)
    if find_spec("toptank.interfaces.cli.main") is not None:
        table.add_row("toptank --help", f"{process_seconds('--help'):.2f} s", "under 0.5 s")
        table.add_row("toptank boil", f"{process_seconds('boil', '--cap', '15 psi'):.2f} s", "under 1.5 s")
        table.add_row("toptank demo, nothing kept", f"{process_seconds('demo'):.1f} s", "under 15 s")
        with TemporaryDirectory() as folder:
            table.add_row("toptank demo, kernels kept", f"{process_seconds('demo', cache=folder):.1f} s", "")
            seconds = process_seconds("diagnose", str(EXAMPLE), cache=folder)
            table.add_row("toptank diagnose, kernels kept", f"{seconds:.1f} s", "under 8 s")
            peak = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024.0**2
            table.add_row("most memory of a process so far", f"{peak:.2f} GB", "under 1.5 GB")
    Console().print(table)


if __name__ == "__main__":
    main()
