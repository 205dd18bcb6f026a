"""New outlines of a like build: sound, new, and changed only where that is asked for."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from explainers.choice.question import MadeOptions
from explainers.choice.variations import Level, Variations
from explainers.errors import UnsoundItemError
from explainers.geometry.congruence import Match, congruence
from explainers.geometry.outline import Outline
from explainers.kinds.turned_outline.kind import TURNED_OUTLINE
from explainers.kinds.turned_outline.model import TurnedOutline
from explainers.kinds.turned_outline.solution import TurnedOutlineSolution
from explainers.kinds.turned_outline.vary.build import build_of, wished

STAIRS = Outline.of(((0, 0), (6, 0), (6, 2), (4, 2), (4, 4), (2, 4), (2, 5), (0, 5)))


@cache
def original() -> TurnedOutlineSolution:
    made = MadeOptions(make=3, seed=2)
    return TURNED_OUTLINE.solve(TurnedOutline(name="stairs", title="Stairs", outline=STAIRS, made=made))


@cache
def varied(level: Level, count: int = 2) -> Variations:
    return TURNED_OUTLINE.vary(original(), count=count, seed=3, level=level)


@pytest.mark.parametrize(("level", "corners"), [(Level.SAME, 8), (Level.EASIER, 7), (Level.HARDER, 9)])
def test_new_questions_are_sound_and_of_the_build_that_was_asked_for(level: Level, corners: int) -> None:
    found = varied(level).found
    assert len(found) == 2 and varied(level).too_few == ""
    wish = wished(build_of(original()), level)
    for variation in found:
        solution = TURNED_OUTLINE.solve(variation.question)
        assert solution.sound and not solution.warnings and build_of(solution) == wish
        assert len(solution.outline.exterior) == corners and len(solution.verdicts) == 4
        assert bool(variation.changes) == (level is not Level.SAME)
        flipped = any(
            "flipped" in {case.slip for case in verdict.slip.cases} for verdict in solution.verdicts if verdict.slip
        )
        assert flipped is (build_of(original()).flips if level is Level.SAME else level is Level.HARDER)


def test_none_is_like_another_even_flipped() -> None:
    outlines = [original().outline]
    outlines += [variation.question.outline for level in Level for variation in varied(level).found]
    for index, outline in enumerate(outlines):
        for other in outlines[:index]:
            assert congruence(outline, other, 0.01).kind is Match.DIFFERENT


def test_the_same_seed_gives_the_same_and_a_longer_run_begins_like_a_shorter_one() -> None:
    assert varied(Level.SAME, count=1).found == varied(Level.SAME).found[:1]


def test_nothing_is_varied_from_a_question_that_is_not_sound() -> None:
    unsound = replace(original(), sound=False, unsound_because=("No option is right.",))
    with pytest.raises(UnsoundItemError):
        TURNED_OUTLINE.vary(unsound, count=1, seed=1, level=Level.SAME)
