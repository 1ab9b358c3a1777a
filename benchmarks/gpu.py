"""Speed on a GPU, printed and written as JSON: `python3 benchmarks/gpu.py [FOLDER]`. Never a test.

It needs NumPy, SciPy and JAX with its plug-in for the device, and nothing else: where the project is not installed, it
runs from a copy of the repository. Every stage is written down as soon as it is measured: a run that is cut short has
told what it knows. Without a GPU it runs a little of everything on the processor, to show that it would run.
"""

import contextlib
import dataclasses
import json
import os
import sys
import time
from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any

os.environ.setdefault("TOPTANK_NO_COMPILE_CACHE", "1")
os.environ.setdefault("XLA_PYTHON_CLIENT_MEM_FRACTION", "0.85")
sys.path.insert(0, str(Path(__file__).parents[1] / "src"))

import numpy as np

from toptank.knowledge.conditions import draw_conditions
from toptank.knowledge.draws import draws
from toptank.knowledge.sheet import DutySheet
from toptank.knowledge.typical import typical, typical_names
from toptank.studies.fleet.day_batch import through_day
from toptank.studies.fleet.fleet_forecast import fleet_forecast
from toptank.studies.fleet.fleet_vehicle import ConditionDay, FleetVehicle
from toptank.system.condition import GROWTH, Timing, pass_through
from toptank.system.device import (
    Made,
    OnDevice,
    Settled,
    first_steps,
    on_device,
    settle,
    single_precision,
)
from toptank.system.drive import settled_start
from toptank.system.duty import Duty
from toptank.system.numerics.jax_library import jax, jnp
from toptank.system.numerics.where_run import gpu, has_gpu, running
from toptank.system.steady import HOTTEST, Steps
from toptank.system.vehicle import Vehicle

OF_EACH = 4096 if has_gpu() else 32
"""Simulations that are drawn of each typical vehicle; they are repeated to the length that is asked."""

SIZES = tuple(map(int, os.environ.get("TOPTANK_GPU_SIZES", "262144 1048576 4194304").split())) if has_gpu() else (2**9,)
FLEET = 1_000_000 * 64 if has_gpu() else 2**10
LOT = int(os.environ.get("TOPTANK_GPU_LOT", str(2**20))) if has_gpu() else 2**9
MADE = {
    "usual steps": Made(written_out=5),
    "6 by 5 steps": Made(written_out=5, quick=Steps(6, 5), after_single=Steps(4, 3)),
    "8 by 4 steps": Made(written_out=5, quick=Steps(8, 4), after_single=Steps(3, 3)),
    "10 by 5 steps": Made(written_out=5, quick=Steps(10, 5), after_single=Steps(4, 2)),
}
"""Ways to compile the steps, by what the page on speed calls them."""

WAYS = os.environ.get("TOPTANK_GPU_WAYS", "; ".join(MADE)).split("; ") if has_gpu() else ["usual steps"]
SECONDS = float(os.environ.get("TOPTANK_GPU_SECONDS", "480"))
"""After so long no further stage is begun [s]."""

LEVEL = Duty(ambient=313.7, speed=20.0, grade=0.0)
CLIMB = dataclasses.replace(LEVEL, grade=0.05)
STOP = dataclasses.replace(LEVEL, speed=0.0)
BEGUN = time.perf_counter()


class Report:
    """What was measured, on the screen and in a file."""

    def __init__(self, folder: Path) -> None:
        self._path = folder / "gpu.json"
        self._figures: dict[str, Any] = {}

    def tell(self, stage: str, **figures: Any) -> None:
        """Tell what a stage came to."""
        self._figures[stage] = figures
        shown = ", ".join(
            f"{key} {value:,.6g}" if isinstance(value, float) else f"{key} {value}" for key, value in figures.items()
        )
        print(f"{time.perf_counter() - BEGUN:6.1f} s  {stage}: {shown}", flush=True)
        self._path.write_text(json.dumps(self._figures, indent=1), encoding="utf-8")


def time_left() -> bool:
    return time.perf_counter() - BEGUN < SECONDS


def crowd(n: int) -> tuple[Vehicle, Duty]:
    """Vehicles of every kind that drives, on a climb of days between 75 and 115 degF."""
    kinds = [name for name in typical_names() if typical(name).usual.facts["speed"].value > 5.0]
    each = [draws(typical(kind).sheet, OF_EACH, place) for place, kind in enumerate(kinds)]

    def repeated(*leaves: Any) -> np.ndarray:
        return np.resize(np.concatenate([np.broadcast_to(leaf, (OF_EACH,)) for leaf in leaves]), n)

    vehicles = jax.tree.map(repeated, *each)
    ambient = np.random.default_rng(1).uniform(297.0, 319.3, n)
    return vehicles, dataclasses.replace(CLIMB, ambient=ambient)


def seconds_of(run: Callable[[], Any], repeats: int = 3) -> tuple[float, float]:
    """Seconds of the first call, which compiles, and the least of the next ones; each is waited for."""
    found: list[float] = []
    for _ in range(repeats + 1):
        start = time.perf_counter()
        jax.block_until_ready(run())
        found.append(time.perf_counter() - start)
    return found[0], min(found[1:])


def quality(found: Settled) -> dict[str, float]:
    """How well draws have settled."""
    balance = found.balance()
    beyond = (balance.T_engine_out >= HOTTEST) & (balance.heat_imbalance < 0.0)
    off = np.abs(balance.heat_imbalance / balance.engine_heat)
    return {
        "left": float(found.left),
        "rounds": float(found.rounds),
        "no_balance": float(beyond.mean()),
        "worst_imbalance": float(np.nanmax(np.where(beyond, 0.0, off))),
        "holes": float(np.isnan(balance.T_engine_out).sum()),
    }


def steady_speed(report: Report, some: OnDevice, ways: Sequence[str]) -> Made:
    """Balances a second in double precision and mixed, by how the steps are compiled; return the quickest in double."""
    best, chosen = 0.0, MADE[ways[0]]
    for way in ways:
        for mixed in (False, True):
            if not time_left():
                continue
            name = f"steady, {'mixed' if mixed else 'double'}, {way}, {some.n:,}"
            try:
                first, least = seconds_of(lambda w=way, m=mixed: settle(some, mixed=m, made=MADE[w]).rows)
                settled = settle(some, mixed=mixed, made=MADE[way])
                report.tell(name, first_s=first, a_second=some.n / least, **quality(settled))
            except Exception as error:  # noqa: BLE001 # one way that fails must not hide the others
                report.tell(name, failed=str(error)[:2000])
                continue
            if not mixed and some.n / least > best:
                best, chosen = some.n / least, MADE[way]
    return chosen


def compiled_at_once(some: OnDevice, ways: Sequence[str]) -> None:
    """Compile all ways beside one another: a compiler takes one core, and the device's host has many."""

    def tried(way: tuple[str, bool]) -> None:
        with contextlib.suppress(Exception):  # told where it is measured
            jax.block_until_ready(settle(some, mixed=way[1], made=MADE[way[0]]).rows)

    with ThreadPoolExecutor(8) as threads:
        list(threads.map(tried, [(way, mixed) for way in ways for mixed in (False, True)]))


def passes(report: Report, some: OnDevice, made: Made) -> None:
    """What the first steps of all cost alone, in either precision: the rest is taking up again."""
    for name, steps in {"double": first_steps, "single": single_precision}.items():
        _, least = seconds_of(lambda run=steps: run(some, made), 2)
        report.tell(f"first steps of all alone, {name}, {some.n:,}", seconds=least, a_second=some.n / least)


def precision(report: Report, some: OnDevice, made: Made) -> None:
    """How far the mixed way and single precision alone are from double precision."""
    double, mixed = (settle(some, mixed=way, made=made).balance() for way in (False, True))
    alone = np.asarray(single_precision(some, made), float)
    apart = np.abs(mixed.T_engine_out - double.T_engine_out)
    odd = apart > 0.02
    off = np.maximum(*(np.abs(one.heat_imbalance / one.engine_heat) for one in (double, mixed)))
    report.tell(
        f"mixed beside double, {some.n:,}",
        beyond_and_boiling=float((odd & (double.T_engine_out > double.T_boiling - 15.0)).sum()),
        both_settled=float((odd & (off <= 1e-6)).sum()),
        worst_K=float(np.nanmax(apart)),
        beyond_0_02_K=float((apart > 0.02).sum()),
        single_holes=float(np.isnan(alone).sum()),
        single_within_0_02_K=float(np.mean(np.abs(alone - double.T_engine_out) < 0.02)),
    )


def day_of(some: OnDevice, made: Made) -> Callable[[], Any]:
    """A day of every draw: the level run that it comes from, 25 minutes of climb, 15 of standing at the top."""
    vehicles, duty = jax.tree.unflatten(some.tree, list(some.rows))
    level = dataclasses.replace(duty, grade=jnp.zeros(some.n))
    rows = OnDevice(stacked((vehicles, level)), some.tree)
    timing = Timing(duration=900.0, moving=0.0, standing=0.0)

    @jax.jit
    def began(figures: Any) -> Any:
        balance = jax.tree.unflatten(balances, list(figures))
        return stacked(jax.vmap(settled_start)(vehicles, level, balance))

    @jax.jit
    def on(state: Any, grade: float, moving: float, seconds: float, growth: float) -> Any:
        so = dataclasses.replace(duty, grade=jnp.full(some.n, grade), speed=moving * duty.speed)
        told = jnp.stack([jnp.full(some.n, seconds), jnp.full(some.n, growth)])
        given = stacked((vehicles, so)), state, told
        return jax.vmap(passed, 1, 1)(*given)

    def passed(column: Any, state: Any, told: Any) -> Any:
        vehicle, duty = jax.tree.unflatten(some.tree, list(column))
        passage = pass_through(vehicle, duty, timing, jax.tree.unflatten(states, list(state)), told[0], told[1])
        return jnp.stack([passage.T_peak, passage.least_margin]), jnp.stack(jax.tree.leaves(passage.state))

    found = settle(rows, made=made)
    balances = found.tree
    few = jax.tree.map(lambda leaf: leaf[:1], (vehicles, level, jax.tree.unflatten(balances, list(found.rows))))
    states = jax.tree.structure(jax.vmap(settled_start)(*few))

    def run() -> Any:
        state = began(settle(rows, made=made).rows)
        up, state = on(state, 0.05, 1.0, 900.0, GROWTH)
        further, state = on(state, 0.05, 1.0, 600.0, 1.0)
        stood, _ = on(state, 0.0, 0.0, 900.0, GROWTH)
        hottest = jnp.maximum(jnp.maximum(up[0], further[0]), stood[0])
        return hottest, jnp.minimum(jnp.minimum(up[1], further[1]), stood[1])

    return run


def stacked(tree: Any) -> Any:
    """A row a figure and a column a draw."""
    return jnp.stack(jax.tree.leaves(tree))


def fleet_day(report: Report, some: OnDevice, made: Made) -> None:
    """Device time of a million vehicles, 64 draws each, one day: lots of one length, one after the other."""
    run = day_of(some, made)
    first, least = seconds_of(run, 2)
    hottest, margin = (np.asarray(figure) for figure in run())
    lots = -(-FLEET // some.n)
    report.tell(
        "a day, one lot",
        draws=float(some.n),
        first_s=first,
        seconds=least,
        draws_a_second=some.n / least,
        boil=float(np.mean(margin <= 0.0)),
        holes=float(np.isnan(hottest).sum()),
    )
    if time.perf_counter() - BEGUN + lots * least > SECONDS:
        report.tell("a day, 1,000,000 vehicles of 64 draws", estimated_device_s=lots * least, lots=float(lots))
        return
    start = time.perf_counter()
    for _ in range(lots):
        jax.block_until_ready(run())
    report.tell("a day, 1,000,000 vehicles of 64 draws", device_s=time.perf_counter() - start, lots=float(lots))


def fleet_vehicle(like: str, number: int) -> FleetVehicle:
    """A vehicle of 256 draws on its own climb of 105 degF, after the flat, then standing: as `toptank fleet` asks."""
    one = typical(like)
    facts = {**one.usual.facts, "ambient": dataclasses.replace(one.usual.facts["ambient"], value=313.7)}

    def sheet(name: str, after: str, **told: float) -> DutySheet:
        changed = {key: dataclasses.replace(facts[key], value=value) for key, value in told.items()}
        return dataclasses.replace(one.usual, name=name, after=after, facts={**facts, **changed})

    flat = sheet("flat", "", grade=0.0)
    climb = sheet("climb", "flat", grade=0.05, **{"for": 1500.0})
    stop = sheet("stop", "climb", grade=0.0, speed=0.0, **{"for": 900.0})
    drawn = draw_conditions(one.sheet, [flat, climb, stop], 256, number)
    day = ConditionDay(conditions=drawn, asked=("climb", "stop"))
    vehicle = draws(one.sheet, 256, number)
    return FleetVehicle(identity=f"{like} {number}", vehicle=vehicle, limit=380.4, day=day)


def as_a_fleet(report: Report, _some: OnDevice, _made: Made) -> None:
    """What the study of `toptank fleet` takes, draws that lie in this machine's memory; and beside the processor."""
    kinds = [name for name in typical_names() if typical(name).usual.facts["speed"].value > 5.0]
    n = 256 if has_gpu() else 2
    start = time.perf_counter()
    vehicles = [fleet_vehicle(kinds[i % len(kinds)], i) for i in range(n)]
    drawn = time.perf_counter() - start
    with running(gpu()):
        first, least = seconds_of(lambda: through_day(vehicles), 2)
        start = time.perf_counter()
        answers = fleet_forecast(vehicles)
        whole = time.perf_counter() - start
    few = vehicles[:16]
    start = time.perf_counter()
    with jax.default_device(jax.devices("cpu")[0]):
        plain = fleet_forecast(few)
    report.tell(
        f"a fleet of {n} vehicles of 256 draws, from this machine's memory and back",
        drawing_s=drawn,
        day_first_s=first,
        day_s=least,
        forecast_s=whole,
        vehicles_a_second=n / whole,
        chance_apart_from_processor=max(abs(a.holds - b.holds) for a, b in zip(answers, plain, strict=False)),
        bears_apart_K=max(abs(a.bears.p50 - b.bears.p50) for a, b in zip(answers, plain, strict=False)),
    )


def main() -> None:
    """Measure what there is time for."""
    folder = Path(sys.argv[1] if len(sys.argv) > 1 else ".")
    report = Report(folder)
    device = jax.devices()[0]
    report.tell("device", name=str(device.device_kind), backend=jax.default_backend(), jax=jax.__version__)
    some = on_device(*crowd(LOT))
    ways = [way for way in WAYS if way in MADE]
    start = time.perf_counter()
    compiled_at_once(some, ways)
    report.tell("all ways compiled", seconds=time.perf_counter() - start)
    chosen = steady_speed(report, some, ways)
    for stage in (passes, fleet_day, as_a_fleet, precision):
        if time_left():
            try:
                stage(report, some, chosen)
            except Exception as error:  # noqa: BLE001 # one stage that fails must not hide the others
                report.tell(stage.__name__, failed=str(error)[:2000])
    for size in SIZES:
        if size != LOT and time_left():
            steady_speed(report, on_device(*crowd(size)), [way for way in ways if MADE[way] == chosen])


if __name__ == "__main__":
    with jax.default_device(jax.devices()[0]):
        main()
