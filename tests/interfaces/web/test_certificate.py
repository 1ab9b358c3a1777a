"""The encrypted way: a certificate of the shop's own that can be told from anybody else's."""

import datetime
import hashlib
import re
import socket
import ssl
import stat
import warnings
from collections.abc import Callable
from pathlib import Path
from typing import Any

import httpx
import pytest
from cryptography import x509
from playwright.sync_api import Browser

from toptank.interfaces.web import server as serving
from toptank.interfaces.web.access import certificate as own
from toptank.interfaces.web.access.certificate import certificate_kept_in
from toptank.units.refusal import Refusal

PASSPHRASE = "three words or four"


def test_it_is_kept_private_and_the_same_from_start_to_start(tmp_path: Path) -> None:
    file = tmp_path / "shop" / "certificate.pem"
    first = certificate_kept_in(file)
    assert stat.S_IMODE(file.stat().st_mode) == 0o600
    assert certificate_kept_in(file) == first
    inside = x509.load_pem_x509_certificate(file.read_bytes())
    # FIPS 180-4 over the DER encoding, which is what browsers show (RFC 5280 leaves the name to them).
    der = ssl.PEM_cert_to_DER_cert(file.read_text(encoding="ascii").partition("-----END PRIVATE KEY-----\n")[2])
    assert first.fingerprint.replace(":", "").lower() == hashlib.sha256(der).hexdigest()
    assert inside.not_valid_after_utc - inside.not_valid_before_utc <= datetime.timedelta(days=398)


def test_a_new_one_is_made_where_it_ends_soon_or_is_damaged(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    file = tmp_path / "certificate.pem"
    with monkeypatch.context() as patched:
        patched.setattr(own, "LASTS", datetime.timedelta(days=13))
        short = certificate_kept_in(file)
    renewed = certificate_kept_in(file)
    assert renewed.fingerprint != short.fingerprint
    file.write_bytes(file.read_bytes()[:300])
    assert certificate_kept_in(file).fingerprint not in (renewed.fingerprint, short.fingerprint)


def test_one_that_cannot_be_kept_is_told(tmp_path: Path) -> None:
    (tmp_path / "in the way").write_text("")
    with pytest.raises(Refusal, match=r"certificate = .*cannot be written"):
        serving.certificate_of(tmp_path / "in the way" / "certificate.pem")


def _spoken(server: Any, version: ssl.TLSVersion, ciphers: str) -> str:
    """Return the cipher that the server agrees upon with a client of one version of TLS."""
    context = ssl.create_default_context(cafile=server.store / "certificate.pem")
    context.set_ciphers(ciphers)
    with warnings.catch_warnings(action="ignore", category=DeprecationWarning):  # that a version is old is the point
        context.minimum_version = context.maximum_version = version
    with (
        socket.create_connection(("127.0.0.1", server.port), timeout=120) as line,
        context.wrap_socket(line, server_hostname="127.0.0.1") as over,
    ):
        cipher = over.cipher()
        assert cipher is not None
        return cipher[0]


def test_a_server_encrypts_and_only_its_own_certificate_opens_it(
    serve_anew: Callable[..., Any], monkeypatch: pytest.MonkeyPatch, browser: Browser
) -> None:
    monkeypatch.setenv("TOPTANK_PASSPHRASE", PASSPHRASE)
    server = serve_anew("--lan")
    assert server.address.startswith("https://127.0.0.1:")
    trusted = ssl.create_default_context(cafile=server.store / "certificate.pem")
    with httpx.Client(verify=trusted, base_url=server.address, timeout=120) as client:
        assert client.get("/api/v1/vehicles").status_code == 401
        came = client.post("/sign-in", data={"passphrase": PASSPHRASE})
        assert "secure" in came.headers["set-cookie"].lower()
        assert came.headers["set-cookie"].startswith("__Host-")
        assert client.get("/api/v1/vehicles").status_code == 200
    with pytest.raises(httpx.ConnectError, match="CERTIFICATE_VERIFY_FAILED"):
        httpx.get(server.address, verify=True, timeout=120)
    with pytest.raises(httpx.TransportError):
        httpx.get(server.address.replace("https", "http"), timeout=120)  # nothing is told in clear
    anything = "ALL:@SECLEVEL=0"  # a client that takes whatever is offered
    assert _spoken(server, ssl.TLSVersion.TLSv1_3, anything).startswith(("TLS_AES", "TLS_CHACHA20"))
    assert re.fullmatch("ECDHE-ECDSA-.*(GCM|POLY1305).*", _spoken(server, ssl.TLSVersion.TLSv1_2, anything))
    by_the_server = r"(?i)EOF|alert|reset"  # a client that knows no such version or cipher says so otherwise
    with pytest.raises(OSError, match=by_the_server):
        _spoken(server, ssl.TLSVersion.TLSv1_2, "ECDHE+AES:!AESGCM:!AESCCM")  # AES in blocks
    with pytest.raises(OSError, match=by_the_server):
        _spoken(server, ssl.TLSVersion.TLSv1_1, anything)
    context = browser.new_context(ignore_https_errors=True)
    page = context.new_page()
    page.goto(server.address)
    page.fill("#passphrase", PASSPHRASE)
    page.click("text=Come in")
    page.wait_for_function("() => window.did_handshake === true")  # the pages' socket goes the same way
    page.click("text=Sign out")
    page.wait_for_selector("#passphrase")
    assert context.cookies() == []  # a browser lets this cookie go only where it is taken back as it was given
    context.close()
