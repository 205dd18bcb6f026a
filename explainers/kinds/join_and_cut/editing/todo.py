"""What a question of joining and cutting still needs: a base, a piece, a side of each married, options."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ....document.nodes import MapNode
from ....editing.drawn import DrawnOutline
from ...drawing_tools import Todo
from ..model import BASE

__all__ = ["todo_of"]


def todo_of(root: MapNode, outlines: Sequence[DrawnOutline]) -> Iterator[Todo]:
    """In the order in which it is best done."""
    pieces = [each for each in outlines if each.role == "piece"]
    is_begun = BASE in root.entries
    if not is_begun:
        yield Todo(
            fields=(BASE,),
            words="Draw the base",
            how="draw the base. Click its corners one after the other, and the first again. "
            "Or trace a drawing that you have.",
            does="draw-base",
        )
    if not pieces and "pieces" not in root.entries:
        yield Todo(
            fields=("pieces",),
            words="Draw a piece",
            how="draw a piece beside the base.",
            does="draw-piece",
            ready=is_begun,
        )
    left = not is_begun or not pieces
    for piece in pieces:
        found = _of_a_piece(piece, is_begun)
        left = left or found is not None
        if found is not None:
            yield found
    if "options" not in root.entries:
        yield Todo(
            fields=("options",),
            words="Make five options",
            how="make the options. Each can be exchanged for another afterwards.",
            does="make-options",
            ready=not left,
        )


def _of_a_piece(piece: DrawnOutline, is_begun: bool) -> Todo | None:
    name = piece.more.get("name") or "piece"
    if not piece.given:
        return Todo(
            fields=(piece.field, f"{piece.field}.corners", f"{piece.field}.side", f"{piece.field}.meets"),
            words=f"Draw the {name}",
            how=f"draw the {name} beside the base.",
            does="draw-piece",
            piece=piece.id,
        )
    missing = tuple(f"{piece.field}.{key}" for key in ("side", "meets") if not piece.more.get(f"has_{key}"))
    if not missing:
        return None
    return Todo(
        fields=missing,
        words=f"Marry a side of the {name}",
        how=f"marry the {name}. Press Marry sides, click one of its sides, then the side that it meets.",
        does="marry",
        piece=piece.id,
        ready=is_begun,
    )
