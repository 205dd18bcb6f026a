"""A school's own slide file as the ground of a deck: its master, theme and page, without its slides."""

from __future__ import annotations

import itertools
import zipfile
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from pptx import Presentation
from pptx.enum.shapes import PP_PLACEHOLDER

from ...errors import Fault, OutputError
from ...plain_file import opened_plain
from .outside_links import drop_outside_links

if TYPE_CHECKING:
    from pptx.presentation import Presentation as Deck
    from pptx.slide import SlideLayout

__all__ = ["Rectangle", "check_template", "chosen_layout", "free_places", "no_use", "template_deck", "title_box"]

Rectangle = tuple[int, int, int, int]  # left, top, right, bottom in EMU

_TITLES = (PP_PLACEHOLDER.TITLE, PP_PLACEHOLDER.CENTER_TITLE, PP_PLACEHOLDER.VERTICAL_TITLE)
_FOOTERS = (PP_PLACEHOLDER.DATE, PP_PLACEHOLDER.FOOTER, PP_PLACEHOLDER.SLIDE_NUMBER)
_TITLE_ONLY = "titleOnly"  # how a layout says so in any language
_OPENING = ("title", "secHead")  # layouts of a front page or of a chapter: a title in the middle
_MARGIN = 0.03  # of the page's width
_GROUND = 0.5  # an ornament over more than this share of the page is its ground, not in anybody's way

_MOST_PARTS = 10_000
_MOST_BYTES = 300_000_000  # unpacked
_MOST_XML = 30_000_000  # unpacked; as a tree it takes some twenty times as much
_LOCKED = b"\xd0\xcf\x11\xe0"  # how a file starts that is locked with a password, or older than 2007
_MAIN = "application/vnd.openxmlformats-officedocument.presentationml.presentation.main+xml"
_SAVE = "open it in the program it comes from and save it as a presentation that ends in .pptx"


def template_deck(path: Path, *, keeps_links: bool = False) -> Deck:
    """The file as a deck without slides, with its master, layouts and page.

    keeps_links : whether what it fetches from elsewhere is kept
    Raises : OutputError where it is not a slide file, or has nothing to put a slide on
    """
    check_template(path)
    try:
        deck = Presentation(str(path))
        layouts = len(deck.slide_layouts)
        size = deck.slide_width, deck.slide_height
    except Exception as error:  # what is broken in a foreign file shows anywhere in the reader
        raise _refused(path, f"cannot be read as slides ({type(error).__name__})", _SAVE) from error
    if not layouts:
        raise _refused(path, "has no slide layout", "add a layout with a title to its master")
    if not all(size):
        raise _refused(path, "does not say how large its slides are", _SAVE)
    try:
        _empty(deck)
        if not keeps_links:
            drop_outside_links(deck)
    except Exception as error:
        raise _refused(path, f"cannot be read as slides ({type(error).__name__})", _SAVE) from error
    return deck


def chosen_layout(deck: Deck) -> SlideLayout:
    """The layout that suits a title over one picture: nothing but a title, or else as little besides as there is."""

    def unfit(layout: SlideLayout) -> tuple[bool, bool, bool, int]:
        kinds = [placeholder.placeholder_format.type for placeholder in layout.placeholders]
        kind = layout.element.get("type")
        more = sum(kind not in (*_TITLES, *_FOOTERS) for kind in kinds)
        return kind != _TITLE_ONLY, not any(kind in _TITLES for kind in kinds), kind in _OPENING, more

    return min(deck.slide_layouts, key=unfit)


def title_box(deck: Deck) -> Rectangle:
    """Where a slide's title stands whose layout has no place for one: along the upper edge."""
    width, height = int(deck.slide_width), int(deck.slide_height)
    return round(0.05 * width), round(0.03 * height), round(0.95 * width), round(0.15 * height)


def free_places(deck: Deck, layout: SlideLayout) -> Iterator[Rectangle]:
    """Every upright rectangle of the page that meets neither title, footers nor ornaments, as large as it can be.

    Left and right are where the master has its text, so that a picture lines up with a school's other slides.
    """
    width, height = int(deck.slide_width), int(deck.slide_height)
    margin = round(_MARGIN * width)
    left, right = margin, width - margin
    for placeholder in deck.slide_master.placeholders:
        box = _box(placeholder)
        if placeholder.placeholder_format.type == PP_PLACEHOLDER.BODY and box and box[2] - box[0] > 0.4 * width:
            left, right = max(0, box[0]), min(width, box[2])
    taken = list(_taken(deck, layout))
    lefts = sorted({left, *(box[2] for box in taken if left <= box[2] < right)})
    rights = sorted({right, *(box[0] for box in taken if left < box[0] <= right)})
    tops = sorted({margin, *(box[3] + margin // 2 for box in taken if box[3] < height)})
    bottoms = sorted({height - margin, *(box[1] - margin // 2 for box in taken if box[1] > 0)})
    for free in itertools.product(lefts, tops, rights, bottoms):
        if free[0] < free[2] and free[1] < free[3] and not any(_meet(free, box) for box in taken):
            yield free


def check_template(path: Path) -> None:
    """Whether the file is slides at all, without reading them.

    Raises : OutputError that says what it is instead, and what to do about it
    """
    try:
        with opened_plain(path) as file:
            start = file.read(len(_LOCKED))
    except OSError as error:
        raise _refused(path, f"cannot be read ({error.strerror})", "name a .pptx file that is there") from error
    if start == _LOCKED:
        raise _refused(path, "is locked with a password, or is a file of before 2007", _SAVE)
    try:
        with zipfile.ZipFile(path) as parts:
            _bounded(path, parts.infolist())
            kinds = parts.read("[Content_Types].xml").decode("utf-8", "replace")
    except OutputError:
        raise
    except Exception as error:  # what is broken in a foreign file shows anywhere in the reader
        raise _refused(path, "is not a slide file", _SAVE) from error
    if _MAIN in kinds:
        return
    if "presentationml.template" in kinds:
        raise _refused(path, "is a design template (.potx), from which slides are begun", _SAVE)
    if "macroEnabled" in kinds:
        raise _refused(path, "holds macros, which a deck cannot take over", _SAVE)
    if "presentationml.slideshow" in kinds:
        raise _refused(path, "is a slide show (.ppsx), to be played only", _SAVE)
    raise _refused(path, "is a file of another kind, not slides", "name a presentation that ends in .pptx")


def no_use(path: Path, error: Exception) -> OutputError:
    """Of a file whose fault shows only when slides are laid on it."""
    return _refused(path, f"is damaged: no slide can be laid on it ({type(error).__name__})", _SAVE)


def _bounded(path: Path, parts: Sequence[zipfile.ZipInfo]) -> None:
    """Refuse a file that would take much more memory than it seems to; no more of a part than it tells is unpacked."""
    xml = sum(part.file_size for part in parts if part.filename.endswith((".xml", ".rels", ".vml")))
    every = sum(part.file_size for part in parts)
    fix = "keep only the master and its layouts in it, with small pictures, and save it anew"
    if len(parts) > _MOST_PARTS:
        raise _refused(path, f"has more than {_MOST_PARTS:,} parts", fix)
    if every > _MOST_BYTES or xml > _MOST_XML:
        most = _MOST_BYTES if every > _MOST_BYTES else _MOST_XML
        what = "parts" if every > _MOST_BYTES else "text parts"
        raise _refused(path, f"is too large: its {what} come to more than {most // 1_000_000} MB unpacked", fix)


def _refused(path: Path, message: str, fix: str) -> OutputError:
    return OutputError(str(Fault(file=str(path), field="template", message=f"this file {message}", fix=fix)))


def _empty(deck: Deck) -> None:
    """Take out the slides, and what speaks of single slides: sections, shows of one's own."""
    slides = deck.slides._sldIdLst
    for slide_id in list(slides):
        deck.part.drop_rel(slide_id.rId)
        slides.remove(slide_id)
    for shows in deck.element.findall("{*}custShowLst"):
        deck.element.remove(shows)
    for extensions in deck.element.findall("{*}extLst"):
        for extension in list(extensions):
            if extension.find("{*}sectionLst") is not None:
                extensions.remove(extension)
        if not len(extensions):
            deck.element.remove(extensions)


def _taken(deck: Deck, layout: SlideLayout) -> Iterator[Rectangle]:
    """Where title, footers and ornaments of the layout lie, and ornaments of its master."""
    placed = [
        placeholder
        for placeholder in layout.placeholders
        if placeholder.placeholder_format.type in (*_TITLES, *_FOOTERS)
    ]
    if not any(placeholder.placeholder_format.type in _TITLES for placeholder in placed):
        yield title_box(deck)
    yield from filter(None, map(_box, placed))
    hidden = layout.element.get("showMasterSp") in ("0", "false")
    ground = _GROUND * deck.slide_width * deck.slide_height
    for shape in (*layout.shapes, *(() if hidden else layout.slide_master.shapes)):
        box = None if shape.is_placeholder else _box(shape)
        if box and (box[2] - box[0]) * (box[3] - box[1]) < ground:
            yield box


def _box(shape: Any) -> Rectangle | None:
    """The upright rectangle of a shape, None where it has none."""
    try:
        left, top, width, height = shape.left, shape.top, shape.width, shape.height
    except (AttributeError, KeyError, ValueError):
        return None
    if None in (left, top, width, height):
        return None
    return int(left), int(top), int(left + width), int(top + height)


def _meet(one: Rectangle, other: Rectangle) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]
