"""A real server and a real browser, one of each a session. Any request that leaves this machine fails the test."""

import os
import signal
import socket
import subprocess
import sys
from collections.abc import Callable, Generator
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Browser, Page, expect, sync_playwright

TOOLS = Path(__file__).parents[3] / "tools"
FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
SIZES = {"desktop": (1440, 900), "tablet": (820, 1180), "phone": (390, 844)}
TICKS = float(os.sysconf("SC_CLK_TCK"))
"""Of the processor, a second."""

READY = "toptank is ready at "
PATIENCE = 300_000
"""For whatever a page comes to show [ms]: nothing is tested by how fast a machine is that others share."""


class Server:
    """A server of its own: started as a person would, stopped as a crash would."""

    def __init__(self, store: Path, *words: str, port: int | None = None) -> None:
        """Start it and wait until it says where it is."""
        self.store, self.words = store, words
        self.port = port
        self.start()

    def start(self) -> None:
        """Start it, on the same port as before."""
        port = ["--port", str(self.port)] if self.port else ["--port", "0"]
        command = [sys.executable, "-m", "toptank.interfaces.cli.main", "serve", "--no-open", *port, *self.words]
        environment = os.environ | {"TOPTANK_STORE": str(self.store), "JAX_PLATFORMS": "cpu"}
        self.log = (self.store / "log.txt").open("ab")
        self.process = subprocess.Popen(
            command, env=environment, stdout=subprocess.PIPE, stderr=self.log, stdin=subprocess.DEVNULL, text=True
        )
        assert self.process.stdout is not None
        said = self.process.stdout.readline()
        assert said.startswith(READY), f"{said!r} {(self.store / 'log.txt').read_text(encoding='utf-8')[-2000:]}"
        self.announced = self.worked()
        self.address = said.removeprefix(READY).split()[0].rstrip("/")
        self.port = urlsplit(self.address).port

    def worked(self) -> float:
        """Time of the processor that it has used so far [s]; the clock says little beside other work."""
        fields = Path(f"/proc/{self.process.pid}/stat").read_text(encoding="ascii").rpartition(")")[2].split()
        return (int(fields[11]) + int(fields[12])) / TICKS

    def kill(self) -> None:
        """Stop it without a word of warning."""
        if self.process.returncode is not None:
            return
        self.process.send_signal(signal.SIGKILL)
        self.process.wait()
        assert self.process.stdout is not None
        self.process.stdout.close()
        self.log.close()

    def told_of(self, path: str, size: int) -> str:
        """Announce a body of a size, send none of it, and return the code of the answer."""
        with socket.create_connection(("127.0.0.1", self.port), timeout=20) as line:
            line.sendall(
                f"POST {path} HTTP/1.1\r\nHost: 127.0.0.1:{self.port}\r\nContent-Length: {size}\r\n\r\n".encode()
            )
            return line.recv(100).decode().split()[1]

    def complaints(self) -> str:
        """Return what it wrote to its error stream."""
        return (self.store / "log.txt").read_text(encoding="utf-8")


@pytest.fixture(scope="session")
def server(tmp_path_factory: pytest.TempPathFactory) -> Generator[Server]:
    one = Server(tmp_path_factory.mktemp("store"))
    yield one
    one.kill()
    assert one.complaints() == ""


@pytest.fixture
def serve_anew(tmp_path: Path) -> Generator[Callable[..., Server]]:
    """Start servers of their own, with an empty record each."""
    started: list[Server] = []

    def start(*words: str) -> Server:
        folder = tmp_path / str(len(started))
        folder.mkdir()
        started.append(Server(folder, *words))
        return started[-1]

    yield start
    for one in started:
        one.kill()


@pytest.fixture(scope="session")
def chromium() -> str:
    sys.path.insert(0, str(TOOLS))
    try:
        from chromium import found_or_installed  # a script, found by its folder
    finally:
        sys.path.remove(str(TOOLS))
    path = found_or_installed()
    if path is None:
        told = "NO BROWSER TEST RAN: there is no Chromium here, and it cannot be installed; set CHROMIUM_PATH"
        if os.environ.get("CI"):
            pytest.fail(told)
        # A person without root cannot install a browser; all other tests are worth running there. Never in CI.
        pytest.skip(told)
    return path


@pytest.fixture(scope="session")
def browser(chromium: str) -> Generator[Browser]:
    with sync_playwright() as playwright:
        expect.set_options(timeout=PATIENCE)
        one = playwright.chromium.launch(executable_path=chromium, args=FLAGS)
        yield one
        one.close()


@pytest.fixture
def open_page(browser: Browser, server: Server) -> Generator[Callable[..., Page]]:
    """Open a page as a person would; at the end nothing was complained of and nothing left this machine."""
    complaints: list[str] = []
    contexts: list[Any] = []

    def opened(
        path: str, *, size: str = "tablet", theme: str = "light", at: Server = server, context: Any = None
    ) -> Page:
        if context is None:
            width, height = SIZES[size]
            context = browser.new_context(viewport={"width": width, "height": height}, color_scheme=theme)  # pyright: ignore[reportArgumentType]  # a word of the test
            contexts.append(context)
        page = context.new_page()
        page.set_default_timeout(PATIENCE)
        page.on("console", lambda said: complaints.append(f"console: {said.text}") if said.type == "error" else None)
        page.on("pageerror", lambda error: complaints.append(f"page: {error}"))
        page.on("request", lambda asked: _own(asked.url, at, complaints))
        page.on("websocket", lambda socket: _own(socket.url, at, complaints))
        page.goto(at.address + path)
        page.wait_for_selector("#page")
        connected(page)
        return page

    yield opened
    for context in contexts:
        context.close()
    lost = (
        "ERR_CONNECTION_REFUSED",
        "ERR_INTERNET_DISCONNECTED",
        "WebSocket connection to",
    )  # what a killed server leaves behind
    assert [one for one in complaints if not any(word in one for word in lost)] == []


def connected(page: Page) -> None:
    """Wait until the page talks to the server."""
    page.wait_for_function("() => window.did_handshake === true")


def _own(address: str, server: Server, complaints: list[str]) -> None:
    parts = urlsplit(address)
    if parts.scheme not in ("data", "blob") and parts.netloc != urlsplit(server.address).netloc:
        complaints.append(f"request elsewhere: {address}")
