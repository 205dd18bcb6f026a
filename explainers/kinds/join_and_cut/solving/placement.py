"""One piece laid where its mark meets its partner's, as a plain value.

Everything stands in the base's coordinates unless a field says otherwise.
"""

from __future__ import annotations

from dataclasses import dataclass

from ....geometry.outline import Outline
from ....geometry.rigid_motion import RigidMotion, Ring, Side
from ..model import Piece

__all__ = ["Placement"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Placement:
    """One piece laid where its mark meets its partner's."""

    piece: Piece
    motion: RigidMotion  # from the piece's own coordinates to the base's
    turn_deg: float  # from the piece as the sheet shows it to where it lies, in (-180, 180]
    ring: Ring  # the piece where it lies, anticlockwise, welded to its neighbours
    side: Side  # the marked side where it lies, walked with the piece on the left
    partner: Side  # the side that it meets, walked with the partner's material on the left
    before: Outline  # the outline before this piece, needless corners dropped
    after: Outline  # the outline after it, likewise
