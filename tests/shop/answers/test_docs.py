"""The pages and schemas under docs/ say what the code says."""

import dataclasses
import importlib.util
import json
import re
import tomllib
from importlib.metadata import version
from pathlib import Path
from typing import Any

import pytest
import typer
from jsonschema import Draft202012Validator

from toptank.catalogue.causes.all_causes import CAUSES
from toptank.catalogue.causes.cause import Cause
from toptank.catalogue.checks.check import checks
from toptank.catalogue.remedies.all_remedies import REMEDIES
from toptank.interfaces.cli.main import app
from toptank.knowledge.sheet import Provenance, duty_fields, fields
from toptank.shop.answers.schemas import schemas
from toptank.shop.answers.words import naming
from toptank.shop.job.job_file import read_job
from toptank.shop.job.price_book import built_in, known_parts, read_prices
from toptank.studies.choose.fit.measures import bay_fields, offer_fields
from toptank.studies.diagnose.evidence import EFFECTS, NEEDLE, ONSETS, PLACES, WORDS, WORK
from toptank.system.balance import EQUATIONS_VERSION

ROOT = Path(__file__).parents[3]
DOCS = ROOT / "docs"
DEFAULT_ODDS = next(field.default for field in dataclasses.fields(Cause) if field.name == "prior_factor")


def _tool(name: str) -> Any:
    """Load a script of tools/, which finds its neighbours there."""
    spec = importlib.util.spec_from_file_location(name, ROOT / "tools" / f"{name}.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    with pytest.MonkeyPatch.context() as patch:
        patch.syspath_prepend(ROOT / "tools")
        spec.loader.exec_module(module)
    return module


@pytest.fixture(scope="module")
def pages() -> dict[Path, str]:
    """Return every generated file, as it would be written now."""
    return _tool("write_docs").pages()


def test_what_is_committed_is_what_would_be_written(pages: dict[Path, str]) -> None:
    stale = [
        path.relative_to(ROOT).as_posix()
        for path, text in pages.items()
        if not path.exists() or path.read_text(encoding="utf-8") != text
    ]
    assert stale == [], "run `uv run poe docs`"


def test_no_schema_is_left_over(pages: dict[Path, str]) -> None:
    assert set((DOCS / "schema").glob("*.json")) == {path for path in pages if path.suffix == ".json"}


def test_the_reference_holds_every_field(pages: dict[Path, str]) -> None:
    page = pages[DOCS / "fields.md"]
    for path, declaration in fields():
        section, _, key = path.partition(".")
        chapter = page.partition(f"\n## {section}\n")[2].partition("\n## ")[0]
        assert f"| `{key}` | {' '.join(declaration.means.split())} |" in chapter
        assert " ".join(declaration.measure.split()) in chapter
    duty = page.partition("\n## duty\n")[2]
    assert all(f"| `{key}` |" in duty for key in duty_fields())


def test_the_example_of_the_job_page_is_a_job(pages: dict[Path, str], tmp_path: Path) -> None:
    example = re.findall(r"```toml\n(.*?)```", pages[DOCS / "job-file.md"], re.DOTALL)[0]
    file = tmp_path / "job.toml"
    file.write_text(example, encoding="utf-8")
    job = read_job(file)
    assert [duty.name for duty in job.duties] == ["long grade"]
    assert job.invented
    assert job.remarks == ()


def test_the_told_case_of_the_job_page_holds_every_kind_of_evidence(pages: dict[Path, str], tmp_path: Path) -> None:
    told = re.findall(r"```toml\n(.*?)```", pages[DOCS / "job-file.md"], re.DOTALL)[1]
    file = tmp_path / "job.toml"
    file.write_text(told, encoding="utf-8")
    job = read_job(file)
    assert set(tomllib.loads(told)) >= {"reading", "check", "changed", "history", "confirmed"}
    assert job.invented
    assert job.evidence.readings
    assert job.evidence.findings
    assert job.evidence.changes
    assert job.evidence.history.onset == "right after work"
    assert job.confirmed is not None
    assert any(fact.how == Provenance.ASSUMED for duty in job.duties for fact in duty.facts.values())
    assert job.assumed_units == ()


def test_the_job_page_says_every_word_that_may_be_written(pages: dict[Path, str]) -> None:
    chapter = _chapter(pages[DOCS / "job-file.md"], "## The trouble")
    for known in (WORDS, NEEDLE, PLACES, EFFECTS, ONSETS, WORK):
        assert all(f"`{word}`" in chapter for word in known)
    for key in ("vague", "gauge", "thermometer", "decisive", "after_work", "doubtful", "renewed", "distance"):
        assert f"| `{key}` |" in chapter
    page = pages[DOCS / "job-file.md"]
    assert "Diagnosis never reads `[confirmed]`" in page
    assert re.search(r"@[A-Z_]+@", page) is None


def _chapter(page: str, heading: str) -> str:
    """What stands under a heading, up to the next one of any rank."""
    assert f"\n{heading}\n" in page
    return re.split(r"\n#+ ", page.partition(f"\n{heading}\n")[2])[0]


def test_every_cause_has_its_chapter(pages: dict[Path, str]) -> None:
    page = pages[DOCS / "causes.md"]
    for cause in CAUSES:
        chapter = _chapter(page, f"## {naming.cause(cause.id, 'us')}")
        assert naming.cause_sentence(cause.id, "us") in chapter
        assert f"- *repair*: {naming.repair(cause.repair, 'us')}." in chapter
        assert f"; {cause.origin}." in _line(chapter, "share")
        assert "suddenly" in _line(chapter, "begins")
        assert all(naming.work(part, "us") in _line(chapter, "likelier") for part in cause.begun_by)
        assert "](checks.md#" in chapter


def _line(chapter: str, word: str) -> str:
    return next(line for line in chapter.splitlines() if line.startswith(f"- *{word}*"))


def test_what_makes_a_cause_likelier_is_said_in_words_wherever_it_has_odds_of_its_own() -> None:
    own = {cause.id for cause in CAUSES if cause.prior_factor is not DEFAULT_ODDS}
    assert len(own) >= 5
    assert set(_tool("docs_of_diagnosis").LIKELIER_ON) == own


def test_every_check_has_its_chapter(pages: dict[Path, str]) -> None:
    page = pages[DOCS / "checks.md"]
    for check in checks().values():
        named = naming.check(check.id, "us")
        chapter = " ".join(_chapter(page, f"### {named.name}").split())
        assert f"{check.minutes:g} min · tools: {named.tools or 'none'}" in chapter
        for words in (named.how, named.tells, named.misleads, naming.hazard(check.id, "us"), check.source, check.id):
            assert " ".join(words.split()) in chapter
        assert all(f"| {named.outcomes[outcome]} (`{outcome}`) " in chapter for outcome in check.outcomes)
        assert all(f"[{naming.cause(cause, 'us')}](causes.md#" in chapter for cause in check.shown_by)
        assert check.outcomes or "A figure is read" in chapter


def test_a_check_that_reads_a_field_names_the_cause_that_changes_it(pages: dict[Path, str]) -> None:
    page = pages[DOCS / "checks.md"]
    assert "Changed by: [radiator cap not holding pressure]" in _chapter(page, "### cap tester")
    assert "[gauge reads high]" in _chapter(page, "### second thermometer")
    assert "[fan clutch slipping]" in _chapter(page, "### fan speed against pulley speed, hot")
    assert "the model works out" in _chapter(page, "### temperature drop across the radiator")
    causes = pages[DOCS / "causes.md"]
    assert "[cap tester](checks.md#cap-tester)" in _chapter(causes, "## radiator cap not holding pressure")


def test_every_remedy_has_its_chapter(pages: dict[Path, str]) -> None:
    page = pages[DOCS / "remedies.md"]
    for remedy in REMEDIES:
        named = naming.remedy(remedy.id, "us")
        chapter = _chapter(page, f"### {named.name}")
        assert named.note in chapter
        assert _line(chapter, "limits").endswith(named.limits)
        assert all(naming.part(part, "us") in _line(chapter, "parts") for part in remedy.parts)
        assert f"{remedy.minutes:g}" in _line(chapter, "parts")
        assert all(naming.remedy(one, "us").name in _line(chapter, "forces") for one in remedy.forces)
        assert "](fields.md#" in _line(chapter, "changes"), "a remedy that changes nothing is none"
        assert remedy.source in _line(chapter, "source")
    assert "`core.scale_thickness`" in _line(_chapter(page, "### rod out or hot-tank the radiator"), "changes")
    assert "`fan_clutch.engaged_ratio`" in _line(_chapter(page, "### replace the fan clutch"), "changes")
    assert "typical trade figures" in _line(_chapter(page, "### install a severe-duty fan clutch"), "for the fit")
    assert "`wagon-1990s-v6-air`" in _line(_chapter(page, "### replace the fan clutch"), "not on")


def test_the_page_of_remedies_minds_what_its_work_brings(pages: dict[Path, str]) -> None:
    top = pages[DOCS / "remedies.md"].partition("\n## ")[0]
    for caution in ("Acid cleaners burn", "lead", "efrigerant", "licensed practice"):
        assert caution in top


def test_the_page_of_the_price_book_holds_every_part_and_a_book_that_can_be_read(
    pages: dict[Path, str], tmp_path: Path
) -> None:
    page = pages[DOCS / "prices.md"]
    assert all(f"| `{part}` | [" in page for part in known_parts())
    (written,) = re.findall(r"```toml\n(.*?)```", page, re.DOTALL)
    book = tmp_path / "prices.toml"
    book.write_text(written, encoding="utf-8")
    assert read_prices(book) == built_in()
    assert all(f"| `{key}` |" in page for key in ("format", "currency", "labour", "[parts]"))


def test_the_job_page_holds_every_measure_of_bay_and_offer_and_an_example_that_can_be_read(
    pages: dict[Path, str], tmp_path: Path
) -> None:
    page = pages[DOCS / "job-file.md"]
    chapter = " ".join(_chapter(page, "## The bay").split())
    for fields_of in (bay_fields(), offer_fields()):
        for key, declaration in fields_of.items():
            assert f"| `{key}` | {' '.join(declaration.means.split())} |" in chapter
            assert " ".join(declaration.measure.split()) in chapter
    assert "[[worst_day]]" in _chapter(page, "## The worst day")
    file = tmp_path / "job.toml"
    file.write_text(re.findall(r"```toml\n(.*?)```", page, re.DOTALL)[2], encoding="utf-8")
    job = read_job(file)
    assert [day.name for day in job.worst_day] == ["pass with the trailer"]
    assert len(job.fit.offers) == 1
    assert (job.remarks, job.assumed_units) == ((), ())


def test_every_schema_that_the_commands_link_to_is_there(pages: dict[Path, str]) -> None:
    linked = set(re.findall(r"\]\((schema/[\w-]+\.json)\)", pages[DOCS / "commands.md"]))
    assert {f"schema/answer-{verb}.json" for verb in ("choose", "prices", "mix", "fit")} <= linked
    assert {DOCS / link for link in linked} <= set(pages)


@pytest.mark.parametrize("name", ["causes.md", "checks.md", "remedies.md"])
def test_the_cautions_stand_before_the_first_chapter(pages: dict[Path, str], name: str) -> None:
    top = pages[DOCS / name].partition("\n## ")[0]
    for caution in (
        "pressure scalds",
        "starts by itself",
        "blades burst",
        "Belts and pulleys",
        "poisons",
        "never a jack",
    ):
        assert caution in top
    assert "maker's manual and licensed practice go before" in top


def test_every_link_between_the_pages_of_diagnosis_finds_its_heading(pages: dict[Path, str]) -> None:
    anchor = _tool("docs_of_diagnosis").anchor
    headings = {
        path.name: {anchor(heading) for heading in re.findall(r"^#+ (.+)$", text, re.MULTILINE)}
        for path, text in pages.items()
        if path.suffix == ".md"
    }
    followed = 0
    for name in ("causes.md", "checks.md", "job-file.md", "remedies.md", "prices.md"):
        for page, heading in re.findall(r"\]\(([\w-]+\.md)?#([^)]+)\)", pages[DOCS / name]):
            assert heading in headings[page or name], (name, page, heading)
            followed += 1
    assert followed > 100


def test_a_heading_is_called_in_an_address_as_the_hosts_of_such_pages_call_it() -> None:
    """From memory: small letters, spaces to hyphens, other signs but hyphens and underscores left out."""
    anchor = _tool("docs_of_diagnosis").anchor
    assert anchor("fan's place in the shroud") == "fans-place-in-the-shroud"
    assert anchor("idle raised to 2,000 rpm") == "idle-raised-to-2000-rpm"


def test_the_worked_job_is_told_by_commands_that_are_there_and_prints_what_they_print(tmp_path: Path) -> None:
    """What is quick to run is run anew; diagnosis and choice are marked with the version that they were made with."""
    tool = _tool("docs_of_worked_job")
    page = tool.PAGE.read_text(encoding="utf-8")
    stale = "run `python tools/docs_of_worked_job.py`"
    assert f"toptank {version('toptank')}, equations {EQUATIONS_VERSION}" in page, stale
    (tmp_path / "job.toml").write_text(tool.example(), encoding="utf-8")
    commands = getattr(typer.main.get_command(app), "commands", {})
    for step in tool.STEPS:
        command, *words = step.words
        if command not in commands:
            continue
        assert f"$ {tool.line(step.words)}\n" in page, stale
        known = {name for one in commands[command].params for name in one.opts}
        known |= {name for inner in getattr(commands[command], "commands", {}).values() for one in inner.params
                  for name in one.opts}  # fmt: skip
        assert {word for word in words if word.startswith("--")} <= known
        if command in ("fit", "mix"):
            assert f"$ {tool.line(step.words)}\n{tool.taken(step, tmp_path)}\n```" in page, stale


def test_the_worked_job_goes_from_complaint_to_record() -> None:
    tool = _tool("docs_of_worked_job")
    page = tool.PAGE.read_text(encoding="utf-8")
    told = [page.find(words) for words in ("job new", "Most likely: ", "Do this first: ", "Recommended: ",
                                           "what to do", "Drain ", "job note", "job close", "job export")]  # fmt: skip
    assert -1 not in told
    assert told == sorted(told)
    assert "(invented example)" in page
    assert "Never open a hot system" in page.partition("\n## ")[0]


def test_every_schema_is_a_schema(pages: dict[Path, str]) -> None:
    assert len(schemas()) >= 13
    for path, text in pages.items():
        if path.suffix == ".json":
            Draft202012Validator.check_schema(json.loads(text))
