"""Items solved a second on one core, over 1,000 generated items.

    .venv/bin/python tests/bench/solve_rate.py [ITEMS]

The items are those of the property tests, made beforehand: once for the bare answers that `solve --json` prints, once
with reasons and with the search for the slips behind options drawn by hand. Processor time.
"""

from __future__ import annotations

import sys
from pathlib import Path
from statistics import quantiles
from time import process_time

sys.path.insert(0, str(Path(__file__).parent.parent))  # tests/, as pytest has it

from strategies import random_item

from explainers.kinds.join_and_cut.solving.solver import answer, solve


def main() -> None:
    """Solve them one after the other, each timed."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    items = [random_item(seed) for seed in range(count)]
    solve(items[0])  # the first call loads the geometry library
    print(f"items                          {count}")
    for what, job in (("the bare answer, as solve --json does", answer), ("with all reasons, as check does", solve)):
        times = []
        for item in items:
            start = process_time()
            job(item)
            times.append(process_time() - start)
        cuts = quantiles(times, n=20)
        print(f"items a second, {what}: {count / sum(times):.0f}")
        print(f"   a typical item {cuts[9] * 1000:.2f} ms, one in twenty more than {cuts[18] * 1000:.2f} ms")


if __name__ == "__main__":
    main()
