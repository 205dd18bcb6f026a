"""How fast clips are made: one table, against plain manim, against encoding alone, and after small changes.

    .venv/bin/python tests/bench/clip_speed.py                    # about 35 minutes on an idle machine of 2 cores
    .venv/bin/python tests/bench/clip_speed.py --only ours,bound  # parts of it
    .venv/bin/python tests/bench/clip_speed.py --plain-questions 1

Every figure is of a process of its own, started from nothing with an empty cache unless it says otherwise, so loading
of libraries is counted; only the rows of the bound leave it out. Wall seconds depend on what else the machine does:
the load before and after is printed, with the processor seconds of each run beside its wall seconds.
"""

from __future__ import annotations

import argparse
import json
import os
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter
from typing import Any

sys.path.insert(0, str(Path(__file__).resolve().parent))

from bench_lesson import ROOT, bench_timeline, summary

from explainers.video.encoder import EncoderOptions

HERE = Path(__file__).resolve().parent
PARTS = ("plain", "ours", "bound", "likeness", "growth", "demo")


@dataclass(frozen=True)
class Run:
    """What one process took."""

    wall_s: float
    cpu_s: float  # of the process and of those that it waited for
    megabytes: float  # of the largest single process
    said: str

    @property
    def json(self) -> Any:
        """The last line that it printed."""
        return json.loads(self.said.splitlines()[-1])


class Table:
    """Rows of text, printed as they come and once more at the end."""

    def __init__(self) -> None:
        self.rows: list[tuple[str, str, str, str]] = []

    def row(self, what: str, wall: float | None, cpu: float | None, note: str) -> None:
        """One line."""
        wall_s, cpu_s = ("" if value is None else f"{value:.2f}" for value in (wall, cpu))
        self.rows.append((what, wall_s, cpu_s, note))
        print(f"  {what:<58} {wall_s:>8} {cpu_s:>8}  {note}", flush=True)

    def markdown(self) -> str:
        """The table as it stands in the guide, on the page how-fast."""
        lines = ["| what | wall s | processor s | |", "| --- | ---: | ---: | --- |"]
        return "\n".join(lines + [f"| {' | '.join(row)} |" for row in self.rows])


# Says on standard error what the process below it took: processor seconds, and the peak of the largest one.
_TIMED = (
    "import subprocess, sys, resource as r\n"
    "code = subprocess.run(sys.argv[1:]).returncode\n"
    "u = r.getrusage(r.RUSAGE_CHILDREN)\n"
    "print('\\nused', u.ru_utime + u.ru_stime, u.ru_maxrss, file=sys.stderr)\n"
    "sys.exit(code)"
)


def timed(*command: object, **variables: str) -> Run:
    """A command of this Python, timed from outside; what it says on standard error is shown if it fails."""
    start = perf_counter()
    done = subprocess.run(
        [sys.executable, "-c", _TIMED, sys.executable, *map(str, command)],
        capture_output=True,
        text=True,
        env={**os.environ, **variables},
        check=False,
    )
    wall_s = perf_counter() - start
    if done.returncode != 0:
        raise SystemExit(f"{' '.join(map(str, command))} failed:\n{done.stderr[-3000:]}")
    _, cpu_s, peak_kb = done.stderr.splitlines()[-1].split()
    return Run(wall_s=wall_s, cpu_s=float(cpu_s), megabytes=float(peak_kb) / 1000, said=done.stdout)


def plain(folder: Path, questions: int, *options: str) -> tuple[Run, Path]:
    """The plain scene by manim's own command, at our size and frame rate, everything else as manim has it."""
    command = ["-m", "manim", "render", "-r", "1920,1080", "--fps", "30", "--media_dir", str(folder), *options,
               str(HERE / "plain_lesson.py"), "PlainLesson"]  # fmt: skip
    done = timed(*command, BENCH_QUESTIONS=str(questions))
    (clip,) = (path for path in folder.rglob("PlainLesson.mp4"))
    return done, clip


def clip(folder: Path, cache: Path, lesson: str, key_frames: str = "seeking") -> Run:
    """A clip of ours."""
    return timed(
        HERE / "measured_runs.py", "clip", lesson, folder / f"{lesson}-{key_frames}", key_frames,
        EXPLAINERS_CACHE=str(cache),
    )  # fmt: skip


def measure(work: Path, parts: set[str], plain_questions: int) -> Table:
    """All parts asked for."""
    table = Table()
    cold: Run | None = None
    if "ours" in parts or "likeness" in parts or "plain" in parts:
        cold = clip(work, work / "cache", "2")
        drawn = f"{cold.json['pictures']} pictures"
        table.row(
            "ours, cold", cold.wall_s, cold.cpu_s, f"{drawn}, {cold.json['megabytes']:.0f} MB peak in all (goal 400)"
        )
        holds = clip(work, work / "cache", "2", "holds")
        table.row(
            "one key frame a hold, long motions drawn again",
            holds.wall_s,
            holds.cpu_s,
            f"{holds.json['pictures']} pictures",
        )
    if "ours" in parts and cold is not None:
        _changes(table, work, cold)
    plain_clips: list[Path] = []
    if "plain" in parts and cold is not None:
        plain_clips = _plain(table, work, cold, holds, plain_questions)
    if "likeness" in parts and cold is not None and plain_clips:
        said = timed(HERE / "picture_likeness.py", cold.json["path"], *plain_clips).json
        names = ("ours", "plain, manim's encoder options", "plain, our encoder options")
        for name, like in zip(names, said, strict=False):
            table.row(f"SSIM to what is drawn: {name}", None, None,
                      f"{like['all']:.5f}; frames that move {like['moving']:.5f}; blocks with something in them "
                      f"{like['busy']:.5f}")  # fmt: skip
    if "bound" in parts:
        _bound(table)
    if "growth" in parts:
        _growth(table, work)
    if "demo" in parts:
        for name in ("corner-block", "first-blocks"):
            done = timed("-c", "from explainers.cli.main import main; main()", "clip", ROOT / "items" / f"{name}.yaml",
                         "--to", work / "demo", EXPLAINERS_CACHE=str(work / f"cache-{name}"))  # fmt: skip
            table.row(f"`explainers clip items/{name}.yaml`, cold", done.wall_s, done.cpu_s, "")
    return table


def _changes(table: Table, work: Path, cold: Run) -> None:
    words = clip(work, work / "cache", "words")
    share = f"{words.wall_s / cold.wall_s:.0%} of cold (goal 15 %)"
    table.row("words or timing changed", words.wall_s, words.cpu_s, f"{words.json['pictures']} pictures; {share}")
    step = clip(work, work / "cache", "step")
    own = clip(work, work / "cache-alone", "alone")
    times = f"{step.wall_s / own.wall_s:.2f} times that step alone (goal 2)"
    table.row("one step changed", step.wall_s, step.cpu_s, f"{step.json['pictures']} pictures; {times}")
    table.row("that step alone, cold", own.wall_s, own.cpu_s, f"{own.json['pictures']} pictures")


def _plain(table: Table, work: Path, cold: Run, holds: Run, questions: int) -> list[Path]:
    """The plain way, with manim's defaults and kinder; if only one question is drawn, its figures are doubled."""
    ours = EncoderOptions()
    encoder = [part for key, value in ours.settings().items() for part in ("--encoder-option", f"{key}={value}")]
    clips = []
    for name, options in (
        ("plain manim, its defaults", []),
        ("plain manim, its defaults, its cache off", ["--disable_caching"]),
        ("plain manim, our encoder options, its cache off", ["--disable_caching", *encoder]),
    ):
        done, path = plain(work / name.replace(" ", "-").replace(",", ""), questions, *options)
        times = 2 // questions
        ratio = f"{times * done.wall_s / cold.wall_s:.1f} times ours (goal 25)"
        by_cpu = f"{times * done.cpu_s / cold.cpu_s:.1f} by processor seconds"
        scaled = "" if times == 1 else "first question, doubled; "
        note = f"{scaled}{ratio}, {by_cpu}; {done.megabytes:.0f} MB peak"
        table.row(name, times * done.wall_s, times * done.cpu_s, note)
        if options != ["--disable_caching"]:  # of these two the files differ in nothing
            clips.append(path)
            size = times * path.stat().st_size
            seeking, fewer = cold.json["bytes"], holds.json["bytes"]
            note = f"{size / 1e6:.2f} MB; ours {seeking / 1e6:.2f} MB, {fewer / 1e6:.2f} MB with one key frame a hold"
            table.row(f"file: {name}", None, None, f"{note}: {fewer / size:.2f} times (goal 2)")
    return clips


def _bound(table: Table) -> None:
    for options, goal in (("shipped", 1.5), ("veryfast", 1.25)):
        least = timed(HERE / "measured_runs.py", "bound", "2", options).json
        drawn = timed(HERE / "measured_runs.py", "draw", "2", options).json
        named = "shipped options" if options == "shipped" else "veryfast crf 18"
        table.row(f"bound: encoding alone, {named}", least["seconds"], least["cpu"], f"{least['pictures']} pictures")
        table.row(f"draw + convert + encode, {named}", drawn["seconds"], drawn["cpu"],
                  f"{drawn['seconds'] / least['seconds']:.2f} times the bound (goal {goal:g})")  # fmt: skip


def _growth(table: Table, work: Path) -> None:
    for questions in (1, 2, 4, 8):
        done = clip(work, work / f"cache-growth-{questions}", str(questions))
        table.row(f"{questions} question{'s' if questions > 1 else ''}, cold", done.wall_s, done.cpu_s,
                  f"{done.wall_s / questions:.2f} s a question, {done.json['megabytes']:.0f} MB peak")  # fmt: skip


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--only", default=",".join(PARTS), help=f"some of {', '.join(PARTS)}")
    parser.add_argument("--plain-questions", type=int, choices=(1, 2), default=2, help="1: half of the lesson, doubled")
    given = parser.parse_args()
    print(summary(bench_timeline()))
    print(f"load before: {' '.join(f'{load:.1f}' for load in os.getloadavg())}, {os.cpu_count()} cores")
    with TemporaryDirectory(prefix="clip-speed-") as folder:
        table = measure(Path(folder), set(given.only.split(",")), given.plain_questions)
    print(f"load after: {' '.join(f'{load:.1f}' for load in os.getloadavg())}\n")
    print(table.markdown())


if __name__ == "__main__":
    main()
