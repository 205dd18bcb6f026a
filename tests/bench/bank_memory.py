"""What a bank of lessons takes: `python tests/bench/bank_memory.py [--count 50]`, about 6 minutes on 2 idle cores.

So many questions of one build, all outlines other, made into clips one after the other by the command, with an empty
cache. Memory is that of the command and of all processes below it, added, looked at every fifth of a second. Prints a
table; asserts nothing.
"""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
import time
from pathlib import Path
from tempfile import TemporaryDirectory

ROOT = Path(__file__).resolve().parents[2]
COMMAND = [sys.executable, "-c", "from explainers.cli.main import main; main()"]
EVERY_S = 0.2


def megabytes(root: int) -> float:
    """Resident memory of a process and of all below it; pages that they share count once for each."""
    parents: dict[int, int] = {}
    for entry in Path("/proc").iterdir():
        if entry.name.isdigit():
            try:
                parents[int(entry.name)] = int((entry / "stat").read_text().rsplit(")", 1)[1].split()[1])
            except (OSError, IndexError):
                continue  # it has ended meanwhile
    family, grown = {root}, True
    while grown:
        more = {child for child, parent in parents.items() if parent in family} - family
        family |= more
        grown = bool(more)
    pages = 0
    for process in family:
        try:
            pages += int((Path("/proc") / str(process) / "statm").read_text().split()[1])
        except (OSError, IndexError):
            continue
    return pages * os.sysconf("SC_PAGE_SIZE") / 1e6


def main() -> None:
    """The table."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--count", type=int, default=50)
    count = parser.parse_args().count
    with TemporaryDirectory(prefix="bank-") as name:
        work = Path(name)
        item = ROOT / "items" / "corner-block.yaml"
        subprocess.run([*COMMAND, "vary", item, "--count", str(count), "--to", work / "bank"], check=True,
                       stdout=subprocess.DEVNULL)  # fmt: skip
        start, seen = time.perf_counter(), [(0.0, 0.0, 0)]  # second, megabytes, clips done
        run = subprocess.Popen(
            [*COMMAND, "build", work / "bank", "--only", "clip", "--to", work / "out"],
            env={**os.environ, "EXPLAINERS_CACHE": str(work / "cache")},
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        while run.poll() is None:
            done = len(list((work / "out").glob("*/*.mp4")))
            seen.append((time.perf_counter() - start, megabytes(run.pid), done))
            time.sleep(EVERY_S)
        took_s, made = time.perf_counter() - start, len(list((work / "out").glob("*/*.mp4")))
        print(f"{made} clips in {took_s:.1f} s: {took_s / max(made, 1):.2f} s each; exit code {run.returncode}")
        print(f"{'clips':>10} {'peak MB':>8}")
        for first in range(0, made, 10):
            peak = max((size for _, size, done in seen if first <= done < first + 10), default=0.0)
            print(f"{first + 1:4d} - {min(first + 10, made):3d} {peak:8.0f}")


if __name__ == "__main__":
    main()
