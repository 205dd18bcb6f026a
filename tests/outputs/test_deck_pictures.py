"""Decks as LibreOffice shows them, held against the figures drawn in a second way: to two pixels at 1080p."""

from __future__ import annotations

import base64
import copy
import io
import json
import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from outputs.chromium import CHROMIUM, opened_page
from outputs.cloth_seen import Seen, light_of, told_apart
from outputs.figure_oracle import drawn
from outputs.opened_slides import MISSING, Opened, opened
from outputs.picture_agreement import apart, structural_similarity
from outputs.school_template import ORNAMENTS, school_template
from outputs.slide_shapes import P, Stage, faults_of, leaves_of
from PIL import Image
from pptx import Presentation
from storyboard.sample_board import board

from explainers.batch import timeline_of
from explainers.drawing.svg import svg_of
from explainers.figure.layout import extent_of_entries
from explainers.figure.model import Area, Entry, Figure, Label, Role, moved_entry
from explainers.figure.themes import DARK
from explainers.geometry.rigid_motion import Similarity
from explainers.outputs.clip.stills import write_stills
from explainers.outputs.pptx.deck import write_deck
from explainers.outputs.shared.said_below import slide_picture
from explainers.storyboard.model import Imprint, Step, Still, Storyboard
from explainers.storyboard.pacing import pace
from explainers.storyboard.timeline import Timeline
from explainers.typeface.faces import face

pytestmark = pytest.mark.skipif(bool(MISSING), reason=MISSING)

DEMO = Path(__file__).resolve().parents[2] / "items" / "first-blocks.yaml"
# Patterns, marks, arrows, rings, half clear differences, dashes, the clock, the cards: every kind of entry.
SHOWN = (
    "first-blocks.opening",
    "corner-block.task",
    "corner-block.flag.turn",
    "corner-block.option-k3218.rule-out",
    "border-block.pause",
    "border-block.dart.turn",
    "border-block.dart.cut",
)
MUTATED = "border-block.dart.turn"
MOVED = ("corner-block.task", "corner-block.option-k3218.rule-out", "border-block.dart.turn", "border-block.dart.cut")
MOVED_BY = (0.5, 0.25)  # to the right and down, of the stage
FEW_SCALED = 24  # the same where the picture is made smaller, so that letters begin between pixels
FEW = 6  # pixels, of two million, where slanted lines of three programs are softened beyond the tolerance


def picture(step: Step) -> Figure:
    """What the step's slide is to show, under its title."""
    figure = slide_picture(step)
    heading = [
        replace(entry, text=step.heading)
        for entry in figure.entries
        if isinstance(entry, Label) and entry.role == Role.HEADING
    ]
    return replace(figure, entries=(*heading, *(e for e in figure.entries if e.role != Role.HEADING)))


def only(timeline: Timeline, name: str, ids: Sequence[str]) -> Timeline:
    steps = tuple(step.without_card() for step in timeline.storyboard.steps if step.id in ids)
    assert len(steps) == len(ids)
    return pace(replace(timeline.storyboard, steps=steps, name=name))


def probe() -> Timeline:
    """A slide with one large letter, by which it is seen how a program sets a line of text in its box."""
    letter = Label(id="probe", group="probe", role=Role.WORD, text="H", at=(8.0, 4.5), size=2.0, colour="#000000")
    figure = Figure(background="#FFFFFF", entries=(letter,))
    step = Step(stage="probe", chapter="P", heading="P", beats=(Still(figure=figure),), narration=())
    return pace(Storyboard(name="probe", title="P", language="en-GB", steps=(step,), imprint=Imprint()))


@dataclass(frozen=True)
class Shown:
    """All decks of this module, opened in one run."""

    timeline: Timeline
    dark: Timeline
    sample: Timeline  # made by hand: a hole, an arrow, half clear discs
    decks: dict[str, Opened]
    lowered: float  # how far below its place the program sets text, in ems


@pytest.fixture(scope="module")
def shown(tmp_path_factory: pytest.TempPathFactory) -> Shown:
    folder = tmp_path_factory.mktemp("shown")
    whole = timeline_of(DEMO)
    demo = only(whole, "demo", SHOWN)
    dark = only(timeline_of(DEMO, theme=DARK), "dark", SHOWN[5:6])
    sample = pace(replace(board(), steps=board().steps[:2]))
    decks = [path for timeline in (demo, dark, sample, probe()) for path in write_deck(timeline, folder)]
    for name, wide in (("school", False), ("wide-school", True)):
        template = school_template(folder / f"template-{name}.pptx", wide=wide)
        decks += write_deck(only(whole, name, SHOWN[:2] + SHOWN[4:6]), folder, template=template)
    decks.append(mutants(decks[0], SHOWN.index(MUTATED), folder / "mutants.pptx"))
    decks.append(each_moved(decks[0], [SHOWN.index(step_id) for step_id in MOVED], folder / "moved.pptx"))
    seen = opened(decks, folder)
    ink = seen["probe"].pages()[0].max(axis=2)[300:950] < 128  # below the title, above the number
    foot = 300 + int(np.nonzero(ink.any(axis=1))[0].max()) + 1
    lowered = (foot - 540.0) / 240.0 - face(False).cap_height(1.0) / 2
    return Shown(demo, dark, sample, seen, lowered)


def mutants(deck: Path, number: int, path: Path) -> Path:
    """A deck of one slide over and over, each time without another of its shapes; the whole one comes first."""
    made = Presentation(str(deck))
    slide = made.slides[number]
    tree = slide.shapes._spTree
    for missing in (None, *range(1, len(leaves_of(tree)) - 1)):
        broken = copied(made, slide)
        if missing is not None:
            shape = leaves_of(broken.shapes._spTree)[missing]
            shape.getparent().remove(shape)
    return only_new(made, path)


def each_moved(deck: Path, numbers: Sequence[int], path: Path) -> Path:
    """A deck of some slides over and over, each time with another of its things moved, as a teacher would move it."""
    made = Presentation(str(deck))
    for number in numbers:
        slide = made.slides[number]
        for place in range(len(things_on(slide))):
            thing = things_on(copied(made, slide))[place]
            across, down = (round(length * 762_000) for length in MOVED_BY)
            thing.left, thing.top = thing.left + across, thing.top + down
    return only_new(made, path)


def things_on(slide: Any) -> list[Any]:
    """What can be picked up: every shape or group but title, number, what all lies on and the row of stitches."""
    fixed = {"Work table and tray", "How far the lesson is"}
    return [shape for shape in slide.shapes if not shape.is_placeholder and shape.name not in fixed]


def copied(made: Any, slide: Any) -> Any:
    """A slide at the end of the deck that is like another one."""
    other = made.slides.add_slide(slide.slide_layout)
    tree = other.shapes._spTree
    for shape in list(tree):
        tree.remove(shape)
    for shape in slide.shapes._spTree:
        tree.append(copy.deepcopy(shape))
    other.element.find(f"{P}cSld").insert(0, copy.deepcopy(slide.element.find(f"{P}cSld/{P}bg")))
    return other


def only_new(made: Any, path: Path) -> Path:
    """The deck as a file, without the slides that it began with."""
    for slide_id in list(made.slides._sldIdLst)[: len(SHOWN)]:
        made.part.drop_rel(slide_id.rId)
        made.slides._sldIdLst.remove(slide_id)
    made.save(str(path))
    return path


def without_number(differ: np.ndarray) -> np.ndarray:
    """The figure has no number; that of the slide stands in the lower right corner."""
    height, width = differ.shape
    differ[round(0.93 * height) :, round(0.88 * width) :] = False
    return differ


def kept(folder: Path, name: str, *pictures: np.ndarray) -> Path:
    """Pictures one below the other in a file, to be looked at."""
    path = folder / f"{name}.png"
    Image.fromarray(np.concatenate(pictures)).save(path)
    return path


def test_everything_lies_within_two_pixels_of_where_the_figure_has_it(shown: Shown, tmp_path: Path) -> None:
    for timeline in (shown.timeline, shown.dark, shown.sample):
        name = timeline.storyboard.name
        pages = shown.decks[name].pages()
        for step, page in zip(timeline.storyboard.steps, pages, strict=True):
            wanted = drawn(picture(step), lowered=shown.lowered)
            differ = without_number(apart(page, wanted))
            if differ.sum() > FEW:
                look = kept(tmp_path, f"{name}-{step.id}", wanted, page)
                pytest.fail(
                    f"{step.id}: {differ.sum()} pixels differ, at {np.argwhere(differ)[:5].tolist()}; see {look}"
                )


def test_a_slide_without_any_one_of_its_shapes_is_seen_to_differ(shown: Shown) -> None:
    """At half the size, to be quick; a pixel there is two of the full size.

    But for the bars of the marked sides, which lie wholly under what points at them.
    """
    (step,) = (step for step in shown.timeline.storyboard.steps if step.id == MUTATED)
    figure, small = picture(step), {"size": (960, 540), "unit": 60.0, "lowered": shown.lowered}
    wanted = drawn(figure, **small)
    bars = [entry.id for entry in figure.entries if re.fullmatch(r"piece-2-(own|partner)\.bar", entry.id)]
    for bar in bars:
        without = drawn(figure, entries=[entry for entry in figure.entries if entry.id != bar], **small)
        assert apart(without, wanted, 1).sum() <= FEW, bar
    whole, *broken = shown.decks["mutants"].pages(960, 540)
    assert without_number(apart(whole, wanted, 1)).sum() <= FEW
    assert len(broken) > 15
    alike = [number for number, page in enumerate(broken) if without_number(apart(page, wanted, 1)).sum() <= FEW]
    assert len(alike) == len(bars) == 2, f"without shapes {alike}"


def test_whoever_moves_a_thing_moves_all_of_it_and_nothing_else(shown: Shown, tmp_path: Path) -> None:
    """Each thing of some slides, at half the size: a base with its seam and marks, a piece, an option, what differs."""
    slides = Presentation(str(shown.decks["demo"].deck)).slides
    pages = iter(shown.decks["moved"].pages(960, 540))
    by = Similarity(shift=(MOVED_BY[0], -MOVED_BY[1]))
    for step_id in MOVED:
        number = SHOWN.index(step_id)
        figure = picture(shown.timeline.storyboard.steps[number])
        entries = {entry.id: entry for entry in figure.entries}
        order = [entries[leaf.name] for leaf in all_shapes(slides[number].shapes) if leaf.name in entries]
        headings = [entry for entry in figure.entries if entry.role == Role.HEADING]
        things = things_on(slides[number])
        assert len(things) >= 3, step_id
        for thing in things:
            name = next(shape.name for shape in all_shapes([thing]))
            moves = thing_of(entries[name])
            after = [moved_entry(entry, by) if thing_of(entry) == moves else entry for entry in order]
            wanted = drawn(figure, entries=[*headings, *after], size=(960, 540), unit=60.0, lowered=shown.lowered)
            page = next(pages)
            differ = without_number(apart(page, wanted, 1))
            assert differ.sum() <= FEW, f"{step_id}: {thing.name}; see {kept(tmp_path, moves, wanted, page)}"
    assert next(pages, None) is None


def thing_of(entry: Entry) -> str:
    """What an entry is drawn of."""
    return entry.group if entry.subject is None else entry.subject.group


def test_a_shift_of_three_pixels_is_seen_and_one_of_a_single_pixel_is_not(shown: Shown) -> None:
    page = shown.decks["demo"].pages(only=[1])[0]
    assert apart(page, np.roll(page, 1, axis=1)).sum() == 0
    assert apart(page, np.roll(page, 3, axis=1)).sum() > 1000


def seen_in(timeline: Timeline, deck: Opened) -> list[Seen]:
    return [
        Seen(picture(step), light_of(page), 120.0)
        for step, page in zip(timeline.storyboard.steps, deck.pages(), strict=True)
    ]


def test_base_join_and_cut_are_told_apart_on_slides(shown: Shown) -> None:
    """On grey paper, and to eyes that see colours in another way."""
    looked_at = told_apart([*seen_in(shown.timeline, shown.decks["demo"]), *seen_in(shown.dark, shown.decks["dark"])])
    assert min(looked_at.values()) >= 3, looked_at


def test_and_on_every_slide_of_the_demo(tmp_path: Path, cases: Callable[[int, int], int]) -> None:
    """With --full; the worst of a run takes minutes."""
    if cases(0, 1) == 0:
        pytest.skip("with --full")
    timelines = {
        name: timeline_of(DEMO.with_name(f"{name}.yaml")) for name in ("first-blocks", "cutting-out", "looking-closely")
    }
    decks = opened([path for timeline in timelines.values() for path in write_deck(timeline, tmp_path)], tmp_path)
    for name, timeline in timelines.items():
        looked_at = told_apart(seen_in(timeline, decks[timeline.storyboard.name]))
        assert min(looked_at.values()) >= 1, (name, looked_at)


def test_each_figure_is_alike_in_structure_inside_its_own_box(
    shown: Shown,
    tmp_path: Path,
    record_property: pytest.RecordProperty,  # type: ignore[name-defined]
) -> None:
    pages = shown.decks["demo"].pages()
    found = []
    for step, page in zip(shown.timeline.storyboard.steps, pages, strict=True):
        figure = picture(step)
        wanted = drawn(figure, lowered=shown.lowered)
        for entry in figure.entries:
            if isinstance(entry, Area) and entry.role == Role.PANEL and entry.rounded:
                rows, columns = pixels_of(entry)
                found.append((structural_similarity(page[rows, columns], wanted[rows, columns]), step.id, entry.id))
    worst, step_id, panel = min(found)
    record_property("least_structural_similarity", f"{worst:.4f} ({step_id}, {panel})")
    number = SHOWN.index(step_id)
    step = shown.timeline.storyboard.steps[number]
    look = kept(tmp_path, "worst", drawn(picture(step), lowered=shown.lowered), pages[number])
    assert worst > 0.98, f"{step_id}, {panel}: {worst:.4f}; see {look}"


def pixels_of(panel: Area) -> tuple[slice, slice]:
    box = extent_of_entries([panel])
    rows = slice(round((9.0 - box.top) * 120), round((9.0 - box.bottom) * 120))
    return rows, slice(round(box.left * 120), round(box.right * 120))


def test_every_word_stands_inside_its_box(shown: Shown) -> None:
    """Boxes of our own slides, and of a school's."""
    for name, opened_deck in shown.decks.items():
        if name in ("probe", "mutants", "moved"):
            continue
        deck = Presentation(str(opened_deck.deck))
        for slide, words in zip(deck.slides, opened_deck.words(), strict=True):
            boxes = [
                (shape.text_frame.text, shape.left.pt, shape.top.pt, shape.width.pt, shape.height.pt)
                for shape in all_shapes(slide.shapes)
                if shape.has_text_frame and shape.text_frame.text
            ]
            expected = sorted(word for text, *_ in boxes for word in text.split())
            assert sorted(word for word, _ in words) == expected
            for word, (left, top, right, bottom) in words:
                middle = (top + bottom) / 2
                assert any(
                    word in text.split() and x - 0.5 <= left <= right <= x + across + 0.5 and y <= middle <= y + down
                    for text, x, y, across, down in boxes
                ), f"{name}: {word!r}"


def all_shapes(shapes):  # type: ignore[no-untyped-def]
    for shape in shapes:
        if hasattr(shape, "shapes"):
            yield from all_shapes(shape.shapes)
        else:
            yield shape


@pytest.mark.parametrize("name", ["school", "wide-school"])
def test_a_schools_slide_has_the_schools_look_and_our_figure(shown: Shown, name: str, tmp_path: Path) -> None:
    """Its ground and ornaments as they were, its title in its own place, the picture whole and in nobody's way."""
    opened_deck = shown.decks[name]
    deck = Presentation(str(opened_deck.deck))
    width, height = (1920, 1080) if name == "wide-school" else (1440, 1080)
    emu_a_pixel = deck.slide_width / width
    pages = opened_deck.pages(width, height)
    steps = [step for step in shown.timeline.storyboard.steps if step.id in SHOWN[:2] + SHOWN[4:6]]
    assert len(deck.slides) == len(steps)
    for slide, step, page in zip(deck.slides, steps, pages, strict=True):
        assert slide.slide_layout.name == "Title Only"
        assert slide.shapes.title.text_frame.text == step.heading
        assert slide.shapes.title._element.spPr.find("{*}xfrm") is None, "where the school has it"
        (paper,) = (shape for shape in all_shapes(slide.shapes) if shape.name == "paper")
        figure = picture(step)
        entries = [entry for entry in figure.entries if entry.role not in (Role.HEADING, Role.PROGRESS)]
        stage = stage_of(slide, entries)
        under = Area(id="paper", group="paper", role=Role.PANEL, fill=figure.background, rounded=0.2,
                     rings=((stage.point(paper.left, paper.top + paper.height),
                             stage.point(paper.left + paper.width, paper.top + paper.height),
                             stage.point(paper.left + paper.width, paper.top),
                             stage.point(paper.left, paper.top)),))  # fmt: skip
        assert list(faults_of(slide.shapes._spTree, [under, *entries], step.heading, stage)) == []
        wanted = drawn(
            figure,
            size=(width, height),
            unit=stage.unit / emu_a_pixel,
            corner=(stage.left / emu_a_pixel, stage.top / emu_a_pixel),
            entries=[under, *entries],
            ground="#14382E",
            lowered=shown.lowered,
        )
        rows = slice(round(paper.top / emu_a_pixel) - 4, round((paper.top + paper.height) / emu_a_pixel) + 4)
        columns = slice(round(paper.left / emu_a_pixel) - 4, round((paper.left + paper.width) / emu_a_pixel) + 4)
        differ = apart(page[rows, columns], wanted[rows, columns])
        assert differ.sum() <= FEW_SCALED, kept(tmp_path, name, wanted, page)
        for left, top, right, bottom in ORNAMENTS:
            seen = page[round(top * height) + 3 : round(bottom * height) - 3]
            seen = seen[:, round(left * width) + 3 : round(right * width) - 3]
            assert np.abs(seen.astype(int) - (0xE0, 0xA0, 0x30)).max() < 4, "an ornament is covered"


def stage_of(slide, entries) -> Stage:  # type: ignore[no-untyped-def]
    """Where the stage lies, told from the widest panel or the first two shapes that have a place of their own."""
    known = {shape.name: shape for shape in all_shapes(slide.shapes)}
    left, right = None, None
    areas = [entry for entry in entries if isinstance(entry, Area)]
    widest = max(areas, key=lambda entry: extent_of_entries([entry]).width)
    box, shape = extent_of_entries([widest]), known[widest.id]
    unit = shape.width / box.width
    left, right = shape.left - box.left * unit, shape.top - (9.0 - box.top) * unit
    return Stage(unit, left, right)


def test_still_svg_and_slide_of_one_step_agree(shown: Shown, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    step = shown.timeline.storyboard.steps[SHOWN.index(MUTATED)]
    still = Still(figure=replace(picture(step), entries=tuple(low(e, shown.lowered) for e in picture(step).entries)))
    # What is said stands in the picture already.
    one = pace(replace(shown.timeline.storyboard, name="one", steps=(replace(step, beats=(still,), narration=()),)))
    paths = write_stills(one, tmp_path)
    with Image.open(next(path for path in paths if path.suffix == ".png")) as image:
        manim = np.asarray(image.convert("RGB"))
    page = shown.decks["demo"].pages(only=[SHOWN.index(MUTATED)])[0]
    assert without_number(apart(manim, page)).sum() <= FEW
    if CHROMIUM.exists():
        svg = next(path for path in paths if path.suffix == ".svg")
        assert svg.read_text(encoding="utf-8") == svg_of(still.figure)
        browser = rasterised(svg, tmp_path / "profile")
        assert without_number(apart(browser, page)).sum() <= FEW
        assert apart(browser, manim).sum() <= FEW


def low(entry, ems: float):  # type: ignore[no-untyped-def]
    """A word where the slide program sets it."""
    if not isinstance(entry, Label) or entry.sign:
        return entry
    return replace(entry, at=(entry.at[0], entry.at[1] - ems * entry.size))


def rasterised(svg: Path, profile: Path) -> np.ndarray:
    """The SVG as the browser draws it."""
    profile.mkdir()
    script = """
        new Promise(done => {
            const image = new Image();
            image.onload = () => {
                const canvas = document.createElement('canvas');
                canvas.width = 1920; canvas.height = 1080;
                canvas.getContext('2d').drawImage(image, 0, 0, 1920, 1080);
                done(canvas.toDataURL('image/png'));
            };
            image.src = 'data:image/svg+xml;base64,' + btoa(unescape(encodeURIComponent(SVG)));
        })"""
    with opened_page("about:blank", profile) as page:
        data = page.answer(script.replace("SVG", json.dumps(svg.read_text(encoding="utf-8"))))
    with Image.open(io.BytesIO(base64.b64decode(data.split(",")[1]))) as image:
        return np.asarray(image.convert("RGB"))
