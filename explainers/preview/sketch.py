"""What can be drawn of a file that cannot be solved, as far as its kind of question can read it."""

from __future__ import annotations

from collections.abc import Collection
from pathlib import Path

from ..choice.panels.view import View
from ..document.nodes import text_at
from ..document.source_map import compose_file
from ..errors import Fault
from ..figure.theme import DEFAULT_THEME, Theme
from ..kinds.registry import DEFAULT_KIND, kind_named, kind_names

__all__ = ["sketch_of"]

_HEADING = "What can be read of the file"


def sketch_of(path: Path, faults: Collection[Fault], theme: Theme = DEFAULT_THEME) -> View | None:
    """The outlines of a file with faults; None where none can be read."""
    composed = compose_file(path)
    if composed.root is None:
        return None
    kind = text_at(composed.root, "kind") or DEFAULT_KIND
    if kind not in kind_names():
        return None
    wrong = {fault.field for fault in faults if fault.field}
    panels = kind_named(kind).panels.sketched(composed.root, wrong, theme)
    if not panels:
        return None
    name = text_at(composed.root, "item") or path.stem
    return View(
        kind=kind,
        name=name,
        title=text_at(composed.root, "title") or name,
        state="not solved yet",
        sign="doubt",
        groups=((_HEADING, panels),),
        theme=theme,
    )
