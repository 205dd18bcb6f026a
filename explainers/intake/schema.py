"""The file formats as JSON Schema 2020-12, for completion and checks in an editor.

A schema sees keys, kinds of values and ranges. It sees no geometry, no other file, no names that must fit one another:
for those there is ``explainers check``.
"""

from __future__ import annotations

from ..document.schema_values import Schema, either
from ..item.folder import FileKind
from ..item.series_reader import SERIES
from ..kinds.registry import kind_names
from .item_reader import format_of_kind
from .lesson_reader import LESSON

__all__ = ["FILES", "schema_of"]

FILES: tuple[FileKind, ...] = ("item", "lesson", "series")


def schema_of(file: FileKind) -> Schema:
    """The schema of a kind of file, ready for JSON."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": f"explainers {file}",
        **(_item() if file == "item" else LESSON.schema if file == "lesson" else SERIES.schema),
    }


def _item() -> Schema:
    """An item of any kind; what is said once in a schema stands at its root."""
    schemas = [format_of_kind(kind).schema for kind in kind_names()]
    if len(schemas) == 1:
        return schemas[0]
    definitions = [schema.pop("$defs", {}) for schema in schemas]
    return {**either(*schemas), "$defs": {name: value for found in definitions for name, value in found.items()}}
