"""Motions in the browser: at any moment what is seen is what the motion says, for every kind of move of the demo."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from outputs.html_pages import deck_of, demo, opened
from PIL import Image
from playwright.sync_api import Browser, Page

from explainers.drawing.svg import svg_of
from explainers.figure.layout import Box
from explainers.figure.model import Area, Figure, Role
from explainers.figure.motion import Glide, Motion, Pulse, Trace
from explainers.outputs.html.motions import motion_data
from explainers.outputs.html.pictures import NumberedNames, Shelf, page_figure
from explainers.storyboard.model import Step, Still
from explainers.storyboard.pacing import pace

LEAD_MS, FRAME_MS = 400, 16  # as in the page's script, and as the browser's false clock beats
FAR_OFF = 16  # of 255: a pixel that is seen to be another
MOST_OFF = 0.003  # so great a part of the pixels may be far off
PARTS = (0.13, 0.5, 0.81)

# Kind of move -> lesson, step, which of its motions.
DEMO = {
    "zoom": ("first-blocks", "corner-block.close-up", 0),
    "fade": ("first-blocks", "corner-block.flag.marks", 0),
    "alone": ("first-blocks", "corner-block.outline", 1),
    "turn": ("cutting-out", "tag-block.leaf.turn", 1),
    "via": ("cutting-out", "tag-block.leaf.meet", 0),
    "trace": ("cutting-out", "tag-block.leaf.join", 0),
    "cut": ("cutting-out", "tag-block.dart.cut", 0),
    "option laid": ("cutting-out", "tag-block.option-kx14t.rule-out", 1),
    "walk": ("cutting-out", "tag-block.option-kb4s1.keep", 1),
}


def move(kind: str) -> Motion:
    if kind == "pulse":  # none of the demo, but a move like the others
        still = move("option laid").start
        group = next(entry.group for entry in still.entries if entry.role == Role.OPTION)
        return Motion(start=still, end=still, moves=(Pulse(group=group, about=(12.0, 5.0)),), seconds=1.0)
    lesson, step_id, number = DEMO[kind]
    (step,) = (step for step in demo(lesson).storyboard.steps if step.id == step_id)
    return [beat for beat in step.beats if isinstance(beat, Motion)][number]


KINDS = (*DEMO, "pulse")


@pytest.fixture(scope="module")
def moves() -> dict[str, Motion]:
    return {kind: move(kind) for kind in KINDS}


@pytest.fixture(scope="module")
def deck(moves: dict[str, Motion]) -> Path:
    """A page with a slide for each kind of move."""
    lesson = demo("first-blocks")
    steps = [
        Step(
            item="moves",
            stage=f"m{number}",
            chapter="Moves",
            heading="A move",
            beats=(Still(figure=motion.start), motion, Still(figure=motion.end)),
            narration=("It moves.",),
        )
        for number, motion in enumerate(moves.values())
    ]
    return deck_of(pace(replace(lesson.storyboard, steps=tuple(steps))))


@pytest.fixture(scope="module")
def page(browser: Browser, deck: Path) -> Iterator[Page]:
    with opened(browser, deck, still=False) as page:
        page.clock.install()
        page.reload()
        page.clock.pause_at(page.evaluate("Date.now()") + 1000)
        yield page


def seen(page: Page) -> np.ndarray:
    picture = Image.open(io.BytesIO(page.locator("#picture").screenshot(animations="allow"))).convert("RGB")
    return np.asarray(picture, dtype=np.int16)


def drawn(page: Page, figure: Figure) -> np.ndarray:
    """A figure drawn by the same browser in the same place, straight from the SVG of stills."""
    left, top, width, height = (
        float(part) / 100.0 for part in page.locator("#picture").get_attribute("viewBox").split()
    )
    markup = svg_of(page_figure(figure), ids=False, box=Box(left, 9.0 - top - height, left + width, 9.0 - top))
    inside = re.sub(r"^.*?<rect [^>]*/>|</svg>\s*$", "", markup, flags=re.DOTALL)
    page.evaluate(
        """inside => {
          const text = `<svg xmlns="http://www.w3.org/2000/svg">${inside}</svg>`;
          const read = new DOMParser().parseFromString(text, "image/svg+xml").documentElement;
          document.getElementById("picture").replaceChildren(...read.childNodes);
        }""",
        inside,
    )
    return seen(page)


def far_off(one: np.ndarray, other: np.ndarray) -> float:
    """The part of the pixels that are seen to be others."""
    return float((np.abs(one - other).max(axis=2) > FAR_OFF).mean())


@pytest.mark.parametrize("kind", KINDS)
def test_what_is_seen_on_the_way_is_what_the_motion_says(kind: str, page: Page, moves: dict[str, Motion]) -> None:
    motion = moves[kind]
    off = elsewhere = 0.0
    for part in PARTS:
        page.evaluate(f"document.querySelectorAll('#list button')[{KINDS.index(kind)}].click()")
        page.clock.run_for(LEAD_MS)
        page.clock.run_for(FRAME_MS)
        frames = round(part * motion.seconds * 1000 / FRAME_MS)
        page.clock.run_for(frames * FRAME_MS)
        shown = seen(page)
        fraction = frames * FRAME_MS / (motion.seconds * 1000)
        here = far_off(shown, drawn(page, motion.figure_at(fraction)))
        assert here < MOST_OFF, part
        off += here
        elsewhere += far_off(shown, drawn(page, motion.figure_at(fraction + 0.1)))
    assert elsewhere > 8 * off, "a moment that is a tenth further on is told from this one"


@pytest.mark.parametrize("kind", KINDS)
def test_poses_are_kept_wherever_the_motion_is_one_of_poses(kind: str, moves: dict[str, Motion]) -> None:
    motion = moves[kind]
    shelf = Shelf(NumberedNames(), NumberedNames())
    tracks = [track for track in motion_data(motion, shelf)["tracks"] if isinstance(track, dict)]
    posed = [track for track in tracks if "pose" in track]
    assert bool(posed) == any(isinstance(move, Glide | Pulse) for move in motion.moves)
    assert any("strokes" in track for track in tracks) == any(isinstance(move, Trace) for move in motion.moves)
    if kind in ("turn", "via", "option laid"):  # a piece of plain cloth keeps its shape, whatever is drawn on it
        assert len(posed) >= 2 and not [track for track in tracks if "paths" in track and "pose" in track]


def test_an_entry_that_does_not_move_with_its_group_is_not_posed() -> None:
    motion = move("via")
    glide = next(one for one in motion.moves if isinstance(one, Glide))
    cloth = next(e for e in motion.start.entries if e.group == glide.group and isinstance(e, Area))
    bent = replace(cloth, rings=tuple(((ring[0][0] + 0.2, ring[0][1]), *ring[1:]) for ring in cloth.rings))

    class Bending(Motion):
        """The cloth is bent out of shape half way."""

        def figure_at(self, fraction: float) -> Figure:
            figure = Motion.figure_at(self, fraction)
            if fraction < 0.5:
                return figure
            return replace(figure, entries=tuple(bent if e.id == cloth.id else e for e in figure.entries))

    bending = Bending(start=motion.start, end=motion.end, moves=motion.moves, seconds=motion.seconds)
    shelf = Shelf(NumberedNames(), NumberedNames())
    tracks = [track for track in motion_data(bending, shelf)["tracks"] if isinstance(track, dict)]
    whole = [track for track in motion_data(motion, shelf)["tracks"] if isinstance(track, dict)]
    assert sum("pose" in track for track in tracks) == sum("pose" in track for track in whole) - 1
    assert any("paths" in track for track in tracks)
