"""The deck of a lesson: a slide a step or an idea, of shapes that a teacher can edit, what is said in the notes.

It is made in small steps: ``deck_ground`` says what it is laid on (``deck_template`` reads a school's file),
``deck_slide`` makes one slide, ``deck_sections`` and ``deck_package`` finish the file; ``pptx_shapes`` turns an entry
of a figure into a shape with the words of ``pptx_markup``.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby
from pathlib import Path
from typing import TYPE_CHECKING

from ...errors import ExplainersError, Fault, OutputError
from ...safe_write import write_bytes
from ...sentences import writers
from ...sentences.published import credit_lines, series_line
from ...storyboard.ideas import ideas
from ...storyboard.model import Step
from ...storyboard.timeline import Timeline
from ...words.messages import speaking
from ..shared.said_below import slide_picture
from ..shared.steps import with_dividers
from .ground import own_ground, school_ground
from .package import describe, drop_makers, lay_sections, steady_bytes
from .slide import add_slide, heading_of
from .template import no_use

if TYPE_CHECKING:
    from pptx.slide import Slide

__all__ = ["EVERY_STEP", "ONE_PER_IDEA", "check_slides", "write_deck"]

EVERY_STEP = "every-step"
ONE_PER_IDEA = "one-per-idea"


def write_deck(
    timeline: Timeline,
    folder: Path,
    *,
    template: Path | None = None,
    keeps_links: bool = False,
    slides: str = EVERY_STEP,
) -> tuple[Path, ...]:
    """NAME.pptx in the folder, in sections of a chapter each.

    template    : a school's slide file, on whose master the slides are laid; our own look without one
    keeps_links : whether what that file fetches from elsewhere reaches the deck
    slides      : EVERY_STEP, or ONE_PER_IDEA: what the last step of an idea shows, with all that is said in it
    Raises      : OutputError where the file cannot be written or the template is of no use, FontError for a character
                  that the typeface lacks
    """
    check_slides(slides)
    with speaking(timeline.storyboard.language, timeline.storyboard.verbs):
        try:
            data = _bytes(timeline, template, slides, keeps_links)
        except ExplainersError:
            raise
        except Exception as error:
            if template is None:
                raise
            raise no_use(template, error) from error
        return (write_bytes(folder / f"{timeline.storyboard.name}.pptx", data),)


def check_slides(slides: str) -> None:
    """Whether that is a way of giving slides to steps.

    Raises : OutputError where it is not
    """
    if slides not in (EVERY_STEP, ONE_PER_IDEA):
        raise OutputError(f"--slides {slides}: there is no such deck. To mend it: write {EVERY_STEP} or {ONE_PER_IDEA}")


def _bytes(timeline: Timeline, template: Path | None, slides: str, keeps_links: bool) -> bytes:
    storyboard = timeline.storyboard
    steps = with_dividers(storyboard.steps)
    rows = ideas(steps) if slides == ONE_PER_IDEA else tuple((step,) for step in steps)
    figures = [slide_picture(row[-1]) for row in rows]
    if template is None:
        ink = heading_of(figures[0], rows[0][-1].heading).colour
        ground = own_ground(figures[0].background, ink)
    else:
        ground = school_ground(template, figures, keeps_links=keeps_links)
    deck = ground.deck
    drop_makers(deck)
    imprint = storyboard.imprint
    describe(
        deck,
        title=storyboard.title,
        language=storyboard.language,
        author=imprint.credit,
        subject=series_line(imprint.series, imprint.number),
        comments="\n".join((*credit_lines("", imprint.licence), *([imprint.draft] if imprint.draft else []))),
    )
    for row, figure in zip(rows, figures, strict=True):
        slide = add_slide(ground, figure, row[-1].heading, storyboard.language, storyboard.things)
        if slide.notes_slide.notes_text_frame is None:  # a school's notes may have a picture of the slide alone
            message, fix = "the notes of this file have no place for words", "add a text box to its notes master"
            raise OutputError(str(Fault(file=str(template), field="template", message=message, fix=fix)))
        _write_notes(slide, _notes(row, timeline), storyboard.language)
    lay_sections(deck, [(title, len(list(run))) for title, run in groupby(row[-1].chapter for row in rows)])
    return steady_bytes(deck)


def _write_notes(slide: Slide, lines: Iterator[str], language: str) -> None:
    frame = slide.notes_slide.notes_text_frame
    frame.text = "\n".join(lines)
    for paragraph in frame.paragraphs:
        for run in paragraph.runs:
            run._r.get_or_add_rPr().set("lang", language)


def _notes(row: Sequence[Step], timeline: Timeline) -> Iterator[str]:
    """What is said, then what the teacher may do, step by step; then when it happens in the clip."""
    for step in row:
        if step.narration:
            said = " ".join(step.narration)
            yield writers.own_words(said) if step.teachers_own else said
        if step.pause_s > 0.0:
            yield writers.pause_note(step.pause_s)
        if step.note:
            yield step.note
    ids = [step.id for step in timeline.storyboard.steps]
    if row[0].id not in ids:  # a card is on a slide of its own only here
        yield row[0].picture.alt
        return
    start, end = timeline.step_span(row[0].id)[0], timeline.step_span(row[-1].id)[1]
    yield writers.in_the_clip(_minutes(start / timeline.fps), _minutes(end / timeline.fps))


def _minutes(seconds: float) -> str:
    minutes, rest = divmod(round(seconds), 60)
    return f"{minutes}:{rest:02d}"
