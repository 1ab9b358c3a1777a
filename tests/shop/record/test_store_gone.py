"""A record that has gone or was emptied is no new shop, and no backup of many jobs gives way to one of few."""

import json
import os
import subprocess
import sys
import zipfile
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from toptank.shop.record import export_verbs, job_verbs
from toptank.shop.record.store import generations
from toptank.shop.record.store.backup import MANIFEST, jobs_in_backup
from toptank.shop.record.store.opening import opened
from toptank.shop.record.store.record import StoreTrouble
from toptank.units.refusal import Refusal

MORNING = datetime(2026, 3, 2, 8, 0, tzinfo=UTC)  # a Monday


@pytest.fixture
def shop(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Path:
    """Return the folder of a record with two jobs and an attachment."""
    folder = tmp_path / "shop"
    monkeypatch.setenv("TOPTANK_STORE", str(folder))
    monkeypatch.delenv("TOPTANK_BACKUPS", raising=False)
    for _ in range(2):
        job_verbs.open_like("roadster-1960s-four", system="us")
    (tmp_path / "log.csv").write_text("188 F at the pass\n", encoding="utf-8")
    job_verbs.attach(1, tmp_path / "log.csv")
    return folder


def _lose(shop: Path, how: str) -> None:
    for one in shop.glob("jobs.sqlite*"):
        if one.is_file():
            one.unlink()
    if how == "emptied":
        (shop / "jobs.sqlite").touch()


@pytest.mark.parametrize(("how", "said"), [("vanished", "is not there"), ("emptied", "is empty")])
def test_a_record_that_has_gone_is_told_and_nothing_is_begun_in_its_place(shop: Path, how: str, said: str) -> None:
    _lose(shop, how)
    for verb in (job_verbs.listed, lambda: job_verbs.open_like("roadster-1960s-four", system="us")):
        with pytest.raises(StoreTrouble, match=f"{said}, but jobs.sqlite.attachments beside it"):
            verb()
    assert (shop / "jobs.sqlite").exists() == (how == "emptied")


@pytest.mark.parametrize("how", ["vanished", "emptied"])
def test_a_record_that_has_gone_comes_back_from_a_backup(shop: Path, tmp_path: Path, how: str) -> None:
    assert export_verbs.back_up(tmp_path / "mine.zip") == 2
    _lose(shop, how)
    assert export_verbs.restore(tmp_path / "mine.zip") == (2, None)
    assert len(job_verbs.listed()) == 2


def test_a_record_without_attachments_is_missed_by_its_backups(shop: Path) -> None:
    assert export_verbs.back_up_by_itself() is not None
    _lose(shop, "vanished")
    for one in sorted((shop / "jobs.sqlite.attachments").rglob("*"), reverse=True):
        one.unlink() if one.is_file() else one.rmdir()
    with pytest.raises(StoreTrouble, match=r"is not there, but jobs\.sqlite\.backups beside it"):
        job_verbs.listed()


def test_a_backup_gives_way_only_to_one_with_as_many_jobs(
    shop: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    target = tmp_path / "mine.zip"
    export_verbs.back_up(target)
    export_verbs.back_up(target, replace=True)
    before = target.read_bytes()
    monkeypatch.setenv("TOPTANK_STORE", str(tmp_path / "another shop"))
    job_verbs.open_like("roadster-1960s-four", system="us")
    with pytest.raises(Refusal, match="holds 2 jobs and the record now 1") as refused:
        export_verbs.back_up(target, replace=True)
    assert "--fewer" in str(refused.value)
    assert target.read_bytes() == before
    assert export_verbs.back_up(target, replace=True, fewer=True) == 1
    assert shop.is_dir()


def test_a_backup_of_before_its_list_told_the_number_is_counted(shop: Path, tmp_path: Path) -> None:
    export_verbs.back_up(tmp_path / "mine.zip")
    with zipfile.ZipFile(tmp_path / "mine.zip") as new, zipfile.ZipFile(tmp_path / "old.zip", "w") as old:
        for name in new.namelist():
            content = new.read(name)
            if name == MANIFEST:
                told = json.loads(content)
                assert told.pop("jobs") == 2
                content = json.dumps(told).encode()
            old.writestr(name, content)
    assert jobs_in_backup(tmp_path / "old.zip") == 2
    (tmp_path / "none.zip").write_bytes(b"PK nothing")
    assert jobs_in_backup(tmp_path / "none.zip") is None
    assert shop.is_dir()


def test_the_app_keeps_a_week_of_days_and_five_weeks(shop: Path) -> None:
    for day in range(60):
        with opened() as store:
            job_verbs.add_note(1, f"day {day}")
            os.utime(shop / "jobs.sqlite")
            assert generations.keep(store, MORNING + timedelta(days=day)) is not None
        for one in (shop / "jobs.sqlite.backups").iterdir():  # the clock of the test runs faster than that of the disk
            os.utime(one, (one.stat().st_mtime - 60, one.stat().st_mtime - 60))
    kept = sorted(path.name for path in (shop / "jobs.sqlite.backups").iterdir())
    last = MORNING + timedelta(days=59)
    assert [name for name in kept if name.startswith("day")] == [
        f"day-{last - timedelta(days=back):%Y-%m-%d}.zip" for back in range(6, -1, -1)
    ]
    assert [name for name in kept if name.startswith("week")] == [
        f"week-{last - timedelta(weeks=back):%G-W%V}.zip" for back in range(4, -1, -1)
    ]
    assert {jobs_in_backup(shop / "jobs.sqlite.backups" / name) for name in kept} == {2}


def test_nothing_new_makes_no_new_backup(shop: Path) -> None:
    made = export_verbs.back_up_by_itself()
    assert made is not None
    ahead = made.stat().st_mtime + 5
    for one in made.parent.iterdir():
        os.utime(one, (ahead, ahead))
    assert export_verbs.back_up_by_itself() is None
    for one in shop.glob("jobs.sqlite*"):
        os.utime(one, (ahead + 5, ahead + 5))
    assert export_verbs.back_up_by_itself() == made


def test_the_apps_own_backups_never_get_fewer_jobs(shop: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TOPTANK_BACKUPS", str(tmp_path / "other disk"))
    assert export_verbs.back_up_by_itself() is not None
    monkeypatch.setenv("TOPTANK_STORE", str(tmp_path / "another shop"))
    job_verbs.open_like("roadster-1960s-four", system="us")
    before = {path.name: path.read_bytes() for path in (tmp_path / "other disk").iterdir()}
    with pytest.raises(Refusal, match="holds 2 jobs and the record now 1"):
        export_verbs.back_up_by_itself()
    assert {path.name: path.read_bytes() for path in (tmp_path / "other disk").iterdir()} == before
    assert shop.is_dir()


def test_backups_can_be_left_off_and_an_empty_record_makes_none(
    shop: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("TOPTANK_BACKUPS", "off")
    assert export_verbs.back_up_by_itself() is None
    monkeypatch.delenv("TOPTANK_BACKUPS")
    monkeypatch.setenv("TOPTANK_STORE", str(tmp_path / "new shop"))
    assert export_verbs.back_up_by_itself() is None
    assert not (tmp_path / "new shop" / "jobs.sqlite.backups").exists()
    assert shop.is_dir()


def test_what_a_killed_program_left_is_swept_at_the_next_start(shop: Path) -> None:
    dead = subprocess.run([sys.executable, "-c", "import os; print(os.getpid())"], capture_output=True, check=True)
    number = int(dead.stdout)
    left = [
        shop / f".{number}-0a1b2c3d.part",
        shop / f".{number}.part",
        shop / f".backup-{number}-x_1" / "jobs.sqlite",
        shop / "jobs.sqlite.attachments" / f".{number}-0a1b2c3d.part",
    ]
    ours = [shop / f".{os.getpid()}-0a1b2c3d.part", shop / ".hidden", shop / f"{number}.part"]
    for one in (*left, *ours):
        one.parent.mkdir(exist_ok=True)
        one.touch()
    command = [sys.executable, "-c", "from toptank.shop.record import job_verbs; print(len(job_verbs.listed()))"]
    assert subprocess.run(command, capture_output=True, check=True).stdout == b"2\n"
    assert [one for one in left if one.exists()] == []
    assert not (shop / f".backup-{number}-x_1").exists()
    assert [one for one in ours if not one.exists()] == []
