"""Pages read back by the standard library's own parser: their elements, their text, and what would run in them."""

from __future__ import annotations

from html.parser import HTMLParser
from urllib.parse import urlsplit

__all__ = ["ReadPage", "read_page"]

_EMPTY = {"meta", "link"}


class ReadPage(HTMLParser):
    """Every element with its attributes, all text, and whether the elements are nested as they should be."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.elements: list[tuple[str, dict[str, str | None]]] = []
        self.texts: list[tuple[str, str]] = []  # (the element around it, text)
        self.open: list[str] = []
        self.well_nested = True

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, dict(attrs)))
        if tag not in _EMPTY:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        if not self.open or self.open.pop() != tag:
            self.well_nested = False

    def handle_data(self, data: str) -> None:
        self.texts.append((self.open[-1] if self.open else "", data))

    @property
    def text(self) -> str:
        """Everything that is read, in order."""
        return " ".join("".join(data for tag, data in self.texts if tag not in ("style", "script")).split())

    @property
    def tags(self) -> set[str]:
        """Every kind of element."""
        return {tag for tag, _ in self.elements}

    @property
    def running(self) -> list[str]:
        """What would make a browser run or fetch something."""
        found = [tag for tag in self.tags if tag in ("script", "img", "iframe", "object", "embed", "foreignobject")]
        for tag, attributes in self.elements:
            found += [f"{tag} {name}" for name in attributes if name.startswith("on") or name == "style"]
            address = urlsplit(attributes.get("href") or "")
            found += [address.geturl()] if address.scheme or address.netloc else []
        return found


def read_page(markup: str) -> ReadPage:
    """A page, or a part of one."""
    page = ReadPage()
    page.feed(markup)
    page.close()
    page.well_nested = page.well_nested and not page.open
    return page
