"""Who may ask, and how much: the door in front of every page that is served, as ASGI middleware.

A request must name the loopback address as its host, must not come from a page of anywhere else, and must begin its
address with a secret that is drawn anew at each start: so no page of the web can ask here, not even one whose name was
made to lead to this machine, and no other program that does not know the address. Each connection is answered once, so
that nothing a request brings along can be taken for a second one. Whatever is behind it sees the address without the
secret; links on pages are relative, so that no page needs to know it.
"""

from __future__ import annotations

import hmac
import os
import traceback
from collections.abc import Collection, Iterable, Mapping
from types import MappingProxyType
from typing import Any

from ..errors import TRACEBACK_VARIABLE

__all__ = ["HEADERS", "MOST_HEAD", "POLICY", "RAW_HEADERS", "Guard", "TooLarge"]

POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; font-src data:; "
    "connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
)
HEADERS = {
    "Content-Security-Policy": POLICY,
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cache-Control": "no-store",
    "Connection": "close",
}
"""What every answer carries, also one that refuses."""

RAW_HEADERS = [(name.lower().encode(), value.encode()) for name, value in HEADERS.items()]
MOST_HEAD = 16_384
"""Bytes of a request before its body. What reads requests bounds one that is not whole yet; the guard, one that came at
once."""
_KINDS_OF_SITE = (b"same-origin", b"none")


class TooLarge(Exception):
    """More was sent than a request may bring."""


class Guard:
    """Answers what may be asked by the app behind it, refuses the rest in plain words."""

    def __init__(
        self,
        app: Any,
        *,
        hosts: Iterable[str],
        secret: str,
        methods: Collection[str] = ("GET",),
        most_body: int = 0,
        larger: Mapping[str, int] = MappingProxyType({}),
        policy: str = POLICY,
    ) -> None:
        """app       : ASGI
        hosts     : with their ports, in lower case
        most_body : bytes that a request may bring
        larger    : the same for single addresses, without the secret
        policy    : the content security policy of its pages
        """
        self._headers = [(name, policy.encode() if value == POLICY.encode() else value) for name, value in RAW_HEADERS]
        self._app = app
        self._hosts = frozenset(host.encode("ascii") for host in hosts)
        self._origins = frozenset(b"http://" + host for host in self._hosts)
        self._start = f"/{secret}"
        self._methods = frozenset(methods)
        self._most_body = most_body
        self._larger = dict(larger)

    async def __call__(self, scope: Any, receive: Any, send: Any) -> None:
        """As ASGI asks for it."""
        if scope["type"] != "http":
            return
        began = False

        async def kept(message: Any) -> None:
            nonlocal began
            if message["type"] == "http.response.start":
                began = True
                # The app's own caching or policy gives way: there is one for all.
                ours = {name for name, _ in RAW_HEADERS}
                headers = [(name, value) for name, value in message.get("headers", ()) if name.lower() not in ours]
                message = {**message, "headers": [*headers, *self._headers]}
            await send(message)

        place = self._place(scope)
        if place is None:
            return await _refuse(kept, 403, "Only for pages of this program.\n")
        if _head_of(scope) > MOST_HEAD:
            return await _refuse(kept, 431, "This is too large.\n")
        if scope["method"] not in self._methods:
            allowed = ", ".join(sorted(self._methods))
            return await _refuse(kept, 405, f"Only {allowed}.\n", (b"allow", allowed.encode()))
        most = self._larger.get(place, self._most_body)
        if self._declared(scope) > most:
            return await _refuse(kept, 413, "This is too large.\n")
        try:
            await self._app({**scope, "path": place, "raw_path": place.encode()}, self._counted(receive, most), kept)
        except TooLarge:
            if not began:
                await _refuse(kept, 413, "This is too large.\n")
        except Exception:
            if os.environ.get(TRACEBACK_VARIABLE):
                traceback.print_exc()
            if not began:
                await _refuse(kept, 500, "The program itself failed here.\n")

    def _place(self, scope: Any) -> str | None:
        """What is asked for, without the secret; None for whoever may not ask."""
        given: dict[bytes, list[bytes]] = {}
        for name, value in scope["headers"]:
            given.setdefault(name, []).append(value.strip().lower())
        hosts = given.get(b"host", [])
        if len(hosts) != 1 or hosts[0] not in self._hosts:
            return None
        if any(origin not in self._origins for origin in given.get(b"origin", ())):
            return None
        if any(site not in _KINDS_OF_SITE for site in given.get(b"sec-fetch-site", ())):
            return None
        start, rest = scope["path"][: len(self._start)], scope["path"][len(self._start) :]
        # The whole of it is compared whatever it begins with, so that the time tells nothing.
        same = hmac.compare_digest(start.encode("utf-8", "replace"), self._start.encode())
        return rest if same and rest.startswith("/") else None

    def _declared(self, scope: Any) -> int:
        """How much a request says that it brings; what it does bring is counted besides."""
        lengths = [value for name, value in scope["headers"] if name == b"content-length"]
        return max((int(length) for length in lengths if length.isdigit()), default=0)

    def _counted(self, receive: Any, most: int) -> Any:
        count = 0

        async def counted() -> Any:
            nonlocal count
            message = await receive()
            count += len(message.get("body", b""))
            if count > most:
                raise TooLarge
            return message

        return counted


def _head_of(scope: Any) -> int:
    """How long the line and the lines beneath it are."""
    lines = sum(len(name) + len(value) for name, value in scope["headers"])
    return lines + len(scope["path"]) + len(scope["query_string"])


async def _refuse(send: Any, status: int, words: str, *headers: tuple[bytes, bytes]) -> None:
    body = words.encode()
    length = (b"content-length", str(len(body)).encode())
    kind = (b"content-type", b"text/plain; charset=utf-8")
    await send({"type": "http.response.start", "status": status, "headers": [kind, length, *headers]})
    await send({"type": "http.response.body", "body": body})
