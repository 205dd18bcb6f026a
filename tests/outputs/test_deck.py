"""The deck: native shapes, titles, notes, alternative text, no leaks, the same bytes every time."""

from __future__ import annotations

import re
import time
import zipfile
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from pptx import Presentation
from pptx.enum.shapes import PP_PLACEHOLDER
from storyboard.sample_board import board, one_step, sheet

from explainers.errors import FontError
from explainers.figure.model import Circle, Figure, Label, Role
from explainers.figure.strokes import dashes
from explainers.outputs.pptx.deck import write_deck
from explainers.outputs.shared.said_below import slide_picture
from explainers.storyboard.model import Imprint, Still
from explainers.storyboard.pacing import pace
from explainers.typeface.faces import FAMILY

DECORATIVE = "{http://schemas.microsoft.com/office/drawing/2017/decorative}decorative"


@pytest.fixture(scope="module")
def path(tmp_path_factory: pytest.TempPathFactory) -> Path:
    (path,) = write_deck(pace(board()), tmp_path_factory.mktemp("deck"))
    return path


@pytest.fixture(scope="module")
def deck(path: Path):  # type: ignore[no-untyped-def]
    return Presentation(str(path))


def leaves(shapes) -> Iterator:  # type: ignore[no-untyped-def]
    for shape in shapes:
        if shape.shape_type is not None and shape.shape_type.name == "GROUP":
            yield from leaves(shape.shapes)
        else:
            yield shape


def said_of(shape) -> str:  # type: ignore[no-untyped-def]
    return shape._element.xpath(".//p:cNvPr")[0].get("descr", "")


def decorative(shape) -> bool:  # type: ignore[no-untyped-def]
    return next(shape._element.xpath(".//p:cNvPr")[0].iter(DECORATIVE), None) is not None


def test_a_slide_a_step_on_a_page_of_16_by_9(path: Path, deck) -> None:  # type: ignore[no-untyped-def]
    assert path.name == "sample-block.pptx"
    assert (deck.slide_width.inches, deck.slide_height.inches) == (pytest.approx(13.333, abs=1e-3), 7.5)
    assert len(deck.slides) == len(board().steps)


def test_each_heading_is_a_real_title(deck) -> None:  # type: ignore[no-untyped-def]
    for slide, step in zip(deck.slides, board().steps, strict=True):
        title = slide.shapes.title
        assert title.placeholder_format.type in (PP_PLACEHOLDER.TITLE, PP_PLACEHOLDER.CENTER_TITLE)
        assert title.text_frame.text == step.heading
        assert next(shape.shape_id for shape in slide.shapes) == title.shape_id, "a title is read first"
        kinds = [placeholder.placeholder_format.type for placeholder in slide.placeholders]
        assert kinds == [title.placeholder_format.type, PP_PLACEHOLDER.SLIDE_NUMBER]
        texts = [shape.text_frame.text for shape in leaves(slide.shapes) if shape.has_text_frame]
        assert texts.count(step.heading) == 1, "the figure's own heading is left out"


def test_notes_say_the_words_the_pause_the_note_and_the_time(deck) -> None:  # type: ignore[no-untyped-def]
    notes = [slide.notes_slide.notes_text_frame.text.split("\n") for slide in deck.slides]
    steps = board().steps
    assert notes[0] == [" ".join(steps[0].narration), "Point at the letters K.", notes[0][-1]]
    assert notes[3][0] == "The teacher's own words: " + " ".join(steps[3].narration)
    assert notes[3][1] == "Pause: 30 seconds."
    assert all(re.fullmatch(r"In the clip: \d+:\d\d to \d+:\d\d\.", note[-1]) for note in notes)
    assert len(notes[2]) == 1, "of a silent step only the time"


def test_what_has_alternative_text_says_it_and_the_rest_is_decoration(deck) -> None:  # type: ignore[no-untyped-def]
    for slide, step in zip(deck.slides, board().steps, strict=True):
        figure = slide_picture(step)
        shapes = {shape.name: shape for shape in leaves(slide.shapes)}
        for entry in figure.entries:
            if entry.role == Role.HEADING:
                assert entry.id not in shapes
                continue
            shape = shapes[entry.id]
            if entry.alt:
                assert entry.alt in said_of(shape)
                assert not decorative(shape)
            elif not isinstance(entry, Label) and entry.role != Role.PANEL:
                assert said_of(shape) == ""
                assert decorative(shape)
        assert figure.alt in [said_of(shape) for shape in slide.shapes], "the whole picture is described once"


def test_groups_are_named_and_say_what_their_members_say(deck) -> None:  # type: ignore[no-untyped-def]
    groups = {shape.name: shape for shape in deck.slides[0].shapes if hasattr(shape, "shapes")}
    assert list(groups) == ["The base", "strip", "flag", "What is said"], "ids of figures that no name is known for"
    assert said_of(groups["flag"]) == "flag. The flag, a triangle to join, dotted"
    flag = groups["flag"]
    inner = list(flag.shapes)
    assert flag.left == min(shape.left for shape in inner)
    assert flag.top + flag.height == max(shape.top + shape.height for shape in inner)


def test_shapes_of_a_thing_stand_together_in_the_order_of_the_figure(deck) -> None:  # type: ignore[no-untyped-def]
    for slide, step in zip(deck.slides, board().steps, strict=True):
        figure = slide_picture(step)
        entries = [entry for entry in figure.entries if entry.role != Role.HEADING]
        groups = list(dict.fromkeys(entry.group for entry in entries))
        names = [shape.name for shape in leaves(slide.shapes)][1:]
        together = sorted(entries, key=lambda entry: groups.index(entry.group))
        assert names == [*(entry.id for entry in together), "Slide number"]
        ids = [element.get("id") for element in slide._element.xpath("//p:cNvPr")]
        assert len(set(ids)) == len(ids)


def test_names_of_shapes_are_in_the_language_of_the_lesson(tmp_path: Path) -> None:
    (path,) = write_deck(pace(replace(board(), language="de")), tmp_path)
    slide = Presentation(str(path)).slides[0]
    assert [shape.name for shape in slide.placeholders][-1] == "Foliennummer"


def test_there_is_no_picture_in_the_file(path: Path) -> None:
    with zipfile.ZipFile(path) as parts:
        for name in parts.namelist():
            assert not name.lower().endswith((".png", ".jpg", ".jpeg", ".emf", ".bin", ".svg")), name
            if name.endswith(".xml") and "/slides/" in name:
                text = parts.read(name).decode()
                assert "a:blip" not in text
                assert "<p:pic" not in text
                assert "<p:style" not in text, "no theme style, so no shadow"
                assert "schemeClr" not in text, "no colour of the theme"


def test_a_hole_is_a_second_contour_the_other_way_round(deck) -> None:  # type: ignore[no-untyped-def]
    cloth = next(shape for shape in leaves(deck.slides[0].shapes) if shape.name == "base.cloth")
    (path,) = cloth._element.xpath(".//a:path")
    areas = []
    for command in path:
        kind = command.tag.rsplit("}")[-1]
        if kind == "moveTo":
            contour: list[tuple[int, int]] = []
        if kind == "close":
            pairs = zip(contour, contour[1:] + contour[:1], strict=True)
            areas.append(sum(ax * by - bx * ay for (ax, ay), (bx, by) in pairs) / 2)
        contour += [(int(point.get("x")), int(point.get("y"))) for point in command]
    unit = 762_000  # EMU in a stage unit
    assert [area / unit**2 for area in areas] == [pytest.approx(-24.0), pytest.approx(4.0)]


def test_each_pattern_is_one_shape(deck) -> None:  # type: ignore[no-untyped-def]
    shapes = {shape.name: shape for shape in leaves(deck.slides[0].shapes)}
    figure = board().steps[0].picture
    lines, dots = figure.entry("strip.lines"), figure.entry("flag.dots")
    assert len(shapes["strip.lines"]._element.xpath(".//a:moveTo")) == len(lines.segments)  # type: ignore[attr-defined]
    assert len(shapes["flag.dots"]._element.xpath(".//a:moveTo")) == len(dots.centres)  # type: ignore[attr-defined]
    cloth = figure.entry("strip.cloth")
    outline, broken = shapes["strip.cloth"]._element.xpath(".//a:path")
    assert (outline.get("stroke"), broken.get("fill")) == ("0", "none")
    parts = dashes(cloth.rings[0], cloth.dash)  # type: ignore[attr-defined]
    assert len(broken.xpath("./a:moveTo")) == len(parts) > 20


def test_a_broken_ring_is_a_disc_with_real_dashes(tmp_path: Path) -> None:
    ring = Circle(id="ring", group="ring", role=Role.WRONG, centre=(5.0, 5.0), radius=1.0, fill="#FFFFFF",
                  stroke="#B3261E", width=0.06, dash=(0.3, 0.2))  # fmt: skip
    figure = Figure(background="#FFFFFF", entries=(ring,))
    (path,) = write_deck(pace(one_step("Words.", beats=(Still(figure=figure),))), tmp_path)
    (shape,) = (shape for shape in Presentation(str(path)).slides[0].shapes if shape.name == "ring")
    disc, broken = shape._element.xpath(".//a:path")
    assert (disc.get("stroke"), broken.get("fill")) == ("0", "none")
    assert len(broken.xpath("./a:moveTo")) in (12, 13), "6.28 round, 0.5 a dash with its gap"


def test_colours_and_opacity_are_kept(deck) -> None:  # type: ignore[no-untyped-def]
    shapes = {shape.name: shape for shape in leaves(deck.slides[1].shapes)}
    assert shapes["base.cloth"]._element.xpath("./p:spPr/a:solidFill/a:srgbClr/@val") == ["C9DDE8"]
    assert shapes["base.cloth"]._element.xpath("./p:spPr/a:ln/a:solidFill/a:srgbClr/@val") == ["1F2A37"]
    assert shapes["spot"]._element.xpath(".//a:alpha/@val") == ["25000"]
    assert deck.slides[0].background.fill.fore_color.rgb.__str__() == "FAF6EC"


def test_words_neither_wrap_nor_shrink_and_have_room_for_another_typeface(deck) -> None:  # type: ignore[no-untyped-def]
    from explainers.typeface.faces import face

    for slide, step in zip(deck.slides, board().steps, strict=True):
        figure = slide_picture(step)
        labels = {e.id: e for e in figure.entries if isinstance(e, Label)}
        for shape in leaves(slide.shapes):
            if not shape.text_frame.text or shape.name == "Slide number":
                continue
            body = shape._element.txBody.bodyPr
            assert [body.get(inset) for inset in ("lIns", "tIns", "rIns", "bIns")] == ["0"] * 4
            assert body.xpath("./a:noAutofit")
            run = shape.text_frame.paragraphs[0].runs[0]
            assert (run.font.name, run._r.rPr.get("lang")) == (FAMILY, "en-GB")
            width_pt = face(bool(run.font.bold)).width(run.text, run.font.size.pt)
            assert shape.width.pt >= 1.2 * width_pt - 0.01
            assert shape.height.pt >= 1.24 * run.font.size.pt, "a line of this typeface is 1.24 em high"
            assert shape.left >= 0
            assert shape.left + shape.width <= deck.slide_width
            if shape.name in labels:
                assert body.get("wrap") == "none"
                assert shape.left.pt + shape.width.pt / 2 == pytest.approx(labels[shape.name].at[0] * 60, abs=0.01)


def test_a_heading_too_long_for_its_line_is_set_smaller(tmp_path: Path) -> None:
    storyboard = one_step("Words.")
    step = replace(storyboard.steps[0], heading="A heading that goes on and on " * 3)
    (path,) = write_deck(pace(replace(storyboard, steps=(step,))), tmp_path)
    title = Presentation(str(path)).slides[0].shapes.title
    assert title.text_frame.paragraphs[0].runs[0].font.size.pt < 30.0


def test_a_figure_without_heading_still_has_a_titled_slide(tmp_path: Path) -> None:
    bare = Figure(background="#FFFFFF", entries=(), alt="Nothing yet")
    (path,) = write_deck(pace(one_step("Words.", beats=(Still(figure=bare),))), tmp_path)
    assert Presentation(str(path)).slides[0].shapes.title.text_frame.text == "One"


def test_a_letter_that_the_typeface_lacks_is_named(tmp_path: Path) -> None:
    figure = sheet()
    odd = replace(figure.entry("flag.word"), text="縫")
    figure = replace(figure, entries=tuple(odd if e.id == odd.id else e for e in figure.entries))
    with pytest.raises(FontError, match="縫"):
        write_deck(pace(one_step(beats=(Still(figure=figure),))), tmp_path)
    assert list(tmp_path.iterdir()) == []


def test_a_second_run_gives_the_same_bytes(path: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    later = time.struct_time((2031, 5, 6, 7, 8, 10, 1, 126, 0))
    monkeypatch.setattr(time, "localtime", lambda *_: later)
    (again,) = write_deck(pace(board()), tmp_path)
    assert again.read_bytes() == path.read_bytes()


def test_the_file_says_who_made_it_and_what_others_may_do_with_it(tmp_path: Path) -> None:
    imprint = Imprint(series="Quilt blocks", number=3, credit="Ada & Bo", licence="CC BY 4.0")
    (written,) = write_deck(pace(replace(board(), imprint=imprint)), tmp_path)
    properties = Presentation(str(written)).core_properties
    assert (properties.author, properties.subject) == ("Ada & Bo", "Quilt blocks, lesson 3")
    assert properties.comments == "Licence: CC BY 4.0"


def test_the_file_says_what_it_is_and_nothing_of_its_makers(path: Path, deck) -> None:  # type: ignore[no-untyped-def]
    properties = deck.core_properties
    assert (properties.title, properties.language) == ("Joining & cutting <blocks>", "en-GB")
    assert (properties.author, properties.last_modified_by) == ("", "")
    assert len(deck.slide_layouts) == 1
    with zipfile.ZipFile(path) as parts:
        assert {entry.date_time for entry in parts.infolist()} == {(1980, 1, 1, 0, 0, 0)}
        assert not any("thumbnail" in name or "printer" in name for name in parts.namelist())


@pytest.mark.parametrize(
    ("paper", "ink", "scheme"),
    [("#FAF6EC", "#1F2A37", ("lt1", "dk1")), ("#12161C", "#F4EFE2", ("dk1", "lt1"))],
)
def test_what_a_teacher_adds_has_the_colours_of_the_lesson(
    tmp_path: Path, paper: str, ink: str, scheme: tuple[str, str]
) -> None:
    """Background and text of the master, by way of the deck's own dark and light, as slide programs expect it."""
    heading = Label(id="h", group="h", role=Role.HEADING, text="Hello", at=(1.0, 8.3), size=0.5, colour=ink)
    shown = Still(figure=Figure(background=paper, entries=(heading,)))
    (path,) = write_deck(pace(one_step("Hello.", beats=(shown,))), tmp_path)
    deck = Presentation(str(path))
    master = deck.slide_master
    colour_map = master.element.find("{*}clrMap")
    assert (colour_map.get("bg1"), colour_map.get("tx1")) == scheme
    with zipfile.ZipFile(path) as parts:
        theme = parts.read("ppt/theme/theme1.xml").decode()
    for name, colour in zip(scheme, (paper, ink), strict=True):
        assert f'<a:{name}><a:srgbClr val="{colour[1:]}"/></a:{name}>' in theme
