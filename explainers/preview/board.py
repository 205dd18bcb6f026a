"""The pages as they stand, shared by the thread that draws them and those that serve them."""

from __future__ import annotations

import threading
from collections.abc import Mapping

from .markup import Markup, element
from .subject import PreviewPage

__all__ = ["Board"]


class Board:
    """Pages by place; whoever waits for a page is told when it has changed."""

    def __init__(self, pages: Mapping[str, PreviewPage]) -> None:
        self._pages = dict(pages)
        self._changed = threading.Condition()
        self._closed = False

    def publish(self, pages: Mapping[str, PreviewPage]) -> None:
        """Take these pages in place of the ones before; one that is no longer there says so to who still has it."""
        with self._changed:
            gone = {
                place: PreviewPage(title=page.title, part=_gone(page.title), tag="gone", theme=page.theme)
                for place, page in self._pages.items()
                if place not in pages
            }
            self._pages = {**gone, **pages}
            self._changed.notify_all()

    def close(self) -> None:
        """Let everybody who waits go."""
        with self._changed:
            self._closed = True
            self._changed.notify_all()

    @property
    def closed(self) -> bool:
        """Whether no page will change any more."""
        return self._closed

    def pages(self) -> dict[str, PreviewPage]:
        """Every page by its place."""
        with self._changed:
            return dict(self._pages)

    def wait(self, place: str, tag: str | None, longest_s: float) -> PreviewPage:
        """The page at a place, when it is another than the one with that tag, or when the time is up.

        Raises : KeyError where there never was a page
        """
        with self._changed:
            self._changed.wait_for(lambda: self._closed or self._pages[place].tag != tag, longest_s)
            return self._pages[place]


def _gone(title: str) -> Markup:
    return element(
        "div",
        element("h1", title),
        element("p", "This item is no longer part of what is looked at."),
        element("p", element("a", "See what is", href="/")),
        data_title=title,
    )
