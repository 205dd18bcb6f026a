"""A manim renderer that hands out pictures instead of writing files.

A static wait is one picture, however long it lasts; an animation is one picture a frame, counted in whole frames. Of
each picture only what has changed is drawn. This module, `canvas` and `shape` are all that knows manim's inside; manim
is pinned to its minor version for their sake.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any, Protocol

import numpy as np
from manim.mobject.types.vectorized_mobject import VMobject
from manim.renderer.cairo_renderer import CairoRenderer

from .canvas import Canvas, PixelBox
from .shape import PathMobject

__all__ = ["PictureRenderer", "PictureSink", "Pixels"]

Pixels = np.ndarray[Any, np.dtype[np.uint8]]


class PictureSink(Protocol):
    """Whoever takes the pictures of one play after the other.

    Pictures are (height, width, 4) arrays in RGBA order, opaque, and drawn over after the call: copy what is kept.
    `changed` are the only parts (left, top, right, bottom, in pixels, not overlapping) that may differ from the picture
    before, that of an earlier play where this is the first.
    """

    def begin(self) -> None: ...
    def picture(self, pixels: Pixels, changed: Sequence[PixelBox]) -> None: ...
    def end(self) -> None: ...


class PictureRenderer(CairoRenderer):  # type: ignore[misc]  # manim is not checked
    """Draws with manim's own camera; give it to a scene as `renderer`."""

    def __init__(self, sink: PictureSink, fps: int) -> None:
        super().__init__(file_writer_class=_NoFileWriter)
        self.sink = sink
        self.fps = fps
        self._canvas = Canvas(self.camera)

    def play(self, scene: Any, *args: Any, **kwargs: Any) -> None:
        """Draw one play call: once for a static wait, else once a frame."""
        scene.compile_animation_data(*args, **kwargs)
        scene.begin_animations()
        frames = max(1, round(scene.duration * self.fps))
        self.static_image = None
        self.sink.begin()
        if scene.is_current_animation_frozen_frame():
            self._draw(scene)
        else:
            for frame in range(frames):
                scene.update_to_time(frame / self.fps)
                self._draw(scene)
        self.sink.end()
        for animation in scene.animations:
            animation.finish()
            animation.clean_up_from_scene(scene)
        scene.update_mobjects(0)
        self.time += frames / self.fps
        self.num_plays += 1

    def _draw(self, scene: Any) -> None:
        mobjects = self._displayed([*scene.mobjects, *scene.foreground_mobjects])
        for mobject in mobjects:
            if not isinstance(mobject, VMobject):
                raise TypeError(f"a {type(mobject).__name__} is not made of paths, and nothing else is drawn here")
        self.sink.picture(self.camera.pixel_array, self._canvas.show(mobjects))

    def _displayed(self, mobjects: Sequence[Any]) -> list[Any]:
        """What `Camera.get_mobjects_to_display` lists, which takes longer than drawing it."""
        family = list(_family(mobjects))
        if len(set(map(id, family))) < len(family) or any(mobject.z_index for mobject in family):
            return list(self.camera.get_mobjects_to_display(mobjects))
        return family

    def scene_finished(self, scene: Any) -> None:
        """Nothing: every picture has been handed out."""


class _NoFileWriter:
    """Stands where manim looks for its file writer."""

    def __init__(self, settings: Any) -> None:
        self.sections: list[Any] = []

    def abort_encode_jobs(self, *, reraise_encoder_failures: bool = False) -> None:
        """Nothing to abort."""


def _family(mobjects: Sequence[Any]) -> Iterator[Any]:
    """All that have points, each before what it is made of."""
    for mobject in mobjects:
        if isinstance(mobject, PathMobject):
            if len(mobject.laid_path):
                yield mobject
        elif mobject.has_points():
            yield mobject
        if mobject.submobjects:
            yield from _family(mobject.submobjects)
