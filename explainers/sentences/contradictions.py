"""Where a teacher's own words say something else than the facts: clear contradictions only, each told in a clause.

Silence is no proof that words are right. What cannot be read, or may be meant otherwise, is let pass.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass

from ..choice.fact import Fact
from ..geometry.rings import interior_angles_deg
from ..words.mark_names import mark_name, the_mark
from ..words.names import is_half_turn, is_no_turn, list_in_words, the_piece
from .claims import (
    Claim,
    Vague,
    angles_in,
    bare_numbers_in,
    counts_in,
    directions_in,
    labels_in,
    labels_told,
    marks_in,
    names,
    seconds_in,
    sentences_of,
)
from .fact_lines import pause_line

__all__ = ["contradictions"]

_ABOUT_DEG = 7.5  # "about 40 degrees" may be said of 37
_ABOUT_S = 5.0


def contradictions(
    words: str, facts: Iterable[Fact], *, beside: Iterable[Fact] = (), pause_s: float = 0.0
) -> tuple[str, ...]:
    """What in the words contradicts the facts of their step, a clause each; () where nothing plainly does.

    beside  : the facts of all steps of the item: words may speak of another piece or option, if they name it
    pause_s : how long learners get, where the step says so or waits; 0 where it does not
    """
    known = _Known(tuple(_with_evidence(facts)), tuple(_with_evidence(beside)))
    found: list[str] = []
    sentences = [
        sentence for sentence in sentences_of(words) if not sentence.endswith("?")
    ]  # a question claims nothing
    words = " ".join(sentences)
    found += _turns(sentences, known)
    for sentence in sentences:
        found += _counts(sentence, known)
        found += _times(sentence, pause_s)
    found += [*_labels(words, known), *_marks(words, known), *_pieces(words, known), *_actions(words, known)]
    found += _verdicts(words, known)
    return tuple(dict.fromkeys(found))


@dataclass(frozen=True, slots=True)
class _Known:
    """The facts of the step, and of all steps of the item."""

    own: tuple[Fact, ...]
    beside: tuple[Fact, ...]


def _with_evidence(facts: Iterable[Fact]) -> Iterator[Fact]:
    for fact in facts:
        yield fact
        yield from _with_evidence(fact.stated().evidence)


def _but(said: str, facts: Iterable[Fact]) -> str:
    told = dict.fromkeys(fact.as_line() for fact in facts)
    return f'the words say "{said}", the facts say "{"; ".join(told)}"'


# Turns and angles.

# Figures that somebody reckons with are none that can be held against anything.
_RECKONING = re.compile(r"\b(?:as (?:much|far)|times|between|minus|plus|another|twice|double|again)\b", re.I)


def _turns(sentences: Sequence[str], known: _Known) -> Iterator[str]:
    facts = [fact for fact in known.own if _is_turn(fact) or fact.stated().corner_deg is not None]
    if not facts:
        return
    claims = [claim for sentence in sentences for claim in angles_in(sentence)]
    is_reckoning = any(_RECKONING.search(sentence) for sentence in sentences)
    for sentence in sentences:
        # A sentence may speak of another piece or option, but then it names it.
        others = [fact for fact in known.beside if _is_turn(fact) and _names_it(sentence, fact)]
        turns = [turn for fact in (*known.own, *others) for turn in _turns_of(fact)]
        sizes = [*_both_ways(abs(turn) for turn in turns), *_both_ways(_corner_angles([*known.own, *others]))]
        wrong = [claim for claim in angles_in(sentence) if _is_checked(claim, facts) and not _fits_any(claim, sizes)]
        # "a quarter turn, and then 45 more" is 135 in all
        more = [Claim(value=number, said="") for number in bare_numbers_in(sentence)]
        sums = (_in_all(claims), _in_all(wrong), _in_all([*wrong, *more]))
        if wrong and not is_reckoning and not any(_fits_any(in_all, sizes) for in_all in sums):
            yield _but(wrong[0].said, facts)
        else:
            yield from _directions(sentence, turns, facts)


def _is_checked(claim: Claim, facts: Sequence[Fact]) -> bool:
    """Angles of corners can be held only against facts that are about corners."""
    return claim.noun != "corner" or any(fact.stated().corner_deg is not None for fact in facts)


def _is_turn(fact: Fact) -> bool:
    return fact.stated().turn_deg is not None


def _both_ways(sizes: Iterable[float]) -> list[float]:
    """Of a turn the short and the long way round, of a corner its inside and its outside."""
    return [way for size in sizes for way in (size, 360.0 - size)]


def _corner_angles(facts: Iterable[Fact]) -> list[float]:
    told = [stated for stated in (fact.stated() for fact in facts) if stated.corner_deg is not None]
    rings = [ring for stated in told for outline in stated.outlines for ring in outline.rings]
    own = [stated.corner_deg for stated in told if stated.corner_deg is not None]
    return [*own, *(angle for ring in rings for angle in interior_angles_deg(ring))]


def _directions(sentence: str, turns: Sequence[float], facts: Sequence[Fact]) -> Iterator[str]:
    said, claims = directions_in(sentence), angles_in(sentence)
    ways = {sign for sign, _ in said}
    if len(ways) != 1 or not turns:
        return
    if any(is_half_turn(turn) or is_no_turn(turn) for turn in turns):
        return  # either way will do, or there is nothing to turn
    (way,) = ways
    short = [claim for claim in claims if _fits_any(claim, map(abs, turns))]
    # 270 degrees clockwise is where 90 anticlockwise leads
    round_about = not short and any(_fits_any(claim, [360.0 - abs(turn) for turn in turns]) for claim in claims)
    if not any((turn > 0) is ((way > 0) is not round_about) for turn in turns):
        yield _but(said[0][1], facts)


def _in_all(claims: Sequence[Claim]) -> Claim:
    """Angles one after the other: "a quarter turn and then 45 degrees" is 135."""
    return Claim(value=sum(claim.value for claim in claims), said="", slack=sum(claim.slack for claim in claims))


def _turns_of(fact: Fact) -> list[float]:
    stated = fact.stated()
    return [*(() if stated.turn_deg is None else (stated.turn_deg,)), *stated.other_turns_deg]


def _fits_any(claim: Claim, sizes: Iterable[float]) -> bool:
    return any(_fits(claim, size, _ABOUT_DEG) for size in sizes)


def _fits(claim: Claim, value: float, about: float) -> bool:
    if claim.vague is Vague.LESS:
        return value < claim.value + claim.slack
    if claim.vague is Vague.MORE:
        return value > claim.value - claim.slack
    slack = about if claim.vague is Vague.ABOUT else 0.0
    return abs(claim.value - value) <= max(slack, claim.slack) + 0.05


# Counts and times.


_ELSEWHERE = re.compile(r"\b(?:base|before|piece|paper|others?|so far)\b", re.I)


def _counts(sentence: str, known: _Known) -> Iterator[str]:
    claims = counts_in(sentence)
    every = {name for fact in (*known.own, *known.beside) for name in fact.stated().pieces}
    if not claims or _ELSEWHERE.search(sentence) or any(names(sentence, name) for name in every):
        return  # what it counts may be another shape
    labels = set(labels_in(sentence))
    if labels - {label for fact in known.own for label in _label_of(fact)}:
        return
    told = [fact.stated() for fact in known.own]
    outlines = [outline for stated in told for outline in stated.outlines]
    corners = {len(ring) for outline in outlines for ring in outline.rings}
    corners |= {outline.corner_count for outline in outlines}
    corners |= {stated.corner_count for stated in told if stated.corner_count is not None}
    corners |= {count for stated in told for count in stated.corner_counts}
    allowed = {
        "corner": corners,
        "side": corners,
        "hole": {len(outline.holes) for outline in outlines},
    }
    for claim in claims:
        if allowed[claim.noun] and claim.value not in allowed[claim.noun]:
            yield _but(claim.said, [fact for fact in known.own if fact.stated().outlines])


def _times(sentence: str, pause_s: float) -> Iterator[str]:
    claims = seconds_in(sentence) if pause_s > 0.0 else []
    if claims and not any(_fits(claim, pause_s, _ABOUT_S) for claim in claims):
        yield f'the words say "{claims[0].said}", the facts say "{pause_line(pause_s)}"'


# Names.


def _labels(words: str, known: _Known) -> Iterator[str]:
    said = labels_in(words)
    own = {label for fact in known.own for label in _label_of(fact)}
    every = own | {label for fact in known.beside for label in _label_of(fact)}
    if not said or not every:
        return
    unknown = [label for label in said if label not in every]
    if unknown:
        yield f'the words say "option {unknown[0]}", but the options are {list_in_words(sorted(every))}'
    elif own and not own & set(said) and (told := labels_told(words)):
        yield _but(f"option {told[0]}", [fact for fact in known.own if _label_of(fact)])


def _label_of(fact: Fact) -> list[str]:
    label = fact.stated().label
    return [label] if label else []


def _marks(words: str, known: _Known) -> Iterator[str]:
    own = {mark for fact in known.own for mark in _mark_of(fact)}
    every = own | {mark for fact in known.beside for mark in _mark_of(fact)}
    said = marks_in(words, every, {name for fact in (*known.own, *known.beside) for name in fact.stated().pieces})
    if not said or not every:
        return
    unknown = [mark for mark in said if mark not in every]
    if unknown:
        there = list_in_words(sorted(map(mark_name, every)))
        is_or_are = "mark is" if len(every) == 1 else "marks are"
        yield f'the words say "{the_mark(unknown[0])}", but the {is_or_are} {there}'
    elif own and not own & set(said):
        yield _but(the_mark(said[0]), [fact for fact in known.own if _mark_of(fact)])


def _mark_of(fact: Fact) -> list[str]:
    mark = fact.stated().mark
    return [mark] if mark else []


_DOING = r"(?:turn|rotate|give|slide|move|push|bring|join|sew|cut|lay|fit)"


def _pieces(words: str, known: _Known) -> Iterator[str]:
    """Another piece told to be turned, slid, joined or cut than the one that is."""
    facts = [fact for fact in known.own if fact.stated().is_moved]
    own = {name for fact in facts for name in fact.stated().pieces}
    if not own or any(names(words, name) for name in own):
        return
    for other in sorted({name for fact in known.beside for name in fact.stated().pieces} - own):
        said = the_piece(other)
        if re.search(rf"\b{_DOING} {re.escape(said)}\b", words, re.I):
            yield _but(said, facts)
            return


def _names_it(sentence: str, fact: Fact) -> bool:
    labels = set(labels_in(sentence))
    return any(names(sentence, name) for name in fact.stated().pieces) or not labels.isdisjoint(_label_of(fact))


# What is done with a piece, what becomes of an option.

_NOT = r"(?:\b(?:not|never|no|nor|neither|instead of|rather than)\b|n['’]t\b)"


def _actions(words: str, known: _Known) -> Iterator[str]:
    facts = [fact for fact in known.own if fact.stated().action]
    actions = {action for fact in facts if (action := fact.stated().action)}
    if len(actions) != 1 or any(fact.stated().may_be_other_action for fact in known.own):
        return
    (action,) = actions
    text = _without_names(words, {name for fact in (*known.own, *known.beside) for name in fact.stated().pieces})
    if re.search(_NOT, text, re.I):
        return
    wrong = action.counterclaim.search(text)
    if wrong and not action.claim.search(text):
        yield _but(wrong[0], facts)


def _without_names(words: str, known: Collection[str]) -> str:
    for name in known:
        words = re.sub(r"[-_\s]+".join(map(re.escape, re.split(r"[-_\s]+", name))), " ", words, flags=re.I)
    return words


_OUT = re.compile(r"\b(?:[Oo]ption )?(?<!\w)([A-F]) (?:is|must be) (?:out|wrong|not the (?:outline|answer))\b")
_RIGHT = re.compile(r"\b(?:[Oo]ption )?(?<!\w)([A-F]) (?:is|must be) (?:right|correct|the (?:answer|right one))\b")
_FLIPPED = re.compile(
    r"\b(?:is|was|has been) (?:the |a |an )?(?:outline )?(?:flipped|mirrored|mirror[- ]image|turned over)\b", re.I
)


def _verdicts(words: str, known: _Known) -> Iterator[str]:
    same = {fact.stated().label: fact for fact in known.own if fact.stated().is_right}
    if not same and not any(_label_of(fact) for fact in known.own):
        return
    wrong = {label: fact for fact in known.own if not fact.stated().is_right for label in _label_of(fact)}
    for said in _OUT.finditer(words):
        if said[1] in same:
            yield _but(said[0], [same[said[1]]])
    for said in _RIGHT.finditer(words):
        if said[1] in wrong and said[1] not in same:
            yield _but(said[0], [wrong[said[1]]])
    flips = any(fact.stated().may_be_flip for fact in known.own)
    flipped = _FLIPPED.search(words)
    if flipped and not flips and not re.search(_NOT, words, re.I):
        yield _but(flipped[0], [fact for fact in known.own if _label_of(fact)][:1])
