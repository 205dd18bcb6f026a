"""Items small enough to solve in one's head, for tests."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from explainers.choice.question import Option
from explainers.geometry.outline import Outline
from explainers.geometry.rigid_motion import Ring
from explainers.kinds.join_and_cut.model import Does, Item, Piece

SQUARE: Ring = ((0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0))
L_BLOCK: Ring = ((0.0, 0.0), (4.0, 0.0), (4.0, 2.0), (2.0, 2.0), (2.0, 4.0), (0.0, 4.0))
TRIANGLE: Ring = ((0.0, 0.0), (2.0, 0.0), (0.0, 2.0))

WRONG = (
    Option(corners=((0.0, 0.0), (3.0, 0.0), (3.0, 1.0), (0.0, 1.0))),
    Option(corners=((0.0, 0.0), (3.0, 0.0), (0.0, 3.0))),
)


def flag(**changes: Any) -> Piece:
    """A half-square to be joined to the right side of an L-shaped block."""
    piece = Piece(
        name="flag",
        does=Does.JOIN,
        corners=TRIANGLE,
        side=((0.0, 0.0), (2.0, 0.0)),
        meets=((4.0, 0.0), (4.0, 2.0)),
        mark="K",
        turned=135.0,
    )
    return replace(piece, **changes)


def item(
    *pieces: Piece,
    base: Ring = L_BLOCK,
    holes: tuple[Ring, ...] = (),
    options: tuple[Option, ...] = (Option(), *WRONG),
) -> Item:
    """An item with these pieces."""
    return Item(name="small", title="Small", base=Outline.of(base, holes), pieces=pieces or (flag(),), options=options)
