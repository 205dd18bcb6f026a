"""No command removes or writes over what another made, or a person changed: every variant has a name of its own."""

from __future__ import annotations

import itertools
import os
import shutil
from pathlib import Path

import pytest
from outputs.school_template import school_template

from explainers.made_record import RECORD_NAME

ITEMS = Path(__file__).parents[2] / "items"
NAME = "pocket-block"


@pytest.fixture
def item(sound: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An item in a folder of its own, which is the working folder."""
    monkeypatch.chdir(tmp_path)
    return Path(shutil.copy(sound, tmp_path / f"{NAME}.yaml"))


def contents(folder: Path) -> dict[str, bytes]:
    """Every file below a folder, the note of what was made left out."""
    paths = [path for path in sorted(folder.rglob("*")) if path.is_file() and path.name != RECORD_NAME]
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in paths}


def lost(before: dict[str, bytes], after: dict[str, bytes]) -> list[str]:
    """What is not there any more as it was, whatever its name may be now."""
    kept = set(after.values())
    return [name for name, data in before.items() if data not in kept]


# Each command with what makes another file of it; those of a row are run one after the other into one folder.
ROWS = {
    "sheets": [
        ("sheets",),
        ("sheets", "--large-print"),
        ("sheets", "--paper", "letter"),
        ("sheets", "--large-print", "--paper", "letter", "--only", "question"),
        ("sheets", "--theme", "dark", "--only", "answer,marking"),
        ("sheets", "--versions", "2", "--only", "question,marking"),
        ("sheets", "--versions", "2", "--seed", "5", "--only", "question,marking"),
        ("sheets", "--versions", "2", "--large-print", "--only", "question"),
    ],
    "deck": [
        ("deck",),
        ("deck", "--theme", "dark"),
        ("deck", "--pace", "slow"),
        ("deck", "--slides", "one-per-idea"),
        ("deck", "--as", "html"),
        ("deck", "--as", "html", "--theme", "print"),
        ("deck", "--as", "pdf"),
        ("deck", "--as", "pdf", "--theme", "print"),
        ("deck", "--as", "handout"),
        ("deck", "--as", "handout", "--per-page", "4"),
        ("deck", "--as", "handout", "--paper", "letter"),
        ("deck", "--as", "handout", "--theme", "dark"),
    ],
    "cues": [("cues",), ("cues", "--pace", "slow"), ("cues", "--pace", "adult")],
    "build": [
        ("build", "--only", "deck-html", "--only", "description", "--only", "certificate", "--only", "index"),
        ("build", "--only", "deck-html", "--only", "description", "--only", "certificate", "--theme", "dark"),
        ("build", "--only", "deck-html", "--only", "description", "--only", "certificate", "--pace", "slow"),
    ],
}


@pytest.mark.parametrize("row", ROWS.values(), ids=ROWS.keys())
def test_every_variant_has_a_name_of_its_own(run, item: Path, row: list[tuple[str, ...]]) -> None:
    out = Path("render_out")
    names: list[set[str]] = []
    for command, *options in row:
        before = contents(out)
        ran = run(command, item, *options)
        assert ran.code == 0, ran.err
        after = contents(out)
        changed = {name for name in before if after.get(name) != before[name]}
        assert changed <= {f"{NAME}/index.html"}, f"{command} {options} wrote over what was there"
        names.append(set(after) - set(before))
    assert all(names), "each makes something"
    for one, other in itertools.combinations(names, 2):
        assert not one & other
    page = out / NAME / "index.html"
    if page.exists():
        text = page.read_text(encoding="utf-8")
        for name in contents(out / NAME):
            assert name == "index.html" or f'href="{name}"' in text, f"{name} is not listed"
        assert all(told in text for told in ("Dark theme (HTML)", "Slow pace (TXT)"))


def test_the_same_in_its_own_theme_and_pace_has_no_second_name(run, item: Path) -> None:
    for command, *options in (
        ("deck",),
        ("deck", "--theme", "light"),
        ("deck", "--pace", "school"),
        ("deck", "--as", "handout"),
        ("deck", "--as", "handout", "--theme", "print"),
        ("build", "--only", "handout"),
        ("sheets", "--only", "question"),
        ("sheets", "--only", "question", "--theme", "print", "--seed", "9"),
    ):
        assert run(command, item, *options).code == 0
    assert sorted(contents(Path("render_out"))) == [
        f"{NAME}/{NAME}.{ending}" for ending in ("handout.pdf", "pptx", "questions.pdf")
    ]


def test_the_page_tells_the_variants_apart(run, item: Path) -> None:
    assert run("build", item, "--only", "index", "--only", "description").code == 0
    for options in (
        (),
        ("--large-print",),
        ("--paper", "letter", "--large-print", "--versions", "2"),
        ("--theme", "dark", "--seed", "3", "--versions", "2"),
    ):
        assert run("sheets", item, "--only", "question", *options).code == 0
    assert run("prompter", item).code == 0
    text = Path(f"render_out/{NAME}/index.html").read_text(encoding="utf-8")
    assert "Prompter" in text
    for label in (
        " A4 (PDF) <small>",
        " Large print, A4 (PDF) <small>",
        " Large print, US Letter paper, version 2 (PDF) <small>",
        " Dark theme, A4, orders by seed 3, version 1 (PDF) <small>",
    ):
        assert f"</span>{label[1:]}" in text, label


def test_what_a_person_has_changed_is_kept(run, item: Path) -> None:
    """The slides are there to be edited: a new lesson must not cost the teacher's own."""
    assert run("build", item, "--only", "deck", "--only", "description", "--only", "index").code == 0
    folder = Path("render_out") / NAME
    deck = folder / f"{NAME}.pptx"
    deck.write_bytes(deck.read_bytes() + b"a teacher's own slide")
    edited = deck.read_bytes()
    item.write_text(item.read_text(encoding="utf-8").replace("The pocket block", "Another title"), encoding="utf-8")
    ran = run("build", item, "--only", "deck", "--only", "description", "--only", "index")
    assert ran.code == 0
    kept = folder / "kept-1" / deck.name
    assert kept.read_bytes() == edited and deck.read_bytes() != edited
    assert str(folder / "kept-1") in ran.err and deck.name in ran.err
    assert len(ran.err.splitlines()) == 1, "it is said once, and of that file alone"
    assert 'href="kept-1/"' in (folder / "index.html").read_text(encoding="utf-8")
    deck.write_bytes(b"changed again")
    assert run("deck", item).code == 0
    assert (folder / "kept-2" / deck.name).read_bytes() == b"changed again" and kept.read_bytes() == edited


def test_a_file_of_somebody_elses_in_the_way_is_kept(run, item: Path, tmp_path: Path) -> None:
    out = tmp_path / "mine"
    out.mkdir()
    for name in (f"{NAME}.pptx", f"{NAME}.questions.pdf", f"{NAME}.cues.csv"):
        (out / name).write_text("my own work")
    (tmp_path / "far.txt").write_text("my own work, far away")
    (out / f"{NAME}.html").symlink_to(tmp_path / "far.txt")
    for command in (("deck",), ("sheets",), ("cues",), ("deck", "--as", "html")):
        assert run(command[0], item, *command[1:], "--to", out).code == 0
    kept = list(out.glob("kept-*/*"))
    assert sorted(path.name for path in kept) == sorted(
        [f"{NAME}.pptx", f"{NAME}.questions.pdf", f"{NAME}.cues.csv", f"{NAME}.html"]
    )
    assert all(path.read_text().startswith("my own work") for path in kept)
    assert (tmp_path / "far.txt").read_text() == "my own work, far away"


def test_two_lessons_in_one_folder_keep_out_of_each_others_way(run, item: Path, tmp_path: Path) -> None:
    other = tmp_path / "other.yaml"
    other.write_text(item.read_text(encoding="utf-8").replace(f"item: {NAME}", "item: other"), encoding="utf-8")
    out = tmp_path / "out"
    assert run("present", item, "--no-open", "--to", out).code == 0
    before = contents(out)
    assert run("present", other, "--no-open", "--to", out).code == 0
    assert sorted(contents(out)) == ["other.html", f"{NAME}.html"] and not lost(before, contents(out))


def test_another_lesson_of_the_same_name_takes_nothing_from_the_first(run, item: Path, tmp_path: Path) -> None:
    """Two files that bear one name, in two folders: the folder of outputs is the same."""
    twin = tmp_path / "twin" / item.name
    twin.parent.mkdir()
    twin.write_text(item.read_text(encoding="utf-8").replace("The pocket block", "Its twin"), encoding="utf-8")
    wanted = ("--only", "deck-html", "--only", "description")
    assert run("build", item, *wanted).code == 0
    before = contents(Path("render_out"))
    ran = run("build", twin, *wanted)
    assert ran.code == 0 and "kept-1" in ran.err
    assert not lost(before, contents(Path("render_out")))
    item.unlink()
    twin.replace(item)  # moved, not another: its outputs are written over like any
    item.write_text(item.read_text(encoding="utf-8").replace("Its twin", "Moved"), encoding="utf-8")
    ran = run("build", item, *wanted)
    assert ran.code == 0 and ran.err == "" and not Path(f"render_out/{NAME}/kept-2").exists()


def test_a_choice_of_items_has_sheets_of_its_own(run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    folder = tmp_path / "blocks"
    folder.mkdir()
    for name in ("flag-block", "tent-block", "gate-block"):
        shutil.copy(ITEMS / f"{name}.yaml", folder)
    flag, tent, gate = (folder / f"{name}-block.yaml" for name in ("flag", "tent", "gate"))
    for chosen in ((flag, tent), (flag, gate), (folder,), (flag, tent, gate)):
        before = contents(tmp_path / "render_out")
        assert run("sheets", *chosen, "--only", "marking").code == 0
        assert not lost(before, contents(tmp_path / "render_out"))
        assert len(contents(tmp_path / "render_out")) == len(before) + 1


def test_pages_asked_for_without_a_place_keep_what_is_there(run, item: Path) -> None:
    folder = Path("render_out") / NAME
    for command, name in (("look", "look.html"), ("prompter", f"{NAME}.prompter.html")):
        assert run(command, item).code == 0
        (folder / name).write_text("my notes")
        ran = run(command, item)
        assert ran.code == 0 and "kept-" in ran.err
        assert "my notes" in {data.decode(errors="replace") for data in contents(folder).values()}


@pytest.mark.parametrize(("command", "name"), [("look", "mine.html"), ("look", "mine.svg"), ("prompter", "mine.html")])
def test_a_file_in_the_place_asked_for_is_kept_and_ours_not_piled_up(run, item: Path, command: str, name: str) -> None:
    place = Path("my folder") / name
    place.parent.mkdir()
    place.write_text("my own work")
    for _ in range(2):
        assert run(command, item, "--to", place).code == 0
    assert place.read_text(encoding="utf-8") != "my own work"
    assert [path.read_text() for path in place.parent.glob("kept-*/*")] == ["my own work"]


def test_a_lessons_items_looked_at_in_its_theme_are_other_pages_than_the_items_alone(run, item: Path) -> None:
    lesson = item.with_name("lesson.yaml")
    lesson.write_text(f"lesson: one\ntitle: One\ntheme: dark\nparts:\n  - {{show: {item.name}, as: worked-example}}\n")
    assert run("look", item).code == 0
    before = contents(Path("render_out"))
    assert run("look", lesson).out == f"render_out/{NAME}/look.theme-dark.html\n"
    after = contents(Path("render_out"))
    assert {name: after[name] for name in before} == before and len(after) == len(before) + 1


def test_new_questions_written_over_by_force_keep_what_a_teacher_made_of_them(run, item: Path) -> None:
    source = ITEMS / "kite-block.yaml"
    (written,) = run("vary", source, "--count", 1, "--to", "bank").out.splitlines()[:1]
    Path(written).write_text("my own question")
    assert run("vary", source, "--count", 1, "--to", "bank").code == 2
    for _ in range(2):
        assert run("vary", source, "--count", 1, "--to", "bank", "--force").code == 0
    assert [path.read_text() for path in Path("bank").glob("kept-*/*")] == ["my own question"]


def test_another_theme_or_template_of_the_same_name_takes_nothing_from_the_first(run, item: Path) -> None:
    for folder, ink in (("ours", "#1F2A37"), ("theirs", "#000000")):
        Path(folder).mkdir()
        Path(folder, "club.yaml").write_text(f'theme: club\ncolours: {{ink: "{ink}"}}\n')
        school_template(Path(folder, "slides.pptx"), wide=folder == "ours")
    for command in (("deck", "--theme", "{}/club.yaml"), ("sheets", "--only", "question", "--theme", "{}/club.yaml"),
                    ("deck", "--template", "{}/slides.pptx")):  # fmt: skip
        for folder in ("ours", "theirs"):
            before = contents(Path("render_out"))
            ran = run(command[0], item, *(part.format(folder) for part in command[1:]))
            assert ran.code == 0 and not lost(before, contents(Path("render_out"))), (command, folder)
            assert ("kept-" in ran.err) == (folder == "theirs")
        theme = Path("theirs/club.yaml")  # changed, not another: what was made with it is out of date
        theme.write_text(theme.read_text().replace("#000000", "#111111"))
        assert "kept-" not in run(command[0], item, *(part.format("theirs") for part in command[1:])).err


def test_a_theme_by_hand_puts_nothing_aside_that_looks_the_same_without_it(run, item: Path) -> None:
    Path("club.yaml").write_text("theme: club\nlike: dark\n")
    wanted = ("--only", "transcript", "--only", "description", "--only", "index")
    for by_hand in (("--theme", "club.yaml"), (), ("--theme", "club.yaml"), ("--pace", "slow")):
        ran = run("build", item, *wanted, *by_hand)
        assert ran.code == 0 and "kept-" not in ran.err, by_hand


def test_the_description_says_of_which_version_it_is(run, item: Path) -> None:
    assert run("build", item, "--only", "description").code == 0
    assert run("build", item, "--only", "description", "--pace", "slow").code == 0
    own, slow = (Path(f"render_out/{NAME}/{NAME}{word}.txt").read_text(encoding="utf-8") for word in ("", ".pace-slow"))
    assert "In this version" not in own
    assert "and has captions. In this version: slow pace.\n" in slow


@pytest.mark.skipif(os.geteuid() == 0 if hasattr(os, "geteuid") else True, reason="rights do not bind root")
def test_what_cannot_be_put_aside_is_not_written_over(run, item: Path) -> None:
    assert run("deck", item).code == 0
    folder = Path("render_out") / NAME
    (folder / f"{NAME}.pptx").write_text("my own")
    folder.chmod(0o555)
    try:
        assert run("deck", item).code == 2
    finally:
        folder.chmod(0o755)
    assert (folder / f"{NAME}.pptx").read_text() == "my own"
