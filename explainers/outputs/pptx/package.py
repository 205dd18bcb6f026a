"""A slide file as a package: what it says of itself, what of its makers is left out, the same bytes every time."""

from __future__ import annotations

import datetime
import io
import zipfile
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pptx.presentation import Presentation as Deck

__all__ = ["describe", "drop_makers", "steady_bytes"]

# Every deck bears one date, so that the same lesson gives the same bytes.
_ONE_DATE = datetime.datetime(2000, 1, 1, tzinfo=datetime.UTC)
_ZIP_DATE = (1980, 1, 1, 0, 0, 0)  # the first date that a zip file can hold

_DROPPED = ("/thumbnail", "/printerSettings", "/commentAuthors", "/vbaProject")  # of whoever made the file before us
_APP_PROPERTIES = (
    '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'
    '<Properties xmlns="http://schemas.openxmlformats.org/officeDocument/2006/extended-properties"></Properties>'
)


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
