"""Full checks a second on one core, against the plain way, in one run.

    .venv/bin/python tests/bench/full_check.py [ITEMS]

A full check solves an item, compares its five options with the result, and says of each wrong one what differs and
which slip makes it: every one drawn by hand, so that none is known beforehand. The plain way turns each option through
720 half degrees about its middle and takes the area of the symmetric difference each time, here with shapely. It is
there for time only: it neither finds the best shift nor tells why. It is timed for two jobs: comparing the five options
with the result, and comparing them with what every slip makes as well, which is what a diagnosis takes.
"""

from __future__ import annotations

import random
import sys
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from statistics import mean
from time import process_time

sys.path.insert(0, str(Path(__file__).parent.parent))  # tests/, as pytest has it

import shapely
import shapely.affinity
from strategies import random_case, random_item

from explainers.choice.question import Option
from explainers.choice.slip import CannotBeMade
from explainers.errors import ItemError
from explainers.geometry.outline import Outline
from explainers.geometry.tolerance import authoring_tolerance
from explainers.kinds.join_and_cut.model import Item
from explainers.kinds.join_and_cut.slips.diagnosis import Replays
from explainers.kinds.join_and_cut.slips.model import SolvedItem
from explainers.kinds.join_and_cut.solving.laying import lay_pieces
from explainers.kinds.join_and_cut.solving.solver import solve

TURNS = 720


def replays_of(item: Item) -> Replays:
    """What the slips make of an item."""
    placements = lay_pieces(item)
    solved_item = SolvedItem(item=item, placements=placements, outline=placements[-1].after)
    return Replays(solved_item, authoring_tolerance(item.extent))


def outcomes(replays: Replays) -> Iterator[Outline]:
    """What every single slip makes, where it makes anything."""
    for cases in replays.singles():
        try:
            yield replays.slipped(cases).outline
        except CannotBeMade:
            continue


def by_hand(item: Item, rng: random.Random) -> Item:
    """The item with five options drawn by hand: the result, what two slips make, and others without a cause."""
    outlines = [verdict.outline for verdict in solve(item).verdicts if not verdict.same][:2]
    made = list(outcomes(replays_of(item)))
    for outline in rng.sample(made, len(made)):
        if len(outlines) == 4:
            break
        try:
            solve(replace(item, options=_drawn([*outlines, outline])))
        except ItemError:  # two options the same: another is taken
            continue
        outlines.append(outline)
    result = lay_pieces(item)[-1].after
    return replace(item, options=_drawn([*outlines, result]))


def _drawn(outlines: list[Outline]) -> tuple[Option, ...]:
    return tuple(Option(corners=outline.exterior, holes=outline.holes) for outline in outlines)


def swept(options: list[Outline], goals: list[Outline]) -> None:
    """The plain way."""
    polygons = [shapely.Polygon(outline.exterior, outline.holes) for outline in options]
    for goal in (shapely.Polygon(outline.exterior, outline.holes) for outline in goals):
        there = goal.centroid
        for polygon in polygons:
            here = polygon.centroid
            moved = shapely.affinity.translate(polygon, there.x - here.x, there.y - here.y)
            min(
                shapely.affinity.rotate(moved, 360.0 * i / TURNS, origin=there).symmetric_difference(goal).area
                for i in range(TURNS)
            )


def seconds(job: Callable[[Item], object], items: list[Item]) -> list[float]:
    """Of processor time, one item after the other."""
    times = []
    for item in items:
        start = process_time()
        job(item)
        times.append(process_time() - start)
    return times


def main() -> None:
    """Time each way over the same items, then the growth of ours."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 100
    rng = random.Random(7)
    items = [item for item in (by_hand(random_item(seed), rng) for seed in range(count)) if len(item.options) == 5]
    few = items[: max(2, count // 50)]
    checks = seconds(solve, items)
    with_pairs = seconds(lambda item: solve(item, pairs=True), items[: max(5, count // 4)])
    singles = seconds(lambda item: list(outcomes(replays_of(item))), items)
    plain = seconds(lambda item: swept(options_of(item), [options_of(item)[-1]]), few)
    plain_slips = seconds(
        lambda item: swept(options_of(item), [options_of(item)[-1], *outcomes(replays_of(item))]), few[:2]
    )
    same = mean(checks[: len(few)]), mean(checks[: len(few[:2])])
    rows = [
        ("items, five options each, drawn by hand", f"{len(items)}"),
        ("full checks a second", f"{1 / mean(checks):.0f}"),
        ("full checks a second, with pairs of slips", f"{1 / mean(with_pairs):.1f}"),
        ("items a second, every single slip made", f"{1 / mean(singles):.0f}"),
        ("plain way, options with the result only", f"{mean(plain):.2f} s, a full check {plain_ratio(plain, same[0])}"),
        ("plain way, with every single slip too", f"{mean(plain_slips):.2f} s, {plain_ratio(plain_slips, same[1])}"),
    ]
    for name, figure in rows:
        print(f"{name:44}{figure}")
    print("growth with corners (of the result):")
    for low, high in ((4, 8), (9, 12), (13, 18), (19, 60)):
        times = [t for t, item in zip(checks, items, strict=True) if low <= corners_of(item) <= high]
        if times:
            print(f"  {low:3} to {high:2} corners {mean(times) * 1000:8.1f} ms   ({len(times)} items)")
    print("growth with pieces:")
    for pieces in (1, 2, 3, 4):
        several = [by_hand(random_case(seed, pieces=pieces).item, rng) for seed in range(12)]
        print(f"  {pieces} pieces {mean(seconds(solve, several)) * 1000:8.1f} ms")
    print("growth with items:")
    for part in (len(items) // 4, len(items) // 2, len(items)):
        print(f"  {part:4} items {sum(seconds(solve, items[:part])):6.2f} s")


def plain_ratio(plain: list[float], ours: float) -> str:
    """How many times faster ours is, on the same items."""
    return f"{mean(plain) / ours:.0f} times faster"


def options_of(item: Item) -> list[Outline]:
    """The five outlines, the result last."""
    return [Outline.of(option.corners or (), option.holes) for option in item.options]


def corners_of(item: Item) -> int:
    """How many corners the result has."""
    return options_of(item)[-1].corner_count


if __name__ == "__main__":
    main()
