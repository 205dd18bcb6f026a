"""How many pictures a second the drawing table shows while a corner is dragged, for a question of six pieces.

    .venv/bin/python tests/bench/table_pictures.py [SECONDS]

A corner is moved by a pointer event at every frame of the page itself (2 seconds unless told), the program answering
meanwhile. Printed: pictures that show the corner elsewhere, a second; how many frames the browser had in that time,
which is the most there can be on this machine just now; and how long the page's own work took for one picture.
"""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

_TESTS = Path(__file__).parents[1]
sys.path[:0] = [str(_TESTS.parent), str(_TESTS), str(_TESTS / "table")]

from hands import Mouse, opened_table
from playwright.sync_api import sync_playwright
from six_pieces import SIX

DRAGGED = """
async ([x, y, seconds]) => {
  const paper = document.querySelector("#paper");
  const fire = (kind, x, y) => paper.dispatchEvent(new PointerEvent(kind, {
    pointerId: 1, pointerType: "mouse", clientX: x, clientY: y, altKey: true, button: kind === "pointermove" ? -1 : 0,
    bubbles: true,
  }));
  paper.setPointerCapture = () => {};
  const seen = () => document.querySelector('[data-outline="base"] .shape').getAttribute("d");
  const idle = await new Promise((done) => {
    let frames = 0;
    const start = performance.now();
    const next = () => {
      frames += 1;
      if (performance.now() - start < 1000) requestAnimationFrame(next);
      else done((frames * 1000) / (performance.now() - start));
    };
    requestAnimationFrame(next);
  });
  fire("pointerdown", x, y);
  let frames = 0, pictures = 0, before = seen(), work = 0, asked = 0;
  const start = performance.now();
  await new Promise((done) => {
    const next = () => {
      const now = performance.now() - start;
      if (before !== seen()) pictures += 1;
      before = seen();
      if (now > seconds * 1000) return done();
      frames += 1;
      const from = performance.now();
      fire("pointermove", x + 40 * Math.sin(now / 150) + 30, y + 25 * Math.cos(now / 150) + 30);
      asked = performance.now() - from;
      requestAnimationFrame(() => {
        work += asked;
        next();
      });
    };
    requestAnimationFrame(next);
  });
  const took = (performance.now() - start) / 1000;
  fire("pointercancel", x, y);
  return { idle, pictures: pictures / took, frames: frames / took };
}
"""


def main() -> None:
    """Measure."""
    seconds = float(sys.argv[1]) if len(sys.argv) > 1 else 2.0
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as driver:
        path = Path(folder) / "six-pieces.yaml"
        path.write_text(SIX, encoding="utf-8")
        browser = driver.chromium.launch(executable_path="/usr/bin/chromium", args=["--no-sandbox", "--disable-gpu"])
        with opened_table(browser, path, viewport={"width": 1366, "height": 768}) as page:
            mouse = Mouse(page)
            mouse.until_later()
            mouse.click((6.0, 2.0), "base")  # chosen: all that is shown of it is drawn too
            place = mouse.client((12.0, 4.0), "base")
            told = page.evaluate(DRAGGED, [*place, seconds])
        browser.close()
    print(
        f"pictures of the dragged corner: {told['pictures']:.0f} a second of {told['frames']:.0f} frames "
        f"({told['idle']:.0f} while nothing is done)"
    )


if __name__ == "__main__":
    main()
