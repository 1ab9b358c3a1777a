"""Speed on a GPU, printed and written as JSON: `python3 benchmarks/gpu.py [FOLDER]`. Never a test.

It needs NumPy, SciPy and JAX with its plug-in for the device, and nothing else: where the project is not installed, it
runs from a copy of the repository. Every stage is written down as soon as it is measured: a run that is cut short has
told what it knows. Without a GPU it runs a little of everything on the processor, to show that it would run.
"""

import dataclasses
import json
import os
import sys
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

os.environ.setdefault("TOPTANK_NO_COMPILE_CACHE", "1")
os.environ.setdefault("XLA_PYTHON_CLIENT_MEM_FRACTION", "0.85")
sys.path.insert(0, str(Path(__file__).parents[1] / "src"))

import numpy as np

from toptank.knowledge.draws import draws
from toptank.knowledge.typical import typical, typical_names
from toptank.system.condition import GROWTH, Timing, pass_through
from toptank.system.device import OnDevice, Settled, first_steps, has_gpu, on_device, settle, single_precision
from toptank.system.drive import settled_start
from toptank.system.duty import Duty
from toptank.system.numerics.jax_library import jax, jnp
from toptank.system.steady import HOTTEST
from toptank.system.vehicle import Vehicle

OF_EACH = 4096 if has_gpu() else 32
"""Simulations that are drawn of each typical vehicle; they are repeated to the length that is asked."""

SIZES = tuple(map(int, os.environ.get("TOPTANK_GPU_SIZES", "262144 1048576 4194304").split())) if has_gpu() else (2**9,)
FLEET = 1_000_000 * 64 if has_gpu() else 2**10
LOT = int(os.environ.get("TOPTANK_GPU_LOT", str(2**20))) if has_gpu() else 2**9
WRITTEN_OUT = tuple(map(int, os.environ.get("TOPTANK_GPU_WAYS", "0 5").split())) if has_gpu() else (0,)
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


def steady_speed(report: Report) -> tuple[OnDevice, int]:
    """Balances a second in double precision and mixed, by length and by how far loops are written out."""
    some = on_device(*crowd(LOT))
    chosen = ways_beside(report, some, WRITTEN_OUT)
    for size in SIZES:
        if size == LOT or not time_left():
            continue
        longer = on_device(*crowd(size))
        for mixed in (False, True):
            first, least = seconds_of(lambda d=longer, m=mixed: settle(d, mixed=m, written_out=chosen).rows)
            report.tell(f"steady, {'mixed' if mixed else 'double'}, {size:,}", first_s=first, a_second=size / least)
        del longer
    return some, chosen


def ways_beside(report: Report, some: OnDevice, ways: Sequence[int]) -> int:
    """Measure double and mixed with loops of so few steps written out; return what is quickest in double precision."""
    best, chosen = 0.0, 0
    for written_out in ways:
        for mixed in (False, True):
            if not time_left():
                continue
            name = f"steady, {'mixed' if mixed else 'double'}, loops up to {written_out} written out, {LOT:,}"
            try:
                first, least = seconds_of(lambda w=written_out, m=mixed: settle(some, mixed=m, written_out=w).rows)
                report.tell(
                    name,
                    first_s=first,
                    a_second=LOT / least,
                    **quality(settle(some, mixed=mixed, written_out=written_out)),
                )
            except Exception as error:  # noqa: BLE001 # one way that fails must not hide the others
                report.tell(name, failed=str(error)[:400])
                continue
            if not mixed and LOT / least > best:
                best, chosen = LOT / least, written_out
    return chosen


def precision(report: Report, some: OnDevice, written_out: int) -> None:
    """How far the mixed way and single precision alone are from double precision."""
    double, mixed = (settle(some, mixed=way, written_out=written_out).balance() for way in (False, True))
    alone = np.asarray(single_precision(some, written_out=written_out), float)
    apart = np.abs(mixed.T_engine_out - double.T_engine_out)
    passes = {"double": first_steps, "single": single_precision}
    for name, steps in passes.items():
        _, least = seconds_of(lambda run=steps: run(some, written_out=written_out), 2)
        report.tell(f"first steps of all alone, {name}, {some.n:,}", seconds=least, a_second=some.n / least)
    odd = apart > 0.02
    report.tell(
        "mixed beside double",
        beyond_and_boiling=float((odd & (double.T_engine_out > double.T_boiling - 15.0)).sum()),
        both_settled=float(
            (
                odd & (np.maximum(*(np.abs(one.heat_imbalance / one.engine_heat) for one in (double, mixed))) <= 1e-6)
            ).sum()
        ),
        worst_K=float(np.nanmax(apart)),
        beyond_0_02_K=float((apart > 0.02).sum()),
        single_holes=float(np.isnan(alone).sum()),
        single_within_0_02_K=float(np.mean(np.abs(alone - double.T_engine_out) < 0.02)),
    )


def day_of(some: OnDevice, written_out: int) -> Callable[[], Any]:
    """A day of every draw: the level run that it comes from, 25 minutes of climb, 15 of standing at the top."""
    vehicles, duty = jax.tree.unflatten(some.tree, list(some.rows))
    level = dataclasses.replace(duty, grade=jnp.zeros(some.n))
    rows = OnDevice(jnp.stack(jax.tree.leaves((vehicles, level))), some.tree)
    timing = Timing(duration=900.0, moving=0.0, standing=0.0)

    def one(vehicle: Vehicle, duty: Duty, balance: Any) -> Any:
        start = settled_start(vehicle, duty, balance)
        climb, stop = (dataclasses.replace(duty, grade=g, speed=v) for g, v in ((0.05, duty.speed), (0.0, 0.0)))
        up = pass_through(vehicle, climb, timing, start, 900.0, GROWTH)
        further = pass_through(vehicle, climb, timing, up.state, 600.0, 1.0)
        stood = pass_through(vehicle, stop, timing, further.state, 900.0, GROWTH)
        parts = (up, further, stood)
        hottest = jnp.max(jnp.stack([part.T_peak for part in parts]))
        return hottest, jnp.min(jnp.stack([part.least_margin for part in parts]))

    compiled = jax.jit(jax.vmap(one))

    def run() -> Any:
        found = settle(rows, written_out=written_out)
        balance = jax.tree.unflatten(found.tree, list(found.rows))
        return compiled(vehicles, level, balance)

    return run


def fleet_day(report: Report, some: OnDevice, written_out: int) -> None:
    """Device time of a million vehicles, 64 draws each, one day: lots of one length, one after the other."""
    run = day_of(some, written_out)
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


def main() -> None:
    """Measure what there is time for."""
    folder = Path(sys.argv[1] if len(sys.argv) > 1 else ".")
    report = Report(folder)
    device = jax.devices()[0]
    report.tell("device", name=str(device.device_kind), backend=jax.default_backend(), jax=jax.__version__)
    some, chosen = steady_speed(report)
    for stage in (precision, fleet_day):
        if time_left():
            try:
                stage(report, some, chosen)
            except Exception as error:  # noqa: BLE001 # one stage that fails must not hide the others
                report.tell(stage.__name__, failed=str(error)[:400])


if __name__ == "__main__":
    main()
