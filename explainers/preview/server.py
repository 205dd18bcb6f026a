"""The pages of `explainers look`, served to a browser on this machine and to nobody else; see ``web.guard``.

Addresses are looked up in a table; no part of one ever names a file. Links are relative: a page does not know the
secret that its address begins with.
"""

from __future__ import annotations

from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response
from starlette.routing import Route

from ..web.events import news
from ..web.serving import LocalServer
from .board import Board
from .page import colour_rules, served_page, served_stylesheet, static_text

__all__ = ["PreviewServer"]


class PreviewServer(LocalServer):
    """Serves a board until it is told to stop."""

    def __init__(self, board: Board) -> None:
        """Takes a free port; OSError where there is none."""
        self.board = board
        app = Starlette(routes=[Route("/{rest:path}", self._answer, methods=["GET"])])
        super().__init__(app, at_the_end=board.close)

    async def _answer(self, request: Request) -> Response:
        path = request.scope["path"]
        pages = self.board.pages()
        if path in pages:
            page = pages[path]
            return _html(served_page(page.title, page.part, page.tag, path, page.theme), page.tag)
        if path == "/look.css":
            return Response(served_stylesheet(), media_type="text/css")
        if path == "/look.js":
            return Response(static_text("look.js"), media_type="text/javascript")
        place, _, part = path.rpartition("/")
        place += "/"
        if place in pages:
            if part == "colours.css":
                return Response(colour_rules(pages[place].theme), media_type="text/css")
            if part == "view":
                return _html(pages[place].part, pages[place].tag)
            if part == "news":
                return news(self.board.bell, lambda: None if self.board.closed else self.board.pages()[place].tag)
        return PlainTextResponse("There is no such page.\n", 404)


def _html(markup: str, tag: str) -> Response:
    return Response(markup.encode("utf-8", "replace"), media_type="text/html", headers={"X-Tag": tag})
