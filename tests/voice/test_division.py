"""A recording with known boundaries, divided: with the prompter's log, and alone by how long the words should take."""

from __future__ import annotations

import json
import random
from collections.abc import Callable
from pathlib import Path

import pytest
from spoken_lessons import lesson_timeline, recorded

from explainers.errors import RecordingError
from explainers.fitting.prompter_log import offset_s, parts_by_log, read_log
from explainers.storyboard.said_length import phrases_to_say, seconds_to_say
from explainers.voice.matching import Match, Spoken, match
from explainers.voice.speech import stretches

pytest.importorskip("espeakng_loader")

CLOSE_S = 0.150  # what is asked of every boundary
STEPS = lesson_timeline("corner-block").storyboard.steps
SPOKEN = [step for step in STEPS if step.narration]
EXPECTED = [Spoken(step_id=step.id, phrases=phrases_to_say(step.narration)) for step in SPOKEN]


def right(divided: Match, truth: dict[str, tuple[float, float]]) -> dict[str, bool]:
    """Whether both ends of a step are where they should be, or it is rightly missing."""
    out = {}
    for took in divided.steps:
        real = truth.get(took.step_id)
        if real is None or took.part is None:
            out[took.step_id] = real is None and took.part is None
        else:
            out[took.step_id] = max(abs(took.part.start_s - real[0]), abs(took.part.end_s - real[1])) <= CLOSE_S
    return out


def test_without_a_log_clean_sound_is_divided_and_few_are_doubted(cases: Callable[[int, int], int]) -> None:
    good = doubted = boundaries = close = 0
    for seed in range(cases(2, 20)):
        for voice in (0, 1):
            made = recorded(STEPS, voice, seed)
            divided = match(EXPECTED, stretches(made.sound))
            for took in divided.steps:
                real = made.truth[took.step_id]
                ends = (took.part.start_s, took.part.end_s) if took.part else (-9.0, -9.0)
                close += sum(abs(end - due) <= CLOSE_S for end, due in zip(ends, real, strict=True))
                boundaries += 2
            is_right = right(divided, made.truth)
            good += sum(is_right.values())
            doubted += sum(took.doubtful for took in divided.steps if is_right[took.step_id])
    print(f"{close} of {boundaries} boundaries; {doubted} of {good} right steps listed")
    assert close >= 0.97 * boundaries
    assert doubted <= 0.05 * good


@pytest.mark.parametrize("fault", ["missing", "retakes", "added"])
def test_without_a_log_a_planted_fault_is_told(fault: str, cases: Callable[[int, int], int]) -> None:
    """Each is divided rightly, or listed as doubtful, or the speech too many is told of beside it."""
    untold = planted = 0
    for seed in range(cases(2, 20)):
        ids = random.Random(seed).sample([step.id for step in SPOKEN], 1 if fault == "missing" else 2)
        made = recorded(STEPS, seed % 2, seed, **{fault: ids})
        divided = match(EXPECTED, stretches(made.sound))
        is_right = right(divided, made.truth)
        names = [step.id for step in SPOKEN]
        for step_id in ids:
            at = names.index(step_id)
            near = {took.step_id for took in divided.steps if took.doubtful} & set(names[max(0, at - 1) : at + 2])
            planted += 1
            untold += not (is_right[step_id] or near or divided.left_out)
    print(f"{untold} of {planted} planted faults untold")
    assert untold == 0


@pytest.mark.parametrize("noise_db", [-60.0, -50.0, -42.0])
def test_with_a_log_every_boundary_is_close_whatever_is_said_again_or_too_much(noise_db: float) -> None:
    ids = [step.id for step in SPOKEN]
    for voice, late_s in ((0, 7.3), (1, -4.1)):
        made = recorded(
            STEPS, voice, 3, missing=ids[4:5], retakes=(ids[1], ids[8]), added=ids[6:7], noise_db=noise_db,
            log_late_s=late_s + 5.0,
        )  # fmt: skip
        heard = stretches(made.sound)
        path = _log_of(made.log)
        expected = {step.id: seconds_to_say(" ".join(step.narration)) for step in SPOKEN}
        offset = offset_s(path, heard, expected)
        assert offset is not None
        parts = parts_by_log(path, heard, offset)
        for step_id, real in made.truth.items():
            assert abs(parts[step_id][0].start_s - real[0]) <= CLOSE_S, step_id
            assert abs(parts[step_id][-1].end_s - real[1]) <= CLOSE_S, step_id


def _log_of(entries: list[dict[str, object]]) -> tuple:  # type: ignore[type-arg]
    from explainers.fitting.prompter_log import Shown

    return tuple(
        Shown(step_id=e["step"], start_s=e["start"], end_s=e["end"], words=e["words"])  # type: ignore[arg-type]
        for e in entries
    )


def test_a_log_of_another_recording_is_refused() -> None:
    made = recorded(STEPS[:6], 0, 1)
    entries = [dict(entry, start=n * 30.0, end=n * 30.0 + 30.0) for n, entry in enumerate(recorded(STEPS, 0, 2).log)]
    assert offset_s(_log_of(entries[:9]), stretches(made.sound), dict.fromkeys((s.id for s in SPOKEN), 25.0)) is None


BACKWARDS = '{"steps": [{"step": "a", "start": 3, "end": 1, "words": ""}]}'


@pytest.mark.parametrize("text", ["", "[]", "{}", '{"steps": []}', '{"steps": [{"step": 1}]}', BACKWARDS])
def test_a_file_that_is_no_log_is_refused(text: str, tmp_path: Path) -> None:
    path = tmp_path / "talk.log.json"
    path.write_text(text)
    with pytest.raises(RecordingError, match="not a log"):
        read_log(path)


def test_a_log_is_read_as_it_was_saved(tmp_path: Path) -> None:
    path = tmp_path / "a.json"
    path.write_text(json.dumps({"steps": [{"step": "a.b", "start": 0, "end": 2.5, "words": "Hello."}]}))
    (only,) = read_log(path)
    assert (only.step_id, only.end_s, only.words) == ("a.b", 2.5, "Hello.")
