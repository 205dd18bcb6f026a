"""Solutions -> a storyboard: the steps of a lesson in teaching order.

The order is data: a telling is a row of stages, and a stage is a function that yields steps. What is seen runs on from
step to step: every stage starts from the figure that the one before it left.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from difflib import get_close_matches

from ..errors import Fault, LessonError, UnsoundItemError
from ..figure.dress import dressed, title_figure
from ..figure.model import Figure
from ..figure.motion import Motion
from ..figure.theme import DEFAULT_THEME, Theme
from ..item.model import Lesson, Manner
from ..solution.difficulty import suggested_pause_s
from ..solution.model import Solution
from ..wording import lesson as framing
from ..wording.lesson import Chapter, Heading, chapter, heading
from ..wording.picture_alt import card_alt
from .model import Beat, Step, Still, Storyboard
from .option_stages import answer, keep, options, rule_out
from .stages import close_up, outline, pause, pieces, remember, task, task_to_try
from .telling import Telling

__all__ = ["TELLINGS", "plan_item", "plan_lesson"]

Stage = Callable[[Telling], Iterator[Step]]

TELLINGS: dict[Manner, tuple[Stage, ...]] = {
    Manner.WORKED_EXAMPLE: (task, close_up, pieces, outline, options, rule_out, keep, answer, remember),
    Manner.YOUR_TURN: (task_to_try, pause, close_up, pieces, outline, options, rule_out, keep, answer, remember),
}


def plan_item(solution: Solution, theme: Theme = DEFAULT_THEME) -> Storyboard:
    """A lesson of one worked example.

    Raises : UnsoundItemError where there is not exactly one right option; FactError where a sentence would be false
    """
    item = solution.item
    steps = [_opening(item.name, item.title, theme, examples=1, turns=0)]
    steps += _told(Telling(solution, theme, titled=False, to_try=False), Manner.WORKED_EXAMPLE)
    return Storyboard(name=item.name, title=item.title, language="en-GB", steps=_dressed(steps, theme))


def plan_lesson(lesson: Lesson, solutions: Sequence[Solution], theme: Theme = DEFAULT_THEME) -> Storyboard:
    """A lesson of several items, each as a worked example or to try first.

    solutions : one for each part, in order
    Raises    : UnsoundItemError, FactError as ``plan_item``; LessonError for words that belong to no step
    """
    turns = sum(part.manner is Manner.YOUR_TURN for part in lesson.parts)
    steps = [
        _opening(lesson.name, lesson.title, theme, examples=len(lesson.parts) - turns, turns=turns, said=lesson.opening)
    ]
    titled = len(lesson.parts) > 1
    for part, solution in zip(lesson.parts, solutions, strict=True):
        pause_s = suggested_pause_s(solution) if part.pause_s is None else part.pause_s
        to_try = part.manner is Manner.YOUR_TURN
        steps += _told(Telling(solution, theme, titled=titled, to_try=to_try, pause_s=pause_s), part.manner)
    steps.append(_closing(lesson, theme))
    steps = _in_teachers_words(steps, lesson)
    return Storyboard(name=lesson.name, title=lesson.title, language=lesson.language, steps=_dressed(steps, theme))


def _told(telling: Telling, manner: Manner) -> list[Step]:
    solution = telling.solution
    if not solution.sound:
        raise UnsoundItemError(f"{solution.item.name}: {' '.join(solution.unsound_because)}")
    return [step for stage in TELLINGS[manner] for step in stage(telling)]


def _opening(name: str, title: str, theme: Theme, *, examples: int, turns: int, said: str | None = None) -> Step:
    narration = (said,) if said else framing.opening(title, examples=examples, your_turns=turns)
    lines = (title, *narration[1:]) if not said else (title,)
    return Step(
        id=f"{name}.opening",
        chapter=chapter(Chapter.OPENING),
        heading=heading(Heading.TITLE),
        beats=(Still(figure=title_figure(lines, card_alt(lines), theme)),),
        narration=narration,
        teachers_own=bool(said),
    )


def _closing(lesson: Lesson, theme: Theme) -> Step:
    narration = (lesson.closing,) if lesson.closing else framing.closing()
    lines = narration if not lesson.closing else (lesson.title,)
    return Step(
        id=f"{lesson.name}.closing",
        chapter=chapter(Chapter.CLOSING),
        heading=heading(Heading.CLOSING),
        beats=(Still(figure=title_figure(lines, card_alt(lines), theme)),),
        narration=narration,
        teachers_own=bool(lesson.closing),
    )


def _in_teachers_words(steps: list[Step], lesson: Lesson) -> list[Step]:
    """The steps with the teacher's own sentences; words for a step that is not there are a fault, never dropped."""
    own = dict(lesson.words)
    known = [step.id for step in steps]
    faults = []
    for step_id in own:
        if step_id not in known:
            near = get_close_matches(step_id, known, n=1)
            fix = f"did you mean {near[0]}?" if near else "take a step id from the cue sheet"
            faults.append(Fault(field=f"words.{step_id}", message="no step of this lesson has that id", fix=fix))
    if faults:
        raise LessonError(faults)
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
