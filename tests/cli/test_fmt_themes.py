"""`explainers fmt` on themes, and on items that say what they are by their base or pieces alone."""

from __future__ import annotations

from pathlib import Path

import pytest

from explainers.figure.theme_choice import theme_called

UNTIDY = """\
# The club's own.
words:   {cut: snip, join: {done: glued on, verb: glue on}}
weights:
  # as thick as a finger
  side: 0.030
like: dark
colours:
  ink: "#fafafa"   # nearly white
  paper: "#101418"
theme: our-club
"""
TIDY = """\
# The club's own.
theme: our-club
like: dark
colours:
  paper: "#101418"
  ink: "#fafafa"   # nearly white
weights:
  # as thick as a finger
  side: 0.030
words: {join: {verb: glue on, done: glued on}, cut: snip}
"""


@pytest.fixture
def theme(tmp_path: Path) -> Path:
    path = tmp_path / "our-club.yaml"
    path.write_text(UNTIDY, encoding="utf-8")
    return path


def test_a_theme_is_rewritten_and_then_there_is_nothing_to_do(run, theme: Path) -> None:
    before = theme_called(str(theme))
    assert run("fmt", "--check", theme).code == 1 and theme.read_text(encoding="utf-8") == UNTIDY
    ran = run("fmt", theme)
    assert (ran.code, ran.out, ran.err) == (0, f"{theme}\n", "")
    assert theme.read_text(encoding="utf-8") == TIDY
    assert theme_called(str(theme)) == before
    again = run("fmt", theme)
    assert (again.code, again.out) == (0, "")


@pytest.mark.parametrize("name", ["light", "dark", "print"])
def test_what_themes_prints_is_in_the_house_form(run, tmp_path: Path, name: str) -> None:
    path = tmp_path / "printed.yaml"
    path.write_text(run("themes", name).out, encoding="utf-8")
    assert (run("fmt", path).code, run("fmt", "--check", path).out) == (0, "")


def test_a_folder_means_its_themes_too(run, theme: Path) -> None:
    assert run("fmt", theme.parent).out == f"{theme}\n"


def test_a_theme_with_a_fault_is_left_as_it_is(run, theme: Path) -> None:
    theme.write_text(UNTIDY.replace("side: 0.030", "sides: 0.030"), encoding="utf-8")
    before = theme.read_bytes()
    ran = run("fmt", theme)
    assert ran.code == 2 and f"{theme}:5: weights.sides" in ran.err and "To mend it" in ran.err
    assert theme.read_bytes() == before


@pytest.mark.parametrize("text", ["base: {corners: [[0, 0], [1, 0], [0, 1]]}\n", "pieces: []\n", "outline: 5\n"])
def test_a_file_with_keys_that_only_a_question_has_is_an_item_that_lacks_its_name(run, tmp_path: Path, text) -> None:
    path = tmp_path / "begun.yaml"
    path.write_text(text, encoding="utf-8")
    for named in (path, tmp_path):
        ran = run("fmt", named)
        assert ran.code == 2 and "item" in ran.err and str(path) in ran.err, ran.err
        assert "no item, no lesson" not in ran.err
    assert path.read_text(encoding="utf-8") == text
