"""A run opens each file once and solves each item once, whatever the command, for a lesson and for a folder."""

from __future__ import annotations

import os
import shutil
import sys
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import pytest

from explainers.choice.model import Solution
from explainers.intake import workspace as intake
from explainers.kinds.join_and_cut.model import Item
from explainers.kinds.join_and_cut.solving import solver

ITEMS = Path(__file__).parents[2] / "items"
SHOWN = {"one": ("flag-block", "tent-block"), "two": ("gate-block",)}
_WATCHED: list[Counter[str]] = []  # an audit hook cannot be taken away, so it looks here for somebody who counts


def _heard(event: str, arguments: tuple[object, ...]) -> None:
    if event == "open" and _WATCHED and str(arguments[0]).endswith(".yaml"):
        _WATCHED[-1][Path(os.path.realpath(str(arguments[0]))).stem] += 1


sys.addaudithook(_heard)


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Two lessons of a series that has a theme, one of them with words of the teacher's; an item that none shows."""
    monkeypatch.chdir(tmp_path)
    blocks = tmp_path / "blocks"
    blocks.mkdir()
    for name in (*SHOWN["one"], *SHOWN["two"], "corner-block"):
        shutil.copy(ITEMS / f"{name}.yaml", blocks)
    (blocks / "quilts.yaml").write_text("series: quilts\nlessons: [one.yaml, two.yaml]\ntheme: dusk.yaml\n")
    (blocks / "dusk.yaml").write_text("theme: dusk\nlike: dark\n")
    for name, shown in SHOWN.items():
        parts = "".join(f"  - {{show: {item}.yaml}}\n" for item in shown)
        words = "words:\n  flag-block.flag.turn: Turn it.\n" if name == "one" else ""
        (blocks / f"{name}.yaml").write_text(f"lesson: {name}\nseries: quilts.yaml\nparts:\n{parts}{words}")
    return blocks


@pytest.fixture
def counted(monkeypatch: pytest.MonkeyPatch) -> Iterator[tuple[Counter[str], Counter[str]]]:
    """(how often each file is opened, how often each item is solved) from now on."""
    solves: Counter[str] = Counter()
    for name in ("solve", "answer"):
        solved = getattr(solver, name)

        def counting(item: Item, *, solved=solved, **how: bool) -> object:  # type: ignore[no-untyped-def]
            solves[item.name] += 1
            return solved(item, **how)

        monkeypatch.setattr(solver, name, counting)
    _WATCHED.append(Counter())
    yield _WATCHED[-1], solves
    _WATCHED.pop()


COMMANDS = (
    ("check",),
    ("check", "--json"),
    ("check", "--certificate"),
    ("build", "--only", "cues"),
    ("sheets", "--only", "question"),
    ("words",),
    ("cues",),
)


@pytest.mark.parametrize("command", [*COMMANDS, ("prompter",)], ids=" ".join)
def test_a_lesson_is_opened_once_and_its_items_are_solved_once(run, folder: Path, counted, command) -> None:
    opened, solved = counted
    assert run(*command, folder / "one.yaml").code == 0
    read = {"one", "quilts", *SHOWN["one"]}
    # The series names the other lesson, which is looked at to see that it is one; its theme is drawn with.
    assert {**opened} == dict.fromkeys({*read, *({"two", "dusk"} & {*opened})}, 1)
    assert {**solved} == dict.fromkeys(SHOWN["one"], 1)


@pytest.mark.parametrize("command", [*COMMANDS, ("solve",), ("solve", "--json")], ids=" ".join)
def test_a_folder_is_opened_once_and_its_items_are_solved_once(run, folder: Path, counted, command) -> None:
    opened, solved = counted
    assert run(*command, folder).code == 0
    assert {**opened} == dict.fromkeys((path.stem for path in folder.glob("*.yaml")), 1)
    assert {**solved} == dict.fromkeys(("flag-block", "tent-block", "gate-block", "corner-block"), 1)


def test_the_page_of_the_folder_is_kept_true_without_solving_again(run, folder: Path, counted) -> None:
    opened, solved = counted
    assert run("build", folder / "one.yaml", "--only", "index").code == 0
    page = Path("render_out/01-one/index.html")
    before = page.read_text(encoding="utf-8")
    opened.clear()
    solved.clear()
    assert run("sheets", folder / "one.yaml", "--only", "question").code == 0
    assert page.read_text(encoding="utf-8") != before
    assert set(opened.values()) == set(solved.values()) == {1}


def test_a_refused_item_that_lessons_share_is_read_once_and_told_in_both(run, folder: Path, counted) -> None:
    opened, solved = counted
    broken = folder / "flag-block.yaml"
    broken.write_text(broken.read_text(encoding="utf-8").replace("does: join", "does: fold"), encoding="utf-8")
    two = folder / "two.yaml"
    two.write_text(two.read_text(encoding="utf-8").replace("gate-block", "flag-block"), encoding="utf-8")
    opened.clear()
    ran = run("build", folder / "one.yaml", two, "--only", "cues")
    assert ran.code == 2 and opened["flag-block"] == 1
    assert "flag-block.yaml is refused, as told above" in ran.err
    assert {**solved} == {"tent-block": 1}


def test_solutions_are_not_held_for_a_whole_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Those that are kept on purpose are, and of the others the last few."""
    monkeypatch.setattr(intake, "_MOST_ITEMS", 3)
    text = (ITEMS / "flag-block.yaml").read_text(encoding="utf-8")
    paths = [tmp_path / f"flag-{number}.yaml" for number in range(6)]
    for path in paths:
        path.write_text(text, encoding="utf-8")
    workspace = intake.Workspace()
    workspace.keep(paths[:1])
    first = [workspace.solution(path) for path in paths]
    again = [workspace.solution(path) for path in reversed(paths)][::-1]
    assert [one is other for one, other in zip(first, again, strict=True)] == [True, False, False, True, True, True]


@pytest.mark.parametrize("name", ["border-block", "corner-block", "twin-block"])
def test_pairs_of_slips_found_later_are_those_found_at_once(name: str) -> None:
    solution = intake.load_solution(ITEMS / f"{name}.yaml")
    at_once = solver.solve(solution.item, pairs=True)
    assert _slips(intake.load_solution(ITEMS / f"{name}.yaml", pairs=True)) == _slips(at_once)


def _slips(solution: Solution) -> list[object]:
    return [verdict.slip for verdict in solution.verdicts]
