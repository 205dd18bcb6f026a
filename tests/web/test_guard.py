"""What a server takes: how much, how often, for how long; asked over real connections."""

from __future__ import annotations

import http.client
import json
import socket
from collections.abc import Iterator
from contextlib import suppress

import pytest
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from explainers.web import serving
from explainers.web.serving import LocalServer


async def _echo(request: Request) -> Response:
    return JSONResponse({"length": len(await request.body()), "path": request.scope["path"]})


async def _fails(request: Request) -> Response:
    raise RuntimeError("the secret of the house")


@pytest.fixture(scope="module")
def server() -> Iterator[LocalServer]:
    app = Starlette(routes=[Route("/fails", _fails), Route("/{rest:path}", _echo, methods=["GET", "POST"])])
    made = LocalServer(app, methods=("GET", "POST"), most_body=1000)
    made.start()
    yield made
    made.stop()


def posted(server: LocalServer, body: bytes, path: str = "/x", **headers: str) -> tuple[int, bytes]:
    connection = http.client.HTTPConnection("127.0.0.1", server.server_port, timeout=10)
    try:
        connection.request("POST", f"/{server.secret}{path}", body, headers)
        answer = connection.getresponse()
        return answer.status, answer.read()
    finally:
        connection.close()


def test_the_app_sees_the_address_without_the_secret(server: LocalServer) -> None:
    status, body = posted(server, b"12345")
    assert status == 200 and json.loads(body) == {"length": 5, "path": "/x"}


def test_a_body_as_long_as_may_be_is_taken_and_no_longer_one(server: LocalServer) -> None:
    assert posted(server, b"a" * 1000)[0] == 200
    assert posted(server, b"a" * 1001)[0] == 413


def test_a_body_that_says_no_length_is_counted(server: LocalServer) -> None:
    with socket.create_connection(("127.0.0.1", server.server_port), timeout=10) as connection:
        start = f"POST /{server.secret}/x HTTP/1.1\r\nHost: 127.0.0.1:{server.server_port}\r\n"
        connection.sendall(start.encode() + b"Transfer-Encoding: chunked\r\n\r\n")
        sent = 0
        with suppress(OSError):  # closed by the server
            while sent < 50_000_000:
                connection.sendall(b"10000\r\n" + b"a" * 65_536 + b"\r\n")
                sent += 65_536
        assert sent < 10_000_000


def test_a_failure_of_the_app_is_told_in_plain_words(server: LocalServer, capfd: pytest.CaptureFixture[str]) -> None:
    connection = http.client.HTTPConnection("127.0.0.1", server.server_port, timeout=10)
    connection.request("GET", f"/{server.secret}/fails")
    answer = connection.getresponse()
    body = answer.read()
    assert answer.status == 500 and b"house" not in body and answer.getheader("Content-Security-Policy")
    assert "house" not in capfd.readouterr().err


def test_a_request_that_does_not_come_whole_is_dropped(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(serving, "_WHOLE_S", 0.2)
    slow = LocalServer(
        Starlette(routes=[Route("/{rest:path}", _echo, methods=["POST"])]), methods=("POST",), most_body=9
    )
    slow.start()
    head = f"POST /{slow.secret}/ HTTP/1.1\r\nHost: 127.0.0.1:{slow.server_port}\r\nContent-Length: 9\r\n\r\n".encode()
    for part in (b"", b"POST /", head, head + b"123"):
        with socket.create_connection(("127.0.0.1", slow.server_port), timeout=10) as connection:
            connection.sendall(part)
            with suppress(ConnectionResetError):
                assert connection.recv(100) == b""
    slow.stop()


def test_the_port_is_given_back(server: LocalServer) -> None:
    other = LocalServer(Starlette())
    other.start()
    other.stop()
    with pytest.raises(OSError, match=r"refused|reset"):
        socket.create_connection(("127.0.0.1", other.server_port), timeout=2).recv(1)
