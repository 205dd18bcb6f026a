"""From a file to a solution: what only solving can refuse, with file and line like all else."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from explainers.errors import Fault, ItemError, LessonError
from explainers.intake.reader import scan_item
from explainers.intake.workspace import load_lesson, load_solution

ITEM = """\
item: corner-block
base:
  corners: [[0, 0], [4, 0], [4, 2], [2, 2], [2, 4], [0, 4]]
  holes: []
pieces:
  - piece: flag
    does: join
    corners: [[0, 0], [2, 0], [0, 2]]
    turned: 135
    side: [[0, 0], [2, 0]]
    meets: [[4, 0], [4, 2]]
  - piece: notch
    does: cut
    corners: [[0, 0], [1, 0], [1, 1], [0, 1]]
    side: [[0, 0], [1, 0]]
    meets: [[1, 0], [2, 0]]
options:
  - {outline: result, turned: 90}
  - {outline: result, slip: flipped, turned: 30}
  - {corners: [[0, 0], [3, 0], [0, 3]], turned: 180, scale: 1.5}
"""

FLAG = "corners: [[0, 0], [2, 0], [0, 2]]"
FLAG_MEETS = "meets: [[4, 0], [4, 2]]"
NOTCH = "corners: [[0, 0], [1, 0], [1, 1], [0, 1]]"
NOTCH_MEETS = "meets: [[1, 0], [2, 0]]"
ALL = "[[0, 0], [4, 0], [4, 2], [2, 2], [2, 4], [0, 4]]"

# The same as the item, but the flag lies over the base's upright arm.
OVERLAPS = ITEM.replace(FLAG, "corners: [[0, 0], [2, 0], [-1, 2]]").replace(FLAG_MEETS, "meets: [[4, 2], [2, 2]]")

# (what is wrong, the file, line, field, part of the message)
UNSOLVABLE = [
    ("a join that overlaps", OVERLAPS, 11, "pieces[0].meets", "overlaps the outline"),
    (
        "a cut that reaches outside",
        ITEM.replace(NOTCH, "corners: [[0, 0], [1, 0], [1, 5], [0, 5]]"),
        16, "pieces[1].meets", "reaches outside the outline",
    ),
    (
        "a cut that leaves nothing",
        ITEM.replace("pieces:\n", f"pieces:\n  - {{piece: all, does: cut, corners: {ALL},\n"
                     "     side: [[0, 0], [4, 0]], meets: [[0, 0], [4, 0]]}\n"),
        6, "pieces[0].corners", "leaves nothing",
    ),
    (
        "a result in two parts",
        ITEM.replace("[1, 1], [0, 1]]", "[1, 2], [0, 2]]").replace(NOTCH_MEETS, "meets: [[2, 0], [3, 0]]"),
        14, "pieces[1].corners", "falls into 2 parts",
    ),
    (
        "a result touching itself",
        ITEM.replace("holes: []", "holes: [[[1.5, 1], [1.8, 1.5], [1.2, 1.5]]]"),
        14, "pieces[1].corners", "touches itself at (1.5, 1)",
    ),
    (
        "a side that is no longer there",
        ITEM.replace(NOTCH_MEETS, "meets: [[4, 0], [4, 1]]"),
        16, "pieces[1].meets", "not on one side of the outline as it stands",
    ),
    (
        "a slip that nobody knows",
        ITEM.replace("slip: flipped", "slip: fliped"),
        19, "options[1].slip", "there is no slip called",
    ),
    (
        "a slip without its piece",
        ITEM.replace("slip: flipped", "slip: left-out"),
        19, "options[1].piece", "none is named",
    ),
    (
        "two options that are the same",
        ITEM.replace("{corners: [[0, 0], [3, 0], [0, 3]], turned: 180,", "{outline: result, slip: flipped,"),
        20, "options[2]", "same",
    ),
]  # fmt: skip


def written(tmp_path: Path, text: str, name: str = "item.yaml") -> Path:
    path = tmp_path / name
    path.write_text(text, encoding="utf-8", newline="")
    return path


def test_a_good_item_is_solved(tmp_path: Path) -> None:
    solution = load_solution(written(tmp_path, ITEM))
    assert solution.sound
    assert solution.key == "A"
    # 12 for the base and 2 for the flag, less 1 for the notch.
    assert solution.outline.area == pytest.approx(13)


def test_an_unsound_item_is_handed_on(tmp_path: Path) -> None:
    """It solves; that no option is right is for the doors to say."""
    solution = load_solution(
        written(tmp_path, ITEM.replace("{outline: result, turned: 90}", "{corners: [[0, 0], [1, 0], [0, 2]]}"))
    )
    assert not solution.sound
    assert solution.key is None


@pytest.mark.parametrize(
    ("text", "line", "field", "message"),
    [row[1:] for row in UNSOLVABLE],
    ids=[row[0] for row in UNSOLVABLE],
)
def test_what_cannot_be_solved_is_refused_where_it_is_wrong(
    tmp_path: Path, text: str, line: int, field: str, message: str
) -> None:
    assert text != ITEM
    path = written(tmp_path, text)
    assert scan_item(path).faults == ()
    with pytest.raises(ItemError) as caught:
        load_solution(path)
    told = "\n".join(map(str, caught.value.faults))
    assert [(fault.file, fault.line, fault.field) for fault in caught.value.faults] == [(str(path), line, field)], told
    assert message in told


def test_faults_of_reading_and_of_solving_come_in_one_run(tmp_path: Path) -> None:
    text = (
        ITEM.replace("item: corner-block", "item: Corner")
        .replace("meets: [[1, 0], [2, 0]]", "meets: [[4, 0], [4, 1]]")
        .replace("slip: flipped", "slip: fliped")
        .replace("scale: 1.5", "scale: 0")
    )
    with pytest.raises(ItemError) as caught:
        load_solution(written(tmp_path, text))
    assert [fault.line for fault in caught.value.faults] == [1, 16, 19, 20]


def test_what_is_wrong_with_slips_and_options_comes_in_the_same_run(tmp_path: Path) -> None:
    """A flag that is shown as it lies cannot be turned back; and two options are the same."""
    text = ITEM.replace("turned: 135", "turned: -90").replace("item: corner-block", "item: Corner")
    text += (
        "  - {outline: result, slip: turned-back, piece: flag}\n"
        "  - {corners: [[5, 0], [9, 0], [9, 4]]}\n"
        "  - {outline: result, slip: fliped}\n"
    )
    with pytest.raises(ItemError) as caught:
        load_solution(written(tmp_path, text))
    assert [(fault.line, fault.field) for fault in caught.value.faults] == [
        (1, "item"),
        (21, "options[3].slip"),
        (22, "options[4]"),
        (23, "options[5].slip"),
    ]
    with pytest.raises(ItemError) as alone:
        load_solution(written(tmp_path, text.replace("item: Corner", "item: corner")))
    assert alone.value.faults == caught.value.faults[1:]
    told = [fault.message for fault in caught.value.faults]
    assert told[1] == "the slip turned-back gives no outline here: flag needs no turn"
    assert told[2] == "option E is the same outline as option C"


def test_options_that_cannot_be_made_are_told_beside_a_bad_title(tmp_path: Path) -> None:
    """Three squares in a row: too few slips change that."""
    text = """\
item: row-block
title: ''
base: {corners: [[0, 0], [1, 0], [1, 1], [0, 1]]}
pieces:
  - {piece: bar, does: join, corners: [[0, 0], [2, 0], [2, 1], [0, 1]], side: [[0, 0], [0, 1]], meets: [[1, 0], [1, 1]]}
options: {make: 5, seed: 1}
"""
    with pytest.raises(ItemError) as caught:
        load_solution(written(tmp_path, text.replace("title: ''", "title: Row block")))
    alone = [(fault.field, fault.message) for fault in caught.value.faults]
    assert [field for field, _ in alone] == ["options.make"]
    with pytest.raises(ItemError) as caught:
        load_solution(written(tmp_path, text))
    assert [(fault.field, fault.message) for fault in caught.value.faults[1:]] == alone
    # Which options are made depends on the name: nothing is said of them while it is not known.
    with pytest.raises(ItemError) as caught:
        load_solution(
            written(tmp_path, text.replace("item: row-block", "item: Row!").replace("title: ''", "title: Row block"))
        )
    assert [fault.field for fault in caught.value.faults] == ["item"]


def test_a_piece_before_a_bad_one_is_laid_too(tmp_path: Path) -> None:
    text = OVERLAPS.replace("does: cut", "does: snip")
    with pytest.raises(ItemError) as caught:
        load_solution(written(tmp_path, text))
    assert [fault.field for fault in caught.value.faults] == ["pieces[0].meets", "pieces[1].does"]


LESSON = """\
lesson: first
parts:
  - {show: one.yaml, as: worked-example}
  - {show: two.yaml, as: your-turn}
"""


def test_a_lesson_is_taken_in_with_its_items_in_order(tmp_path: Path) -> None:
    written(tmp_path, ITEM.replace("corner-block", "one"), "one.yaml")
    written(tmp_path, ITEM.replace("corner-block", "two"), "two.yaml")
    lesson, solutions = load_lesson(written(tmp_path, LESSON, "lesson.yaml"))
    assert [solution.item.name for solution in solutions] == ["one", "two"]
    assert len(lesson.parts) == 2


def test_faults_of_all_items_of_a_lesson_come_in_one_run(tmp_path: Path) -> None:
    one = written(tmp_path, ITEM.replace("does: join", "does: glue"), "one.yaml")
    two = written(tmp_path, ITEM.replace("slip: flipped", "slip: fliped"), "two.yaml")
    with pytest.raises(LessonError) as caught:
        load_lesson(written(tmp_path, LESSON, "lesson.yaml"))
    assert [(f.file, f.line) for f in caught.value.faults] == [(str(one), 7), (str(two), 19)]


def test_two_items_of_one_name_cannot_share_a_lesson(tmp_path: Path) -> None:
    written(tmp_path, ITEM, "one.yaml")
    written(tmp_path, ITEM, "two.yaml")
    path = written(tmp_path, LESSON, "lesson.yaml")
    with pytest.raises(LessonError) as caught:
        load_lesson(path)
    (fault,) = caught.value.faults
    assert (fault.file, fault.line, fault.field) == (str(path), 4, "parts[1].show")


SCRAPS = ["", "0", "-1", "2", "1e9", ".nan", "1e-7", "null", "yes", "[", "]", "{", "}", ":", "- ", ", ", "&a ", "*a",
          "!!str ", "\n", "\n  ", "\t", '"', "'", "#", "é", "\x00", "\ufeff", "---\n", "[[0, 0], [1, 0]]", "result",
          "flag", "notch", "base", "cut", "slip: left-out, piece: flag", "2.0005", "4.004", "|", ">"]  # fmt: skip


@st.composite
def spoilt(draw: st.DrawFn) -> str:
    """The good item with a few stretches of it replaced by scraps or by other stretches of it."""
    text = ITEM
    for _ in range(draw(st.integers(1, 4))):
        start = draw(st.integers(0, len(text)))
        length = draw(st.sampled_from([0, 1, 1, 1, 2, 3, 5, 20]))
        other = draw(st.integers(0, len(ITEM)))
        scrap = draw(st.sampled_from([*SCRAPS, ITEM[other : other + 3], ITEM[other : other + 25]]))
        text = text[:start] + scrap + text[start + length :]
    return text


@st.composite
def renumbered(draw: st.DrawFn) -> str:
    """The good item with a few of its numbers replaced: nearly every one of these can be read, few can be solved."""
    pieces = ITEM.replace("[", "[ ").replace("]", " ]").replace(",", " ,").split(" ")
    places = [i for i, part in enumerate(pieces) if part.strip().isdigit()]
    for place in draw(st.lists(st.sampled_from(places), min_size=1, max_size=4)):
        number = draw(
            st.sampled_from(["0", "1", "2", "3", "4", "-1", "0.5", "1.999", "2.0005", "4.003", "100", "1e-5"])
        )
        pieces[place] = pieces[place].replace(pieces[place].strip(), number)
    return " ".join(pieces)


@pytest.mark.parametrize("texts", [spoilt(), renumbered()], ids=["spoilt text", "other numbers"])
def test_nothing_but_an_item_error_comes_of_a_spoilt_file(
    tmp_path: Path, cases: Callable[[int, int], int], texts: st.SearchStrategy[str]
) -> None:
    path = tmp_path / "spoilt.yaml"

    @settings(max_examples=cases(150, 5_000), deadline=None, suppress_health_check=list(HealthCheck))
    @given(text=texts)
    def holds(text: str) -> None:
        path.write_text(text, encoding="utf-8", newline="")
        faults: tuple[Fault, ...] = ()
        try:
            load_solution(path)
        except ItemError as error:
            faults = error.faults
            assert faults
        lines = [fault.line for fault in faults]
        assert lines == sorted(lines)
        assert max(lines, default=0) <= text.replace("\r", "\n").count("\n") + 1
        assert all(fault.file == str(path) and fault.message and fault.fix for fault in faults)

    holds()
