"""The corners of one outline, whichever way they are given: listed, walked round, or as a ready outline with sizes."""

from __future__ import annotations

from dataclasses import dataclass

from ..document.fields import MAX_NUMBER, Faults, Table, number_of, point_of, ring_of, table_of, whole_of
from ..document.nodes import MapNode, Node
from ..document.notation import listed
from ..document.source_map import IN_PLACE_OF_CORNERS
from ..geometry.rigid_motion import Point, Ring
from .ready_outlines import READY, ReadyOutline, Size
from .walk_reader import WALK_EXAMPLE, rounded, walk_of

__all__ = ["RING_EXAMPLE", "RING_KEYS", "WAYS", "TypedRing", "ring_in"]

WAYS = ("corners", *IN_PLACE_OF_CORNERS)  # one of them gives an outline
RING_KEYS = (*WAYS, "from")
RING_EXAMPLE = "[[0, 0], [2, 0], [0, 2]]"

LEAST_SIZE = 1e-6


@dataclass(frozen=True, slots=True)
class TypedRing:
    """Corners in the order of the file, with the field that gives them."""

    corners: Ring
    path: str

    @property
    def walked(self) -> bool:
        """Whether the fields of single corners are steps of a walk, and not corners."""
        return self.path.endswith(".walk")


def ring_in(table: Table, owner: str) -> TypedRing | None:
    """The corners that a table gives by one of ``WAYS``, not yet checked as an outline."""
    faults = table.faults
    ways = [way for way in WAYS if way in table]
    if not ways:
        if not table.misspelt.intersection(WAYS):
            fix = f"add corners: {RING_EXAMPLE}, or walk: {WALK_EXAMPLE}, or ready: with the name of an outline"
            table.due("corners", owner, fix)
        return None
    for other in ways[1:]:
        message = f"{owner} has both {ways[0]} and {other}, which each give the whole outline"
        faults.add(table.at(other), message, f"keep one of the two: take out {ways[0]} or {other}")
    start = _start(table)
    path = table.at(ways[0])
    node = table.get(ways[0])
    assert node is not None
    if ways[0] == "corners":
        ring = ring_of(node, path, faults, example=RING_EXAMPLE)
    elif ways[0] == "walk":
        ring = walk_of(node, path, faults, start=start or (0.0, 0.0))
    else:
        ring = _ready(node, path, faults, start or (0.0, 0.0))
    return TypedRing(ring, path) if ring and start and len(ways) == 1 else None


def _start(table: Table) -> Point | None:
    """Where the outline's corner 1 lies; None where that cannot be read."""
    node = table.get("from")
    if node is None:
        return 0.0, 0.0
    if "corners" in table:
        message = "listed corners say by themselves where they lie"
        table.faults.add(table.at("from"), message, "take from out; it goes with walk or ready")
        return None
    return point_of(node, table.at("from"), table.faults)


def _ready(node: Node, path: str, faults: Faults, start: Point) -> Ring | None:
    name = "rectangle"
    fix = f"write one of {listed(READY)} with its sizes, such as ready: {{{name}: {READY[name].example}}}"
    table = table_of(node, path, faults, keys=tuple(READY), owner="a ready outline", fix=fix)
    if table is None:
        return None
    if len(table.node.entries) != 1:
        if not table.misspelt:
            count = len(table.node.entries)
            faults.add(path, f"{count} outlines stand here where one is due" if count else "no outline is named", fix)
        return None
    name = next(iter(table.node.entries))
    inner = table.get(name)
    if name not in READY or inner is None:
        return None
    sizes = _sizes(READY[name], inner, table.at(name), faults)
    if sizes is None:
        return None
    return tuple(rounded((x + start[0], y + start[1])) for x, y in READY[name].corners(sizes))


def _sizes(kind: ReadyOutline, node: Node, path: str, faults: Faults) -> dict[str, float] | None:
    """Every size of a ready outline, in range and fitting the others."""
    fix = f"give its sizes, such as {kind.example}"
    keys = [size.name for size in kind.sizes]
    if not isinstance(node, MapNode):
        faults.add(path, f"the sizes {listed(keys, 'and')} are due here", fix)
        return None
    before = len(faults.found)
    table = table_of(node, path, faults, keys=keys, owner="the outline", fix=fix)
    assert table is not None
    sizes: dict[str, float] = {}
    for size in kind.sizes:
        value = table.get(size.name) if size.optional else table.due(size.name, "the outline", fix)
        number = _size(size, value, table.at(size.name), faults) if value else None
        if number is not None:
            sizes[size.name] = number
    if len(faults.found) == before:
        for name, message, mend in kind.misfits(sizes):
            faults.add(table.at(name), message, mend)
    return sizes if len(faults.found) == before else None


def _size(size: Size, node: Node, path: str, faults: Faults) -> float | None:
    if size.counts:
        return whole_of(node, path, faults, least=size.counts[0], most=size.counts[1])
    value = number_of(node, path, faults)
    if value is not None and not LEAST_SIZE <= value <= MAX_NUMBER:
        faults.add(path, f"{size.name} is not more than 0", f"write {size.what}, such as 2")
        return None
    return value
