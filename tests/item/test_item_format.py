"""The format of an item composed for another kind of question: what every item has, around the fields of the kind."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from jsonschema import Draft202012Validator
from ruamel.yaml import YAML

from explainers.document.fields import Faults
from explainers.document.format import Field
from explainers.document.house_form import house_form
from explainers.document.source_map import compose_text
from explainers.document.values import choice
from explainers.kinds.join_and_cut.fields.item_reader import BASE, ITEM, item_format

OUTLINE = replace(BASE, owner="the outline", fix="write corners: below outline:")
TURNED = item_format(
    question=(
        Field("kind", choice(("turned-outline",)), "the kind of question", due="write kind: turned-outline"),
        Field("outline", OUTLINE.value(lambda record: record["outline"]), "the outline that is turned", due="add it"),
    )
)
TEXT = """\
item: turned-l
kind: turned-outline
outline:
  ready: {L: {wide: 4, high: 4, stem: 2, arm: 2}}
options:
  - {corners: [[0, 0], [4, 0], [0, 4]], turned: 90}
  - {corners: [[0, 0], [5, 0], [0, 4]]}
  - {corners: [[0, 0], [6, 0], [0, 4]]}
"""


def faults_of(text: str) -> list[str]:
    root = compose_text(text, "turned-l.yaml").root
    assert root is not None
    faults = Faults(Path("turned-l.yaml"))
    TURNED.read(root, "", faults)
    return [fault.message for fault in faults.found]


def test_it_is_read_without_pieces() -> None:
    assert faults_of(TEXT) == []
    assert faults_of(TEXT.replace("stem: 2, ", "")) == ["the key stem is missing from the outline"]
    assert faults_of(f"{TEXT}pieces: []\n") == ['an item has no key called "pieces"']
    assert "the key outline is missing from the file" in faults_of(TEXT.replace("outline:\n  ready", "accepted:\n  r"))


def test_its_schema_and_its_order_follow() -> None:
    validator = Draft202012Validator(TURNED.schema)
    yaml = YAML(typ="safe", pure=True)
    assert validator.is_valid(yaml.load(TEXT))
    assert not validator.is_valid(yaml.load(TEXT.replace("wide: 4", "wide: 0")))
    assert not Draft202012Validator(ITEM.schema).is_valid(yaml.load(TEXT))
    kind, rest = "kind: turned-outline\n", TEXT.replace("kind: turned-outline\n", "")
    assert house_form(rest + kind, TURNED.order) == TEXT
