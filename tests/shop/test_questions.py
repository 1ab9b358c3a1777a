"""The Python API: what its page shows runs, and it has every question that the command line asks."""

import re
from pathlib import Path
from typing import Any

import pytest

import toptank

PAGE = Path(__file__).parents[2] / "docs" / "python.md"


def test_what_the_page_shows_runs(capsys: pytest.CaptureFixture[str]) -> None:
    known: dict[str, Any] = {}
    for block in re.findall(r"```python\n(.*?)```", PAGE.read_text(encoding="utf-8"), re.DOTALL):
        assert all(
            line.startswith("import toptank") for line in block.splitlines() if line.startswith(("import", "from"))
        )
        exec(compile(block, "docs/python.md", "exec"), known)
    shown = capsys.readouterr().out
    assert "ridge climb" in shown
    assert "cap 15 bananas" in shown
    # 5,000 ft up, 15 psi, half and half: some 8 °F below the 265 °F of the trade at the sea
    assert known["boils"].boiling_point_degC == pytest.approx((257 - 32) / 1.8, abs=3.0)


def test_every_question_tells_what_it_takes() -> None:
    for name in toptank.__all__:
        assert (getattr(toptank, name).__doc__ or "").strip(), name
    with pytest.raises(AttributeError, match="open_job"):
        toptank.mystery  # noqa: B018 # asking for it is the test
