"""Rewriting a file: the same item, every remark, keys in order, and nothing left to change the second time."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest
from bad_files import BAD_ITEMS, GOOD_ITEM, BadFile
from hypothesis import HealthCheck, Phase, assume, given, settings
from hypothesis import strategies as st
from strategies import random_item
from test_lesson_reader import GOOD_LESSON

from explainers.document.house_form import house_form
from explainers.document.yaml_text import WIDTH
from explainers.errors import ItemError
from explainers.intake.item_reader import format_of_kind
from explainers.intake.lesson_reader import LESSON
from explainers.intake.reader import read_item, scan_item
from explainers.intake.writing import item_yaml, rewritten
from explainers.item.folder import FileKind
from explainers.item.option_reader import option_format
from explainers.item.series_reader import SERIES
from explainers.kinds.join_and_cut.fields.item_reader import KEYS
from explainers.kinds.join_and_cut.fields.piece_reader import PIECE
from explainers.words.mark_names import SIGN_NAMES

ANY_WAY = """\
# The head of the file.

pieces:
- mark: "K"    # its mark
  corners:     # three of them
  - [0, 0]
  - - 2
    - 0
  - [0, 2]
  piece: 'flag'
  meets:
  - [4, 0]
  - [4, 2]
  # how it lies
  turned: 135
  side: 1
  does: join
  # the end of the flag

# what it is called
title: >
  The corner
  block
base: {holes: [], walk: [right 4, up 2, left 2, up 2, left 2], from: [0, 0]}
# mark them well
options:
  - turned: 90

    outline: result
  - {turned: 30, corners: [[0, 0], [6, 0], [6, 2],   # the foot
                           [2, 2], [2, 4], [0, 4]]}
  -
    # plain
    corners:
      - [0, 0]     # first
      - [3, 0]
      # last
      - [0, 3]
accepted: {no-turn: 'meant: "easy"'}
item: corner-block
# the end of the file
"""
IN_HOUSE_FORM = """\
# The head of the file.

item: corner-block

# what it is called
title: The corner block
base: {walk: [right 4, up 2, left 2, up 2, left 2, close], from: [0, 0], holes: []}
pieces:
  - piece: flag
    does: join
    corners: [[0, 0], [2, 0], [0, 2]]  # three of them
    # how it lies
    turned: 135
    side: 1
    meets: [[4, 0], [4, 2]]
    mark: K    # its mark
    # the end of the flag
# mark them well
options:
  - outline: result
    turned: 90
  - {turned: 30, corners: [[0, 0], [6, 0], [6, 2],   # the foot
                           [2, 2], [2, 4], [0, 4]]}
  # plain
  - corners:
      - [0, 0]     # first
      - [3, 0]
      # last
      - [0, 3]
accepted: {no-turn: "meant: \\"easy\\""}
# the end of the file
"""


ITEM = format_of_kind("join-and-cut")
OPTION = option_format(KEYS.slip_keys, KEYS.result)
FORMATS = {"item": ITEM, "lesson": LESSON, "series": SERIES}


def formed(text: str, kind: FileKind = "item") -> str:
    new = house_form(text, FORMATS[kind].order)
    assert new is not None
    return new


def test_a_file_laid_out_anyhow_comes_out_in_the_house_form(tmp_path: Path) -> None:
    path = tmp_path / "item.yaml"
    path.write_text(ANY_WAY, encoding="utf-8")
    assert rewritten(path).new.decode() == IN_HOUSE_FORM
    path.write_text(IN_HOUSE_FORM, encoding="utf-8")
    assert not rewritten(path).changes


def test_a_lesson_tells_what_it_is_before_what_it_shows() -> None:
    text = (
        "closing: Well done.\nwords: {b-block.x.turn: 'So:', a-block.x.turn: b}\n"
        "parts: [{as: your-turn, show: a.yaml}]\ntitle: 'A'\nlanguage: en-GB\nlesson: a\n"
    )
    assert formed(text, "lesson") == (
        "lesson: a\ntitle: A\nlanguage: en-GB\nparts: [{show: a.yaml, as: your-turn}]\nclosing: Well done.\n"
        'words: {b-block.x.turn: "So:", a-block.x.turn: b}\n'
    )


def test_long_lines_are_broken_where_they_may_be() -> None:
    words = " ".join(["stitch"] * 60)
    text = formed(f"lesson: a\nparts:\n  - {{show: a.yaml}}\nopening: {words}\nclosing: '{words}: so'\n", "lesson")
    assert all(len(line) <= WIDTH for line in text.splitlines())
    assert formed(text, "lesson") == text
    steps = ", ".join(["right 1", "up 1"] * 20)
    text = formed(GOOD_ITEM.replace("corners: [[0, 0], [4, 0], [4, 2], [2, 2], [2, 4], [0, 4]]\n", f"walk: {steps}\n"))
    assert all(re.fullmatch(r"    (right|up).*", line) for line in text.splitlines() if line.endswith("up 1"))


def test_what_the_program_writes_is_in_the_house_form(cases: Callable[[int, int], int]) -> None:
    for seed in range(cases(40, 500)):
        text = item_yaml(random_item(seed), comment=["Made for a test."])
        assert formed(text) == text


def test_line_ends_and_the_mark_at_the_start_stay(tmp_path: Path) -> None:
    path = tmp_path / "item.yaml"
    path.write_bytes(b"\xef\xbb\xbf" + ANY_WAY.replace("\n", "\r\n").encode())
    assert rewritten(path).new == b"\xef\xbb\xbf" + IN_HOUSE_FORM.replace("\n", "\r\n").encode()


@pytest.mark.parametrize("bad", [bad for bad in BAD_ITEMS if bad.why != "a series"], ids=lambda bad: bad.why)
def test_a_file_with_a_fault_is_refused(tmp_path: Path, bad: BadFile) -> None:
    path = tmp_path / "item.yaml"
    path.write_bytes(bad.text)
    with pytest.raises(ItemError):
        rewritten(path)


def test_a_file_that_repeats_values_is_left_alone(tmp_path: Path) -> None:
    path = tmp_path / "item.yaml"
    path.write_text(GOOD_ITEM.replace("[[0, 0], [2, 0]]\n", "&s [[0, 0], [2, 0]]\n", 1), encoding="utf-8")
    with pytest.raises(ItemError, match="repeats a value"):
        rewritten(path)


# Each case has a file of its own in one folder; a failing file is read as it is, since making it smaller takes minutes.
ONE_FOLDER = settings(
    max_examples=30,
    deadline=None,
    phases=[Phase.explicit, Phase.reuse, Phase.generate],
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)

# Remarks put anywhere a file may have one.

BLOCK_ITEM = IN_HOUSE_FORM.replace("accepted: {no-turn: ", "accepted:\n  no-turn: ").replace('\\"easy\\""}', 'easy"')
TEXTS = [GOOD_ITEM, ANY_WAY, IN_HOUSE_FORM, BLOCK_ITEM]


@st.composite
def remarked(draw: st.DrawFn, text: str) -> tuple[str, list[str]]:
    """A file with remarks behind its lines and on lines of their own, at any depth, and with empty lines."""
    lines: list[str] = []
    remarks: list[str] = []

    def remark() -> str:
        remarks.append(f"#{draw(st.sampled_from(['', ' ']))}r{len(remarks)}{draw(st.sampled_from(REMARKS))}")
        return remarks[-1]

    folded = 0  # inside a text of several lines a # is text
    for line in text.splitlines():
        if folded and not line.startswith(" " * folded):
            folded = 0
            lines.append(line)
            continue
        if not folded and draw(st.integers(0, 5)) == 0:
            lines.append(" " * draw(st.integers(0, 8)) + remark())
        if not folded and draw(st.integers(0, 9)) == 0:
            lines.append(" " * draw(st.integers(0, 3)))
        if not folded and "#" not in line and line and draw(st.integers(0, 5)) == 0:
            line += " " * draw(st.integers(1, 12)) + remark()
        lines.append(line)
        if re.search(r": >( +#.*)?$", line):
            folded = 2
    if draw(st.booleans()):
        lines.append(" " * draw(st.integers(0, 6)) + remark())
    return "\n".join(lines) + draw(st.sampled_from(["", "\n", "\n\n"])), remarks


REMARKS = ["", " 'one", ' "two', ": three", " - four", " [five", " # six", " Größe \N{MULTIPLICATION SIGN} 7"]


@pytest.mark.parametrize("index", range(len(TEXTS)))
@ONE_FOLDER
@given(data=st.data())
def test_every_remark_stays_and_the_item_is_the_same(tmp_path: Path, index: int, data: st.DataObject) -> None:
    text, remarks = data.draw(remarked(TEXTS[index]))
    path = tmp_path / "item.yaml"
    path.write_text(text, encoding="utf-8")
    before = read_item(path)
    new = rewritten(path).new
    path.write_bytes(new)
    assert read_item(path) == before
    after = new.decode()
    for remark in remarks:
        assert len(re.findall(re.escape(remark) + r"$", after, re.MULTILINE)) == 1, remark
    assert not rewritten(path).changes, after


# Keys and values laid out at random.


@st.composite
def laid_out_anyhow(draw: st.DrawFn) -> str:
    """An item's keys in any order, in brackets or on lines of their own, names in any quotation marks."""
    item = random_item(draw(st.integers(0, 10_000)))

    def flat(points: object) -> str:
        return "[" + ", ".join(f"[{x:.6f}, {y:.6f}]" for x, y in points) + "]"  # type: ignore[attr-defined]

    def listed(points: object, indent: str) -> str:
        if draw(st.booleans()):
            return " " + flat(points)
        return "".join(f"\n{indent}- [{x:.6f}, {y:.6f}]" for x, y in points)  # type: ignore[attr-defined]

    def quoted(text: str) -> str:
        return draw(st.sampled_from([text, f"'{text}'", f'"{text}"']))

    pieces = []
    for piece in item.pieces:
        keys = [
            f"piece: {quoted(piece.name)}",
            f"does: {piece.does}",
            f"corners:{listed(piece.corners, '    ')}",
            f"side:{listed(piece.side, '      ')}",
            f"meets:{listed(piece.meets, '     ')}",
            f"of: {quoted(piece.of)}",
            f"{'sign' if piece.mark in SIGN_NAMES else 'mark'}: {quoted(piece.mark)}",
            f"turned: {piece.turned:.4f}",
        ]
        pieces.append("  - " + "\n    ".join(draw(st.permutations(keys))))
    parts = [
        f"item: {quoted(item.name)}",
        "pieces:\n" + "\n".join(pieces),
        "base:\n  corners:" + listed(item.base.exterior, "  ") + ("\n  holes: " if item.base.holes else "")
        + ("[" + ", ".join(map(flat, item.base.holes)) + "]" if item.base.holes else ""),
        "options: {seed: 7, make: 3}",
    ]  # fmt: skip
    return "\n".join(draw(st.permutations(parts))) + "\n"


@ONE_FOLDER
@given(text=laid_out_anyhow())
def test_read_rewritten_and_read_again_is_the_same_item(tmp_path: Path, text: str) -> None:
    path = tmp_path / "item.yaml"
    path.write_text(text, encoding="utf-8")
    assume(not scan_item(path).faults)  # a mark may lie on a joined piece, but be told as one of the base
    before = read_item(path)
    path.write_bytes(rewritten(path).new)
    assert read_item(path) == before
    assert not rewritten(path).changes
    lines = path.read_text(encoding="utf-8").splitlines()
    assert in_order([line.split(":")[0] for line in lines if line[0] != " "], ITEM.keys)
    for _, *keys in pieces_of(lines):
        assert in_order(keys, PIECE.keys)
    assert all(re.match(r"\s+(corners|side|meets|holes): \[\[|\s+\[|(?!.*\[\[)", line) for line in lines), lines


def in_order(keys: list[str], order: tuple[str, ...]) -> bool:
    return keys == [key for key in order if key in keys]


def pieces_of(lines: list[str]) -> list[list[str]]:
    pieces: list[list[str]] = []
    for line in lines:
        if found := re.match(r"(  - |    )(\w+):", line):
            if "-" in found[1]:
                pieces.append([""])
            pieces[-1].append(found[2])
    return pieces


def test_every_key_of_an_option_has_its_place() -> None:
    keys = {"outline": "result", "slip": "slid", "piece": "flag", "turned": "5", "scale": "2", "name": "a"}
    text = "{" + ", ".join(f"{key}: {keys[key]}" for key in reversed(OPTION.keys) if key in keys) + "}"
    new = formed(GOOD_ITEM.replace("{outline: result, turned: 90}", text))
    found = re.search(r"- \{(outline.*)\}", new)
    assert found and [word.split(":")[0] for word in found[1].split(", ")] == [
        key for key in OPTION.keys if key in keys
    ]


def test_a_good_lesson_keeps_its_meaning() -> None:
    assert formed(formed(GOOD_LESSON, "lesson"), "lesson") == formed(GOOD_LESSON, "lesson")
