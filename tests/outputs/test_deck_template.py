"""A school's slide file under a deck: what is kept of it, what is not, and files that are of no use."""

from __future__ import annotations

import random
import re
import zipfile
from collections.abc import Callable
from io import BytesIO
from pathlib import Path

import pytest
from outputs.school_template import ORNAMENTS, school_template
from PIL import Image
from pptx import Presentation
from pptx.oxml import parse_xml
from pptx.util import Emu
from storyboard.sample_board import board

from explainers.errors import OutputError
from explainers.figure.model import Figure
from explainers.outputs.pptx.deck import write_deck
from explainers.outputs.pptx.template import chosen_layout, free_places, template_deck
from explainers.storyboard.pacing import pace

R = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
P = "http://schemas.openxmlformats.org/presentationml/2006/main"
A = "http://schemas.openxmlformats.org/drawingml/2006/main"
MAIN = "application/vnd.openxmlformats-officedocument.presentationml.presentation.main+xml"


@pytest.fixture(scope="module", params=[True, False], ids=["16:9", "4:3"])
def template(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    return school_template(tmp_path_factory.mktemp("school") / "our-slides.pptx", wide=request.param)


@pytest.fixture(scope="module")
def path(template: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    (path,) = write_deck(pace(board()), tmp_path_factory.mktemp("deck"), template=template)
    return path


def leaves(shapes):  # type: ignore[no-untyped-def]
    for shape in shapes:
        if hasattr(shape, "shapes"):
            yield from leaves(shape.shapes)
        else:
            yield shape


def test_page_master_and_theme_are_the_schools(path: Path, template: Path) -> None:
    ours, theirs = Presentation(str(path)), Presentation(str(template))
    assert (ours.slide_width, ours.slide_height) == (theirs.slide_width, theirs.slide_height)
    assert ours.slide_master.element.xml == theirs.slide_master.element.xml
    assert [layout.name for layout in ours.slide_layouts] == [layout.name for layout in theirs.slide_layouts]
    with zipfile.ZipFile(path) as a, zipfile.ZipFile(template) as b:
        assert a.read("ppt/theme/theme1.xml") == b.read("ppt/theme/theme1.xml")


def test_nothing_is_left_of_its_slides_and_of_who_made_it(path: Path) -> None:
    with zipfile.ZipFile(path) as parts:
        for name in parts.namelist():
            text = parts.read(name)
            for trace in (b"staff meeting", b"Not for learners", b"A. Clerk", b"Subtitle"):
                assert trace not in text or "slideLayout" in name, f"{trace!r} in {name}"
        assert len([name for name in parts.namelist() if re.fullmatch(r"ppt/slides/slide\d+\.xml", name)]) == 5
        assert len(parts.namelist()) == len(set(parts.namelist()))
    properties = Presentation(str(path)).core_properties
    assert (properties.title, properties.author, properties.keywords) == ("Joining & cutting <blocks>", "", "")


def test_the_schools_own_title_and_number_are_used(path: Path) -> None:
    deck = Presentation(str(path))
    for number, (slide, step) in enumerate(zip(deck.slides, board().steps, strict=True), start=1):
        title = slide.shapes.title
        assert title.text_frame.text == step.heading
        run = title.text_frame.paragraphs[0].runs[0]
        assert (run.font.size, run.font.name, run.font.bold) == (None, None, None), "as the school has it"
        kinds = [str(placeholder.placeholder_format.type) for placeholder in slide.placeholders]
        assert [kind.split(" ")[0] for kind in kinds] == ["TITLE", "SLIDE_NUMBER"]
        assert f">{number}</a:t>" in slide.element.xml
        assert slide.follow_master_background


def test_the_picture_lies_on_the_page_clear_of_title_footers_and_ornaments(path: Path) -> None:
    deck = Presentation(str(path))
    width, height = deck.slide_width, deck.slide_height
    taken = [(left * width, top * height, right * width, bottom * height) for left, top, right, bottom in ORNAMENTS]
    layout = deck.slides[0].slide_layout
    taken += [(p.left, p.top, p.left + p.width, p.top + p.height) for p in layout.placeholders]
    for slide in deck.slides:
        paper = next(shape for shape in slide.shapes if shape.name == "paper")
        box = (paper.left, paper.top, paper.left + paper.width, paper.top + paper.height)
        assert 0 <= box[0] < box[2] <= width
        assert 0 <= box[1] < box[3] <= height
        assert paper.width > 0.6 * width, "large enough to be seen"
        for other in taken:
            assert box[0] >= other[2] or box[2] <= other[0] or box[1] >= other[3] or box[3] <= other[1]
        for shape in leaves(slide.shapes):
            if not shape.is_placeholder and not shape.has_text_frame:
                assert shape.left >= box[0] - 1
                assert shape.left + shape.width <= box[2] + 1


def test_what_is_seen_is_described_on_the_paper(path: Path) -> None:
    for slide, step in zip(Presentation(str(path)).slides, board().steps, strict=True):
        figure: Figure = step.stills[0] if step.pause_s else step.picture
        told = [node.get("descr") for node in slide.element.iter() if str(node.tag).endswith("cNvPr")]
        assert next(said for said in told if said) == figure.alt


def test_a_layout_without_a_title_still_gives_titled_slides(tmp_path: Path) -> None:
    deck = Presentation(str(school_template(tmp_path / "a.pptx", wide=True)))
    deck.part.drop_rel(deck.slides._sldIdLst[0].rId)
    deck.slides._sldIdLst.remove(deck.slides._sldIdLst[0])
    for layout in list(deck.slide_layouts):
        if layout.name != "Blank":
            deck.slide_layouts.remove(layout)
    deck.save(str(tmp_path / "b.pptx"))
    (path,) = write_deck(pace(board()), tmp_path / "out", template=tmp_path / "b.pptx")
    for slide, step in zip(Presentation(str(path)).slides, board().steps, strict=True):
        title = slide.shapes.title
        assert title.text_frame.text == step.heading
        paper = next(shape for shape in slide.shapes if shape.name == "paper")
        assert title.top + title.height <= paper.top


def test_names_of_layouts_do_not_matter(tmp_path: Path) -> None:
    """A file of another language has the same kinds of layouts under other names."""
    deck = Presentation(str(school_template(tmp_path / "a.pptx", wide=True)))
    for number, layout in enumerate(deck.slide_layouts):
        layout.name = f"Folie {number}"
    deck.save(str(tmp_path / "b.pptx"))
    assert chosen_layout(template_deck(tmp_path / "b.pptx")).element.get("type") == "titleOnly"


def test_free_places_reach_as_far_as_they_can(tmp_path: Path) -> None:
    deck = template_deck(school_template(tmp_path / "a.pptx", wide=True))
    layout = chosen_layout(deck)
    places = list(free_places(deck, layout))
    title = next(
        p for p in layout.placeholders if p.placeholder_format.type is not None and "TITLE" in str(p.name).upper()
    )
    assert places
    assert min(top for _, top, _, _ in places if top > title.top) >= title.top + title.height


def test_a_title_that_takes_the_whole_slide_leaves_no_room(tmp_path: Path) -> None:
    deck = Presentation(str(school_template(tmp_path / "a.pptx", wide=True)))
    layout = next(layout for layout in deck.slide_layouts if layout.name == "Title Only")
    (title,) = (p for p in layout.placeholders if p.placeholder_format.idx == 0)
    title.left, title.top = Emu(0), Emu(round(0.1 * deck.slide_height))
    title.width, title.height = deck.slide_width, Emu(round(0.7 * deck.slide_height))
    deck.save(str(tmp_path / "b.pptx"))
    # An ornament larger than half of the page passes for its ground; a title never does.
    with pytest.raises(OutputError, match='the layout "Title Only" leaves no room for a picture'):
        write_deck(pace(board()), tmp_path / "out", template=tmp_path / "b.pptx")
    assert not (tmp_path / "out").exists() or list((tmp_path / "out").iterdir()) == []


def test_notes_without_a_place_for_words_are_told(template: Path, tmp_path: Path) -> None:
    deck = Presentation(str(template))
    for placeholder in list(deck.notes_master.placeholders):
        if "BODY" in str(placeholder.placeholder_format.type):
            placeholder._element.getparent().remove(placeholder._element)
    deck.save(str(tmp_path / "b.pptx"))
    with pytest.raises(OutputError, match=r"b\.pptx: template: the notes of this file have no place for words"):
        write_deck(pace(board()), tmp_path / "out", template=tmp_path / "b.pptx")


def package(path: Path, kind: str) -> Path:
    with zipfile.ZipFile(path, "w") as parts:
        parts.writestr("[Content_Types].xml", f'<Types><Override ContentType="{kind}" PartName="/main.xml"/></Types>')
    return path


@pytest.mark.parametrize(
    ("kind", "told"),
    [
        ("application/vnd.openxmlformats-officedocument.presentationml.template.main+xml", "a design template"),
        ("application/vnd.ms-powerpoint.presentation.macroEnabled.main+xml", "holds macros"),
        ("application/vnd.openxmlformats-officedocument.presentationml.slideshow.main+xml", "a slide show"),
        ("application/vnd.openxmlformats-officedocument.wordprocessingml.document.main+xml", "of another kind"),
        (MAIN, "cannot be read as slides"),
    ],
)
def test_a_file_of_another_kind_is_named(kind: str, told: str, tmp_path: Path) -> None:
    path = package(tmp_path / "ours.pptx", kind)
    with pytest.raises(OutputError, match=f"ours.pptx: template: this file .*{told}.* To mend it: "):
        write_deck(pace(board()), tmp_path / "out", template=path)
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize(
    ("content", "told"),
    [
        (b"", "is not a slide file"),
        (b"PK\x03\x04 cut off", "is not a slide file"),
        (b"%PDF-1.7", "is not a slide file"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", "locked with a password"),
    ],
)
def test_what_is_no_package_is_told(content: bytes, told: str, tmp_path: Path) -> None:
    path = tmp_path / "ours.pptx"
    path.write_bytes(content)
    with pytest.raises(OutputError, match=told):
        write_deck(pace(board()), tmp_path / "out", template=path)


def test_a_file_that_is_not_there_and_a_folder_are_told(tmp_path: Path) -> None:
    for path in (tmp_path / "none.pptx", tmp_path):
        with pytest.raises(OutputError, match="cannot be read"):
            write_deck(pace(board()), tmp_path / "out", template=path)


def test_a_broken_part_is_told(template: Path, tmp_path: Path) -> None:
    broken = tmp_path / "broken.pptx"
    with zipfile.ZipFile(template) as parts, zipfile.ZipFile(broken, "w") as copy:
        for name in parts.namelist():
            data = parts.read(name)
            copy.writestr(name, data[: len(data) // 2] if "slideMaster1.xml" in name and "rels" not in name else data)
    with pytest.raises(OutputError, match="cannot be read as slides"):
        write_deck(pace(board()), tmp_path / "out", template=broken)


def linked(template: Path, path: Path) -> Path:
    """With a picture of elsewhere on the master, one in the file whose source is elsewhere too, a link to click."""
    deck = Presentation(str(template))
    master = deck.slide_master
    address = "https://quilts.example/seen.png"
    outside = master.part.relate_to(address, f"{R}/image", is_external=True)
    click = master.part.relate_to("https://quilts.example/", f"{R}/hyperlink", is_external=True)
    image = BytesIO()
    Image.new("RGB", (8, 8), "red").save(image, "png")
    slide = deck.slides.add_slide(deck.slide_layouts[0])
    _, inside = slide.part.get_or_add_image_part(image)
    inside = master.part.relate_to(slide.part.related_part(inside), f"{R}/image")
    for number, blip in enumerate((f'r:link="{outside}"', f'r:embed="{inside}" r:link="{outside}"')):
        master.shapes._spTree.append(
            parse_xml(
                f'<p:pic xmlns:p="{P}" xmlns:a="{A}" xmlns:r="{R}"><p:nvPicPr><p:cNvPr id="{200 + number}" '
                f'name="badge {number}"><a:hlinkClick r:id="{click}"/></p:cNvPr><p:cNvPicPr/><p:nvPr/></p:nvPicPr>'
                f'<p:blipFill><a:blip {blip}/></p:blipFill><p:spPr><a:xfrm><a:off x="0" y="0"/>'
                '<a:ext cx="9000" cy="9000"/></a:xfrm><a:prstGeom prst="rect"><a:avLst/></a:prstGeom></p:spPr></p:pic>'
            )
        )
    deck.save(str(path))
    return path


@pytest.mark.parametrize("keeps", [False, True])
def test_what_a_template_fetches_from_elsewhere_reaches_the_deck_only_when_asked_for(
    keeps: bool, template: Path, tmp_path: Path
) -> None:
    (path,) = write_deck(pace(board()), tmp_path, template=linked(template, tmp_path / "l.pptx"), keeps_links=keeps)
    with zipfile.ZipFile(path) as parts:
        whole = b"".join(parts.read(name) for name in parts.namelist())
    assert (b"quilts.example" in whole) == keeps == (b"TargetMode" in whole)
    names = [shape.name for shape in Presentation(str(path)).slide_master.shapes]
    assert ("badge 0" in names) == keeps and "badge 1" in names  # the one in the file stays
    for part in Presentation(str(path)).part.package.iter_parts():  # and nothing stands on a relation that has gone
        used = (
            set(re.findall(rb'r:(?:id|embed|link)="(\w+)"', part.blob)) if part.content_type.endswith("xml") else set()
        )
        assert used <= {key.encode() for key in part.rels}


def test_a_template_that_is_small_only_while_packed_is_refused_unread(template: Path, tmp_path: Path) -> None:
    for name, size, told in (("ppt/media/a.bin", 310_000_000, "300 MB"), ("ppt/theme/t.xml", 31_000_000, "30 MB")):
        large = tmp_path / "large.pptx"
        large.write_bytes(template.read_bytes())
        with zipfile.ZipFile(large, "a", zipfile.ZIP_DEFLATED) as parts, parts.open(name, "w") as part:
            for _ in range(size // 1_000_000):
                part.write(bytes(1_000_000))
        with pytest.raises(OutputError, match=f"large.pptx: template: .* more than {told} unpacked"):
            write_deck(pace(board()), tmp_path / "out", template=large)


def test_a_damaged_template_is_named_whatever_is_damaged(
    template: Path, tmp_path: Path, cases: Callable[[int, int], int]
) -> None:
    """Each part torn, emptied or left out; bytes changed here and there: a deck, or a refusal that names the file."""
    with zipfile.ZipFile(template) as parts:
        whole = {name: parts.read(name) for name in parts.namelist()}
    damaged = tmp_path / "damaged.pptx"
    rng, timeline, refused = random.Random(5), pace(board()), []
    for _ in range(cases(60, 2000)):
        name = rng.choice(sorted(whole))
        data = whole[name]
        how = rng.randrange(4)
        if how == 2:
            at, length = rng.randrange(len(data)), rng.randrange(1, 60)
            data = data[:at] + data[at + length :]
        changed = {**whole, name: (data[: len(data) // 2], b"", data, rng.randbytes(50))[how]}
        with zipfile.ZipFile(damaged, "w") as parts:
            for each, content in changed.items():
                parts.writestr(each, content)
        packed = bytearray(damaged.read_bytes())
        if rng.random() < 0.3:
            packed[rng.randrange(len(packed))] ^= 1 << rng.randrange(8)
            damaged.write_bytes(packed)
        try:
            write_deck(timeline, tmp_path / "out", template=damaged)
        except OutputError as error:
            refused.append(str(error))
    assert len(refused) > 10 and all("damaged.pptx: template: this file" in told for told in refused)


def test_the_same_template_gives_the_same_bytes(path: Path, template: Path, tmp_path: Path) -> None:
    (again,) = write_deck(pace(board()), tmp_path, template=template)
    assert again.read_bytes() == path.read_bytes()


def test_an_unknown_way_of_giving_slides_is_told(tmp_path: Path) -> None:
    with pytest.raises(OutputError, match="every-step or one-per-idea"):
        write_deck(pace(board()), tmp_path, slides="few")
