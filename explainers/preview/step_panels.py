"""What solving finds: each piece laid on the outline as it stands, then the finished outline."""

from __future__ import annotations

import math
from collections.abc import Iterator

from ..choice.model import Solution
from ..choice.words.report import plan_lines
from ..document.notation import shown
from ..figure.model import Role
from ..figure.theme import Theme
from ..geometry.angles import wrapped_deg
from ..geometry.outline import Outline
from ..geometry.overlay import pole
from ..geometry.rigid_motion import RigidMotion, Ring
from ..geometry.rings import centroid
from ..geometry.tolerance import MEANT_DEG, authoring_tolerance
from ..kinds.join_and_cut.model import BASE, Does, Item, Piece
from ..kinds.join_and_cut.solving.placement import Placement
from ..words.names import area_in_words, list_in_words, number_of, sentence_case, the_piece, turn_in_words
from .grid import scale_to_fit
from .named_sides import owner_named, side_named
from .plot import Plot, midway
from .remarks import Remarks
from .sheet_panels import side_by_side
from .view import Panel, Picture

__all__ = ["outline_alone", "result_panel", "step_panels"]

_ROOM = (5.0, 4.2)
_TURNING = 2.6  # room for the turn of a piece


def step_panels(solution: Solution, remarks: Remarks, theme: Theme) -> Iterator[Panel]:
    """One panel a placement: the turn, the outline before with the piece laid on it, which sides meet."""
    item = solution.item
    scale = scale_to_fit(_all_rings(solution), *_ROOM)
    tolerance = authoring_tolerance(item.extent)
    plan = plan_lines(solution)[1:]
    for index, (placement, planned) in enumerate(zip(solution.placements, plan, strict=False)):
        name = f"step-{index + 1}"
        does = "join" if placement.piece.does is Does.JOIN else "cut away"
        piece = placement.piece
        own = side_named(piece.corners, piece.side, tolerance)
        other = side_named(_listed(piece.of, item), piece.meets, tolerance)
        before, after = placement.before.area, placement.after.area
        yield Panel(
            name=name,
            heading=f"{index + 1}. {sentence_case(does)} {the_piece(piece.name)}",
            pictures=(
                _turn(placement, index, remarks, name, theme),
                _laid(solution, placement, index, scale, theme),
            ),
            lines=(
                planned.partition(" ")[2],
                f"{sentence_case(own)} of {the_piece(piece.name)} meets {other} of {owner_named(piece)}.",
                f"Before, the outline is {area_in_words(before)} in size; after, {area_in_words(after)}.",
            ),
            remarks=remarks.of(name),
        )


def result_panel(solution: Solution, remarks: Remarks, theme: Theme) -> Panel:
    """The finished outline with its area, and its corners as a file would list them."""
    outline = solution.outline
    plot = Plot(_all_rings(solution), scale_to_fit(_all_rings(solution), *_ROOM), theme)
    plot.cloth(outline, Role.OUTLINE, theme.outline, width=theme.outline_width)
    area = f"area {shown(round(outline.area, 4))}"
    plot.name(area, pole(outline), size=0.28, colour=theme.ink, on=theme.outline, bold=True)
    remarks.draw(plot, "result")
    counts = [number_of(outline.corner_count, "corner")]
    if outline.holes:
        counts.append(number_of(len(outline.holes), "hole"))
    positions = solution.symmetry_order
    alike = "one turned position only" if positions == 1 else f"{positions} turned positions"
    typed = [f"corners: {_typed(outline.exterior)}"]
    if outline.holes:
        typed.append(f"holes: [{', '.join(map(_typed, outline.holes))}]")
    return Panel(
        name="result",
        heading="The finished outline",
        pictures=(plot.picture("The finished outline on the grid of the base"),),
        lines=(
            f"It has {list_in_words(counts)} and is {area_in_words(outline.area)} in size.",
            f"It looks the same in {alike}.",
        ),
        typed=tuple(typed),
        remarks=remarks.of("result"),
    )


def outline_alone(solution: Solution, theme: Theme) -> Picture:
    """The finished outline, small."""
    rings = solution.outline.rings
    plot = Plot(rings, scale_to_fit(rings, 1.68, 1.2), theme, grid=False, margin=0.08)
    plot.cloth(solution.outline, Role.OUTLINE, theme.outline)
    return plot.picture(f"The finished outline of {solution.item.title}")


def _turn(placement: Placement, index: int, remarks: Remarks, name: str, theme: Theme) -> Picture:
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
    shape = plot.piece(after, piece.does, turned=placement.motion.turn_deg)
    from_side = side_by_side(shown_motion.apply(piece.side))
    if turns:
        before = Outline.of(shown_motion.apply(piece.corners))
        plot.cloth(before, Role.JOIN if piece.does is Does.JOIN else Role.CUT, stroke=theme.quiet, width=0.028)
        plot.line(from_side, theme.quiet, theme.mark_width)
    plot.mark(side_by_side(turned_motion.apply(piece.side)), piece.mark, index + 1, shape)
    if turns:
        plot.arc((0.0, 0.0), midway(from_side), placement.turn_deg, reach * scale + 0.18)
    remarks.draw(plot, name, "turn")
    words = turn_in_words(placement.turn_deg)
    alt = f"{piece.name} as the sheet shows it, a thin outline, and turned as it will lie: {words}"
    return plot.picture(alt, words)


def _laid(solution: Solution, placement: Placement, index: int, scale: float, theme: Theme) -> Picture:
    piece = placement.piece
    plot = Plot(_all_rings(solution), scale, theme)
    plot.cloth(placement.before, Role.BASE, theme.base)
    laid = plot.piece(placement.ring, piece.does, turned=placement.motion.turn_deg)
    plot.mark(placement.side, piece.mark, index + 1, laid)
    plot.corners(placement.motion.apply(piece.corners))
    alt = f"The outline before, and {piece.name} laid where its mark {piece.mark} meets its partner"
    return plot.picture(alt, "laid on the outline as it stands; the piece keeps its corners' numbers")


def _all_rings(solution: Solution) -> tuple[Ring, ...]:
    return (*solution.item.base.rings, *(placement.ring for placement in solution.placements))


def _listed(owner: str, item: Item) -> Ring:
    host: Piece | None = next((piece for piece in item.pieces if piece.name == owner), None)
    return item.base_corners if owner == BASE or host is None else host.corners


def _typed(ring: Ring) -> str:
    return "[" + ", ".join(f"[{shown(round(x, 6))}, {shown(round(y, 6))}]" for x, y in ring) + "]"
