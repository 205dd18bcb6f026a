"""A whole view as one SVG, for a program that shows pictures but no pages: panels in rows, their words set in lines."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from ..typeface.carried import FAMILIES, face_css
from .markup import Markup, element, joined
from .plot import THEME, pattern_elements
from .view import Panel, Remark, View

__all__ = ["whole_svg"]

_WIDTH = 1240.0
_EDGE = 24.0
_GAP = 16.0
_PAD = 14.0
_LETTER = 0.52  # mean width of a letter as a part of its size; a little much, so that lines never run over
_COLOURS = {"right": THEME.right, "wrong": THEME.wrong, "doubt": THEME.attention}

Line = tuple[str, float, str, bool]  # words, size, colour, bold


def whole_svg(view: View) -> str:
    """The view as a document of SVG."""
    inner = _WIDTH - 2 * _EDGE
    parts: list[Markup] = []
    head: list[Line] = [
        (view.title, 26.0, THEME.ink, True),
        (f"{view.state} · {view.name}", 16.0, _COLOURS.get(view.sign, THEME.ink), True),
    ]
    head += [(sentence, 15.0, THEME.wrong, False) for sentence in view.because]
    head += [(_remark(remark), 15.0, THEME.attention, False) for remark in view.remarks]
    head += [(note, 15.0, THEME.quiet, False) for note in view.notes]
    y = _EDGE
    drawn, height = _lines(head, _EDGE, y, inner)
    parts += drawn
    y += height + _GAP
    for heading, panels in view.groups:
        drawn, height = _lines([(heading, 19.0, THEME.ink, True)], _EDGE, y, inner)
        parts += drawn
        y += height + 8.0
        for row in _rows(panels, inner):
            tallest = max(_height(panel, width) for panel, width in row)
            x = _EDGE
            for panel, width in row:
                parts.append(_panel(panel, x, y, width, tallest))
                x += width + _GAP
            y += tallest + _GAP
    made = element(
        "svg",
        element("title", view.title),
        Markup(f"<style>{face_css(joined(parts))}</style>"),
        pattern_elements(),
        element("rect", width=_WIDTH, height=y + _EDGE, fill=THEME.paper),
        *parts,
        xmlns="http://www.w3.org/2000/svg",
        viewBox=f"0 0 {_WIDTH:g} {y + _EDGE:.1f}",
        width=_WIDTH,
        height=y + _EDGE,
        font_family=FAMILIES,
    )
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{made}\n'


def _rows(panels: tuple[Panel, ...], inner: float) -> Iterator[list[tuple[Panel, float]]]:
    """Two or three panels a row, whichever their pictures leave room for."""
    widest = max(_pictures_width(panel) for panel in panels) + 2 * _PAD if panels else 0.0
    columns = 3 if 3 * widest + 2 * _GAP <= inner else 2
    width = (inner - (columns - 1) * _GAP) / columns
    for start in range(0, len(panels), columns):
        yield [(panel, width) for panel in panels[start : start + columns]]


def _pictures_width(panel: Panel) -> float:
    return sum(picture.width for picture in panel.pictures) + _GAP * (len(panel.pictures) - 1)


def _texts(panel: Panel) -> list[Line]:
    captions = (
        [f"Left: {panel.pictures[0].caption}. Right: {panel.pictures[1].caption}."] if len(panel.pictures) > 1 else []
    )
    lines: list[Line] = [(caption, 13.0, THEME.quiet, False) for caption in captions]
    lines += [(_remark(remark), 14.0, THEME.attention, False) for remark in panel.remarks]
    lines += [(line, 14.0, THEME.ink, False) for line in (*panel.lines, *panel.typed)]
    return lines


def _height(panel: Panel, width: float) -> float:
    pictures = max((picture.height for picture in panel.pictures), default=0.0)
    _, words = _lines(_texts(panel), 0.0, 0.0, width - 2 * _PAD)
    return _PAD + 26.0 + pictures + 8.0 + words + _PAD


def _panel(panel: Panel, x: float, y: float, width: float, height: float) -> Markup:
    parts = [
        element("rect", x=x, y=y, width=width, height=height, rx=10, fill=THEME.table, stroke=THEME.panel_stroke),
        _text(panel.heading, x + _PAD, y + _PAD + 12, 16.0, THEME.ink, True),
    ]
    sign = {"right": "✓ ", "wrong": "✗ "}.get(panel.sign, "")
    line = f"line {panel.line}" if panel.line else ""
    beside = " · ".join(word for word in (f"{sign}{panel.word}", line) if word)
    if beside:
        at = x + _PAD + 0.6 * 16 * len(panel.heading) + 14
        parts.append(_text(beside, at, y + _PAD + 12, 14.0, _COLOURS.get(panel.sign, THEME.quiet), True))
    top = y + _PAD + 26.0
    tallest = max((picture.height for picture in panel.pictures), default=0.0)
    left = x + _PAD
    for picture in panel.pictures:
        parts.append(
            element(
                "svg",
                picture.drawn,
                x=left,
                y=top + tallest - picture.height,
                width=picture.width,
                height=picture.height,
                role="img",
                aria_label=picture.alt,
            )
        )
        left += picture.width + _GAP
    drawn, _ = _lines(_texts(panel), x + _PAD, top + tallest + 8.0, width - 2 * _PAD)
    return joined([*parts, *drawn])


def _lines(lines: list[Line], x: float, y: float, width: float) -> tuple[list[Markup], float]:
    drawn: list[Markup] = []
    at = y
    for words, size, colour, bold in lines:
        room = max(8, int(width / (_LETTER * size)))
        for piece in textwrap.wrap(words, room) or [""]:
            drawn.append(_text(piece, x, at + size, size, colour, bold))
            at += 1.35 * size
        at += 4.0
    return drawn, at - y


def _text(words: str, x: float, y: float, size: float, colour: str, bold: bool) -> Markup:
    return element("text", words, x=x, y=y, font_size=size, fill=colour, font_weight="bold" if bold else None)


def _remark(remark: Remark) -> str:
    line = f"line {remark.line}, " if remark.line else ""
    return f"!{remark.number} {remark.message} ({line}{remark.kind})"
