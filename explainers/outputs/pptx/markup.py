"""Words of DrawingML: fills, lines, paths and runs of text as XML, each complete in itself.

Whatever a slide program would otherwise take from the theme, the master or its own habits is said here: fill, line,
effects, spacing of paragraphs, capitals. Lengths are in EMU, y down.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from xml.sax.saxutils import escape, quoteattr

from ...frames.page import Page
from ...geometry.rigid_motion import Point, Ring
from ...typeface.faces import FAMILY

__all__ = [
    "NAMESPACES",
    "Contours",
    "EmuBox",
    "closed",
    "custom",
    "dots",
    "fill",
    "identity",
    "line",
    "opened",
    "preset",
    "run",
    "run_properties",
    "text_body",
    "transform",
]

NAMESPACES = (
    'xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main" '
    'xmlns:p="http://schemas.openxmlformats.org/presentationml/2006/main" '
    'xmlns:adec="http://schemas.microsoft.com/office/drawing/2017/decorative"'
)

_DECORATIVE = (
    '<a:extLst><a:ext uri="{C183D7F6-B498-43B3-948B-1728B52AA6E4}"><adec:decorative val="1"/></a:ext></a:extLst>'
)
_WHOLE = 100_000  # DrawingML counts shares in thousandths of a per cent
_EMU_A_TYPE_UNIT = 127  # sizes of type are in hundredths of a point

EmuBox = tuple[int, int, int, int]  # left, top, right, bottom
EmuPoint = tuple[int, int]
Contour = list[tuple[str, tuple[Point, ...]]]  # commands with their points on the stage


@dataclass(frozen=True, slots=True)
class Contours:
    """Contours drawn as one path of a shape."""

    contours: Sequence[Contour]
    filled: bool = True
    stroked: bool = True


def closed(ring: Ring) -> Contour:
    """A contour that comes back to where it starts."""
    return [*opened(ring), ("close", ())]


def opened(points: Sequence[Point]) -> Contour:
    """A contour with two ends."""
    return [("moveTo", (points[0],)), *(("lnTo", (point,)) for point in points[1:])]


def custom(box: EmuBox, page: Page, paths: Sequence[Contours]) -> str:
    """A shape of those paths in the box."""

    def place(point: Point) -> str:
        x, y = page.point(point)
        return f'<a:pt x="{round(x) - box[0]}" y="{round(y) - box[1]}"/>'

    drawn = []
    for path in paths:
        commands = "".join(
            f"<a:{verb}>{''.join(map(place, points))}</a:{verb}>" if points else f"<a:{verb}/>"
            for contour in path.contours
            for verb, points in contour
        )
        drawn.append(_path(box, commands, filled=path.filled, stroked=path.stroked))
    return _custom("".join(drawn))


def dots(box: EmuBox, centres: Sequence[EmuPoint], radius: int) -> str:
    """A shape of discs. Two half turns a disc: not every program draws a whole turn at once."""
    return _custom(
        _path(
            box,
            "".join(
                f'<a:moveTo><a:pt x="{x + radius - box[0]}" y="{y - box[1]}"/></a:moveTo>'
                f'<a:arcTo wR="{radius}" hR="{radius}" stAng="0" swAng="10800000"/>'
                f'<a:arcTo wR="{radius}" hR="{radius}" stAng="10800000" swAng="10800000"/><a:close/>'
                for x, y in centres
            ),
        )
    )


def preset(name: str, rounded: float = 0.0) -> str:
    """A shape that the format knows by name.

    rounded : of a "roundRect", radius over the shorter side
    """
    guide = f'<a:gd name="adj" fmla="val {round(rounded * _WHOLE)}"/>' if rounded else ""
    return f'<a:prstGeom prst="{name}"><a:avLst>{guide}</a:avLst></a:prstGeom>'


def transform(box: EmuBox, *, children: bool = False) -> str:
    """Where a shape lies; of a group, its members in the same coordinates."""
    off, ext = f'x="{box[0]}" y="{box[1]}"', f'cx="{box[2] - box[0]}" cy="{box[3] - box[1]}"'
    inner = f"<a:chOff {off}/><a:chExt {ext}/>" if children else ""
    return f"<a:xfrm><a:off {off}/><a:ext {ext}/>{inner}</a:xfrm>"


def identity(shape_id: int, name: str, alt: str, *, decorative: bool = True) -> str:
    """What a shape is called and says; one that says nothing is decoration, unless told otherwise."""
    said = f" descr={quoteattr(alt)}" if alt else ""
    extension = _DECORATIVE if decorative and not alt else ""
    return f'<p:cNvPr id="{shape_id}" name={quoteattr(name)}{said}>{extension}</p:cNvPr>'


def fill(colour: str | None, opacity: float = 1.0) -> str:
    """One colour, or nothing at all."""
    if colour is None:
        return "<a:noFill/>"
    alpha = f'<a:alpha val="{round(opacity * _WHOLE)}"/>' if opacity < 1.0 else ""
    return f'<a:solidFill><a:srgbClr val="{colour.removeprefix("#").upper()}">{alpha}</a:srgbClr></a:solidFill>'


def line(colour: str | None, width: float = 0.0, opacity: float = 1.0) -> str:
    """An unbroken line with round ends, or that there is none; `width` is in EMU."""
    if colour is None or width <= 0.0:
        return "<a:ln><a:noFill/></a:ln>"
    return (
        f'<a:ln w="{round(width)}" cap="rnd" cmpd="sng" algn="ctr">{fill(colour, opacity)}<a:prstDash val="solid"/>'
        '<a:round/><a:headEnd type="none"/><a:tailEnd type="none"/></a:ln>'
    )


def run_properties(*, size: float, colour: str, bold: bool, language: str, opacity: float = 1.0) -> str:
    """How a run of text looks; `size` is the em in EMU."""
    # 34: a sans serif of varied widths, so that what stands in for it on another machine is one, too.
    typefaces = "".join(
        f'<a:{script} typeface={quoteattr(FAMILY)} pitchFamily="34" charset="0"/>' for script in ("latin", "ea", "cs")
    )
    return (
        f'<a:rPr lang={quoteattr(language)} sz="{round(size / _EMU_A_TYPE_UNIT)}" b="{int(bold)}" i="0" u="none" '
        f'strike="noStrike" cap="none" spc="0" baseline="0" dirty="0"><a:ln><a:noFill/></a:ln>'
        f"{fill(colour, opacity)}<a:effectLst/>{typefaces}</a:rPr>"
    )


def paragraph(content: str, side: str) -> str:
    """A paragraph of runs, without the bullets, indents and gaps of anybody's master.

    side : "l", "ctr" or "r"
    """
    return (
        f'<a:p><a:pPr marL="0" marR="0" indent="0" algn="{side}" rtl="0"><a:lnSpc><a:spcPct val="{_WHOLE}"/></a:lnSpc>'
        '<a:spcBef><a:spcPts val="0"/></a:spcBef><a:spcAft><a:spcPts val="0"/></a:spcAft><a:buNone/></a:pPr>'
        f"{content}</a:p>"
    )


def text_body(content: str, *, side: str, wraps: bool) -> str:
    """The words of a shape: one paragraph, half way down its box, without margins, neither grown nor shrunk to fit."""
    wrap = "square" if wraps else "none"
    return (
        f'<p:txBody><a:bodyPr rot="0" vert="horz" wrap="{wrap}" lIns="0" tIns="0" rIns="0" bIns="0" numCol="1" '
        f'rtlCol="0" anchor="ctr" anchorCtr="0"><a:noAutofit/></a:bodyPr><a:lstStyle/>{paragraph(content, side)}'
        "</p:txBody>"
    )


def run(text: str, properties: str) -> str:
    """A run of text."""
    return f"<a:r>{properties}<a:t>{escape(text)}</a:t></a:r>"


def _custom(paths: str) -> str:
    return (
        '<a:custGeom><a:avLst/><a:gdLst/><a:ahLst/><a:cxnLst/><a:rect l="0" t="0" r="r" b="b"/>'
        f"<a:pathLst>{paths}</a:pathLst></a:custGeom>"
    )


def _path(box: EmuBox, commands: str, *, filled: bool = True, stroked: bool = True) -> str:
    no_fill = "" if filled else ' fill="none"'
    no_stroke = "" if stroked else ' stroke="0"'
    return f'<a:path w="{box[2] - box[0]}" h="{box[3] - box[1]}"{no_fill}{no_stroke}>{commands}</a:path>'
