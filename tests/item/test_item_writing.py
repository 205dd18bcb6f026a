"""Items and options written as YAML: read back the same, by our reader and by a plain YAML one."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
import yaml
from bad_files import GOOD_ITEM
from strategies import random_item

from explainers.choice.question import Accepted, MadeOptions, Option
from explainers.document.composing import compose_file
from explainers.document.yaml_text import WIDTH, number_yaml
from explainers.intake.reader import read_item
from explainers.intake.writing import item_yaml, options_yaml
from explainers.item.options_in_text import with_options
from explainers.kinds.join_and_cut.model import Item, Piece, PieceWarning


def good(tmp_path: Path) -> Item:
    path = tmp_path / "good.yaml"
    path.write_text(GOOD_ITEM, encoding="utf-8")
    return read_item(path)


def back(item: Item, tmp_path: Path) -> Item:
    path = tmp_path / "written.yaml"
    path.write_text(item_yaml(item, comment=["Made for a test.", "", "Second line."]), encoding="utf-8")
    return read_item(path)


def test_an_item_comes_back_as_it_was(tmp_path: Path) -> None:
    item = good(tmp_path)
    assert back(item, tmp_path) == item
    asked = replace(item, options=(), made=MadeOptions(make=3, seed=9))
    assert back(asked, tmp_path) == asked
    accepted = replace(item, accepted=(Accepted(kind=PieceWarning.NO_TURN, reason='meant: "easy" # one'),))
    assert back(accepted, tmp_path) == accepted


@pytest.mark.parametrize("title", ["Plain title", "Yes", "1:30", "- x", "a: b", "#5", 'He said "so"', "Größe", "null"])
def test_any_title_and_mark_come_back(title: str, tmp_path: Path) -> None:
    item = good(tmp_path)
    mark = title[:3].strip() if title.isalnum() else "Y"
    changed = replace(item, title=title, pieces=(replace(item.pieces[0], mark=mark), *item.pieces[1:]))
    assert back(changed, tmp_path) == changed
    assert yaml.safe_load(item_yaml(changed))["title"] == title


def test_every_key_of_an_option_is_written(tmp_path: Path) -> None:
    options = (
        Option(turned=90.0, scale=1.25, name="right"),
        Option(slip="not-turned", slip_subject="flag", turned=-12.5),
        Option(corners=((0.0, 0.0), (9.0, 0.0), (0.0, 9.0)), holes=(((1.0, 1.0), (1.0, 2.0), (2.0, 1.0)),)),
    )
    item = good(tmp_path)
    changed = replace(item, options=options, pieces=(replace(item.pieces[0], name="flag"), *item.pieces[1:]))
    assert back(changed, tmp_path).options == options


def test_numbers_are_as_short_as_a_teacher_types_them() -> None:
    assert [number_yaml(x, 6) for x in (2.0, -0.0, 2 * math.sqrt(2), -1e-9, 10.50, 1e5)] == [
        "2", "0", "2.828427", "0", "10.5", "100000",
    ]  # fmt: skip
    assert number_yaml(40.0, 0) == "40"


def points(piece: Piece) -> list[float]:
    return [number for point in (*piece.corners, *piece.side, *piece.meets) for number in point]


def test_generated_items_are_kept_to_a_millionth_and_fit_the_page(cases: Callable[[int, int], int]) -> None:
    for seed in range(cases(30, 500)):
        item = random_item(seed)
        text = item_yaml(item)
        assert all(len(line) <= WIDTH + 40 for line in text.splitlines())
        plain = yaml.safe_load(text)
        for piece, typed in zip(item.pieces, plain["pieces"], strict=True):
            flat = [number for key in ("corners", "side", "meets") for point in typed[key] for number in point]
            assert flat == pytest.approx(points(piece), abs=2e-5)
        assert len(plain["options"]) == len(item.options)


OPTIONS = (Option(), Option(slip="flipped", turned=45.0), Option(corners=((0, 0), (1, 0), (0, 1))))
NEW = options_yaml(replace(random_item(1), options=OPTIONS))
BEFORE = "# head\nitem: a   # its name\nbase:\n  corners: [[0, 0], [1, 0], [0, 1]]\n"


def rewritten(tmp_path: Path, text: str) -> str | None:
    path = tmp_path / "item.yaml"
    path.write_bytes(text.encode())
    root = compose_file(path).root
    assert root is not None
    return with_options(text, root, NEW)


@pytest.mark.parametrize(
    "old",
    [
        "options: {make: 4}",
        "options:\n  - {outline: result}\n  # within\n  - {outline: result, slip: flipped}",
        "options:\n- outline: result\n- outline: result\n  slip: flipped",
        "options: [\n  {outline: result},\n]",
        '"options":\n\n  - {outline: result}\n',
    ],
)
@pytest.mark.parametrize("after", ["", "\n# of the pieces\npieces: []  # none\n# foot\n", "# foot\n"])
@pytest.mark.parametrize("newline", ["\n", "\r\n"])
def test_only_the_lines_of_the_options_are_replaced(old: str, after: str, newline: str, tmp_path: Path) -> None:
    text = f"{BEFORE}{old}\n{after}".replace("\n", newline)
    found = rewritten(tmp_path, text)
    assert found is not None
    tail = f"\n{after}" if old.endswith("\n") else after
    assert found == (BEFORE + "\n".join(["options:", *NEW]) + "\n" + tail).replace("\n", newline)


def test_a_comment_beside_the_key_is_kept(tmp_path: Path) -> None:
    found = rewritten(tmp_path, BEFORE + "options:   # five of them\n  - {outline: result}\n")
    assert found == BEFORE + "\n".join(["options:   # five of them", *NEW]) + "\n"


def test_options_are_added_where_there_are_none(tmp_path: Path) -> None:
    for text in (BEFORE, BEFORE.rstrip("\n"), BEFORE + "\n"):
        found = rewritten(tmp_path, text)
        assert found is not None
        assert found.rstrip("\n") == BEFORE + "\n".join(["options:", *NEW])


def test_keys_on_one_line_are_left_alone(tmp_path: Path) -> None:
    assert rewritten(tmp_path, "{item: a, options: {make: 4}}\n") is None
