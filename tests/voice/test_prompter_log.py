"""A log that no prompter page has written is refused in one short error."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from explainers.errors import RecordingError
from explainers.fitting.prompter_log import read_log

STEP = '{{"step": {step}, "start": {start}, "end": {end}, "words": "One."}}'
LONG = "9" * 100_000


@pytest.mark.parametrize(
    "steps",
    [
        [STEP.format(step='"a.b"', start=LONG, end=LONG)],
        [STEP.format(step='"a.b"', start=0, end=f"{LONG}.5e3")],
        [STEP.format(step='"a.b"', start=0, end=f"1e{LONG}")],
        [STEP.format(step=f'"{LONG}"', start=0, end=1)],
        [STEP.format(step='"a.b"', start=0, end=1)] * 30_000,
    ],
)
def test_it_is_told_as_no_log(tmp_path: Path, steps: list[str]) -> None:
    path = tmp_path / "log.json"
    path.write_text(f'{{"steps": [{",".join(steps)}]}}', encoding="utf-8")
    with pytest.raises(RecordingError) as told:
        read_log(path)
    assert "not a log of the prompter" in str(told.value) and len(str(told.value)) < 500


def test_a_step_that_was_shown_again_is_read_twice(tmp_path: Path) -> None:
    path = tmp_path / "log.json"
    entry = {"step": "a.b", "start": 0, "end": 1, "words": "One."}
    path.write_text(json.dumps({"steps": [entry, {**entry, "start": 1, "end": 2.5}]}), encoding="utf-8")
    assert [(shown.start_s, shown.end_s) for shown in read_log(path)] == [(0.0, 1.0), (1.0, 2.5)]


@pytest.mark.parametrize(("start", "end"), [(0.0, 9e5), (9e5, 9e5 + 1.0)])
def test_a_log_of_days_is_told_by_its_length(tmp_path: Path, start: float, end: float) -> None:
    """The clocks are laid over each other moment by moment: what nobody reads in one go is not tried."""
    path = tmp_path / "log.json"
    path.write_text(f'{{"steps": [{STEP.format(step=chr(34) + "a.b" + chr(34), start=start, end=end)}]}}', "utf-8")
    with pytest.raises(RecordingError, match=r"goes on for 250\.0 hours; at most 4"):
        read_log(path)
