"""The file formats as JSON Schema 2020-12, for completion and checks in an editor.

A schema sees keys, kinds of values and ranges. It sees no geometry, no other file, no names that must fit one another:
for those there is ``explainers check``.
"""

from __future__ import annotations

from ..document.format import Format
from ..document.schema_values import Schema
from ..item.folder import FileKind
from ..item.lesson_reader import LESSON
from ..item.series_reader import SERIES
from ..kinds.join_and_cut.fields.item_reader import ITEM

__all__ = ["FORMATS", "KINDS", "schema_of"]

FORMATS: dict[FileKind, Format] = {"item": ITEM, "lesson": LESSON, "series": SERIES}
KINDS: tuple[FileKind, ...] = tuple(FORMATS)


def schema_of(kind: FileKind) -> Schema:
    """The schema of a kind of file, ready for JSON."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": f"explainers {kind}",
        **FORMATS[kind].schema,
    }
