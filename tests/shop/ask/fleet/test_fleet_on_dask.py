"""A fleet on Dask: real processes, one of which is killed; a client that is killed and begun again. The same bytes."""

import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from contextlib import closing
from logging import ERROR
from pathlib import Path
from typing import Any

import psutil
import pytest
from distributed import LocalCluster

from toptank.shop.ask.fleet import fleet as verbs
from toptank.shop.ask.fleet.done_file import beside
from toptank.units.refusal import Refusal

HEAD = "id,like,core.rows,grade [%]"
ROWS = [
    f"{kind} {n},{like},{n},6"
    for n in (1, 2, 3, 4)
    for kind, like in (("bus", "minibus-1970s-v8-air"), ("car", "saloon-1950s-six"))
]
DRAWS, DAY = 64, "100 F"
WITHIN = 400.0
"""Seconds after which a process has hung: a busy machine compiles for minutes."""


def _table(folder: Path, rows: list[str]) -> Path:
    path = folder / "depot.csv"
    path.write_text("\n".join((HEAD, *rows)) + "\n", encoding="utf-8")
    return path


def _killing_a_worker() -> Callable[[verbs.Progress], None]:
    killed: list[int] = []

    def told(progress: verbs.Progress) -> None:
        if progress.done >= 2 and not killed:
            workers = [one for one in psutil.Process().children() if "spawn_main" in " ".join(one.cmdline())]
            assert len(workers) == 2
            workers[0].kill()
            killed.append(workers[0].pid)

    return told


def test_a_worker_that_is_killed_loses_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(verbs, "AT_ONCE", 1)
    table, plain, out = _table(tmp_path, ROWS), tmp_path / "plain.jsonl", tmp_path / "dask.jsonl"
    verbs.fleet(table, day=DAY, draws=DRAWS, out=plain)
    # A cluster of somebody else's: two processes behind an address.
    cluster: Any = LocalCluster(n_workers=2, threads_per_worker=1, dashboard_address="127.0.0.1:0", silence_logs=ERROR)
    with closing(cluster):
        address = cluster.scheduler_address
        verbs.fleet(table, day=DAY, draws=DRAWS, out=out, scheduler=address, progress=_killing_a_worker())
    assert out.read_bytes() == plain.read_bytes()


def test_a_client_that_is_killed_goes_on_where_it_was(tmp_path: Path) -> None:
    many = [f"{row.split(',', 1)[0]} {copy},{row.split(',', 1)[1]}" for copy in range(13) for row in ROWS]
    table, plain, out = _table(tmp_path, many), tmp_path / "plain.jsonl", tmp_path / "dask.jsonl"
    asked = [sys.executable, "-m", "toptank", "fleet", str(table), "--day", DAY, "--draws", str(DRAWS)]
    client = subprocess.Popen([*asked, "--out", str(out), "--workers", "1"], start_new_session=True)
    try:
        end = time.monotonic() + WITHIN
        while not (beside(out).exists() and beside(out).read_bytes().count(b"\n") > 32) and time.monotonic() < end:
            assert client.poll() is None
            time.sleep(0.05)
    finally:
        os.killpg(client.pid, signal.SIGKILL)
        client.wait()
    assert not out.exists()
    done = beside(out).read_bytes().count(b"\n") - 1
    assert 32 <= done < len(many)
    told: list[int] = []
    verbs.fleet(table, day=DAY, draws=DRAWS, out=out, progress=lambda progress: told.append(progress.done))
    verbs.fleet(table, day=DAY, draws=DRAWS, out=plain)
    assert told[0] == done
    assert out.read_bytes() == plain.read_bytes()


def test_a_scheduler_that_is_not_there_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from toptank.shop.ask.fleet import cluster

    monkeypatch.setattr(cluster, "ANSWERS_WITHIN", "1s")
    with pytest.raises(Refusal, match="does not answer"):
        verbs.fleet(_table(tmp_path, ROWS[:1]), day=DAY, draws=DRAWS, scheduler="tcp://127.0.0.1:9")
