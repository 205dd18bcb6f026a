"""What solving is for any kind of question once its finished outline and its slips are known."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import TypeVar

from ..errors import Fault, ItemError
from ..geometry.congruence import rotational_symmetry_order
from ..geometry.outline import Outline
from ..geometry.rigid_motion import Ring
from .making import with_made_options
from .model import Answer, Judgement, Solution, Warning_
from .question import Option, Question
from .slip import CannotBeMade, MakesTheResult, SlipCase, Slips, subjects_of
from .soundness import repeated_outlines, unsound_because, warnings
from .verdicts import judgements, verdicts

__all__ = ["VerdictBasis", "answered", "basis_for", "refused", "solved", "with_pairs"]

A = TypeVar("A", bound=Answer)
S = TypeVar("S", bound=Solution)


@dataclass(frozen=True, slots=True, kw_only=True)
class VerdictBasis:
    """What verdicts stand on."""

    item: Question  # with its options, made or written
    slips: Slips
    options: tuple[Outline, ...]  # in their own coordinates


def basis_for(item: Question, slips: Slips, faults: Sequence[Fault] = ()) -> VerdictBasis:
    """The options made or drawn.

    faults : found so far
    Raises : ItemError with every fault, field paths only
    """
    if item.made is not None and not item.options:
        item = with_made_options(item, item.made, slips)
    known, unmade = _option_outlines(item, slips)
    found = [*faults, *(fault for fault in unmade if fault not in faults)]
    if found:  # else the verdicts will tell
        raise ItemError([*found, *repeated_outlines(known, slips.outline, slips.tolerance)])
    return VerdictBasis(item=item, slips=slips, options=tuple(shape for shape in known if shape is not None))


def refused(item: Question, slips: Slips, *, is_named: bool) -> list[Fault]:
    """What is wrong with the options of an item that cannot be solved for other faults.

    is_named : whether the name is the item's own; options that are to be made depend on it
    """
    if item.made is None:
        outlines, unmade = _option_outlines(item, slips)
        return [*unmade, *repeated_outlines(outlines, slips.outline, slips.tolerance)]
    try:
        if is_named:
            with_made_options(item, item.made, slips)
    except ItemError as error:
        return list(error.faults)
    return []


def answered(basis: VerdictBasis, build: Callable[..., A]) -> A:
    """Which option is right; without a fit, a reason or a slip.

    build  : the answer of a kind, given all that any answer has
    Raises : ItemError where two wrong options are the same outline
    """
    slips = basis.slips
    judged = judgements(basis.options, slips.outline, slips.tolerance)
    key, because = _ruled(judged, slips, outline_given=basis.item.outline_given)
    return build(
        item=basis.item,
        outline=slips.outline,
        verdicts=judged,
        key=key,
        sound=not because,
        unsound_because=because,
    )


def solved(
    basis: VerdictBasis,
    build: Callable[..., S],
    *,
    warned: Sequence[Warning_],
    drawn: Sequence[tuple[str, Ring]],
    pairs: bool,
) -> S:
    """Everything that is true of a question.

    build  : the solution of a kind, given all that any solution has
    warned : what only its kind warns of
    drawn  : (field, ring) of all that is drawn to one scale before the options are
    pairs  : whether pairs of slips are sought too for options drawn by hand that no single slip makes
    Raises : ItemError where two wrong options are the same outline
    """
    item, slips = basis.item, basis.slips
    # Options that were asked for may be made by two slips, and are written by their corners then.
    judged = verdicts(item, basis.options, slips, pairs=pairs or item.made is not None)
    key, because = _ruled(judged, slips, outline_given=item.outline_given)
    order = rotational_symmetry_order(slips.outline, slips.tolerance)
    found = (*warned, *warnings(item, drawn, slips.outline, judged, order))
    accepted = {entry.kind for entry in item.accepted}
    return build(
        item=item,
        outline=slips.outline,
        verdicts=judged,
        key=key,
        sound=not because,
        unsound_because=because,
        warnings=tuple(warning for warning in found if warning.kind not in accepted),
        symmetry_order=order,
        accepted=tuple(warning for warning in found if warning.kind in accepted),
    )


def with_pairs(solution: S, slips_of: Callable[[S], Slips]) -> S:
    """What solving finds when pairs of slips are sought too, from a solution for which they were not.

    Nothing is laid or judged again: a pair of slips is the one thing that may be added to an option.
    slips_of : the slips of a solved item, asked for only where there is an option to explain
    """
    hard = {verdict.label for verdict in solution.verdicts if not verdict.same and verdict.slip is None}
    if solution.item.made is not None or not hard:
        return solution  # for options that were asked for, pairs have been sought already
    slips = slips_of(solution)
    explained = (
        replace(verdict, slip=slips.diagnosed_pair(verdict.label, verdict.outline))
        if verdict.label in hard
        else verdict
        for verdict in solution.verdicts
    )
    return replace(solution, verdicts=tuple(explained))


def _ruled(judged: Sequence[Judgement], slips: Slips, *, outline_given: bool) -> tuple[str | None, tuple[str, ...]]:
    """(the label of the right option where there is exactly one, else why there is not).

    Raises : ItemError where two wrong options are the same outline
    """
    shapes = [one.outline for one in judged]
    repeated = repeated_outlines(shapes, slips.outline, slips.tolerance)
    if repeated:
        raise ItemError(repeated)
    because = unsound_because(judged, outline_given=outline_given)
    return (None if because else next(one.label for one in judged if one.same)), because


def _option_outlines(item: Question, slips: Slips) -> tuple[tuple[Outline | None, ...], list[Fault]]:
    """(one outline an option, None for those whose slip makes none, with the faults of these)."""
    outlines: list[Outline | None] = []
    faults: list[Fault] = []
    other = f" or another {slips.subject}" if subjects_of(slips) else ""
    for index, option in enumerate(item.options):
        try:
            outlines.append(_outline_of(option, slips).simplified(_own(slips.tolerance, option, slips.outline)))
        except CannotBeMade as error:
            outlines.append(None)
            faults.append(
                Fault(
                    field=f"options[{index}].slip",
                    message=f"the slip {option.slip} gives no outline here: {error}",
                    fix=f"choose another slip{other}, or draw the option by its corners",
                )
            )
    return tuple(outlines), faults


def _own(tolerance: float, option: Option, outline: Outline) -> float:
    """The tolerance in the option's own units: a drawn one may be typed to another scale."""
    if option.corners is None:
        return tolerance
    return tolerance * Outline.of(option.corners).larger_extent / outline.larger_extent


def _outline_of(option: Option, slips: Slips) -> Outline:
    if option.corners is not None:
        return Outline.of(option.corners, option.holes)
    if option.slip is None:
        return slips.outline
    case = SlipCase(slip=option.slip, subject=option.slip_subject)
    if not slips.knows(case):
        return slips.outline  # told already, with the field that is wrong
    try:
        return slips.made((case,))
    except MakesTheResult:  # a matter of soundness: two options are right then
        return slips.outline
