"""How the time of lessons is spent: looking ahead, turning and meeting, options, and the rest.

python tests/bench/lesson_seconds.py items/first-blocks.yaml items/looking-closely.yaml
"""

from __future__ import annotations

import sys
from collections import defaultdict
from pathlib import Path

from explainers.intake.workspace import Workspace
from explainers.lesson.planner import plan_unseen
from explainers.storyboard.paces import pace_called
from explainers.storyboard.pacing import pace

_PARTS = {
    "turn": "turning",
    "meet": "meeting",
    "ahead": "looking ahead",
    "pause": "pause",
}
_OPTIONS = ("options", "rule-out", "keep", "answer", "together", "ask-options")


def _part(stage: str) -> str:
    if stage in _OPTIONS or stage.startswith("sift."):
        return "options"
    return _PARTS.get(stage, "other")


def main() -> None:
    for name in (name for name in sys.argv[1:] if not name.startswith("--")):
        workspace = Workspace()
        lesson, solutions = workspace.solved_lesson(Path(name))
        board = plan_unseen(lesson, solutions)
        timeline = pace(board, pace_called(lesson.pace))
        spent: dict[str, float] = defaultdict(float)
        rate = timeline.frames / timeline.seconds
        for step in board.steps:
            start, end = timeline.step_span(step.id)
            spent[_part(step.stage)] += (end - start) / rate
            if "--steps" in sys.argv:
                print(f"   {(end - start) / rate:6.1f} s  {step.id}")
        captioned = timeline.seconds - spent["pause"]
        print(f"{name}: {timeline.seconds:.0f} s, of which pauses {spent['pause']:.0f} s")
        for part, seconds in sorted(spent.items(), key=lambda one: -one[1]):
            if part != "pause":
                print(f"   {part:14} {seconds:6.1f} s  {100 * seconds / captioned:5.1f} %")


if __name__ == "__main__":
    main()
