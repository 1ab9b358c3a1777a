"""What was traced is kept on disk: a second process need not trace, gives the same figures, and notices damage."""

import subprocess
import sys
from pathlib import Path

import pytest

ASKED = """
import sys
from toptank.system.numerics import kept_programs
traces = []
traced = kept_programs._traced
kept_programs._traced = lambda *given: traces.append(1) or traced(*given)
from toptank.knowledge.typical import typical_sheet
from toptank.knowledge.sheet import vehicle
from toptank.system.duty import Duty
from toptank.system.population import solve
built = vehicle(typical_sheet("pickup-1970s-v8-air"))
found = solve(built, Duty(ambient=305.0, speed=20.0, grade=0.06))
print(len(traces), repr(float(found.T_engine_out[0])))
"""


def _asked(folder: Path, *, off: bool = False) -> tuple[int, float]:
    environment = {"XDG_CACHE_HOME": str(folder), "JAX_PLATFORMS": "cpu", "PATH": "/usr/bin:/bin"}
    if off:
        environment["TOPTANK_NO_COMPILE_CACHE"] = "1"
    told = subprocess.run([sys.executable, "-c", ASKED], capture_output=True, text=True, check=True, env=environment)
    traces, temperature = told.stdout.split()
    return int(traces), float(temperature)


@pytest.fixture(scope="module")
def kept(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, float]:
    folder = tmp_path_factory.mktemp("cache")
    traces, temperature = _asked(folder)
    assert traces == 1
    return folder, temperature


def test_a_second_process_takes_the_trace_that_is_there(kept: tuple[Path, float]) -> None:
    folder, temperature = kept
    assert _asked(folder) == (0, temperature)


def test_a_damaged_trace_is_made_anew(kept: tuple[Path, float]) -> None:
    folder, temperature = kept
    (trace,) = [one for one in (folder / "toptank" / "traced").rglob("*") if one.is_file()]
    content = trace.read_bytes()
    trace.write_bytes(content[: len(content) // 2])
    assert _asked(folder) == (1, temperature)
    assert trace.read_bytes().split(b"\n", 1)[0] == content.split(b"\n", 1)[0]
    assert _asked(folder) == (0, temperature)


def test_the_folder_is_closed_to_others(kept: tuple[Path, float]) -> None:
    folder, _ = kept
    (traced,) = (folder / "toptank" / "traced").iterdir()
    assert traced.stat().st_mode & 0o077 == 0


def test_nothing_is_read_from_a_folder_that_others_may_write_to(kept: tuple[Path, float]) -> None:
    folder, temperature = kept
    (traced,) = (folder / "toptank" / "traced").iterdir()
    traced.chmod(0o777)
    try:
        assert _asked(folder) == (1, temperature)
    finally:
        traced.chmod(0o700)
