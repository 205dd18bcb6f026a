"""The piece that a learner may lay by hand: the pose in which its marks meet, and the poses that come of slips.

A pose is counted from the picture in which the piece lies on the tray as the sheet shows it.
"""

from __future__ import annotations

import math

from ....choice.fact import verified
from ....figure.layout import PANEL_FOOT, PANEL_TOP, Box, extent_of
from ....figure.model import STAGE_HEIGHT, STAGE_WIDTH
from ....geometry.angles import wrapped_deg
from ....geometry.rigid_motion import Point
from ....storyboard.doing import Handling, Landing
from ..drawing.assembly_drawing import group_of
from ..drawing.work_table import WorkTable
from ..facts.landing import LandingFact
from ..facts.meet import meet_fact
from ..solving.landings import landings

__all__ = [
    "MEET",
    "MOVE_UNITS",
    "NEAR_DEG",
    "NEAR_UNITS",
    "ROOM",
    "TURN_STEPS_DEG",
    "grid_unit",
    "handling",
]

MEET = "meet"  # the stage in which the lesson lays a piece

NEAR_DEG = 8.0  # a piece turned so far from a pose still counts as lying in it ...
NEAR_UNITS = 0.3  # ... with its middle so far from there, in grid units
MOVE_UNITS = (0.25, 1.0)  # a step by a key or a button, small and large, in grid units
TURN_STEPS_DEG = (15.0, 45.0, 1.0)  # small, large, and by a key only, fine
ROOM = Box(0.0, PANEL_FOOT, STAGE_WIDTH, PANEL_TOP)  # where a piece is slid about; a slip may lead beyond
_STAGE = Box(0.0, 0.0, STAGE_WIDTH, STAGE_HEIGHT)


def handling(table: WorkTable, index: int, *, turned: bool = False) -> Handling:
    """How the piece of this number may be laid by hand.

    turned : whether it lies on the tray turned already, in place of as the sheet shows it
    Raises : FactError where a sentence about a pose would be false
    """
    solution, view = table.solution, table.view
    middle = table.assembly.middle(index)
    unit = grid_unit(solution.item.extent)
    found = landings(
        solution.item, solution.placements, index, middle=middle, near_deg=NEAR_DEG, near=NEAR_UNITS * unit
    )
    glide = table.meet_glide(index)
    fact = meet_fact(solution, index)
    done_deg = solution.placements[index].turn_deg if turned else 0.0
    return Handling(
        group=group_of(index),
        about=table.slot,
        meeting=Landing(
            at=view.apply_point(middle),
            turn_deg=solution.placements[index].turn_deg - done_deg,
            said=verified(fact, fact.when_laid()),
            facts=(fact,),
        ),
        slips=tuple(
            _landing(table, each, done_deg, is_first=index == 0) for each in found if _is_on_stage(table, each)
        ),
        near_deg=NEAR_DEG,
        near=NEAR_UNITS * unit * view.scale,
        moves=(MOVE_UNITS[0] * unit * view.scale, MOVE_UNITS[1] * unit * view.scale),
        turns_deg=TURN_STEPS_DEG,
        room=ROOM,
        reach=_reach(table, index, middle),
        via=tuple((table.slot[0] + x, table.slot[1] + y) for x, y in glide.via),
        until=MEET,
    )


def grid_unit(extent: float) -> float:
    """The unit in which a piece is moved by hand, in item units, for a base of this larger extent.

    It is the file's own unit where the base is 2 to 20 of them across, and else the power of ten of it for which it is:
    an item typed in millimetres or in metres is handled like one typed in squares.
    """
    return float(10.0 ** math.floor(math.log10(extent / 2.0)))


def _landing(table: WorkTable, fact: LandingFact, done_deg: float, *, is_first: bool) -> Landing:
    return Landing(
        at=table.view.apply_point(fact.at),
        turn_deg=wrapped_deg(fact.turn_deg - done_deg) if done_deg else fact.turn_deg,
        said=verified(fact, fact.when_laid(is_first=is_first)),
        facts=(fact,),
    )


def _is_on_stage(table: WorkTable, fact: LandingFact) -> bool:
    lying = extent_of(table.view.apply(fact.ring))
    return (
        lying.left >= _STAGE.left
        and lying.right <= _STAGE.right
        and lying.bottom >= _STAGE.bottom
        and lying.top <= _STAGE.top
    )


def _reach(table: WorkTable, index: int, middle: Point) -> float:
    ring = table.solution.placements[index].ring
    return max(math.dist(middle, corner) for corner in ring) * table.view.scale
