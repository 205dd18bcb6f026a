"""What is the same in every question is said once a lesson, so that help fades; no strategy is told twice either."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..choice.strategy import StrategyFact
from ..figure.motion import Motion
from ..storyboard.model import Step
from ..words.messages import Routine

__all__ = ["said_once", "strategies_in"]


def strategies_in(steps: Sequence[Step]) -> list[str]:
    """The strategies that steps tell, in order."""
    return [fact.strategy.value for step in steps for fact in step.facts if isinstance(fact, StrategyFact)]


def said_once(steps: Sequence[Step], said: set[str], *, is_brief: bool = False) -> list[Step]:
    """The steps without the routine sentences that have been said; motions still come where their sentences do.

    said     : what has been said before; what these steps say is added
    is_brief : whether routine sentences are left out even the first time
    """
    return [_without(step, said, is_brief=is_brief) for step in steps]


def _without(step: Step, said: set[str], *, is_brief: bool) -> Step:
    kept: list[bool] = []
    for sentence in step.narration:
        if not isinstance(sentence, Routine):
            kept.append(True)
            continue
        kept.append(not is_brief and sentence.purpose not in said)
        said.add(sentence.purpose)
    if all(kept) or not any(kept):  # a step that says nothing but what has been said says it once more
        return step
    beats = [
        replace(beat, after_sentences=sum(kept[: beat.after_sentences]))
        if isinstance(beat, Motion) and beat.after_sentences is not None
        else beat
        for beat in step.beats
    ]
    narration = tuple(sentence for sentence, keep in zip(step.narration, kept, strict=True) if keep)
    return replace(step, narration=narration, beats=tuple(beats))
