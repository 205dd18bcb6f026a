"""`explainers fit` from takes to the finished clip, read back by decoders and a meter that are not ours."""

from __future__ import annotations

import json
import sys
from collections import Counter
from collections.abc import Callable
from pathlib import Path
from types import ModuleType

import av
import numpy as np
import pyloudnorm
import pytest
from numpy.typing import NDArray
from outputs.test_drawn_shots import Drawer
from scipy.signal import resample_poly
from spoken_lessons import lesson_timeline, recorded
from typer.testing import Result

from explainers.batch import timeline_of
from explainers.fitting import making, takes
from explainers.fitting.memory import fit_folder, read_fit
from explainers.fitting.takes import found_in_recording
from explainers.outputs.html.script import script_html
from explainers.outputs.text.description import description_text
from explainers.storyboard.model import Step
from explainers.voice import coded_take
from explainers.voice.sound import RATE, Sound, joined, silence, write_wav

Run = Callable[..., Result]

STEPS = lesson_timeline("corner-block").storyboard.steps
SPOKEN = [step for step in STEPS if step.narration]


def murmur(seconds: float, seed: int, level_db: float = -24.0) -> Sound:
    """Something as loud as a voice, with syllables, that starts and ends at once: no words are needed here."""
    moments = np.arange(round(seconds * RATE)) / RATE
    rough = np.convolve(np.random.default_rng(seed).normal(size=len(moments)), np.ones(8) / 3.0, "same")
    swell = 0.4 + 0.6 * np.abs(np.sin(np.pi * 4.0 * moments + seed))
    return Sound((10.0 ** (level_db / 20.0) * rough * swell).astype(np.float32))


def takes_of(steps: list[Step], folder: Path, level_db: float = -24.0, words_a_minute: int = 130) -> Path:
    """A file a step, silence before and after, as long as its words take."""
    folder.mkdir()
    for number, step in enumerate(steps):
        words = sum(len(said.split()) for said in step.narration)
        sound = joined(silence(0.7), murmur(words * 60 / words_a_minute, number, level_db), silence(0.9))
        write_wav(folder / f"{step.id}.wav", sound)
    return folder


def heard_in(clip: Path) -> NDArray[np.float32]:
    """(2, n): the sound of a clip, as a player gets it."""
    with av.open(str(clip)) as container:
        stream = container.streams.audio[0]
        assert (stream.codec_context.name, stream.rate, stream.profile) == ("aac", RATE, "LC")
        return np.concatenate([frame.to_ndarray() for frame in container.decode(stream)], axis=1)


def true_peak_db(channels: NDArray[np.float32]) -> float:
    return float(20.0 * np.log10(max(np.abs(resample_poly(one, 4, 1)).max() for one in channels)))


def onset_s(sound: NDArray[np.float32], near_s: float) -> float:
    """When it becomes loud, near a moment."""
    first = max(0, round((near_s - 0.3) * RATE))
    power = np.convolve(sound[first : first + round(0.6 * RATE)] ** 2, np.ones(240) / 240, "valid")
    return (first + int(np.argmax(power > 0.05 * power.max()))) / RATE


def short_lesson(items: Path, manner: str) -> Path:
    """One demo item, told in a short way: fewer takes to make ready."""
    lesson = items / "short.yaml"
    lesson.write_text(f"lesson: short\nparts:\n  - {{show: corner-block.yaml, as: {manner}}}\n", encoding="utf-8")
    return lesson


def spoken_steps(lesson: Path) -> list[Step]:
    return [step for step in timeline_of(lesson).storyboard.steps if step.narration]


@pytest.mark.parametrize(
    ("loudness", "lufs", "manner"), [("speech", -18.0, "quick-check"), ("broadcast", -23.0, "question")]
)
def test_takes_become_a_clip_whose_sound_and_pictures_agree(
    items: Path, drawer: Drawer, run: Run, tmp_path: Path, loudness: str, lufs: float, manner: str,
    request: pytest.FixtureRequest,
) -> None:  # fmt: skip
    full = request.config.getoption("--full")  # ten minutes, or one
    lesson = items / "first-blocks.yaml" if full else short_lesson(items, manner)
    before = timeline_of(lesson)
    assert run("clip", lesson, "--to", tmp_path / "plain").exit_code == 0
    drawn = len(drawer.drawn)
    assert drawn >= 4
    steps = [step for step in before.storyboard.steps if step.narration]
    takes = takes_of(steps, tmp_path / "takes", level_db=-30.0, words_a_minute=260)
    done = run("fit", lesson, takes, "--to", tmp_path / "out", "--loudness", loudness)
    assert (done.exit_code, done.stderr) == (0, "")
    assert len(drawer.drawn) == drawn  # not one picture
    timeline = timeline_of(lesson)
    assert timeline.frames != before.frames
    sound = heard_in(tmp_path / "out" / f"{before.storyboard.name}.mp4")
    assert sound.shape[1] / RATE == pytest.approx(timeline.seconds, abs=0.05)
    for step in steps:
        start_s = timeline.step_span(step.id)[0] / timeline.fps
        assert abs(onset_s(sound[0], start_s) - start_s) < 1.0 / timeline.fps, step.id
    assert pyloudnorm.Meter(RATE).integrated_loudness(sound.T.astype(float)) == pytest.approx(lufs, abs=0.5)
    assert true_peak_db(sound) <= -1.0
    # The cue sheet tells the same times, and a second run has nothing to do.
    first = (tmp_path / "out" / f"{before.storyboard.name}.cues.csv").read_text(encoding="utf-8-sig").splitlines()
    assert len(first) > len(steps)
    again = run("build", lesson, "--to", tmp_path / "bank", "--only", "clip")
    assert again.exit_code == 0 and len(drawer.drawn) == drawn


def test_every_fault_of_takes_is_named_with_its_step(items: Path, drawer: Drawer, run: Run, tmp_path: Path) -> None:
    lesson = short_lesson(items, "quick-check")
    plain = timeline_of(lesson)
    steps = spoken_steps(lesson)
    takes = takes_of(steps, tmp_path / "takes", words_a_minute=260)
    silent, clipped, long, missing, short, misspelt = (steps[n].id for n in range(1, 7))
    write_wav(takes / f"{silent}.wav", silence(4.0))
    write_wav(takes / f"{clipped}.wav", murmur(3.0, 1, level_db=3.0))
    write_wav(takes / f"{long}.wav", murmur(20.0, 1))
    write_wav(takes / f"{short}.wav", murmur(0.3, 1))
    (takes / f"{missing}.wav").unlink()
    (takes / f"{misspelt}.wav").rename(takes / f"{misspelt}x.wav")
    (takes / "notes.txt").write_text("not a take")
    done = run("fit", lesson, takes, "--to", tmp_path / "out")
    assert done.exit_code == 0
    told = done.stderr.splitlines()
    for step_id, words in (
        (silent, "nothing is heard"),
        (clipped, "clipped"),
        (long, "far too long"),
        (short, "far too short"),
        (missing, "there is no take of this step"),
        (f"{misspelt}x", f"call it {misspelt}.wav"),
    ):
        assert any(step_id in line and words in line and "To mend it:" in line for line in told), (step_id, told)
    length = [after - first for t in (plain, timeline_of(lesson)) for first, after in [t.step_span(missing)]]
    assert abs(length[0] - length[1]) <= 1  # planned time, to the rounding of its two ends


def test_changed_words_make_a_take_stale_until_it_is_recorded_anew(
    items: Path, drawer: Drawer, run: Run, tmp_path: Path
) -> None:
    lesson = short_lesson(items, "question")
    takes = takes_of(spoken_steps(lesson), tmp_path / "takes")
    assert run("fit", lesson, takes, "--to", tmp_path / "out").stderr == ""
    drawn = len(drawer.drawn)
    lesson.write_text(
        lesson.read_text(encoding="utf-8")
        + "words:\n  corner-block.compare: Which option did you pick? Tell someone, and say why.\n",
        encoding="utf-8",
    )
    for words in (("cues", lesson, "--to", tmp_path / "o2"), ("fit", lesson, takes, "--to", tmp_path / "out")):
        told = run(*words).stderr
        assert "corner-block.compare: the words have changed since this was recorded" in told
        assert "fit with --accept corner-block.compare" in told
    # It still fits, the teacher finds: that is remembered, beside the same recording too.
    assert run("fit", lesson, "--accept", "corner-block.compar", "--to", tmp_path / "out").exit_code == 2
    assert run("fit", lesson, "--accept", "corner-block.compare", "--to", tmp_path / "out").stderr == ""
    assert run("fit", lesson, takes, "--to", tmp_path / "out").stderr == ""
    # Until the words change again; then it is recorded anew.
    lesson.write_text(lesson.read_text(encoding="utf-8").replace("you pick", "you take"), "utf-8")
    assert "corner-block.compare: the words have changed" in run("fit", lesson, takes, "--to", tmp_path / "out").stderr
    write_wav(takes / "corner-block.compare.wav", murmur(4.0, 77))
    assert run("fit", lesson, takes, "--to", tmp_path / "out").stderr == ""
    assert len(drawer.drawn) == drawn


def test_only_what_is_new_is_read_made_ready_and_coded(
    items: Path, drawer: Drawer, run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    lesson = short_lesson(items, "question")
    steps = spoken_steps(lesson)
    folder = takes_of(steps, tmp_path / "takes", words_a_minute=260)
    worked: list[str] = []

    def counted(module: ModuleType, name: str) -> None:
        real = getattr(module, name)
        monkeypatch.setattr(module, name, lambda *given, **named: (worked.append(name), real(*given, **named))[1])

    counted(takes, "read_sound")
    counted(making, "made_ready")
    counted(coded_take, "coded_take")
    out = tmp_path / "out"
    assert run("fit", lesson, folder, "--to", out).exit_code == 0
    assert Counter(worked) == dict.fromkeys(("read_sound", "made_ready", "coded_take"), len(steps))
    sound = heard_in(out / "short.mp4")
    worked.clear()
    write_wav(folder / f"{steps[1].id}.wav", murmur(2.0, 9))
    assert run("fit", lesson, folder, "--to", out).exit_code == 0
    assert Counter(worked) == dict.fromkeys(("read_sound", "made_ready", "coded_take"), 1)
    # What stands before the new take is the same, to the sample.
    first = round(timeline_of(lesson).step_span(steps[1].id)[0] / 30 * RATE) - 2048
    assert np.array_equal(sound[:, :first], heard_in(out / "short.mp4")[:, :first])


def test_what_has_older_times_is_named(items: Path, drawer: Drawer, run: Run, tmp_path: Path) -> None:
    lesson = short_lesson(items, "question")
    out = tmp_path / "out"
    assert run("build", lesson, "--to", tmp_path, "--only", "script", "--only", "cues").exit_code == 0
    (tmp_path / "short").rename(out)
    folder = takes_of(spoken_steps(lesson), tmp_path / "takes", words_a_minute=260)
    told = run("fit", lesson, folder, "--to", out).stderr
    assert "made before this, so with other times: script." in told and "--only script" in told
    assert run("fit", lesson, folder, "--to", out).stderr == told, "it still has"


def test_one_recording_is_divided_with_its_log_and_alone_and_doubts_can_be_settled(
    items: Path, drawer: Drawer, run: Run, tmp_path: Path
) -> None:
    pytest.importorskip("espeakng_loader")
    lesson = short_lesson(items, "question")
    steps = spoken_steps(lesson)
    made = recorded(steps, 0, 5, retakes=[steps[2].id], log_late_s=12.0)
    talk = tmp_path / "talk.wav"
    write_wav(talk, made.sound)
    log = tmp_path / "a.log.json"
    log.write_text(json.dumps({"lesson": "short", "steps": made.log}))
    assert run("fit", lesson, talk, "--log", log, "--to", tmp_path / "out").exit_code == 0
    fit = read_fit(lesson)
    assert fit is not None and not (tmp_path / "talk.steps.yaml").exists()
    for take in fit.takes:
        start_s, end_s = made.truth[take.step_id]
        assert take.speech[-1][1] == pytest.approx(end_s - start_s, abs=0.15)
    # Alone, with what the teacher says of one step.
    start_s, end_s = made.truth[steps[2].id]
    beside = tmp_path / "talk.steps.yaml"
    beside.write_text(f"settled:\n  {steps[2].id}: {{start: {start_s:.2f}, end: {end_s:.2f}}}\n")
    found, remarks = found_in_recording(talk, steps)
    lengths = {take.step_id: take.sound.seconds for take in found}
    doubted = {remark.field for remark in remarks}
    assert len(doubted) <= 3 and steps[2].id not in doubted
    for step_id, (first_s, after_s) in made.truth.items():
        assert step_id in doubted or lengths[step_id] == pytest.approx(after_s - first_s, abs=0.15), step_id
    assert all(f"  {step_id}: {{start: " in beside.read_text() for step_id in doubted - {""})
    assert f"  {steps[2].id}: {{start: {start_s:.2f}" in beside.read_text()


def test_a_file_of_settled_times_is_checked_like_every_file(items: Path, run: Run, tmp_path: Path) -> None:
    talk = tmp_path / "talk.wav"
    write_wav(talk, joined(silence(0.5), murmur(8.0, 1), silence(0.5)))
    text = (
        "settled:\n  corner-block.flag.tum: {start: 1, end: 2}\n  corner-block.task: {start: 5, end: 2}\n"
        "  corner-block.outline: {start: x}\n  corner-block.option-a.rule-out: soon\nsetled: {}\n"
    )
    (tmp_path / "talk.steps.yaml").write_text(text)
    done = run("fit", items / "corner-block.yaml", talk)
    assert done.exit_code == 2
    for line, words in (
        (2, "write corner-block.flag.turn"),
        (3, "ends before it starts"),
        (4, '"x" is not a number'),
        (4, "the key end is missing from the step"),
        (5, "no step has that id"),
        (6, "settled is there already"),
    ):
        assert any(f"talk.steps.yaml:{line}:" in told and words in told for told in done.stderr.splitlines()), words
    assert (tmp_path / "talk.steps.yaml").read_text() == text
    assert not fit_folder(items / "corner-block.yaml").exists()


def test_a_file_that_is_no_sound_is_refused_and_nothing_is_kept(items: Path, run: Run, tmp_path: Path) -> None:
    takes = takes_of(SPOKEN[:3], tmp_path / "takes")
    for step in SPOKEN[:2]:
        (takes / f"{step.id}.wav").write_bytes(b"no sound at all")
    done = run("fit", items / "corner-block.yaml", takes, "--to", tmp_path / "out")
    assert done.exit_code == 2 and "Traceback" not in done.output
    assert all(any(step.id in line for line in done.stderr.splitlines()) for step in SPOKEN[:2])
    assert not fit_folder(items / "corner-block.yaml").exists() and not (tmp_path / "out").exists()


def test_a_scratch_voice_is_called_one_wherever_it_is_heard(
    items: Path, drawer: Drawer, run: Run, tmp_path: Path
) -> None:
    pytest.importorskip("espeakng_loader")
    lesson = short_lesson(items, "question")
    name = "short.scratch"
    done = run("fit", lesson, "--scratch", "--to", tmp_path / "out")
    assert done.exit_code == 0 and "scratch voice" in done.stderr
    names = {path.name for path in (tmp_path / "out").iterdir() if not path.name.startswith(".")}
    assert names and all(".scratch." in name for name in names)
    with av.open(str(tmp_path / "out" / f"{name}.mp4")) as container:
        assert "scratch voice" in container.metadata["title"] and "scratch voice" in container.metadata["comment"]
    for suffix in ("vtt", "cues.csv"):
        text = (tmp_path / "out" / f"{name}.{suffix}").read_text(encoding="utf-8-sig")
        assert "A machine speaks this lesson" in text, suffix
    timeline = timeline_of(lesson)
    assert "A machine speaks this lesson" in description_text(timeline)
    assert "A machine speaks this lesson" in script_html(timeline)
    fit = read_fit(lesson)
    assert (
        fit is not None
        and fit.scratch
        and {take.step_id for take in fit.takes} == {step.id for step in spoken_steps(lesson)}
    )


def test_a_scratch_voice_takes_nothing_from_a_recorded_one(
    items: Path, drawer: Drawer, run: Run, tmp_path: Path
) -> None:
    """Neither its clip, captions and cue sheet, nor what is remembered of its takes."""
    pytest.importorskip("espeakng_loader")

    def contents(folder: Path) -> dict[str, bytes]:
        return {path.name: path.read_bytes() for path in folder.iterdir() if not path.name.startswith(".")}

    lesson, out = short_lesson(items, "question"), tmp_path / "out"
    done = run("fit", lesson, takes_of(spoken_steps(lesson), tmp_path / "takes"), "--to", out)
    assert (done.exit_code, done.stderr) == (0, "")
    made, memory = contents(out), contents(fit_folder(lesson))
    assert {"short.mp4", "short.vtt", "short.srt", "short.cues.csv"} <= set(made)
    done = run("fit", lesson, "--scratch", "--to", out)
    assert done.exit_code == 0 and "scratch voice" in done.stderr
    after = contents(out)
    assert {name: after.get(name) for name in made} == made
    assert set(after) - set(made) == {name.replace("short.", "short.scratch.") for name in made}
    assert contents(fit_folder(lesson)) == memory
    # The recorded voice is heard as before, and by whatever is made from now on.
    done = run("cues", lesson, "--to", out)
    assert done.exit_code == 0 and "scratch" not in done.stderr
    assert contents(out)["short.cues.csv"] == made["short.cues.csv"]


SPEAKER = """
import struct, sys, wave
words = sys.stdin.read()
assert words and sys.argv[1] == "a b; $(c)"
out = wave.open(sys.stdout.buffer, "wb")
out.setnchannels(1); out.setsampwidth(2); out.setframerate(16000)
out.writeframes(b"".join(struct.pack("<h", (n * n * 7919) % 9000 - 4500) for n in range(5333 * len(words.split()))))
"""


def test_a_command_of_ones_own_speaks_without_a_shell(items: Path, drawer: Drawer, run: Run, tmp_path: Path) -> None:
    speaker = tmp_path / "speaker.py"
    speaker.write_text(SPEAKER)
    lesson = items / "own.yaml"
    head = "lesson: own\nparts:\n  - {show: corner-block.yaml, as: question}\n"
    command = f"voice: {{speaker: A machine, command: [{sys.executable}, {speaker}, 'a b; $(c)']}}\n"
    lesson.write_text(head + command)
    done = run("fit", lesson, "--scratch", "--to", tmp_path / "out")
    assert done.exit_code == 0, done.stderr
    fit = read_fit(lesson)
    assert fit is not None and fit.scratch and len(fit.takes) >= 3
    lesson.write_text(head + f"voice: {{command: [{sys.executable}, -c, 'import sys; sys.exit(\"no voice\")']}}\n")
    done = run("fit", lesson, "--scratch", "--to", tmp_path / "o2")
    assert done.exit_code == 2 and "voice.command" in done.stderr and "no voice" in done.stderr
    lesson.write_text(head + "voice: {command: speak}\n")
    assert "voice.command" in run("check", lesson).stderr + run("fit", lesson, "--scratch").stderr


def test_a_note_that_cannot_be_read_is_told_and_left(items: Path, run: Run) -> None:
    lesson = items / "corner-block.yaml"
    folder = fit_folder(lesson)
    folder.mkdir()
    for text in ("{", '{"takes": {"a.b": {"file": "../../secret.flac"}}, "loudness": -18, "scratch": false}', "[]"):
        (folder / "fit.json").write_text(text)
        done = run("cues", lesson, "--to", items / "out")
        assert done.exit_code == 2 and "fit.json" in done.stderr and "Traceback" not in done.output
        assert (folder / "fit.json").read_text() == text
