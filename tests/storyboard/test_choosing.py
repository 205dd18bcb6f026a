"""Of each option that a learner may choose: right where it is the key, and else its own reason, which is true."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from demo_items import demo_items
from strategies import random_item

from explainers.choice.differences.difference import DifferenceFact
from explainers.choice.differences.side_length import SideLengthFact
from explainers.choice.drawing.choices import Choices
from explainers.choice.model import Solution
from explainers.choice.sieves.counts import CountSieve
from explainers.choice.stages.choosing import choice_to_tell
from explainers.choice.stages.context import StageSettings
from explainers.choice.stages.rows import without_parts
from explainers.choice.words.choosing import not_this
from explainers.errors import FactError
from explainers.figure.model import Circle, Lines, Role
from explainers.figure.theme import DEFAULT_THEME
from explainers.intake.workspace import load_solution
from explainers.item.model import Lesson, LessonPart, Manner, SlipsTold
from explainers.kinds.join_and_cut.drawing.sheet import Sheet
from explainers.kinds.join_and_cut.slips.slip_fact import PieceSlipFact
from explainers.kinds.join_and_cut.solving.solver import solve
from explainers.kinds.join_and_cut.stages.context import PieceContext
from explainers.lesson.planner import plan_lesson
from explainers.storyboard.doing import Choice, ChoosableOption
from explainers.storyboard.model import Step
from explainers.words.messages import speaking

ITEMS = demo_items("join-and-cut")
NOT_SEEN = re.compile(r"\b(lay|laid|lies|colou?r\w*|red|green|tint\w*|beside|below|above|tray|table)\b")
NEIGHBOUR = re.compile(r"\b(?:one|right angle) beside it\b|\bcorners? lies? between\b")  # of corners of one outline


def asked(solution: Solution, manner: Manner, slips: SlipsTold = SlipsTold.UNTOLD) -> Step:
    """The step at which the learner chooses, in a lesson of this one item."""
    part = LessonPart(show=Path("item.yaml"), manner=manner, pause_s=20.0)
    lesson = Lesson(name="try", title="Try", parts=(part,), slips=slips)
    (step,) = (step for step in plan_lesson(lesson, [solution]).steps if step.stage == "pause")
    return step


def choice_of(solution: Solution, manner: Manner, slips: SlipsTold = SlipsTold.UNTOLD) -> Choice:
    choice = asked(solution, manner, slips).choice
    assert choice is not None
    return choice


@pytest.fixture(scope="module")
def told(cases: Callable[[int, int], int]) -> list[tuple[Solution, Manner, Choice]]:
    demo = [(load_solution(path), manner) for path in ITEMS for manner in (Manner.YOUR_TURN, Manner.QUICK_CHECK)]
    found = [(solve(random_item(seed)), Manner.YOUR_TURN) for seed in range(cases(6, 200))]
    return [(solution, manner, told_of(solution, manner)) for solution, manner in (*demo, *found)]


def told_of(solution: Solution, manner: Manner) -> Choice:
    """The choice alone, without a lesson round it."""
    quick = manner is Manner.QUICK_CHECK
    seen = without_parts(solution) if quick else solution
    context = PieceContext(seen, StageSettings(manner=manner, theme=DEFAULT_THEME, pause_s=20.0, slips_told=not quick))
    asked = context.compared if quick else context.asked
    assert asked.cells is not None
    context.last = asked.figure
    return choice_to_tell(context, asked.cells)


def test_right_is_exactly_the_key_and_every_fact_that_is_told_holds(
    told: list[tuple[Solution, Manner, Choice]],
) -> None:
    for solution, _, choice in told:
        assert [option.label for option in choice.options] == [verdict.label for verdict in solution.verdicts]
        assert [option.label for option in choice.options if option.right] == [solution.key]
        for option in choice.options:
            assert option.right is not None and option.said and option.figure is not None
            assert option.facts and all(fact.holds() for fact in option.facts)
            assert all(getattr(fact, "label", option.label) == option.label for fact in option.facts)


def test_each_sentence_speaks_of_that_option_alone_and_of_what_its_picture_shows(
    told: list[tuple[Solution, Manner, Choice]],
) -> None:
    for solution, _, choice in told:
        for option in choice.options:
            words = " ".join(option.said)
            assert option.said[0] == (f"Yes, {option.label}." if option.right else f"Not {option.label}.")
            assert set(re.findall(r"\b[Oo]ption (\w)\b", words)) <= {option.label}
            assert not NOT_SEEN.search(NEIGHBOUR.sub("", words)), words
            assert ("ring" in words.split() or "ring," in words.split()) <= has_ring(option)
            two = re.search(r"two (equally long )?sides", words)
            assert ("broken line" in words) is (has_side(option) and two is None)
            none_to_mark = any(isinstance(fact, CountSieve) and not fact.options[0].figure for fact in option.facts)
            assert (has_ring(option) or has_dots(option)) is not (option.right or none_to_mark)
            assert not (has_ring(option) and has_dots(option))
            for sentence in option.said:
                assert sentence[0].isupper() and sentence.endswith((".", "!")) and len(sentence.split()) <= 17, sentence
            assert not {"{", "}"} & set(words)
            if not option.right:
                assert option.figure is not None
                assert Role.OUTLINE not in {e.role for e in option.figure.entries if e.group == "chosen"}
                assert f"Option {solution.key}" not in words


def has_ring(option: ChoosableOption) -> bool:
    assert option.figure is not None
    return any(isinstance(entry, Circle) and entry.id == "chosen-ring" for entry in option.figure.entries)


def has_dots(option: ChoosableOption) -> bool:
    """Whether what is counted is marked on the option, or the walk round it."""
    assert option.figure is not None
    return any("pointed" in entry.id or "walk" in entry.id for entry in option.figure.entries)


def has_side(option: ChoosableOption) -> bool:
    assert option.figure is not None
    return any(isinstance(entry, Lines) and entry.id == "chosen-side" for entry in option.figure.entries)


def test_the_picture_is_that_of_the_pause_without_its_clock() -> None:
    for manner in (Manner.YOUR_TURN, Manner.QUICK_CHECK):
        step = asked(load_solution(ITEMS[0]), manner)
        assert step.choice is not None
        bare = {Role.HEADING, Role.PROGRESS, Role.CLOCK}
        shown = [entry for entry in step.stills[0].entries if entry.role not in bare]
        for option in step.choice.options:
            assert option.figure is not None
            assert list(option.figure.entries[: len(shown)]) == shown
            assert option.figure.alt.startswith(step.stills[0].alt)
            assert f"Option {option.label} has a " in option.figure.alt


def test_rooms_are_where_the_options_are_drawn_and_equally_large() -> None:
    solution = load_solution(ITEMS[0])
    views = {
        Manner.YOUR_TURN: Sheet(solution=solution, theme=DEFAULT_THEME).cells,
        Manner.QUESTION: Sheet(solution=solution, theme=DEFAULT_THEME).cells,
        Manner.QUICK_CHECK: Choices(solution=solution, theme=DEFAULT_THEME, is_spread=True).cells,
    }
    for manner, cells in views.items():
        options = choice_of(solution, manner).options
        assert len({(round(o.room.width, 9), round(o.room.height, 9)) for o in options}) == 1
        for option, verdict in zip(options, solution.verdicts, strict=True):
            for x, y in cells.view(verdict.label).apply(verdict.outline.exterior):
                assert option.room.left < x < option.room.right and option.room.bottom < y < option.room.top


def test_a_question_whose_solution_is_not_told_says_and_shows_nothing() -> None:
    for option in choice_of(load_solution(ITEMS[0]), Manner.QUESTION).options:
        assert (option.right, option.said, option.figure, option.facts) == (None, (), None, ())


def test_a_quick_check_speaks_of_no_piece() -> None:
    for path in ITEMS:
        solution = load_solution(path)
        words = " ".join(word for option in told_of(solution, Manner.QUICK_CHECK).options for word in option.said)
        for placement in solution.placements:
            assert f"the {placement.piece.name.replace('-', ' ')} " not in words


def test_what_is_counted_comes_first_and_the_slip_behind_it_only_where_slips_are_told() -> None:
    solution = load_solution(ITEMS[0].with_name("corner-block.yaml"))
    counted = ("Not B.", "Option B has 9 corners.", "The finished outline has 6.")
    for slips, told in ((SlipsTold.UNTOLD, ()), (SlipsTold.TOLD, ("In option B, the flag is turned the wrong way.",))):
        said = {option.label: option.said for option in choice_of(solution, Manner.YOUR_TURN, slips).options}
        assert said["B"] == (*counted, *told)
        assert said["C"] == ("Yes, C.", "Every corner and every side of option C fits the finished outline.")
        assert said["A"] == (
            "Not A.",
            "In option A, the outline is flipped over.",
            "No turn can undo a flip.",
            "Go round it clockwise.",
            "Start at the inward corner.",
            "Option A: a right angle, then another.",
            "It must be like this: a sharp corner, then a wide one.",
        )


def test_nothing_is_said_from_a_fact_that_does_not_hold() -> None:
    solution = load_solution(ITEMS[0].with_name("corner-block.yaml"))
    verdict = solution.verdicts[1]
    (fact,) = (fact for fact in verdict.reasons if isinstance(fact, SideLengthFact))
    with pytest.raises(FactError):
        not_this(verdict, replace(fact, length=fact.length + 1.0))
    assert isinstance(verdict.slip, PieceSlipFact)
    with pytest.raises(FactError):
        not_this(replace(verdict, slip=replace(verdict.slip, replayed=solution.outline)), fact)


def test_no_length_in_units_is_told_to_whoever_chooses() -> None:
    """Nothing in the picture has a length written beside it; sides are held against each other by eye."""
    found = 0
    for path in ITEMS:
        for verdict in load_solution(path).verdicts:
            for fact in verdict.reasons:
                if isinstance(fact, SideLengthFact):
                    words = " ".join((*fact.of_choice(), *fact.over_outline()))
                    assert not re.search(r"\bunits?\b", words), words
                    assert ("too long" in words) is ("longer" in words) is (fact.length > fact.other_length)
                    found += 1
    assert found


def test_an_option_without_a_place_to_ring_is_still_told_truly() -> None:
    verdict = load_solution(ITEMS[0].with_name("corner-block.yaml")).verdicts[1]
    words, _ = not_this(replace(verdict, slip=None), None)
    assert words == ("Not B.", "Option B does not fit the finished outline, however you turn it.")


def test_every_difference_has_words_for_its_ring_in_every_language(told: list[tuple[Solution, Manner, Choice]]) -> None:
    for language in ("en-US", "de"):
        with speaking(language):
            for solution, _, _ in told[:8]:
                for verdict in solution.verdicts:
                    for fact in verdict.reasons:
                        if isinstance(fact, DifferenceFact):
                            assert fact.label in " ".join(fact.of_choice())
