"""What the file gives: the base and each piece in its own coordinates, corners and sides numbered, marks named."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from ....choice.panels.grid import ROOM, scale_to_fit
from ....choice.panels.named_sides import closing_lines, corner_line, side_line
from ....choice.panels.plot import Plot
from ....choice.panels.remarks import Remarks
from ....choice.panels.view import Panel, PanelPicture
from ....document.notation import shown, shown_point
from ....figure.theme import Theme
from ....geometry.angles import wrapped_deg
from ....geometry.outline import Outline
from ....geometry.rigid_motion import RigidMotion
from ....geometry.rings import larger_extent
from ....geometry.tolerance import authoring_tolerance
from ....words.mark_names import the_other_mark
from ....words.names import area_in_words, sentence_case, the_piece
from ..model import BASE, Item, Piece
from ..words.actions import verb_on_page

__all__ = ["base_panel", "owner_named", "piece_panels", "side_by_side"]

_LEAST, _MOST = 2.2, 3.8  # of a piece's larger extent: it has the base's scale where that lies between
_SHOWN = 2.4  # the most of it where it is shown turned


def base_panel(item: Item, remarks: Remarks, line_of: Callable[[str], int], theme: Theme) -> Panel:
    """The base as the file lists it, with the marks of the pieces that meet it."""
    plot = Plot(item.base.rings, scale_to_fit(item.base.rings, *ROOM), theme)
    plot.material(item.base, BASE, theme.base)
    tolerance = authoring_tolerance(item.extent)
    ring = item.base_corners
    lines = [corner_line(ring)]
    for number, hole in enumerate(item.base.holes, start=1):
        lines.append(f"Hole {number}: " + ", ".join(map(shown_point, hole)))
    for index, piece in marks_on(BASE, item):
        plot.mark(piece.meets, piece.mark, index + 1, item.base)
        lines.append(side_line(ring, piece.meets, piece.mark, f"{the_piece(piece.name)} meets it", tolerance))
    lines += closing_lines(item, "base")
    remarks.keep_free(plot, "base")
    plot.numbered(ring, item.base.holes)
    remarks.draw(plot, "base")
    return Panel(
        name="base",
        heading="The base",
        line=line_of("base"),
        pictures=(plot.picture(f"The base on a grid, with {len(ring)} numbered corners"),),
        lines=(*lines, f"It is {area_in_words(item.base.area)} in size."),
        remarks=remarks.of("base"),
    )


def piece_panels(item: Item, remarks: Remarks, line_of: Callable[[str], int], theme: Theme) -> Iterator[Panel]:
    """Each piece in its own coordinates, and as the sheet shows it."""
    base_scale = scale_to_fit(item.base.rings, *ROOM)
    tolerance = authoring_tolerance(item.extent)
    for index, piece in enumerate(item.pieces):
        name = f"piece-{index + 1}"
        shape = Outline.of(piece.corners)
        scale = min(max(base_scale, _LEAST / shape.larger_extent), _MOST / shape.larger_extent)
        plot = Plot((piece.corners,), scale, theme)
        plot.patterned(piece.corners, piece.does)
        plot.mark(piece.side, piece.mark, index + 1, shape)
        what = f"it meets {the_other_mark(piece.mark)}, of {owner_named(piece)}"
        lines = [corner_line(piece.corners), side_line(piece.corners, piece.side, piece.mark, what, tolerance)]
        for later, other in marks_on(piece.name, item):
            plot.mark(other.meets, other.mark, later + 1, shape)
            meets = f"{the_piece(other.name)} meets it"
            lines.append(side_line(piece.corners, other.meets, other.mark, meets, tolerance))
        lines += closing_lines(item, f"pieces[{index}]")
        remarks.keep_free(plot, name)
        plot.numbered(piece.corners)
        remarks.draw(plot, name)
        own = plot.picture(
            f"{piece.name} on a grid, with {len(piece.corners)} numbered corners", "as the file lists it"
        )
        lines.append(f"It is {area_in_words(shape.area)} in size.")
        yield Panel(
            name=name,
            heading=sentence_case(the_piece(piece.name)),
            word=f"to {verb_on_page(piece.does, theme)}",
            line=line_of(f"pieces[{index}]"),
            pictures=(own, *_as_shown(piece, index, scale, theme)),
            lines=tuple(lines),
            remarks=remarks.of(name),
        )


def _as_shown(piece: Piece, index: int, scale: float, theme: Theme) -> Iterator[PanelPicture]:
    turn_deg = wrapped_deg(piece.turned)
    if turn_deg == 0.0:
        return
    motion = RigidMotion(turn_deg=turn_deg)
    ring = motion.apply(piece.corners)
    plot = Plot((ring,), min(scale, _SHOWN / larger_extent(ring)), theme, grid=False, margin=0.52)
    shape = plot.patterned(ring, piece.does, turned=turn_deg)
    plot.mark(side_by_side(motion.apply(piece.side)), piece.mark, index + 1, shape)
    plot.corners(ring)
    yield plot.picture(f"{piece.name} as the sheet shows it", f"as the sheet shows it: turned {shown(piece.turned)}°")


def side_by_side(ends: tuple[tuple[float, float], ...]) -> tuple[tuple[float, float], tuple[float, float]]:
    """Two points of a moved side as the pair that they are."""
    return ends[0], ends[1]


def owner_named(piece: Piece) -> str:
    """What a piece is brought to, in a sentence."""
    return "the base" if piece.of == BASE else the_piece(piece.of)


def marks_on(owner: str, item: Item) -> tuple[tuple[int, Piece], ...]:
    """The pieces, each with its index, whose partner mark stands on the base or on a piece of that name."""
    return tuple((index, piece) for index, piece in enumerate(item.pieces) if piece.of == owner)
