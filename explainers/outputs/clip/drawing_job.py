"""What the drawing process is asked for, and where it puts it.

A job and all that is made of it live in one temporary folder of the process that asks. The job is pickled there: only
ever a file that this package has just written for itself.
"""

from __future__ import annotations

import pickle
from dataclasses import dataclass
from pathlib import Path

from ...figure.model import Figure
from ...figure.motion import Motion
from ...video.encoder import EncoderOptions

__all__ = ["DrawingJob", "Shot", "png_path", "read_job", "segment_path", "skips_path", "write_job"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Shot:
    """One still or one motion, drawn once however often it is seen."""

    name: str  # a file name stem, unique in its job
    shows: Figure | Motion
    frames: int = 1  # of a motion; a still is drawn once
    idr_ids: tuple[int, ...] = ()  # a segment is encoded for each; see `SegmentEncoder`
    png: bool = False  # write a PNG too; stills only
    key_frames: tuple[int, ...] = (0,)  # of a motion: frames that are IDR pictures; see `SegmentEncoder`
    key: str = ""  # the `drawing_key` of what it shows, where the asker knows it already

    @property
    def is_still(self) -> bool:
        """Whether nothing moves."""
        return isinstance(self.shows, Figure)


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawingJob:
    """Shots of one size."""

    options: EncoderOptions
    shots: tuple[Shot, ...]

    @property
    def pictures(self) -> int:
        """How many pictures are drawn."""
        return sum(shot.frames for shot in self.shots)


def write_job(folder: Path, job: DrawingJob) -> None:
    """Put a job into its folder."""
    (folder / "job.pickle").write_bytes(pickle.dumps(job))


def read_job(folder: Path) -> DrawingJob:
    """The job of a folder that this package has made."""
    job = pickle.loads((folder / "job.pickle").read_bytes())
    if not isinstance(job, DrawingJob):
        raise TypeError(f"{folder.name} holds no job")
    return job


def png_path(folder: Path, name: str) -> Path:
    """Where the picture of a still is put."""
    return folder / f"{name}.png"


def segment_path(folder: Path, name: str, idr_id: int) -> Path:
    """Where an encoded shot is put."""
    return folder / f"{name}-{idr_id}.segment"


def skips_path(folder: Path) -> Path:
    """Where the packets of unmoving frames are put, by frame_num; there is no such file if they cannot be used.

    Whoever asks may put them there before; then they are not derived again.
    """
    return folder / "skips.segment"
