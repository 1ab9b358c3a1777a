"""Which files are taken from outside: what a file is, its first bytes say, and its ending must fit."""

import re
from pathlib import Path

LARGEST = 32 * 1024 * 1024
"""Largest file that is taken [byte]."""

START = 16 * 1024
"""So much of a file tells what it is [byte]."""

REFUSED_KIND = (
    "photos (JPEG, PNG, WebP, HEIC), PDF and logs (CSV, TXT, LOG, GPX, NMEA, TOML) are taken, with the ending of what "
    "they are, no others"
)

_STARTS = (
    (b"\xff\xd8\xff", "image/jpeg"),
    (b"\x89PNG\r\n\x1a\n", "image/png"),
    (b"RIFF", "image/webp"),
    (b"%PDF-", "application/pdf"),
)
_ENDINGS = {
    "image/jpeg": (".jpg", ".jpeg"),
    "image/png": (".png",),
    "image/webp": (".webp",),
    "image/heic": (".heic", ".heif"),
    "application/pdf": (".pdf",),
    "text/plain": (".csv", ".txt", ".log", ".gpx", ".nmea", ".toml"),
}
"""The ending must fit what the file is: whoever opens it later opens it by its ending."""

TAKEN = ",".join(ending for endings in _ENDINGS.values() for ending in endings)
_BEFORE_A_ROOT = re.compile(rb"\s*(?:<!--.*?-->|<\?.*?\?>|<!doctype[^>]*>)", re.DOTALL | re.IGNORECASE)
_GPX = re.compile(rb"<(?:\w+:)?gpx[\s>/]")


def kind_of(start: bytes, name: str) -> str | None:
    """Return the type of a file by its first bytes, or None for a kind that is not taken or another than its ending."""
    kind = _kind_by_start(start)
    ending = Path(name).suffix.lower()
    if ending not in _ENDINGS[kind] or (kind == "text/plain" and not _plain(start, gpx=ending == ".gpx")):
        return None
    return kind


def _kind_by_start(start: bytes) -> str:
    for sign, kind in _STARTS:
        if start.startswith(sign) and (kind != "image/webp" or start[8:12] == b"WEBP"):
            return kind
    if start[4:8] == b"ftyp" and start[8:12] in (b"heic", b"heix", b"mif1", b"msf1"):
        return "image/heic"
    return "text/plain"


def _plain(start: bytes, *, gpx: bool) -> bool:
    """Whether a text is no page and no picture, whatever comments stand before it; a route is GPX from its root on."""
    if b"\0" in start:
        return False
    rest = start.removeprefix(b"\xef\xbb\xbf")
    while found := _BEFORE_A_ROOT.match(rest):
        rest = rest[found.end() :]
    rest = rest.lstrip()
    return _GPX.match(rest) is not None if gpx else not rest.startswith(b"<")
