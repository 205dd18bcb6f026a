"""A fit made: takes checked, made ready, kept beside the lesson; what a teacher should look at is told.

A file, or a cut of a recording, that has not changed since its take was kept is not decoded, levelled or coded again:
the note beside the takes has the print of the source, the cut, and what is clipped.
"""

from __future__ import annotations

import hashlib
import statistics
from collections.abc import Collection, Sequence
from dataclasses import replace
from pathlib import Path

from ..errors import Fault
from ..safe_write import whole_file
from ..storyboard.model import Step, Storyboard
from ..storyboard.spoken import seconds_to_say
from ..voice.sound import Sound
from ..voice.track import made_ready, write_take
from .memory import FittedTake, FittedVoice, fit_folder, read_fit, write_fit
from .takes import FoundTake

__all__ = ["accept_words", "keep_takes", "remarks_on_sound", "takes_kept"]

_CLIPPED_S = 0.002
_FAR = 1.8  # times as long, or as short, as the others make expect


def keep_takes(
    lesson: Path, storyboard: Storyboard, found: Sequence[FoundTake], loudness_lufs: float, *, scratch: bool = False
) -> FittedVoice:
    """Make takes ready and remember them in place of what was remembered before of that kind of voice.

    lesson  : the lesson's or the item's file
    scratch : whether a machine speaks; what is remembered of a recorded voice stays
    Raises  : OutputError where they cannot be written, RecordingError where what is remembered cannot be read
    """
    folder = fit_folder(lesson, scratch=scratch)
    known = read_fit(lesson, scratch=scratch)
    before = {take.step_id: take for take in (known.takes if known is not None and not scratch else ())}
    by_id = {step.id: step for step in storyboard.steps}
    takes = []
    for one in found:
        old = before.get(one.step_id)
        # A recording that was there before was made for the words of then, whatever they are now.
        same = old is not None and old.source == one.source and not scratch
        accepted = old is not None and same and old.accepted
        then = old.words if old is not None and same else " ".join(by_id[one.step_id].narration)
        takes.append(
            FittedTake(
                step_id=one.step_id,
                file=one.kept.file if one.kept is not None else _written(folder, one.sound, loudness_lufs),
                speech=tuple((part.start_s, part.end_s) for part in one.speech),
                words=one.words if one.words is not None and not accepted else then,
                source=one.source,
                cut_s=one.cut_s,
                clipped_s=one.clipped_s,
                accepted=accepted,
            )
        )
    folder.mkdir(parents=True, exist_ok=True)
    fit = FittedVoice(folder=folder, takes=tuple(takes), loudness_lufs=loudness_lufs, scratch=scratch)
    write_fit(fit)
    return fit


def _written(folder: Path, sound: Sound, loudness_lufs: float) -> str:
    """The name of the file in the folder that holds a take, made ready."""
    ready = made_ready(sound, 0.0, sound.seconds, loudness_lufs)
    path = folder / f"{hashlib.sha256(ready.samples.tobytes()).hexdigest()[:16]}.flac"
    if not path.exists():
        with whole_file(path) as unfinished:
            write_take(unfinished, ready)
    return path.name


def takes_kept(lesson: Path, loudness_lufs: float, *, scratch: bool = False) -> dict[str, FittedTake]:
    """What was made ready before and need not be again, by step id: nothing for another loudness, or kind of voice.

    Raises : RecordingError where what is remembered cannot be read
    """
    fit = read_fit(lesson, scratch=scratch)
    if fit is None or fit.loudness_lufs != loudness_lufs:
        return {}
    return {take.step_id: take for take in fit.takes}


def accept_words(fit: FittedVoice, storyboard: Storyboard, step_ids: Collection[str]) -> FittedVoice:
    """Remember that the takes of these steps fit the words of now, whatever was to be said when they were recorded.

    Raises : OutputError where it cannot be written
    """
    said = {step.id: " ".join(step.narration) for step in storyboard.steps if step.narration}
    takes = tuple(
        replace(take, words=said[take.step_id], accepted=True)
        if take.step_id in step_ids and take.step_id in said and take.words != said[take.step_id]
        else take
        for take in fit.takes
    )
    accepted = replace(fit, takes=takes)
    write_fit(accepted)
    return accepted


def remarks_on_sound(found: Sequence[FoundTake], steps: Sequence[Step], language: str = "en") -> list[Fault]:
    """Takes that are clipped, or far longer or shorter than their words make expect at the speed of the others."""
    expected = {step.id: seconds_to_say(" ".join(step.narration), language) for step in steps if step.narration}
    speech = {one.step_id: sum(part.seconds for part in one.speech) for one in found}
    ratios = {step_id: heard_s / expected[step_id] for step_id, heard_s in speech.items()}
    usual = statistics.median(ratios.values()) if ratios else 1.0
    remarks = []
    for one in found:
        ratio = ratios[one.step_id] / usual
        if one.clipped_s > _CLIPPED_S:
            message = "the sound is clipped: it was recorded too loud, and crackles"
            fix = "turn the microphone down or move away from it, and record this step again"
            remarks.append(Fault(file=str(one.file), field=one.step_id, message=message, fix=fix))
        if ratio > _FAR or ratio < 1.0 / _FAR:
            far = "long" if ratio > 1.0 else "short"
            due = expected[one.step_id] * usual
            message = f"the take is far too {far}: {speech[one.step_id]:.1f} s of speech where {due:.1f} s are due"
            fix = "listen whether it holds the words of this step and no others; if not, record it again"
            remarks.append(Fault(file=str(one.file), field=one.step_id, message=message, fix=fix))
    return remarks
