"""A teacher's words over time: which stand, which do not, which belong nowhere; and what is noted."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest
from sentences import fact_samples as samples
from strategies import random_case

from explainers.choice.fact import Fact
from explainers.choice.model import Solution
from explainers.intake.workspace import load_lesson
from explainers.item.model import Lesson
from explainers.kinds.join_and_cut.facts.turn import TurnFact
from explainers.kinds.join_and_cut.model import Item, Piece
from explainers.kinds.join_and_cut.solving.solver import solve
from explainers.lesson.planner import plan_item, plan_lesson
from explainers.storyboard.own_words import Noted, Standing, StepWords, known_of, to_note, words_of_lesson

DEMO = Path(__file__).parents[2] / "items" / "first-blocks.yaml"
TURN = "corner-block.flag.turn"


@cache
def demo() -> tuple[Lesson, tuple[Solution, ...]]:
    return load_lesson(DEMO)


def standing(
    lesson: Lesson, solutions: tuple[Solution, ...], noted: dict[str, Noted]
) -> tuple[tuple[StepWords, ...], dict[str, Noted]]:
    words = words_of_lesson(lesson, solutions, plan_lesson(lesson, solutions).steps, noted)
    return words, to_note(words, noted)


def turned_further(solutions: tuple[Solution, ...]) -> tuple[Solution, ...]:
    """The flag of the first item shown 15 degrees further round, so that it turns 15 degrees less or more."""
    first = solutions[0].item
    pieces = tuple(replace(piece, turned=piece.turned + 15.0) for piece in first.pieces)
    return (solve(replace(first, pieces=pieces)), *solutions[1:])


def own(said: str, step_id: str = TURN) -> Lesson:
    return replace(demo()[0], words=((step_id, said),))


def test_new_words_are_noted_and_stand_from_then_on():
    (word,), noted = standing(own("Turn it now."), demo()[1], {})
    assert word.standing is Standing.NEW
    assert noted[TURN].said == "Turn it now."
    assert noted[TURN].known.lines == (
        "the flag: a turn of 135 degrees anticlockwise",
        "the flag: its marked side slants down, the piece below it; its partner is upright, to lie right of it",
    )
    (word,), again = standing(own("Turn it now."), demo()[1], noted)
    assert word.standing is Standing.STANDS
    assert again == noted


def test_changed_facts_are_told_with_the_old_and_the_new_until_they_are_accepted():
    lesson = own("Turn it now.")
    _, noted = standing(lesson, demo()[1], {})
    changed = turned_further(demo()[1])
    (word,), after = standing(lesson, changed, noted)
    assert word.standing is Standing.CHANGED
    assert word.then is not None and word.now is not None
    assert (word.then.lines[:1], word.now.lines[:1]) == (
        ("the flag: a turn of 135 degrees anticlockwise",),
        ("the flag: a turn of 120 degrees anticlockwise",),
    )
    assert after == noted, "it is told again next time"
    accepted = to_note((word,), noted, [TURN])
    (word,), _ = standing(lesson, changed, accepted)
    assert word.standing is Standing.STANDS


def test_words_that_are_written_anew_are_taken_to_fit():
    _, noted = standing(own("Turn it now."), demo()[1], {})
    (word,), after = standing(own("Turn it a little less."), turned_further(demo()[1]), noted)
    assert word.standing is Standing.NEW
    assert after[TURN].said == "Turn it a little less."


def test_words_whose_step_is_gone_are_kept_in_the_note_with_what_was_known():
    lesson = own("Turn it now.")
    _, noted = standing(lesson, demo()[1], {})
    solutions = demo()[1]
    renamed = replace(
        solutions[0].item,
        pieces=tuple(replace(piece, name="tab") for piece in solutions[0].item.pieces),
        options=tuple(replace(o, slip_subject="tab" if o.slip_subject else None) for o in solutions[0].item.options),
    )
    (word,), after = standing(lesson, (solve(renamed), *solutions[1:]), noted)
    assert word.standing is Standing.GONE
    assert word.then == noted[TURN].known
    assert word.nearest == "corner-block.tab.turn"
    assert after == noted
    (word,), _ = standing(lesson, solutions, after)
    assert word.standing is Standing.STANDS, "the edit was undone"


def test_a_note_of_words_that_are_no_longer_there_is_dropped():
    _, noted = standing(own("Turn it now."), demo()[1], {})
    assert to_note((), noted) == {}


def test_an_option_more_changes_what_is_known_of_the_question_and_of_no_other_step():
    solution = demo()[1][0]
    fewer = solve(replace(solution.item, options=solution.item.options[:4]))
    before = {step.id: known_of(step, [fewer]) for step in plan_item(fewer).steps}
    after = {step.id: known_of(step, [solution]) for step in plan_item(solution).steps}
    changed = {step_id for step_id in before if before[step_id] != after.get(step_id)}
    # A sieve says whom it rules out, and that is one more.
    may_change = {f"corner-block.{name}" for name in ("task", "close-up", "flag.marks", "options", "sift.corners")}
    assert changed <= may_change
    assert "corner-block.options" in changed
    assert "corner-block.flag.turn" not in changed


def shifted(item: Item, by: tuple[float, float]) -> Item:
    """The whole item elsewhere on the teacher's grid; of pieces, those that meet the base."""

    def there(points):
        return tuple((x + by[0], y + by[1]) for x, y in points)

    def moved(piece: Piece) -> Piece:
        return replace(piece, meets=there(piece.meets)) if piece.of == "base" else piece

    base = replace(item.base, exterior=there(item.base.exterior), holes=tuple(map(there, item.base.holes)))
    return replace(item, base=base, pieces=tuple(map(moved, item.pieces)))


def prints(item: Item) -> list[tuple[str, str]]:
    """Of all steps but those that rule out: of two places that differ equally, another one may be ringed."""
    solution = solve(item)
    steps = (step for step in plan_item(solution).steps if step.stage != "rule-out")
    return [(step.id, known_of(step, [solution]).print) for step in steps]


def test_an_item_elsewhere_on_the_grid_is_known_as_the_same():
    for solution in demo()[1]:
        assert prints(shifted(solution.item, (7.0, -3.0))) == prints(solution.item)


EVERY = [
    samples.piece_fact(),
    samples.turn_fact(135.0),
    samples.meet_fact(),
    samples.change_fact(),
    samples.outline_fact(),
    samples.same_fact(90.0),
    samples.mirror_fact(),
    *samples.corner_count_facts(),
    *samples.corner_angle_facts(),
    *samples.side_length_facts(),
    *samples.hole_facts(),
    samples.extra_part_fact(),
    samples.missing_part_fact(),
]


def test_no_two_kinds_of_fact_have_one_print():
    prints_of_all = [fact.fingerprint((0.0, 0.0)) for fact in EVERY]
    assert len(set(prints_of_all)) == len(prints_of_all)


@pytest.mark.parametrize("fact", [samples.turn_fact(135.0), samples.meet_fact(), samples.corner_count_facts()[0]])
def test_another_tolerance_is_no_other_fact(fact: Fact):
    assert replace(fact, tolerance=0.001).fingerprint((0.0, 0.0)) == fact.fingerprint((0.0, 0.0))


def test_a_print_changes_with_each_figure_name_and_place():
    turn = samples.turn_fact(135.0)
    meet = samples.meet_fact()
    others: list[Fact] = [
        replace(turn, turn_deg=-135.0),
        replace(turn, turn_deg=134.0),
        replace(turn, name="tab"),
        replace(turn, mark="R"),
        replace(meet, of="strip"),
        replace(meet, partner=((4.0, 1.0), (4.0, 3.0))),
        replace(samples.mirror_fact(), label="D"),
        replace(samples.hole_facts()[0], option_holes=2),
    ]
    base = {fact.fingerprint((0.0, 0.0)) for fact in (turn, meet, samples.mirror_fact(), samples.hole_facts()[0])}
    new = [fact.fingerprint((0.0, 0.0)) for fact in others]
    assert len(base | set(new)) == len(base) + len(new)


def test_every_fact_of_generated_items_has_a_line_and_a_print_that_lasts(cases: Callable[[int, int], int]):
    for seed in range(cases(1, 200)):
        item = random_case(seed).item
        one, two = solve(item), solve(item)
        for first, second in zip(plan_item(one).steps, plan_item(two).steps, strict=True):
            assert known_of(first, [one]) == known_of(second, [two])
            assert len(known_of(first, [one]).lines) >= (1 if first.facts else 0)
            turned = [fact for fact in first.facts if isinstance(fact, TurnFact)]
            assert not turned or "turn" in known_of(first, [one]).lines[0]
