"""Every key of the item format, with its default; what a file may look like and still be read."""

from __future__ import annotations

from pathlib import Path

import pytest
from bad_files import GOOD_ITEM

from explainers.choice.question import MadeOptions, Option
from explainers.errors import ItemError
from explainers.intake.reader import read_item, scan_item
from explainers.kinds.join_and_cut.model import Does, Item, Piece

SMALLEST = """\
item: tile
base: {corners: [[0, 0], [2, 0], [2, 2], [0, 2]]}
pieces:
  - {piece: tip, does: cut, corners: [[0, 0], [1, 0], [0, 1]], side: [[0, 0], [1, 0]], meets: [[0, 0], [1, 0]]}
options: [{outline: result}, {outline: result}, {outline: result}]
"""


def item_from(tmp_path: Path, text: str | bytes) -> Item:
    path = tmp_path / "some-file.yaml"
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return read_item(path)


def test_every_key_is_read_as_written(tmp_path: Path) -> None:
    item = item_from(tmp_path, GOOD_ITEM)
    assert (item.name, item.title) == ("corner-block", "The corner block")
    assert item.base.exterior == ((0, 0), (4, 0), (4, 2), (2, 2), (2, 4), (0, 4))
    assert item.base.holes == ()
    assert item.pieces[0] == Piece(
        name="flag",
        does=Does.JOIN,
        corners=((0, 0), (2, 0), (0, 2)),
        side=((0, 0), (2, 0)),
        meets=((4, 0), (4, 2)),
        of="base",
        mark="K",
        turned=135.0,
    )
    assert item.pieces[1].does is Does.CUT
    assert item.options[0] == Option(turned=90.0)
    assert item.options[2] == Option(corners=((0, 0), (3, 0), (0, 3)), turned=180.0, scale=1.5, name="plain")


def test_what_is_left_out_takes_its_default(tmp_path: Path) -> None:
    item = item_from(tmp_path, SMALLEST)
    piece, option = item.pieces[0], item.options[0]
    assert item.title == "Tile"
    assert item.base.holes == ()
    assert (piece.of, piece.mark, piece.turned) == ("base", "leaf", 0.0)
    assert option == Option(corners=None, holes=(), slip=None, slip_subject=None, turned=0.0, scale=1.0, name=None)
    assert item.made is None


def test_holes_are_read_in_either_direction_and_lie_to_the_left(tmp_path: Path) -> None:
    for hole in ("[[0.5, 0.5], [1, 0.5], [1, 1]]", "[[1, 1], [1, 0.5], [0.5, 0.5]]"):
        text = SMALLEST.replace("[0, 2]]}", f"[0, 2]], holes: [{hole}]}}", 1)
        outline = item_from(tmp_path, text).base
        assert len(outline.holes) == 1
        assert outline.area == pytest.approx(4 - 0.125)


def test_corners_run_in_either_direction(tmp_path: Path) -> None:
    turned_back = SMALLEST.replace("[[0, 0], [2, 0], [2, 2], [0, 2]]", "[[0, 2], [2, 2], [2, 0], [0, 0]]")
    assert item_from(tmp_path, turned_back).base.area == item_from(tmp_path, SMALLEST).base.area == 4


def test_an_option_drawn_by_hand_may_have_holes(tmp_path: Path) -> None:
    drawn = "{corners: [[0, 0], [4, 0], [0, 4]], holes: [[[1, 1], [1.5, 1], [1, 1.5]]]}"
    option = item_from(tmp_path, SMALLEST.replace("{outline: result}]", f"{drawn}]")).options[2]
    assert option.holes == (((1, 1), (1.5, 1), (1, 1.5)),)


def test_a_slip_is_read_with_its_piece(tmp_path: Path) -> None:
    option = item_from(
        tmp_path, SMALLEST.replace("{outline: result}]", "{outline: result, slip: left-out, piece: tip}]")
    ).options[2]
    assert (option.slip, option.slip_subject, option.corners) == ("left-out", "tip", None)


def test_options_may_be_asked_for(tmp_path: Path) -> None:
    start = SMALLEST.split("options:")[0]
    assert item_from(tmp_path, start + "options: {make: 3, seed: 9}\n").made == MadeOptions(make=3, seed=9)
    assert item_from(tmp_path, start + "options: {}\n").made == MadeOptions(make=4, seed=1)


@pytest.mark.parametrize(
    ("typed", "value"),
    [
        ("2", 2), ("-2", -2), ("+2", 2), ("1.5", 1.5), (".5", 0.5), ("2.", 2), ("0.25", 0.25), ("-0", 0), ("0", 0),
        # PyYAML reads these three as text; YAML 1.2 and every teacher's calculator read them as numbers.
        ("1e3", 1000), ("1.5e2", 150), ("1E-2", 0.01),
    ],
)  # fmt: skip
def test_a_number_is_read_as_a_calculator_would(tmp_path: Path, typed: str, value: float) -> None:
    assert item_from(tmp_path, GOOD_ITEM.replace("turned: 135", f"turned: {typed}")).pieces[0].turned == value


@pytest.mark.parametrize("typed", ["No", "yes", "12", "3.10", "2024-01-01", "~x", "Null block", "1:30"])
def test_a_title_is_the_text_that_was_typed(tmp_path: Path, typed: str) -> None:
    """YAML 1.1 would make of these a false, a true, numbers, a date and 90."""
    assert item_from(tmp_path, GOOD_ITEM.replace("The corner block", typed)).title == typed


def test_a_mark_may_be_a_digit_or_three_letters(tmp_path: Path) -> None:
    for mark in ("6", "N", "ABC", "é", "Ω", "y"):
        assert item_from(tmp_path, GOOD_ITEM.replace("mark: K", f"mark: {mark}")).pieces[0].mark == mark


def test_each_piece_gets_the_sign_of_its_place_unless_it_is_in_use(tmp_path: Path) -> None:
    tip = "does: cut, corners: [[0, 0], [1, 0], [0, 1]], side: [[0, 0], [1, 0]], meets: [[0, 0], [1, 0]]"
    marks = ["", "sign: leaf, ", "", "mark: R, ", "", ""]
    pieces = "".join(f"  - {{piece: p{i}, {mark}{tip}}}\n" for i, mark in enumerate(marks))
    start, rest = SMALLEST.split("  - {piece")[0], "options:" + SMALLEST.split("options:")[1]
    item = item_from(tmp_path, start + pieces + rest)
    assert [p.mark for p in item.pieces] == ["teacup", "leaf", "bell", "R", "heart", "boat"]


def test_a_marked_side_may_be_part_of_a_side_with_needless_corners(tmp_path: Path) -> None:
    text = SMALLEST.replace("corners: [[0, 0], [1, 0], [0, 1]]", "corners: [[0, 0], [0.5, 0], [1.5, 0], [0, 1]]")
    assert item_from(tmp_path, text).pieces[0].side == ((0, 0), (1, 0))


def test_hand_typed_roots_are_taken_as_meant(tmp_path: Path) -> None:
    """2.828 typed for the diagonal of a 2 by 2 square, the example of the authoring tolerance."""
    text = SMALLEST.replace("[2, 2], [0, 2]]", "[0, 2]]").replace(
        "corners: [[0, 0], [1, 0], [0, 1]], side: [[0, 0], [1, 0]], meets: [[0, 0], [1, 0]]",
        "corners: [[0, 0], [2.828, 0], [0, 0.5]], side: [[0, 0], [2.828, 0]], meets: [[2, 0], [0, 2]]",
    )
    assert item_from(tmp_path, text).pieces[0].side[1] == (2.828, 0)


def test_a_piece_may_meet_a_hole_or_an_earlier_piece(tmp_path: Path) -> None:
    text = GOOD_ITEM.replace("holes: []", "holes: [[[0.5, 1], [1.5, 1], [1.5, 3], [0.5, 3]]]")
    hole = text.replace("meets: [[1, 0], [2, 0]]", "meets: [[0.5, 2], [0.5, 3]]")
    assert item_from(tmp_path, hole).pieces[1].meets == ((0.5, 2), (0.5, 3))
    earlier = text.replace("meets: [[1, 0], [2, 0]]", "meets: [[0, 0], [0, 1]]\n    of: flag")
    assert item_from(tmp_path, earlier).pieces[1].of == "flag"


def test_anchors_may_save_typing(tmp_path: Path) -> None:
    text = SMALLEST.replace("side: [[0, 0], [1, 0]]", "side: &s [[0, 0], [1, 0]]").replace(
        "meets: [[0, 0], [1, 0]]", "meets: *s"
    )
    assert item_from(tmp_path, text).pieces[0].meets == ((0, 0), (1, 0))


@pytest.mark.parametrize(
    "raw",
    [
        GOOD_ITEM.encode("utf-8-sig"),
        GOOD_ITEM.replace("\n", "\r\n").encode(),
        ("---\n" + GOOD_ITEM + "...\n").encode(),
        ("%YAML 1.2\n---\n" + GOOD_ITEM).encode(),
        GOOD_ITEM.rstrip("\n").encode(),
    ],
    ids=["byte-order mark", "Windows line ends", "document marks", "directive", "no last line end"],
)
def test_editors_may_differ(tmp_path: Path, raw: bytes) -> None:
    assert item_from(tmp_path, raw) == item_from(tmp_path, GOOD_ITEM)


def test_all_faults_come_in_one_run_in_line_order(tmp_path: Path) -> None:
    path = tmp_path / "many.yaml"
    path.write_text(
        GOOD_ITEM.replace("item: corner-block", "item: Corner")
        .replace("title: The", "titel: The")
        .replace("does: join", "does: glue")
        .replace("turned: 135", "turned: half")
        .replace("meets: [[1, 0], [2, 0]]", "meets: [[1, 0], [5, 0]]")
        .replace("outline: result", "outline: results")
        .replace("scale: 1.5", "scale: 0")
    )
    with pytest.raises(ItemError) as caught:
        read_item(path)
    lines = [fault.line for fault in caught.value.faults]
    assert lines == [1, 2, 8, 10, 19, 21, 23]


def test_one_mistake_is_told_once(tmp_path: Path) -> None:
    """A misspelt key is not also missing, and what hangs on a value that was not read is not told as well."""
    for old, new in [
        ("does: join", "dose: join"),
        ("piece: flag", "piece: Flag"),
        ("side: [[0, 0], [2, 0]]", "side: x"),
    ]:
        path = tmp_path / "one.yaml"
        path.write_text(
            GOOD_ITEM.replace(old, new).replace("meets: [[1, 0], [2, 0]]", "meets: [[0, 0], [0, 1]]\n    of: flag")
        )
        assert len(scan_item(path).faults) == 1


def test_a_fault_of_the_options_leaves_the_pieces_to_be_laid(tmp_path: Path) -> None:
    path = tmp_path / "part.yaml"
    path.write_text(GOOD_ITEM.replace("scale: 1.5", "scale: 0"))
    reading = scan_item(path)
    assert reading.faults
    assert reading.item is not None
    assert [piece.name for piece in reading.item.pieces] == ["flag", "notch"]
    assert len(reading.item.options) == 3


def test_pieces_before_the_first_bad_one_can_still_be_laid(tmp_path: Path) -> None:
    path = tmp_path / "part.yaml"
    path.write_text(GOOD_ITEM.replace("does: cut", "does: snip"))
    reading = scan_item(path)
    assert reading.item is None
    assert reading.begun is not None
    assert [piece.name for piece in reading.begun.pieces] == ["flag"]
    assert reading.name == "corner-block"


def test_a_file_that_is_not_there_is_a_fault(tmp_path: Path) -> None:
    for path in (tmp_path / "none.yaml", tmp_path, tmp_path / "a\0b.yaml", Path("/dev/zero")):
        faults = scan_item(path).faults
        assert len(faults) == 1
        assert faults[0].file == str(path)


def test_a_ten_megabyte_file_is_refused_unread(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "big.yaml"
    path.write_bytes(b"[" * 10_000_000)

    def unread(*args: object, **kwargs: object) -> None:
        raise AssertionError("the file was parsed")

    monkeypatch.setattr("explainers.document.yaml_events.yaml.parse", unread)
    assert "10,000,000 bytes" in scan_item(path).faults[0].message
