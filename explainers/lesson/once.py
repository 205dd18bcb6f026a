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
    told: list[str] = []  # "" where nothing is
    for sentence in step.narration:
        is_known = isinstance(sentence, Routine) and (is_brief or sentence.purpose in said)
        told.append(sentence.later if is_known and isinstance(sentence, Routine) else sentence)
    said |= {sentence.purpose for sentence in step.narration if isinstance(sentence, Routine)}
    kept = [bool(sentence) for sentence in told]
    if tuple(told) == step.narration or not any(kept):  # nothing but what has been said: it is said once more
        return step
    beats = [
        replace(beat, after_sentences=sum(kept[: beat.after_sentences]))
        if isinstance(beat, Motion) and beat.after_sentences is not None
        else beat
        for beat in step.beats
    ]
    return replace(step, narration=tuple(filter(None, told)), beats=tuple(beats))
