"""A mobject whose path is laid down once and then only moved, turned or resized as a whole.

Whoever draws it can keep its path, and can tell by its stamp whether it looks as it did. To manim it is a vectorised
mobject like any other: its points are where it stands now.
"""

from __future__ import annotations

from functools import cache
from itertools import count
from typing import Any

import numpy as np
from manim.constants import CapStyleType, LineJointType
from manim.mobject.types.vectorized_mobject import VMobject
from manim.utils.color import ManimColor

__all__ = ["FrameBounds", "PathMobject", "Points"]

Points = np.ndarray[Any, np.dtype[np.float64]]
FrameBounds = tuple[float, float, float, float]  # left, bottom, right, top, in manim's frame

_stamps = count()


class PathMobject(VMobject):  # type: ignore[misc]  # manim is not checked
    """One path, one filling, one stroke. Points and colours cannot be changed in place; new ones can be set.

    stamp   : a number that no other look of any shape has had
    path_id : the same for as long as the path is that laid down, wherever it has been taken since
    """

    _placed: Points | None = None
    _box: FrameBounds | None = None

    @classmethod
    def along(
        cls, path: Points, *, fill: str | None, stroke: str | None, width: float, opacity: float, round_ends: bool
    ) -> PathMobject:
        """A shape on cubic curves, shape (4 n, 3); `width` as manim counts it, 0 for no stroke."""
        shape: PathMobject = cls.__new__(cls)
        # Setting a mobject up anew takes longer than drawing it.
        shape.__dict__.update(_model(round_ends))
        shape.submobjects, shape.updaters = [], []
        shape.stroke_width = width
        shape._fill, shape._stroke = _rgb(fill or stroke or "#000000"), _rgb(stroke or fill or "#000000")
        shape._filled, shape._stroked = fill is not None, stroke is not None
        shape.set_clearness(opacity)
        shape.points = path
        return shape

    def set_clearness(self, opacity: float) -> None:
        """Make filling and stroke, as far as there are any, as opaque as this."""
        self.fill_opacity = opacity if self._filled else 0.0
        self.stroke_opacity = opacity if self._stroked else 0.0
        self.fill_rgbas = np.array([[*self._fill, self.fill_opacity]])
        self.stroke_rgbas = np.array([[*self._stroke, self.stroke_opacity]])

    @property
    def fill_rgbas(self) -> Points:
        """Colour and opacity of the filling, shape (1, 4); not to be written to, but to be set."""
        return self._fill_rgbas

    @fill_rgbas.setter
    def fill_rgbas(self, colours: Points) -> None:
        self._fill_rgbas = _sealed(colours)
        self.stamp = next(_stamps)

    @property
    def stroke_rgbas(self) -> Points:
        """Colour and opacity of the stroke, shape (1, 4); not to be written to, but to be set."""
        return self._stroke_rgbas

    @stroke_rgbas.setter
    def stroke_rgbas(self, colours: Points) -> None:
        self._stroke_rgbas = _sealed(colours)
        self.stamp = next(_stamps)

    @property
    def points(self) -> Points:
        """Where the curves are now, shape (4 n, 3); not to be written to."""
        if self._at_home:
            return self._laid
        if self._placed is None:
            moved = self._flat() * self._turn + self._shift
            placed = np.zeros_like(self._laid)
            placed[:, 0], placed[:, 1] = moved.real, moved.imag
            self._placed = _sealed(placed)
        return self._placed

    @points.setter
    def points(self, path: Points) -> None:
        self._laid = _sealed(path)
        self._at_home, self._turn, self._shift = True, 1.0 + 0.0j, 0.0j
        self._placed = self._box = None
        self._laid_flat: Any = None
        self.stamp = self.path_id = next(_stamps)

    def take(self, turn: complex, shift: complex) -> None:
        """Put the path, as it was laid down, to z * turn + shift, points of the frame being complex numbers."""
        self._at_home, self._turn, self._shift = False, turn, shift
        self._placed = self._box = None
        self.stamp = next(_stamps)

    def go_home(self) -> None:
        """Put the path back to where it was laid down."""
        self.take(1.0 + 0.0j, 0.0j)
        self._at_home = True

    @property
    def is_at_home(self) -> bool:
        """Whether the path stands where it was laid down."""
        return bool(self._at_home)

    @property
    def place(self) -> tuple[complex, complex]:
        """Turn and shift, as for `take`."""
        return self._turn, self._shift

    @property
    def laid_path(self) -> Points:
        """The curves as they were laid down, shape (4 n, 3)."""
        return self._laid

    def frame_box(self) -> FrameBounds | None:
        """Round all that is painted; None where nothing is."""
        if len(self._laid) == 0:
            return None
        if self._box is None:
            now = self._flat() if self._at_home else self._flat() * self._turn + self._shift
            x, y = now.real, now.imag
            reach = self.stroke_width / 200.0 if self._stroked else 0.0  # round joins and ends reach no further
            self._box = (
                float(x.min()) - reach, float(y.min()) - reach, float(x.max()) + reach, float(y.max()) + reach
            )  # fmt: skip
        return self._box

    def _flat(self) -> Any:
        if self._laid_flat is None:
            self._laid_flat = self._laid[:, 0] + 1j * self._laid[:, 1]
        return self._laid_flat


@cache
def _model(round_ends: bool) -> dict[str, Any]:
    """What a vectorised mobject knows of itself, its points and colours left out."""
    plain = VMobject(joint_type=LineJointType.ROUND, cap_style=CapStyleType.ROUND if round_ends else CapStyleType.BUTT)
    own = {"points", "fill_rgbas", "stroke_rgbas"}
    return {name: value for name, value in plain.__dict__.items() if name not in own}


@cache
def _rgb(colour: str) -> tuple[float, float, float]:
    red, green, blue = ManimColor(colour).to_rgb()
    return float(red), float(green), float(blue)


def _sealed(array: Points) -> Points:
    """The array, not to be changed in place: nobody would see it."""
    view = array.view()
    view.flags.writeable = False
    return view
