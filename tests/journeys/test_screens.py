"""The answer first: each command fits a screen, says what to do in plain words, and keeps the rest for --full."""

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

Say = Callable[..., Any]

DEMO, COLUMNS = 40, 80
"""Lines and columns that the demo has at most (issue 14)."""

DRAWS = ("--draws", 200)


@pytest.fixture(scope="module")
def demo() -> dict[str, Any]:
    """What the demo said, asked for once."""
    return {}


@pytest.fixture
def shown(say: Say, demo: dict[str, Any], monkeypatch: pytest.MonkeyPatch) -> Any:
    """The demo on a screen of 80 columns."""
    monkeypatch.setenv("COLUMNS", str(COLUMNS))
    if "said" not in demo:
        demo["said"] = say("demo")
    return demo["said"]


def test_the_demo_is_at_most_forty_lines_of_eighty_columns(shown: Any) -> None:
    lines = shown.out.splitlines()
    assert (shown.code, shown.err) == (0, "")
    assert len(lines) <= DEMO
    assert max(map(len, lines)) <= COLUMNS


@pytest.mark.parametrize(
    "part",
    [
        r"“Takes visitors up to the ridge farm",  # the complaint
        r"(?:Most likely|About even): [a-z, ']+ \(\d+ %\)",  # what is most likely
        r"Why: .+ times more likely",  # and why
        r"Do this first: .+ \(\d+ minutes?",  # the next check with its minutes
        r"Warning: ",  # and its hazard
        r"Worst day, limit \d+ °F: as it is, .+; with this plan, ",  # as it is and with the best plan
        r"Recommended: plan [ABC], .+ \(\$[\d,]+, [\d.]+ h\)",  # the price
        r"A\. Repair what broke(?: \(recommended\))?: .+\. \$",
        r"Saved order\.pdf, order\.html and plans\.svg in ",  # where order and pictures were written
        r"Never open a hot system\.",  # one safety line
        r"toptank demo --full",
    ],
)
def test_the_demo_says_all_that_a_mechanic_acts_on(shown: Any, part: str) -> None:
    assert re.search(part, " ".join(shown.out.split()))


def test_the_demo_names_one_check_that_stands_first(shown: Any) -> None:
    told = " ".join(shown.out.split())
    (first,) = re.findall(r"Do this first: (.+?) \(\d+ minutes?", told)
    for pattern in (r"Make sure first: (.+?)\. Recommended", r"one check decides between plans: (.+?) \(\d+ minutes?"):
        assert set(re.findall(pattern, told)) <= {first}


def test_readme_shows_the_diagnosis_that_the_demo_prints(shown: Any) -> None:
    """Plans are weighed with fewer simulations here than a mechanic gets: their chances may differ by a few points."""
    readme = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
    diagnosis = " ".join(shown.out.split()).split("Recommended: ")[0]
    assert diagnosis.strip() in " ".join(readme.split())


def test_order_and_pictures_are_where_the_demo_says(shown: Any) -> None:
    folder = Path(re.sub(r"\s", "", re.search(r"plans\.svg in (\S+)", " ".join(shown.out.split()))[1]))  # pyright: ignore[reportOptionalSubscript] - held above
    assert {file.name for file in folder.iterdir()} == {"order.pdf", "order.html", "plans.svg"}


def test_a_stored_job_is_diagnosed_on_the_screen_and_the_answer_is_kept(
    say: Say, examples: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("TOPTANK_STORE", str(tmp_path / "jobs.sqlite"))
    say("job", "new", examples / "first-job.toml")
    told = " ".join(say("job", "diagnose", 1).out.split())
    assert re.search(r"(?:Most likely|About even): ", told)
    assert "Do this first: " in told
    assert told.endswith("Diagnosis saved with job 1.")
    assert "draws" not in told
    assert "equations" not in told
    assert [one["kind"] for one in say("job", "show", 1, "--json").record["answers"]] == ["diagnosis"]


def test_metric_units_bring_british_words_on_the_screen(say: Say, examples: Path) -> None:
    told = " ".join(say("diagnose", examples / "orchard-minibus.toml", "--units", "metric", "--full").out.split())
    assert not re.search(r"\b(?:hood|flashlight|aluminum|transmission|psi|°F)\b", told.partition("likely cause")[2])


def test_the_version_is_told(say: Say) -> None:
    assert re.fullmatch(r"toptank \d+\.\d+\.\d+", say("--version").out.strip())
