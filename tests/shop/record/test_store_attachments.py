"""Photos and logs: kept as they are, under no name that anybody chose."""

import hashlib
import os
from collections.abc import Iterator
from pathlib import Path

import pytest

from toptank.shop.record.store import attachments
from toptank.shop.record.store import jobs_and_revisions as kept
from toptank.shop.record.store.attachments import attach, content, shown_name
from toptank.shop.record.store.opening import Store, opened
from toptank.shop.record.store.record import StoreTrouble
from toptank.units.refusal import Refusal

AT = "2026-01-02T03:04:05.000+00:00"
TEXT = """format = "toptank-job-1"
[vehicle]
like = "pickup-1970s-v8-air"
[[duty]]
name = "usual"
"""


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    with opened(tmp_path / "shop" / "jobs.sqlite") as store:
        kept.add_job(store, TEXT, author="", note="", at=AT)
        yield store


def _files(store: Store) -> list[Path]:
    return [path for path in store.attachments.rglob("*") if path.is_file()]


def test_a_file_is_kept_under_its_checksum_and_comes_back(store: Store, tmp_path: Path) -> None:
    photo = tmp_path / "core.jpg"
    photo.write_bytes(os.urandom(3_000_000))
    kept_one = attach(store, 1, photo, at=AT)
    digest = hashlib.sha256(photo.read_bytes()).hexdigest()
    assert (kept_one.checksum, kept_one.name, kept_one.size) == (digest, "core.jpg", 3_000_000)
    assert _files(store) == [store.attachments / digest[:2] / digest]
    assert content(store, 1, digest[:8]) == (kept_one, photo.read_bytes())
    assert kept.record(store, 1).attachments == (kept_one,)


def test_the_same_file_twice_is_kept_once(store: Store, tmp_path: Path) -> None:
    for name in ("one.log", "two.log"):
        (tmp_path / name).write_text("188 F\n", encoding="utf-8")
    assert attach(store, 1, tmp_path / "one.log", at=AT) == attach(store, 1, tmp_path / "two.log", at=AT)
    assert len(_files(store)) == 1


@pytest.mark.parametrize(
    "name",
    [
        "...",
        "-rf",
        "con.txt",
        "a b;rm *.log",
        "\x1b[2J.log",
        "new\nline.log",
        "..\\..\\jobs.sqlite",
        "%2e%2e%2fjobs.sqlite",
        "jobs.sqlite",
        "x" * 250,
        "\u202egpj.exe",
    ],
)
def test_no_name_leads_anywhere(store: Store, tmp_path: Path, name: str) -> None:
    odd = tmp_path / name
    odd.write_bytes(name.encode())
    before = {path for path in tmp_path.rglob("*") if store.attachments not in path.parents}
    kept_one = attach(store, 1, odd, at=AT)
    digest = hashlib.sha256(name.encode()).hexdigest()
    assert _files(store) == [store.attachments / digest[:2] / digest]
    assert {path for path in tmp_path.rglob("*") if store.attachments not in path.parents} - before <= {
        store.attachments
    }
    assert kept_one.name.isprintable()
    assert len(kept_one.name) <= 120
    assert "/" not in kept_one.name
    assert "\\" not in kept_one.name


@pytest.mark.parametrize(
    ("name", "shown"),
    [
        ("../../etc/passwd", "passwd"),
        ("C:\\shop\\core.jpg", "core.jpg"),
        ("core.jpg", "core.jpg"),
        ("a/", "without a name"),
        ("a\x00b", "a?b"),
    ],
)
def test_only_the_last_part_of_a_name_is_shown(name: str, shown: str) -> None:
    assert shown_name(name) == shown


@pytest.mark.parametrize("start", ["", "../..", "ABCDE", "zzzzzzzz", "0" * 70, "%", "______"])
def test_a_checksum_that_names_no_file_is_refused(store: Store, tmp_path: Path, start: str) -> None:
    (tmp_path / "log").write_text("1", encoding="utf-8")
    attach(store, 1, tmp_path / "log", at=AT)
    with pytest.raises(Refusal, match="must be the first 6 digits"):
        content(store, 1, start)


def test_a_file_of_another_job_is_not_handed_out(store: Store, tmp_path: Path) -> None:
    (tmp_path / "log").write_text("1", encoding="utf-8")
    mine = attach(store, 1, tmp_path / "log", at=AT)
    kept.add_job(store, TEXT, author="", note="", at=AT)
    with pytest.raises(Refusal, match="checksum"):
        content(store, 2, mine.checksum)


def test_a_file_that_was_changed_on_the_disk_is_not_handed_out(store: Store, tmp_path: Path) -> None:
    (tmp_path / "log").write_bytes(b"188 F\n" * 100)
    mine = attach(store, 1, tmp_path / "log", at=AT)
    (lies,) = _files(store)
    lies.write_bytes(lies.read_bytes().replace(b"188", b"198", 1))
    with pytest.raises(StoreTrouble, match="does not fit its checksum"):
        content(store, 1, mine.checksum)
    lies.unlink()
    with pytest.raises(StoreTrouble, match="is lost"):
        content(store, 1, mine.checksum)


def test_attaching_again_mends_a_file_that_was_spoilt(store: Store, tmp_path: Path) -> None:
    (tmp_path / "log").write_bytes(b"188 F\n")
    mine = attach(store, 1, tmp_path / "log", at=AT)
    _files(store)[0].write_bytes(b"")
    attach(store, 1, tmp_path / "log", at=AT)
    assert content(store, 1, mine.checksum)[1] == b"188 F\n"


def test_too_large_a_file_is_refused_and_nothing_stays(
    store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert attachments.LARGEST == 64 * 1024**2  # as the task has it
    monkeypatch.setattr(attachments, "LARGEST", 2 * 1024**2)
    large = tmp_path / "log"
    large.write_bytes(bytes(2 * 1024**2))
    attach(store, 1, large, at=AT)
    large.write_bytes(bytes(2 * 1024**2 + 1))
    with pytest.raises(Refusal, match="is larger than 2 MiB"):
        attach(store, 1, large, at=AT)
    assert len(_files(store)) == 1


def test_what_is_no_file_is_refused(store: Store, tmp_path: Path) -> None:
    pipe, link, empty = tmp_path / "pipe", tmp_path / "link", tmp_path / "empty"
    os.mkfifo(pipe)
    link.symlink_to("/dev/zero")
    empty.touch()
    for path, why in ((pipe, "not a file"), (link, "not a file"), (tmp_path, "not a file"), (empty, "is empty")):
        with pytest.raises(Refusal, match=why):
            attach(store, 1, path, at=AT)
    with pytest.raises(Refusal, match="cannot be read"):
        attach(store, 1, tmp_path / "nothing", at=AT)
    with pytest.raises(Refusal, match="is not there"):
        attach(store, 5, empty, at=AT)
    assert _files(store) == []
