"""The command that starts the app in a browser."""

import os
import sys
from typing import Annotated

import typer

from toptank.interfaces.cli import late
from toptank.interfaces.cli.screen import write
from toptank.shop import door

USUAL_PORT = 8322
PASSPHRASE = "TOPTANK_PASSPHRASE"
"""Where a passphrase may be given to a server that no terminal starts."""


def serve(
    port: Annotated[
        int | None, typer.Option("--port", help=f"port; {USUAL_PORT} or the next free one if not named")
    ] = None,
    no_open: Annotated[bool, typer.Option("--no-open", help="open no browser")] = False,
    lan: Annotated[
        bool, typer.Option("--lan", help="let others in the shop's network in, who know the passphrase")
    ] = False,
    tls: Annotated[
        bool | None,
        typer.Option("--tls/--no-tls", help="encrypt the way, with the shop's own certificate; with --lan if not said"),
    ] = None,
    new_passphrase: Annotated[bool, typer.Option("--new-passphrase", help="set another one for --lan")] = False,
) -> None:
    """Start the app on this machine and open it in the browser."""
    jobs = len(door.job_verbs.listed())  # a record that cannot be opened is told before anything is served
    guarded = None
    if lan:
        given = os.environ.get(PASSPHRASE, "")
        ask = _ask if given or sys.stdin.isatty() else None
        guarded = late.server.door_of(
            door.export_verbs.beside_the_record("passphrase.json"), ask, new=new_passphrase, given=given
        )
    encrypted = lan if tls is None else tls
    kept_at = door.export_verbs.beside_the_record("certificate.pem")
    certificate = late.server.certificate_of(kept_at) if encrypted else None
    door.service.vehicles()  # the first page lists them: what is announced is ready
    where = late.server.listen(port, usual=USUAL_PORT, lan=lan)

    def tell(address: str) -> None:
        write(f"toptank is ready at {address} with {jobs} job{'' if jobs == 1 else 's'}; Ctrl+C ends it.")
        if lan:
            write(f"Others reach it at {' or '.join(late.server.addresses(where, certificate)) or 'no address yet'}")
            write(
                "and need the passphrase."
                + ("" if encrypted else " Whoever is on this network can read it and all that is typed.")
            )
        if certificate is not None:
            write("The browser warns once of a certificate that it does not know. Go on only if it shows this SHA-256:")
            write(certificate.fingerprint)
        sys.stdout.flush()

    late.server.serve(where, guarded, tell=tell, browser=not no_open, certificate=certificate)


def _ask() -> str:
    given = os.environ.get(PASSPHRASE, "")
    return given or typer.prompt("Passphrase for this server", hide_input=True, confirmation_prompt=True)
