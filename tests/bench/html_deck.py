"""How large the deck's page of a ten-minute lesson is, and how soon its first slide is seen on a slow machine.

    .venv/bin/python tests/bench/html_deck.py [--runs N]

The lesson is planned from demo items and lasts ten minutes or more in the clip. The page is opened in headless Chromium
with its processor held back to a quarter, as a cheap laptop has it; each run has a window of its own. `seen` is when
the browser first paints the slide, `ready` is when the buttons can be pressed.
"""

from __future__ import annotations

import argparse
import statistics
import sys
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter

ROOT = Path(__file__).resolve().parent.parent.parent
sys.path.insert(0, str(ROOT))  # the tree that this file stands in, before any that is installed

from playwright.sync_api import Browser, sync_playwright

from explainers.intake.workspace import load_solution
from explainers.item.model import Lesson, LessonPart, Manner
from explainers.lesson.planner import plan_lesson
from explainers.outputs.html.deck import write_html_deck
from explainers.storyboard.pacing import pace
from explainers.storyboard.timeline import Timeline

CHROMIUM = Path("/usr/bin/chromium")  # Debian's
SLOWER = 4
PARTS = (
    ("corner-block", Manner.WORKED_EXAMPLE),
    ("border-block", Manner.YOUR_TURN),
    ("gate-block", Manner.YOUR_TURN),
)

WATCH = """
document.addEventListener("DOMContentLoaded", () => {
  const bar = document.getElementById("bar");
  const ready = () => { if (!bar.hidden && window.readyAt === undefined) window.readyAt = performance.now(); };
  new MutationObserver(ready).observe(bar, { attributes: true });
  ready();
});
"""


def ten_minutes() -> Timeline:
    """A lesson of three items, two of them to try."""
    paths = [ROOT / "items" / f"{name}.yaml" for name, _ in PARTS]
    parts = tuple(LessonPart(show=path, manner=manner) for path, (_, manner) in zip(paths, PARTS, strict=True))
    lesson = Lesson(name="ten-minutes", title="Ten minutes", parts=parts)
    return pace(plan_lesson(lesson, [load_solution(path) for path in paths]))


def first_slide_ms(browser: Browser, page_file: Path) -> tuple[float, float]:
    """(first contentful paint, buttons ready), in milliseconds from the start of the navigation."""
    context = browser.new_context(viewport={"width": 1366, "height": 768})
    page = context.new_page()
    page.add_init_script(WATCH)
    context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
    page.goto(page_file.as_uri())
    page.wait_for_timeout(500)
    seen = page.evaluate("performance.getEntriesByName('first-contentful-paint')[0].startTime")
    ready = page.evaluate("window.readyAt")
    context.close()
    return float(seen), float(ready)


def main() -> None:
    """Make the page once and open it a few times."""
    runs = argparse.ArgumentParser(description=__doc__.splitlines()[0])  # type: ignore[union-attr]
    runs.add_argument("--runs", type=int, default=7)
    wanted = runs.parse_args().runs
    timeline = ten_minutes()
    with TemporaryDirectory() as folder, sync_playwright() as driver:
        start = perf_counter()
        path = write_html_deck(timeline, Path(folder))
        made_s = perf_counter() - start
        steps, size = len(timeline.storyboard.steps), path.stat().st_size
        print(f"lesson   {timeline.seconds / 60:.1f} minutes, {steps} slides")
        print(f"page     {size / 1e6:.2f} MB, made in {made_s:.1f} s")
        browser = driver.chromium.launch(executable_path=str(CHROMIUM), args=["--no-sandbox", "--disable-gpu"])
        seen, ready = zip(*(first_slide_ms(browser, path) for _ in range(wanted)), strict=True)
        browser.close()
    print(f"seen     {statistics.median(seen):.0f} ms (worst {max(seen):.0f}), processor held back {SLOWER} times")
    print(f"ready    {statistics.median(ready):.0f} ms (worst {max(ready):.0f})")


if __name__ == "__main__":
    main()
