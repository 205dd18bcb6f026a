"""The demo as a whole: every item sound, fair and seen well, each showing something that no other one does."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import pytest
from demo_items import demo_items

from explainers.choice.model import Solution
from explainers.geometry.outline import Outline
from explainers.intake.workspace import load_lesson, load_solution
from explainers.intake.writing import rewritten
from explainers.item.model import Manner
from explainers.item.series_reader import scan_series
from explainers.kinds.join_and_cut.model import Does, Item
from explainers.kinds.registry import kind_named, kind_names

ITEMS = Path(__file__).parent.parent / "items"
NAMES = [path.stem for path in demo_items()]
LESSONS = ("first-blocks", "cutting-out", "looking-closely")
ALONE = ("a-little-help", "turning-round")  # lessons that are of no series


@dataclass(frozen=True)
class Demo:
    text: str
    solution: Solution

    @property
    def item(self) -> Item:
        return self.solution.item

    @property
    def kind(self) -> str:
        return self.solution.item.kind

    @property
    def does(self) -> list[Does]:
        return [piece.does for piece in self.item.pieces]

    @property
    def result(self) -> Outline:
        return self.solution.outline

    def slips(self) -> set[str]:
        facts = [verdict.slip for verdict in self.solution.verdicts if verdict.slip is not None]
        return {case.slip for fact in facts for case in fact.cases}


@cache
def demo(name: str) -> Demo:
    path = ITEMS / f"{name}.yaml"
    return Demo(path.read_text(encoding="utf-8"), load_solution(path))


SHOWS: dict[str, Callable[[Demo], bool]] = {
    "basket-block": lambda demo: "  - {walk:" in demo.text,
    "border-block": lambda demo: demo.does == [Does.JOIN, Does.CUT] and demo.text.count("# a part of the") == 2,
    "button-block": lambda demo: "ready:" in demo.text,
    "comet-block": lambda demo: len(demo.item.options) == 6 and "name:" in demo.text,
    "corner-block": lambda demo: "too-large" in demo.slips() and demo.does == [Does.JOIN],
    "flag-block": lambda demo: len(demo.item.options) == 3 and "no-turn:" in demo.text,
    "gate-block": lambda demo: bool(demo.item.base.holes) and not demo.result.holes,
    "honeycomb-block": lambda demo: demo.item.made is not None and "regular-polygon" in demo.text,
    "kite-block": lambda demo: demo.does == [Does.JOIN, Does.JOIN, Does.CUT],
    "lattice-block": lambda demo: len(demo.result.holes) == 2 and "nearly-right:" in demo.text,
    "letterbox-block": lambda demo: bool(demo.result.holes) and "ready:" not in demo.text,
    "sail-block": lambda demo: not demo.result.holes,
    "tag-block": lambda demo: "2.828" in demo.text,
    "tent-block": lambda demo: "scale:" in demo.text and "slip:" not in demo.text and "flipped" in demo.slips(),
    "twin-block": lambda demo: {"swapped", "side-before"} <= demo.slips(),
    "window-block": lambda demo: not demo.item.base.holes and len(demo.result.holes) == 1,
}


def test_the_demo_is_large_enough() -> None:
    assert len(NAMES) >= 10 and len(LESSONS) >= 3
    assert sorted(SHOWS) == NAMES


@pytest.mark.parametrize("name", NAMES)
def test_a_demo_item_shows_what_no_other_one_does(name: str) -> None:
    """Among those of its kind."""
    alike = [other for other in NAMES if demo(other).kind == demo(name).kind]
    assert [other for other in alike if SHOWS[name](demo(other))] == [name]
    assert demo(name).text.startswith("# "), "its head says what it shows"


@pytest.mark.parametrize("name", NAMES)
def test_a_demo_item_is_sound_and_draws_no_warning(name: str) -> None:
    solution = demo(name).solution
    assert solution.sound
    assert [str(warning) for warning in solution.warnings] == []


def test_every_slip_and_every_manner_is_seen_in_the_demo() -> None:
    for kind in kind_names():
        slips = [demo(name).slips() for name in NAMES if demo(name).kind == kind]
        assert set().union(*slips) == set(kind_named(kind).slips_in_brief())
    manners = {part.manner for name in (*LESSONS, *ALONE) for part in load_lesson(ITEMS / f"{name}.yaml")[0].parts}
    assert manners == set(Manner)


def test_the_lessons_are_numbered_by_the_series_and_wear_what_it_gives() -> None:
    reading = scan_series(ITEMS / "series.yaml")
    assert reading.series is not None and [path.stem for path in reading.series.lessons] == list(LESSONS)
    lessons = [load_lesson(path)[0] for path in reading.series.lessons]
    assert [lesson.stem for lesson in lessons] == ["01-first-blocks", "02-cutting-out", "03-looking-closely"]
    assert {lesson.licence for lesson in lessons} == {"CC BY 4.0"}
    assert [lesson.theme for lesson in lessons] == ["light", "light", "print"]
    assert lessons[1].words, "a sentence of the teacher's own"


@pytest.mark.parametrize("path", sorted(ITEMS.glob("*.yaml")), ids=lambda path: path.stem)
def test_a_demo_file_is_in_the_house_form(path: Path) -> None:
    assert not rewritten(path).changes
