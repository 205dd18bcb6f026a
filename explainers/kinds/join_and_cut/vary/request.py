"""What is wanted of a sibling: the build of the original, or one that is easier or harder by stated features."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from ....choice.slip import SlipCase
from ....choice.variations import Level
from ..model import Does
from .build import Build, PieceBuild, TurnKind, kind_of_turn

__all__ = ["FLIPS", "VariationRequest", "requested"]

FLIPS = ("flipped", "piece-flipped")
FLIPPED = SlipCase(slip="flipped", subject=None)

# Turns that a learner is asked for, in degrees. Odd ones are those that a protractor shows without halving.
TURNS: dict[TurnKind, tuple[float, ...]] = {
    TurnKind.NONE: (0.0,),
    TurnKind.QUARTER: (90.0, -90.0),
    TurnKind.HALF: (180.0,),
    TurnKind.EIGHTH: (45.0, -45.0, 135.0, -135.0),
    TurnKind.ODD: tuple(sign * size for size in range(20, 165, 5) if size % 45 for sign in (1.0, -1.0)),
}
FEWEST_BASE, FEWEST_BASE_WITH_GAP, MOST_BASE = 4, 8, 16
FEWEST_PIECE, MOST_PIECE = 3, 7


@dataclass(frozen=True, slots=True, kw_only=True)
class VariationRequest:
    """A build, with the turns that each piece may have."""

    build: Build
    turns: tuple[tuple[float, ...], ...]  # degrees, one choice a piece
    without: tuple[str, ...] = ()  # slips that no option may show


def requested(build: Build, level: Level) -> VariationRequest | None:
    """The wish for a level; None where the build has nothing left to be changed to it."""
    if level is Level.SAME:
        return VariationRequest(build=build, turns=tuple(TURNS[piece.turn] for piece in build.pieces))
    goal = _easier(build) if level is Level.EASIER else _harder(build)
    return None if goal.build == build and _sizes_kept(goal) else goal


def _easier(build: Build) -> VariationRequest:
    fewest = FEWEST_BASE_WITH_GAP if _closes(build) else FEWEST_BASE
    pieces, turns = [], []
    for index, piece in enumerate(build.pieces):
        kind, choice = _rounder(piece)
        closing = _closes_at(build, index)
        # What closes a hole, or opens one, reaches across with a side: a triangle would do it with a corner alone.
        fewest_corners = FEWEST_PIECE + (piece.holes_after != _holes_before(build, index))
        pieces.append(
            replace(
                piece,
                corners=max(min(piece.corners, fewest_corners), piece.corners - 1),
                turn=kind,
                part_of_own=piece.part_of_own and closing,
                # A bar as wide as its hole leaves no two holes that are good to look at.
                part_of_partner=piece.part_of_partner and closing and piece.meets_hole,
            )
        )
        turns.append(choice)
    return VariationRequest(
        build=replace(
            build,
            base_corners=max(min(build.base_corners, fewest), build.base_corners - 1),
            pieces=tuple(pieces),
            slips=tuple(None if slip and slip.slip in FLIPS else slip for slip in build.slips),
        ),
        turns=tuple(turns),
        without=FLIPS,
    )


def _harder(build: Build) -> VariationRequest:
    pieces, turns = [], []
    for piece in build.pieces:
        kind, choice = _odder(piece)
        pieces.append(
            replace(
                piece,
                corners=max(piece.corners, min(MOST_PIECE, piece.corners + 1)),
                turn=kind,
                part_of_partner=True,
            )
        )
        turns.append(choice)
    slips = list(build.slips)
    if FLIPPED not in slips and slips:
        # In place of an option that no slip makes, or else of the last.
        slips[slips.index(None) if None in slips else -1] = FLIPPED
    return VariationRequest(
        build=replace(
            build,
            base_corners=max(build.base_corners, min(MOST_BASE, build.base_corners + 1)),
            pieces=tuple(pieces),
            slips=tuple(slips),
        ),
        turns=tuple(turns),
    )


def _rounder(piece: PieceBuild) -> tuple[TurnKind, tuple[float, ...]]:
    """A turn that is rounder, or as round but smaller; never larger than the original's, if one of them is not."""
    kinds = {
        TurnKind.ODD: (TurnKind.QUARTER, TurnKind.EIGHTH),
        TurnKind.EIGHTH: (TurnKind.QUARTER, TurnKind.EIGHTH),
        TurnKind.HALF: (TurnKind.QUARTER,),
    }.get(piece.turn, (piece.turn,))
    return next(
        ((kind, fit) for kind in kinds if (fit := _sized(TURNS[kind], 0.0, abs(piece.turn_deg)))),
        (kinds[-1], _sized(TURNS[kinds[-1]], 0.0, 45.0) or TURNS[kinds[-1]]),
    )


def _odder(piece: PieceBuild) -> tuple[TurnKind, tuple[float, ...]]:
    """A turn that is odder, or as odd but larger."""
    kind = {TurnKind.NONE: TurnKind.QUARTER, TurnKind.QUARTER: TurnKind.EIGHTH}.get(piece.turn, TurnKind.ODD)
    larger = _sized(TURNS[kind], abs(piece.turn_deg) + 1.0, 180.0)
    largest = max(abs(turn) for turn in TURNS[kind])
    return kind, larger or _sized(TURNS[kind], largest - 10.0, 180.0)


def _sized(turns: Iterable[float], least: float, most: float) -> tuple[float, ...]:
    return tuple(turn for turn in turns if least <= abs(turn) <= most)


def _sizes_kept(goal: VariationRequest) -> bool:
    """Whether the turns wished for could be those of the original."""
    pairs = zip(goal.build.pieces, goal.turns, strict=True)
    return all(
        kind_of_turn(piece.turn_deg) is piece.turn and abs(piece.turn_deg) in map(abs, turns) for piece, turns in pairs
    )


def _closes(build: Build) -> bool:
    return any(_closes_at(build, index) for index in range(len(build.pieces)))


def _closes_at(build: Build, index: int) -> bool:
    """Whether a piece closes a hole that was not there before."""
    piece = build.pieces[index]
    return piece.does is Does.JOIN and piece.holes_after > _holes_before(build, index)


def _holes_before(build: Build, index: int) -> int:
    return build.pieces[index - 1].holes_after if index else build.base_holes
