"""The corners of one outline, whichever way they are given: listed, walked round, or as a ready outline with sizes."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from itertools import takewhile
from typing import Any

from ..document import schema_values as schema
from ..document.fields import MAX_CORNERS, MAX_NUMBER, Faults, Table, number_of, table_of
from ..document.format import Field, Format, Together
from ..document.key_order import ANY_ORDER, KeyOrder
from ..document.nodes import ListNode, MapNode, Node
from ..document.notation import listed
from ..document.points import point_of, ring_of
from ..document.schema_values import Schema, whole_match
from ..document.source_map import IN_PLACE_OF_CORNERS
from ..document.values import Value, point, whole
from ..document.yaml_events import MAX_TEXT
from ..document.yaml_text import Written, decimals_for, points_yaml
from ..geometry.rigid_motion import Point, Ring
from .ready_outlines import READY, ReadyOutline, Size
from .walk_reader import CLOSE, STEP_PATTERN, WALK_EXAMPLE, rounded, walk_begun, walk_of

__all__ = [
    "NO_START",
    "ONE_WAY",
    "OUTLINE_DEFINITIONS",
    "RING",
    "RING_EXAMPLE",
    "WAYS",
    "TypedRing",
    "ring_begun",
    "ring_in",
]

WAYS = ("corners", *IN_PLACE_OF_CORNERS)  # one of them gives an outline
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


def ring_in(table: Table) -> TypedRing | None:
    """The corners that a table gives by one of ``WAYS``, not yet checked as an outline."""
    faults, owner = table.faults, table.owner
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
    ring = _READERS[ways[0]](node, path, faults, start or (0.0, 0.0))
    return TypedRing(ring, path) if ring and start and len(ways) == 1 else None


def ring_begun(table: Table) -> Ring:
    """Of an outline that cannot be read to its end, the corners up to where it breaks; () where there is none."""
    walk, corners = table.get("walk"), table.get("corners")
    quiet = replace(table, faults=Faults())
    if walk is not None:
        return walk_begun(walk, start=_start(quiet) or (0.0, 0.0))
    listed = corners.items if isinstance(corners, ListNode) else ()
    points = (point_of(item, "", quiet.faults) for item in listed)
    return tuple(point for point in takewhile(lambda point: point is not None, points) if point is not None)


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
    sizes = _sizes(name, inner, table.at(name), faults)
    if sizes is None:
        return None
    return tuple(rounded((x + start[0], y + start[1])) for x, y in READY[name].corners(sizes))


def _sizes(name: str, node: Node, path: str, faults: Faults) -> dict[str, float] | None:
    """Every size of a ready outline, in range and fitting the others."""
    sizes_format = _READY[name]
    if not isinstance(node, MapNode):
        faults.add(path, f"the sizes {listed(sizes_format.keys, 'and')} are due here", sizes_format.fix)
        return None
    before = len(faults.found)
    record = sizes_format.read(node, path, faults)
    assert record is not None
    sizes = {key: value for key, value in record.values.items() if value is not None}
    if len(faults.found) == before:
        for size, message, mend in READY[name].misfits(sizes):
            faults.add(record.table.at(size), message, mend)
    return sizes if len(faults.found) == before else None


def _size(size: Size) -> Value[int] | Value[float]:
    if size.counts:
        return whole(*size.counts)

    def read(node: Node, path: str, faults: Faults) -> float | None:
        value = number_of(node, path, faults)
        if value is not None and not LEAST_SIZE <= value <= MAX_NUMBER:
            faults.add(path, f"{size.name} is not more than 0", f"write {size.what}, such as 2")
            return None
        return value

    return Value(read=read, schema=schema.number(LEAST_SIZE))


def _sizes_of(kind: ReadyOutline) -> Format:
    fix = f"give its sizes, such as {kind.example}"
    rows = tuple(Field(size.name, _size(size), size.what, due="" if size.optional else fix) for size in kind.sizes)
    return Format(owner="the outline", fix=fix, rows=rows)


_READY = {name: _sizes_of(kind) for name, kind in READY.items()}

_WALK = schema.either(
    {
        "type": "string",
        "pattern": whole_match(rf"{STEP_PATTERN}(,{STEP_PATTERN})*(,\s*{CLOSE}\s*)?(,\s*)?"),
        "maxLength": MAX_TEXT,
    },
    schema.list_of({"type": "string", "pattern": whole_match(rf"{STEP_PATTERN}|\s*{CLOSE}\s*")}, 1, MAX_CORNERS),
)
_READY_SCHEMA = schema.keys_with(
    {name: schema.told(_READY[name].schema, f"{kind.what}; such as {kind.example}") for name, kind in READY.items()},
    minProperties=1,
    maxProperties=1,
)

_READERS: dict[str, Callable[[Node, str, Faults, Point], Ring | None]] = {
    "corners": lambda node, at, faults, _: ring_of(node, at, faults, example=RING_EXAMPLE),
    "walk": lambda node, at, faults, start: walk_of(node, at, faults, start=start),
    "ready": _ready,
}
OUTLINE_DEFINITIONS: dict[str, Schema] = {
    "corners": schema.CORNERS,
    "walk": _WALK,
    "ready": _READY_SCHEMA,
}
ONE_WAY: list[Schema] = [{"required": [way]} for way in WAYS]
NO_START: Schema = {"from": {"not": {"required": ["corners"]}}}


def _way(key: str, doc: str, *, order: KeyOrder = ANY_ORDER, write: Callable[[Any], Written | None]) -> Field:
    def read(node: Node, at: str, faults: Faults) -> Ring | None:
        return _READERS[key](node, at, faults, (0.0, 0.0))

    return Field(key, Value(read=read, schema=schema.defined(key), order=order), doc, write=write)


def _corners(thing: Any) -> Written | None:
    """Of whatever has corners; None where it is made from the result."""
    return None if thing.corners is None else points_yaml(thing.corners, decimals_for(thing.corners))


def _never(_: object) -> None:
    """The program always lists corners."""


RING = Together(
    "ring",
    (
        _way("corners", "the corners [x, y] in the order of a walk round, either way, from any start", write=_corners),
        _way(
            "walk",
            "steps round the outline, such as right 4, up 2, left 3 up 1, up-left 2, 60deg 3; close: back to the start",
            write=_never,
        ),
        _way(
            "ready",
            "a ready outline with its sizes",
            order=KeyOrder(inside={name: sizes.order for name, sizes in _READY.items()}),
            write=_never,
        ),
        Field("from", point(), "where corner 1 of a walk or of a ready outline lies; else at [0, 0]", write=_never),
    ),
    read_in=ring_in,
    schema={"oneOf": ONE_WAY, "dependentSchemas": NO_START},
)
