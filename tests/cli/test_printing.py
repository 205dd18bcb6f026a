"""`sheets`, and `deck --as`, at the door: what is written where, what is refused."""

from __future__ import annotations

from pathlib import Path

import pikepdf
import pytest

from explainers.made_record import RECORD_NAME

ITEMS = Path(__file__).parents[2] / "items"
KINDS = ("questions", "answers", "marking", "cutout")


def names(folder: Path) -> list[str]:
    """What is in a folder, the note of what was made there left out."""
    return sorted({path.name for path in folder.iterdir()} - {RECORD_NAME}) if folder.exists() else []


def test_an_item_has_four_sheets(run, tmp_path: Path) -> None:
    ran = run("sheets", ITEMS / "flag-block.yaml", "--to", tmp_path / "out")
    assert ran.code == 0
    assert ran.out.splitlines() == [str(tmp_path / "out" / f"flag-block.{kind}.pdf") for kind in KINDS]
    assert names(tmp_path / "out") == sorted(f"flag-block.{kind}.pdf" for kind in KINDS)


def test_only_what_is_asked_for_is_written(run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    ran = run("sheets", ITEMS / "flag-block.yaml", "--only", "marking, question", "--paper", "letter", "--large-print")
    assert ran.code == 0
    folder = tmp_path / "render_out" / "flag-block"
    assert names(folder) == ["flag-block.large-print.letter.marking.pdf", "flag-block.large-print.letter.questions.pdf"]
    with pikepdf.open(folder / "flag-block.large-print.letter.questions.pdf") as pdf:
        assert [float(value) for value in pdf.pages[0].MediaBox] == pytest.approx([0, 0, 612, 792], abs=0.01)


def test_items_named_together_make_one_set_and_a_lesson_its_own(run, tmp_path: Path) -> None:
    lesson = tmp_path / "lesson.yaml"
    lesson.write_text(
        f"lesson: two\ntitle: Two\ncredit: Ada\nitems-from: {ITEMS}\n"
        f"parts:\n  - {{show: {ITEMS / 'flag-block.yaml'}, as: your-turn}}\n",
        encoding="utf-8",
    )
    ran = run(
        *("sheets", ITEMS / "flag-block.yaml", ITEMS / "tent-block.yaml", lesson, "--only", "question"),
        *("--to", tmp_path / "out"),
    )
    assert ran.code == 0
    both = "flag-block-and-tent-block"
    assert names(tmp_path / "out") == [both, "two"]
    with pikepdf.open(tmp_path / "out" / both / f"{both}.questions.pdf") as pdf:
        assert len(pdf.pages) == 3  # two questions, the table of answers
    with pikepdf.open(tmp_path / "out" / "two" / "two.questions.pdf") as pdf:
        assert str(pdf.docinfo["/Author"]) == "Ada"


def test_versions_have_their_number_in_the_name(run, tmp_path: Path) -> None:
    ran = run("sheets", ITEMS / "flag-block.yaml", "--versions", "2", "--only", "answer,cutout", "--to", tmp_path)
    assert ran.code == 0
    assert names(tmp_path) == [
        "flag-block.cutout.pdf",
        "flag-block.version-1.answers.pdf",
        "flag-block.version-2.answers.pdf",
    ]


@pytest.mark.parametrize(
    ("more", "told"),
    [
        (("--only", "question,quiz"), "quiz"),
        (("--only", ","), "question, answer, marking, cutout"),
        (("--paper", "a3"), "a4 or letter"),
    ],
)
def test_what_there_is_not_is_told(run, tmp_path: Path, more: tuple[str, ...], told: str) -> None:
    ran = run("sheets", ITEMS / "flag-block.yaml", *more, "--to", tmp_path / "out")
    assert ran.code == 2 and told in ran.err and "Traceback" not in ran.err
    assert names(tmp_path / "out") == []


def test_a_set_with_a_refused_item_is_not_written(run, refused: Path, tmp_path: Path) -> None:
    """A sheet with a question missing is worse than none."""
    ran = run("sheets", ITEMS / "flag-block.yaml", refused, "--to", tmp_path / "out")
    assert ran.code == 2 and "pieces[0].does" in ran.err
    assert names(tmp_path / "out") == []


def test_an_unsound_item_is_not_printed(run, unsound: Path, tmp_path: Path) -> None:
    ran = run("sheets", unsound, "--to", tmp_path / "out")
    assert ran.code == 1 and names(tmp_path / "out") == []


def test_a_deck_is_of_the_kind_that_is_asked_for(run, tmp_path: Path) -> None:
    item = ITEMS / "flag-block.yaml"
    assert run("deck", item, "--as", "pdf", "--to", tmp_path).out == f"{tmp_path / 'flag-block.pdf'}\n"
    assert run("deck", item, "--as", "html", "--to", tmp_path).out == f"{tmp_path / 'flag-block.html'}\n"
    assert (tmp_path / "flag-block.html").read_text(encoding="utf-8").startswith("<!doctype html>")
    made = run("deck", item, "--as", "handout", "--per-page", "4", "--paper", "letter", "--to", tmp_path)
    assert made.out == f"{tmp_path / 'flag-block.letter.per-page-4.handout.pdf'}\n"
    assert names(tmp_path) == ["flag-block.html", "flag-block.letter.per-page-4.handout.pdf", "flag-block.pdf"]


@pytest.mark.parametrize(
    ("more", "told"),
    [
        (("--as", "odp"), "pptx, html, pdf or handout"),
        (("--as", "html", "--per-page", "2"), "--as handout"),
        (("--as", "html", "--template", "nothing.pptx"), "--as pptx"),
        (("--as", "handout", "--per-page", "3"), "1, 2 or 4"),
        (("--per-page", "2"), "--as handout"),
    ],
)
def test_a_deck_that_there_is_not_is_told(run, tmp_path: Path, more: tuple[str, ...], told: str) -> None:
    ran = run("deck", ITEMS / "flag-block.yaml", *more, "--to", tmp_path / "out")
    assert ran.code == 2 and told in ran.err
    assert names(tmp_path / "out") == []
