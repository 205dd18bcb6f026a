"""Random sound items whose answers are known by construction.

Base, pieces and results are sets of quarter-squares (``oracles.lattice``), so what a join or a cut gives is a set
operation. Each piece is then moved away by a random turn and shift, and marked where it touched. What the solver must
find (turns, outline, verdicts) is what was put in.
"""

from __future__ import annotations

import cmath
import math
import random
from dataclasses import dataclass

from hypothesis import strategies as st
from oracles import exact, lattice
from oracles.lattice import IntPoint, IntRing, Shape

from explainers.choice.question import Option
from explainers.geometry.outline import Outline
from explainers.kinds.join_and_cut.model import BASE, Does, Item, Piece

__all__ = ["Case", "cases_of", "items", "random_case", "random_item"]

Rings = tuple[IntRing, ...]
NAMES = ("flag", "tip", "strip", "dart", "wedge", "patch")
MARKS = ("leaf", "K", "bell", "T", "tulip", "V")
SIDE = tuple[IntPoint, IntPoint]


@dataclass(frozen=True)
class Case:
    """An item with its answers."""

    item: Item
    turns: tuple[float, ...]  # degrees, not wrapped
    outlines: tuple[Rings, ...]  # after each piece: exterior, then holes; exact
    same: tuple[bool, ...]
    mirrored: tuple[bool, ...]

    @property
    def result(self) -> Rings:
        return self.outlines[-1]


@dataclass(frozen=True)
class _Placed:
    piece: Piece
    ring: IntRing
    factor: complex  # the true motion from the piece's own coordinates: w = factor z + shift
    shift: complex


def items() -> st.SearchStrategy[Item]:
    """Sound items."""
    return cases_of().map(lambda case: case.item)


def cases_of() -> st.SearchStrategy[Case]:
    """Sound items with their answers."""
    return st.integers(min_value=0, max_value=2**32).map(random_case)


def random_item(seed: int) -> Item:
    """One sound item; the same for the same seed."""
    return random_case(seed).item


def random_case(seed: int, *, pieces: int | None = None) -> Case:
    """One sound item with its answers; the same for the same seed.

    pieces : how many, 1 to 4; None: any
    """
    rng = random.Random(seed)
    while True:
        case = _attempt(rng, seed, pieces)
        if case is not None:
            return case


def _attempt(rng: random.Random, seed: int, count: int | None) -> Case | None:
    shape = _grown(rng, frozenset(), lattice.halves(0, 0)[rng.randrange(4)], rng.randint(4, 16), set())
    rings = _rings(shape)
    if shape is None or rings is None:
        return None
    base = rings
    placed: list[_Placed] = []
    outlines: list[Rings] = []
    shapes = [shape]
    turns = []
    for index in range(count or rng.choice((1, 1, 2, 2, 3, 4))):
        step = next(
            (step for step in (_piece(rng, index, shapes[-1], rings, base, placed) for _ in range(30)) if step), None
        )
        if step is None:
            return None
        made, turn, shape, rings = step
        placed.append(made)
        turns.append(turn)
        shapes.append(shape)
        outlines.append(rings)
    chosen = _options(rng, shapes, rings, [made.piece for made in placed])
    if chosen is None:
        return None
    options, same, mirrored = chosen
    return Case(
        item=Item(
            name=f"random-{seed}",
            title=f"Random item {seed}",
            base=Outline.of(
                _typed(rng, base[0]),
                [_typed(rng, hole) for hole in base[1:]],
            ),
            pieces=tuple(made.piece for made in placed),
            options=options,
        ),
        turns=tuple(turns),
        outlines=tuple(outlines),
        same=same,
        mirrored=mirrored,
    )


def _rings(shape: Shape | None) -> Rings | None:
    found = lattice.rings_of(shape) if shape else None
    return None if found is None else (found[0], *found[1])


def _grown(
    rng: random.Random, among: Shape, start: Shape, halves: int, forbidden: set[lattice.Quarter]
) -> Shape | None:
    """A shape of about that many half-squares that contains ``start``, within ``among`` unless that is empty."""
    shape = set(start)
    for _ in range(6 * halves):
        if len(shape) >= 2 * halves:
            break
        quarter = rng.choice(sorted(shape))
        x, y, _ = rng.choice(list(lattice.neighbours(quarter)))
        half = rng.choice(lattice.halves(x, y)) if rng.random() < 0.6 else lattice.squares([(x, y)])
        if half & forbidden or (among and not half <= among):
            continue
        if not among and not all(-3 <= a <= 3 and -3 <= b <= 3 for a, b, _ in half):
            continue
        shape |= half
    return frozenset(shape)


def _piece(
    rng: random.Random, index: int, shape: Shape, rings: Rings, base: Rings, placed: list[_Placed]
) -> tuple[_Placed, float, Shape, Rings] | None:
    does = rng.choice((Does.JOIN, Does.JOIN, Does.CUT))
    rim = [q for q in shape if any(n not in shape for n in lattice.neighbours(q))]
    quarter = rng.choice(sorted(rim))
    x, y, _ = quarter
    size = rng.randint(1, 5)
    if does is Does.JOIN:
        x, y, _ = rng.choice([n for n in lattice.neighbours(quarter) if n not in shape])
        start = rng.choice(lattice.halves(x, y))
        if start & shape:
            return None
        part = _grown(rng, frozenset(), start, size, set(shape))
    else:
        start = rng.choice(lattice.halves(x, y))
        if not start <= shape:
            return None
        part = _grown(rng, shape, start, min(size, len(shape) // 5), set())
    own = _rings(part)
    after_shape = shape | part if does is Does.JOIN else shape - part
    after = _rings(after_shape)
    if own is None or len(own) > 1 or after is None or len(after) > 2:
        return None
    contact = _contact(rng, own[0], rings, does)
    if contact is None:
        return None
    turn_deg = rng.choice((45.0 * rng.randrange(8), 15.0 * rng.randrange(24), rng.uniform(0, 360)))
    turned = rng.choice((45.0 * rng.randrange(-8, 9), 15.0 * rng.randrange(24), rng.uniform(-400, 400)))
    factor = cmath.exp(1j * math.radians(turn_deg))
    if turn_deg % 90 == 0:
        factor = (1, 1j, -1, -1j)[round(turn_deg / 90) % 4]
    shift = complex(rng.randint(-5, 5), rng.randint(-5, 5))
    hosts = [host for host in placed if host.piece.does is Does.JOIN and _on_ring(contact, host.ring)]
    is_on_base = any(_on_ring(contact, ring) for ring in base)
    if not hosts and not is_on_base:  # a side that a cut has made is nobody's: it cannot be named
        return None
    host = None if is_on_base else hosts[0]
    for one in hosts:
        host = one if rng.random() < 0.8 else host
    meets, of = contact, BASE
    if host is not None:
        meets, of = tuple(_back(point, host.factor, host.shift) for point in contact), host.piece.name
    side = tuple(_back(point, factor, shift) for point in contact)
    piece = Piece(
        name=NAMES[index],
        does=does,
        corners=tuple(_back(point, factor, shift) for point in _typed(rng, own[0])),
        side=side if rng.random() < 0.5 else side[::-1],
        meets=meets if rng.random() < 0.5 else meets[::-1],
        of=of,
        mark=MARKS[index],
        turned=turned,
    )
    return _Placed(piece, own[0], factor, shift), turn_deg - turned, after_shape, after


def _back(point: tuple[float, float], factor: complex, shift: complex) -> tuple[float, float]:
    z = (complex(*point) - shift) / factor
    return z.real, z.imag


def _typed(rng: random.Random, ring: IntRing) -> tuple[tuple[float, float], ...]:
    """The ring as a teacher may type it: any start, either direction, now and then a needless corner."""
    start = rng.randrange(len(ring))
    corners: list[tuple[float, float]] = []
    for a, b in lattice.sides_of(ring[start:] + ring[:start]):
        corners.append(a)
        if rng.random() < 0.1:
            corners.append(((a[0] + b[0]) / 2, (a[1] + b[1]) / 2))
    return tuple(corners if rng.random() < 0.5 else corners[::-1])


def _contact(rng: random.Random, own: IntRing, rings: Rings, does: Does) -> tuple[tuple[float, float], ...] | None:
    """Two points of a stretch that a side of the piece and a side of the outline share."""
    stretches = []
    for a, b in lattice.sides_of(own):
        for ring in rings:
            for c, d in lattice.sides_of(ring):
                first, last = (d, c) if does is Does.JOIN else (c, d)
                dx, dy = b[0] - a[0], b[1] - a[1]
                if (last[0] - first[0]) * dy != (last[1] - first[1]) * dx:
                    continue
                if (first[0] - a[0]) * dy != (first[1] - a[1]) * dx:
                    continue
                along = [((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / (dx * dx + dy * dy) for p in (first, last)]
                low, high = max(0.0, along[0]), min(1.0, along[1])
                if high - low > 1e-9:
                    stretches.append((low, high, a, b))
    if not stretches:
        return None
    low, high, a, b = rng.choice(stretches)
    if rng.random() < 0.25:  # a part of what they share
        low, high = low + (high - low) * rng.choice((0.0, 0.25)), low + (high - low) * rng.choice((0.75, 1.0))
    return tuple((a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t) for t in (low, high))


def _on_ring(contact: tuple[tuple[float, float], ...], ring: IntRing) -> bool:
    return any(
        all(
            abs((p[0] - a[0]) * (b[1] - a[1]) - (p[1] - a[1]) * (b[0] - a[0])) < 1e-9
            and min(a[0], b[0]) - 1e-9 <= p[0] <= max(a[0], b[0]) + 1e-9
            and min(a[1], b[1]) - 1e-9 <= p[1] <= max(a[1], b[1]) + 1e-9
            for p in contact
        )
        for a, b in lattice.sides_of(ring)
    )


def _options(
    rng: random.Random, shapes: list[Shape], result: Rings, pieces: list[Piece]
) -> tuple[tuple[Option, ...], tuple[bool, ...], tuple[bool, ...]] | None:
    drawn: list[tuple[Option, Rings]] = [(_shown(rng, Option()), result)]
    if exact.is_mirror_only(result, exact.turned_over(result)) and rng.random() < 0.7:
        drawn.append((_shown(rng, Option(slip="flipped")), exact.turned_over(result)))
    if rng.random() < 0.3 and len(shapes) > 1:
        last = pieces[-1]
        rings = _rings(shapes[-2])
        if rings is not None and _is_new(rings, drawn):
            drawn.append((_shown(rng, Option(slip="left-out", slip_subject=last.name)), rings))
    wanted = rng.randint(3, 6)
    for _ in range(60):
        if len(drawn) >= wanted:
            break
        rings = _rings(_mutated(rng, shapes[-1]))
        if rings is None or not _is_new(rings, drawn):
            continue
        if rng.random() < 0.3:
            rings = tuple(map(tuple, exact.turned_over(rings)))
            if not _is_new(rings, drawn):
                continue
        drawn.append((_by_hand(rng, rings), rings))
    if len(drawn) < 3:
        return None
    rng.shuffle(drawn)
    same = tuple(exact.same_by_turning(rings, result) for _, rings in drawn)
    mirrored = tuple(exact.is_mirror_only(rings, result) for _, rings in drawn)
    assert sum(same) == 1
    return tuple(option for option, _ in drawn), same, mirrored


def _is_new(rings: Rings, drawn: list[tuple[Option, Rings]]) -> bool:
    return not any(exact.same_by_turning(rings, other) for _, other in drawn)


def _mutated(rng: random.Random, shape: Shape) -> Shape:
    """The shape with a half-square or a square more, less, or both."""
    changed = set(shape)
    for _ in range(rng.randint(1, 2)):
        x, y, _ = rng.choice(sorted(changed))
        half = rng.choice(lattice.halves(x, y)) if rng.random() < 0.7 else lattice.squares([(x, y)])
        if rng.random() < 0.5:
            changed -= half
        else:
            x, y, _ = rng.choice(list(lattice.neighbours(rng.choice(sorted(changed or shape)))))
            changed |= rng.choice(lattice.halves(x, y))
        if not changed:
            return shape
    return frozenset(changed)


def _shown(rng: random.Random, option: Option) -> Option:
    return Option(
        slip=option.slip,
        slip_subject=option.slip_subject,
        turned=rng.choice((0.0, 45.0 * rng.randrange(8), rng.uniform(-180, 180))),
        scale=rng.choice((1.0, 1.0, 0.75, 1.5)),
    )


def _by_hand(rng: random.Random, rings: Rings) -> Option:
    """An option by its corners: at another place, turned, now and then to another scale."""
    angle = rng.choice((0.0, 90.0, 45.0, rng.uniform(0, 360)))
    factor = rng.choice((1.0, 1.0, 0.5, 1.25)) * cmath.exp(1j * math.radians(angle))
    shift = complex(rng.randint(-4, 4), rng.randint(-4, 4))

    def own(ring: IntRing) -> tuple[tuple[float, float], ...]:
        return tuple(
            ((factor * complex(*p) + shift).real, (factor * complex(*p) + shift).imag) for p in _typed(rng, ring)
        )

    return Option(
        corners=own(rings[0]),
        holes=tuple(own(hole) for hole in rings[1:]),
        turned=rng.choice((0.0, 90.0, rng.uniform(-180, 180))),
        scale=1.0 / abs(factor),
    )
