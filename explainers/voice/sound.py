"""A recording as numbers: read from any file that FFmpeg reads, one channel, 48,000 samples a second."""

from __future__ import annotations

import wave
from dataclasses import dataclass
from pathlib import Path

import av
import numpy as np
from av.audio.frame import AudioFrame
from av.audio.resampler import AudioResampler
from numpy.typing import NDArray

from ..errors import Fault, RecordingError
from ..plain_file import check_plain

__all__ = ["RATE", "Samples", "Sound", "joined", "read_sound", "silence", "write_wav"]

RATE = 48_000  # samples a second: what AAC in an MP4 file is asked for
SLOWEST = 4_000  # samples a second of a recording: half of what a telephone sends
LONGEST_S = 4 * 3600.0  # a longer file is a mistake, and would fill the memory

Samples = NDArray[np.float32]


@dataclass(frozen=True, slots=True, eq=False)
class Sound:
    """One channel of samples; 1.0 is full scale."""

    samples: Samples  # (n,)

    @property
    def seconds(self) -> float:
        """How long it lasts."""
        return len(self.samples) / RATE

    def between(self, start_s: float, end_s: float) -> Sound:
        """The part between two times; what lies outside the recording is left away."""
        first, after = (round(max(0.0, time_s) * RATE) for time_s in (start_s, end_s))
        return Sound(self.samples[first:after])

    def louder(self, gain_db: float) -> Sound:
        """The sound with a gain."""
        return Sound((self.samples * 10.0 ** (gain_db / 20.0)).astype(np.float32))


def silence(seconds: float) -> Sound:
    """Nothing, for so long."""
    return Sound(np.zeros(round(seconds * RATE), dtype=np.float32))


def joined(*sounds: Sound) -> Sound:
    """One after the other."""
    return Sound(np.concatenate([sound.samples for sound in sounds])) if sounds else silence(0.0)


def read_sound(path: Path) -> Sound:
    """The first sound track of a file, its channels mixed to one.

    Raises : RecordingError for a file that cannot be read, or holds no sound
    """
    blocks: list[Samples] = []
    total = 0
    try:
        check_plain(path)
        with av.open(str(path)) as container:
            if not container.streams.audio:
                raise _fault(path, "there is no sound in this file", "name a recording, such as a WAV, MP3 or M4A file")
            told = container.streams.audio[0]
            _check_length(path, float((told.duration or 0) * (told.time_base or 0)))
            resampler = AudioResampler(format="flt", layout="mono", rate=RATE)
            for frame in container.decode(container.streams.audio[0]):
                # A file may give times that jump; what counts here is the sound, end to end.
                frame.pts = None
                if frame.sample_rate < SLOWEST:  # its few samples would become many
                    message = f"this recording has only {frame.sample_rate:,} samples a second, too few for a voice"
                    raise _fault(path, message, "record it again with 44,100 or 48,000")
                for block in resampler.resample(frame):
                    total += _kept(block, blocks)
                _check_length(path, total / RATE)
            for block in resampler.resample(None):
                _kept(block, blocks)
    except (av.FFmpegError, OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or str(error)
        raise _fault(
            path, f"this recording cannot be read ({why})", "save it as a WAV, MP3 or M4A file and try again"
        ) from error
    samples = np.concatenate(blocks) if blocks else np.zeros(0, dtype=np.float32)
    if not len(samples):
        raise _fault(path, "there is no sound in this file", "record it again")
    return Sound(np.nan_to_num(samples, nan=0.0, posinf=1.0, neginf=-1.0))


def write_wav(path: Path, sound: Sound) -> None:
    """A WAV file of 16 bits; louder samples than full scale are cut off."""
    whole = np.clip(np.rint(sound.samples.astype(np.float64) * 32767.0), -32768, 32767).astype("<i2")
    with wave.open(str(path), "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(RATE)
        file.writeframes(whole.tobytes())


def _check_length(path: Path, seconds: float) -> None:
    if seconds > LONGEST_S:
        raise _fault(path, "this recording is longer than four hours", "cut it into shorter files")


def _kept(block: AudioFrame, blocks: list[Samples]) -> int:
    samples = block.to_ndarray().reshape(-1).astype(np.float32)
    blocks.append(samples)
    return len(samples)


def _fault(path: Path, message: str, fix: str) -> RecordingError:
    return RecordingError([Fault(file=str(path), field="", message=message, fix=fix)])
