"""Warnings that an item accepts: read with their reasons, or refused with the line."""

from __future__ import annotations

from pathlib import Path

import pytest
from bad_files import GOOD_ITEM

from explainers.choice.question import Accepted
from explainers.errors import Fault, ItemError
from explainers.intake.reader import read_item
from explainers.kinds.join_and_cut.fields.item_reader import KEYS

LINE = GOOD_ITEM.count("\n") + 1  # of the key `accepted`


def written(tmp_path: Path, accepted: str) -> Path:
    path = tmp_path / "item.yaml"
    path.write_text(f"{GOOD_ITEM}accepted: {accepted}\n", encoding="utf-8")
    return path


def refused(tmp_path: Path, accepted: str) -> Fault:
    with pytest.raises(ItemError) as caught:
        read_item(written(tmp_path, accepted))
    (fault,) = caught.value.faults
    return fault


@pytest.mark.parametrize("kind", KEYS.warnings)
def test_every_kind_can_be_accepted(tmp_path: Path, kind: str) -> None:
    item = read_item(written(tmp_path, f'{{{kind}: "for a good reason"}}'))
    assert item.accepted == (Accepted(kind=kind, reason="for a good reason"),)


def test_without_the_key_nothing_is_accepted(tmp_path: Path) -> None:
    path = tmp_path / "item.yaml"
    path.write_text(GOOD_ITEM, encoding="utf-8")
    assert read_item(path).accepted == ()


@pytest.mark.parametrize(
    ("accepted", "field", "message", "fix"),
    [
        ("{no-turns: easy}", "accepted.no-turns", 'no key called "no-turns"', "write no-turn"),
        ("{Nearly_Right: easy}", "accepted.Nearly_Right", "no key called", "write nearly-right"),
        ("{spelling: easy}", "accepted.spelling", "no key called", "the keys are no-turn, misread-mark"),
        ('{no-turn: ""}', "accepted.no-turn", "nothing is written here", "none is silenced without a reason"),
        ('{no-turn: "  "}', "accepted.no-turn", "nothing is written here", "none is silenced without a reason"),
        ("{no-turn: }", "accepted.no-turn", "nothing is written here", "none is silenced without a reason"),
        ("{no-turn: [easy]}", "accepted.no-turn", "a list stands here where a text is due", "why this warning"),
        ("[no-turn]", "accepted", "a list where keys with values are due", "a kind of warning with your reason"),
        ("yes", "accepted", "where keys with values are due", "a kind of warning with your reason"),
        (f"{{no-turn: {'x' * 301}}}", "accepted.no-turn", "301 characters", "shorten it"),
    ],
)
def test_a_bad_entry_is_refused_where_it_stands(
    tmp_path: Path, accepted: str, field: str, message: str, fix: str
) -> None:
    fault = refused(tmp_path, accepted)
    assert (fault.field, fault.line) == (field, LINE)
    assert message in fault.message
    assert fix in fault.fix
