"""The passphrase of a server that others in the shop can reach: kept as a hash, tried slowly, known by a cookie."""

import base64
import contextlib
import hashlib
import hmac
import ipaddress
import json
import os
import secrets
import socket
import threading
import time
from collections.abc import Mapping
from dataclasses import dataclass, field
from http.cookies import CookieError, SimpleCookie
from pathlib import Path

from argon2 import PasswordHasher
from argon2.exceptions import InvalidHashError, VerificationError

from toptank.units.refusal import Refusal

COOKIE = "toptank_session"
ENCRYPTED_COOKIE = f"__Host-{COOKIE}"
"""Where the way is encrypted: browsers take this name only with Secure and for this host alone (RFC 6265bis)."""

SHORTEST = 10
"""Signs of a passphrase at least; guessing is throttled besides."""

FEWEST_GUESSES = 1e8
"""A passphrase that would be found sooner is not taken.

`TRIES_OF_ALL` in a `WINDOW` are 32 million guesses a year, so this is three years of them. Judgement."""

_JUDGED = 72
"""So much of a passphrase is judged; the time to judge grows with its cube [sign]."""

LASTS = 14 * 24 * 3600
"""How long a browser stays signed in [s]."""

TRIES, WINDOW = 5, 60.0
"""So many wrong passphrases in so many seconds from one sender: then it is not heard till that is over [s]."""

TRIES_OF_ALL = 60
"""So many from all senders that are not known from before, together: addresses are cheap, and the hash is not."""

MOST_SENDERS = 4096

_LONGEST_END = 15
"""Digits of a time [sign]."""


@dataclass(slots=True)
class Door:
    """Knows who may come in.

    Parameters
    ----------
    hashed : the passphrase as argon2 hashed it
    secret : signs the cookies; a new passphrase brings a new one
    file : where all of it is kept
    failures : when wrong passphrases came, by sender; heard : marks of right ones
    ended : signatures of browsers that signed out, with the end that they would have had
    encrypted : whether the way to this server is encrypted
    """

    hashed: str
    secret: bytes
    file: Path | None = None
    failures: dict[str, list[float]] = field(default_factory=dict[str, list[float]])
    heard: set[bytes] = field(default_factory=set[bytes])
    ended: dict[str, int] = field(default_factory=dict[str, int])
    encrypted: bool = False
    _one_at_a_time: threading.Lock = field(default_factory=threading.Lock)

    @property
    def cookie(self) -> str:
        """Name of the cookie of a known browser."""
        return ENCRYPTED_COOKIE if self.encrypted else COOKIE

    def sender(self, headers: Mapping[str, str], address: str) -> str:
        """Return whose guesses are counted together: a browser that has signed in before, else an address.

        So a stranger who guesses keeps nobody out who was in before, nor any other address.
        """
        token = cookie(headers, self.cookie)
        if token is not None and self._is_ours(token):
            return f"browser {token.split('.')[1]}"
        with contextlib.suppress(ValueError):
            found = ipaddress.ip_address(address)
            if found.version == 6:  # a subscriber has at least so many of them
                return f"address {ipaddress.ip_network((found, 64), strict=False)}"
        return f"address {address}"

    def wait(self, sender: str) -> float:
        """Seconds until another passphrase of this sender is heard."""
        now = time.monotonic()
        waits = [_wait(self.failures.get(sender, []), TRIES, now)]
        if not sender.startswith("browser"):
            unknown = sorted(at for one, when in self.failures.items() if not one.startswith("browser") for at in when)
            waits.append(_wait(unknown, TRIES_OF_ALL, now))
        return max(waits)

    def tried(self, passphrase: str, sender: str) -> tuple[bool, float]:
        """Whether this is the passphrase, and how long this sender is not heard [s]; a wrong one counts.

        Takes as long as the hash takes. One guess at a time, so that none passes before the one before it is counted.
        """
        if (wait := self.wait(sender)) > 0.0:
            return False, wait
        with self._one_at_a_time:
            if (wait := self.wait(sender)) > 0.0:
                return False, wait
            if self.fits(passphrase):
                self.heard.add(self._mark(passphrase))  # a logger is not to wait for the hash each time
                return True, 0.0
            self._count(sender)
            return False, 0.0

    def opens(self, passphrase: str, sender: str) -> bool:
        """Whether this is the passphrase; a wrong one counts."""
        return self.tried(passphrase, sender)[0]

    def _count(self, sender: str) -> None:
        now = time.monotonic()
        recent = {one: [at for at in when if now - at < WINDOW] for one, when in self.failures.items()}
        recent = {one: when for one, when in recent.items() if when}
        recent[sender] = [*recent.get(sender, []), now]
        self.failures = dict(list(recent.items())[-MOST_SENDERS:])

    def fits(self, passphrase: str) -> bool:
        """Whether this is the passphrase; nothing is counted: for whoever starts the server."""
        with contextlib.suppress(VerificationError, InvalidHashError, UnicodeEncodeError):
            return PasswordHasher().verify(self.hashed, passphrase)
        return False

    def token(self) -> str:
        """Return what the cookie of a known browser holds: an end, a name of its own, and a signature upon them."""
        said = f"{int(time.time()) + LASTS}.{secrets.token_hex(16)}"
        return f"{said}.{self._signature(said)}"

    def knows(self, headers: Mapping[str, str]) -> bool:
        """Whether a request carries a cookie of ours, or a passphrase that was right before as bearer token."""
        token, given = cookie(headers, self.cookie), bearer(headers)
        return (token is not None and self._signed(token)) or (bool(given) and self._mark(given) in self.heard)

    def end(self, headers: Mapping[str, str]) -> None:
        """Let the cookie of a request be known no more, now and after a new start."""
        token = cookie(headers, self.cookie)
        if token is None or not self._signed(token):
            return
        now = time.time()
        with self._one_at_a_time:
            until, signature = token.partition(".")[0], token.rpartition(".")[2]
            self.ended = {one: end for one, end in self.ended.items() if end > now} | {signature: int(until)}
            with contextlib.suppress(OSError):  # a full disk: then it holds until a new start
                self.keep()

    def keep(self) -> None:
        """Write it into its file, readable by its owner only."""
        if self.file is None:
            return
        kept = {"hashed": self.hashed, "secret": self.secret.hex(), "ended": self.ended}
        written_privately(self.file, json.dumps(kept).encode("utf-8"))

    def _signed(self, token: str) -> bool:
        end, signature = token.partition(".")[0], token.rpartition(".")[2]
        return self._is_ours(token) and int(end) > time.time() and signature not in self.ended

    def _is_ours(self, token: str) -> bool:
        """Whether we gave this token out at some time, ended or not."""
        said, _, signature = token.rpartition(".")
        end = said.partition(".")[0]
        if not (end.isascii() and end.isdigit() and len(end) < _LONGEST_END and token.isascii()):
            return False
        return hmac.compare_digest(signature, self._signature(said))

    def _signature(self, said: str) -> str:
        return base64.urlsafe_b64encode(hmac.digest(self.secret, said.encode(), hashlib.sha256)).decode()

    def _mark(self, passphrase: str) -> bytes:
        return hmac.digest(self.secret, passphrase.encode("utf-8", "replace"), hashlib.sha256)


def written_privately(file: Path, content: bytes) -> None:
    """Write a file that its owner only may read, whole or not at all."""
    file.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    partial = file.with_name(f"{file.name}.{secrets.token_hex(4)}")
    with os.fdopen(os.open(partial, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600), "wb") as out:
        out.write(content)
    partial.replace(file)


def _wait(failures: list[float], tries: int, now: float) -> float:
    recent = [at for at in failures if now - at < WINDOW]
    return 0.0 if len(recent) < tries else WINDOW - (now - recent[-tries])


def cookie(headers: Mapping[str, str], name: str) -> str | None:
    """Return what a request carries as a cookie of that name."""
    with contextlib.suppress(CookieError):
        morsel = SimpleCookie(headers.get("cookie", "")).get(name)
        return None if morsel is None else morsel.value
    return None


def bearer(headers: Mapping[str, str]) -> str:
    """Return the passphrase that a program sends along; empty where there is none."""
    kind, _, given = headers.get("authorization", "").partition(" ")
    if kind.lower() != "bearer":
        return ""
    with contextlib.suppress(UnicodeError):  # headers are read as Latin-1, whatever letters were sent
        given = given.encode("latin-1").decode("utf-8")
    return given.strip()


def door_kept_in(file: Path) -> Door | None:
    """Read the door that was kept, or None if there is none."""
    try:
        kept = json.loads(file.read_text(encoding="utf-8"))
        ended = {str(one): int(end) for one, end in kept.get("ended", {}).items()}
        return Door(hashed=kept["hashed"], secret=bytes.fromhex(kept["secret"]), file=file, ended=ended)
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        return None


def new_door(file: Path, passphrase: str) -> Door:
    """Make a door for a passphrase and keep it, readable by its owner only; every browser must sign in anew.

    Raises
    ------
    Refusal : if the passphrase is too short, or among the first that anybody would try
    """
    limit = ""
    if len(passphrase) < SHORTEST:
        limit = f"must have at least {SHORTEST} signs"
    elif _guesses(passphrase) < FEWEST_GUESSES:
        limit = "is among the first that a stranger would try"
    if limit:
        fix = "take three or four words that nobody would guess"
        raise Refusal(field="passphrase", value="(not shown)", limit=limit, fix=fix)
    door = Door(hashed=PasswordHasher().hash(passphrase), secret=secrets.token_bytes(32), file=file)
    door.keep()
    return door


def _guesses(passphrase: str) -> float:
    """After how many tries a passphrase would be found: common ones, words, names, dates, rows of keys first."""
    from zxcvbn import zxcvbn  # its lists are read only where a passphrase is set

    return float(zxcvbn(passphrase[:_JUDGED], user_inputs=["toptank", socket.gethostname()])["guesses"])
