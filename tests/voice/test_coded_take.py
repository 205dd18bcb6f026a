"""Takes coded one by one and laid along a clip: where they sound, how loud, and silence everywhere else."""

from __future__ import annotations

import av
import numpy as np
import pyloudnorm
import pytest
from numpy.typing import NDArray

from explainers.voice.coded_take import AAC_FRAME, CodedTake, coded_take, silent_packet
from explainers.voice.sound import RATE, Sound
from explainers.voice.track import CodedTrack, laid, made_ready


def spoken(seconds: float, seed: int) -> Sound:
    """Something with syllables and high peaks, begun and ended at once."""
    moments = np.arange(round(seconds * RATE)) / RATE
    rough = np.convolve(np.random.default_rng(seed).normal(size=len(moments)), np.ones(8) / 3.0, "same")
    swell = 0.2 + np.abs(np.sin(np.pi * 4.0 * moments + seed)) ** 3
    sound = Sound((0.05 * rough * swell).astype(np.float32))
    return made_ready(sound, 0.0, seconds, -18.0)


def played(track: CodedTrack) -> NDArray[np.float32]:
    """(2, n): what a decoder makes of a track, the run-up left out as players do."""
    context = av.CodecContext.create("aac", "r")
    context.extradata = bytes([0x11, 0x90])  # ISO/IEC 14496-3: AAC-LC, 48 kHz, two channels
    frames = [frame for packet in track.packets for frame in context.decode(av.Packet(packet))]
    return np.concatenate([frame.to_ndarray() for frame in frames], axis=1)[:, track.run_up :]


STARTS_S = (0.5, 3.1, 5.4333)


def test_takes_begin_within_half_a_packet_with_silence_between_and_the_loudness_asked_for() -> None:
    takes = [spoken(seconds, seed) for seed, seconds in enumerate((2.0, 1.7, 4.0))]
    coded = [coded_take(take, -18.0) for take in takes]
    sound = played(laid(dict(zip(STARTS_S, coded, strict=True)), 11.0))
    assert sound.shape[1] / RATE == pytest.approx(11.0, abs=AAC_FRAME / RATE)
    loud = np.abs(sound[0]) > 0
    for start_s, take in zip(STARTS_S, takes, strict=True):
        first, after = round(start_s * RATE), round((start_s + take.seconds) * RATE)
        near = sound[0][first - 2000 : after + 2000]
        shift = int(np.argmax(np.correlate(near[:12000], take.samples[:8000], "valid"))) - 2000
        assert abs(shift) <= AAC_FRAME / 2 + 1
        loud[first - 2 * AAC_FRAME : after + 3 * AAC_FRAME] = False
    assert not loud.any()
    assert pyloudnorm.Meter(RATE).integrated_loudness(sound.T.astype(float)) == pytest.approx(-18.0, abs=0.3)


def test_a_take_sounds_the_same_wherever_it_stands() -> None:
    take, other = coded_take(spoken(1.5, 1), -23.0), coded_take(spoken(1.0, 2), -23.0)
    alone = played(laid({0.0: take}, 1.5))
    after = played(laid({0.0: other, 128 * AAC_FRAME / RATE: take}, 8.0))[:, 128 * AAC_FRAME :]
    assert np.array_equal(alone, after[:, : alone.shape[1]])


def test_a_take_that_would_begin_inside_another_begins_after_it() -> None:
    one, two = coded_take(spoken(1.0, 1), -18.0), coded_take(spoken(1.0, 2), -18.0)
    track = laid({0.0: one, 0.9: two}, 4.0)
    assert track.packets[: len(one.packets)] == one.packets
    assert track.packets[len(one.packets) : len(one.packets) + len(two.packets)] == two.packets


def test_a_short_word_is_not_shouted() -> None:
    word = spoken(0.15, 3)
    heard = coded_take(word, -18.0).heard
    assert heard.lufs < -19.0 and heard.peak_db <= -1.0


def test_what_a_cache_kept_is_the_same_or_refused() -> None:
    take = coded_take(spoken(0.5, 4), -18.0)
    assert CodedTake.from_bytes(take.to_bytes()) == take
    for data in (b"", take.to_bytes()[:-1], take.to_bytes() + b"x"):
        with pytest.raises(ValueError, match="coded take"):
            CodedTake.from_bytes(data)


def test_silence_is_digital() -> None:
    assert not played(CodedTrack(packets=(silent_packet(),) * 9, run_up=0)).any()
