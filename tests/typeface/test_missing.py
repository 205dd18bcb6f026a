"""Characters that the typeface lacks are told of where they were typed, before anything is made."""

from __future__ import annotations

import string
from pathlib import Path

import pytest

from explainers.errors import ItemError
from explainers.intake.reader import read_item, read_lesson, read_series
from explainers.typeface.faces import face, missing_in

DEMO = Path(__file__).parents[2] / "items" / "corner-block.yaml"


def test_every_character_of_ascii_is_there() -> None:
    """So that a text of those need not be looked up."""
    signs = string.ascii_letters + string.digits + string.punctuation + " "
    assert all(face(bold).has(sign) for bold in (False, True) for sign in signs)
    assert missing_in(signs) == ()


def test_what_lacks_is_named_once_in_order() -> None:
    assert missing_in("縫 and 布 and 縫, but ä ß é ½ °") == ("縫", "布")


@pytest.mark.parametrize(
    ("old", "new", "line", "field"),
    [
        ("title: The corner block", "title: The 縫 block", 2, "title"),
        ("sign: leaf", "mark: 縫", 0, "pieces[0].mark"),
    ],
)
def test_an_item_is_refused_at_the_line(old: str, new: str, line: int, field: str, tmp_path: Path) -> None:
    text = DEMO.read_text(encoding="utf-8")
    if old not in text:
        old, new = "    does: join", "    does: join\n    mark: 縫"
    path = tmp_path / "corner-block.yaml"
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
    with pytest.raises(ItemError) as refused:
        read_item(path)
    (fault,) = refused.value.faults
    assert fault.field == field and fault.line >= max(line, 1)
    assert fault.message == "the typeface has no sign for 縫 (U+7E2B)"
    assert fault.fix == "write it with other characters"


LESSON = """\
lesson: one
title: Über 布
card: [Klub 縫]
credit: 縫
opening: Hello 縫.
parts:
  - {show: corner-block.yaml}
words:
  corner-block.task: Look 縫 布 針 糸 here.
"""


def test_a_lesson_is_refused_with_all_of_them(tmp_path: Path) -> None:
    (tmp_path / "corner-block.yaml").write_text(DEMO.read_text(encoding="utf-8"), encoding="utf-8")
    (tmp_path / "one.yaml").write_text(LESSON, encoding="utf-8")
    with pytest.raises(ItemError) as refused:
        read_lesson(tmp_path / "one.yaml")
    faults = refused.value.faults
    assert [fault.field for fault in faults] == ["title", "card[0]", "credit", "opening", "words.corner-block.task"]
    assert [fault.line for fault in faults] == [2, 3, 4, 5, 9]
    assert faults[-1].message == "the typeface has no sign for 縫 (U+7E2B), 布 (U+5E03) or 針 (U+91DD), nor for 1 more"


def test_a_series_is_refused_and_a_file_may_have_any_name(tmp_path: Path) -> None:
    (tmp_path / "縫.yaml").write_text("lesson: one\nparts:\n  - {show: corner-block.yaml}\n", encoding="utf-8")
    path = tmp_path / "series.yaml"
    path.write_text("series: quilts\nlessons: [縫.yaml]\n", encoding="utf-8")
    assert [lesson.name for lesson in read_series(path).lessons] == ["縫.yaml"]
    path.write_text("series: quilts\nlicence: 縫\n", encoding="utf-8")
    with pytest.raises(ItemError, match="no sign for 縫"):
        read_series(path)
