"""Solutions -> a storyboard: the steps of a lesson in teaching order.

The order is data: a telling is a row of stages, and a stage is a function that yields steps. What is seen runs on from
step to step: every stage starts from the figure that the one before it left.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from ..choice.model import Solution
from ..choice.stages.option_stages import answer, keep, options, rule_out
from ..errors import UnsoundItemError
from ..figure.dress import dressed
from ..figure.model import Figure
from ..figure.motion import Motion
from ..figure.theme import DEFAULT_THEME, Theme
from ..item.model import Lesson, Manner, Part
from ..kinds.join_and_cut.stages.asking import ask_options, ask_outline
from ..kinds.join_and_cut.stages.check_stages import check_to_try, try_one_by_one, without_pieces
from ..kinds.join_and_cut.stages.piece_stages import (
    close_up,
    compare,
    outline,
    pause,
    pause_in_check,
    pause_to_note,
    pieces,
    recall,
    remember,
    task,
    task_to_try,
)
from ..kinds.join_and_cut.stages.telling import Telling
from ..kinds.join_and_cut.stages.unseen import UnseenTelling
from ..storyboard.model import Beat, Step, Storyboard
from ..wording.writers import draft_line
from ..words.messages import speaking, spoken_language
from .cards import closing_step, imprint_of, opening_step, poster_of

__all__ = ["TELLINGS", "plan_item", "plan_lesson", "plan_unseen"]

Stage = Callable[[Telling], Iterator[Step]]

TELLINGS: dict[Manner, tuple[Stage, ...]] = {
    Manner.WORKED_EXAMPLE: (
        *(task, close_up, pieces, ask_outline, outline),
        *(options, ask_options, rule_out, keep, answer, remember),
    ),
    Manner.YOUR_TURN: (
        *(task_to_try, pause, close_up, pieces, ask_outline, outline),
        *(options, ask_options, rule_out, keep, answer, remember),
    ),
    Manner.QUESTION: (task_to_try, pause_to_note, compare),
    Manner.SOLUTION: (
        *(recall, close_up, pieces, ask_outline, outline),
        *(options, ask_options, rule_out, keep, answer, remember),
    ),
    Manner.QUICK_CHECK: (check_to_try, pause_in_check, try_one_by_one, rule_out, keep, answer),
}


def plan_item(solution: Solution, theme: Theme = DEFAULT_THEME) -> Storyboard:
    """A lesson of one worked example, in the language that is being spoken: British English unless told otherwise.

    Raises : UnsoundItemError where there is not exactly one right option; FactError where a sentence would be false
    """
    item = solution.item
    manner = Manner.WORKED_EXAMPLE
    shown = [(manner, solution)]
    told = _told(Telling(solution, theme, titled=False, to_try=False), manner)
    return Storyboard(
        name=item.name,
        title=item.title,
        language=spoken_language().tag,
        steps=_dressed([opening_step(item, shown, theme, Telling.card), *told], theme),
        poster=poster_of(told[0].picture, item.title, None, theme, draft=draft_line(spoken_language().tag)),
        imprint=imprint_of(item, shown),
    )


def plan_lesson(lesson: Lesson, solutions: Sequence[Solution], theme: Theme = DEFAULT_THEME) -> Storyboard:
    """A lesson of several items, each shown in its own manner; in its language.

    solutions : one for each part, in order
    Raises    : UnsoundItemError, FactError as ``plan_item``; CatalogueError where its language is not all there
    """
    with speaking(lesson.language):
        steps = _steps(lesson, solutions, theme, Telling)
        return _planned(lesson, solutions, theme, steps)


def plan_unseen(lesson: Lesson, solutions: Sequence[Solution]) -> Storyboard:
    """The same lesson with blank pictures: its words, motions and pauses, and so its length, in a tenth of the time.

    Raises : as ``plan_lesson``, save for what is found in laying out and drawing
    """
    with speaking(lesson.language):
        steps = tuple(_steps(lesson, solutions, DEFAULT_THEME, UnseenTelling))
    return Storyboard(name=lesson.stem, title=lesson.title, language=lesson.language, steps=steps)


def _steps(lesson: Lesson, solutions: Sequence[Solution], theme: Theme, kind: type[Telling]) -> list[Step]:
    """From the title card to the last card, not yet dressed."""
    titled = len(lesson.parts) > 1
    told: list[Step] = []
    for part, solution in zip(lesson.parts, solutions, strict=True):
        told += _told(_telling(part, solution, theme, kind, titled=titled), part.manner)
    shown = _shown(lesson, solutions)
    opening = opening_step(lesson, shown, theme, kind.card)
    return _in_teachers_words([opening, *told, closing_step(lesson, shown, theme, kind.card)], lesson)


def _planned(lesson: Lesson, solutions: Sequence[Solution], theme: Theme, steps: Sequence[Step]) -> Storyboard:
    return Storyboard(
        name=lesson.stem,
        title=lesson.title,
        language=lesson.language,
        steps=_dressed(steps, theme),
        poster=poster_of(steps[1].picture, lesson.title, lesson.number, theme, draft=draft_line(lesson.language)),
        imprint=imprint_of(lesson, _shown(lesson, solutions)),
    )


def _telling(part: Part, solution: Solution, theme: Theme, kind: type[Telling], *, titled: bool) -> Telling:
    quick = part.manner is Manner.QUICK_CHECK
    suggested_s = solution.check_pause_s if quick else solution.suggested_pause_s
    return kind(
        without_pieces(solution) if quick else solution,
        theme,
        titled=titled,
        to_try=part.manner.asks_to_try,
        pause_s=suggested_s if part.pause_s is None else part.pause_s,
        asks=part.asks,
    )


def _shown(lesson: Lesson, solutions: Sequence[Solution]) -> list[tuple[Manner, Solution]]:
    return [(part.manner, solution) for part, solution in zip(lesson.parts, solutions, strict=True)]


def _told(telling: Telling, manner: Manner) -> list[Step]:
    solution = telling.solution
    if not solution.sound:
        raise UnsoundItemError(f"{solution.item.name}: {' '.join(solution.unsound_because)}")
    return [step for stage in TELLINGS[manner] for step in stage(telling)]


def _in_teachers_words(steps: list[Step], lesson: Lesson) -> list[Step]:
    """The steps with the teacher's own sentences; words whose step is gone are for ``own_words`` to tell of."""
    own = dict(lesson.words)
    return [replace(step, narration=(own[step.id],), teachers_own=True) if step.id in own else step for step in steps]


def _dressed(steps: Sequence[Step], theme: Theme) -> tuple[Step, ...]:
    """Every figure with its heading and its row of stitches."""

    def dress(figure: Figure, step: Step, number: int) -> Figure:
        return dressed(figure, heading=step.heading, done=number, steps=len(steps), theme=theme)

    out = []
    for number, step in enumerate(steps, start=1):
        beats: list[Beat] = []
        for beat in step.beats:
            if isinstance(beat, Motion):
                beats.append(replace(beat, start=dress(beat.start, step, number), end=dress(beat.end, step, number)))
            else:
                beats.append(replace(beat, figure=dress(beat.figure, step, number)))
        out.append(replace(step, beats=tuple(beats)))
    return tuple(out)
