"""From a job to the paper: what the mechanic types, what lies in the folder afterwards."""

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

Say = Callable[..., Any]

FEW = ("--draws", 200)


def test_the_mechanic_gets_both_files_and_reads_where_they_are(say: Say, examples: Path, tmp_path: Path) -> None:
    pdf, html = tmp_path / "order.pdf", tmp_path / "order.html"
    answer = say("order", examples / "orchard-minibus.toml", "--pdf", pdf, "--html", html, *FEW)
    assert (answer.code, answer.err) == (0, "")
    said = "".join(answer.out.split())
    assert "".join(str(pdf).split()) in said
    assert "".join(str(html).split()) in said
    assert pdf.read_bytes().startswith(b"%PDF")
    page = html.read_text(encoding="utf-8")
    assert page.count("Invented example") == 2
    assert "Never open a hot system" in page
    assert "size: letter" in page
    assert {file.name for file in tmp_path.iterdir()} == {"order.pdf", "order.html"}
    first = pdf.read_bytes()
    again = say("order", examples / "orchard-minibus.toml", "--pdf", pdf, *FEW, "--force")
    assert again.code == 0
    assert pdf.read_bytes() == first


def test_metric_units_bring_a4_and_another_plan_can_be_named(say: Say, examples: Path, tmp_path: Path) -> None:
    html = tmp_path / "order.html"
    answer = say(
        "order", examples / "first-job.toml", "--html", html, "--units", "metric", "--plan", "do nothing", *FEW
    )  # fmt: skip
    assert (answer.code, answer.err) == (0, "")
    page = html.read_text(encoding="utf-8")
    assert "size: A4" in page
    assert "Nothing needs to be fitted" in page
    assert "Leave it as it is." in page
    assert not re.search(r"\d °F on the gauge", page)


@pytest.mark.parametrize(
    ("words", "parts"),
    [
        ((), ("pdf = none", "needs a file", "--html")),
        (("--pdf", "order.txt"), ("pdf = ", "must end in .pdf")),
        (("--html", "order.pdf"), ("html = ", "must end in .html")),
        (("--pdf", "there.pdf"), ("exists already", "--force")),
        (("--pdf", "nowhere/order.pdf"), ("its folder does not exist",)),
        (("--pdf", "order.pdf", "--draws", 20), ("draws = 20", "between 200 and 50,000")),
        (("--pdf", "order.pdf", "--seed", -1), ("seed = -1",)),
        (("--pdf", "order.pdf", "--customer", "--appendix"), ("appendix = yes", "the customer's page goes out alone")),
    ],
)
def test_what_cannot_be_written_is_refused_in_one_sentence_before_any_work(
    say: Say,
    examples: Path,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    words: tuple[object, ...],
    parts: tuple[str, ...],
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "there.pdf").write_bytes(b"kept")
    answer = say("order", examples / "orchard-minibus.toml", *words)
    assert (answer.code, answer.out) == (2, "")
    assert answer.err.count("\n") == 1
    for part in parts:
        assert part in answer.err
    assert {file.name for file in tmp_path.iterdir()} == {"there.pdf"}
    assert (tmp_path / "there.pdf").read_bytes() == b"kept"


def test_a_plan_that_is_not_on_the_list_is_refused(say: Say, examples: Path, tmp_path: Path) -> None:
    words = ("--pdf", tmp_path / "order.pdf", "--plan", "a bigger hammer", *FEW)
    answer = say("order", examples / "first-job.toml", *words)
    assert (answer.code, answer.out) == (2, "")
    assert "plan = a bigger hammer: 'a bigger hammer' is no remedy" in answer.err
    assert list(tmp_path.iterdir()) == []


def test_a_customers_page_records_no_plan_as_ordered(
    say: Say, examples: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("TOPTANK_STORE", str(tmp_path / "jobs.sqlite"))
    assert say("job", "new", examples / "first-job.toml").code == 0
    for flags, ordered in (("--customer",), False), ((), True):
        answer = say("order", 1, "--pdf", tmp_path / "one.pdf", "--force", "--plan", "do nothing", *flags, *FEW)
        assert (answer.code, answer.err) == (0, "")
        assert ("recorded as ordered" in " ".join(answer.out.split())) == ordered
