"""The pages served to a browser on this machine, and to nobody else.

Bound to the loopback address alone. A request must name that address as its host, and if it says where it comes from,
that must be one of these pages: so no page of the web can read here, not even one whose name was made to lead to this
machine. Addresses are looked up in a table; no part of one ever names a file.
"""

from __future__ import annotations

import threading
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from socket import socket
from socketserver import TCPServer
from typing import Any

from .board import Board
from .page import colour_rules, served_page, served_stylesheet, static_text

__all__ = ["LOOPBACK", "PreviewServer"]

LOOPBACK = "127.0.0.1"

_MOST_AT_ONCE = 64  # connections; a browser holds about six
_STILL_THERE_S = 15.0  # between signs of life to a page that waits for news
_POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; font-src data:; connect-src 'self'; "
    "base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
)
_HEADERS = {
    "Content-Security-Policy": _POLICY,
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cache-Control": "no-store",
}


class PreviewServer(ThreadingHTTPServer):
    """Serves a board until it is told to stop."""

    daemon_threads = True
    block_on_close = False
    request_queue_size = _MOST_AT_ONCE

    def __init__(self, board: Board) -> None:
        """Takes a free port; OSError where there is none."""
        self.board = board
        self._room = threading.BoundedSemaphore(_MOST_AT_ONCE)
        super().__init__((LOOPBACK, 0), _Handler)
        self.hosts = frozenset(f"{name}:{self.server_port}" for name in (LOOPBACK, "localhost"))
        self.origins = frozenset(f"http://{host}" for host in self.hosts)

    @property
    def address(self) -> str:
        """What to open in a browser."""
        return f"http://{LOOPBACK}:{self.server_port}/"

    def start(self) -> None:
        """Serve in threads of its own, which end with the process."""
        threading.Thread(target=self.serve_forever, kwargs={"poll_interval": 0.1}, daemon=True).start()

    def stop(self) -> None:
        """Let every page go and give the port back."""
        self.board.close()
        self.shutdown()
        self.server_close()

    def server_bind(self) -> None:
        """Take the port, without asking the network what this machine is called, as the library would."""
        TCPServer.server_bind(self)
        self.server_name, self.server_port = self.server_address[0], self.server_address[1]  # type: ignore[assignment]

    def process_request(self, request: socket | tuple[bytes, socket], client_address: Any) -> None:
        """Turn away what would be too much at once."""
        if self._room.acquire(blocking=False):
            super().process_request(request, client_address)
        else:
            self.shutdown_request(request)

    def process_request_thread(self, request: socket | tuple[bytes, socket], client_address: Any) -> None:
        """Answer, then make room for another."""
        try:
            super().process_request_thread(request, client_address)
        finally:
            self._room.release()


class _Handler(BaseHTTPRequestHandler):
    """One request, one answer: HTTP/1.0, so that nothing a request brings along can be taken for a second one."""

    server: PreviewServer
    timeout = 20.0  # a request that comes too slowly is dropped
    server_version = "explainers"
    sys_version = ""

    def do_GET(self) -> None:
        try:
            if self._is_foreign():
                self._answer(HTTPStatus.FORBIDDEN, "text/plain", b"Only for pages of this preview.\n")
            else:
                self._route(self.path)
        except (ConnectionError, TimeoutError):  # the browser has gone
            self.close_connection = True

    def _refuse(self) -> None:
        self._answer(HTTPStatus.METHOD_NOT_ALLOWED, "text/plain", b"Only GET.\n", Allow="GET")

    do_HEAD = do_POST = do_PUT = do_DELETE = do_PATCH = do_OPTIONS = do_CONNECT = do_TRACE = _refuse

    def _is_foreign(self) -> bool:
        hosts = self.headers.get_all("Host", [])
        if len(hosts) != 1 or hosts[0].strip().lower() not in self.server.hosts:
            return True
        if any(origin.strip().lower() not in self.server.origins for origin in self.headers.get_all("Origin", [])):
            return True
        return any(site not in ("same-origin", "none") for site in self.headers.get_all("Sec-Fetch-Site", []))

    def _route(self, path: str) -> None:
        pages = self.server.board.pages()
        if path in pages:
            page = pages[path]
            self._html(served_page(page.title, page.part, page.tag, path, page.theme), page.tag)
        elif path == "/look.css":
            self._answer(HTTPStatus.OK, "text/css", served_stylesheet().encode())
        elif path.endswith("/colours.css") and path.removesuffix("colours.css") in pages:
            rules = colour_rules(pages[path.removesuffix("colours.css")].theme)
            self._answer(HTTPStatus.OK, "text/css", rules.encode())
        elif path == "/look.js":
            self._answer(HTTPStatus.OK, "text/javascript", static_text("look.js").encode())
        elif path.endswith("/view") and path.removesuffix("view") in pages:
            page = pages[path.removesuffix("view")]
            self._html(page.part, page.tag)
        elif path.endswith("/news") and path.removesuffix("news") in pages:
            self._news(path.removesuffix("news"))
        else:
            self._answer(HTTPStatus.NOT_FOUND, "text/plain", b"There is no such page.\n")

    def _news(self, place: str) -> None:
        """The tag of a page whenever it changes, as server-sent events."""
        self.send_response(HTTPStatus.OK)
        self.send_header("Content-Type", "text/event-stream")
        self.end_headers()
        self.wfile.write(b"retry: 1000\n\n")
        tag: str | None = None
        while not self.server.board.closed:
            page = self.server.board.wait(place, tag, _STILL_THERE_S)
            self.wfile.write(b": still there\n\n" if page.tag == tag else f"data: {page.tag}\n\n".encode())
            tag = page.tag

    def _html(self, markup: str, tag: str) -> None:
        self._answer(HTTPStatus.OK, "text/html", markup.encode("utf-8", "replace"), X_Tag=tag)

    def _answer(self, status: HTTPStatus, kind: str, body: bytes, **headers: str) -> None:
        self.send_response(status)
        text = kind.startswith("text/")
        self.send_header("Content-Type", f"{kind}; charset=utf-8" if text else kind)
        self.send_header("Content-Length", str(len(body)))
        for name, value in headers.items():
            self.send_header(name.replace("_", "-"), value)
        self.end_headers()
        if self.command != "HEAD":
            self.wfile.write(body)

    def end_headers(self) -> None:
        """Every answer, also one that refuses, carries what keeps it to these pages."""
        for name, value in _HEADERS.items():
            self.send_header(name, value)
        super().end_headers()

    def send_error(self, code: int, message: str | None = None, explain: str | None = None) -> None:
        """What cannot be read as a request is refused in plain words, and never repeated."""
        self.close_connection = True
        self._answer(HTTPStatus(code), "text/plain", b"This cannot be read as a request.\n")

    def log_message(self, format: str, *args: Any) -> None:
        """Nothing: the terminal belongs to whoever writes the item."""
