"""Two changes of one text brought together: both are there afterwards, or whoever made them is asked."""

from __future__ import annotations

import itertools
from collections.abc import Callable
from random import Random
from typing import Any

import pytest

from explainers.document.alignment import meaning
from explainers.document.merging import merged
from explainers.document.text_edits import inserted, moved, removed, with_value
from explainers.document.text_places import parts_of, rooted, value_at

TEXT = """\
# A block.
item: block   # its name
base:
  corners: [[0, 0], [4, 0], [4, 2], [0, 4]]
pieces:
  # first
  - piece: flag
    does: join
    turned: 10
    side: [[0, 0], [2, 0]]
  - piece: tab
    does: cut
    turned: 20
    side: [[0, 0], [1, 0]]
options:
  - {outline: result, turned: 45}  # right
  - {outline: result, slip: flipped}
  - {outline: result, slip: left-out, piece: tab}
"""

Edit = Callable[[str], str]


def put(path: str, value: Any) -> Edit:
    return lambda text: with_value(text, parts_of(path), value)


def out(path: str) -> Edit:
    return lambda text: removed(text, parts_of(path))


def into(path: str, index: int, value: Any) -> Edit:
    return lambda text: inserted(text, parts_of(path), index, value)


def over(path: str, start: int, end: int) -> Edit:
    return lambda text: moved(text, parts_of(path), start, end)


PIN = {"piece": "pin", "does": "join"}
APART: list[tuple[Edit, Edit]] = [
    (put("pieces[0].turned", "99"), put("pieces[0].does", "cut")),
    (put("pieces[0].turned", "99"), put("pieces[1].turned", "98")),
    (put("base.corners[0]", "[1, 1]"), put("base.corners[2]", "[5, 5]")),
    (put("options[1].turned", "5"), put("options[1].scale", "2")),
    (put("title", "New"), put("item", "other")),
    (into("pieces", 1, PIN), put("pieces[1].turned", "33")),
    (out("pieces[1]"), put("pieces[0].turned", "33")),
    (over("pieces", 0, 1), put("pieces[0].turned", "33")),
    (over("options", 0, 2), put("options[2].turned", "33")),
    (into("pieces", 2, PIN), into("options", 0, {"outline": "result", "slip": "too-large"})),
    (into("pieces", 0, PIN), into("pieces", 2, {"piece": "bow", "does": "cut"})),
    (out("pieces[0].turned"), put("pieces[0].side", "[[0, 0], [3, 0]]")),
    (out("options[2]"), into("options", 3, {"corners": "[[0, 0], [1, 0], [0, 1]]"})),
    (put("pieces[0].piece", "wing"), put("pieces[0].turned", "7")),
]


@pytest.mark.parametrize("number", range(len(APART)))
@pytest.mark.parametrize("swapped", [False, True])
def test_changes_of_different_fields_are_both_kept(number: int, swapped: bool) -> None:
    one, other = reversed(APART[number]) if swapped else APART[number]
    ours, theirs = one(TEXT), other(TEXT)
    found = merged(TEXT, ours, theirs)
    assert found.text is not None and not found.clashes
    back = merged(TEXT, theirs, ours)
    assert back.text is not None
    assert meaning(rooted(found.text)) == meaning(rooted(back.text))
    assert meaning(rooted(found.text)) not in (meaning(rooted(ours)), meaning(rooted(theirs)))
    for remark in ("# A block.", "# its name", "# first", "# right"):
        assert found.text.count(remark) == 1


@pytest.mark.parametrize(
    ("one", "other", "field"),
    [
        (put("pieces[0].turned", "99"), put("pieces[0].turned", "98"), "pieces[0].turned"),
        (put("base.corners[1]", "[1, 1]"), put("base.corners[1]", "[5, 5]"), "base.corners[1]"),
        (out("pieces[1]"), put("pieces[1].turned", "3"), "pieces"),
        (out("pieces[0].turned"), put("pieces[0].turned", "3"), "pieces[0].turned"),
        (over("pieces", 0, 1), into("pieces", 1, PIN), "pieces"),
        (put("title", "One"), put("title", "Other"), "title"),
        (put("base.corners[1]", "[1, 1]"), into("base.corners", 1, "[3, -1]"), "base.corners"),
    ],
)
def test_changes_of_one_field_are_asked_about(one: Edit, other: Edit, field: str) -> None:
    for ours, theirs in itertools.permutations([one(TEXT), other(TEXT)]):
        found = merged(TEXT, ours, theirs)
        assert found.text is None
        assert [clash.field for clash in found.clashes] == [field]
        (clash,) = found.clashes
        assert clash.ours != clash.theirs
        if clash.our_line:
            assert clash.ours.splitlines()[0] in ours.splitlines()[clash.our_line - 1]


def test_the_same_change_twice_is_one() -> None:
    for edit in (put("pieces[0].turned", "9"), into("pieces", 1, PIN), out("pieces[0]"), over("options", 0, 1)):
        both = edit(TEXT)
        assert merged(TEXT, both, with_value(both, ("title",), "T")).text == with_value(both, ("title",), "T")


def test_remarks_and_layout_of_the_other_side_stay() -> None:
    theirs = TEXT.replace("# A block.", "# A block, told\n# in two lines.").replace("turned: 20", "turned: 20  # new")
    found = merged(TEXT, put("pieces[0].turned", "1")(TEXT), theirs)
    assert found.text == theirs.replace("turned: 10", "turned: 1")


def test_remarks_of_a_piece_that_was_put_in_come_along() -> None:
    ours = TEXT.replace("  - piece: tab", "  # a pin\n  - piece: pin\n    does: join  # at last\n  - piece: tab")
    found = merged(TEXT, ours, put("pieces[1].turned", "1")(TEXT))
    assert found.text == ours.replace("turned: 20", "turned: 1")


def test_a_text_that_is_no_yaml_is_asked_about() -> None:
    found = merged(TEXT, put("title", "T")(TEXT), "item: [1, 2")
    assert found.text is None and found.clashes[0].field == ""


def test_random_changes_of_both_sides_are_there_or_asked_about(cases: Callable[[int, int], int]) -> None:
    """Whatever both sides do: no change of either is dropped silently."""
    edits = [edit for pair in APART for edit in pair]
    for seed in range(cases(150, 4000)):
        rng = Random(seed)
        ours = theirs = TEXT
        for edit in rng.sample(edits, rng.randint(1, 3)):
            ours = _tried(edit, ours)
        for edit in rng.sample(edits, rng.randint(1, 3)):
            theirs = _tried(edit, theirs)
        found = merged(TEXT, ours, theirs)
        if found.text is None:
            assert found.clashes
            continue
        new = rooted(found.text)
        for path in ("title", "item", "base.corners"):
            before, our, their, now = (
                meaning(value_at(root, parts_of(path))) for root in (rooted(TEXT), rooted(ours), rooted(theirs), new)
            )
            if our != before and their == before:
                assert now == our, (seed, path)
            if their != before and our == before:
                assert now == their, (seed, path)
        names = [
            {piece["piece"] for piece in meaning(value_at(root, ("pieces",)))}
            for root in (rooted(ours), rooted(theirs), new)
        ]
        assert names[2] <= names[0] | names[1], seed
        if "pin" in names[0] | names[1]:
            assert "pin" in names[2], seed


def _tried(edit: Edit, text: str) -> str:
    try:
        return edit(text)
    except Exception:  # what it speaks of is gone
        return text


def test_long_lists_are_taken_as_a_whole() -> None:
    """Work that grows with the square of a list is bounded."""
    entries = "".join(f"  - {{n: {number}}}\n" for number in range(5_000))
    base, ours, theirs = f"a:\n{entries}", f"a:\n{entries}  - {{n: x}}\n", f"a:\n  - {{n: y}}\n{entries}"
    assert [clash.field for clash in merged(base, ours, theirs).clashes] == ["a"]
    together = merged(base, ours, base + "b: 1\n").text
    assert together is not None and meaning(rooted(together)) == meaning(rooted(ours + "b: 1\n"))
