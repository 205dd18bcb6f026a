"""The recording script: what to say, in how many seconds, over which picture; a page to read from, and one to print."""

from __future__ import annotations

from pathlib import Path

from ..drawing.svg import svg_of
from ..figure.paper import Picture
from ..safe_write import write_files
from ..storyboard.timeline import Timeline
from ..typeface.carried import FAMILIES
from ..wording.read_out import script_title
from ..words.messages import speaking
from .pdf_document import Pictures, page_html, pdf_bytes
from .pdf_page import page_css
from .script_body import LINE_HEIGHT, PAPER, PICTURE_MM, SIZES_PT, script_body
from .sealed_page import inline_svg, sealed_head

__all__ = ["script_html", "script_pdf", "write_script"]

_PX_PER_MM = 96.0 / 25.4


def write_script(timeline: Timeline, folder: Path) -> tuple[Path, ...]:
    """NAME.script.html and NAME.script.pdf in the folder; both or none.

    Raises : OutputError where they cannot be written, FontError for a character that the typeface lacks
    """
    name = timeline.storyboard.name
    files: dict[str, bytes | str] = {
        f"{name}.script.html": script_html(timeline),
        f"{name}.script.pdf": script_pdf(timeline),
    }
    return write_files(folder, files)


def script_html(timeline: Timeline) -> str:
    """A page with its pictures in it, which runs and fetches nothing."""
    board = timeline.storyboard
    css = _CSS + _SCREEN_CSS
    with speaking(board.language):
        body, title = script_body(timeline, _inline), script_title(board.title)
    head = sealed_head(language=board.language, title=title, shown=body, style=css)
    return f"{head}\n<body><main>\n{body}\n</main></body></html>\n"


def script_pdf(timeline: Timeline) -> bytes:
    """Pages of A4, tagged as PDF/UA-1, with a bookmark a chapter; a cue stands on one page."""
    board = timeline.storyboard
    pictures = Pictures()
    with speaking(board.language):
        title = script_title(board.title)
        body = script_body(timeline, pictures.img)
        css = _CSS + _paper_css()
    html = page_html(title=title, language=board.language, css=css, body=body, author=board.imprint.credit)
    return pdf_bytes(html, pictures)


def _inline(picture: Picture) -> str:
    svg = svg_of(picture.figure, width_px=round(PICTURE_MM * _PX_PER_MM), ids=False, box=picture.box)
    return inline_svg(svg)


_CSS = f"""
html {{ font: 18pt/{LINE_HEIGHT} {FAMILIES}; color: #000; background: #fff }}
body, h1, h2, h3, p {{ margin: 0; padding: 0 }}
h1 {{ font-size: 26pt; line-height: 1.2; margin-bottom: 3mm }}
h2 {{ font-size: 22pt; line-height: 1.2; margin-top: 8mm; break-after: avoid }}
h3 {{ font-size: 20pt; line-height: 1.2; margin-bottom: 2mm; break-after: avoid }}
.cue {{ break-inside: avoid; margin-top: 5mm; padding-top: 3mm; border-top: 0.5mm solid #000 }}
.top {{ display: flex; gap: 5mm; margin-bottom: 2mm }}
.picture {{ flex: none; width: {PICTURE_MM}mm }}
.about {{ flex: 1; min-width: 0; line-height: 1.25; overflow-wrap: anywhere }}
.line {{ font-size: {SIZES_PT[0]:g}pt; margin-top: 1.5mm }}
.long .line {{ font-size: {SIZES_PT[1]:g}pt }}
.wait {{ margin-top: 1.5mm; padding-left: 4mm; border-left: 1.2mm solid #000; font-weight: bold }}
"""

_SCREEN_CSS = """
main { max-width: 180mm; margin: 0 auto; padding: 6mm 4mm }
.picture svg { display: block; width: 100%; height: auto; border: 1px solid #000; box-sizing: border-box }
@page { size: A4; margin: 14mm 15mm }
@media print { main { max-width: none; padding: 0 } }
@media (max-width: 40rem) { .top { display: block } }
"""


def _paper_css() -> str:
    return f"""{page_css(PAPER, type_pt=18.0)}
h1, h3 {{ bookmark-level: none }}
h2 {{ bookmark-level: 1 }}
.picture img {{ display: block; border: 0.25mm solid #000 }}
"""
