"""Wrong options made from named slips, so that each has a cause that can be shown: a whole row, or some of one."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from typing import TypeVar

from ..errors import Fault, ItemError
from ..geometry.congruence import motions_onto, rotational_symmetry_order
from ..geometry.outline import Outline
from ..geometry.rigid_motion import Similarity
from .model import Solution
from .option_search import Candidate, Cases, OptionSearch, said
from .presentation import key_place, more_turns, rng_for, shown_turns
from .question import MadeOptions, Option, Question
from .slip import Slips

__all__ = ["Survey", "surveyed", "with_made_options", "with_others"]

Q = TypeVar("Q", bound=Question)

REASONS_TOLD = 4  # with as many slips each as
SLIPS_TOLD = 3


def with_made_options(item: Q, made: MadeOptions, slips: Slips, always: tuple[Cases, ...] = ()) -> Q:
    """The item with options: as many wrong ones as asked for, and the result among them.

    slips  : of the item
    always : slips whose options are to be among them
    Raises : ItemError at ``options.make`` where there are not enough, saying which slips failed and why
    """
    kept = tuple((cases, slips.made(cases).simplified(slips.tolerance)) for cases in always)
    search = OptionSearch(
        name=item.name, make=made.make, seed=made.seed, slips=slips, outline_given=item.outline_given, kept=kept
    )
    found = search.chosen()
    if found is None:
        raise ItemError([_too_few(search, made.make)])
    chosen = (*search.standing, *found)
    rng = rng_for(made.seed, item.name, "order of the wrong options")
    wrong = rng.sample(chosen, len(chosen))
    key = key_place(made.seed, item.name, len(wrong) + 1)
    shown: list[Candidate | None] = [*wrong[:key], None, *wrong[key:]]
    orders = [rotational_symmetry_order(one.outline if one else slips.outline, slips.tolerance) for one in shown]
    turns = shown_turns(rng_for(made.seed, item.name, "turns"), orders, key)
    options = tuple(
        replace(one.option if one else Option(), turned=turn) for one, turn in zip(shown, turns, strict=True)
    )
    return replace(item, options=options, made=made)


def with_others(solution: Solution, slips: Slips, labels: Collection[str], seed: int) -> Question:
    """The question with other wrong options in the place of some; the rest stay as they are, and where they are.

    slips  : of the question
    labels : of the wrong options that give way; none of them comes again
    Raises : ItemError at ``options`` where there are not enough others, saying which slips failed and why
    """
    item, verdicts = solution.item, solution.verdicts
    key = next(index for index, verdict in enumerate(verdicts) if verdict.same)
    size = verdicts[key].drawn.scale  # others are shown beside it at its scale
    kept = tuple(
        (
            verdict.slip.cases if verdict.slip else (),
            verdict.outline.moved(Similarity(scale=verdict.drawn.scale / size)),
        )
        for verdict in verdicts
        if not verdict.same and verdict.label not in labels
    )
    search = OptionSearch(
        name=item.name,
        make=len(kept) + len(labels),
        seed=seed,
        slips=slips,
        outline_given=item.outline_given,
        kept=kept,
        barred=tuple(verdict.outline for verdict in verdicts if verdict.label in labels),
    )
    found = search.chosen()
    if found is None:
        raise ItemError([_too_few_others(search, labels)])
    rng = rng_for(seed, item.name, "order of the other options")
    others = iter(rng.sample(found, len(found)))
    shown: list[Candidate | None] = [next(others) if verdict.label in labels else None for verdict in verdicts]
    turns: list[float | None] = [
        None if one else option.turned for one, option in zip(shown, item.options, strict=True)
    ]
    outlines = [one.outline if one else verdict.outline for one, verdict in zip(shown, verdicts, strict=True)]
    orders = [rotational_symmetry_order(outline, slips.tolerance) for outline in outlines]
    found_turns = more_turns(rng_for(seed, item.name, "turns of the other options"), turns, orders, key)
    options = tuple(
        replace(one.option, turned=turn, scale=size) if one else option
        for one, option, turn in zip(shown, item.options, found_turns, strict=True)
    )
    return replace(item, options=options, made=None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Survey:
    """What single slips make of a question, beside the options that it has."""

    spare: tuple[tuple[Cases, Outline], ...]  # what could be an option and is none, in the order of the slips
    refused: tuple[tuple[Cases, str], ...]  # with why nothing comes of them
    without: tuple[str, ...]  # what slips may happen to, such as pieces, that no option shows a slip of

    def by_reason(self) -> tuple[tuple[str, tuple[str, ...]], ...]:
        """(why nothing comes of a slip, all slips of which it is true), that of most slips first."""
        return _by_reason(self.refused)


def surveyed(solution: Solution, slips: Slips) -> Survey:
    """Every single slip: shown by an option, or fit to be one, or why not.

    slips : of the question
    """
    search = OptionSearch(
        name=solution.item.name, make=0, seed=0, slips=slips, outline_given=solution.item.outline_given
    )
    search.gather(rng_for(0, solution.item.name, "survey"), slips.singles())
    shown = [verdict for verdict in solution.verdicts if not verdict.same]
    spare = tuple(
        (one.cases, one.outline)
        for one in search.pool
        if search.is_told(one)
        and not any(motions_onto(verdict.outline, one.outline, slips.tolerance) for verdict in shown)
    )
    covered = {case.subject for verdict in shown if verdict.slip for case in verdict.slip.cases}
    return Survey(
        spare=spare,
        refused=tuple(search.refused),
        without=tuple(sorted(search.subjects - covered)),
    )


def _too_few(search: OptionSearch, wanted: int) -> Fault:
    """What could be made, which slips failed, why."""
    count = len(search.most)
    changed = f"{search.slips.subject}s" if search.subjects else "outline"
    fewer = f"ask for {count} (make: {count}), " if count >= 2 else ""
    told = _reasons(search)
    return Fault(
        field="options.make",
        message=f"slips give only {count} of the {wanted} wrong options asked for that can be told apart at a glance"
        + (f" ({told})" if told else ""),
        fix=f"{fewer}write the options out, drawing some by their corners, or change the {changed}",
    )


def _too_few_others(search: OptionSearch, labels: Collection[str]) -> Fault:
    count = len(search.most) - len(search.standing)
    told = _reasons(search)
    return Fault(
        field="options",
        message=f"slips give only {max(0, count)} of the {len(labels)} other wrong options asked for that can be told "
        "apart at a glance from those that stay" + (f" ({told})" if told else ""),
        fix="exchange fewer of them, or let others stay",
    )


def _reasons(search: OptionSearch) -> str:
    likeliest = _by_reason([(cases, why) for cases, why in search.refused if len(cases) == 1])
    return "; ".join(f"{_some(names)}: {why}" for why, names in likeliest[:REASONS_TOLD])


def _by_reason(refused: Sequence[tuple[Cases, str]]) -> tuple[tuple[str, tuple[str, ...]], ...]:
    by_reason: dict[str, list[str]] = {}
    for cases, why in refused:
        by_reason.setdefault(why, []).append(said(cases))
    return tuple((why, tuple(names)) for why, names in sorted(by_reason.items(), key=lambda entry: -len(entry[1])))


def _some(names: Sequence[str]) -> str:
    rest = len(names) - SLIPS_TOLD
    return ", ".join(names[:SLIPS_TOLD]) + (f" and {rest} more" if rest > 0 else "")
