"""Options in words: what differs, the slip behind it in short; the right one confirmed."""

from __future__ import annotations

from dataclasses import replace

import fact_samples as samples
import pytest
from demo_items import demo_items
from oracles.sentence_parser import counts_of, faults_of, options_of, slips_of
from slip_samples import FLAG_ITEM, fact_of, verdict

from explainers.choice.differences.difference import DifferenceFact
from explainers.choice.finished import outline_fact
from explainers.choice.model import Solution
from explainers.choice.same import SameFact
from explainers.choice.slip import SlipCase
from explainers.choice.words import choices
from explainers.choice.words.choosing import not_this
from explainers.choice.words.report import reason_in_brief
from explainers.errors import FactError
from explainers.intake.reader import read_item
from explainers.kinds.join_and_cut.slips.slip_fact import PieceSlipFact
from explainers.kinds.join_and_cut.solving.solver import solve

ITEMS = demo_items("join-and-cut")
PART = samples.missing_part_fact


def slip(kind: str, piece: str | None = "flag", label: str = "B") -> PieceSlipFact:
    return fact_of(FLAG_ITEM, SlipCase(slip=kind, subject=piece), label=label)


def test_the_slip_is_told_in_short_after_what_is_seen() -> None:
    told = verdict("B", PART(), slip=slip("turned-back"))
    assert choices.rule_out(told) == (
        "Lay option B on the outline.",
        *choices.reason(PART()),
        "In option B, the flag is turned the wrong way.",
        "So B is out.",
    )
    assert choices.reasons_said(told) == (told.slip, PART())


def test_a_slip_is_left_untold_where_a_lesson_does_not_ask_for_it() -> None:
    told = verdict("B", PART(), slip=slip("turned-back"))
    words = choices.rule_out(told, slips_told=False)
    assert not slips_of(words)
    assert [said for said in choices.rule_out(told) if said not in words] == list(slip("turned-back").in_short())


def test_that_an_option_is_out_is_not_said_in_the_same_way_each_time() -> None:
    said = [choices.rule_out(verdict("B", PART()), number=number)[-1] for number in range(4)]
    assert len(set(said[:3])) == 3 and said[3] == said[0]
    assert all("B" in sentence for sentence in said)


def test_a_flip_is_told_once() -> None:
    told = verdict("B", samples.mirror_fact(), PART(), slip=slip("flipped", None))
    assert " ".join(choices.rule_out(told)).count("flip") == 1
    assert choices.flips_known(told) == (told.slip,)
    assert choices.reasons_known(told) == (told.slip, PART())
    assert reason_in_brief(told).count("flipped") == 1


def test_a_flip_is_told_where_its_slip_is_not() -> None:
    flip = samples.mirror_fact()
    told = verdict("B", flip, PART(), slip=slip("flipped", None))
    words = choices.rule_out(told, slips_told=False)
    assert words[1:] == (*choices.reason(flip), *choices.reason(PART()), "So B is out.")
    assert choices.reasons_said(told, slips_told=False) == (told.slip, flip, PART())


def test_a_flip_that_another_slip_gives_is_told_too() -> None:
    told = verdict("B", samples.mirror_fact(), PART(), slip=slip("piece-flipped"))
    assert "Option B is the outline flipped over." in choices.rule_out(told)
    assert choices.reasons_said(told) == (told.slip, samples.mirror_fact(), PART())
    assert choices.flips_known(told) == (samples.mirror_fact(),)


def test_a_slip_is_never_told_of_another_option() -> None:
    with pytest.raises(FactError, match="option C"):
        choices.rule_out(verdict("B", PART(), slip=slip("turned-back", label="C")))


def test_a_slip_that_does_not_hold_stops_every_door() -> None:
    false = replace(slip("turned-back"), cases=(SlipCase(slip="left-out", subject="flag"),))
    told = verdict("B", PART(), slip=false)
    for say in (choices.rule_out, reason_in_brief, lambda verdict: not_this(verdict, PART())):
        with pytest.raises(FactError, match="does not hold"):
            say(told)


def test_a_slip_without_a_place_rules_nothing_out() -> None:
    with pytest.raises(FactError, match="pointed at"):
        choices.rule_out(verdict("B", slip=slip("turned-back")))


def test_a_line_starts_with_the_slip() -> None:
    line = reason_in_brief(verdict("B", PART(), slip=slip("left-out", "bite")))
    assert line.startswith("the bite left out; a part missing, ")


@pytest.mark.parametrize(
    "fact", [fact for fact in samples.reasons() if isinstance(fact, DifferenceFact)], ids=lambda f: type(f).__name__
)
def test_one_sentence_of_a_reason_speaks_of_its_place(fact: DifferenceFact) -> None:
    assert sum(sentence.startswith("Here ") for sentence in choices.reason(fact)) == 1
    assert choices.place_said(fact) in choices.reason(fact)
    assert choices.place_said(fact) in choices.rule_out(verdict("B", fact))
    with pytest.raises(FactError):
        choices.place_said(replace(fact, ring_centre=(0.5, 0.5)))


# The right option


def kept_and_figures(outline: samples.Outline, label: str = "C") -> tuple[SameFact, samples.OutlineFact]:
    motion = samples.Similarity(turn_deg=-90.0)
    fact = SameFact(
        label=label, option=outline, outline=outline.moved(motion), motion=motion, shown_turn_deg=0.0, turn_deg=-90.0,
        tolerance=samples.TOLERANCE,
    )  # fmt: skip
    return fact, samples.outline_fact(outline.moved(motion))


def test_the_right_option_is_confirmed_feature_by_feature() -> None:
    assert choices.keep(*kept_and_figures(samples.NOTCHED)) == (
        "Option C has 6 corners, like the outline.",
        "Give C a quarter turn clockwise, and it fits all the way round.",
    )
    assert choices.keep(*kept_and_figures(samples.RING))[:2] == (
        "Option C has 1 hole, like the outline.",
        "Both have 8 corners in all.",
    )


def test_features_that_are_not_so_are_not_told() -> None:
    fact, figures = kept_and_figures(samples.NOTCHED)
    for wrong in (replace(figures, corners=7), replace(figures, holes=1), samples.outline_fact(samples.SQUARE)):
        with pytest.raises(FactError):
            choices.keep(fact, wrong)
    with pytest.raises(FactError):
        choices.keep(replace(fact, option=samples.WIDE), figures)


# The demo


@pytest.fixture(params=ITEMS, ids=lambda path: path.stem)
def solution(request: pytest.FixtureRequest) -> Solution:
    return solve(read_item(request.param))


def test_all_that_is_said_of_the_demo_options_is_plain_and_about_them(solution: Solution) -> None:
    for wrong in (each for each in solution.verdicts if not each.same):
        words = choices.rule_out(wrong)
        assert set(options_of(" ".join(words))) == {wrong.label}
        for sentence in words:
            assert faults_of(sentence) == [], sentence
    right = next(each for each in solution.verdicts if each.same)
    assert isinstance(right.reasons[0], SameFact)
    kept = choices.keep(right.reasons[0], outline_fact(solution.outline, solution.tolerance))
    assert counts_of(" ".join(kept), "corner")[0] == solution.outline.corner_count
    assert counts_of(" ".join(kept), "hole") == ([len(solution.outline.holes)] if solution.outline.holes else [])
    for sentence in kept:
        assert faults_of(sentence) == [], sentence
