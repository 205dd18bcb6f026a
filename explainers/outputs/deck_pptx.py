"""The deck of a lesson: a slide a step, of shapes that a teacher can edit, with what is said in the notes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import count, groupby
from pathlib import Path
from typing import TYPE_CHECKING
from xml.sax.saxutils import escape

from pptx.dml.color import RGBColor
from pptx.oxml import parse_xml

from ..figure.contrast import contrast_ratio
from ..figure.model import STAGE_WIDTH, Align, Entry, Figure, Label, Role
from ..frames.page import SLIDE_EMU
from ..safe_write import write_bytes
from ..storyboard.model import Step
from ..storyboard.timeline import Timeline
from ..typeface.faces import face
from ..wording import writers
from ..wording.messages import speaking
from ..wording.published import credit_lines, series_line
from .deck_blank import blank_deck, steady_bytes, title_layout
from .pptx_shapes import NAMESPACES, SUBSTITUTE_SLACK, Shape, group_of, joined_alt, run_properties, shape_of

if TYPE_CHECKING:
    from pptx.slide import Slide

__all__ = ["write_deck"]

_TITLE_MARGIN = 0.4  # kept free beside a title
_TITLE_HEIGHT = 1.5  # of its box, in ems
_FIRST_SHAPE_ID = 10  # the title has a lower one


def write_deck(timeline: Timeline, folder: Path) -> tuple[Path, ...]:
    """NAME.pptx in the folder, one slide for each step of the storyboard.

    Raises : OutputError where the file cannot be written, FontError for a character that the typeface lacks
    """
    with speaking(timeline.storyboard.language):
        return _written(timeline, folder)


def _written(timeline: Timeline, folder: Path) -> tuple[Path, ...]:
    storyboard = timeline.storyboard
    imprint = storyboard.imprint
    deck = blank_deck(
        title=storyboard.title,
        language=storyboard.language,
        paper=storyboard.steps[0].picture.background,
        ink=_heading(storyboard.steps[0]).colour,
        author=imprint.credit,
        subject=series_line(imprint.series, imprint.number),
        comments="\n".join((*credit_lines("", imprint.licence), *([imprint.draft] if imprint.draft else []))),
    )
    layout = title_layout(deck)
    for step in storyboard.steps:
        slide = deck.slides.add_slide(layout)
        _fill(slide, step, storyboard.language)
        slide.notes_slide.notes_text_frame.text = "\n".join(_notes(step, timeline))
    return (write_bytes(folder / f"{storyboard.name}.pptx", steady_bytes(deck)),)


def _picture_of(step: Step) -> Figure:
    """What the slide shows: what the step ends in, but of a pause the clock that has not yet run down."""
    return step.stills[0] if step.pause_s > 0.0 else step.picture


def _fill(slide: Slide, step: Step, language: str) -> None:
    figure = _picture_of(step)
    slide.background.fill.solid()
    slide.background.fill.fore_color.rgb = RGBColor.from_string(figure.background.removeprefix("#").upper())
    _title(slide, step.heading, _heading(step), language)
    tree = slide.shapes._spTree
    for shape in _shapes(figure, language):
        tree.append(parse_xml(shape.xml.replace(">", f" {NAMESPACES}>", 1)))


def _shapes(figure: Figure, language: str) -> Iterator[Shape]:
    """The entries in their order; neighbours of one group stand in one group shape."""
    numbers = count(_FIRST_SHAPE_ID)
    bearer = _bearer(figure)
    drawn = (entry for entry in figure.entries if entry.role is not Role.HEADING)
    for group, run in groupby(drawn, key=lambda entry: entry.group):
        entries = list(run)
        says = figure.alt if bearer in entries else ""
        number = next(numbers)
        if says and len(entries) == 1:
            entries = [replace(entries[0], alt=joined_alt(says, entries[0].alt))]
        shapes = [shape for entry in entries if (shape := shape_of(entry, next(numbers), language)) is not None]
        if len(entries) > 1 and shapes:
            yield group_of(shapes, number, group, says=says)
        else:
            yield from shapes


def _bearer(figure: Figure) -> Entry | None:
    """The entry whose shape says what the whole picture shows: the table that all lies on, or else the first shape.

    A slide has no alternative text of its own. One shape that bears it, rather than a group round everything, leaves
    each piece to be moved and animated by itself.
    """
    shapes = [
        entry
        for entry in figure.entries
        if entry.role not in (Role.HEADING, Role.PROGRESS) and not isinstance(entry, Label) and entry.opacity > 0.0
    ]
    panels = [entry for entry in shapes if entry.role is Role.PANEL]
    return next(iter(panels or shapes), None)


def _heading(step: Step) -> Label:
    """The heading of the slide's figure, or one where it has none, black or white as its background asks."""
    figure = _picture_of(step)
    for entry in figure.entries:
        if isinstance(entry, Label) and entry.role is Role.HEADING:
            return entry
    colour = max(("#000000", "#FFFFFF"), key=lambda ink: contrast_ratio(ink, figure.background))
    return Label(id="heading", group="heading", role=Role.HEADING, text=step.heading, at=(STAGE_WIDTH / 2, 8.3),
                 size=0.5, colour=colour, bold=True)  # fmt: skip


def _title(slide: Slide, text: str, like: Label, language: str) -> None:
    """The words in the slide's title placeholder, where and as the figure shows its heading."""
    x, y = like.at
    if like.align is Align.MIDDLE:
        half = min(x, STAGE_WIDTH - x) - _TITLE_MARGIN
        left, right = x - half, x + half
    elif like.align is Align.START:
        left, right = x, STAGE_WIDTH - _TITLE_MARGIN
    else:
        left, right = _TITLE_MARGIN, x
    needed = SUBSTITUTE_SLACK * face(like.bold).width(text, 1.0)
    size = min(like.size, (right - left) / needed) if needed > 0.0 else like.size
    top_left, bottom_right = (left, y + _TITLE_HEIGHT * like.size / 2), (right, y - _TITLE_HEIGHT * like.size / 2)
    placeholder = slide.shapes.title
    (placeholder.left, placeholder.top), (far_x, far_y) = (
        tuple(round(value) for value in SLIDE_EMU.point(point)) for point in (top_left, bottom_right)
    )
    placeholder.width, placeholder.height = far_x - placeholder.left, far_y - placeholder.top
    side = {Align.START: "l", Align.MIDDLE: "ctr", Align.END: "r"}[like.align]
    run = run_properties(size=size, colour=like.colour, bold=like.bold, language=language)
    body = parse_xml(
        f'<p:txBody {NAMESPACES}><a:bodyPr wrap="square" lIns="0" tIns="0" rIns="0" bIns="0" anchor="ctr">'
        f'<a:noAutofit/></a:bodyPr><a:lstStyle/><a:p><a:pPr algn="{side}"/>'
        f"<a:r>{run}<a:t>{escape(text)}</a:t></a:r></a:p></p:txBody>"
    )
    placeholder._element.replace(placeholder._element.txBody, body)


def _notes(step: Step, timeline: Timeline) -> Iterator[str]:
    """What is said, then what the teacher may do, then when it happens in the clip."""
    if step.narration:
        said = " ".join(step.narration)
        yield writers.own_words(said) if step.teachers_own else said
    if step.pause_s > 0.0:
        yield writers.pause_note(step.pause_s)
    if step.note:
        yield step.note
    start, end = (_minutes(frame / timeline.fps) for frame in timeline.step_span(step.id))
    yield writers.in_the_clip(start, end)


def _minutes(seconds: float) -> str:
    minutes, rest = divmod(round(seconds), 60)
    return f"{minutes}:{rest:02d}"
