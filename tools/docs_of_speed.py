"""The page on speed: what was measured of fleets and on a GPU, and what it comes to for a million vehicles."""

import json
import textwrap
from collections.abc import Mapping
from pathlib import Path
from typing import Any, NamedTuple

MEASURED = Path(__file__).parents[1] / "benchmarks" / "measured"

VEHICLES, MACHINES, CORES = 1_000_000, 100, 8
"""The fleet and the cluster of the estimate."""

AT_ONCE = 32
"""Vehicles of one task, as in shop/ask/fleet/fleet.py."""

A_TASK = 1e-3
"""What Dask's scheduler takes for one task [s]: its documentation says some tenths of a millisecond; taken high."""

WANTED = {"double": 4e7, "mixed": 1e8}
"""Settled balances a second that one data-centre GPU was wanted to reach."""

NETWORK, CLIENT_MEMORY = 1e8, 16e9
"""What the client's network takes [byte/s] and its memory [byte], of a machine as is usual today."""

Figures = Mapping[str, Any]


class Limit(NamedTuple):
    """One thing that a million vehicles need: how much of it, and that over what there is (time: over an hour) [1]."""

    what: str
    figure: str
    share: float


def slope(sizes: list[Figures], key: str) -> float:
    """What one vehicle more adds, between the smallest and the largest size but the first."""
    few, many = sizes[-2], sizes[-1]
    return (many[key] - few[key]) / (many["vehicles"] - few["vehicles"])


def limits(sizes: list[Figures]) -> list[Limit]:
    """What a million vehicles on the cluster would need, what breaks first in front."""
    largest = sizes[-1]
    work = slope(sizes, "processor_s") * VEHICLES / (MACHINES * CORES)
    memory = max(slope(sizes, "peak_memory_bytes"), largest["bytes_back_a_vehicle"]) * VEHICLES
    scheduler = VEHICLES / AT_ONCE * A_TASK
    network = (largest["bytes_sent_a_vehicle"] + largest["bytes_back_a_vehicle"]) * VEHICLES / NETWORK
    hour = 3600.0
    found = [
        Limit(
            "memory of the client, which keeps every answer until it writes them",
            f"{memory / 1e9:,.1f} GB",
            memory / CLIENT_MEMORY,
        ),
        Limit("work of the machines", _time(work), work / hour),
        Limit("scheduler, a millisecond a task", _time(scheduler), scheduler / hour),
        Limit("network of the client", _time(network), network / hour),
    ]
    return sorted(found, key=lambda one: one.share, reverse=True)


def _time(seconds: float) -> str:
    return f"{seconds:,.0f} s" if seconds < 120.0 else f"{seconds / 60.0:,.0f} min"


def speed_page(made: str) -> str:
    """Return the page."""
    kept = json.loads((MEASURED / "fleet.json").read_text(encoding="utf-8"))
    sizes = sorted(kept["sizes"].values(), key=lambda one: one["vehicles"])
    per = slope(sizes, "processor_s")
    lines = ["# Speed", "", made, "", *_said(WHENCE), "", "## A fleet on one machine", ""]
    lines += _said(A_FLEET.format(draws=sizes[0]["draws"], cores=kept["cores"], jax=kept["jax"]))
    lines += ["", "| vehicles | processor, s | a vehicle, ms | on the clock, s | load | peak memory, GB |"]
    lines += ["|---:|---:|---:|---:|---:|---:|"]
    lines += [
        f"| {one['vehicles']:,} | {one['processor_s']:.1f} | {1000 * one['processor_s'] / one['vehicles']:.0f} "
        f"| {one['clock_s']:.0f} | {one['load']:.1f} | {one['peak_memory_bytes'] / 1e9:.2f} |"
        for one in sizes
    ]
    lines += ["", *_said(GROWTH.format(each=1000 * per, minutes=per * 10_000 / 120)), ""]
    lines += ["## A million vehicles on 100 machines: an estimate", ""]
    lines += _said(PAPER.format(machines=MACHINES, cores=CORES, at_once=AT_ONCE))
    lines += ["", "| what | how much | of what there is, or of an hour |", "|---|---:|---:|"]
    lines += [f"| {one.what} | {one.figure} | {100 * one.share:,.0f} % |" for one in limits(sizes)]
    return "\n".join([*lines, "", *_gpu(), ""])


WHENCE = (
    "Measured, not promised: `benchmarks/fleet.py` and `benchmarks/gpu.py` write figures into `benchmarks/measured/`, "
    "and this page is made of them. The speed of single questions: `uv run poe bench`."
)
A_FLEET = (
    "A generated table ([benchmarks/fleet_table.py](../benchmarks/fleet_table.py)), one day, {draws} simulations of "
    "each vehicle, {cores} cores, JAX {jax}, kernels compiled before. The processor's time is what it costs; that on "
    "the clock is longer where others work on the machine too: the load says how many wanted a core in the last minute."
)
GROWTH = (
    "From one size to the next each vehicle more costs {each:.0f} ms of a core: 10,000 vehicles on two free cores "
    "would take {minutes:.0f} minutes. That is reasoned from these figures, not measured."
)
PAPER = (
    "On paper, from the figures above: {machines} machines of {cores} cores, {at_once} vehicles a task. The first line "
    "breaks first; what it needs beyond 100 % is not there."
)


def _said(text: str) -> list[str]:
    return textwrap.wrap(text, 128, break_long_words=False, break_on_hyphens=False)


def _gpu() -> list[str]:
    path = MEASURED / "gpu.json"
    head = ["## On a GPU", ""]
    if not path.exists():
        return [*head, "Not measured yet on this version: `python3 benchmarks/gpu.py` measures it."]
    stages: dict[str, Figures] = json.loads(path.read_text(encoding="utf-8"))
    device = stages.pop("device")
    best = {
        way: max((told["a_second"] for stage, told in stages.items() if _is_steady(stage, way)), default=0.0)
        for way in WANTED
    }
    day = stages.get("a day, 1,000,000 vehicles of 64 draws", {})
    head += _said(
        f"Balances a second, all settled (imbalance under a millionth): {best['double'] / 1e6:,.1f} million in double "
        f"precision and {best['mixed'] / 1e6:,.1f} million mixed, where {WANTED['double'] / 1e6:,.0f} and "
        f"{WANTED['mixed'] / 1e6:,.0f} million were wanted; a day of a million vehicles of 64 draws "
        f"{day.get('device_s', day.get('estimated_device_s', float('nan'))):,.0f} s, where 10 were wanted."
    )
    head.append("")
    rows = [f"| {stage} | {', '.join(_figure(*pair) for pair in told.items())} |" for stage, told in stages.items()]
    return [*head, f"{device['name']}, JAX {device['jax']}.", "", "| stage | measured |", "|---|---|", *rows]


def _is_steady(stage: str, way: str) -> bool:
    return stage.startswith(f"steady, {way}, ")


def _figure(key: str, value: Any) -> str:
    return f"{key.replace('_', ' ')} {value:,.4g}" if isinstance(value, float) else f"{key.replace('_', ' ')} {value}"
