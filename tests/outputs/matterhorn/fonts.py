"""Failure conditions of fonts: embedded, every glyph there, every glyph a character, widths as told."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

import pikepdf
from outputs.matterhorn.table import condition
from outputs.pdf_opened import Opened, descendant, glyphs_of, to_unicode
from pikepdf import Name

_READABLE = {"/MacRomanEncoding", "/MacExpertEncoding", "/WinAnsiEncoding"}
_IDENTITY = {"/Identity-H", "/Identity-V"}


def _fonts(file: Opened) -> Iterator[tuple[Any, set[int]]]:
    """Every font that writes anything, with the codes that it writes."""
    fonts: dict[tuple[int, int], tuple[Any, set[int]]] = {}
    for ink in file.painted:
        if ink.font is None:
            continue
        wide = ink.font.get("/Subtype") == Name.Type0
        codes = [int.from_bytes(ink.codes[i : i + 2]) for i in range(0, len(ink.codes), 2)] if wide else list(ink.codes)
        fonts.setdefault(ink.font.objgen, (ink.font, set()))[1].update(codes)
    yield from fonts.values()


@condition("10-001")
def _no_character(file: Opened) -> Iterator[str]:
    for font, codes in _fonts(file):
        known = to_unicode(font)
        if str(font.get("/Encoding", "")) not in _READABLE:
            yield from (f"no character for code {code}" for code in sorted(codes) if not known.get(code))


@condition("31-004")
def _no_map_of_glyphs(file: Opened) -> Iterator[str]:
    for font in _of_glyphs(file):
        there = font.get("/CIDToGIDMap", Name.Identity)
        if not isinstance(there, pikepdf.Stream) and there != Name.Identity:
            yield "its glyphs are named in another way"


@condition("31-005")
def _no_glyphs_named(file: Opened) -> Iterator[str]:
    yield from ("its glyphs are not named" for font in _of_glyphs(file) if "/CIDToGIDMap" not in font)


def _of_glyphs(file: Opened) -> Iterator[Any]:
    for font, _ in _fonts(file):
        below = descendant(font)
        if below.get("/Subtype") == Name.CIDFontType2 and "/FontFile2" in below.get("/FontDescriptor", {}):
            yield below


@condition("31-006")
def _unknown_codes(file: Opened) -> Iterator[str]:
    """Ours are the two that stand for themselves; others that ISO 32000-1 lists would be told of too."""
    for font, _ in _fonts(file):
        encoding = font.get("/Encoding")
        embedded = isinstance(encoding, pikepdf.Stream)
        if font.get("/Subtype") == Name.Type0 and not embedded and str(encoding) not in _IDENTITY:
            yield f"codes as in {encoding}"


@condition("31-009")
def _not_embedded(file: Opened) -> Iterator[str]:
    for font, _ in _fonts(file):
        described = descendant(font).get("/FontDescriptor", {})
        if not {"/FontFile", "/FontFile2", "/FontFile3"} & set(described):
            yield f"the font {font.get('/BaseFont', '')} is not embedded"


@condition("31-011")
def _no_glyph(file: Opened) -> Iterator[str]:
    for font, codes, glyphs in _embedded(file):
        count = glyphs["maxp"].numGlyphs
        yield from (f"{font.BaseFont} has no glyph {code}" for code in sorted(codes) if code >= count)


@condition("31-016")
def _other_width(file: Opened) -> Iterator[str]:
    for font, codes, glyphs in _embedded(file):
        told, em = _widths(descendant(font)), glyphs["head"].unitsPerEm
        order, advances = glyphs.getGlyphOrder(), glyphs["hmtx"].metrics
        for code in sorted(codes):
            if code < len(order) and abs(told(code) - 1000.0 * advances[order[code]][0] / em) > 1.0:
                yield f"another width of glyph {code} in {font.BaseFont}"


@condition("31-030")
def _nothing_to_show(file: Opened) -> Iterator[str]:
    yield from (f"{font.BaseFont} shows the sign for no glyph" for font, codes, _ in _embedded(file) if 0 in codes)


def _embedded(file: Opened) -> Iterator[tuple[Any, set[int], Any]]:
    """Composite fonts whose codes are the numbers of glyphs in the program embedded."""
    for font, codes in _fonts(file):
        straight = str(font.get("/Encoding", "")) in _IDENTITY
        glyphs = glyphs_of(font)
        if straight and glyphs is not None and descendant(font).get("/CIDToGIDMap") in (None, Name.Identity):
            yield font, codes, glyphs


def _widths(font: Any) -> Callable[[int], float]:
    """The width that a font has for each of its glyphs, in thousandths of an em."""
    found: dict[int, float] = {}
    row = list(font.get("/W", []))
    while row:
        first, then = int(row.pop(0)), row.pop(0)
        if isinstance(then, pikepdf.Array):
            found.update({first + step: float(width) for step, width in enumerate(then)})
        else:
            width = float(row.pop(0))
            found.update(dict.fromkeys(range(first, int(then) + 1), width))
    default = float(font.get("/DW", 1000))
    return lambda code: found.get(code, default)


@condition("31-027")
def _no_way_to_characters(file: Opened) -> Iterator[str]:
    for font, _ in _fonts(file):
        if "/ToUnicode" not in font and str(font.get("/Encoding", "")) not in _READABLE:
            yield f"{font.get('/BaseFont', '')} does not say which characters it shows"


@condition("31-028")
def _character_nought(file: Opened) -> Iterator[str]:
    for font, _ in _fonts(file):
        yield from ("a glyph for character 0" for text in to_unicode(font).values() if "\0" in text)


@condition("31-029")
def _no_characters(file: Opened) -> Iterator[str]:
    for font, _ in _fonts(file):
        for text in to_unicode(font).values():
            if {"\ufeff", "\ufffe"} & set(text):
                yield "a glyph for what is no character"
