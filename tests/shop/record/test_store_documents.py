"""The document of a job stays as it was written: through the store, through a file, through closing and opening."""

import json
import tomllib
from pathlib import Path

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from toptank.catalogue.causes.all_causes import CAUSE_IDS
from toptank.shop.files.toml_file import MARK
from toptank.shop.record import export_verbs, job_verbs
from toptank.shop.record.store import document
from toptank.shop.record.store import jobs_and_revisions as kept
from toptank.shop.record.store.export import read_back, read_carried, written_out
from toptank.shop.record.store.opening import opened
from toptank.shop.record.store.record import Note
from toptank.units.refusal import Refusal

AT = "2026-01-02T03:04:05.000+00:00"
SIGNS = st.characters(exclude_categories=["Cc", "Cf", "Cs", "Co", "Cn", "Zs", "Zl", "Zp"]) | st.just(" ")
WORDS = st.text(SIGNS, max_size=40)
# what TOML lets stand in a comment: tabs, and every sign that is no order to a teleprinter
NO_COMMENT = "".join(map(chr, [*range(9), *range(10, 32), 127]))
COMMENTS = st.text(st.characters(exclude_categories=["Cs"], exclude_characters=NO_COMMENT))


@st.composite
def documents(draw: st.DrawFn) -> str:
    """A job file as somebody may have typed it: order, comments, blank lines, line ends, what editors put in front."""
    sections = [
        ["[job]", f"title = {_quoted(draw(WORDS))}", f"complaint = {_quoted(draw(WORDS))}"],
        ["[vehicle]", 'like = "pickup-1970s-v8-air"'],
        ["[core]", draw(st.sampled_from(["rows = 3", 'face_width = "26 in"', "# nothing measured"]))],
        ["[[duty]]", f'name = "usual"{draw(st.sampled_from(["", "   # on Sundays"]))}', "speed = 50"],
    ]
    if draw(st.booleans()):
        sections.append(["[confirmed]", f"causes = {json.dumps([draw(st.sampled_from(CAUSE_IDS))])}"])
    lines = ['format = "toptank-job-1"', ""]
    for section in draw(st.permutations(sections)):
        lines += [*section, draw(st.sampled_from(["", "   ", "# ---"]))]
    for _ in range(draw(st.integers(0, 4))):
        lines.insert(draw(st.integers(0, len(lines))), "#" + draw(COMMENTS))
    mark = MARK if draw(st.booleans()) else ""
    return mark + draw(st.sampled_from(["\n", "\r\n"])).join(lines) + draw(st.sampled_from(["", "\n", "\n\n"]))


def _quoted(text: str) -> str:
    return json.dumps(text, ensure_ascii=False)


NOTES = st.lists(st.builds(Note, at=st.just(AT), author=WORDS, text=WORDS | st.just("two\nlines")), max_size=3)


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(text=documents(), notes=NOTES)
def test_a_job_comes_back_from_a_file_without_loss(tmp_path: Path, text: str, notes: list[Note]) -> None:
    with opened(tmp_path / "one.sqlite") as store:
        first = kept.add_job(store, text, author="", note="", at=AT, notes=notes)
        there = kept.record(store, first.job)
    out = tmp_path / "job.toml"
    out.write_bytes(written_out(there.shown, there.notes).encode("utf-8"))
    carried = read_carried(out)
    assert (carried.text, list(carried.notes)) == (text, notes)
    assert (carried.job, carried.revision) == (first.job, 1)
    with opened(tmp_path / "other.sqlite") as other:
        again = kept.add_job(other, carried.text, author="", note="", at=AT, notes=carried.notes)
        back = kept.record(other, again.job)
    assert (back.shown.text, list(back.notes), back.shown.state) == (text, notes, there.shown.state)


@given(text=documents())
@example(text='format="toptank-job-1"\n# toptank record 1: job 1, revision 1, checksum 0123456789ab, 0 notes\n')
def test_a_file_within_a_file_comes_back_too(text: str) -> None:
    once = kept.Revision(
        job=1, number=1, parent=None, at=AT, author="", note="", title="", complaint="", state="open",
        checksum=kept.checksum(text), text=text,
    )  # fmt: skip
    twice = written_out(once, [])
    assert read_back(twice).text == text
    again = kept.Revision(
        job=2, number=4, parent=3, at=AT, author="", note="", title="", complaint="", state="open",
        checksum=kept.checksum(twice), text=twice,
    )  # fmt: skip
    assert read_back(written_out(again, [])).text == twice


@given(text=documents(), causes=st.lists(st.sampled_from(CAUSE_IDS), min_size=1, max_size=3), how=WORDS)
def test_closing_says_what_it_was_and_changes_nothing_else(text: str, causes: list[str], how: str) -> None:
    closed = document.with_confirmed(text, causes, [], how)
    before, after = document.parsed(text), document.parsed(closed)
    assert after.pop("confirmed") == {"causes": causes} | ({"how": how} if how else {})
    before.pop("confirmed", None)
    assert before == after
    assert document.told(closed).state == "closed"
    assert _comments_outside_of_confirmed(text) == _comments_outside_of_confirmed(closed)


@given(text=documents(), how=WORDS)
def test_opening_again_gives_back_the_text_before_closing(text: str, how: str) -> None:
    bare = document.without_confirmed(text)
    again = document.without_confirmed(document.with_confirmed(bare, ["gauge_reads_high"], [], how))
    assert again.rstrip("\r\n") == bare.rstrip("\r\n")
    assert document.told(again).state == "open"


def _comments_outside_of_confirmed(text: str) -> list[str]:
    found: list[str] = []
    within = False
    for line in text.removeprefix(MARK).split("\n"):
        within = line.startswith("[confirmed]") or (within and not line.startswith("causes"))
        if line.startswith("#") and not within:
            found.append(line.rstrip("\r"))
    return found


def test_a_heading_within_the_drivers_words_is_no_section() -> None:
    text = 'a = """\n[confirmed]\ncauses = 1\n"""\n[confirmed]\ncauses = ["x", """\n[job]\n"""]\n# of b\n[b]\nc = 1\n'
    assert document.without_confirmed(text) == 'a = """\n[confirmed]\ncauses = 1\n"""\n# of b\n[b]\nc = 1\n'


@pytest.mark.parametrize(
    "text", ['confirmed = { causes = ["gauge_reads_high"] }\n', 'confirmed.causes = ["gauge_reads_high"]\n']
)
def test_what_cannot_be_cut_out_safely_is_left_to_the_person(text: str) -> None:
    with pytest.raises(Refusal, match="by hand"):
        document.without_confirmed(text)


@pytest.mark.parametrize(
    "line",
    [
        "# toptank note: {}",
        "# toptank note: {broken}",
        '# toptank note: {"at": 1, "author": "", "text": ""}',
        '# toptank note: {"at": "", "author": "", "text": "\\u001b[2J"}',
        "format = 1",
    ],
)
def test_spoilt_notes_above_a_job_are_told(line: str) -> None:
    first = "# toptank record 1: job 1, revision 1, checksum 0123456789ab, 1 note"
    with pytest.raises(Refusal, match="cannot be read in the comments"):
        read_back(f"{first}\n{line}\n")


def test_a_job_with_many_long_notes_comes_back(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("TOPTANK_STORE", str(tmp_path))
    first = job_verbs.open_like("roadster-1960s-four", system="us")
    for number in range(6):
        job_verbs.add_note(first.job, f"{number}" * 64_000)
    out = tmp_path / "job.toml"
    assert len(export_verbs.export_to(first.job, out)[0]) > 256 * 1024  # more than a job file may have
    second = job_verbs.import_job(out)
    assert job_verbs.record(second.job).notes == job_verbs.record(first.job).notes
    assert second.text == first.text
    assert tomllib.loads(out.read_text(encoding="utf-8")) == document.parsed(first.text)
