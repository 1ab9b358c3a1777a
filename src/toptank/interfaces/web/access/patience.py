"""Connections that do not finish what they ask: closed after a while, so that they hold nobody else up."""

import asyncio

from uvicorn.protocols.http.h11_impl import H11Protocol

HEAD_WITHIN = 10.0
"""The whole head of a request must be there so soon after it began, or after the connection was made [s]."""

BODY_PAUSE = 20.0
"""Longest pause within the body of a request [s]; a photo over a weak radio link comes slowly, but it comes."""


class PatientHttp(H11Protocol):
    """The server's own protocol with two limits that it lacks; one for connections at rest between requests it has."""

    _limit: asyncio.TimerHandle | None = None

    def connection_made(self, transport: asyncio.Transport) -> None:
        """Begin to wait for the first head."""
        super().connection_made(transport)
        self._wait(HEAD_WITHIN)

    def data_received(self, data: bytes) -> None:
        """Take what came, and wait on for what is still to come."""
        super().data_received(data)
        if self.transport.get_protocol() is not self:  # it has become a socket, which has its own limits
            self._wait(None)
        elif self._asking():
            whole = not self.cycle.more_body
            self._wait(None if whole else BODY_PAUSE)
        elif self._limit is None:
            self._wait(HEAD_WITHIN)

    def on_response_complete(self) -> None:
        """Rest: the server has a limit of its own for that."""
        self._wait(None)
        super().on_response_complete()

    def connection_lost(self, exc: Exception | None) -> None:
        """Wait for nothing more."""
        self._wait(None)
        super().connection_lost(exc)

    def _asking(self) -> bool:
        """Whether a request has come whole but for its body, and is not answered yet."""
        # Before the first request there is none, whatever its type says.
        return self.cycle is not None and not self.cycle.response_complete  # pyright: ignore[reportUnnecessaryComparison]

    def _wait(self, seconds: float | None) -> None:
        if self._limit is not None:
            self._limit.cancel()
        self._limit = None if seconds is None else self.loop.call_later(seconds, self._too_slow)

    def _too_slow(self) -> None:
        self._limit = None
        if not self.transport.is_closing():
            self.transport.close()
