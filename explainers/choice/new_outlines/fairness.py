"""Whether an outline is good to look at: no short side, no needle, no narrow neck.

The demands are ours, measured on drawings; there is no source for them.
"""

from __future__ import annotations

from ...geometry.outline import Outline
from ...geometry.rings import interior_angles_deg, shortest_side, sides
from ...geometry.simple import meeting, self_contact

__all__ = ["is_fair"]

SHORTEST_SIDE = 1 / 8  # of the larger extent
NARROWEST = 1 / 11  # of the larger extent: what keeps two parts of the boundary apart
SHARPEST_DEG = 26.0
BLUNTEST_DEG = 165.0  # nearer to straight, a corner is easily overlooked


def is_fair(outline: Outline, *, extent: float | None = None) -> bool:
    """Whether a drawing of the outline shows each of its corners.

    extent : the larger extent of what it is drawn beside; left out, its own
    """
    size = max(extent or 0.0, outline.larger_extent)
    if shortest_side(outline.rings) < SHORTEST_SIDE * size - 1e-9:
        return False
    if any(not _plain(angle) for ring in outline.rings for angle in interior_angles_deg(ring)):
        return False
    narrow = NARROWEST * outline.larger_extent
    if any(self_contact(ring, narrow) is not None for ring in outline.rings):
        return False
    return not any(
        meeting(one, other, narrow)
        for i, ring in enumerate(outline.rings)
        for later in outline.rings[i + 1 :]
        for one in sides(ring)
        for other in sides(later)
    )


def _plain(angle_deg: float) -> bool:
    bend = min(angle_deg, 360.0 - angle_deg)
    return SHARPEST_DEG <= bend <= BLUNTEST_DEG
