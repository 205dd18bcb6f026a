"""`explainers solve`: the JSON contract, the readable plan, exit codes."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest

KEYS = ["item", "sound", "key", "area", "outline", "holes", "turns", "options"]
POCKET = {(0, 0), (1, 0), (1, 2), (2, 0), (3, 0), (3, 3), (0, 3)}


def signed_area(ring: list[list[float]]) -> float:
    """The shoelace formula, written once more here, so that the program is not held against itself."""
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, ring[1:] + ring[:1], strict=True)) / 2


def test_one_file_gives_one_object_of_the_contract(run, sound: Path) -> None:
    ran = run("solve", sound, "--json")
    assert ran.code == 0 and ran.out.count("\n") == 1
    found = json.loads(ran.out)
    assert list(found) == KEYS
    assert (found["item"], found["sound"], found["key"]) == ("pocket-block", True, "C")
    assert found["area"] == pytest.approx(8, abs=1e-9)  # 9 squares less a triangle of 1
    assert {(round(x, 9), round(y, 9)) for x, y in found["outline"]} == POCKET
    assert len(found["outline"]) == len(POCKET)
    assert signed_area(found["outline"]) == pytest.approx(8, abs=1e-9)  # positive: anticlockwise
    assert found["holes"] == []
    assert found["turns"] == pytest.approx([-90], abs=1e-9)  # shown at 90, lies at 0
    assert found["options"] == [
        {"label": "A", "same": False, "mirrored": True},
        {"label": "B", "same": False, "mirrored": False},
        {"label": "C", "same": True, "mirrored": False},
    ]


def test_an_unsound_item_has_no_key_and_says_why(run, unsound: Path) -> None:
    ran = run("solve", unsound, "--json")
    assert ran.code == 1
    found = json.loads(ran.out)
    assert list(found) == KEYS
    assert found["sound"] is False and found["key"] is None
    assert ran.err.startswith(f"{unsound}: unsound: ")


def test_a_single_refused_file_gives_its_object_too(run, refused: Path) -> None:
    ran = run("solve", refused, "--json")
    assert ran.code == 2
    found = json.loads(ran.out)
    assert list(found) == ["item", "errors"]
    assert found["item"] == "torn-block"
    assert [list(error) for error in found["errors"]] == [["file", "line", "field", "message", "fix"]] * 3
    assert [error["line"] for error in found["errors"]] == [5, 8, 15]
    assert {error["file"] for error in found["errors"]} == {str(refused)}


def test_each_fault_stands_on_its_own_line(run, refused: Path) -> None:
    ran = run("solve", refused)
    assert ran.code == 2 and ran.out == ""
    lines = ran.err.splitlines()
    assert [line.split(": ")[0] for line in lines] == [f"{refused}:{number}" for number in (5, 8, 15)]
    assert all(". To mend it: " in line and line.endswith(".") for line in lines)
    assert "base.colour" in lines[0] and "pieces[0].does" in lines[1] and "options[2].corners[2]" in lines[2]


def test_the_name_of_an_unreadable_file_is_its_stem(run, tmp_path: Path) -> None:
    path = tmp_path / "garbled-block.yaml"
    path.write_text("item: [\n", encoding="utf-8")
    ran = run("solve", path, "--json")
    assert ran.code == 2
    assert json.loads(ran.out)["item"] == "garbled-block"


def test_the_name_is_the_files_own_where_that_much_can_be_read(run, tmp_path: Path) -> None:
    path = tmp_path / "other-name.yaml"
    path.write_text("item: bare-block\n", encoding="utf-8")
    assert json.loads(run("solve", path, "--json").out)["item"] == "bare-block"


def test_a_folder_gives_json_lines_in_the_order_of_names(run, sound, unsound, refused: Path, tmp_path: Path) -> None:
    shutil.copy(sound, tmp_path / "a.yaml")
    shutil.copy(unsound, tmp_path / "b.yaml")
    (tmp_path / "lesson.yaml").write_text("lesson: x\nparts: []\n", encoding="utf-8")
    (tmp_path / "inner").mkdir()
    shutil.copy(sound, tmp_path / "inner" / "c.yaml")
    ran = run("solve", tmp_path, "--json")
    assert ran.code == 2
    lines = [json.loads(line) for line in ran.out.splitlines()]
    assert [line["item"] for line in lines] == ["pocket-block", "lost-block", "torn-block"]
    assert ["errors" in line for line in lines] == [False, False, True]


def test_several_files_keep_the_order_given(run, sound: Path, unsound: Path) -> None:
    ran = run("solve", unsound, sound, "--json")
    assert ran.code == 1
    assert [json.loads(line)["item"] for line in ran.out.splitlines()] == ["lost-block", "pocket-block"]


def test_the_plan_can_be_read(run, sound: Path) -> None:
    ran = run("solve", sound)
    assert ran.code == 0
    assert "pocket" in ran.out and "quarter turn clockwise" in ran.out
    assert ran.out.splitlines()[-1] == "The answer is C."
    assert ran.err == ""


@pytest.mark.parametrize("kind", ["missing", "folder of nothing", "lesson"])
def test_what_is_no_item_is_refused_in_one_line(run, tmp_path: Path, kind: str) -> None:
    path = tmp_path / "thing.yaml"
    if kind == "folder of nothing":
        path.mkdir()
    elif kind == "lesson":
        path.write_text("lesson: thing\ntitle: Thing\nparts: []\n", encoding="utf-8")
    ran = run("solve", path)
    assert ran.code == 2 and ran.out == ""
    assert ran.err.count("\n") == 1 and str(path) in ran.err and "To mend it: " in ran.err


@pytest.mark.parametrize(
    "garbage",
    [
        b"",
        b"\x00\x01\x02",
        b"\xff\xfe\x00",
        b"!!python/object:os.system x",
        b"- " * 5000,
        b"{" * 5000,
        b"item: &a [*a]",
    ],
    ids=range(7),
)
def test_garbage_never_ends_in_a_traceback(shell, tmp_path: Path, garbage: bytes) -> None:
    path = tmp_path / "garbage.yaml"
    path.write_bytes(garbage)
    for command in ("solve", "check", "deck"):
        ran = shell(command, path)
        assert ran.code == 2
        assert "Traceback" not in ran.err and "the program itself failed" not in ran.err
        assert ran.err.startswith(str(path))
