"""Each schema held against its reader: what reads well passes, and what is refused is refused by both.

Some faults are beyond a schema; they are listed by kind, and none may be listed that the schema does see.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from bad_files import BAD_ITEMS, GOOD_ITEM, BadFile
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from ruamel.yaml import YAML
from ruamel.yaml.error import YAMLError
from strategies import random_item
from test_house_form import ANY_WAY, IN_HOUSE_FORM
from test_lesson_reader import BAD_LESSONS, GOOD_LESSON
from test_ways_of_outlines import BASES, LISTED, TEMPLATE, WAY_FAULTS

from explainers.intake.item_reader import format_of_kind
from explainers.intake.lesson_reader import LESSON
from explainers.intake.schema import FILES, schema_of
from explainers.intake.writing import item_yaml
from explainers.item.folder import FileKind, kind_of_file
from explainers.item.ready_outlines import READY
from explainers.item.series_reader import SERIES
from explainers.item.walk_reader import DIRECTIONS
from explainers.kinds.registry import kind_names

ITEMS = Path(__file__).parents[2] / "items"
VALIDATORS = {kind: Draft202012Validator(schema_of(kind)) for kind in FILES}

# Parts of the reader's messages for faults that no schema can see, by the reason.
BEYOND = {
    "geometry": (
        "is the first corner again",
        "stands here twice",
        "crosses itself",
        "touches itself",
        "doubles back",
        "encloses nothing",
        "is only 1e-09 across",
        "very far from (0, 0)",
        "the hole ",
        "is not on a side",
        "is already the end of that side",
        "the two points lie on different sides",
        "is not on its outline",
        "neither point is on its outline",
        "but the side that it must meet is",
        "does not close",
        "runs back",
        "at least 3 corners; this walk",
        "leaves nothing of",
        "twice stem is",
        "right of the stem",
        "there is no side",
    ),
    "names and marks that must fit one another": (
        "two pieces are called",
        "is also that of flag",
        "cannot meet itself",
        "comes later",
        "there is no piece called",
        "is cut away",
        "have the same name",
    ),
    "other files": (
        "there is no file",
        "is not a series file",
        "neither one of our themes nor a file",
        ".yaml is a series, not an item",
        ".yaml is a lesson, not an item",
        "already shown by part",
    ),
    "what characters look like": (
        "U+0000",
        "cannot be shown by itself",
    ),
    "keys that YAML itself acts upon": ("merge key",),
}
EXACTLY = ("nothing", "has no length")  # geometry too, in words that stand in other messages
IN_ONE_TEXT = ("301 steps", "too large")  # of a walk: a pattern does not count, nor does it reckon
# How a number is typed: to an editor these are plain numbers.
TYPED_ODDLY = tuple(f"turned: 135 -> turned: {number}" for number in (".nan", "010", "0x10", "1_000"))


def loaded(text: str | bytes) -> Any:
    """The values of a file as an editor takes them: YAML 1.2."""
    return YAML(typ="safe", pure=True).load(text if isinstance(text, str) else text.decode("utf-8"))


def passes(kind: FileKind, text: str | bytes) -> bool:
    """Whether an editor would find nothing wrong."""
    try:
        value = loaded(text)
    except (YAMLError, UnicodeDecodeError, RecursionError, NotImplementedError):
        return False
    return VALIDATORS[kind].is_valid(value)


def is_beyond(message: str) -> bool:
    return message in EXACTLY or any(part in message for parts in BEYOND.values() for part in parts)


@pytest.mark.parametrize("kind", FILES)
def test_each_is_a_schema_of_its_draft(kind: FileKind) -> None:
    schema = schema_of(kind)
    Draft202012Validator.check_schema(schema)
    assert json.loads(json.dumps(schema)) == schema


def test_every_demo_file_passes() -> None:
    for path in sorted(ITEMS.glob("*.yaml")):
        kind = kind_of_file(path)
        if kind is not None:
            errors = list(VALIDATORS[kind].iter_errors(loaded(path.read_bytes())))
            assert errors == [], f"{path.name}: {errors[0].message}"


@pytest.mark.parametrize(
    "text",
    [
        GOOD_ITEM,
        ANY_WAY,
        IN_HOUSE_FORM,
        GOOD_ITEM.replace("mark: K", "mark: 7"),
        GOOD_ITEM.replace("title: The corner block", "title: 1990"),
        GOOD_ITEM.replace("title: The corner block", "title: yes"),
        GOOD_ITEM.replace("title: The corner block\n", ""),
        GOOD_ITEM.replace("outline: result, turned", "outline: result, slip: slid, piece: flag, scale: 2, turned"),
        GOOD_ITEM[: GOOD_ITEM.index("options:")] + "options: {make: 4}\n",
    ],
)
def test_good_items_pass(text: str) -> None:
    assert list(VALIDATORS["item"].iter_errors(loaded(text))) == []


def test_generated_items_pass(cases: Callable[[int, int], int]) -> None:
    for seed in range(cases(15, 300)):
        assert list(VALIDATORS["item"].iter_errors(loaded(item_yaml(random_item(seed))))) == []


@pytest.mark.parametrize("base", BASES)
def test_every_way_to_give_an_outline_passes(base: str) -> None:
    assert passes("item", TEMPLATE.format(**(LISTED | {"base": base, "side": "1", "meets": "2"})))


@pytest.mark.parametrize("name", READY)
def test_every_ready_outline_passes(name: str) -> None:
    base = f"ready: {{{name}: {READY[name].example}}}\n  from: [1, 2]"
    assert passes("item", TEMPLATE.format(**(LISTED | {"base": base})))


# What the reader turns away for its size alone: unfolded by whoever takes it, it costs a minute to find that out here.
SMALL = [bad for bad in BAD_ITEMS if "more than 50,000 values" not in bad.message and len(bad.text) < 100_000]


@pytest.mark.parametrize("bad", SMALL, ids=lambda bad: bad.why)
def test_a_bad_item_is_refused_unless_its_fault_is_beyond_a_schema(bad: BadFile) -> None:
    assert passes("item", bad.text) == (is_beyond(bad.message) or bad.why in TYPED_ODDLY), bad.message


@pytest.mark.parametrize(("part", "text", "line", "field", "message"), WAY_FAULTS)
def test_a_bad_outline_is_refused_unless_its_fault_is_beyond_a_schema(
    part: str, text: str, line: int, field: str, message: str
) -> None:
    seen = passes("item", TEMPLATE.format(**(LISTED | {part: text})))
    assert seen == (is_beyond(message) or any(part in message for part in IN_ONE_TEXT)), message


@pytest.mark.parametrize(("old", "new", "line", "field", "message"), BAD_LESSONS)
def test_a_bad_lesson_is_refused_unless_its_fault_is_beyond_a_schema(
    old: str, new: str, line: int, field: str, message: str
) -> None:
    text = GOOD_LESSON.replace(old, new)
    assert passes("lesson", text) == is_beyond(message), message


def test_a_good_lesson_and_a_good_series_pass() -> None:
    assert passes("lesson", GOOD_LESSON)
    assert passes("series", "series: blocks\ntitle: All blocks\ncard: [One, Two]\nvoice: {speaker: Ada}\ncredit: 7\n")
    assert not passes("series", "series: blocks\nlessons: []\n")
    assert not passes("series", "title: All blocks\n")
    assert not passes("series", "series: blocks\ncolour: blue\n")


def test_every_key_of_every_table_has_its_words() -> None:
    for kind in FILES:
        formats = {"item": [format_of_kind(name) for name in kind_names()], "lesson": [LESSON], "series": [SERIES]}
        schemas = schema_of(kind).get("anyOf", [schema_of(kind)])
        assert [tuple(schema["properties"]) for schema in schemas] == [table.keys for table in formats[kind]]
        found = list(properties(schema_of(kind)))
        assert len(found) > 10
        assert [key for key, value in found if not value.get("description", "").strip()] == []


def properties(schema: object) -> list[tuple[str, dict[str, Any]]]:
    """Every key with its value, at any depth, where keys are declared and not only ruled."""
    found: list[tuple[str, dict[str, Any]]] = []
    if isinstance(schema, dict):
        if "additionalProperties" in schema:
            found += schema.get("properties", {}).items()
        for value in schema.values():
            found += properties(value)
    elif isinstance(schema, list):
        for value in schema:
            found += properties(value)
    return found


steps = st.one_of(
    st.tuples(st.sampled_from(sorted(DIRECTIONS)), st.integers(1, 9)).map(lambda step: f"{step[0]} {step[1]}"),
    st.tuples(st.integers(-180, 180), st.integers(1, 9)).map(lambda step: f"{step[0]}deg {step[1]}"),
    st.tuples(st.sampled_from(["left", "right"]), st.sampled_from([".5", "2.", "3e0"])).map(
        lambda step: f"{step[0]} {step[1]} up 1"
    ),
)


@given(st.lists(steps, min_size=1, max_size=10))
def test_every_walk_that_can_be_told_passes(walk: list[str]) -> None:
    for given_walk in (", ".join(walk), f"[{', '.join(walk)}]", f"{', '.join(walk)}, close"):
        assert passes("item", TEMPLATE.format(**(LISTED | {"base": f"walk: {given_walk}"})))
