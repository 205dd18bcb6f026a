"""From what was named to sets of sheets: each lesson one, the items named together one."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from .door import tell
from .exit_codes import SOUND, worst
from .streams import say
from .telling import tell_warnings
from .writing import DEFAULT_FOLDER

if TYPE_CHECKING:
    from ..figure.paper import Printing
    from ..figure.theme import Theme
    from ..item.model import Lesson
    from ..solution.model import Solution
    from ..wording.sheets import Sheet

__all__ = ["paper_called", "write_sets"]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Together:
    """What makes one set."""

    source: Path
    name: str
    title: str
    solutions: tuple[Solution, ...]
    lesson: Lesson | None = None


def paper_called(name: str, large: bool) -> Printing:
    """The paper of this name.

    Raises : OutputError where there is none
    """
    from ..errors import OutputError
    from ..figure.paper import Paper, Printing

    if name.lower() not in list(Paper):
        raise OutputError(f"--paper {name}: there is no such paper. To mend it: write a4 or letter")
    return Printing(paper=Paper(name.lower()), large=large)


def write_sets(
    paths: Sequence[Path],
    to: Path | None,
    theme: Theme,
    kinds: Sequence[Sheet],
    printing: Printing,
    versions: int,
    seed: int,
) -> int:
    """Write the sheets of everything named, for the worst exit code.

    A set with a refused item is not written: a sheet with a question missing is worse than none.

    to : the folder of one set's sheets; with several sets, the folder that holds a folder for each
    """
    from ..outputs.registry import SHEETS
    from ..storyboard.sheet_plan import plan_sheets, plan_versions

    codes: list[int] = []
    together = list(_sets(paths, codes))
    write = SHEETS.load()
    for one in together:
        folder = to if to is not None and len(together) == 1 else (to or DEFAULT_FOLDER) / one.name
        shared = {
            "name": one.name,
            "title": one.title,
            "theme": theme,
            "printing": printing,
            **_of_lesson(one.lesson),
        }
        try:
            if versions > 1:
                planned = list(plan_versions(one.solutions, versions, seed, only=kinds, **shared))
            else:
                planned = [plan_sheets(one.solutions, only=kinds, **shared)]  # type: ignore[arg-type]
            written = write(planned, folder)
        except Exception as error:  # told like any other, so that the sets after this one are still made
            codes.append(tell(error, one.source))
            continue
        for path in (written,) if isinstance(written, Path) else written:
            say(str(path))
    return worst(codes)


def _of_lesson(lesson: Lesson | None) -> dict[str, object]:
    from ..storyboard.model import Imprint

    if lesson is None:
        return {}
    imprint = Imprint(credit=lesson.credit or "", licence=lesson.licence or "", number=lesson.number)
    return {"language": lesson.language, "imprint": imprint}


def _sets(paths: Sequence[Path], codes: list[int]) -> Iterator[_Together]:
    """Each lesson named, then all items named or in a folder named, in order; what is refused is told."""
    from ..errors import ItemError
    from ..intake import take_in, take_in_lesson
    from ..item.reader import item_files, kind_of_file, lesson_or_item_files
    from ..item.told_once import ToldOnce

    told = ToldOnce()
    items: dict[Path, Path] = {}
    refused = False
    for named in paths:
        try:
            # Of a folder the items, as item commands take it; of a series the lessons that it lists.
            files = list(item_files([named]) if named.is_dir() else lesson_or_item_files([named]))
            if not files:
                from ..batch import nothing_in

                raise ItemError([nothing_in(named, "item")])
            for file in files:
                if kind_of_file(file) != "lesson":
                    items.setdefault(file.resolve(), file)
                    continue
                try:
                    lesson, solutions = take_in_lesson(file)
                except ItemError as error:  # the other lessons of a series are made all the same
                    codes.append(tell(error, file, told))
                    continue
                codes.append(SOUND)
                tell_warnings(file, solutions)
                yield _Together(source=file, name=lesson.stem, title=lesson.title, solutions=solutions, lesson=lesson)
        except Exception as error:
            codes.append(tell(error, named))
    solved = []
    for file in items.values():
        try:
            solution = take_in(file, pairs=True)
        except Exception as error:
            codes.append(tell(error, file, told))
            refused = True
            continue
        tell_warnings(file, [solution])
        solved.append(solution)
    if solved and not refused:
        first = next(iter(items.values()))
        name, title = solved[0].item.name, solved[0].item.title
        if len(solved) > 1:
            name = first.resolve().parent.name or "items"
            title = name.replace("-", " ").replace("_", " ").capitalize()
        yield _Together(source=first, name=name, title=title, solutions=tuple(solved))
