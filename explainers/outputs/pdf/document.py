"""One PDF file from pages of HTML: tagged to PDF/UA-1, pictures as SVG, the typeface from its package's own files.

Nothing is fetched from anywhere, and nothing is left out: a picture or a font that cannot be had stops the writing.

Every complaint of the library is an error, and so is a character that the typeface lacks. The box of a figure in the
tags is in points from the lower left of the page.
"""

from __future__ import annotations

import logging
import re
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from html import escape
from typing import Any

import weasyprint
from weasyprint.text.fonts import FontConfiguration
from weasyprint.urls import FatalURLFetchingError, URLFetcher, URLFetcherResponse

from ...drawing.svg import svg_of
from ...errors import OutputError
from ...figure.paper import Picture, Printing
from ...sentences.sheets import page_words
from ...typeface.faces import FAMILY, face
from .tags import mend_tags

__all__ = ["Pictures", "font_css", "page_css", "page_html", "pdf_bytes", "quoted"]

_TAG = re.compile(r"<[^<>]*>")
_SCHEME = "own:"  # of the addresses of pictures and fonts inside one document
_PX_PER_MM = 96.0 / 25.4


@dataclass
class Pictures:
    """The pictures of one document; each is asked for by an address of its own."""

    svgs: list[str] = field(default_factory=list)
    known: dict[Picture, str] = field(default_factory=dict)

    def img(self, picture: Picture, *, width: str | None = None) -> str:
        """The element that shows a picture, with its alt text.

        width : in CSS, in place of the picture's printed size
        """
        if picture not in self.known:
            svg = svg_of(picture.figure, width_px=picture.width_mm * _PX_PER_MM, ids=False, box=picture.box)
            self.svgs.append(svg)
            self.known[picture] = f"{_SCHEME}picture/{len(self.svgs) - 1}"
        size = width or f"{picture.width_mm:.4f}mm"
        return f'<img src="{self.known[picture]}" style="width:{size}" alt="{escape(picture.figure.alt)}">'


def font_css() -> str:
    """The typeface, to stand at the head of a style sheet."""
    return "\n".join(
        f'@font-face {{ font-family: "{FAMILY}"; font-weight: {weight}; src: url({_SCHEME}font/{weight}) }}'
        for weight in ("normal", "bold")
    )


def page_html(*, title: str, language: str, css: str, body: str, author: str = "", about: str = "") -> str:
    """A whole document.

    body  : HTML whose texts are escaped already
    about : what else the file says of itself
    """
    by = f'<meta name="author" content="{escape(author)}">' if author else ""
    by += f'<meta name="description" content="{escape(about)}">' if about else ""
    return (
        f'<!doctype html><html lang="{escape(language)}"><head><meta charset="utf-8"><title>{escape(title)}</title>{by}'
        f'<meta name="generator" content="explainers"><style>{font_css()}\n{css}</style></head>'
        f"<body>{body}</body></html>"
    )


def quoted(text: str) -> str:
    """A text as a string of CSS."""
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"').replace("<", "\\3C ").replace("\n", " ") + '"'


def pdf_bytes(html: str, pictures: Pictures) -> bytes:
    """The document as a PDF file.

    Raises : FontError for a character that the typeface lacks, OutputError where the PDF library complains
    """
    _require_letters(html)
    fonts = FontConfiguration()
    with _complaints() as complaints:
        document = weasyprint.HTML(string=html, base_url=_SCHEME, url_fetcher=_Own(pictures.svgs))
        written: bytes = document.write_pdf(font_config=fonts, pdf_variant="pdf/ua-1", finisher=mend_tags)
    if complaints:
        raise OutputError(f"the PDF library complains: {complaints[0]}")
    return written


class _Missing(FatalURLFetchingError):  # type: ignore[misc]
    """Something that is not part of the document is asked for."""


class _Own(URLFetcher):  # type: ignore[misc]
    """Hands out the document's own pictures and fonts, nothing else."""

    def __init__(self, svgs: list[str]) -> None:
        super().__init__()
        self._svgs = svgs

    def fetch(self, url: str, headers: Mapping[str, str] | None = None) -> Any:
        kind, _, name = url.removeprefix(_SCHEME).partition("/")
        if kind == "picture":
            svg = self._svgs[int(name)].encode("utf-8")
            return URLFetcherResponse(url, svg, {"Content-Type": "image/svg+xml"})
        if kind == "font":
            return URLFetcherResponse(url, face(name == "bold").path.read_bytes(), {"Content-Type": "font/ttf"})
        raise _Missing(f"{url} is not part of the document")


@contextmanager
def _complaints() -> Iterator[list[str]]:
    """What the library logs as an error or a warning inside the block, kept from the terminal."""
    heard: list[str] = []

    class _Ear(logging.Handler):
        def emit(self, record: logging.LogRecord) -> None:
            heard.append(record.getMessage())

    logger, ear = logging.getLogger("weasyprint"), _Ear(logging.WARNING)
    others, propagate = logger.handlers, logger.propagate
    logger.handlers, logger.propagate = [ear], False
    try:
        yield heard
    finally:
        logger.handlers, logger.propagate = others, propagate


def _require_letters(html: str) -> None:
    """Every character of the text must be in the typeface: another font would be taken without a word."""
    from html import unescape

    body = html.partition("<body>")[2]
    text = unescape(_TAG.sub(" ", body))
    face(False).width("".join(sorted(set(text) - {"\n"})), 1.0)


def page_css(printing: Printing, *, type_pt: float, credit: Iterable[str] = ()) -> str:
    """The rule of a style sheet, in the language spoken now.

    type_pt : the size of type in the margins
    credit  : who made it, on what terms; empty lines are left out
    """
    width, height = printing.page_mm
    before, of = page_words()
    made_by = " · ".join(line for line in credit if line)
    left = f"@bottom-left {{ content: {quoted(made_by)}; width: 70%; text-align: left; vertical-align: middle }}"
    return f"""
@page {{ size: {width}mm {height}mm; margin: {printing.top_mm}mm {printing.side_mm}mm {printing.foot_mm}mm;
  font: {type_pt:g}pt/1.2 "{FAMILY}";
  {left if made_by else ""}
  @bottom-right {{ content: {quoted(before)} counter(page) {quoted(of)} counter(pages); width: 30%;
                   text-align: right; vertical-align: middle }} }}
"""
