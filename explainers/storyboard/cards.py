"""What stands round the questions of a lesson: the title card, the closing card, the poster."""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence
from dataclasses import replace

from ..figure.dress import dressed, footed, numbered
from ..figure.model import Figure, Role
from ..figure.theme import Theme
from ..item.model import Lesson, Manner
from ..kinds.join_and_cut.model import Does, Item
from ..kinds.join_and_cut.words.picture_alt import card_alt
from ..wording import lesson as framing
from ..wording import published
from ..wording.lesson import HEADING_LENGTH, Chapter, Heading, chapter, heading
from ..wording.writers import draft_line
from ..words.messages import spoken_language
from .model import Imprint, Step, Still

__all__ = ["closing_step", "imprint_of", "opening_step", "poster_of"]


Card = Callable[[tuple[str, ...], str, Theme], Figure]  # lines and alternative text to a picture


def opening_step(told: Lesson | Item, manners: Sequence[Manner], theme: Theme, card: Card) -> Step:
    """The title card: the title; below it series, number, lines of the teacher's and credit, or what will happen."""
    own, lines = (told.opening, published.card_lines(told)) if isinstance(told, Lesson) else (None, ())
    narration = (own,) if own else framing.opening(told.title, manners)
    if not lines and not own:
        lines = tuple(sentence for sentence in narration if sentence in framing.what_happens(manners))
    draft = draft_line(spoken_language().tag)
    shown = (told.title, *lines, *([draft] if draft else []))
    return Step(
        stage="opening",
        lesson=told.name,
        reveals=False,
        chapter=chapter(Chapter.OPENING),
        heading=heading(Heading.TITLE),
        beats=(Still(figure=card(shown, card_alt(shown), theme)),),
        narration=narration,
        teachers_own=bool(own),
    )


def closing_step(lesson: Lesson, theme: Theme, card: Card) -> Step:
    """The last card."""
    narration = (lesson.closing,) if lesson.closing else framing.closing([part.manner for part in lesson.parts])
    lines = narration if not lesson.closing else (lesson.title,)
    return Step(
        stage="closing",
        lesson=lesson.name,
        reveals=False,
        chapter=chapter(Chapter.CLOSING),
        heading=heading(Heading.CLOSING),
        beats=(Still(figure=card(lines, card_alt(lines), theme)),),
        narration=narration,
        teachers_own=bool(lesson.closing),
    )


def poster_of(question: Figure, title: str, number: int | None, theme: Theme, *, draft: str = "") -> Figure:
    """The first question as it is asked, under the lesson's title: telling, and giving nothing away.

    draft : what must be said of the language; it stands at the foot
    """
    line = title if len(title) <= HEADING_LENGTH else heading(Heading.QUESTION)
    framed = dressed(question, heading=line, done=0, steps=1, theme=theme)
    poster = replace(framed, entries=tuple(entry for entry in framed.entries if entry.role != Role.PROGRESS))
    if draft:
        poster = replace(footed(poster, draft, theme), alt=f"{poster.alt} {draft}.")
    return poster if number is None else numbered(poster, published.number_line(number), theme)


def imprint_of(told: Lesson | Item, manners: Sequence[Manner], does: Collection[Does]) -> Imprint:
    """What is printed with the lesson."""
    about = published.about(manners, does)
    draft = draft_line(spoken_language().tag)
    if isinstance(told, Item):
        return Imprint(about=about, draft=draft)
    return Imprint(
        series=told.series.title if told.series else "",
        number=told.number,
        credit=told.credit or "",
        licence=told.licence or "",
        about=about,
        draft=draft,
    )
