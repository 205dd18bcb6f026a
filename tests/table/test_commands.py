"""Each command done to a text: what it writes, what it leaves alone, what it refuses."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from demo_items import demo_items
from test_sitting import CORNER

from explainers.document.composing import compose_text
from explainers.editing.command import command_from, described
from explainers.editing.sheet import CannotEdit, Renamed, Sheet
from explainers.intake.item_reader import format_of_kind
from explainers.kinds.registry import kind_named, kind_names
from explainers.table.sitting import kind_of_text
from explainers.table.written_options import commands_of

SAIL = """\
item: sail   # a sail
kind: turned-outline
outline:
  ready: {right-triangle: {wide: 3, high: 2}}
options:
  - {outline: result, turned: 90}
  - {outline: result, slip: flipped, turned: 20}
  - {corners: [[0, 0], [3, 0], [0, 3]], name: short}  # drawn
"""


def known(text: str) -> dict[str, Any]:
    return commands_of(kind_of_text(text))


def after(text: str, *asked: dict[str, Any]) -> Sheet:
    sheet = Sheet(text=text, order=format_of_kind(kind_of_text(text)).order)
    for each in asked:
        sheet = command_from(each, known(text)).apply(sheet)
    return sheet


@pytest.mark.parametrize(
    ("asked", "old", "new"),
    [
        ({"do": "set", "at": "pieces[0].does", "value": "cut"}, "does: join", "does: cut"),
        ({"do": "set", "at": "pieces[0].turned", "value": None}, "    turned: 135\n", ""),
        ({"do": "set", "at": "title", "value": "Yes"}, "title: The corner block", 'title: "Yes"'),
        ({"do": "set", "at": "title", "value": "12"}, "title: The corner block", "title: 12"),
        ({"do": "set", "at": "options[0].scale", "value": 1.5}, "turned: 45}", "turned: 45, scale: 1.5}"),
        ({"do": "set", "at": "options[0].name", "value": "over"}, "turned: 45}", "turned: 45, name: over}"),
        (
            {"do": "marry", "piece": 0, "side": 2, "meets": [[2, 2], [2, 4]]},
            "side: [[0, 0], [2, 0]]\n    meets: [[4, 0], [4, 2]]",
            "side: 2\n    meets: [[2, 2], [2, 4]]",
        ),
        (
            {"do": "set", "at": "accepted.no-turn", "value": "It is meant."},
            "turned: 180}\n",
            'turned: 180}\naccepted:\n  no-turn: "It is meant."\n',
        ),
        ({"do": "marry", "piece": 0, "of": "base"}, "", ""),
        ({"do": "set-mark", "piece": 0, "mark": "K"}, "sign: leaf", "mark: K"),
        ({"do": "set-mark", "piece": 0, "sign": "bell"}, "sign: leaf", "sign: bell"),
        ({"do": "set-mark", "piece": 0}, "    sign: leaf\n", ""),
        ({"do": "add-piece", "does": "cut", "name": "tab"}, "options:", "  - piece: tab\n    does: cut\noptions:"),
        (
            {"do": "add-hole", "at": "base", "corners": [[0.5, 0.5], [1, 0.5], [1, 1.123456]]},
            "[0, 4]]\n",
            "[0, 4]]\n  holes:\n    - [[0.5, 0.5], [1, 0.5], [1, 1.1235]]\n",
        ),
        (
            {"do": "set-walk", "at": "base", "walk": "right 4, up 2,  left 4"},
            "corners: [[0, 0], [4, 0], [4, 2], [2, 2], [2, 4], [0, 4]]",
            "walk: right 4, up 2, left 4",
        ),
        (
            {"do": "set-ready", "at": "pieces[0]", "ready": "right-triangle", "sizes": {"high": 2, "wide": 2.5}},
            "corners: [[0, 0], [2, 0], [0, 2]]",
            "ready: {right-triangle: {wide: 2.5, high: 2}}",
        ),
        (
            {"do": "exchange-option", "option": 1, "slip": "too-small", "piece": "flag"},
            "slip: turned-back",
            "slip: too-small",
        ),
        ({"do": "remove", "at": "options[2]"}, "  - {outline: result, turned: 90}\n", ""),
        (
            {"do": "make-options", "make": 4, "seed": 9},
            CORNER[CORNER.index("options:") :],
            "options: {make: 4, seed: 9}\n",
        ),
    ],
)
def test_a_command_changes_what_it_names(asked: dict[str, Any], old: str, new: str) -> None:
    assert after(CORNER, asked).text == CORNER.replace(old, new, 1)


def test_a_side_of_an_earlier_piece_is_met_and_left_again() -> None:
    added = after(CORNER, {"do": "add-piece"}, {"do": "marry", "piece": 1, "meets": 3, "of": "flag"})
    assert "meets: 3\n    of: flag\n" in added.text
    assert "of: flag" not in after(added.text, {"do": "marry", "piece": 1, "of": "base"}).text


def test_a_piece_is_renamed_wherever_it_is_named() -> None:
    text = after(CORNER, {"do": "add-piece"}, {"do": "marry", "piece": 1, "of": "flag"}).text
    sheet = after(text, {"do": "rename-piece", "piece": 0, "name": "wing"})
    assert "flag" not in sheet.text.replace("one flag of cloth", "") and sheet.text.count("wing") == 5
    assert Renamed(field="options[1].piece", name="wing") in sheet.notes and len(sheet.notes) == 4


def test_an_option_drawn_over_a_slip_keeps_turn_and_name() -> None:
    text = CORNER.replace("slip: flipped, turned: 45", "slip: flipped, turned: 45, name: over")
    drawn = after(text, {"do": "exchange-option", "option": 0, "corners": [[0, 0], [1, 0], [0, 1]]}).text
    assert "  - {corners: [[0, 0], [1, 0], [0, 1]], turned: 45, name: over}\n" in drawn


def test_a_turned_outline_is_drawn_with_the_same_commands() -> None:
    sheet = after(SAIL, {"do": "move-corner", "at": "outline", "corner": 2, "to": [0.5, 2]})
    assert "  corners: [[0, 0], [3, 0], [0.5, 2]]\n" in sheet.text and "item: sail   # a sail\n" in sheet.text
    assert [note.told()["note"] for note in sheet.notes] == ["became-corners"]
    moved = after(SAIL, {"do": "reorder", "at": "options", "from": 2, "to": 0}).text
    assert moved.splitlines()[5] == "  - {corners: [[0, 0], [3, 0], [0, 3]], name: short}  # drawn"
    with pytest.raises(CannotEdit):
        after(SAIL, {"do": "add-piece"})


@pytest.mark.parametrize(
    "asked",
    [
        {"do": "set", "at": "base", "value": "x"},
        {"do": "set", "at": "base.corners", "value": "x"},
        {"do": "set", "at": "nonsense", "value": 1},
        {"do": "set", "at": "pieces[7].turned", "value": 1},
        {"do": "set", "at": "pieces[0].nonsense", "value": 1},
        {"do": "move-corner", "at": "base", "corner": 6, "to": [0, 0]},
        {"do": "remove-corner", "at": "pieces[0]", "corner": 0},
        {"do": "remove", "at": "pieces[1]"},
        {"do": "remove", "at": "title"},
        {"do": "reorder", "at": "title", "from": 0, "to": 1},
        {"do": "rename-piece", "piece": 3, "name": "x"},
        {"do": "set-mark", "piece": 0, "sign": "bell", "mark": "K"},
        {"do": "set-ready", "at": "base", "ready": "nonsense", "sizes": {}},
        {"do": "exchange-option", "option": 9},
        {"do": "set-corners", "at": "base", "corners": [["1;2", 0], [1, 1], [0, 2]]},
        {"do": "exchange-options", "labels": "C"},
        {"do": "exchange-options", "labels": ""},
    ],
)
def test_what_cannot_be_done_is_refused_with_what_to_do(asked: dict[str, Any]) -> None:
    with pytest.raises(CannotEdit) as caught:
        after(CORNER, asked)
    assert str(caught.value) and caught.value.fix


@pytest.mark.parametrize("kind", kind_names())
def test_every_kind_has_tools_that_tell_what_they_take(kind: str) -> None:
    commands = commands_of(kind)
    own = kind_named(kind).tools.commands
    assert len(commands) >= 17 + len(own)  # none has the name of another
    for command in own:
        told = described(command)
        assert told["keys"] and told["what"].endswith(".")


@pytest.mark.parametrize("item", demo_items(), ids=lambda item: item.stem)
def test_corners_set_as_they_are_change_no_byte_of_a_demo_item(item: Path) -> None:
    text = item.read_text(encoding="utf-8")
    root = compose_text(text, "").root
    assert root is not None
    drawn = kind_named(kind_of_text(text)).tools.outlines(root)
    assert drawn and all(each.whole for each in drawn)
    for each in drawn:
        rings = {each.field: each.corners, **{f"{each.field}.holes[{n}]": hole for n, hole in enumerate(each.holes)}}
        for at, ring in rings.items():
            same = [[x, y] for x, y in ring]
            assert after(text, {"do": "set-corners", "at": at, "corners": same}).text == text
            # Dragged away and back, a list of corners is what it was; a walk has become one.
            away = after(text, {"do": "move-corner", "at": at, "corner": 0, "to": [97.5, 98.5]})
            assert away.text != text
            back = after(away.text, {"do": "move-corner", "at": at, "corner": 0, "to": same[0]})
            assert away.notes or len(back.text) <= len(text)
            before, now = text.splitlines(), back.text.splitlines()
            touched = [line for line in before if line not in now]
            assert len(touched) <= 2, touched


def test_a_key_that_is_none_is_written_as_the_one_that_was_meant_or_taken_out() -> None:
    text = CORNER.replace("turned: 135", "trned: 135   # as it is shown").replace("sign: leaf", "colour:\n      - red")
    sheet = after(text, {"do": "rename-key", "at": "pieces[0].trned", "key": "turned"})
    assert "turned: 135   # as it is shown" in sheet.text
    assert after(sheet.text, {"do": "take-key-out", "at": "pieces[0].colour"}).text == CORNER.replace(
        "turned: 135", "turned: 135   # as it is shown"
    ).replace("    sign: leaf\n", "")
    for refused in (
        {"do": "rename-key", "at": "pieces[0].trned", "key": "colours"},
        {"do": "rename-key", "at": "pieces[0].trned", "key": "side"},
        {"do": "rename-key", "at": "pieces[0].side", "key": "turned"},
        {"do": "take-key-out", "at": "pieces[0].side"},
        {"do": "take-key-out", "at": "pieces[0].nothing"},
    ):
        with pytest.raises(CannotEdit):
            after(text, refused)
