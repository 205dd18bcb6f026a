"""One fact of every kind, made by hand on shapes small enough to check in the head."""

from __future__ import annotations

from dataclasses import replace

from explainers.choice.differences.corner_angle import CornerAngleFact
from explainers.choice.differences.corner_count import CornerCountFact
from explainers.choice.differences.extra_part import ExtraPartFact
from explainers.choice.differences.hole import HoleFact, HolePlace
from explainers.choice.differences.mirror import MirrorFact
from explainers.choice.differences.missing_part import MissingPartFact
from explainers.choice.differences.part_elsewhere import PartElsewhereFact
from explainers.choice.differences.side_length import SideLengthFact
from explainers.choice.differences.side_ratio import SideRatioFact
from explainers.choice.fact import Fact
from explainers.choice.finished import OutlineFact
from explainers.choice.same import SameFact
from explainers.geometry.outline import Outline
from explainers.geometry.rigid_motion import RigidMotion, Ring, Similarity
from explainers.kinds.join_and_cut.facts.change import ChangeFact
from explainers.kinds.join_and_cut.facts.meet import MeetFact
from explainers.kinds.join_and_cut.facts.piece import PieceFact
from explainers.kinds.join_and_cut.facts.strategy import PieceStrategy, PieceStrategyFact
from explainers.kinds.join_and_cut.facts.turn import TurnFact
from explainers.kinds.join_and_cut.model import Does, Piece

TOLERANCE = 0.004
SQUARE = Outline.of(((0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0)))
WIDE = Outline.of(((0.0, 0.0), (6.0, 0.0), (6.0, 4.0), (0.0, 4.0)))
# The square without its upper right corner: five corners, two of 135 degrees.
CLIPPED = Outline.of(((0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (3.0, 4.0), (0.0, 4.0)))
# The square with a notch in its upper right: six corners, one of 270 degrees.
NOTCHED = Outline.of(((0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (3.0, 3.0), (3.0, 4.0), (0.0, 4.0)))
RING = Outline.of(SQUARE.exterior, (((1.0, 1.0), (2.0, 1.0), (2.0, 2.0), (1.0, 2.0)),))
HOLE = Outline.of(((1.0, 1.0), (2.0, 1.0), (2.0, 2.0), (1.0, 2.0)))
TIP = Outline.of(((4.0, 3.0), (4.0, 4.0), (3.0, 4.0)))
FLAG: Ring = ((0.0, 0.0), (2.0, 0.0), (0.0, 2.0))


def piece(name: str = "flag", does: Does = Does.JOIN, **more: object) -> Piece:
    """A half-square whose marked side is 2 long."""
    given: dict[str, object] = {"mark": "K", "corners": FLAG, "side": ((0.0, 0.0), (2.0, 0.0))}
    return Piece(name=name, does=does, **{**given, "meets": ((4.0, 0.0), (4.0, 2.0)), **more})  # type: ignore[arg-type]


def piece_fact(name: str = "flag", does: Does = Does.JOIN, **more: object) -> PieceFact:
    return PieceFact(piece=piece(name, does, **more), ticks=1, tolerance=TOLERANCE)


def turn_fact(turn_deg: float, name: str = "flag", does: Does = Does.JOIN) -> TurnFact:
    placed = RigidMotion(turn_deg=turn_deg, shift=(4.0, 1.0)).apply(FLAG)
    return TurnFact(
        name=name, mark="K", does=does, turn_deg=turn_deg, shown_ring=FLAG, placed_ring=placed, tolerance=TOLERANCE
    )


def meet_fact(name: str = "flag", does: Does = Does.JOIN, of: str = "base", mark: str = "K") -> MeetFact:
    """The flag beside the square, or on top of it; its marked side on the lower half of the square's right side."""
    partner = ((4.0, 0.0), (4.0, 2.0))
    if does is Does.JOIN:
        ring, side = ((4.0, 2.0), (4.0, 0.0), (6.0, 2.0)), partner[::-1]
    else:
        ring, side = ((4.0, 0.0), (4.0, 2.0), (2.0, 0.0)), partner
    return MeetFact(
        name=name, mark=mark, does=does, of=of, side=side, partner=partner, ring=ring, before=SQUARE,
        tolerance=TOLERANCE,
    )  # fmt: skip


def change_fact(name: str = "tip", does: Does = Does.JOIN) -> ChangeFact:
    """The tip put back on the clipped square, or cut off the whole one."""
    before, after = (CLIPPED, SQUARE) if does is Does.JOIN else (SQUARE, CLIPPED)
    return ChangeFact(
        name=name, does=does, ring=TIP.exterior, before=before, after=after, piece_area=0.5,
        area_before=before.area, area_after=after.area, tolerance=TOLERANCE,
    )  # fmt: skip


def outline_fact(outline: Outline = SQUARE) -> OutlineFact:
    return OutlineFact(
        outline=outline, corners=outline.corner_count, holes=len(outline.holes), area=outline.area, tolerance=TOLERANCE
    )


def same_fact(turn_deg: float, label: str = "C") -> SameFact:
    """The clipped square, drawn upright, that must turn by this much to lie on a turned one."""
    motion = Similarity(turn_deg=turn_deg)
    return SameFact(
        label=label, option=CLIPPED, outline=CLIPPED.moved(motion), motion=motion, shown_turn_deg=0.0,
        turn_deg=turn_deg, tolerance=TOLERANCE,
    )  # fmt: skip


L_BLOCK = Outline.of(((0.0, 0.0), (2.0, 0.0), (2.0, 1.0), (1.0, 1.0), (1.0, 3.0), (0.0, 3.0)))


def mirror_fact(label: str = "B") -> MirrorFact:
    return MirrorFact(label=label, option=L_BLOCK.mirrored(), outline=L_BLOCK, tolerance=TOLERANCE)


def corner_count_facts(label: str = "B") -> list[CornerCountFact]:
    """One too many on the option, and one that it lacks."""
    return [
        CornerCountFact(
            label=label, option=CLIPPED, outline=SQUARE, place=TIP, ring_centre=(3.8, 3.8), option_corners=5,
            outline_corners=4, corner=(4.0, 3.0), on_option=True, tolerance=TOLERANCE,
        ),
        CornerCountFact(
            label=label, option=SQUARE, outline=CLIPPED, place=TIP, ring_centre=(3.8, 3.8), option_corners=4,
            outline_corners=5, corner=(3.0, 4.0), on_option=False, tolerance=TOLERANCE,
        ),
    ]  # fmt: skip


def corner_angle_facts(label: str = "B") -> list[CornerAngleFact]:
    """A corner of 135 degrees, and one of 270 that points into the shape."""
    notch = Outline.of(((3.0, 3.0), (4.0, 3.0), (4.0, 4.0), (3.0, 4.0)))
    return [
        CornerAngleFact(
            label=label, option=CLIPPED, outline=SQUARE, place=TIP, ring_centre=(3.8, 3.8), corner=(4.0, 3.0),
            angle_deg=135.0, tolerance=TOLERANCE,
        ),
        CornerAngleFact(
            label=label, option=NOTCHED, outline=SQUARE, place=notch, ring_centre=(3.5, 3.5), corner=(3.0, 3.0),
            angle_deg=270.0, tolerance=TOLERANCE,
        ),
    ]  # fmt: skip


def side_length_facts(label: str = "B") -> list[SideLengthFact]:
    """A side that is too long, and one that is too short."""
    past = Outline.of(((4.0, 0.0), (6.0, 0.0), (6.0, 4.0), (4.0, 4.0)))
    short, long = ((0.0, 0.0), (4.0, 0.0)), ((0.0, 0.0), (6.0, 0.0))
    return [
        SideLengthFact(
            label=label, option=WIDE, outline=SQUARE, place=past, ring_centre=(5.0, 2.0), side=long, length=6.0,
            other_side=short, other_length=4.0, tolerance=TOLERANCE,
        ),
        SideLengthFact(
            label=label, option=SQUARE, outline=WIDE, place=past, ring_centre=(5.0, 2.0), side=short, length=4.0,
            other_side=long, other_length=6.0, tolerance=TOLERANCE,
        ),
    ]  # fmt: skip


def hole_facts(label: str = "B") -> list[HoleFact]:
    """A hole too many, and one that is not there."""
    common = {"label": label, "place": HOLE, "ring_centre": (1.5, 1.5), "tolerance": TOLERANCE}
    return [
        HoleFact(option=RING, outline=SQUARE, option_holes=1, outline_holes=0, **common),  # type: ignore[arg-type]
        HoleFact(option=SQUARE, outline=RING, option_holes=0, outline_holes=1, **common),  # type: ignore[arg-type]
    ]


def hole_closed_facts(label: str = "B") -> list[HoleFact]:
    """A hole that only the option closes off, one that only the outline does, and one that only the option parts."""
    gate = Outline.of(((1.0, 0.0), (2.0, 0.0), (2.0, 1.0), (1.0, 1.0)))
    opened = Outline.of(
        ((0.0, 0.0), (1.0, 0.0), (1.0, 2.0), (2.0, 2.0), (2.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0))
    )
    bar = Outline.of(((1.0, 1.4), (2.0, 1.4), (2.0, 1.6), (1.0, 1.6)))
    halves = (
        ((1.0, 1.0), (2.0, 1.0), (2.0, 1.4), (1.0, 1.4)),
        ((1.0, 1.6), (2.0, 1.6), (2.0, 2.0), (1.0, 2.0)),
    )
    parted = Outline.of(RING.exterior, halves)
    wall = {"label": label, "place": gate, "ring_centre": (1.5, 0.5), "tolerance": TOLERANCE, "at": HolePlace.WALL}
    return [
        HoleFact(option=RING, outline=opened, option_holes=1, outline_holes=0, **wall),  # type: ignore[arg-type]
        HoleFact(option=opened, outline=RING, option_holes=0, outline_holes=1, **wall),  # type: ignore[arg-type]
        HoleFact(
            label=label, option=parted, outline=RING, place=bar, ring_centre=(1.5, 1.5), option_holes=2,
            outline_holes=1, at=HolePlace.BAR, tolerance=TOLERANCE,
        ),
    ]  # fmt: skip


def extra_part_fact(label: str = "B") -> ExtraPartFact:
    return ExtraPartFact(
        label=label, option=SQUARE, outline=CLIPPED, place=TIP, ring_centre=(3.8, 3.8), area=0.5, tolerance=TOLERANCE
    )


def missing_part_fact(label: str = "B") -> MissingPartFact:
    return MissingPartFact(
        label=label, option=CLIPPED, outline=SQUARE, place=TIP, ring_centre=(3.8, 3.8), area=0.5, tolerance=TOLERANCE
    )


# The square with a half-square on its right, on its top, on its left; with a dent in its right, in its top.
RIGHT_FLAG = Outline.of(((4.0, 1.0), (6.0, 1.0), (4.0, 3.0)))
TOP_FLAG = Outline.of(((3.0, 4.0), (3.0, 6.0), (1.0, 4.0)))
LEFT_FLAG = Outline.of(((0.0, 3.0), (-2.0, 3.0), (0.0, 1.0)))
RIGHT_DENT = Outline.of(((4.0, 1.0), (4.0, 3.0), (2.0, 1.0)))
TOP_DENT = Outline.of(((3.0, 4.0), (1.0, 4.0), (3.0, 2.0)))
WITH_RIGHT = Outline.of(((0.0, 0.0), (4.0, 0.0), (4.0, 1.0), (6.0, 1.0), (4.0, 3.0), (4.0, 4.0), (0.0, 4.0)))
WITH_TOP = Outline.of(((0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (3.0, 4.0), (3.0, 6.0), (1.0, 4.0), (0.0, 4.0)))
WITH_LEFT = Outline.of(((0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0), (0.0, 3.0), (-2.0, 3.0), (0.0, 1.0)))
DENTED_RIGHT = Outline.of(((0.0, 0.0), (4.0, 0.0), (4.0, 1.0), (2.0, 1.0), (4.0, 3.0), (4.0, 4.0), (0.0, 4.0)))
DENTED_TOP = Outline.of(((0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (3.0, 4.0), (3.0, 2.0), (1.0, 4.0), (0.0, 4.0)))
RIGHT_SIDE, TOP_SIDE, LEFT_SIDE = SQUARE.exterior[1:3], SQUARE.exterior[2:4], (SQUARE.exterior[3], SQUARE.exterior[0])


def part_elsewhere_facts(label: str = "B") -> list[PartElsewhereFact]:
    """A part on the next side, one on the side across, a gap on the next side."""
    right, top = RIGHT_SIDE, TOP_SIDE
    return [
        PartElsewhereFact(
            label=label, option=option, outline=outline, place=place, ring_centre=centre, filled=filled, home=home,
            side=side, home_side=home_side, adjacent=adjacent, tolerance=TOLERANCE,
        )
        for option, outline, place, centre, filled, home, side, home_side, adjacent in (
            (WITH_TOP, WITH_RIGHT, TOP_FLAG, (2.5, 4.5), True, RIGHT_FLAG, top, right, True),
            (WITH_LEFT, WITH_RIGHT, LEFT_FLAG, (-0.5, 2.5), True, RIGHT_FLAG, LEFT_SIDE, right, False),
            (DENTED_TOP, DENTED_RIGHT, TOP_DENT, (2.5, 3.5), False, RIGHT_DENT, top, right, True),
        )
    ]  # fmt: skip


def side_ratio_facts(label: str = "B") -> list[SideRatioFact]:
    """Equal sides where one is longer, a longer one where they are equal, one that is longer by too much, the other."""
    tall = Outline.of(((0.0, 0.0), (4.0, 0.0), (4.0, 8.0), (0.0, 8.0)))
    long = Outline.of(((0.0, 0.0), (8.0, 0.0), (8.0, 4.0), (0.0, 4.0)))

    def past(low: float, high: float) -> Outline:
        return Outline.of(((low, 0.0), (high, 0.0), (high, 4.0), (low, 4.0)))

    above = Outline.of(((0.0, 4.0), (4.0, 4.0), (4.0, 8.0), (0.0, 8.0)))
    return [
        SideRatioFact(
            label=label, option=option, outline=outline, place=place, ring_centre=centre, ratio=ratio,
            other_ratio=other, tolerance=TOLERANCE,
            # The lower side and the left one, which meet in the origin.
            pair=((option.exterior[0], option.exterior[1]), (option.exterior[3], option.exterior[0])),
            other_pair=((outline.exterior[0], outline.exterior[1]), (outline.exterior[3], outline.exterior[0])),
        )
        for option, outline, place, centre, ratio, other in (
            (SQUARE, WIDE, past(4.0, 6.0), (5.0, 2.0), 1.0, 1.5),
            (WIDE, SQUARE, past(4.0, 6.0), (5.0, 2.0), 1.5, 1.0),
            (long, WIDE, past(6.0, 8.0), (7.0, 2.0), 2.0, 1.5),
            (WIDE, tall, above, (2.0, 6.0), 1.5, 0.5),
        )
    ]  # fmt: skip


def reasons(label: str = "B") -> list[Fact]:
    """Every kind of reason against an option, in every form."""
    return [
        mirror_fact(label), *corner_count_facts(label), *corner_angle_facts(label), *side_length_facts(label),
        *part_elsewhere_facts(label), *side_ratio_facts(label), *hole_facts(label), *hole_closed_facts(label),
        extra_part_fact(label), missing_part_fact(label),
    ]  # fmt: skip


def strategies(name: str = "flag") -> list[PieceStrategyFact]:
    """One of most kinds."""
    first = meet_fact("star")
    several = (first, replace(meet_fact(name), before=CLIPPED))
    return [
        PieceStrategyFact(strategy=strategy, evidence=evidence, tolerance=TOLERANCE)
        for strategy, evidence in (
            (PieceStrategy.HALF_TURN, (turn_fact(180.0, name),)),
            (PieceStrategy.NO_TURN, (turn_fact(0.0, name),)),
            (PieceStrategy.TURN_THEN_SLIDE, (turn_fact(-135.0, name),)),
            (PieceStrategy.STOP, (turn_fact(36.87, name), meet_fact(name))),
            (PieceStrategy.PART_OF_SIDE, (meet_fact(name),)),
            (PieceStrategy.PARTNER_FIRST, (first, meet_fact(name, of="star"))),
            (PieceStrategy.GAP, (change_fact(name, Does.CUT),)),
            (PieceStrategy.TICK_OFF, several),
        )
    ]
