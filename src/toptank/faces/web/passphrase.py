"""The passphrase of a server that others in the shop can reach: kept as a hash, tried slowly, known by a cookie."""

import base64
import contextlib
import hashlib
import hmac
import json
import os
import secrets
import time
from collections.abc import Mapping
from dataclasses import dataclass, field
from http.cookies import CookieError, SimpleCookie
from pathlib import Path

from argon2 import PasswordHasher
from argon2.exceptions import InvalidHashError, VerificationError

from toptank.units.refusal import Refusal

COOKIE = "toptank_session"
SHORTEST = 10
"""Signs of a passphrase at least; guessing is throttled besides."""

LASTS = 14 * 24 * 3600
"""How long a browser stays signed in [s]."""

TRIES, WINDOW = 5, 60.0
"""So many wrong passphrases in so many seconds, from all senders together: then nobody is heard till it is over [s]."""


@dataclass(slots=True)
class Door:
    """Knows who may come in.

    Parameters
    ----------
    hashed : the passphrase as argon2 hashed it
    secret : signs the cookies; a new passphrase brings a new one
    failures : when wrong passphrases came; heard : marks of right ones
    """

    hashed: str
    secret: bytes
    failures: list[float] = field(default_factory=list[float])
    heard: set[bytes] = field(default_factory=set[bytes])

    def wait(self) -> float:
        """Seconds until another passphrase is heard."""
        now = time.monotonic()
        self.failures = [at for at in self.failures if now - at < WINDOW]
        return 0.0 if len(self.failures) < TRIES else WINDOW - (now - self.failures[-TRIES])

    def opens(self, passphrase: str) -> bool:
        """Whether this is the passphrase; a wrong one counts."""
        if self.wait() > 0.0:
            return False
        with contextlib.suppress(VerificationError, InvalidHashError):
            if PasswordHasher().verify(self.hashed, passphrase):
                return True
        self.failures.append(time.monotonic())
        return False

    def token(self) -> str:
        """Return what the cookie of a known browser holds: an end, and a signature upon it."""
        end = str(int(time.time()) + LASTS)
        return f"{end}.{self._signature(end)}"

    def knows(self, headers: Mapping[str, str]) -> bool:
        """Whether a request carries a cookie of ours, or the passphrase as bearer token."""
        with contextlib.suppress(CookieError):
            morsel = SimpleCookie(headers.get("cookie", "")).get(COOKIE)
            if morsel is not None and self._signed(morsel.value):
                return True
        kind, _, given = headers.get("authorization", "").partition(" ")
        mark = hmac.digest(self.secret, given.strip().encode(), hashlib.sha256)
        if kind.lower() != "bearer" or (mark not in self.heard and not self.opens(given.strip())):
            return False
        self.heard.add(mark)  # a logger that posts every second is not to wait for the hash each time
        return True

    def _signed(self, token: str) -> bool:
        end, _, signature = token.partition(".")
        return end.isdigit() and hmac.compare_digest(signature, self._signature(end)) and int(end) > time.time()

    def _signature(self, end: str) -> str:
        return base64.urlsafe_b64encode(hmac.digest(self.secret, end.encode(), hashlib.sha256)).decode()


def door_kept_in(file: Path) -> Door | None:
    """Read the door that was kept, or None if there is none."""
    try:
        kept = json.loads(file.read_text(encoding="utf-8"))
        return Door(hashed=kept["hashed"], secret=bytes.fromhex(kept["secret"]))
    except (OSError, ValueError, KeyError, TypeError):
        return None


def new_door(file: Path, passphrase: str) -> Door:
    """Make a door for a passphrase and keep it, readable by its owner only; every browser must sign in anew.

    Raises
    ------
    Refusal : if the passphrase is too short
    """
    if len(passphrase) < SHORTEST:
        fix = "take three or four words that nobody would guess"
        limit = f"must have at least {SHORTEST} signs"
        raise Refusal(field="passphrase", value="(not shown)", limit=limit, fix=fix)
    door = Door(hashed=PasswordHasher().hash(passphrase), secret=secrets.token_bytes(32))
    file.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    handle = os.open(file, os.O_CREAT | os.O_WRONLY | os.O_TRUNC, 0o600)
    with os.fdopen(handle, "w", encoding="utf-8") as out:
        json.dump({"hashed": door.hashed, "secret": door.secret.hex()}, out)
    return door
