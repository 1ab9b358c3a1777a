"""A certificate of this shop's own, so that what goes through its network is encrypted; nobody vouches for it but us.

Browsers warn of it once. Whoever compares the fingerprint with the one on the screen of the server knows that nobody
stands in between; after that the browser keeps to this certificate.
"""

import datetime
import ipaddress
import socket
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

import ifaddr
from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

from toptank.interfaces.web.access.passphrase import written_privately

LASTS = datetime.timedelta(days=397)
"""Browsers accept no longer one of a public authority (CA/Browser Forum baseline requirements until 2026) [d]."""

RENEWED = datetime.timedelta(days=14)
"""So long before its end a new one is made, at a start of the server [d]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Certificate:
    """A certificate and its key, in one file that its owner only may read.

    Parameters
    ----------
    file : PEM, key and certificate
    fingerprint : SHA-256 of the certificate as browsers show it: pairs of hexadecimal digits
    until : its end
    """

    file: Path
    fingerprint: str
    until: datetime.datetime


def certificate_kept_in(file: Path) -> Certificate:
    """Return the certificate of this shop; a new one where none is kept, or it cannot be read, or ends soon.

    Raises
    ------
    OSError : if it cannot be written
    """
    found = _read(file)
    if found is None or found.until - datetime.datetime.now(datetime.UTC) < RENEWED:
        _make(file)
        found = _read(file)
        assert found is not None
    return found


def own_addresses() -> list[str]:
    """Return the addresses of this machine at which others can reach it; those of version 4 first."""
    found = {str(ip.ip if ip.is_IPv4 else ip.ip[0]) for adapter in ifaddr.get_adapters() for ip in adapter.ips}
    known = [ipaddress.ip_address(one) for one in found]
    usable = [one for one in known if not (one.is_loopback or one.is_link_local)]
    return [str(one) for one in sorted(usable, key=lambda one: (one.version, int(one)))]


def _read(file: Path) -> Certificate | None:
    try:
        text = file.read_bytes()
        found = x509.load_pem_x509_certificate(text)
        serialization.load_pem_private_key(text, password=None)
    except (OSError, ValueError, TypeError):
        return None
    return Certificate(
        file=file, fingerprint=found.fingerprint(hashes.SHA256()).hex(":").upper(), until=found.not_valid_after_utc
    )


def _make(file: Path) -> None:
    key = ec.generate_private_key(ec.SECP256R1())
    host = socket.gethostname()
    name = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, "toptank in this shop")])
    now = datetime.datetime.now(datetime.UTC)
    made = (
        x509.CertificateBuilder()
        .subject_name(name)
        .issuer_name(name)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(now - datetime.timedelta(hours=1))  # clocks of tablets differ
        .not_valid_after(now + LASTS)
        .add_extension(x509.SubjectAlternativeName(_names(host)), critical=False)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .sign(key, hashes.SHA256())
    )
    secret = key.private_bytes(
        serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption()
    )
    written_privately(file, secret + made.public_bytes(serialization.Encoding.PEM))


def _names(host: str) -> list[x509.GeneralName]:
    names: list[x509.GeneralName] = [x509.DNSName("localhost")]
    for one in dict.fromkeys((host, f"{host.removesuffix('.local')}.local")):
        with suppress(ValueError):  # a name beyond ASCII
            names.append(x509.DNSName(one))
    return [*names, *(x509.IPAddress(ipaddress.ip_address(one)) for one in ("127.0.0.1", *own_addresses()))]
