"""A question without pieces goes through all that any question with options goes through."""

from __future__ import annotations

from dataclasses import replace

import pytest
from turned_outline import WIDER, TurnedOutline, TurnedSolution, answer, solve

from explainers.choice.certificate import certificate
from explainers.choice.features import Features
from explainers.choice.presentation import in_order
from explainers.choice.question import Accepted, MadeOptions, Option, WarningKind
from explainers.choice.report import solution_json
from explainers.choice.same_question import repeats
from explainers.choice.series_survey import SurveyedItem, survey
from explainers.choice.words.certificate import certificate_lines
from explainers.errors import ItemError
from explainers.geometry.outline import Outline

HOOK = ((0.0, 0.0), (6.0, 0.0), (6.0, 2.0), (2.0, 2.0), (2.0, 5.0), (0.0, 5.0))


def question(*options: Option, made: MadeOptions | None = None, name: str = "hook") -> TurnedOutline:
    return TurnedOutline(name=name, title="Hook", outline=Outline.of(HOOK), options=options, made=made)


WRITTEN = (Option(slip="wider", turned=30.0), Option(turned=90.0), Option(slip="flipped", turned=45.0))


def drawn(factor: float) -> Option:
    return Option(corners=tuple((factor * x, y) for x, y in HOOK))


def test_the_right_option_is_found_and_the_slips_of_the_others() -> None:
    solution = solve(question(drawn(1.5), Option(turned=90.0), drawn(-1.0)))
    assert isinstance(solution, TurnedSolution)
    assert (solution.sound, solution.key) == (True, "B")
    slips = [verdict.slip.cases[0].slip if verdict.slip else None for verdict in solution.verdicts]
    assert slips == ["wider", None, "flipped"]
    assert answer(question(*WRITTEN)).key == "B"


def test_options_are_made_of_its_own_slips() -> None:
    solution = solve(question(made=MadeOptions(make=2, seed=7)))
    assert solution.sound and len(solution.verdicts) == 3
    named = {option.slip for option in solution.item.options} - {None}
    assert len(named) == 2 and named <= set(WIDER)


def test_too_few_options_are_told_without_a_word_of_pieces() -> None:
    with pytest.raises(ItemError) as caught:
        solve(question(made=MadeOptions(make=5, seed=7)))
    (fault,) = caught.value.faults
    assert fault.field == "options.make" and "change the outline" in fault.fix and "piece" not in str(fault)


def test_a_turn_of_nothing_stands_in_the_object() -> None:
    found = solution_json(answer(question(*WRITTEN)))
    assert found["turns"] == [] and found["key"] == "B" and len(found["options"]) == 3


def test_the_certificate_holds_and_speaks_of_options_alone() -> None:
    made = certificate(solve(question(*WRITTEN)))
    assert made.holds
    assert type(made.features) is Features
    lines = "\n".join(certificate_lines(made))
    assert "It asks for a flipped option." in lines and "turning options" in lines
    assert "piece" not in lines and "marks" not in lines


def test_what_is_accepted_is_silenced() -> None:
    near = question(Option(), drawn(1.01), drawn(0.5))
    (warning,) = [one for one in solve(near).warnings if one.kind == WarningKind.NEARLY_RIGHT]
    accepted = solve(replace(near, accepted=(Accepted(kind=WarningKind.NEARLY_RIGHT, reason="on purpose"),)))
    assert warning in accepted.accepted and warning not in accepted.warnings


def test_the_same_outline_asked_again_is_known() -> None:
    again = replace(question(*WRITTEN, name="again"), outline=Outline.of([(2 * y, -2 * x) for x, y in HOOK]))
    (found,) = repeats([solve(question(*WRITTEN)), solve(again)])
    assert (found.index, found.earlier) == (1, 0)


def test_a_series_of_them_can_be_surveyed() -> None:
    found = survey([SurveyedItem(lesson="one", solution=solve(question(*WRITTEN)))])
    assert (found.turns_never, found.slips_never) == ((), ()) and found.work_s[0][1] > 0.0


def test_its_options_can_stand_in_another_order() -> None:
    assert solve(in_order(question(*WRITTEN), (1, 2, 0))).key == "A"


def test_the_same_wrong_option_twice_is_refused() -> None:
    with pytest.raises(ItemError, match="the same outline as option A"):
        solve(question(drawn(1.5), Option(), drawn(1.5)))
