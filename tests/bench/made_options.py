"""How many generated items yield the wrong options that are asked for, from which slips, in what time.

    .venv/bin/python tests/bench/made_options.py [ITEMS] [MAKE] [SEED]

The items are those of the property tests, their own options left out.
"""

from __future__ import annotations

import sys
from collections import Counter
from dataclasses import replace
from pathlib import Path
from statistics import mean, quantiles
from time import perf_counter

sys.path.insert(0, str(Path(__file__).parent.parent))  # tests/, as pytest has it

from strategies import random_item

from explainers import ItemError, solve
from explainers.choice.question import MadeOptions


def main() -> None:
    """Solve them one after the other, each timed."""
    numbers = [int(argument) for argument in sys.argv[1:]]
    count, make, seed = (*numbers, *(2000, 4, 7)[len(numbers) :])
    refused, times = [], []
    slips: Counter[str] = Counter()
    keys: Counter[str | None] = Counter()
    pairs: Counter[int] = Counter()
    near = []
    for number in range(count):
        item = replace(random_item(number), options=(), made=MadeOptions(make=make, seed=seed))
        start = perf_counter()
        try:
            solution = solve(item)
        except ItemError as error:
            refused.append((number, str(error)))
            continue
        times.append(perf_counter() - start)
        keys[solution.key] += 1
        options = solution.item.options
        pairs[sum(option.corners is not None for option in options)] += 1
        slips.update(option.slip for option in options if option.slip)
        for verdict in solution.verdicts:
            off = abs(verdict.outline.area / solution.outline.area - 1.0)
            near.append(off <= 0.25 and abs(verdict.outline.corner_count - solution.outline.corner_count) <= 2)
    even = (count - len(refused)) / (make + 1)
    cuts = quantiles(times, n=20)
    print(f"items                      {count}, {make} wrong options each, seed {seed}")
    print(f"items that yield them      {count - len(refused)} ({100 * (1 - len(refused) / count):.2f} %)")
    print(f"solved with its options    {cuts[9] * 1000:.0f} ms   (one in twenty more than {cuts[18] * 1000:.0f} ms)")
    print(f"within 25 % and 2 corners  {100 * mean(near):.0f} % of the options")
    print(f"drawn from pairs of slips  {dict(sorted(pairs.items()))} (options of an item: items)")
    print(f"slips                      {dict(slips.most_common())}")
    print(f"places of the right one    {dict(sorted(keys.items(), key=str))}")
    print(f"their chi-square           {sum((keys[key] - even) ** 2 / even for key in 'ABCDEF'[: make + 1]):.2f}")
    for number, why in refused[:5]:
        print(f"refused: item {number}: {why}")


if __name__ == "__main__":
    main()
