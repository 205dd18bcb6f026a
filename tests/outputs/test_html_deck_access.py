"""The deck for those who listen to it or look at it otherwise: axe-core on its slides, its questions read as text."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from oracles.alt_parser import rings_drawn_from
from outputs.html_pages import DESKTOP, PHONE, deck_file, demo, opened, slide_at, slides_told
from outputs.test_nothing_given_away import TELLING_WORDS
from playwright.sync_api import Browser, Page

from explainers.figure.model import Label
from explainers.figure.subject import Thing
from explainers.sentences.deck_page import deck_words
from explainers.storyboard.model import Step

PALETTES = ("light", "dark", "contrast")
LESSON = "first-blocks"


def told_slides() -> list[list[Step]]:
    return slides_told(demo(LESSON))


def pause() -> int:
    return slide_at(demo(LESSON), "pause")


def violations(page: Page) -> list[str]:
    """What axe-core finds, a line each: the rule, the first place, what is wrong with it."""
    found = Axe().run(page).response["violations"]
    return [
        f"{each['id']}: {each['nodes'][0]['html'][:200]} {each['nodes'][0].get('failureSummary')}" for each in found
    ]


def wear(page: Page, palette: str) -> None:
    page.evaluate(f"document.documentElement.dataset.palette = '{palette}'")


def go(page: Page, number: int) -> None:
    """To a slide, counted from 0; from there on its solution is open."""
    page.locator(f"#list [data-index='{number}'] button").dispatch_event("click")


def reachable(page: Page) -> list[int]:
    return [int(n) for n in page.locator("#list li:has(button)").evaluate_all("all => all.map(li => li.dataset.index)")]


def reveal_all(page: Page) -> None:
    """Open the solution of every question."""
    while page.locator("#list .closed").count():
        number = page.locator("#list li:has(.closed)").first.get_attribute("data-index")
        go(page, int(number or 0) - 1)  # the question is the slide before its solution
        page.get_by_role("button", name="Show the solution").click()
        page.get_by_role("button", name="Yes, show the solution").click()
        page.locator(f"#list [data-index='{number}'] button").wait_for(state="attached")


@pytest.mark.parametrize("palette", PALETTES)
def test_axe_finds_nothing_on_any_slide(palette: str, browser: Browser, cases: Callable[[int, int], int]) -> None:
    """Each kind of slide in each palette, one lesson whole in one palette; with --full every slide of three lessons."""
    lessons = cases(1, 3)
    for lesson in (LESSON, "cutting-out", "looking-closely")[:lessons]:
        with opened(browser, deck_file(lesson), viewport=PHONE if palette == "dark" else DESKTOP) as page:
            wear(page, palette)
            if cases(0, 1):
                reveal_all(page)
            slides = reachable(page)
            few = [0, 1, 2, 4, pause()] if palette == "light" else [1, 2, pause()]
            for number in slides if cases(0, 1) else few:
                go(page, number)
                assert violations(page) == [], (lesson, number)
            page.locator("#menu").click()
            assert violations(page) == [], "the menu"


def test_axe_finds_nothing_from_the_question_to_the_solution(browser: Browser) -> None:
    with opened(browser, deck_file(LESSON)) as page:
        go(page, pause())
        page.get_by_role("radio").first.check()
        page.get_by_role("button", name="Check my answer").click()
        page.get_by_role("heading", level=2).first.wait_for()
        assert violations(page) == [], "a choice"
        page.get_by_role("button", name="See the solution").click()
        page.locator("#list .closed").first.wait_for(state="detached")
        for number in (pause() + 1, pause() + 4, len(told_slides()) - 1):
            go(page, number)
            assert violations(page) == [], number


PLAIN = ("paragraph", "generic", "main", "none")  # whose text is read as it stands


def read_aloud(page: Page) -> list[str]:
    """The accessibility tree in reading order: what each thing is, and its name."""
    session = page.context.new_cdp_session(page)
    nodes: list[dict[str, Any]] = session.send("Accessibility.getFullAXTree")["nodes"]
    by_id = {node["nodeId"]: node for node in nodes}
    lines: list[str] = []

    def read(node: dict[str, Any]) -> None:
        role, name = node["role"]["value"], node.get("name", {}).get("value", "").strip()
        if not node.get("ignored") and role not in ("StaticText", "InlineTextBox", "LabelText", "Legend") and name:
            lines.append(f"{role}: {name}")
        elif role == "StaticText" and by_id[node["parentId"]]["role"]["value"] in PLAIN:
            lines.append(name)
        for child in node.get("childIds", []):
            if child in by_id:
                read(by_id[child])

    read(nodes[0])
    return lines


def test_a_question_read_aloud_is_enough_to_answer_it_and_does_not_answer_it(browser: Browser) -> None:
    """Looked at once by eye, and held."""
    with opened(browser, deck_file(LESSON)) as page:
        go(page, pause())
        # The words of a label stand beside the name that they give.
        asked = [line for line in read_aloud(page) if not re.fullmatch(r"Option [A-E]", line)]
    step = told_slides()[pause()][0]
    words = deck_words()
    assert asked == [
        "RootWebArea: Your turn – Joining and cutting blocks",
        "Joining and cutting blocks",
        "The border block: your turn",
        "heading: Your turn",
        f"image: {step.picture.alt}",
        "group: Which option do you choose?",
        *(f"radio: Option {label}" for label in "ABCDE"),
        "First, join the tip to the base where the leaves meet.",
        "Then cut the dart away where the buttons meet.",
        "Pieces and options may turn, but never flip.",
        "Which option shows the finished outline, drawn smaller?",
        "Your turn: choose one, and say why.",
        "Take about 30 seconds.",
        f"DisclosureTriangle: {words['handle.loose']}",
        "region: Clock",
        "Take as long as you like, or use the clock: it gives you 30 seconds.",
        "button: Start the clock",
        "button: 30 seconds more",
        "button: No clock",
        "DisclosureTriangle: The picture in words",
        "navigation: Slides",
        "button: Menu",
        f"Slide {pause() + 1} of {len(told_slides())}",
        "button: Show the solution",
        "button: Back",
        "button: Check my answer",
    ]


@pytest.mark.parametrize("lesson", [LESSON, "looking-closely"])
def test_every_question_is_told_whole_and_its_answer_is_not(lesson: str, browser: Browser) -> None:
    slides = slides_told(demo(lesson))
    asked = [number for number, slide in enumerate(slides) if slide[0].stage == "task"]
    with opened(browser, deck_file(lesson)) as page:
        for number in asked:
            go(page, number)
            (picture,) = [line for line in read_aloud(page) if line.startswith("image: ")]
            labels = {
                e.text
                for e in slides[number][0].picture.entries
                if isinstance(e, Label) and e.subject is not None and e.subject.thing == Thing.OPTION
            }
            assert len(rings_drawn_from(picture)) >= len(labels) + 1 >= 4
            assert all(f"Option {label}. " in picture for label in labels)
            for line in read_aloud(page):
                assert not TELLING_WORDS.search(line.replace("Choose one option", "")), line


def test_the_picture_can_be_read_sentence_by_sentence(browser: Browser) -> None:
    with opened(browser, deck_file(LESSON), start="#s2") as page:
        page.get_by_text(deck_words()["in_words"]).click()
        said = page.locator("#in-words p").all_text_contents()
        assert " ".join(said) == demo(LESSON).storyboard.steps[1].picture.alt and len(said) > 10


def test_forced_colours_leave_everything_visible(browser: Browser) -> None:
    with opened(browser, deck_file(LESSON), start="#s6", forced_colors="active") as page:
        assert violations(page) == []
        chosen, other = page.locator("#views button").all()
        backgrounds = [button.evaluate("one => getComputedStyle(one).backgroundColor") for button in (chosen, other)]
        assert backgrounds[0] != backgrounds[1]
