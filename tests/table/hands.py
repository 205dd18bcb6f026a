"""The page of the drawing table used as people use it: by mouse, by finger, by keys; what is done is counted."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from math import cos, dist, log, radians, sin
from pathlib import Path
from typing import Any

from asking import drawn_on
from playwright.sync_api import Browser, CDPSession, ConsoleMessage, Dialog, Locator, Page, expect
from playwright.sync_api import TimeoutError as PlaywrightTimeout

__all__ = ["MIDDLE_AND_GRIP", "Fingers", "Hands", "Keys", "Mouse", "Point", "Pointer", "opened_table"]

Point = tuple[float, float]

STOPS = """
() => {
  const found = [...document.querySelectorAll("button, summary, input, select, textarea, [tabindex]")].filter((each) =>
    each.tabIndex >= 0 && !each.disabled && each.getClientRects().length && (each.type !== "radio" || each.checked));
  return [found.map((each) => each.dataset.key ?? ""), found.indexOf(document.activeElement)];
}
"""  # where Tab stops, in order, and where the focus is

MIDDLE_AND_GRIP = """
(key) => {
  const found = (name) => {
    const box = document.querySelector(`[data-key="${key}"] .${name}`).getBoundingClientRect();
    return [box.left + box.width / 2, box.top + box.height / 2];
  };
  return [found("middle"), found("press")];
}
"""


class Hands:
    """What all ways have in common: where things are, and when the program has answered."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.count = 0  # clicks and drags
        self.typed = 0  # keys pressed, fields filled

    @property
    def paper(self) -> Locator:
        return self.page.locator("#paper")

    def by_key(self, key: str) -> Locator:
        """A control by the name that the page gives it."""
        return self.page.locator(f'[data-key="{key}"]')

    def client(self, point: Point, outline: str | None = None) -> Point:
        """Where a point lies on the screen; of an outline, in its own coordinates."""
        shift = (0.0, 0.0) if outline is None else self.shift(outline)
        left, top, scale = (float(self.paper.get_attribute(f"data-{name}") or 0) for name in ("left", "top", "scale"))
        box = self.paper.bounding_box()
        assert box is not None
        x, y = point[0] + shift[0], point[1] + shift[1]
        return box["x"] + (x - left) * scale, box["y"] + (top - y) * scale

    def revision(self) -> int:
        return int(self.paper.get_attribute("data-revision") or 0)

    @contextmanager
    def change(self) -> Iterator[None]:
        """What is done here changes the file; goes on as soon as the page shows it."""
        before = self.revision()
        yield
        self._until(lambda: self.revision() > before, "the change is not shown")
        self.still()

    def still(self) -> None:
        """Until what was asked to be shown is shown."""
        self.page.evaluate("new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))")

    def until_later(self) -> None:
        """Until the second answer is there too, with the mends: nothing is drawn anew by itself any more."""
        paper = self.paper
        self._until(lambda: paper.get_attribute("data-quiet") == str(self.revision()), "the second answer is not there")
        self.still()

    def _until(self, holds: Callable[[], bool], else_: str, most_s: float = 20.0) -> None:
        """The policy of the page forbids what Playwright waits by."""
        for _ in range(int(most_s / 0.02)):
            if holds():
                return
            self.page.wait_for_timeout(20)
        raise AssertionError(f"{else_}; the page says: {self.page.locator('#status').text_content()}")

    def told(self) -> dict[str, Any]:
        """What the program tells now, both answers."""
        found: dict[str, Any] = self.page.evaluate(
            "async () => ({...(await (await fetch('state')).json()), later: await (await fetch('later')).json()})"
        )
        return found

    def shift(self, outline: str) -> Point:
        """Where an outline's own coordinates begin on the paper."""
        told = self.page.locator(f'[data-outline="{outline}"]').get_attribute("data-shift")
        assert told is not None
        return float(told.split()[0]), float(told.split()[1])

    def frames(self) -> list[list[Point]]:
        """The corners of all that stands on the paper, in its coordinates."""
        state, found = self.told(), []
        rings = {each["id"]: each["corners"] for each in state["outlines"]}
        rings |= {f"own-{n}": each["corners"] for n, each in enumerate(state["options"])}
        after = state["result"] or (state["laid"][-1]["after"] if state["laid"] else None)
        for frame in self.page.locator("#paper [data-outline]").all():
            name = frame.get_attribute("data-outline") or ""
            ring = after["corners"] if name == "result" and after else rings[name]
            x, y = self.shift(name)
            found.append([(p[0] + x, p[1] + y) for p in ring])
        return found

    def comes_to_be(self, selector: str, most_ms: int = 700) -> bool:
        """Whether there is such a thing soon."""
        try:
            self.page.wait_for_selector(selector, timeout=most_ms)
        except PlaywrightTimeout:
            return False
        return True

    def says(self, words: str) -> None:
        expect(self.page.locator("#status")).to_contain_text(words)


class Pointer(Hands):
    """What mouse and fingers have in common: places on the screen, pressed and dragged."""

    def press(self, key: str) -> None:
        """Press a control."""
        raise NotImplementedError

    def press_until(self, key: str, selector: str) -> None:
        """Press a control until it is seen to have done something.

        Of a made-up tap right after two fingers the browser now and then makes no click: one taps again.
        """
        for _ in range(4):
            self.press(key)
            if self.comes_to_be(selector):
                return
        raise AssertionError(f"{key} does nothing")

    def drag_on_screen(self, start: Point, end: Point) -> None:
        """From a place of the screen to another."""
        raise NotImplementedError

    def turn_on_dial(self, outline: str, deg: float) -> None:
        """Drag the grip of a piece's dial from straight up to so many degrees anticlockwise of it."""
        self.until_later()  # nothing is drawn anew meanwhile
        dial = self.page.locator(f'[data-dial="{outline}"]')
        dial.scroll_into_view_if_needed()
        box = dial.bounding_box()
        assert box is not None
        x, y, far = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2, box["width"] / 2 - 13
        angle = radians(90 + deg)
        self.drag_on_screen((x, y - far), (x + far * cos(angle), y - far * sin(angle)))

    def turn_on_sheet(self, key: str, deg: float) -> None:
        """Drag a grip on the sheet round what it turns, to so many degrees anticlockwise of straight up."""
        self.until_later()
        grip = self.by_key(key)
        grip.locator(".press").scroll_into_view_if_needed()
        (mx, my), (x, y) = self.page.evaluate(MIDDLE_AND_GRIP, key)
        far, angle = dist((mx, my), (x, y)), radians(90 + deg)
        self.drag_on_screen((x, y), (mx + far * cos(angle), my - far * sin(angle)))


class Mouse(Pointer):
    """The mouse alone."""

    def zoom(self, factor: float) -> None:
        """Turn the wheel over the middle of the paper."""
        box = self.paper.bounding_box()
        assert box is not None
        self.page.mouse.move(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
        before = self.paper.get_attribute("data-scale")
        self.page.mouse.wheel(0, -400 * log(factor))
        self._until(lambda: self.paper.get_attribute("data-scale") != before, "the size of the paper stays")

    def pan(self, start: Point, dx: float, dy: float) -> None:
        """Drag the paper by its empty part, with the wheel pressed; no further than the window goes."""
        size = self.page.viewport_size
        assert size is not None
        dx = min(size["width"] - 5 - start[0], max(5 - start[0], dx))
        dy = min(size["height"] - 5 - start[1], max(5 - start[1], dy))
        self.page.mouse.move(*start)
        self.page.mouse.down(button="middle")
        self.page.mouse.move(start[0] + dx / 2, start[1] + dy / 2, steps=2)
        self.page.mouse.move(start[0] + dx, start[1] + dy, steps=2)
        self.page.mouse.up(button="middle")
        self.still()

    def press(self, key: str) -> None:
        """Click a control."""
        self.count += 1
        self.by_key(key).click()
        self.still()

    def click(self, point: Point, outline: str | None = None) -> None:
        """Click a point of the paper."""
        self.count += 1
        self.page.mouse.move(*self.client(point, outline))
        self.page.mouse.down()
        self.page.mouse.up()
        self.still()

    def drag(self, start: Point, end: Point, outline: str | None = None, to: str | None = None) -> None:
        """Drag from a point of the paper to another."""
        self.drag_on_screen(self.client(start, outline), self.client(end, to or outline))

    def drag_on_screen(self, start: Point, end: Point) -> None:
        self.count += 1
        self.page.mouse.move(*start)
        self.page.mouse.down()
        self.page.mouse.move((start[0] + end[0]) / 2, (start[1] + end[1]) / 2, steps=3)
        self.page.mouse.move(*end, steps=3)
        self.page.mouse.up()
        self.still()


class Fingers(Pointer):
    """One finger, or two."""

    def __init__(self, page: Page) -> None:
        super().__init__(page)
        self._touch: CDPSession = page.context.new_cdp_session(page)

    def press(self, key: str) -> None:
        self.count += 1
        self.by_key(key).tap()
        self.still()

    def click(self, point: Point, outline: str | None = None) -> None:
        self.count += 1
        self.page.touchscreen.tap(*self.client(point, outline))
        self.still()

    def drag(self, start: Point, end: Point, outline: str | None = None, to: str | None = None) -> None:
        self.drag_on_screen(self.client(start, outline), self.client(end, to or outline))

    def drag_on_screen(self, start: Point, end: Point) -> None:
        self.count += 1
        ways = [(start[0] + (end[0] - start[0]) * k / 6, start[1] + (end[1] - start[1]) * k / 6) for k in range(7)]
        self._send("touchStart", ways[0])
        for way in ways[1:]:
            self._send("touchMove", way)
        self._send("touchEnd")
        self.still()

    def zoom(self, factor: float) -> None:
        """Two fingers over the middle of the paper."""
        box = self.paper.bounding_box()
        assert box is not None
        far = 160.0 if factor < 1 else 100.0
        self.pinch((box["x"] + box["width"] / 2, box["y"] + box["height"] / 2), far, far * factor)

    def pan(self, start: Point, dx: float, dy: float) -> None:
        """Two fingers that stay as far apart."""
        box = self.paper.bounding_box()
        assert box is not None
        dx, dy = (max(-150.0, min(150.0, by)) for by in (dx, dy))
        x, y = box["x"] + box["width"] / 2 - dx / 2, box["y"] + box["height"] / 2 - dy / 2
        for kind, part in (("touchStart", 0.0), ("touchMove", 0.5), ("touchMove", 1.0)):
            self._send(kind, (x - 40 + dx * part, y + dy * part), (x + 40 + dx * part, y + dy * part))
        self._send("touchEnd")
        self.still()

    def pinch(self, at: Point, before: float, after: float) -> None:
        """Two fingers on a line through a place of the screen, so far apart before and after."""
        for kind, far in (("touchStart", before), ("touchMove", (before + after) / 2), ("touchMove", after)):
            self._send(kind, (at[0] - far / 2, at[1]), (at[0] + far / 2, at[1]))
        self._send("touchEnd")
        self.still()

    def _send(self, kind: str, *places: Point) -> None:
        points: list[dict[str, Any]] = [{"x": x, "y": y, "id": n} for n, (x, y) in enumerate(places)]
        self._touch.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})


class Keys(Hands):
    """The keyboard alone: Tab to a control, keys on the paper."""

    def keys(self, *keys: str) -> None:
        for key in keys:
            self.typed += 1
            self.page.keyboard.press(key)
        self.still()

    def go_to(self, is_there: Callable[[str], bool], most: int = 150) -> None:
        """Tab until the focus is where it is wanted, the shorter way round as somebody who knows the page would."""
        keys, now = self.page.evaluate(STOPS)
        there = [n for n, key in enumerate(keys) if is_there(key)]
        if there and not (now >= 0 and is_there(keys[now])):
            by = min((n - now for n in there), key=abs)
            self.typed += abs(by)
            for _ in range(abs(by)):
                self.page.keyboard.press("Tab" if by > 0 else "Shift+Tab")
            self.still()
        for _ in range(most):
            key = self.page.evaluate("document.activeElement?.dataset?.key ?? ''")
            if is_there(key):
                return
            self.keys("Tab")
        raise AssertionError("there is no way to it by keys")

    def page_down_to(self, wanted: str, most: int = 60) -> None:
        """On the paper, from one thing of a sort to the next."""
        for _ in range(most):
            if self.page.evaluate("document.activeElement.dataset.key") == wanted:
                return
            self.keys("PageDown")
        raise AssertionError(f"{wanted} is not reached")

    def press(self, key: str) -> None:
        """Tab to a control and press it."""
        self.go_to(lambda here: here == key)
        self.keys("Enter")

    def choose(self, key: str, wanted: str | None = None) -> None:
        """One of some radio buttons, or an entry of a list, by arrows."""
        if wanted is None:
            group = self.by_key(key).get_attribute("name")
            names = [str(each.get_attribute("data-key")) for each in self.page.locator(f'input[name="{group}"]').all()]
            self.go_to(lambda here: here in names)
            for _ in names:
                if self.by_key(key).is_checked():
                    return
                self.keys("ArrowDown")
            return
        self.go_to(lambda here: here == key)
        for _ in range(20):
            if self.by_key(key).input_value() == wanted:
                return
            self.keys("ArrowDown")
        raise AssertionError(f"{wanted} is not to be chosen")

    def fill(self, key: str, words: str, *, send: bool = True) -> None:
        """Tab to a field and write into it."""
        self.go_to(lambda here: here == key)
        self.keys("Control+a")
        self.page.keyboard.type(words)
        self.typed += len(words)
        if send:
            self.keys("Enter")


@contextmanager
def opened_table(browser: Browser, path: Path, **options: Any) -> Iterator[Page]:
    """A file drawn on in a browser; a page on which nothing may go wrong, and nothing may leave."""
    wrong: list[str] = []

    def dialog(asked: Dialog) -> None:
        wrong.append(f"dialog: {asked.message}")
        asked.dismiss()

    def said(line: ConsoleMessage) -> None:
        if line.type == "error" and not any(status in line.text for status in ("409", "422")):
            wrong.append(line.text)

    with drawn_on(path) as server:
        context = browser.new_context(**{"viewport": {"width": 1280, "height": 800}, **options})
        page = context.new_page()
        page.on("pageerror", lambda error: wrong.append(f"error: {error}"))
        page.on("dialog", dialog)
        page.on("console", said)
        own = (server.address, "data:", "about:", "blob:http://127.0.0.1:")
        page.on("request", lambda asked: wrong.append(asked.url) if not asked.url.startswith(own) else None)
        page.goto(server.address)
        page.wait_for_selector("#paper[data-revision]")
        yield page
        context.close()
    assert not wrong, wrong
