"""Laying an item's pieces in their order, each on the outline that the one before left."""

from __future__ import annotations

from collections.abc import Mapping

from ....errors import Fault, ItemError
from ....geometry import overlay
from ....geometry.outline import Outline
from ....geometry.tolerance import authoring_tolerance
from ..model import Item
from .placement import Placement
from .placing import lay

__all__ = ["laid_so_far", "lay_pieces", "malformed"]


def lay_pieces(item: Item, *, slip_turns: Mapping[str, float] | None = None) -> tuple[Placement, ...]:
    """Lay every piece in its order.

    slip_turns : only to show a slip: by how many degrees a piece of this name turns, whatever its marks ask
    Raises     : ItemError with every fault that can be told
    """
    faults = malformed(item)
    placements: tuple[Placement, ...] = ()
    if not faults:
        placements, faults = laid_so_far(item, slip_turns)
    if faults:
        raise ItemError(faults)
    return placements


def malformed(item: Item) -> list[Fault]:
    """Faults of outlines that are none: a reader refuses them earlier, but an item may be built without one."""
    tolerance = authoring_tolerance(item.extent)
    shapes = [("base", item.base)]
    shapes += [(f"pieces[{i}].corners", Outline.of(piece.corners)) for i, piece in enumerate(item.pieces)]
    shapes += [
        (f"options[{i}].corners", Outline.of(option.corners, option.holes))
        for i, option in enumerate(item.options)
        if option.corners is not None
    ]
    faults = []
    for field, shape in shapes:
        thin = tolerance if field.startswith(("base", "pieces")) else 0.0
        if not overlay.is_simple(shape):
            faults.append(
                Fault(
                    field=field,
                    message="the outline crosses or touches itself, or a hole is not inside it",
                    fix="list the corners in order round the outline, so that no two sides cross",
                )
            )
        elif overlay.thickness(overlay.polygon(shape)) <= thin:
            faults.append(
                Fault(field=field, message="the outline has no area", fix="give corners that are not in line")
            )
    return faults


def laid_so_far(item: Item, slip_turns: Mapping[str, float] | None) -> tuple[tuple[Placement, ...], list[Fault]]:
    """The placements as far as they go, with the faults of those pieces whose outline before them is known."""
    tolerance = authoring_tolerance(item.extent)
    standing = item.base.simplified(tolerance)
    placements: tuple[Placement, ...] = ()
    faults: list[Fault] = []
    for index, piece in enumerate(item.pieces):
        laid = lay(
            piece,
            index=index,
            before=standing,
            earlier=placements,
            tolerance=tolerance,
            slip_turn_deg=(slip_turns or {}).get(piece.name),
        )
        faults.extend(laid.faults)
        if laid.placement is None:
            # What follows would be held against an outline that is not the teacher's.
            faults.extend(_marks_alone(item, index + 1, tolerance))
            break
        placements = (*placements, laid.placement)
        standing = laid.placement.after
    return placements, faults


def _marks_alone(item: Item, first: int, tolerance: float) -> list[Fault]:
    """The faults of later pieces that show without an outline to lay them on."""
    faults: list[Fault] = []
    for index in range(first, len(item.pieces)):
        laid = lay(
            item.pieces[index],
            index=index,
            before=item.base.simplified(tolerance),
            earlier=(),
            tolerance=tolerance,
        )
        faults.extend(fault for fault in laid.faults if fault.field == f"pieces[{index}].side")
    return faults
