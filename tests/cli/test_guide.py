"""The guide and the README: pages print, examples read, command lines parse, links lead somewhere."""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from pptx import Presentation

from explainers.authoring.demo import sections_of
from explainers.cli.guide import WIDEST, _set_for_terminal
from explainers.cli.lazy_group import COMMANDS
from explainers.figure.theme_choice import theme_called
from explainers.intake.workspace import load_lesson, load_solution
from explainers.item.series_reader import scan_series
from explainers.kinds.registry import kind_named, kind_names

ROOT = Path(__file__).parents[2]
GUIDE = ROOT / "explainers" / "guide"
PAGES = sorted(path for path in GUIDE.glob("*.md") if path.stem != "index")
TEXTS = [ROOT / "README.md", ROOT / "DEVELOPERS.md", GUIDE / "index.md", *PAGES]

# What a part of a file is a part of: by its first key, the demo file whose own key it takes the place of.
HOSTS = dict.fromkeys(("base", "pieces"), "corner-block") | dict.fromkeys(
    ("parts", "words", "language"), "first-blocks"
)


def fences(path: Path, kind: str) -> list[str]:
    """The fenced blocks of one kind, those in a list too."""
    blocks = re.findall(rf"^( *)```{kind}\n(.*?)^ *```$", path.read_text(encoding="utf-8"), re.DOTALL | re.MULTILINE)
    return [re.sub(rf"^{indent}", "", block, flags=re.MULTILINE) for indent, block in blocks]


def prose(path: Path) -> str:
    """A page without its fenced blocks."""
    return re.sub(r"^ *```.*?^ *```$", "", path.read_text(encoding="utf-8"), flags=re.DOTALL | re.MULTILINE)


def named_commands(path: Path) -> Iterator[tuple[str, str]]:
    """(command, the whole text) of every command that a page names, in a block or within a sentence."""
    lines = [line for kind in ("text", "sh") for block in fences(path, kind) for line in block.splitlines()]
    for text in [*lines, *re.findall(r"`([^`\n]+)`", prose(path))]:
        typed = text.removeprefix(".venv/bin/").split("  #")[0]
        if found := re.match(r"explainers ([a-z]+)|(?!pytest|explainers)([a-z]+) (?=--)", typed):
            yield found[1] or found[2], typed


EXAMPLES = [(path, block) for path in TEXTS for block in fences(path, "yaml")]
NAMED = [(path, *named) for path in TEXTS for named in named_commands(path)]


@pytest.mark.parametrize("topic", [path.stem for path in PAGES])
def test_every_topic_prints_its_page(run, topic: str) -> None:
    ran = run("guide", topic)
    assert (ran.code, ran.err) == (0, "")
    assert ran.out == (GUIDE / f"{topic}.md").read_text(encoding="utf-8")
    assert ran.out.startswith("# ")


def test_without_a_topic_each_page_is_listed_once_with_a_line(run) -> None:
    ran = run("guide")
    listed = re.findall(r"^- \[([a-z-]+)\]\(\1\.md\): \S.+$", ran.out, re.MULTILINE)
    assert ran.code == 0
    assert sorted(listed) == [path.stem for path in PAGES]


def test_the_readme_leads_to_every_page() -> None:
    linked = re.findall(r"\]\(explainers/guide/([a-z-]+)\.md\)", (ROOT / "README.md").read_text(encoding="utf-8"))
    assert set(linked) == {path.stem for path in PAGES}


@pytest.mark.parametrize(
    ("asked", "near"), [("sheet", "sheets"), ("optoins-and-slips", "options-and-slips"), ("item", "writing-an-item")]
)
def test_an_unknown_topic_names_the_nearest(run, asked: str, near: str) -> None:
    ran = run("guide", asked)
    assert (ran.code, ran.out) == (2, "")
    assert ran.err.count("\n") == 1
    assert f"no page called {asked}. To mend it: write `explainers guide {near}`" in ran.err


@pytest.mark.parametrize("asked", ["zzz", "", "../item/model.py", "index.md/.."])
def test_a_topic_like_no_other_leads_to_the_list(run, asked: str) -> None:
    ran = run("guide", asked)
    assert (ran.code, ran.out) == (2, "")
    assert "To mend it: write `explainers guide`" in ran.err


def test_a_topic_may_be_written_as_its_file(run) -> None:
    assert run("guide", "Look.md").out == run("guide", "look").out


@pytest.mark.parametrize("path", [GUIDE / "index.md", *PAGES], ids=lambda path: path.stem)
@pytest.mark.parametrize("columns", [60, 200])
def test_in_a_terminal_a_page_is_plain_text(monkeypatch: pytest.MonkeyPatch, path: Path, columns: int) -> None:
    monkeypatch.setenv("COLUMNS", str(columns))
    shown = _set_for_terminal(path.read_text(encoding="utf-8"))
    code = [f"    {line}".rstrip() for kind in ("yaml", "text") for b in fences(path, kind) for line in b.splitlines()]
    lines = shown.splitlines()
    assert set(code) <= set(lines), "an example was broken or left out"
    assert all(len(line) <= min(columns, WIDEST) for line in lines if line not in code)
    assert not re.search(r"```|\*\*|\]\(|\x1b|^#", shown, re.MULTILINE)


def test_piped_and_on_a_terminal_the_same_words_are_read() -> None:
    page = (GUIDE / "paces.md").read_text(encoding="utf-8")
    words = re.findall(r"\w+", _set_for_terminal(page))
    assert words == re.findall(r"\w+", page)


@pytest.mark.parametrize(
    ("path", "example"), EXAMPLES, ids=[f"{path.stem}-{i}" for i, (path, _) in enumerate(EXAMPLES)]
)
def test_every_example_reads(tmp_path: Path, path: Path, example: str) -> None:
    """A whole file as it is, a part of one in its place in a file of the demo; an item must solve and be sound."""
    for demo in (ROOT / "items").glob("*.yaml"):
        shutil.copy(demo, tmp_path)
    (tmp_path.parent / "blocks").mkdir(exist_ok=True)
    _, given = sections_of(example)
    first = next(iter(given))
    if first in HOSTS:
        host = HOSTS[first]
        text = (tmp_path / f"{host}.yaml").read_text(encoding="utf-8")
        if first == "pieces" and (hull := re.search(r"the base\. .*?`(walk: .*?)`", path.read_text(encoding="utf-8"))):
            given = {"base": f"base:\n  {hull[1]}", **given, "options": "options: {make: 4, seed: 7}"}
        example = "\n".join((sections_of(text)[1] | given).values()) + "\n"
        first = "lesson" if host == "first-blocks" else "item"
    name = {"lesson": "first-blocks", "item": "corner-block"}.get(first, "own")
    file = tmp_path / f"{name}.yaml"
    file.write_text(example, encoding="utf-8")
    if first == "item":
        assert load_solution(file).sound
    elif first == "lesson":
        lesson, solutions = load_lesson(file)
        assert len(lesson.parts) == len(solutions)
    elif first == "series":
        (tmp_path / "rings.yaml").write_text("lesson: rings\nparts:\n  - {show: window-block.yaml}\n", encoding="utf-8")
        Presentation().save(str(tmp_path / "club.pptx"))
        assert scan_series(file).series is not None
    else:
        assert theme_called(str(file)).name == example.split()[1]


@pytest.mark.parametrize(("path", "command", "typed"), NAMED, ids=[f"{p.stem}: {typed}" for p, _, typed in NAMED])
def test_every_command_named_knows_the_options_named(run, path: Path, command: str, typed: str) -> None:
    assert command in COMMANDS
    options = set(re.findall(r"(?<![\w-])--[a-z-]+", typed))
    known = set(re.findall(r"(?<![\w-])--[a-z-]+", run(command, "--help").out))
    assert options <= known


BLOCKS = [line for path in TEXTS for block in fences(path, "text") for line in block.splitlines()]
LINES = sorted({line.split("  #")[0].split(" > ")[0].rstrip() for line in BLOCKS if line.startswith("explainers ")})


@pytest.mark.parametrize("line", LINES)
def test_every_command_line_of_a_block_parses(run, line: str) -> None:
    assert run(*line.split()[1:], "--help").code == 0


@pytest.mark.parametrize("path", TEXTS, ids=lambda path: path.stem)
def test_every_link_leads_to_a_file(path: Path) -> None:
    for target in re.findall(r"\]\(([^)\s]+)\)", prose(path)):
        assert "://" in target or (path.parent / target.split("#")[0]).is_file(), target


def test_what_a_folder_holds_is_told_alike_in_readme_and_guide() -> None:
    pages = (ROOT / "README.md", GUIDE / "folders-and-variants.md")
    one, other = (path.read_text(encoding="utf-8").split("| file |")[1].split("\n\n")[0] for path in pages)
    assert one == other
    assert one.count("\n| `") > 8


@pytest.mark.parametrize("kind", kind_names())
def test_whoever_looks_up_a_slip_finds_it_on_the_page_of_slips(run, kind: str) -> None:
    printed = run("guide", "options-and-slips").out
    rows = [line for line in printed.splitlines() if line.startswith("| `")]
    for slip in kind_named(kind).slips_in_brief():
        assert any(f"`{slip}`" in row for row in rows), slip
