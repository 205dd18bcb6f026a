"""The corners of one outline changed in the text: of a base, a piece, an option, a hole, whatever has corners.

A walk or a ready outline stays one as long as its corners stay where they are; then it becomes the corners that it came
to. Corners that stay keep their digits as typed, and the remarks between them.
"""

from __future__ import annotations

from collections.abc import Sequence

from ..document.fields import MAX_CORNERS, Faults, Table
from ..document.laid_out import Collection
from ..document.nodes import ListNode, MapNode
from ..document.points import point_of, ring_of
from ..document.source_map import IN_PLACE_OF_CORNERS
from ..geometry.rigid_motion import Ring
from ..geometry.rings import larger_extent
from ..item.ring_reader import RING_EXAMPLE, ring_in
from .numbers import TypedPoint, decimals_short, point_text, ring_values
from .sheet import BecameCorners, CannotEdit, Sheet

__all__ = ["decimals_of", "ring_at", "with_ring", "written_ring"]


def ring_at(sheet: Sheet, path: str) -> Ring | None:
    """The corners that an outline has in the text; None where they cannot be read."""
    node = sheet.node(path)
    if isinstance(node, MapNode):
        typed = ring_in(Table(node, path, Faults()))
        return typed.corners if typed is not None else None
    return ring_of(node, path, Faults(), example=RING_EXAMPLE) if isinstance(node, ListNode) else None


def decimals_of(sheet: Sheet, ring: Sequence[TypedPoint]) -> int:
    """How many decimals the corners of an outline are written with: as its own size asks, or the first outline's."""
    sizes = [larger_extent(ring_values(ring))] if len(ring) > 1 else []
    first = next((each for each in (ring_at(sheet, key) for key in _first(sheet)) if each), None)
    sizes += [larger_extent(first)] if first else []
    return decimals_short(min((size for size in sizes if size > 0.0), default=0.0))


def written_ring(sheet: Sheet, points: Sequence[TypedPoint]) -> list[str]:
    """The corners as a list to be written."""
    if len(points) > MAX_CORNERS:
        raise CannotEdit(f"{len(points)} corners are too many", f"draw at most {MAX_CORNERS}")
    decimals = decimals_of(sheet, points)
    return [point_text(point, decimals) for point in points]


def with_ring(sheet: Sheet, path: str, points: Sequence[TypedPoint]) -> Sheet:
    """The text with these corners at an outline; only those are written anew that are others than before."""
    ring_values(points)
    texts = written_ring(sheet, points)
    now = ring_at(sheet, path)
    if now is not None and _same(now, points, texts, sheet):
        return sheet
    node = sheet.node(path)
    if isinstance(node, ListNode):
        return _listed(sheet, path, texts)
    way = next((key for key in IN_PLACE_OF_CORNERS if isinstance(node, MapNode) and key in node.entries), None)
    if way is None:
        return _listed(sheet, f"{path}.corners", texts)
    if isinstance(node, MapNode) and "corners" in node.entries:
        sheet = sheet.without(f"{path}.{way}")
        sheet = _listed(sheet, f"{path}.corners", texts)
    else:
        sheet = sheet.in_place_of(f"{path}.{way}", "corners", f"[{', '.join(texts)}]")
    return sheet.without(f"{path}.from").noting(BecameCorners(field=path, was=way))


def _first(sheet: Sheet) -> list[str]:
    """The fields that may hold the outline that a question starts from: those with keys at the margin."""
    found = sheet.value("")
    if not isinstance(found, Collection):
        return []
    maps = (entry for entry in found.entries if isinstance(entry.value, Collection) and entry.value.is_map)
    return [entry.key.text for entry in maps if entry.key is not None and entry.key.text != "options"]


def _same(now: Ring, points: Sequence[TypedPoint], texts: Sequence[str], sheet: Sheet) -> bool:
    """Whether an outline has these corners already, as near as they are written."""
    if len(now) != len(points):
        return False
    decimals = decimals_of(sheet, points)
    before = [point_text(point, decimals) for point in now]
    typed = any(isinstance(number, str) for point in points for number in point)
    if typed:
        return tuple(now) == ring_values(points)
    return before == list(texts)


def _listed(sheet: Sheet, path: str, texts: Sequence[str]) -> Sheet:
    """A list of points at a field; those at its start and its end that stay are not touched."""
    node = sheet.node(path)
    known = [_point_text(item) for item in node.items] if isinstance(node, ListNode) else []
    if not known or None in known or not texts:
        return sheet.put(path, list(texts) or "[]")
    start = 0
    while start < min(len(known), len(texts)) and _says(known[start], texts[start]):
        start += 1
    end = 0
    while end < min(len(known), len(texts)) - start and _says(known[-1 - end], texts[-1 - end]):
        end += 1
    old, new = len(known) - start - end, list(texts[start : len(texts) - end])
    for place, text in enumerate(new[:old]):
        if not _says(known[start + place], text):
            sheet = sheet.put(f"{path}[{start + place}]", text)
    for place, text in enumerate(new[old:], start=start + old):
        sheet = sheet.into(path, place, text)
    for place in reversed(range(start + len(new), start + old)):
        sheet = sheet.without(f"{path}[{place}]")
    return sheet


def _point_text(item: object) -> tuple[float, float] | None:
    return point_of(item, "", Faults()) if isinstance(item, ListNode) else None


def _says(known: tuple[float, float] | None, text: str) -> bool:
    """Whether a point as it is typed is what would be written, as near as that is."""
    x, y = (part.strip() for part in text.strip("[]").split(","))
    places = [len(part.partition(".")[2]) for part in (x, y)]
    return known is not None and all(
        abs(typed - float(new)) < 0.5 * 10.0 ** -max(place, 3)
        for typed, new, place in zip(known, (x, y), places, strict=True)
    )
