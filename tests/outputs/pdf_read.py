"""A tagged PDF as a reader's program takes it: its structure in order, with text, alt texts and places."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from pathlib import Path

import pdfplumber
import pikepdf
from pikepdf import Name

__all__ = ["Element", "PageRead", "content_faults", "elements", "page_read", "pages_read", "spoken"]


@dataclass(frozen=True)
class PageRead:
    """A page as a program takes it that knows nothing of its structure; lengths in points."""

    text: str
    chars: tuple[tuple[str, float, int | None], ...]  # character, size, number of its marked content
    words: tuple[tuple[str, float, bool], ...]  # word, its top, whether it is bold
    straight: tuple[tuple[float, float], ...]  # strokes from one point to another: length, rise
    sizes: tuple[tuple[float, float], ...]  # of every path: width, height


def pages_read(path: Path) -> tuple[PageRead, ...]:
    """Every page; a file is read once, so it must not change."""
    with pikepdf.open(path) as pdf:
        count = len(pdf.pages)
    return tuple(page_read(path, number) for number in range(count))


@cache
def page_read(path: Path, number: int) -> PageRead:
    """One page, counted from 0."""
    with pdfplumber.open(path, pages=[number + 1]) as pdf:
        return _page_read(pdf.pages[0])


def _page_read(page: pdfplumber.page.Page) -> PageRead:
    shapes = [*page.lines, *page.curves, *page.rects]
    ends = [(shape["pts"][0], shape["pts"][-1]) for shape in shapes if len(shape.get("pts", ())) == 2]
    return PageRead(
        text=page.extract_text(),
        chars=tuple((char["text"], char["size"], char.get("mcid")) for char in page.chars),
        words=tuple(
            (word["text"], word["top"], "Bold" in word["fontname"])
            for word in page.extract_words(extra_attrs=["fontname"])
        ),
        straight=tuple((math.dist(a, b), abs(a[1] - b[1])) for a, b in ends),
        sizes=tuple((float(shape["width"]), float(shape["height"])) for shape in shapes),
    )


@dataclass(frozen=True)
class Element:
    """One element of the structure that holds text or is a figure."""

    tag: str  # H1, P, Figure, TH, ...
    page: int  # from 0
    text: str
    alt: str = ""
    box: tuple[float, ...] = ()  # of a figure: left, bottom, right, top in points
    scope: str = ""  # of a header cell


_WITH_TEXT = {"/H1", "/H2", "/H3", "/P", "/TH", "/TD", "/LI"}
Texts = dict[tuple[int, int], str]  # by page and number of the marked content


@cache
def elements(path: Path, only: frozenset[int] | None = None) -> list[Element]:
    """All in the order of the structure, which is the order in which it is read out.

    only : the pages whose text is wanted, since reading it takes long; all where none are named
    """
    with pikepdf.open(path) as pdf:
        pages = {page.obj.objgen: number for number, page in enumerate(pdf.pages)}
        texts: Texts = {}
        for number in pages.values() if only is None else only:
            for text, _, mark in page_read(path, number).chars:
                if mark is not None:
                    texts[number, mark] = texts.get((number, mark), "") + text
        return list(_elements(pdf.Root.StructTreeRoot.K, pages, texts))


def _elements(node: object, pages: dict[tuple[int, int], int], texts: Texts) -> Iterator[Element]:
    if isinstance(node, pikepdf.Array):
        for kid in node:
            yield from _elements(kid, pages, texts)
    elif isinstance(node, pikepdf.Dictionary) and "/S" in node:
        tag, page = str(node.S), pages[node.Pg.objgen] if "/Pg" in node else 0
        if tag == "/Figure":
            box = tuple(float(value) for value in node.A.BBox)
            yield Element("Figure", page, "", str(node.get("/Alt", "")), box)
        elif tag in _WITH_TEXT:
            text = " ".join(" ".join(_leaves(node, pages, texts, page)).split())
            scope = str(node.get("/A", {}).get("/Scope", "")).removeprefix("/")
            yield Element(tag.removeprefix("/"), page, text, scope=scope)
        else:
            yield from _elements(node.get("/K", pikepdf.Array()), pages, texts)


def _leaves(node: object, pages: dict[tuple[int, int], int], texts: Texts, page: int) -> Iterator[str]:
    if isinstance(node, pikepdf.Array):
        for kid in node:
            yield from _leaves(kid, pages, texts, page)
    elif isinstance(node, pikepdf.Dictionary) and "/S" in node:
        page = pages[node.Pg.objgen] if "/Pg" in node else page
        yield from _leaves(node.get("/K", pikepdf.Array()), pages, texts, page)
    elif isinstance(node, int):
        yield texts.get((page, node), "")


def spoken(path: Path) -> str:
    """All that is read out, in order."""
    return " ".join(element.text or element.alt for element in elements(path) if element.text or element.alt)


def content_faults(path: Path, language: str = "en-GB") -> list[str]:
    """What is wrong with a PDF that should be PDF/UA-1, as far as our own checks go.

    Source : ISO 14289-1:2014, the clause beside each
    """
    faults = []
    with pikepdf.open(path) as pdf:
        root = pdf.Root
        if "/StructTreeRoot" not in root or not root.get("/MarkInfo", {}).get("/Marked", False):
            faults.append("6.2, 7.1: not tagged")
        if str(root.get("/Lang", "")) != language:
            faults.append("7.2: no language, or another")
        if not root.get("/ViewerPreferences", {}).get("/DisplayDocTitle", False):
            faults.append("7.1: the title is not to be shown")
        with pdf.open_metadata() as metadata:
            if not metadata.get("dc:title", ""):
                faults.append("7.1: no title")
            if metadata.get("pdfuaid:part", "") != "1":
                faults.append("5: does not say that it is PDF/UA-1")
        fonts = [
            font for font in pdf.objects if isinstance(font, pikepdf.Dictionary) and font.get("/Type") == Name.Font
        ]
        for font in fonts:
            if font.Subtype == Name.Type0:
                continue
            if "/FontDescriptor" not in font or not {"/FontFile", "/FontFile2", "/FontFile3"} & set(
                font.FontDescriptor
            ):
                faults.append("7.21.4.1: a font that is not embedded")
    if faults and faults[0].startswith("6.2"):
        return faults
    found = elements(path)
    faults += [
        f"7.3: a figure without an alternative text on page {e.page + 1}"
        for e in found
        if e.tag == "Figure" and not e.alt
    ]
    levels = [int(e.tag[1]) for e in found if e.tag in ("H1", "H2", "H3", "H4", "H5", "H6")]
    if levels[:1] != [1] or levels.count(1) != 1:
        faults.append("7.4.2: the first heading, and no other, is to be of level 1")
    faults += [f"7.4.2: from level {a} to {b}" for a, b in pairwise(levels) if b > a + 1]
    faults += ["7.4: an empty heading" for e in found if e.tag in ("H1", "H2") and not e.text]
    faults += ["7.5: a header cell that heads nothing" for e in found if e.tag == "TH" and not e.scope]
    return faults
