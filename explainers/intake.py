"""From a file's name to a solution: reading then solving, the faults of both in one error."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from .errors import Fault, ItemError, LessonError
from .item.notation import listed
from .item.reader import Reading, scan_item, scan_lesson
from .item.source_map import in_line_order

if TYPE_CHECKING:
    from .item.model import Lesson, Part
    from .solution.model import Solution

__all__ = ["solved", "take_in", "take_in_lesson"]


def take_in(path: Path, *, pairs: bool = False, slips: bool = True) -> Solution:
    """The item of a file, solved. An unsound item is handed on with ``sound`` false.

    pairs : whether pairs of slips are sought too for options drawn by hand: what a lesson tells, and takes longer
    slips : whether slips are sought at all for those
    Raises: ItemError with every fault that reading and solving find, each with file and line
    """
    return solved(scan_item(path), pairs=pairs, slips=slips)


def take_in_lesson(path: Path) -> tuple[Lesson, tuple[Solution, ...]]:
    """A lesson with its items solved, in the order of its parts.

    Raises: LessonError with every fault of the lesson and of the items that it shows
    """
    reading = scan_lesson(path)
    faults: list[Fault] = list(reading.faults)
    solutions: list[Solution] = []
    shown: dict[str, int] = {}
    for index, part in enumerate(reading.lesson.parts if reading.lesson else ()):
        try:
            solution = take_in(part.show, pairs=True)
        except ItemError as error:
            faults += error.faults
            continue
        solutions.append(solution)
        first = shown.setdefault(solution.item.name, index)
        if first != index:
            same_name = Fault(
                field=f"parts[{index}].show",
                message=f"part number {first + 1} shows another item called {solution.item.name}",
                fix="give one of the two items another name; their steps could not be told apart",
            )
            faults += reading.source.placed([same_name])
        faults += reading.source.placed(_faults_of_asking(part, index, solution))
    if faults or reading.lesson is None:
        raise LessonError(in_line_order(faults))
    return reading.lesson, tuple(solutions)


def _faults_of_asking(part: Part, index: int, solution: Solution) -> list[Fault]:
    """Stops before pieces that the item does not have."""
    names = [piece.name for piece in solution.item.pieces]
    return [
        Fault(
            field=f"parts[{index}].ask",
            message=f"{ask} is no place to stop: the item {solution.item.name} has no piece called {name}",
            fix=f"name one of its pieces: {listed(names)}",
        )
        for ask in part.asks
        for name, dot, _ in [ask.partition(".")]
        if dot and name not in names
    ]


def solved(reading: Reading, *, pairs: bool = False, slips: bool = True) -> Solution:
    """What was read of an item's file, solved; for whoever also needs to know on which line a field stands.

    Raises: as ``take_in``
    """
    # Here and not above: reading alone must not pay for the solver.
    from .solution.solver import solve

    if reading.item is None or reading.faults:
        further = reading.source.placed(_faults_of_solving(reading))
        raise ItemError(in_line_order((*reading.faults, *further)))
    try:
        return solve(reading.item, pairs=pairs, slips=slips)
    except ItemError as error:
        raise ItemError(reading.source.placed(error.faults)) from error


def _faults_of_solving(reading: Reading) -> list[Fault]:
    """What the solver finds wrong in that part of an item which could be read."""
    from .solution.slips.registry import slip_faults
    from .solution.solver import lay_pieces

    if reading.first_pieces is None:
        return []
    faults = slip_faults(reading.first_pieces)
    if reading.item is None:  # a slip may happen to a piece that could not be read
        faults = [fault for fault in faults if fault.field.endswith(".slip")]
    try:
        lay_pieces(reading.first_pieces)
    except ItemError as error:
        faults += error.faults
    return faults
