"""Facts: one true statement each, with the geometry that proves it.

Every class here carries the *places* it speaks of (corners, sides, regions), the *figures* it states, and enough of the
outlines for ``holds()`` to recompute the statement from scratch, by a way of its own where there is one, without
trusting whoever built the fact. Move the place, and ``holds()`` is false. No words here: sentences are made from facts
in ``explainers.wording``.

All places stand in the base's coordinates unless a field says otherwise. Lengths are in the teacher's own units
("squares" on the sheet's grid). ``tolerance`` is the item's authoring tolerance, in the same units.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from ..geometry.outline import Outline
from ..geometry.rigid_motion import Point, Ring, Side, Similarity
from ..geometry.tolerance import MEANT_DEG, TURN_DEG
from ..item.model import Does, Piece
from . import proof

__all__ = [
    "ChangeFact",
    "CornerAngleFact",
    "CornerCountFact",
    "DifferenceFact",
    "ExtraPartFact",
    "Fact",
    "HardStep",
    "HardStepFact",
    "HoleFact",
    "HolePlace",
    "MeetFact",
    "MirrorFact",
    "MissingPartFact",
    "OutlineFact",
    "PieceFact",
    "SameFact",
    "SideLengthFact",
    "TurnFact",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact:
    """One statement; ``holds`` recomputes it."""

    tolerance: float

    def holds(self) -> bool:
        """Whether the statement is true of the geometry that the fact carries."""
        raise NotImplementedError


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceFact(Fact):
    """What the task asks of a piece: its marked side shall meet another of the same length."""

    piece: Piece  # in its own coordinates, as typed
    ticks: int  # how many tick marks both sides wear

    def holds(self) -> bool:
        """The marked side lies on the piece, and is as long as the side that it shall meet."""
        return proof.is_marked(self.piece, self.tolerance)


@dataclass(frozen=True, slots=True, kw_only=True)
class TurnFact(Fact):
    """How far a piece turns from the way the sheet shows it, the shorter way round."""

    name: str
    mark: str
    does: Does
    turn_deg: float  # in (-180, 180]
    shown_ring: Ring  # the piece as the sheet shows it, turned about the origin of its own coordinates; anticlockwise
    placed_ring: Ring  # the same corners in the same order where they lie

    def holds(self) -> bool:
        """Turning the one ring by ``turn_deg``, then shifting it, gives the other."""
        return proof.is_turn(self.shown_ring, self.placed_ring, self.turn_deg, self.tolerance)


@dataclass(frozen=True, slots=True, kw_only=True)
class MeetFact(Fact):
    """Where a piece's marked side lies against its partner."""

    name: str
    mark: str
    does: Does
    of: str
    side: Side  # walked with the piece on the left
    partner: Side  # walked with the partner's material on the left
    ring: Ring  # the piece where it lies
    before: Outline  # the outline that it meets

    def holds(self) -> bool:
        """Both sides are where they are said to be and cover each other.

        Joined, the interiors lie on opposite sides of them and the piece overlaps nothing; cut, the interiors lie on
        the same side and the piece is inside the outline.
        """
        return proof.meets(
            side=self.side,
            partner=self.partner,
            ring=self.ring,
            before=self.before,
            does=self.does,
            tolerance=self.tolerance,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangeFact(Fact):
    """What joining or cutting a piece makes of the outline."""

    name: str
    does: Does
    ring: Ring
    before: Outline
    after: Outline
    piece_area: float
    area_before: float
    area_after: float

    def holds(self) -> bool:
        """The outline after is the outline before with the piece added or taken away, and the areas are right."""
        return proof.changes(
            does=self.does,
            ring=self.ring,
            before=self.before,
            after=self.after,
            areas=(self.piece_area, self.area_before, self.area_after),
            tolerance=self.tolerance,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class OutlineFact(Fact):
    """The finished outline in figures."""

    outline: Outline
    corners: int  # of the exterior and of every hole
    holes: int
    area: float

    def holds(self) -> bool:
        """Corners, holes and area are those of the outline, and none of the corners is needless."""
        return proof.is_described(self.outline, self.corners, self.holes, self.area, self.tolerance)


@dataclass(frozen=True, slots=True, kw_only=True)
class SameFact(Fact):
    """An option is the finished outline."""

    label: str
    option: Outline  # in its own coordinates
    outline: Outline
    motion: Similarity  # lays the option on the outline
    shown_turn_deg: float  # how the sheet shows the option: its `turned`
    turn_deg: float  # from the option as the sheet shows it to lying on the outline, the shorter way round

    def holds(self) -> bool:
        """The motion lays the option on the outline corner for corner, and the turn leads there."""
        return proof.is_same(self.option, self.outline, self.motion, self.shown_turn_deg, self.turn_deg, self.tolerance)


@dataclass(frozen=True, slots=True, kw_only=True)
class MirrorFact(Fact):
    """An option is the finished outline turned over: no turn lays it on."""

    label: str
    option: Outline  # in its own coordinates
    outline: Outline

    def holds(self) -> bool:
        """Turned over, the option is the outline; as it is, it is not."""
        return proof.is_mirror_only(self.option, self.outline, self.tolerance)


@dataclass(frozen=True, slots=True, kw_only=True)
class DifferenceFact(Fact):
    """A place where an option, laid on the outline as well as it can be, differs from it."""

    label: str
    option: Outline  # laid on the outline, in the base's coordinates
    outline: Outline
    place: Outline  # the differing region in which the reason is ringed
    ring_centre: Point  # inside the place

    def holds(self) -> bool:
        """The option and the outline differ all over the place, and the ring's centre is inside it."""
        return proof.differ_at(self.option, self.outline, self.place, self.ring_centre, self.tolerance)


@dataclass(frozen=True, slots=True, kw_only=True)
class CornerCountFact(DifferenceFact):
    """The option has more corners than the outline, or fewer; ``corner`` is one that the other lacks."""

    option_corners: int
    outline_corners: int
    corner: Point
    on_option: bool  # whose corner it is

    def holds(self) -> bool:
        """The counts are right and differ, and the one has a corner at the place where the other has none."""
        return DifferenceFact.holds(self) and proof.counts_corners(
            option=self.option,
            outline=self.outline,
            counts=(self.option_corners, self.outline_corners),
            corner=self.corner,
            on_option=self.on_option,
            place=self.place,
            tolerance=self.tolerance,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class CornerAngleFact(DifferenceFact):
    """The option has a corner of an angle that the outline has nowhere."""

    corner: Point
    angle_deg: float  # inside the material, 0 to 360

    def holds(self) -> bool:
        """The option has that corner with that angle at the place, and no corner of the outline comes near it."""
        return DifferenceFact.holds(self) and proof.has_foreign_angle(
            self.option, self.outline, self.corner, self.angle_deg, self.place, self.tolerance
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class SideLengthFact(DifferenceFact):
    """A side of the option lies along a side of the outline, but is longer or shorter."""

    side: Side  # of the option, laid
    length: float
    other_side: Side  # of the outline
    other_length: float

    def holds(self) -> bool:
        """Both sides are there, lie along each other the same way round, and their lengths plainly differ."""
        return DifferenceFact.holds(self) and proof.lengths_differ(
            option=self.option,
            outline=self.outline,
            side=self.side,
            other_side=self.other_side,
            lengths=(self.length, self.other_length),
            place=self.place,
            tolerance=self.tolerance,
        )


class HolePlace(StrEnum):
    """What the one that has more holes has at the place, and the other lacks."""

    HOLE = "hole"  # a hole of its own; the other is filled there
    WALL = "wall"  # material that closes a hole off from outside; the other is open there
    BAR = "bar"  # material between two holes, which are one without it


@dataclass(frozen=True, slots=True, kw_only=True)
class HoleFact(DifferenceFact):
    """The option has more holes than the outline, or fewer."""

    option_holes: int
    outline_holes: int
    at: HolePlace = HolePlace.HOLE

    def holds(self) -> bool:
        """The counts are right and differ, and the place is what makes a hole of the one that has more."""
        return DifferenceFact.holds(self) and proof.counts_holes(
            option=self.option,
            outline=self.outline,
            counts=(self.option_holes, self.outline_holes),
            place=self.place,
            centre=self.ring_centre,
            at=self.at.value,
            tolerance=self.tolerance,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class ExtraPartFact(DifferenceFact):
    """The option has material where the outline has none."""

    area: float

    def holds(self) -> bool:
        """The place is that large, inside the option, and outside the outline."""
        return DifferenceFact.holds(self) and proof.has_only(
            self.option, self.outline, self.place, self.ring_centre, self.area, self.tolerance
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class MissingPartFact(DifferenceFact):
    """The outline has material where the option has none."""

    area: float

    def holds(self) -> bool:
        """The place is that large, inside the outline, and outside the option."""
        return DifferenceFact.holds(self) and proof.has_only(
            self.outline, self.option, self.place, self.ring_centre, self.area, self.tolerance
        )


class HardStep(StrEnum):
    """What makes an item hard."""

    HALF_TURN = "half-turn"  # a piece turns by 180 degrees
    NO_TURN = "no-turn"  # a piece needs no turn at all
    LARGE_TURN = "large-turn"  # a piece turns by more than 90 degrees, less than 180
    SMALL_TURN = "small-turn"  # a piece turns by 90 degrees or less: where nothing else is hard
    ODD_TURN = "odd-turn"  # a piece turns by an angle that is no multiple of 45 degrees
    PART_SIDE = "part-side"  # a mark covers only a part of a side
    RING = "ring"  # the finished outline has a hole
    PIECE_ON_PIECE = "piece-on-piece"  # a piece meets an earlier piece, not the base
    CUT_INSIDE = "cut-inside"  # a piece is cut away: it ends on the same side of the marks as the material
    MIRROR = "mirror"  # an option is the finished outline turned over
    ORDER = "order"  # three pieces or more, each on the outline that the one before left


@dataclass(frozen=True, slots=True, kw_only=True)
class HardStepFact(Fact):
    """The one thing to remember: this item's hardest step."""

    kind: HardStep
    name: str  # the piece that the step is about; "" where it is about the outline
    label: str = ""  # the option that it is about (MIRROR)
    turn_deg: float = 0.0  # the turn of that piece
    evidence: tuple[Fact, ...]  # the facts that show it

    def holds(self) -> bool:
        """All the evidence holds, and it shows a step of this kind."""
        return all(fact.holds() for fact in self.evidence) and _shows(self)


def _shows(step: HardStepFact) -> bool:
    turns = [fact for fact in step.evidence if isinstance(fact, TurnFact) and fact.name == step.name]
    meets = [fact for fact in step.evidence if isinstance(fact, MeetFact)]
    own = [fact for fact in meets if fact.name == step.name]
    if turns and abs(turns[0].turn_deg - step.turn_deg) > TURN_DEG:
        return False
    size = abs(step.turn_deg)
    match step.kind:
        case HardStep.HALF_TURN:
            return bool(turns) and size >= 180.0 - MEANT_DEG
        case HardStep.NO_TURN:
            return bool(turns) and size <= MEANT_DEG
        case HardStep.LARGE_TURN:
            return bool(turns) and 90.0 + MEANT_DEG < size < 180.0 - MEANT_DEG
        case HardStep.SMALL_TURN:
            return bool(turns) and MEANT_DEG < size <= 90.0 + MEANT_DEG
        case HardStep.ODD_TURN:
            return bool(turns) and abs(size - 45.0 * round(size / 45.0)) > MEANT_DEG
        case HardStep.PART_SIDE:
            return bool(own) and proof.is_part_of_side(
                own[0].side, own[0].ring, own[0].partner, own[0].before, step.tolerance
            )
        case HardStep.RING:
            return any(isinstance(fact, OutlineFact) and fact.holes > 0 for fact in step.evidence)
        case HardStep.PIECE_ON_PIECE:
            return bool(own) and own[0].of != "base"
        case HardStep.CUT_INSIDE:
            return bool(own) and own[0].does is Does.CUT
        case HardStep.MIRROR:
            return any(isinstance(fact, MirrorFact) and fact.label == step.label for fact in step.evidence)
        case HardStep.ORDER:
            return len(meets) >= 3 and len({fact.before for fact in meets}) == len(meets)
    return False
