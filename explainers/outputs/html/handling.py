"""What the page of a deck needs to let a piece be laid by hand, in view box units, y down, turns clockwise."""

from __future__ import annotations

from collections.abc import Sequence

from ...drawing.svg import VIEW
from ...figure.layout import Box
from ...figure.model import Figure, Label
from ...geometry.rigid_motion import Point
from ...storyboard.doing import Handling, Landing, Loose
from .pictures import NumberedNames

__all__ = ["handling_data", "loose_data"]

_DIGITS = 4


def handling_data(handling: Handling, groups: NumberedNames, figure: Figure) -> dict[str, object]:
    """The handling of one slide, ready for JSON.

    groups  : the number by which the page knows each group of entries
    figure  : the slide's picture, as the page shows it
    Returns : group; about, the piece's middle at first; meeting and slips, each {at, turn, said}; near, nearDeg;
              moves, a step small and large; turns, in degrees, small, large and fine; reach, how far its farthest
              corner is from its middle; room, [left, top, right, bottom] that the middle must not leave; via, the
              stops of the middle on its way to the meeting; letters, [which of the group's entries, x, y] of each
              that stays upright
    """
    near = VIEW.length(handling.near)
    return {
        "group": groups[handling.group],
        "about": _place(handling.about),
        "meeting": _landing(handling.meeting),
        "slips": [_landing(slip) for slip in handling.slips],
        "near": round(near, _DIGITS),
        "nearDeg": handling.near_deg,
        "moves": [round(VIEW.length(step), _DIGITS) for step in handling.moves],
        "turns": list(handling.turns_deg),
        "reach": round(VIEW.length(handling.reach), _DIGITS),
        "room": _room(handling.reach, handling.room, _poses(handling)),
        "via": [_place(stop) for stop in handling.via],
        "letters": _letters(handling.group, figure),
    }


def loose_data(loose: Loose, groups: NumberedNames, figure: Figure) -> dict[str, object]:
    """Something that is moved about freely: what of the same it has."""
    return {
        "name": loose.name,
        "group": groups[loose.group],
        "about": _place(loose.about),
        "moves": [round(VIEW.length(step), _DIGITS) for step in loose.moves],
        "turns": list(loose.turns_deg),
        "reach": round(VIEW.length(loose.reach), _DIGITS),
        "room": _room(loose.reach, loose.room, [loose.about]),
        "letters": _letters(loose.group, figure),
    }


def _letters(group: str, figure: Figure) -> list[list[float]]:
    own = (entry for entry in figure.entries if entry.group == group)
    return [[number, *_place(entry.at)] for number, entry in enumerate(own) if isinstance(entry, Label)]


def _poses(handling: Handling) -> list[Point]:
    return [handling.about, handling.meeting.at, *handling.via, *(slip.at for slip in handling.slips)]


def _landing(landing: Landing) -> dict[str, object]:
    return {
        "at": _place(landing.at),
        "turn": round(-landing.turn_deg, 6) + 0.0,
        "said": list(landing.said),
    }


def _room(reach: float, room: Box, must: Sequence[Point]) -> list[float]:
    """As far as the middle may go: the piece stays in the picture, and every pose that matters can be reached."""
    left = min(room.left + reach, *(x for x, _ in must))
    right = max(room.right - reach, *(x for x, _ in must))
    bottom = min(room.bottom + reach, *(y for _, y in must))
    top = max(room.top - reach, *(y for _, y in must))
    return [*_place((left, top)), *_place((right, bottom))]


def _place(point: Point) -> list[float]:
    return [round(length, _DIGITS) + 0.0 for length in VIEW.point(point)]
