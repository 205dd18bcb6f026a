"""One slide: its title, the shapes of its picture in the order in which they are taught, its number."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import count
from typing import TYPE_CHECKING, Any
from xml.sax.saxutils import quoteattr

from pptx.dml.color import RGBColor
from pptx.enum.shapes import PP_PLACEHOLDER
from pptx.oxml import parse_xml

from ...figure.contrast import contrast_ratio
from ...figure.model import STAGE_WIDTH, Align, Entry, Figure, Label, Role, is_material
from ...frames.page import Page
from ...sentences import labels as words
from ...sentences.labels import slide_number_name
from ...typeface.faces import face
from .ground import Ground
from .grouping import gathered
from .markup import NAMESPACES, EmuBox, fill, identity, line, run, run_properties, text_body, transform
from .shapes import SIDES, SUBSTITUTE_SLACK, NativeShape, group_of, joined_alt, shape_of
from .template import title_box

if TYPE_CHECKING:
    from pptx.slide import Slide, SlideLayout

__all__ = ["add_slide", "heading_of"]

_TITLE_MARGIN = 0.4  # kept free beside a title
_TITLE_HEIGHT = 1.5  # of its box, in ems
_FIRST_SHAPE_ID = 10  # the title has a lower one
_NUMBER_BOX = ((14.4, 0.62), (15.6, 0.22))  # upper left and lower right corner, under all pictures
_NUMBER_SIZE = 0.24  # an em: 14.4 pt
_FIELD_ID = "{2C5E1B6A-93D0-4F7E-8A41-7D5C0B9E6F23}"


def add_slide(
    ground: Ground, figure: Figure, title: str, language: str, things: Mapping[tuple[str, str], str]
) -> Slide:
    """A slide at the end of the deck; its shapes are read in the order of the figure, the title first.

    things : as `Storyboard.things`
    """
    slide = ground.deck.slides.add_slide(ground.layout)
    tree = slide.shapes._spTree
    heading = heading_of(figure, title)
    if ground.paper is None:
        slide.background.fill.solid()
        slide.background.fill.fore_color.rgb = RGBColor.from_string(figure.background.removeprefix("#").upper())
        _own_title(slide.shapes.title, title, heading, ground.page, language)
    else:
        _schools_title(slide, ground, title, language)
    numbers = count(_FIRST_SHAPE_ID)
    for shape in _shapes(ground.laid_out(figure), figure.alt, language, ground.page, numbers, things):
        tree.append(_element(shape.xml))
    number = len(ground.deck.slides)
    if xml := _number(ground, number, next(numbers), heading.colour, language):
        tree.append(_element(xml))
    return slide


def heading_of(figure: Figure, text: str) -> Label:
    """The heading of the figure, or one where it has none, black or white as its background asks."""
    for entry in figure.entries:
        if isinstance(entry, Label) and entry.role == Role.HEADING:
            return entry
    colour = max(("#000000", "#FFFFFF"), key=lambda ink: contrast_ratio(ink, figure.background))
    return Label(id="heading", group="heading", role=Role.HEADING, text=text, at=(STAGE_WIDTH / 2, 8.3), size=0.5,
                 colour=colour, bold=True)  # fmt: skip


def _shapes(
    entries: Sequence[Entry],
    alt: str,
    language: str,
    page: Page,
    numbers: Iterator[int],
    things: Mapping[tuple[str, str], str],
) -> Iterator[NativeShape]:
    """The entries, one group shape a thing."""
    bearer = _bearer(entries)
    for group, members in gathered(entries):
        says = alt if bearer in members else ""
        number = next(numbers)
        name = _group_name(group, members, things)
        if len(members) == 1:
            says = says or (name if is_material(members[0].role) else "")
            members = [replace(members[0], alt=joined_alt(says, members[0].alt))]
        shapes = [shape for entry in members if (shape := shape_of(entry, next(numbers), language, page)) is not None]
        if len(members) > 1 and shapes:
            yield group_of(shapes, number, name, says=says or name)
        else:
            yield from shapes


def _bearer(entries: Sequence[Entry]) -> Entry | None:
    """The entry whose shape says what the whole picture shows: the table that all lies on, or else the first shape.

    A slide has no alternative text of its own. One shape that bears it, rather than a group round everything, leaves
    each piece to be moved and animated by itself.
    """
    shapes = [
        entry
        for entry in entries
        if entry.role != Role.PROGRESS and not isinstance(entry, Label) and entry.opacity > 0.0
    ]
    panels = [entry for entry in shapes if entry.role == Role.PANEL]
    return next(iter(panels or shapes), None)


def _own_title(placeholder: Any, text: str, like: Label, page: Page, language: str) -> None:
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
    half_high = _TITLE_HEIGHT * like.size / 2
    box = _box(page, (left, y + half_high), (right, y - half_high))
    placeholder.left, placeholder.top = box[0], box[1]
    placeholder.width, placeholder.height = box[2] - box[0], box[3] - box[1]
    looks = run_properties(size=page.length(size), colour=like.colour, bold=like.bold, language=language)
    body = _element(text_body(run(text, looks), side=SIDES[like.align], wraps=True))
    placeholder._element.replace(placeholder._element.txBody, body)


def _schools_title(slide: Slide, ground: Ground, text: str, language: str) -> None:
    """The words in the layout's own title, looking as the school has it; what else the layout asks for is left out."""
    for placeholder in list(slide.placeholders):
        if slide.shapes.title is None or placeholder.shape_id != slide.shapes.title.shape_id:
            placeholder._element.getparent().remove(placeholder._element)
    words = run(text, f'<a:rPr lang={quoteattr(language)} dirty="0"/>')
    body = f"<p:txBody><a:bodyPr/><a:lstStyle/><a:p>{words}</a:p></p:txBody>"
    title = slide.shapes.title
    if title is not None:
        title._element.replace(title._element.txBody, _element(body))
        return
    # A layout without a title: a slide has one all the same, and it looks as the master's titles do.
    slide.shapes._spTree.append(
        _element(
            f"<p:sp><p:nvSpPr>{identity(2, 'Title 1', '', decorative=False)}<p:cNvSpPr/>"
            f'<p:nvPr><p:ph type="title"/></p:nvPr></p:nvSpPr><p:spPr>{transform(title_box(ground.deck))}</p:spPr>'
            f"{body}</p:sp>"
        )
    )


def _number(ground: Ground, number: int, shape_id: int, colour: str, language: str) -> str:
    """The field with the slide's number, "" where a school's layout has no place for one."""
    place = _number_place(ground.layout)
    if place is None:
        return ""
    if ground.paper is None:
        looks = run_properties(size=ground.page.length(_NUMBER_SIZE), colour=colour, bold=False, language=language)
        where = transform(_box(ground.page, *_NUMBER_BOX)) + fill(None) + line(None) + "<a:effectLst/>"
        body = text_body(_field(number, looks), side="r", wraps=False)
    else:
        where = ""
        field = _field(number, f"<a:rPr lang={quoteattr(language)}/>")
        body = f"<p:txBody><a:bodyPr/><a:lstStyle/><a:p>{field}</a:p></p:txBody>"
    return (
        f"<p:sp><p:nvSpPr>{identity(shape_id, slide_number_name(), '', decorative=False)}"
        '<p:cNvSpPr><a:spLocks noGrp="1"/></p:cNvSpPr>'
        f'<p:nvPr><p:ph type="sldNum" sz="quarter" idx="{place}"/></p:nvPr></p:nvSpPr>'
        f"<p:spPr>{where}</p:spPr>{body}</p:sp>"
    )


def _field(number: int, looks: str) -> str:
    return f'<a:fld id="{_FIELD_ID}" type="slidenum">{looks}<a:t>{number}</a:t></a:fld>'


def _number_place(layout: SlideLayout) -> int | None:
    """The index of the layout's own placeholder for a number."""
    for placeholder in layout.placeholders:
        if placeholder.placeholder_format.type == PP_PLACEHOLDER.SLIDE_NUMBER:
            return int(placeholder.placeholder_format.idx)
    return None


def _box(page: Page, upper_left: tuple[float, float], lower_right: tuple[float, float]) -> EmuBox:
    (left, top), (right, bottom) = page.point(upper_left), page.point(lower_right)
    return round(left), round(top), round(right), round(bottom)


def _element(xml: str) -> Any:
    return parse_xml(xml.replace(">", f" {NAMESPACES}>", 1))


def _group_name(group: str, entries: Sequence[Entry], things: Mapping[tuple[str, str], str]) -> str:
    """The name of a group, told by what is in it; a group that no name is known for stays what it is."""
    subjects = (entry.subject for entry in entries if entry.subject is not None)
    own = next((subject for subject in subjects if subject.group == group), None)
    named = None
    if own is not None:
        material = next((entry.role for entry in entries if is_material(entry.role)), "")
        named = words.one_of_several(own.thing, own.name, material, things)
    return named or words.other_name(group) or group
