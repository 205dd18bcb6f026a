"""Takes that stand in a page: decoded again, they are as long and as loud as the takes that were kept."""

from __future__ import annotations

import base64
import io
from dataclasses import replace
from pathlib import Path

import av
import numpy as np
import pytest
from storyboard.short_clip import short_timeline

from explainers.errors import RecordingError
from explainers.outputs.html.sound import sound_of, spoken_by_machine
from explainers.storyboard.timeline import Narration, Timeline
from explainers.voice.loudness import LOUDEST_PEAK_DB, loudness_of
from explainers.voice.sound import RATE, Sound
from explainers.voice.take_file import take_file
from explainers.voice.track import made_ready, write_take

AAC_FRAME_S = 1024 / RATE


def noise(seconds: float) -> Sound:
    """Sound with the loud and the soft of speech, the same each time."""
    count = round(seconds * RATE)
    rng = np.random.default_rng(7)
    swell = 0.2 + np.abs(np.sin(np.arange(count) * 2 * np.pi * 3 / RATE))
    low = np.cumsum(rng.normal(size=count)) * 0.002
    samples = swell * np.sin(np.arange(count) * 2 * np.pi * 180 / RATE + low)
    return made_ready(Sound(samples.astype(np.float32)), 0.0, seconds, -23.0)


@pytest.fixture
def spoken(tmp_path: Path) -> Timeline:
    """The short lesson with takes of its first two steps."""
    takes = {"sample.task": 1.3, "sample.flag.turn": 0.6}
    for number, seconds in enumerate(takes.values()):
        write_take(tmp_path / f"{number}.flac", noise(seconds))
    paths = {step_id: tmp_path / f"{number}.flac" for number, step_id in enumerate(takes)}
    return replace(short_timeline(), narration=Narration(takes=paths, loudness_lufs=-23.0))


def decoded(uri: str) -> np.ndarray:
    head, data = uri.split(",")
    assert head == "data:audio/mp4;base64"
    with av.open(io.BytesIO(base64.b64decode(data, validate=True))) as container:
        (stream,) = container.streams
        assert stream.codec_context.name == "aac" and stream.codec_context.layout.name == "mono"
        blocks = [frame.to_ndarray()[0] for frame in container.decode(stream)]
    return np.concatenate(blocks)


def test_each_take_comes_back_as_long_and_as_loud(spoken: Timeline) -> None:
    sound = sound_of(spoken)
    for step_id, seconds in (("sample.task", 1.3), ("sample.flag.turn", 0.6)):
        uri = sound(step_id)
        assert uri is not None
        samples = decoded(uri)
        assert seconds <= len(samples) / RATE <= seconds + 2 * AAC_FRAME_S
        heard = loudness_of(Sound(samples.astype(np.float32)))
        assert heard.peak_db <= LOUDEST_PEAK_DB
        kept = loudness_of(noise(seconds))
        assert heard.lufs == pytest.approx(kept.lufs, abs=0.5)


def test_the_first_word_is_not_late(spoken: Timeline) -> None:
    """The coder's run-up is named in the file: what is decoded begins where the take begins."""
    uri = sound_of(spoken)("sample.task")
    assert uri is not None
    take, samples = noise(1.3).samples, decoded(uri)
    window = take[: RATE // 2]
    best = max(
        range(-1200, 1201),
        key=lambda late: float(np.dot(window[2400:-2400], samples[2400 + late :][: len(window) - 4800])),
    )
    assert abs(best) <= 2  # samples


def test_steps_without_a_take_and_lessons_without_a_voice_have_no_sound(spoken: Timeline) -> None:
    assert sound_of(spoken)("sample.end") is None
    assert sound_of(short_timeline())("sample.task") is None


def test_the_same_take_gives_the_same_bytes() -> None:
    assert take_file(noise(0.3)) == take_file(noise(0.3))


def test_a_take_that_is_gone_is_told(spoken: Timeline) -> None:
    assert spoken.narration is not None
    spoken.narration.takes["sample.task"].unlink()
    with pytest.raises(RecordingError):
        sound_of(spoken)("sample.task")


@pytest.mark.parametrize("scratch", [False, True])
def test_a_scratch_voice_is_known_as_one(spoken: Timeline, scratch: bool) -> None:
    assert spoken.narration is not None
    assert spoken_by_machine(replace(spoken, narration=replace(spoken.narration, scratch=scratch))) is scratch
    assert not spoken_by_machine(short_timeline())
