"""A file drawn on a page and changed by others meanwhile: nothing is lost, nothing overwritten unseen."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from explainers.editing.field_commands import AddOption, Remove, Reorder, SetField
from explainers.editing.outline_commands import InsertCorner, MoveCorner, RemoveCorner, SetCorners
from explainers.editing.sheet import BecameCorners, CannotEdit
from explainers.errors import ItemError, OutputError
from explainers.table.journal import journal_of
from explainers.table.sitting import Changed, Clashed, Sitting, Stale

ITEMS = Path(__file__).parents[2] / "items"
CORNER = (ITEMS / "corner-block.yaml").read_text(encoding="utf-8")


@pytest.fixture
def path(tmp_path: Path) -> Path:
    made = tmp_path / "corner-block.yaml"
    made.write_text(CORNER, encoding="utf-8")
    return made


def turn(value: float, piece: int = 0) -> list[SetField]:
    return [SetField(at=f"pieces[{piece}].turned", value=value)]


def title(text: str) -> list[SetField]:
    return [SetField(at="title", value=text)]


def test_an_edit_is_in_the_file_and_nothing_else_is_touched(path: Path) -> None:
    sitting = Sitting(path)
    assert sitting.edit(turn(90), 1) == Changed()
    assert path.read_text() == sitting.text == CORNER.replace("turned: 135", "turned: 90") and sitting.is_saved
    sitting.close()
    assert not journal_of(path).exists() and sorted(os.listdir(path.parent)) == [path.name]


def test_marks_line_ends_and_rights_of_a_file_stay(path: Path) -> None:
    path.write_bytes(b"\xef\xbb\xbf" + CORNER.replace("\n", "\r\n").encode())
    path.chmod(0o640)
    sitting = Sitting(path)
    sitting.edit(turn(90), 1)
    assert path.read_bytes() == b"\xef\xbb\xbf" + CORNER.replace("135", "90").replace("\n", "\r\n").encode()
    assert path.stat().st_mode & 0o777 == 0o640


def test_a_link_stays_a_link(path: Path, tmp_path: Path) -> None:
    link = tmp_path / "link.yaml"
    link.symlink_to(path)
    sitting = Sitting(link)
    sitting.edit(turn(90), 1)
    assert link.is_symlink() and "turned: 90" in path.read_text()


def test_what_is_not_sound_to_read_is_in_the_journal_only_and_taken_up_again(path: Path) -> None:
    sitting = Sitting(path)
    sitting.edit([Remove(at="pieces[0]")], 1)
    assert path.read_text() == CORNER and not sitting.is_saved and "pieces" not in sitting.text
    sitting.write("item: [broken", sitting.revision)
    with pytest.raises(CannotEdit):
        sitting.edit(turn(1), sitting.revision)
    sitting.close()
    assert path.read_text() == CORNER
    again = Sitting(path)
    assert again.taken_up and again.text == "item: [broken"
    again.write(CORNER.replace("135", "45"), again.revision)
    assert path.read_text() == CORNER.replace("135", "45")
    again.close()
    assert not journal_of(path).exists()


def test_a_new_item_is_no_file_before_it_is_sound(tmp_path: Path) -> None:
    path = tmp_path / "New Block.yaml"
    sitting = Sitting(path, kind="turned-outline")
    assert sitting.text == "item: new-block\nkind: turned-outline\n" and sitting.is_new
    sitting.edit([SetCorners(at="outline", corners=((0, 0), (3, 0), (3, 1), (1, 2.5)))], 1)
    assert not path.exists()
    options = [AddOption(), AddOption(slip="flipped", turned=45.0), AddOption(corners=((0, 0), (2, 0), (0, 1)))]
    sitting.edit(options, sitting.revision)
    assert path.read_text() == sitting.text and sitting.is_saved
    untouched = Sitting(tmp_path / "other.yaml")
    untouched.close()
    assert os.listdir(tmp_path) != [] and not (tmp_path / "other.yaml").exists()
    assert not journal_of(tmp_path / "other.yaml").exists()


def test_undo_all_and_redo_all_give_the_same_bytes(path: Path) -> None:
    sitting = Sitting(path)
    texts = [sitting.text]
    for number in range(60):
        sitting.edit(turn(number + 1), sitting.revision)
        texts.append(sitting.text)
    for before in reversed(texts[:-1]):
        sitting.undo(sitting.revision)
        assert sitting.text == before
    assert path.read_text() == CORNER
    assert sitting.undo(sitting.revision) == Changed() and sitting.text == CORNER
    for after in texts[1:]:
        sitting.redo(sitting.revision)
        assert sitting.text == after
    assert path.read_text() == texts[-1] and sitting.undo_steps == (60, 0)


def test_two_windows_changing_different_fields_are_merged(path: Path) -> None:
    sitting = Sitting(path)
    seen = sitting.revision
    sitting.edit(turn(90), seen)
    assert sitting.edit(title("Another"), seen) == Changed(merged=True)
    assert "turned: 90" in sitting.text and "title: Another" in sitting.text and path.read_text() == sitting.text


def test_two_windows_changing_one_field_are_asked(path: Path) -> None:
    sitting = Sitting(path)
    seen = sitting.revision
    sitting.edit(turn(90), seen)
    outcome = sitting.edit(turn(91), seen)
    assert isinstance(outcome, Clashed)
    (clash,) = outcome.clashes
    assert (clash.field, clash.ours, clash.theirs) == ("pieces[0].turned", "91", "90")
    assert "turned: 90" in sitting.text
    assert isinstance(sitting.undo(seen), Stale) and isinstance(sitting.edit(turn(1), 99), Stale)


def test_an_index_means_what_its_window_saw(path: Path) -> None:
    sitting = Sitting(path)
    seen = sitting.revision
    sitting.edit([Reorder(at="options", from_=0, to=4)], seen)
    sitting.edit([SetField(at="options[0].turned", value=7.0)], seen)
    assert "{outline: result, slip: flipped, turned: 7}" in sitting.text.splitlines()[-1]


def test_what_an_editor_changes_elsewhere_is_merged(path: Path) -> None:
    sitting = Sitting(path)
    path.write_text(CORNER.replace("title: The corner block", "title: Corner  # mine"), encoding="utf-8")
    assert sitting.look_at_file() and "# mine" in sitting.text
    path.write_text(sitting.text.replace("sign: leaf", "sign: bell"), encoding="utf-8")
    sitting.edit(turn(90), sitting.revision)
    assert all(word in path.read_text() for word in ("# mine", "sign: bell", "turned: 90"))
    assert path.read_text() == sitting.text and not sitting.look_at_file()


@pytest.mark.parametrize("keep", ["ours", "theirs"])
def test_what_an_editor_changes_in_the_same_field_is_asked_about_and_never_overwritten(path: Path, keep: str) -> None:
    sitting = Sitting(path)
    theirs = CORNER.replace("turned: 135", "turned: 1")
    path.write_text(theirs, encoding="utf-8")
    sitting.edit(turn(90), 1)
    assert path.read_text() == theirs and sitting.other is not None and sitting.other.why == "clash"
    assert [clash.field for clash in sitting.other.clashes] == ["pieces[0].turned"]
    sitting.edit(title("Later"), sitting.revision)
    assert path.read_text() == theirs
    sitting.answer(keep, sitting.revision)
    expected = theirs if keep == "theirs" else CORNER.replace("135", "90").replace("The corner block", "Later")
    assert path.read_text() == sitting.text == expected and sitting.other is None
    sitting.close()
    assert not journal_of(path).exists()


def test_a_question_that_was_answered_too_late_is_asked_again(path: Path) -> None:
    sitting = Sitting(path)
    path.write_text(CORNER.replace("turned: 135", "turned: 1"), encoding="utf-8")
    sitting.edit(turn(90), 1)
    latest = CORNER.replace("turned: 135", "turned: 2")
    path.write_text(latest, encoding="utf-8")
    assert isinstance(sitting.answer("ours", sitting.revision), Stale)
    assert path.read_text() == latest and sitting.other is not None and sitting.other.clashes[0].theirs == "2"


def test_a_file_that_cannot_be_read_just_now_is_left_alone_until_it_can(path: Path) -> None:
    sitting = Sitting(path)
    path.write_text("item: [half", encoding="utf-8")
    sitting.edit(turn(90), 1)
    assert sitting.other is not None and sitting.other.why == "unreadable" and path.read_text() == "item: [half"
    path.write_text(CORNER.replace("The corner block", "Now"), encoding="utf-8")
    assert sitting.look_at_file() and sitting.other is None
    assert "title: Now" in path.read_text() and "turned: 90" in path.read_text()


def test_a_file_that_is_gone_is_not_made_again_unasked(path: Path) -> None:
    sitting = Sitting(path)
    path.unlink()
    sitting.edit(turn(90), 1)
    assert not path.exists() and sitting.other is not None and sitting.other.why == "gone"
    sitting.answer("ours", sitting.revision)
    assert path.read_text() == CORNER.replace("135", "90")


def test_what_was_left_is_merged_with_what_an_editor_did_since(path: Path) -> None:
    sitting = Sitting(path)
    sitting.edit([Remove(at="options[0]"), Remove(at="options[0]"), Remove(at="options[0]")], 1)  # two are too few
    sitting.edit(turn(90), sitting.revision)
    assert path.read_text() == CORNER
    sitting.close()
    path.write_text(CORNER.replace("The corner block", "Edited"), encoding="utf-8")
    again = Sitting(path)
    assert again.taken_up and "turned: 90" in again.text and "title: Edited" in again.text
    assert again.text.count("outline: result") == 2


def test_a_file_is_drawn_by_one_process_at_a_time(path: Path) -> None:
    sitting = Sitting(path)
    with pytest.raises(OutputError, match="being drawn already"):
        Sitting(path)
    sitting.close()
    Sitting(path).close()


@pytest.mark.parametrize("raw", [b"\xff\xfei\x00", b"item: \xff", b"a" * 1_000_001, b"item: \x00"])
def test_a_file_that_is_no_text_is_refused(path: Path, raw: bytes) -> None:
    path.write_bytes(raw)
    with pytest.raises(ItemError):
        Sitting(path)
    assert path.read_bytes() == raw and not journal_of(path).exists()


def test_a_journal_that_is_no_journal_does_no_harm(path: Path) -> None:
    for junk in (
        b"\x00\xff" * 100,
        b"[" * 5000,
        b'{"begin": 3}\n{"text": null}\n',
        b'{"text": "item: x"}\n',
        b"{}\n[]\n1\n",
    ):
        journal_of(path).write_bytes(junk)
        sitting = Sitting(path)
        assert sitting.text == CORNER and not sitting.taken_up
        sitting.close()
        assert not journal_of(path).exists()
    journal_of(path).symlink_to(path)
    with pytest.raises(OutputError):
        Sitting(path)
    assert path.read_text() == CORNER


def test_a_torn_line_loses_nothing_before_or_after_it(path: Path) -> None:
    sitting = Sitting(path)
    sitting.write("item: [one", 1)
    kept = journal_of(path).read_bytes()
    sitting.close()
    journal_of(path).write_bytes(kept + b'{"text": "item: [tw')
    again = Sitting(path)
    assert again.text == "item: [one"
    again.write("item: [three", again.revision)
    again.close()
    assert Sitting(path).text == "item: [three"


def test_a_walk_and_a_ready_outline_stay_until_a_corner_is_moved(tmp_path: Path) -> None:
    path = tmp_path / "walk.yaml"
    text = CORNER.replace(
        "corners: [[0, 0], [4, 0], [4, 2], [2, 2], [2, 4], [0, 4]]",
        "walk: right 4, up 2, left 2, up 2, left 2, close  # round\n  from: [1, 1]",
    ).replace("corners: [[0, 0], [2, 0], [0, 2]]", "ready: {right-triangle: {wide: 2, high: 2}}")
    path.write_text(text, encoding="utf-8")
    sitting = Sitting(path)
    same = [SetCorners(at="base", corners=((1, 1), (5, 1), (5, 3), (3, 3), (3, 5), (1, 5)))]
    assert sitting.edit(same, 1) == Changed() and sitting.text == text
    outcome = sitting.edit([MoveCorner(at="base", corner=1, to=(5.5, 1.0))], 1)
    assert outcome == Changed(notes=(BecameCorners(field="base", was="walk"),))
    assert "  corners: [[1, 1], [5.5, 1], [5, 3], [3, 3], [3, 5], [1, 5]]  # round\n" in sitting.text
    assert "from:" not in sitting.text and "ready: {right" in sitting.text
    outcome = sitting.edit([InsertCorner(at="pieces[0]", corner=1, to=(1.0, -0.50))], sitting.revision)
    assert outcome == Changed(notes=(BecameCorners(field="pieces[0]", was="ready"),))
    assert "corners: [[0, 0], [1, -0.5], [2, 0], [0, 2]]" in sitting.text


def test_corners_that_stay_keep_their_digits_and_numbers_are_short(path: Path) -> None:
    path.write_text(CORNER.replace("[4, 2], [2, 2]", "[4.0, 2.00], [2, 2]"), encoding="utf-8")
    sitting = Sitting(path)
    sitting.edit([MoveCorner(at="base", corner=0, to=(-0.0000001, 2 * 2**0.5 - 2))], 1)
    assert "corners: [[0, 0.828], [4, 0], [4.0, 2.00], [2, 2], [2, 4], [0, 4]]" in sitting.text
    sitting.edit([RemoveCorner(at="base", corner=3)], sitting.revision)
    assert "[[0, 0.828], [4, 0], [4.0, 2.00], [2, 4], [0, 4]]" in sitting.text
    sitting.edit([MoveCorner(at="base", corner=0, to=("0.12345", "0"))], sitting.revision)
    assert "[[0.12345, 0], [4, 0]" in sitting.text


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="needs named pipes")
def test_what_is_no_plain_file_is_refused_and_holds_nothing_up(path: Path) -> None:
    sitting = Sitting(path)
    path.unlink()
    os.mkfifo(path)
    sitting.edit(turn(90), 1)
    assert sitting.other is not None and sitting.other.why == "unreadable"
    sitting.close()
    with pytest.raises(ItemError):
        Sitting(path)
