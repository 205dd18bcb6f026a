"""From what was named to sets of sheets: each lesson one, the items named together one."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from .door import SOUND, tell, worst
from .reports import tell_aside, tell_warnings
from .streams import say
from .writing import DEFAULT_FOLDER

if TYPE_CHECKING:
    from ..choice.model import Solution
    from ..figure.paper import Printing
    from ..figure.theme import Theme
    from ..intake.workspace import Workspace
    from ..item.model import Lesson
    from ..sentences.sheets import SheetKind
    from ..sentences.variants import Aspect

__all__ = ["DEFAULT_SEED", "paper_called", "write_sets"]

DEFAULT_SEED = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class _Together:
    """What makes one set."""

    source: Path
    name: str
    title: str
    solutions: tuple[Solution, ...]
    sources: tuple[Path, ...]  # what was named
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
    theme: Theme | None,
    kinds: Sequence[SheetKind],
    printing: Printing,
    versions: int,
    seed: int,
) -> int:
    """Write the sheets of everything named, for the worst exit code.

    A set with a refused item is not written: a sheet with a question missing is worse than none.

    to    : the folder of one set's sheets; with several sets, the folder that holds a folder for each
    theme : given by hand; None for black on white
    """
    from ..batch import keep_page_true
    from ..figure.theme_choice import chosen_theme
    from ..figure.themes import PRINT
    from ..intake.workspace import Workspace
    from ..lesson.sheet_plan import of_lesson, plan_sheets, plan_versions
    from ..made_folder import MadeFolder, key_of
    from ..outputs.registry import SHEETS
    from ..sentences.variants import variant_name

    codes: list[int] = []
    workspace = Workspace()
    together = list(_sets(paths, codes, workspace))
    write = SHEETS.load()
    for one in together:
        own = PRINT if one.lesson is None else PRINT.in_words_of(chosen_theme(one.lesson.theme, workspace.opened))
        look = theme or own
        aspects = _aspects(look if look != own else None, printing, seed if versions > 1 else None)
        folder = to if to is not None and len(together) == 1 else (to or DEFAULT_FOLDER) / one.name
        name = variant_name(one.name, aspects)
        made = MadeFolder(folder, one.sources)
        shared = {"name": name, "title": one.title, "theme": look, "printing": printing, **of_lesson(one.lesson)}
        try:
            if versions > 1:
                planned = list(plan_versions(one.solutions, versions, seed, only=kinds, **shared))
            else:
                planned = [plan_sheets(one.solutions, only=kinds, **shared)]
            with made.writing(key_of(name, "sheets"), [Path(look.file)] if look != own and look.file else ()):
                written = write(planned, folder)
            # Before the page is looked at, which may fail by itself: what is there is said.
            for path in (written,) if isinstance(written, Path) else written:
                say(str(path))
            keep_page_true(one.source, folder, workspace)
        except Exception as error:  # told like any other, so that the sets after this one are still made
            codes.append(tell(error, one.source))
        tell_aside(made.aside)
    return worst(codes)


def _aspects(theme: Theme | None, printing: Printing, seed: int | None) -> dict[Aspect, str | int | bool | None]:
    """In what these sheets differ from the ordinary ones; each version has its number besides.

    theme : where it is another one
    seed  : of the orders, where there are versions
    """
    from ..figure.paper import Paper
    from ..sentences.variants import LARGE_PRINT, LETTER, SEED, THEME

    return {
        THEME: None if theme is None else theme.name,
        LARGE_PRINT: printing.large,
        LETTER: printing.paper is Paper.LETTER,
        SEED: seed if seed != DEFAULT_SEED else None,
    }


def _sets(paths: Sequence[Path], codes: list[int], workspace: Workspace) -> Iterator[_Together]:
    """Each lesson named, then all items named or in a folder named, in order; what is refused is told."""
    from ..errors import ItemError
    from ..intake.reader import item_files, lesson_or_item_files
    from ..item.faults import ReportedFaults
    from ..item.folder import nothing_in

    told = ReportedFaults()
    items: dict[Path, Path] = {}
    refused = False
    for named in paths:
        try:
            # Of a folder the items, as item commands take it; of a series the lessons that it lists.
            files = (item_files if named.is_dir() else lesson_or_item_files)([named], workspace.opened)
            if not files:
                raise ItemError([nothing_in(named, "item")])
            for file in files:
                if workspace.kind(file) != "lesson":
                    items.setdefault(file.resolve(), file)
                    continue
                try:
                    lesson, solutions = workspace.solved_lesson(file)
                except ItemError as error:  # the other lessons of a series are made all the same
                    codes.append(tell(error, file, told))
                    continue
                codes.append(SOUND)
                tell_warnings(file, solutions, workspace.lesson(file).source, making=True)
                yield _Together(
                    source=file,
                    name=lesson.stem,
                    title=lesson.title,
                    solutions=solutions,
                    sources=(file,),
                    lesson=lesson,
                )
        except Exception as error:
            codes.append(tell(error, named))
    solved = []
    for file in items.values():
        try:
            solution = workspace.solution(file, pairs=True)
        except Exception as error:
            codes.append(tell(error, file, told))
            refused = True
            continue
        tell_warnings(file, [solution], workspace.item(file).source, making=True)
        solved.append(solution)
    if solved and not refused:
        first = next(iter(items.values()))
        name, title = solved[0].item.name, solved[0].item.title
        folders = tuple(path for path in paths if path.is_dir())
        if len(solved) > 1:
            name = first.resolve().parent.name or "items"
            title = name.replace("-", " ").replace("_", " ").capitalize()
            if not folders:  # a choice from the folder: the sheets of another choice must not have the same name
                rest = solved[1].item.name if len(solved) == 2 else f"{len(solved) - 1}-more"
                name = f"{solved[0].item.name}-and-{rest}"
        yield _Together(
            source=first,
            name=name,
            title=title,
            solutions=tuple(solved),
            sources=folders or tuple(items.values()),
        )
