"""From a file's name to a solution: reading then solving, the faults of both in one error."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from .document.notation import listed
from .document.source_map import in_line_order
from .errors import Fault, ItemError, LessonError
from .item.reader import Reading, scan_item, scan_lesson

if TYPE_CHECKING:
    from .item.model import Item, Lesson, Part
    from .solution.model import Answer, Solution

Solved = TypeVar("Solved")

__all__ = ["solved", "take_answer", "take_in", "take_in_lesson"]


def take_in(path: Path, *, pairs: bool = False) -> Solution:
    """The item of a file, solved. An unsound item is handed on with ``sound`` false.

    pairs : whether pairs of slips are sought too for options drawn by hand: what a lesson tells, and takes longer
    Raises: ItemError with every fault that reading and solving find, each with file and line
    """
    return solved(scan_item(path), pairs=pairs)


def take_answer(path: Path) -> Answer:
    """The same without the reasons, which take most of the time.

    Raises: as ``take_in``
    """
    # Here and not above: reading alone must not pay for the solver.
    from .solution.solver import answer

    return _with_lines(scan_item(path), answer)


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


def solved(reading: Reading, *, pairs: bool = False) -> Solution:
    """What was read of an item's file, solved; for whoever also needs to know on which line a field stands.

    Raises: as ``take_in``
    """
    # Here and not above: reading alone must not pay for the solver.
    from .solution.solver import solve

    return _with_lines(reading, partial(solve, pairs=pairs))


def _with_lines(reading: Reading, solve: Callable[[Item], Solved]) -> Solved:
    """What was read, solved, with every fault given its line."""
    if reading.item is None or reading.faults:
        further = reading.source.placed(_faults_of_solving(reading))
        raise ItemError(in_line_order((*reading.faults, *further)))
    try:
        return solve(reading.item)
    except ItemError as error:
        raise ItemError(reading.source.placed(error.faults)) from error


def _faults_of_solving(reading: Reading) -> list[Fault]:
    """What the solver finds wrong in that part of an item which could be read."""
    from .solution.refusals import refusals

    if reading.first_pieces is None:
        return []
    is_named = all(fault.field != "item" for fault in reading.faults)
    return refusals(reading.first_pieces, all_pieces=reading.item is not None, is_named=is_named)
