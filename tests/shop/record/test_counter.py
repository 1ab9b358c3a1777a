"""Lists and the search know who came with what: told at the counter, kept with each revision, read from old records."""

import sqlite3
from contextlib import closing
from datetime import date
from pathlib import Path

import pytest
from sqlalchemy import create_engine

from toptank.shop.edit import edit
from toptank.shop.job.write_up import promised_day
from toptank.shop.record import export_verbs, job_verbs
from toptank.shop.record.store import jobs_and_revisions as kept
from toptank.shop.record.store import migrations
from toptank.shop.record.store.opening import opened
from toptank.units.refusal import Refusal

AT = "2026-01-02T03:04:05.000+00:00"
HEAD = 'format = "toptank-job-2"\n[job]\ntitle = "{title}"\ncomplaint = "{complaint}"\n[vehicle]\nlike = "{like}"\n'
DUTY = '[[duty]]\nname = "usual"\n'


def _text(title: str, like: str = "pickup-1970s-v8-air", complaint: str = "", **write_up: str) -> str:
    said = "".join(f'{key} = "{text}"\n' for key, text in write_up.items())
    return HEAD.format(title=title, complaint=complaint, like=like) + (f"[write_up]\n{said}" if said else "") + DUTY


@pytest.fixture
def store(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    file = tmp_path / "jobs.sqlite"
    monkeypatch.setenv("TOPTANK_STORE", str(file))
    return file


@pytest.mark.parametrize(
    ("search", "found"),
    [
        ("kb 17-21", [1]),
        ("kb1721", [1]),  # as it is typed in a hurry
        ("KB17", [1]),
        ("miller", [2]),
        ("5550142", [2]),
        ("555-0142", [2]),
        ("roadster", [2]),  # the kind of vehicle, which stands in no title
        ("half-ton", [1]),  # so it is called on the page
        ("boils miller", [2]),
        ("boils kb1721", []),
        ("customer", []),  # the name of an entry is no word of it
    ],
)
def test_a_job_is_found_by_plate_customer_phone_and_kind_of_vehicle(store: Path, search: str, found: list[int]) -> None:
    job_verbs.open_text(_text("Red one", registration="KB 17-21"))
    job_verbs.open_text(
        _text("Blue one", "roadster-1960s-four", "boils", customer="J. Miller", phone="(555) 0142")
    )  # fmt: skip
    assert [row.number for row in job_verbs.listed(search=search)] == found


def test_an_open_job_is_in_work_or_waits_and_a_closed_one_waits_for_nothing(store: Path) -> None:
    for waiting in ("", "parts", "customer", "parts"):
        job_verbs.open_text(_text("Van", **({"waiting_for": waiting} if waiting else {})))
    job_verbs.close(4, ["fan_clutch_slips"])

    def numbers(state: str | None) -> list[int]:
        return [row.number for row in job_verbs.listed(state=state)]

    assert numbers(None) == [1, 2, 3, 4]
    assert numbers("open") == [1, 2, 3]
    assert (numbers("in work"), numbers("in-work")) == ([1], [1])
    assert numbers("waiting-for-parts") == [2]
    assert numbers("Waiting for customer") == [3]
    assert numbers("closed") == [4]
    assert [row.stands for row in job_verbs.listed()] == [
        "in_work", "waiting_for_parts", "waiting_for_customer", "closed",
    ]  # fmt: skip
    with pytest.raises(Refusal, match="state = waiting for part: is no state of a job; did you mean"):
        numbers("waiting for part")


def test_what_is_written_at_the_counter_is_in_the_list_at_once_and_the_text_keeps_its_comments(store: Path) -> None:
    job_verbs.open_text("# by the door\n" + _text("Van", customer="Miller"))
    saved = edit.set_write_up(1, {"promised": "2026-12-04 noon", "waiting_for": "parts", "customer": ""})
    assert saved.number == 2
    assert saved.text.startswith("# by the door\n")
    (row,) = job_verbs.listed()
    assert (row.customer, row.promised, row.waiting_for) == ("", "2026-12-04 noon", "parts")
    assert (row.is_late(date(2026, 12, 4)), row.is_late(date(2026, 12, 5))) == (False, True)
    job_verbs.revert(1, 1)
    (row,) = job_verbs.listed()
    assert (row.customer, row.promised, row.stands) == ("Miller", "", "in_work")


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ({"waiting_for": "snow"}, "write_up.waiting_for = snow: is not waited for"),
        ({"customers": "Miller"}, "entry = customers: is not asked for at the counter; did you mean 'customer'"),
        ({"customer": "x" * 121}, "is longer than 120 signs"),
    ],
)
def test_an_entry_that_cannot_be_used_is_refused_and_nothing_is_changed(
    store: Path, said: dict[str, str], told: str
) -> None:
    job_verbs.open_text(_text("Van"))
    with pytest.raises(Refusal, match=told):
        edit.set_write_up(1, said)
    assert job_verbs.newest_revision(1) == 1


@pytest.mark.parametrize(
    ("written", "day"),
    [
        ("2026-12-04", date(2026, 12, 4)),
        (" 2026-12-04 noon", date(2026, 12, 4)),
        ("Friday noon", None),
        ("2026-13-04", None),
        ("", None),
    ],
)
def test_a_promise_names_a_day_only_where_it_says_year_month_and_day(written: str, day: date | None) -> None:
    assert promised_day(written) == day


def test_a_record_of_before_is_found_by_what_its_newest_revisions_say(store: Path) -> None:
    engine = create_engine(f"sqlite:///{store}")
    with engine.begin() as connection:
        migrations.apply_missing(connection, upto=8)
    engine.dispose()
    texts = [_text("Van", customer="Old Name"), _text("Van", customer="Miller", registration="KB 17-21"),
             "no [ TOML"]  # fmt: skip
    with closing(sqlite3.connect(store)) as file, file:  # as a toptank of that version did
        for number, job, text in ((1, 1, texts[0]), (2, 1, texts[1]), (1, 2, texts[2])):
            if number == 1:
                file.execute("INSERT INTO job (opened) VALUES (?)", (AT,))
            row = (job, number, None, AT, "", "", "Van", "", "open", kept.checksum(text), text)
            columns = "job, number, parent, at, author, note, title, complaint, state, checksum, text"
            file.execute(f"INSERT INTO revision ({columns}) VALUES ({', '.join('?' * len(row))})", row)
    with opened(store) as found:
        first, second = kept.listed(found)
        assert (first.customer, first.registration, first.vehicle) == ("Miller", "KB 17-21", "pickup-1970s-v8-air")
        assert (second.number, second.customer) == (2, "")
        assert [row.number for row in kept.listed(found, search="kb1721")] == [1]
        assert kept.listed(found, search="old name") == ()
        assert kept.revision(found, 1, 1).text == texts[0]


def test_a_job_that_is_carried_whole_is_found_there_by_its_plate(
    store: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    job_verbs.open_text(_text("Van", registration="KB 17-21"))
    export_verbs.export_whole(1, tmp_path / "one.zip")
    monkeypatch.setenv("TOPTANK_STORE", str(tmp_path / "other" / "jobs.sqlite"))
    export_verbs.import_whole(tmp_path / "one.zip")
    assert [row.registration for row in job_verbs.listed(search="kb1721")] == ["KB 17-21"]
