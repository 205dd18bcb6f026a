"""A piece laid by hand in a real browser: by dragging, by keys alone, by buttons alone, by touch; and what is said."""

from __future__ import annotations

import json
import math
import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, BrowserContext, Locator, Page, expect

from explainers.figure.motion import eased
from explainers.intake.workspace import load_solution
from explainers.lesson.planner import plan_item
from explainers.outputs.html.deck import write_html_deck
from explainers.storyboard.doing import Handling
from explainers.storyboard.pacing import pace

ITEM = Path(__file__).parents[2] / "items" / "corner-block.yaml"
MET = "The leaves meet. They lie side by side, ready to be joined."


@dataclass(frozen=True)
class Made:
    """The deck of the corner block, and its one piece that can be laid."""

    path: Path
    number: int  # of the slide, counted from 1
    handling: Handling
    data: dict[str, Any]  # the same, as the page has it

    @property
    def kept(self) -> str:
        """Where the page keeps what it remembers."""
        return f"deck corner-block {self.count}"

    count: int
    layout: dict[str, Any]  # of the moment in which it is laid


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Made:
    board = plan_item(load_solution(ITEM))
    path = write_html_deck(pace(board), tmp_path_factory.mktemp("deck"))
    text = path.read_text(encoding="utf-8")
    found = re.search(r'<script type="application/json" id="open">(.*?)</script>', text, re.DOTALL)
    assert found is not None
    slides = json.loads(found[1])["slides"]
    (handling,) = (step.handling for step in board.steps if step.handling is not None)
    ((number, data),) = (
        (i, moment) for i, slide in enumerate(slides) for moment in slide["moments"] if "handling" in moment
    )
    return Made(
        path=path,
        number=number + 1,
        handling=handling,
        data=data["handling"],
        count=len(slides),
        layout=slides[number]["layouts"][data["layout"]],
    )


def opened(context: BrowserContext, made: Made, at: tuple[float, float, float] | None = None) -> Page:
    """The slide with the piece; x, y and turn to have it lie somewhere already."""
    if at is not None:
        x, y, turn = at
        piece = {"x": x, "y": y, "turn": turn, "done": "", "stacked": False}
        kept = {"handled": {f"s{made.number}": piece}, "handShown": True}
        script = f"sessionStorage.setItem({json.dumps(made.kept)}, {json.dumps(json.dumps(kept))})"
        context.add_init_script(f"if (location.protocol === 'file:' && sessionStorage.length === 0) {script}")
    page = context.new_page()
    page.clock.install()
    page.goto(f"{made.path.as_uri()}#s{made.number}")
    for _ in range(100):  # what moves on the slide before the piece can be laid need not be waited for
        if page.locator(".handle-layer").count():
            break
        page.clock.fast_forward(1000)
    expect(page.locator(".handle-layer")).to_be_attached()
    return page


@pytest.fixture
def calm(browser: Browser) -> Iterator[BrowserContext]:
    """Where nothing moves by itself, so that a test need not wait."""
    yield from watched(browser.new_context(viewport={"width": 1280, "height": 720}, reduced_motion="reduce"))


@pytest.fixture
def lively(browser: Browser) -> Iterator[BrowserContext]:
    yield from watched(browser.new_context(viewport={"width": 1280, "height": 720}))


@pytest.fixture
def phone(browser: Browser) -> Iterator[BrowserContext]:
    size = {"width": 390, "height": 844}
    yield from watched(
        browser.new_context(
            viewport=size, has_touch=True, is_mobile=True, device_scale_factor=2, reduced_motion="reduce"
        )  # type: ignore[arg-type]
    )


def watched(context: BrowserContext) -> Iterator[BrowserContext]:
    wrong: list[str] = []
    context.on("weberror", lambda error: wrong.append(str(error.error)))
    context.on("console", lambda said: wrong.append(said.text) if said.type in ("error", "warning") else None)
    context.on("request", lambda sent: wrong.append(sent.url) if not sent.url.startswith("file:") else None)
    yield context
    context.close()
    assert not wrong


def pose(page: Page, made: Made) -> tuple[float, float, float]:
    """Where the piece's middle is drawn, and how far the piece is turned, clockwise."""
    cloth = page.locator(f'#picture > [data-group="{made.data["group"]}"]').first
    found = re.fullmatch(
        r"translate\((\S+) (\S+)\) rotate\((\S+)\) translate\(\S+ \S+\)", cloth.get_attribute("transform") or ""
    )
    assert found is not None
    x, y, turn = (float(part) for part in found.groups())
    return x, y, turn


def lies_at(page: Page, made: Made, goal: tuple[float, float, float]) -> bool:
    x, y, turn = pose(page, made)
    return math.dist((x, y), goal[:2]) < 0.02 and abs(math.remainder(turn - goal[2], 360.0)) < 0.02


def meeting(made: Made) -> tuple[float, float, float]:
    return (*made.data["meeting"]["at"], made.data["meeting"]["turn"])


def said(page: Page) -> Locator:
    return page.locator(".handle-said")


def live(page: Page) -> Locator:
    return page.locator("#live")


def on_screen(page: Page, x: float, y: float) -> tuple[float, float]:
    """A place of the picture in the window."""
    found = page.evaluate(
        "([x, y]) => { const { a, d, e, f } = document.getElementById('picture').getScreenCTM();"
        " return [a * x + e, d * y + f]; }",
        [x, y],
    )
    return found[0], found[1]


def middle_of(place: Locator) -> tuple[float, float]:
    box = place.bounding_box()
    assert box is not None
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def shifted(made: Made, x: float, y: float) -> tuple[float, float]:
    """Where a place of the stage comes to stand once the panels are stacked."""
    for left, top, right, bottom, across, down in made.layout["regions"]:
        if left <= x <= right and top <= y <= bottom:
            return x + across, y + down
    raise AssertionError((x, y))


def letters(page: Page, made: Made) -> list[str]:
    """How the group's letters are moved."""
    shapes = page.locator(f'#picture > [data-group="{made.data["group"]}"]')
    return [shapes.nth(number).get_attribute("transform") or "" for number, _, _ in made.data["letters"]]


def test_a_piece_is_turned_and_brought_to_meet_by_dragging(lively: BrowserContext, made: Made) -> None:
    page = opened(lively, made)
    x, y, turn = meeting(made)
    about = made.data["about"]
    grip = page.locator(".handle-grip circle")
    start = middle_of(grip)
    pivot = on_screen(page, *about)
    away, first = math.dist(start, pivot), math.atan2(start[1] - pivot[1], start[0] - pivot[0])
    page.mouse.move(*start)
    page.mouse.down()
    for part in range(1, 10):
        angle = first + math.radians(turn + 3.0) * part / 9  # not quite where it must come to
        page.mouse.move(pivot[0] + away * math.cos(angle), pivot[1] + away * math.sin(angle))
    page.mouse.up()
    turned = pose(page, made)
    assert math.dist(turned[:2], about) < 0.02
    assert abs(turned[2] - turn - 3.0) < 1.0
    expect(said(page)).to_have_text("The turn is nearly right. Now slide the piece.")
    goal = on_screen(page, x + 0.6 * made.data["near"], y)
    page.mouse.move(*pivot)
    page.mouse.down()
    page.mouse.move((pivot[0] + goal[0]) / 2, goal[1] - 40, steps=3)
    page.mouse.move(*goal, steps=3)
    assert not lies_at(page, made, meeting(made)), "it snaps when it is let go of, not before"
    page.mouse.up()
    expect(said(page)).to_have_text(MET)
    expect(live(page)).to_have_text(MET)
    expect(page.locator(".handle-layer")).to_have_class(re.compile(r"\bmet\b"))
    page.wait_for_timeout(350)
    assert lies_at(page, made, meeting(made))
    assert made.data["letters"] and all(re.fullmatch(r"translate\(\S+ \S+\)", moved) for moved in letters(page, made))


def test_a_piece_is_brought_to_meet_by_keys_alone(calm: BrowserContext, made: Made) -> None:
    page = opened(calm, made)
    x, y, turn = meeting(made)
    about, (small, large) = made.data["about"], made.data["moves"]
    page.keyboard.press("r")
    expect(live(page)).to_have_text("Turned 15 degrees clockwise. The marks do not meet yet.")
    page.keyboard.press("]")
    expect(live(page)).to_have_text("Turned 15 degrees clockwise.")
    page.keyboard.press("Shift+L")
    expect(live(page)).to_have_text("Turned 1 degree anticlockwise.")
    page.keyboard.press("Shift+R")
    for _ in range(round(turn / -15.0) + 2):
        page.keyboard.press("l")
    expect(live(page)).to_have_text("Turned 15 degrees anticlockwise. The turn is right. Now slide the piece.")
    page.keyboard.press("ArrowUp")
    expect(live(page)).to_have_text("Moved up.")
    expect(page.locator("#heading")).to_have_text("Find the leaves")  # no key has turned the slide
    go_by_keys(page, (x - about[0], y - about[1] + small), small, large)
    expect(live(page)).to_have_text(re.compile(rf"^Moved \w+\. {MET}$"))
    assert lies_at(page, made, meeting(made))
    page.keyboard.press("ArrowLeft")
    expect(live(page)).to_have_text("To try again, put the piece back.")
    assert lies_at(page, made, meeting(made))


def go_by_keys(page: Page, way: tuple[float, float], small: float, large: float) -> None:
    """Large steps as far as they go, then small ones, until the marks meet."""
    for length, (back, forth) in zip(way, (("ArrowLeft", "ArrowRight"), ("ArrowUp", "ArrowDown")), strict=True):
        key = forth if length > 0 else back
        steps, rest = divmod(abs(length), large)
        for each in [f"Shift+{key}"] * int(steps) + [key] * round(rest / small):
            if not is_met(page):
                page.keyboard.press(each)


def is_met(page: Page) -> bool:
    return said(page).get_attribute("data-state") == "met"


def test_a_piece_is_brought_to_meet_by_buttons_alone(calm: BrowserContext, made: Made) -> None:
    page = opened(calm, made)
    x, y, turn = meeting(made)
    about, (small, large) = made.data["about"], made.data["moves"]
    button = {name: page.get_by_role("button", name=name, exact=True) for name in (
        "Turn anticlockwise", "Turn clockwise", "Move left", "Move right", "Move up", "Move down", "Put back"
    )}  # fmt: skip
    page.get_by_label("Large steps").check()
    for _ in range(round(-turn / 45.0)):
        button["Turn anticlockwise"].click()
    left, down = about[0] - x, y - about[1]
    vertical = button["Move down" if down > 0 else "Move up"]
    for _ in range(int(left / large)):
        button["Move left"].click()
    page.get_by_label("Large steps").uncheck()
    for each in [button["Move left"]] * round((left % large) / small) + [vertical] * round(abs(down) / small):
        if not is_met(page):
            each.click()
    expect(said(page)).to_have_text(MET)
    assert lies_at(page, made, meeting(made))
    expect(button["Move left"]).to_have_attribute("aria-disabled", "true")
    button["Put back"].click()
    expect(live(page)).to_have_text("It is back where it was.")
    assert lies_at(page, made, (*about, 0.0))
    button["Turn clockwise"].click()
    button["Turn clockwise"].click()
    assert lies_at(page, made, (*about, 30.0))


def test_the_grip_covers_no_words(calm: BrowserContext, made: Made) -> None:
    page = opened(calm, made)
    expect(page.locator(".handle-grip")).to_be_visible()
    assert covered(page) == 0
    page.get_by_role("button", name="Show me").click()
    expect(page.locator(".met .handle-grip")).to_be_visible()
    assert covered(page) == 0, "nor the tick that stands in its place"


def covered(page: Page) -> int:
    """How many words, letters or marks the grip lies over, at most."""
    found: int = page.evaluate(
        """() => { const grip = document.querySelector(".handle-grip circle").getBoundingClientRect();
             return [...document.querySelectorAll("#picture > [data-group]:not(.handle-touch)")]
               .map((entry) => entry.getBoundingClientRect()).filter((box) => box.height < 30)
               .filter((box) => box.left < grip.right && box.right > grip.left
                 && box.top < grip.bottom && box.bottom > grip.top).length; }"""
    )
    return found


def test_a_piece_is_brought_to_meet_by_touch(phone: BrowserContext, made: Made) -> None:
    page = opened(phone, made)
    turn = made.data["meeting"]["turn"]
    x, y = shifted(made, *made.data["meeting"]["at"])
    touches = page.context.new_cdp_session(page)

    def touch(kind: str, *points: tuple[float, float]) -> None:
        places = [{"x": px, "y": py, "id": number} for number, (px, py) in enumerate(points)]
        touches.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": places})

    # Two fingers on the piece turn it between them.
    px, py = on_screen(page, *shifted(made, *made.data["about"]))
    arm = 12.0
    ends = [(px - arm, py), (px + arm, py)]
    touch("touchStart", ends[0])
    touch("touchStart", *ends)
    for part in range(1, 10):
        angle = math.radians(turn) * part / 9
        across, down = arm * math.cos(angle), arm * math.sin(angle)
        touch("touchMove", (px - across, py - down), (px + across, py + down))
    touch("touchEnd")
    expect(said(page)).to_have_text(re.compile("^The turn is (nearly )?right. Now slide the piece.$"))
    # One finger slides it; the page does not scroll meanwhile.
    goal = on_screen(page, x, y)
    scrolled = page.evaluate("scrollY")
    touch("touchStart", (px, py))
    for part in range(1, 9):
        touch("touchMove", (px + (goal[0] - px) * part / 8, py + (goal[1] - py) * part / 8))
    touch("touchEnd")
    expect(said(page)).to_have_text(MET)
    assert page.evaluate("scrollY") == scrolled
    assert lies_at(page, made, (x, y, turn))
    expect(page.locator(".handle-by-keys")).to_be_hidden()  # a finger needs no help with keys
    expect(page.locator(".handle-by-finger")).to_be_visible()
    # Beside the piece a finger scrolls the page as anywhere.
    action = "shape => getComputedStyle(shape).touchAction"
    assert page.locator(".handle-hold").evaluate(action) == "none"
    assert page.locator("#picture").evaluate(action) == "auto"
    for control in page.locator(".handle-steps button").all():
        box = control.bounding_box()
        assert box is not None and min(box["width"], box["height"]) >= 44.0
    grip = page.locator(".handle-grip circle").bounding_box()
    assert grip is not None and grip["width"] >= 24.0


@pytest.mark.parametrize("number", range(4))
def test_a_wrong_meeting_stays_where_it_is_put_and_is_named(calm: BrowserContext, made: Made, number: int) -> None:
    slip = made.data["slips"][number]
    (small, _), near = made.data["moves"], made.data["near"]
    start = (slip["at"][0] + 0.5 * near, slip["at"][1] - small, slip["turn"] + 5.0)
    page = opened(calm, made, start)
    page.keyboard.press("ArrowDown")
    expect(said(page)).to_have_text(" ".join(slip["said"]))
    expect(live(page)).to_have_text("Moved down. " + " ".join(slip["said"]))
    expect(said(page)).to_have_attribute("data-state", "slip")
    assert lies_at(page, made, (start[0], start[1] + small, start[2]))


@pytest.mark.parametrize(("off_deg", "meets"), [(7.9, True), (8.1, False), (-7.9, True), (-8.1, False)])
def test_it_snaps_within_eight_degrees(calm: BrowserContext, made: Made, off_deg: float, meets: bool) -> None:
    x, y, turn = meeting(made)
    key, step = ("Shift+R", 1.0) if off_deg < 0 else ("Shift+L", -1.0)
    # Comes from outside, so that the last step alone decides.
    page = opened(calm, made, (x, y, turn + off_deg - step))
    page.keyboard.press(key)
    expect(said(page)).to_have_text(MET if meets else "The place is right. Now turn the piece.")
    assert lies_at(page, made, (x, y, turn if meets else turn + off_deg))


@pytest.mark.parametrize(("off", "meets"), [(0.29, True), (0.31, False)])
def test_it_snaps_within_three_tenths_of_a_unit(calm: BrowserContext, made: Made, off: float, meets: bool) -> None:
    x, y, turn = meeting(made)
    (small, unit) = made.data["moves"]
    page = opened(calm, made, (x + off * unit + small, y, turn))
    page.keyboard.press("ArrowLeft")
    expect(said(page)).to_have_text(MET if meets else "The turn is right. Now slide the piece.")
    assert lies_at(page, made, (x if meets else x + off * unit, y, turn))


def test_what_is_shown_is_the_turn_first_and_then_the_way(lively: BrowserContext, made: Made) -> None:
    page = opened(lively, made)
    x, y, turn = meeting(made)
    page.get_by_role("button", name="Show me").click()
    seen = []
    for _ in range(300):
        seen.append(pose(page, made))
        if lies_at(page, made, (x, y, turn)):
            break
        page.clock.run_for(50)
    turning = [each for each in seen if abs(each[2] - turn) > 0.01]
    shifting = [each for each in seen if abs(each[2] - turn) <= 0.01]
    assert len(turning) > 5 and len(shifting) > 3
    assert all(math.dist(each[:2], made.data["about"]) < 0.01 for each in turning)
    assert all(turn - 0.01 <= each[2] <= 0.01 for each in turning), "the turn goes the way that the lesson tells"
    expect(said(page)).to_have_text(MET)
    expect(live(page)).to_have_text(MET)


def test_with_reduced_motion_nothing_glides(calm: BrowserContext, made: Made) -> None:
    page = opened(calm, made)
    poses = page.evaluate(
        """async () => {
          const cloth = document.querySelector("#picture > .handle-touch");
          const seen = new Set([cloth.getAttribute("transform")]);
          new MutationObserver(() => seen.add(cloth.getAttribute("transform"))).observe(cloth, { attributes: true });
          document.querySelector(".handle-show").click();
          await new Promise((done) => { setTimeout(done, 400); });
          document.querySelector(".handle-putBack").click();
          await new Promise((done) => { setTimeout(done, 400); });
          return seen.size;
        }"""
    )
    assert poses == 2  # where it was, where it meets, and where it was


def test_it_lies_where_it_was_left_when_one_comes_back(calm: BrowserContext, made: Made) -> None:
    page = opened(calm, made)
    for key in ("r", "ArrowLeft", "Shift+ArrowLeft"):
        page.keyboard.press(key)
    before = pose(page, made)
    page.get_by_role("button", name="Next", exact=True).click()
    expect(page.locator(".handle-layer")).to_have_count(0)
    page.get_by_role("button", name="Back", exact=True).click()
    expect(page.locator(".handle-layer")).to_be_attached()
    assert pose(page, made) == before
    page.reload()
    expect(page.locator(".handle-layer")).to_be_attached()
    assert pose(page, made) == before


def test_a_piece_that_is_led_home_moves_along_the_curve_of_the_lesson(lively: BrowserContext, made: Made) -> None:
    """Where the learner has left it only the page knows: it moves it by the curve that it was given."""
    home = (*made.data["about"], 0.0)
    start = (home[0] + 60.0, home[1] - 45.0, 50.0)
    page = opened(lively, made, start)
    page.evaluate("() => { window.due = []; window.requestAnimationFrame = (draw) => due.push(draw); }")
    page.evaluate("document.querySelector('.handle-putBack').click()")
    for part in (0.0, 0.016, 0.1, 0.35, 0.5, 0.77, 0.99):
        page.evaluate("(now) => due.splice(0).forEach((draw) => draw(now))", 1000 + 500 * part)
        for here, from_, to in zip(pose(page, made), start, home, strict=True):
            assert here == pytest.approx(from_ + (to - from_) * eased(part), abs=0.001 * abs(to - from_)), part


def test_a_piece_that_was_moved_is_not_put_back_by_the_motion_of_its_slide(lively: BrowserContext, made: Made) -> None:
    there = (500.0, 400.0, 40.0)
    page = opened(lively, made, there)
    for _ in range(5):
        assert lies_at(page, made, there)
        page.wait_for_timeout(100)


def test_a_piece_cannot_be_lost_beyond_the_picture(calm: BrowserContext, made: Made) -> None:
    page = opened(calm, made)
    for key in ("Shift+ArrowUp", "Shift+ArrowRight"):
        for _ in range(14):
            page.keyboard.press(key)
    expect(live(page)).to_have_text("It can go no farther this way.")
    cloth = page.locator(f'#picture > [data-group="{made.data["group"]}"]').first.bounding_box()
    picture = page.locator("#picture").bounding_box()
    assert cloth is not None and picture is not None
    # A slip may lead a little beyond the edge, and the piece must be able to follow it.
    assert cloth["y"] + 0.2 * cloth["height"] >= picture["y"]
    assert cloth["x"] + 0.8 * cloth["width"] <= picture["x"] + picture["width"]


def test_the_slide_has_no_faults_that_a_tool_can_find(phone: BrowserContext, made: Made) -> None:
    found = Axe().run(opened(phone, made))
    assert found.response["violations"] == []


def test_places_stand_in_the_view_box_with_turns_clockwise(made: Made) -> None:
    done = made.handling
    x, y = made.data["about"]
    assert (x / 100.0, 9.0 - y / 100.0) == pytest.approx(done.about, abs=1e-5)
    assert made.data["meeting"]["turn"] == pytest.approx(-done.meeting.turn_deg)
    assert made.data["near"] == pytest.approx(100.0 * done.near, abs=1e-4)
    assert made.data["moves"] == pytest.approx([25.0 * done.moves[1], 100.0 * done.moves[1]], abs=1e-4)
    assert made.data["turns"] == [15.0, 45.0, 1.0]
    left, top, right, bottom = made.data["room"]
    for place in (made.data["about"], made.data["meeting"]["at"], *(slip["at"] for slip in made.data["slips"])):
        assert left <= place[0] <= right and top <= place[1] <= bottom
    assert "corner" not in json.dumps(made.data) and not re.search(
        r"slip_|turned-back|not-turned", json.dumps(made.data)
    )
