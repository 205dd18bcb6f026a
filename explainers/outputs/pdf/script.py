"""The recording script on paper."""

from __future__ import annotations

from ...sentences.read_out import script_title
from ...storyboard.timeline import Timeline
from ...words.messages import speaking
from ..shared.script_body import PAPER, SCRIPT_CSS, script_body
from .document import Pictures, page_css, page_html, pdf_bytes

__all__ = ["script_pdf"]


def script_pdf(timeline: Timeline) -> bytes:
    """Pages of A4, tagged as PDF/UA-1, with a bookmark a chapter; a cue stands on one page."""
    board = timeline.storyboard
    pictures = Pictures()
    with speaking(board.language):
        title = script_title(board.title)
        body = script_body(timeline, pictures.img)
        css = SCRIPT_CSS + _paper_css()
    html = page_html(title=title, language=board.language, css=css, body=body, author=board.imprint.credit)
    return pdf_bytes(html, pictures)


def _paper_css() -> str:
    return f"""{page_css(PAPER, type_pt=18.0)}
h1, h3 {{ bookmark-level: none }}
h2 {{ bookmark-level: 1 }}
.picture img {{ display: block; border: 0.25mm solid #000 }}
"""
