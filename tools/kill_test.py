"""Kill a running server and the command line in the middle of saving, again and again; count what was lost.

    uv run python tools/kill_test.py [--kills 1000] [--seed 1] [--servers 0.03]

One record; a server that two clients write to (notes, whole revisions, photos); commands that write to the same record
(note, save, attach, backup). Each process is killed without warning: half of them at a random moment of its life, half
as soon as something moves in the record's folder. A save counts as acknowledged once its answer is there (200, 201, or
a command that ended well). At the end: is every one of them in the record, does the record hold together, is any
half-written file left after the next start? The exit code says so.
"""

import argparse
import contextlib
import hashlib
import json
import os
import random
import signal
import sqlite3
import subprocess
import sys
import tempfile
import threading
import time
from dataclasses import dataclass, field
from pathlib import Path

import httpx

COMMAND = [sys.executable, "-m", "toptank.interfaces.cli.main"]
LIVES, LET_LIVE = (0.5, 1.2), 0.3
"""Between which parts of its usual life a command is killed, as it does nothing before; how many are left in peace."""

SLOTS, CLIENTS = 2, 2
STARTS_WITHIN = 180.0
LONGEST_HUNT = 30.0
JOB = """format = "toptank-job-2"
[job]
title = "{title}"
[vehicle]
like = "pickup-1970s-v8-air"
[[duty]]
name = "usual"
"""


@dataclass(slots=True)
class Seen:
    """What was acknowledged, and what went wrong; shared by threads."""

    folder: Path
    notes: set[str] = field(default_factory=set[str])
    titles: set[str] = field(default_factory=set[str])
    files: set[str] = field(default_factory=set[str])
    kills: dict[str, int] = field(default_factory=lambda: {"command": 0, "server": 0})
    missed: int = 0
    odd: list[str] = field(default_factory=list[str])
    over: threading.Event = field(default_factory=threading.Event)
    lock: threading.Lock = field(default_factory=threading.Lock)
    address: str = ""

    def state(self) -> tuple[tuple[str, int, int], ...]:
        """Everything in the record's folder, so that a movement is seen."""
        found: list[tuple[str, int, int]] = []
        with contextlib.suppress(OSError):
            for entry in os.scandir(self.folder):
                with contextlib.suppress(OSError):
                    told = entry.stat()
                    found.append((entry.name, told.st_mtime_ns, told.st_size))
        return tuple(sorted(found))


def environment(folder: Path) -> dict[str, str]:
    return os.environ | {"TOPTANK_STORE": str(folder / "jobs.sqlite"), "JAX_PLATFORMS": "cpu"}


def wait_and_kill(seen: Seen, process: subprocess.Popen[str], chance: random.Random, life: float) -> bool:
    """Kill a process late in its life, or when the record moves then; return whether it was killed before it ended."""
    started, first, last = time.monotonic(), LIVES[0] * life, LIVES[1] * life
    hunts = chance.random() < 0.5
    with contextlib.suppress(subprocess.TimeoutExpired):
        process.wait(first if hunts else chance.uniform(first, last))
    if hunts:
        before = seen.state()
        while process.poll() is None and seen.state() == before and time.monotonic() - started < LONGEST_HUNT:
            time.sleep(0.001)
        time.sleep(chance.choice((0.0, 0.001, 0.003, 0.01)))
    if process.poll() is not None:
        return False
    process.send_signal(signal.SIGKILL)
    return True


def commands(seen: Seen, number: int, kills: int) -> None:
    """Run commands that write, and kill them, until there were enough kills."""
    chance = random.Random(number)
    life, count = 1.0, 0
    while not seen.over.is_set():
        count += 1
        name = f"c{number}-{count}"
        words, keep = _words(seen, name, chance)
        started = time.monotonic()
        process = subprocess.Popen(
            [*COMMAND, "job", *words], env=environment(seen.folder), text=True,
            stdout=subprocess.DEVNULL, stderr=subprocess.PIPE,
        )  # fmt: skip
        killed = chance.random() > LET_LIVE and wait_and_kill(seen, process, chance, life)
        _, said = process.communicate()
        if not killed:
            life = 0.8 * life + 0.2 * (time.monotonic() - started)
        with seen.lock:
            seen.missed += not killed
            if killed:
                seen.kills["command"] += 1
            elif process.returncode == 0:
                keep()
            elif "meanwhile" not in said:  # two saves upon one revision: one is told, none is lost
                seen.odd.append(f"{' '.join(words)}: {said[-300:]}")
            if sum(seen.kills.values()) >= kills:
                seen.over.set()


def _words(seen: Seen, name: str, chance: random.Random) -> tuple[list[str], "Keep"]:
    place = seen.folder.parent / f"{name}.txt"
    kind = chance.choice(("note", "note", "save", "attach", "backup"))
    if kind == "note":
        return ["note", "1", name], Keep(seen.notes, name)
    if kind == "backup":
        return ["backup", str(seen.folder.parent / "backup.zip"), "--force", "--fewer"], Keep(set(), name)
    if kind == "attach":
        content = name.encode() * 20_000
        place.write_bytes(content)
        return ["attach", "1", str(place)], Keep(seen.files, hashlib.sha256(content).hexdigest())
    place.write_text(JOB.format(title=name), encoding="utf-8")
    newest = _newest(seen.folder)
    return ["save", "1", str(place), "--based-on", str(newest)], Keep(seen.titles, name)


@dataclass(frozen=True, slots=True)
class Keep:
    """Writes down what was acknowledged."""

    among: set[str]
    what: str

    def __call__(self) -> None:
        """Do so."""
        self.among.add(self.what)


def _newest(folder: Path) -> int:
    with contextlib.closing(sqlite3.connect(folder / "jobs.sqlite", timeout=30)) as connection:
        return int(connection.execute("SELECT max(number) FROM revision WHERE job = 1").fetchone()[0])


def clients(seen: Seen, number: int) -> None:
    """Write to the server, whatever becomes of it."""
    chance, count = random.Random(1000 + number), 0
    while not seen.over.is_set():
        count += 1
        name = f"s{number}-{count}"
        kind = chance.choice(("note", "save", "attach"))
        try:
            with httpx.Client(base_url=f"{seen.address}/api/v1/jobs/1", timeout=60) as client:
                if kind == "note":
                    keep, answer = Keep(seen.notes, name), client.post("/notes", json={"text": name})
                elif kind == "save":
                    body = {"file": JOB.format(title=name), "based_on": _newest(seen.folder)}
                    keep, answer = Keep(seen.titles, name), client.put(f"{seen.address}/api/v1/jobs/1", json=body)
                else:
                    content = b"\x89PNG\r\n\x1a\n" + name.encode() * 20_000
                    keep = Keep(seen.files, hashlib.sha256(content).hexdigest())
                    answer = client.post("/attachments", params={"name": f"{name}.png"}, content=content)
        except httpx.TransportError:
            time.sleep(0.2)
            continue
        with seen.lock:
            if answer.status_code in (200, 201):
                keep()
            elif answer.status_code != 409:
                seen.odd.append(f"server {kind}: {answer.status_code} {answer.text[:300]}")
        time.sleep(chance.uniform(0.0, 0.2))


def serve(seen: Seen, log: Path) -> subprocess.Popen[str]:
    with log.open("ab") as errors:
        process = subprocess.Popen(
            [*COMMAND, "serve", "--no-open", "--port", "0"], env=environment(seen.folder), text=True,
            stdout=subprocess.PIPE, stderr=errors,
        )  # fmt: skip
    assert process.stdout is not None
    seen.address = process.stdout.readline().split(" at ")[1].split()[0].rstrip("/")
    return process


def servers(seen: Seen, log: Path, share: float, kills: int) -> None:
    """Keep a server up, and kill it so often that its share of all kills is as asked."""
    chance = random.Random(0)
    while not seen.over.is_set():
        process = serve(seen, log)
        while not seen.over.is_set() and seen.kills["server"] >= share * sum(seen.kills.values()):
            seen.over.wait(0.5)
        if seen.over.is_set():
            process.send_signal(signal.SIGKILL)
            process.communicate()
            return
        seen.over.wait(chance.uniform(0.0, 3.0))
        wait_and_kill(seen, process, chance, 1.0)
        process.kill()
        process.communicate()
        with seen.lock:
            seen.kills["server"] += 1
            if sum(seen.kills.values()) >= kills:
                seen.over.set()


def judged(seen: Seen) -> list[str]:
    """Start once more, look at everything, and return what is wrong."""
    wrong = list(seen.odd)
    told = subprocess.run(
        [*COMMAND, "job", "note", "1", "after all"], env=environment(seen.folder), capture_output=True, text=True
    )
    if told.returncode:
        wrong.append(f"the next start: {told.stderr[-300:]}")
    left = [str(one) for one in seen.folder.rglob("*") if one.name.endswith(".part") or one.name.startswith(".")]
    wrong += [f"left over: {one}" for one in left]
    with contextlib.closing(sqlite3.connect(seen.folder / "jobs.sqlite")) as connection:
        wrong += [f"store: {row[0]}" for row in connection.execute("PRAGMA integrity_check") if row[0] != "ok"]
        notes = {row[0] for row in connection.execute("SELECT text FROM note")}
        titles = {row[0] for row in connection.execute("SELECT title FROM revision")}
        files = {row[0] for row in connection.execute("SELECT checksum FROM attachment")}
        texts = connection.execute("SELECT text, checksum FROM revision").fetchall()
    for kind, said, there in (
        ("note", seen.notes, notes),
        ("revision", seen.titles, titles),
        ("file", seen.files, files),
    ):
        wrong += [f"lost {kind}: {one}" for one in sorted(said - there)]
    wrong += [f"corrupt revision {sum_}" for text, sum_ in texts if hashlib.sha256(text.encode()).hexdigest() != sum_]
    for one in files:
        kept = seen.folder / "jobs.sqlite.attachments" / one[:2] / one
        if not kept.is_file() or hashlib.sha256(kept.read_bytes()).hexdigest() != one:
            wrong.append(f"corrupt or lost file {one}")
    return wrong


def main() -> None:
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("--kills", type=int, default=1000)
    asked.add_argument("--servers", type=float, default=0.03, help="share of the kills that hit the server")
    asked.add_argument("--seed", type=int, default=1)
    given = asked.parse_args()
    started = time.monotonic()
    with tempfile.TemporaryDirectory(prefix="toptank-kills-") as root:
        seen = Seen(folder=Path(root) / "shop")
        seen.folder.mkdir()
        first = Path(root) / "first.toml"
        first.write_text(JOB.format(title="Van"), encoding="utf-8")
        subprocess.run(
            [*COMMAND, "job", "new", str(first)], env=environment(seen.folder), check=True, stdout=sys.stderr
        )
        threads = [threading.Thread(target=servers, args=(seen, Path(root) / "log", given.servers, given.kills))]
        threads += [
            threading.Thread(target=commands, args=(seen, 100 * given.seed + one, given.kills)) for one in range(SLOTS)
        ]
        threads[0].start()
        while not seen.address:
            time.sleep(0.1)
        threads += [threading.Thread(target=clients, args=(seen, 100 * given.seed + one)) for one in range(CLIENTS)]
        for thread in threads[1:]:
            thread.start()
        for thread in threads:
            thread.join()
        wrong = judged(seen)
        log = (Path(root) / "log").read_text(encoding="utf-8")
    told = {
        "kills": seen.kills, "ended_before_the_kill": seen.missed,
        "minutes": round((time.monotonic() - started) / 60, 1),
        "acknowledged": {"notes": len(seen.notes), "revisions": len(seen.titles), "files": len(seen.files)},
        "wrong": wrong[:40], "wrong_in_all": len(wrong), "log_of_the_servers": log[-1000:],
    }  # fmt: skip
    print(json.dumps(told, indent=1))
    sys.exit(1 if wrong or log else 0)


if __name__ == "__main__":
    main()
