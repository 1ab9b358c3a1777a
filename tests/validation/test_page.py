"""docs/validation.md says what these tests say, no less and no more."""

import os
from pathlib import Path

import pytest

HERE = Path(__file__).parent
PAGE = HERE.parents[1] / "docs" / "validation.md"


def test_every_table_names_its_published_source() -> None:
    tables = sorted((HERE / "tables").iterdir())
    assert tables
    for table in tables:
        assert table.read_text(encoding="utf-8").startswith("# Source: "), table.name


@pytest.mark.skipif(os.environ.get("TOPTANK_WRITE_DOCS") == "1", reason="the page is being written")
def test_every_published_figure_on_the_page_still_has_its_test() -> None:
    lines = [line for line in PAGE.read_text(encoding="utf-8").splitlines() if line.startswith("Tests: ")]
    named = {name for line in lines for name in line.removeprefix("Tests: ").rstrip(".").replace("`", "").split(", ")}
    texts = {path.name: path.read_text(encoding="utf-8") for path in HERE.glob("test_*.py") if path != Path(__file__)}
    for name in sorted(named):
        file, _, function = name.partition("::")
        assert f"def {function}(" in texts.get(file, ""), f"docs/validation.md prints {name}, which is gone"
    judged = {name for name, text in texts.items() if "published(" in text}
    assert judged == {name.partition("::")[0] for name in named}, "docs/validation.md is stale: poe docs"
