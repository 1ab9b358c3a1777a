"""The page before the passphrase and the one of no address: plain HTML, nothing that a person typed is shown again."""

import asyncio
import math
from html import escape
from urllib.parse import parse_qs

from fastapi import FastAPI, Request
from starlette.responses import HTMLResponse, PlainTextResponse, RedirectResponse, Response

from toptank.interfaces.web.access.guard import THEN, address_of, own_place, then
from toptank.interfaces.web.access.passphrase import LASTS, Door

MOST = 4 * 1024
"""Largest body that is read before the passphrase is known [byte]."""

_DIGITS = 8

_PAGE = """<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1">
<title>toptank: {title}</title><link rel="stylesheet" href="/look/look.css">
<script src="/look/bench.js"></script></head>
<body><header class="top"><div class="top-in"><span class="home">toptank</span></div></header>
<main class="page"><div class="lead"><h1>{title}</h1>
<p>{says}</p></div>
{rest}</main></body></html>
"""
_FORM = """<form class="sheet plain-form" method="post" action="/sign-in{then}">
<div class="field"><label for="passphrase">Passphrase</label>
<input id="passphrase" name="passphrase" type="password" autocomplete="current-password" required autofocus>
<div class="wrong" role="alert">{said}</div></div>
<button class="press main">Come in</button></form>"""
_WHO = "This server is open to the shop's network. Type the passphrase that was set when it was started."
_NOWHERE = "No page has this address. The jobs list leads to every page that there is."


def _asked(said: str, wanted: str) -> str:
    form = _FORM.format(said=said, then=escape(then(*wanted.split("?", 1))))
    return _PAGE.format(title="Who is there?", says=_WHO, rest=form)


def _wanted(request: Request) -> str:
    """Where whoever is asked wanted to go: a place of ours, whatever the address says."""
    return own_place(request.query_params.get(THEN, "/"))


def nowhere() -> Response:
    """Return the page of an address that leads nowhere."""
    home = '<p><a class="press main" href="/">All jobs</a></p>'
    return HTMLResponse(_PAGE.format(title="Nothing is here", says=_NOWHERE, rest=home), 404)


def register(app: FastAPI, door: Door | None) -> None:
    """Put the page on the app; where no passphrase is asked it leads on to the jobs."""

    @app.get("/sign-in", include_in_schema=False)
    def page(request: Request) -> Response:
        return RedirectResponse("/", 303) if door is None else HTMLResponse(_asked("", _wanted(request)))

    @app.post("/sign-in", include_in_schema=False)
    async def sign_in(request: Request) -> Response:
        if door is None:
            return RedirectResponse("/", 303)
        refused = _too_much(request)
        if refused is not None:
            return refused
        passphrase = await _passphrase_in(request)
        sender = door.sender(request.headers, address_of(request.scope))
        right, wait = False, door.wait(sender)
        if passphrase:
            right, wait = await asyncio.to_thread(door.tried, passphrase, sender)
        if wait > 0.0:
            seconds = math.ceil(wait)
            said = f"Too many wrong ones: wait {seconds} s."
            return HTMLResponse(_asked(said, _wanted(request)), 429, headers={"retry-after": str(seconds)})
        if not right:
            return HTMLResponse(_asked("That is not the passphrase.", _wanted(request)), 401)
        await asyncio.to_thread(door.end, request.headers)  # whoever comes in again has one cookie, not two
        answer = RedirectResponse(_wanted(request), 303)
        answer.set_cookie(
            door.cookie, door.token(), max_age=LASTS, httponly=True, samesite="strict", path="/", secure=door.encrypted
        )
        return answer

    @app.get("/known", include_in_schema=False)
    def known() -> Response:
        """Answer an open page that asks whether its browser is still signed in; whoever is not is stopped before."""
        return Response(status_code=204)

    @app.post("/sign-out", include_in_schema=False)
    async def sign_out(request: Request) -> Response:
        if door is None:
            return RedirectResponse("/", 303)
        await asyncio.to_thread(door.end, request.headers)
        answer = RedirectResponse("/sign-in", 303)
        answer.delete_cookie(door.cookie, httponly=True, samesite="strict", path="/", secure=door.encrypted)
        answer.headers["clear-site-data"] = '"cache"'  # not "storage": what is typed and not saved yet stands there
        return answer


def _too_much(request: Request) -> Response | None:
    """Whoever is not known yet is read a few KiB at most, and of one kind."""
    size, kind = request.headers.get("content-length", ""), request.headers.get("content-type", "")
    if not (size.isascii() and size.isdigit() and len(size) < _DIGITS and int(size) <= MOST):
        return PlainTextResponse(f"A passphrase of at most {MOST // 1024} KiB is taken here, no more.", 413)
    if kind.partition(";")[0].strip().lower() != "application/x-www-form-urlencoded":
        return PlainTextResponse("Only the form of the page that asks for the passphrase is taken here.", 415)
    return None


async def _passphrase_in(request: Request) -> str:
    try:
        said = parse_qs((await request.body()).decode("utf-8"), max_num_fields=8)
    except (UnicodeDecodeError, ValueError):
        return ""
    return said.get("passphrase", [""])[0]
