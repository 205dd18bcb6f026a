"""The same question found again however it is written down; another question never taken for it."""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator
from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st
from oracles import lattice
from small_items import SQUARE, WRONG, flag, item
from strategies import random_item

from explainers.choice.question import Option
from explainers.choice.same_question import repeats
from explainers.geometry.outline import Outline
from explainers.geometry.rigid_motion import Ring, Similarity
from explainers.kinds.join_and_cut.model import BASE, Does, Item, Piece
from explainers.kinds.join_and_cut.solving.same_question import PosedPieces
from explainers.kinds.join_and_cut.solving.solver import solve


def over(points: Ring) -> Ring:
    return tuple((-x, y) for x, y in points)


def rewritten(shown: Item, rng: random.Random, *, flipped: bool) -> Item:
    """Another name, origin, turn, scale, start corner and direction; other names, marks, piece coordinates, options."""
    scale = rng.uniform(0.3, 4.0)
    whole = motion_of(rng, scale)
    names = {piece.name: f"bit-{index}" for index, piece in enumerate(shown.pieces)}
    own = {piece.name: motion_of(rng, scale) for piece in shown.pieces}

    def moved(points: Ring, motion: Similarity) -> Ring:
        return motion.apply(over(points) if flipped else points)

    def again(piece: Piece, mark: str) -> Piece:
        corners = moved(piece.corners, own[piece.name])
        start = rng.randrange(len(corners))
        corners = (*corners[start:], *corners[:start])
        a, b = moved(piece.side, own[piece.name])
        c, d = moved(piece.meets, whole if piece.of == BASE else own[piece.of])
        return replace(
            piece,
            name=names[piece.name],
            corners=corners[::-1] if rng.random() < 0.5 else corners,
            side=(b, a),
            meets=(c, d),
            of=names.get(piece.of, piece.of),
            mark=mark,
            turned=rng.uniform(-180.0, 180.0),
        )

    return Item(
        name="again",
        title="Again",
        base=Outline.of(moved(shown.base.exterior, whole), [moved(hole, whole) for hole in shown.base.holes]),
        pieces=tuple(again(piece, mark) for piece, mark in zip(shown.pieces, "CDEGHJ", strict=False)),
        options=(*WRONG, Option()),
    )


def motion_of(rng: random.Random, scale: float) -> Similarity:
    shift = (rng.uniform(-9.0, 9.0), rng.uniform(-9.0, 9.0))
    return Similarity(turn_deg=rng.uniform(-179.0, 180.0), shift=shift, scale=scale)


def test_a_question_written_down_anew_is_the_same(cases: Callable[[int, int], int]) -> None:
    @settings(max_examples=cases(15, 500), deadline=None)
    @given(st.integers(0, 2**32), st.booleans())
    def same(seed: int, flipped: bool) -> None:
        first = replace(random_item(seed), options=(Option(), *WRONG))
        again = rewritten(first, random.Random(seed), flipped=flipped)
        question = solve(first).posed()
        found = solve(again).posed().likeness(question)
        assert found is not None
        # One that is its own flip is said to be the same by turning, which is the stronger statement.
        assert found.flipped is (flipped and question.mirrored().likeness(question).flipped)  # type: ignore[union-attr]

    same()


def test_random_questions_differ() -> None:
    solutions = [solve(random_item(seed)) for seed in range(60)]
    assert repeats(solutions) == ()


def fixed_pentominoes() -> Iterator[Ring]:
    """All 63, in every position a quarter turn or a flip brings them to."""
    found: set[frozenset[tuple[int, int]]] = {frozenset({(0, 0)})}
    for _ in range(4):
        found = {
            frozenset((x - min(a for a, _ in grown), y - min(b for _, b in grown)) for x, y in grown)
            for cells in found
            for cx, cy in cells
            for new in ((cx + 1, cy), (cx - 1, cy), (cx, cy + 1), (cx, cy - 1))
            if new not in cells
            for grown in [cells | {new}]
        }
    for cells in sorted(map(sorted, found)):
        rings = lattice.rings_of(lattice.squares(cells))
        assert rings is not None
        yield tuple((float(x), float(y)) for x, y in rings[0])


def test_bases_fall_into_the_published_classes() -> None:
    """63 fixed pentominoes (OEIS A001168), 18 up to turning (A000988), 12 when flipped ones are the same (A000105)."""
    questions = [
        PosedPieces(base=Outline.of(ring).simplified(0.0), places=(), tolerance=0.003) for ring in fixed_pentominoes()
    ]
    assert len(questions) == 63
    free: list[PosedPieces] = []
    one_sided: list[PosedPieces] = []
    for question in questions:
        found = [question.likeness(other) for other in one_sided]
        if not any(found):
            free.append(question)
        if not any(like is not None and not like.flipped for like in found):
            one_sided.append(question)
    assert (len(free), len(one_sided)) == (12, 18)


def asks(*pieces: Piece, **changes: object) -> PosedPieces:
    return solve(item(*pieces, **changes)).posed()  # type: ignore[arg-type]


def test_another_place_of_the_mark_is_another_question() -> None:
    low, high = (flag(meets=((4.0, y), (4.0, y + 2.0))) for y in (0.5, 1.5))
    # The flag has its right angle at one end of the mark, so that no flip of the square lays the one on the other.
    assert asks(low, base=SQUARE).likeness(asks(high, base=SQUARE)) is None
    middle = flag(corners=((0, 0), (2, 0), (1, 2)))
    ends = [replace(middle, meets=((4.0, y), (4.0, y + 2.0))) for y in (0.5, 1.5)]
    found = asks(ends[0], base=SQUARE).likeness(asks(ends[1], base=SQUARE))
    assert found is not None and found.flipped


def test_a_square_piece_marked_on_another_side_of_the_same_place_asks_the_same() -> None:
    tile = flag(corners=((0, 0), (2, 0), (2, 2), (0, 2)))
    other = replace(tile, side=((2.0, 0.0), (2.0, 2.0)))
    assert asks(tile).likeness(asks(other)) is not None


def test_joined_is_not_cut() -> None:
    inside = flag(meets=((0.0, 0.0), (0.0, 2.0)))
    assert asks(inside, base=SQUARE).likeness(asks(replace(inside, does=Does.CUT), base=SQUARE)) is None


def test_the_order_of_pieces_that_do_not_meet_is_no_other_question() -> None:
    first, second = flag(), flag(name="tip", meets=((2.0, 4.0), (0.0, 4.0)), mark="A")
    assert asks(first, second).likeness(asks(second, first)) is not None


def test_each_repeat_names_the_first_that_asks_it() -> None:
    one = item()
    flipped = rewritten(one, random.Random(3), flipped=True)
    row = [solve(shown) for shown in (one, random_item(1), replace(one, name="copy"), flipped)]
    found = [(repeat.index, repeat.earlier, repeat.likeness.flipped) for repeat in repeats(row)]
    assert found == [(2, 0, False), (3, 0, True)]
