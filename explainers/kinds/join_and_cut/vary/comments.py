"""What a teacher is told of a sibling: what it comes from, what was kept, which features were changed."""

from __future__ import annotations

from collections.abc import Sequence
from textwrap import wrap

from ....choice.slip import SlipCase
from ....choice.variations import Level, Variation, Variations
from .build import Build, PieceBuild, TurnKind
from .request import FLIPS
from .search import Sibling, Siblings

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
        nothing_to_change=siblings.nothing_to_change,
    )


def changes(siblings: Siblings, sibling: Sibling) -> tuple[str, ...]:
    """Each feature in which a sibling is easier or harder than the original, as both are; none where none was asked."""
    if siblings.level is Level.SAME:
        return ()
    old, new = siblings.build, sibling.build
    as_variations = []
    if old.base_corners != new.base_corners:
        as_variations.append(f"the base has {_corners(new.base_corners)}, not {old.base_corners}")
    for before, after in zip(old.pieces, new.pieces, strict=True):
        as_variations += _changes_of_piece(before, after)
    flips = sum(map(_is_flip, old.slips)), sum(map(_is_flip, new.slips))
    if flips[0] and not flips[1]:
        as_variations.append("no option is flipped")
    elif flips[1] and not flips[0]:
        as_variations.append("an option is flipped")
    return tuple(as_variations)


def _changes_of_piece(old: PieceBuild, new: PieceBuild) -> list[str]:
    name, as_variations = new.name, []
    if old.corners != new.corners:
        as_variations.append(f"{name} has {_corners(new.corners)}, not {old.corners}")
    if round(abs(old.turn_deg), 3) != round(abs(new.turn_deg), 3):
        as_variations.append(f"{name} turns by {_degrees(new.turn_deg)}, not {_degrees(old.turn_deg)}")
    if old.part_of_own != new.part_of_own:
        as_variations.append(f"the mark of {name} takes {_part(new.part_of_own)} of its own side")
    if old.part_of_partner != new.part_of_partner:
        as_variations.append(f"{name} meets {_part(new.part_of_partner)} of a side of {_partner(new)}")
    return as_variations


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
    if siblings.nothing_to_change:
        return (
            f"{name}: nothing in it can be made {level}: its corners, turns, marks and options are as far as they go. "
            f"To mend it: leave --{level} out"
        )
    many = len(siblings.found)
    kept = f"{many or 'none'} of the {siblings.wanted}"
    return (
        f"{name}: found {kept} asked for; what else was tried is not sound, not plain to see, or too like another. "
        f"To mend it: ask for fewer, or try another seed"
    )


def _pieces(build: Build) -> str:
    return "; ".join(
        f"{piece.name} is {'joined to' if piece.does == 'join' else 'cut from'} {_partner(piece)} after "
        f"{KINDS[piece.turn]}"
        for piece in build.pieces
    )


def _replaced(old: Sequence[SlipCase | None], new: Sequence[SlipCase | None]) -> str:
    """What became of options for which the original names no slip, or whose slip could not be made."""
    lost = [case for case in old if case is not None and case not in new]
    drawn = sum(case is None for case in old)
    as_variations = []
    if drawn:
        as_variations.append(f"slips stand in for {drawn} drawn by hand")
    as_variations += [f"{_said(case)} gives way to another slip" for case in lost]
    return f"Options: {'; '.join(as_variations)}." if as_variations else ""


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
