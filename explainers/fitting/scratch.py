"""A scratch voice: every step said by a machine, to judge the pace before anybody records."""

from __future__ import annotations

import hashlib
import shutil
import subprocess
import tempfile
from collections.abc import Sequence
from pathlib import Path
from types import MappingProxyType

from ..errors import Fault, RecordingError
from ..storyboard.model import Step
from ..voice.sound import Sound, read_sound
from ..voice.speech import Stretch, heard
from .takes import FoundTake, Kept, kept_again

__all__ = ["scratch_takes"]

LONGEST_S = 60.0  # for the words of one step
_MOST_BYTES = 400_000_000
_LEAST_ROOM = 100_000  # bytes: not a second of speech


def scratch_takes(
    steps: Sequence[Step], language: str, command: Sequence[str], lesson: Path, kept: Kept = MappingProxyType({})
) -> list[FoundTake]:
    """A take of each step with words; what was said before in the same words by the same voice is not said again.

    command : the user's own program and its arguments, words on its standard input, WAV on its standard output; () for
              the machine's voice of the package espeakng-loader
    Raises  : RecordingError with every step that could not be said; OutputError where there is no machine's voice
    """
    found: list[FoundTake] = []
    faults: list[Fault] = []
    for step in steps:
        words = " ".join(step.narration)
        if not words:
            continue
        source = "scratch-" + hashlib.sha256("\0".join([language, *command, words]).encode()).hexdigest()[:16]
        before = kept.get(step.id)
        if before is not None and before.source == source:
            found.append(kept_again(before, lesson))
            continue
        try:
            sound = _by_command(words, command) if command else _by_machine(words, language)
            stretches = heard(sound).stretches
            if not stretches:
                raise _Failed("it gave no sound")
        except _Failed as failed:
            field = f"voice.command: {step.id}" if command else step.id
            fix = "try the command by hand: it reads words and writes a WAV file" if command else "use other words"
            faults.append(Fault(file=str(lesson), field=field, message=str(failed), fix=failed.fix or fix))
            if command:
                break  # a command that fails once fails for all
            continue
        first_s = stretches[0].start_s
        speech = tuple(Stretch(start_s=one.start_s - first_s, end_s=one.end_s - first_s) for one in stretches)
        alone = sound.between(first_s, stretches[-1].end_s)
        found.append(FoundTake(step_id=step.id, sound=alone, speech=speech, source=source, clipped_s=0.0, file=lesson))
    if faults:
        raise RecordingError(faults)
    return found


class _Failed(Exception):
    """One step could not be said."""

    def __init__(self, message: str, fix: str = "") -> None:
        super().__init__(message)
        self.fix = fix


def _by_machine(words: str, language: str) -> Sound:
    from ..voice.espeak import spoken_by_machine

    return spoken_by_machine(words, language)


def _by_command(words: str, command: Sequence[str]) -> Sound:
    try:
        with tempfile.TemporaryDirectory(prefix="explainers-voice-") as folder:
            try:
                return _said_into(Path(folder) / "said.wav", words, command)
            except _Failed:
                if shutil.disk_usage(folder).free < _LEAST_ROOM:  # which is why, whatever the command makes of it
                    raise _no_room(f"the temporary folder {Path(folder).parent} is full") from None
                raise
    except OSError as error:
        raise _no_room(f"no temporary folder can be used ({error.strerror or error})") from error


def _no_room(message: str) -> _Failed:
    return _Failed(message, "make room there, or name another folder in TMPDIR")


def _said_into(path: Path, words: str, command: Sequence[str]) -> Sound:
    """By a command into a file; as it is heard."""
    try:
        with path.open("wb") as out:
            # A list, so that no shell ever sees the words.
            done = subprocess.run(
                list(command),
                input=words.encode(),
                stdout=out,
                stderr=subprocess.PIPE,
                timeout=LONGEST_S,
                check=False,
            )
    except subprocess.TimeoutExpired as error:
        raise _Failed(f"the command took longer than {LONGEST_S:.0f} s for one step") from error
    except OSError as error:
        raise _Failed(f"the command cannot be run ({error.strerror})") from error
    if done.returncode != 0:
        said = done.stderr.decode(errors="replace").strip().splitlines()
        raise _Failed(f"the command failed (exit code {done.returncode}{': ' + said[-1][:200] if said else ''})")
    if path.stat().st_size > _MOST_BYTES:
        raise _Failed("the command wrote far too much")
    try:
        return read_sound(path)
    except RecordingError as error:
        raise _Failed(error.faults[0].message) from error
