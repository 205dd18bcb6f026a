"""A speaker with known words and known boundaries: a machine's voice, its speed varied from step to step."""

from __future__ import annotations

import random
import shutil
from collections import Counter
from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass, field
from functools import cache
from itertools import pairwise
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from explainers.batch import timeline_of
from explainers.storyboard.model import Step
from explainers.storyboard.timeline import Timeline
from explainers.voice.espeak import spoken_by_machine
from explainers.voice.matching import DividedRecording
from explainers.voice.sound import Sound, joined, silence
from explainers.voice.speech import heard

ITEMS = Path(__file__).parent.parent.parent / "items"
# Language, variant, pitch. Nothing was ever fitted to the third.
VOICES = (("en-GB", "m3", 35), ("en-US", "f3", 60), ("en-GB", "f5", 75))
CLOSE_S = 0.150  # what is asked of every boundary
ADDED = "Well, let me think about that for a moment."


@cache
def said(words: str, voice: int, words_a_minute: int) -> Sound:
    """One sentence, from its first sound to its last."""
    language, variant, pitch = VOICES[voice]
    sound = spoken_by_machine(words, language, variant=variant, pitch=pitch, words_a_minute=words_a_minute)
    span = heard(sound).span
    assert span is not None
    return sound.between(span.start_s, span.end_s)


@dataclass
class Recording:
    """A whole lesson, spoken, and where each step really is."""

    sound: Sound
    truth: dict[str, tuple[float, float]]
    log: list[dict[str, object]] = field(default_factory=list)  # as the prompter would have noted it


def recorded(
    steps: Sequence[Step],
    voice: int,
    seed: int,
    *,
    missing: Collection[str] = (),
    retakes: Collection[str] = (),
    added: Collection[str] = (),
    stumbles: Collection[str] = (),
    hesitant: bool = False,
    noise_db: float | None = None,
    log_late_s: float = 0.0,
) -> Recording:
    """Each step 30 % faster or slower than the other; silences inside steps as long as those between them.

    retakes  : steps that are begun again after all their sentences but the last
    stumbles : steps that are begun again after half of their first sentence
    hesitant : whether silences within sentences are often as long as those between
    """
    rng = random.Random(seed)
    parts: list[Sound] = []
    now = 0.0
    truth: dict[str, tuple[float, float]] = {}
    log: list[dict[str, object]] = []

    def add(sound: Sound) -> None:
        nonlocal now
        parts.append(sound)
        now += sound.seconds

    def say(sentence: str, speed: int) -> None:
        sound = said(sentence, voice, speed)
        if not hesitant:
            add(sound)
            return
        at_s = 0.0
        for before, after in pairwise(heard(sound).stretches):
            if rng.random() < 0.4:
                middle_s = (before.end_s + after.start_s) / 2.0
                add(sound.between(at_s, middle_s))
                add(silence(rng.uniform(0.3, 1.0)))
                at_s = middle_s
        add(sound.between(at_s, sound.seconds))

    def pause() -> float:
        """The moment in its middle, where a speaker goes on to the next step."""
        length_s = rng.uniform(0.4, 1.3)
        add(silence(length_s))
        return now - rng.uniform(0.1, 0.9) * length_s

    went_on = pause()
    for step in steps:
        if not step.narration:
            continue
        speed = rng.choice(range(98, 183, 14))
        sentences = list(step.narration)
        if step.id in added:
            sentences.insert(rng.randrange(len(sentences) + 1), ADDED)
        if step.id in stumbles:
            first = said(sentences[0], voice, speed)
            add(first.between(0.0, first.seconds / 2.0))
            went_on = pause()
        rounds = [sentences[: max(1, len(sentences) - 1)], sentences] if step.id in retakes else [sentences]
        for spoken in rounds if step.id not in missing else []:
            start_s = now
            end_s = now
            came = went_on
            for sentence in spoken:
                say(sentence, speed)
                end_s = now
                went_on = pause()
            truth[step.id] = (start_s, end_s)
            log.append({"step": step.id, "start": came, "end": went_on, "words": " ".join(step.narration)})
    for entry in log:
        entry["start"], entry["end"] = (float(entry[key]) + log_late_s for key in ("start", "end"))  # type: ignore[arg-type]
    sound = joined(*parts)
    if noise_db is not None:
        noise = np.random.default_rng(seed).normal(size=len(sound.samples)) * 10.0 ** (noise_db / 20.0)
        sound = Sound((sound.samples + noise).astype(np.float32))
    return Recording(sound=sound, truth=truth, log=log)


# How each is spoken, and how many steps have which fault.
KINDS: dict[str, tuple[dict[str, Any], dict[str, int]]] = {
    "clean": ({}, {}),
    "hesitant": ({"hesitant": True}, {}),
    "noise -60 dB": ({"noise_db": -60.0}, {}),
    "noise -50 dB": ({"noise_db": -50.0}, {}),
    "noise -42 dB": ({"noise_db": -42.0}, {}),
    "missing": ({}, {"missing": 1}),
    "retakes": ({}, {"retakes": 2}),
    "stumbles": ({}, {"stumbles": 2}),
    "added": ({}, {"added": 2}),
    "all, -50 dB": ({"noise_db": -50.0}, {"missing": 1, "retakes": 2, "added": 1}),
}


def planted(steps: Sequence[Step], seed: int, faults: dict[str, int]) -> dict[str, Any]:
    """The steps that have each fault."""
    ids = [step.id for step in steps if step.narration]
    chosen = random.Random(seed * 31 + 5).sample(ids, sum(faults.values()))
    return {fault: [chosen.pop() for _ in range(count)] for fault, count in faults.items()}


def counted(divided: DividedRecording, made: Recording, faults: set[str], count: Counter[str]) -> None:
    """Add what became of one recording.

    A step is good where it is found where it is and no fault was planted in it. A planted fault is told where the step
    is found where it is, or it or a neighbour is listed, or speech near it is reported as nobody's.
    """
    names = [took.step_id for took in divided.steps]
    right = {}
    for took in divided.steps:
        real = made.truth.get(took.step_id)
        if real is not None:
            ends = (took.part.start_s, took.part.end_s) if took.part else (-9.0, -9.0)
            close = [abs(end - due) <= CLOSE_S for end, due in zip(ends, real, strict=True)]
            count["boundaries"] += 2
            count["close"] += sum(close)
            right[took.step_id] = all(close)
        else:
            right[took.step_id] = took.part is None
        if took.step_id not in faults:
            kind = "good" if right[took.step_id] else "wrong"
            count[kind] += 1
            count[f"{kind} listed"] += took.doubtful
    listed = {took.step_id for took in divided.steps if took.doubtful or took.part is None}
    for step_id in faults:
        at = names.index(step_id)
        near = set(names[max(0, at - 1) : at + 2])
        real = made.truth.get(step_id)
        nobodys = real and any(real[0] - 25.0 < part.start_s < real[1] + 5.0 for part in divided.left_out)
        count["planted"] += 1
        count["told"] += bool(right[step_id] or near & listed or nobodys)


@cache
def lesson_timeline(name: str) -> Timeline:
    return timeline_of(ITEMS / f"{name}.yaml")


@pytest.fixture
def own_items(tmp_path: Path) -> Path:
    """A copy of the demo items, beside which a voice may be kept."""
    folder = tmp_path / "items"
    folder.mkdir()
    for path in ITEMS.glob("*.yaml"):
        shutil.copy(path, folder / path.name)
    return folder


@pytest.fixture
def speaker() -> Callable[..., Recording]:
    return recorded
