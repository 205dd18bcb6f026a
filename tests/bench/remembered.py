"""Which strategies are told as what to remember, over many questions: the share of each.

    .venv/bin/python tests/bench/remembered.py [QUESTIONS]

Half of the questions are those of the property tests, half are made by `vary` from the demo items (not from the
button block, which has so many corners that it takes minutes). Beside the share of each: in how many questions it could
be told. The scores in the tables of strategies are tuned by it, so that each has 2 % or more and none more than 25 %.
"""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Iterator
from itertools import chain, islice
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent))  # tests/, as pytest has it

from demo_items import demo_items
from strategies import random_item

from explainers.choice.model import Solution
from explainers.choice.stages.context import StageContext, StageSettings
from explainers.choice.stages.remembering import candidates_of
from explainers.choice.strategy import Candidate, chosen
from explainers.choice.variations import Level
from explainers.figure.theme import DEFAULT_THEME
from explainers.intake.workspace import load_solution
from explainers.item.model import Manner
from explainers.kinds.join_and_cut.stages.context import PieceContext
from explainers.kinds.registry import kind_of
from explainers.kinds.turned_outline.stages.context import OutlineContext

_CONTEXTS: dict[str, type[StageContext]] = {"join-and-cut": PieceContext, "turned-outline": OutlineContext}
_TOO_LARGE = "button-block"


def generated() -> Iterator[Solution]:
    """Of the property tests."""
    for seed in range(10**6):
        item = random_item(seed)
        yield kind_of(item).solve(item)


def varied(count: int) -> Iterator[Solution]:
    """Made from the demo items, as many of each."""
    paths = [path for path in demo_items() if path.stem != _TOO_LARGE]
    for path in paths:
        original = load_solution(path)
        kind = kind_of(original.item)
        for one in kind.vary(original, count=-(-count // len(paths)), seed=7, level=Level.SAME).found:
            yield kind.solve(one.question)


def candidates(solution: Solution) -> list[Candidate]:
    """The strategies that a question shows."""
    settings = StageSettings(manner=Manner.WORKED_EXAMPLE, theme=DEFAULT_THEME, is_seen=False)
    return candidates_of(_CONTEXTS[solution.item.kind](solution, settings))


def solutions(count: int) -> Iterator[Solution]:
    """Half and half."""
    return (
        solution
        for solution in chain(islice(varied(count // 2), count // 2), islice(generated(), count - count // 2))
        if solution.sound
    )


def main() -> None:
    """Choose for each question alone, and count."""
    told: Counter[str] = Counter()
    possible: Counter[str] = Counter()
    for solution in solutions(int(sys.argv[1]) if len(sys.argv) > 1 else 1000):
        found = candidates(solution)
        possible.update({each.fact.strategy.value for each in found})
        told[chosen(found, ()).strategy.value] += 1
    print(f"{'questions':20}{told.total():8}")
    print(f"{'strategy':20}{'told':>8}{'possible':>10}")
    for strategy, count in possible.most_common():
        print(f"{strategy:20}{told[strategy] / told.total():8.1%}{count / told.total():10.1%}")


if __name__ == "__main__":
    main()
