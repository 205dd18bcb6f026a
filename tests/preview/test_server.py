"""The preview is served to its own pages and to nobody else: asked as a hostile page or program would ask."""

from __future__ import annotations

import http.client
import socket
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest
from looked_at import WARNED
from pages_read import read_page

from explainers.figure.theme import DEFAULT_THEME
from explainers.preview.board import Board
from explainers.preview.server import PreviewServer
from explainers.preview.subject import PreviewSubject, look_again, pages, subject_of


def serving(folder: Path) -> PreviewServer:
    server = PreviewServer(Board(pages(subject_of(folder))))
    server.start()
    return server


@pytest.fixture(scope="module")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[PreviewServer]:
    """The folder of an item, served, with a secret beside it."""
    folder = tmp_path_factory.mktemp("served")
    (folder / "warned-block.yaml").write_text(WARNED, encoding="utf-8")
    (folder / "secret.txt").write_text("the secret words", encoding="utf-8")
    server = serving(folder)
    yield server
    server.stop()


@pytest.fixture
def served_alone(warned: Path) -> Iterator[PreviewServer]:
    """A folder of one's own to change, served."""
    server = serving(warned.parent)
    yield server
    server.stop()


def asked(server: PreviewServer, path: str, method: str = "GET", **headers: str) -> tuple[int, dict[str, str], bytes]:
    """Behind the secret, as the page itself asks."""
    connection = http.client.HTTPConnection("127.0.0.1", server.server_port, timeout=10)
    path = f"/{server.secret}{path}"
    sent = {"Host": f"127.0.0.1:{server.server_port}", **{k.replace("_", "-"): v for k, v in headers.items()}}
    connection.putrequest(method, path, skip_host=True, skip_accept_encoding=True)
    for name, value in sent.items():
        connection.putheader(name, value)
    connection.endheaders()
    answer = connection.getresponse()
    body = answer.read()
    connection.close()
    return answer.status, {name.lower(): value for name, value in answer.getheaders()}, body


def raw(server: PreviewServer, request: bytes) -> bytes:
    with socket.create_connection(("127.0.0.1", server.server_port), timeout=10) as connection:
        port, secret = str(server.server_port).encode(), server.secret.encode()
        connection.sendall(request.replace(b"PORT", port).replace(b"SECRET", secret))
        connection.shutdown(socket.SHUT_WR)
        answer = b""
        while more := connection.recv(1 << 16):
            answer += more
    return answer


def test_it_is_bound_to_the_loopback_address_alone(served: PreviewServer) -> None:
    assert served.socket.getsockname()[0] == "127.0.0.1"
    assert served.address == f"http://127.0.0.1:{served.server_port}/{served.secret}/"
    assert len(served.secret) >= 20


@pytest.mark.parametrize("name", ["127.0.0.1", "localhost", "LOCALHOST"])
def test_its_own_names_are_answered(served: PreviewServer, name: str) -> None:
    status, headers, body = asked(served, "/", Host=f"{name}:{served.server_port}")
    assert status == 200 and headers["content-type"] == "text/html; charset=utf-8" and b"warned-block" in body
    own = f"http://{name.lower()}:{served.server_port}"
    assert asked(served, "/", Host=f"{name}:{served.server_port}", Origin=own, Sec_Fetch_Site="same-origin")[0] == 200


@pytest.mark.parametrize(
    "host",
    ["evil.example", "evil.example:PORT", "127.0.0.1", "localhost", "127.0.0.1:1", "127.0.0.1:PORT.evil.example", "",
     "127.0.0.1:PORT@evil.example", "[::1]:PORT", "0.0.0.0:PORT", "127.1:PORT", "2130706433:PORT", "127.0.0.1:PORT,x"],
)  # fmt: skip
@pytest.mark.parametrize("path", ["/", "/news", "/view", "/look.js", "/nowhere"])
def test_a_foreign_host_is_refused(served: PreviewServer, host: str, path: str) -> None:
    status, _, body = asked(served, path, Host=host.replace("PORT", str(served.server_port)))
    assert status in (400, 403) and b"warned" not in body


@pytest.mark.parametrize(
    "path",
    ["/", "/look.js", "/view", "/SECRE/", "/SECRETx/", "/SECRET", "/secret/SECRET/", "//SECRET/", "/SECRET%252f",
     "/?SECRET/", "/x/../SECRET/", "http://127.0.0.1:PORT/SECRET/"],
)  # fmt: skip
def test_who_does_not_know_the_secret_gets_nothing(served: PreviewServer, path: str) -> None:
    almost = path.replace("SECRE/", served.secret[:-1] + "/")
    answer = raw(served, f"GET {almost} HTTP/1.1\r\nHost: 127.0.0.1:PORT\r\n\r\n".encode())
    assert answer.split(b" ")[1] == b"403" and b"warned" not in answer


def test_each_server_draws_a_secret_of_its_own(served: PreviewServer, served_alone: PreviewServer) -> None:
    assert served.secret != served_alone.secret
    answer = raw(served_alone, f"GET /{served.secret}/ HTTP/1.1\r\nHost: 127.0.0.1:PORT\r\n\r\n".encode())
    assert answer.split(b" ")[1] == b"403"


@pytest.mark.parametrize(
    "origin", ["http://evil.example", "null", "https://127.0.0.1:PORT", "http://127.0.0.1:1", "http://localhost", ""]
)
def test_a_foreign_origin_is_refused(served: PreviewServer, origin: str) -> None:
    status, headers, body = asked(served, "/view", Origin=origin.replace("PORT", str(served.server_port)))
    assert status == 403 and b"warned" not in body
    assert not any(name.startswith("access-control") for name in headers)


@pytest.mark.parametrize("site", ["cross-site", "same-site"])
def test_what_a_browser_says_comes_from_another_site_is_refused(served: PreviewServer, site: str) -> None:
    assert asked(served, "/", Sec_Fetch_Site=site)[0] == 403


@pytest.mark.parametrize(
    "request_",
    [
        b"GET /SECRET/ HTTP/1.1\r\n\r\n",
        b"GET /SECRET/ HTTP/1.0\r\n\r\n",
        b"GET /SECRET/\r\n\r\n",
        b"GET /SECRET/ HTTP/1.1\r\nHost: 127.0.0.1:PORT\r\nHost: evil.example\r\n\r\n",
        b"GET /SECRET/ HTTP/1.1\r\nHost: 127.0.0.1:PORT\r\n"
        b"Origin: http://127.0.0.1:PORT\r\nOrigin: http://evil.example\r\n\r\n",
    ],
)
def test_no_host_two_hosts_two_origins_are_refused(served: PreviewServer, request_: bytes) -> None:
    answer = raw(served, request_)
    assert b"warned" not in answer and answer.split(b" ")[1] in (b"400", b"403")


@pytest.mark.parametrize(
    "path",
    ["/../../secret.txt",
     "/secret.txt", "/../secret.txt", "/item/../secret.txt", "/item/warned-block/../../secret.txt", "//etc/passwd",
     "/%2e%2e/secret.txt", "/item/%2e%2e%2fsecret.txt", "/..%5csecret.txt", "/etc/passwd", "/warned-block.yaml",
     "/item/warned-block.yaml/", "/item/warned-block", "/look.css/..", "/static/look.js", "/item/?/../secret.txt",
     "http://evil.example/", "file:///etc/passwd", "*", "/item/secret/view", "/view/view", "/%00", "/\x7f"],
)  # fmt: skip
def test_no_part_of_an_address_names_a_file(served: PreviewServer, path: str) -> None:
    for start in ("", "/SECRET"):
        answer = raw(served, f"GET {start}{path} HTTP/1.1\r\nHost: 127.0.0.1:PORT\r\n\r\n".encode("latin-1"))
        assert answer.split(b" ")[1] in (b"404", b"403", b"400")
        assert b"secret words" not in answer and b"root:" not in answer and b"Traceback" not in answer


@pytest.mark.parametrize("method", ["HEAD", "POST", "PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "CONNECT", "BREW"])
def test_only_get_is_answered(served: PreviewServer, method: str) -> None:
    status, headers, body = asked(served, "/", method=method)
    assert status in (405, 501) and b"warned" not in body
    assert not any(name.startswith("access-control") for name in headers)


@pytest.mark.parametrize(
    "request_",
    [b"\x00\x01\x02\r\n\r\n", b"GET\r\n\r\n", b"GET /SECRET/ HTTP/9.9\r\n\r\n",
     b"GET /SECRET/" + b"a" * 70_000 + b" HTTP/1.1\r\n\r\n",
     b"GET /SECRET/ HTTP/1.1\r\n" + b"X: y\r\n" * 200 + b"\r\n",
     b"<script>alert(1)</script> /SECRET/ HTTP/1.1\r\n\r\n", b""],
)  # fmt: skip
def test_what_is_no_request_is_refused_in_plain_words(served: PreviewServer, request_: bytes, capfd) -> None:
    answer = raw(served, request_)
    assert b"script" not in answer.split(b"\r\n\r\n")[-1] and b"warned" not in answer and b" 200 " not in answer
    assert asked(served, "/")[0] == 200
    assert "Traceback" not in capfd.readouterr().err


def test_a_second_request_hidden_behind_the_first_is_not_read(served: PreviewServer) -> None:
    first = (
        b"GET /SECRET/nowhere HTTP/1.1\r\nHost: 127.0.0.1:PORT\r\nContent-Length: 40\r\nConnection: keep-alive\r\n\r\n"
    )
    assert raw(served, first + b"GET /SECRET/ HTTP/1.1\r\nHost: 127.0.0.1:PORT\r\n\r\n").count(b"HTTP/1.") == 1


@pytest.mark.parametrize(
    "path", ["/", "/view", "/item/warned-block/", "/item/warned-block/view", "/nowhere", "/look.js"]
)
def test_every_answer_keeps_the_browser_to_these_pages(served: PreviewServer, path: str) -> None:
    _, headers, _ = asked(served, path)
    policy = dict(part.strip().split(" ", 1) for part in headers["content-security-policy"].split(";"))
    assert policy["default-src"] == "'none'" and policy["script-src"] == "'self'" and policy["style-src"] == "'self'"
    assert policy["frame-ancestors"] == "'none'" and policy["base-uri"] == "'none'"
    assert headers["x-content-type-options"] == "nosniff" and headers["cross-origin-resource-policy"] == "same-origin"
    assert headers["cache-control"] == "no-store"


def test_served_pages_have_no_markup_of_an_item_and_one_script_of_ours(served: PreviewServer) -> None:
    for path in ("/", "/item/warned-block/"):
        read = read_page(asked(served, path)[2].decode())
        assert read.well_nested and read.running == ["script"]
        up = "./" if path == "/" else "../../"
        assert [attributes for tag, attributes in read.elements if tag == "script"] == [{"src": f"{up}look.js"}]
        assert served.secret not in asked(served, path)[2].decode()
        assert "<img src=x onerror=alert(1)>" in read.text
    for path in ("/view", "/item/warned-block/view"):
        read = read_page(asked(served, path)[2].decode())
        assert read.well_nested and not read.running


def test_style_and_script_are_served_and_the_style_carries_the_face(served: PreviewServer) -> None:
    for path in ("/colours.css", "/item/warned-block/colours.css"):
        status, headers, body = asked(served, path)
        assert status == 200 and headers["content-type"].startswith("text/css")
        assert f"--paper: {DEFAULT_THEME.paper};".encode() in body
    kinds = {"/look.css": "text/css", "/look.js": "text/javascript"}
    for path, kind in kinds.items():
        status, headers, body = asked(served, path)
        assert status == 200 and headers["content-type"].startswith(kind) and len(body) > 500
    assert asked(served, "/look.css")[2].count(b'@font-face { font-family: "') == 3  # two weights, and the signs


def test_news_come_when_a_page_changes_and_only_then(served_alone: PreviewServer, warned: Path) -> None:
    connection = http.client.HTTPConnection("127.0.0.1", served_alone.server_port, timeout=10)
    connection.request("GET", f"/{served_alone.secret}/item/warned-block/news")
    answer = connection.getresponse()
    assert (answer.getheader("Content-Type") or "").startswith("text/event-stream")

    def told() -> str:
        while not (line := answer.readline()).startswith(b"data: "):
            assert line, "the news have ended"
        return line[6:].strip().decode()

    first = told()
    assert asked(served_alone, "/item/warned-block/view")[1]["x-tag"] == first
    subject = subject_of(warned.parent)
    served_alone.board.publish(pages(subject))  # as it was
    warned.write_text("item: broken\n", encoding="utf-8")
    served_alone.board.publish(pages(look_again(subject)))
    second = told()
    assert second != first and asked(served_alone, "/item/warned-block/view")[1]["x-tag"] == second
    served_alone.board.publish(pages(PreviewSubject(path=warned.parent, kind="folder", title="empty")))
    assert told() == "gone"
    assert b"no longer" in asked(served_alone, "/item/warned-block/view")[2]
    connection.close()


def test_too_many_at_once_are_turned_away_and_the_others_go_on(served_alone: PreviewServer) -> None:
    waiting = [socket.create_connection(("127.0.0.1", served_alone.server_port), timeout=5) for _ in range(80)]
    with pytest.raises((OSError, http.client.HTTPException)):
        asked(served_alone, "/")
    for connection in waiting:
        connection.close()
    for _ in range(50):
        try:
            assert asked(served_alone, "/")[0] == 200
        except (OSError, http.client.HTTPException):
            threading.Event().wait(0.1)
        else:
            return
    pytest.fail("no answer after the others had gone")
