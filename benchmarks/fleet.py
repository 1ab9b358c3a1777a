"""What a fleet costs: `python benchmarks/fleet.py 10 100 1000` measures and keeps the figures beside this file.

A process of its own for each size, with kernels kept on the disk, so that growth and memory are of that size alone. The
processor's time is told beside that on the clock: where others use the machine too, only the former means anything.
"""

import json
import os
import pickle
import resource
import subprocess
import sys
import time
from importlib.metadata import version
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import fleet_table

KEPT = Path(__file__).parent / "measured" / "fleet.json"
DAY = "105 F"


def measure(n: int) -> dict[str, float]:
    """Ask about a table of so many vehicles in this process."""
    from toptank.shop.ask.fleet import fleet as verbs
    from toptank.shop.ask.fleet.lines import lines_of
    from toptank.shop.ask.fleet.source import read_source

    with TemporaryDirectory() as folder:
        table, out = Path(folder) / "depot.csv", Path(folder) / "fleet.jsonl"
        fleet_table.write(table, 64, seed=99)
        verbs.fleet(table, day=DAY)  # every kernel is there
        fleet_table.write(table, n)
        began, clock = time.process_time(), time.perf_counter()
        answer = verbs.fleet(table, day=DAY, out=out)
        processor, clock = time.process_time() - began, time.perf_counter() - clock
        items = read_source(str(table), table)[0][: verbs.AT_ONCE]
        question = verbs._question(DAY, None, None, None, False, None, None, None, "us")  # as it is sent
        lines = lines_of(items, question)
        return {
            "vehicles": n,
            "draws": answer.draws,
            "processor_s": processor,
            "clock_s": clock,
            "peak_memory_bytes": resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * 1024.0,
            "bytes_sent_a_vehicle": len(pickle.dumps((items, question))) / len(items),
            "bytes_back_a_vehicle": len(pickle.dumps(lines)) / len(items),
            "bytes_kept_a_vehicle": out.stat().st_size / n,
        }


def main() -> None:
    """Measure each size in a process of its own."""
    sizes = [int(word) for word in sys.argv[1:] if word.isdecimal()]
    if "--here" in sys.argv:
        print(json.dumps(measure(sizes[0])))
        return
    kept: dict[str, Any] = json.loads(KEPT.read_text(encoding="utf-8")) if KEPT.exists() else {"sizes": {}}
    kept |= {"cores": os.cpu_count(), "jax": version("jax")}
    for n in sizes:
        answer = subprocess.run(
            [sys.executable, __file__, str(n), "--here"], check=True, stdout=subprocess.PIPE, text=True
        ).stdout
        figures = json.loads(answer.splitlines()[-1]) | {"load": os.getloadavg()[0]}
        kept["sizes"][str(n)] = figures
        print(n, {key: f"{value:,.6g}" for key, value in figures.items()}, flush=True)
        KEPT.parent.mkdir(exist_ok=True)
        KEPT.write_text(json.dumps(kept, indent=1) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
