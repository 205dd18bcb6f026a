"""`explainers present`: made once, opened in the browser; where none can be opened, the path is said all the same."""

from __future__ import annotations

import webbrowser
from collections.abc import Callable
from pathlib import Path
from urllib.parse import unquote, urlsplit

import pytest


class Opener:
    """Stands where a browser is opened."""

    def __init__(self) -> None:
        self.asked: list[str] = []
        self.answer: bool | Exception = True

    def __call__(self, address: str) -> bool:
        self.asked.append(address)
        if isinstance(self.answer, Exception):
            raise self.answer
        return self.answer


@pytest.fixture(autouse=True)
def opener(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Opener:
    monkeypatch.chdir(tmp_path)
    opener = Opener()
    monkeypatch.setattr(webbrowser, "open", opener)
    return opener


@pytest.fixture
def lesson(sound: Path, tmp_path: Path) -> Path:
    (tmp_path / sound.name).write_bytes(sound.read_bytes())
    path = tmp_path / "first.yaml"
    path.write_text(
        "lesson: first\ntitle: First blocks\nparts:\n  - {show: pocket-block.yaml, as: question}\n", encoding="utf-8"
    )
    return path


def test_a_lesson_is_made_and_opened(run, lesson: Path, tmp_path: Path, opener: Opener) -> None:
    ran = run("present", lesson)
    assert ran.code == 0 and ran.out == "render_out/first/first.html\n"
    (address,) = opener.asked
    assert Path(unquote(urlsplit(address).path)) == tmp_path / ran.out.strip()
    assert (tmp_path / ran.out.strip()).read_text(encoding="utf-8").startswith("<!doctype html>")


def test_it_is_made_again_only_where_something_changed(run, lesson: Path, tmp_path: Path) -> None:
    path = tmp_path / run("present", lesson, "--no-open").out.strip()
    before = path.stat().st_mtime_ns
    assert run("present", lesson, "--no-open").out == "render_out/first/first.html\n"
    assert path.stat().st_mtime_ns == before
    lesson.write_text(lesson.read_text(encoding="utf-8").replace("First", "New"), encoding="utf-8")
    run("present", lesson, "--no-open")
    assert "New blocks" in path.read_text(encoding="utf-8")


def test_an_item_alone_into_a_named_folder_without_opening(run, sound: Path, tmp_path: Path, opener: Opener) -> None:
    ran = run("present", sound, "--to", tmp_path / "here", "--no-open", "--theme", "dark", "--pace", "slow")
    assert ran.code == 0 and ran.out == f"{tmp_path / 'here' / 'pocket-block.theme-dark.pace-slow.html'}\n"
    assert opener.asked == []


def test_the_page_of_the_folder(run, lesson: Path, opener: Opener) -> None:
    ran = run("present", lesson, "--page")
    assert ran.code == 0 and ran.out == "render_out/first/index.html\n"
    assert opener.asked[0].endswith("/render_out/first/index.html")
    assert 'href="first.html"' in Path(ran.out.strip()).read_text(encoding="utf-8")
    assert run("present", lesson, "--no-open").out == "render_out/first/first.html\n"


@pytest.mark.parametrize("answer", [False, webbrowser.Error("no browser"), OSError("gone")])
def test_where_no_browser_opens_the_path_is_said(run, lesson: Path, opener: Opener, answer: bool | Exception) -> None:
    opener.answer = answer
    ran = run("present", lesson)
    assert ran.code == 0 and ran.out == "render_out/first/first.html\n"
    assert "no browser could be opened" in ran.err


def test_bad_input_is_one_clear_error_and_leaves_nothing(
    run: Callable[..., object], refused: Path, unsound: Path, tmp_path: Path, opener: Opener
) -> None:
    ran = run("present", refused)
    assert ran.code == 2 and ran.out == ""  # type: ignore[attr-defined]
    assert [line.split(":")[1] for line in ran.err.splitlines()] == ["5", "8", "15"]  # type: ignore[attr-defined]
    assert run("present", unsound).code == 1  # type: ignore[attr-defined]
    for wrong in (tmp_path / "none.yaml", tmp_path):
        ran = run("present", wrong)
        assert ran.code == 2 and ran.err.count("\n") == 1 and "Traceback" not in ran.err  # type: ignore[attr-defined]
    ran = run("present", refused, "--pace", "hasty")
    assert ran.code == 2 and "--pace hasty" in ran.err  # type: ignore[attr-defined]
    assert opener.asked == [] and not (tmp_path / "render_out").exists()
