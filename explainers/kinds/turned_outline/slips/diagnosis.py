"""What slips make of one outline, and which of them makes an outline drawn by hand."""

from __future__ import annotations

import math
from collections.abc import Iterator
from contextlib import suppress
from itertools import combinations, islice

from ....choice.slip import FLIPPED, CannotBeMade, SlipCase
from ....geometry.congruence import motions_onto
from ....geometry.outline import Outline
from ....geometry.signature import Signature
from ....geometry.tolerance import authoring_tolerance
from ..model import TurnedOutline
from .change import Change
from .drawn import corners_moved, parts_moved, parts_resized
from .registry import SLIPS, best_change, changed, made_by, ways
from .slip_fact import OutlineSlipFact

__all__ = ["OutlineSlips"]

Cases = tuple[SlipCase, ...]

MOST_WAYS_MORE = 6  # of one slip, its best one counted
_DRAWN = {"part-moved": parts_moved, "part-resized": parts_resized, "angle-changed": corners_moved}


class OutlineSlips:
    """The slips of one outline, each found once and only when asked for: its `Slips`."""

    subject = ""

    @classmethod
    def of(cls, item: TurnedOutline) -> OutlineSlips:
        """Those of an item."""
        tolerance = authoring_tolerance(item.extent)
        return cls(item.outline.simplified(tolerance), tolerance)

    def __init__(self, outline: Outline, tolerance: float) -> None:
        """Of an outline without needless corners."""
        self.outline, self.tolerance = outline, tolerance
        self._best: dict[str, Change | CannotBeMade] = {}
        self._made: dict[Cases, Outline | CannotBeMade] = {}

    def singles(self) -> Iterator[Cases]:
        """Every single slip, the simplest first."""
        return ((SlipCase(slip=slip),) for slip in SLIPS)

    def pairs(self) -> Iterator[Cases]:
        """Every two slips, the simplest first."""
        return combinations([SlipCase(slip=slip) for slip in SLIPS], 2)

    def further(self) -> Iterator[tuple[Cases, Outline]]:
        """As of ``Slips``: a few other ways of each slip."""
        for slip in SLIPS:
            if slip == FLIPPED:
                continue
            for change in islice(ways(self.outline, slip, self.tolerance), 1, MOST_WAYS_MORE):
                yield (SlipCase(slip=slip),), changed(self.outline, (change,), self.tolerance)

    def knows(self, case: SlipCase) -> bool:
        """Whether there is such a slip; none happens to anything but the outline."""
        return case.slip in SLIPS and case.subject is None

    def made(self, cases: Cases) -> Outline:
        """What comes out when these slips happen.

        Raises : CannotBeMade
        """
        if cases not in self._made:
            try:
                self._made[cases] = changed(self.outline, self._changes(cases), self.tolerance)
            except CannotBeMade as error:
                self._made[cases] = error
        found = self._made[cases]
        if isinstance(found, CannotBeMade):
            raise found
        return found

    def fact_of(self, label: str, cases: Cases, option: Outline) -> OutlineSlipFact:
        """The fact that these slips make the option.

        Raises : CannotBeMade
        """
        return self._fact(label, option, self._changes(cases), self.made(cases))

    def diagnosed(self, label: str, option: Outline, *, pairs: bool) -> OutlineSlipFact | None:
        """The slip that makes a wrong option's outline; of several, the simplest, and a single one before any pair.

        option  : in its own coordinates, needless corners dropped
        Returns : None where none of them does
        """
        own_tolerance = self.tolerance * math.sqrt(option.area / self.outline.area)
        plain = option.simplified(own_tolerance)
        signature = Signature(plain, own_tolerance)
        for slip in SLIPS:
            for change in self._ways(plain, slip):
                fact = self._fact_if(label, option, signature, (change,))
                if fact is not None:
                    return fact
        return self.diagnosed_pair(label, option) if pairs else None

    def diagnosed_pair(self, label: str, option: Outline) -> OutlineSlipFact | None:
        """The simplest pair of slips that makes a wrong option's outline which no single one makes.

        What is turned over is sought in every way that it may be changed besides; two changes only as slips make them.
        """
        back = option.mirrored()
        own_tolerance = self.tolerance * math.sqrt(option.area / self.outline.area)
        plain = back.simplified(own_tolerance)
        signature = Signature(plain, own_tolerance)
        over = next(SLIPS[FLIPPED](self.outline, self.tolerance))
        for slip in SLIPS:
            for change in self._ways(plain, slip):
                fact = self._fact_if(label, option, signature, (change, over)) if slip != FLIPPED else None
                if fact is not None:
                    return fact
        for cases in self.pairs():
            with suppress(CannotBeMade):
                if motions_onto(option, self.made(cases), self.tolerance):
                    return self.fact_of(label, cases, option)
        return None

    def _ways(self, option: Outline, slip: str) -> Iterator[Change]:
        """The ways in which a slip may make an outline, as far as can be told from its corners."""
        if slip in _DRAWN:
            return _DRAWN[slip](option, self.outline, self.tolerance)
        return SLIPS[slip](self.outline, self.tolerance)

    def _fact_if(
        self, label: str, option: Outline, signature: Signature, changes: tuple[Change, ...]
    ) -> OutlineSlipFact | None:
        with suppress(CannotBeMade):
            made = made_by(self.outline, changes, self.tolerance)
            # Whether it is legal costs more than whether it may be the option at all.
            if made.area <= 0.0 or not signature.may_be(Signature(made, self.tolerance)):
                return None
            made = changed(self.outline, changes, self.tolerance)
            if motions_onto(option, made, self.tolerance):
                return self._fact(label, option, changes, made)
        return None

    def _changes(self, cases: Cases) -> tuple[Change, ...]:
        """Raises : CannotBeMade"""
        return tuple(self._best_of(case.slip) for case in cases)

    def _best_of(self, slip: str) -> Change:
        if slip not in self._best:
            try:
                self._best[slip] = best_change(self.outline, slip, self.tolerance)
            except CannotBeMade as error:
                self._best[slip] = error
        found = self._best[slip]
        if isinstance(found, CannotBeMade):
            raise found
        return found

    def _fact(self, label: str, option: Outline, changes: tuple[Change, ...], made: Outline) -> OutlineSlipFact:
        return OutlineSlipFact(
            tolerance=self.tolerance,
            label=label,
            cases=tuple(SlipCase(slip=change.slip) for change in changes),
            option=option,
            outline=self.outline,
            replayed=made,
            changes=changes,
        )
