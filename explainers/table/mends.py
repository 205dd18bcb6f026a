"""What mends the faults and warnings of a text: proposals tried one after the other, offered where they work.

A proposal works where what it is for is gone after it, no fault is there that was not there before, and a question that
was sound is so still; where the question was solved before, no new warning may be there either. So whatever is
proposed, no button promises what it does not keep. How many are tried is bounded.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

from ..choice.model import Warning_
from ..document.nodes import MapNode
from ..document.text_places import composed_once
from ..editing.command import command_from
from ..editing.proposals import Proposal, leaf_text, proposals_at
from ..editing.sheet import CannotEdit, Sheet
from ..errors import Fault
from ..intake.item_reader import format_of_kind
from ..kinds.registry import kind_named, kind_names
from .option_mends import option_proposals, right_proposals, spare_of, tested_proposals
from .sitting import done_to, kind_of_text
from .state import Judged, judged
from .written_options import commands_of

__all__ = ["mends_of"]

_MOST_TRIED = 60  # of a text
_MOST_TRIED_EACH = 18
_MOST_OFFERED = 3  # for one fault
_MOST_MENDED = 12  # faults and warnings of which mends are sought
_PLACE = re.compile(r"\[\d+\]|\bnumber \d+|\boptions? [A-F]\b|\bpieces? \d+")
_REASON = "tried"

Works = Callable[[Judged], bool]


def mends_of(now: Judged, path: Path) -> dict[str, Any]:
    """The answer, as ``server`` tells it."""
    root = composed_once(now.text).root
    return {"mends": _Mending(now, path, root).all() if root is not None else []}


class _Mending:
    """The mends of one text."""

    def __init__(self, now: Judged, path: Path, root: MapNode) -> None:
        self._now, self._path, self._root = now, path, root
        kind = kind_of_text(now.text)
        self._kind, self._commands = kind_named(kind), commands_of(kind)
        self._sheet = Sheet(text=now.text, order=format_of_kind(kind).order)
        self._tried: dict[str, Judged] = {}
        self._left = _MOST_TRIED

    def all(self) -> list[dict[str, Any]]:
        now, solution = self._now, self._now.solution
        spare = spare_of(now)
        words = self._words()
        told: list[dict[str, Any]] = []
        warnings = solution.warnings if solution is not None else ()
        every: tuple[Fault | Warning_, ...] = (*now.faults, *warnings)
        for number, each in enumerate(every[:_MOST_MENDED]):
            is_fault = number < len(now.faults)
            proposals = (
                *proposals_at(self._sheet, each.field, words),
                *self._of_a_walk(each.field),
                *self._kind.tools.proposals(self._sheet, each.field, self._root),
                *option_proposals(self._sheet, each.field, spare),
            )
            gone = _without_fault if is_fault else _without_warning
            kind = None if isinstance(each, Fault) else str(each.kind)
            told.append({
                "of": "fault" if is_fault else "warning",
                "number": number,
                "piece": None,
                "offers": self._offers(proposals, gone(self._now, each.field, each.message)),
                "accepts": kind if kind and self._may_stand(kind) else None,
            })  # fmt: skip
        if solution is not None and not solution.sound:
            right = [verdict.label for verdict in solution.verdicts if verdict.same]
            offers = self._offers(right_proposals(self._sheet, right, spare), lambda after: _is_sound(after))
            told.append({"of": "verdict", "number": None, "piece": None, "offers": offers, "accepts": None})
        for piece in spare.without if solution is not None else ():
            offers = self._offers(
                tested_proposals(now, self._sheet, piece, spare),
                lambda after, piece=piece: piece not in spare_of(after).without,  # type: ignore[misc]
            )
            told.append({"of": "without", "number": None, "piece": piece, "offers": offers, "accepts": None})
        return told

    def _words(self) -> Mapping[str, Sequence[str]]:
        """What may be written after a key, whatever it is a key of."""
        names = [leaf_text(self._sheet, f"pieces[{n}].piece") for n in range(self._length("pieces"))]
        return {
            "slip": list(self._kind.slips_in_brief()),
            "piece": [name for name in names if name],
            "outline": ["result"],
            "kind": list(kind_names()),
        }

    def _length(self, path: str) -> int:
        try:
            return self._sheet.length(path)
        except CannotEdit:
            return 0

    def _of_a_walk(self, field: str) -> Iterator[Proposal]:
        """A walk that misses its start ends there by the word for it."""
        walk = leaf_text(self._sheet, field)
        if field.endswith(".walk") and walk:
            yield Proposal(
                words="End the walk with close",
                commands=({"do": "set-walk", "at": field.removesuffix(".walk"), "walk": f"{walk}, close"},),
            )

    def _may_stand(self, kind: str) -> bool:
        """Whether a warning is gone once its acceptance is written."""
        after = self._after(({"do": "set", "at": f"accepted.{kind}", "value": _REASON},))
        return after is not None and self._is_no_worse(after) and not _kinds(after)[kind]

    def _offers(self, proposals: Iterable[Proposal], works: Works) -> list[dict[str, Any]]:
        found: list[Proposal] = []
        doubtful: set[str] = set()
        tried = 0
        for proposal in proposals:
            known = any(each.group == proposal.group for each in found) if proposal.group else False
            if (known and not proposal.alone) or tried >= _MOST_TRIED_EACH or self._left <= 0:
                continue
            if any(each.words == proposal.words for each in found):
                continue
            tried += 1
            after = self._after(proposal.commands)
            if after is None or not self._is_no_worse(after) or not works(after):
                continue
            if proposal.plain:
                return [_offer(proposal)]
            if known:
                doubtful.add(proposal.group)
            else:
                found.append(proposal)
        sure = [each for each in found if not (each.alone and each.group in doubtful)]
        return [_offer(each) for each in sure[:_MOST_OFFERED]]

    def _after(self, commands: Sequence[dict[str, Any]]) -> Judged | None:
        try:
            sheet = done_to(self._now.text, [command_from(each, self._commands) for each in commands])
        except CannotEdit:
            return None
        if sheet.text == self._now.text:
            return None
        if sheet.text not in self._tried:
            self._left -= 1
            self._tried[sheet.text] = judged(sheet.text, self._path)
        return self._tried[sheet.text]

    def _is_no_worse(self, after: Judged) -> bool:
        now = self._now
        if _faults(after) - _faults(now):
            return False
        if after.solution is not None and not after.solution.sound and (now.solution is None or now.solution.sound):
            return False
        if now.solution is None or not now.solution.sound:
            return True  # what a teacher should look at could not be told before
        return not _kinds(after) - _kinds(now)


def _offer(proposal: Proposal) -> dict[str, Any]:
    return {"words": proposal.words, "commands": list(proposal.commands)}


def _without_fault(now: Judged, field: str, message: str) -> Works:
    mine = _alike(field, message)
    before = _faults(now)[mine]
    return lambda after: _faults(after)[mine] < before


def _without_warning(now: Judged, field: str, message: str) -> Works:
    mine = _alike(field, message)

    def works(after: Judged) -> bool:
        return after.solution is not None and _warnings(after)[mine] < _warnings(now)[mine]

    return works


def _faults(of: Judged) -> Counter[tuple[str, str]]:
    return Counter(_alike(fault.field, fault.message) for fault in of.faults)


def _warnings(of: Judged) -> Counter[tuple[str, str]]:
    told = of.solution.warnings if of.solution is not None else ()
    return Counter(_alike(each.field, each.message) for each in told)


def _kinds(of: Judged) -> Counter[str]:
    return Counter(str(each.kind) for each in of.solution.warnings) if of.solution is not None else Counter()


def _alike(field: str, message: str) -> tuple[str, str]:
    """A fault whatever the number of its option or piece, since others may come and go before it."""
    return _PLACE.sub("", field), _PLACE.sub("", message)


def _is_sound(after: Judged) -> bool:
    return after.solution is not None and after.solution.sound
