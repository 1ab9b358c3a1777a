"""The command itself, in a process of its own: what it loads, what it exits with."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]

LOADED = """
import json, sys
from toptank.faces.cli import main
sys.argv = ["toptank", *json.loads(sys.stdin.read())]
try:
    main()
except SystemExit:
    pass
print(json.dumps(sorted({name.partition(".")[0] for name in sys.modules})), file=sys.stderr)
"""


def _run(*words: str) -> subprocess.CompletedProcess[str]:
    command = [str(Path(sys.executable).with_name("toptank")), *words]
    return subprocess.run(command, capture_output=True, check=False, text=True, cwd=ROOT)


@pytest.mark.parametrize("words", [("boil", "--json"), ("freeze", "--json"), ("boil",), ("freeze",)])
def test_a_boiling_point_does_not_wait_for_the_compiler(words: tuple[str, ...]) -> None:
    answer = subprocess.run(
        [sys.executable, "-c", LOADED], input=json.dumps(words), capture_output=True, check=True, text=True
    )
    assert "ethylene" in answer.stdout
    assert {"jax", "jaxlib", "matplotlib"} & set(json.loads(answer.stderr)) == set()


def test_the_command_is_installed_and_helps() -> None:
    answer = _run("--help")
    assert (answer.returncode, answer.stderr) == (0, "")
    for verb in ("demo", "forecast", "core", "boil", "freeze", "vehicles", "sheet", "explain"):
        assert verb in answer.stdout


def test_the_installed_command_refuses_in_one_line() -> None:
    answer = _run("boil", "--cap", "300 psi")
    assert (answer.returncode, answer.stdout) == (2, "")
    assert answer.stderr.startswith("toptank: cap = 300 psi: ")
    assert answer.stderr.count("\n") == 1


def test_the_installed_command_forecasts_a_job_without_a_word_on_the_side() -> None:
    answer = _run("forecast", "examples/first-job.toml", "--draws", "50", "--json")
    assert (answer.returncode, answer.stderr) == (0, "")
    assert json.loads(answer.stdout)["duties"][0]["name"] == "long grade"
