"""`explainers fit`: a recorded voice and the pictures on one timeline."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from .door import REFUSED, SOUND, at_the_door, tell

if TYPE_CHECKING:
    from collections.abc import Sequence

    from ..batch import Built, Job
    from ..errors import Fault
    from ..fitting.takes import FoundTake
    from ..storyboard.model import Storyboard

__all__ = ["app"]

EPILOG = """\b
Examples:
  explainers fit items/a.yaml takes/               a file a step, by step id
  explainers fit items/a.yaml talk.wav --log a.json  with the prompter's log
  explainers fit items/a.yaml talk.m4a             one recording alone
  explainers fit items/a.yaml --scratch            a machine's voice
  explainers fit items/a.yaml --accept a.b.turn    its take fits new words

The voice is remembered in a folder beside the lesson, NAME.voice; what is
built from the lesson afterwards has it. Delete the folder to be rid of it.
A machine's voice has NAME.scratch-voice, and files of its own beside the
others: NAME.scratch.mp4. It is heard only while no recording is fitted."""

EVERY_STEP = "all"
_MADE = ("clip", "cues")
_TIMED = ("deck", "deck-pdf", "deck-html", "handout", "script", "transcript", "description")  # tell times, or sound

app = typer.Typer(add_completion=False, rich_markup_mode=None)


@app.command(epilog=EPILOG)
@at_the_door
def fit(
    lesson: Annotated[Path, typer.Argument(metavar="LESSON", help="A lesson, or an item alone.")],
    takes: Annotated[
        Path | None, typer.Argument(metavar="TAKES", help="A folder with a take a step, or one recording.")
    ] = None,
    log: Annotated[Path | None, typer.Option("--log", metavar="FILE", help="What the prompter page saved.")] = None,
    scratch: Annotated[bool, typer.Option("--scratch", help="A machine's voice, to judge the pace.")] = False,
    accept: Annotated[
        list[str] | None,
        typer.Option("--accept", metavar="STEP", help="A take fits the words of now: a step id, or all."),
    ] = None,
    loudness: Annotated[
        str, typer.Option("--loudness", metavar="LEVEL", help="speech (-18 LUFS), broadcast (-23), or a number.")
    ] = "speech",
    to: Annotated[
        Path | None, typer.Option("--to", metavar="FOLDER", help="Where to write; else render_out/NAME.")
    ] = None,
) -> int:
    """Fit a recorded voice to a lesson; write its clip and cue sheet."""
    from dataclasses import replace

    from ..batch import Built, jobs_of, run_job
    from ..document.source_map import in_line_order
    from ..fitting.making import keep_takes, remarks_on_sound
    from ..intake.workspace import Workspace
    from ..item.series_folder import is_many
    from .progress import shown_progress
    from .reports import tell_aside, tell_remarks, tell_voice, tell_warnings_of, tell_words
    from .streams import complain, say
    from .writing import DEFAULT_FOLDER

    target = _target(loudness)
    if target is None or not _makes_sense(takes, log, scratch=scratch, accepts=bool(accept)):
        return REFUSED
    workspace = Workspace()
    if is_many([lesson], workspace.opened):
        complain(f"{lesson}: a voice belongs to one lesson. To mend it: name the lesson's file.")
        return REFUSED
    (found,) = jobs_of([lesson], workspace=workspace)
    if isinstance(found, Built):
        return tell(found.error, found.source) if found.error else SOUND
    found = replace(found, scratch=scratch)
    storyboard = found.storyboard()
    tell_warnings_of(found)
    if takes is not None or scratch:
        parts, remarks = _found(found, storyboard, takes, log, target)
        tell_remarks(lesson, in_line_order([*remarks, *remarks_on_sound(parts, storyboard.steps, storyboard.language)]))
        if not parts:
            complain(f"{takes}: no take was found, so nothing was fitted. To mend it: call each file by its step's id.")
            return REFUSED
        keep_takes(found.source, storyboard, parts, target, scratch=scratch)
    if accept and not _accepted(found, storyboard, accept):
        return REFUSED
    folder = to or DEFAULT_FOLDER / found.name
    with shown_progress() as progress:
        built = run_job(found, folder, _MADE, progress)
    tell_aside(built.aside)
    if built.error:
        return tell(built.error, found.source)
    tell_words(found)
    tell_voice(found, storyboard)
    _tell_old(built)
    for path in (*built.made, *built.kept):
        say(str(path))
    return SOUND


def _tell_old(built: Built) -> None:
    """Name what lies in the folder from an earlier run, and has other times than the clip has now."""
    from .streams import complain

    old = [output for output in built.outdated if output in _TIMED]
    if old:
        only = "".join(f" --only {output}" for output in old)
        complain(
            f"{built.folder}: warning: made before this, so with other times: {', '.join(old)}. "
            f"To mend it: run explainers build {built.source}{only}."
        )


def _accepted(job: Job, storyboard: Storyboard, step_ids: Sequence[str]) -> bool:
    """Whether there is a take of each of these steps, whose words of now have been accepted."""
    from ..fitting.making import accept_words
    from .streams import complain

    fit = job.voice()
    there = {take.step_id for take in fit.takes} if fit is not None else set()
    unknown = [step_id for step_id in step_ids if step_id != EVERY_STEP and step_id not in there]
    if fit is None or unknown:
        for step_id in unknown or step_ids:
            complain(f"{job.source}: there is no take of {step_id}. To mend it: take an id from the list of warnings.")
        return False
    accept_words(fit, storyboard, there if EVERY_STEP in step_ids else step_ids)
    return True


def _found(
    job: Job, storyboard: Storyboard, takes: Path | None, log: Path | None, loudness_lufs: float
) -> tuple[Sequence[FoundTake], Sequence[Fault]]:
    from ..fitting.making import takes_kept
    from ..fitting.takes import found_in_files, found_in_recording, found_with_log

    kept = takes_kept(job.source, loudness_lufs, scratch=takes is None)
    if takes is None:
        from ..fitting.scratch import scratch_takes

        command = job.lesson.voice_command if job.lesson is not None else ()
        return scratch_takes(storyboard.steps, storyboard.language, command, job.source, kept), ()
    if takes.is_dir():
        return found_in_files(takes, storyboard.steps, kept)
    if log is not None:
        return found_with_log(takes, log, storyboard.steps, kept, storyboard.language)
    return found_in_recording(takes, storyboard.steps, kept, storyboard.language)


def _target(loudness: str) -> float | None:
    from ..voice.loudness import TARGETS_LUFS
    from .streams import complain

    if loudness in TARGETS_LUFS:
        return TARGETS_LUFS[loudness]
    try:
        number = float(loudness)
    except ValueError:
        number = 0.0
    if -40.0 <= number <= -10.0:
        return number
    complain(f"--loudness {loudness}: To mend it: write speech, broadcast, or a number of LUFS from -40 to -10.")
    return None


def _makes_sense(takes: Path | None, log: Path | None, *, scratch: bool, accepts: bool) -> bool:
    from .streams import complain

    wrong = ""
    if scratch and (takes is not None or log is not None):
        wrong = "a scratch voice needs no takes. To mend it: leave out the takes, or leave out --scratch."
    elif not scratch and takes is None and not accepts:
        wrong = "TAKES is missing. To mend it: name a folder with takes or a recording, or give --scratch."
    elif takes is not None and not takes.exists():
        wrong = f"{takes}: there is no such file or folder. To mend it: check the name and the folder."
    elif takes is None and log is not None:
        wrong = "a log divides a recording. To mend it: name the recording, or leave out --log."
    elif takes is not None and takes.is_dir() and log is not None:
        wrong = "a log divides one recording. To mend it: name the recording, or leave out --log."
    if wrong:
        complain(wrong if takes is not None and wrong.startswith(str(takes)) else f"explainers fit: {wrong}")
    return not wrong
