"""Options in words: the slip, what agrees, what differs; several with one fault together; the right one confirmed."""

from __future__ import annotations

from dataclasses import replace

import fact_samples as samples
import pytest
from demo_items import demo_items
from oracles.sentence_parser import amounts_of, counts_of, faults_of, options_of, slips_of
from slip_samples import FLAG_ITEM, fact_of, verdict

from explainers.choice.differences.difference import DifferenceFact
from explainers.choice.finished import outline_fact
from explainers.choice.model import Solution, Verdict
from explainers.choice.same import SameFact
from explainers.choice.slip import SlipCase
from explainers.choice.words import choices
from explainers.choice.words.report import reason_in_brief
from explainers.errors import FactError
from explainers.intake.reader import read_item
from explainers.kinds.join_and_cut.slips.slip_fact import PieceSlipFact
from explainers.kinds.join_and_cut.solving.solver import solve

ITEMS = demo_items("join-and-cut")
PART = samples.missing_part_fact


def slip(kind: str, piece: str | None = "flag", label: str = "B") -> PieceSlipFact:
    return fact_of(FLAG_ITEM, SlipCase(slip=kind, subject=piece), label=label)


def labels(groups: list[tuple[Verdict, ...]]) -> list[str]:
    return ["".join(verdict.label for verdict in group) for group in groups]


def test_the_slip_is_told_before_the_place() -> None:
    told = verdict("B", PART(), slip=slip("turned-back"))
    assert choices.rule_out(told, agreed=("Of its 6 sides, 4 fit the outline.",)) == (
        "Lay option B on the outline.",
        "Of its 6 sides, 4 fit the outline.",
        "Option B is what you get when the flag is turned the wrong way.",
        "Here the outline is filled, but option B is empty.",
        "So option B is out.",
    )
    assert choices.slip_said(told) == ("Option B is what you get when the flag is turned the wrong way.",)
    assert choices.reasons_said(told) == (told.slip, PART())


def test_a_slip_that_was_replayed_is_not_told_again() -> None:
    told = verdict("B", PART(), slip=slip("turned-back"))
    assert not slips_of(choices.rule_out(told, replayed=True))
    assert slips_of(choices.slip_said(told)) == [("turned-back", {"piece": "the flag"})]


def test_a_flip_is_told_once() -> None:
    told = verdict("B", samples.mirror_fact(), PART(), slip=slip("flipped", None))
    assert " ".join(choices.rule_out(told)).count("flip") == 2  # "flipped over", then "undo a flip"
    assert choices.reasons_known(told) == (told.slip, PART())
    assert reason_in_brief(told).count("flipped") == 1


def test_a_flip_that_another_slip_gives_is_told_too() -> None:
    told = verdict("B", samples.mirror_fact(), PART(), slip=slip("piece-flipped"))
    assert "Option B is the outline flipped over." in choices.rule_out(told)
    assert choices.reasons_said(told) == (told.slip, samples.mirror_fact(), PART())


def test_an_option_of_no_known_slip_has_nothing_to_replay() -> None:
    assert choices.slip_said(verdict("B", PART())) == ()


def test_a_slip_is_never_told_of_another_option() -> None:
    with pytest.raises(FactError, match="option C"):
        choices.slip_said(verdict("B", PART(), slip=slip("turned-back", label="C")))


def test_a_slip_that_does_not_hold_stops_every_door() -> None:
    false = replace(slip("turned-back"), cases=(SlipCase(slip="left-out", subject="flag"),))
    told = verdict("B", PART(), slip=false)
    for say in (choices.rule_out, choices.slip_said, reason_in_brief):
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


# Options of one fault


def no_hole(label: str) -> Verdict:
    return verdict(label, samples.hole_facts(label)[1])


def test_options_without_the_hole_are_ruled_out_together() -> None:
    group = (no_hole("B"), no_hole("D"))
    assert choices.rule_out_together(group) == (
        "Look at options B and D together.",
        "They have no hole, but the outline has 1.",
        "Lay option B on the outline.",
        "Here option B is filled, but the outline is empty.",
        "Lay option D on the outline.",
        "Here option D is filled, but the outline is empty.",
        "So options B and D are out.",
    )
    assert labels(choices.common_fault([no_hole("A"), verdict("B", PART("B")), no_hole("D")])) == ["AD", "B"]


def test_options_of_the_same_slip_are_ruled_out_together() -> None:
    group = (
        verdict("A", PART("A"), slip=slip("left-out", "flag", "A")),
        verdict("C", PART("C"), slip=slip("left-out", "bite", "C")),
    )
    words = choices.rule_out_together(group)
    assert words[:2] == ("Look at options A and C together.", "In both, a piece is left out.")
    assert slips_of(words) == [("left-out", {"piece": "the flag"}), ("left-out", {"piece": "the bite"})]
    assert words.index(choices.laid_on("C")) < words.index(choices.place_said(PART("C")))
    assert labels(choices.common_fault(group)) == ["AC"]


def test_a_hole_is_seen_sooner_than_a_slip() -> None:
    one = replace(no_hole("A"), slip=slip("left-out", "flag", "A"))
    two = replace(no_hole("B"), slip=slip("slid", "flag", "B"))
    three = verdict("C", PART("C"), slip=slip("left-out", "bite", "C"))
    assert labels(choices.common_fault([one, two, three])) == ["AB", "C"]
    words = choices.rule_out_together((one, two))
    assert words[1] == "They have no hole, but the outline has 1."
    assert [kind for kind, _ in slips_of(words)] == ["left-out", "slid"]


def test_the_same_figures_are_one_fault_only_where_no_slip_is_known() -> None:
    (more, fewer) = samples.corner_count_facts()
    angle, reflex = samples.corner_angle_facts()
    for fact, figures in ((more, [5, 4]), (fewer, [4, 5]), (angle, [135]), (reflex, [270])):
        group = (verdict("B", fact), verdict("D", replace(fact, label="D")), verdict("E", replace(fact, label="E")))
        assert labels(choices.common_fault(group)) == ["BDE"]
        words = choices.rule_out_together(group)
        shared = words[1 : words.index(choices.laid_on("B"))]
        assert [amount.value for sentence in shared for amount in amounts_of(sentence)] == figures
        assert options_of(words[0]) == options_of(words[-1]) == ["B", "D", "E"]
        for sentence in words:
            assert faults_of(sentence) == [], sentence
    different = [
        verdict("A", more),
        verdict("B", fewer),
        verdict("C", angle),
        verdict("D", reflex),
        verdict("E", PART()),
    ]
    assert labels(choices.common_fault(different)) == list("ABCDE")
    assert labels(choices.common_fault([verdict("B", more, slip=slip("slid")), verdict("D", more)])) == ["B", "D"]


def test_an_option_alone_is_ruled_out_alone() -> None:
    alone = verdict("B", PART())
    assert choices.rule_out_together([alone]) == choices.rule_out(alone)


def test_the_right_option_is_in_no_group() -> None:
    right = replace(verdict("C", samples.same_fact(90.0)), same=True)
    assert labels(choices.common_fault([no_hole("B"), right, no_hole("D")])) == ["BD"]
    assert choices.common_fault([right]) == []


def test_options_without_a_common_fault_are_not_told_together() -> None:
    for group in ([no_hole("B"), verdict("D", PART("D"))], [verdict("B", PART()), verdict("D", PART("D"))]):
        with pytest.raises(FactError, match="do not share a fault"):
            choices.rule_out_together(group)


def test_each_fact_of_a_group_must_hold() -> None:
    false = replace(samples.hole_facts("D")[1], ring_centre=(0.5, 0.5))
    with pytest.raises(FactError, match="does not hold"):
        choices.rule_out_together([no_hole("B"), verdict("D", false)])


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
        "Give option C a quarter turn clockwise.",
        "Lay it on the outline.",
        "Every corner and every side fits.",
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
    groups = choices.common_fault(solution.verdicts)
    assert sorted("".join(labels(groups))) == [verdict.label for verdict in solution.verdicts if not verdict.same]
    for group in groups:
        words = choices.rule_out_together(group)
        assert set(options_of(" ".join(words))) == {verdict.label for verdict in group}
        for sentence in words:
            assert faults_of(sentence) == [], sentence
    right = next(verdict for verdict in solution.verdicts if verdict.same)
    assert isinstance(right.reasons[0], SameFact)
    kept = choices.keep(right.reasons[0], outline_fact(solution.outline, solution.tolerance))
    assert counts_of(" ".join(kept), "corner")[0] == solution.outline.corner_count
    assert counts_of(" ".join(kept), "hole") == ([len(solution.outline.holes)] if solution.outline.holes else [])
    for sentence in kept:
        assert faults_of(sentence) == [], sentence
