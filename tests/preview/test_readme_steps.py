"""The README's first lesson, walked as printed: its commands run, its edits typed, and what the page shows of each.

Nothing of the lesson stands here but what must be seen. A command is whatever stands between backticks and begins with
``explainers``; an edit is whatever else does that reads as keys with values, and the fenced block of YAML.
"""

from __future__ import annotations

import contextlib
import os
import re
import shlex
import signal
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
import yaml
from outputs.html_pages import CHROMIUM
from playwright.sync_api import Browser, Page, expect

README = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
SECTION = README.split("## Your first lesson, in ten steps\n")[1].split("\n## ")[0]

pytestmark = pytest.mark.skipif(not CHROMIUM.exists(), reason="Chromium is not installed")


def printed_steps() -> dict[int, str]:
    """The text of each step by its number, fenced blocks among it."""
    found = re.split(r"(?m)^(\d+)\. ", SECTION)[1:]
    return {int(number): text.split("\n\nWalked once")[0] for number, text in zip(found[::2], found[1::2], strict=True)}


def spans(text: str) -> list[str]:
    return re.findall(r"`([^`\n]+)`", re.sub(r"(?s)```.*?```", "", text))


def command(text: str) -> list[str]:
    """The one command of a step, as it is typed."""
    (typed,) = [span for span in spans(text) if span.startswith("explainers ")]
    return shlex.split(typed)[1:]


def block(text: str) -> str:
    """The fenced YAML of a step, set to the left margin."""
    (fenced,) = re.findall(r"(?s)```yaml\n(.*?)```", text)
    return re.sub(r"(?m)^   ", "", fenced)


def ran(words: list[str], *, code: int = 0) -> str:
    """What a command says."""
    program = "from explainers.cli.main import main; main()"
    done = subprocess.run([sys.executable, "-c", program, *words], capture_output=True, text=True, check=False)
    assert done.returncode == code, done.stdout + done.stderr
    return done.stdout + done.stderr


def replaced(path: Path, pattern: str, new: str) -> None:
    """One edit, saved: what the pattern finds exactly once is replaced."""
    text, count = re.subn(pattern, lambda found: new, path.read_text(encoding="utf-8"), flags=re.MULTILINE)
    assert count == 1, f"{pattern} stands {count} times in {path.name}"
    path.write_text(text, encoding="utf-8")


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    opened = browser.new_page(viewport={"width": 1280, "height": 900})
    yield opened
    opened.close()


@pytest.fixture
def look() -> Iterator[Callable[[list[str]], str]]:
    """Starts `look --watch` in the background and gives its address."""
    started: list[subprocess.Popen[str]] = []

    def start(words: list[str]) -> str:
        program = "from explainers.cli.main import main; main()"
        environment = {**os.environ, "PYTHONUNBUFFERED": "1", "BROWSER": "true"}  # the window is ours to open
        command_line = [sys.executable, "-c", program, *words]
        started.append(subprocess.Popen(command_line, stdout=subprocess.PIPE, text=True, env=environment))
        assert started[-1].stdout is not None
        return started[-1].stdout.readline().strip()

    yield start
    for process in started:
        with contextlib.suppress(ProcessLookupError):
            process.send_signal(signal.SIGINT)
        process.wait(20)


def test_the_ten_steps_of_the_readme_lead_from_nothing_to_a_lesson(
    page: Page, look, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, request: pytest.FixtureRequest
) -> None:
    monkeypatch.chdir(tmp_path)
    steps = printed_steps()
    assert list(steps) == list(range(1, 11))
    alert, base = page.get_by_role("alert"), page.locator("article#base")

    ran(command(steps[1]))
    (item,) = tmp_path.glob("*.yaml")
    words = command(steps[2])
    assert "--watch" in words and item.name in words
    page.goto(look(words))
    expect(page.locator("body")).to_contain_text("sound: the answer is")
    expect(alert).to_have_count(0)

    (walk,) = [span for span in spans(steps[3]) if span.startswith("walk: ")]
    replaced(item, r"(?<=^base:\n  )corners: .*$", walk)
    expect(base).to_contain_text("Corners: 1 (0, 0), 2 (4, 0), 3 (6, 2), 4 (-2, 2)")  # the base as it stands by now
    expect(alert).to_contain_text("is not on a side of the base")
    expect(page.locator("body")).to_contain_text("not finished")
    expect(page.locator("article#pieces-0")).to_contain_text(
        "Wrong here: (4, 0) to (4, 2) is not on a side of the base"
    )
    expect(page.locator("article#result")).to_have_count(0)  # nothing of the block that was there before
    # A base alone, while the pieces are still to be drawn.
    with_pieces = item.read_text(encoding="utf-8")
    replaced(item, r"(?s)^pieces:.*", "")
    expect(page.locator("body")).to_contain_text("Still missing: pieces and options.")
    expect(base).to_contain_text("Corners: 1 (0, 0), 2 (4, 0), 3 (6, 2), 4 (-2, 2)")
    item.write_text(with_pieces.replace("left 8", "lft 8"), encoding="utf-8")
    expect(base).to_contain_text('Wrong here: step 3, "lft 8": "lft" is no direction.')
    assert base.locator('svg [stroke="#B3261E"]').count() >= 3  # two sides and a ring where it breaks

    item.write_text(with_pieces, encoding="utf-8")
    replaced(item, r"^pieces:\n(?:[ ].*\n)*", block(steps[4]))
    (options,) = [span for span in spans(steps[4]) if span.startswith("options: ")]
    replaced(item, r"^options:.*$", options)
    expect(page.locator("body")).to_contain_text("sound: the answer is")
    expect(alert).to_have_count(0)
    names = [piece["piece"] for piece in yaml.safe_load(block(steps[4]))["pieces"]]
    for number, name in enumerate(names, start=1):
        expect(page.locator(f"article#piece-{number}")).to_contain_text(name)
    expect(page.locator("article#option-A")).to_contain_text("Made for you")

    proof = ran(command(steps[5]))
    assert "alone is right" in proof and "What could make it unfair: nothing." in proof

    ran(command(steps[6]))
    expect(page.locator("article#option-A")).to_contain_text("Written in the file")
    expect(page.locator("body")).to_contain_text("sound: the answer is")

    ran(command(steps[7]))
    (lesson,) = (path for path in tmp_path.glob("*.yaml") if path != item)
    assert item.name in lesson.read_text(encoding="utf-8")
    shown, before, title, slips = spans(steps[8])
    replaced(lesson, rf"{before}(?=}}$)", shown)
    replaced(lesson, r"^title: .*$", f"{title}\n{slips}")

    full = request.config.getoption("--full")
    quick = [] if full else ["--only", "cues", "--only", "description"]
    said = ran([*command(steps[9]), *quick])
    (folder,) = (tmp_path / span for span in spans(steps[10]))
    assert folder.is_dir() and folder.name in said
    told = (folder / f"{lesson.stem}.txt").read_text(encoding="utf-8")
    assert told.startswith(title.removeprefix("title: "))
    cues = (folder / f"{lesson.stem}.cues.csv").read_text(encoding="utf-8")
    assert all(f"{item.stem}.{name}" in cues for name in names)
    if full:
        endings = {path.name.partition(".")[2] for path in folder.iterdir()}
        assert (
            endings >= {"mp4", "pptx", "cues.csv", "vtt", "poster.png", "txt", "html"} and (folder / "stills").is_dir()
        )
