"""The pages and schemas under docs/ say what the code says."""

import importlib.util
import json
import re
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from toptank.jobs.job_file import read_job
from toptank.jobs.schema import schemas
from toptank.knowledge.sheet import duty_fields, fields

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def pages() -> dict[Path, str]:
    """Return every generated file, as it would be written now."""
    spec = importlib.util.spec_from_file_location("write_docs", ROOT / "tools" / "write_docs.py")
    assert spec is not None
    assert spec.loader is not None
    module: Any = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module.pages()


def test_what_is_committed_is_what_would_be_written(pages: dict[Path, str]) -> None:
    stale = [
        path.relative_to(ROOT).as_posix()
        for path, text in pages.items()
        if not path.exists() or path.read_text(encoding="utf-8") != text
    ]
    assert stale == [], "run `uv run poe docs`"


def test_no_schema_is_left_over(pages: dict[Path, str]) -> None:
    assert set((ROOT / "docs" / "schema").glob("*.json")) == {path for path in pages if path.suffix == ".json"}


def test_the_reference_holds_every_field(pages: dict[Path, str]) -> None:
    page = pages[ROOT / "docs" / "fields.md"]
    for path, declaration in fields():
        section, _, key = path.partition(".")
        chapter = page.partition(f"\n## {section}\n")[2].partition("\n## ")[0]
        assert f"| `{key}` | {' '.join(declaration.means.split())} |" in chapter
        assert " ".join(declaration.measure.split()) in chapter
    duty = page.partition("\n## duty\n")[2]
    assert all(f"| `{key}` |" in duty for key in duty_fields())


def test_the_example_of_the_job_page_is_a_job(pages: dict[Path, str], tmp_path: Path) -> None:
    example = re.findall(r"```toml\n(.*?)```", pages[ROOT / "docs" / "job-file.md"], re.DOTALL)[0]
    file = tmp_path / "job.toml"
    file.write_text(example, encoding="utf-8")
    job = read_job(file)
    assert [duty.name for duty in job.duties] == ["long grade"]
    assert job.invented
    assert job.remarks == ()


def test_every_schema_is_a_schema(pages: dict[Path, str]) -> None:
    assert len(schemas()) >= 9
    for path, text in pages.items():
        if path.suffix == ".json":
            Draft202012Validator.check_schema(json.loads(text))
