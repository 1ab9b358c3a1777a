"""A connection that does not finish what it began is closed, and the server serves on."""

import asyncio
import socket
from concurrent.futures import ThreadPoolExecutor
from typing import Any

import httpx
import pytest
import uvicorn

from toptank.interfaces.web.access import patience


@pytest.mark.parametrize(
    "sent",
    [
        b"",
        b"GET / HTTP/1.1\r\nHost: 127.0.0.1\r\n",
        b"GET /look/look.css HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n",
        b"POST /sign-in HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: 900\r\n"
        b"Content-Type: application/x-www-form-urlencoded\r\n\r\npassphrase=",
    ],
    ids=["nothing", "half a head", "a whole request, then nothing", "half a body"],
)
def test_a_connection_that_does_not_finish_is_closed(sent: bytes, monkeypatch: pytest.MonkeyPatch) -> None:
    """Half-open requests lived for ever: some hundred of them, and nobody was served."""
    monkeypatch.setattr(patience, "HEAD_WITHIN", 0.3)
    monkeypatch.setattr(patience, "BODY_PAUSE", 0.3)

    async def app(scope: Any, receive: Any, send: Any) -> None:
        if scope["type"] != "http":
            return
        while (await receive()).get("more_body"):
            pass
        await send({"type": "http.response.start", "status": 200, "headers": [(b"content-length", b"2")]})
        await send({"type": "http.response.body", "body": b"ok"})

    async def closed_by_the_server() -> bool:
        config = uvicorn.Config(app, http=patience.PatientHttp, timeout_keep_alive=1, lifespan="off", log_level="error")
        server = uvicorn.Server(config)
        with socket.create_server(("127.0.0.1", 0)) as listening:
            serving = asyncio.create_task(server.serve([listening]))
            while not server.started:
                await asyncio.sleep(0.01)
            reader, writer = await asyncio.open_connection(*listening.getsockname())
            writer.write(sent)
            async with asyncio.timeout(30):
                await reader.read()  # to the end: until the server closes
            writer.close()
            # and it serves on
            async with httpx.AsyncClient() as client:
                answer = await client.get(f"http://127.0.0.1:{listening.getsockname()[1]}/")
            server.should_exit = True
            await serving
            return answer.text == "ok"

    with ThreadPoolExecutor(1) as beside:  # a browser of the same session runs a loop in this thread
        assert beside.submit(asyncio.run, closed_by_the_server()).result()
