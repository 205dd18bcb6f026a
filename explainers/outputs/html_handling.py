"""What the page of a deck needs to let a piece be laid by hand, in view box units, y down, turns clockwise."""

from __future__ import annotations

from collections.abc import Mapping

from ..frames.page import Page
from ..geometry.rigid_motion import Point
from ..storyboard.doing import Handling, Landing
from ..storyboard.handling import MOVE_UNITS, ROOM, TURN_STEPS_DEG

__all__ = ["VIEW", "handling_data"]

VIEW = Page(1600.0)  # the view box of the picture
_DIGITS = 4


def handling_data(handling: Handling, groups: Mapping[str, int], view: Page = VIEW) -> dict[str, object]:
    """The handling of one slide, ready for JSON.

    groups  : the number by which the page knows each group of entries
    view    : the view box
    Returns : group; about, the piece's middle at first; meeting and slips, each {at, turn, said}; near, nearDeg;
              moves, a step small and large; turns, in degrees, small, large and fine; reach, how far its farthest
              corner is from its middle; room, [left, top, right, bottom] that the middle must not leave; via, the
              stops of the middle on its way to the meeting
    """
    near = view.length(handling.near)
    return {
        "group": groups[handling.group],
        "about": _place(handling.about, view),
        "meeting": _landing(handling.meeting, view),
        "slips": [_landing(slip, view) for slip in handling.slips],
        "near": round(near, _DIGITS),
        "nearDeg": handling.near_deg,
        "moves": [round(view.length(units * handling.unit), _DIGITS) for units in MOVE_UNITS],
        "turns": list(TURN_STEPS_DEG),
        "reach": round(view.length(handling.reach), _DIGITS),
        "room": _room(handling, view),
        "via": [_place(stop, view) for stop in handling.via],
    }


def _landing(landing: Landing, view: Page) -> dict[str, object]:
    return {
        "at": _place(landing.at, view),
        "turn": round(-landing.turn_deg, 6) + 0.0,
        "said": list(landing.said),
    }


def _room(handling: Handling, view: Page) -> list[float]:
    """As far as the middle may go: the piece stays in the picture, and every pose that matters can be reached."""
    reach = handling.reach
    must = [handling.about, handling.meeting.at, *handling.via, *(slip.at for slip in handling.slips)]
    left = min(ROOM.left + reach, *(x for x, _ in must))
    right = max(ROOM.right - reach, *(x for x, _ in must))
    bottom = min(ROOM.bottom + reach, *(y for _, y in must))
    top = max(ROOM.top - reach, *(y for _, y in must))
    return [*_place((left, top), view), *_place((right, bottom), view)]


def _place(point: Point, view: Page) -> list[float]:
    return [round(length, _DIGITS) + 0.0 for length in view.point(point)]
