"""Slips by name. A new one is a module of its own and one line here."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from difflib import get_close_matches

from ...errors import Fault
from ...item.model import Item
from . import flipped, left_out, not_turned, other_way_round, piece_flipped
from .model import Scene, Slipped

__all__ = ["SLIPS", "SlipSpec", "slip_faults"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SlipSpec:
    """How to make a slip's outline, and whether it happens to one piece."""

    make: Callable[[Scene], Slipped]
    needs_piece: bool


SLIPS: dict[str, SlipSpec] = {
    "flipped": SlipSpec(make=flipped.make, needs_piece=False),
    "left-out": SlipSpec(make=left_out.make, needs_piece=True),
    "not-turned": SlipSpec(make=not_turned.make, needs_piece=True),
    "other-way-round": SlipSpec(make=other_way_round.make, needs_piece=True),
    "piece-flipped": SlipSpec(make=piece_flipped.make, needs_piece=True),
}


def slip_faults(item: Item) -> list[Fault]:
    """What is wrong with the naming of slips, before any is made."""
    faults = []
    names = [piece.name for piece in item.pieces]
    if item.made is not None:
        faults.append(
            Fault(
                field="options.make",
                message="options cannot be made yet",
                fix="write the options out: three to six entries, one of them `outline: result`",
            )
        )
    for index, option in enumerate(item.options):
        if option.slip is None:
            continue
        field = f"options[{index}]"
        spec = SLIPS.get(option.slip)
        if spec is None:
            near = get_close_matches(option.slip, SLIPS, n=1)
            hint = f"did you mean {near[0]!r}? Known slips: " if near else "choose one of: "
            faults.append(
                Fault(
                    field=f"{field}.slip",
                    message=f"there is no slip called {option.slip!r}",
                    fix=f"{hint}{', '.join(sorted(SLIPS))}",
                )
            )
        elif spec.needs_piece and option.slip_piece is None:
            faults.append(
                Fault(
                    field=f"{field}.piece",
                    message=f"the slip {option.slip!r} happens to one piece, and none is named",
                    fix=f"add `piece:` with one of: {', '.join(names)}",
                )
            )
        elif spec.needs_piece and option.slip_piece not in names:
            near = get_close_matches(str(option.slip_piece), names, n=1)
            hint = f"did you mean {near[0]!r}? " if near else ""
            faults.append(
                Fault(
                    field=f"{field}.piece",
                    message=f"there is no piece called {option.slip_piece!r}",
                    fix=f"{hint}name one of: {', '.join(names)}",
                )
            )
        elif not spec.needs_piece and option.slip_piece is not None:
            faults.append(
                Fault(
                    field=f"{field}.piece",
                    message=f"the slip {option.slip!r} happens to the whole outline, not to one piece",
                    fix="leave `piece:` out",
                )
            )
    return faults
