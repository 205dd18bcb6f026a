"""A fit as it is remembered: a folder beside the lesson with a sound a take and a small file that says what they are.

For NAME.yaml the folder is NAME.voice. It holds all that is needed: the recording itself may be moved or deleted, and
to forget the voice is to delete the folder. Whatever is made from the lesson afterwards is made with it. A machine's
voice has a folder of its own, NAME.scratch-voice, so that it takes nothing from a recorded one; it is heard while there
is no other.
"""

from __future__ import annotations

import itertools
import json
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from ..errors import Fault, RecordingError
from ..safe_write import write_text

__all__ = ["FittedTake", "FittedVoice", "fit_folder", "read_fit", "write_fit"]

_LARGEST = 8_000_000  # bytes of the note
_FILE = re.compile(r"[0-9a-f]{16}\.flac")
_NOTE = "fit.json"
_ABOUT = "Takes of this lesson, made ready. Kept by explainers; see: explainers fit"


@dataclass(frozen=True, slots=True, kw_only=True)
class FittedTake:
    """One step, spoken, as it is kept."""

    step_id: str
    file: str  # its sound, by a hash of what is in it
    speech: tuple[tuple[float, float], ...]  # stretches of speech, seconds from its first word
    words: str  # what was to be said when it was recorded
    source: str  # a print of the recording that it came from
    cut_s: tuple[float, float]  # where it lies in that recording
    clipped_s: float  # how much of it is cut off at full scale
    accepted: bool = False  # the words are those that the teacher said it fits, whatever was to be said


@dataclass(frozen=True, slots=True, kw_only=True)
class FittedVoice:
    """All takes of a lesson."""

    folder: Path
    takes: tuple[FittedTake, ...]
    loudness_lufs: float
    scratch: bool = False  # a machine's voice, to judge the pace

    @property
    def note(self) -> Path:
        """The file that says what the sounds are."""
        return self.folder / _NOTE


def fit_folder(lesson: Path, *, scratch: bool = False) -> Path:
    """The folder beside a lesson's or an item's file, of the recorded voice or of a machine's."""
    return lesson.with_suffix(".scratch-voice" if scratch else ".voice")


def read_fit(lesson: Path, *, scratch: bool | None = None) -> FittedVoice | None:
    """What is remembered of a lesson's voice; None where there is none.

    scratch : of the machine's voice, or of the recorded one; None: of the recorded one, for want of it the machine's
    Raises  : RecordingError where it cannot be read, or a sound is gone
    """
    if scratch is None:
        recorded = _fit_in(fit_folder(lesson))
        if recorded is not None and not recorded.scratch:
            return recorded
        return read_fit(lesson, scratch=True) or recorded
    fit = _fit_in(fit_folder(lesson, scratch=scratch))
    return fit if fit is None or fit.scratch == scratch else None


def _fit_in(folder: Path) -> FittedVoice | None:
    path = folder / _NOTE
    try:
        if not path.exists():
            return None
        if path.stat().st_size > _LARGEST:
            raise ValueError("too large")
        note = json.loads(path.read_text(encoding="utf-8"))
        takes = tuple(_take(step_id, entry) for step_id, entry in note["takes"].items())
        fit = FittedVoice(
            folder=path.parent, takes=takes, loudness_lufs=_number(note["loudness"]), scratch=note["scratch"] is True
        )
    except (OSError, ValueError, KeyError, TypeError, AttributeError, RecursionError) as error:
        fix = f"run explainers fit again, or delete the folder {path.parent.name}"
        raise RecordingError(
            [Fault(file=str(path), field="", message="what is known of the voice cannot be read", fix=fix)]
        ) from error
    gone = [take for take in takes if not (fit.folder / take.file).is_file()]
    if gone:
        fix = f"run explainers fit again, or delete the folder {path.parent.name}"
        raise RecordingError(
            Fault(file=str(path), field=take.step_id, message="the sound of this take is gone", fix=fix)
            for take in gone
        )
    return fit


def write_fit(fit: FittedVoice) -> Path:
    """Write the note, last of all, then take away the sounds that it does not name."""
    takes = {
        take.step_id: {
            "file": take.file,
            "speech": [[round(moment, 3) for moment in stretch] for stretch in take.speech],
            "words": take.words,
            "source": take.source,
            "cut": list(take.cut_s),
            "clipped": take.clipped_s,
            "accepted": take.accepted,
        }
        for take in fit.takes
    }
    note: Mapping[str, Any] = {
        "about": _ABOUT, "loudness": fit.loudness_lufs, "scratch": fit.scratch, "takes": takes
    }  # fmt: skip
    path = write_text(fit.note, json.dumps(note, indent=1, ensure_ascii=False) + "\n")
    named = {take.file for take in fit.takes}
    if not fit.folder.is_symlink():
        for other in fit.folder.iterdir():
            if _FILE.fullmatch(other.name) and other.name not in named and not other.is_symlink() and other.is_file():
                other.unlink(missing_ok=True)
    return path


def _take(step_id: str, entry: Any) -> FittedTake:
    file, words, source = entry["file"], entry["words"], entry["source"]
    if not (isinstance(file, str) and _FILE.fullmatch(file) and isinstance(words, str) and isinstance(source, str)):
        raise ValueError("not a take")
    start_s, end_s = entry.get("cut", (0.0, 0.0))
    return FittedTake(
        step_id=step_id,
        file=file,
        speech=_speech(entry["speech"]),
        words=words,
        source=source,
        cut_s=(_number(start_s), _number(end_s)),
        clipped_s=_number(entry.get("clipped", 0.0)),
        accepted=entry.get("accepted") is True,
    )


def _speech(stretches: Sequence[Sequence[float]]) -> tuple[tuple[float, float], ...]:
    speech = tuple((_number(first), _number(after)) for first, after in stretches)
    moments = [moment for stretch in speech for moment in stretch]
    if not speech or any(after <= before for before, after in itertools.pairwise(moments)):
        raise ValueError("no stretches of speech")
    return speech


def _number(value: Any) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float) or not -1e6 < value < 1e6:
        raise ValueError("not a number")
    return float(value)
