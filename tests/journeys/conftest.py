"""A mechanic at the counter: types a command, reads what comes back."""

import json
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any, NamedTuple

import pytest

from toptank.interfaces.cli.main import main

ROOT = Path(__file__).parents[2]


class Said(NamedTuple):
    """What a command said: its exit code, what it printed, what it complained of."""

    code: int
    out: str
    err: str

    @property
    def record(self) -> dict[str, Any]:
        """Return the printed JSON; there is no complaint beside it."""
        assert (self.code, self.err) == (0, "")
        return json.loads(self.out)


@pytest.fixture
def say(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Callable[..., Said]:
    """Run one command in this process, as `toptank WORDS` would."""

    def run(*words: object) -> Said:
        monkeypatch.setattr(sys, "argv", ["toptank", *map(str, words)])
        capsys.readouterr()
        code: Any = 0
        try:
            main()
        except SystemExit as end:
            code = end.code or 0
        printed = capsys.readouterr()
        return Said(int(code), printed.out, printed.err)

    return run


@pytest.fixture
def examples() -> Path:
    """Return the folder of the example files."""
    return ROOT / "examples"


@pytest.fixture
def job_text() -> str:
    """Return a job file that is right, to be spoilt."""
    return (ROOT / "examples" / "first-job.toml").read_text(encoding="utf-8")
