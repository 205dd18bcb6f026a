"""Where the takes of a lesson's steps are: a file each, one recording with a log, or one recording alone."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from difflib import get_close_matches
from pathlib import Path
from types import MappingProxyType

from ..errors import Fault, RecordingError
from ..storyboard.model import Step
from ..storyboard.spoken import phrases_to_say, seconds_to_say
from ..voice.matching import Spoken, match
from ..voice.sound import Sound, read_sound, silence
from ..voice.speech import Heard, Stretch, heard
from .division import Doubt, division_file, read_settled, write_division
from .memory import FittedTake
from .prompter_log import offset_s, parts_by_log, read_log

__all__ = ["FoundTake", "Kept", "found_in_files", "found_in_recording", "found_with_log", "kept_again"]

_OTHER_FILES = frozenset({".txt", ".md", ".yaml", ".yml", ".json", ".pdf", ".html", ".csv", ".vtt", ".srt", ".docx"})


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundTake:
    """A take as it was found."""

    step_id: str
    sound: Sound  # from the first word to the last; empty where it is kept already
    speech: tuple[Stretch, ...]  # seconds from the first word
    source: str  # a print of the file that it came from
    clipped_s: float
    file: Path
    cut_s: tuple[float, float] = (0.0, 0.0)  # where it lies in a recording of several
    words: str | None = None  # what was shown to the speaker, where that is known
    kept: FittedTake | None = None  # the same, made ready before


Many = tuple[list["FoundTake"], list[Fault]]  # and what a teacher should look at
Kept = Mapping[str, FittedTake]  # by step id: what was made ready before, as loud as it is wanted now


def kept_again(take: FittedTake, file: Path, words: str | None = None) -> FoundTake:
    """A take that was found where it was before, and need not be made ready again."""
    return FoundTake(
        step_id=take.step_id,
        sound=silence(0.0),
        speech=tuple(Stretch(start_s=first, end_s=after) for first, after in take.speech),
        source=take.source,
        clipped_s=take.clipped_s,
        file=file,
        cut_s=take.cut_s,
        words=words,
        kept=take,
    )


def found_in_files(folder: Path, steps: Sequence[Step], kept: Kept = MappingProxyType({})) -> Many:
    """One file a step, called after the step's id; and what a teacher should look at.

    A file that has not changed since its take was kept is not read as sound again.

    Raises : RecordingError with every file that cannot be read
    """
    ids = [step.id for step in steps if step.narration]
    silent = {step.id for step in steps if not step.narration}
    found: dict[str, FoundTake] = {}
    remarks: list[Fault] = []
    refused: list[Fault] = []
    for path in sorted(folder.iterdir()):
        if path.name.startswith(".") or path.is_dir() or path.suffix.lower() in _OTHER_FILES:
            continue
        step_id = path.stem
        if step_id not in ids:
            near = get_close_matches(step_id, ids, n=1)
            why = "nothing is said in this step" if step_id in silent else "no step of this lesson has that id"
            fix = f"call it {near[0]}{path.suffix}, or take it out" if near and step_id not in silent else "take it out"
            remarks.append(Fault(file=str(path), field=step_id, message=f"{why}, so this take is left out", fix=fix))
            continue
        if step_id in found:
            message = f"there are two takes of this step: {found[step_id].file.name} and {path.name}"
            refused.append(Fault(file=str(path), field=step_id, message=message, fix="keep the better one"))
            continue
        source = _print_of_file(path)
        before = kept.get(step_id)
        if before is not None and before.source == source:
            found[step_id] = kept_again(before, path)
            continue
        try:
            sound = read_sound(path)
        except RecordingError as error:
            refused += [Fault(file=f.file, field=step_id, message=f.message, fix=f.fix) for f in error.faults]
            continue
        take = _found(step_id, sound, heard(sound), path, source)
        if take is None:
            remarks.append(_silent(step_id, path))
        else:
            found[step_id] = take
    if refused:
        raise RecordingError(refused)
    return list(found.values()), remarks


def found_with_log(
    recording: Path, log: Path, steps: Sequence[Step], kept: Kept = MappingProxyType({}), language: str = "en"
) -> Many:
    """One recording, divided by the log of the prompter.

    Raises : RecordingError where either cannot be read, or they do not belong together
    """
    shown = read_log(log)
    sound = read_sound(recording)
    hears = heard(sound)
    by_id = {step.id: step for step in steps if step.narration}
    expected = {step_id: seconds_to_say(" ".join(step.narration), language) for step_id, step in by_id.items()}
    offset = offset_s(shown, hears.stretches, expected)
    if offset is None:
        message = f"this log does not go with {recording.name}: its times fit nowhere in the recording"
        fix = "name the log that was saved with this recording, or fit without --log"
        raise RecordingError([Fault(file=str(log), field="", message=message, fix=fix)])
    words = {entry.step_id: entry.words for entry in shown}
    source = _print(sound)
    found, remarks = [], []
    for step_id, parts in parts_by_log(shown, hears.stretches, offset).items():
        if step_id not in by_id:
            message = "no step with words has this id now, so what was said for it is left out"
            fix = "make a new prompter page after a change of the lesson"
            if parts:
                remarks.append(Fault(file=str(log), field=step_id, message=message, fix=fix))
        elif not parts:
            remarks.append(_silent(step_id, recording))
        else:
            found.append(_cut(step_id, sound, parts, recording, source, words[step_id], kept))
    return found, remarks


def found_in_recording(
    recording: Path, steps: Sequence[Step], kept: Kept = MappingProxyType({}), language: str = "en"
) -> Many:
    """One recording alone, divided at its silences; what is doubtful goes into a file beside it.

    Raises : RecordingError where the recording or that file cannot be read
    """
    sound = read_sound(recording)
    hears = heard(sound)
    spoken = [step for step in steps if step.narration]
    settled = read_settled(recording, sound.seconds, [step.id for step in spoken])
    if not hears.stretches:
        message, fix = "nobody speaks in this recording", "check the microphone, and record it again"
        raise RecordingError([Fault(file=str(recording), field="", message=message, fix=fix)])
    source = _print(sound)
    parts: dict[str, Stretch] = {step_id: part for step_id, part in settled.items() if part is not None}
    doubts: list[Doubt] = []
    remarks: list[Fault] = []
    due = {step.id: Spoken(step_id=step.id, phrases=phrases_to_say(step.narration, language)) for step in spoken}
    for some, between, then in _unsettled(spoken, hears.stretches, settled):
        divided = match([due[step.id] for step in some], between, due[then.id] if then is not None else None)
        for took in divided.steps:
            if took.part is not None:
                parts[took.step_id] = took.part
            if took.doubtful or took.part is None:
                doubts.append(Doubt(step_id=took.step_id, part=took.part, confidence=took.confidence))
        remarks += [_unassigned(stretch, recording) for stretch in divided.left_out]
    path = write_division(recording, doubts, settled)
    remarks += [
        Fault(
            file=str(path or division_file(recording)),
            field=doubt.step_id,
            message=f"it is not sure where this step is ({doubt.confidence:.0%})",
            fix="listen to it, and settle it in that file",
        )
        for doubt in doubts
    ]
    found = []
    for step in spoken:
        part = parts.get(step.id)
        inside = _within(part, hears.stretches) if part is not None else []
        if inside:
            found.append(_cut(step.id, sound, inside, recording, source, None, kept))
    return found, remarks


def _unsettled(
    steps: Sequence[Step], stretches: Sequence[Stretch], settled: Mapping[str, Stretch | None]
) -> Iterable[tuple[list[Step], list[Stretch], Step | None]]:
    """Runs of steps that are not settled, each with the speech between what is settled round it, and what follows."""
    some: list[Step] = []
    after_s = 0.0
    for step in [*steps, None]:
        part = settled.get(step.id) if step is not None else None
        if step is not None and step.id not in settled:
            some.append(step)
        elif step is None or part is not None:
            before_s = part.start_s if part is not None else float("inf")
            between = [one for one in stretches if after_s <= (one.start_s + one.end_s) / 2.0 < before_s]
            if some:
                yield some, between, step
            some = []
            after_s = part.end_s if part is not None else after_s


def _within(part: Stretch, stretches: Sequence[Stretch]) -> list[Stretch]:
    """The speech inside a part; what reaches over its ends is cut there."""
    cut = [Stretch(start_s=max(one.start_s, part.start_s), end_s=min(one.end_s, part.end_s)) for one in stretches]
    return [one for one in cut if one.seconds > 0.02]


def _found(step_id: str, sound: Sound, hears: Heard, path: Path, source: str) -> FoundTake | None:
    if not hears.stretches:
        return None
    return replace(_cut(step_id, sound, hears.stretches, path, source, None, {}), cut_s=(0.0, 0.0))


def _cut(
    step_id: str, sound: Sound, parts: Sequence[Stretch], path: Path, source: str, words: str | None, kept: Kept
) -> FoundTake:
    cut_s = (round(parts[0].start_s, 3), round(parts[-1].end_s, 3))
    before = kept.get(step_id)
    if before is not None and before.source == source and before.cut_s == cut_s:
        return kept_again(before, path, words)
    first_s = parts[0].start_s
    alone = sound.between(first_s, parts[-1].end_s)
    speech = tuple(Stretch(start_s=one.start_s - first_s, end_s=one.end_s - first_s) for one in parts)
    return FoundTake(
        step_id=step_id,
        sound=alone,
        speech=speech,
        source=source,
        clipped_s=heard(alone).clipped_s,
        file=path,
        cut_s=cut_s,
        words=words,
    )


def _print(sound: Sound) -> str:
    return hashlib.sha256(sound.samples.tobytes()).hexdigest()[:16]


def _print_of_file(path: Path) -> str:
    try:
        return hashlib.sha256(path.read_bytes()).hexdigest()[:16]
    except OSError:
        return ""  # reading it as sound tells what is wrong


def _silent(step_id: str, path: Path) -> Fault:
    message = "nothing is heard in the take of this step, so it keeps its planned time"
    return Fault(file=str(path), field=step_id, message=message, fix="check the microphone, and record it again")


def _unassigned(stretch: Stretch, path: Path) -> Fault:
    message = f"what is said from {stretch.start_s:.1f} s to {stretch.end_s:.1f} s belongs to no step and is left out"
    return Fault(file=str(path), field="", message=message, fix="nothing, if it is a slip or a take begun again")
