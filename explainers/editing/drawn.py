"""An outline as a page draws it to be changed: its corners as the file gives them, right or wrong."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from ..document.fields import Faults, Table
from ..document.nodes import ListNode, MapNode, Node
from ..document.points import ring_of
from ..geometry.rigid_motion import Ring
from ..item.ring_reader import RING_EXAMPLE, WAYS, ring_begun, ring_in
from .sizes import DrawnSize, sizes_of

__all__ = ["DrawnOutline", "drawn_outline"]


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnOutline:
    """One outline of a file, in the coordinates of the file."""

    id: str  # by what the file calls it, so that it stays the same when others come and go
    field: str  # where it stands, such as pieces[0]
    role: str  # base, piece, option, outline
    given: str = ""  # corners, walk or ready; "" where nothing of it is there yet
    ready: str = ""  # which ready outline
    corners: Ring = ()  # of one that breaks off, those up to there
    whole: bool = False  # whether all of it can be read
    holes: tuple[Ring, ...] = ()
    sizes: tuple[DrawnSize, ...] = ()  # of a walk or a ready outline, and of holes that are such
    more: Mapping[str, Any] = dataclasses.field(default_factory=dict)  # what its kind says of it, plain values

    def told(self) -> dict[str, Any]:
        """As JSON has it."""
        return {
            "id": self.id,
            "field": self.field,
            "role": self.role,
            "given": self.given,
            "ready": self.ready,
            "corners": [list(corner) for corner in self.corners],
            "whole": self.whole,
            "holes": [[list(corner) for corner in hole] for hole in self.holes],
            "sizes": [size.told() for size in self.sizes],
            **self.more,
        }


def drawn_outline(node: Node | None, path: str, *, id_: str, role: str, **more: Any) -> DrawnOutline:
    """What can be read of the outline at a field."""
    if not isinstance(node, MapNode):
        return DrawnOutline(id=id_, field=path, role=role, more=more)
    table = Table(node, path, Faults())
    typed = ring_in(table)
    way = next((way for way in WAYS if way in table), "")
    ready = node.entries["ready"].value if way == "ready" else None
    holes = node.entries["holes"].value if "holes" in node.entries else None
    hole_nodes = holes.items if isinstance(holes, ListNode) else ()
    rings = [_hole(hole, f"{path}.holes[{n}]") for n, hole in enumerate(hole_nodes)]
    return DrawnOutline(
        id=id_,
        field=path,
        role=role,
        given=way,
        ready=next(iter(ready.entries), "") if isinstance(ready, MapNode) else "",
        corners=typed.corners if typed else ring_begun(table),
        whole=typed is not None,
        holes=tuple(ring or () for ring in rings),
        sizes=(
            *sizes_of(node, path),
            *(size for n, hole in enumerate(hole_nodes) for size in sizes_of(hole, f"{path}.holes[{n}]", hole=n)),
        ),
        more=more,
    )


def _hole(node: Node, path: str) -> Ring | None:
    if isinstance(node, MapNode):
        typed = ring_in(Table(node, path, Faults()))
        return typed.corners if typed else None
    return ring_of(node, path, Faults(), example=RING_EXAMPLE)
