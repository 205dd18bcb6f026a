"""Why an option is ruled out: facts about places where it differs, the most visible first.

How well a fact is seen is how large its place is: the places where option and outline differ are gone through from the
largest to the smallest. At one place, a fact that names a hole, a part that has moved, a corner or a side comes before
the bare part that is too much or too little, unless the difference that it names is slight: ``differences.FINDERS`` has
the order. Every candidate is built from the fit, then asked whether it holds; what does not is dropped.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import islice

from ..geometry.outline import Outline
from .differences import FINDERS
from .differences.bare_part import BarePartFact
from .differences.difference import Compared, DifferenceFact, Finder
from .differences.extra_part import extra_parts
from .differences.hole import clear_holes
from .differences.mirror import MirrorFact
from .differences.missing_part import missing_parts
from .fact import Fact
from .fit import Fit

__all__ = ["reasons"]

MOST = 3  # reasons kept
MOST_AT_ONE_PLACE = 2
PLACES = 4  # the largest are looked at


def reasons(
    *, label: str, option: Outline, outline: Outline, fit: Fit, mirrored: bool, tolerance: float
) -> tuple[Fact, ...]:
    """The facts that rule an option out, most visible first; for a mirrored one, that it is mirrored leads in.

    One of each kind at most; a part that is too much or too little is always among them, where one holds.
    option : in its own coordinates
    """
    places = sorted((*fit.extra, *fit.missing), key=lambda place: -place.area)[:PLACES]
    pair = Compared(label=label, fit=fit, outline=outline, tolerance=tolerance)
    if mirrored:
        lead = MirrorFact(tolerance=tolerance, label=label, option=option, outline=outline)
        return (*((lead,) if lead.holds() else ()), *_first(pair, places, extra_parts, missing_parts))
    found = _first(pair, places, clear_holes)
    for place in places:
        most = MOST_AT_ONE_PLACE - sum(fact.place is place for fact in found)
        found += _at(place, pair, {_kind(fact) for fact in found}, min(most, MOST - len(found)))
        if len(found) >= MOST:
            break
    if not any(isinstance(fact, BarePartFact) for fact in found):
        part = _first(pair, places, extra_parts, missing_parts)
        found = [*found[: MOST - len(part)], *part]
    return tuple(found)


def _at(place: Outline, pair: Compared, had: set[type], wanted: int) -> list[DifferenceFact]:
    """The facts of one place, clearest first, without the kinds that are had already."""
    found: list[DifferenceFact] = []
    for find in FINDERS:
        if len(found) == wanted:
            break
        taken = had | {_kind(fact) for fact in found}
        fact = next((fact for fact in find(pair, place) if _kind(fact) not in taken and fact.holds()), None)
        if fact is not None:
            found.append(fact)
    return found


def _kind(fact: DifferenceFact) -> type:
    """A part too much and a part too little count as one kind."""
    return BarePartFact if isinstance(fact, BarePartFact) else type(fact)


def _first(pair: Compared, places: Sequence[Outline], *finders: Finder) -> list[DifferenceFact]:
    """The first that holds, place by place, or none."""
    candidates = (fact for place in places for find in finders for fact in find(pair, place) if fact.holds())
    return list(islice(candidates, 1))
