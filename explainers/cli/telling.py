"""What is said about files on standard error: faults of a refused one, warnings about a sound one."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING

from ..errors import Fault
from .streams import complain

if TYPE_CHECKING:
    from ..solution.model import Solution

__all__ = ["tell_faults", "tell_warnings"]


def tell_faults(faults: Iterable[Fault]) -> None:
    """Each fault of a refused file, on its own line."""
    for fault in faults:
        complain(" ".join(str(fault).splitlines()))


def tell_warnings(path: Path, solutions: Iterable[Solution]) -> None:
    """What a teacher should look at in items that solve; it changes no exit code."""
    for solution in solutions:
        # In a lesson the item is named too, since the fields are the item's, not the lesson file's.
        of_item = "" if solution.item.name == path.stem else f"{solution.item.name}: "
        for warning in solution.warnings:
            field = f"{warning.field}: " if warning.field else ""
            complain(f"{path}: warning: {of_item}{field}{warning.message}")
