"""A piece is marked with a sign or with letters: what is read, refused, written and warned of."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from bad_files import GOOD_ITEM

from explainers.choice.question import Accepted
from explainers.errors import ItemError
from explainers.intake.reader import read_item
from explainers.intake.writing import item_yaml, rewritten
from explainers.kinds.join_and_cut.model import Item, PieceWarning
from explainers.kinds.join_and_cut.solving.solver import solve
from explainers.words.mark_names import SIGN_NAMES

LETTERS = "    mark: K\n"


def marked(tmp_path: Path, written: str) -> Item:
    """The good item, its first piece marked as written; its second has no mark of its own."""
    path = tmp_path / "marked.yaml"
    path.write_text(GOOD_ITEM.replace(LETTERS, written), encoding="utf-8")
    return read_item(path)


def told(tmp_path: Path, written: str) -> list[str]:
    with pytest.raises(ItemError) as refused:
        marked(tmp_path, written)
    return [f"{fault.line} {fault.message}. {fault.fix}" for fault in refused.value.faults]


def test_a_piece_has_a_sign_where_nothing_is_written(tmp_path: Path) -> None:
    assert [piece.mark for piece in marked(tmp_path, "").pieces] == ["leaf", "button"]


@pytest.mark.parametrize("sign", SIGN_NAMES)
def test_every_sign_may_be_written_and_no_other_piece_gets_it(sign: str, tmp_path: Path) -> None:
    first, second = (piece.mark for piece in marked(tmp_path, f"    sign: {sign}\n").pieces)
    assert first == sign
    assert second == ("teacup" if sign == "button" else "button")


def test_no_piece_gets_a_sign_that_another_is_called_by(tmp_path: Path) -> None:
    path = tmp_path / "called.yaml"
    path.write_text(GOOD_ITEM.replace(LETTERS, "").replace("piece: notch", "piece: long-leaf"), encoding="utf-8")
    assert [piece.mark for piece in read_item(path).pieces] == ["teacup", "button"]


def test_a_sign_that_there_is_not_is_told_with_all_that_there_are(tmp_path: Path) -> None:
    (fault,) = told(tmp_path, "    sign: buton\n")
    assert fault.startswith("14 ") and fault.endswith("write button")
    assert all(sign in fault for sign in SIGN_NAMES)
    (fault,) = told(tmp_path, "    sign: qqq\n")
    assert fault.endswith("write leaf, button, bell, spool, heart, boat, ribbon, tulip or teacup")


def test_a_sign_and_letters_at_once_are_told_with_both_lines(tmp_path: Path) -> None:
    assert told(tmp_path, f"{LETTERS}    sign: leaf\n") == [
        "15 the piece is marked twice, with mark on line 14 and with sign on line 15. "
        "keep one of them: take out line 14 or line 15"
    ]


def test_a_sign_written_as_letters_is_told_where_it_belongs(tmp_path: Path) -> None:
    assert told(tmp_path, "    mark: bell\n") == ["14 bell is a sign, and mark: takes letters. write sign: bell"]


def test_one_sign_for_two_pieces_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "twice.yaml"
    twice = GOOD_ITEM.replace(LETTERS, "    sign: bell\n").replace("options:\n", "    sign: bell\noptions:\n")
    path.write_text(twice, encoding="utf-8")
    with pytest.raises(ItemError, match="the sign bell is also that of flag"):
        read_item(path)


@pytest.mark.parametrize("mark", ["teacup", "K", "C1"])
def test_signs_and_letters_come_back_from_what_is_written(mark: str, tmp_path: Path) -> None:
    item = marked(tmp_path, "")
    changed = replace(item, pieces=(replace(item.pieces[0], mark=mark), *item.pieces[1:]))
    text = item_yaml(changed)
    assert f"{'sign' if mark in SIGN_NAMES else 'mark'}: {mark}\n" in text
    path = tmp_path / "written.yaml"
    path.write_text(text, encoding="utf-8")
    assert read_item(path) == changed


def test_the_house_form_sets_a_sign_last(tmp_path: Path) -> None:
    path = tmp_path / "form.yaml"
    path.write_text(
        GOOD_ITEM.replace(LETTERS, "").replace("    does: join\n", "    sign: bell\n    does: join\n"), "utf-8"
    )
    lines = rewritten(path).new.decode().splitlines()
    assert lines.index("    sign: bell") == lines.index("    of: base") + 1


@pytest.mark.parametrize(("mark", "warned"), [("A", True), ("b", True), ("C", True), ("D", False), ("AB", False)])
def test_letters_of_an_option_are_warned_of(mark: str, warned: bool, tmp_path: Path) -> None:
    """The item has three options."""
    item = marked(tmp_path, f"    mark: {mark}\n")
    found = [w for w in solve(item).warnings if w.kind == PieceWarning.MARK_LIKE_OPTION]
    assert [w.field for w in found] == (["pieces[0].mark"] if warned else [])
    for warning in found:
        assert f"option {mark.upper()}" in warning.message and "write sign: leaf" in warning.fix
    accepted = replace(item, accepted=(Accepted(kind=PieceWarning.MARK_LIKE_OPTION, reason="on purpose"),))
    assert PieceWarning.MARK_LIKE_OPTION not in [w.kind for w in solve(accepted).warnings]


def test_signs_are_not_warned_of_as_letters_are(tmp_path: Path) -> None:
    """Many have letters in them that look like others when they are turned."""
    kinds = {PieceWarning.MISREAD_MARK, PieceWarning.TWO_WAY_MARK, PieceWarning.MARK_LIKE_OPTION}
    for sign in SIGN_NAMES:
        assert not [w for w in solve(marked(tmp_path, f"    sign: {sign}\n")).warnings if w.kind in kinds]
