"""The pages as they stand, shared by the thread that draws them and those that serve them."""

from __future__ import annotations

import threading
from collections.abc import Mapping

from ..web.bell import Bell
from .markup import Markup, element
from .page import way_up
from .subject import PreviewPage

__all__ = ["Board"]


class Board:
    """Pages by place; whoever waits for a page is told when it has changed."""

    def __init__(self, pages: Mapping[str, PreviewPage]) -> None:
        self._pages = dict(pages)
        self._changing = threading.Lock()
        self._closed = False
        self.bell = Bell()  # rung at each change

    def publish(self, pages: Mapping[str, PreviewPage]) -> None:
        """Take these pages in place of the ones before; one that is no longer there says so to who still has it."""
        with self._changing:
            gone = {
                place: PreviewPage(title=page.title, part=_gone(page.title, place), tag="gone", theme=page.theme)
                for place, page in self._pages.items()
                if place not in pages
            }
            self._pages = {**gone, **pages}
        self.bell.ring()

    def close(self) -> None:
        """Let everybody who waits go."""
        self._closed = True
        self.bell.ring()

    @property
    def closed(self) -> bool:
        """Whether no page will change any more."""
        return self._closed

    def pages(self) -> dict[str, PreviewPage]:
        """Every page by its place."""
        with self._changing:
            return dict(self._pages)


def _gone(title: str, place: str) -> Markup:
    return element(
        "div",
        element("h1", title),
        element("p", "This item is no longer part of what is looked at."),
        element("p", element("a", "See what is", href=way_up(place))),
        data_title=title,
    )
