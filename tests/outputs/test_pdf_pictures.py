"""Deck and handout as PDF, SVG still and manim still of one step: they agree to two pixels at 1080p.

Paths are read out of the PDF and held against those of the SVG one by one; some pages are looked at as pictures too.
"""

from __future__ import annotations

import io
import subprocess
from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path

import cairosvg
import numpy as np
import pdfplumber
import pikepdf
import pytest
from outputs.drawn_paths import Stroke, apart, in_pdf, in_svg, moved
from outputs.pdf_read import elements
from outputs.picture_agreement import apart as pixels_apart
from outputs.test_deck_pictures import SHOWN
from PIL import Image

from explainers.batch import timeline_of
from explainers.drawing.svg import svg_of
from explainers.figure.model import CAPTION_TOP, STAGE_HEIGHT, Figure, Label, Role
from explainers.figure.themes import DARK
from explainers.outputs.clip.stills import write_stills
from explainers.outputs.pdf.deck import write_pdf_deck
from explainers.outputs.pdf.handout import write_handout
from explainers.outputs.shared.steps import drawn_part, picture_of, undecorated
from explainers.storyboard.pacing import pace
from explainers.storyboard.timeline import Timeline
from explainers.typeface.faces import face, label_box

ITEMS = Path(__file__).parents[2] / "items"
NEAR = 2.0  # pixels at 1080p
PX_PER_PT = 2.0  # of a page of the deck, 960 points wide
FEW = 6  # pixels of two million, as between other programs


@pytest.fixture(scope="module")
def timeline() -> Timeline:
    whole = timeline_of(ITEMS / "first-blocks.yaml")
    steps = tuple(step for step in whole.storyboard.steps if step.id in SHOWN)
    return pace(replace(whole.storyboard, steps=steps, name="shown"))


@pytest.fixture(scope="module")
def deck(timeline: Timeline, tmp_path_factory: pytest.TempPathFactory) -> Path:
    return write_pdf_deck(timeline, tmp_path_factory.mktemp("deck"))[0]


def pages_of(path: Path) -> list[list[Stroke]]:
    with pikepdf.open(path) as pdf:
        return [in_pdf(page) for page in pdf.pages]


def on_stage(strokes: Sequence[Stroke]) -> list[Stroke]:
    """From points of a page of the deck to pixels at 1080p, y down."""
    return [moved(stroke, PX_PER_PT, (0.0, 1080.0), flipped=True) for stroke in strokes]


def off(found: Sequence[Stroke], wanted: Sequence[Stroke]) -> float:
    """How far the one row lies from the other in pixels; without end where they are not the same strokes in order."""
    if len(found) != len(wanted):
        return float("inf")
    return max(apart(one, other) for one, other in zip(found, wanted, strict=True))


def still(figure: Figure) -> list[Stroke]:
    """What the SVG still has of a figure without its heading, which pages write as text; its ground comes first."""
    return in_svg(svg_of(undecorated(figure, heading_only=True)))


def test_a_page_of_the_deck_draws_what_the_svg_still_draws(timeline: Timeline, deck: Path) -> None:
    for step, page in zip(timeline.storyboard.steps, pages_of(deck), strict=True):
        ground, *found = on_stage(page)  # the page itself is laid out in the same colour first
        wanted = still(picture_of(step))
        assert ground.colour == wanted[0].colour
        assert off(found, wanted) <= NEAR, step.id


def test_every_page_of_more_decks(cases: Callable[[int, int], int], tmp_path: Path) -> None:
    """A lesson by lamplight whole; with --full all lessons of the demo."""
    for name, theme in (("flag-block", DARK), ("first-blocks", None), ("cutting-out", None))[: cases(1, 3)]:
        whole = timeline_of(ITEMS / f"{name}.yaml", theme=theme)
        (path,) = write_pdf_deck(whole, tmp_path)
        worst = [
            (off(on_stage(page)[1:], still(picture_of(step))), step.id)
            for step, page in zip(whole.storyboard.steps, pages_of(path), strict=True)
        ]
        assert max(worst)[0] <= NEAR, max(worst)


def test_headings_stand_where_the_still_has_them(timeline: Timeline, deck: Path) -> None:
    with pdfplumber.open(deck) as pdf:
        for step, page in zip(timeline.storyboard.steps, pdf.pages, strict=True):
            (label,) = [
                e for e in picture_of(step).entries if isinstance(e, Label) and e.role == Role.HEADING and e.text
            ]
            first = page.chars[0]
            left, baseline = label_box(label)[0], label.at[1] - face(label.bold).cap_height(label.size) / 2
            x, y = first["matrix"][4], first["matrix"][5]
            assert abs(PX_PER_PT * x - 120.0 * left) <= NEAR, step.id
            assert abs(PX_PER_PT * y - 120.0 * baseline) <= NEAR, step.id


@pytest.mark.parametrize("per_page", [1, 4])
def test_a_handout_draws_what_the_svg_still_draws(timeline: Timeline, tmp_path: Path, per_page: int) -> None:
    (path,) = write_handout(timeline, tmp_path, per_page=per_page)
    pages = pages_of(path)
    figures = [element for element in elements(path, frozenset()) if element.tag == "Figure"]
    for step, shown in zip(timeline.storyboard.steps, figures, strict=True):
        figure = undecorated(picture_of(step))
        left, _, right, top = shown.box
        here = [stroke for stroke in pages[shown.page] if lies_in(stroke, shown.box)]
        part = drawn_part(figure)
        px = 120.0 * part.width / (right - left)  # of a point of this picture
        there = (120.0 * part.left - px * left, 120.0 * (STAGE_HEIGHT - part.top) + px * top)
        found = [moved(stroke, px, there, flipped=True) for stroke in here]
        wanted = in_svg(svg_of(figure))[1:]
        assert off(found[-len(wanted) :], wanted) <= NEAR, step.id
        assert len(found) - len(wanted) <= 1, "nothing else but its ground"


def lies_in(stroke: Stroke, box: tuple[float, ...]) -> bool:
    """Whether all of a stroke lies in a box of a page; half a point of slack."""
    left, bottom, right, top = box
    xs, ys = zip(*[point for contour in stroke.contours for point in contour], strict=True)
    return bool(left - 0.5 < min(xs) and max(xs) < right + 0.5 and bottom - 0.5 < min(ys) and max(ys) < top + 0.5)


def test_a_page_without_any_one_of_its_strokes_is_seen_to_differ(timeline: Timeline, deck: Path) -> None:
    """Or with one elsewhere, of another colour or opacity, or lacking a part."""
    step, page = timeline.storyboard.steps[-1], pages_of(deck)[-1]
    found, wanted = on_stage(page)[1:], still(picture_of(step))
    for number in range(len(found)):
        assert off(found[:number] + found[number + 1 :], wanted) > NEAR
    for change in (
        lambda stroke: moved(stroke, 1.0, (3.0, 0.0), flipped=False),
        lambda stroke: replace(stroke, colour="#123456"),
        lambda stroke: replace(stroke, opacity=0.5 * stroke.opacity),
        lambda stroke: replace(stroke, contours=stroke.contours[:-1]),
    ):
        for number, stroke in enumerate(found):
            assert off([*found[:number], change(stroke), *found[number + 1 :]], wanted) > NEAR


# As pictures


def rasterised(svg: str) -> np.ndarray:
    png = cairosvg.svg2png(bytestring=svg.encode(), output_width=1920, output_height=1080)
    return np.asarray(Image.open(io.BytesIO(png)).convert("RGB"))


def page_picture(path: Path, number: int, folder: Path) -> np.ndarray:
    command = ["pdftoppm", "-scale-to-x", "1920", "-scale-to-y", "1080", "-png", "-singlefile"]
    subprocess.run([*command, "-f", str(number), "-l", str(number), str(path), str(folder / "page")], check=True)
    return np.asarray(Image.open(folder / "page.png").convert("RGB"))


@pytest.mark.parametrize("step_id", ["corner-block.flag.turn", "border-block.dart.cut"])
def test_a_page_looks_like_the_svg_still(timeline: Timeline, deck: Path, step_id: str, tmp_path: Path) -> None:
    """Above the words, its heading included."""
    number = next(n for n, step in enumerate(timeline.storyboard.steps, start=1) if step.id == step_id)
    page = page_picture(deck, number, tmp_path)
    wanted = rasterised(svg_of(picture_of(timeline.storyboard.steps[number - 1])))
    above = slice(0, round(1080 * (1 - CAPTION_TOP / STAGE_HEIGHT)))
    assert pixels_apart(page[above], wanted[above]).sum() <= FEW
    assert pixels_apart(page[above], np.roll(wanted, 3, axis=1)[above]).sum() > 1000


def test_manim_stills_look_like_svg_stills(
    timeline: Timeline, tmp_path: Path, cases: Callable[[int, int], int]
) -> None:
    """With --full patterns, marks, arrows, dashes, half clear differences, the clock, the cards; else what few show."""
    steps = timeline.storyboard.steps
    some = pace(replace(timeline.storyboard, steps=steps[-cases(2, len(steps)) :]))
    for path in write_stills(some, tmp_path):
        if path.suffix == ".png":
            svg = path.with_suffix(".svg").read_text(encoding="utf-8")
            with Image.open(path) as picture:
                differ = pixels_apart(np.asarray(picture.convert("RGB")), rasterised(svg))
            assert differ.sum() <= FEW, path.name
