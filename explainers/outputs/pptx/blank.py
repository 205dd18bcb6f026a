"""An empty slide deck of our own: 16:9, one layout with a title, our typeface, nothing of the template's maker."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pptx import Presentation
from pptx.util import Emu

from ...figure.contrast import relative_luminance
from ...frames.page import SLIDE_EMU
from ...typeface.faces import FAMILY

if TYPE_CHECKING:
    from pptx.presentation import Presentation as Deck
    from pptx.slide import SlideLayout

__all__ = ["blank_deck", "title_layout"]

_LAYOUT = "Title Only"


def blank_deck(paper: str = "#FFFFFF", ink: str = "#000000") -> Deck:
    """A deck without slides; its only layout is ``title_layout(deck)``.

    paper, ink : background and text of what a teacher adds to it
    """
    deck = Presentation()
    _widen(deck)
    for layout in list(deck.slide_layouts):
        if layout.name != _LAYOUT:
            deck.slide_layouts.remove(layout)
    for part in deck.part.package.iter_parts():
        if part.partname.startswith("/ppt/theme/"):
            part._blob = part.blob.replace(b'<a:latin typeface="Calibri"/>', f'<a:latin typeface="{FAMILY}"/>'.encode())
    _colour(deck, paper, ink)
    return deck


def title_layout(deck: Deck) -> SlideLayout:
    """The layout that holds nothing but a title."""
    return deck.slide_layouts.get_by_name(_LAYOUT)


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
                before, opened, rest = blob.partition(b"<a:%s>" % name)
                if opened:
                    blob = before + own + rest.partition(b"</a:%s>" % name)[2]
            part._blob = blob
    if on_dark:
        colour_map = deck.slide_master.element.find("{*}clrMap")
        for key, value in (("bg1", "dk1"), ("tx1", "lt1"), ("bg2", "dk2"), ("tx2", "lt2")):
            colour_map.set(key, value)
