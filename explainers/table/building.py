"""Outputs of the lesson on the table, made from its page: one build at a time, in a process apart, told as it goes.

What is made is what `explainers build` makes, and `explainers sheets` for the sheets, into a folder that was settled
when the page was opened; nothing of anybody's is written over.
"""

from __future__ import annotations

import threading
from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from typing import Any

from ..batch import Built, Job, jobs_of, keep_page_true, run_job
from ..errors import OutputError
from ..figure.paper import Printing
from ..figure.themes import PRINT
from ..intake.workspace import Workspace
from ..lesson.sheet_plan import of_lesson, plan_sheets
from ..made_folder import MadeFolder, key_of
from ..outputs.registry import SHEETS
from ..own_words import memory_file, review_words
from ..process_pool import Finished, Tell, each_in_a_process
from .telling import lines_of_error

__all__ = ["OUTPUTS", "Builds"]

OUTPUTS: dict[str, str | None] = {"clip": "clip", "slides": "deck", "page": "deck-html", "sheets": None}
"""What may be asked for, in the order in which it is made, with the name of its writer; sheets have none."""

_BEGUN, _PART, _MADE, _KEPT = "begun", "part", "made", "kept"


class Builds:
    """One build at a time into one folder; safe for several threads."""

    def __init__(self, folder: Path, changed: Callable[[], None]) -> None:
        """folder  : holds a folder for each lesson and item
        changed : called from another thread whenever there is news
        """
        self.folder = folder
        self._changed = changed
        self._lock = threading.Lock()
        self._thread: threading.Thread | None = None
        self._unwanted = False
        self._told: dict[str, Any] = {"state": "none", "of": "", "outputs": [], "said": [], "folder": str(folder)}

    def told(self) -> dict[str, Any]:
        """How it stands: see ``server``."""
        with self._lock:
            return {**self._told, "outputs": [dict(each) for each in self._told["outputs"]]}

    def start(self, source: Path, wanted: Sequence[str]) -> bool:
        """Begin to make some of ``OUTPUTS`` of a lesson or an item; False where something is being made already."""
        with self._lock:
            if self._told["state"] == "making":
                return False
            outputs = [{"output": each, "state": "waiting", "files": []} for each in OUTPUTS if each in wanted]
            self._told = {
                "state": "making", "of": source.name, "outputs": outputs, "said": [], "folder": str(self.folder)
            }  # fmt: skip
            self._unwanted = False
            self._thread = threading.Thread(target=self._run, args=(source, tuple(wanted)), daemon=True)
            self._thread.start()
        self._changed()
        return True

    def stop(self) -> None:
        """Give up what is being made; what is whole by then stays."""
        self._unwanted = True

    def close(self) -> None:
        """The same, and wait until it is over."""
        self.stop()
        if self._thread is not None:
            self._thread.join()

    def _run(self, source: Path, wanted: tuple[str, ...]) -> None:
        became: Finished[dict[str, Any]] | None = None
        try:
            calls = [(source, self.folder, wanted)]
            became = next(each_in_a_process(_made, calls, 1, self._news, unwanted=lambda: self._unwanted), None)
        except Exception as error:  # such as a process that the system does not start
            became = Finished(error=OutputError(f"the build could not be started ({type(error).__name__})"))
        with self._lock:
            self._told |= _end(became, source)
            if self._told["state"] != "made":
                for each in self._told["outputs"]:
                    if each["state"] in ("waiting", "making"):
                        each["state"] = "not made"
        self._changed()

    def _news(self, _: int, what: str, output: str, *more: Any) -> None:
        with self._lock:
            row = next(each for each in self._told["outputs"] if each["output"] == output)
            if what == _BEGUN:
                row["state"] = "making"
            elif what == _PART:
                row["done"], row["total"] = more
            else:
                row["state"], row["files"] = what, more[0]
        self._changed()


def _end(became: Finished[dict[str, Any]] | None, source: Path) -> dict[str, Any]:
    if became is None:
        return {"state": "stopped", "said": ["stopped; what was whole by then has been kept"]}
    if became.result is not None:
        return became.result
    if became.error is not None:
        return {"state": "failed", "said": lines_of_error(became.error, source)}
    return {"state": "failed", "said": [f"the process that made it ended with code {became.exit_code}"]}


def _made(source: Path, folder: Path, wanted: tuple[str, ...], tell: Tell) -> dict[str, Any]:
    """Make them, in a process of its own."""
    workspace = Workspace()
    (job,) = jobs_of([source], workspace=workspace)
    if isinstance(job, Built):
        return {"state": "failed", "said": lines_of_error(job.error or OutputError("nothing to make"), source)}
    own = folder / job.name
    said = _words_noted(job)
    for output, writer in OUTPUTS.items():
        if output not in wanted:
            continue
        tell(_BEGUN, output)
        if writer is None:
            error, aside = _sheets(job, own, workspace, tell)
        else:
            built = run_job(job, own, [writer], partial(_part, tell, output))
            error, aside = built.error, built.aside
            state, files = (_MADE, built.made_by) if dict(built.made_by).get(writer) else (_KEPT, ())
            if error is None:
                made = dict(files).get(writer) or built.kept
                tell(state, output, [path.relative_to(own).as_posix() for path in made])
        said += [f"{path.name} had been changed, or is another's: it is put aside as {kept}" for path, kept in aside]
        if error is not None:
            return {"state": "failed", "said": [*said, *lines_of_error(error, source)], "folder": str(own)}
    return {"state": "made", "said": said, "folder": str(own)}


def _part(tell: Tell, output: str, _: str, done: int, total: int) -> None:
    tell(_PART, output, done, total)


def _sheets(
    job: Job, folder: Path, workspace: Workspace, tell: Tell
) -> tuple[Exception | None, Sequence[tuple[Path, Path]]]:
    """All sheets, black on white, as `explainers sheets` makes them without a word more."""
    made = MadeFolder(folder, (job.source,))
    lesson = job.lesson
    try:
        look = PRINT if lesson is None else PRINT.in_words_of(job.own_theme)
        title = job.solutions[0].item.title if lesson is None else lesson.title
        shared = {"name": job.name, "title": title, "theme": look, "printing": Printing(), **of_lesson(lesson)}
        planned = plan_sheets(job.solutions, **shared)
        with made.writing(key_of(job.name, "sheets")):
            written = SHEETS.load()([planned], folder)
        files = (written,) if isinstance(written, Path) else written
        keep_page_true(job.source, folder, workspace)
    except Exception as error:  # told like any other
        return error, made.aside
    tell(_MADE, "sheets", [path.relative_to(folder).as_posix() for path in files])
    return None, made.aside


def _words_noted(job: Job) -> list[str]:
    """What to look at in a teacher's own words; what is true of new ones is noted beside them, as by the command."""
    if job.lesson is None or (not job.lesson.words and not memory_file(job.source).exists()):
        return []
    review = review_words(job.source, job.written, job.lesson, job.solutions)
    try:
        review.keep()
    except OutputError as error:
        return [f"what is true of its words could not be noted: {error}"]
    return [f"warning: {fault}" for fault in review.warnings]
