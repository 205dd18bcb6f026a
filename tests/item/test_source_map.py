"""Lines of fields, and of what stands nearest where a field has none."""

from __future__ import annotations

from pathlib import Path

from bad_files import GOOD_ITEM

from explainers.document.composing import compose_file
from explainers.document.source_map import SourceMap
from explainers.errors import Fault


def source(tmp_path: Path, text: str = GOOD_ITEM) -> SourceMap:
    path = tmp_path / "item.yaml"
    path.write_text(text)
    return compose_file(path).source


def test_a_field_stands_where_its_key_stands(tmp_path: Path) -> None:
    found = source(tmp_path)
    lines = GOOD_ITEM.splitlines()
    for field, start in {
        "item": "item:",
        "base.corners": "  corners: [[0, 0], [4, 0]",
        "pieces[0].meets": "    meets: [[4, 0]",
        "pieces[1].side": "    side: [[0, 0], [1",
        "options[2].scale": "  - {corners: [[0, 0], [3",
    }.items():
        assert lines[found.line_of(field) - 1].startswith(start)


def test_a_value_over_several_lines_is_found_point_by_point(tmp_path: Path) -> None:
    found = source(tmp_path, "base:\n  corners:\n    - [0, 0]\n    - [1,\n       0]\n    - - 0\n      - 1\n")
    assert [found.line_of(f"base.corners[{i}]") for i in range(3)] == [3, 4, 6]
    assert found.line_of("base.corners[1][1]") == 5
    assert found.line_of("base.corners[2][1]") == 7


def test_a_missing_field_stands_where_its_mapping_stands(tmp_path: Path) -> None:
    found = source(tmp_path)
    assert found.line_of("pieces[1].turned") == found.line_of("pieces[1]") == 15
    assert found.line_of("pieces[1].meets[7][0]") == found.line_of("pieces[1].meets")
    assert found.line_of("pieces[9].meets") == found.line_of("pieces") == 6
    assert found.line_of("words.corner-block.flag.turn") == found.line_of("") == 1
    assert found.line_of("]odd[") == 1


def test_keys_with_full_stops_keep_their_line(tmp_path: Path) -> None:
    found = source(tmp_path, "lesson: a\nwords:\n  a.b.turn: x\n  a.b.meet: y\n")
    assert found.line_of("words.a.b.meet") == 4
    assert found.line_of("words.a.c.meet") == 2


def test_placing_fills_in_what_is_not_known_and_sorts(tmp_path: Path) -> None:
    found = source(tmp_path)
    late = Fault(field="options[0]", message="late", fix="x")
    early = Fault(field="pieces[0].meets", message="early", fix="x")
    elsewhere = Fault(field="", message="far", fix="x", file="other.yaml", line=3)
    placed = found.placed([late, early, late, elsewhere])
    assert [(fault.message, fault.line) for fault in placed] == [("early", 12), ("late", 21), ("far", 3)]
    assert {fault.file for fault in placed} == {found.file, "other.yaml"}


def test_a_map_of_nothing_knows_no_line() -> None:
    assert SourceMap("x.yaml").line_of("pieces[0].meets") == 0
