"""From one short description of a question with outlines to a lesson that explains it.

A question walks through the rooms; each takes one value that never changes and hands on the next. Nothing walks back.

    items/*.yaml ── read_item ──▶ Question, Lesson   what the teacher wrote, checked field by field
                 ── solve ──────▶ Solution           what its kind makes of it: verdicts, facts
                 ── plan_item ──▶ Storyboard         steps: what is shown, said, asked
                 ── pace ───────▶ Timeline           when
                 ── write_… ────▶ render_out/        clip, deck, cue sheet, stills

    from pathlib import Path
    from explainers import load_solution, pace, plan_item, write_deck

    write_deck(pace(plan_item(load_solution(Path("items/corner-block.yaml")))), Path("out"))

``load_solution`` is ``read_item``, then ``solve``, with every fault given its line. Each name is loaded when it is
first used, so that ``import explainers`` costs nothing, and solving an item never loads what draws a clip.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from .batch import build as build
    from .batch import timeline_of as timeline_of
    from .choice.report import solution_json as solution_json
    from .errors import ExplainersError as ExplainersError
    from .errors import ItemError as ItemError
    from .errors import LessonError as LessonError
    from .errors import UnsoundItemError as UnsoundItemError
    from .intake.reader import read_item as read_item
    from .intake.reader import read_lesson as read_lesson
    from .intake.reader import read_series as read_series
    from .intake.workspace import load_lesson as load_lesson
    from .intake.workspace import load_solution as load_solution
    from .kinds.registry import solve as solve
    from .lesson.planner import plan_item as plan_item
    from .lesson.planner import plan_lesson as plan_lesson
    from .outputs.clip.stills import write_poster, write_stills
    from .outputs.clip.writer import write_clip as write_clip
    from .outputs.pptx.deck import write_deck as write_deck
    from .outputs.text.cues import write_cues
    from .outputs.text.description import write_description as write_description
    from .storyboard.pacing import pace as pace

# Name -> the module that it lives in. A test holds this against the imports above.
_HOME = {
    "ExplainersError": "errors",
    "ItemError": "errors",
    "LessonError": "errors",
    "UnsoundItemError": "errors",
    "build": "batch",
    "pace": "storyboard.pacing",
    "plan_item": "lesson.planner",
    "plan_lesson": "lesson.planner",
    "read_item": "intake.reader",
    "read_lesson": "intake.reader",
    "read_series": "intake.reader",
    "solution_json": "choice.report",
    "solve": "kinds.registry",
    "load_solution": "intake.workspace",
    "load_lesson": "intake.workspace",
    "timeline_of": "batch",
    "write_clip": "outputs.clip.writer",
    "write_cues": "outputs.text.cues",
    "write_deck": "outputs.pptx.deck",
    "write_description": "outputs.text.description",
    "write_poster": "outputs.clip.stills",
    "write_stills": "outputs.clip.stills",
}

__all__ = [  # noqa: RUF022 - in the order of the flow
    "read_item",
    "read_lesson",
    "read_series",
    "solve",
    "load_solution",
    "load_lesson",
    "solution_json",
    "plan_item",
    "plan_lesson",
    "pace",
    "timeline_of",
    "write_clip",
    "write_deck",
    "write_cues",
    "write_stills",
    "write_poster",
    "write_description",
    "build",
    "ExplainersError",
    "ItemError",
    "LessonError",
    "UnsoundItemError",
    "__version__",
]


def __getattr__(name: str) -> Any:
    if name == "__version__":
        from importlib.metadata import version

        return version("explainers")
    if name not in _HOME:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    value = getattr(import_module(f"{__name__}.{_HOME[name]}"), name)
    globals()[name] = value  # found at once from now on
    return value


def __dir__() -> list[str]:
    return sorted({*globals(), *__all__})
