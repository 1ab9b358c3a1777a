"""What is shipped, what the page shows and the evidence are of one calibration."""

import hashlib
import json
import tomllib
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from calibrating.constants import constants
from calibrating.evidence import FOLDER
from calibrating.page import page, with_headline

ROOT = Path(__file__).parents[2]
REMEDY = "run `uv run poe calibrate` (quarter of an hour) and commit what it writes"


@pytest.fixture(scope="module")
def found() -> dict[str, Any]:
    return json.loads((ROOT / "calibration" / "results.json").read_text(encoding="utf-8"))


@pytest.fixture(scope="module")
def shipped() -> dict[str, Any]:
    return tomllib.loads((ROOT / "src/toptank/knowledge/calibrated.toml").read_text(encoding="utf-8"))


def test_the_page_shows_the_results_as_they_are(found: dict[str, Any]) -> None:
    assert (ROOT / "docs" / "calibration.md").read_text(encoding="utf-8") == page(found), (
        "docs/calibration.md is stale: `uv run poe calibrate --page`"
    )


def test_results_and_shipped_constants_rest_on_the_evidence_of_today(
    found: dict[str, Any], shipped: dict[str, Any]
) -> None:
    today = {path.stem: hashlib.sha256(path.read_bytes()).hexdigest()[:16] for path in FOLDER.glob("*.toml")}
    assert found["evidence"] == today, REMEDY
    assert shipped["evidence"] == today, REMEDY


def test_the_shipped_constants_are_those_of_the_results(found: dict[str, Any], shipped: dict[str, Any]) -> None:
    shown = {one["path"]: one["factor"] for one in found["constants"]}
    assert {one["path"]: one["factor"] for one in shipped["constant"]} == pytest.approx(shown, rel=2e-3)
    assert shipped["remains"] == pytest.approx(found["remains"], rel=2e-2)
    assert [one.path for one in constants()] == list(shown), REMEDY


def test_no_constant_leaves_its_physical_range(found: dict[str, Any]) -> None:
    for one in found["constants"]:
        assert one["lowest"] <= one["factor"] <= one["highest"], one["path"]


def test_the_chains_agree(found: dict[str, Any]) -> None:
    assert found["sampling"]["r_hat"] < 1.05
    assert found["sampling"]["effective"] > 100


def test_the_correlation_is_one_of_a_distribution(shipped: dict[str, Any]) -> None:
    count = len(shipped["constant"])
    correlation = np.array(shipped["correlation"]).reshape(count, count)
    assert np.allclose(correlation, correlation.T)
    assert np.linalg.eigvalsh(correlation).min() > 0.0


def test_the_front_page_says_what_was_measured(found: dict[str, Any]) -> None:
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    assert with_headline(readme, found) == readme, "README.md is stale: `uv run poe calibrate --page`"
