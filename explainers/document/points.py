"""Points of a file, alone, as the two ends of a side or as the corners of an outline; or a fault that says why not."""

from __future__ import annotations

from ..geometry.rigid_motion import Point, Ring
from .fields import MAX_CORNERS, MAX_NAME, Faults, is_plain_number, kind_of_node, list_of, number_of
from .nodes import ListNode, Node, ScalarNode

__all__ = ["pair_of", "point_of", "ring_of"]

_BRACKETS = str.maketrans("()[]{};,", "        ")


def ring_of(node: Node, path: str, faults: Faults, *, example: str) -> Ring | None:
    """The corners of an outline as typed: 3 or more points."""
    fix = f"list the corners in the order of a walk round the outline, such as {example}"
    if isinstance(node, ListNode) and len(node.items) < 3:
        count = {0: "no corner", 1: "1 corner"}.get(len(node.items), f"{len(node.items)} corners")
        faults.add(path, f"an outline needs at least 3 corners; this one has {count}", fix)
        return None
    items = list_of(node, path, faults, least=3, most=MAX_CORNERS, noun="corners", fix=fix)
    if items is None:
        return None
    points = [point_of(item, f"{path}[{index}]", faults) for index, item in enumerate(items)]
    whole = tuple(point for point in points if point is not None)
    return whole if len(whole) == len(points) else None


def pair_of(node: Node, path: str, faults: Faults, *, fix: str) -> tuple[Point, Point] | None:
    """The two ends of a side."""
    if not isinstance(node, ListNode):
        faults.add(path, f"{kind_of_node(node)} stands here where two points are due", _as_pair(node) or fix)
        return None
    if len(node.items) != 2 or any(isinstance(item, ScalarNode) for item in node.items):
        count = len(node.items)
        bare = count and all(isinstance(item, ScalarNode) for item in node.items)
        what = f"{count} values, not themselves points" if bare else f"{count} points" if count != 1 else "1 point"
        faults.add(path, f"a side has two points; this list has {what}", _as_pair(node) or fix)
        return None
    start = point_of(node.items[0], f"{path}[0]", faults)
    end = point_of(node.items[1], f"{path}[1]", faults)
    return None if start is None or end is None else (start, end)


def point_of(node: Node, path: str, faults: Faults) -> Point | None:
    """A point [x, y]."""
    fix = "write a point as [x, y], with a full stop in decimals, such as [1.5, 2]"
    if not isinstance(node, ListNode):
        faults.add(path, f"{kind_of_node(node)} stands here where a point [x, y] is due", fix)
        return None
    if len(node.items) != 2:
        count = len(node.items)
        faults.add(path, f"a point has two numbers; this one has {count}", _as_point(node) or fix)
        return None
    x, y = (number_of(item, f"{path}[{index}]", faults) for index, item in enumerate(node.items))
    return None if x is None or y is None else (x, y)


def _as_pair(node: Node) -> str:
    """How to write two points that were typed with other brackets; "" where that is not plain."""
    numbers = _numbers_typed(node)
    if len(numbers) != 4 or any(isinstance(item, ListNode) for item in getattr(node, "items", ())):
        return ""
    return f"write [[{numbers[0]}, {numbers[1]}], [{numbers[2]}, {numbers[3]}]]"


def _as_point(node: ListNode) -> str:
    """How to write a point whose two numbers were typed with another sign between or in them; "" where not plain."""
    typed = [item.text for item in node.items if isinstance(item, ScalarNode)]
    numbers = _numbers_typed(node)
    if len(typed) == 1 and len(numbers) == 2:
        return f"write [{numbers[0]}, {numbers[1]}], with a comma between the two"
    if len(numbers) == 3 == len(typed) and all(number.isdigit() for number in numbers[1:]):
        a, b, c = numbers
        return f"write a full stop in a decimal: [{a}.{b}, {c}] or [{a}, {b}.{c}]"
    return ""


def _numbers_typed(node: Node) -> list[str]:
    """The plain numbers in a text or in the texts of a list, whatever brackets and signs stand round them."""
    if isinstance(node, ListNode):
        return [number for item in node.items for number in _numbers_typed(item)]
    if not isinstance(node, ScalarNode) or node.quoted or len(node.text) > MAX_NAME:
        return []
    words = node.text.translate(_BRACKETS).split()
    return words if all(is_plain_number(word) for word in words) else []
