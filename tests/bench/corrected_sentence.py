"""What a new take, or a corrected sentence, costs in a ten-minute lesson that has a voice: whole, command to clip.

    .venv/bin/python tests/bench/corrected_sentence.py                      # with the plain way, 10 to 20 minutes
    .venv/bin/python tests/bench/corrected_sentence.py --plain-questions 1  # half of the plain lesson, doubled
    .venv/bin/python tests/bench/corrected_sentence.py --plain-questions 0  # without it

Every run is a process of its own. The share is of the plain way's cold time: manim's own command on a lesson of ten
minutes, as in `clip_speed.py`. The goal is 3 % with no picture drawn. Then the clip is measured by the meter and the
times of its takes.
"""

from __future__ import annotations

import argparse
import os
import shutil
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

ROOT = Path(__file__).resolve().parent.parent.parent
sys.path[:0] = [str(ROOT), str(ROOT / "tests" / "bench"), str(ROOT / "tests" / "voice"), str(ROOT / "tests")]

from clip_speed import Run, plain, timed
from spoken_lessons import recorded, said

from explainers import timeline_of
from explainers.voice.loudness import loudness_of_channels
from explainers.voice.sound import joined, read_sound, silence, write_wav

LESSON = "cutting-out"
# The command as it is typed, which also says how many pictures it drew.
COMMAND = (
    "import sys\n"
    "from explainers.outputs.clip import writer as clip\n"
    "had = clip.have_drawn\n"
    "clip.have_drawn = lambda *given: print('pictures', had(*given), file=sys.stdout)\n"
    "from explainers.cli.main import main\n"
    "main()\n"
)


def fit(work: Path, *words: object) -> tuple[Run, int]:
    """`explainers fit`, and the pictures that it drew."""
    run = timed("-c", COMMAND, "fit", work / "items" / f"{LESSON}.yaml", *words, "--to", work / "out",
                EXPLAINERS_CACHE=str(work / "cache"), PYTHONPATH=str(ROOT))  # fmt: skip
    drawn = [int(line.split()[1]) for line in run.said.splitlines() if line.startswith("pictures ")]
    return run, sum(drawn)


def corrected(lesson: Path, step_id: str, words: str) -> None:
    """Words of the teacher's own in the lesson's file."""
    text = lesson.read_text(encoding="utf-8")
    line = f'  {step_id}: "{words}"\n'
    at = text.find("words:\n")
    whole = text[: at + 7] + line + text[at + 7 :] if at >= 0 else f"{text}words:\n{line}"
    lesson.write_text(whole, encoding="utf-8")


def measured(work: Path) -> str:
    """What a meter and the clock say of the clip."""
    import av
    import numpy as np

    lesson = timeline_of(work / "items" / f"{LESSON}.yaml")
    with av.open(str(work / "out" / f"{lesson.storyboard.name}.mp4")) as container:
        stream = container.streams.audio[0]
        sound = np.concatenate([frame.to_ndarray() for frame in container.decode(stream)], axis=1)
    shown = loudness_of_channels(sound)
    worst_s = 0.0
    for step_id, path in (lesson.narration.takes if lesson.narration else {}).items():
        take = read_sound(path).samples[:96_000]
        first = round(lesson.step_span(step_id)[0] / lesson.fps * 48_000)
        part = np.concatenate([np.zeros(4_800, dtype=np.float32), sound[0]])[first : first + 9_600 + len(take)]
        size = len(part) + len(take)
        alike = np.fft.irfft(np.fft.rfft(part, size) * np.conj(np.fft.rfft(take, size)))[:9_600]
        worst_s = max(worst_s, abs(int(alike.argmax()) - 4_800) / 48_000)
    return f"{shown.lufs:.2f} LUFS, {shown.peak_db:.2f} dBTP, takes begin at most {worst_s * 30:.2f} frames off"


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--plain-questions", type=int, choices=(0, 1, 2), default=2)
    parser.add_argument("--cache", type=Path, help="a cache in which the pictures are, to leave out drawing them")
    given = parser.parse_args()
    print(f"load before: {' '.join(f'{load:.1f}' for load in os.getloadavg())}, {os.cpu_count()} cores", flush=True)
    with TemporaryDirectory(prefix="corrected-") as folder:
        work = Path(folder)
        shutil.copytree(ROOT / "items", work / "items", ignore=shutil.ignore_patterns("*.voice"))
        if given.cache:
            shutil.copytree(given.cache, work / "cache")
        lesson = work / "items" / f"{LESSON}.yaml"
        steps = [step for step in timeline_of(lesson).storyboard.steps if step.narration]
        takes = work / "takes"
        takes.mkdir()
        for step in steps:
            parts = [part for words in step.narration for part in (said(words, 0, 126), silence(0.5))]
            write_wav(takes / f"{step.id}.wav", joined(silence(0.6), *parts))
        made = recorded(steps, 1, 3)
        write_wav(work / "talk.wav", made.sound)
        rows: list[tuple[str, Run, int]] = []
        rows.append(("a voice fitted to a new lesson", *fit(work, takes)))
        middle = steps[len(steps) // 2]
        for _ in range(2):
            rows.append(("nothing new", *fit(work, takes)))
        write_wav(takes / f"{middle.id}.wav", joined(silence(0.4), said("And now another take of this step.", 1, 140)))
        rows.append(("one new take", *fit(work, takes)))
        corrected(lesson, middle.id, "Now look at this piece once more, and say what it does.")
        rows.append(("a corrected sentence, its take to be recorded", *fit(work, takes)))
        corrected(lesson, steps[2].id, "Here is the question, in other words.")
        write_wav(takes / f"{steps[2].id}.wav", joined(silence(0.4), said("Here is it, in other words.", 1, 140)))
        rows.append(("a corrected sentence with its new take", *fit(work, takes)))
        about = measured(work)
        rows.append(("one recording alone, divided", *fit(work, work / "talk.wav")))
        corrected(lesson, steps[4].id, "Look at the picture, and think a moment.")
        rows.append(("a corrected sentence, the same recording", *fit(work, work / "talk.wav")))
        rows.append(("a scratch voice", *fit(work, "--scratch")))
        corrected(lesson, steps[6].id, "Look at the picture once more.")
        rows.append(("a corrected sentence, a scratch voice", *fit(work, "--scratch")))
        cold: Run | None = None
        if given.plain_questions:
            cold, _ = plain(work / "plain", given.plain_questions)
        times = 2 // given.plain_questions if given.plain_questions else 0
        if cold is not None:
            print(f"{'the plain way, cold':<48} {times * cold.wall_s:7.2f} s, processor {times * cold.cpu_s:7.2f} s")
        for what, run, drawn in rows:
            share = ""
            if cold is not None:
                by_wall, by_cpu = run.wall_s / (times * cold.wall_s), run.cpu_s / (times * cold.cpu_s)
                share = f"; {by_wall:.1%} of the plain way, {by_cpu:.1%} by processor seconds"
            print(f"{what:<48} {run.wall_s:7.2f} s, processor {run.cpu_s:7.2f} s, {drawn} pictures{share}")
        print(f"clip after a corrected sentence: {about}")
    print(f"load after: {' '.join(f'{load:.1f}' for load in os.getloadavg())}")


if __name__ == "__main__":
    main()
