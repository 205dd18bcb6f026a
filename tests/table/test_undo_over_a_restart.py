"""Undo and redo reach back over the end of a sitting, however it ended and whatever an editor did meanwhile."""

from __future__ import annotations

import json
import os
import zlib
from pathlib import Path

import pytest
from test_sitting import CORNER, title, turn

from explainers.cache.store import Store
from explainers.table.history import History, Steps
from explainers.table.journal import journal_of
from explainers.table.kept_steps import KeptSteps
from explainers.table.sitting import Sitting


@pytest.fixture
def path(tmp_path: Path) -> Path:
    made = tmp_path / "items" / "corner-block.yaml"
    made.parent.mkdir()
    made.write_text(CORNER, encoding="utf-8")
    return made


@pytest.fixture
def kept(tmp_path: Path) -> KeptSteps:
    return KeptSteps(Store(tmp_path / "kept", 10_000_000))


def opened(path: Path, kept: KeptSteps) -> Sitting:
    return Sitting(path, kept=kept)


def killed(sitting: Sitting) -> None:
    """It ends without a word; the system gives the lock back."""
    os.close(sitting._journal._handle)


def edited(path: Path, kept: KeptSteps) -> Sitting:
    """Three changes, of which the last is undone."""
    sitting = opened(path, kept)
    sitting.edit(turn(90), 1)
    sitting.edit(turn(45), sitting.revision)
    sitting.edit(title("Third"), sitting.revision)
    sitting.undo(sitting.revision)
    assert sitting.undo_steps == (2, 1)
    return sitting


@pytest.mark.parametrize("is_killed", [False, True])
def test_undo_and_redo_go_on_after_a_restart(is_killed: bool, path: Path, kept: KeptSteps) -> None:
    sitting = edited(path, kept)
    before = sitting.text
    if is_killed:
        killed(sitting)
    else:
        sitting.close()
        assert sorted(os.listdir(path.parent)) == [path.name]  # nothing is left beside the file
    again = opened(path, kept)
    assert again.text == before and again.undo_steps == (2, 1) and not again.taken_up
    again.redo(again.revision)
    assert "title: Third" in path.read_text()
    for _ in range(3):
        again.undo(again.revision)
    assert path.read_text() == CORNER and again.undo_steps == (0, 3)
    again.close()
    last = opened(path, kept)
    assert last.undo_steps == (0, 3)
    last.close()


@pytest.mark.parametrize("is_killed", [False, True])
def test_what_an_editor_did_meanwhile_is_one_step(is_killed: bool, path: Path, kept: KeptSteps) -> None:
    sitting = edited(path, kept)
    before = sitting.text
    if is_killed:
        killed(sitting)
    else:
        sitting.close()
    path.write_text(before.replace("The corner block", "In an editor"), encoding="utf-8")
    again = opened(path, kept)
    assert "In an editor" in again.text and again.undo_steps == (3, 0)
    again.undo(again.revision)
    assert again.text == path.read_text() == before
    again.undo(again.revision)
    again.undo(again.revision)
    assert path.read_text() == CORNER
    again.close()


def test_what_could_not_be_saved_is_taken_up_with_its_steps(path: Path, kept: KeptSteps) -> None:
    sitting = edited(path, kept)
    sitting.write("item: [broken", sitting.revision)
    sitting.close()
    again = opened(path, kept)
    assert again.taken_up and again.text == "item: [broken"
    again.undo(again.revision)
    again.undo(again.revision)
    again.undo(again.revision)
    assert path.read_text() == CORNER
    again.close()


def test_two_kills_in_a_row_lose_no_step(path: Path, kept: KeptSteps) -> None:
    killed(edited(path, kept))
    again = opened(path, kept)
    again.edit(title("Again"), again.revision)
    killed(again)
    last = opened(path, kept)
    assert last.undo_steps == (3, 0) and "title: Again" in last.text
    for _ in range(3):
        last.undo(last.revision)
    assert last.text == CORNER
    last.close()


def test_as_many_steps_are_handed_on_as_are_bounded() -> None:
    history = History("0")
    for number in range(1, 1000):
        history.change(str(number))
    steps = history.steps()
    assert len(steps.past) == 300 and steps.past[-1] == "998" and steps.text == "999"
    large = History("x" * 3_000_000)
    large.change("y" * 3_000_000)
    large.change("z")
    assert large.steps().past == ("y" * 3_000_000,)


@pytest.mark.parametrize("kept_there", [
    b"", b"junk", zlib.compress(b"[]"), zlib.compress(b'{"past": [1], "text": "", "future": []}'),
    zlib.compress(json.dumps({"past": "abc", "text": "", "future": []}).encode()), zlib.compress(b"[" * 100_000),
])  # fmt: skip
def test_what_is_no_step_is_none(kept_there: bytes, path: Path, tmp_path: Path) -> None:
    store = Store(tmp_path / "kept", 10_000_000)
    kept = KeptSteps(store)
    kept.keep(path, Steps(past=("a",), text="b", future=()))
    file = next(each for each in (tmp_path / "kept").rglob("*") if each.is_file())
    store.put(file.stem, kept_there)
    assert kept.of(path) is None
    sitting = opened(path, kept)
    assert sitting.undo_steps == (0, 0) and sitting.text == CORNER and journal_of(path).read_bytes() != b""
    sitting.close()
