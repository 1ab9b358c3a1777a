"""What may be uploaded: kinds that are taken, limits, and that nothing of it is ever shown as a page."""

import tempfile
from typing import Any

import httpx
import pytest

from toptank.interfaces import file_kinds
from toptank.interfaces.web import upload
from toptank.shop.edit import kept_logs
from toptank.shop.record import job_verbs

PNG = b"\x89PNG\r\n\x1a\n" + bytes(40)


@pytest.mark.parametrize(
    ("start", "name", "kind"),
    [
        (PNG, "x.png", "image/png"),
        (PNG, "x.html", None),  # the ending must fit: it is opened by it
        (PNG, "x.jpg", None),
        (b"%PDF-1.7", "a.csv", None),
        (b"time,degF\n0,190\n", "log.png", None),
        (b"\xff\xd8\xff\xe0", "a.jpg", "image/jpeg"),
        (b"%PDF-1.7", "a.pdf", "application/pdf"),
        (b"time,degF\n0,190\n", "log.csv", "text/plain"),
        (b"<?xml version='1.0'?><gpx>", "a.gpx", "text/plain"),
        (b"<html><script>", "log.csv", None),
        (b"\xef\xbb\xbf  <SVG onload=x>", "a.txt", None),
        (b"MZ\x90\0", "log.csv", None),
        (b"\x7fELF", "photo.jpg", None),
        (b"hello", "run.sh", None),
        (b"<svg xmlns=", "a.svg", None),
        (b"<!-- x --><html><script>", "log.csv", None),
        (b"<?xml version='1.0'?>\n<!-- a -->\n<!DOCTYPE svg PUBLIC 'x'><svg onload=x>", "a.txt", None),
        (b"<?xml version='1.0'?><svg onload=x>", "a.gpx", None),
        (b"<!-- never ended " + b"x" * 20_000, "a.gpx", None),
        (b"<gpxx><script>", "a.gpx", None),
        (b"\xef\xbb\xbf<?xml version='1.0'?>\n<!-- a logger -->\n<gpx version='1.1'>", "a.GPX", "text/plain"),
    ],
)
def test_a_file_is_what_its_first_bytes_say(start: bytes, name: str, kind: str | None) -> None:
    assert file_kinds.kind_of(start, name) == kind


def test_what_can_be_no_log_is_refused_before_it_is_kept(server: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TOPTANK_STORE", str(server.store))
    number = job_verbs.open_told("pickup-1970s-v8-air", title="Logs", complaint="", system="us").job
    place = f"{server.address}/job/{number}/file?as=log"
    for text in ("0,90,80\n60,92,80\n", "Hello Sam, how are you\nfine, thanks, and you\n", "time (s),coolant (°C)\n"):
        told = httpx.post(place, files={"file": ("log.csv", text.encode())}, timeout=120)
        assert told.status_code == 422, text
        assert "its first line must name the columns" in told.json()["refused"] or "no row" in told.json()["refused"]
        assert "--" not in told.json()["refused"]  # a page has no options
    assert job_verbs.record(number).attachments == ()
    name = "Ridge road, 12 August, the fan clutch as it was & the air conditioning on.csv"
    kept = httpx.post(
        place, files={"file": (name, b"T1;T2\n0;90\n60;92\n")}, timeout=120
    )  # what its columns are is asked later
    assert kept.json()["name"] == name
    assert kept_logs.look(number, kept.json()["checksum"]).name == name


def test_a_file_is_limited_kept_and_only_ever_saved(server: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TOPTANK_STORE", str(server.store))
    base = server.address
    number = job_verbs.open_told("pickup-1970s-v8-air", title="Files", complaint="", system="us").job
    place = f"{base}/job/{number}/file"
    nasty = '../../"><img src=x onerror=1>.png'
    kept = httpx.post(place, files={"file": (nasty, PNG)}, timeout=120)
    assert kept.status_code == 200
    back = httpx.get(f"{place}/{kept.json()['checksum']}", timeout=120)
    assert (back.content, back.headers["content-type"]) == (PNG, "application/octet-stream")
    assert back.headers["content-disposition"].startswith("attachment")
    assert "sandbox" in back.headers["content-security-policy"]
    assert back.headers["x-content-type-options"] == "nosniff"
    page = httpx.post(place, files={"file": ("p.html", b"<html><script>alert(1)</script>")}, timeout=120)
    assert page.status_code == 415
    bad: tuple[dict[str, Any], ...] = (
        {"files": {"file": ("e.csv", b"")}},
        {"files": [("file", ("a.png", PNG)), ("file", ("b.png", PNG))]},
        {"content": b"x", "headers": {"content-type": "multipart/form-data"}},
    )
    for sent in bad:
        told = httpx.post(place, **sent, timeout=120)
        assert (told.status_code, list(told.json()), tempfile.gettempdir() in told.text) == (422, ["refused"], False)
    gone = httpx.post(f"{base}/job/99999/file", files={"file": ("p.png", PNG)}, timeout=120)
    assert (gone.status_code, tempfile.gettempdir() in gone.text) == (404, False)
    assert httpx.post(place, content=iter([b"of unknown length"]), timeout=120).status_code == 413
    assert server.told_of(f"/job/{number}/file", file_kinds.LARGEST + upload.ROOM + 1) == "413"
    assert (
        httpx.post(
            place, files={"file": ("p.png", PNG)}, headers={"origin": "http://evil.example"}, timeout=120
        ).status_code
        == 403
    )
    assert httpx.get(f"{place}/{'0' * 64}", timeout=120).status_code == 404
    assert "Sign out" not in httpx.get(base, timeout=120).text  # nobody had to sign in
    assert httpx.get(f"{base}/look/guard.py", timeout=120).status_code == 404
    assert httpx.get(f"{base}/look/..%2f..%2fcli.py", timeout=120).status_code == 404
