"""The command itself, in a process of its own: what it loads, what it exits with."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
TOPTANK = Path(sys.executable).with_name("toptank")

LOADED = """
import json, sys
from toptank.interfaces.cli.main import main
sys.argv = ["toptank", *json.loads(sys.stdin.read())]
try:
    main()
except SystemExit:
    pass
print(json.dumps(sorted({name.partition(".")[0] for name in sys.modules})), file=sys.stderr)
"""


def _run(*words: str) -> subprocess.CompletedProcess[str]:
    command = [str(TOPTANK), *words]
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


DEMO = ("demo", "--draws", "200")


@pytest.mark.parametrize(
    ("words", "encoding"),
    [
        (DEMO, "ascii"),
        (("boil",), "ascii"),
        (("vehicles",), "ascii"),
        (("sheet", "new", "--like", "roadster-1960s-four"), "ascii"),
        (("explain", "boiling_point"), "ascii"),
        (("boil", "--cap", "300 psi"), "ascii"),
        (("boil",), "latin-1"),
        (("boil",), "cp437"),
    ],
)
def test_a_terminal_of_few_signs_gets_what_it_can_print(words: tuple[str, ...], encoding: str) -> None:
    answer = subprocess.run(
        [str(TOPTANK), *words], capture_output=True, check=False, env={**os.environ, "PYTHONIOENCODING": encoding}
    )
    out, err = answer.stdout.decode(encoding), answer.stderr.decode(encoding)
    assert answer.returncode == (2 if "300 psi" in words else 0)
    assert "Traceback" not in err
    assert "\\x" not in out + err
    questions = _run(*words).stdout.count("?") if words[0] == "sheet" else 0  # its comments ask some
    assert (out + err).count("?") == questions
    if words == ("boil",):
        assert ("264.2 °F" if encoding != "ascii" else "264.2 F") in out
        edges = {len(line) for line in out.splitlines() if line.startswith(("|", "+"))}
        assert len(edges) <= 1  # a frame around a table stays straight


def test_json_on_a_terminal_of_few_signs_keeps_every_sign(tmp_path: Path) -> None:
    job = tmp_path / "job.toml"
    text = (ROOT / "examples" / "first-job.toml").read_text(encoding="utf-8")
    job.write_text(text.replace("long grade", "Gro\u00dfe Steige \u2116 1"), encoding="utf-8")
    answer = subprocess.run(
        [str(TOPTANK), "forecast", str(job), "--draws", "50", "--json"],
        capture_output=True, check=True, env={**os.environ, "PYTHONIOENCODING": "ascii"},
    )  # fmt: skip
    assert json.loads(answer.stdout)["duties"][0]["name"] == "Gro\u00dfe Steige \u2116 1"


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="only some systems have a disk that is always full")
@pytest.mark.parametrize(
    "words",
    [
        DEMO,
        ("boil",),
        ("freeze", "--json"),
        ("vehicles",),
        ("sheet", "new", "--like", "roadster-1960s-four"),
        ("--help",),
    ],
)
def test_a_full_disk_is_told_in_one_line(words: tuple[str, ...]) -> None:
    with Path("/dev/full").open("w") as full:
        answer = subprocess.run([str(TOPTANK), *words], stdout=full, stderr=subprocess.PIPE, check=False, text=True)
    assert answer.returncode == 2
    assert answer.stderr.startswith("toptank: output = the answer: cannot be written; ")
    assert answer.stderr.count("\n") == 1


@pytest.mark.parametrize(
    "words", [("boil",), ("sheet", "new", "--like", "roadster-1960s-four"), ("vehicles", "--json")]
)
def test_a_pipe_that_somebody_closed_is_no_reason_to_speak(words: tuple[str, ...]) -> None:
    reading, writing = os.pipe()
    os.close(reading)  # nobody will read
    try:
        answer = subprocess.run([str(TOPTANK), *words], stdout=writing, stderr=subprocess.PIPE, check=False)
    finally:
        os.close(writing)
    assert answer.stderr == b""
