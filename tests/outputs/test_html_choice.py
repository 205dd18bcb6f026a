"""A question answered in a real browser: right, wrong and again, the solution asked for, the clock, the summary."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from outputs.carried_face import FACES, in_face
from outputs.html_pages import ITEMS, PHONE, deck_of, moments_of, open_data, opened, parts
from playwright.sync_api import Browser, Page, expect

from explainers.intake.workspace import load_solution
from explainers.item.model import Lesson, LessonPart, Manner
from explainers.lesson.planner import plan_lesson
from explainers.outputs.html.choice import choice_data, told_data
from explainers.storyboard.doing import Choice
from explainers.storyboard.pacing import pace

KEY, WRONG, OTHER = "C", "B", "D"  # of the corner block
REASON = "Option B has 9 corners."
HOLD = "Choose an option and check it, or ask for the solution."
PAUSE_S = 20


@pytest.fixture(scope="module")
def deck() -> Path:
    """The corner block for learners to try, then a question that is not solved, then a quick check."""
    asked = (("corner-block", Manner.YOUR_TURN), ("comet-block", Manner.QUESTION), ("gate-block", Manner.QUICK_CHECK))
    lesson = Lesson(
        name="try-it",
        title="Try <it>",
        parts=tuple(LessonPart(show=ITEMS / f"{name}.yaml", manner=manner, pause_s=PAUSE_S) for name, manner in asked),
    )
    return deck_of(pace(plan_lesson(lesson, [load_solution(part.show) for part in lesson.parts])))


@pytest.fixture(scope="module")
def slides(deck: Path) -> list[int]:
    """The numbers of the slides at which an option is chosen, counted from 1."""
    found = open_data(deck.read_text(encoding="utf-8"))["slides"]
    return [number for number, slide in enumerate(found, start=1) if choice_of(slide)]


def choice_of(slide: dict[str, Any]) -> dict[str, Any] | None:
    return next((moment["choice"] for moment in slide.get("moments", ()) if "choice" in moment), None)


Opened = Callable[..., Page]


@pytest.fixture
def at(browser: Browser, deck: Path, slides: list[int], tmp_path: Path) -> Iterator[Opened]:
    """Opens the deck at one of its questions."""
    windows = []

    def open_at(question: int = 0, face: str = "the carried face", **options: Any) -> Page:
        window = opened(browser, in_face(deck, face, tmp_path), start=f"#s{slides[question]}", **options)
        page = window.__enter__()
        windows.append(window)
        expect(page.locator(".choose-spot").first).to_be_visible()
        return page

    yield open_at
    for window in windows:
        window.__exit__(None, None, None)


def choose(page: Page, label: str) -> None:
    page.get_by_role("radio", name=f"Option {label}").check()
    page.get_by_role("button", name="Check my answer").click()


def press(page: Page, name: str) -> None:
    page.get_by_role("button", name=name, exact=True).click()


def place(page: Page) -> int:
    found = re.search(r"\d+", page.locator("#place").inner_text())
    assert found
    return int(found[0])


def no_faults(page: Page) -> None:
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()


def rings(page: Page) -> list[tuple[float, float]]:
    """The middles of the circles in the picture, which has none before a choice."""
    drawn: list[tuple[float, float]] = page.evaluate(
        """[...document.querySelectorAll('#picture > g:last-child')].map((g) => {
             const b = g.getBBox(); return [b.x + b.width / 2, b.y + b.height / 2]; })"""
    )
    return drawn


def test_a_wrong_choice_is_told_why_with_its_place_ringed_and_may_be_tried_again(
    at: Opened, deck: Path, slides: list[int]
) -> None:
    page = at()
    before = page.locator("#picture").get_attribute("aria-label")
    as_asked = page.locator("#picture").inner_html()
    choose(page, WRONG)
    title = page.get_by_role("heading", name=f"Not {WRONG}.")
    expect(title).to_be_focused()
    expect(page.locator(".choose-result")).to_contain_text(REASON)
    expect(page.locator("#live")).to_contain_text(REASON)
    assert page.locator("#picture").get_attribute("aria-label") == (
        f"{before} Option {WRONG} has a cross, and what is spoken of is marked on it."
    )
    assert page.locator("#picture").inner_html() != as_asked, "what is counted is marked"
    x, y, wide, high = open_data(deck.read_text(encoding="utf-8"))["slides"][slides[0] - 1]["moments"][1]["choice"][
        "options"
    ][1]["box"]
    marks = page.evaluate(
        """[...document.querySelectorAll('#picture > *')].slice(-10).map((g) => {
             const b = g.getBBox(); return [b.x + b.width / 2, b.y + b.height / 2]; })"""
    )
    assert len({tuple(mark) for mark in marks}) == 10, "a cross, and a dot a corner"
    assert all(x <= mark_x <= x + wide and y <= mark_y <= y + high for mark_x, mark_y in marks)
    no_faults(page)
    page.keyboard.press("ArrowRight")  # the solution stays closed
    assert place(page) == slides[0]
    expect(page.locator("#live")).to_have_text("Try again, or see the solution.")
    expect(page.locator("#hint")).to_have_text("Try again, or see the solution.")
    press(page, "Try again")
    tried = page.get_by_role("radio", name=f"Option {WRONG} tried, not this one")
    expect(tried).to_be_visible()
    expect(page.get_by_role("radio", name=re.compile("tried"))).to_have_count(1)
    expect(page.get_by_role("radio", checked=True)).to_have_count(0)
    no_faults(page)
    choose(page, KEY)
    expect(page.get_by_role("heading", name=f"Yes, {KEY}.")).to_be_focused()
    no_faults(page)
    press(page, "On to the solution")
    expect(page.locator("#place")).to_contain_text(f"Slide {slides[0] + 1} ")
    expect(page.locator("#heading")).to_be_focused()


def test_each_option_has_its_own_reason_and_none_tells_of_another(at: Opened) -> None:
    page = at()
    heard = set()
    for label in "ABDE":
        choose(page, label)
        words = page.locator(".choose-result").last.inner_text()
        assert f"Not {label}." in words
        assert not re.search(rf"[Oo]ption (?!{label})[A-E]", words)
        heard.add(words)
        press(page, "Try again")
    assert len(heard) == 4
    assert page.locator(".choose-result h2").all_inner_texts() == [f"✗Not {label}." for label in "ABDE"], "all stay"
    expect(page.get_by_role("radio", name=re.compile("tried"))).to_have_count(4)


def test_the_solution_stays_closed_until_there_is_an_answer_or_it_is_asked_for(at: Opened, slides: list[int]) -> None:
    page = at()
    for key in ("ArrowRight", "PageDown"):
        page.locator("#heading").focus()
        page.keyboard.press(key)
        assert place(page) == slides[0]
        expect(page.locator("#hint")).to_have_text(HOLD)
    press(page, "Check my answer")  # with nothing chosen
    expect(page.locator("#hint")).to_have_text("Choose an option first.")
    expect(page.locator("#hint")).to_be_in_viewport(ratio=1)
    expect(page.get_by_role("radio").first).to_be_focused()
    press(page, "Show the solution")
    sure = page.locator("#hint")
    expect(sure).to_contain_text("You have not checked an option yet.")
    expect(sure).to_be_in_viewport()
    expect(page.get_by_role("button", name="No, not yet")).to_be_focused()
    no_faults(page)
    press(page, "No, not yet")
    expect(page.locator("#hint")).to_be_hidden()
    expect(page.get_by_role("button", name="Show the solution")).to_be_focused()
    press(page, "Show the solution")
    press(page, "Yes, show the solution")
    expect(page.locator("#place")).to_contain_text(f"Slide {slides[0] + 1} ")
    press(page, "Back")
    expect(page.locator("#hint")).to_have_text("You asked for the solution.")
    press(page, "On to the solution")  # now it may be read again and again
    expect(page.locator("#place")).to_contain_text(f"Slide {slides[0] + 1} ")


def test_when_the_clock_has_run_down_nothing_happens(browser: Browser, deck: Path, slides: list[int]) -> None:
    with opened(browser, deck) as page:
        page.clock.install()
        page.goto(f"{deck.as_uri()}#s{slides[0]}")
        page.reload()
        clock = page.get_by_role("region", name="Clock")
        expect(clock).to_contain_text("Take as long as you like, or use the clock: it gives you 20 seconds.")
        page.clock.fast_forward(120_000)  # it does not run by itself
        expect(clock).to_contain_text("it gives you 20 seconds.")
        press(page, "Start the clock")
        expect(page.locator("#live")).to_have_text("About 20 seconds left.")
        page.clock.run_for(6_000)
        expect(clock).to_contain_text("About 20 seconds left.")
        page.clock.run_for(6_000)
        expect(clock).to_contain_text("A few seconds left.")
        expect(page.locator("#live")).to_have_text("About 20 seconds left.")  # the time is not read out as it runs
        expect(page.locator(".choose-patches .filled")).to_have_count(3)
        page.clock.run_for(9_000)
        up = "The time is up. Nothing happens: take as long as you still need."
        expect(clock).to_contain_text(up)
        expect(page.locator("#live")).to_have_text(up)
        page.clock.run_for(300_000)
        assert place(page) == slides[0]
        expect(page.locator(".choose-spot")).to_have_count(5)
        expect(page.locator("#list .closed").first).to_be_attached()
        page.keyboard.press("PageDown")
        assert place(page) == slides[0]
        choose(page, KEY)  # and an answer is still taken
        expect(page.get_by_role("heading", name=f"Yes, {KEY}.")).to_be_visible()


def test_the_clock_can_be_stopped_made_longer_and_turned_off(browser: Browser, deck: Path, slides: list[int]) -> None:
    with opened(browser, deck) as page:
        page.clock.install()
        page.goto(f"{deck.as_uri()}#s{slides[0]}")
        page.reload()
        clock = page.get_by_role("region", name="Clock")
        for _ in range(12):  # ten times the time and more
            press(page, "30 seconds more")
        expect(clock).to_contain_text("it gives you 6 minutes and 20 seconds.")
        press(page, "Start the clock")
        page.clock.run_for(60_000)
        expect(clock).to_contain_text("About 5 minutes and 20 seconds left.")
        press(page, "Stop the clock")
        page.clock.run_for(600_000)
        expect(clock).to_contain_text("The clock stands still. About 5 minutes and 20 seconds left.")
        press(page, "Start the clock")
        page.clock.run_for(330_000)
        expect(clock).to_contain_text("The time is up.")
        press(page, "30 seconds more")  # when it has run down, too
        page.clock.run_for(5_000)
        expect(clock).to_contain_text("About 30 seconds left.")
        press(page, "No clock")
        expect(page.get_by_role("button", name="Use the clock")).to_be_focused()
        expect(clock).to_contain_text("The clock is off. Take as long as you like.")
        expect(page.locator(".choose-patches")).to_be_hidden()
        no_faults(page)
        page.goto(f"{deck.as_uri()}#s{slides[1]}")
        expect(clock).to_contain_text("The clock is off.")  # and it stays so


def test_by_keyboard_alone_from_the_question_to_the_solution(at: Opened, slides: list[int]) -> None:
    page = at()
    keys = page.keyboard

    def tab_to(name: str) -> None:
        for _ in range(40):
            keys.press("Tab")
            if (
                page.evaluate("(document.activeElement.closest('label') || document.activeElement).textContent.trim()")
                == name
            ):
                return
        raise AssertionError(f"{name} cannot be reached by Tab")

    page.locator("#heading").focus()
    tab_to("Option A")
    keys.press("ArrowDown")  # chooses the next of the group, and turns no slide
    expect(page.get_by_role("radio", name=f"Option {WRONG}")).to_be_checked()
    keys.press("Enter")
    expect(page.get_by_role("heading", name=f"Not {WRONG}.")).to_be_focused()
    tab_to("Try again")
    keys.press("Enter")
    expect(page.get_by_role("radio", name="Option A")).to_be_focused()
    keys.press("Space")
    for _ in range(2):
        keys.press("ArrowRight")
    expect(page.get_by_role("radio", name=f"Option {KEY}")).to_be_checked()
    assert place(page) == slides[0]
    tab_to("Check my answer")
    keys.press("Space")
    expect(page.get_by_role("heading", name=f"Yes, {KEY}.")).to_be_focused()
    tab_to("On to the solution")
    keys.press("Enter")
    expect(page.locator("#place")).to_contain_text(f"Slide {slides[0] + 1} ")


@pytest.mark.parametrize("face", FACES)
def test_by_touch_on_a_phone(face: str, at: Opened, slides: list[int]) -> None:
    page = at(face=face, viewport=PHONE, has_touch=True, is_mobile=True)
    spot = page.locator(".choose-spot").nth(1)
    size = spot.bounding_box()
    assert size is not None and min(size["width"], size["height"]) > 60
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    spot.tap()
    page.get_by_role("button", name="Check my answer").tap()
    expect(page.get_by_role("heading", name=f"Not {WRONG}.")).to_be_in_viewport()
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    page.get_by_role("button", name="See the solution").tap()
    expect(page.locator("#place")).to_contain_text(f"Slide {slides[0] + 1} ")


@pytest.mark.parametrize("palette", ["light", "dark", "contrast"])
def test_nothing_is_amiss_in_any_colours(at: Opened, palette: str) -> None:
    page = at()
    page.evaluate(f"document.documentElement.dataset.palette = '{palette}'")
    no_faults(page)
    choose(page, WRONG)
    no_faults(page)


@pytest.mark.parametrize("face", FACES)
def test_it_works_while_things_may_move_and_at_four_times_the_size(face: str, at: Opened) -> None:
    page = at(face=face, still=False, viewport={"width": 320, "height": 256})
    choose(page, KEY)
    expect(page.get_by_role("heading", name=f"Yes, {KEY}.")).to_be_visible()
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")


def test_the_options_are_a_group_with_a_name_for_a_screen_reader(at: Opened) -> None:
    page = at()
    expect(page.locator("#over")).to_match_aria_snapshot(
        """
        - group "Which option do you choose?":
          - radio "Option A"
          - radio "Option B"
          - radio "Option C"
          - radio "Option D"
          - radio "Option E"
        """
    )
    expect(page.locator("#later")).to_match_aria_snapshot(
        """
        - region "Clock":
          - paragraph
          - button "Start the clock"
          - button "30 seconds more"
          - button "No clock"
        """
    )


def test_a_question_without_its_solution_notes_the_answer(at: Opened, slides: list[int]) -> None:
    page = at(1)
    expect(page.get_by_role("button", name="Show the solution")).to_have_count(0)
    page.get_by_role("radio", name="Option E").check()
    press(page, "Note my answer")
    expect(page.get_by_role("heading", name="Option E is noted.")).to_be_focused()
    no_faults(page)
    press(page, "Choose again")
    expect(page.get_by_role("radio", name=re.compile("tried"))).to_have_count(0)
    press(page, "Next")  # nobody is held back: there is nothing to give away
    expect(page.locator("#said")).to_contain_text("Tell someone, and say why.")
    press(page, "Next")
    assert place(page) == slides[1] + 1


def test_a_quick_check_is_answered_beside_its_outline(at: Opened, slides: list[int]) -> None:
    page = at(2)
    choose(page, "D")
    expect(page.get_by_role("heading", name="Yes, D.")).to_be_visible()
    page.keyboard.press("PageDown")  # after the right answer the way is free
    expect(page.locator("#place")).to_contain_text(f"Slide {slides[2] + 1} ")


def test_the_summary_tells_what_was_chosen_and_is_copied_or_forgotten(at: Opened, slides: list[int]) -> None:
    page = at(permissions=["clipboard-read", "clipboard-write"])
    choose(page, WRONG)
    press(page, "Try again")
    choose(page, KEY)
    press(page, "On to the solution")
    page.evaluate(f"location.hash = 's{slides[1]}'")
    page.get_by_role("radio", name="Option A").check()
    press(page, "Note my answer")
    expect(page.get_by_role("heading", name="Option A is noted.")).to_be_visible()
    page.evaluate(f"location.hash = 's{slides[2]}'")
    choose(page, "A")
    press(page, "See the solution")
    press(page, "Menu")
    press(page, "My answers")
    dialog = page.get_by_role("dialog", name="My answers")
    told = dialog.inner_text()
    first, second, third = (part.splitlines() for part in re.split(r"\n(?=The \w+ block)", told)[1:])
    assert first[0] == "The corner block: your turn"
    assert f"Chosen: {WRONG}, {KEY}." in first and f"{KEY} is right." in first
    assert "Time: about 5 seconds." in first
    assert "Chosen: A." in second and not any("right" in line for line in second)
    assert "Chosen: A." in third and "The right one was not chosen." in third and "The solution was asked for." in third
    no_faults(page)
    press(page, "Copy for the teacher")
    expect(dialog).to_contain_text("Copied.")
    copied = page.evaluate("navigator.clipboard.readText()")
    assert copied.startswith("Try <it>\n\nThe corner block: your turn\nChosen: B, C.\nC is right.\n")
    page.reload()  # kept while the window is open
    press(page, "Menu")
    press(page, "My answers")
    press(page, "Forget my answers")
    expect(dialog).to_contain_text("You have not answered a question yet.")
    expect(dialog).to_contain_text("Your answers are forgotten.")
    press(page, "Close")
    assert "picks" not in page.evaluate("JSON.stringify({...sessionStorage})")


def test_answers_outlast_a_browser_that_loses_the_storage_of_a_file(at: Opened) -> None:
    page = at()
    choose(page, WRONG)
    expect(page.get_by_role("heading", name=f"Not {WRONG}.")).to_be_visible()
    for _ in range(400):
        if WRONG in page.evaluate("JSON.stringify(Object.values(history.state || {}))"):
            break
        page.wait_for_timeout(25)
    page.evaluate("sessionStorage.clear()")
    page.reload()
    expect(page.locator(".choose-spot.tried")).to_contain_text(f"Option {WRONG}")


def test_where_there_is_no_clipboard_the_text_is_there_to_be_copied_by_hand(at: Opened) -> None:
    page = at()
    page.evaluate("Object.defineProperty(navigator, 'clipboard', {value: undefined})")
    choose(page, KEY)
    press(page, "Menu")
    press(page, "My answers")
    press(page, "Copy for the teacher")
    text = page.get_by_role("textbox", name="Your answers as text")
    expect(text).to_be_focused()
    assert page.evaluate("document.activeElement.selectionEnd - document.activeElement.selectionStart") > 30
    assert text.input_value().startswith("Try <it>\n\nThe corner block: your turn\nChosen: C.\n")
    no_faults(page)


def test_the_last_slide_shows_the_answers_too(at: Opened, deck: Path) -> None:
    page = at()
    choose(page, KEY)
    expect(page.get_by_role("heading", name=f"Yes, {KEY}.")).to_be_visible()
    last = len(open_data(deck.read_text(encoding="utf-8"))["slides"])
    page.evaluate(f"location.hash = 's{last}'")
    expect(page.get_by_role("region", name="My answers")).to_contain_text("Chosen: C.")
    expect(page.get_by_role("textbox")).to_have_count(0)
    no_faults(page)


def test_nothing_that_can_be_read_in_the_page_tells_the_answer(deck: Path) -> None:
    text = deck.read_text(encoding="utf-8")
    data = open_data(text)
    readable = re.sub(r'<script type="text/plain"[^>]*>[^<]*</script>', "", text)
    for part in parts(text).values():
        for told in part.get("told", []):
            for sentence in told["said"]:
                assert sentence not in readable
    assert '"right":' not in readable and "has a tick" not in readable and "has a cross" not in readable
    for slide in data["slides"]:
        choice = choice_of(slide)
        if choice is None:
            continue
        assert [option["label"] for option in choice["options"]] == list("ABCDEF")[: len(choice["options"])]
        assert {tuple(option) for option in choice["options"]} == {("label", "box")}
        assert len({tuple(round(side, 1) for side in option["box"][2:]) for option in choice["options"]}) == 1
    moments = moments_of(data["slides"])
    known = {figure for moment in moments for figure in (moment.get("figure"), moment.get("before"))}
    assert len(data["figures"]) <= len(known) + sum(len(moment.get("motions", [])) * 2 for moment in moments)


def test_the_open_part_is_the_same_whichever_option_is_right() -> None:
    part = LessonPart(show=ITEMS / "corner-block.yaml", manner=Manner.YOUR_TURN)
    board = plan_lesson(Lesson(name="one", title="One", parts=(part,)), [load_solution(part.show)])
    (choice,) = (step.choice for step in board.steps if step.choice is not None)
    swapped = Choice(options=tuple(replace(option, right=option.label == OTHER) for option in choice.options))
    assert choice_data(choice, 1) == choice_data(swapped, 1)
    assert [told["label"] for told in told_data(choice, lambda _: 7) if told["right"]] == [KEY]
    assert {told["figure"] for told in told_data(choice, lambda _: 7)} == {7}
