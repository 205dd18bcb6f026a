"""The loudness meter against published check tones, and levelling against the meter."""

from __future__ import annotations

import math

import numpy as np
import pytest

from explainers.voice.loudness import LOUDEST_PEAK_DB, levelled, limited, loudness_of, loudness_of_channels
from explainers.voice.sound import RATE, Samples, Sound


def tone(level_db: float, hertz: float = 1000.0, seconds: float = 20.0) -> Samples:
    moments = np.arange(round(seconds * RATE)) / RATE
    return (10.0 ** (level_db / 20.0) * np.sin(2.0 * np.pi * hertz * moments)).astype(np.float32)


# ITU-R BS.1770: a 997 Hz sine at full scale in one channel reads -3.01 LKFS. EBU Tech 3341, test cases 1 and 2: a
# stereo sine of 1 kHz at -23 dBFS reads -23.0, at -33 dBFS -33.0; in one channel 3.01 LU less. Tolerance 0.1 LU.
@pytest.mark.parametrize(
    ("channels", "lufs"),
    [
        ([tone(0.0, 997.0)], -3.01),
        ([tone(-23.0), tone(-23.0)], -23.0),
        ([tone(-23.0)], -26.0),
        ([tone(-33.0), tone(-33.0)], -33.0),
    ],
)
def test_the_meter_reads_the_published_tones(channels: list[Samples], lufs: float) -> None:
    assert loudness_of_channels(np.stack(channels)).lufs == pytest.approx(lufs, abs=0.1)


def test_a_voice_is_measured_as_it_is_heard_on_two_sides() -> None:
    assert loudness_of(Sound(tone(-23.0))).lufs == pytest.approx(-23.0, abs=0.1)


def test_silence_between_does_not_make_it_quieter() -> None:
    """EBU Tech 3341, test case 3 in kind: what lies 13 LU and more below is gated out."""
    both = np.concatenate([tone(-36.0, seconds=10.0), tone(-23.0, seconds=20.0), tone(-36.0, seconds=10.0)])
    assert loudness_of(Sound(both)).lufs == pytest.approx(-23.0, abs=0.1)


def test_a_peak_between_two_samples_is_seen() -> None:
    """A sine of a quarter of the rate, 45 degrees off: its samples stand at 0.707 of its true height."""
    moments = np.arange(RATE)
    swell = np.sin(np.pi * moments / RATE) ** 0.5  # a sine that starts at once has overshoots of its own
    sound = Sound((swell * np.sin(np.pi / 2.0 * moments + np.pi / 4.0)).astype(np.float32))
    assert float(np.abs(sound.samples).max()) == pytest.approx(math.sqrt(0.5), abs=1e-4)
    assert loudness_of(sound).peak_db == pytest.approx(0.0, abs=0.4)
    assert loudness_of(limited(sound, -6.0)).peak_db <= -6.0 + 0.05


@pytest.mark.parametrize("target", [-18.0, -23.0])
@pytest.mark.parametrize("gain_db", [-40.0, -12.0, 12.0])
def test_a_voice_with_high_peaks_comes_to_its_target_under_the_ceiling(target: float, gain_db: float) -> None:
    rng = np.random.default_rng(5)
    moments = np.arange(RATE * 12) / RATE
    bursts = rng.normal(size=len(moments)) * np.abs(np.sin(moments * 9.0)) ** 6 * (np.sin(moments * 1.3) > 0)
    sound = Sound((bursts * 0.1 * 10.0 ** (gain_db / 20.0)).astype(np.float32))
    out = loudness_of(levelled(sound, target))
    assert out.lufs == pytest.approx(target, abs=0.1)
    assert out.peak_db <= LOUDEST_PEAK_DB


def test_silence_stays_silence() -> None:
    quiet = levelled(Sound(np.zeros(RATE, dtype=np.float32)), -18.0)
    assert not quiet.samples.any()
