"""Sections of a deck: slides of one chapter under its title. The library has no call for them."""

from __future__ import annotations

import uuid
from collections.abc import Iterable
from typing import TYPE_CHECKING
from xml.sax.saxutils import quoteattr

from pptx.oxml import parse_xml

if TYPE_CHECKING:
    from pptx.presentation import Presentation as Deck

__all__ = ["lay_sections"]

_PRESENTATION = "http://schemas.openxmlformats.org/presentationml/2006/main"
_P14 = "http://schemas.microsoft.com/office/powerpoint/2010/main"
_KIND = "{521415D9-36F7-43E2-AB2F-B90AF26B5E84}"  # what the format calls a list of sections
_OURS = uuid.UUID("6c0d4f0e-7f0c-5b43-9a55-1c6f2d0b7f11")  # under which ids of sections are made


def lay_sections(deck: Deck, chapters: Iterable[tuple[str, int]]) -> None:
    """Divide all slides of the deck, in their order, into sections.

    chapters : the title of each, and how many slides it has
    """
    slide_ids = iter([slide_id.get("id") for slide_id in deck.slides._sldIdLst])
    sections = []
    for number, (title, slides) in enumerate(chapters):
        members = "".join(f'<p14:sldId id="{next(slide_ids)}"/>' for _ in range(slides))
        # Made from its place and title, so that the same deck gives the same bytes.
        section_id = str(uuid.uuid5(_OURS, f"{number} {title}")).upper()
        sections.append(
            f'<p14:section name={quoteattr(title)} id="{{{section_id}}}"><p14:sldIdLst>{members}</p14:sldIdLst>'
            "</p14:section>"
        )
    extension = parse_xml(
        f'<p:ext xmlns:p="{_PRESENTATION}" xmlns:p14="{_P14}" uri="{_KIND}">'
        f"<p14:sectionLst>{''.join(sections)}</p14:sectionLst></p:ext>"
    )
    presentation = deck.element
    extensions = presentation.find(f"{{{_PRESENTATION}}}extLst")
    if extensions is None:
        extensions = parse_xml(f'<p:extLst xmlns:p="{_PRESENTATION}"/>')
        presentation.append(extensions)  # the last of all that may stand in it
    extensions.append(extension)
