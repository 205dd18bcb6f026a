"""A small file beside a recording in which a teacher settles where doubtful steps begin and end.

For talk.wav it is talk.steps.yaml. What is doubtful is listed there at each run; a line that is moved to ``settled:``,
with its times put right, is believed from then on. ``none`` says that a step is not in the recording.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from pathlib import Path

from ..document.fields import Faults, number_of, table_of
from ..document.nodes import MapNode, ScalarNode
from ..document.source_map import compose_file
from ..errors import RecordingError
from ..safe_write import write_text
from ..voice.speech import Stretch

__all__ = ["Doubt", "division_file", "read_settled", "write_division"]

_NONE = "none"
_HEAD = "# Where these steps begin and end in the recording"


@dataclass(frozen=True, slots=True, kw_only=True)
class Doubt:
    """A step whose place in a recording is not sure."""

    step_id: str
    part: Stretch | None
    confidence: float


def division_file(recording: Path) -> Path:
    """The file beside a recording."""
    return recording.with_suffix(".steps.yaml")


def read_settled(recording: Path, seconds: float, step_ids: Sequence[str]) -> dict[str, Stretch | None]:
    """What the teacher has settled, by step id, in the order of the steps; None for a step that is not there.

    Raises : RecordingError with every fault of the file
    """
    path = division_file(recording)
    if not path.exists():
        return {}
    composed = compose_file(path)
    faults = Faults()
    found: dict[str, Stretch | None] = {}
    if composed.root is not None:
        table = table_of(
            composed.root, "", faults, keys=("recording", "doubtful", "settled"), owner="the file", fix="see its top"
        )
        node = table.get("settled") if table else None
        if isinstance(node, MapNode):
            for step_id, entry in node.entries.items():
                at = f"settled.{step_id}"
                if step_id not in step_ids:
                    near = get_close_matches(step_id, step_ids, n=1)
                    faults.add(at, "no step has that id", f"write {near[0]}" if near else "take the line out")
                    continue
                value = entry.value
                if isinstance(value, ScalarNode) and value.text == _NONE:
                    found[step_id] = None
                    continue
                times = table_of(value, at, faults, keys=("start", "end"), owner="the step", fix="{start: 1.5, end: 4}")
                ends = [
                    number_of(place, f"{at}.{key}", faults, least=0.0, most=seconds)
                    for key in ("start", "end")
                    if times is not None and (place := times.due(key, "the step", "write it in seconds")) is not None
                ]
                if len(ends) == 2 and ends[0] is not None and ends[1] is not None:
                    if ends[0] < ends[1]:
                        found[step_id] = Stretch(start_s=ends[0], end_s=ends[1])
                    else:
                        faults.add(at, "the step ends before it starts", "put its two times right")
        elif node is not None and not (isinstance(node, ScalarNode) and node.is_null):
            faults.add("settled", "step ids with times are due here", "write one a line, as under doubtful")
    in_order = {step_id: found[step_id] for step_id in step_ids if step_id in found}
    last_s = 0.0
    for step_id, part in in_order.items():
        if part is not None:
            if part.start_s < last_s:
                faults.add(f"settled.{step_id}", "it starts before an earlier step ends", "put its times right")
            last_s = part.end_s
    all_faults = composed.with_further(faults.found)
    if all_faults:
        raise RecordingError(all_faults)
    return in_order


def write_division(recording: Path, doubts: Sequence[Doubt], settled: Mapping[str, Stretch | None]) -> Path | None:
    """List what is doubtful, and keep what is settled; no file where there is neither."""
    path = division_file(recording)
    if not doubts and not settled:
        if path.is_file() and path.read_text(encoding="utf-8", errors="replace").startswith(_HEAD):
            path.unlink(missing_ok=True)
        return None
    lines = [
        f"{_HEAD}, in seconds. Listen to those under doubtful. If one is",
        "# right, or once you have put its times right, move its line to settled, and run explainers fit again.",
        "# Write none in place of the times for a step that is not in the recording.",
        "doubtful:",
        *(f"  {doubt.step_id}: {_times(doubt.part)}  # {doubt.confidence:.0%} sure" for doubt in doubts),
        "settled:",
        *(f"  {step_id}: {_times(part)}" for step_id, part in settled.items()),
    ]
    return write_text(path, "\n".join(lines) + "\n")


def _times(part: Stretch | None) -> str:
    return _NONE if part is None else f"{{start: {part.start_s:.2f}, end: {part.end_s:.2f}}}"
