"""Seconds for deck plus cue sheet of the demo lesson; seconds of clip per second of work.

    .venv/bin/python tests/bench/demo_seconds.py [LESSON]

Everything is written into a temporary folder, so that nothing made before is used again. Each figure is of a process of
its own, started from nothing, as a teacher would.
"""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter

from explainers import timeline_of

LESSON = Path(__file__).parent.parent.parent / "items" / "first-blocks.yaml"


def seconds(*arguments: object) -> float:
    """One run of a command."""
    code = "from explainers.cli.main import main; main()"
    start = perf_counter()
    subprocess.run([sys.executable, "-c", code, *map(str, arguments)], stdout=subprocess.DEVNULL, check=True)
    return perf_counter() - start


def main() -> None:
    """Measure each command once warm."""
    lesson = Path(sys.argv[1]) if len(sys.argv) > 1 else LESSON
    clip_s = timeline_of(lesson).seconds
    with TemporaryDirectory() as folder:
        out = Path(folder)
        deck_s = seconds("build", lesson, "--to", out / "a", "--only", "deck", "--only", "cues")
        again_s = seconds("build", lesson, "--to", out / "a", "--only", "deck", "--only", "cues")
        preview_s = seconds("clip", lesson, "--to", out / "b", "--preview")
        work_s = seconds("clip", lesson, "--to", out / "b")
    print(f"deck and cues              {deck_s:.2f} s")
    print(f"the same, unchanged        {again_s:.2f} s")
    print(f"clip                       {clip_s:.1f} s long, {work_s:.2f} s of work")
    print(f"clip seconds a second      {clip_s / work_s:.1f}   (preview: {clip_s / preview_s:.1f})")


if __name__ == "__main__":
    main()
