"""The sound of a clip: the takes of its steps, each coded once and kept, laid along its timeline."""

from __future__ import annotations

import hashlib
from pathlib import Path
from typing import TYPE_CHECKING

from ...cache.place import shared_store
from ...cache.store import Store
from ...storyboard.timeline import Timeline
from ...video.assembly import CodedSound

if TYPE_CHECKING:
    from ...voice.coded_take import CodedTake

__all__ = ["clip_sound"]


def clip_sound(timeline: Timeline, store: Store | None = None) -> CodedSound | None:
    """The narration as it goes into the file; None for a lesson without a voice.

    store  : the cache; without one, that which all runs of this user share
    Raises : RecordingError for a take that cannot be read, OutputError where it cannot be brought below the ceiling
    """
    narration = timeline.narration
    if narration is None or not narration.takes:
        return None
    # Here, so that a clip without a voice loads no filters.
    from ...voice.coded_take import AAC_FRAME, BIT_RATE
    from ...voice.track import laid

    store = shared_store() if store is None else store
    takes = {
        timeline.step_span(step_id)[0] / timeline.fps: _coded(path, narration.loudness_lufs, store)
        for step_id, path in narration.takes.items()
    }
    track = laid(takes, timeline.seconds)
    return CodedSound(packets=track.packets, run_up=track.run_up, samples=AAC_FRAME, bit_rate=BIT_RATE)


def _coded(path: Path, target_lufs: float, store: Store) -> CodedTake:
    """From the cache what was coded before, by what is in the file."""
    from ...voice.coded_take import CODER, CodedTake, coded_take
    from ...voice.track import read_take

    try:
        content = hashlib.sha256(path.read_bytes()).hexdigest()
    except OSError:
        return coded_take(read_take(path), target_lufs)  # which tells what is wrong with the file
    key = hashlib.sha256(f"take\0{CODER}\0{target_lufs!r}\0{content}".encode()).hexdigest()
    kept = store.get(key)
    if kept is not None:
        try:
            return CodedTake.from_bytes(kept)
        except ValueError:
            pass
    coded = coded_take(read_take(path), target_lufs)
    store.put(key, coded.to_bytes())
    return coded
