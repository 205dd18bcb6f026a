"""What is shown of an item: everything of one that solves, and what can be read of one that does not."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Collection, Iterator
from dataclasses import replace
from pathlib import Path

from ..choice.model import Solution
from ..choice.panels.option_panels import option_panels
from ..choice.panels.outline_panels import outline_alone
from ..choice.panels.remarks import Remarks
from ..choice.panels.view import Panel, View
from ..document.composing import compose_file
from ..document.nodes import MapNode, text_at
from ..document.notation import listed
from ..errors import Fault
from ..figure.theme import DEFAULT_THEME, Theme
from ..intake.item_reader import format_of_kind
from ..kinds.registry import DEFAULT_KIND, kind_named, kind_names, kind_of
from ..words.messages import speaking, spoken_language

__all__ = ["given_in", "item_view", "sketch_of"]

LineOf = Callable[[str], int]  # field path -> line in the file, 0 where it is not known

_HEADING = "What can be read of the file"


def item_view(solution: Solution, line_of: LineOf, theme: Theme = DEFAULT_THEME) -> View:
    """An item that solves, sound or not: sheet, steps, outline, options, warnings."""
    with speaking(spoken_language().tag, theme.verbs):
        return _view(solution, line_of, theme)


def _view(solution: Solution, line_of: LineOf, theme: Theme) -> View:
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
    """The outlines of a file with faults, each with what is wrong in it; None where none can be read."""
    root = _root_of(path)
    if root is None:
        return None
    kind = text_at(root, "kind") or DEFAULT_KIND
    wrong = {fault.field for fault in faults if fault.field}
    panels = kind_named(kind).panels.sketched(root, wrong, theme)
    if not panels:
        return None
    name = text_at(root, "item") or path.stem
    return View(
        kind=kind,
        name=name,
        title=text_at(root, "title") or name,
        state="not finished: it cannot be solved yet",
        sign="doubt",
        because=tuple(_missing(root, kind)),
        groups=((_HEADING, tuple(_with_faults(panel, faults) for panel in panels)),),
        theme=theme,
    )


def given_in(path: Path, theme: Theme = DEFAULT_THEME) -> str:
    """What stands for the outlines and marks of a file, whatever else is in it: the same for the same pictures."""
    root = _root_of(path)
    if root is None:
        return ""
    panels = kind_named(text_at(root, "kind") or DEFAULT_KIND).panels.sketched(root, (), theme)
    plain = [replace(panel, line=0) for panel in panels]
    return hashlib.sha256(repr(plain).encode("utf-8", "replace")).hexdigest() if plain else ""


def _root_of(path: Path) -> MapNode | None:
    """The file's keys, where it is of a kind that there is."""
    root = compose_file(path).root
    return root if root is not None and (text_at(root, "kind") or DEFAULT_KIND) in kind_names() else None


def _missing(root: MapNode, kind: str) -> Iterator[str]:
    due = [field.key for field in format_of_kind(kind).fields if field.due and field.key not in root.entries]
    if due:
        yield f"Still missing: {listed(due, 'and')}."


def _with_faults(panel: Panel, faults: Collection[Fault]) -> Panel:
    """A panel that says what is wrong in what it shows."""
    told = [
        f"Wrong here: {fault.message}."
        for fault in faults
        if f"{fault.field.replace('[', '-').replace(']', '')}.".startswith(f"{panel.name}.")
    ]
    return replace(panel, lines=(*told, *panel.lines))
