"""Slips of the keyboard in an item: each is told on its own line, with what is wrong and what to write."""

from __future__ import annotations

from pathlib import Path

import pytest

ITEM = """\
item: eight-block
title: The eight block
base:
  corners: [[0, 0], [6, 0], [6, 2], [4, 2], [4, 3], [2, 3], [2, 5], [0, 5]]
pieces:
  - piece: flag
    does: join
    corners: [[0, 0], [2, 0], [0, 3]]
    turned: 135
    side: 1
    meets: [[6, 0], [6, 2]]
  - piece: cap
    does: join
    walk: right 1, up 2, left 1, close
    turned: 40
    side: 1
    of: flag
    meets: [[0, 0], [0, 1]]
  - piece: notch
    does: cut
    walk: right 1, up-left 1, close
    turned: 200
    side: [[0, 0], [1, 0]]
    meets: [[1, 0], [2, 0]]
options:
  - {outline: result, turned: 90}
  - {outline: result, slip: flipped, turned: 45}
  - {outline: result, slip: left-out, piece: cap, turned: 10}
"""

NO_COLON = "has no colon after it"
NO_BRACKET = "with no bracket round them all"
INDENTED = "the indentation of this line does not fit"
NOTCH = "meets: [[1, 0], [2, 0]]"

# What is typed, what comes of it, on which line it is told, what is wrong, what to do.
SLIPS = [
    ("item: eight", "item eight", 1, f"the key item {NO_COLON}", "write item: eight-block"),
    ("title: The", "title The", 2, f"the key title {NO_COLON}", "write title: The eight block"),
    ("base:\n", "base\n", 3, f"the key base {NO_COLON}", "write base:"),
    ("does: join\n    corners", "does join\n    corners", 7, f"the key does {NO_COLON}", "write does: join"),
    ("does: join\n    corners", "does:join\n    corners", 7, "no space behind it", "write does: join"),
    (NOTCH, "meets [[1, 0], [2, 0]]", 24, f"the key meets {NO_COLON}", f"write {NOTCH}"),
    ("options:\n", "options\n", 25, f"the key options {NO_COLON}", "write options:"),
    ("turned: 90}", "turned 90}", 26, "options[0].turned", "write turned: 90"),
    ("{outline: result, turned: 90", "{outline:result, turned: 90", 26, "options[0].outline", "write outline: result"),
    (NOTCH, "meets: [1, 0], [2, 0]", 24, f"after meets {NO_BRACKET}", f"write {NOTCH}"),
    ("side: [[0, 0], [1, 0]]", "side: [0, 0], [1, 0]", 23, f"after side {NO_BRACKET}", "write side: [[0, 0], [1, 0]]"),
    ("corners: [[0, 0], [2, 0], [0, 3]]", "corners: [0, 0], [2, 0], [0, 3]", 8, NO_BRACKET, "corners: [[0, 0], [2, 0]"),
    (NOTCH, "meets: [1, 0, 2, 0]", 24, "pieces[2].meets: a side has two points", "write [[1, 0], [2, 0]]"),
    (NOTCH, "meets: [(1, 0), (2, 0)]", 24, "pieces[2].meets: a side has two points", "write [[1, 0], [2, 0]]"),
    (NOTCH, "meets: (1, 0), (2, 0)", 24, "pieces[2].meets", "write [[1, 0], [2, 0]]"),
    (NOTCH, "meets: [[1, 0], [2, 0]", 24, "1 [ is opened on this line and not closed", "close each [ with ]"),
    (NOTCH, "meets: [[1, 0], [2, 0]]]", 24, "was not opened", "take out one ]"),
    ("[6, 0], [6, 2], [4", "[6, 0] [6, 2], [4", 4, "a comma is missing between two lists", "between ] and ["),
    ("[6, 2], [4, 2]", "[6 2], [4, 2]", 4, "base.corners[2]: a point has two numbers", "write [6, 2]"),
    ("[4, 3], [2, 3]", "[4; 3], [2, 3]", 4, "base.corners[4]: a point has two numbers", "write [4, 3]"),
    ("[4, 3], [2, 3]", "[4, 3], [2,5, 3]", 4, "this one has 3", "[2.5, 3] or [2, 5.3]"),
    ("    turned: 135", "     turned: 135", 9, f"{INDENTED}", "begin it with 4 spaces, if it belongs with line 8"),
    ("    turned: 135", "   turned: 135", 9, f"{INDENTED}", "begin it with 4 spaces, if it belongs with line 8"),
    ("    turned: 135", "\tturned: 135", 9, "begins with a tab", "indent with spaces"),
    ("  - piece: cap", "  -piece: cap", 12, "the dash of this line has no space behind it", "write - piece: cap"),
    ("  - piece: cap", "    piece: cap", 12, "pieces[0].piece: piece is given twice", "begin line 12 with a dash"),
    ("  - piece: cap", "  - peice: cap", 12, 'no key called "peice"', "write piece"),
    ("does: cut", "does: cutt", 20, "pieces[2].does", "write cut"),
    ("of: flag", "of: flga", 17, "pieces[1].of", "write of: flag"),
    ("turned: 135", "turned: 135°", 9, "pieces[0].turned", "write 135"),
    ("walk: right 1, up-", "walk: rigth 1, up-", 21, '"rigth" is no direction', "write right"),
    ("walk: right 1, up 2", "walk: right1, up 2", 14, "a space is missing between right and its", "write right 1"),
    ("left 1, close", "left 1, closed", 14, '"closed" is no step', "write close"),
    (
        "left 1, close",
        "left 3, up 1",
        14,
        "the walk does not close: it ends at (-2, 3)",
        "check the length of each step",
    ),
    ("slip: flipped", "slip: fliped", 27, "options[1].slip", "write slip: flipped"),
    ("slip: left-out, piece: cap", "slip: left-out", 28, "options[2].piece", "add piece: flag, cap or notch"),
    ("title: The eight block", 'title: "The eight block', 2, "never closed", "close the quotation mark"),
    ("title: The eight", "title: The: eight", 2, "a colon stands where", "in quotation marks"),
    ("turned: 90}", "turned: 90", 26, "1 { is opened on this line and not closed", "close each { with }"),
]


@pytest.mark.parametrize(
    ("old", "new", "line", "wrong", "mend"), SLIPS, ids=[f"{new} {n}" for n, (_, new, *_) in enumerate(SLIPS)]
)
def test_a_slip_is_told_once_on_its_line_with_what_to_write(
    run, old: str, new: str, line: int, wrong: str, mend: str, tmp_path: Path
) -> None:
    assert old in ITEM
    path = tmp_path / "eight-block.yaml"
    path.write_text(ITEM.replace(old, new, 1), encoding="utf-8")
    ran = run("check", path)
    assert ran.code == 2
    (told,) = ran.err.splitlines()
    assert told.startswith(f"{path}:{line}: "), told
    said, _, fix = told.partition(" To mend it: ")
    assert wrong in said and mend in fix, told


# A side to meet that cannot be, and the one that is offered: free, on the outline, as long as the piece's own.
OFFERED = [
    ("meets: [[6.2, 0.5], [6.2, 1.5]]", 24, "name two points of one side, such as [[5, 0], [6, 0]]"),  # not 6,0 to 6,2
    ("meets: [[5.5, 0], [6.5, 0]]", 24, "such as [[5, 0], [6, 0]]"),
    ("meets: [[1, 0], [3, 0]]", 24, "such as meets: [[1, 0], [2, 0]]"),
    ("meets: 2", 24, "such as meets: [[5, 0], [6, 0]]"),  # side 2 is the flag's
    ("meets: [[6, 0], [6, 1]]", 24, "that is still on the outline"),
]


@pytest.mark.parametrize(("meets", "line", "mend"), OFFERED)
def test_no_side_is_offered_that_a_piece_uses_already(run, meets: str, line: int, mend: str, tmp_path: Path) -> None:
    path = tmp_path / "eight-block.yaml"
    path.write_text(ITEM.replace(NOTCH, meets), encoding="utf-8")
    (told,) = run("check", path).err.splitlines()
    assert told.startswith(f"{path}:{line}: pieces[2].meets: ") and mend in told
    assert "[[6, 0], [6, 2]]" not in told
    if "such as" in told:
        offered = told.split("such as ")[1].removeprefix("meets: ").rstrip(".")
        path.write_text(ITEM.replace(NOTCH, f"meets: {offered}"), encoding="utf-8")
        assert run("check", path).code == 0


def test_a_piece_that_meets_a_piece_is_offered_none_of_its_host_s_marks(run, tmp_path: Path) -> None:
    path = tmp_path / "eight-block.yaml"
    path.write_text(ITEM.replace("meets: [[0, 0], [0, 1]]", "meets: [[0, -1], [1, -1]]"), encoding="utf-8")
    (told,) = run("check", path).err.splitlines()
    assert "[[0, 0], [2, 0]]" not in told and "such as [[0, 1], [0, 0]]" in told  # flag's side 1 lies on the base


def test_a_side_that_is_used_is_told_with_the_piece_that_uses_it(run, tmp_path: Path) -> None:
    path = tmp_path / "eight-block.yaml"
    path.write_text(ITEM.replace(NOTCH, "meets: [[6, 0], [6, 1]]"), encoding="utf-8")
    assert "flag uses that side already" in run("check", path).err
