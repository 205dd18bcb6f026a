"""The log of a prompter page, and where its clock stands beside that of the recording made meanwhile.

The page notes when each step was shown; the recorder was started some time before or after. The two are laid over each
other so that the moments at which the speaker went on fall into silences, and as much is said between them as the words
make expect. Then each stretch of speech belongs to the step that was shown while it was spoken; of a step that was
shown again, the last time counts.
"""

from __future__ import annotations

import itertools
import json
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from ..errors import Fault, RecordingError
from ..plain_file import check_plain
from ..voice.speech import Stretch

__all__ = ["ShownStep", "offset_s", "parts_by_log", "read_log"]

_LARGEST = 4_000_000
_MOST_SHOWN = 20_000  # steps, with those that were shown again
_LONGEST_ID = 200  # characters, as in a lesson's file
_LONGEST_S = 4 * 3600.0  # the clocks are laid over each other at every twentieth of a second
_GRID_S = 0.05
_WORST = 0.9  # mean price at which a log does not belong to a recording


@dataclass(frozen=True, slots=True, kw_only=True)
class ShownStep:
    """A step while it was on the page, by the page's clock."""

    step_id: str
    start_s: float
    end_s: float
    words: str


def read_log(path: Path) -> tuple[ShownStep, ...]:
    """The log, in order.

    Raises : RecordingError for a file that is none
    """
    try:
        check_plain(path)
        if path.stat().st_size > _LARGEST:
            raise ValueError("too large")
        note = json.loads(path.read_text(encoding="utf-8"))
        shown = tuple(_shown(entry) for entry in note["steps"])
        if not 0 < len(shown) <= _MOST_SHOWN or any(
            after.start_s < before.start_s for before, after in itertools.pairwise(shown)
        ):
            raise ValueError("out of order")
    except OSError as error:
        raise _fault(path, f"the log cannot be read ({error.strerror})", "check its name and folder") from error
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError) as error:
        raise _fault(
            path, "this is not a log of the prompter", "name the file that the prompter page saved at the end"
        ) from error
    if shown[-1].end_s > _LONGEST_S:
        hours = shown[-1].end_s / 3600.0
        message = f"the log goes on for {hours:,.1f} hours; at most {_LONGEST_S / 3600.0:.0f} are allowed"
        raise _fault(path, message, "read the lesson again from the prompter page, and save its new log")
    return shown


def offset_s(shown: Sequence[ShownStep], stretches: Sequence[Stretch], expected_s: Mapping[str, float]) -> float | None:
    """Seconds to add to the page's clock for that of the recording; None where the two do not belong together."""
    if not stretches:
        return None
    end_s = max(stretches[-1].end_s, shown[-1].end_s) + 1.0
    heard = _heard_until(stretches, end_s)
    starts = np.array([entry.start_s for entry in shown])
    ends = np.array([entry.end_s for entry in shown])
    due = np.array([expected_s.get(entry.step_id, 0.0) for entry in shown])
    last = {entry.step_id: number for number, entry in enumerate(shown)}
    is_given_up = np.array([last[entry.step_id] != number for number, entry in enumerate(shown)])
    spoken_s = math.fsum(stretch.seconds for stretch in stretches)
    speed = spoken_s / max(1e-6, float(due.sum()))
    tried = np.arange(stretches[0].start_s - shown[-1].end_s, stretches[-1].end_s - shown[0].start_s, _GRID_S)
    prices = np.empty(len(tried))
    for index, offset in enumerate(tried):
        said = _at(heard, ends + offset) - _at(heard, starts + offset)
        off = np.log((said + 0.3) / (due * speed + 0.3))
        off[is_given_up & (off < 0.0)] = 0.0  # what was begun and given up may have been short
        edges = np.concatenate([starts, ends[-1:]]) + offset
        cut = (_at(heard, edges + _GRID_S) - _at(heard, edges - _GRID_S)) / (2 * _GRID_S)
        outside = 1.0 - float((_at(heard, edges[-1:]) - _at(heard, edges[:1]))[0]) / spoken_s
        prices[index] = float(np.mean(np.minimum(off * off, 4.0))) + float(np.mean(cut)) + outside
    if not len(prices):
        return None
    low = float(prices.min())
    if low > _WORST:
        return None
    return float(np.median(tried[_run_round(prices, int(prices.argmin()), low + 0.02)]))


def parts_by_log(shown: Sequence[ShownStep], stretches: Sequence[Stretch], offset: float) -> dict[str, list[Stretch]]:
    """The stretches of speech of each step, by what was on the page in the middle of each."""
    last = {entry.step_id: number for number, entry in enumerate(shown)}
    parts: dict[str, list[Stretch]] = {step_id: [] for step_id in last}
    for stretch in stretches:
        middle = (stretch.start_s + stretch.end_s) / 2.0 - offset
        for number, entry in enumerate(shown):
            if entry.start_s <= middle < entry.end_s and last[entry.step_id] == number:
                parts[entry.step_id].append(stretch)
    return parts


def _heard_until(stretches: Sequence[Stretch], end_s: float) -> NDArray[np.float64]:
    """Seconds of speech before each moment of a grid."""
    loud = np.zeros(math.ceil(end_s / _GRID_S) + 2)
    moments = np.arange(len(loud)) * _GRID_S
    for stretch in stretches:
        loud += np.clip(moments - stretch.start_s, 0.0, stretch.seconds)
    return loud


def _at(heard: NDArray[np.float64], moments: NDArray[np.float64]) -> NDArray[np.float64]:
    return np.interp(moments / _GRID_S, np.arange(len(heard)), heard)


def _run_round(prices: NDArray[np.float64], index: int, most: float) -> slice:
    """The neighbours that are as good: the clock may stand anywhere within a silence."""
    first = after = index
    while first > 0 and prices[first - 1] <= most:
        first -= 1
    while after + 1 < len(prices) and prices[after + 1] <= most:
        after += 1
    return slice(first, after + 1)


def _shown(entry: Any) -> ShownStep:
    step_id, words = entry["step"], entry["words"]
    start_s, end_s = entry["start"], entry["end"]
    if not (isinstance(step_id, str) and isinstance(words, str)):
        raise ValueError("not a step")
    if len(step_id) > _LONGEST_ID:
        raise ValueError("not a step")
    if not all(isinstance(time_s, int | float) and not isinstance(time_s, bool) for time_s in (start_s, end_s)):
        raise ValueError("not a time")
    if not 0.0 <= start_s <= end_s < 1e6:
        raise ValueError("not a time")
    return ShownStep(step_id=step_id, start_s=float(start_s), end_s=float(end_s), words=words)


def _fault(path: Path, message: str, fix: str) -> RecordingError:
    return RecordingError([Fault(file=str(path), field="", message=message, fix=fix)])
