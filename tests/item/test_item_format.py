"""The format of an item composed for another kind of question: what every item has, around the keys of the kind."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from types import SimpleNamespace
from typing import Any, ClassVar

import pytest
from bad_files import GOOD_ITEM
from jsonschema import Draft202012Validator
from ruamel.yaml import YAML

from explainers.choice.question import Accepted, Option, Question
from explainers.document.composing import compose_text
from explainers.document.fields import Faults
from explainers.document.format import Field, Record
from explainers.document.house_form import house_form
from explainers.document.values import name as name_value
from explainers.geometry.outline import Outline
from explainers.intake.item_reader import format_of_kind, item_of
from explainers.intake.reader import read_item
from explainers.intake.schema import schema_of
from explainers.intake.writing import item_yaml, rewritten
from explainers.item.accepted_reader import GENERAL_WARNINGS
from explainers.item.item_format import ItemDraft, QuestionKeys
from explainers.item.outline_reader import ListedOutline
from explainers.item.stops import Stop, Stops
from explainers.kinds import registry
from explainers.kinds.join_and_cut.fields.item_reader import BASE
from explainers.kinds.registry import kind_named, kind_names

OUTLINE = replace(BASE, owner="the outline", fix="write corners: below outline:")


@dataclass(frozen=True, slots=True, kw_only=True)
class Leaning(Question):
    kind: ClassVar[str] = "leaning-outline"

    outline: Outline


def leaning(record: Record, shared: Mapping[str, Any]) -> tuple[Leaning | None, Leaning | None]:
    found = Leaning(**shared, outline=Outline.of(*record["outline"])) if record["outline"] else None
    return found, found


class LeaningOutline:
    """As much of a kind as reading its files takes; its slips happen to the outline alone."""

    name = "leaning-outline"
    keys = QuestionKeys(
        rows=(
            Field(
                "outline",
                OUTLINE.value(lambda record: record["outline"]),
                "the outline that leans",
                due="add it",
                write=lambda item: OUTLINE.written(ListedOutline(item.outline.exterior, item.outline.holes)),
            ),
        ),
        slip_keys=(Field("slip", name_value("flipped"), "the slip that makes it"),),
        warnings={"nearly-upright": "it hardly leans", **GENERAL_WARNINGS},
        subjects=lambda record: (),
        build=leaning,
    )
    stops = Stops(names=("options", "corner"), example="options")


TEXT = """\
item: leaning-l
kind: leaning-outline
outline:
  ready: {L: {wide: 4, high: 4, stem: 2, arm: 2}}
options:
  - {outline: result, slip: flipped}
  - {corners: [[0, 0], [4, 0], [0, 4]], turned: 90}
  - {corners: [[0, 0], [5, 0], [0, 4]]}
accepted: {nearly-upright: as meant}
"""


@pytest.fixture(autouse=True)
def installed(monkeypatch: pytest.MonkeyPatch) -> None:
    """This kind beside those that are there."""
    there = {name: kind_named(name) for name in kind_names()} | {"leaning-outline": LeaningOutline()}
    entries = {name: SimpleNamespace(value=name, load=lambda kind=kind: kind) for name, kind in there.items()}
    monkeypatch.setattr(registry, "_installed", lambda: entries)


def draft_of(text: str) -> tuple[ItemDraft, list[tuple[str, str, str]]]:
    root = compose_text(text, "leaning-l.yaml").root
    assert root is not None
    faults = Faults(Path("leaning-l.yaml"))
    draft = item_of(root, faults)
    return draft, [(fault.field, fault.message, fault.fix) for fault in faults.found]


def messages_of(text: str) -> list[str]:
    return [message for _, message, _ in draft_of(text)[1]]


def test_it_is_read_without_pieces() -> None:
    draft, faults = draft_of(TEXT)
    assert faults == []
    assert draft.item is not None and draft.item is draft.begun
    assert (draft.item.kind, draft.item.options[0]) == ("leaning-outline", Option(slip="flipped"))
    assert draft.item.accepted == (Accepted(kind="nearly-upright", reason="as meant"),)
    assert messages_of(TEXT.replace("stem: 2, ", "")) == ["the key stem is missing from the outline"]
    assert messages_of(f"{TEXT}pieces: []\n") == ['an item has no key called "pieces"']
    assert messages_of(TEXT.replace("slip: flipped", "slip: flipped, piece: flag")) == [
        'the option has no key called "piece"'
    ]
    assert messages_of(TEXT.replace("nearly-upright", "no-turn")) == [
        'the list of accepted warnings has no key called "no-turn"'
    ]
    assert "the key outline is missing from the file" in messages_of(TEXT.replace("outline:\n  ready", "base:\n  r"))


def test_a_kind_that_there_is_not_is_refused_with_the_nearest_name() -> None:
    draft, faults = draft_of(TEXT.replace("leaning-outline", "leanng-outline"))
    assert (draft.name, draft.item) == ("leaning-l", None)
    assert faults == [
        (
            "kind",
            '"leanng-outline" stands here where join-and-cut, leaning-outline or turned-outline is due',
            "write leaning-outline",
        )
    ]
    assert draft_of(TEXT.replace("leaning-outline", "[a]"))[1][0][0] == "kind"


def test_without_a_kind_it_is_joining_and_cutting() -> None:
    found = messages_of(TEXT.replace("kind: leaning-outline\n", ""))
    assert 'an item has no key called "outline"' in found and "the key base is missing from the file" in found


def test_where_the_usual_kind_is_not_there_one_has_to_be_named(monkeypatch: pytest.MonkeyPatch) -> None:
    only = {"leaning-outline": SimpleNamespace(load=LeaningOutline)}
    monkeypatch.setattr(registry, "_installed", lambda: only)
    assert draft_of(TEXT)[1] == []
    found = draft_of(TEXT.replace("kind: leaning-outline\n", ""))[1]
    assert found == [("kind", "the key kind is missing from the file", "write kind: leaning-outline")]


def test_its_schema_and_its_order_follow(tmp_path: Path) -> None:
    yaml = YAML(typ="safe", pure=True)
    validator = Draft202012Validator(schema_of("item"))
    assert validator.is_valid(yaml.load(TEXT))
    assert not validator.is_valid(yaml.load(TEXT.replace("wide: 4", "wide: 0")))
    assert not validator.is_valid(yaml.load(TEXT.replace("kind: leaning-outline\n", "")))
    assert not Draft202012Validator(format_of_kind("join-and-cut").schema).is_valid(yaml.load(TEXT))
    kind, rest = "kind: leaning-outline\n", TEXT.replace("kind: leaning-outline\n", "")
    assert house_form(rest + kind, format_of_kind("leaning-outline").order) == TEXT
    path = tmp_path / "leaning-l.yaml"
    path.write_text(rest + kind, encoding="utf-8")
    assert rewritten(path).new.decode() == TEXT


def test_it_is_written_with_its_kind_and_joining_and_cutting_without() -> None:
    item = draft_of(TEXT)[0].item
    assert item is not None
    again, faults = draft_of(item_yaml(item))
    assert faults == [] and again.item == item
    assert "kind: leaning-outline\n" in item_yaml(item)


def test_the_usual_kind_may_be_named_and_stands_after_the_title(tmp_path: Path) -> None:
    path = tmp_path / "corner-block.yaml"
    path.write_text(f"kind: join-and-cut\n{GOOD_ITEM}", encoding="utf-8")
    assert rewritten(path).new.decode().splitlines()[2] == "kind: join-and-cut"
    named = read_item(path)
    path.write_text(GOOD_ITEM, encoding="utf-8")
    assert read_item(path) == named
    assert "kind:" not in item_yaml(named)


def test_a_stop_is_one_of_its_own_places() -> None:
    item = draft_of(TEXT)[0].item
    assert item is not None
    (fault,) = LeaningOutline.stops.faults(item, [Stop.of("options"), Stop.of("flag.turn")], "parts[0].ask")
    assert fault.message == "flag.turn is no place to stop: leaning-l is a question of another kind"
    assert (fault.field, fault.fix) == ("parts[0].ask", "write options")
