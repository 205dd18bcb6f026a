"""An SVG holds what its figure holds, whatever the machine."""

from __future__ import annotations

import re
from dataclasses import replace
from xml.etree import ElementTree

import pytest

from explainers.drawing.svg import svg_of
from explainers.errors import FontError
from explainers.figure.model import Align, Area, Arrow, Circle, Dots, Entry, Figure, Label, Lines, Role
from explainers.typeface.faces import label_box

SVG = "{http://www.w3.org/2000/svg}"
INK = "#1F2A37"

CLOTH = Area(
    id="piece-1",
    group="piece-1",
    role="cut",
    alt='a square with a "hole" & more',
    rings=(((1.0, 1.0), (3.0, 1.0), (3.0, 3.0), (1.0, 3.0)), ((1.5, 1.5), (1.5, 2.5), (2.5, 2.5), (2.5, 1.5))),
    fill="#F3DDD3",
    stroke=INK,
    width=0.04,
)
LINES = Lines(id="l", group="l", role="cut", segments=(((1.0, 1.0), (2.0, 2.0)),), stroke=INK, width=0.03)
DOTS = Dots(id="d", group="d", role="join", centres=((4.0, 4.0), (5.0, 4.0)), radius=0.05, fill=INK)
WORD = Label(id="w", group="w", role=Role.WORD, text="Bag & 8 < 9", at=(8.0, 4.5), size=0.4, colour=INK)
HEADING = replace(WORD, id="h", role=Role.HEADING, text="Join the flag", at=(0.5, 8.4), align=Align.START, bold=True)
ARROW = Arrow(id="a", group="a", role=Role.TURN, path=((6.0, 6.0), (7.0, 6.0)), stroke=INK, width=0.05, head=0.2)
RING = Circle(id="r", group="r", role=Role.WRONG, centre=(2.0, 7.0), radius=0.5, stroke="#B3261E", width=0.06)
PANEL = Area(
    id="p",
    group="p",
    role=Role.PANEL,
    rings=(((10.0, 2.0), (15.0, 2.0), (15.0, 7.0), (10.0, 7.0)),),
    fill="#FFFDF7",
    rounded=0.2,
)
ALL: tuple[Entry, ...] = (PANEL, CLOTH, LINES, DOTS, HEADING, WORD, ARROW, RING)


def figure(*entries: Entry, alt: str = 'A piece & "more" <here>') -> Figure:
    return Figure(background="#FAF6EC", entries=entries, alt=alt)


def parsed(*entries: Entry, ids: bool = True) -> ElementTree.Element:
    return ElementTree.fromstring(svg_of(figure(*entries), ids=ids))


def group(entry: Entry) -> ElementTree.Element:
    found = parsed(entry).find(f"{SVG}g")
    assert found is not None
    return found


def numbers(path: str) -> list[float]:
    return [float(number) for number in re.findall(r"-?\d+(?:\.\d+)?", path)]


def test_it_is_xml_with_an_element_an_entry_in_order() -> None:
    root = parsed(*ALL)
    assert root.tag == f"{SVG}svg"
    assert root.get("viewBox") == "0 0 1600 900"
    assert (root.get("width"), root.get("height")) == ("1920", "1080")
    assert [element.get("id") for element in root.findall(f"{SVG}g")] == [entry.id for entry in ALL]
    assert all(element.get("id") is None for element in parsed(*ALL, ids=False).iter())


def test_words_for_those_who_listen_survive_escaping() -> None:
    root = parsed(*ALL)
    assert root.findtext(f"{SVG}title") == "Join the flag"
    assert root.findtext(f"{SVG}desc") == 'A piece & "more" <here>'
    assert root.get("aria-label") == 'A piece & "more" <here>'
    named = {e.get("id"): e.get("aria-label") for e in root.iter(f"{SVG}g") if e.get("role") == "img"}
    assert named == {"piece-1": CLOTH.alt, "h": "Join the flag", "w": "Bag & 8 < 9"}
    assert {e.get("id") for e in root.iter(f"{SVG}g") if e.get("aria-hidden") == "true"} == {"p", "l", "d", "a", "r"}


def test_no_font_and_nothing_from_outside_is_asked_for() -> None:
    text = svg_of(figure(*ALL))
    assert "<text" not in text
    assert "font" not in text
    assert text.count("http") == 1  # the name space


def test_y_is_turned_over() -> None:
    assert numbers(group(LINES)[0].get("d", "")) == [100, 800, 200, 700]


def test_holes_are_clear() -> None:
    path = group(CLOTH)[0]
    assert path.get("fill-rule") == "evenodd"
    assert path.get("d", "").count("M") == path.get("d", "").count("Z") == 2
    assert (path.get("fill"), path.get("stroke"), path.get("stroke-width")) == ("#F3DDD3", INK, "4")


def test_a_dashed_outline_is_filled_once_and_stroked_in_dashes() -> None:
    fill, dashed = group(replace(CLOTH, dash=(0.2, 0.1)))
    assert fill.get("stroke") is None
    assert dashed.get("fill") == "none"
    assert dashed.get("d", "").count("M") > 20
    assert len(group(replace(CLOTH, dash=(0.2, 0.1), fill=None))) == 1


def test_text_stands_in_its_box() -> None:
    for label in (WORD, HEADING, replace(WORD, align=Align.END)):
        values = numbers(group(label)[0].get("d", ""))
        left, bottom, right, top = label_box(label)
        xs, ys = values[::2], values[1::2]
        assert left * 100 - 0.01 <= min(xs) <= left * 100 + 6
        assert right * 100 - 6 <= max(xs) <= right * 100 + 0.01
        assert 900 - top * 100 - 0.01 <= min(ys)
        assert max(ys) <= 900 - bottom * 100 + 0.01


def test_dots_circles_arrows_and_panels() -> None:
    assert group(DOTS)[0].get("d", "").count("M") == 2
    ring = group(RING)[0]
    assert (ring.get("fill"), ring.get("stroke")) == ("none", "#B3261E")
    assert len(group(replace(RING, dash=(0.1, 0.1)))) == 2
    line, head = group(ARROW)
    assert numbers(head.get("d", ""))[:2] == [700, 300]
    assert max(numbers(line.get("d", ""))[::2]) < 700
    rect = group(PANEL)[0]
    assert [rect.get(name) for name in ("x", "y", "width", "height", "rx")] == ["1000", "200", "500", "500", "20"]


def test_opacity_and_empty_entries() -> None:
    assert group(replace(CLOTH, opacity=0.25)).get("opacity") == "0.25"
    assert group(CLOTH).get("opacity") is None
    assert len(group(replace(LINES, segments=()))) == 0
    assert len(group(replace(DOTS, centres=()))) == 0


def test_the_same_figure_gives_the_same_text() -> None:
    assert svg_of(figure(*ALL)) == svg_of(figure(*ALL))
    assert "-0 " not in svg_of(figure(*ALL))
    # Rounding errors of a turn and back do not show.
    moved = replace(LINES, segments=(((1.0 + 1e-12, 1.0), (2.0, 2.0 - 1e-12)),))
    assert svg_of(figure(moved)) == svg_of(figure(LINES))


def test_a_missing_glyph_is_an_error() -> None:
    with pytest.raises(FontError, match="→"):
        svg_of(figure(replace(WORD, text="A → B")))
