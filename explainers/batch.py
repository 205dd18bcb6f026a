"""From files to outputs: lessons, items or folders of them in, every wanted output of each out.

Each lesson or item gets a folder of its own name. One that cannot be used is reported, the others go on. What was made
from the same files by the same program is not made again. Several can be made at a time, each in a process of its own.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from .errors import ExplainersError, Fault, ItemError, OutputError, UnsoundItemError
from .job import Job
from .made_folder import MadeFolder, folders_made_from
from .making import Making, OutputProgress, write_output
from .process_pool import Finished, Tell, each_in_a_process
from .style import PACE_NAMES

if TYPE_CHECKING:
    from .figure.theme import Theme
    from .intake.workspace import Workspace
    from .storyboard.timeline import Timeline

__all__ = [
    "ALL_OUTPUTS",
    "Built",
    "Job",
    "OutputProgress",
    "build",
    "jobs_of",
    "keep_page_true",
    "run_job",
    "timeline_of",
    "write_output",
]

ALL_OUTPUTS = (
    *("clip", "deck", "deck-html", "cues", "script", "transcript", "stills", "poster", "description"),
    *("certificate", "index"),
)

Overall = Callable[[str, int, int], None]  # (lesson or item just finished, how many are, how many there are)


@dataclass(frozen=True, slots=True, kw_only=True)
class Built:
    """What became of one lesson or item."""

    source: Path
    folder: Path | None = None  # None where it never came to that
    made: tuple[Path, ...] = ()  # written in this run
    made_by: tuple[tuple[str, tuple[Path, ...]], ...] = ()  # the same by outputs, in the order in which they were made
    kept: tuple[Path, ...] = ()  # there already, from the same input
    kept_outputs: tuple[str, ...] = ()  # the outputs of those
    left_over: tuple[Path, ...] = ()  # folders that were made from the same file when it had another name or number
    job: Job | None = None  # where there was something to make
    error: Exception | None = None
    outdated: tuple[str, ...] = ()  # other outputs in the folder, made in an earlier run and from other input
    aside: tuple[tuple[Path, Path], ...] = ()  # what was not as it had been written: (its name, where it is kept)
    seconds: float = 0.0  # how long a lesson takes; 0 for an item alone, and where nothing was made

    @property
    def unchanged(self) -> bool:
        """Whether there was nothing to do."""
        return self.error is None and not self.made


def timeline_of(
    path: Path, *, theme: Theme | None = None, pace: str | None = None, workspace: Workspace | None = None
) -> Timeline:
    """The timeline of a lesson file, or of an item file as a lesson of one worked example.

    theme  : in place of the lesson's own
    pace   : the name of one, in place of the lesson's own
    workspace : what this run has read and solved, here and below
    Raises : ItemError if a file is refused, UnsoundItemError if an item has not exactly one right option
    """
    return _job(path, theme, pace, workspace or _new_workspace()).timeline()


def build(
    paths: Iterable[Path],
    out: Path,
    wanted: Sequence[str] = ALL_OUTPUTS,
    progress: OutputProgress | None = None,
    *,
    workers: int = 1,
    overall: Overall | None = None,
    theme: Theme | None = None,
    pace: str | None = None,
    workspace: Workspace | None = None,
) -> Iterator[Built]:
    """Make the wanted outputs of every lesson and item named, each in a folder of its name under `out`.

    What is refused is reported first, before anything is drawn; the others follow in order.

    workers : how many are made at a time; with more than one, each has a process of its own
    overall : called before the first with the name "", then with the name of each that is finished
    theme   : in place of each lesson's own
    pace    : the name of one, in place of each lesson's own
    Raises  : OutputError if there is no output of a wanted name
    """
    from .outputs.registry import spec

    for output in wanted:
        spec(output)
    ready = []
    for found in jobs_of(paths, theme, pace, workspace=workspace):
        if isinstance(found, Built):
            yield found
        else:
            ready.append(found)
    if overall is not None:
        overall("", 0, len(ready))
    if workers > 1 and len(ready) > 1:
        yield from _build_at_once(ready, out, wanted, progress, workers, overall)
        return
    for number, job in enumerate(ready, start=1):
        built = run_job(job, out / job.name, wanted, progress)
        if overall is not None:
            overall(job.name, number, len(ready))
        yield built


def _build_at_once(
    jobs: Sequence[Job],
    out: Path,
    wanted: Sequence[str],
    progress: OutputProgress | None,
    workers: int,
    overall: Overall | None,
) -> Iterator[Built]:
    finished = 0

    def ended(number: int) -> None:
        nonlocal finished
        finished += 1
        if overall is not None:
            overall(jobs[number].name, finished, len(jobs))

    def news(number: int, what: str, done: int, total: int) -> None:
        if progress is not None:
            progress(what, done, total)

    calls = [(job, out / job.name, tuple(wanted)) for job in jobs]
    for job, became in zip(jobs, each_in_a_process(_run_job_elsewhere, calls, workers, news, ended), strict=True):
        yield became.result or Built(source=job.source, folder=out / job.name, error=_lost(became))


def _run_job_elsewhere(job: Job, folder: Path, wanted: Sequence[str], tell: Tell) -> Built:
    return run_job(job, folder, wanted, tell)


def _lost(became: Finished[Built]) -> Exception:
    if became.error is not None:
        return became.error
    code = became.exit_code or 0
    how = f"was ended by signal {-code}" if code < 0 else f"stopped with exit code {code}"
    return OutputError(
        f"the process that made it {how}; what was whole by then has been kept. "
        "To mend it: run it again, with fewer at a time, since the system ends what takes too much memory"
    )


def jobs_of(
    paths: Iterable[Path],
    theme: Theme | None = None,
    pace: str | None = None,
    *,
    workspace: Workspace | None = None,
) -> Iterator[Job | Built]:
    """Each lesson and item named, in a folder or series named, once, in order: ready to make, or what is wrong with it.

    A second one of a name that is taken already is wrong, since its outputs would overwrite those of the first.

    theme : in place of each lesson's own
    pace  : the name of one, in place of each lesson's own
    """
    from .document.file_text import place_of
    from .intake.reader import lesson_or_item_files
    from .item.folder import nothing_in

    workspace = workspace or _new_workspace()
    seen: set[str] = set()
    taken: dict[str, Path] = {}
    for named in paths:
        try:
            files = list(lesson_or_item_files([named], workspace.opened))
            if not files:
                raise ItemError([nothing_in(named, "lesson or item")])
        except (ExplainersError, OSError) as error:
            yield Built(source=named, error=error)
            continue
        for path in files:
            place = place_of(path)
            if place in seen:
                continue
            seen.add(place)
            try:
                job = _job(path, theme, pace, workspace)
            except Exception as error:  # any: a file that the program fails on must not stop the others
                yield Built(source=path, error=error)
                continue
            if job.name in taken:
                yield Built(source=path, error=_clash(job, taken[job.name]))
                continue
            taken[job.name] = path
            yield job


def run_job(job: Job, folder: Path, wanted: Sequence[str], progress: OutputProgress | None = None) -> Built:
    """Make those of the wanted outputs that are not there already from the same input."""
    from .outputs.registry import spec

    making = None
    try:
        making = Making(job, folder)
        # A page that lists the folder is kept true by whatever is made there, and made when the rest is there.
        # What can do without captions of its own comes after the clip that has them.
        wanted = sorted(
            dict.fromkeys((*wanted, *making.lists())),
            key=lambda output: (spec(output).lists_folder, "clip" in wanted and spec(output).captioned),
        )
        kept, made, seconds = dict[str, tuple[Path, ...]](), dict[str, tuple[Path, ...]](), 0.0
        for output in wanted:
            # Looked at one by one: a page is out of date as soon as anything beside it has been made.
            if making.holds(output):
                kept[output] = making.made.files(making.key(output))
                continue
            # Noted after each output, so that a run that is stopped in the middle goes on where it was.
            made[output] = making.write(output, progress)
            seconds = making.timeline(output).seconds
        return Built(
            source=job.source,
            folder=folder,
            made=tuple(path for files in made.values() for path in files),
            made_by=tuple(made.items()),
            kept=tuple(path for files in kept.values() for path in files),
            kept_outputs=tuple(kept),
            left_over=folders_made_from(job.source, beside=folder),
            job=job,
            outdated=making.outdated(wanted),
            aside=tuple(making.made.aside),
            seconds=seconds if job.lesson is not None else 0.0,
        )
    except Exception as error:  # any, for the same reason; the door says it, or raises it for a developer
        aside = tuple(making.made.aside) if making is not None else ()
        return Built(source=job.source, folder=folder, job=job, error=error, aside=aside)


def keep_page_true(path: Path, folder: Path, workspace: Workspace | None = None) -> None:
    """Make anew the page that lists a folder, where there is one: something of this lesson or item was made there.

    Raises : as ``jobs_of`` reports, and OutputError where it cannot be written
    """
    from .outputs.registry import WRITERS

    listing = [output for output, spec in WRITERS.items() if spec.lists_folder]
    if not any(MadeFolder(folder, ()).has_any(output) for output in listing):
        return
    for found in jobs_of([path], workspace=workspace):
        if not isinstance(found, Built):
            Making(found, folder).write_lists()


def _new_workspace() -> Workspace:
    from .intake.workspace import Workspace

    return Workspace()


def _job(path: Path, theme: Theme | None, pace: str | None, workspace: Workspace) -> Job:
    from .figure.theme_choice import chosen_theme

    if workspace.kind(path) == "lesson":
        lesson, solutions = workspace.solved_lesson(path)
        shown, written = [part.show for part in lesson.parts], workspace.lesson(path).source
        name, inputs, own_theme, own_pace = lesson.stem, (path, *lesson.files), lesson.theme, lesson.pace
    else:
        lesson, solutions, shown = None, (workspace.solution(path, pairs=True),), [path]
        written = workspace.item(path).source
        name, inputs, own_theme, own_pace = solutions[0].item.name, (path,), None, PACE_NAMES[0]
    job = Job(
        source=path,
        name=name,
        inputs=inputs,
        lesson=lesson,
        solutions=solutions,
        written=written,
        own_theme=chosen_theme(own_theme, workspace.opened),
        digests=workspace.opened.digests(inputs),  # once the theme has been opened too
        own_pace=own_pace,
        theme_given=theme,
        pace_given=pace,
    )
    unsound = [
        f"{file}: not sound, so nothing is drawn from it: {'; '.join(solution.unsound_because)}"
        for file, solution in dict(zip(shown, job.solutions, strict=True)).items()
        if not solution.sound
    ]
    if unsound:
        raise UnsoundItemError("\n".join(unsound))
    return job


def _clash(job: Job, other: Path) -> ItemError:
    return ItemError(
        [
            Fault(
                file=str(job.source),
                field="item" if job.lesson is None else "lesson",
                message=f"the name {job.name!r} is taken by {other}, so the outputs of one would overwrite the other's",
                fix="give one of them another name, or build them into different folders",
            )
        ]
    )
