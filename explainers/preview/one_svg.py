"""A whole view as one SVG, for a program that shows pictures but no pages: panels in rows, their words set in lines.

The page is one figure: its upper left corner is the stage's origin, and it grows to the right and downwards.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace

from ..choice.panels.view import PX_PER_UNIT, Panel, Remark, View
from ..drawing.svg import svg_of
from ..figure.layout import Box
from ..figure.model import Align, Area, Entry, Figure, Label, Role, moved_entry
from ..figure.signs import cross_sign, tick_sign
from ..figure.theme import Theme
from ..geometry.rigid_motion import Similarity
from ..typeface.faces import face, missing_in

__all__ = ["whole_figure", "whole_svg"]

_WIDTH = 24.8
_EDGE = 0.48
_GAP = 0.32
_PAD = 0.28
_HEAD = 0.52  # of a panel: its heading with the room below it
_LEADING = 1.35
_BETWEEN = 0.08  # two paragraphs

Line = tuple[str, float, str, bool]  # words, size, colour, bold


def whole_svg(view: View) -> str:
    """The view as a document of SVG."""
    figure, box = whole_figure(view)
    return svg_of(figure, width_px=round(box.width * PX_PER_UNIT), ids=False, box=box)


def whole_figure(view: View) -> tuple[Figure, Box]:
    """The view as one figure, and the part of the stage that it takes up."""
    sheet = _Sheet(view.theme, view.ringed_often)
    inner = _WIDTH - 2 * _EDGE
    y = sheet.lines(_head(view), _EDGE, -_EDGE, inner) - _GAP
    for heading, panels in view.groups:
        y = sheet.lines([(heading, 0.38, view.theme.ink, True)], _EDGE, y, inner) - 0.16
        widest = max((_pictures_width(panel) for panel in panels), default=0.0) + 2 * _PAD
        columns = 3 if 3 * widest + 2 * _GAP <= inner else 2
        width = (inner - (columns - 1) * _GAP) / columns
        for start in range(0, len(panels), columns):
            row = panels[start : start + columns]
            foot = min(_Sheet(view.theme, view.ringed_often).panel_inside(panel, 0.0, y, width) for panel in row)
            for column, panel in enumerate(row):
                left = _EDGE + column * (width + _GAP)
                sheet.panel(panel, Box(left, foot, left + width, y))
            y = foot - _GAP
    title = next(index for index, entry in enumerate(sheet.entries) if isinstance(entry, Label))
    sheet.entries[title] = replace(sheet.entries[title], role=Role.HEADING)
    figure = Figure(background=view.theme.paper, entries=tuple(sheet.entries), alt=view.title)
    return figure, Box(0.0, y - _EDGE, _WIDTH, 0.0)


class _Sheet:
    """The entries, as they are set; every method returns how far down it came."""

    def __init__(self, theme: Theme, often: Collection[int] = ()) -> None:
        """often : the numbers of warnings that several panels have, whose words stand once, at the top"""
        self.theme = theme
        self.often = often
        self.entries: list[Entry] = []

    def panel(self, panel: Panel, box: Box) -> None:
        theme = self.theme
        self.entries.append(
            Area(
                id=f"panel-{panel.name}",
                group=panel.name,
                role=Role.PANEL,
                rings=(box.ring,),
                fill=theme.table,
                stroke=theme.panel_stroke,
                width=theme.panel_width,
                rounded=theme.panel_rounded,
            )
        )
        self.panel_inside(panel, box.left, box.top, box.width)

    def panel_inside(self, panel: Panel, left: float, top: float, width: float) -> float:
        theme = self.theme
        colours = {"right": theme.right, "wrong": theme.wrong}
        x, y = left + _PAD, top - _PAD - 0.2
        x = self._words(panel.heading, x, y, 0.32, theme.ink, bold=True) + 0.2
        sign = {"right": tick_sign, "wrong": cross_sign}.get(panel.sign)
        if sign is not None:
            self.entries.append(sign(self._id(), panel.name, (x + 0.1, y), theme, size=0.1))
            x += 0.32
        line = f"line {panel.line}" if panel.line else ""
        beside = " · ".join(word for word in (panel.word, line) if word)
        self._words(beside, x, y, 0.28, colours.get(panel.sign, theme.quiet), bold=True)

        at, y = left + _PAD, top - _PAD - _HEAD
        tallest = max((picture.box.height for picture in panel.pictures), default=0.0)
        for number, picture in enumerate(panel.pictures):
            to = Similarity(scale=1.0, shift=(at - picture.box.left, y - tallest - picture.box.bottom))
            self.entries += [
                replace(moved_entry(entry, to), id=f"{panel.name}-{number}-{entry.id}")
                for entry in picture.figure.entries
            ]
            at += picture.box.width + _GAP
        return self.lines(_texts(panel, theme, self.often), left + _PAD, y - tallest - 0.16, width - 2 * _PAD) - _PAD

    def lines(self, lines: list[Line], x: float, y: float, width: float) -> float:
        """Paragraphs, each folded between words where it is too long."""
        for words, size, colour, bold in lines:
            for row in _folded(_drawable(words), size, bold, width):
                self._words(row, x, y - size / 2, size, colour, bold=bold)
                y -= _LEADING * size
            y -= _BETWEEN
        return y

    def _words(self, words: str, x: float, y: float, size: float, colour: str, *, bold: bool) -> float:
        """One line; returns where it ends."""
        words = _drawable(words)
        if words:
            self.entries.append(
                Label(
                    id=self._id(),
                    group="words",
                    role=Role.WORD,
                    text=words,
                    at=(x, y),
                    size=size,
                    colour=colour,
                    bold=bold,
                    align=Align.START,
                )
            )
        return x + face(bold).width(words, size)

    def _id(self) -> str:
        return f"words-{len(self.entries)}"


def _head(view: View) -> list[Line]:
    theme = view.theme
    state = {"right": theme.right, "wrong": theme.wrong, "doubt": theme.attention}.get(view.sign, theme.ink)
    return [
        (view.title, 0.52, theme.ink, True),
        (f"{view.state} · {view.name}", 0.32, state, True),
        *((sentence, 0.3, theme.wrong, False) for sentence in view.because),
        *((_remark(remark), 0.3, theme.attention, False) for remark in view.remarks),
        *((note, 0.3, theme.quiet, False) for note in view.notes),
    ]


def _texts(panel: Panel, theme: Theme, often: Collection[int]) -> list[Line]:
    captions = [picture.caption for picture in panel.pictures]
    both = [f"Left: {captions[0]}. Right: {captions[1]}."] if len(captions) > 1 else []
    return [
        *((caption, 0.26, theme.quiet, False) for caption in both),
        *(
            (_above(remark) if remark.number in often else _remark(remark), 0.28, theme.attention, False)
            for remark in panel.remarks
        ),
        *((line, 0.28, theme.ink, False) for line in (*panel.lines, *panel.typed)),
    ]


def _remark(remark: Remark) -> str:
    line = f"line {remark.line}, " if remark.line else ""
    return f"!{remark.number} {remark.message} ({line}{remark.kind})"


def _above(remark: Remark) -> str:
    return f"!{remark.number} {remark.kind}, as told at the top"


def _pictures_width(panel: Panel) -> float:
    return sum(picture.box.width for picture in panel.pictures) + _GAP * (len(panel.pictures) - 1)


def _drawable(words: str) -> str:
    """Words with a question mark for whatever the typeface lacks: what was typed is told with its faults."""
    missing = missing_in(words)
    return "".join("?" if sign in missing else sign for sign in words)


def _folded(words: str, size: float, bold: bool, width: float) -> list[str]:
    """The rows of a paragraph, cut between words, or inside one that is wider than a row."""
    letters, rows = face(bold), [""]
    for word in words.split():
        longer = f"{rows[-1]} {word}".strip()
        if letters.width(longer, size) <= width:
            rows[-1] = longer
            continue
        rows.append("")
        for letter in word:
            if letters.width(rows[-1] + letter, size) > width:
                rows.append("")
            rows[-1] += letter
    return [row for row in rows if row]
