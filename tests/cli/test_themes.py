"""Themes at the door: listed, printed, chosen by option, by lesson, by series; faults told once, nothing half made."""

from __future__ import annotations

import sys
from dataclasses import replace
from pathlib import Path
from types import ModuleType

import pytest
from stand_in_timeline import StandInTimeline, stand_in_timeline

from explainers.batch import Job, timeline_of
from explainers.figure.theme import Theme
from explainers.figure.theme_choice import theme_of_file
from explainers.figure.themes import THEMES
from explainers.outputs import registry
from explainers.style import ENTRIES, THEME_NAMES

CLUB = 'theme: club\nlike: dark\ncolours: {attention: "#FFD866"}\n'


@pytest.fixture
def themes_used(monkeypatch: pytest.MonkeyPatch) -> list[Theme]:
    """The stills' and deck's writers replaced; the theme of each job that came to be planned."""
    used: list[Theme] = []
    module = ModuleType("stand_in_for_themes")
    monkeypatch.setitem(sys.modules, "stand_in_for_themes", module)

    def timeline(job: Job, theme: Theme | None = None) -> StandInTimeline:
        used.append(theme or job.theme)
        return stand_in_timeline(job)

    monkeypatch.setattr(Job, "timeline", timeline)

    def write(timeline: StandInTimeline, folder: Path, **options: object) -> tuple[Path, ...]:
        folder.mkdir(parents=True, exist_ok=True)
        path = folder / timeline.storyboard.name
        path.write_text("x")
        return (path,)

    module.write = write  # type: ignore[attr-defined]
    for name in ("clip", "deck", "stills"):
        spec = replace(registry.WRITERS[name], target="stand_in_for_themes:write", reports=False)
        monkeypatch.setitem(registry.WRITERS, name, spec)
    return used


@pytest.fixture
def lesson(sound: Path, tmp_path: Path) -> Path:
    (tmp_path / "pocket-block.yaml").write_text(sound.read_text(encoding="utf-8"), encoding="utf-8")
    (tmp_path / "club.yaml").write_text(CLUB, encoding="utf-8")
    path = tmp_path / "one.yaml"
    path.write_text("lesson: one\ntheme: club.yaml\nparts: [{show: pocket-block.yaml}]\n", encoding="utf-8")
    return path


def test_the_list_names_each_theme(run) -> None:
    ran = run("themes")
    assert ran.code == 0
    assert [line.split()[0] for line in ran.out.splitlines()] == list(THEME_NAMES)


@pytest.mark.parametrize("name", THEME_NAMES)
def test_a_theme_is_printed_as_a_file_to_start_from(run, tmp_path: Path, name: str) -> None:
    ran = run("themes", name)
    path = tmp_path / "mine.yaml"
    path.write_text(ran.out, encoding="utf-8")
    assert ran.code == 0
    assert theme_of_file(path) == replace(THEMES[name], name="our-club")
    again = run("themes", path)
    assert again.code == 0 and "theme: our-club" in again.out


def test_a_file_with_faults_is_refused_with_each_at_its_line(run, tmp_path: Path) -> None:
    path = tmp_path / "mine.yaml"
    path.write_text("theme: mine\ncolours:\n  ink: #000000\nsizes:\n  word: 0.1\n", encoding="utf-8")
    ran = run("themes", path)
    assert ran.code == 2 and ran.out == ""
    assert [line.split(" ")[0] for line in ran.err.splitlines()] == [f"{path}:3:", f"{path}:5:"]


@pytest.mark.parametrize("command", ["build", "clip", "deck", "stills"])
def test_the_option_stands_in_place_of_the_lessons_own(run, themes_used, lesson: Path, tmp_path, command) -> None:
    only = ["--only", "deck"] if command == "build" else []
    for arguments, theme in (
        ([], theme_of_file(lesson.parent / "club.yaml")),
        (["--theme", "print"], THEMES["print"]),
        (["--theme", lesson.parent / "club.yaml"], theme_of_file(lesson.parent / "club.yaml")),
    ):
        themes_used.clear()
        assert run(command, lesson, "--to", tmp_path / f"out{len(arguments)}{theme.name}", *only, *arguments).code == 0
        assert themes_used == [theme]


def test_an_item_alone_is_light_unless_told_otherwise(run, themes_used, sound: Path, tmp_path: Path) -> None:
    assert (
        run("deck", sound, "--to", tmp_path).code == run("deck", sound, "--to", tmp_path, "--theme", "dark").code == 0
    )
    assert themes_used == [THEMES["light"], THEMES["dark"]]


@pytest.mark.parametrize("command", ["build", "clip", "deck", "stills"])
def test_an_option_that_cannot_be_used_is_told_once_and_nothing_is_made(
    run, themes_used, sound: Path, tmp_path: Path, command: str
) -> None:
    other = tmp_path / "other.yaml"
    other.write_text(sound.read_text(encoding="utf-8").replace("item: pocket-block", "item: other"), encoding="utf-8")
    ran = run(command, sound, other, "--to", tmp_path / "out", "--theme", "drak")
    assert ran.code == 2
    assert len(ran.err.splitlines()) == 1 and "To mend it: write dark." in ran.err
    assert themes_used == [] and not (tmp_path / "out").exists()


def test_a_fault_in_a_lessons_theme_is_told_with_the_themes_line(run, themes_used, lesson: Path, tmp_path) -> None:
    theme = lesson.parent / "club.yaml"
    theme.write_text(CLUB + "words: {join: cut}\n", encoding="utf-8")
    ran = run("deck", lesson, "--to", tmp_path / "out")
    assert ran.code == 2 and themes_used == []
    assert ran.err.startswith(f"{theme}:4: words: ")


def test_a_changed_theme_makes_everything_anew(run, themes_used, lesson: Path, tmp_path: Path) -> None:
    def built(*arguments: object) -> int:
        themes_used.clear()
        assert run("build", lesson, "--to", tmp_path / "out", "--only", "deck", *arguments).code == 0
        return len(themes_used)

    assert [built(), built()] == [1, 0]
    # In its own theme it is there still: the other has a name of its own.
    assert [built("--theme", "print"), built("--theme", "print"), built()] == [1, 0, 0]
    (lesson.parent / "club.yaml").write_text(CLUB + "weights: {tick: 0.05}\n", encoding="utf-8")
    assert [built(), built()] == [1, 0]


def test_a_series_gives_its_theme_and_a_lesson_may_have_its_own(lesson: Path) -> None:
    (lesson.parent / "series.yaml").write_text("series: all\ntheme: print\n", encoding="utf-8")
    for own, theme in (("", THEMES["print"]), ("theme: dark\n", THEMES["dark"])):
        text = f"lesson: one\nseries: series.yaml\n{own}parts: [{{show: pocket-block.yaml}}]\n"
        lesson.write_text(text, encoding="utf-8")
        figures = [figure for step in timeline_of(lesson).storyboard.steps for figure in step.stills]
        assert {figure.background for figure in figures} == {theme.paper}


def test_a_theme_beside_items_is_passed_over_in_their_folder(run, themes_used, lesson: Path, tmp_path: Path) -> None:
    ran = run("deck", lesson.parent, "--to", tmp_path / "out")
    assert (ran.code, ran.err) == (0, "") or "club" not in ran.err
    assert len(themes_used) == 2
    assert run("solve", lesson.parent).code == 0


def test_no_colour_of_another_theme_is_left_in_a_lesson(sound: Path) -> None:
    """Everything that is drawn takes its colours from the theme that was chosen."""
    from explainers.drawing.svg import svg_of

    light = {str(value).upper() for value in vars_of(THEMES["light"]) if str(value).startswith("#")}
    for name in ("dark", "print"):
        own = {str(value).upper() for value in vars_of(THEMES[name])}
        board = timeline_of(sound, theme=THEMES[name]).storyboard
        text = "".join(svg_of(figure) for step in board.steps for figure in step.stills).upper()
        assert [colour for colour in sorted(light - own) if colour in text] == []


def vars_of(theme: Theme) -> list[object]:
    return [theme.entry(name) for name, _ in ENTRIES["colours"].values()]
