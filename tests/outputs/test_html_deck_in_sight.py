"""What lies in sight on screens of the deck: answers above the bar, no button that goes nowhere, outlines uncovered."""

from __future__ import annotations

import pytest
from outputs.html_pages import PHONE, deck_file, demo, opened, slide_at, slides_told
from playwright.sync_api import Browser, Page, expect

LESSON = "first-blocks"
DESKS = ((1024, 768), (1280, 720), (1366, 768), (1920, 1080))
PHONES = ((360, 640), (PHONE["width"], PHONE["height"]))

# The numbers of points round each radio button that lie on an outline, inside or on its line.
COVERED = """() => [...document.querySelectorAll(".choose-spot")].map((spot) => {
  const { left, top, right, bottom } = spot.getBoundingClientRect();
  const shapes = [...document.querySelectorAll("#picture path")].filter((shape) => {
    const box = shape.getBoundingClientRect();
    const inside = box.left >= left - 4 && box.right <= right + 4 && box.top >= top - 4 && box.bottom <= bottom + 4;
    return box.width > 20 && inside;
  });
  const round = spot.querySelector("input").getBoundingClientRect();
  const points = [...Array(24).keys()].map((number) => {
    const angle = (number * Math.PI) / 12, far = round.width / 2;
    return new DOMPoint(round.left + far * (1 + Math.cos(angle)), round.top + far * (1 + Math.sin(angle)));
  });
  const on = (shape, point) => {
    const place = point.matrixTransform(shape.getScreenCTM().inverse());
    return shape.isPointInFill(place) || shape.isPointInStroke(place);
  };
  return [shapes.length, points.filter((point) => shapes.some((shape) => on(shape, point))).length];
})"""


def last() -> int:
    return len(slides_told(demo(LESSON))) - 1


def to_the_end(page: Page) -> None:
    """From the question, answered, to the closing card."""
    page.get_by_role("radio", name="Option A").check()
    page.get_by_role("button", name="Check my answer").click()
    for _ in range(60):
        if page.locator("#place").text_content() == f"Slide {last() + 1} of {last() + 1}":
            return
        more = page.get_by_role("button", name="See the solution")
        (more if more.is_visible() else page.locator("#next")).click()
    raise AssertionError(page.locator("#place").text_content())


def test_what_was_answered_is_in_view_with_the_closing_card_on_every_desk(browser: Browser) -> None:
    with opened(browser, deck_file(LESSON), start=f"#s{slide_at(demo(LESSON), 'pause') + 1}") as page:
        to_the_end(page)
        for width, height in DESKS:
            page.set_viewport_size({"width": width, "height": height})
            copy, bar = page.get_by_role("button", name="Copy for the teacher"), page.locator("#bar")
            box, foot = copy.bounding_box(), bar.bounding_box()
            assert box is not None and foot is not None
            assert box["y"] + box["height"] <= foot["y"], (width, height)
            words, answers = page.locator("#said p").first.bounding_box(), page.locator(".choose-end").bounding_box()
            assert words is not None and answers is not None and abs(words["x"] - answers["x"]) < 2
            picture = page.locator("#picture").bounding_box()
            assert picture is not None and picture["height"] >= 0.2 * height


def test_where_nothing_comes_any_more_there_is_nothing_to_go_on_with(browser: Browser) -> None:
    with opened(browser, deck_file(LESSON), start=f"#s{slide_at(demo(LESSON), 'pause') + 1}") as page:
        expect(page.locator("#next")).to_be_enabled()
        to_the_end(page)
        expect(page.locator("#next")).to_be_disabled()
        ground = "id => getComputedStyle(document.getElementById(id)).backgroundColor"
        assert page.evaluate(ground, "next") == page.evaluate(ground, "back"), "and it is seen to lead nowhere"
        expect(page.locator("#back")).to_be_enabled()
        page.locator("#back").click()
        expect(page.locator("#next")).to_be_enabled()


@pytest.mark.parametrize("lesson", [LESSON, "turning-round"])
def test_what_an_option_is_chosen_with_covers_nothing_of_its_outline(lesson: str, browser: Browser) -> None:
    with opened(browser, deck_file(lesson), start=f"#s{slide_at(demo(lesson), 'pause') + 1}") as page:
        for width, height in (*PHONES, *DESKS):
            page.set_viewport_size({"width": width, "height": height})
            found = page.evaluate(COVERED)
            for _ in range(100):  # a loaded machine takes its time to lay the page out anew
                if all(shapes for shapes, _ in found):
                    break
                page.wait_for_timeout(50)
                found = page.evaluate(COVERED)
            assert len(found) >= 5 and all(shapes for shapes, _ in found), (width, height, found)
            assert [covered for _, covered in found] == [0] * len(found), (width, height, found)
