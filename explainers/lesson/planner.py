"""Solutions -> a storyboard: the steps of a lesson in teaching order.

Each question is told by its kind, in the manner that the lesson names. What is seen runs on from step to step.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import groupby

from ..choice.model import Solution
from ..choice.stages.context import StageSettings
from ..choice.stages.unseen import blank_card, blank_chapter
from ..errors import UnsoundItemError
from ..figure.cards import chapter_figure, routine_figure, title_figure
from ..figure.decoration import decorated
from ..figure.model import Figure
from ..figure.motion import Motion
from ..figure.theme import DEFAULT_THEME, Theme
from ..item.model import Help, Lesson, LessonPart, Manner, SlipsTold
from ..kinds.registry import kind_of
from ..sentences.sheets import CutOutWords, cut_out_words
from ..sentences.writers import draft_line
from ..storyboard.model import Beat, Step, Storyboard
from ..storyboard.paces import pace_called
from ..storyboard.pacing import pace
from ..words.messages import speaking, spoken_language
from .cards import begun_with_card, closing_step, imprint_of, opening_step, poster_of
from .once import said_once, strategies_in
from .shortening import Telling, fullest

__all__ = ["plan_item", "plan_lesson", "plan_unseen"]


def plan_item(solution: Solution, theme: Theme = DEFAULT_THEME) -> Storyboard:
    """A lesson of one worked example, in the language that is being spoken: British English unless told otherwise.

    Raises : UnsoundItemError where there is not exactly one right option; FactError where a sentence would be false
    """
    item = solution.item
    manner = Manner.WORKED_EXAMPLE
    shown = [(manner, solution)]
    with speaking(spoken_language().tag, theme.verbs):
        told = said_once(_told(solution, StageSettings(manner=manner, theme=theme)), set())
        return Storyboard(
            name=item.name,
            title=item.title,
            language=spoken_language().tag,
            steps=_dressed([opening_step(item, shown, theme, title_figure), *told], theme),
            poster=poster_of(told[0], item.title, None, theme, draft=draft_line(spoken_language().tag)),
            imprint=imprint_of(item, shown),
            verbs=theme.verbs,
            page_words=_page_words([solution]),
            things=_things([solution]),
            cut_outs=_cut_outs([solution]),
        )


def plan_lesson(lesson: Lesson, solutions: Sequence[Solution], theme: Theme = DEFAULT_THEME) -> Storyboard:
    """A lesson of several items, each shown in its own manner; in its language.

    solutions : one for each part, in order
    Raises    : UnsoundItemError, FactError as ``plan_item``; CatalogueError where its language is not all there
    """
    with speaking(lesson.language, theme.verbs):
        telling = _fullest(lesson, solutions)
        return _planned(lesson, solutions, theme, _steps(telling, solutions, theme), telling.left_out)


def plan_unseen(lesson: Lesson, solutions: Sequence[Solution], theme: Theme = DEFAULT_THEME) -> Storyboard:
    """A lesson with blank pictures: its words, motions and pauses, and so its length, in a tenth of the time.

    theme  : for the words that it has of its own
    Raises : as ``plan_lesson``, save for what is found in laying out and drawing
    """
    with speaking(lesson.language, theme.verbs):
        return _unseen(_fullest(lesson, solutions), solutions)


def _fullest(lesson: Lesson, solutions: Sequence[Solution]) -> Telling:
    """How the lesson is told, so that it takes no longer than it may at its own pace."""
    profile = pace_called(lesson.pace)
    return fullest(lesson, lambda telling: pace(_unseen(telling, solutions), profile).seconds)


def _unseen(telling: Telling, solutions: Sequence[Solution]) -> Storyboard:
    lesson = telling.lesson
    steps = tuple(_steps(telling, solutions, DEFAULT_THEME, is_seen=False))
    return Storyboard(
        name=lesson.stem, title=lesson.title, language=lesson.language, steps=steps, left_out=telling.left_out
    )


def _steps(telling: Telling, solutions: Sequence[Solution], theme: Theme, *, is_seen: bool = True) -> list[Step]:
    """From the title card to the last card, not yet decorated."""
    lesson = telling.lesson
    told: list[Step] = []
    said: set[str] = set()
    remembered: list[str] = []
    card, last_card = (title_figure, routine_figure) if is_seen else (blank_card, blank_card)
    begin = chapter_figure if is_seen else blank_chapter
    for number, (part, solution) in enumerate(zip(lesson.parts, solutions, strict=True), start=1):
        settings = _settings(telling, part, solution, theme, is_seen=is_seen)
        steps = _told(solution, replace(settings, remembered=tuple(remembered)))
        remembered += strategies_in(steps)
        steps = steps if part.help is Help.FULL else said_once(steps, said, is_brief=part.help is Help.BRIEF)
        if len(lesson.parts) > 1:
            steps[0] = begun_with_card(steps[0], part, solution, (number, len(lesson.parts)), theme, begin)
        told += steps
    shown = _shown(lesson, solutions)
    opening = opening_step(lesson, shown, theme, card)
    return _in_teachers_words([opening, *told, closing_step(lesson, shown, theme, last_card)], lesson)


def _planned(
    lesson: Lesson, solutions: Sequence[Solution], theme: Theme, steps: Sequence[Step], left_out: tuple[str, ...]
) -> Storyboard:
    return Storyboard(
        name=lesson.stem,
        title=lesson.title,
        language=lesson.language,
        steps=_dressed(steps, theme),
        left_out=left_out,
        poster=poster_of(steps[1], lesson.title, lesson.number, theme, draft=draft_line(lesson.language)),
        imprint=imprint_of(lesson, _shown(lesson, solutions)),
        verbs=theme.verbs,
        page_words=_page_words(solutions),
        things=_things(solutions),
        cut_outs=_cut_outs(solutions),
    )


def _settings(telling: Telling, part: LessonPart, solution: Solution, theme: Theme, *, is_seen: bool) -> StageSettings:
    lesson = telling.lesson
    pause_s = part.pause_s
    if pause_s is None:
        quick = part.manner is Manner.QUICK_CHECK
        pause_s = solution.check_pause_s if quick else solution.suggested_pause_s
    return StageSettings(
        manner=part.manner,
        theme=theme,
        titled=len(lesson.parts) > 1,
        pause_s=pause_s,
        asks=part.asks,
        slips_told=lesson.slips is SlipsTold.TOLD,
        leaves_out=telling.parts,
        is_seen=is_seen,
    )


def _shown(lesson: Lesson, solutions: Sequence[Solution]) -> list[tuple[Manner, Solution]]:
    return [(part.manner, solution) for part, solution in zip(lesson.parts, solutions, strict=True)]


def _page_words(solutions: Sequence[Solution]) -> tuple[tuple[str, str], ...]:
    kinds = dict.fromkeys(kind_of(solution.item) for solution in solutions)
    return tuple({key: text for kind in kinds for key, text in kind.page_words().items()}.items())


def _things(solutions: Sequence[Solution]) -> dict[tuple[str, str], str]:
    kinds = dict.fromkeys(kind_of(solution.item) for solution in solutions)
    return {thing: text for kind in kinds for thing, text in kind.things().items()}


def _cut_outs(solutions: Sequence[Solution]) -> CutOutWords:
    return cut_out_words(kind_of(solution.item).cut_out_words() for solution in solutions)


def _told(solution: Solution, settings: StageSettings) -> list[Step]:
    if not solution.sound:
        raise UnsoundItemError(f"{solution.item.name}: {' '.join(solution.unsound_because)}")
    return list(kind_of(solution.item).steps(solution, settings))


def _in_teachers_words(steps: list[Step], lesson: Lesson) -> list[Step]:
    """The steps with the teacher's own sentences; words whose step is gone are for ``own_words`` to tell of."""
    own = dict(lesson.words)
    return [replace(step, narration=(own[step.id],), teachers_own=True) if step.id in own else step for step in steps]


def _dressed(steps: Sequence[Step], theme: Theme) -> tuple[Step, ...]:
    """Every figure with its heading and its row of stitches."""

    runs = [len(list(steps_of)) for _, steps_of in groupby(steps, key=lambda step: step.chapter)]

    def decorate(figure: Figure, heading: str, number: int) -> Figure:
        return decorated(figure, heading=heading, done=number, runs=runs, theme=theme)

    out = []
    for number, step in enumerate(steps, start=1):
        beats: list[Beat] = []
        headings = step.headings
        for beat, heading, after in zip(step.beats, headings, (*headings[1:], step.heading), strict=True):
            if isinstance(beat, Motion):
                start, end = decorate(beat.start, heading, number), decorate(beat.end, after, number)
                beats.append(replace(beat, start=start, end=end))
            else:
                beats.append(replace(beat, figure=decorate(beat.figure, heading, number)))
        out.append(replace(step, beats=tuple(beats)))
    return tuple(out)
