"""What is said about files on standard error: faults of a refused one, warnings about a sound one."""

from __future__ import annotations

import os
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from ..errors import Fault, OutputError
from .streams import complain

if TYPE_CHECKING:
    from ..batch import Job
    from ..own_words import Review
    from ..solution.model import Solution
    from ..storyboard.model import Storyboard

__all__ = [
    "tell_aside",
    "tell_faults",
    "tell_length",
    "tell_remarks",
    "tell_voice",
    "tell_voice_of",
    "tell_warnings",
    "tell_word_warnings",
    "tell_words",
    "tell_words_in",
]

LONG_MIN = 10  # minutes, for pupils of about ten years: common practice, no source


def tell_faults(faults: Iterable[Fault]) -> None:
    """Each fault of a refused file, on its own line."""
    for fault in faults:
        complain(" ".join(str(fault).splitlines()))


def tell_warnings(path: Path, solutions: Iterable[Solution]) -> None:
    """What a teacher should look at in items that solve; it changes no exit code."""
    from ..item.reader import kind_of_file, scan_item

    source = None
    for solution in solutions:
        # In a lesson the item is named too, since the fields are the item's, not the lesson file's.
        of_item = "" if solution.item.name == path.stem else f"{solution.item.name}: "
        if solution.warnings and source is None and kind_of_file(path) == "item":
            source = scan_item(path).source
        for warning in solution.warnings:
            field = f"{warning.field}: " if warning.field else ""
            line = source.line_of(warning.field) if source is not None else 0
            complain(f"{path}{f':{line}' if line else ''}: warning: {of_item}{field}{warning.message}")


def tell_length(path: Path, seconds: float) -> None:
    """That a lesson is long, where it is; it changes no exit code."""
    minutes = round(seconds / 60)
    if minutes > LONG_MIN:
        complain(
            f"{path}: warning: parts: this lesson is {minutes} minutes long, and {LONG_MIN} are enough for most "
            "learners: show fewer items in it, or some of them as: quick-check"
        )


def tell_word_warnings(review: Review) -> None:
    """What a teacher should look at in words of their own; it changes no exit code."""
    for fault in review.warnings:
        place = f"{fault.file}:{fault.line}" if fault.line else fault.file
        field = f"{fault.field}: " if fault.field else ""
        complain(" ".join(f"{place}: warning: {field}{fault.message}. To mend it: {fault.fix}.".splitlines()))


def tell_words(path: Path, solutions: Sequence[Solution], *, note: bool) -> None:
    """The same for a lesson that has been read and solved; nothing for an item, or a lesson without such words.

    note : whether what is true of new words is noted beside the lesson, as it is when something is made from it
    """
    from ..item.reader import kind_of_file, read_lesson
    from ..own_words import memory_file, review_words

    if kind_of_file(path) != "lesson":
        return
    lesson = read_lesson(path)
    if not lesson.words and not memory_file(path).exists():
        return
    review = review_words(path, lesson, solutions)
    tell_word_warnings(review)
    if not note:
        return
    try:
        review.keep()
    except OutputError as error:  # such as a folder that is only to be read: the lesson is made all the same
        complain(f"{path}: warning: what is true of its words could not be noted: {error}")


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


def tell_voice_of(path: Path) -> None:
    """The same for a lesson that was made, by its file."""
    from ..batch import Built, jobs_of
    from ..fitting.memory import fit_folder

    if any(fit_folder(path, scratch=scratch).exists() for scratch in (False, True)):
        for found in jobs_of([path]):
            if not isinstance(found, Built):
                tell_voice(found)


def tell_remarks(path: Path, remarks: Iterable[Fault]) -> None:
    """Warnings about takes, each with its step; none changes an exit code."""
    for fault in remarks:
        field = f"{fault.field}: " if fault.field else ""
        line = f"{fault.file or path}: warning: {field}{fault.message}. To mend it: {fault.fix}."
        complain(" ".join(line.splitlines()))


def tell_words_in(paths: Iterable[Path]) -> None:
    """The same for every lesson among these files and folders that can be made, once; nothing is noted."""
    from ..errors import ExplainersError
    from ..intake import take_in_lesson
    from ..item.reader import kind_of_file, lesson_or_item_files, scan_lesson

    seen = set()
    files = []
    for named in paths:
        try:
            files += lesson_or_item_files([named])
        except ExplainersError:  # a series that is refused, told of by itself
            continue
    for path in files:
        place = os.path.realpath(
            path
        )  # unlike Path.resolve and Path.is_file it raises for nothing: not our fault to tell
        if place in seen or not os.path.isfile(place) or kind_of_file(path) != "lesson":
            continue
        seen.add(place)
        lesson = scan_lesson(path).lesson
        if lesson is None or not lesson.words:
            continue
        try:
            tell_words(path, take_in_lesson(path)[1], note=False)
        except (ExplainersError, OSError):  # the items are told of by themselves, the lesson when it is made
            continue
