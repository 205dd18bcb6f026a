"""The file formats as JSON Schema 2020-12, for completion and checks in an editor.

A schema sees keys, kinds of values and ranges. It sees no geometry, no other file, no names that must fit one another:
for those there is ``explainers check``.
"""

from __future__ import annotations

from ..document.schema_values import Schema
from .folder import FileKind
from .item_schema import ITEM_SCHEMA
from .lesson_schema import LESSON_SCHEMA, SERIES_SCHEMA

__all__ = ["KINDS", "schema_of"]

_SCHEMAS: dict[FileKind, Schema] = {"item": ITEM_SCHEMA, "lesson": LESSON_SCHEMA, "series": SERIES_SCHEMA}
KINDS: tuple[FileKind, ...] = tuple(_SCHEMAS)


def schema_of(kind: FileKind) -> Schema:
    """The schema of a kind of file, ready for JSON."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": f"explainers {kind}",
        **_SCHEMAS[kind],
    }
