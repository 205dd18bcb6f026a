"""Slips in words: true of the item, kind, plain, and the same when read back."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import fact_samples as samples
import pytest
from demo_items import demo_items
from oracles.sentence_parser import faults_of, options_of, piece_named_in, slips_of
from slip_samples import FLAG_ITEM, fact_of, facts_of, pair_facts_of, renamed
from strategies import random_item

from explainers.choice.slip import SlipCase
from explainers.errors import FactError
from explainers.geometry.outline import Outline
from explainers.geometry.rigid_motion import Ring
from explainers.intake.reader import read_item
from explainers.kinds.join_and_cut.model import Does
from explainers.kinds.join_and_cut.slips.registry import SLIPS, slip_cases
from explainers.kinds.join_and_cut.slips.slip_fact import PieceSlipFact
from explainers.kinds.join_and_cut.words.slips import in_brief, practise
from explainers.sentences import notes

ITEMS = demo_items("join-and-cut")
BLAME = ("you forgot", "mistake", "wrongly", "careless", "failed", "should have", "your fault", "you ")


def check(fact: PieceSlipFact) -> None:
    """The words of a slip against the item that it happens on."""
    words = fact.in_short()
    for sentence in words:
        assert faults_of(sentence) == [], sentence
        assert "{" not in sentence
        assert not [blame for blame in BLAME if blame in sentence.lower()], sentence
    assert set(options_of(" ".join(words))) == {fact.label}
    told = slips_of(words)
    assert sorted(kind for kind, _ in told) == sorted(case.slip for case in fact.cases)
    names = [piece.name for piece in fact.item.pieces]
    for kind, named in told:
        matching = [case for case in fact.cases if case.slip == kind]
        if kind == "flipped":
            assert named == {"outline": "the outline"}
            continue
        (case,) = [case for case in matching if piece_named_in(named["piece"], str(case.subject))][:1]
        index = names.index(str(case.subject))
        if kind == "next-side":
            assert named["partner"] == ("the base" if index == 0 else "the shape")
        if kind == "other-way-round":
            asked = "joined" if fact.item.pieces[index].does is Does.JOIN else "cut away"
            assert named["asked"] == asked
            assert named["done"] != asked
        if kind == "swapped":
            assert piece_named_in(named["other"], names[index + 1])
    brief = fact.in_brief()
    for case in fact.cases:
        assert case.subject is None or piece_named_in(brief, case.subject)
    for phrase in (brief, *(in_brief(case) for case in fact.cases)):
        assert faults_of(f"{phrase[:1].upper()}{phrase[1:]}.", most_words=40) == [], phrase


def broken(fact: PieceSlipFact) -> list[PieceSlipFact]:
    """The same fact with its option, its case, its piece or its replay changed."""
    squashed = samples.Outline.of(
        tuple((x * 1.2, y) for x, y in fact.option.exterior),
        [tuple((x * 1.2, y) for x, y in hole) for hole in fact.option.holes],
    )
    others = [case for case in slip_cases(fact.item) if (case,) != fact.cases]
    return [
        replace(fact, option=squashed),
        replace(fact, option=fact.outline),
        replace(fact, replayed=squashed),
        replace(fact, outline=squashed),
        *(replace(fact, cases=(case,)) for case in others),
        replace(fact, cases=(SlipCase(slip="left-out", subject="nobody"),)),
        replace(fact, cases=(SlipCase(slip="no-such-slip", subject=fact.cases[0].subject),)),
    ]


SAMPLES = list(facts_of(FLAG_ITEM))


def test_there_is_a_sample_of_every_slip() -> None:
    assert {fact.cases[0].slip for fact in SAMPLES} == set(SLIPS)


@pytest.mark.parametrize("fact", SAMPLES, ids=lambda fact: f"{fact.cases[0].slip} {fact.cases[0].subject or ''}")
def test_every_slip_is_told_truly_or_not_at_all(fact: PieceSlipFact) -> None:
    check(fact)
    for wrong in broken(fact):
        with pytest.raises(FactError, match="does not hold"):
            wrong.in_short()
        with pytest.raises(FactError, match="does not hold"):
            wrong.in_brief()


@pytest.mark.parametrize(
    ("slip", "piece", "words", "brief"),
    [
        ("flipped", None, "the outline is flipped over", "the outline flipped over"),
        ("piece-flipped", "flag", "the flag is flipped before the marks meet", "the flag flipped over"),
        ("not-turned", "flag", "the flag slides into place without a turn", "the flag not turned"),
        ("turned-back", "flag", "the flag is turned the wrong way", "the flag turned the wrong way"),
        ("next-side", "flag", "the flag meets the next side of the base", "the flag at the next side of the base"),
        ("side-before", "flag", "the flag meets the side before the marked one",
         "the flag at the side before the marked one"),
        ("slid", "flag", "the flag slides along the side, off its mark", "the flag slid along the side, off its mark"),
        ("other-way-round", "flag", "the flag is cut away, not joined", "the flag cut away, not joined"),
        ("other-way-round", "bite", "the bite is joined, not cut away", "the bite joined, not cut away"),
        ("left-out", "bite", "the bite is left out", "the bite left out"),
        ("too-large", "flag", "the flag is too large", "the flag too large"),
        ("too-small", "flag", "the flag is too small", "the flag too small"),
        ("swapped", "flag", "the flag and the bar change places", "the flag and the bar in each other's place"),
    ],
)  # fmt: skip
def test_a_slip_is_told_in_these_words(slip: str, piece: str | None, words: str, brief: str) -> None:
    fact = fact_of(FLAG_ITEM, SlipCase(slip=slip, subject=piece))
    assert fact.in_short()[0] == f"In option B, {words}."
    assert fact.in_brief() == brief


def test_a_later_piece_is_not_said_to_meet_a_side_of_the_base() -> None:
    """Going on from its side, the outline may lead to a side that an earlier piece brought."""
    fact = fact_of(FLAG_ITEM, SlipCase(slip="next-side", subject="bite"))
    assert fact.in_short() == ("In option B, the bite meets the next side of the shape.",)


WINDOWED = ((0.0, 0.0), (9.0, 0.0), (9.0, 8.0), (0.0, 8.0))
WINDOW = ((2.0, 2.0), (6.0, 2.0), (6.0, 6.0), (2.0, 6.0))


@pytest.mark.parametrize(
    ("slip", "hole", "words", "lands"),
    [
        # As seen, going round from the right: the upper side comes anticlockwise, the lower one clockwise.
        ("next-side", None, "to the next side of the base, anticlockwise from the marked one", "above"),
        ("side-before", None, "to the side before the marked one, clockwise from it", "below"),
        ("next-side", WINDOW, "to the next side of the hole, clockwise from the marked one", "below"),
        (
            "side-before",
            WINDOW,
            "to the side before the marked one, anticlockwise round the hole",
            "above",
        ),
    ],
)
def test_a_direction_is_told_as_it_is_seen_also_round_a_hole(
    slip: str, hole: Ring | None, words: str, lands: str
) -> None:
    at = ((6.0, 5.0), (6.0, 3.0)) if hole else ((9.0, 3.0), (9.0, 5.0))
    piece = replace(FLAG_ITEM.pieces[0], meets=at)
    asked = replace(FLAG_ITEM, base=Outline.of(WINDOWED, (hole,) if hole else ()), pieces=(piece,))
    fact = fact_of(asked, SlipCase(slip=slip, subject="flag"))
    assert fact.did() == f"Probably took the flag {words}."
    low, high = (2.0, 6.0) if hole else (0.0, 8.0)
    foot = high if lands == "above" else low
    met = [corner for corner in fact.placements[0].ring if corner[1] == pytest.approx(foot)]
    assert len(met) == 2


def test_both_slips_of_a_pair_are_told() -> None:
    pair = (SlipCase(slip="turned-back", subject="flag"), SlipCase(slip="left-out", subject="bite"))
    fact = fact_of(FLAG_ITEM, *pair)
    assert fact.in_short() == ("In option B, the flag is turned the wrong way.", "Also, the bite is left out.")
    assert fact.in_brief() == "the flag turned the wrong way, with the bite left out"
    flip = fact_of(FLAG_ITEM, SlipCase(slip="flipped"), pair[1])
    assert flip.in_short() == ("In option B, the bite is left out.", "Also, the outline is flipped over.")
    for wrong in (pair[:1], pair[1:], (pair[0], SlipCase(slip="left-out", subject="flag"))):
        with pytest.raises(FactError):
            replace(fact, cases=wrong).in_short()


def test_a_long_name_makes_no_long_sentence() -> None:
    item = renamed(FLAG_ITEM, flag="big-left-corner-patch", bar="long-upper-border-strip")
    for fact in facts_of(item):
        check(fact)


@pytest.mark.parametrize("names", [("block-2", "x"), ("the-star", "p1"), ("A", "hour-glass")])
def test_any_name_is_told_and_read_back(names: tuple[str, str]) -> None:
    for fact in facts_of(renamed(FLAG_ITEM, flag=names[0], bite=names[1])):
        check(fact)


@pytest.mark.parametrize("path", ITEMS, ids=lambda path: path.stem)
def test_every_slip_of_the_demo_items_is_told_truly(path: Path) -> None:
    item = read_item(path)
    facts = [*facts_of(item), *pair_facts_of(item, 12)]
    assert facts
    for fact in facts:
        check(fact)


def test_every_slip_of_generated_items_is_told_truly(cases: Callable[[int, int], int]) -> None:
    kinds = set()
    for seed in range(cases(8, 400)):
        item = random_item(seed)
        others = slip_cases(item)
        for number, fact in enumerate((*facts_of(item), *pair_facts_of(item, 2))):
            check(fact)
            kinds |= {case.slip for case in fact.cases}
            other = (others[number * 5 % len(others)],)  # a step that is not the facts' own, to meet many
            for wrong in (replace(fact, option=fact.outline), replace(fact, cases=other)):
                if wrong != fact:
                    with pytest.raises(FactError):
                        wrong.in_short()
    assert kinds == set(SLIPS)


@pytest.mark.parametrize("slip", sorted(SLIPS))
def test_what_to_practise_is_one_plain_sentence(slip: str) -> None:
    told = practise(SlipCase(slip=slip, subject=None if slip == "flipped" else "flag"))
    assert told.startswith("Practise ")
    assert faults_of(told) == []


def test_most_slips_have_something_of_their_own_to_practise() -> None:
    assert len({practise(SlipCase(slip=slip)) for slip in SLIPS}) == len(SLIPS)


def test_without_the_item_a_phrase_stays_general_and_true() -> None:
    assert in_brief(SlipCase(slip="swapped", subject="flag")) == "the flag and the piece after it in each other's place"
    assert in_brief(SlipCase(slip="other-way-round", subject="flag")) == "the flag on the wrong side of its mark"
    assert in_brief(SlipCase(slip="next-side", subject="flag")) == "the flag at the next side of the shape"


def test_a_slip_without_words_is_not_passed_over() -> None:
    with pytest.raises(TypeError, match="no-such-slip"):
        practise(SlipCase(slip="no-such-slip"))


def test_a_note_says_what_to_ask_and_what_to_practise() -> None:
    fact = fact_of(FLAG_ITEM, SlipCase(slip="turned-back", subject="flag"), SlipCase(slip="left-out", subject="bite"))
    note = notes.slip_note(fact)
    assert all(practise(case) in note for case in fact.cases)
    assert options_of(note) == ["B"]
    assert faults_of(note, most_words=60) == []
    for labels in ("B", "BD"):
        assert faults_of(notes.sift_note(labels)) == []
