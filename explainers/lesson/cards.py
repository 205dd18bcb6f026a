"""What stands round the questions of a lesson: the title card, the closing card, the poster."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace

from ..choice.model import Solution
from ..choice.question import Question
from ..choice.words.routine import ROUTINE_STEPS, option_steps, purpose
from ..figure.decoration import decorated, footed, numbered
from ..figure.model import Figure, Role
from ..figure.theme import Theme
from ..item.model import Lesson, LessonPart, Manner
from ..kinds.registry import kind_named
from ..sentences import published
from ..sentences.lesson import (
    HEADING_LENGTH,
    Chapter,
    Framing,
    Heading,
    chapter,
    heading,
    opening,
    question_card,
    what_happens,
)
from ..sentences.writers import draft_line
from ..storyboard.model import Imprint, Step, Still
from ..words.messages import spoken_language

__all__ = ["begun_with_card", "closing_step", "imprint_of", "opening_step", "poster_of"]


Shown = Sequence[tuple[Manner, Solution]]  # the questions of a lesson in order, each with how it is shown
ChapterCard = Callable[[str, str, tuple[int, int], str, Theme], Figure]  # title, doing, place, alternative text
_CARD_S, _FADE_S = 1.0, 0.7  # that it is read in while the first words of its question are said
Card = Callable[[tuple[str, ...], str, Theme], Figure]  # lines and alternative text to a picture


def opening_step(told: Lesson | Question, shown: Shown, theme: Theme, card: Card) -> Step:
    """The title card: title and what the lesson is for; below, series, number and credit, or what will happen."""
    manners = [manner for manner, _ in shown]
    own, lines = (told.opening, published.card_lines(told)) if isinstance(told, Lesson) else (None, ())
    aim = purpose([solution for _, solution in shown])
    narration = (own,) if own else opening(told.title, manners, purpose=aim)
    if not lines and not own:
        lines = what_happens(manners)
    draft = draft_line(spoken_language().tag)
    written = (told.title, aim, *lines, *([draft] if draft else []))
    return Step(
        stage="opening",
        lesson=told.name,
        reveals=False,
        chapter=chapter(Chapter.OPENING),
        heading=_title_heading(shown),
        beats=(Still(figure=card(written, _alt(written), theme)),),
        narration=narration,
        teachers_own=bool(own),
    )


def begun_with_card(
    step: Step, part: LessonPart, solution: Solution, place: tuple[int, int], theme: Theme, card: ChapterCard
) -> Step:
    """The first step of a question, begun with a card that tells which question it is.

    place : its number, and how many there are
    """
    line, title, doing = question_card(*place, solution.item.title, part.manner)
    figure = card(title, doing, place, _alt((line, title, doing)), theme)
    return step.with_card(figure, line, seconds=_CARD_S, fade_s=_FADE_S)


def closing_step(lesson: Lesson, shown: Shown, theme: Theme, card: Card) -> Step:
    """The last card: the routine to take along, in numbered lines; a teacher's own last words are said over it."""
    lines = _routine(shown)
    narration = (lesson.closing,) if lesson.closing else lines
    return Step(
        stage="closing",
        lesson=lesson.name,
        reveals=False,
        chapter=chapter(Chapter.CLOSING),
        heading=heading(Heading.CLOSING),
        beats=(Still(figure=card(lines, _alt(lines), theme)),),
        narration=narration,
        teachers_own=bool(lesson.closing),
    )


def _routine(shown: Shown) -> tuple[str, ...]:
    """Three steps: those with which each kind of question begins, then what helped with the options.

    A question that is asked and not solved in this lesson gives nothing away.
    """
    first = _each_once(framing.routine for framing in _framings(shown))[:2]
    solved = [solution for manner, solution in shown if manner.solves]
    return (*first, *option_steps(solved, count=ROUTINE_STEPS - len(first)))


def poster_of(asked: Step, title: str, number: int | None, theme: Theme, *, draft: str = "") -> Figure:
    """The first question as it is asked, under the lesson's title: telling, and giving nothing away.

    asked : the step in which it is; what it asks stands at the foot
    draft : what must be said of the language; it stands there in place of the question
    """
    line = title if len(title) <= HEADING_LENGTH else heading(Heading.QUESTION)
    framed = decorated(asked.picture, heading=line, done=0, runs=(1,), theme=theme)
    poster = replace(framed, entries=tuple(entry for entry in framed.entries if entry.role != Role.PROGRESS))
    if draft:
        poster = replace(footed(poster, draft, theme), alt=f"{poster.alt} {draft}.")
    elif question := next((said for said in asked.narration if said.endswith("?")), ""):
        poster = replace(footed(poster, question, theme, is_asked=True), alt=f"{poster.alt} {question}")
    return poster if number is None else numbered(poster, published.number_line(number), theme)


def imprint_of(told: Lesson | Question, shown: Shown) -> Imprint:
    """What is printed with the lesson."""
    about = (*_each_once(framing.about for framing in _framings(shown)), *what_happens([manner for manner, _ in shown]))
    draft = draft_line(spoken_language().tag)
    if not isinstance(told, Lesson):
        return Imprint(about=about, draft=draft)
    return Imprint(
        series=told.series.title if told.series else "",
        number=told.number,
        credit=told.credit or "",
        licence=told.licence or "",
        about=about,
        draft=draft,
    )


def _framings(shown: Shown) -> list[Framing]:
    """Of each kind of question, in the order in which the kinds first come."""
    kinds = dict.fromkeys(solution.item.kind for _, solution in shown)
    return [kind_named(kind).framing([one for one in shown if one[1].item.kind == kind]) for kind in kinds]


def _each_once(told: Iterable[tuple[str, ...]]) -> tuple[str, ...]:
    """What several kinds have in common is said once."""
    return tuple(dict.fromkeys(sentence for sentences in told for sentence in sentences))


def _title_heading(shown: Shown) -> str:
    framings = _framings(shown)
    return framings[0].heading if len(framings) == 1 else chapter(Chapter.OPENING)


def _alt(lines: tuple[str, ...]) -> str:
    """A card of words."""
    return " ".join(line if line[-1:] in ".?!" else f"{line}." for line in lines)
