"""What is said over a picture, written where captions would be: for stills and slides, which have none.

The strip at the foot of the stage is kept free for captions; a picture that stands alone carries its sentence there.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ...figure.model import CAPTION_TOP, STAGE_WIDTH, Figure, Label, Role
from ...figure.motion import Motion
from ...storyboard.model import Step, Still
from ...typeface.faces import face
from .steps import heading_label, picture_of

__all__ = ["said_at", "slide_picture", "with_words", "worded_stills"]

_MARGIN = 1.5  # on slides the words may be set in a wider typeface, where ours is not installed
_SIZES = (0.46, 0.4, 0.34)  # of the type, the largest that has room
_MOST_LINES = 2
_PITCH = 1.3  # of the size, from line to line


def worded_stills(step: Step) -> tuple[Figure, ...]:
    """Every still of a step with what is said over it."""
    if not step.item:  # a card has its own words
        return step.stills
    worded = [with_words(figure, words) for figure, words in zip(step.stills, said_at(step), strict=True)]
    return (step.stills[0], *worded[1:]) if step.card else tuple(worded)  # a card has its own words too


def slide_picture(step: Step) -> Figure:
    """The one picture of a step with the last that is said in it, as much as has room."""
    return with_words(picture_of(step), step.narration) if step.item else picture_of(step)


def said_at(step: Step) -> list[tuple[str, ...]]:
    """The sentences that are spoken over each still: from the motion that leads to it up to the next one.

    Where nothing is said between two motions, what was said last stands on.
    """
    starts = [0]
    for beat in step.beats:
        if isinstance(beat, Motion):
            after = beat.after_sentences
            starts.append(starts[-1] + 1 if after is None else after)
    stills = [beat for beat in step.beats if isinstance(beat, Still)]
    starts += [starts[-1]] * (len(stills) - len(starts))
    ends = [*starts[1:], len(step.narration)]
    told: list[tuple[str, ...]] = []
    for start, end in zip(starts[: len(stills)], ends[: len(stills)], strict=True):
        words = step.narration[start:end]
        told.append(words or (told[-1] if told else step.narration[:1]))
    return told


def with_words(figure: Figure, words: Sequence[str]) -> Figure:
    """The figure with sentences at its foot: as many of the last as two lines hold."""
    heading = heading_label(figure)
    if heading is None or not words:
        return figure
    for first in range(len(words)):
        for size in _SIZES if first == len(words) - 1 else _SIZES[:2]:
            lines = _folded(" ".join(words[first:]), size)
            if len(lines) <= _MOST_LINES:
                return replace(figure, entries=(*figure.entries, *_labels(lines, size, heading.colour)))
    return figure


def _labels(lines: Sequence[str], size: float, colour: str) -> list[Label]:
    top = CAPTION_TOP / 2 + 0.05 + (len(lines) - 1) * _PITCH * size / 2
    return [
        Label(
            id=f"said-{number + 1}",
            group="said",
            role=Role.WORD,
            text=line,
            at=(STAGE_WIDTH / 2, top - number * _PITCH * size),
            size=size,
            colour=colour,
        )
        for number, line in enumerate(lines)
    ]


def _folded(text: str, size: float) -> list[str]:
    """Lines of about the same length."""
    room = STAGE_WIDTH - 2 * _MARGIN
    width = face(False).width
    whole = width(text, size)
    if whole <= room:
        return [text]
    words = text.split()
    cuts = [
        (max(width(" ".join(words[:at]), size), width(" ".join(words[at:]), size)), at) for at in range(1, len(words))
    ]
    longest, at = min(cuts)
    return [" ".join(words[:at]), " ".join(words[at:])] if longest <= room else [text] * (_MOST_LINES + 1)
