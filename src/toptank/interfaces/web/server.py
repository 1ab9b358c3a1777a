"""Starting the server: the socket is taken first, the address is told once it answers."""

import contextlib
import socket
import webbrowser
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import uvicorn

from toptank.interfaces.web.access.certificate import Certificate, certificate_kept_in, own_addresses
from toptank.interfaces.web.access.passphrase import Door, door_kept_in, new_door
from toptank.interfaces.web.access.patience import PatientHttp
from toptank.interfaces.web.application import application
from toptank.shop.door import few_heaps
from toptank.units.refusal import Refusal

LOOPBACK = "127.0.0.1"
CIPHERS = "ECDHE+AESGCM:ECDHE+CHACHA20"
"""For TLS 1.2; TLS 1.3 knows none but such (RFC 9325, 4.2). Older versions are not spoken."""

TRIED = 20
"""Ports after the usual one that are tried where nobody named one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Listening:
    """Where the server listens."""

    socket: socket.socket
    port: int
    lan: bool


def listen(port: int | None, *, usual: int, lan: bool) -> Listening:
    """Take a port.

    Raises
    ------
    Refusal : if the named one is taken, or none of the usual ones is free
    """
    host = "0.0.0.0" if lan else LOOPBACK  # every address of this machine only where --lan asked for it
    ports = range(usual, usual + TRIED) if port is None else (port,)
    for one in ports:
        taken = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
        taken.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            taken.bind((host, one))
            taken.listen(128)
        except (OSError, OverflowError):
            taken.close()
            continue
        return Listening(socket=taken, port=taken.getsockname()[1], lan=lan)
    shown = str(port) if port is not None else f"{usual} to {usual + TRIED - 1}"
    limit, fix = "is taken by another program, or not allowed", "name another with --port"
    raise Refusal(field="port", value=shown, limit=limit, fix=fix)


def door_of(file: Path, ask: Callable[[], str] | None, *, new: bool, given: str = "") -> Door:
    """Return the door of a server that others can reach; ask for a passphrase where none is kept.

    Parameters
    ----------
    given : the passphrase that the surroundings name; empty if they name none

    Raises
    ------
    Refusal : if there is none and nobody to be asked, or another is given than the one that is kept
    """
    kept = None if new else door_kept_in(file)
    if kept is not None:
        if given and not kept.fits(given):
            limit = "is not the one that was set before, and that one counts"
            fix = "give that one or none, or set this one with --new-passphrase"
            raise Refusal(field="passphrase", value="(not shown)", limit=limit, fix=fix)
        return kept
    if ask is None:
        limit = "is needed before others can reach this server"
        raise Refusal(
            field="passphrase", value="(missing)", limit=limit, fix="start it once from a terminal with --lan"
        )
    return new_door(file, ask())


class _Announced(uvicorn.Server):
    """Says where it is as soon as it answers."""

    tell: Callable[[], None]

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        await super().startup(sockets=sockets)
        if self.started:
            self.tell()


def certificate_of(file: Path) -> Certificate:
    """Return the certificate with which a server encrypts.

    Raises
    ------
    Refusal : if none can be written
    """
    try:
        return certificate_kept_in(file)
    except OSError as error:
        limit, fix = f"cannot be written: {error.strerror or error}", "make room, or check the rights of its folder"
        raise Refusal(field="certificate", value=str(file), limit=limit, fix=fix) from error


def addresses(where: Listening, certificate: Certificate | None) -> list[str]:
    """Return where others in the network reach the server, as they type it."""
    begins = "http" if certificate is None else "https"
    return [f"{begins}://{f'[{one}]' if ':' in one else one}:{where.port}/" for one in own_addresses()]


def serve(
    where: Listening,
    door: Door | None,
    *,
    tell: Callable[[str], None],
    browser: bool,
    certificate: Certificate | None = None,
) -> None:
    """Serve until it is stopped, encrypted where there is a certificate."""
    few_heaps()
    address = f"{'http' if certificate is None else 'https'}://{LOOPBACK}:{where.port}/"
    if door is not None:
        door.encrypted = certificate is not None
    config = uvicorn.Config(
        application(door=door), http=PatientHttp, log_level="warning", access_log=False, ws_max_size=2**20,
        ssl_certfile=None if certificate is None else certificate.file, ssl_ciphers=CIPHERS, server_header=False,
    )  # fmt: skip
    server = _Announced(config)

    def told() -> None:
        tell(address)
        if browser:
            with contextlib.suppress(webbrowser.Error):
                webbrowser.open(address)

    server.tell = told
    server.run(sockets=[where.socket])
