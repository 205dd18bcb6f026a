"""Time for learners: a calm countdown of a few stills over what was shown last."""

from __future__ import annotations

from collections.abc import Sequence

from ..choice.fact import Fact
from ..figure.subject import Subject
from ..kinds.join_and_cut.stages.telling import Telling
from ..wording.lesson import Chapter
from .model import Beat, Step, Still

__all__ = ["waiting"]


def waiting(
    telling: Telling,
    stage: str,
    chapter: Chapter,
    heading: str,
    *,
    seconds: float,
    patches: int,
    narration: Sequence[str] = (),
    note: str = "",
    facts: Sequence[Fact] = (),
    subject: Subject | None = None,
    reveals: bool = True,
) -> Step:
    """A step that waits; the clock is gone from the picture that the next step starts from.

    patches   : into how many stills of equal length the time is cut
    narration : spoken before the clock starts, over the picture without it
    """
    shown = telling.last
    each_s = seconds / patches
    beats: list[Beat] = [Still(figure=shown)] if narration else []
    beats += [
        Still(
            figure=telling.counting_down(
                shown, left=patches - passed, patches=patches, left_s=seconds - passed * each_s, theme=telling.theme
            ),
            hold_s=each_s,
        )
        for passed in range(patches)
    ]
    step = telling.step(
        stage, chapter, heading, beats, narration, note=note, facts=facts, subject=subject, reveals=reveals
    )
    telling.last = shown
    return step
