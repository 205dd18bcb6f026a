"""That an option has more holes than the outline, or fewer, is told first, and the ring is where that comes of."""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest
import shapely
from small_items import SQUARE, item

from explainers.choice.differences.hole import HoleFact, HolePlace
from explainers.choice.model import Verdict
from explainers.choice.question import MadeOptions, Option
from explainers.choice.words import choices
from explainers.errors import ItemError
from explainers.geometry.outline import Outline
from explainers.geometry.rigid_motion import RigidMotion, Ring
from explainers.kinds.join_and_cut.model import Does, Item, Piece
from explainers.kinds.join_and_cut.solving.solver import solve

HOUSE: Ring = ((0.0, 0.0), (8.0, 0.0), (8.0, 6.0), (4.0, 8.0), (0.0, 6.0))
WINDOW: Ring = ((2.0, 2.0), (6.0, 2.0), (6.0, 5.0), (2.0, 5.0))
DOOR: Ring = ((3.0, 0.0), (5.0, 0.0), (5.0, 2.0), (4.0, 2.0))
BAR: Ring = ((4.0, 2.0), (5.0, 2.0), (5.0, 5.0), (4.0, 5.0))
TRIANGLE = Option(corners=((0.0, 0.0), (3.0, 0.0), (0.0, 1.0)))


def laid_piece(name: str, does: Does, ring: Ring, *, side: int = 0, turned: float = 0.0, mark: str = "K") -> Piece:
    """A piece that ends up at these corners, with its side of this number marked."""
    own = RigidMotion(turn_deg=turned).apply(ring)
    after = (side + 1) % len(ring)
    return Piece(
        name=name, does=does, corners=own, side=(own[side], own[after]), meets=(ring[side], ring[after]), mark=mark
    )  # fmt: skip


def hole_fact(piece: Piece, option: Outline, base: Outline) -> Any:
    drawn = Option(corners=option.exterior, holes=option.holes)
    asked = item(piece, base=base.exterior, holes=base.holes, options=(Option(), drawn, TRIANGLE))
    return solve(asked).verdicts[1].reasons[0]


def rounds(outline: Outline) -> shapely.Polygon:
    return shapely.Polygon(outline.exterior, outline.holes)


@pytest.mark.parametrize(
    ("piece", "holes", "counts", "at", "said"),
    [
        (laid_piece("door", Does.CUT, DOOR), (WINDOW,), (1, 0), HolePlace.WALL,
         ("Option B has 1 hole, but the outline has none.", "Here option B is closed, but the outline is open.")),
        (laid_piece("bar", Does.JOIN, BAR), (WINDOW,), (1, 2), HolePlace.BAR,
         ("Option B has 1 hole, but the outline has 2.", "Here the outline has cloth where option B has none.")),
        (laid_piece("fill", Does.JOIN, WINDOW), (WINDOW,), (1, 0), HolePlace.HOLE,
         ("Option B has 1 hole, but the outline has none.", "Here the outline has cloth where option B has none.")),
    ],
)  # fmt: skip
def test_the_piece_left_out_is_told_by_the_holes(
    piece: Piece, holes: tuple[Ring, ...], counts: tuple[int, int], at: HolePlace, said: tuple[str, ...]
) -> None:
    base = Outline.of(HOUSE, holes)
    fact = hole_fact(piece, base, base)
    assert isinstance(fact, HoleFact)
    assert (fact.option_holes, fact.outline_holes, fact.at) == (*counts, at)
    assert choices.reason(fact) == said
    assert shapely.Polygon(piece.meets + piece.corners[2:]).contains(shapely.Point(fact.ring_centre))


def test_the_hole_comes_first_though_more_differs_elsewhere() -> None:
    """A tower that is wrong is larger than the door, and is told after it."""
    base = Outline.of(HOUSE, (WINDOW,))
    tower = (
        (0.0, 0.0),
        (8.0, 0.0),
        (8.0, 2.0),
        (12.0, 2.0),
        (12.0, 4.0),
        (8.0, 4.0),
        (8.0, 6.0),
        (4.0, 8.0),
        (0.0, 6.0),
    )
    fact = hole_fact(laid_piece("door", Does.CUT, DOOR), Outline.of(tower, (WINDOW,)), base)
    assert isinstance(fact, HoleFact)
    assert fact.place.area == pytest.approx(3.0, abs=1e-3)


def test_a_pinhole_does_not_come_before_what_is_seen() -> None:
    pin = ((7.0, 3.0), (7.05, 3.0), (7.05, 3.05), (7.0, 3.05))
    wrong = Outline.of(((0.0, 0.0), (9.0, 0.0), *HOUSE[2:]), (pin,))
    fact = hole_fact(laid_piece("bar", Does.JOIN, SQUARE, side=3), wrong, Outline.of(HOUSE))
    assert not isinstance(fact, HoleFact)


def drawn(seed: int) -> Item:
    """A frame whose hole a cut opens, or a bar parts, or both, or an arch that a bridge closes; pieces at random."""
    rng = random.Random(seed)
    width, height = rng.choice([6.0, 7.0, 8.0]), rng.choice([6.0, 7.0])
    left, right, low, high = (rng.choice([1.0, 1.5, 2.0]) for _ in range(4))
    right, high = width - right, height - high
    frame = ((0.0, 0.0), (width, 0.0), (width + rng.choice([0.0, 1.0]), height / 2), (width, height), (0.0, height))
    hole = ((left, low), (right, low), (right, high), (left, high))
    turned = rng.choice([0.0, 30.0, 45.0, 90.0, 180.0, -135.0])
    start = rng.uniform(left, right - 1.2)
    stop, lean = start + rng.choice([0.8, 1.0, 1.2]), rng.uniform(0.0, 0.3)
    gate = laid_piece("gate", Does.CUT, ((start, 0.0), (stop, 0.0), (stop, low), (start + lean, low)), turned=turned)
    kind = rng.choice(["gate", "bar", "gate and bar", "bridge"])
    if kind == "bridge":
        arch = ((0.0, 0.0), (left, 0.0), (left, high), (right, high), (right, 0.0), *frame[1:])
        corners = ((left, 0.0), (right, 0.0), (right, 1.0), (left, 1.0))
        return item(laid_piece("bridge", Does.JOIN, corners, side=3, turned=turned), base=arch)
    middle = (low + high) / 2
    shelf = ((left, middle), (right, middle), (right, middle + 0.6), (left, middle + 0.8))
    bar = laid_piece("bar", Does.JOIN, shelf, side=3, turned=turned, mark="R")
    pieces = {"gate": (gate,), "bar": (bar,), "gate and bar": (bar, gate)}[kind]
    return item(*pieces, base=frame, holes=(hole,))


def made(asked: Item, seed: int) -> tuple[Verdict, ...]:
    for make in (4, 3, 2):
        try:
            return solve(replace(asked, options=(), made=MadeOptions(make=make, seed=seed))).verdicts
        except ItemError:  # too few slips give an option
            continue
    return ()


def check(fact: HoleFact) -> None:
    """Asked of shapely alone, with the place a little larger, so that no hairline is left."""
    near = 2 * fact.tolerance
    option, outline, place = rounds(fact.option), rounds(fact.outline), rounds(fact.place)
    spot = shapely.Point(fact.ring_centre)
    assert (fact.option_holes, fact.outline_holes) == (len(option.interiors), len(outline.interiors))
    owner, other = (option, outline) if fact.option_holes > fact.outline_holes else (outline, option)
    assert place.contains(spot)
    if fact.at is HolePlace.HOLE:
        assert other.contains(spot)
        assert any(shapely.Polygon(hole).contains(spot) for hole in owner.interiors)
        return
    assert owner.contains(spot)
    assert not other.contains(spot)
    left = shapely.get_parts(owner.difference(place.buffer(near, join_style="mitre")))
    around = shapely.union_all([shapely.Polygon(part.exterior) for part in left])
    shut = [around.contains(shapely.Polygon(hole).representative_point()) for hole in owner.interiors]
    if fact.at is HolePlace.WALL:
        assert not all(shut)
    else:
        assert all(shut)
        assert sum(len(part.interiors) for part in left) < len(owner.interiors)


def test_whatever_has_other_holes_is_told_so_first_and_truly(cases: Callable[[int, int], int]) -> None:
    seen: Counter[HolePlace] = Counter()
    for seed in range(cases(15, 300)):
        for verdict in made(drawn(seed), seed):
            if verdict.same or verdict.mirrored:
                continue
            fact = verdict.reasons[0]
            counts = len(verdict.fit.laid.holes), len(verdict.reasons[0].outline.holes)  # type: ignore[attr-defined]
            assert isinstance(fact, HoleFact) is (counts[0] != counts[1]), (seed, verdict.label)
            if isinstance(fact, HoleFact):
                check(fact)
                seen[fact.at] += 1
                for at in HolePlace:
                    assert replace(fact, at=at).holds() is (at is fact.at)
    assert min(seen[at] for at in HolePlace) > 0, seen
    assert seen[HolePlace.WALL] > 10
