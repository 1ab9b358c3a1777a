"""Feed files that no one would write to the readers of logs and of routes, guided by what they have reached so far.

Needs atheris, which is no dependency: `uv run --with atheris python tools/fuzz_files.py log -max_total_time=300`, or
`route` for GPX. Whatever is neither read nor refused ends the run and is written into a file named crash-...; the bytes
of that file then belong into an example of the tests.
"""

import importlib
import sys
import tempfile
from pathlib import Path
from typing import Any

import numpy as np

atheris: Any = importlib.import_module("atheris")  # no dependency: it is there only where it is asked for

with atheris.instrument_imports(include=["toptank.shop", "toptank.knowledge", "gpxpy"]):
    from toptank.shop.log.log_file import read_log
    from toptank.shop.log.route_file import read_route
    from toptank.shop.log.weather import Weather
    from toptank.system.duty import Duty
    from toptank.units.refusal import Refusal

FOLDER = Path(tempfile.mkdtemp(prefix="toptank-fuzz-"))
WEATHER = Weather(at=(0.0,), ambient=(300.0,), timed=False)

SEEDS = {
    "log": (
        b"time (s),coolant (C),speed (km/h)\n0,80.5,36\n1,81.5,36\n",
        b"clock;gauge;A/C\n14:05;195 F;on\n14:06;1,5;off\n",
        b"Time\tECT\tVehicle.Speed\ns\tC\tkm/h\n2026-08-14T10:00:00Z\t80\t3\n",
    ),
    "route": (
        b"<gpx version='1.1' creator='t'><trk><trkseg>"
        b"<trkpt lat='-48' lon='-123'><ele>1</ele><time>2026-01-01T00:00:00Z</time></trkpt>"
        b"<trkpt lat='-47.999' lon='-123'><ele>2</ele><time>2026-01-01T00:01:00Z</time></trkpt>"
        b"</trkseg></trk></gpx>",
    ),
}


def log(raw: bytes) -> None:
    file = FOLDER / "log.csv"
    file.write_bytes(raw)
    try:
        read = read_log(file).log
    except Refusal:
        return
    for values in read.driven.values():
        assert np.isfinite(values).all()


def route(raw: bytes) -> None:
    file = FOLDER / "route.gpx"
    file.write_bytes(raw)
    try:
        read_route(file, duty=Duty(), weather=WEATHER)
    except Refusal:
        return


def main() -> None:
    kind = sys.argv.pop(1) if len(sys.argv) > 1 else ""
    if kind not in SEEDS:
        raise SystemExit("say what to feed: log or route")
    corpus = FOLDER / "corpus"
    corpus.mkdir()
    for number, seed in enumerate(SEEDS[kind]):
        (corpus / f"{number}").write_bytes(seed)
    atheris.Setup([*sys.argv, str(corpus)], {"log": log, "route": route}[kind])
    atheris.Fuzz()


if __name__ == "__main__":
    main()
