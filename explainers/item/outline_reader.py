"""An outline from its keys: its corners, with holes that lie inside it clear of each other."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..document import schema_values as schema
from ..document.fields import Faults, Table, list_of
from ..document.format import Field, Format, Together
from ..document.nodes import ListNode, MapNode, Node, ScalarNode
from ..document.notation import shown_point
from ..document.points import ring_of
from ..document.schema_values import Schema
from ..document.values import Value
from ..document.yaml_text import Written, decimals_for, lines_of, points_yaml
from ..geometry.nesting import Nesting, relation
from ..geometry.rigid_motion import Ring
from ..geometry.rings import larger_extent
from ..geometry.tolerance import authoring_tolerance
from .outline_checks import check_ring
from .ring_reader import OUTLINE_DEFINITIONS, RING, RING_EXAMPLE, TypedRing, ring_in

__all__ = ["DEFINITIONS", "OUTLINE", "ListedOutline", "outline_of", "outline_yaml"]

MAX_HOLES = 20

HOLE = Format(owner="the hole", fix=f"list its corners: {RING_EXAMPLE}", rows=(RING,))
DEFINITIONS: dict[str, Schema] = {**OUTLINE_DEFINITIONS, "hole": HOLE.schema}


@dataclass(frozen=True, slots=True)
class ListedOutline:
    """An outline to be written: corners and holes as they are to be listed."""

    corners: Ring
    holes: tuple[Ring, ...] = ()


def outline_of(table: Table) -> tuple[Ring, tuple[Ring, ...]] | None:
    """Corners in the order of the file, and holes, checked; None where anything about them is wrong."""
    faults, owner = table.faults, table.owner
    typed = ring_in(table)
    exterior = typed.corners if typed and check_ring(typed, faults, owner=owner) else None
    path = table.at("holes")
    node = table.get("holes")
    if node is None:
        return (exterior, ()) if exterior else None
    fix = f"list each hole as corners, such as holes: [{RING_EXAMPLE}], or leave the key out"
    items = list_of(node, path, faults, least=0, most=MAX_HOLES, noun="holes", fix=fix)
    if items and _is_point(items[0]):
        faults.add(path, "the corners of a hole stand here without the brackets of the list of holes", fix)
        return None
    tolerance = authoring_tolerance(larger_extent(exterior)) if exterior else None
    holes: list[tuple[int, Ring]] = []
    for index, item in enumerate(items or ()):
        at = f"{path}[{index}]"
        hole = _hole(item, at, faults)
        if hole and check_ring(hole, faults, owner="the hole", tolerance=tolerance):
            holes.append((index, hole.corners))
    fine = items is not None and len(holes) == len(items)
    if exterior and not _holes_fit(exterior, holes, path, faults, owner):
        fine = False
    return (exterior, tuple(ring for _, ring in holes)) if exterior and fine else None


def _hole(node: Node, path: str, faults: Faults) -> TypedRing | None:
    """A hole, by its corners alone or by the keys of an outline."""
    if not isinstance(node, MapNode):
        ring = ring_of(node, path, faults, example=RING_EXAMPLE)
        return TypedRing(ring, path) if ring else None
    record = HOLE.read(node, path, faults)
    return record["ring"] if record else None


def _is_point(node: Node) -> bool:
    return isinstance(node, ListNode) and bool(node.items) and all(isinstance(n, ScalarNode) for n in node.items)


def _holes_fit(exterior: Ring, holes: list[tuple[int, Ring]], path: str, faults: Faults, owner: str) -> bool:
    """Whether holes, each with its number in the file, lie inside the exterior, clear of it and of each other."""
    tolerance = authoring_tolerance(larger_extent(exterior))
    before = len(faults.found)
    for later, (index, hole) in enumerate(holes):
        at = f"{path}[{index}]"
        found = relation(exterior, hole, tolerance)
        where = f" at {shown_point(found.point)}" if found.point else ""
        if found.kind is Nesting.TOUCHES_INSIDE:
            message = f"the hole touches the outline of {owner}{where}"
            faults.add(at, message, "leave material all round it, or draw it as a notch of the outline")
        elif found.kind is Nesting.CROSSES:
            faults.add(at, f"the hole reaches outside {owner}{where}", f"move its corners inside {owner}")
        elif found.kind is not Nesting.WITHIN:
            faults.add(at, f"the hole lies outside {owner}", f"move its corners inside {owner}")
        for number, earlier in holes[:later]:
            kind = relation(earlier, hole, tolerance).kind
            if kind is not Nesting.APART:
                what = "touches" if kind is Nesting.TOUCHES_OUTSIDE else "overlaps"
                message = f"the hole {what} hole number {number + 1}"
                faults.add(at, message, "leave material between them, or draw them as one hole")
    return len(faults.found) == before


def _written_holes(thing: ListedOutline) -> Written | None:
    decimals = decimals_for(thing.corners) if thing.holes else 0
    return [points_yaml(hole, decimals) for hole in thing.holes] or None


_HOLES = Field(
    "holes",
    Value(
        read=lambda node, at, faults: None,  # read with the outline around them
        schema=schema.list_of(schema.either(schema.defined("corners"), schema.defined("hole")), 0, MAX_HOLES),
        order=HOLE.order,
    ),
    "the outlines of holes, each like the outline itself",
    write=_written_holes,
)
OUTLINE = Together("outline", (*RING.fields, _HOLES), read_in=outline_of, schema=RING.schema)


def outline_yaml(corners: Ring, holes: Sequence[Ring], *, indent: str) -> list[str]:
    """The lines of corners and holes, as they stand below a key such as ``base:``."""
    return list(lines_of(_LISTED.written(ListedOutline(corners, tuple(holes))), indent))


_LISTED = Format(owner="the outline", fix=f"write corners: {RING_EXAMPLE}", rows=(OUTLINE,))
