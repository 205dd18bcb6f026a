"""Parts that sit on another side, sides that stand in another ratio: when they are stated, and that it is so."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import Any

import pytest
import shapely
from small_items import SQUARE, flag, item
from strategies import random_case

from explainers.choice.differences.part_elsewhere import PartElsewhereFact
from explainers.choice.differences.side_ratio import SideRatioFact
from explainers.choice.fact import Fact
from explainers.choice.model import Verdict
from explainers.choice.question import MadeOptions, Option
from explainers.errors import ItemError
from explainers.geometry.outline import Outline
from explainers.geometry.rigid_motion import Ring, Similarity
from explainers.kinds.join_and_cut.model import Does, Piece
from explainers.kinds.join_and_cut.solving.solver import solve

# A block of five sides, so that it has one turned position only. The flag, a wedge, belongs on its right.
BLOCK: Ring = ((0.0, 0.0), (6.0, 0.0), (6.0, 4.0), (1.0, 4.0), (0.0, 3.0))
WEDGE: Ring = ((0.0, 0.0), (2.0, 0.0), (0.0, 1.0))
RIGHT, TOP, LEFT = 2, 3, 5  # before which corner of the block a part on that side stands
OTHER = Option(corners=((0.0, 0.0), (3.0, 0.0), (3.0, 1.0), (0.0, 1.0)))
# The wedge where the marks have it, then where it does not belong. It starts where its tip is.
JOINED = {RIGHT: ((6, 1), (7, 3), (6, 3)), TOP: ((5, 4), (3, 5), (3, 4)), LEFT: ((0, 2.5), (-1, 0.5), (0, 0.5))}
CUT = {RIGHT: ((6, 1), (5, 1), (6, 3)), TOP: ((5, 4), (5, 3), (3, 4)), LEFT: ((0, 2.5), (1, 2.5), (0, 0.5))}


def block_with(walk: Any, before: int) -> Ring:
    return (*BLOCK[:before], *((float(x), float(y)) for x, y in walk), *BLOCK[before:])


def verdict_on(ring: Ring, does: Does = Does.JOIN, scale: float = 1.0, turn_deg: float = 0.0) -> Verdict:
    """The option of these corners, moved, beside the block with its wedge."""
    wedge = flag(does=does, corners=WEDGE, meets=((6.0, 1.0), (6.0, 3.0)))
    corners = Outline.of(ring).moved(Similarity(turn_deg=turn_deg, shift=(3.0, -8.0), scale=scale)).exterior
    options = (Option(), Option(corners=corners, scale=1.0 / scale), OTHER)
    return solve(item(wedge, base=BLOCK, options=options)).verdicts[1]


def of_kind(verdict: Verdict, kind: type[Fact]) -> list[Any]:
    return [fact for fact in verdict.reasons if isinstance(fact, kind)]


@pytest.mark.parametrize(("scale", "turn_deg"), [(1.0, 0.0), (1.0, 137.0), (0.75, 20.0)])
@pytest.mark.parametrize("does", list(Does))
@pytest.mark.parametrize(("there", "adjacent"), [(TOP, True), (LEFT, False)])
def test_a_part_on_another_side_is_the_first_reason(
    there: int, adjacent: bool, does: Does, scale: float, turn_deg: float
) -> None:
    walks = JOINED if does is Does.JOIN else CUT
    found = verdict_on(block_with(walks[there], there), does, scale, turn_deg)
    fact = found.reasons[0]
    assert isinstance(fact, PartElsewhereFact)
    assert (fact.filled, fact.adjacent) == (does is Does.JOIN, adjacent)
    block = Outline.of(BLOCK)
    sides = [(BLOCK[before - 1], BLOCK[before % 5]) for before in (there, RIGHT)]
    for told, side in zip((fact.side, fact.home_side), sides, strict=True):
        for end, goal in zip(told, side, strict=True):
            assert math.dist(end, goal) < 0.01, (told, side)
    for part, walk in ((fact.place, walks[there]), (fact.home, walks[RIGHT])):
        assert part.area == pytest.approx(1.0, abs=1e-6)
        assert shapely.Polygon(part.exterior).symmetric_difference(shapely.Polygon(walk)).area < 1e-3
    assert block.area == pytest.approx(23.5)


@pytest.mark.parametrize(
    ("walk", "there", "why"),
    [
        (((6, 2), (7, 4), (6, 4)), RIGHT, "slid along its own side"),
        (((5, 4), (3, 4.4), (3, 4)), TOP, "of another height"),
        (((5, 4), (5, 5), (3, 4)), TOP, "flipped over"),
        (((5, 4), (3, 4.02), (3, 4)), TOP, "a sliver"),
    ],
)
def test_what_is_not_the_same_part_on_another_side_is_not_said_to_be(walk: Any, there: int, why: str) -> None:
    assert not of_kind(verdict_on(block_with(walk, there)), PartElsewhereFact), why


def test_a_part_that_leans_on_two_sides_is_not_said_to_sit_on_one() -> None:
    """An L-shaped base whose notch is filled by a square: it touches two sides of the base."""
    square = ((0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0))
    meets = ((4.0, 2.0), (2.0, 2.0))
    above = Option(corners=((0, 0), (4, 0), (4, 2), (2, 2), (2, 6), (0, 6)))
    found = solve(item(flag(corners=square, meets=meets), options=(Option(), above, OTHER))).verdicts[1]
    assert not of_kind(found, PartElsewhereFact)


def test_where_much_else_differs_no_part_is_said_to_have_moved() -> None:
    ring = ((-4.0, 0.0), *block_with(JOINED[TOP], TOP)[1:-1], (-4.0, 3.0))
    assert not of_kind(verdict_on(ring), PartElsewhereFact)


# Ratios


def doubled(option: Ring, scale: float = 1.0) -> Verdict:
    """An option beside two squares in a row: twice as long as high."""
    bar = Piece(
        name="bar", does=Does.JOIN, corners=SQUARE, side=(SQUARE[0], SQUARE[1]), meets=(SQUARE[1], SQUARE[2])
    )  # fmt: skip
    corners = Outline.of(option).moved(Similarity(turn_deg=33.0, scale=scale)).exterior
    options = (Option(), Option(corners=corners), Option(corners=((0.0, 0.0), (3.0, 0.0), (0.0, 1.0))))
    return solve(item(bar, base=SQUARE, options=options)).verdicts[1]


def box(width: float, height: float) -> Ring:
    return ((0.0, 0.0), (width, 0.0), (width, height), (0.0, height))


@pytest.mark.parametrize("scale", [0.5, 0.8, 1.0, 1.7])
@pytest.mark.parametrize(
    ("width", "height", "told"),
    [
        (6.0, 4.0, (1.5, 2.0)),
        (12.0, 4.0, (3.0, 2.0)),
        (5.0, 5.0, (1.0, 2.0)),
        (2.0, 4.0, (2.0, 2.0)),  # the result itself
        (9.0, 4.0, None),  # 2.25 to 1 is not seen as any ratio
        (8.0, 4.4, None),  # 1.82 to 1 is too near
    ],
)
def test_a_ratio_is_told_at_whatever_size_the_option_is(
    width: float, height: float, told: tuple[float, float] | None, scale: float
) -> None:
    found = doubled(box(width, height), scale)
    facts = of_kind(found, SideRatioFact)
    if told is None or told[0] == told[1]:
        assert not facts
        return
    (fact,) = facts
    assert (fact.ratio, fact.other_ratio) == pytest.approx(told)
    assert math.dist(*fact.pair[0]) / math.dist(*fact.pair[1]) == pytest.approx(told[0])
    if abs(found.fit.motion.scale - 1.0) > 0.02:  # its lengths are those of an option made larger or smaller
        assert found.reasons[0] is fact


def test_the_other_way_round_is_a_ratio_too() -> None:
    """At one corner the first side is twice the second, in the outline the second twice the first."""
    outline = Outline.of(box(4.0, 8.0))
    option = Outline.of(box(4.0, 2.0))
    place = Outline.of(((0.0, 2.0), (4.0, 2.0), (4.0, 8.0), (0.0, 8.0)))
    lower, left = (lambda ring: (ring[0], ring[1])), (lambda ring: (ring[3], ring[0]))
    fact = SideRatioFact(
        tolerance=0.008, label="B", option=option, outline=outline, place=place, ring_centre=(2.0, 5.0), ratio=2.0,
        other_ratio=0.5, pair=(lower(option.exterior), left(option.exterior)),
        other_pair=(lower(outline.exterior), left(outline.exterior)),
    )  # fmt: skip
    assert fact.holds()
    swapped = replace(fact, other_pair=fact.other_pair[::-1], other_ratio=2.0)
    assert not swapped.holds()


# Generated items


def walk_of(ring: Ring) -> list[tuple[float, float]]:
    """(length of a side, turn at its end) all the way round: what neither turning nor shifting changes."""
    steps = [complex(*b) - complex(*a) for a, b in zip(ring, ring[1:] + ring[:1], strict=True)]
    turns = [
        math.degrees(math.atan2((b / a).imag, (b / a).real)) for a, b in zip(steps, [*steps[1:], steps[0]], strict=True)
    ]
    return [(abs(step), turn) for step, turn in zip(steps, turns, strict=True)]


def same_walk(ring: Ring, other: Ring, near: float) -> bool:
    one, two = walk_of(ring), walk_of(other)
    return len(one) == len(two) and any(
        all(abs(a[0] - b[0]) < near and abs(a[1] - b[1]) < 2.0 for a, b in zip(one, two[k:] + two[:k], strict=True))
        for k in range(len(two))
    )


def touched(part: shapely.Polygon, body: Any, near: float) -> Any:
    return body.boundary.intersection(part.boundary.buffer(near, cap_style="flat"))


def check_moved(fact: PartElsewhereFact) -> None:
    """Asked of shapely, and of the walk round a part: neither is what the fact asks."""
    near = 4 * fact.tolerance
    option, outline, here, home = (
        shapely.Polygon(shape.exterior, shape.holes) for shape in (fact.option, fact.outline, fact.place, fact.home)
    )
    assert same_walk(fact.place.exterior, fact.home.exterior, near)
    full = 1.0 if fact.filled else 0.0
    for shape, part, share in (
        (option, here, full),
        (option, home, 1 - full),
        (outline, home, full),
        (outline, here, 1 - full),
    ):
        assert shape.intersection(part).area / part.area == pytest.approx(share, abs=0.02)
    for shape, part, side in ((option, here, fact.side), (outline, home, fact.home_side)):
        body = shape.difference(part.buffer(1e-6)) if fact.filled else shape.union(part.buffer(1e-6))
        seam = part.boundary.intersection(shape if fact.filled else shape.union(part).boundary.buffer(near))
        line = shapely.LineString(side).buffer(near)
        common = line.intersection(part.boundary).length
        assert common > fact.tolerance
        assert body.boundary.buffer(near).contains(shapely.LineString(side))
        assert seam.length > 0
    ends = [math.dist(a, b) for a in fact.side for b in fact.home_side]
    assert (min(ends) < near) is fact.adjacent


def check_ratio(fact: SideRatioFact) -> None:
    for shape, pair, ratio in (
        (fact.option, fact.pair, fact.ratio),
        (fact.outline, fact.other_pair, fact.other_ratio),
    ):
        corners = {corner for ring in shape.rings for corner in ring}
        lengths = []
        for side in pair:
            line = shapely.LineString(side)
            assert {min(corners, key=lambda corner, end=end: math.dist(corner, end)) for end in side} <= corners
            assert all(min(math.dist(corner, end) for corner in corners) < fact.tolerance for end in side)
            assert shapely.Polygon(shape.exterior, shape.holes).boundary.buffer(fact.tolerance).contains(line)
            lengths.append(line.length)
        assert len({end for side in pair for end in side}) == 3
        assert lengths[0] / lengths[1] == pytest.approx(ratio, rel=1e-6)
    ratios = sorted((fact.ratio, fact.other_ratio))
    assert ratios[1] / ratios[0] >= 1.25
    for mine, theirs in zip(fact.pair, fact.other_pair, strict=True):
        (ax, ay), (bx, by) = mine
        (cx, cy), (dx, dy) = theirs
        assert (bx - ax) * (dx - cx) + (by - ay) * (dy - cy) > 0.998 * math.dist(*mine) * math.dist(*theirs)


def generated(seeds: int) -> Iterator[Verdict]:
    """Wrong options of generated items, drawn by hand and made from slips."""
    for seed in range(seeds):
        drawn = random_case(seed).item
        yield from solve(drawn).verdicts
        try:
            yield from solve(replace(drawn, options=(), made=MadeOptions(make=4, seed=seed))).verdicts
        except ItemError:  # too few slips give an option
            continue


def test_what_is_told_of_generated_options_is_so(cases: Callable[[int, int], int]) -> None:
    seen: Counter[str] = Counter()
    by_slip: Counter[str] = Counter()
    for verdict in generated(cases(20, 1000)):
        for fact in verdict.reasons:
            if isinstance(fact, PartElsewhereFact):
                check_moved(fact)
                by_slip.update([case.slip for case in verdict.slip.cases] if verdict.slip else [])
            elif isinstance(fact, SideRatioFact):
                check_ratio(fact)
            seen[type(fact).__name__] += 1
    assert seen["PartElsewhereFact"] > 5
    assert seen["SideRatioFact"] > 10
    # A piece that meets the next side is what the fact is for.
    assert by_slip["next-side"] + by_slip["side-before"] > sum(by_slip.values()) / 2
