"""What solving finds: each piece laid on the outline as it stands."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from ....choice.panels.grid import SMALL_ROOM, scale_to_fit
from ....choice.panels.named_sides import side_named
from ....choice.panels.outline_panels import result_panel
from ....choice.panels.plot import Plot, midway
from ....choice.panels.remarks import Remarks
from ....choice.panels.view import Panel, PanelPicture
from ....choice.words.report import plan_lines
from ....figure.theme import Theme
from ....geometry.angles import wrapped_deg
from ....geometry.outline import Outline
from ....geometry.rigid_motion import RigidMotion, Ring
from ....geometry.rings import centroid
from ....geometry.tolerance import MEANT_DEG, authoring_tolerance
from ....words.mark_names import the_marks
from ....words.names import area_in_words, sentence_case, the_piece, turn_in_words
from ..model import BASE, Item, Piece
from ..solving.placement import Placement
from ..solving.solution import JoinAndCutSolution
from ..words.actions import verb_on_page
from .given import owner_named, side_by_side

__all__ = ["step_panels"]

_TURNING = 2.6  # room for the turn of a piece


def step_panels(solution: JoinAndCutSolution, remarks: Remarks, theme: Theme) -> Iterator[Panel]:
    """One panel a placement: its turn, the piece laid on the outline before, which sides meet; last the result."""
    item = solution.item
    all_rings = (*item.base.rings, *(placement.ring for placement in solution.placements))
    scale = scale_to_fit(all_rings, *SMALL_ROOM)
    tolerance = authoring_tolerance(item.extent)
    plan = plan_lines(solution)[1:]
    for index, (placement, planned) in enumerate(zip(solution.placements, plan, strict=False)):
        name = f"step-{index + 1}"
        does = verb_on_page(placement.piece.does, theme)
        piece = placement.piece
        own = side_named(piece.corners, piece.side, tolerance)
        other = side_named(_listed(piece.of, item), piece.meets, tolerance)
        before, after = placement.before.area, placement.after.area
        yield Panel(
            name=name,
            heading=f"{index + 1}. {sentence_case(does)} {the_piece(piece.name)}",
            pictures=(
                _turn(placement, index, remarks, name, theme),
                _laid(all_rings, placement, index, scale, theme),
            ),
            lines=(
                planned.partition(" ")[2],
                f"{sentence_case(own)} of {the_piece(piece.name)} meets {other} of {owner_named(piece)}.",
                f"Before, the outline is {area_in_words(before)} in size; after, {area_in_words(after)}.",
            ),
            remarks=remarks.of(name),
        )
    alt = "The finished outline on the grid of the base"
    yield result_panel(solution, all_rings, remarks, theme, alt=alt)


def _turn(placement: Placement, index: int, remarks: Remarks, name: str, theme: Theme) -> PanelPicture:
    """The piece as the sheet shows it, and turned about its own middle to where it will lie."""
    piece = placement.piece
    middle = centroid(piece.corners)
    about = RigidMotion(shift=(-middle[0], -middle[1]))
    shown_motion = RigidMotion(turn_deg=wrapped_deg(piece.turned)).after(about)
    turned_motion = RigidMotion(turn_deg=placement.motion.turn_deg).after(about)
    after = turned_motion.apply(piece.corners)
    turns = abs(placement.turn_deg) > MEANT_DEG
    # A square round the circle in which the piece turns: the arrow runs outside it, clear of the marks.
    reach = max(math.hypot(x, y) for x, y in after)
    square = ((-reach, -reach), (reach, -reach), (reach, reach), (-reach, reach))
    scale = _TURNING / (2 * reach)
    plot = Plot((square,), scale, theme, grid=False, margin=0.4)
    shape = plot.patterned(after, piece.does, turned=placement.motion.turn_deg)
    from_side = side_by_side(shown_motion.apply(piece.side))
    if turns:
        before = Outline.of(shown_motion.apply(piece.corners))
        plot.material(before, piece.does, stroke=theme.quiet, width=0.028)
        plot.line(from_side, theme.quiet, theme.mark_width)
    plot.mark(side_by_side(turned_motion.apply(piece.side)), piece.mark, index + 1, shape)
    if turns:
        plot.arc((0.0, 0.0), midway(from_side), placement.turn_deg, reach * scale + 0.18)
    remarks.draw(plot, name, "turn")
    words = turn_in_words(placement.turn_deg)
    alt = f"{piece.name} as the sheet shows it, a thin outline, and turned as it will lie: {words}"
    return plot.picture(alt, words)


def _laid(rings: Sequence[Ring], placement: Placement, index: int, scale: float, theme: Theme) -> PanelPicture:
    piece = placement.piece
    plot = Plot(rings, scale, theme)
    plot.material(placement.before, BASE, theme.base)
    laid = plot.patterned(placement.ring, piece.does, turned=placement.motion.turn_deg)
    plot.mark(placement.side, piece.mark, index + 1, laid)
    plot.corners(placement.motion.apply(piece.corners))
    alt = f"The outline before, and {piece.name} laid where {the_marks(piece.mark)} meet"
    return plot.picture(alt, "laid on the outline as it stands; the piece keeps its corners' numbers")


def _listed(owner: str, item: Item) -> Ring:
    host: Piece | None = next((piece for piece in item.pieces if piece.name == owner), None)
    return item.base_corners if owner == BASE or host is None else host.corners
