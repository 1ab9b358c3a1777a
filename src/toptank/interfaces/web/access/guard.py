"""What stands before every request: whose host it names, where it comes from, whether its sender is known.

The pages may only use what comes from this machine; a script that stands in a page runs only if the page's template
wrote it: those have a place in which this module puts the nonce of the answer. The framework compiles its templates in
the browser, which asks for 'unsafe-eval', and sets styles on elements, which asks for 'unsafe-inline' for styles;
nothing else is let in.
"""

import asyncio
import ipaddress
import math
import re
import secrets
import socket
from collections.abc import Mapping
from urllib.parse import quote, urlencode, urlsplit

from starlette.datastructures import Headers
from starlette.responses import PlainTextResponse, RedirectResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from toptank.interfaces.turns import ASKER
from toptank.interfaces.web.access import logger_keys
from toptank.interfaces.web.access.logger_keys import LoggerKey
from toptank.interfaces.web.access.passphrase import Door, bearer

SIGN_IN, LOOK = "/sign-in", "/look/"
"""What may be seen before the passphrase: the page that asks for it and its style."""

THEN = "then"
"""Where the address of the sign-in page says where one wanted to go."""

ASKED = "toptank.asked"
"""Where a request says whether its sender had to know the passphrase."""

PLACE = f"nonce-goes-here-{secrets.token_hex(16)}"
"""Stands in the templates of pages, on scripts of their own, where the nonce of an answer goes.

Nobody outside this process knows it: a script that came in with a text, past all escaping, has no nonce and never runs.
"""

_OURS = re.compile(r"/(?:[A-Za-z0-9_~.%-][A-Za-z0-9_~.%/-]{0,200})?(?:\?[A-Za-z0-9_~.%&=+,/:-]{0,300})?")
"""One slash, never two: `//name` and `/\\name` are other sites to a browser."""

_HOST = re.compile(r"(\[[0-9A-Fa-f:.]+\]|[A-Za-z0-9._-]+)(:[0-9]{1,5})?")

_HEADERS = {
    "x-content-type-options": "nosniff",
    "x-frame-options": "SAMEORIGIN",
    "referrer-policy": "same-origin",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "permissions-policy": "camera=(self), geolocation=(), microphone=()",
}
_NOT_KEPT = {"cache-control": "no-store"}
"""Of what is told of jobs; the look and the framework's files are the same for everybody."""

_FOR_EVERYBODY = (LOOK, "/_nicegui/")


def policy(nonce: str) -> str:
    """Return the content policy of a page."""
    return "; ".join(
        (
            "default-src 'none'",
            f"script-src 'self' 'nonce-{nonce}' 'unsafe-eval'",
            "style-src 'self' 'unsafe-inline'",
            "img-src 'self' data: blob:",
            "font-src 'self'",
            "connect-src 'self'",
            "frame-src 'self'",
            "object-src 'none'",
            "base-uri 'none'",
            "form-action 'self'",
            "frame-ancestors 'self'",
        )
    )


class Guard:
    """ASGI middleware. `door` is None where only this machine can reach the server."""

    def __init__(self, app: ASGIApp, door: Door | None) -> None:
        """Stand before `app`."""
        self.app = app
        self.door = door

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Let a request through, or answer it."""
        if scope["type"] not in ("http", "websocket"):
            await self.app(scope, receive, send)
            return
        headers = Headers(scope=scope)
        scope[ASKED] = self.door is not None
        scope[ASKER] = self.door.sender(headers, address_of(scope)) if self.door is not None else address_of(scope)
        refused = await self._refusal(scope, headers)
        if refused is not None:
            await _answer(refused, scope, receive, send)
        elif scope["type"] == "websocket":
            await self.app(scope, self._while_known(headers, receive), send)
        else:
            await self.app(scope, receive, _Marked(send, scope["path"]).send)

    def _while_known(self, headers: Headers, receive: Receive) -> Receive:
        """Let a socket be heard until its browser has signed out."""

        async def heard() -> Message:
            message = await receive()
            if self.door is None or self.door.knows(headers) or message["type"] != "websocket.receive":
                return message
            return {"type": "websocket.disconnect", "code": 1008}

        return heard

    def _logger(self, given: str) -> LoggerKey | None:
        """Return the key of a logger, where that is what was sent along."""
        if self.door is None or self.door.file is None or not given.startswith(logger_keys.START):
            return None
        return logger_keys.known(self.door.file.with_name(logger_keys.NAME), given)

    async def _refusal(self, scope: Scope, headers: Headers) -> Response | None:
        if not host_is_ours(headers.get("host", ""), lan=self.door is not None):
            return PlainTextResponse("This address does not belong to this server.", 421)
        if not _same_origin(scope, headers):
            return PlainTextResponse("Requests from other sites are not taken.", 403)
        door, path = self.door, scope["path"]
        if door is None or path == SIGN_IN or path.startswith(LOOK) or door.knows(headers):
            return None
        given = bearer(headers)
        if (key := self._logger(given)) is not None:
            if scope["type"] == "http" and key.may(scope["method"], path):
                return None
            return PlainTextResponse(f"This key may only add readings and logs to job {key.job}.", 403)
        if given:
            # The hash takes long: others are not to wait.
            right, wait = await asyncio.to_thread(door.tried, given, door.sender(headers, address_of(scope)))
            if right:
                return None
            if wait > 0.0:
                return PlainTextResponse(
                    "Too many wrong passphrases came.", 429, headers={"retry-after": str(math.ceil(wait))}
                )
        if scope["type"] == "http" and scope["method"] == "GET" and "text/html" in headers.get("accept", ""):
            return RedirectResponse(SIGN_IN + then(path, scope["query_string"].decode("latin-1")), 303)
        return PlainTextResponse(
            "The passphrase of this server is needed.", 401, headers={"www-authenticate": "Bearer"}
        )


def then(path: str, query: str = "") -> str:
    """Return what is added to the address of the page that asks, so that one goes on to where one wanted to."""
    wanted = quote(path, safe="/") + (f"?{query}" if query else "")
    return f"?{urlencode({THEN: wanted})}" if wanted != "/" and wanted == own_place(wanted) else ""


def own_place(wanted: str) -> str:
    """Return a place of this server as it was wanted; the jobs where it is none of ours, or not surely."""
    ours = _OURS.fullmatch(wanted) is not None and not wanted.startswith(SIGN_IN)
    return wanted if ours else "/"


def address_of(scope: Scope) -> str:
    """Return the address that a request comes from; empty where the server does not know."""
    return str((scope.get("client") or ("",))[0])


def host_is_ours(host: str, *, lan: bool) -> bool:
    """Whether a Host header names this machine by a name that no other site can take over."""
    found = _HOST.fullmatch(host)
    if found is None:  # nobody's name stands in it, nor half a bracket
        return False
    name = found[1].strip("[]")
    if name.lower() == "localhost":
        return True
    try:
        address = ipaddress.ip_address(name)
    except ValueError:
        ours = socket.gethostname().lower()
        return lan and name.lower() in (ours, f"{ours}.local", ours.removesuffix(".local"))
    return lan or address.is_loopback


def _same_origin(scope: Scope, headers: Mapping[str, str]) -> bool:
    """Whether a request that changes something, or opens the socket, comes from a page of ours.

    A browser names the origin itself; what names none is no browser, such as a logger.
    """
    origin, site = headers.get("origin"), headers.get("sec-fetch-site", "")
    if origin is not None and _place_of(origin) != headers.get("host", ""):
        return False
    navigates = scope["type"] == "http" and scope["method"] == "GET" and headers.get("sec-fetch-mode") == "navigate"
    if site in ("cross-site", "same-site") and not navigates:
        return False
    return not (scope["type"] == "websocket" and origin is None)


def _place_of(origin: str) -> str | None:
    try:
        return urlsplit(origin).netloc
    except ValueError:  # half a bracket
        return None


async def _answer(response: Response, scope: Scope, receive: Receive, send: Send) -> None:
    if scope["type"] == "websocket":
        await receive()
        await send({"type": "websocket.close", "code": 1008})
    else:
        await response(scope, receive, send)


class _Marked:
    """Puts the headers on an answer, and the nonce on the scripts of a page's template."""

    def __init__(self, send: Send, path: str) -> None:
        self._send = send
        self._headers = _HEADERS if path.startswith(_FOR_EVERYBODY) else _HEADERS | _NOT_KEPT
        self._nonce = secrets.token_urlsafe(16)
        self._start: Message | None = None
        self._body = bytearray()

    async def send(self, message: Message) -> None:
        if message["type"] == "http.response.start":
            pairs = [(name.lower(), value) for name, value in message["headers"]]
            headers = dict(pairs)
            ours = {**self._headers, "content-security-policy": policy(self._nonce)}
            pairs += [(n.encode(), value.encode()) for n, value in ours.items() if n.encode() not in headers]
            message = {**message, "headers": pairs}
            if headers.get(b"content-type", b"").startswith(b"text/html"):
                self._start = dict(message)
                return
        elif message["type"] == "http.response.body" and self._start is not None:
            self._body += message.get("body", b"")
            if message.get("more_body"):
                return
            marked = bytes(self._body).replace(PLACE.encode(), self._nonce.encode())
            kept = [(name, value) for name, value in self._start["headers"] if name != b"content-length"]
            start = {**self._start, "headers": [*kept, (b"content-length", str(len(marked)).encode())]}
            self._start = None
            await self._send(start)
            message = {"type": "http.response.body", "body": marked}
        await self._send(message)
