"""README's figures of the evaluation are those that were kept, of the told cases as they are, and they come again."""

import dataclasses
import json
from importlib import import_module
from pathlib import Path
from typing import Any

import pytest

from toptank.shop.ask.diagnose import question_of
from toptank.shop.ask.proposals import confirmed_all
from toptank.shop.job.job_file import read_job
from toptank.studies.diagnose.posterior import infer_posterior, known_shares
from toptank.studies.diagnose.trial.scoring import score

ROOT = Path(__file__).parents[3]


def _tool() -> Any:
    """The tool that writes the block; tools are no package."""
    with pytest.MonkeyPatch.context() as patch:
        patch.syspath_prepend(str(ROOT / "tools"))
        return import_module("docs_of_evaluation")


TOOL = _tool()
CASES: Path = TOOL.CASES
KEPT = json.loads(TOOL.FIGURES.read_text(encoding="utf-8"))


def test_the_block_of_the_readme_says_what_was_kept() -> None:
    text = TOOL.README.read_text(encoding="utf-8")
    assert text.count(TOOL.BEGINS) == text.count(TOOL.ENDS) == 1
    assert TOOL.block(KEPT) in text


def test_every_told_case_was_scored_and_no_other() -> None:
    """What it turned out to be is compared too: a case that was told anew is to be scored anew."""
    confirmed = {path.stem: read_job(path).confirmed for path in sorted(CASES.glob("*.toml"))}
    assert [one["name"] for one in KEPT["each"]] == list(confirmed)
    for one in KEPT["each"]:
        told = confirmed[one["name"]]
        assert told is not None
        assert tuple(one["confirmed"]) == told.causes


@pytest.mark.parametrize("stem", ["bt01", "fc10"])
def test_a_case_comes_out_again_as_it_was_kept(stem: str) -> None:
    """One that a check has seen and one of a few words: within five points, which is the scatter of other draws."""
    kept = next(one for one in KEPT["each"] if one["name"] == stem)
    job = read_job(CASES / f"{stem}.toml")
    assert job.confirmed is not None
    question = dataclasses.replace(question_of(job), evidence=confirmed_all(job), shares=known_shares(without=stem))
    again = score(question, infer_posterior(question, KEPT["seed"]), job.confirmed.causes, job.confirmed.contributing)
    assert 100.0 * again.probability == pytest.approx(kept["probability_pct"], abs=5.0)
