"""How a slide's picture is laid out: cut to what is drawn, and, on a narrow screen, its panels one under the other.

Where panels are stacked they keep one scale, so that a piece can be slid from one to the next. Nothing is drawn anew
for it: each entry is shifted with the region in which it stands. Options that stand in one long row have a region each
and come in rows of three. All that the page is told is in view box units, y down.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from ...drawing.svg import VIEW
from ...figure.layout import Box, extent_of, extent_of_entries
from ...figure.model import Area, Entry, Figure, Label, Role
from ...figure.subject import Thing
from ...geometry.rigid_motion import Point
from ...storyboard.doing import Handling
from ...typeface.faces import label_box
from .pictures import NumberedNames, view_box

__all__ = ["Layouts", "Panels", "panels_of"]

_EDGE = 0.05  # round all that is drawn
_PAD = 0.24  # round what is drawn in a region
_OPTION_PAD = 0.2  # the same round an option, so that the fields which are chosen keep apart
_GAP = 0.2  # between panels
_LONG = 6.4  # a row of options that is longer than this is broken into rows ...
_IN_ROW = 3  # ... of so many
_LEAST_LETTER_PX = 12.1  # a little more than 12, on a narrow screen, in CSS pixels
_LEAST_PIECE_PX = 92.0  # a piece that is laid by hand, the longer way
_LEAST_PANEL = 1.5  # either way, in stage units
_DIGITS = 2

Panels = tuple[Box, ...]


@dataclass(frozen=True, slots=True)
class _Region:
    """Part of the stage, and how far it is shifted."""

    box: Box
    left: float
    top: float  # where its corner comes to stand, y down


class Layouts:
    """Layouts of the slides of one page; what an entry takes up is measured once."""

    def __init__(self, groups: NumberedNames) -> None:
        self._groups = groups
        self._measured: dict[int, tuple[Entry, Box]] = {}

    def seen_part(self, figures: Iterable[Figure]) -> list[float]:
        """The part of the view box that holds all that any of the figures shows."""
        return view_box(_union(self._box(entry) for figure in figures for entry in figure.entries).inset(-_EDGE))

    def data(self, figures: Sequence[Figure], handling: Handling | None) -> dict[str, object] | None:
        """The stacked layout of figures that lie on the same panels; None where they lie on none.

        figures  : as the page shows them
        handling : the piece that is laid by hand in one of them, if any
        Returns  : size, [width, height] of the stack; regions, each [left, top, right, bottom] on the stage and how far
                   it is shifted, [right, down]; frames of the panels in the stack, each [which of them, left, top,
                   width, height]; panels, the number of their group; least, the height in CSS pixels that keeps letters
                   and the piece large enough
        """
        panels = panels_of(figures[0])
        if not panels:
            return None
        drawn = {id(entry): entry for figure in figures for entry in figure.entries if not _is_panel(entry)}.values()
        boxes = [(entry, self._box(entry)) for entry in drawn]
        rows: list[list[list[Box]]] = []  # of each panel its rows of boxes
        filled: list[int] = []
        for number, panel in enumerate(panels):
            own: list[tuple[Entry | None, Box]] = [
                (entry, box) for entry, box in boxes if _nearest(panels, box.middle) == panel
            ]
            if handling is not None and _nearest(panels, handling.meeting.at) == panel:
                own.append((None, _about(handling.meeting.at, handling.reach)))
            if own:
                rows.append(_broken(own))
                filled.append(number)
        width = max((sum(box.width for box in row) for panel_rows in rows for row in panel_rows), default=1.0)
        regions, frames, height = _stacked(rows, width)
        least = max([_LEAST_LETTER_PX / entry.size for entry in drawn if isinstance(entry, Label)], default=0.0)
        if handling is not None:
            cloth = [box for entry, box in boxes if entry.group == handling.group and isinstance(entry, Area)]
            least = max(least, *(_LEAST_PIECE_PX / max(box.width, box.height) for box in cloth[:1]), 0.0)
        return {
            "size": [_length(width), _length(height)],
            "regions": [_region_data(region) for region in regions],
            "frames": [
                [number, *(_length(value) for value in frame)] for number, frame in zip(filled, frames, strict=True)
            ],
            "panels": self._groups[_group_of_panels(figures[0])],
            "least": round(least * height, 1),
        }

    def _box(self, entry: Entry) -> Box:
        known = self._measured.get(id(entry))
        if known is None:
            box = Box(*label_box(entry)) if isinstance(entry, Label) else extent_of_entries([entry])
            known = self._measured[id(entry)] = (entry, box)  # the entry too: an id is its own as long as it lives
        return known[1]


def panels_of(figure: Figure) -> Panels:
    """The panels that a figure lies on, in the order in which they are drawn."""
    return tuple(extent_of_entries([entry]) for entry in figure.entries if _is_panel(entry))


def _group_of_panels(figure: Figure) -> str:
    return next(entry.group for entry in figure.entries if _is_panel(entry))


def _is_panel(entry: Entry) -> bool:
    """Whether it is a field that holds what belongs together, and not a patch of a title card."""
    if entry.role != Role.PANEL or not isinstance(entry, Area):
        return False
    box = extent_of_entries([entry])
    return min(box.width, box.height) >= _LEAST_PANEL


def _broken(own: Sequence[tuple[Entry | None, Box]]) -> list[list[Box]]:
    """The boxes of one panel in rows: one box, or, of options in a long row, one for each."""
    whole = _union(box for _, box in own).inset(-_PAD)
    options: dict[str, list[Box]] = {}
    heads: dict[str, float] = {}  # how high the letter of each stands
    for entry, box in own:
        if (
            entry is not None
            and entry.subject is not None
            and entry.subject.thing == Thing.OPTION
            and entry.subject.name
        ):
            options.setdefault(entry.subject.name, []).append(box)
            if isinstance(entry, Label):
                heads.setdefault(entry.subject.name, box.middle[1])
    if whole.width <= _LONG or len(options) < _IN_ROW:
        return [[whole]]
    each = {name: _union(boxes).inset(-_OPTION_PAD) for name, boxes in options.items()}
    wide = max(box.width for box in each.values())
    # Letters stand in one line, and with them the fields that are chosen.
    heads = {name: heads.get(name, box.middle[1]) for name, box in each.items()}
    over = max(box.top - heads[name] for name, box in each.items())
    under = max(heads[name] - box.bottom for name, box in each.items())
    cells = [
        Box(box.middle[0] - wide / 2, heads[name] - under, box.middle[0] + wide / 2, heads[name] + over)
        for name, box in each.items()
    ]
    return [cells[first : first + _IN_ROW] for first in range(0, len(cells), _IN_ROW)]


def _stacked(
    rows: Sequence[Sequence[Sequence[Box]]], width: float
) -> tuple[list[_Region], list[tuple[float, float, float, float]], float]:
    """Regions, frames and height, from the top down."""
    regions: list[_Region] = []
    frames: list[tuple[float, float, float, float]] = []
    top = 0.0
    for panel_rows in rows:
        start = top
        for row in panel_rows:
            left = (width - sum(box.width for box in row)) / 2
            for box in row:
                regions.append(_Region(box, left, top))
                left += box.width
            top += max(box.height for box in row)
        frames.append((0.0, start, width, top - start))
        top += _GAP
    return regions, frames, max(top - _GAP, 0.1)


def _region_data(region: _Region) -> list[float]:
    left, top, wide, high = view_box(region.box)
    shift = (_length(region.left) - left, _length(region.top) - top)
    return [round(value, _DIGITS) + 0.0 for value in (left, top, left + wide, top + high, *shift)]


def _length(value: float) -> float:
    return round(VIEW.length(value), _DIGITS) + 0.0


def _about(point: Point, reach: float) -> Box:
    return Box(point[0] - reach, point[1] - reach, point[0] + reach, point[1] + reach)


def _union(boxes: Iterable[Box]) -> Box:
    return extent_of(corner for box in boxes for corner in (box.ring[0], box.ring[2]))


def _nearest(panels: Panels, point: Point) -> Box:
    x, y = point
    return min(
        panels,
        key=lambda box: max(box.left - x, x - box.right, 0.0) + max(box.bottom - y, y - box.top, 0.0),
    )
