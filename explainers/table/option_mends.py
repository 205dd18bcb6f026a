"""What may mend a fault or a warning of options: another slip in the place of one, one more, one taken out."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

from ..choice.making import Survey, surveyed
from ..choice.model import Solution
from ..choice.option_search import Cases, said
from ..choice.question import OPTION_LABELS
from ..document.notation import listed
from ..editing.proposals import Proposal, leaf_text
from ..editing.sheet import CannotEdit, Sheet
from ..item.option_reader import LEAST_OPTIONS, MOST_OPTIONS
from ..kinds.registry import kind_of, solve
from .state import Judged

__all__ = ["Spare", "option_proposals", "right_proposals", "spare_of", "tested_proposals"]

_OPTION = re.compile(r"options\[(\d+)\](?:\.([a-z]+))?")
_USUAL = 5
_MOST_SPARE = 6  # slips that are tried in one place
_MADE_KEYS = ("slip", "piece", "outline")


@dataclass(frozen=True, slots=True, kw_only=True)
class Spare:
    """The slips that could be an option and are none, of a question of which the rest can be solved."""

    cases: tuple[Cases, ...] = ()
    without: tuple[str, ...] = ()


def spare_of(now: Judged) -> Spare:
    """Of a text, whatever is wrong with some of its options."""
    solution = now.so_far() or _of_options_that_stand(now)
    if solution is None:
        return Spare()
    survey: Survey = surveyed(solution, kind_of(solution.item).slips_of(solution))
    return Spare(cases=tuple(cases for cases, _ in survey.spare if len(cases) == 1), without=survey.without)


def _of_options_that_stand(now: Judged) -> Solution | None:
    """The question without the options that have a fault."""
    begun = now.reading.begun or now.reading.item
    if begun is None:
        return None
    faulty = set()
    for fault in now.faults:
        if match := _OPTION.match(fault.field):
            faulty.add(int(match[1]))
        elif not re.match(r"options\b", fault.field):
            return None
    standing = tuple(option for number, option in enumerate(begun.options) if number not in faulty)
    try:
        return solve(replace(begun, options=standing, made=None))
    except Exception:  # of a question that is not whole; its faults say what is missing
        return None


def option_proposals(sheet: Sheet, field: str, spare: Spare) -> Iterator[Proposal]:
    """For a fault or a warning at a field of the options."""
    count = _count(sheet)
    if field in ("options", "options.make", "options.seed"):
        yield from _of_all(field, count, spare)
        return
    match = _OPTION.match(field)
    if match is None:
        return
    number, key = int(match[1]), match[2] or ""
    at, label = f"options[{number}]", _label(number)
    if number >= count:  # made ones
        for seed in range(2, 6):
            yield Proposal(
                words="Have others made", commands=({"do": "make-options", "make": _USUAL - 1, "seed": seed},),
                group="made",
            )  # fmt: skip
        return
    if key in (*_MADE_KEYS, "name", "holes", "from"):
        if key == "piece":
            for name in _names(sheet):
                yield Proposal(
                    words=f"Let it happen to the {name}",
                    commands=({"do": "set", "at": f"{at}.piece", "value": name},),
                    group="subject",
                )
        yield Proposal(
            words=f"Take {key} out", commands=({"do": "set", "at": f"{at}.{key}", "value": None},), group="key"
        )
    for cases in spare.cases[:_MOST_SPARE]:
        yield Proposal(
            words=f"Put {said(cases)} in the place of option {label}",
            commands=({"do": "exchange-option", "option": number, **_case(cases)},),
            group="exchange",
        )
    if count > LEAST_OPTIONS:
        yield Proposal(words=f"Take option {label} out", commands=({"do": "remove", "at": at},))


def _of_all(field: str, count: int, spare: Spare) -> Iterator[Proposal]:
    if field == "options" and count > MOST_OPTIONS:
        for number in reversed(range(count)):
            out = [
                {"do": "remove", "at": f"options[{each}]"}
                for each in range(number, number - (count - MOST_OPTIONS), -1)
            ]
            if number - (count - MOST_OPTIONS) < -1:
                break
            which = "the last one" if len(out) == 1 else f"the last {len(out)}"
            words = (
                f"Take {which} out" if number == count - 1 else f"Take {len(out)} wrong out, before number {number + 2}"
            )
            yield Proposal(words=words, commands=tuple(out), group="fewer")
    elif field == "options" and 0 < count < _USUAL:
        for right in (False, True):
            cases = spare.cases[: _USUAL - count - right]
            added = [{"do": "add-option"}] * right + [{"do": "add-option", **_case(each)} for each in cases]
            if added:
                told = ["the right one"] * right + [said(each) for each in cases]
                yield Proposal(words=f"Add {listed(told, 'and')}", commands=tuple(added), group="more")
    for make in (4, 3, 2):
        words = "Make five options" if make == 4 else f"Have {make} wrong ones made"
        if count == 0:
            yield Proposal(
                words=words, commands=({"do": "make-options", "make": make, "seed": 1},), group="make"
            )  # fmt: skip


def right_proposals(sheet: Sheet, right: Sequence[str], spare: Spare) -> Iterator[Proposal]:
    """For a question with no right option, or with several.

    right : the letters of those that are right
    """
    count = _count(sheet)
    if not right:
        if count < MOST_OPTIONS:
            yield Proposal(words="Add the right one", commands=({"do": "add-option"},))
        for number in reversed(range(count)):
            yield Proposal(
                words=f"Put the right one in the place of option {_label(number)}",
                commands=({"do": "exchange-option", "option": number},),
                group="right",
            )
        return
    for label in reversed(right):
        number = OPTION_LABELS.index(label)
        for cases in spare.cases[:_MOST_SPARE]:
            yield Proposal(
                words=f"Put {said(cases)} in the place of option {label}",
                commands=({"do": "exchange-option", "option": number, **_case(cases)},),
                group=f"exchange {label}",
            )
        if count > LEAST_OPTIONS:
            yield Proposal(words=f"Take option {label} out", commands=({"do": "remove", "at": f"options[{number}]"},))


def tested_proposals(now: Judged, sheet: Sheet, piece: str, spare: Spare) -> Iterator[Proposal]:
    """For a piece of which no option shows a slip."""
    fit = [cases for cases in spare.cases if cases[0].subject == piece][:3]
    count = _count(sheet)
    if count == 0 or now.solution is None:
        return
    if count < MOST_OPTIONS:
        for cases in fit:
            yield Proposal(
                words=f"Add {said(cases)}", commands=({"do": "add-option", **_case(cases)},), group="add"
            )  # fmt: skip
    wrong = [verdict for verdict in now.solution.verdicts if not verdict.same]
    told = [verdict.slip.cases[0].subject if verdict.slip else None for verdict in wrong]
    for verdict, subject in zip(reversed(wrong), reversed(told), strict=True):
        if subject is not None and told.count(subject) == 1:
            continue  # the only one that tests another piece
        for cases in fit[:1]:
            yield Proposal(
                words=f"Put {said(cases)} in the place of option {verdict.label}",
                commands=(
                    {"do": "exchange-option", "option": OPTION_LABELS.index(verdict.label), **_case(cases)},
                ),
                group="exchange",
            )  # fmt: skip


def _case(cases: Cases) -> dict[str, Any]:
    return {"slip": cases[0].slip, "piece": cases[0].subject}


def _label(number: int) -> str:
    return OPTION_LABELS[number] if number < len(OPTION_LABELS) else str(number + 1)


def _names(sheet: Sheet) -> list[str]:
    return [name for n in range(sheet.length("pieces")) if (name := leaf_text(sheet, f"pieces[{n}].piece"))]


def _count(sheet: Sheet) -> int:
    try:
        return sheet.length("options")
    except CannotEdit:
        return 0
