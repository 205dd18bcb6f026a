"""Slips by name, the simplest first. A new one is a module of its own and one line here.

The order is the one in which an outline that several slips make is put down to one of them. Each gives the ways in
which it may happen, the best first. What it makes of an outline is the first of these that can be told from it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import islice

from ....choice.option_search import FINE, LEAST_GAP, apart
from ....choice.slip import FLIPPED, CannotBeMade, MakesTheResult
from ....choice.soundness import NEARLY_RIGHT
from ....document.notation import listed, nearest
from ....errors import Fault
from ....geometry import overlay
from ....geometry.congruence import motions_onto
from ....geometry.hausdorff import hausdorff_distance
from ....geometry.outline import Outline
from ....geometry.rings import diameter, interior_angles_deg, perimeter, shortest_side
from ..model import TurnedOutline
from . import angle_changed, flipped, part_moved, part_resized
from .change import Change

__all__ = ["SLIPS", "best_change", "changed", "made_by", "slip_faults", "ways"]

SLIPS: dict[str, Callable[[Outline, float], Iterator[Change]]] = {
    FLIPPED: flipped.changes,
    "part-moved": part_moved.changes,
    "part-resized": part_resized.changes,
    "angle-changed": angle_changed.changes,
}

MOST_WAYS = 400  # of one slip that are looked at
MOST_LAID = 12  # of these, those that are laid on the outline to see whether they can be told from it
NARROW = 0.05  # of the larger extent: what comes nearer to itself looks pinched
SHARP_DEG, BLUNT_DEG = 25.0, 160.0  # a corner that is sharper, or nearer to straight, is easily overlooked
NOTHING_COMES = {
    "part-moved": "no bump or notch has room on another side",
    "part-resized": "no bump or notch can be made larger or smaller",
    "angle-changed": "no corner can be moved along one of its sides",
}


def changed(outline: Outline, changes: Sequence[Change], tolerance: float) -> Outline:
    """What comes of changes, one after the other; the whole is turned over last.

    outline : without needless corners
    Raises  : CannotBeMade where that is no legal outline, MakesTheResult where it is the outline itself
    """
    made = made_by(outline, changes, tolerance)
    _check(made, outline, tolerance)
    return made


def made_by(outline: Outline, changes: Sequence[Change], tolerance: float) -> Outline:
    """The same, legal or not.

    Raises : CannotBeMade where a change finds no place
    """
    made = outline
    for change in sorted(changes, key=lambda change: change.told_as == FLIPPED):
        made = change.made_on(made, tolerance)
    return made


def _check(made: Outline, outline: Outline, tolerance: float) -> None:
    """Raises : as ``changed``"""
    if not overlay.is_simple(made) or made.area <= 0.0 or overlay.touches_itself_at(made, tolerance) is not None:
        raise CannotBeMade("the outline would touch itself")
    if made.simplified(tolerance) != made:
        raise CannotBeMade("a corner would be lost")
    if motions_onto(made, outline, tolerance):
        raise MakesTheResult("what comes out is the outline itself")


def best_change(outline: Outline, slip: str, tolerance: float) -> Change:
    """The way in which a slip happens to an outline: the first that can be told from it at a glance.

    outline : without needless corners
    Raises  : CannotBeMade where there is none, MakesTheResult where all ways give the outline itself
    """
    refusals: list[MakesTheResult] = []
    found = next(ways(outline, slip, tolerance, refusals), None)
    if found is not None:
        return found
    raise refusals[-1] if refusals else CannotBeMade(NOTHING_COMES.get(slip, "nothing comes of it"))


def ways(
    outline: Outline, slip: str, tolerance: float, refusals: list[MakesTheResult] | None = None
) -> Iterator[Change]:
    """The ways in which a slip happens to an outline that can be told from it at a glance, the best first.

    outline  : without needless corners
    refusals : takes what ways that give the outline itself are refused for, where none gives another
    """
    plain: list[Change] = []
    others: list[Change] = []
    refused: list[MakesTheResult] = []
    for change in islice(SLIPS[slip](outline, tolerance), MOST_WAYS):
        try:
            made = change.made_on(outline, tolerance)
            # The cheapest question that rules most of them out comes first, but for a crossing outline has no area.
            if slip != FLIPPED and overlay.is_simple(made) and not _is_told_as_it_lies(made, outline, tolerance):
                continue
            _check(made, outline, tolerance)
        except MakesTheResult as error:
            refused.append(error)
            continue
        except CannotBeMade:
            continue
        if slip == FLIPPED:  # how far a mirror image is from the outline is for whoever chooses options
            yield change
            return
        (plain if _is_plain(made, outline) else others).append(change)
        if len(plain) == MOST_LAID:
            break
    for change in (*plain, *others)[:MOST_LAID]:
        made = changed(outline, (change,), tolerance)
        least = LEAST_GAP * max(diameter(made.exterior), diameter(outline.exterior))
        found, difference = apart(made, outline, least)
        if found >= least and difference >= NEARLY_RIGHT * outline.area:
            yield change
    if refusals is not None and not plain and not others:
        refusals += refused


def _is_told_as_it_lies(made: Outline, outline: Outline, tolerance: float) -> bool:
    """Whether two outlines differ by enough, where they lie, to be told from each other."""
    if not _differs(made, outline, NEARLY_RIGHT * outline.area, tolerance):
        return False
    return hausdorff_distance(made, outline) >= LEAST_GAP * max(diameter(made.exterior), diameter(outline.exterior))


def slip_faults(item: TurnedOutline) -> list[Fault]:
    """What is wrong with the naming of slips, before any is made."""
    return [
        Fault(
            field=f"options[{index}].slip",
            message=f"there is no slip called {option.slip}",
            fix=f"write slip: {nearest(option.slip, SLIPS) or listed(sorted(SLIPS))}",
        )
        for index, option in enumerate(item.options)
        if option.slip is not None and option.slip not in SLIPS
    ]


def _differs(made: Outline, outline: Outline, least: float, tolerance: float) -> bool:
    """Whether two outlines, as they lie, differ by so much area, slivers left out."""
    # Slivers are no thicker than the tolerance, so they come to less than it along both boundaries.
    slivers = tolerance * sum(perimeter(ring) for ring in (*made.rings, *outline.rings))
    area = overlay.difference_area(made, outline)
    if not least - 1e-6 * outline.area < area < least + slivers:
        return area >= least
    more, less = overlay.regions(made, outline, tolerance), overlay.regions(outline, made, tolerance)
    return sum(part.area for part in (*more, *less)) >= least


def _is_plain(made: Outline, outline: Outline) -> bool:
    """Whether each corner of what comes out is seen, as far as those of the outline are."""
    size = max(diameter(made.exterior), diameter(outline.exterior))
    if shortest_side(made.rings) < min(FINE * size, 0.99 * shortest_side(outline.rings)):
        return False
    angles, own = _bends(made), _bends(outline)
    if min(angles) < min(SHARP_DEG, min(own) - 0.1) or max(angles) > max(BLUNT_DEG, max(own) + 0.1):
        return False
    area_off = abs(made.area / outline.area - 1.0)
    return area_off <= 0.25 and overlay.touches_itself_at(made, NARROW * made.larger_extent) is None


def _bends(outline: Outline) -> list[float]:
    return [min(angle, 360.0 - angle) for ring in outline.rings for angle in interior_angles_deg(ring)]
