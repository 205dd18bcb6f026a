"""A teacher's words against the facts: what is true never warns, what is plainly false always does."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import cache

import pytest
from sentences import fact_samples as samples
from strategies import random_case

from explainers.choice.fact import Fact
from explainers.choice.model import Solution
from explainers.choice.same import SameFact
from explainers.errors import FactError
from explainers.kinds.join_and_cut.facts.turn import TurnFact
from explainers.kinds.join_and_cut.model import Does
from explainers.kinds.join_and_cut.solving.solver import solve
from explainers.lesson.planner import plan_item
from explainers.sentences.claims import Vague, angles_in, counts_in, directions_in, labels_in, marks_in, seconds_in
from explainers.sentences.contradictions import contradictions
from explainers.storyboard.model import Step

TURNED = samples.turn_fact(135.0)
QUARTER = samples.turn_fact(-90.0)


@pytest.mark.parametrize(
    ("words", "sizes"),
    [
        ("Turn the flag 135 degrees.", [135.0]),
        ("Turn it a hundred and thirty-five degrees.", [135.0]),
        ("Turn it ninety degrees, then forty-five degrees.", [90.0, 45.0]),
        ("Turn it 22.5° clockwise.", [22.5]),
        ("Give it a quarter turn.", [90.0]),
        ("Give it a quarter of a turn.", [90.0]),
        ("Give it half a turn.", [180.0]),
        ("Make a half turn.", [180.0]),
        ("A three-quarter turn.", [270.0]),
        ("Three quarters of a turn.", [270.0]),
        ("That is half of a quarter turn.", [45.0]),
        ("That is a quarter turn and half of another.", [135.0]),
        ("It needs no turn.", [0.0]),
        ("You do not have to turn it.", [0.0]),
        ("Do not turn it 90 degrees.", []),
        ("Turn it 135 degrees, not 90 degrees.", [135.0]),
        ("A quarter turn is 90 degrees.", []),
        ("Look at the corner.", []),
    ],
)
def test_angles_are_read_however_they_are_written(words: str, sizes: list[float]) -> None:
    assert [claim.value for claim in angles_in(words)] == sizes


def test_how_exactly_an_angle_is_meant() -> None:
    more, less, about = (angles_in(words)[0].vague for words in ("more than 90°", "less than 90°", "about 90°"))
    assert (more, less, about) == (Vague.MORE, Vague.LESS, Vague.ABOUT)


@pytest.mark.parametrize(
    ("words", "ways"),
    [
        ("Turn it clockwise.", [-1.0]),
        ("Turn it anticlockwise.", [1.0]),
        ("Turn it anti-clockwise.", [1.0]),
        ("Rotate it counterclockwise.", [1.0]),
        ("Rotate it counter-clockwise.", [1.0]),
        ("Turn it anticlockwise, not clockwise.", [1.0]),
        ("Count the corners clockwise from the top as you turn the page.", []),
    ],
)
def test_directions_are_read_however_they_are_written(words: str, ways: list[float]) -> None:
    assert [sign for sign, _ in directions_in(words)] == ways


def test_labels_marks_counts_and_times_are_read() -> None:
    assert labels_in("Options B and D go first, then option C.") == ["B", "D", "C"]
    assert labels_in("Look at options A to C.") == ["A", "B", "C"]
    assert labels_in("The answer is E.") == ["E"]
    assert labels_in("An option is a choice.") == []
    assert marks_in("Bring side K to the other mark K.", {"K"}) == ["K", "K"]
    assert marks_in("The marks are equally long; mark it.", {"K"}) == []
    assert marks_in("Find the leaf. Find the other leaf, where the leaves meet.", {"leaf"}) == ["leaf"] * 3
    assert marks_in("The leaf block: look at the heart of the shape.", {"leaf"}) == []
    assert marks_in("Find the leaf on the base.", {"K"}, {"long-leaf"}) == []
    assert [(claim.value, claim.noun) for claim in counts_in("It has eight corners and no holes.")] == [(8, "corner")]
    assert counts_in("It has three corners at the top.") == []
    assert [claim.value for claim in seconds_in("You have one and a half minutes.")] == [90.0]
    assert [claim.value for claim in seconds_in("Take half a minute.")] == [30.0]


FALSE = [
    ("Turn the flag 90 degrees.", [TURNED]),
    ("Turn the flag ninety degrees.", [TURNED]),
    ("Give the flag a quarter turn.", [TURNED]),
    ("Give it half a turn.", [TURNED]),
    ("The flag needs no turn.", [TURNED]),
    ("Turn the flag 135 degrees clockwise.", [TURNED]),
    ("Turn it clockwise.", [TURNED]),
    ("Turn it less than 90 degrees.", [TURNED]),
    ("Turn it about 90°.", [TURNED]),
    ("Give it a quarter turn anticlockwise.", [QUARTER]),
    ("Give it a three-quarter turn clockwise.", [QUARTER]),
    ("Turn the flag 90 degrees.", [samples.turn_fact(0.0)]),
    ("Turn the flag 90 degrees.", [samples.turn_fact(180.0)]),
    ("Find mark R on the flag.", [samples.piece_fact()]),
    ("Slide it until side R meets side R.", [samples.meet_fact()]),
    ("Find the bell on the flag.", [samples.piece_fact()]),
    ("Slide it until the bells meet.", [samples.meet_fact(mark="leaf")]),
    ("Find the other heart.", [samples.piece_fact(mark="leaf")]),
    ("Now cut the flag away.", [samples.meet_fact()]),
    ("Sew the tip on.", [samples.change_fact(does=Does.CUT)]),
    ("It has nine corners.", [samples.outline_fact()]),
    ("It has 2 holes.", [samples.outline_fact()]),
    ("Look at option D.", [samples.mirror_fact("B")]),
    ("Here option D differs.", samples.corner_count_facts("B")[:1]),
    ("Option B has 9 corners.", samples.corner_count_facts("B")[:1]),
    ("Here is a corner of 45 degrees.", samples.corner_angle_facts("B")[:1]),
    ("Option B is the outline flipped over. Option B is flipped.", samples.hole_facts("B")[:1]),
    ("So option B is right.", samples.hole_facts("B")[:1]),
    ("Option C is out.", [samples.same_fact(90.0, "C")]),
    ("The answer is B.", [samples.same_fact(90.0, "C")]),
    ("Turn option C 45 degrees.", [samples.same_fact(90.0, "C")]),
]


@pytest.mark.parametrize(("words", "facts"), FALSE, ids=lambda value: value if isinstance(value, str) else "")
def test_what_is_plainly_false_is_told(words: str, facts: Sequence[Fact]) -> None:
    assert contradictions(words, facts, beside=facts)


TRUE = [
    ("Turn the flag 135 degrees to the left.", [TURNED]),
    ("Give it a quarter turn and then 45 degrees more, anticlockwise.", [TURNED]),
    ("Turn it more than a quarter turn, but less than half a turn.", [TURNED]),
    ("Turn it 225 degrees clockwise: it comes to the same.", [TURNED]),
    ("Not clockwise! Turn it anticlockwise.", [TURNED]),
    ("A quarter turn is 90 degrees. Turn it further than that.", [TURNED]),
    ("Nearly half a turn? No: about 140 degrees.", [TURNED]),
    ("Three quarters of a turn anticlockwise would do as well.", [QUARTER]),
    ("Clockwise or anticlockwise, half a turn is half a turn.", [samples.turn_fact(180.0)]),
    ("Turn it clockwise by half a turn.", [samples.turn_fact(180.0)]),
    ("The bell block is like a button on a heart.", [samples.piece_fact(mark="leaf")]),
    ("Find the leaf. Find the other leaf: the leaves meet.", [samples.piece_fact(mark="leaf")]),
    ("Point at the heart of the flag.", [samples.piece_fact(mark="leaf")]),
    ("Do not turn the flag 90 degrees.", [samples.turn_fact(0.0)]),
    ("Do not cut it away: it stays.", [samples.meet_fact()]),
    ("Where the marks join, it is sewn on.", [samples.meet_fact()]),
    ("Cut along the edge of the paper? No, sew it on.", [samples.meet_fact()]),
    ("Trace the outline clockwise with a finger.", [samples.outline_fact()]),
    ("It has 4 corners, as many as a kite.", [samples.outline_fact()]),
    ("Option B has one corner too many.", samples.corner_count_facts("B")[:1]),
    ("Unlike option D, option B has a hole.", samples.hole_facts("B")[:1]),
    ("Option B is not right.", samples.hole_facts("B")[:1]),
    ("You may never flip it.", samples.hole_facts("B")[:1]),
    ("Ninety degrees would not be enough.", [TURNED]),
    ("90 degrees is too little.", [TURNED]),
    ("If you turn it 90 degrees it still slants, so go on.", [TURNED]),
    ("First 90 degrees, then 45 more.", [TURNED]),
    ("Give it a quarter turn. Then give it half a quarter turn more.", [TURNED]),
    ("Go a quarter turn, and then half as much again.", [TURNED]),
    ("Turn it three times by 45 degrees.", [TURNED]),
    ("Between 90 and 180 degrees.", [TURNED]),
    ("Rotate it 135°, that is 90° and 45°.", [TURNED]),
    ("It turns three times 45 degrees.", [TURNED]),
    ("The corner of 90 degrees points up now.", [TURNED]),
    ("Turn it the opposite of clockwise.", [TURNED]),
    ("Clockwise is the long way round.", [TURNED]),
    ("Lay the flag along the cut.", [samples.meet_fact()]),
    ("The corner next to it has 90 degrees.", samples.corner_angle_facts("B")[:1]),
    ("This one looks like option D, but a corner is cut off.", samples.corner_count_facts("B")[:1]),
    ("The base has 12 corners.", [samples.outline_fact()]),
    ("Well done!", [TURNED]),
    ("", [TURNED]),
]


@pytest.mark.parametrize(("words", "facts"), TRUE, ids=lambda value: value if isinstance(value, str) else "")
def test_what_is_true_or_may_be_meant_otherwise_is_let_pass(words: str, facts: Sequence[Fact]) -> None:
    beside = [*facts, samples.mirror_fact("D")]
    assert contradictions(words, facts, beside=beside) == ()


def test_words_may_speak_of_another_piece_if_they_name_it() -> None:
    strip = samples.turn_fact(45.0, name="strip")
    assert contradictions("The strip turned 45 degrees.", [TURNED], beside=[TURNED, strip]) == ()
    assert contradictions("It turned 45 degrees.", [TURNED], beside=[TURNED, strip])
    assert contradictions("Turn the strip.", [TURNED], beside=[TURNED, strip])


def test_a_pause_of_another_length_is_told() -> None:
    assert contradictions("You have 20 seconds.", [], pause_s=30.0)
    assert contradictions("You have half a minute.", [], pause_s=30.0) == ()
    assert contradictions("You have 20 seconds.", []) == ()


def test_a_contradiction_names_both_sides() -> None:
    (told,) = contradictions("Turn it ninety degrees.", [TURNED])
    assert '"90 degrees"' in told
    assert "the flag: a turn of 135 degrees anticlockwise" in told


@cache
def told_items(count: int) -> list[tuple[Solution, tuple[Step, ...]]]:
    """Generated items with their steps; one whose options differ by a hair cannot be told."""
    out = []
    for seed in range(count):
        try:
            solution = solve(random_case(seed).item)
            out.append((solution, plan_item(solution).steps))
        except FactError:
            continue
    assert len(out) > count // 4
    return out


def item_facts(steps: Sequence[Step]) -> list[Fact]:
    return [fact for step in steps for fact in step.facts]


def test_the_tools_own_sentences_never_warn(cases: Callable[[int, int], int]) -> None:
    for solution, steps in told_items(cases(5, 300)):
        beside = item_facts(steps)
        for step in steps:
            words = " ".join(step.narration)
            assert contradictions(words, step.facts, beside=beside) == (), f"{solution.item.name} {step.id}: {words}"
            for sentence in step.narration:
                assert contradictions(sentence, step.facts, beside=beside) == (), f"{step.id}: {sentence}"


def planted(step: Step, labels: Sequence[str]) -> Iterator[str]:
    """The step's own words with one figure, direction or name made false."""
    turns = [fact for fact in step.facts if isinstance(fact, TurnFact | SameFact)]
    if step.stage in ("turn", "keep") and turns:
        size = abs(turns[0].turn_deg)
        yield "Turn it 73 degrees." if not 72.0 < size < 74.0 and not 286.0 < size < 288.0 else "Turn it 31 degrees."
        if 1.0 < size < 179.0:
            yield "Turn it clockwise." if turns[0].turn_deg > 0 else "Turn it anti-clockwise."
            yield "It needs no turn."
        if not 89.0 < size < 91.0:
            yield "Give it a quarter turn."
        if size < 179.0:
            yield "Give it half a turn."
    if step.stage in ("rule-out", "keep"):
        own = {fact.label for fact in step.facts if hasattr(fact, "label")}
        yield f"Look at option {next(label for label in labels if label not in own)}."
        yield "Look at option F." if "F" not in labels else "It has 99 corners."
    if step.stage == "marks":
        yield "Find the other mark XY."
        yield "Find the other teacup."
    if step.stage == "outline":
        yield "It has 99 corners."
        yield "It has 9 holes."
    if step.stage == "ahead":
        yield "In all it has 99 corners."
    if step.stage in ("join", "cut"):
        yield "Cut it out." if step.stage == "join" else "Sew it on."


def test_planted_contradictions_always_warn(cases: Callable[[int, int], int]) -> None:
    count = 0
    for solution, steps in told_items(cases(5, 300)):
        labels = [verdict.label for verdict in solution.verdicts]
        for step in steps:
            for words in planted(step, labels):
                count += 1
                assert contradictions(words, step.facts, beside=item_facts(steps)), f"{step.id}: {words}"
    assert count > 40
