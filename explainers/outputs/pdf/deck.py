"""The deck as a PDF file: a step a page, 16 to 9, its words where the clip has its captions."""

from __future__ import annotations

from html import escape
from pathlib import Path

from ...figure.layout import MARGIN, Box
from ...figure.model import CAPTION_TOP, STAGE_HEIGHT, STAGE_WIDTH, Label
from ...figure.paper import MM_PER_PT, Picture, wrapped_lines
from ...safe_write import write_bytes
from ...storyboard.timeline import Timeline
from ...typeface.faces import FAMILY
from ...words.messages import speaking
from ..shared.steps import bookmark, heading_label, picture_of, step_heading, terms_of, undecorated
from .document import Pictures, page_html, pdf_bytes

__all__ = ["write_pdf_deck"]

_MM = 25.4 * 40.0 / 3.0 / STAGE_WIDTH  # of a stage unit: a page is 13 1/3 inches wide, as a slide is
_STAGE = Box(0.0, 0.0, STAGE_WIDTH, STAGE_HEIGHT)
_SIZES_PT = (22.0, 20.0, 18.0, 16.0, 14.0, 12.0, 11.0)  # the largest at which the words have room is taken
_LINE = 1.25
_WORDS_MM = CAPTION_TOP * _MM - 4.0
_DRAFT_MM = 7.0  # at the foot of the first page, where the language is a draft


def write_pdf_deck(timeline: Timeline, folder: Path) -> tuple[Path, ...]:
    """NAME.pdf in the folder, tagged as PDF/UA-1, with a bookmark a chapter and under it one a step.

    Raises : OutputError where it cannot be written, FontError for a character that the typeface lacks
    """
    board = timeline.storyboard
    pictures = Pictures()
    pages, chapter = [], ""
    for number, step in enumerate(board.steps):
        figure = picture_of(step)
        label = heading_label(figure)
        picture = Picture(figure=undecorated(figure, heading_only=True), box=_STAGE, mm_per_unit=_MM)
        words = " ".join(step.narration)
        on_card = any(isinstance(entry, Label) and entry.text == board.imprint.draft for entry in figure.entries)
        draft = board.imprint.draft if number == 0 and not on_card else ""
        drafted = f'<p class="draft">{escape(draft)}</p>' if draft else ""
        size = label.size * _MM / MM_PER_PT if label else 24.0
        colours = f"color:{label.colour if label else '#000000'};background:{figure.background}"
        starts = step.chapter != chapter
        pages.append(
            f'<section class="slide{" chapter" if starts else ""}" style="{colours}"'
            f"{bookmark(step.chapter if starts else '')}>"
            f"{step_heading(step, first=number == 0, style=f'font-size:{size:.2f}pt')}{pictures.img(picture)}"
            f'<p style="font-size:{_size_of(words, _DRAFT_MM if draft else 0.0):g}pt">{escape(words)}</p>'
            f"{drafted}</section>"
        )
        chapter = step.chapter
    with speaking(board.language):
        terms = terms_of(board.imprint)
    html = page_html(
        title=board.title,
        language=board.language,
        css=_CSS,
        body="".join(pages),
        author=board.imprint.credit,
        about=terms,
    )
    return (write_bytes(folder / f"{board.name}.pdf", pdf_bytes(html, pictures)),)


def _size_of(words: str, kept_mm: float) -> float:
    """The size of type at which the words of a step have room under its picture, so much kept free at the foot."""
    width = (STAGE_WIDTH - 2 * MARGIN) * _MM
    for size in _SIZES_PT:
        if wrapped_lines(words, size * MM_PER_PT, width) * size * _LINE * MM_PER_PT <= _WORDS_MM - kept_mm:
            return size
    return _SIZES_PT[-1]


_CSS = f"""
@page {{ size: {STAGE_WIDTH * _MM:.4f}mm {STAGE_HEIGHT * _MM:.4f}mm; margin: 0 }}
html {{ font-family: "{FAMILY}"; line-height: {_LINE} }}
body, h1, h2, p {{ margin: 0; padding: 0 }}
.slide {{ position: relative; width: {STAGE_WIDTH * _MM:.4f}mm; height: {STAGE_HEIGHT * _MM - 0.01:.4f}mm;
  break-after: page; overflow: hidden }}
.slide:last-child {{ break-after: auto }}
.slide h1, .slide h2 {{ position: absolute; z-index: 2; left: {MARGIN * _MM:.3f}mm; top: {0.42 * _MM:.3f}mm;
  line-height: {0.68 * _MM:.3f}mm }}
.slide img {{ position: absolute; z-index: 1; left: 0; top: 0 }}
.slide p {{ position: absolute; z-index: 2; left: {MARGIN * _MM:.3f}mm; right: {MARGIN * _MM:.3f}mm;
  top: {(STAGE_HEIGHT - CAPTION_TOP) * _MM + 1.0:.3f}mm }}
.slide p.draft {{ top: auto; bottom: 3mm; font-size: 11pt }}
.chapter {{ bookmark-level: 1; bookmark-label: attr(data-chapter) }}
h1, h2 {{ bookmark-level: 2 }}
"""
