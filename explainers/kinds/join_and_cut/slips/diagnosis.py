"""Which slip makes an outline: single slips first, then pairs of them.

Replaying a slip is dear, comparing two outlines is not cheap either. So every replay of an item is made once, when it
is first asked for, and shared by its options; and outlines are compared corner for corner only where what neither
turning nor scaling changes agrees: counts of corners and holes, area against perimeter, the angles in order of size.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import replace
from itertools import compress, islice

from ....choice.slip import CannotBeMade, SlipCase
from ....geometry.congruence import motions_onto
from ....geometry.outline import Outline
from ....geometry.signature import Signature
from ....geometry.tolerance import authoring_tolerance
from ..model import Item
from ..solving.placement import Placement
from .forecast import Forecasts
from .forecast_places import LaidShapes
from .model import Slipped, SolvedItem, Work
from .registry import SLIPS, first_legal, slip_cases, slip_pairs, taken, untouched
from .replay import remembering
from .slip_fact import PieceSlipFact, replay_of

__all__ = ["MOST_PAIRS", "Replays"]

Cases = tuple[SlipCase, ...]
MOST_PAIRS = 400  # pairs of slips tried on one item, the simplest first; an item of three pieces has about that many


class Replays:
    """What the slips make of one item, each found once and only when asked for: its `Slips`."""

    subject = "piece"

    @classmethod
    def of(cls, item: Item, placements: tuple[Placement, ...]) -> Replays:
        """The slips of an item whose pieces are laid."""
        tolerance = authoring_tolerance(item.extent)
        outline = placements[-1].after if placements else item.base.simplified(tolerance)
        return cls(SolvedItem(item=item, placements=placements, outline=outline), tolerance)

    def __init__(self, solved_item: SolvedItem, tolerance: float, *, most_pairs: int = MOST_PAIRS) -> None:
        self.solved_item, self.tolerance, self.most_pairs = solved_item, tolerance, most_pairs
        self._laid = remembering(solved_item.placements)
        self._ways: dict[Cases, tuple[Work, ...] | CannotBeMade] = {(): untouched(solved_item)}
        self._made: dict[Cases, Slipped | CannotBeMade] = {}
        self._signatures: dict[Cases, Signature] = {}
        self._foreseen: dict[bool, tuple[tuple[Cases, ...], Forecasts]] = {}
        self._places = LaidShapes(solved_item, tolerance)

    @property
    def outline(self) -> Outline:
        """The finished outline."""
        return self.solved_item.outline

    def knows(self, case: SlipCase) -> bool:
        """Whether there is such a slip, and such a piece where it needs one."""
        spec = SLIPS.get(case.slip)
        names = {piece.name for piece in self.solved_item.item.pieces}
        return spec is not None and (not spec.needs_piece or case.subject in names)

    def made(self, cases: Cases) -> Outline:
        """The outline that comes out when these slips happen.

        Raises : CannotBeMade
        """
        return self.slipped(cases).outline

    def slipped(self, cases: Cases) -> Slipped:
        """What comes out when these slips happen.

        Raises : CannotBeMade
        """
        if cases not in self._made:
            try:
                self._made[cases] = first_legal(self._taken(cases), self.solved_item, self._laid)
            except CannotBeMade as error:
                self._made[cases] = error
        found = self._made[cases]
        if isinstance(found, CannotBeMade):
            raise found
        return found

    def _taken(self, cases: Cases) -> tuple[Work, ...]:
        """The ways to take the item when these slips happen; what one slip leads to is shared by its pairs.

        Raises : CannotBeMade
        """
        if cases not in self._ways:
            try:
                self._ways[cases] = taken(self._taken(cases[:-1]), cases[-1], self.solved_item)
            except CannotBeMade as error:
                self._ways[cases] = error
        found = self._ways[cases]
        if isinstance(found, CannotBeMade):
            raise found
        return found

    def foreseen(self, option: Outline, *, pairs: bool) -> Iterator[Cases]:
        """Those single slips, or pairs of them, that may make an outline, as far as can be told without replaying any.

        option : without needless corners
        """
        if pairs not in self._foreseen:
            self._foreseen[pairs] = self._forecasts(tuple(self.simplest_pairs() if pairs else self.singles()))
        cases, forecasts = self._foreseen[pairs]
        return compress(cases, forecasts.may_make(option).tolist())

    def _forecasts(self, cases: tuple[Cases, ...]) -> tuple[tuple[Cases, ...], Forecasts]:
        possible = []
        for each in cases:
            with suppress(CannotBeMade):
                possible.append((each, self._taken(each)))
        return tuple(each for each, _ in possible), Forecasts([works for _, works in possible], self._places)

    def singles(self) -> Iterator[Cases]:
        """Every single slip, the simplest first."""
        return ((case,) for case in slip_cases(self.solved_item.item))

    def pairs(self) -> Iterator[Cases]:
        """Every two slips that may happen together, the simplest first."""
        return slip_pairs(self.solved_item.item)

    def further(self) -> Iterator[tuple[Cases, Outline]]:
        """As of ``Slips``: each slip happens in one way."""
        return iter(())

    def simplest_pairs(self) -> Iterator[Cases]:
        """Those within the bound, which are tried on an outline."""
        return islice(self.pairs(), self.most_pairs)

    def signature(self, cases: Cases) -> Signature | None:
        """Of what comes out; None where nothing does."""
        if cases not in self._signatures:
            try:
                outline = self.slipped(cases).outline
            except CannotBeMade:
                return None
            self._signatures[cases] = Signature(outline.simplified(self.tolerance), self.tolerance)
        return self._signatures[cases]

    def diagnosed(self, label: str, option: Outline, *, pairs: bool) -> PieceSlipFact | None:
        """The slip that makes a wrong option's outline; of several, the simplest, and a single one before any pair.

        option  : in its own coordinates, needless corners dropped
        Returns : None where none of them does
        """
        found = self._diagnosed(label, option, in_pairs=False)
        return self.diagnosed_pair(label, option) if found is None and pairs else found

    def diagnosed_pair(self, label: str, option: Outline) -> PieceSlipFact | None:
        """The simplest pair of slips that makes a wrong option's outline which no single one makes."""
        return self._diagnosed(label, option, in_pairs=True)

    def _diagnosed(self, label: str, option: Outline, *, in_pairs: bool) -> PieceSlipFact | None:
        own_tolerance = self.tolerance * math.sqrt(option.area / self.outline.area)
        plain = option.simplified(own_tolerance)
        signature = Signature(plain, own_tolerance)
        for cases in self.foreseen(plain, pairs=in_pairs):
            made = self.signature(cases)
            if made is None or not made.may_be(signature):
                continue
            if motions_onto(option, self.made(cases), self.tolerance):
                return self.fact_of(label, cases, option)
        return None

    def fact_of(self, label: str, cases: Cases, option: Outline) -> PieceSlipFact:
        """The fact that these slips make the option.

        Raises : CannotBeMade
        """
        slipped, solved_item = self.slipped(cases), self.solved_item
        return PieceSlipFact(
            tolerance=self.tolerance,
            label=label,
            cases=cases,
            item=replace(solved_item.item, options=(), made=None),
            option=option,
            outline=solved_item.outline,
            placements=replay_of(cases, slipped.placements),
            replayed=slipped.outline,
        )
