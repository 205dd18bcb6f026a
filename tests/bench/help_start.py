"""How long `explainers --help` takes, beside `python -c "import typer, rich"`.

    .venv/bin/python tests/bench/help_start.py [RUNS]

Each is started RUNS times in turn (20 unless told); the medians and their ratio are printed. Not a test: a ratio that
depends on the machine must not make a commit fail. What a test does hold is that help loads nothing heavy.
"""

from __future__ import annotations

import subprocess
import sys
from statistics import median
from time import perf_counter

HELP = [sys.executable, "-c", "from explainers.cli.main import main; main()", "--help"]
BARE = [sys.executable, "-c", "import typer, rich"]


def seconds(command: list[str]) -> float:
    """One start, from nothing to the end of the process."""
    start = perf_counter()
    subprocess.run(command, stdout=subprocess.DEVNULL, check=True)
    return perf_counter() - start


def main() -> None:
    """Measure in turn, so that a busy moment of the machine falls on both."""
    runs = int(sys.argv[1]) if len(sys.argv) > 1 else 20
    seconds(HELP), seconds(BARE)  # byte code, disk cache
    pairs = [(seconds(HELP), seconds(BARE)) for _ in range(runs)]
    help_s, bare_s = (median(times) for times in zip(*pairs, strict=True))
    ratio = median(one / other for one, other in pairs)
    print(f"explainers --help          {help_s * 1000:6.0f} ms")
    print(f"import typer, rich         {bare_s * 1000:6.0f} ms")
    print(f"ratio                      {ratio:6.2f}   (median of {runs} runs)")


if __name__ == "__main__":
    main()
