"""Published classes of outlines as options against each other: only the class of the result is right.

Sources: the 13 convex tangram outlines (Wang and Hsiung 1942; see test_tangram), several of equal area and perimeter;
the six chiral pentominoes (liquisearch.com/pentomino), eleven of twelve of equal area and perimeter; the half-squares
of 5, OEIS A151519: 56 up to turning (A006074: 30 if turning over were allowed too).
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Callable

import pytest
from oracles import exact, lattice
from test_one_sided_counts import HALF_SQUARES, half_square_shapes
from test_pentominoes import CHIRAL
from test_pentominoes import outline_of as pentomino
from test_tangram import CONVEX
from test_tangram import outline_of as tangram

from explainers.choice.model import Solution
from explainers.choice.question import Option
from explainers.geometry.outline import Outline
from explainers.geometry.rigid_motion import Point, RigidMotion
from explainers.geometry.rings import sides
from explainers.kinds.join_and_cut.model import Does, Item, Piece
from explainers.kinds.join_and_cut.solving.solver import solve


def question(result: Outline, options: list[Outline]) -> Solution:
    """An item with that result: a small flag is joined to it and cut away again."""
    start, end = next(side for side in sides(result.exterior) if _is_outermost(side, result))
    length = math.dist(start, end)
    tip = length / 2, 0.3 * length
    flag = Piece(
        name="flag",
        does=Does.JOIN,
        corners=((0.0, 0.0), (length, 0.0), tip),
        side=((0.0, 0.0), (length, 0.0)),
        meets=(start, end),
        turned=20.0,
    )
    slanting = (length, 0.0), tip
    dart = Piece(
        name="dart", does=Does.CUT, corners=flag.corners, side=slanting, meets=slanting, of="flag", turned=-70.0
    )
    drawn = tuple(
        Option(
            corners=moved.exterior,
            holes=moved.holes,
            turned=11.0 * number,
        )
        for number, option in enumerate(options)
        for moved in [option.moved(RigidMotion(turn_deg=37.0 * number - 150.0, shift=(3.0, -1.0)))]
    )
    return solve(Item(name="classes", title="Classes", base=result, pieces=(flag, dart), options=drawn))


def _is_outermost(side: tuple[Point, Point], outline: Outline) -> bool:
    (ax, ay), (bx, by) = side
    return all((bx - ax) * (y - ay) - (by - ay) * (x - ax) > -1e-9 for x, y in outline.exterior)


def check(solution: Solution, same: list[bool], mirrored: list[bool]) -> None:
    assert [verdict.same for verdict in solution.verdicts] == same
    assert [verdict.mirrored for verdict in solution.verdicts] == mirrored
    assert solution.sound
    for verdict in solution.verdicts:
        assert verdict.reasons
        assert all(fact.holds() for fact in verdict.reasons)
        if verdict.slip is not None:
            assert verdict.slip.holds()
        if verdict.mirrored:
            assert verdict.slip is not None
            assert verdict.slip.cases[0].slip == "flipped"


@pytest.mark.parametrize("index", range(13))
def test_tangram_outlines_of_equal_area_and_perimeter(index: int) -> None:
    alike = [other for other in range(13) if CONVEX[other][1] == CONVEX[index][1] and other != index]
    others = (alike + [other for other in range(13) if other not in alike and other != index])[:3]
    options = [tangram(index), *(tangram(other) for other in others)]
    chiral = CONVEX[index][2]
    if chiral:
        options.append(tangram(index).mirrored())
    check(
        question(tangram(index), options),
        [True] + [False] * (len(options) - 1),
        [False] * 4 + [True] * (len(options) - 4),
    )


@pytest.mark.parametrize("name", sorted(CHIRAL))
def test_chiral_pentominoes(name: str) -> None:
    others = [other for other in sorted(CHIRAL) if other != name]
    options = [
        pentomino(others[0]),
        pentomino(name).mirrored(),
        pentomino(name),
        pentomino(others[1]).mirrored(),
        pentomino(others[1]),
        pentomino(others[2]),
    ]
    check(
        question(pentomino(name), options),
        [False, False, True, False, False, False],
        [False, True, False, False, False, False],
    )


def test_half_squares_of_five(cases: Callable[[int, int], int]) -> None:
    classes = _classes()
    assert len(classes) == HALF_SQUARES[5]
    for index in range(0, len(classes), cases(8, 1)):
        result = classes[index]
        options = [result, *(classes[(index + step) % len(classes)] for step in (1, 2, 3))]
        over = exact.turned_over(result)
        if not any(exact.same_by_turning(over, option) for option in options):
            options.append(over)
        check(
            question(_outline(result), [_outline(option) for option in options]),
            [exact.same_by_turning(option, result) for option in options],
            [exact.is_mirror_only(option, result) for option in options],
        )


def _classes() -> list[exact.ExactRings]:
    """One outline a class, by exact arithmetic, those of as many corners beside each other."""
    kinds: dict[tuple[int, ...], list[exact.ExactRings]] = defaultdict(list)
    for shape in sorted(half_square_shapes(5), key=sorted):
        found = lattice.rings_of(shape)
        assert found is not None
        rings = [found[0], *found[1]]
        same_kind = kinds[(len(found[0]), len(rings))]
        if not any(exact.same_by_turning(rings, other) for other in same_kind):
            same_kind.append(rings)
    return [rings for kind in sorted(kinds) for rings in kinds[kind]]


def _outline(rings: exact.ExactRings) -> Outline:
    exterior, *holes = ([(float(x), float(y)) for x, y in ring] for ring in rings)
    return Outline.of(exterior, holes)
