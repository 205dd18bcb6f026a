"""What is said of a turned outline in all that the commands make: nothing that is true of joining and cutting alone."""

from __future__ import annotations

import re
import shutil
import subprocess
from pathlib import Path

import pytest
from typer.testing import CliRunner

from explainers.cli.main import app

ITEMS = Path(__file__).parents[3] / "items"
# The outline is not finished, for nothing is done to it; it has no base, and no pieces lie on a work table.
OTHERS = re.compile(r"\b(finished|pieces?|base|work table|join|joined|cut away)\b", re.I)


def ran(*words: object) -> str:
    done = CliRunner().invoke(app, [str(word) for word in words])
    assert done.exit_code == 0, done.output
    return done.output


def of_others(text: str) -> list[str]:
    return [text[max(0, found.start() - 60) : found.end() + 40] for found in OTHERS.finditer(text)]


def text_of(path: Path) -> str:
    if path.suffix == ".pdf":
        return subprocess.run(["pdftotext", str(path), "-"], capture_output=True, text=True, check=True).stdout
    text = path.read_text(encoding="utf-8")
    return re.sub(r"<meta [^>]*>|<(style|script)\b.*?</\1>", "", text, flags=re.S) if path.suffix == ".html" else text


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A whole lesson in words, its sheets, and the page of its folder."""
    folder = tmp_path_factory.mktemp("made")
    lesson = folder / "turning-round.yaml"
    parts = "{show: sail-block.yaml, as: solution}, {show: letterbox-block.yaml, as: quick-check}"
    lesson.write_text(f"lesson: turning-round\nparts: [{parts}]\n", encoding="utf-8")
    for name in ("sail-block", "letterbox-block"):
        shutil.copy(ITEMS / f"{name}.yaml", folder)
    out = folder / "out"
    ran("sheets", lesson, "--only", "question,marking,cutout", "--to", out / "turning-round")
    only = [word for name in ("transcript", "certificate", "description", "index") for word in ("--only", name)]
    ran("build", lesson, "--to", out, *only)
    ran("look", folder / "sail-block.yaml", "--to", out / "turning-round" / "look.html")
    return out / "turning-round"


@pytest.mark.skipif(shutil.which("pdftotext") is None, reason="needs pdftotext (poppler-utils)")
def test_nothing_is_said_that_only_joining_and_cutting_knows(made: Path) -> None:
    files = [path for path in made.iterdir() if not path.name.startswith(".")]
    endings = {path.name.split(".", 1)[1] for path in files}
    assert {"cutout.pdf", "marking.pdf", "transcript.txt", "certificate.txt", "txt", "html"} <= endings
    for path in files:
        assert of_others(text_of(path)) == [], path.name


@pytest.mark.skipif(shutil.which("pdftotext") is None, reason="needs pdftotext (poppler-utils)")
def test_it_is_called_what_it_is(made: Path) -> None:
    told = text_of(made / "turning-round.transcript.txt")
    assert "Here is an outline, with options beside it." in told and "Which option shows this outline?" in told
    assert "The outline to find." in told and "The outline, with option" in told
    sheet = " ".join(text_of(made / "turning-round.cutout.pdf").split())
    assert "outlines to cut out" in sheet and "Keep the outline with this side up" in sheet
    assert "Outlines to cut out" in text_of(made / "index.html")
    assert "this is the same outline" in text_of(made / "turning-round.marking.pdf")
    look = text_of(made / "look.html")
    assert "What comes of it" not in look and look.count("It looks the same in one turned position only.") == 1


def test_a_sheet_for_both_kinds_says_neither_of_the_other(tmp_path: Path) -> None:
    ran("sheets", ITEMS / "sail-block.yaml", ITEMS / "corner-block.yaml", "--only", "cutout", "--to", tmp_path)
    (path,) = tmp_path.rglob("*.cutout.pdf")
    told = " ".join(text_of(path).split()) if shutil.which("pdftotext") else ""
    if told:
        assert "pieces to cut out" not in told and "outlines to cut out" not in told and "to cut out" in told
        assert "Keep every piece" in told and "Keep the outline" in told


@pytest.mark.parametrize("command", [("solve",), ("check", "--certificate")])
def test_reports_speak_of_the_outline(command: tuple[str, ...]) -> None:
    assert of_others(ran(*command, ITEMS / "letterbox-block.yaml")) == []
    assert "finished outline" in ran(*command, ITEMS / "corner-block.yaml")


def test_an_item_that_is_not_sound_is_told_so_in_its_own_words(tmp_path: Path) -> None:
    path = tmp_path / "sail-block.yaml"
    text = (ITEMS / "sail-block.yaml").read_text(encoding="utf-8")
    path.write_text(text.replace("{outline: result, turned: 135}", "{corners: [[0, 0], [3, 0], [0, 3]]}"))
    told = CliRunner().invoke(app, ["solve", str(path)]).output
    assert "none of them is the outline turned" in told and of_others(told) == []


def test_a_new_item_of_a_kind_is_told_in_its_own_words(tmp_path: Path) -> None:
    ran("new", "item", "mine", "--kind", "turned-outline", "--to", tmp_path)
    text = (tmp_path / "mine.yaml").read_text(encoding="utf-8")
    assert "kind: turned-outline" in text and of_others(text) == []
    ran("check", tmp_path / "mine.yaml")
