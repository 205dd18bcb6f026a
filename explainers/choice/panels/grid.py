"""A window on an item's coordinates: its scale, its grid lines, the numbers along its axes.

The field of the grid stands with its lower left corner at the stage's origin; the gutters left of it and below it hold
the numbers.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import chain

from ...figure.layout import Box, extent_of, fitting_scale
from ...figure.model import Align, Area, Entry, Label, Lines, Role
from ...figure.theme import Theme
from ...geometry.rigid_motion import Point, Ring, Similarity
from ...typeface.faces import label_box

__all__ = ["NUMBER", "ROOM", "SMALL_ROOM", "Window", "grid_entries", "scale_to_fit", "shown_number"]

ROOM = (5.6, 4.4)  # of an outline on a grid, stage units
SMALL_ROOM = (5.0, 4.2)  # where other pictures stand beside it
NUMBER = 0.22  # type size of every number in a picture, stage units
_STEPS = (1.0, 2.0, 5.0)
_LEAST_LINES = 0.48  # between grid lines
_WHOLE = (0.3, 1.6)  # of a unit on the stage, when the lines stand at whole units, which most files are written in
_DIGIT = 0.13  # width of a digit along an axis
_GUTTER_LEFT, _GUTTER_BELOW = 0.24, 0.44
_LINE, _AXIS = 0.02, 0.034
_FAINT = 0.55


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """What part of the plane is seen, in item units, and how large; lengths of its boxes are in stage units."""

    seen: Box
    scale: float  # stage units an item unit
    gutter_left: float = 0.0
    gutter_below: float = 0.0

    @classmethod
    def round_about(cls, rings: Iterable[Ring], scale: float, *, margin: float, numbered: bool) -> Window:
        """All of some rings, with a margin round them, stage units."""
        seen = extent_of(chain.from_iterable(rings)).inset(-margin / scale)
        plain = cls(seen=seen, scale=scale)
        if not numbered:
            return plain
        longest = max((len(shown_number(y)) for y in plain.lines(seen.bottom, seen.top)), default=1)
        gutter = _GUTTER_LEFT + _DIGIT * longest
        return cls(seen=seen, scale=scale, gutter_left=gutter, gutter_below=_GUTTER_BELOW)

    @property
    def field(self) -> Box:
        """Where the grid stands."""
        return Box(0.0, 0.0, self.seen.width * self.scale, self.seen.height * self.scale)

    @property
    def box(self) -> Box:
        """The whole picture, with the gutters."""
        return Box(-self.gutter_left, -self.gutter_below, self.field.right, self.field.top)

    @property
    def view(self) -> Similarity:
        """From the item's coordinates to the stage."""
        return Similarity(scale=self.scale, shift=(-self.seen.left * self.scale, -self.seen.bottom * self.scale))

    @property
    def step(self) -> float:
        """Distance between grid lines, item units: 1, 2 or 5 times a power of ten."""
        if _WHOLE[0] <= self.scale <= _WHOLE[1]:
            return 1.0
        return _round_step(_LEAST_LINES / self.scale)

    def lines(self, low: float, high: float) -> tuple[float, ...]:
        """Where grid lines run between two coordinates."""
        step = self.step
        return tuple(k * step for k in range(math.ceil(low / step), math.floor(high / step) + 1))

    def numbered(self, values: Sequence[float], *, across: bool) -> tuple[float, ...]:
        """Those grid lines that have room for a number, nought among them where it is in sight."""
        widest = max((len(shown_number(value)) for value in values), default=1)
        room = _DIGIT * widest + 0.16 if across else 0.32
        every = max(self.step, _round_step(room / self.scale))
        return tuple(value for value in values if abs(value / every - round(value / every)) < 1e-6)


def grid_entries(window: Window, theme: Theme) -> tuple[Entry, ...]:
    """The field, a line at each step, a stronger one through nought, and the numbers in the gutters."""
    seen, field, view = window.seen, window.field, window.view
    plain: list[tuple[Point, Point]] = []
    strong: list[tuple[Point, Point]] = []
    numbers: list[Entry] = []
    for across, values in ((True, window.lines(seen.left, seen.right)), (False, window.lines(seen.bottom, seen.top))):
        told = window.numbered(values, across=across)
        for value in values:
            x, y = view.apply_point((value, value))
            line = ((x, 0.0), (x, field.top)) if across else ((0.0, y), (field.right, y))
            (strong if abs(value) < 1e-9 else plain).append(line)
            if value not in told:
                continue
            number = Label(
                id=f"grid-{'x' if across else 'y'}{len(numbers)}",
                group="grid",
                role=Role.GRID,
                text=shown_number(value),
                at=(x, -_GUTTER_BELOW / 2) if across else (-0.12, y),
                size=NUMBER,
                colour=theme.quiet,
                align=Align.MIDDLE if across else Align.END,
            )
            left, bottom, right, top = label_box(number)
            # Not over the edge of the picture, and not where the two rows of numbers meet.
            if left >= window.box.left and right <= field.right and top <= field.top and (across or bottom >= 0.0):
                numbers.append(number)
    # `tray` would be fainter still, but is as white as the field where a theme is meant for paper.
    colour = theme.stitch_to_come

    def drawn(name: str, segments: list[tuple[Point, Point]], width: float, opacity: float = 1.0) -> Lines:
        return Lines(
            id=name, group="grid", role=Role.GRID, segments=tuple(segments), stroke=colour, width=width, opacity=opacity
        )

    field_ring = (field.ring,)
    return (
        Area(
            id="grid-field",
            group="grid",
            role=Role.GRID,
            rings=field_ring,
            fill=theme.table,
            stroke=colour,
            width=_LINE,
        ),
        drawn("grid-lines", plain, _LINE, _FAINT),
        drawn("grid-axes", strong, _AXIS),
        *numbers,
    )


def scale_to_fit(rings: Iterable[Ring], width: float, height: float) -> float:
    """Stage units an item unit at which some rings fill a room of that size."""
    scale = fitting_scale(extent_of(chain.from_iterable(rings)), Box(0.0, 0.0, width, height))
    return scale if math.isfinite(scale) else 1.0


def shown_number(value: float) -> str:
    """A coordinate along an axis."""
    return f"{value + 0.0:.10g}".replace("-", "\N{MINUS SIGN}") if abs(value) > 1e-12 else "0"


def _round_step(least: float) -> float:
    power = 10.0 ** math.floor(math.log10(least))
    return next((step * power for step in _STEPS if step * power >= least * (1 - 1e-9)), 10.0 * power)
