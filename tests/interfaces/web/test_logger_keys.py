"""A logger's key adds readings and logs to its job, opens nothing else, and can be ended by itself."""

import asyncio
import stat
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any

import httpx
import pytest

from toptank.interfaces.cli.commands.job_attachment_commands import restore
from toptank.interfaces.rest.application import PLACE
from toptank.interfaces.web.access import logger_keys
from toptank.interfaces.web.access.passphrase import TRIES, new_door
from toptank.interfaces.web.application import application
from toptank.shop.record import export_verbs, job_verbs
from toptank.units.refusal import Refusal

AT = "2026-01-02T03:04:05.000+00:00"
RIGHT = "four words nobody guesses"
JOB = 'format = "toptank-job-2"\n[vehicle]\nlike = "pickup-1970s-v8-air"\n[[duty]]\nname = "hill"\n'
LOG = b"clock, gauge, speed\n14:00, 195 F, 50 mph\n14:06, 215 F, 35 mph\n"


class Shop:
    """A server with a passphrase, two jobs, and a key for the first of them."""

    def __init__(self, folder: Path) -> None:
        """Open the jobs and make the key."""
        for _ in range(2):
            job_verbs.open_text(JOB)
        self.file = folder / logger_keys.NAME
        self.app = application(door=new_door(folder / "passphrase.json", RIGHT), warm=False)
        self.key, self.kept = logger_keys.made(self.file, 1, "scan tool, bay 2", AT)

    def ask(self, method: str, address: str, key: str = "", **more: Any) -> int:
        """Return the code of an answer."""
        headers = {"authorization": f"Bearer {key or self.key}"}

        async def asked() -> int:
            transport = httpx.ASGITransport(self.app)
            async with httpx.AsyncClient(transport=transport, base_url="http://127.0.0.1:8322") as client:
                return (await client.request(method, f"{PLACE}{address}", headers=headers, **more)).status_code

        with ThreadPoolExecutor(1) as worker:
            return worker.submit(asyncio.run, asked()).result()


@pytest.fixture
def shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Shop:
    monkeypatch.setenv("TOPTANK_STORE", str(tmp_path / "jobs.sqlite"))
    return Shop(tmp_path)


def test_it_adds_readings_and_logs_to_its_job_and_opens_nothing_else(shop: Shop) -> None:
    reading = {"duty": "hill", "gauge": "218 F"}
    assert shop.ask("POST", "/jobs/1/readings", json=reading) == 201
    assert shop.ask("POST", "/jobs/1/attachments?name=hill.csv", content=LOG) == 201
    assert len(job_verbs.record(1).attachments) == 1
    assert job_verbs.stored_job(1).evidence.readings[0].duty == "hill"
    for method, address in (
        ("POST", "/jobs/2/readings"),
        ("POST", "/jobs/2/attachments?name=hill.csv"),
        ("POST", "/jobs/01/readings"),
        ("POST", "/jobs/1/readings/"),
        ("POST", "/jobs/1/../2/readings"),
        ("POST", "/jobs/1/close"),
        ("POST", "/jobs/1/write-up"),
        ("POST", "/jobs/1/notes"),
        ("POST", "/jobs"),
        ("PUT", "/jobs/1"),
        ("GET", "/jobs"),
        ("GET", "/jobs/1"),
        ("GET", "/jobs/1/attachments"),
        ("GET", "/jobs/1/file"),
        ("GET", "/vehicles"),
    ):
        assert shop.ask(method, address, json=reading) == 403, (method, address)
    assert job_verbs.newest_revision(2) == 1


def test_a_key_that_was_ended_or_made_up_is_a_wrong_passphrase_and_is_throttled_like_one(shop: Shop) -> None:
    made_up = logger_keys.START + "A" * 22
    assert shop.ask("POST", "/jobs/1/readings", key=made_up, json={}) == 401
    assert logger_keys.ended(shop.file, shop.kept.id).name == "scan tool, bay 2"
    codes = [shop.ask("POST", "/jobs/1/readings", json={}) for _ in range(TRIES)]
    assert codes == [401] * (TRIES - 1) + [429]
    with pytest.raises(Refusal, match="is not there"):
        logger_keys.ended(shop.file, shop.kept.id)


def test_ending_one_leaves_the_others(shop: Shop) -> None:
    other, kept = logger_keys.made(shop.file, 2, "dongle", AT)
    logger_keys.ended(shop.file, shop.kept.id)
    assert [one.name for one in logger_keys.keys(shop.file)] == ["dongle"]
    assert logger_keys.known(shop.file, other) == kept


def test_of_a_key_only_a_hash_is_kept_where_its_owner_alone_can_read_it(shop: Shop) -> None:
    text = shop.file.read_text(encoding="utf-8")
    assert shop.key not in text
    assert shop.key.removeprefix(logger_keys.START) not in text
    assert shop.kept.hashed in text
    assert stat.S_IMODE(shop.file.stat().st_mode) == 0o600
    assert len(shop.key) >= len(logger_keys.START) + 22  # 128 bits in base64


def test_a_file_that_cannot_be_read_lets_no_logger_in(shop: Shop) -> None:
    shop.file.write_text('[{"id": 1', encoding="utf-8")
    assert logger_keys.keys(shop.file) == ()
    assert shop.ask("POST", "/jobs/1/readings", json={}) == 401


@pytest.mark.parametrize("name", ["", "  ", "x" * 61, "bay\x1b[2J"])
def test_a_key_needs_a_name_that_can_be_shown(tmp_path: Path, name: str) -> None:
    with pytest.raises(Refusal, match=r"name = .*: is needed, on one line"):
        logger_keys.made(tmp_path / "keys.json", 1, name, AT)
    assert not (tmp_path / "keys.json").exists()


def test_a_damaged_file_of_keys_is_never_written_over(shop: Shop) -> None:
    shop.file.write_text('[{"id": 1', encoding="utf-8")
    for change in (
        lambda: logger_keys.made(shop.file, 2, "dongle", AT),
        lambda: logger_keys.ended(shop.file, shop.kept.id),
        lambda: logger_keys.told(shop.file),
    ):
        with pytest.raises(Refusal, match=r"keys = .*cannot be read, so no logger is let in; move it away"):
            change()
    assert shop.file.read_text(encoding="utf-8") == '[{"id": 1'


def test_a_restored_record_lets_no_logger_of_the_record_before_in(
    shop: Shop, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    export_verbs.back_up(tmp_path / "one.zip")
    with pytest.raises(Refusal):
        restore(tmp_path / "one.zip")  # jobs are there and --force is not: nothing is restored, so no key ends
    assert len(logger_keys.keys(shop.file)) == 1
    capsys.readouterr()
    restore(tmp_path / "one.zip", force=True)
    assert "1 key for loggers ended with it" in " ".join(capsys.readouterr().out.split())
    assert logger_keys.keys(shop.file) == ()
    assert shop.ask("POST", "/jobs/1/readings", json={"duty": "hill", "gauge": "218 F"}) == 401
