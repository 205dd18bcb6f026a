"""Requests of all sorts that no page sends: none is done, none is told anything, the server goes on as before."""

from __future__ import annotations

import resource
import socket
from pathlib import Path
from typing import Any

import pytest
from asking import Page, drawn_on
from hostile_requests import hostile_requests
from test_sitting import CORNER

_MOST_ANSWER = 3_000_000


def answer(port: int, sent: bytes) -> bytes:
    """All that comes back; nothing where the connection was dropped."""
    with socket.create_connection(("127.0.0.1", port), timeout=60) as connection:
        try:
            connection.sendall(sent)
            connection.shutdown(socket.SHUT_WR)
        except OSError:  # refused before all of it was sent
            pass
        found = bytearray()
        try:
            while (part := connection.recv(65_536)) and len(found) < _MOST_ANSWER:
                found += part
        except OSError:
            pass
    return bytes(found)


def test_none_is_done_and_none_is_told_anything(tmp_path: Path, cases: Any, capfd: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "corner-block.yaml"
    path.write_text(CORNER, encoding="utf-8")
    with drawn_on(path) as served:
        page = Page(served)
        host = f"127.0.0.1:{served.server_port}"
        every = list(hostile_requests(host, served.secret, page.get("commands")))
        assert len(every) >= 500
        before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
        for name, sent in every[:: cases(len(every) // 60, 1)]:
            found = answer(served.server_port, sent)
            status = found[9:12].decode() if found else ""
            assert status in ("", "400", "403", "404", "405", "409", "413", "415", "422", "431"), (name, found[:300])
            assert found.count(b"HTTP/1.1 ") <= 1, (name, "a second request was answered")
            for word in (b"Traceback", b"root:", b"The corner block"):
                allowed = (
                    word == b"The corner block" and status == "409"
                )  # what others did meanwhile is told to the page
                assert allowed or word not in found, (name, word)
            assert not found or b"content-security-policy" in found.lower(), name
        after = page.get("state")
        assert after["revision"] == 1 and after["text"] == CORNER and path.read_text() == CORNER
        assert resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before < 200_000  # kilobytes
    assert "Traceback" not in capfd.readouterr().err
