"""Pictures in words, for readers who cannot see them: enough to answer the question, without answering it.

An outline is told corner by corner, the inside on the left all the way, so that a shape and its mirror image are told
differently while a turned shape is told alike but for where the telling starts. Nothing here says which option fits.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from ...geometry.outline import Outline
from ...geometry.rigid_motion import Point, Ring, Side
from ...geometry.rings import extent, interior_angles_deg, larger_extent, sides
from ...geometry.side import unit_vector
from ...geometry.tolerance import authoring_tolerance
from ...words.mark_names import the_mark
from ...words.messages import say, say_count
from ...words.names import (
    degrees_in_words,
    is_half_turn,
    is_no_turn,
    is_quarter_turn,
    length_in_words,
    list_in_words,
    sentence_case,
)
from ..differences.difference import DifferenceFact
from ..model import Solution, Verdict

__all__ = [
    "Mark",
    "beside_alt",
    "check_alt",
    "choices_alt",
    "corners_alt",
    "how_told",
    "option_alt",
    "options_alt",
    "options_told",
    "outline_alt",
    "stretch_alt",
    "turn_alt",
]

Mark = tuple[str, Side]  # the sign or letters, the marked stretch


def outline_alt(outline: Outline, *, marks: Sequence[Mark] = (), way_told: bool = False) -> str:
    """An outline told corner by corner, going anticlockwise from its lowest corner.

    outline  : as it is drawn, in any coordinates, needless corners dropped
    marks    : marked stretches, in the same coordinates; one off its outside is told by its place
    way_told : whether it has been told already where an outline starts, and what is told of each side
    """
    outer = _from_lowest(outline.exterior)
    tolerance = authoring_tolerance(larger_extent(outer))
    told = [
        say_count("An outline with {count} corner.", "An outline with {count} corners.", len(outer)),
        say("Going anticlockwise: {walk}.", walk=_walk(outer))
        if way_told
        else say(
            "Going anticlockwise from the lowest corner, each side with the angle inside at its end: {walk}.",
            walk=_walk(outer),
        ),
    ]
    for index, hole in enumerate(outline.holes, start=1):
        inner = _from_lowest(hole[::-1])
        told.append(_hole(index, len(outline.holes), len(inner), _place(outer, inner[0])))
        told.append(say("Going anticlockwise round the hole: {walk}.", walk=_walk(inner)))
    told += [stretch_alt(mark, outer, stretch, tolerance) for mark, stretch in marks]
    return " ".join(told)


def option_alt(label: str, outline: Outline, *, way_told: bool = False) -> str:
    """An option as it is drawn."""
    return " ".join((say("Option {label}.", label=label), outline_alt(outline, way_told=way_told)))


def turn_alt(turn_deg: float) -> str:
    """The arrow that shows a turn."""
    if is_no_turn(turn_deg):
        return say("An arrow that shows no turn.")
    if is_half_turn(turn_deg):
        return say("An arrow that shows half a turn.")
    if is_quarter_turn(turn_deg):
        if turn_deg > 0:
            return say("An arrow that shows a quarter turn anticlockwise.")
        return say("An arrow that shows a quarter turn clockwise.")
    degrees = degrees_in_words(turn_deg)
    if turn_deg > 0:
        return say("An arrow that shows a turn of {degrees} anticlockwise.", degrees=degrees)
    return say("An arrow that shows a turn of {degrees} clockwise.", degrees=degrees)


def options_alt(solution: Solution) -> str:
    """The options of a question on that page."""
    told = [say("A page of options."), how_told(), *options_told(solution)]
    return " ".join(told)


def check_alt(solution: Solution) -> str:
    """The outline beside the options, of which none has been tried."""
    if solution.item.outline_given:
        top, here = say("An outline with options beside it."), say("The outline to find.")
    else:
        top, here = say("A finished outline with options beside it."), say("The finished outline.")
    told = [top, how_told(), here, outline_alt(solution.outline, way_told=True)]
    return " ".join([*told, *options_told(solution)])


def choices_alt(
    solution: Solution,
    *,
    settled: tuple[str, ...] = (),
    laid: Verdict | None = None,
    reason: DifferenceFact | None = None,
    kept: bool = False,
) -> str:
    """The options beside the outline."""
    labels = [verdict.label for verdict in solution.verdicts]
    listed = list_in_words(labels)
    if solution.item.outline_given:
        told = [say("The outline, with the options {labels} beside it.", labels=listed)]
    else:
        told = [say("The finished outline, with the options {labels} beside it.", labels=listed)]
    out = [label for label in labels if label in settled and not _same(solution, label)]
    if out:
        told.append(say_count("{labels} has a cross.", "{labels} have crosses.", len(out), labels=list_in_words(out)))
    if laid is not None:
        told.append(say("Option {label} lies on the outline.", label=laid.label))
        if reason is not None:
            told.append(say("A ring shows a place where they differ."))
        if kept:
            told.append(say("It fits all the way round."))
    return " ".join(told)


def beside_alt(label: str, *, settled: Sequence[str] = (), outline_given: bool = False) -> str:
    """One option beside the outline, the others away.

    settled       : the options that are out
    outline_given : as `Question.outline_given`
    """
    if outline_given:
        told = [say("The outline, with option {label} beside it, as large as there is room.", label=label)]
    else:
        told = [say("The finished outline, with option {label} beside it, as large as there is room.", label=label)]
    if settled:
        told.append(say("The other options are away for the moment."))
    return " ".join(told)


def corners_alt(label: str) -> str:
    """What stands out where the corners of the outline and of the right option are marked."""
    return say("Every corner of the outline and of option {label} has a dot.", label=label)


def _same(solution: Solution, label: str) -> bool:
    return any(verdict.same for verdict in solution.verdicts if verdict.label == label)


def how_told() -> str:
    """Said once for all, since a sheet has many outlines."""
    return say(
        "Every outline is told anticlockwise from the lowest corner, each side with the angle inside at its end."
    )


def options_told(solution: Solution) -> list[str]:
    """Each option as it is drawn, once it has been said how outlines are told."""
    told = [say("The options are {labels}.", labels=list_in_words([verdict.label for verdict in solution.verdicts]))]
    for verdict in solution.verdicts:
        told.append(option_alt(verdict.label, verdict.outline.moved(verdict.drawn), way_told=True))
    return told


def _hole(index: int, holes: int, corners: int, place: str) -> str:
    if holes == 1:
        return say_count(
            "It has a hole with {count} corner; its lowest corner lies {place}, counted from the lower left of the "
            "drawing.",
            "It has a hole with {count} corners; its lowest corner lies {place}, counted from the lower left of the "
            "drawing.",
            corners,
            place=place,
        )
    return say_count(
        "Hole {number} of {holes} has {count} corner; its lowest corner lies {place}, counted from the lower left of "
        "the drawing.",
        "Hole {number} of {holes} has {count} corners; its lowest corner lies {place}, counted from the lower left of "
        "the drawing.",
        corners,
        number=index,
        holes=holes,
        place=place,
    )


def _from_lowest(ring: Ring) -> Ring:
    """A ring from its lowest corner, the leftmost of those where several are equally low."""
    near = larger_extent(ring) * 1e-6
    lowest = min(y for _, y in ring)
    start = min((x, index) for index, (x, y) in enumerate(ring) if y <= lowest + near)[1]
    return ring[start:] + ring[:start]


def _walk(ring: Ring) -> str:
    angles = interior_angles_deg(ring)
    return "; ".join(
        say(
            "side {number} of length {length}, {degrees}",
            number=index + 1,
            length=_length(math.dist(start, end)),
            degrees=degrees_in_words(angles[(index + 1) % len(ring)], decimals=1),
        )
        for index, (start, end) in enumerate(sides(ring))
    )


def stretch_alt(mark: str, exterior: Ring, stretch: Side, tolerance: float) -> str:
    """Where a marked stretch lies: a whole side of an exterior, a part of one, or a place of its own off it."""
    ring = _from_lowest(exterior)
    for index, (start, end) in enumerate(sides(ring)):
        length = math.dist(start, end)
        along = unit_vector((start, end))
        offsets = [(x - start[0], y - start[1]) for x, y in stretch]
        if any(abs(along[0] * y - along[1] * x) > tolerance for x, y in offsets):
            continue
        first, last = sorted(along[0] * x + along[1] * y for x, y in offsets)
        if first < -tolerance or last > length + tolerance:
            continue
        if first <= tolerance and last >= length - tolerance:
            return sentence_case(say("{mark} is on side {number}.", mark=the_mark(mark), number=index + 1))
        told = say(
            "{mark} is on side {number}, from {start} to {end} along it.",
            mark=the_mark(mark),
            number=index + 1,
            start=_length(max(0.0, first)),
            end=_length(last),
        )
        return sentence_case(told)
    told = say(
        "{mark} is on a line from {start} to {end}, counted from the lower left of the drawing.",
        mark=the_mark(mark),
        start=_place(ring, stretch[0]),
        end=_place(ring, stretch[1]),
    )
    return sentence_case(told)


def _place(ring: Ring, point: Point) -> str:
    left, bottom, _, _ = extent(ring)
    aside, above = point[0] - left, point[1] - bottom
    across, up = _length(abs(aside)), _length(abs(above))
    is_back, is_down = aside < 0 and across != "0", above < 0 and up != "0"
    if is_back and is_down:
        return say("{across} back and {up} down", across=across, up=up)
    if is_back:
        return say("{across} back and {up} up", across=across, up=up)
    if is_down:
        return say("{across} across and {up} down", across=across, up=up)
    return say("{across} across and {up} up", across=across, up=up)


def _length(length: float) -> str:
    """Two decimals, where speech makes do with one: a reader may want to draw from these words."""
    return length_in_words(length, decimals=2)
