"""What a teacher is told of a sibling: what it comes from, what was kept, which features were changed."""

from __future__ import annotations

from collections.abc import Sequence
from textwrap import wrap

from ....choice.slip import SlipCase
from ....choice.variations import Level, Variation, Variations
from .build import Build, PieceBuild, TurnKind
from .request import FLIPS
from .search import Limit, Sibling, Siblings, Stage

__all__ = ["as_variations", "changes", "comment", "too_few"]

WIDTH = 108

KINDS = {
    TurnKind.NONE: "no turn",
    TurnKind.QUARTER: "a quarter turn",
    TurnKind.HALF: "half a turn",
    TurnKind.EIGHTH: "a turn of 45 or 135 degrees",
    TurnKind.ODD: "a turn of an odd angle",
}


def as_variations(siblings: Siblings) -> Variations:
    """Siblings with all that a teacher is told of them."""
    return Variations(
        found=tuple(
            Variation(
                question=sibling.solution.item, comment=comment(siblings, sibling), changes=changes(siblings, sibling)
            )
            for sibling in siblings.found
        ),
        too_few=too_few(siblings) if len(siblings.found) < siblings.wanted else "",
        nothing_to_change=siblings.goal is None,
    )


def changes(siblings: Siblings, sibling: Sibling) -> tuple[str, ...]:
    """Each feature in which a sibling is easier or harder than the original, as both are; none where none was asked."""
    if siblings.level is Level.SAME:
        return ()
    old, new = siblings.build, sibling.build
    told = []
    if old.base_corners != new.base_corners:
        told.append(f"the base has {_corners(new.base_corners)}, not {old.base_corners}")
    for before, after in zip(old.pieces, new.pieces, strict=True):
        told += _changes_of_piece(before, after)
    flips = sum(map(_is_flip, old.slips)), sum(map(_is_flip, new.slips))
    if flips[0] and not flips[1]:
        told.append("no option is flipped")
    elif flips[1] and not flips[0]:
        told.append("an option is flipped")
    return tuple(told)


def _changes_of_piece(old: PieceBuild, new: PieceBuild) -> list[str]:
    name, told = new.name, []
    if old.corners != new.corners:
        told.append(f"{name} has {_corners(new.corners)}, not {old.corners}")
    if round(abs(old.turn_deg), 3) != round(abs(new.turn_deg), 3):
        told.append(f"{name} turns by {_degrees(new.turn_deg)}, not {_degrees(old.turn_deg)}")
    if old.part_of_own != new.part_of_own:
        told.append(f"the mark of {name} takes {_part(new.part_of_own)} of its own side")
    if old.part_of_partner != new.part_of_partner:
        told.append(f"{name} meets {_part(new.part_of_partner)} of a side of {_partner(new)}")
    return told


def comment(siblings: Siblings, sibling: Sibling) -> tuple[str, ...]:
    """The lines at the head of a sibling's file."""
    item = siblings.original.item
    level = "" if siblings.level is Level.SAME else f" --{siblings.level}"
    build = sibling.build
    kept = "The build is kept" if siblings.level is Level.SAME else "The build"
    lines = [
        f"Varied from {item.name}: explainers vary {item.name}.yaml --seed {siblings.seed}{level}, "
        f"number {sibling.number}.",
        f"All outlines are new. {kept}: {_pieces(build)}.",
    ]
    changed = changes(siblings, sibling)
    if changed:
        lines.append(f"Made {siblings.level}: {'; '.join(changed)}.")
    replaced = _replaced(siblings.build.slips, build.slips)
    if replaced:
        lines.append(replaced)
    return tuple(part for line in lines for part in wrap(line, WIDTH))


def too_few(siblings: Siblings) -> str:
    """Why there are fewer siblings than were asked for."""
    name, level = siblings.original.item.name, siblings.level
    if siblings.goal is None:
        return (
            f"{name}: nothing in it can be made {level}: its corners, turns, marks and options are as far as they go. "
            f"To mend it: leave --{level} out"
        )
    kept = f"{len(siblings.found) or 'none'} of the {siblings.wanted}"
    because, fix = _standing_in_the_way(siblings.limit, siblings.goal.build, siblings.goal.without)
    return f"{name}: found {kept} asked for: {because}. To mend it: try another seed, or {fix}"


def _standing_in_the_way(limit: Limit | None, build: Build, without: Sequence[str]) -> tuple[str, str]:
    """(What stood in the way of one more, what else can be done.)"""
    if limit is None or limit.stage is Stage.WHOLE:
        return (
            "whatever came of the pieces was too fine beside the whole, looked the same turned, or was like another",
            "vary an item with fewer corners",
        )
    if limit.stage is Stage.BASE:
        holes = f" and {_count(build.base_holes, 'hole')}" if build.base_holes else ""
        return f"no base with {_corners(build.base_corners)}{holes} was plain to see", "vary an item with another base"
    if limit.stage is Stage.PIECE:
        piece = build.pieces[limit.piece]
        return (
            f"{_count(limit.seen, 'outline')} had no place for {piece.name}, with {_corners(piece.corners)}, "
            f"{_does(piece)} {_part(piece.part_of_partner)} of a side{' of a hole' if piece.meets_hole else ''}, with "
            f"{_count(piece.holes_after, 'hole')} after it",
            f"vary an item with another {piece.name}",
        )
    flips = ", none of them flipped" if without else ""
    if limit.stage is Stage.OPTIONS:
        return (
            f"{_count(limit.seen, 'new outline')} had no {len(build.slips)} wrong options that are told apart at a "
            f"glance{flips}",
            "leave an option of the original out",
        )
    return (
        f"each of {_count(limit.seen, 'new question')} had something to warn of",
        "leave an option of the original out",
    )


def _count(count: int, noun: str) -> str:
    return f"{count or 'no'} {noun}{'' if count == 1 else 's'}"


def _does(piece: PieceBuild) -> str:
    return "joined to" if piece.does == "join" else "cut from"


def _pieces(build: Build) -> str:
    return "; ".join(
        f"{piece.name} is {_does(piece)} {_partner(piece)} after {KINDS[piece.turn]}" for piece in build.pieces
    )


def _replaced(old: Sequence[SlipCase | None], new: Sequence[SlipCase | None]) -> str:
    """What became of options for which the original names no slip, or whose slip could not be made."""
    lost = [case for case in old if case is not None and case not in new]
    drawn = sum(case is None for case in old)
    told = []
    if drawn:
        told.append(f"slips stand in for {drawn} drawn by hand")
    told += [f"{_said(case)} gives way to another slip" for case in lost]
    return f"Options: {'; '.join(told)}." if told else ""


def _said(case: SlipCase) -> str:
    return f"{case.slip} of {case.subject}" if case.subject else case.slip


def _is_flip(case: SlipCase | None) -> bool:
    return case is not None and case.slip in FLIPS


def _corners(count: int) -> str:
    return f"{count} corners"


def _degrees(turn_deg: float) -> str:
    return f"{abs(turn_deg):.4g} degrees"


def _part(part: bool) -> str:
    return "a part" if part else "the whole"


def _partner(piece: PieceBuild) -> str:
    return "the base" if piece.of == "base" else piece.of
