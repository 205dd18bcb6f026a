"""What stands round the questions of a lesson that has more than one kind of them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

import pytest

from explainers.choice.question import Question
from explainers.figure.cards import title_figure
from explainers.figure.theme import DEFAULT_THEME
from explainers.item.model import Manner
from explainers.lesson import cards
from explainers.sentences.lesson import Framing


class Joined(Question):
    kind: ClassVar[str] = "joined"


class Turned(Question):
    kind: ClassVar[str] = "turned"


@dataclass
class Solved:
    item: Question
    outline: None = None
    tolerance: float = 0.0
    verdicts: tuple[()] = ()


class StandIn:
    """A kind that notes which questions it is asked about."""

    def __init__(self, name: str) -> None:
        self.name = name

    def framing(self, shown: list[tuple[Manner, Solved]]) -> Framing:
        assert {solution.item.kind for _, solution in shown} == {self.name}
        about = tuple(f"{solution.item.name} is {self.name}." for _, solution in shown)
        return Framing(heading=f"All {self.name}", about=(*about, "Never flip."), routine=(f"Be {self.name}.",))


@pytest.fixture(autouse=True)
def two_kinds(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(cards, "kind_named", StandIn)


def shown(*questions: Question) -> cards.Shown:
    return [(Manner.WORKED_EXAMPLE, Solved(question)) for question in questions]  # type: ignore[misc]


ONE, TWO, THREE = Joined(name="one", title=""), Turned(name="two", title=""), Joined(name="three", title="")


def test_each_kind_speaks_of_its_own_questions_and_what_all_say_is_said_once() -> None:
    assert cards.imprint_of(ONE, shown(ONE, TWO, THREE)).about == (
        "one is joined.",
        "three is joined.",
        "Never flip.",
        "two is turned.",
        "We work through three questions together.",
    )


def test_the_title_card_bears_the_heading_of_the_kind_where_there_is_but_one() -> None:
    def heading(*questions: Question) -> str:
        return cards.opening_step(ONE, shown(*questions), DEFAULT_THEME, title_figure).heading

    assert heading(ONE, THREE) == "All joined"
    assert heading(ONE, TWO) == heading(TWO, ONE) == "Opening"
