"""What is said about files on standard error: faults of a refused one, warnings about a sound one."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from ..errors import Fault, OutputError
from .streams import complain

if TYPE_CHECKING:
    from ..batch import Job
    from ..choice.making import Survey
    from ..choice.model import Solution
    from ..document.source_map import SourceMap
    from ..item.model import Lesson
    from ..own_words import Review
    from ..storyboard.model import Storyboard

__all__ = [
    "tell_aside",
    "tell_faults",
    "tell_left_out",
    "tell_length",
    "tell_options",
    "tell_remarks",
    "tell_voice",
    "tell_warnings",
    "tell_warnings_of",
    "tell_word_warnings",
    "tell_words",
    "warning_lines",
]


def tell_faults(faults: Iterable[Fault]) -> None:
    """Each fault of a refused file, on its own line."""
    for fault in faults:
        complain(" ".join(str(fault).splitlines()))


def tell_warnings(path: Path, solutions: Iterable[Solution], written: SourceMap, *, making: bool = False) -> None:
    """What a teacher should look at in items that solve; it changes no exit code.

    written : where each field of the file stands
    making  : as something is made of them: what is to be seen while options are chosen is not told again each time
    """
    for line in warning_lines(path, solutions, written, making=making):
        complain(line)


def warning_lines(path: Path, solutions: Iterable[Solution], written: SourceMap, *, making: bool = False) -> list[str]:
    """What ``tell_warnings`` tells, a line each, to be told later."""
    from ..choice.question import WarningKind

    lines = []
    for solution in solutions:
        # In a lesson the item is named too, since the fields are the item's, not the lesson file's.
        of_item = "" if solution.item.name == path.stem else f"{solution.item.name}: "
        for warning in solution.warnings:
            if making and warning.kind == WarningKind.FINE_OPTIONS:
                continue
            field = f"{warning.field}: " if warning.field else ""
            line = written.line_of(warning.field) if "item" in written.lines else 0
            told = f"{warning.told}." if warning.fix else warning.told
            lines.append(f"{path}{f':{line}' if line else ''}: warning: {of_item}{field}{told}")
    return lines


def tell_options(solution: Solution, survey: Survey) -> None:
    """What each option shows, which slips could stand in, why others cannot, and what has no option."""
    from ..choice.option_search import said

    shown = []
    for verdict, option in zip(solution.verdicts, solution.item.options, strict=True):
        if verdict.same:
            shown.append(f"{verdict.label} the right one")
        elif verdict.slip is not None:
            by_hand = "" if option.corners is None else ", by its corners"
            shown.append(f"{verdict.label} {said(verdict.slip.cases)}{by_hand}")
        else:
            shown.append(f"{verdict.label} drawn by hand")
    complain(f"Shown: {'; '.join(shown)}.")
    complain(f"Could stand in: {', '.join(said(cases) for cases, _ in survey.spare) or 'no other single slip'}.")
    for why, names in survey.by_reason():
        complain(f"Cannot: {', '.join(names)}: {why}.")
    for name in survey.without:
        complain(f"No option shows a slip of {name}.")


def tell_warnings_of(job: Job) -> None:
    """What a teacher should look at in the items of what is to be made."""
    tell_warnings(job.source, job.solutions, job.written, making=True)


def tell_length(path: Path, seconds: float) -> None:
    """That a lesson is long, where it is; it changes no exit code."""
    from ..checking.lessons import LONG_MIN

    minutes = round(seconds / 60)
    if minutes > LONG_MIN:
        complain(
            f"{path}: warning: parts: this lesson is {minutes} minutes long, and {LONG_MIN} are enough for most "
            "learners: show fewer items in it, or some of them as: quick-check"
        )


def tell_left_out(path: Path, lesson: Lesson, solutions: Sequence[Solution]) -> None:
    """What a lesson that may take only so long is told without; it changes no exit code."""
    from ..lesson.planner import plan_unseen
    from ..storyboard.paces import pace_called
    from ..storyboard.pacing import pace

    if lesson.at_most_s is None:
        return
    board = plan_unseen(lesson, solutions)
    seconds = pace(board, pace_called(lesson.pace)).seconds
    if board.left_out:
        complain(f"{path}: told in {seconds:.0f} s, without {', '.join(board.left_out)}")
    if seconds > lesson.at_most_s:
        complain(
            f"{path}: warning: at-most: the shortest telling takes {seconds:.0f} s: "
            "show fewer items in it, shorten a pause, or allow more"
        )


def tell_word_warnings(review: Review) -> None:
    """What a teacher should look at in words of their own; it changes no exit code."""
    for fault in review.warnings:
        place = f"{fault.file}:{fault.line}" if fault.line else fault.file
        field = f"{fault.field}: " if fault.field else ""
        complain(" ".join(f"{place}: warning: {field}{fault.message}. To mend it: {fault.fix}.".splitlines()))


def tell_words(job: Job) -> None:
    """What to look at in a teacher's own words of what was made; what is true of new ones is noted beside it."""
    from ..own_words import memory_file, review_words

    lesson = job.lesson
    if lesson is None or (not lesson.words and not memory_file(job.source).exists()):
        return
    review = review_words(job.source, job.written, lesson, job.solutions)
    tell_word_warnings(review)
    try:
        review.keep()
    except OutputError as error:  # such as a folder that is only to be read: the lesson is made all the same
        complain(f"{job.source}: warning: what is true of its words could not be noted: {error}")


def tell_aside(aside: Iterable[tuple[Path, Path]]) -> None:
    """What was put aside because it was not as it had been written: nobody's work is written over."""
    kept: dict[Path, list[str]] = {}
    for path, now in aside:
        folder = next(parent for parent in now.parents if now.relative_to(parent) == path.relative_to(parent.parent))
        kept.setdefault(folder, []).append(path.name)
    for folder, names in kept.items():
        told = ", ".join(names[:3]) + (f" and {len(names) - 3} more" if len(names) > 3 else "")
        were = "was" if len(names) == 1 else "were"
        complain(
            f"{folder}: put aside here, before a new file took the name: {told}, which {were} changed since the last "
            "run, or made by something else. Keep what you want of it, and delete the folder."
        )


def tell_voice(job: Job, storyboard: Storyboard | None = None) -> None:
    """What a teacher should know of the voice that was fitted to a lesson; nothing where there is none.

    storyboard : of the job, where the caller has it already
    """
    from ..fitting.fitted import SCRATCH_TITLE, remarks_on

    fit = job.voice()
    if fit is None:
        return
    tell_remarks(job.source, remarks_on(storyboard or job.storyboard(), fit))
    if fit.scratch:
        rid = f"To be rid of it: fit a recording, or delete {fit.folder}."
        complain(f"{job.source}: made with a {SCRATCH_TITLE}. {rid}")


def tell_remarks(path: Path, remarks: Iterable[Fault]) -> None:
    """Warnings about takes, each with its step; none changes an exit code."""
    for fault in remarks:
        field = f"{fault.field}: " if fault.field else ""
        line = f"{fault.file or path}: warning: {field}{fault.message}. To mend it: {fault.fix}."
        complain(" ".join(line.splitlines()))
