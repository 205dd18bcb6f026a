"""An ASGI app served on the loopback address from a thread of its own, until it is told to stop.

uvicorn does the HTTP (its pure-Python parser h11 keeps to the letter of it); here stands what it leaves to whoever uses
it: at most so many connections at once, a time after which a request that has not come whole is dropped, and plain
words, with the headers of all answers, for what is no request. Nothing is logged: the terminal belongs to the command.
"""

from __future__ import annotations

import asyncio
import secrets
import socket
import threading
from collections.abc import Callable, Collection, Mapping
from types import MappingProxyType
from typing import Any

import uvicorn
from uvicorn.protocols.http.h11_impl import H11Protocol

from .guard import MOST_HEAD, POLICY, RAW_HEADERS, Guard

__all__ = ["LOOPBACK", "LocalServer"]

LOOPBACK = "127.0.0.1"

_MOST_AT_ONCE = 64  # connections; a browser holds about six
_WHOLE_S = 20.0  # a request that has not come by then is dropped
_TO_END_S = 1  # for what is still being answered when the server stops
_STARTING_S = 20.0


class LocalServer:
    """Serves one app behind a `Guard`."""

    def __init__(
        self,
        app: Any,
        *,
        methods: Collection[str] = ("GET",),
        most_body: int = 0,
        larger: Mapping[str, int] = MappingProxyType({}),
        policy: str = POLICY,
        at_the_end: Callable[[], None] = lambda: None,
    ) -> None:
        """Takes a free port; OSError where there is none.

        app        : ASGI; sees addresses without the secret
        at_the_end : lets those go who wait for news
        The others : as for `Guard`
        """
        self.socket = socket.create_server((LOOPBACK, 0), backlog=_MOST_AT_ONCE)
        self.server_port: int = self.socket.getsockname()[1]
        self.secret = secrets.token_urlsafe(16)
        self._at_the_end = at_the_end
        hosts = [f"{name}:{self.server_port}" for name in (LOOPBACK, "localhost")]
        guard = Guard(
            app, hosts=hosts, secret=self.secret, methods=methods, most_body=most_body, larger=larger, policy=policy
        )
        config = uvicorn.Config(
            guard,
            http=_BoundedProtocol,
            ws="none",
            lifespan="off",
            loop="asyncio",
            interface="asgi3",
            log_config=None,
            log_level="critical",
            access_log=False,
            server_header=False,
            date_header=False,
            proxy_headers=False,
            h11_max_incomplete_event_size=MOST_HEAD,
            timeout_graceful_shutdown=_TO_END_S,
        )
        self._server = uvicorn.Server(config)
        self._thread = threading.Thread(target=self._serve, daemon=True)

    @property
    def address(self) -> str:
        """What to open in a browser: whoever knows it may ask."""
        return f"http://{LOOPBACK}:{self.server_port}/{self.secret}/"

    def start(self) -> None:
        """Serve in a thread of its own, which ends with the process."""
        self._thread.start()
        waited = threading.Event()
        for _ in range(int(_STARTING_S / 0.005)):
            if self._server.started or not self._thread.is_alive():
                return
            waited.wait(0.005)

    def stop(self) -> None:
        """Let every page go and give the port back."""
        self._at_the_end()
        self._server.should_exit = True
        if self._thread.is_alive():
            self._thread.join(_TO_END_S + 5.0)
        self.socket.close()

    def _serve(self) -> None:
        asyncio.run(self._server.serve(sockets=[self.socket]))


class _BoundedProtocol(H11Protocol):
    """uvicorn's own, with bounds."""

    def connection_made(self, transport: Any) -> None:
        super().connection_made(transport)
        self._due = self.loop.call_later(_WHOLE_S, self._has_come)
        if len(self.connections) > _MOST_AT_ONCE:
            transport.abort()

    def connection_lost(self, exc: Exception | None) -> None:
        self._due.cancel()
        super().connection_lost(exc)

    def eof_received(self) -> bool | None:  # type: ignore[override]
        """One who has asked and says no more is still answered; one who has the answer, or news, has gone.

        Nor does the rest come of a request that is not whole.
        """
        return self.cycle is not None and not self.cycle.response_started and not self.cycle.more_body

    def send_400_response(self, msg: str) -> None:
        """What cannot be read as a request is refused in plain words, and never repeated."""
        body = b"This cannot be read as a request.\n"
        if self.cycle is None:  # else something has been answered already
            headers = [(b"content-type", b"text/plain; charset=utf-8"), (b"content-length", b"%d" % len(body))]
            lines = [b"%b: %b" % each for each in (*headers, *RAW_HEADERS)]
            self.transport.write(b"\r\n".join([b"HTTP/1.1 400 Bad Request", *lines, b"", body]))
        self.transport.close()

    def _has_come(self) -> None:
        """Drop a request of which something is still missing."""
        if self.cycle is None or (self.cycle.more_body and not self.cycle.response_complete):
            self.transport.abort()
