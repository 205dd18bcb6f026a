"""What stands out in a picture, and where the things of a question are drawn in it: read from the entries alone.

Nothing here asks the package where it draws: a view is found from the rings of the question and the rings in the
picture, so that a mark at a wrong place is a fault even where outline and mark were moved by the same mistake.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

import shapely

from explainers.choice.model import Solution
from explainers.figure.model import Area, Arrow, Circle, Dots, Entry, Figure, Label, Lines, Role
from explainers.figure.theme import Theme
from explainers.geometry.outline import Outline
from explainers.geometry.rigid_motion import Point, Ring, Side
from explainers.kinds.join_and_cut.model import Does
from explainers.kinds.join_and_cut.solving.solution import JoinAndCutSolution
from explainers.storyboard.model import Step, Still

__all__ = ["Shown", "Views", "seen_while_spoken", "shown_in"]

NEAR = 0.03  # stage units: where the same place may be drawn twice


@dataclass
class Shown:
    """What stands out, in stage units."""

    points: list[Point] = field(default_factory=list)
    circles: list[Point] = field(default_factory=list)  # rings round one of the points
    crosses: list[Point] = field(default_factory=list)
    sides: list[Side] = field(default_factory=list)  # or parts of them, where a line is broken
    regions: list[Area] = field(default_factory=list)
    rings: list[Circle] = field(default_factory=list)  # round a place where something differs
    wholes: list[str] = field(default_factory=list)  # options that are framed
    markers: list[Point] = field(default_factory=list)  # of a walk
    turns: list[Entry] = field(default_factory=list)
    texts: list[str] = field(default_factory=list)


def shown_in(figure: Figure, theme: Theme) -> Shown:
    """Everything that is pointed at, ringed, dotted or drawn in the colour of attention, of right or of wrong.

    Verdict signs beside letters, ticks in the list of pieces, heading and progress say how far the lesson has got.
    """
    shown = Shown()
    for entry in figure.entries:
        if not _stands_out(entry, theme):
            continue
        match entry:
            case Circle() if entry.group.startswith("walker"):
                shown.markers.append(entry.centre)
            case Circle() if entry.role == Role.WRONG and entry.fill is None:
                shown.rings.append(entry)
            case Circle():
                shown.points.append(entry.centre)
                if entry.fill is None:
                    shown.circles.append(entry.centre)
            case Dots():
                shown.points += entry.centres
            case Lines() if entry.role == Role.TURN:
                shown.turns.append(entry)
            case Lines() if "chosen-outline" in entry.id:
                assert entry.subject is not None
                shown.wholes.append(entry.subject.name)
            case Lines() if "corners-gone" in entry.id:  # a cross is two strokes of one middle
                shown.crosses += [_middle(stroke) for stroke in entry.segments[::2]]
                shown.points += shown.crosses
            case Lines():
                shown.sides += entry.segments
            case Arrow() if entry.role == Role.TURN:
                shown.turns.append(entry)
            case Arrow():
                shown.sides.append((entry.path[0], entry.path[-1]))
            case Area() if entry.role == Role.OPTION:
                assert entry.subject is not None
                shown.wholes.append(entry.subject.name)
            case Area():
                shown.regions.append(entry)
            case Label() if entry.role == Role.TURN:
                shown.turns.append(entry)
            case Label():
                shown.texts.append(entry.text)
    return shown


def _stands_out(entry: Entry, theme: Theme) -> bool:
    if entry.role in (Role.HEADING, Role.PROGRESS, Role.CLOCK) or entry.id.endswith(("-sign", "-done")):
        return False
    colours = {getattr(entry, name, None) for name in ("fill", "stroke", "colour")}
    return entry.role in (Role.POINTER, Role.WRONG, Role.RIGHT) or bool(
        colours & {theme.attention, theme.wrong, theme.right}
    )


def seen_while_spoken(step: Step) -> list[Figure]:
    """The stills over which something is said or learners look, the last among them: no still that goes at once."""
    found = []
    heard, motions = 0, 0
    for index, beat in enumerate(step.beats):
        if not isinstance(beat, Still):
            continue
        following = step.beats[index + 1 : index + 2]
        if not following or isinstance(following[0], Still) or beat.hold_s:
            found.append(beat.figure)
            continue
        after = following[0].after_sentences
        after = motions if after is None else after
        if after > heard:
            found.append(beat.figure)
        heard, motions = max(heard, after), motions + 1
    return found


@dataclass(frozen=True)
class Affine:
    """A turn, a growth and a shift as two complex numbers."""

    factor: complex
    shift: complex

    def of(self, point: Point) -> Point:
        there = self.factor * complex(*point) + self.shift
        return there.real, there.imag


class Views:
    """Where the things of a question are drawn in one picture."""

    def __init__(self, figure: Figure, solution: Solution) -> None:
        self._areas = {entry.id.lower(): entry for entry in figure.entries if isinstance(entry, Area)}
        self._solution = solution

    def of(self, owner: str) -> list[Affine]:
        """The views by which a thing may be drawn: several where it is alike under a turn; none where it is not."""
        kind, _, name = owner.partition(" ")
        match kind:
            case "outline":
                area = self._areas.get("outline") or self._areas.get("outline-cloth")
                return [] if area is None else _views(self._solution.outline.exterior, area.rings[0], turned=False)
            case "option":
                area = self._areas.get(f"option-{name.lower()}")
                verdict = next(verdict for verdict in self._solution.verdicts if verdict.label == name)
                # Its rings are drawn in their order; the facts speak of it where it is laid on the outline.
                laid = verdict.outline.moved(verdict.fit.motion).exterior
                return [] if area is None else [_view(laid, area.rings[0])]
            case "piece":
                area = self._areas.get(f"piece-{name}")
                assert isinstance(self._solution, JoinAndCutSolution)
                placed = self._solution.placements[int(name) - 1].ring
                return [] if area is None else _views(placed, area.rings[0])
            case _:
                return list(self._of_base())

    def _of_base(self) -> Iterator[Affine]:
        """The base without what has been cut away by now: never turned, so its box tells where it is."""
        area = self._areas.get("base")
        if area is None or not isinstance(self._solution, JoinAndCutSolution):
            return
        drawn = shapely.MultiPoint([point for ring in area.rings for point in ring]).bounds
        item = self._solution.item
        left = shapely.Polygon(item.base.exterior, item.base.holes)
        cuts = [p.ring if p.piece.does is Does.CUT else None for p in self._solution.placements]
        for cut in (None, *cuts):
            if cut is not None:
                left = left.difference(shapely.Polygon(cut).buffer(1e-9))
            a, b, c, d = left.bounds
            scale = (drawn[2] - drawn[0]) / (c - a)
            if math.isclose(scale, (drawn[3] - drawn[1]) / (d - b), rel_tol=1e-4):
                yield Affine(complex(scale), complex(drawn[0] - scale * a, drawn[1] - scale * b))


def _view(ring: Ring, drawn: Ring) -> Affine:
    """By the two corners that are farthest from each other of those that follow one another."""
    z, w = [complex(*point) for point in ring], [complex(*point) for point in drawn]
    at = max(range(len(z)), key=lambda index: abs(z[index] - z[index - 1]))
    factor = (w[at] - w[at - 1]) / (z[at] - z[at - 1])
    return Affine(factor, w[at] - factor * z[at])


def _views(ring: Ring, drawn: Ring, *, turned: bool = True) -> list[Affine]:
    """Every similarity, none a flip, that lays the one ring on the other, from whichever corner they start.

    turned : whether it may be turned
    """
    ring, drawn = _plain(ring), _plain(drawn)
    if len(ring) != len(drawn):
        return []
    found = []
    for start in range(len(ring)):
        view = _view(ring, drawn[start:] + drawn[:start])
        fits = all(math.dist(view.of(a), b) < NEAR for a, b in zip(ring, drawn[start:] + drawn[:start], strict=True))
        if fits and (turned or abs(view.factor.imag) < 1e-6 * abs(view.factor)) and (turned or view.factor.real > 0):
            found.append(view)
    return found


def _plain(ring: Ring) -> Ring:
    """Anticlockwise, without corners at which it runs straight on."""
    ring = ring if shapely.LinearRing(ring).is_ccw else ring[::-1]
    return tuple(
        at
        for before, at, after in zip(ring[-1:] + ring[:-1], ring, ring[1:] + ring[:1], strict=True)
        if abs(_sine(before, at, after)) > 1e-3
    )


def _sine(before: Point, at: Point, after: Point) -> float:
    (ux, uy), (vx, vy) = (at[0] - before[0], at[1] - before[1]), (after[0] - at[0], after[1] - at[1])
    return (ux * vy - uy * vx) / (math.hypot(ux, uy) * math.hypot(vx, vy))


def _middle(stroke: Side) -> Point:
    (a, b), (c, d) = stroke
    return (a + c) / 2, (b + d) / 2


def on_side(stroke: Side, side: Side) -> bool:
    """Whether a stroke runs along a side, or along a part of it."""
    line = shapely.LineString(side)
    return all(line.distance(shapely.Point(end)) < NEAR for end in stroke)


def covers(strokes: Sequence[Side], side: Side) -> bool:
    """Whether strokes along a side reach from its one end to its other."""
    along = [stroke for stroke in strokes if on_side(stroke, side)]
    return all(any(math.dist(corner, end) < 2 * NEAR for stroke in along for end in stroke) for corner in side)


def as_polygon(shape: Outline | Area) -> shapely.Polygon:
    """A region."""
    exterior, *holes = shape.rings
    return shapely.Polygon(exterior, holes)
