"""Safe by default: who may ask, what an answer may do, how a passphrase is kept."""

import asyncio
import html
import re
import threading
from collections.abc import Callable, Coroutine
from concurrent.futures import ThreadPoolExecutor
from http.cookies import SimpleCookie
from pathlib import Path
from typing import Any
from urllib.parse import unquote, urlencode

import httpx
import pytest
from starlette.applications import Starlette
from starlette.responses import HTMLResponse, PlainTextResponse
from starlette.routing import Route, WebSocketRoute
from starlette.websockets import WebSocket

from toptank.interfaces.web import server as serving
from toptank.interfaces.web.access import passphrase
from toptank.interfaces.web.access.guard import PLACE, Guard, host_is_ours, policy
from toptank.interfaces.web.application import application
from toptank.units.refusal import Refusal

HOME = "http://127.0.0.1:8322"
RIGHT = "four words nobody guesses"


async def _socket(line: WebSocket) -> None:
    await line.accept()
    await line.close()


def _in_a_thread(asked: Coroutine[Any, Any, Any]) -> Any:
    """Wait for it beside the loop that a browser of the same session runs in this thread."""
    with ThreadPoolExecutor(1) as pool:
        return pool.submit(asyncio.run, asked).result()


class _Client:
    """Asks a guarded app, in this process."""

    def __init__(self, app: Any) -> None:
        self.app = app

    def get(self, path: str, **named: Any) -> httpx.Response:
        return _in_a_thread(self._ask("GET", path, **named))

    def post(self, path: str, **named: Any) -> httpx.Response:
        return _in_a_thread(self._ask("POST", path, **named))

    async def _ask(self, method: str, path: str, **named: Any) -> httpx.Response:
        async with httpx.AsyncClient(transport=httpx.ASGITransport(self.app), base_url=HOME) as client:
            return await client.request(method, path, **named)

    def socket_opens(self, headers: dict[str, str]) -> bool:
        sent: list[str] = []
        scope = {
            "type": "websocket", "path": "/_nicegui_ws/", "raw_path": b"/_nicegui_ws/", "query_string": b"",
            "root_path": "", "scheme": "ws", "subprotocols": [],
            "headers": [(b"host", b"127.0.0.1:8322"), *((one.encode(), two.encode()) for one, two in headers.items())],
        }  # fmt: skip

        async def receive() -> dict[str, str]:
            return {"type": "websocket.connect"}

        async def send(message: Any) -> None:
            sent.append(message["type"])

        _in_a_thread(self.app(scope, receive, send))
        return sent[0] == "websocket.accept"


def _guarded(door: passphrase.Door | None = None) -> _Client:
    async def page(_: Any) -> HTMLResponse:
        return HTMLResponse(f'<script nonce="{PLACE}">1</script><p><script>alert("typed")</script>')

    async def change(_: Any) -> PlainTextResponse:
        return PlainTextResponse("changed")

    app = Starlette(
        routes=[
            Route("/", page),
            Route("/api/v1/x", change, methods=["POST"]),
            WebSocketRoute("/_nicegui_ws/", _socket),
        ]
    )
    return _Client(Guard(app, door))


@pytest.fixture
def door(tmp_path: Path) -> passphrase.Door:
    return passphrase.new_door(tmp_path / "kept" / "passphrase.json", RIGHT)


@pytest.mark.parametrize(
    ("host", "here", "lan"),
    [
        ("127.0.0.1:8322", True, True),
        ("localhost:8322", True, True),
        ("[::1]:8322", True, True),
        ("192.168.1.7:8322", False, True),
        ("evil.example", False, False),
        ("127.0.0.1.evil.example", False, False),
        ("", False, False),
        ("[", False, False),
        ("[::1", False, False),
        ("somebody@127.0.0.1:8322", False, False),
        ("127.0.0.1:8322/..", False, False),
        ("[x]", False, False),
    ],
)
def test_only_names_that_nobody_can_take_over_are_answered(host: str, here: bool, lan: bool) -> None:
    assert (host_is_ours(host, lan=False), host_is_ours(host, lan=True)) == (here, lan)


def test_another_host_name_is_not_answered() -> None:
    assert _guarded().get("/", headers={"host": "evil.example"}).status_code == 421


@pytest.mark.parametrize(
    ("headers", "code"),
    [
        ({}, 200),  # a logger names no origin
        ({"origin": HOME}, 200),
        ({"origin": "http://evil.example"}, 403),
        ({"origin": "http://127.0.0.1:9999"}, 403),
        ({"origin": "null"}, 403),
        ({"origin": "http://["}, 403),
        ({"host": "["}, 421),
        ({"host": "me@127.0.0.1:8322"}, 421),
        ({"sec-fetch-site": "cross-site"}, 403),
    ],
)
def test_what_changes_something_must_come_from_our_own_pages(headers: dict[str, str], code: int) -> None:
    assert _guarded().post("/api/v1/x", headers=headers).status_code == code


@pytest.mark.parametrize("origin", ["http://evil.example", "http://127.0.0.1:9999", None])
def test_the_socket_opens_for_our_own_pages_only(origin: str | None) -> None:
    assert _guarded().socket_opens({"origin": HOME})
    assert not _guarded().socket_opens({"origin": origin} if origin else {})


def test_a_script_runs_only_with_the_mark_of_this_answer() -> None:
    first, second = _guarded().get("/"), _guarded().get("/")
    rules = dict(one.split(" ", 1) for one in first.headers["content-security-policy"].split("; "))
    nonce = rules["script-src"].split("'nonce-")[1].split("'")[0]
    assert f'<script nonce="{nonce}">1' in first.text
    assert '<script>alert("typed")' in first.text  # what came in with a text gets no mark, so it never runs
    assert first.text.count(nonce) == 1
    assert PLACE not in first.text
    assert nonce not in second.text
    assert "unsafe-inline" not in rules["script-src"]
    assert rules["default-src"] == "'none'"
    assert rules["connect-src"] == "'self'"
    assert "http" not in policy("x")
    assert first.headers["x-content-type-options"] == "nosniff"


@pytest.mark.parametrize(
    "words",
    [
        "orchard gate seven",  # neither capitals nor figures nor signs are asked for
        "vier Wörter, die keiner rät",
        "四つの言葉と山の道を誰も知らない",
        "🚜 in the ditch 🚜 at noon",
        "one that is very long" + ", as some are" * 12,
    ],
)
def test_a_passphrase_counts_as_it_was_typed_whatever_stands_in_it(words: str, tmp_path: Path) -> None:
    made = passphrase.new_door(tmp_path / "passphrase.json", words)
    assert made.fits(words)
    for other in (words.upper(), words[:-1], words + " ", " " + words, words[:72]):
        assert other == words or not made.fits(other)
    sent = {"authorization": b"Bearer " + words.encode("utf-8")}  # as every program sends letters beyond ASCII
    assert _guarded(made).post("/api/v1/x", headers=sent).status_code == 200


def test_a_cookie_is_known_until_its_own_end_and_no_longer(
    door: passphrase.Door, monkeypatch: pytest.MonkeyPatch
) -> None:
    with monkeypatch.context() as patched:
        patched.setattr(passphrase, "LASTS", -1)
        over = {"cookie": f"{passphrase.COOKIE}={door.token()}"}
    assert not door.knows(over)
    assert _guarded(door).post("/api/v1/x", headers=over).status_code == 401
    names = {door.token().split(".")[1] for _ in range(50)}
    assert len(names) == 50
    assert all(len(one) == 32 for one in names)  # 128 bits in hexadecimal


def test_the_passphrase_is_heard_in_no_address(door: passphrase.Door) -> None:
    for address in (f"/?passphrase={RIGHT}", f"/?authorization=Bearer+{RIGHT}"):
        assert _guarded(door).get(address).status_code == 401
        assert _guarded(door).post(address.replace("/?", "/api/v1/x?")).status_code == 401


def test_no_other_site_is_let_read_an_answer_and_none_is_kept_in_a_cache() -> None:
    for headers in ({}, {"origin": HOME}, {"origin": "http://evil.example"}):
        answers = (_guarded().get("/", headers=headers), _guarded().post("/api/v1/x", headers=headers))
        assert not [one for answer in answers for one in answer.headers if one.startswith("access-control")]
    assert _guarded().get("/").headers["cache-control"] == "no-store"
    assert _guarded().post("/api/v1/x").headers["cache-control"] == "no-store"


def test_nobody_gets_in_without_the_passphrase(door: passphrase.Door) -> None:
    client = _guarded(door)
    assert client.get("/", headers={"accept": "text/html"}, follow_redirects=False).headers["location"] == "/sign-in"
    assert client.post("/api/v1/x").status_code == 401
    assert client.post("/api/v1/x", headers={"authorization": "Bearer wrong"}).status_code == 401
    assert client.post("/api/v1/x", headers={"authorization": f"Bearer {RIGHT}"}).status_code == 200
    assert not client.socket_opens({"origin": HOME})
    assert client.socket_opens({"origin": HOME, "cookie": f"{passphrase.COOKIE}={door.token()}"})
    end, _, signature = door.token().partition(".")
    for forged in (f"{int(end) + 9}.{signature}", f"1.{signature}", "x", f"{end}."):
        assert client.post("/api/v1/x", headers={"cookie": f"{passphrase.COOKIE}={forged}"}).status_code == 401


def test_guesses_at_the_same_time_are_counted_one_by_one(
    door: passphrase.Door, monkeypatch: pytest.MonkeyPatch
) -> None:
    hashed = list[str]()
    fits = passphrase.Door.fits

    def count(one: passphrase.Door, words: str) -> bool:
        hashed.append(words)
        return fits(one, words)

    monkeypatch.setattr(passphrase.Door, "fits", count)
    with ThreadPoolExecutor(12) as pool:
        answers = list(pool.map(door.tried, [f"guess number {n}" for n in range(12)], ["address 127.0.0.1"] * 12))
    assert not any(right for right, _ in answers)
    assert len(hashed) == passphrase.TRIES
    client = _guarded(door)
    told = client.post("/api/v1/x", headers={"authorization": f"Bearer {RIGHT}"})
    assert (told.status_code, 0 < int(told.headers["retry-after"]) <= passphrase.WINDOW) == (429, True)
    assert len(hashed) == passphrase.TRIES


def test_the_hash_of_a_guess_keeps_nobody_else_waiting(door: passphrase.Door, monkeypatch: pytest.MonkeyPatch) -> None:
    began, go_on = threading.Event(), threading.Event()

    def slow(_: passphrase.Door, __: str) -> bool:
        began.set()
        assert go_on.wait(20)
        return False

    monkeypatch.setattr(passphrase.Door, "fits", slow)
    app, known = _guarded(door).app, {"cookie": f"{passphrase.COOKIE}={door.token()}"}

    async def both() -> tuple[int, int]:
        async with httpx.AsyncClient(transport=httpx.ASGITransport(app), base_url=HOME) as client:
            guess = asyncio.create_task(client.get("/", headers={"authorization": "Bearer wrong"}))
            await asyncio.to_thread(began.wait, 20)
            other = await client.get("/", headers=known)
            go_on.set()
            return (await guess).status_code, other.status_code

    assert _in_a_thread(both()) == (401, 200)


def test_only_the_very_address_of_the_sign_in_page_is_open(door: passphrase.Door) -> None:
    client = _guarded(door)
    for path in ("/sign-inx", "/sign-in/x", "/lookx", "/job/1/complaint"):
        assert client.get(path).status_code == 401


def test_a_socket_that_is_open_is_heard_no_more_once_its_browser_signed_out(door: passphrase.Door) -> None:
    known = {"cookie": f"{passphrase.COOKIE}={door.token()}"}
    heard = list[str]()

    async def app(_: Any, receive: Any, __: Any) -> None:
        for _ in range(2):
            heard.append((await receive())["type"])
            door.end(known)

    scope = {
        "type": "websocket",
        "path": "/_nicegui_ws/",
        "headers": [(b"host", HOME.removeprefix("http://").encode()), (b"origin", HOME.encode())]
        + [(name.encode(), value.encode()) for name, value in known.items()],
    }

    async def receive() -> dict[str, str]:
        return {"type": "websocket.receive", "text": "a change"}

    async def send(_: Any) -> None:
        raise AssertionError("nothing is to be sent")

    _in_a_thread(Guard(app, door)(scope, receive, send))
    assert heard == ["websocket.receive", "websocket.disconnect"]


def test_a_server_that_nobody_opened_listens_on_this_machine_alone() -> None:
    here = serving.listen(0, usual=8322, lan=False)
    assert here.socket.getsockname()[0] == "127.0.0.1"
    with pytest.raises(Refusal, match="taken"):
        serving.listen(here.port, usual=8322, lan=False)
    here.socket.close()


def test_the_pages_socket_tells_no_other_site_that_it_may_listen(server: Any) -> None:
    polled = f"{server.address}/_nicegui_ws/socket.io/?EIO=4&transport=polling"
    for origin, code in ((server.address, 200), ("http://evil.example", 403), ("null", 403)):
        answer = httpx.get(polled, headers={"origin": origin}, timeout=120)
        told = answer.headers.get("access-control-allow-origin", server.address)
        assert (answer.status_code, told) == (code, server.address)


def test_a_page_of_the_app_marks_the_scripts_of_its_template_alone(serve_anew: Callable[..., Any]) -> None:
    page = httpx.get(serve_anew().address, timeout=120)
    nonce = page.headers["content-security-policy"].split("'nonce-")[1].split("'")[0]
    scripts = re.findall(r"<script\b[^>]*>", page.text)
    inline = [one for one in scripts if " src=" not in one]
    assert len(inline) >= 3
    assert all(f'nonce="{nonce}"' in one for one in inline)
    assert '<script src="/look/bench.js">' in scripts  # ours come from files, which need none


def test_signing_in_sets_a_cookie_that_no_script_and_no_other_site_gets(
    serve_anew: Callable[..., Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("TOPTANK_PASSPHRASE", RIGHT)
    server = serve_anew("--lan", "--no-tls")
    assert httpx.get(server.address, headers={"accept": "text/html"}, timeout=120).headers["location"] == "/sign-in"
    assert httpx.get(f"{server.address}/api/v1/jobs", timeout=120).status_code == 401
    form = httpx.get(f"{server.address}/sign-in", timeout=120).text
    (field,) = re.findall(r"<input\b[^>]*>", form)  # no second question, no hint
    assert 'type="password"' in field
    assert 'autocomplete="current-password"' in field  # browsers and keepers of passwords may fill it in
    assert "onpaste" not in form
    sign_in = f"{server.address}/sign-in"
    assert httpx.post(sign_in, data={"passphrase": "wrong one, sorry"}, timeout=120).status_code == 401
    answer = httpx.post(sign_in, data={"passphrase": RIGHT}, timeout=120)
    cookie = SimpleCookie(answer.headers["set-cookie"])[passphrase.COOKIE]
    assert (cookie["httponly"], cookie["samesite"].lower()) == (True, "strict")
    known = {"cookie": f"{passphrase.COOKIE}={cookie.value}"}
    page = httpx.get(server.address, headers=known, timeout=120)
    assert (page.status_code, "New job" in page.text, "Sign out" in page.text) == (200, True, True)
    again = httpx.post(sign_in, data={"passphrase": RIGHT}, headers=known, timeout=120)
    assert httpx.get(server.address, headers=known, timeout=120).status_code == 401  # the cookie before it has ended
    cookie = SimpleCookie(again.headers["set-cookie"])[passphrase.COOKIE]
    known = {"cookie": f"{passphrase.COOKIE}={cookie.value}"}
    foreign = httpx.post(f"{server.address}/sign-out", headers=known | {"origin": "http://evil.example"}, timeout=120)
    assert (foreign.status_code, httpx.get(server.address, headers=known, timeout=120).status_code) == (403, 200)
    out = httpx.post(f"{server.address}/sign-out", headers=known | {"origin": server.address}, timeout=120)
    assert (out.headers["location"], httpx.get(server.address, headers=known, timeout=120).status_code) == (
        "/sign-in",
        401,
    )
    assert out.headers["clear-site-data"] == '"cache"'
    assert server.told_of("/sign-in", 150_000_000) == "413"
    assert httpx.post(sign_in, content=iter([b"of unknown length"]), timeout=120).status_code == 413
    assert httpx.post(sign_in, files={"passphrase": (None, RIGHT)}, timeout=120).status_code == 415
    for _ in range(passphrase.TRIES - 1):
        httpx.post(sign_in, data={"passphrase": "wrong one, sorry"}, timeout=120)
    throttled = httpx.post(sign_in, data={"passphrase": RIGHT}, timeout=120)
    assert (throttled.status_code, "retry-after" in throttled.headers) == (429, True)


@pytest.mark.parametrize("wanted", ["/job/7/customer.pdf?of=core_3row,cap_16", "/job/7/causes", "/"])
def test_whoever_is_asked_for_the_passphrase_comes_to_the_page_that_was_wanted(
    wanted: str, door: passphrase.Door
) -> None:
    client = _Client(application(door=door, warm=False))
    asked = client.get(wanted, headers={"accept": "text/html"}).headers["location"]
    assert asked.startswith("/sign-in")
    page = client.get(asked).text
    action = html.unescape(re.findall(r'action="([^"]+)"', page)[0])
    wrong = client.post(action, data={"passphrase": "wrong one, sorry"})
    assert html.unescape(re.findall(r'action="([^"]+)"', wrong.text)[0]) == action  # a slip loses no way
    assert unquote(client.post(action, data={"passphrase": RIGHT}).headers["location"]) == wanted


@pytest.mark.parametrize(
    "elsewhere",
    ["//evil.example", "/\\evil.example", "https://evil.example", "/%09/evil.example\t", "evil", "/sign-in?then=/",
     '/a"><b>', "/a\r\nset-cookie: x"],
)  # fmt: skip
def test_the_way_on_never_leads_to_another_site(elsewhere: str, door: passphrase.Door) -> None:
    client = _Client(application(door=door, warm=False))
    address = f"/sign-in?{urlencode({'then': elsewhere})}"
    assert 'action="/sign-in"' in client.get(address).text
    assert client.post(address, data={"passphrase": RIGHT}).headers["location"] == "/"
