"""Values set, put in, taken out and moved in texts of every layout, held against the same change of plain values."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable
from copy import deepcopy
from random import Random
from typing import Any

import pytest

from explainers.document.composing import compose_text
from explainers.document.nodes import ListNode, MapNode, Node, ScalarNode
from explainers.document.text_edits import inserted, moved, removed, with_value
from explainers.document.text_places import CannotEdit, parts_of, rooted

SCALARS = ["1", "2.5", "-3", "plain", '"two words"', "'it # is'", "a b"]
KEYS = ["item", "base", "pieces", "side", "turned", "of", "x-y"]


def _value(rng: Random, depth: int) -> Any:
    kind = rng.randrange(4) if depth else 0
    if kind == 1:
        return [_value(rng, depth - 1) for _ in range(rng.randint(1, 3))]
    return _keys(rng, depth) if kind == 2 else rng.choice(SCALARS)


def _keys(rng: Random, depth: int) -> dict[str, Any]:
    return {key: _value(rng, depth - 1 if depth else 0) for key in rng.sample(KEYS, rng.randint(1, 4))}


def _laid_out(data: dict[str, Any], rng: Random) -> str:
    newline = rng.choice(["\n", "\n", "\r\n"])
    return newline.join(["# head", *Layout(rng).block(data, "")]) + rng.choice([newline, ""])


def plain(node: Node | None) -> Any:
    match node:
        case ScalarNode():
            return node.text
        case ListNode():
            return [plain(item) for item in node.items]
        case MapNode():
            return {key: plain(entry.value) for key, entry in node.entries.items()}
    return None


def unquoted(data: Any) -> Any:
    if isinstance(data, dict):
        return {key: unquoted(value) for key, value in data.items()}
    if isinstance(data, list):
        return [unquoted(value) for value in data]
    return data.strip("\"'")


class Layout:
    """Writes data in a layout that is drawn at random, with numbered remarks here and there."""

    def __init__(self, rng: Random) -> None:
        self.rng = rng
        self.count = 0

    def remark(self) -> str:
        self.count += 1
        return f"# remark {self.count}"

    def maybe(self) -> bool:
        return self.rng.randrange(4) == 0

    def flow(self, data: Any) -> str:
        space = self.rng.choice(["", " "])
        if isinstance(data, dict):
            return "{" + space + ", ".join(f"{k}: {self.flow(v)}" for k, v in data.items()) + space + "}"
        if isinstance(data, list):
            return "[" + space + f",{space}".join(map(self.flow, data)) + space + "]"
        return str(data)

    def block(self, data: Any, indent: str) -> list[str]:
        lines: list[str] = []
        entries = data.items() if isinstance(data, dict) else [(None, value) for value in data]
        for key, value in entries:
            if self.maybe():
                lines.append(indent + self.remark())
            if self.maybe():
                lines.append("")
            start = f"{indent}- " if key is None else f"{indent}{key}:"
            beside = "  " + self.remark() if self.maybe() else ""
            if isinstance(value, str) or self.maybe():
                gap = "" if key is None else " "
                lines.append(f"{start}{gap}{self.flow(value)}{beside}")
            elif key is None:
                first, *more = self.block(value, indent + "  ")
                while not first.strip() or first.strip().startswith("#"):
                    first, *more = more
                lines += [f"{start}{first.strip()}", *more]
            else:
                deeper = indent + self.rng.choice(["  ", "    "])
                if isinstance(value, list) and self.maybe():
                    deeper = indent
                lines += [start + beside, *self.block(value, deeper)]
            if self.maybe():
                lines.append(f"{indent}    {self.remark()}")
        return lines


def places(data: Any, parts: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    found = [parts] if parts else []
    entries = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    return found + [place for key, value in entries for place in places(value, (*parts, key))]


def at(data: Any, parts: tuple[Any, ...]) -> Any:
    for part in parts:
        data = data[part]
    return data


def remarks(text: str) -> Counter[str]:
    return Counter(re.findall(r"# (?:remark \d+|head)", text))


def read(text: str) -> Any:
    composed = compose_text(text, "")
    assert not composed.faults, (text, composed.faults)
    return plain(composed.root)


def test_each_change_is_that_of_the_plain_values(cases: Callable[[int, int], int]) -> None:
    for seed in range(cases(400, 20_000)):
        _is_that_of_the_plain_values(Random(seed))


def _is_that_of_the_plain_values(rng: Random) -> None:
    data = _keys(rng, 3)
    text = _laid_out(data, rng)
    if rooted(text) is None or read(text) != unquoted(data):
        return  # a layout that YAML reads otherwise
    parts = rng.choice(places(data))
    kind = rng.choice(["set", "add", "remove", "insert", "move"])
    value = _value(rng, 1)
    changed = deepcopy(data)
    parent = at(changed, parts[:-1])
    if kind == "set":
        parent[parts[-1]] = value
        new = with_value(text, parts, value)
    elif kind == "add":
        target = at(changed, parts)
        if not isinstance(target, dict) or "new" in target:
            return
        target["new"] = value
        new = with_value(text, (*parts, "new"), value)
        assert list(at(read(new), parts))[:-1] == list(at(data, parts))
    elif kind == "remove":
        if len(parent) == 1 and len(parts) == 1:
            return
        del parent[parts[-1]]
        new = removed(text, parts)
    elif kind == "insert":
        target = at(changed, parts)
        if not isinstance(target, list):
            return
        index = rng.randint(0, len(target))
        target.insert(index, value)
        new = inserted(text, parts, index, value)
    else:
        target = at(changed, parts)
        if not isinstance(target, list):
            return
        start, end = (rng.randrange(len(target)) for _ in range(2))
        target.insert(end, target.pop(start))
        new = moved(text, parts, start, end)
    assert read(new) == unquoted(changed), (kind, parts, value, text, new)
    assert kind == "remove" or new.endswith("\n") == text.endswith("\n")
    assert ("\r" in text and "\n" not in new.replace("\r\n", "")) or "\r" not in new
    if kind in ("add", "insert", "move"):
        assert remarks(new) == remarks(text), (kind, parts, text, new)
    assert remarks(new) <= remarks(text)


ITEM = """\
# About this block.
item: corner-block   # its name
base:
  corners: [[0, 0], [4, 0], [4, 2]]   # walked round
pieces:
  # the flag comes first
  - piece: flag
    does: join       # sewn on
    turned: 135
    # said of the flag
  # the tab is last
  - piece: tab
    does: cut
options:
  - {outline: result, turned: 45}  # right
  - {outline: result, slip: flipped}
"""


def test_lines_that_are_not_touched_stay_byte_for_byte() -> None:
    new = with_value(ITEM, parts_of("pieces[0].turned"), "90")
    assert new == ITEM.replace("turned: 135", "turned: 90")
    assert with_value(ITEM, parts_of("options[1].turned"), "10") == ITEM.replace("flipped}", "flipped, turned: 10}")
    assert with_value(ITEM, parts_of("title"), "A block") == ITEM + "title: A block\n"


def test_remarks_go_with_what_they_stand_above_and_in() -> None:
    new = moved(ITEM, parts_of("pieces"), 0, 1)
    flag = ITEM[ITEM.index("  # the flag") : ITEM.index("  # the tab")]
    tab = ITEM[ITEM.index("  # the tab") : ITEM.index("options:")]
    assert new == ITEM.replace(flag + tab, tab + flag)
    assert removed(ITEM, parts_of("pieces[0]")) == ITEM.replace(flag, "")
    assert inserted(ITEM, parts_of("pieces"), 1, {"piece": "pin"}) == ITEM.replace(tab, "  - piece: pin\n" + tab)


@pytest.mark.parametrize("path", ["a b[", "pieces[x]", "[0", "..", "a..b", "pieces[-1]"])
def test_what_is_no_path_is_refused(path: str) -> None:
    with pytest.raises(CannotEdit):
        parts_of(path)


@pytest.mark.parametrize(
    "text", ["a: [1, 2", "a: &x 1\nb: *x\n", "a: 1\na: 2\n", "- 1\n- 2\n", "a: !!str 1\n", "? [1]\n: 2\n"]
)
def test_a_text_that_is_no_plain_yaml_is_refused_with_why(text: str) -> None:
    with pytest.raises(CannotEdit) as caught:
        with_value(text, ("a",), "1")
    assert caught.value.fix


@pytest.mark.parametrize("text", ["", "# only a remark\n", "\n\n", "---\n"])
def test_an_empty_text_is_begun(text: str) -> None:
    assert read(with_value(text, ("item",), "new")) == {"item": "new"}


@pytest.mark.parametrize(
    "text", ["base:\n", "base:   # to come\n", "base: ~\n", "base: {}\n", "item: a\nbase:\npieces: []\n"]
)
def test_a_key_with_nothing_is_filled(text: str) -> None:
    new = with_value(text, ("base", "corners"), "[[0, 0]]")
    assert read(new)["base"] == {"corners": [["0", "0"]]}
    assert ("# to come" in text) == ("# to come" in new)
