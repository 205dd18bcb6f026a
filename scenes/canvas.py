"""One picture after another on manim's camera, each drawn only where it differs from the one before.

Every picture is, to the last bit, what the camera would draw on a fresh background: what reaches out of a changed place
is drawn whole on a second picture, and only the changed place is copied over from it, since cairo rounds differently
under a clip. What lies below all that changes is kept on a third picture.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import ceil, floor
from typing import Any

import cairo
import numpy as np
from manim.camera.camera import CAP_STYLE_MAP, LINE_JOIN_MAP, Camera
from manim.mobject.types.vectorized_mobject import VMobject

from .shape import PathMobject

__all__ = ["Canvas", "PixelBox"]

PixelBox = tuple[int, int, int, int]  # left, top, right, bottom; right and bottom are the first beyond it
Pixels = np.ndarray[Any, np.dtype[np.uint8]]
Context = Any  # of cairo, which carries types only in part

_MITRE = 5.0  # half widths that the sharpest corner of manim's own mobjects may stick out
_FINE = 131_072.0  # of the context that keeps paths to be turned: cairo rounds them to 1/256 of its units
_MOST_BOXES = 8
_WORTH_JOINING = 64 * 64  # pixels that are cheaper to do needlessly than a box of their own


@dataclass(frozen=True, slots=True)
class _Item:
    """A mobject as it was drawn."""

    look: object  # equal only where the mobject looks the same
    mobject: VMobject
    box: PixelBox | None  # None: nothing of it is seen


class Canvas:
    """The camera's picture, and what is on it."""

    def __init__(self, camera: Camera) -> None:
        self._camera = camera
        self._size = (camera.pixel_width, camera.pixel_height)
        self._whole: PixelBox = (0, 0, *self._size)
        self._background: Pixels | None = None
        self._items: list[_Item] = []
        self._scratch: Pixels = camera.pixel_array.copy()
        self._below: Pixels = camera.pixel_array.copy()
        self._below_looks: list[object] = []
        self._paths: dict[int, cairo.Path] = {}  # by path_id
        self._fine_paths: dict[int, cairo.Path] = {}
        self._fine = cairo.Context(cairo.ImageSurface(cairo.FORMAT_A8, 1, 1))
        self._fine.scale(_FINE, _FINE)

    def show(self, mobjects: Iterable[VMobject]) -> tuple[PixelBox, ...]:
        """Bring the camera's picture up to date; boxes outside which it is as it was, not overlapping."""
        before = {item.look: (place, item) for place, item in enumerate(self._items)}
        items = [self._item(mobject, before) for mobject in mobjects]
        if self._background is not self._camera.background:
            self._background = self._camera.background
            self._below[:] = self._background
            self._below_looks = []
            self._items = []
            boxes: list[PixelBox] = [self._whole]
        else:
            boxes = _joined(_changed(before, items))
        self._draw(items, boxes)
        self._items = items
        self._forget_paths()
        return tuple(boxes)

    def _item(self, mobject: VMobject, before: dict[object, tuple[int, _Item]]) -> _Item:
        if not isinstance(mobject, PathMobject):
            return _Item(object(), mobject, self._pixel_box(_box_of_any(mobject)))  # it may change unseen
        known = before.get(mobject.stamp)
        if known is not None:
            return known[1]
        return _Item(mobject.stamp, mobject, self._pixel_box(mobject.frame_box()))

    def _draw(self, items: Sequence[_Item], boxes: Sequence[PixelBox]) -> None:
        if not boxes:
            return
        kept = _common_prefix([item.look for item in items], [item.look for item in self._items])
        self._lay_below(items[:kept])
        touching = [
            item for item in items[len(self._below_looks) :] if item.box and any(_touch(item.box, box) for box in boxes)
        ]
        picture = self._camera.pixel_array
        # What lies within a changed box spoils nothing beside it.
        inside = all(any(_holds(box, item.box) for box in boxes) for item in touching)
        target = picture if inside else self._scratch
        for left, top, right, bottom in boxes:
            target[top:bottom, left:right] = self._below[top:bottom, left:right]
        context = self._camera.get_cairo_context(target)
        for item in touching:
            self._paint(context, item.mobject)
        if not inside:
            for left, top, right, bottom in boxes:
                picture[top:bottom, left:right] = self._scratch[top:bottom, left:right]

    def _lay_below(self, items: Sequence[_Item]) -> None:
        """Have on the third picture what the first items show; more than these were there if they have changed."""
        looks = [item.look for item in items]
        if _common_prefix(looks, self._below_looks) < len(self._below_looks):
            assert self._background is not None
            self._below[:] = self._background
            self._below_looks = []
        context = self._camera.get_cairo_context(self._below)
        for item in items[len(self._below_looks) :]:
            if item.box is not None:
                self._paint(context, item.mobject)
        self._below_looks = looks

    def _paint(self, context: Context, mobject: VMobject) -> None:
        """What `Camera.display_vectorized` does, with paths kept and without invisible fillings."""
        if not isinstance(mobject, PathMobject):
            self._camera.display_vectorized(mobject, context)
            return
        context.new_path()
        if mobject.is_at_home:
            context.append_path(self._path(mobject, context))
        else:
            turn, shift = mobject.place
            context.save()
            context.transform(cairo.Matrix(turn.real, turn.imag, -turn.imag, turn.real, shift.real, shift.imag))
            context.append_path(self._fine_path(mobject))
            context.restore()
        red, green, blue, opacity = mobject.fill_rgbas[0].tolist()
        if opacity > 0.0:
            context.set_source_rgba(blue, green, red, opacity)  # manim's pictures have the order reversed
            context.fill_preserve()
        red, green, blue, opacity = mobject.stroke_rgbas[0].tolist()
        if opacity > 0.0 and mobject.stroke_width > 0.0:
            context.set_source_rgba(blue, green, red, opacity)
            context.set_line_width(mobject.stroke_width * self._camera.cairo_line_width_multiple)
            context.set_line_join(LINE_JOIN_MAP[mobject.joint_type])
            context.set_line_cap(CAP_STYLE_MAP[mobject.cap_style])
            context.stroke_preserve()

    def _path(self, shape: PathMobject, context: Context) -> cairo.Path:
        """As cairo rounds it in the picture."""
        if shape.path_id not in self._paths:
            _lay_path(context, shape)
            self._paths[shape.path_id] = context.copy_path()
            context.new_path()
        return self._paths[shape.path_id]

    def _fine_path(self, shape: PathMobject) -> cairo.Path:
        """As it was laid down, hardly rounded, to be turned before cairo rounds it in the picture."""
        if shape.path_id not in self._fine_paths:
            _lay_path(self._fine, shape)
            self._fine_paths[shape.path_id] = self._fine.copy_path()
            self._fine.new_path()
        return self._fine_paths[shape.path_id]

    def _forget_paths(self) -> None:
        """Keep the paths of what is on the picture."""
        shown = {item.mobject.path_id for item in self._items if isinstance(item.mobject, PathMobject)}
        for paths in (self._paths, self._fine_paths):
            for gone in paths.keys() - shown:
                del paths[gone]

    def _pixel_box(self, box: tuple[float, float, float, float] | None) -> PixelBox | None:
        """A box of manim's frame in pixels, with one to spare on each side."""
        if box is None:
            return None
        width, height = self._size
        across, up = width / self._camera.frame_width, height / self._camera.frame_height
        middle_x, middle_y = self._camera.frame_center[:2]
        left, bottom, right, top = box
        found = (
            max(0, floor((left - middle_x) * across + width / 2) - 1),
            max(0, floor((middle_y - top) * up + height / 2) - 1),
            min(width, ceil((right - middle_x) * across + width / 2) + 1),
            min(height, ceil((middle_y - bottom) * up + height / 2) + 1),
        )
        return found if found[0] < found[2] and found[1] < found[3] else None


def _lay_path(context: Context, shape: PathMobject) -> None:
    """What `Camera.set_cairo_context_path` does: a new subpath wherever a curve does not start where the last ended."""
    curves = shape.laid_path[:, :2].reshape(-1, 4, 2)
    if len(curves) == 0:
        return
    breaks = np.flatnonzero(~_meet(curves[:-1, 3], curves[1:, 0])) + 1
    first = [0, *breaks.tolist()]
    last = [*breaks.tolist(), len(curves)]
    closed = _meet(curves[first, 0], curves[np.array(last) - 1, 3]).tolist()
    starts = curves[first, 0].tolist()
    steps = curves[:, 1:].reshape(-1, 6).tolist()
    curve_to = context.curve_to
    for begin, end, start, is_closed in zip(first, last, starts, closed, strict=True):
        context.new_sub_path()
        context.move_to(*start)
        for step in steps[begin:end]:
            curve_to(*step)
        if is_closed:
            context.close_path()


def _meet(ends: Any, starts: Any) -> Any:
    """Which of two rows of points are the same to manim."""
    return (np.abs(ends - starts) <= 1e-6 + 1e-5 * np.abs(starts)).all(axis=1)


def _box_of_any(mobject: VMobject) -> tuple[float, float, float, float] | None:
    points = mobject.points
    if len(points) == 0:
        return None
    (left, bottom), (right, top) = points[:, :2].min(axis=0), points[:, :2].max(axis=0)
    reach = _MITRE * max(mobject.get_stroke_width(), mobject.get_stroke_width(background=True)) / 200.0
    return float(left) - reach, float(bottom) - reach, float(right) + reach, float(top) + reach


def _changed(before: dict[object, tuple[int, _Item]], items: Sequence[_Item]) -> list[PixelBox]:
    """Boxes of what is new, what is gone, and what has come to lie over or under something else."""
    boxes = []
    kept = set()
    highest = -1
    for item in items:
        known = before.get(item.look)
        if known is None:
            boxes.append(item.box)
            continue
        kept.add(item.look)
        if known[0] < highest:
            boxes.append(item.box)
        highest = max(highest, known[0])
    boxes += [item.box for look, (_, item) in before.items() if look not in kept]
    return [box for box in boxes if box is not None]


def _joined(boxes: Iterable[PixelBox]) -> list[PixelBox]:
    """Boxes that cover the given ones and do not overlap, few of them, those that lie close together made one."""
    apart: list[PixelBox] = []
    for new in boxes:
        box = new
        while (other := next((known for known in apart if _worth_joining(known, box)), None)) is not None:
            apart.remove(other)
            box = _union(other, box)
        apart.append(box)
    while len(apart) > _MOST_BOXES:
        # The last two, whatever they are: with so many, most of the picture is new anyway.
        apart = _joined([*apart[:-2], _union(apart[-2], apart[-1])])
    return apart


def _worth_joining(one: PixelBox, other: PixelBox) -> bool:
    return _touch(one, other) or _area(_union(one, other)) <= _area(one) + _area(other) + _WORTH_JOINING


def _union(one: PixelBox, other: PixelBox) -> PixelBox:
    return min(one[0], other[0]), min(one[1], other[1]), max(one[2], other[2]), max(one[3], other[3])


def _touch(one: PixelBox, other: PixelBox) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def _holds(outer: PixelBox, inner: PixelBox | None) -> bool:
    return inner is not None and (
        outer[0] <= inner[0] and outer[1] <= inner[1] and inner[2] <= outer[2] and inner[3] <= outer[3]
    )


def _area(box: PixelBox) -> int:
    return (box[2] - box[0]) * (box[3] - box[1])


def _common_prefix(some: Sequence[object], others: Sequence[object]) -> int:
    return next((k for k, (a, b) in enumerate(zip(some, others, strict=False)) if a != b), min(len(some), len(others)))
