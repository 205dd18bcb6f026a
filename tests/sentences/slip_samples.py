"""Every slip on an item small enough to check in the head, and verdicts that carry slips."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import islice

import fact_samples as samples

from explainers.choice.fact import Fact
from explainers.choice.fit import Fit
from explainers.choice.model import Verdict
from explainers.choice.slip import CannotBeMade, SlipCase
from explainers.geometry.outline import Outline
from explainers.geometry.rigid_motion import Similarity
from explainers.geometry.tolerance import authoring_tolerance
from explainers.kinds.join_and_cut.model import Does, Item, Piece
from explainers.kinds.join_and_cut.slips.model import SolvedItem
from explainers.kinds.join_and_cut.slips.registry import make_all, slip_cases, slip_pairs
from explainers.kinds.join_and_cut.slips.slip_fact import PieceSlipFact, replay_of
from explainers.kinds.join_and_cut.solving.laying import lay_pieces

__all__ = ["FLAG_ITEM", "fact_of", "facts_of", "pair_facts_of", "renamed", "scene_of", "verdict"]

# A flag on the right of a rectangle, a bar on its top, a bite out of its left.
FLAG_ITEM = Item(
    name="flag-block",
    title="The flag block",
    base=Outline.of(((0.0, 0.0), (8.0, 0.0), (8.0, 6.0), (0.0, 6.0))),
    pieces=(
        Piece(
            name="flag", does=Does.JOIN, corners=((0.0, 0.0), (2.0, 0.0), (0.0, 2.0)), side=((0.0, 0.0), (2.0, 0.0)),
            meets=((8.0, 0.5), (8.0, 2.5)), mark="K", turned=30.0,
        ),
        Piece(
            name="bar", does=Does.JOIN, corners=((0.0, 0.0), (2.0, 0.0), (3.0, 1.0), (0.0, 1.0)),
            side=((0.0, 0.0), (2.0, 0.0)), meets=((0.5, 6.0), (2.5, 6.0)), mark="A", turned=-60.0,
        ),
        Piece(
            name="bite", does=Does.CUT, corners=((0.0, 0.0), (2.0, 0.0), (0.0, 1.0)), side=((0.0, 0.0), (2.0, 0.0)),
            meets=((0.0, 1.0), (0.0, 3.0)), mark="T", turned=75.0,
        ),
    ),
)  # fmt: skip


def scene_of(item: Item) -> SolvedItem:
    placements = lay_pieces(item)
    return SolvedItem(item=item, placements=placements, outline=placements[-1].after)


def fact_of(item: Item, *cases: SlipCase, label: str = "B") -> PieceSlipFact:
    """The slips, replayed. Raises CannotBeMade."""
    solved_item = scene_of(item)
    slipped = make_all(cases, solved_item)
    return PieceSlipFact(
        tolerance=authoring_tolerance(item.extent),
        label=label,
        cases=cases,
        item=replace(item, options=(), made=None),
        option=slipped.outline.moved(Similarity(turn_deg=70.0, shift=(3.0, -1.0))),
        outline=solved_item.outline,
        placements=replay_of(cases, slipped.placements),
        replayed=slipped.outline,
    )


def facts_of(item: Item, label: str = "B") -> Iterator[PieceSlipFact]:
    """Every single slip that gives an outline on this item."""
    for case in slip_cases(item):
        try:
            yield fact_of(item, case, label=label)
        except CannotBeMade:
            continue


def pair_facts_of(item: Item, most: int) -> Iterator[PieceSlipFact]:
    """That many pairs of slips that give an outline on this item, from all over the list of pairs."""
    pairs = list(slip_pairs(item))
    for pair in islice(pairs[:: max(1, len(pairs) // most)], most):
        try:
            yield fact_of(item, *pair)
        except CannotBeMade:
            continue


def renamed(item: Item, **names: str) -> Item:
    """The item with other names for its pieces."""
    return replace(
        item,
        pieces=tuple(
            replace(piece, name=names.get(piece.name, piece.name), of=names.get(piece.of, piece.of))
            for piece in item.pieces
        ),
    )


def verdict(label: str, *reasons: Fact, slip: PieceSlipFact | None = None, option: Outline = samples.SQUARE) -> Verdict:
    """A wrong option with these reasons."""
    fit = Fit(motion=Similarity(), laid=option, extra=(), missing=(), difference=0.0)
    return Verdict(
        label=label, code=f"k{label}", outline=option, drawn=Similarity(), same=False, mirrored=False, fit=fit,
        reasons=reasons, slip=slip,
    )  # fmt: skip
