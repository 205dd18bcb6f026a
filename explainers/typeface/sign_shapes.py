"""Signs that the typeface lacks and our pages show, as a face of their own: arrows, turns, a tick, a cross, a start.

Drawn here as strokes with blunt ends, as heavy as the letters beside them. Lengths are in thousandths of the em, y up,
around the middle of the capitals.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import atan2, cos, pi, radians, sin
from typing import Any

__all__ = ["SIGNS", "sign_font"]

_EM = 1000
_ASCENT, _DESCENT = 950, 290  # the typeface's, so that a line with a sign is as high as any
_MIDDLE = 334.0  # half the height of a capital
_WEIGHT = 84.0
_MADE = 2_082_844_800  # any one moment, in seconds since 1904, or a page would differ at each writing

_Point = tuple[float, float]
_Contour = list[_Point]


def _stroked(line: Sequence[_Point], width: float = _WEIGHT) -> _Contour:
    """The outline of a stroke along an open line, its corners mitred."""
    left, right = [], []
    for before, at, after in zip((None, *line[:-1]), line, (*line[1:], None), strict=True):
        ways = [_way(a, b) for a, b in ((before, at), (at, after)) if a is not None and b is not None]
        across = atan2(sum(map(sin, ways)), sum(map(cos, ways))) + pi / 2
        reach = width / 2 / max(0.2, cos(across - pi / 2 - ways[0]))
        left.append((at[0] + reach * cos(across), at[1] + reach * sin(across)))
        right.append((at[0] - reach * cos(across), at[1] - reach * sin(across)))
    return [*left, *reversed(right)]


def _way(start: _Point, end: _Point) -> float:
    return atan2(end[1] - start[1], end[0] - start[0])


def _arc(centre: _Point, radius: float, start_deg: float, end_deg: float) -> list[_Point]:
    """Points along part of a circle, near enough to each other that nobody sees corners."""
    steps = max(2, round(abs(end_deg - start_deg) / 6))
    angles = (radians(start_deg + (end_deg - start_deg) * step / steps) for step in range(steps + 1))
    return [(centre[0] + radius * cos(angle), centre[1] + radius * sin(angle)) for angle in angles]


def _with_head(line: Sequence[_Point], length: float = 230.0, half: float = 170.0) -> list[_Contour]:
    """A stroke that ends in a filled head, whose tip lies beyond the line's end."""
    end = line[-1]
    way = _way(line[-2], end)
    back = (end[0] - 0.15 * length * cos(way), end[1] - 0.15 * length * sin(way))
    tip = (back[0] + length * cos(way), back[1] + length * sin(way))
    sides = [(back[0] - sign * half * sin(way), back[1] + sign * half * cos(way)) for sign in (1, -1)]
    return [_stroked(line), [sides[0], tip, sides[1]]]


def _mirrored(contours: Sequence[_Contour], width: float) -> list[_Contour]:
    return [[(width - x, y) for x, y in contour] for contour in contours]


def _arrow(degrees: float) -> list[_Contour]:
    """A straight arrow through the middle of its room."""
    along = (cos(radians(degrees)), sin(radians(degrees)))
    return _with_head([(430.0 + at * along[0], _MIDDLE + at * along[1]) for at in (-340.0, 0.0, 150.0)])


_TURN = _with_head(_arc((420.0, _MIDDLE), 270.0, 10.0, -270.0), length=210.0, half=160.0)  # clockwise
_BACK = _with_head(_arc((430.0, 150.0), 300.0, 20.0, 150.0), length=210.0, half=150.0)
_START = [(160.0, 70.0), (160.0, 598.0), (640.0, _MIDDLE)]
_START_INSIDE = [(244.0, 214.0), (470.0, _MIDDLE), (244.0, 454.0)]  # the other way round: a hole
_TICK = _stroked([(90.0, 310.0), (290.0, 100.0), (700.0, 620.0)], 105.0)
_CROSS = [_stroked([(110.0, 90.0), (610.0, 580.0)], 105.0), _stroked([(110.0, 580.0), (610.0, 90.0)], 105.0)]

# Each sign with its advance and its contours.
SIGNS: dict[str, tuple[int, list[_Contour]]] = {
    "←": (860, _arrow(180.0)),
    "↑": (860, _arrow(90.0)),
    "→": (860, _arrow(0.0)),
    "↓": (860, _arrow(270.0)),
    "↺": (840, _mirrored(_TURN, 840.0)),
    "↻": (840, _TURN),
    "▷": (740, [_START, _START_INSIDE]),
    "✓": (790, [_TICK]),
    "✗": (720, _CROSS),
    "⤺": (860, _BACK),
}


def sign_font(family: str) -> Any:
    """The signs as a fontTools font, the same to the byte each time it is written."""
    from fontTools.fontBuilder import FontBuilder
    from fontTools.pens.ttGlyphPen import TTGlyphPen

    names = {sign: f"uni{ord(sign):04X}" for sign in SIGNS}
    glyphs = {".notdef": TTGlyphPen(None).glyph()}
    widths = {".notdef": (500, 0)}
    for sign, (advance, contours) in SIGNS.items():
        pen = TTGlyphPen(None)
        for contour in contours:
            points = contour if contour is _START_INSIDE else _clockwise(contour)
            pen.moveTo(_whole(points[0]))
            for point in points[1:]:
                pen.lineTo(_whole(point))
            pen.closePath()
        glyphs[names[sign]] = pen.glyph()
        widths[names[sign]] = (advance, round(min(x for contour in contours for x, _ in contour)))
    builder = FontBuilder(_EM, isTTF=True)
    builder.setupGlyphOrder(list(glyphs))
    builder.setupCharacterMap({ord(sign): name for sign, name in names.items()})
    builder.setupGlyf(glyphs)
    builder.setupHorizontalMetrics(widths)
    builder.setupHorizontalHeader(ascent=_ASCENT, descent=-_DESCENT)
    builder.setupNameTable({"familyName": family, "styleName": "Regular"})
    builder.setupOS2(
        sTypoAscender=_ASCENT, sTypoDescender=-_DESCENT, usWinAscent=_ASCENT, usWinDescent=_DESCENT, sCapHeight=668
    )
    builder.setupPost(keepGlyphNames=False)
    builder.updateHead(created=_MADE, modified=_MADE)
    builder.font.recalcTimestamp = False
    return builder.font


def _whole(point: _Point) -> tuple[int, int]:
    return round(point[0]), round(point[1])


def _clockwise(contour: _Contour) -> _Contour:
    """The way round that is filled; strokes of one sign may lie over each other, and then both must go the same way."""
    pairs = zip(contour, [*contour[1:], contour[0]], strict=True)
    area = sum(x * later_y - later_x * y for (x, y), (later_x, later_y) in pairs)
    return contour if area < 0.0 else contour[::-1]
