"""The passphrase: how it is kept, who may guess how often, and whom a server then knows."""

import json
import stat
from pathlib import Path

import pytest

from toptank.interfaces.web import server as serving
from toptank.interfaces.web.access import passphrase
from toptank.units.refusal import Refusal

RIGHT = "four words nobody guesses"


@pytest.fixture
def door(tmp_path: Path) -> passphrase.Door:
    return passphrase.new_door(tmp_path / "kept" / "passphrase.json", RIGHT)


def test_a_passphrase_is_kept_as_a_hash_that_only_its_owner_can_read(tmp_path: Path) -> None:
    file = tmp_path / "kept" / "passphrase.json"
    passphrase.new_door(file, RIGHT)
    kept = json.loads(file.read_text(encoding="utf-8"))
    assert kept["hashed"].startswith("$argon2id$")
    assert RIGHT not in file.read_text(encoding="utf-8")
    assert stat.S_IMODE(file.stat().st_mode) == 0o600
    again = passphrase.door_kept_in(file)
    assert again is not None
    assert again.opens(RIGHT, "address 10.0.0.1")
    with pytest.raises(Refusal):
        passphrase.new_door(file, "short")


def test_wrong_passphrases_are_throttled_and_then_even_the_right_one_waits(door: passphrase.Door) -> None:
    here = "address 10.0.0.1"
    for _ in range(passphrase.TRIES):
        assert not door.opens("wrong words of somebody", here)
    assert 0.0 < door.wait(here) <= passphrase.WINDOW
    assert not door.opens(RIGHT, here)
    door.failures.clear()
    assert door.opens(RIGHT, here)


def test_whoever_guesses_keeps_no_other_sender_out(door: passphrase.Door) -> None:
    for _ in range(passphrase.TRIES):
        door.opens("wrong words of somebody", "address 10.0.0.1")
    assert door.wait("address 10.0.0.1") > 0.0
    assert door.opens(RIGHT, "address 10.0.0.2")


def test_many_addresses_together_are_throttled_but_never_a_browser_that_was_in_before(
    door: passphrase.Door, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(passphrase.Door, "fits", lambda _, words: words == RIGHT)
    for number in range(passphrase.TRIES_OF_ALL):
        assert door.tried("wrong words of somebody", f"address 10.0.1.{number}") == (False, 0.0)
    assert door.tried(RIGHT, "address 10.0.2.1")[1] > 0.0
    signed_out = {"cookie": f"{passphrase.COOKIE}={door.token()}"}
    door.end(signed_out)
    assert not door.knows(signed_out)
    assert door.opens(RIGHT, door.sender(signed_out, "10.0.1.1"))
    assert len(door.failures) <= passphrase.MOST_SENDERS


@pytest.mark.parametrize(
    ("headers", "address", "sender"),
    [
        ({}, "10.0.0.1", "address 10.0.0.1"),
        ({"cookie": f"{passphrase.COOKIE}=99999999999.0011223344556677.forged"}, "10.0.0.1", "address 10.0.0.1"),
        ({}, "2001:db8:1:2:3:4:5:6", "address 2001:db8:1:2::/64"),
        ({}, "2001:db8:1:2:ffff::1", "address 2001:db8:1:2::/64"),
        ({}, "", "address "),
    ],
)
def test_guesses_are_counted_by_who_sends_them(
    door: passphrase.Door, headers: dict[str, str], address: str, sender: str
) -> None:
    assert door.sender(headers, address) == sender


@pytest.mark.parametrize(
    "weak", ["1234567890", "password123", "qwertyuiop", "aaaaaaaaaaaa", "toptank2026", "12.08.1974!"]
)
def test_a_passphrase_that_anybody_would_try_is_not_taken(weak: str, tmp_path: Path) -> None:
    with pytest.raises(Refusal, match=r"passphrase = .*among the first that a stranger would try") as refused:
        passphrase.new_door(tmp_path / "passphrase.json", weak)
    assert weak not in str(refused.value)
    assert not (tmp_path / "passphrase.json").exists()


def test_over_an_encrypted_way_only_the_cookie_that_is_bound_to_this_host_is_known(door: passphrase.Door) -> None:
    door.encrypted = True
    assert passphrase.ENCRYPTED_COOKIE.startswith("__Host-")
    assert door.knows({"cookie": f"{passphrase.ENCRYPTED_COOKIE}={door.token()}"})
    assert not door.knows({"cookie": f"{passphrase.COOKIE}={door.token()}"})  # which a neighbour could have planted


def test_whoever_signed_out_is_known_no_more_even_after_a_new_start(door: passphrase.Door) -> None:
    one, two = ({"cookie": f"{passphrase.COOKIE}={door.token()}"} for _ in range(2))
    door.end(one)
    assert door.file is not None
    again = passphrase.door_kept_in(door.file)
    assert again is not None
    for told in (door, again):
        assert (told.knows(one), told.knows(two)) == (False, True)
    assert stat.S_IMODE(door.file.stat().st_mode) == 0o600


def test_another_passphrase_than_the_kept_one_is_told_before_anything_is_served(tmp_path: Path) -> None:
    file = tmp_path / "passphrase.json"
    serving.door_of(file, lambda: RIGHT, new=False, given=RIGHT)
    other = "quite another four words"
    with pytest.raises(Refusal, match="--new-passphrase") as refused:
        serving.door_of(file, lambda: other, new=False, given=other)
    assert other not in str(refused.value)
    assert serving.door_of(file, lambda: RIGHT, new=False, given=RIGHT).fits(RIGHT)
    assert serving.door_of(file, lambda: other, new=True, given=other).fits(other)


def test_the_network_is_let_in_only_with_a_passphrase(tmp_path: Path) -> None:
    with pytest.raises(Refusal, match="is needed before others"):
        serving.door_of(tmp_path / "passphrase.json", None, new=False)
    made = serving.door_of(tmp_path / "passphrase.json", lambda: RIGHT, new=False)
    kept = serving.door_of(tmp_path / "passphrase.json", None, new=False)
    assert kept.knows({"cookie": f"{passphrase.COOKIE}={made.token()}"})
    other = serving.door_of(tmp_path / "passphrase.json", lambda: RIGHT, new=True)
    assert not other.knows({"cookie": f"{passphrase.COOKIE}={made.token()}"})
