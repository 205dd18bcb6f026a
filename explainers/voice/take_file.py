"""One take as a small file of its own that every browser plays: AAC in MP4, one channel.

The same samples give the same bytes. A coder's run-up is named in the file, so that players begin with the first word.
"""

from __future__ import annotations

import io

import av
import numpy as np
from av.audio.frame import AudioFrame

from .loudness import LOUDEST_PEAK_DB, limited
from .sound import RATE, Sound

__all__ = ["MEDIA_TYPE", "TAKE_BIT_RATE", "take_file"]

MEDIA_TYPE = "audio/mp4"
TAKE_BIT_RATE = 48_000  # asked of the coder, which takes about 57_000 for a voice
# AAC does not keep peaks exactly, so that some room is left below the ceiling.
_ROOM_DB = 0.5


def take_file(take: Sound) -> bytes:
    """The bytes of an MP4 file with that sound, as loud as it is, its peaks kept below the ceiling."""
    samples = limited(take, LOUDEST_PEAK_DB - _ROOM_DB).samples
    kept = io.BytesIO()
    with av.open(kept, "w", format="mp4", options={"fflags": "+bitexact"}) as container:
        stream = container.add_stream("aac", rate=RATE, layout="mono", format="fltp", bit_rate=TAKE_BIT_RATE)
        stream.codec_context.options = {"flags": "+bitexact", "aac_coder": "fast"}
        for first in range(0, len(samples), RATE):
            block = np.ascontiguousarray(samples[first : first + RATE]).reshape(1, -1)
            frame = AudioFrame.from_ndarray(block, format="fltp", layout="mono")
            frame.sample_rate = RATE
            frame.pts = first
            container.mux(stream.encode(frame))
        container.mux(stream.encode(None))
    return kept.getvalue()
