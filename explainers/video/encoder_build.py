"""Which encoder this is, to the build: another one may make other packets of the same picture."""

from __future__ import annotations

import re
from functools import cache

import av
import numpy as np

from .changed_parts import can_be_told
from .encoder import EncoderOptions, SegmentEncoder

__all__ = ["encoder_build"]


@cache
def encoder_build() -> str:
    """Versions of libavcodec, libswscale (which converts colours) and x264, and whether it is told things, on one line.

    x264 says its build in the first packet of a stream; where it does not, it is left out.
    """
    options = EncoderOptions(width=64, height=64)
    encoder = SegmentEncoder(options)
    encoder.add(np.full((options.height, options.width, 4), 255, dtype=np.uint8))
    said = re.search(rb"x264 - core [ -,.-~]{1,40}", encoder.finish().packets[0])
    parts = [f"{name} {av.library_versions.get(name)}" for name in ("libavcodec", "libswscale")]
    told = "told what has changed" if can_be_told() else ""
    return "; ".join([*parts, said.group().decode("ascii") if said else "", told])
