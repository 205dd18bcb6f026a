"""What lies loose in a question is moved by hand, by keys and by touch; the hand that shows how; keys and the panel."""

from __future__ import annotations

import re
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from outputs.html_pages import PHONE, deck_file, demo, open_data, opened, slide_at
from playwright.sync_api import Browser, Page, expect


def question() -> int:
    return slide_at(demo("first-blocks"), "pause")


def laid() -> int:
    return slide_at(demo("first-blocks"), "marks")


def loose_of(lesson: str, slide: int) -> list[dict[str, Any]]:
    data = open_data(deck_file(lesson).read_text(encoding="utf-8"))
    found: list[dict[str, Any]] = data["slides"][slide]["moments"][-1]["loose"]
    return found


def transform(page: Page, group: int) -> str | None:
    return page.locator(f'#picture > [data-group="{group}"]').first.get_attribute("transform")


def middle(page: Page, number: int = 0) -> tuple[float, float]:
    box = page.locator(".handle-hold").nth(number).bounding_box()
    assert box is not None
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def place(page: Page) -> str:
    return page.locator("#place").text_content() or ""


def test_pieces_of_a_question_are_moved_freely_and_nothing_is_said_of_where_they_lie(browser: Browser) -> None:
    tip, dart = loose_of("first-blocks", question())
    with opened(browser, deck_file("first-blocks"), start=f"#s{question() + 1}") as page:
        expect(page.locator(".handle-layer")).to_have_count(2)
        was = [transform(page, piece["group"]) for piece in (tip, dart)]
        x, y = middle(page)
        page.mouse.move(x, y)
        page.mouse.down()
        page.mouse.move(x - 180, y + 10, steps=4)
        page.mouse.up()
        assert abs(middle(page)[0] - (x - 180)) < 2
        assert transform(page, dart["group"]) == was[1] and transform(page, tip["group"]) != was[0]
        assert page.locator("#live").text_content() == ""
        grip = page.locator(".handle-layer.chosen .handle-grip circle").bounding_box()
        assert grip is not None
        page.mouse.move(grip["x"] + grip["width"] / 2, grip["y"] + grip["height"] / 2)
        page.mouse.down()
        page.mouse.move(*(part + 60 for part in middle(page)), steps=6)
        page.mouse.up()
        assert not re.search(r"rotate\(0\)", transform(page, tip["group"]) or "")
        assert page.locator("#live").text_content() == ""
        page.mouse.move(*middle(page))  # far below, there are the options: it stays above them
        page.mouse.down()
        page.mouse.move(middle(page)[0], 640, steps=4)
        page.mouse.up()
        below = page.locator(".choose-spot").first.bounding_box()
        assert below is not None and middle(page)[1] < below["y"]
        left = transform(page, tip["group"])
        page.locator("#back").click()
        page.locator("#next").click()
        assert transform(page, tip["group"]) == left, "and there it lies when one comes back"
        page.get_by_role("radio", name="Option A").check()  # it is no answer: that is chosen as ever
        expect(page.locator("#next")).to_have_text("Check my answer")


def test_pieces_are_moved_by_keys_once_the_panel_says_so_and_turn_no_slide(browser: Browser) -> None:
    tip, dart = loose_of("first-blocks", question())
    with opened(browser, deck_file("first-blocks"), start=f"#s{question() + 1}") as page:
        here = place(page)
        was = [transform(page, piece["group"]) for piece in (tip, dart)]
        page.keyboard.press("ArrowUp")
        page.keyboard.press("r")
        assert [transform(page, piece["group"]) for piece in (tip, dart)] == was, "the panel is closed"
        page.locator(".loose-tools summary").click()
        page.get_by_role("button", name="dart", exact=True).click()
        for focused in ("#heading", "#menu", ".loose-tools summary"):
            before = transform(page, dart["group"])
            page.locator(focused).focus()
            page.keyboard.press("ArrowLeft")
            assert transform(page, dart["group"]) != before and place(page) == here
        expect(page.locator("#live")).to_have_text("Moved left.")
        page.keyboard.press("r")
        expect(page.locator("#live")).to_have_text("Turned 15 degrees clockwise.")
        assert Axe().run(page).response["violations"] == []
        page.get_by_role("button", name="Put back").click()
        expect(page.locator("#live")).to_have_text("All are back where they were.")
        assert transform(page, tip["group"]) == was[0] and transform(page, dart["group"]) == was[1]


def test_an_outline_is_turned_by_hand_beside_its_options(browser: Browser) -> None:
    slide = slide_at(demo("turning-round"), "pause")
    (outline,) = loose_of("turning-round", slide)
    with opened(browser, deck_file("turning-round"), start=f"#s{slide + 1}") as page:
        page.locator(".loose-tools summary").click()
        for _ in range(3):
            page.keyboard.press("l")
        assert "rotate(-45)" in (transform(page, outline["group"]) or "")
        assert Axe().run(page).response["violations"] == []


def test_on_a_phone_a_piece_is_slid_from_one_panel_to_the_other(browser: Browser) -> None:
    with opened(
        browser, deck_file("first-blocks"), start=f"#s{question() + 1}", viewport=PHONE, has_touch=True, is_mobile=True
    ) as page:
        x, y = middle(page)
        touches = page.context.new_cdp_session(page)
        for kind, places in (("touchStart", [(x, y)]), ("touchMove", [(x, y - 60)]), ("touchMove", [(x, y - 120)])):
            points = [{"x": px, "y": py} for px, py in places]
            touches.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})
        touches.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
        assert abs(middle(page)[1] - (y - 120)) < 3
        assert page.evaluate("scrollY") == 0


@pytest.mark.parametrize("focused", ["#heading", "#next", "#told summary", ".handle-row input", ".handle-show"])
def test_keys_move_the_piece_wherever_the_focus_is_and_never_leave_the_slide(focused: str, browser: Browser) -> None:
    with opened(browser, deck_file("first-blocks"), start=f"#s{laid() + 1}") as page:
        expect(page.locator(".handle-by-keys")).to_be_visible()
        cloth = page.locator("#picture > .handle-touch").first
        here = place(page)
        page.locator(focused).focus()
        for key in ("ArrowLeft", "ArrowRight", "ArrowDown", "R"):
            before = cloth.get_attribute("transform")
            page.keyboard.press(key)
            assert cloth.get_attribute("transform") != before, key
        assert place(page) == here and page.locator("#heading").text_content() == "Find the leaves"
        page.keyboard.press("PageUp")
        assert place(page) != here, "and these leave it, as the panel says"


def test_whoever_has_laid_the_piece_does_not_see_it_laid_again(browser: Browser) -> None:
    with opened(browser, deck_file("corner-block"), start="#s3") as page:
        page.get_by_role("button", name="Show me").click()
        expect(page.locator(".handle-said")).to_have_attribute("data-state", "met")
        page.locator("#menu").click()
        page.locator("#calm").uncheck()  # from here on things move; the slide is told anew
        page.locator("#close").click()
        page.evaluate(
            """() => { window.told = [];
              const heading = document.getElementById("heading");
              new MutationObserver(() => told.push(heading.textContent)).observe(heading, { childList: true }); }"""
        )
        page.locator("#next").click()
        expect(page.locator("#heading")).to_have_text("Join the flag")
        expect(page.locator("#said")).to_contain_text("Turn it anticlockwise until the marked side is upright.")
        assert "Turn the flag" not in page.evaluate("told.slice(1)")
        page.wait_for_timeout(300)
        assert "Turn the flag" not in page.evaluate("told.slice(1)")


def test_a_hand_shows_once_how_it_is_done(browser: Browser) -> None:
    with opened(browser, deck_file("corner-block"), start="#s2", still=False) as page:
        page.clock.install()
        page.reload()
        guide = page.locator(".guide-hand")
        expect(guide).to_be_attached()
        seen = set()
        for _ in range(60):
            page.clock.run_for(100)
            seen.add(page.evaluate("document.querySelector('.guide-hand')?.getAttribute('transform')"))
            if None in seen:
                break
        assert len(seen) > 6, "it moves"
        expect(guide).to_have_count(0)
        page.keyboard.press("PageUp")
        page.keyboard.press("PageDown")
        page.clock.run_for(1000)
        assert guide.count() == 0, "the first time only"


def test_where_nothing_shall_move_the_hand_stands_still_until_something_is_done(browser: Browser) -> None:
    with opened(browser, deck_file("corner-block"), start="#s2") as page:
        guide = page.locator(".guide-hand")
        expect(guide).to_be_attached()
        before = guide.get_attribute("transform")
        page.wait_for_timeout(700)
        assert guide.get_attribute("transform") == before
        page.mouse.click(*middle(page))
        expect(guide).to_have_count(0)


def test_by_finger_comes_first_where_there_is_one(browser: Browser) -> None:
    with opened(
        browser, deck_file("first-blocks"), start=f"#s{laid() + 1}", viewport=PHONE, has_touch=True, is_mobile=True
    ) as page:
        expect(page.locator(".handle-by-finger")).to_be_visible()
        expect(page.locator(".handle-by-keys")).to_be_hidden()
        expect(page.locator(".handle-by-mouse")).to_be_hidden()
