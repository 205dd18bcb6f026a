"""The certificate of a lesson as a text file: the proof, item by item, that its questions have one answer each."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from ...choice.words.certificate import PAUSE_SOURCE
from ...safe_write import write_text
from ...storyboard.timeline import Timeline

__all__ = ["write_certificate"]


def write_certificate(timeline: Timeline, folder: Path, *, certificates: Sequence[Sequence[str]], scale: str) -> Path:
    """NAME.certificate.txt in the folder.

    certificates : the lines of each item's, in the order of the lesson (``choice.words.certificate.certificate_lines``)
    scale        : what millimetres are measured on (``print_scale``, ibid.)
    Raises       : OutputError where it cannot be written
    """
    blocks = [*certificates, (scale, PAUSE_SOURCE)]
    text = "\n\n".join("\n".join(lines) for lines in blocks) + "\n"
    return write_text(folder / f"{timeline.storyboard.name}.certificate.txt", text)
