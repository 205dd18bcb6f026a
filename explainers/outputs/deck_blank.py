"""An empty slide deck of our own: 16:9, one layout with a title, our typeface, nothing of the template's maker."""

from __future__ import annotations

import datetime
import io
import re
import zipfile
from typing import TYPE_CHECKING, Any

from pptx import Presentation
from pptx.util import Emu

from ..figure.contrast import relative_luminance
from ..frames.page import SLIDE_EMU
from ..typeface.faces import FAMILY

if TYPE_CHECKING:
    from pptx.presentation import Presentation as Deck
    from pptx.slide import SlideLayout

__all__ = ["blank_deck", "steady_bytes", "title_layout"]

# Every deck bears one date, so that the same lesson gives the same bytes.
_ONE_DATE = datetime.datetime(2000, 1, 1, tzinfo=datetime.UTC)
_ZIP_DATE = (1980, 1, 1, 0, 0, 0)  # the first date that a zip file can hold

_LAYOUT = "Title Only"
_DROPPED = ("/thumbnail", "/printerSettings")  # a picture and a printer of whoever made the template
_APP_PROPERTIES = (
    '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'
    '<Properties xmlns="http://schemas.openxmlformats.org/officeDocument/2006/extended-properties">'
    "<PresentationFormat>Widescreen</PresentationFormat></Properties>"
)


def blank_deck(
    *,
    title: str,
    language: str,
    paper: str = "#FFFFFF",
    ink: str = "#000000",
    author: str = "",
    subject: str = "",
    comments: str = "",
) -> Deck:
    """A deck without slides; its only layout is ``title_layout(deck)``.

    paper, ink : background and text of what a teacher adds to it
    The other words are what the file says of itself, in its properties.
    """
    deck = Presentation()
    _widen(deck)
    for layout in list(deck.slide_layouts):
        if layout.name != _LAYOUT:
            deck.slide_layouts.remove(layout)
    package = deck.part.package
    for relations in (package._rels, deck.part.rels):
        for relation_id, relation in list(relations.items()):
            if relation.reltype.endswith(_DROPPED):
                relations.pop(relation_id)
    for part in package.iter_parts():
        if part.partname == "/docProps/app.xml":
            part._blob = _APP_PROPERTIES.encode()
        elif part.partname.startswith("/ppt/theme/"):
            part._blob = part.blob.replace(b'<a:latin typeface="Calibri"/>', f'<a:latin typeface="{FAMILY}"/>'.encode())
    _describe(deck.core_properties, title=title, language=language)
    _colour(deck, paper, ink)
    deck.core_properties.author = author
    deck.core_properties.subject = subject
    deck.core_properties.comments = comments
    return deck


def title_layout(deck: Deck) -> SlideLayout:
    """The layout that holds nothing but a title."""
    return deck.slide_layouts.get_by_name(_LAYOUT)


def steady_bytes(deck: Deck) -> bytes:
    """The deck as a file; the same deck gives the same bytes at any time."""
    saved = io.BytesIO()
    deck.save(saved)
    steady = io.BytesIO()
    with zipfile.ZipFile(saved) as parts, zipfile.ZipFile(steady, "w", zipfile.ZIP_DEFLATED) as copy:
        for name in parts.namelist():
            entry = zipfile.ZipInfo(name, date_time=_ZIP_DATE)
            entry.compress_type = zipfile.ZIP_DEFLATED
            entry.external_attr = 0o600 << 16
            copy.writestr(entry, parts.read(name))
    return steady.getvalue()


def _widen(deck: Deck) -> None:
    """From the template's 4:3 to 16:9, with the placeholders of master and layouts in their places across the page."""
    wider = SLIDE_EMU.width / deck.slide_width
    deck.slide_width, deck.slide_height = Emu(round(SLIDE_EMU.width)), Emu(round(SLIDE_EMU.height))
    deck.element.find("{*}sldSz").attrib.pop("type", None)  # it says "screen4x3"
    for placeholder in deck.slide_master.placeholders:
        placeholder.left = Emu(round(placeholder.left * wider))
        placeholder.width = Emu(round(placeholder.width * wider))


def _colour(deck: Deck, paper: str, ink: str) -> None:
    """Background and text of the master, by way of the deck's own dark and light, as slide programs expect it."""
    on_dark = relative_luminance(paper) < relative_luminance(ink)
    dark, light = (paper, ink) if on_dark else (ink, paper)
    for part in deck.part.package.iter_parts():
        if part.partname.startswith("/ppt/theme/"):
            blob = part.blob
            for name, colour in ((b"dk1", dark), (b"lt1", light)):
                own = b'<a:%s><a:srgbClr val="%s"/></a:%s>' % (name, colour.removeprefix("#").upper().encode(), name)
                blob = re.sub(b"<a:%s>.*?</a:%s>" % (name, name), own, blob, flags=re.DOTALL)
            part._blob = blob
    if on_dark:
        colour_map = deck.slide_master.element.find("{*}clrMap")
        for key, value in (("bg1", "dk1"), ("tx1", "lt1"), ("bg2", "dk2"), ("tx2", "lt2")):
            colour_map.set(key, value)


def _describe(properties: Any, *, title: str, language: str) -> None:
    properties.title = title
    properties.language = language
    properties.author = properties.last_modified_by = properties.keywords = properties.comments = ""
    properties.subject = properties.category = ""
    properties.created = properties.modified = _ONE_DATE
    properties.revision = 1
