"""What is shown of an item: everything of one that solves, and what can be read of one that does not."""

from __future__ import annotations

from collections.abc import Callable, Collection
from pathlib import Path

from ..choice.model import Solution
from ..choice.panels.option_panels import option_panels
from ..choice.panels.outline_panels import outline_alone
from ..choice.panels.remarks import Remarks
from ..choice.panels.view import View
from ..document.nodes import text_at
from ..document.source_map import compose_file
from ..errors import Fault
from ..figure.theme import DEFAULT_THEME, Theme
from ..kinds.registry import DEFAULT_KIND, kind_named, kind_names, kind_of

__all__ = ["item_view", "sketch_of"]

LineOf = Callable[[str], int]  # field path -> line in the file, 0 where it is not known

_HEADING = "What can be read of the file"


def item_view(solution: Solution, line_of: LineOf, theme: Theme = DEFAULT_THEME) -> View:
    """An item that solves, sound or not: sheet, steps, outline, options, warnings."""
    item, panels = solution.item, kind_of(solution.item).panels
    remarks = Remarks(solution, line_of, panels.spots)
    given = tuple(panels.given(solution, remarks, line_of, theme))
    found = tuple(panels.found(solution, remarks, theme))
    options = tuple(option_panels(solution, remarks, line_of, theme))
    accepted = tuple(f"Accepted, {warning.kind}: {warning.message}." for warning in solution.accepted)
    return View(
        kind=item.kind,
        name=item.name,
        title=item.title,
        state=f"sound: the answer is {solution.key}" if solution.sound else "not sound: it has no one answer",
        sign="right" if solution.sound else "wrong",
        because=solution.unsound_because,
        groups=(
            ("What the file gives", given),
            *((("What comes of it", found),) if found else ()),
            ("The options", options),
        ),
        notes=accepted,
        small=outline_alone(solution, theme),
        theme=theme,
    )


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
