"""`explainers deck --template --slides`: a school's slide file, a slide an idea; a lesson's own template in a build."""

from __future__ import annotations

from pathlib import Path

import pytest
from outputs.school_template import school_template
from pptx import Presentation

from explainers.batch import build


@pytest.fixture
def template(tmp_path: Path) -> Path:
    return school_template(tmp_path / "our-slides.pptx", wide=False)


@pytest.fixture
def lesson(tmp_path: Path, sound: Path, template: Path) -> Path:
    """A lesson whose file names the template."""
    (tmp_path / "pocket-block.yaml").write_bytes(sound.read_bytes())
    path = tmp_path / "pockets.yaml"
    path.write_text(
        "lesson: pockets\ntitle: Pockets\ntemplate: our-slides.pptx\n"
        "parts:\n  - {show: pocket-block.yaml, as: worked-example}\n",
        encoding="utf-8",
    )
    return path


def deck_in(folder: Path):  # type: ignore[no-untyped-def]
    (path,) = folder.rglob("*.pptx")
    return Presentation(str(path))


def is_schools(deck) -> bool:  # type: ignore[no-untyped-def]
    return any(shape.name.startswith("ornament") for shape in deck.slide_master.shapes)


def test_a_template_given_at_the_door(run, sound: Path, template: Path, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    ran = run("deck", sound, "--template", template, "--to", tmp_path / "out")
    assert ran.code == 0
    deck = deck_in(tmp_path / "out")
    assert is_schools(deck)
    assert deck.slide_width.inches == 10.0


def test_one_slide_an_idea_is_fewer(run, sound: Path, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    assert run("deck", sound, "--to", tmp_path / "all").code == 0
    assert run("deck", sound, "--to", tmp_path / "every", "--slides", "every-step").code == 0
    assert run("deck", sound, "--to", tmp_path / "few", "--slides", "one-per-idea").code == 0
    counts = [len(deck_in(tmp_path / name).slides) for name in ("all", "every", "few")]
    assert counts[0] == counts[1] > counts[2] > 5


def test_a_lesson_names_its_template(run, lesson: Path, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    assert run("deck", lesson, "--to", tmp_path / "out").code == 0
    assert is_schools(deck_in(tmp_path / "out"))
    (built,) = build([lesson], tmp_path / "built", ["deck"])
    assert built.error is None
    assert is_schools(deck_in(tmp_path / "built"))
    (again,) = build([lesson], tmp_path / "built", ["deck"])
    assert again.unchanged


def test_another_template_makes_the_deck_anew(lesson: Path, template: Path, tmp_path: Path) -> None:
    list(build([lesson], tmp_path / "built", ["deck"]))
    school_template(template, wide=True)
    (again,) = build([lesson], tmp_path / "built", ["deck"])
    assert not again.unchanged
    assert deck_in(tmp_path / "built").slide_width.inches == pytest.approx(13.333, abs=1e-3)


@pytest.mark.parametrize(
    ("options", "told"),
    [
        (["--template", "nothing.pptx"], "nothing.pptx: template: this file cannot be read"),
        (["--slides", "few"], "write every-step or one-per-idea"),
        (["--as", "pdf", "--slides", "every-step"], "--template and --slides go with --as pptx"),
        (["--as", "handout", "--template", "nothing.pptx"], "--template and --slides go with --as pptx"),
    ],
)
def test_a_wish_that_cannot_be_met_is_told_once(run, sound: Path, unsound: Path, tmp_path: Path, options, told) -> None:  # type: ignore[no-untyped-def]
    ran = run("deck", sound, unsound, "--to", tmp_path / "out", *options)
    assert ran.code == 2
    assert ran.err.count(told) == 1
    assert "To mend it" in ran.err or "--as" in ran.err
    assert "Traceback" not in ran.err
    assert not (tmp_path / "out").exists()


def test_a_file_that_is_no_slides_is_named(run, sound: Path, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    ran = run("deck", sound, "--to", tmp_path / "out", "--template", sound)
    assert ran.code == 2
    assert "pocket-block.yaml: template: this file is not a slide file. To mend it: " in ran.err
