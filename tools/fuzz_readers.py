"""Feed every reader files that no one would write, guided by what they have reached so far; print what came of it.

    uv run --with atheris python tools/fuzz_readers.py [READER ...] [--runs 1000000] [--seconds 1200]

Runs and seconds are shared among the readers (all of them, if none is named). Whatever is neither read nor refused,
takes over a second or needs more memory than allowed ends that reader's run and is told with its bytes: they then
belong into tests/shop/files/fed/. atheris is no dependency: it is there only where it is asked for.
"""

import argparse
import importlib
import os
import re
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

ONE = "--only"
"""How this file calls itself for one reader: the fuzzer ends its process."""

SLOW, HANGS_AFTER, MOST_MEMORY = 1.0, 60, 600
"""What is told as a fault: one input that takes longer than so much of a processor [s], or by the clock, which beside
other work says little [s]; a process larger than so much [MB]."""

KEPT = Path(__file__).parents[1] / "tests" / "shop" / "files" / "fed"
SHARE = {"quantity": 6.0, "words": 2.0, "choice": 2.0, "log": 1.0, "route": 0.5, "backup": 0.2, "job": 1.5}
"""How many of the runs a reader gets, beside the 1 of others: quick ones and those with most to say get more."""


def feed(name: str, words: list[str]) -> None:
    """Feed one reader, in this process, and end it."""
    atheris: Any = importlib.import_module("atheris")
    with atheris.instrument_imports(include=["toptank", "gpxpy"]):
        readers: Any = importlib.import_module("readers")
    reader = readers.READERS[name]
    corpus = Path(tempfile.mkdtemp(prefix=f"toptank-{name}-"))
    kept = [one.read_bytes() for one in sorted(KEPT.glob(f"{name}-*"))]
    for number, seed in enumerate((*reader.seeds, *kept)):
        (corpus / f"{number}").write_bytes(seed)

    def timed(raw: bytes) -> None:
        started = time.process_time()
        reader.read(raw)
        took = time.process_time() - started
        assert took < SLOW, f"took {took:.1f} s"

    atheris.Setup([sys.argv[0], *words, str(corpus)], timed)
    atheris.Fuzz()


def fed(name: str, runs: int, seconds: float, folder: Path) -> tuple[int, int, str]:
    """Feed one reader in a process of its own; return runs, peak memory [MB] and what went wrong."""
    words = [
        f"-runs={runs}", f"-max_total_time={max(int(seconds), 1)}", f"-timeout={HANGS_AFTER}", "-max_len=4096",
        f"-rss_limit_mb={MOST_MEMORY}", f"-artifact_prefix={folder}/{name}-", "-print_final_stats=1",
    ]  # fmt: skip
    environment = os.environ | {"JAX_PLATFORMS": "cpu"}
    told = subprocess.run(
        [sys.executable, __file__, ONE, name, *words], env=environment, capture_output=True, text=True, errors="replace"
    )
    said = told.stderr + told.stdout
    found = {key: int(value) for key, value in re.findall(r"stat::(\w+):\s+(\d+)", said)}
    wrong = "" if told.returncode == 0 else said[-2500:]
    return found.get("number_of_executed_units", 0), found.get("peak_rss_mb", 0), wrong


def main() -> None:
    if sys.argv[1:2] == [ONE]:
        feed(sys.argv[2], sys.argv[3:])
        return
    import readers  # named here, so that --help needs no model

    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("readers", nargs="*", metavar="READER", help=f"of {', '.join(readers.READERS)}")
    asked.add_argument("--runs", type=int, default=1_000_000)
    asked.add_argument("--seconds", type=float, default=1200.0)
    given = asked.parse_args()
    names = given.readers or list(readers.READERS)
    whole = sum(SHARE.get(name, 1.0) for name in names)
    runs, faults = 0, 0
    with tempfile.TemporaryDirectory(prefix="toptank-faults-") as folder:
        for name in names:
            share, started = SHARE.get(name, 1.0) / whole, time.monotonic()
            done, memory, wrong = fed(name, int(given.runs * share), given.seconds / len(names), Path(folder))
            runs, faults = runs + done, faults + bool(wrong)
            print(
                f"{name:10} {done:9,} runs  {time.monotonic() - started:6.0f} s  {memory:4} MB  {wrong or 'no fault'}"
            )
        for one in sorted(Path(folder).iterdir()):
            print(one.name, one.read_bytes()[:4096])
    print(f"{runs:,} runs, {faults} readers with a fault")
    sys.exit(1 if faults else 0)


if __name__ == "__main__":
    main()
