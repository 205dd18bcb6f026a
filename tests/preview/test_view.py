"""What is shown of an item: every corner, side and mark by its number, every step and verdict, warnings in place."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from dataclasses import replace
from pathlib import Path

import pytest
from looked_at import BORDER, CORNER, DEMO, FIXTURES
from pages_read import read_page

from explainers.choice.model import Solution
from explainers.choice.panels.named_sides import side_named
from explainers.choice.panels.view import Panel, PanelPicture, View
from explainers.figure.layout import Box, extent_of, extent_of_entries
from explainers.figure.model import Label, Role
from explainers.figure.theme import Theme
from explainers.figure.themes import DARK, LIGHT, PRINT, THEMES
from explainers.geometry.rings import sides
from explainers.intake.reader import scan_item
from explainers.intake.workspace import solved
from explainers.kinds.turned_outline.model import TurnedOutline
from explainers.preview.item_view import item_view, sketch_of
from explainers.preview.one_svg import whole_figure, whole_svg
from explainers.preview.page import standalone_page, view_part
from explainers.style import ENTRIES
from explainers.typeface.faces import label_box

ALL = [*DEMO, *sorted(FIXTURES.glob("*.yaml"))]
SVG = "{http://www.w3.org/2000/svg}"


def seen(path: Path) -> tuple[Solution, View]:
    reading = scan_item(path)
    solution = solved(reading)
    return solution, item_view(solution, reading.source.line_of)


def panels(view: View) -> dict[str, Panel]:
    return {panel.name: panel for _, group in view.groups for panel in group}


def words_in(panel: Panel, picture: int = 0) -> list[str]:
    """The labels of a picture, without the numbers along its axes."""
    return [label.text for label in labels_of(panel.pictures[picture]) if label.role != Role.GRID]


def labels_of(picture: PanelPicture) -> list[Label]:
    return [entry for entry in picture.figure.entries if isinstance(entry, Label)]


@pytest.mark.parametrize("path", ALL, ids=lambda path: path.stem)
def test_every_corner_side_and_mark_is_named_where_the_file_has_it(path: Path) -> None:
    solution, view = seen(path)
    item, shown = solution.item, panels(view)
    assert len({panel.name for _, group in view.groups for panel in group}) == len(shown)
    if isinstance(item, TurnedOutline):
        owners, pieces, placements = [("outline", item.corners, [])], (), ()
    else:
        pieces, placements = item.pieces, solution.placements
        owners = [("base", item.base_corners, [piece.mark for piece in pieces if piece.of == "base"])]
    for index, piece in enumerate(pieces, start=1):
        marks = [piece.mark, *(other.mark for other in pieces if other.of == piece.name)]
        owners.append((f"piece-{index}", piece.corners, marks))
    for name, ring, marks in owners:
        words = words_in(shown[name])
        for number in range(1, len(ring) + 1):
            assert words.count(str(number)) >= 2, f"{name}: corner and side {number}"
        for mark in marks:
            assert mark in words
    for index, placement in enumerate(placements, start=1):
        step = shown[f"step-{index}"]
        assert placement.piece.mark in words_in(step, 0) and placement.piece.mark in words_in(step, 1)
        assert any(placement.piece.mark in line for line in step.lines)
    assert any(
        f"{solution.outline.corner_count} corners" in line
        for line in shown[owners[0][0] if solution.item.outline_given else "result"].lines
    )
    for verdict in solution.verdicts:
        assert (shown[f"option-{verdict.label}"].sign == "right") is verdict.same
        assert verdict.mirrored <= ("flipped over" in shown[f"option-{verdict.label}"].word)


@pytest.mark.parametrize("path", ALL, ids=lambda path: path.stem)
def test_the_lines_of_the_panels_are_those_of_the_file(path: Path) -> None:
    text = path.read_text(encoding="utf-8").splitlines()
    solution, view = seen(path)
    for name, panel in panels(view).items():
        if name == "base":
            assert text[panel.line - 1].startswith("base:")
        elif name.startswith("piece-"):
            piece = solution.item.pieces[int(name[6:]) - 1]
            assert f"piece: {piece.name}" in text[panel.line - 1]
        elif name.startswith("option-"):
            line = text[panel.line - 1]
            assert line.startswith("options:") if solution.item.made else line.lstrip().startswith("- ")


def test_a_corner_is_numbered_where_it_lies_also_when_listed_clockwise(tmp_path: Path) -> None:
    path = tmp_path / "corner-block.yaml"
    text = CORNER.read_text(encoding="utf-8")
    listed = "[[0, 0], [4, 0], [4, 2], [2, 2], [2, 4], [0, 4]]"
    path.write_text(text.replace(listed, "[[0, 0], [0, 4], [2, 4], [2, 2], [4, 2], [4, 0]]"), encoding="utf-8")
    solution, view = seen(path)
    assert solution.item.base_corners[1] == (0.0, 4.0)
    base = panels(view)["base"]
    assert "Corners: 1 (0, 0), 2 (0, 4), 3 (2, 4)" in base.lines[0]
    assert any("The leaf: side 5," in line for line in base.lines)


def test_sides_are_named_by_number_part_or_ends() -> None:
    ring = ((0.0, 0.0), (4.0, 0.0), (4.0, 2.0), (0.0, 2.0))
    for number, side in enumerate(sides(ring), start=1):
        assert side_named(ring, side, 1e-3) == f"side {number}"
        assert side_named(ring, side[::-1], 1e-3) == f"side {number}"
    assert side_named(ring, ((1.0, 0.0), (3.0, 0.0)), 1e-3) == "a part of side 1, (1, 0) to (3, 0),"
    assert side_named(ring, ((1.0, 1.0), (3.0, 1.0)), 1e-3) == "the side from (1, 1) to (3, 1)"


def test_every_warning_stands_at_its_place_with_its_ring_and_line(warned: Path) -> None:
    solution, view = seen(warned)
    assert len(solution.warnings) >= 8
    assert [remark.message for remark in view.remarks] == [warning.told for warning in solution.warnings]
    shown = panels(view)
    for remark, warning in zip(view.remarks, solution.warnings, strict=True):
        homes = [panel for panel in shown.values() if remark in panel.remarks]
        assert homes
        assert any(f"!{remark.number}" in words_in(panel, n) for panel in homes for n in range(len(panel.pictures)))
        field = warning.field.split(".")[-1].split("[")[0]
        line = warned.read_text(encoding="utf-8").splitlines()[remark.line - 1]
        assert field in line or line.lstrip().startswith("- ")


def test_no_word_of_an_item_becomes_markup(warned: Path) -> None:
    _, view = seen(warned)
    page = standalone_page(view.title, view_part(view))
    read = read_page(page)
    assert read.well_nested and not read.running
    assert 'The <img src=x onerror=alert(1)> block </title><script>alert(2)</script> & "friends"' in read.text
    assert "<b>" in read.text  # the mark of a piece
    root = ET.fromstring(whole_svg(view).encode())
    assert root.tag == f"{SVG}svg"
    assert {element.tag for element in root.iter()} <= {
        SVG + tag for tag in ("svg", "title", "desc", "g", "path", "rect")
    }
    title = root.find(f"{SVG}title")
    assert title is not None and title.text == view.title


def test_the_page_needs_nothing_beside_itself_and_runs_nothing() -> None:
    _, view = seen(BORDER)
    page = standalone_page(view.title, view_part(view))
    read = read_page(page)
    policy = next(attributes["content"] for tag, attributes in read.elements if "http-equiv" in attributes)
    assert policy is not None and policy.startswith("default-src 'none'") and "unsafe" not in policy
    assert "link" not in read.tags and 'url("http' not in page and "script" not in read.tags
    assert sum(tag == "svg" for tag, _ in read.elements) >= sum(len(panel.pictures) for panel in panels(view).values())


@pytest.mark.parametrize("path", ALL, ids=lambda path: path.stem)
def test_as_one_svg_all_panels_stand_beside_each_other_and_inside(path: Path) -> None:
    _, view = seen(path)
    figure, page = whole_figure(view)
    boxes = {
        name: extent_of(figure.entry(f"panel-{name}").rings[0])  # type: ignore[union-attr]
        for name in panels(view)
    }
    for box in boxes.values():
        assert is_inside(box, page)
    each = list(boxes.values())
    assert not any(share(a, b) for index, a in enumerate(each) for b in each[:index])
    for name, panel in panels(view).items():
        drawn = [entry for entry in figure.entries if entry.id.startswith(tuple(f"{name}-{n}-" for n in range(3)))]
        assert len(drawn) == sum(len(picture.figure.entries) for picture in panel.pictures)
        assert is_inside(extent_of_entries(drawn), boxes[name], by=0.3)  # a ring may reach over the edge of its grid
    words = [Box(*label_box(entry)) for entry in figure.entries if isinstance(entry, Label) and entry.group == "words"]
    assert not any(share(a, b) for index, a in enumerate(words) for b in words[:index])
    assert all(is_inside(box, page) for box in words)
    assert ET.fromstring(whole_svg(view).encode()).get("width") == str(round(page.width * 50))


def test_as_one_svg_long_words_are_cut_and_letters_that_are_not_there_are_asked_for() -> None:
    _, view = seen(BORDER)
    figure, page = whole_figure(replace(view, title="W" * 120, name="日本"))
    words = [entry for entry in figure.entries if isinstance(entry, Label) and entry.group == "words"]
    assert all(is_inside(Box(*label_box(label)), page) for label in words)
    assert "".join(label.text for label in words).startswith("W" * 120)
    assert any(label.text.endswith("??") for label in words)


def is_inside(box: Box, room: Box, by: float = 1e-9) -> bool:
    return (
        box.left >= room.left - by
        and box.right <= room.right + by
        and (box.bottom >= room.bottom - by and box.top <= room.top + by)
    )


def share(one: Box, other: Box, *, across: float = 0.0, up: float = 0.0) -> bool:
    """Whether two boxes overlap by more than so much."""
    return (
        min(one.right, other.right) - max(one.left, other.left) > across
        and min(one.top, other.top) - max(one.bottom, other.bottom) > up
    )


@pytest.mark.parametrize("path", ALL, ids=lambda path: path.stem)
def test_no_label_lies_on_another_or_is_cut_off(path: Path) -> None:
    """Two numbers that touch cannot be told from one; a hair of their boxes is no ink."""
    _, view = seen(path)
    for name, panel in panels(view).items():
        for picture in panel.pictures:
            labels = labels_of(picture)
            boxes = [Box(*label_box(label)) for label in labels]
            for index, box in enumerate(boxes):
                assert is_inside(box, picture.box, by=0.03), (name, labels[index].text)
                for other, there in zip(labels, boxes[:index], strict=False):
                    assert not share(box, there, across=0.02, up=0.06), (name, labels[index].text, other.text)


@pytest.mark.parametrize("theme", THEMES.values(), ids=THEMES)
def test_pictures_and_page_wear_the_theme_that_is_asked_for(theme: Theme) -> None:
    reading = scan_item(BORDER)
    view = item_view(solved(reading), reading.source.line_of, theme)
    page = standalone_page(view.title, view_part(view), view.theme)
    for other in (LIGHT, DARK, PRINT):
        for colour in (other.paper, other.base, *(fabric.pattern for fabric in other.fabrics.values())):
            ours = colour in [theme.entry(name) for name, _ in ENTRIES["colours"].values()]
            assert (colour in page) is ours, (other.name, colour)
    assert f'name="color-scheme" content="{"dark" if theme is DARK else "light"}"' in page


def test_an_unsound_item_is_drawn_and_says_why() -> None:
    solution, view = seen(FIXTURES / "lost-block.yaml")
    assert view.sign == "wrong" and view.because == solution.unsound_because
    assert solution.unsound_because[0] in read_page(view_part(view)).text


@pytest.mark.parametrize(
    ("right", "wrong", "faulty"),
    [
        ("sign: leaf", "mark: KKKK", ""),
        ("[[4, 0], [4, 2]]", "[[4, 0], [4, 3]]", "base"),
        ("side: [[0, 0], [2, 0]]", "side: [[0, 0], [1, 1]]", "pieces-0"),
        ("[[4, 0], [4, 2]]", "9", ""),
        ("[2, 4], [0, 4]", "[0, 4], [2, 4]", "base"),
        ("corners: [[0, 0], [2, 0], [0, 2]]", "corners: [[0, 0], [2, 0], [1, 0]]", "pieces-0"),
    ],
)
def test_what_can_be_read_of_a_faulty_item_is_sketched_with_what_is_wrong(
    tmp_path: Path, right: str, wrong: str, faulty: str
) -> None:
    path = tmp_path / "corner-block.yaml"
    text = CORNER.read_text(encoding="utf-8")
    assert right in text
    path.write_text(text.replace(right, wrong), encoding="utf-8")
    reading = scan_item(path)
    assert reading.faults
    view = sketch_of(path, reading.faults)
    assert view is not None and read_page(view_part(view)).well_nested
    shown = panels(view)
    assert set(shown) == {"base", "pieces-0"}
    for name, panel in shown.items():
        colours = {getattr(entry, "stroke", None) for entry in panel.pictures[0].figure.entries}
        assert (view.theme.wrong in colours) is (name == faulty)


def test_nothing_is_sketched_where_no_outline_can_be_read(tmp_path: Path) -> None:
    path = tmp_path / "empty.yaml"
    for text in ("", "item: empty\n", "base: {corners: [[1, 1], [1, 1], [1, 1]]}\npieces: [3, {corners: 4}]\n"):
        path.write_text(text, encoding="utf-8")
        assert sketch_of(path, scan_item(path).faults) is None


def test_nothing_is_sketched_of_a_kind_that_is_not_there(tmp_path: Path) -> None:
    path = tmp_path / "corner-block.yaml"
    path.write_text(CORNER.read_text(encoding="utf-8") + "kind: folded-paper\n", encoding="utf-8")
    assert sketch_of(path, ()) is None
    path.write_text(CORNER.read_text(encoding="utf-8") + "kind: join-and-cut\n", encoding="utf-8")
    assert sketch_of(path, ()) is not None


def test_a_sketch_shows_a_mark_that_no_letter_can_draw_and_one_whose_two_points_are_one(tmp_path: Path) -> None:
    path = tmp_path / "corner-block.yaml"
    text = CORNER.read_text(encoding="utf-8")
    path.write_text(
        text.replace("sign: leaf", "mark: 日").replace("[[4, 0], [4, 2]]", "[[4, 0], [4, 0]]"), encoding="utf-8"
    )
    view = sketch_of(path, scan_item(path).faults)
    assert view is not None and "?" in words_in(panels(view)["base"])
    assert read_page(view_part(view)).well_nested and whole_svg(view)
