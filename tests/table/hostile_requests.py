"""Requests that no page of ours sends, as bytes: foreign, malformed, outsized, of the wrong types."""

from __future__ import annotations

import json
from collections.abc import Iterator
from random import Random
from typing import Any
from urllib.parse import quote

__all__ = ["WRONG", "hostile_requests", "wrong_commands"]

WRONG: dict[str, tuple[Any, ...]] = {
    "str": (3, None, True, [], {}, ["base"], "x" * 200_000, "\u0000", "\ud800", "a\nb"),
    "int": ("0", None, True, [], {}, -1, 1.5, 10**30, 2**31 + 1),
    "Points": ("[]", None, 7, {}, [[]], [[0]], [[0, 0, 0]], [["x", {}]], [[True, 0]], [[0, 0]] * 301, [[1e300, 0]]),
    "TypedPoint": ("0, 0", None, 7, {}, [], [0], [0, 0, 0], [None, 0], [[0], 0], [True, 0]),
    "Sizes": ("{}", None, 7, [], {"wide": []}, {"wide: 1}, evil: {a": 2}, {"x" * 9_000: 1}),
    "Coordinate": ([], {}, True, [0], "\u0000", "x" * 200_000),
    "MarkedSide": ("1", -1, 0.5, {}, [[0, 0]], [[0, 0], [1]], [1, 2], True, [[0, 0], [1, "\u0000"]]),
}
"""For each type of a key what is not of it."""


def wrong_commands(listed: list[dict[str, Any]]) -> Iterator[tuple[str, dict[str, Any]]]:
    """Each command with each of its keys of each wrong type, the others right; (what it is, the command)."""
    right: dict[str, Any] = {
        "str": "base",
        "int": 0,
        "Points": [[0, 0], [4, 0], [4, 4]],
        "TypedPoint": [0, 0],
        "Sizes": {"wide": 2, "high": 1},
        "Coordinate": 1,
        "MarkedSide": 1,
    }
    for command in listed:
        kinds = {key: kind.rstrip("?").replace(" | None", "") for key, kind in command["keys"].items()}
        usual = {"do": command["do"], **{key: right[kind] for key, kind in kinds.items()}}
        for key, kind in kinds.items():
            may_be_none = "None" in command["keys"][key]
            for value in WRONG[kind]:
                if not (value is None and may_be_none):
                    yield f"{command['do']} with {key} {str(value)[:40]!r}", {**usual, key: value}
            if not command["keys"][key].endswith("?"):
                yield f"{command['do']} without {key}", {name: usual[name] for name in usual if name != key}
        yield f"{command['do']} with a key too many", {**usual, "__class__": "x"}


def hostile_requests(host: str, secret: str, listed: list[dict[str, Any]]) -> Iterator[tuple[str, bytes]]:
    """(what it is, all that is sent)"""
    title = {"do": "set", "at": "title", "value": "TAKEN"}
    edit = json.dumps({"revision": 1, "commands": [title]}).encode()
    yield from _foreign(host, secret, edit)
    yield from _malformed(host, secret, edit)
    yield from _outsized(host, secret)
    yield from _bodies(host, secret)
    for name, command in wrong_commands(listed):
        body = json.dumps({"revision": 1, "commands": [command]}).encode()
        yield name, request("POST", f"/{secret}/edit", host, body)


def request(
    method: str, path: str, host: str, body: bytes = b"", *headers: str, kind: str = "application/json"
) -> bytes:
    """One request with the usual head."""
    given = {line.partition(":")[0].lower() for line in headers}
    usual = [f"Host: {host}", f"Content-Type: {kind}", f"Content-Length: {len(body)}"]
    lines = [line for line in usual if line.partition(":")[0].lower() not in given]
    lines += [line for line in headers if line.partition(":")[2]]
    return "\r\n".join([f"{method} {path} HTTP/1.1", *lines, "", ""]).encode("latin-1", "replace") + body


def _foreign(host: str, secret: str, edit: bytes) -> Iterator[tuple[str, bytes]]:
    own, port = f"/{secret}/edit", host.partition(":")[2]
    hosts = (
        "evil.example",
        f"evil.example:{port}",
        "127.0.0.1",
        "127.0.0.1:1",
        f"[::1]:{port}",
        f"127.0.0.1.evil:{port}",
        f"{host}.evil.example",
        f"{host}@evil.example",
        "",
        f"localhost:{port}:1",
        f"0.0.0.0:{port}",
        "\xff",
    )
    for each in hosts:
        yield f"the host {each!r}", request("POST", own, host, edit, f"Host: {each}" if each else "Host:")
    yield "two hosts", request("POST", own, host, edit, f"X: 1\r\nHost: {host}")
    for each in (
        "http://evil.example",
        "null",
        f"https://{host}",
        f"http://{host}.evil.example",
        "file://",
        f"http://{host}/",
    ):
        yield f"the origin {each}", request("POST", own, host, edit, f"Origin: {each}")
    yield "two origins", request("POST", own, host, edit, f"Origin: http://{host}\r\nOrigin: http://evil.example")
    for each in ("cross-site", "same-site", "x"):
        yield f"a page of {each}", request("POST", own, host, edit, f"Sec-Fetch-Site: {each}")
    kinds = (
        "text/plain",
        "application/x-www-form-urlencoded",
        "multipart/form-data",
        "application/octet-stream",
        "x" * 900,
    )
    for kind in kinds:
        yield f"the type {kind[:40]}", request("POST", own, host, edit, kind=kind)
    for method in ("PUT", "DELETE", "PATCH", "OPTIONS", "HEAD", "TRACE", "CONNECT", "post", "X" * 500):
        yield f"the method {method[:9]}", request(method, own, host, edit)
    for method in ("GET", "HEAD"):
        yield f"{method} of what is posted", request(method, own, host)
    for place in ("state", "later", "commands", "choices", "news", "main.js", ""):
        yield f"POST to {place}", request("POST", f"/{secret}/{place}", host, edit)
    wrong = (secret[:-1], secret[::-1], secret.swapcase(), secret + "x", "", "x" * 4_000, quote("\u2028"), "%00")
    for each in wrong:
        yield f"the secret {each[:9]}", request("POST", f"/{each}/edit", host, edit)
        yield f"the state by the secret {each[:9]}", request("GET", f"/{each}/state", host)
    ways = (
        "../corner-block.yaml",
        "..%2fcorner-block.yaml",
        "%2e%2e/corner-block.yaml",
        "....//corner-block.yaml",
        "..\\corner-block.yaml",
        "corner-block.yaml",
        "static/../server.py",
        "server.py",
        "main.js/../../server.py",
        "main.js%00.css",
        "/etc/passwd",
        "//etc/passwd",
        "%2fetc%2fpasswd",
        "file:///etc/passwd",
        ".",
        "main.JS",
        "../",
        "trace/../state%00",
        "%252e%252e%252fcorner-block.yaml",
        ".corner-block.yaml.explainers-journal",
    )
    for way in ways:
        if way != ".":
            yield f"the way {way}", request("GET", f"/{secret}/{way}", host)
        yield f"the way {way} from outside", request("GET", f"/{way}", host)


def _malformed(host: str, secret: str, edit: bytes) -> Iterator[tuple[str, bytes]]:
    chance = Random(5)
    own = f"/{secret}/edit"
    whole = request("POST", own, host, edit)
    for number in range(20):
        yield f"random bytes {number}", chance.randbytes(chance.choice((1, 40, 4_000))) + b"\r\n\r\n"
    for line in (
        "GET",
        "GET /",
        "GET / HTTP/9.9",
        "GET  /  HTTP/1.1",
        " / HTTP/1.1",
        "GET / HTTP/1.1 x",
        "\x00",
        "GET http://",
    ):
        yield f"the line {line!r}", f"{line}\r\nHost: {host}\r\n\r\n".encode()
    heads = (
        "Content-Length: -1",
        "Content-Length: 1e3",
        "Content-Length: 5\r\nContent-Length: 6",
        "Content-Length: \u0663",
        "Content-Length: 9999999999999999999999",
        "Transfer-Encoding: gzip",
        "Transfer-Encoding: chunked, chunked",
        "Transfer-Encoding: chunked\r\nContent-Length: 4",
        " folded: x",
        "No colon",
        "Name\x00: x",
        ": x",
        "Upgrade: websocket\r\nConnection: Upgrade\r\nSec-WebSocket-Key: x\r\nSec-WebSocket-Version: 13",
    )
    for head in heads:
        start = f"POST {own} HTTP/1.1\r\nHost: {host}\r\nContent-Type: application/json\r\n{head}\r\n\r\n"
        yield f"the head {head[:40]!r}", start.encode("utf-8") + edit
    chunked = (
        f"POST {own} HTTP/1.1\r\nHost: {host}\r\nContent-Type: application/json\r\nTransfer-Encoding: chunked\r\n\r\n"
    )
    for part in (
        b"zz\r\nx\r\n",
        b"-1\r\n",
        b"ffffffffffffffff\r\nx",
        b"5\r\nabc\r\n0\r\n\r\n",
        b"1;" + b"x" * 40_000 + b"\r\n",
    ):
        yield f"chunks {part[:9]!r}", chunked.encode() + part
    smuggled = request("POST", own, host, b"0\r\n\r\n" + whole, "Transfer-Encoding: chunked")
    yield "a second request within", smuggled
    for cut in range(1, 10):
        yield f"cut at {cut}", whole[: (len(whole) - 8) * cut // 10]


def _outsized(host: str, secret: str) -> Iterator[tuple[str, bytes]]:
    own = f"/{secret}/edit"
    yield "a long head", request("GET", f"/{secret}/state", host, b"", "X: " + "x" * 100_000)
    yield "many heads", request("GET", f"/{secret}/state", host, b"", *(f"X{n}: {n}" for n in range(5_000)))
    yield "a long way", request("GET", f"/{secret}/{'x' * 100_000}", host)
    yield (
        "a long query",
        request("POST", f"/{secret}/trace?unit={'9' * 60_000}", host, b"", kind="application/octet-stream"),
    )
    for place in ("edit", "try", "undo", "answer"):
        yield f"too much for {place}", request("POST", f"/{secret}/{place}", host, b"[" * 3_000_001)
        yield (
            f"too much is said for {place}",
            request("POST", f"/{secret}/{place}", host, b"", "Content-Length: 3000001"),
        )
    yield (
        "too much is said for trace",
        request("POST", f"/{secret}/trace", host, b"", "Content-Length: 30000001", kind="application/octet-stream"),
    )
    for deep in (17, 1_000, 500_000):
        yield f"{deep} deep", request("POST", own, host, b"[" * deep + b"]" * deep)
        yield f"{deep} deep in a key", request("POST", own, host, b'{"revision":1,"commands":' + b'{"a":' * deep)


def _bodies(host: str, secret: str) -> Iterator[tuple[str, bytes]]:
    title = '{"do": "set", "at": "title", "value": "TAKEN"}'
    bodies = [
        b"",
        b"null",
        b"[]",
        b"3",
        b'"edit"',
        b"{}",
        b"\xff\xfe",
        b"{",
        b'{"revision": 1}',
        b'{"commands": []}',
        f'{{"revision": 1, "revision": 1, "commands": [{title}]}}'.encode(),
        b'{"revision": 1, "commands": {}}',
        f'{{"revision": 1, "commands": {title}}}'.encode(),
        b'{"revision": 1, "text": null}',
        b'{"revision": 1, "text": []}',
        json.dumps({"revision": 1, "commands": [json.loads(title)] * 51}).encode(),
        b'{"revision": 1, "commands": [NaN]}',
        b'{"revision": 1, "text": "' + b"\\u0000" * 200_000 + b'x"}' + b" " * 10 + b"}",
    ]
    for number, revision in enumerate(
        ("true", "null", '"1"', "1.0", "-1", "1e308", "[1]", "2", "9" * 39, "9" * 41, "{}")
    ):
        bodies.append(f'{{"revision": {revision}, "commands": [{title}]}}'.encode())
        keep = f'{{"revision": {revision}, "keep": {number % 2 or "null"}}}'.encode()
        yield f"an answer against {revision[:9]}", request("POST", f"/{secret}/answer", host, keep)
        yield (
            f"an undo against {revision[:9]}",
            request("POST", f"/{secret}/undo", host, f'{{"revision": {revision}}}'.encode()),
        )
    for number, body in enumerate(bodies):
        yield f"body {number}", request("POST", f"/{secret}/edit", host, body)
        yield f"body {number} tried", request("POST", f"/{secret}/try", host, body)
    for query in (
        "unit=nan",
        "unit=-1",
        "unit=1e400",
        "grid=0",
        "slide=0x1",
        "base=%00",
        "without=" + "1," * 900 + "x",
        "holes=%ff",
    ):
        yield (
            f"traced with {query[:20]}",
            request("POST", f"/{secret}/trace?{query}", host, b"x", kind="application/octet-stream"),
        )
