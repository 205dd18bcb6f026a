"""A slide file as a whole: sections, what it says of itself, what of its makers is left out, steady bytes."""

from __future__ import annotations

import datetime
import io
import uuid
import zipfile
from collections.abc import Iterable
from typing import TYPE_CHECKING
from xml.sax.saxutils import quoteattr

from pptx.oxml import parse_xml

if TYPE_CHECKING:
    from pptx.presentation import Presentation as Deck

__all__ = ["describe", "drop_makers", "lay_sections", "steady_bytes"]

# Every deck bears one date, so that the same lesson gives the same bytes.
_ONE_DATE = datetime.datetime(2000, 1, 1, tzinfo=datetime.UTC)
_ZIP_DATE = (1980, 1, 1, 0, 0, 0)  # the first date that a zip file can hold

_DROPPED = ("/thumbnail", "/printerSettings", "/commentAuthors", "/vbaProject")  # of whoever made the file before us
_APP_PROPERTIES = (
    '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'
    '<Properties xmlns="http://schemas.openxmlformats.org/officeDocument/2006/extended-properties"></Properties>'
)

_PRESENTATION = "http://schemas.openxmlformats.org/presentationml/2006/main"
_P14 = "http://schemas.microsoft.com/office/powerpoint/2010/main"
_KIND = "{521415D9-36F7-43E2-AB2F-B90AF26B5E84}"  # what the format calls a list of sections
_OURS = uuid.UUID("6c0d4f0e-7f0c-5b43-9a55-1c6f2d0b7f11")  # under which ids of sections are made


def drop_makers(deck: Deck) -> None:
    """Take out the first page as a picture, the printer, the titles of slides that whoever saved the file has left."""
    package = deck.part.package
    for relations in (package._rels, deck.part.rels):
        for relation_id, relation in list(relations.items()):
            if relation.reltype.endswith(_DROPPED):
                relations.pop(relation_id)
    for part in package.iter_parts():
        if part.partname == "/docProps/app.xml":
            part._blob = _APP_PROPERTIES.encode()


def describe(deck: Deck, *, title: str, language: str, author: str, subject: str, comments: str) -> None:
    """What the file says of itself."""
    properties = deck.core_properties
    properties.title = title
    properties.language = language
    properties.author = author
    properties.subject = subject
    properties.comments = comments
    properties.last_modified_by = properties.keywords = properties.category = properties.content_status = ""
    properties.created = properties.modified = _ONE_DATE
    properties.revision = 1


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
