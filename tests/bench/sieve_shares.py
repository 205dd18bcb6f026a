"""How many wrong options go by what can be counted, and how many are left to be laid on the outline.

    python tests/bench/sieve_shares.py [ITEMS]

Apart for items of `vary` and for items with options drawn by hand (generated ones). Printed: the share of wrong options
gone by countable sieves (corners, holes, inward corners, kinds of angle), the share for which such a number differs at
all, however hard that is to see, the share that passes every sieve, unmirrored wrong options laid on an item, seconds
on options.
"""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Iterable, Iterator
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from demo_items import demo_items
from strategies import random_item

from explainers.choice.model import Solution
from explainers.choice.sieves.counts import Counted, count_of
from explainers.choice.sieves.sifting import sifting_of
from explainers.choice.variations import Level
from explainers.geometry.outline import Outline
from explainers.intake.workspace import load_solution
from explainers.item.model import Lesson, LessonPart, Manner
from explainers.kinds.registry import kind_of
from explainers.lesson.planner import plan_unseen
from explainers.storyboard.pacing import pace

COUNTABLE = ("corners", "holes", "inward", "angles")
_SLOW = ("button-block",)
_TIMED = 40


def varied(count: int) -> Iterator[Solution]:
    """New items of the build of each demo item of joining and cutting, a few of each in turn."""
    paths = [path for path in demo_items("join-and-cut") if path.stem not in _SLOW]
    each, seed, made = 4, 0, 0
    while made < count:
        seed += 1
        for path in paths:
            original = load_solution(path)
            kind = kind_of(original.item)
            for variation in kind.vary(original, count=each, seed=seed, level=Level.SAME).found:
                yield kind.solve(variation.question)
                made += 1
                if made == count:
                    return


def by_hand(count: int) -> Iterator[Solution]:
    """Generated items whose options are drawn by hand: corners moved, added, dropped, parts changed."""
    made, seed = 0, 0
    while made < count:
        item = random_item(seed)
        seed += 1
        solution = kind_of(item).solve(item)
        if solution.sound:
            made += 1
            yield solution


def show(name: str, solutions: Iterable[Solution]) -> None:
    """The shares of one lot, a line each."""
    gone: Counter[str] = Counter()
    seconds = []
    items = different = 0
    for solution in solutions:
        items += 1
        sifting = sifting_of(solution)
        for verdict in solution.verdicts:
            if not verdict.same:
                different += not verdict.mirrored and _differ_at_all(solution.outline, verdict.fit.laid)
                fact = sifting.of(verdict.label)
                gone["mirrored" if verdict.mirrored else "left" if fact is None else fact.stage] += 1
        if items <= _TIMED:
            seconds.append(_seconds_on_options(solution))
    wrong = gone.total()
    countable = sum(gone[stage] for stage in COUNTABLE)
    print(f"{name}: {items} items, {wrong} wrong options, {gone['mirrored']} of them flipped; {dict(gone)}")
    print(f"   gone by countable sieves   {100 * countable / wrong:5.1f} % of all wrong ones")
    print(f"                              {100 * countable / (wrong - gone['mirrored']):5.1f} % of those not flipped")
    print(f"   differ in a count at all   {100 * different / wrong:5.1f} % of all wrong ones")
    print(f"   pass every sieve, not flipped {100 * gone['left'] / wrong:5.1f} %, {gone['left'] / items:.2f} an item")
    print(f"   seconds on options         {sum(seconds) / len(seconds):5.1f} in the mean of {len(seconds)}")


def _differ_at_all(one: Outline, other: Outline) -> bool:
    return any(count_of(counted, one).exact != count_of(counted, other).exact for counted in Counted)


def _seconds_on_options(solution: Solution) -> float:
    part = LessonPart(show=Path("made.yaml"), manner=Manner.WORKED_EXAMPLE)
    board = plan_unseen(Lesson(name="made", title="Made", parts=(part,)), (solution,))
    timeline = pace(board)
    steps = [step for step in board.steps if step.stage in _ON_OPTIONS or step.stage.startswith("sift.")]
    frames = sum(end - start for start, end in (timeline.step_span(step.id) for step in steps))
    return frames / timeline.fps


_ON_OPTIONS = ("options", "rule-out", "keep", "answer")


def main() -> None:
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    show("of vary", varied(count))
    show("drawn by hand", by_hand(count))


if __name__ == "__main__":
    main()
