"""Slide files as a school might have them, made by hand: not ours in page, theme, layouts or ornaments."""

from __future__ import annotations

import re
from pathlib import Path

from pptx import Presentation
from pptx.dml.color import RGBColor
from pptx.oxml import parse_xml
from pptx.util import Emu

__all__ = ["ORNAMENTS", "school_template"]

_NAMESPACES = (
    'xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main" '
    'xmlns:p="http://schemas.openxmlformats.org/presentationml/2006/main"'
)
_INCH = 914_400
# Left, top, right, bottom as shares of the page: a bar along the left edge, a badge in the upper right corner.
ORNAMENTS = ((0.0, 0.0, 0.03, 1.0), (0.88, 0.02, 0.99, 0.14))
_PAPER = "14382E"


def school_template(path: Path, *, wide: bool) -> Path:
    """A dark slide file with slides of its own, 16:9 or 4:3, whose text has bullets, gaps and capitals by default."""
    deck = Presentation()
    if wide:
        _widen(deck, round(13.333 * _INCH))
    first = deck.slides.add_slide(deck.slide_layouts[0])
    first.shapes.title.text = "Minutes of the staff meeting"
    first.notes_slide.notes_text_frame.text = "Not for learners"
    master = deck.slide_master
    master.background.fill.solid()
    master.background.fill.fore_color.rgb = RGBColor.from_string(_PAPER)
    colours = master.element.find("{*}clrMap")
    for key, value in (("bg1", "dk1"), ("tx1", "lt1"), ("bg2", "dk2"), ("tx2", "lt2")):
        colours.set(key, value)
    for number, (left, top, right, bottom) in enumerate(ORNAMENTS, start=90):
        x, y = round(left * deck.slide_width), round(top * deck.slide_height)
        across, down = round((right - left) * deck.slide_width), round((bottom - top) * deck.slide_height)
        master.shapes._spTree.append(
            parse_xml(
                f'<p:sp {_NAMESPACES}><p:nvSpPr><p:cNvPr id="{number}" name="ornament {number}"/><p:cNvSpPr/>'
                f'<p:nvPr userDrawn="1"/></p:nvSpPr><p:spPr><a:xfrm><a:off x="{x}" y="{y}"/>'
                f'<a:ext cx="{across}" cy="{down}"/></a:xfrm><a:prstGeom prst="rect"><a:avLst/></a:prstGeom>'
                '<a:solidFill><a:srgbClr val="E0A030"/></a:solidFill></p:spPr></p:sp>'
            )
        )
    _unlike_ours(deck)
    deck.core_properties.author = "A. Clerk"
    deck.core_properties.keywords = "staff"
    deck.save(str(path))
    return path


def _widen(deck: Presentation, width: int) -> None:  # type: ignore[valid-type]
    factor = width / deck.slide_width
    deck.slide_width = Emu(width)
    for owner in (deck.slide_master, *deck.slide_layouts):
        for placeholder in owner.placeholders:
            if placeholder._element.spPr.find("{*}xfrm") is not None:
                placeholder.left, placeholder.width = (
                    Emu(round(length * factor)) for length in (placeholder.left, placeholder.width)
                )


def _unlike_ours(deck: Presentation) -> None:  # type: ignore[valid-type]
    """Text that is of nobody's making is in spaced capitals, indented, with gaps: what must not leak into a figure."""
    styles = deck.element.find("{*}defaultTextStyle")
    for level in styles.iter("{http://schemas.openxmlformats.org/drawingml/2006/main}lvl1pPr"):
        level.set("marL", "457200")
        level.insert(
            0,
            parse_xml(f'<a:spcBef {_NAMESPACES}><a:spcPts val="3000"/></a:spcBef>'),
        )
        for run in level.iter("{http://schemas.openxmlformats.org/drawingml/2006/main}defRPr"):
            for key, value in (("cap", "all"), ("spc", "600"), ("i", "1"), ("u", "sng")):
                run.set(key, value)
    # A theme whose shapes have shadows.
    for part in deck.part.package.iter_parts():
        if part.partname.startswith("/ppt/theme/"):
            shadow = (
                b'<a:effectStyle><a:effectLst><a:outerShdw blurRad="90000" dist="90000"><a:srgbClr val="FF0000"/>'
                b"</a:outerShdw></a:effectLst></a:effectStyle>"
            )
            part._blob = re.sub(rb"<a:effectStyle>.*?</a:effectStyle>", shadow, part.blob, flags=re.DOTALL)
