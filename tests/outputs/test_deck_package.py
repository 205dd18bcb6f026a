"""Every deck as a package that a strict program opens without repair; each planted fault is found."""

from __future__ import annotations

import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest
from outputs.school_template import school_template
from outputs.slide_package import package_faults

from explainers.batch import timeline_of
from explainers.outputs.pptx.deck import ONE_PER_IDEA, write_deck
from explainers.storyboard.timeline import Timeline

DEMO = Path(__file__).resolve().parents[2] / "items" / "first-blocks.yaml"
SLIDE = "ppt/slides/slide5.xml"
LIST = "ppt/presentation.xml"

Change = Callable[[dict[str, bytes]], None]


@pytest.fixture(scope="module")
def timeline() -> Timeline:
    return timeline_of(DEMO)


@pytest.fixture(scope="module")
def deck(timeline: Timeline, tmp_path_factory: pytest.TempPathFactory) -> Path:
    return write_deck(timeline, tmp_path_factory.mktemp("deck"))[0]


def test_a_deck_has_no_fault(deck: Path) -> None:
    assert package_faults(deck) == []


@pytest.mark.parametrize("wide", [False, True])
def test_a_deck_on_a_schools_file_has_no_fault(timeline: Timeline, wide: bool, tmp_path: Path) -> None:
    template = school_template(tmp_path / "school.pptx", wide=wide)
    (path,) = write_deck(timeline, tmp_path / "out", template=template, slides=ONE_PER_IDEA)
    assert package_faults(path) == []


def swap(part: str, old: str, new: str) -> Change:
    """The first of `old` in a part becomes `new`."""

    def change(parts: dict[str, bytes]) -> None:
        assert old.encode() in parts[part], old
        parts[part] = parts[part].replace(old.encode(), new.encode(), 1)

    return change


def drop(part: str) -> Change:
    def change(parts: dict[str, bytes]) -> None:
        del parts[part]

    return change


def add(part: str) -> Change:
    def change(parts: dict[str, bytes]) -> None:
        parts[part] = b"<x/>"

    return change


def doubled_id(parts: dict[str, bytes]) -> None:
    """The second shape gets the id of the first."""
    first, second = (parts[SLIDE].split(b'<p:cNvPr id="')[number].split(b'"')[0] for number in (2, 3))
    assert first != second
    parts[SLIDE] = parts[SLIDE].replace(b'<p:cNvPr id="' + second, b'<p:cNvPr id="' + first, 1)


def line_before_fill(parts: dict[str, bytes]) -> None:
    head, start, rest = parts[SLIDE].partition(b"<a:ln>")
    assert start and b"<a:noFill/>" in head[-40:]
    parts[SLIDE] = head.removesuffix(b"<a:noFill/>") + start + rest.replace(b"</a:ln>", b"</a:ln><a:noFill/>", 1)


RELS = "ppt/slides/_rels/slide5.xml.rels"
FAULTS: dict[str, Change] = {
    "an id twice": doubled_id,
    "fill after line": swap(SLIDE, '<a:effectLst/></p:spPr>', '<a:effectLst/><a:noFill/></p:spPr>'),
    "words before looks": swap(SLIDE, "<p:spPr>", "<p:txBody><a:bodyPr/><a:p/></p:txBody><p:spPr>"),
    "timing before shapes": swap(SLIDE, "<p:cSld", "<p:timing/><p:cSld"),
    "colours after timing": swap(SLIDE, "<p:clrMapOvr>", "<p:timing/><p:clrMapOvr>"),
    "a stranger": swap(SLIDE, "<a:effectLst/>", "<a:effectLst/><a:glowing/>"),
    "a run without words": swap(SLIDE, "</a:p>", "<a:r><a:t></a:t></a:r></a:p>"),
    "a run without a text": swap(SLIDE, "</a:p>", "<a:r/></a:p>"),
    "a size below nothing": swap(SLIDE, '<a:ext cx="', '<a:ext cx="-'),
    "half a unit": swap(SLIDE, '<a:off x="', '<a:off x="0.5'),
    "no colour": swap(SLIDE, '<a:srgbClr val="', '<a:srgbClr val="#'),
    "a path from nowhere": swap(SLIDE, "<a:moveTo>", "<a:close/><a:moveTo>"),
    "a shape without looks": swap(SLIDE, "<p:spPr>", "<p:spPrs>"),
    "a cell with its fill first": swap(SLIDE, "<a:effectLst/>", "<a:effectLst/><a:tcPr><a:noFill/><a:lnL/></a:tcPr>"),
    "a slide listed twice": swap(LIST, '<p:sldId id="256" ', '<p:sldId id="257" '),
    "a slide not listed": swap(LIST, '<p:sldId id="256" ', '<p:sldLd id="256" '),
    "a low number of a slide": swap(LIST, '<p:sldId id="256" ', '<p:sldId id="6" '),
    "a section without an id": swap(LIST, ' id="{', ' id="'),
    "a relationship of nothing": drop("ppt/slides/slide5.xml"),
    "no relationships": drop(RELS),
    "no layout": swap(RELS, "relationships/slideLayout", "relationships/slideLay"),
    "notes of another": swap("ppt/notesSlides/_rels/notesSlide5.xml.rels", "slide5.xml", "slide6.xml"),
    "a relationship twice": swap(RELS, 'Id="rId2"', 'Id="rId1"'),
    "a part without a type": swap("[Content_Types].xml", 'PartName="/ppt/slides/slide5.xml"', 'PartName="/other.xml"'),
    "a part that nothing leads to": add("ppt/media/odd.xml"),
    "torn": swap(SLIDE, "</p:sld>", ""),
    "asked for, not given": swap(LIST, 'r:id="rId', 'r:id="rIdd'),
}  # fmt: skip


@pytest.mark.parametrize("fault", FAULTS)
def test_a_planted_fault_is_found(deck: Path, fault: str, tmp_path: Path) -> None:
    with zipfile.ZipFile(deck) as package:
        parts = {name: package.read(name) for name in package.namelist()}
    FAULTS[fault](parts)
    broken = tmp_path / "broken.pptx"
    with zipfile.ZipFile(broken, "w") as package:
        for name, blob in parts.items():
            package.writestr(name, blob)
    assert package_faults(broken)
