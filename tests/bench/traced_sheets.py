"""How many outlines of photographed sheets are traced right: `python tests/bench/traced_sheets.py [FIRST COUNT]`.

An outline is right when no corner misses its place by more than a quarter of a square; it is wrong and sure when it is
not, and nothing said so.
"""

from __future__ import annotations

import math
import sys
import time
from pathlib import Path

HERE = Path(__file__).parent
sys.path[:0] = [str(HERE.parent.parent), str(HERE.parent / "tracing")]

import cv2
import numpy as np
from drawn_sheets import drawn_sheet

from explainers.geometry.rigid_motion import Ring
from explainers.tracing.reading import SURE
from explainers.tracing.sketch import Refused
from explainers.tracing.source import proposal_in

NEAR = 0.25


def missed(want: Ring, found: Ring) -> float:
    """How far a corner of either is from the nearest of the other, at most."""
    both = [(one, found) for one in want] + [(one, want) for one in found]
    return max(min(math.dist(one, other) for other in others) for one, others in both)


def as_it_is(jpeg: bytes) -> bytes:
    return jpeg


def in_a_shadow(jpeg: bytes) -> bytes:
    """The left half of the picture at six tenths of its light."""
    pixels = cv2.imdecode(np.frombuffer(jpeg, np.uint8), cv2.IMREAD_COLOR)
    light = np.ones(pixels.shape[:2], np.float32)
    cv2.fillPoly(light, [np.array([[0, 0], [900, 0], [500, 1300], [0, 1300]], np.int32)], 0.6)
    light = cv2.GaussianBlur(light, (0, 0), 6)
    return cv2.imencode(".jpg", (pixels * light[..., None]).astype(np.uint8))[1].tobytes()


def small(jpeg: bytes) -> bytes:
    """960 pixels wide."""
    pixels = cv2.imdecode(np.frombuffer(jpeg, np.uint8), cv2.IMREAD_COLOR)
    return cv2.imencode(".jpg", cv2.resize(pixels, None, fx=0.6, fy=0.6, interpolation=cv2.INTER_AREA))[1].tobytes()


if __name__ == "__main__":
    first, count = (int(word) for word in (*sys.argv[1:], *("0", "20")[len(sys.argv) - 1 :]))
    for change in (as_it_is, in_a_shadow, small):
        right = wrong_and_sure = drawn = 0
        seconds = []
        for number in range(first, first + count):
            sheet = drawn_sheet(number)
            left, low = (min(values) for values in zip(*sheet.outlines[0], strict=True))
            want = [tuple((x - left, y - low) for x, y in ring) for ring in sheet.outlines]
            drawn += len(want)
            data, began = change(sheet.jpeg), time.perf_counter()
            try:
                found = proposal_in(data)[1].outlines
            except Refused:
                found = ()
            seconds.append(time.perf_counter() - began)
            right += sum(any(missed(ring, each.corners) <= NEAR for each in found) for ring in want)
            for each in found:
                wrong = all(missed(ring, each.corners) > NEAR for ring in want)
                wrong_and_sure += wrong and each.sure >= SURE and not each.doubts
        spread = f"{min(seconds):.1f} to {max(seconds):.1f} s"
        print(f"{change.__name__}: {right} of {drawn} right, {wrong_and_sure} wrong and sure, {spread} a sheet")
