"""The outline as a page draws it; its commands are those that every kind has."""

from __future__ import annotations

from ....choice.model import Answer
from ....choice.question import Question
from ....document.nodes import MapNode
from ....editing.command import Command
from ....editing.drawn import DrawnOutline, drawn_outline
from ....editing.proposals import Proposal
from ....editing.sheet import Sheet
from ...drawing_tools import LaidPart, Todo

__all__ = ["Tools"]


class Tools:
    """See ``DrawingTools``."""

    commands: tuple[type[Command], ...] = ()

    def outlines(self, root: MapNode) -> tuple[DrawnOutline, ...]:
        """The one outline."""
        entry = root.entries.get("outline")
        return (drawn_outline(entry.value if entry else None, "outline", id_="outline", role="outline"),)

    def laid(self, answer: Answer) -> tuple[LaidPart, ...]:
        """Nothing is laid: the outline is given."""
        return ()

    def laid_so_far(self, question: Question) -> tuple[LaidPart, ...]:
        """Nothing."""
        return ()

    def proposals(self, sheet: Sheet, field: str, root: MapNode) -> tuple[Proposal, ...]:
        """None of its own: an outline is mended alike whatever its kind."""
        return ()

    def todo(self, root: MapNode) -> tuple[Todo, ...]:
        """Outline, options."""
        found = []
        if "outline" not in root.entries:
            how = "draw the outline. Click its corners one after the other, and the first again."
            found.append(Todo(fields=("outline",), words="Draw the outline", how=how, does="draw-base"))
        if "options" not in root.entries:
            how = "make the options. Each can be exchanged for another afterwards."
            ready = not found
            found.append(
                Todo(fields=("options",), words="Make five options", how=how, does="make-options", ready=ready)
            )
        return tuple(found)
