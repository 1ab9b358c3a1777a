"""What a server holds in memory over 2,000 mixed requests of eight jobs: before, at most, at the end.

    uv run python benchmarks/server_memory.py [requests]

Two programs ask at a time. Most requests are what pages and programs ask all day (what-if, fit, loop, history, notes);
one in twenty is a long answer (diagnosis, choice, forecast, road, paper), of one job after another, so that answers
that are kept are pushed out by others. Memory is what the system says that the process holds (resident), looked at
every half second.
"""

import os
import random
import subprocess
import sys
import tempfile
import threading
import time
from collections import Counter
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import httpx

VEHICLES = ("pickup-1970s-v8-air", "saloon-1950s-six", "coupe-1960s-v8-air", "compact-1960s-six")
JOBS, CLIENTS, REQUESTS = 8, 2, 2000
BRIEF = ("what-if?ambient=100 F", "fit", "loop.svg", "history", "file", "", "cap", "attachments")
LONG = ("diagnosis", "choice", "forecast", "drive?legs=5 mi up 6 % at 40 mph", "order.pdf", "trade-off.svg")
ONE_IN = 20


def held(pid: int) -> float:
    """Return what a process holds [MB]."""
    for line in Path(f"/proc/{pid}/status").read_text(encoding="utf-8").splitlines():
        if line.startswith("VmRSS"):
            return int(line.split()[1]) / 1e3
    return float("nan")


def main(requests: int) -> None:
    chance = random.Random(1)
    seen: Counter[str] = Counter()
    with tempfile.TemporaryDirectory() as folder:
        server = subprocess.Popen(
            [sys.executable, "-m", "toptank.interfaces.cli.main", "serve", "--no-open", "--port", "0"],
            env=os.environ | {"TOPTANK_STORE": folder, "JAX_PLATFORMS": "cpu"}, stdout=subprocess.PIPE, text=True,
        )  # fmt: skip
        assert server.stdout is not None
        address = server.stdout.readline().split(" at ")[1].split()[0]
        most, over = [0.0], threading.Event()

        def watch() -> None:
            while not over.wait(0.5):
                most[0] = max(most[0], held(server.pid))

        watcher = threading.Thread(target=watch, daemon=True)
        watcher.start()
        with httpx.Client(base_url=f"{address}api/v1/", timeout=600) as client:
            listed = [row["name"] for row in client.get("vehicles").json()["vehicles"]]
            kinds = [one for one in VEHICLES if one in listed] or listed[:4]
            jobs = [
                client.post("jobs", json={"like": kinds[number % len(kinds)]}).json()["number"]
                for number in range(JOBS)
            ]
            before = held(server.pid)

            def ask(number: int) -> None:
                job = jobs[chance.randrange(JOBS)]
                if number % ONE_IN == 0:
                    path = LONG[(number // ONE_IN) % len(LONG)]
                    answer = client.get(f"jobs/{jobs[(number // (3 * ONE_IN)) % JOBS]}/{path}")
                elif number % 7 == 0:
                    path = "notes"
                    answer = client.post(f"jobs/{job}/notes", json={"text": f"note {number}"})
                else:
                    path = BRIEF[number % len(BRIEF)]
                    answer = client.get(f"jobs/{job}/{path}".rstrip("/"))
                seen[f"{path.partition('?')[0] or 'job'} {answer.status_code}"] += 1
                if number % 200 == 0:
                    print(f"{number:5} requests: {held(server.pid):5.0f} MB", flush=True)

            started = time.monotonic()
            with ThreadPoolExecutor(CLIENTS) as workers:
                list(workers.map(ask, range(requests)))
        over.set()
        watcher.join()
        print(f"{requests} requests in {time.monotonic() - started:.0f} s")
        print(f"before {before:.0f} MB, at most {most[0]:.0f} MB, at the end {held(server.pid):.0f} MB")
        print(", ".join(f"{name}: {count}" for name, count in sorted(seen.items())))
        server.terminate()
        server.wait()


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else REQUESTS)
