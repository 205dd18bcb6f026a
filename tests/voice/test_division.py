"""A recording with known boundaries, divided: with the prompter's log, and alone by how long the words should take."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Callable
from pathlib import Path

import pytest
from spoken_lessons import CLOSE_S, KINDS, counted, lesson_timeline, planted, recorded

from explainers.errors import RecordingError
from explainers.fitting.prompter_log import offset_s, parts_by_log, read_log
from explainers.storyboard.spoken import phrases_to_say, seconds_to_say
from explainers.voice.matching import Spoken, match
from explainers.voice.speech import stretches

pytest.importorskip("espeakng_loader")

STEPS = lesson_timeline("corner-block").storyboard.steps
SPOKEN = [step for step in STEPS if step.narration]
EXPECTED = [Spoken(step_id=step.id, phrases=phrases_to_say(step.narration)) for step in SPOKEN]


def test_without_a_log_sound_is_divided_faults_are_told_and_few_good_steps_are_doubted(
    cases: Callable[[int, int], int], request: pytest.FixtureRequest
) -> None:
    usual: Counter[str] = Counter()
    hard: Counter[str] = Counter()  # hesitating, breaking off inside sentences, and everything at once
    for number, (kind, (manner, faults)) in enumerate(KINDS.items()):
        of_kind: Counter[str] = Counter()
        for seed in range(number, 10 * cases(1, 10), 10):  # another reading for each kind
            for voice in (0, 1) if kind == "clean" else (seed % 2,):
                where = planted(SPOKEN, seed, faults)
                made = recorded(STEPS, voice, seed, **manner, **where)
                divided = match(EXPECTED, stretches(made.sound))
                counted(divided, made, {step_id for ids in where.values() for step_id in ids}, of_kind)
        # A few words more or less in a step of few words may pass; a boundary that is wrong never does.
        assert of_kind["told"] >= 0.95 * of_kind["planted"], kind
        assert of_kind["wrong listed"] == of_kind["wrong"], kind
        if kind == "clean":
            assert of_kind["close"] >= 0.97 * of_kind["boundaries"]
        (hard if kind in ("hesitant", "stumbles", "all, -50 dB") else usual).update(of_kind)
    # One reading of a short lesson each is a small sample of what is asked for in the long run.
    most, most_hard = (0.05, 0.12) if request.config.getoption("--full") else (0.08, 0.2)
    assert usual["good listed"] <= most * usual["good"]
    assert hard["good listed"] <= most_hard * hard["good"]


def test_a_step_that_comes_after_may_have_been_begun_before() -> None:
    """Words of a settled step that were given up are not taken for the end of the step before it."""
    made = recorded(SPOKEN[:5], 0, 1, retakes=[SPOKEN[4].id])
    before = [part for part in stretches(made.sound) if part.end_s <= made.truth[SPOKEN[4].id][0]]
    divided = match(EXPECTED[:4], before, EXPECTED[4])
    assert divided.left_out
    last = divided.steps[-1].part
    assert last is not None and abs(last.end_s - made.truth[SPOKEN[3].id][1]) <= CLOSE_S


def test_a_recording_without_speech_has_no_step() -> None:
    divided = match(EXPECTED[:3], [])
    assert [took.part for took in divided.steps] == [None] * 3 and not divided.left_out


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
    from explainers.fitting.prompter_log import ShownStep

    return tuple(
        ShownStep(step_id=e["step"], start_s=e["start"], end_s=e["end"], words=e["words"])  # type: ignore[arg-type]
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
