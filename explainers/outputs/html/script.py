"""The recording script as a page to read from, on whatever screen stands beside the microphone."""

from __future__ import annotations

from ...drawing.svg import svg_of
from ...figure.paper import Picture
from ...sentences.read_out import script_title
from ...storyboard.timeline import Timeline
from ...words.messages import speaking
from ..shared.script_body import PICTURE_MM, SCRIPT_CSS, script_body
from .sealed_page import inline_svg, sealed_head

__all__ = ["script_html"]

_PX_PER_MM = 96.0 / 25.4

_SCREEN_CSS = """
main { max-width: 180mm; margin: 0 auto; padding: 6mm 4mm }
.picture svg { display: block; width: 100%; height: auto; border: 1px solid #000; box-sizing: border-box }
@page { size: A4; margin: 14mm 15mm }
@media print { main { max-width: none; padding: 0 } }
@media (max-width: 40rem) { .top { display: block } }
"""


def script_html(timeline: Timeline) -> str:
    """A page with its pictures in it, which runs and fetches nothing."""
    board = timeline.storyboard
    css = SCRIPT_CSS + _SCREEN_CSS
    with speaking(board.language):
        body, title = script_body(timeline, _inline), script_title(board.title)
    head = sealed_head(language=board.language, title=title, shown=body, style=css)
    return f"{head}\n<body><main>\n{body}\n</main></body></html>\n"


def _inline(picture: Picture) -> str:
    svg = svg_of(picture.figure, width_px=round(PICTURE_MM * _PX_PER_MM), ids=False, box=picture.box)
    return inline_svg(svg)
