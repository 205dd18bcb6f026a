"""The deck as pages and as a handout, read back: tags, bookmarks, sizes, one step a page, words in their place."""

from __future__ import annotations

import math
import subprocess
from itertools import pairwise
from pathlib import Path

import numpy as np
import pdfua
import pikepdf
import pytest
from outputs.matterhorn.failed import failed
from outputs.pdf_read import content_faults, elements, page_read
from PIL import Image

from explainers.batch import timeline_of
from explainers.errors import OutputError
from explainers.figure.model import CAPTION_TOP, STAGE_HEIGHT
from explainers.figure.paper import Paper, Printing
from explainers.outputs.pdf.deck import write_pdf_deck
from explainers.outputs.pdf.handout import PER_PAGE, write_handout
from explainers.storyboard.timeline import Timeline

ITEM = Path(__file__).parents[2] / "items" / "flag-block.yaml"


@pytest.fixture(scope="module")
def timeline() -> Timeline:
    return timeline_of(ITEM)


@pytest.fixture(scope="module")
def deck(timeline: Timeline, tmp_path_factory: pytest.TempPathFactory) -> Path:
    return write_pdf_deck(timeline, tmp_path_factory.mktemp("deck"))[0]


@pytest.fixture(scope="module", params=[(1, Paper.A4), (2, Paper.LETTER), (4, Paper.A4)], ids=["1", "2", "4"])
def handout(
    request: pytest.FixtureRequest, timeline: Timeline, tmp_path_factory: pytest.TempPathFactory
) -> tuple[int, Path]:
    per_page, paper = request.param
    folder = tmp_path_factory.mktemp("handout")
    return per_page, write_handout(timeline, folder, per_page=per_page, printing=Printing(paper=paper))[0]


def bookmarks(path: Path) -> list[tuple[str, list[str]]]:
    with pikepdf.open(path) as pdf, pdf.open_outline() as outline:
        return [(entry.title, [inner.title for inner in entry.children]) for entry in outline.root]


def chapters_of(timeline: Timeline) -> list[tuple[str, list[str]]]:
    found: list[tuple[str, list[str]]] = []
    for step in timeline.storyboard.steps:
        if not found or found[-1][0] != step.chapter:
            found.append((step.chapter, []))
        found[-1][1].append(step.heading)
    return found


def test_a_deck_keeps_the_rules_of_pdf_ua(deck: Path) -> None:
    assert content_faults(deck) == []
    assert failed(deck) == []
    assert [finding.message for finding in pdfua.validate(str(deck)).findings] == []


def test_a_deck_has_a_step_a_page_as_wide_as_a_slide(deck: Path, timeline: Timeline) -> None:
    with pikepdf.open(deck) as pdf:
        assert len(pdf.pages) == len(timeline.storyboard.steps)
        for page in pdf.pages:
            assert [float(value) for value in page.MediaBox] == pytest.approx([0, 0, 960, 540], abs=0.02)
    headings = [(e.page, e.text) for e in elements(deck) if e.tag in ("H1", "H2")]
    assert headings == [(number, step.heading) for number, step in enumerate(timeline.storyboard.steps)]


def test_each_page_tells_heading_picture_words_in_this_order(deck: Path, timeline: Timeline) -> None:
    found = elements(deck)
    for number, step in enumerate(timeline.storyboard.steps):
        here = [element for element in found if element.page == number]
        assert [e.tag for e in here][1:] == ["Figure", "P"] and here[0].tag in ("H1", "H2")
        shown = step.stills[0] if step.pause_s > 0 else step.picture
        assert here[1].alt == shown.alt and here[2].text == " ".join(step.narration)


def test_words_stay_below_the_picture_and_on_the_page(deck: Path, timeline: Timeline) -> None:
    """They stand where captions stand, and the largest type is taken at which they have room."""
    top = 540.0 * (1 - CAPTION_TOP / STAGE_HEIGHT)
    sizes = set()
    for number, step in enumerate(timeline.storyboard.steps):
        page = page_read(deck, number)
        words = " ".join(step.narration).split()
        last = [(word, at) for word, at, bold in page.words if not bold][-len(words) :] if words else []
        assert [word for word, _ in last] == words
        assert all(top <= at <= 540.0 - 11.0 for _, at in last)
        sizes |= {round(size, 1) for _, size, _ in page.chars}
    assert min(sizes) >= 11.0


def test_bookmarks_are_the_chapters_with_their_steps(deck: Path, handout: tuple[int, Path], timeline: Timeline) -> None:
    assert bookmarks(deck) == chapters_of(timeline)
    assert bookmarks(handout[1]) == chapters_of(timeline)


def test_a_handout_keeps_the_rules_of_pdf_ua(handout: tuple[int, Path]) -> None:
    assert content_faults(handout[1]) == []
    assert failed(handout[1]) == []
    assert [finding.message for finding in pdfua.validate(str(handout[1])).findings] == []


def test_a_handout_has_so_many_steps_a_page(handout: tuple[int, Path], timeline: Timeline) -> None:
    per_page, path = handout
    steps = timeline.storyboard.steps
    figures = [element for element in elements(path, frozenset()) if element.tag == "Figure"]
    assert [figure.page for figure in figures] == [number // per_page for number in range(len(steps))]
    with pikepdf.open(path) as pdf:
        assert len(pdf.pages) == math.ceil(len(steps) / per_page)
    # No picture reaches into another, or past the margins.
    for one, other in pairwise(figures):
        assert one.page != other.page or one.box[1] > other.box[3]
    assert all(figure.box[0] >= 42.0 and figure.box[1] >= 56.0 for figure in figures)


def test_a_handout_has_lines_for_notes(handout: tuple[int, Path]) -> None:
    per_page, path = handout
    (picture,) = convert(path)
    dark = np.asarray(Image.open(picture).convert("L")) < 128
    rows = dark[:, dark.shape[1] * 2 // 3 :].mean(axis=1) > 0.7  # the right third of a line runs on and on
    lines = int((rows[1:] & ~rows[:-1]).sum())
    assert lines >= {1: 10, 2: 6, 4: 16}[per_page]


def convert(path: Path) -> list[Path]:
    """The second page as a picture."""
    command = ["pdftoppm", "-r", "100", "-png", "-f", "2", "-l", "2", str(path), str(path.with_suffix(""))]
    subprocess.run(command, check=True)
    return sorted(path.parent.glob("*.png"))


def test_no_other_number_of_steps_has_room(timeline: Timeline, tmp_path: Path) -> None:
    assert PER_PAGE == (1, 2, 4)
    with pytest.raises(OutputError, match="1, 2 or 4"):
        write_handout(timeline, tmp_path, per_page=3)
    assert not list(tmp_path.iterdir())
