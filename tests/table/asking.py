"""A desk served, asked as a page asks."""

from __future__ import annotations

import http.client
import json
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from explainers.table.desk import Desk
from explainers.table.server import TableServer
from explainers.table.sitting import Sitting

__all__ = ["Page", "drawn_on"]


class Page:
    """One window."""

    def __init__(self, server: TableServer) -> None:
        self.server = server
        self.state: dict[str, Any] = self.get("state")

    def asked(self, method: str, path: str, body: bytes | None = None, **headers: str) -> tuple[int, bytes]:
        """One request; a header of its own in place of the usual one."""
        connection = http.client.HTTPConnection("127.0.0.1", self.server.server_port, timeout=60)
        given = {"Content-Type": "application/json"} if body is not None else {}
        given |= {name.replace("_", "-"): value for name, value in headers.items()}
        try:
            connection.request(method, path, body, given)
            answer = connection.getresponse()
            return answer.status, answer.read()
        finally:
            connection.close()

    def get(self, path: str) -> Any:
        status, body = self.asked("GET", f"/{self.server.secret}/{path}")
        assert status == 200, (status, body)
        return json.loads(body)

    def post(self, path: str, body: Any) -> tuple[int, Any]:
        """(status, answer); the state that comes with it is the page's from then on."""
        status, raw = self.asked("POST", f"/{self.server.secret}/{path}", json.dumps(body).encode())
        told = json.loads(raw)
        self.state = told.get("state", self.state)
        return status, told

    def edit(self, *commands: dict[str, Any]) -> tuple[int, Any]:
        """Commands against what the page has seen."""
        return self.post("edit", {"revision": self.state["revision"], "commands": list(commands)})


@contextmanager
def drawn_on(path: Path, kind: str | None = None) -> Iterator[TableServer]:
    """A file served for drawing."""
    server = TableServer(Desk(Sitting(path, kind=kind)))
    server.start()
    try:
        yield server
    finally:
        server.stop()
