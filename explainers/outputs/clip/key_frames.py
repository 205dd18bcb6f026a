"""Where the key frames of a clip stand: the frames that a player can jump to at once."""

from __future__ import annotations

from enum import StrEnum

__all__ = ["KeyFrames"]


class KeyFrames(StrEnum):
    """A choice between quick seeking and a small file."""

    SEEKING = "seeking"  # one every 2 seconds at least
    HOLDS = "holds"  # one for each still and each motion, however long it is seen
