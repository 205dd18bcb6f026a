"""A part of a timed lesson has its own steps, words and times, without a gap, and nothing else."""

from __future__ import annotations

from pathlib import Path

import pytest

from explainers.batch import timeline_of
from explainers.errors import OutputError
from explainers.storyboard.excerpt import excerpt
from explainers.storyboard.timeline import Timeline

ITEMS = Path(__file__).parents[2] / "items"


@pytest.fixture(scope="module")
def lesson() -> Timeline:
    return timeline_of(ITEMS / "first-blocks.yaml")


@pytest.mark.parametrize(
    ("asked", "stages"),
    [
        ("corner-block.flag.turn", ["turn"]),
        ("corner-block.flag", ["marks", "turn", "meet", "join"]),
        ("corner-block.sift.corners", ["sift.corners"]),
    ],
)
def test_a_step_or_a_piece_alone(lesson: Timeline, asked: str, stages: list[str]) -> None:
    part = excerpt(lesson, asked)
    assert [step.stage for step in part.storyboard.steps] == stages
    assert part.spans[0].start == 0
    assert all(one.end == other.start for one, other in zip(part.spans, part.spans[1:], strict=False))
    wanted = {step.id for step in part.storyboard.steps}
    whole = [cue for cue in lesson.cues if cue.step_id in wanted]
    assert [cue.text for cue in part.cues] == [cue.text for cue in whole]
    for cue, before in zip(part.cues, whole, strict=True):
        assert 0.0 <= cue.start_s < cue.end_s <= part.seconds + 1e-9
        assert cue.end_s - cue.start_s == pytest.approx(before.end_s - before.start_s)
    assert part.chapters[0].start == 0 and part.chapters[-1].end == part.frames


def test_a_whole_item_is_all_its_steps(lesson: Timeline) -> None:
    part = excerpt(lesson, "border-block")
    assert [s.id for s in part.storyboard.steps] == [s.id for s in lesson.storyboard.steps if s.item == "border-block"]


def test_a_step_that_is_not_there_is_told_with_those_that_are(lesson: Timeline) -> None:
    with pytest.raises(OutputError, match=r"there is no step corner-block.flg. To mend it: write one of: .*flag\.turn"):
        excerpt(lesson, "corner-block.flg")
