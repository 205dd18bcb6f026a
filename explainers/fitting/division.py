"""A small file beside a recording in which a teacher settles where doubtful steps begin and end.

For talk.wav it is talk.steps.yaml. What is doubtful is listed there at each run; a line that is moved to ``settled:``,
with its times put right, is believed from then on. ``none`` says that a step is not in the recording.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from difflib import get_close_matches
from pathlib import Path

from ..document.composing import compose_file
from ..document.fields import Faults
from ..document.format import Field, Format, Record, Rule
from ..document.nodes import MapNode, Node, ScalarNode
from ..document.values import Value, number
from ..document.yaml_text import in_brackets
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

    seconds : how long the recording is
    Raises  : RecordingError with every fault of the file
    """
    path = division_file(recording)
    if not path.exists():
        return {}
    composed = compose_file(path)
    faults = Faults(path)
    record = _file_of(seconds, step_ids).read(composed.root, "", faults) if composed.root is not None else None
    if everything := composed.with_further(faults.found):
        raise RecordingError(everything)
    return (record["settled"] if record else None) or {}


def _file_of(seconds: float, step_ids: Sequence[str]) -> Format:
    """The format of the file, for a recording of so many seconds."""
    steps = _settled_steps(_times_within(seconds), step_ids)
    return Format(
        owner="the file",
        fix="write settled: and below it a step a line, as the head of the file says",
        rows=(
            # It is written anew at each run, from the recording: what stands there is nobody's word.
            Field("doubtful", Value(read=lambda node, at, faults: None, schema={}), "steps whose times are not sure"),
            Field("settled", steps, "steps whose times are right, or none where a step is not in the recording"),
        ),
    )


def _times_within(seconds: float) -> Format:
    """The times of one step."""
    time = replace(number(0.0, seconds), write=lambda second: f"{second:.2f}")
    return Format(
        owner="the step",
        fix="write its times in seconds, such as {start: 1.5, end: 4}, or none",
        rows=(
            Field("start", time, "in seconds", attribute="start_s", due="write it in seconds"),
            Field("end", time, "in seconds", attribute="end_s", due="write it in seconds"),
        ),
        rules=(Rule("a step ends after it starts", check=_ends_after_start),),
    )


def _ends_after_start(record: Record) -> None:
    start_s, end_s = record["start_s"], record["end_s"]
    if start_s is not None and end_s is not None and start_s >= end_s:
        record.table.faults.add(record.table.path, "the step ends before it starts", "put its two times right")


def _settled_steps(times: Format, step_ids: Sequence[str]) -> Value[dict[str, Stretch | None]]:
    """Times, or none, by step id; read in the order of the steps, in which they follow one another."""

    def read(node: Node, at: str, faults: Faults) -> dict[str, Stretch | None] | None:
        if isinstance(node, ScalarNode) and node.is_null:
            return {}
        if not isinstance(node, MapNode):
            faults.add(at, "step ids with times are due here", "write one a line, as under doubtful")
            return None
        found: dict[str, Stretch | None] = {}
        for step_id, entry in node.entries.items():
            place = f"{at}.{step_id}"
            if step_id not in step_ids:
                near = get_close_matches(step_id, step_ids, n=1)
                faults.add(place, "no step has that id", f"write {near[0]}" if near else "take the line out")
            elif isinstance(entry.value, ScalarNode) and entry.value.text == _NONE:
                found[step_id] = None
            else:
                record = times.read(entry.value, place, faults)
                if record is not None and record.fine and None not in record.values.values():
                    found[step_id] = Stretch(**record.values)
        in_order = {step_id: found[step_id] for step_id in step_ids if step_id in found}
        last_s = 0.0
        for step_id, part in in_order.items():
            if part is not None:
                if part.start_s < last_s:
                    faults.add(f"{at}.{step_id}", "it starts before an earlier step ends", "put its times right")
                last_s = part.end_s
        return in_order

    return Value(read=read, schema={})


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
    return _NONE if part is None else in_brackets(_times_within(part.end_s).written(part))
