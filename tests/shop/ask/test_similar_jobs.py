"""What closed jobs like one were: counted by a rule that is written down, and never more than the record says."""

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from toptank.shop.answers.words.naming import experience
from toptank.shop.ask import similar_jobs
from toptank.shop.ask.similar_jobs import MOST, similar
from toptank.shop.record import job_verbs
from toptank.units.refusal import Refusal

PICKUP, ROADSTER, COUPE = "pickup-1970s-v8-air", "roadster-1960s-four", "coupe-1960s-v8-air"
IDLE, HILL, FLAT = ("idle", "0 mph", "0 %"), ("hill", "40 mph", "6 %"), ("highway", "60 mph", "0 %")


@pytest.fixture(autouse=True)
def _store(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TOPTANK_STORE", str(tmp_path / "jobs.sqlite"))


def _job(like: str, *seen: tuple[tuple[str, str, str], str], was: str = "", invented: bool = False) -> int:
    lines = ['format = "toptank-job-2"', "[job]", 'title = "One"', 'limit = "225 F"']
    lines += ["invented = true"] if invented else []
    lines += ["[vehicle]", f'like = "{like}"']
    for (name, speed, grade), _ in seen:
        lines += ["[[duty]]", f'name = "{name}"', f'speed = "{speed}"', f'grade = "{grade}"']
    for (name, _, _), said in seen:
        key = "gauge" if said[0].isdigit() else "words"
        lines += ["[[reading]]", f'duty = "{name}"', f'{key} = "{said}"']
    number = job_verbs.open_text("\n".join((*lines, ""))).job
    if was:
        job_verbs.close(number, [was])
    return number


def test_three_like_this_and_what_two_of_them_were() -> None:
    _job(PICKUP, (HILL, "hot"), was="fan_clutch_slips")
    _job(PICKUP, (IDLE, "fine"), was="tubes_scaled")  # the same vehicle, another manner
    _job(COUPE, (HILL, "230 F"), (IDLE, "fine"), was="fan_clutch_slips")  # another vehicle, the same manner
    _job(ROADSTER, (IDLE, "hot"), was="pump_worn")  # neither
    _job(PICKUP, (HILL, "hot"))  # not closed
    here = _job(PICKUP, (HILL, "boiled"), (FLAT, "warm"))
    found = similar(here)
    assert [(one.number, one.same_vehicle, one.same_manner) for one in found.jobs] == [
        (1, True, True), (3, False, True), (2, True, False),
    ]  # fmt: skip
    assert [(one.cause, one.jobs) for one in found.causes] == [("fan_clutch_slips", (1, 3)), ("tubes_scaled", (2,))]
    assert experience(found, "us") == (
        "3 closed jobs like this one: 2 fan clutch slipping (jobs 1, 3), 1 scale in the tubes (job 2)."
    )


def test_hot_on_the_hill_and_at_idle_is_another_manner_than_hot_on_the_hill() -> None:
    _job(ROADSTER, (HILL, "hot"), was="tubes_scaled")
    assert similar(_job(PICKUP, (HILL, "hot"), (IDLE, "hot"))).jobs == ()
    assert len(similar(_job(PICKUP, (HILL, "226 F"), (IDLE, "224 F"))).jobs) == 1  # the limit is 225


def test_where_nothing_was_read_the_manner_is_not_known_and_alike_to_none() -> None:
    _job(ROADSTER, (IDLE, "fine"), was="tubes_scaled")
    found = similar(_job(PICKUP, (IDLE, "fine")))
    assert found.jobs == ()
    assert experience(found, "us") == ""


def test_an_invented_job_is_no_experience_of_the_shop() -> None:
    _job(PICKUP, (HILL, "hot"), was="fan_clutch_slips", invented=True)
    assert similar(_job(PICKUP, (HILL, "hot"))).jobs == ()
    assert len(similar(_job(PICKUP, (HILL, "hot"), invented=True)).jobs) == 1


def test_a_job_that_was_opened_again_counts_no_more_and_itself_never() -> None:
    first = _job(PICKUP, (HILL, "hot"), was="fan_clutch_slips")
    assert similar(first).jobs == ()
    here = _job(PICKUP, (HILL, "hot"))
    assert experience(similar(here), "us") == "One closed job like this one: 1 fan clutch slipping (job 1)."
    job_verbs.reopen(first)
    assert similar(here).jobs == ()


def test_of_many_the_newest_are_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(similar_jobs, "MOST", 2)
    assert MOST == 12
    for _ in range(3):
        _job(PICKUP, (HILL, "hot"), was="fan_clutch_slips")
    assert [one.number for one in similar(_job(PICKUP, (HILL, "hot"))).jobs] == [3, 2]


def test_a_job_that_is_not_there_is_told() -> None:
    with pytest.raises(Refusal, match="job = 7: is not there"):
        similar(7)


def test_a_damaged_closed_job_is_left_out_and_the_others_are_told(tmp_path: Path) -> None:
    damaged = _job(PICKUP, (HILL, "hot"), was="fan_clutch_slips")
    whole = _job(PICKUP, (HILL, "hot"), was="tubes_scaled")
    here = _job(PICKUP, (HILL, "hot"))
    assert [one.number for one in similar(here).jobs] == [whole, damaged]
    with closing(sqlite3.connect(tmp_path / "jobs.sqlite")) as store, store:
        for (name,) in store.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'").fetchall():
            store.execute(f"DROP TRIGGER {name}")  # what guards revisions would not let a disk fail
        changed = store.execute("UPDATE revision SET text = text || '#' WHERE job = ?", (damaged,)).rowcount
    assert changed >= 1
    found = similar(here)
    assert [one.number for one in found.jobs] == [whole]
    assert [one.cause for one in found.causes] == ["tubes_scaled"]
    with pytest.raises(Refusal, match="is damaged"):
        similar(damaged)
