"""Where things sit in the deck, at every size of window: what is to be done next is in view, and pictures are large."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from outputs.html_pages import deck_file, demo, opened, slides_told
from playwright.sync_api import Browser, Page

from explainers.figure.model import Label, Role
from explainers.outputs.html.layouts import panels_of
from explainers.outputs.html.slides import is_stop
from explainers.outputs.shared.steps import picture_of
from explainers.storyboard.model import Step

# Phones; desks; and the same desks at twice the size, which have half as many CSS pixels.
PHONES = ((360, 640), (390, 844))
DESKS = ((1024, 768), (1280, 720), (1280, 800), (1366, 768), (1920, 1080))
TWICE = ((512, 384), (640, 360), (640, 400), (683, 384), (960, 540))
FEW = (PHONES[0], DESKS[0], DESKS[1], TWICE[0], TWICE[1])
LESSONS = ("first-blocks", "turning-round", "cutting-out", "looking-closely")

LEAST_LETTER_PX = 12.0
LEAST_PIECE_PX = 90.0
LEAST_PART = 2 / 3  # of the height between heading and bar, on a desk

# What lies under the corners and the middle of a button, as a finger would find it; and what else is wrong.
SEATS = """() => {
  const faults = [];
  for (const name of ["next", ...(document.getElementById("more").hidden ? [] : ["more"])]) {
    const button = document.getElementById(name);
    const { left, top, right, bottom } = button.getBoundingClientRect();
    if (left < 0 || top < 0 || right > innerWidth || bottom > innerHeight) faults.push(`${name} is not in the window`);
    for (const [x, y] of [[left + 5, top + 5], [right - 5, top + 5], [left + 5, bottom - 5], [right - 5, bottom - 5],
      [(left + right) / 2, (top + bottom) / 2]]) {
      if (!button.contains(document.elementFromPoint(x, y))) faults.push(`${name} is covered at ${x}, ${y}`);
    }
  }
  if (document.documentElement.scrollWidth > innerWidth) faults.push("the page scrolls sideways");
  const drawn = [...document.querySelectorAll("#picture > g:not(.handle-layer, .guide-hand), #picture > rect")]
    .map((each) => each.getBoundingClientRect()).filter(({ width, height }) => width + height > 0);
  const top = Math.min(...drawn.map((box) => box.top)), bottom = Math.max(...drawn.map((box) => box.bottom));
  const box = (id) => document.getElementById(id).getBoundingClientRect();
  const room = box("bar").top - box("heading").bottom;
  const held = document.querySelector("#picture > .handle-touch")?.getBoundingClientRect();
  return {
    faults,
    part: (bottom - top) / room,
    scale: document.getElementById("picture").getScreenCTM().a * 100,
    piece: document.querySelector(".handle-state") && held ? Math.max(held.width, held.height) : null,
    stacked: document.getElementById("stage").classList.contains("stacked"),
    options: document.querySelectorAll(".choose-spot").length,
    seen: [...document.querySelectorAll(".choose-spot")].filter((spot) => {
      const { left, top, width, height } = spot.getBoundingClientRect();
      return Math.min(width, height) >= 44 && left >= 0 && left + width <= innerWidth;
    }).length,
  };
}"""


def smallest_letter(told: list[Step]) -> float:
    """Of the steps that lie on the panels of the last one: others are laid out by themselves."""
    there = panels_of(picture_of(told[-1]))
    sizes = [
        entry.size
        for step in told
        if panels_of(picture_of(step)) == there
        for entry in picture_of(step).entries
        if isinstance(entry, Label) and entry.role not in (Role.HEADING, Role.CLOCK, Role.PROGRESS)
    ]
    return min(sizes, default=1.0)


def runs(lesson: str) -> list[tuple[int, list[Step]]]:
    """The slide's number from 0, and the steps that are told together, of each place where the page waits."""
    found: list[tuple[int, list[Step]]] = []
    for number, slide in enumerate(slides_told(demo(lesson))):
        told: list[Step] = []
        for step in slide:
            told.append(step)
            if is_stop(step) or step is slide[-1]:
                found.append((number, told))
                told = []
    return found


def go_on(page: Page) -> None:
    """To the next place where the page waits; at a question the solution is asked for."""
    before = page.locator("#said").text_content()
    if page.locator("#next").text_content() == "Check my answer":
        page.locator("#more").click()
        page.locator("#more").click()
    elif page.locator("#next").text_content() == "Note my answer":
        page.locator("#more").click()
    else:
        page.locator("#next").click()
    for _ in range(400):
        if page.locator("#said").text_content() != before:
            return
        page.wait_for_timeout(10)
    raise AssertionError("it does not go on")


@pytest.mark.parametrize("lesson", LESSONS)
def test_what_comes_next_is_in_view_and_pictures_are_large_at_every_size(
    lesson: str, browser: Browser, cases: Callable[[int, int], int]
) -> None:
    if lesson not in LESSONS[: cases(2, 4)]:
        pytest.skip("with --full")
    sizes = (*PHONES, *DESKS, *TWICE) if cases(0, 1) else FEW
    with opened(browser, deck_file(lesson), device_scale_factor=2) as page:
        places = runs(lesson)
        for number, (slide, steps) in enumerate(places):
            for width, height in sizes:
                page.set_viewport_size({"width": width, "height": height})
                page.evaluate("new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))")
                found: dict[str, Any] = page.evaluate(SEATS)
                where = (lesson, slide + 1, steps[-1].id, width, height, found)
                assert found["faults"] == [], where
                assert found["options"] == found["seen"] == (len(steps[-1].choice.options) if steps[-1].choice else 0)
                if (width, height) in PHONES:
                    assert found["stacked"] or not steps[-1].item, where
                    assert found["scale"] * smallest_letter(steps) >= LEAST_LETTER_PX, where
                    assert (found["piece"] is not None) == (steps[-1].handling is not None), where
                    assert found["piece"] is None or found["piece"] >= LEAST_PIECE_PX, where
                if (width, height) in DESKS and steps[-1].item:  # a title card is as wide as its one line asks for
                    assert found["part"] >= LEAST_PART, where
            if number + 1 < len(places):
                go_on(page)


def test_what_is_said_of_the_next_thing_to_do_is_said_beside_it(browser: Browser) -> None:
    """A hint that stands where nobody looks makes a button seem dead."""
    pause = next(number for number, (_, steps) in enumerate(runs("first-blocks")) if steps[-1].choice)
    slide = runs("first-blocks")[pause][0]
    for width, height in (*PHONES, DESKS[0], TWICE[1]):
        size = {"width": width, "height": height}
        with opened(browser, deck_file("first-blocks"), start=f"#s{slide + 1}", viewport=size) as page:
            page.locator("#next").click()  # with nothing chosen
            hint, button = page.locator("#hint").bounding_box(), page.locator("#next").bounding_box()
            assert page.locator("#hint").text_content() == "Choose an option first."
            assert hint and button and hint["y"] >= 0 and hint["y"] + hint["height"] <= button["y"] + 1 <= height
            assert button["y"] + button["height"] <= height
