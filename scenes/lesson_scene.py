"""The whole lesson as one manim scene, to open with manim's own command.

    EXPLAINERS_SHOW=items/corner-block.yaml manim render scenes/lesson_scene.py LessonScene

EXPLAINERS_SHOW names a lesson or an item; without it the demo lesson is shown. Captions and chapters are not part
of it; `explainers clip` adds them.
"""

from __future__ import annotations

import os
from pathlib import Path
from typing import Any

from scenes.motion_scene import SpanScene

__all__ = ["LessonScene"]

_DEMO = Path(__file__).resolve().parent.parent / "items" / "first-blocks.yaml"


class LessonScene(SpanScene):
    """Plays every still and motion of a lesson."""

    def __init__(self, **kwargs: Any) -> None:
        from explainers.batch import timeline_of  # here: a scene can be looked at without reading any lesson

        timeline = timeline_of(Path(os.environ.get("EXPLAINERS_SHOW") or _DEMO))
        super().__init__(spans=timeline.spans, fps=timeline.fps, **kwargs)
