"""The soundness certificate: why exactly one option of an item is right, in a form that can be gone over by hand.

Every fact in it is held against the geometry once more while the certificate is made.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from ..geometry.hausdorff import hausdorff_distance
from ..geometry.locate import nearest_corner
from ..geometry.outline import Outline
from .fact import Fact
from .features import Features
from .model import Solution, Verdict, Warning_
from .printed import printed_mm
from .question import Accepted
from .same import SameFact

if TYPE_CHECKING:
    from .slip import SlipFact

__all__ = ["AcceptedWarning", "Alignment", "Certificate", "Difference", "OptionProof", "certificate"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Alignment:
    """What lays an option on the outline."""

    turn_deg: float  # from the option as the sheet shows it, the shorter way round, in (-180, 180]
    scale: float  # the finished outline's size over the option's own
    corners_off_mm: float  # the largest distance between a corner and its partner after that, in print
    holds: bool  # held against the geometry once more


@dataclass(frozen=True, slots=True, kw_only=True)
class Difference:
    """What tells an option from the outline."""

    fact: Fact | None  # the first reason that holds; None where no place is far enough off to be pointed at
    gap_mm: float  # the largest distance between the boundaries, the option laid as well as it can be, in print
    slip: SlipFact | None  # the slip that makes this outline, where one is known and holds


@dataclass(frozen=True, slots=True, kw_only=True)
class OptionProof:
    """One option: exactly one of alignment and difference is given."""

    verdict: Verdict
    alignment: Alignment | None
    difference: Difference | None


@dataclass(frozen=True, slots=True, kw_only=True)
class AcceptedWarning:
    """A kind of warning that the item accepts, with what it silences."""

    entry: Accepted
    warnings: tuple[Warning_, ...]  # none: the entry is no longer needed


@dataclass(frozen=True, slots=True, kw_only=True)
class Certificate:
    """All that speaks for one item, or against it."""

    solution: Solution
    proofs: tuple[OptionProof, ...]  # in the order of the options
    accepted: tuple[AcceptedWarning, ...]
    features: Features
    pause_s: float  # an estimate

    @property
    def holds(self) -> bool:
        """Whether one option alone is right, and every proof was found true when it was looked at again."""
        right = [proof.alignment for proof in self.proofs if proof.alignment is not None]
        apart = [proof.difference.gap_mm for proof in self.proofs if proof.difference is not None]
        return self.solution.sound and len(right) == 1 and right[0].holds and all(gap_mm > 0.0 for gap_mm in apart)


def certificate(solution: Solution) -> Certificate:
    """Of a solved item, sound or not."""
    return Certificate(
        solution=solution,
        proofs=tuple(_proof(verdict, solution.outline) for verdict in solution.verdicts),
        accepted=tuple(
            AcceptedWarning(
                entry=entry,
                warnings=tuple(warning for warning in solution.accepted if warning.kind == entry.kind),
            )
            for entry in solution.item.accepted
        ),
        features=solution.features(),
        pause_s=solution.suggested_pause_s,
    )


def _proof(verdict: Verdict, outline: Outline) -> OptionProof:
    if verdict.same:
        return OptionProof(verdict=verdict, alignment=_alignment(verdict, outline), difference=None)
    slip = verdict.slip if verdict.slip is not None and verdict.slip.holds() else None
    difference = Difference(
        fact=next((fact for fact in verdict.reasons if fact.holds()), None),
        gap_mm=printed_mm(hausdorff_distance(verdict.fit.laid, outline), outline),
        slip=slip,
    )
    return OptionProof(verdict=verdict, alignment=None, difference=difference)


def _alignment(verdict: Verdict, outline: Outline) -> Alignment:
    fact = verdict.reasons[0]
    if not isinstance(fact, SameFact):
        raise TypeError(f"option {verdict.label} is right without the fact that shows it")
    laid = verdict.outline.moved(fact.motion)
    return Alignment(
        turn_deg=fact.turn_deg,
        scale=fact.motion.scale,
        corners_off_mm=printed_mm(_corners_off(laid, outline), outline),
        holds=fact.holds(),
    )


def _corners_off(laid: Outline, outline: Outline) -> float:
    """The largest distance from a corner of the outline to the nearest one of the option, and the other way round."""
    corners = [corner for ring in outline.rings for corner in ring]
    others = [corner for ring in laid.rings for corner in ring]
    ways = [(corner, others) for corner in corners] + [(corner, corners) for corner in others]
    return max(nearest_corner(corner, goals)[0] for corner, goals in ways)
