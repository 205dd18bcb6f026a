"""`explainers options`: a list to paste, or the file's own options replaced and nothing else."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path

import pytest
import yaml

from explainers.intake.reader import read_item
from explainers.item.option_reader import LEAST_OPTIONS, MAX_SEED, MOST_OPTIONS
from explainers.kinds.join_and_cut.solving.solver import solve

Run = Callable[..., object]
CORNER = Path(__file__).parents[2] / "items" / "corner-block.yaml"


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "corner-block.yaml"
    path.write_bytes(CORNER.read_bytes())
    return path


def test_it_prints_a_list_that_can_be_pasted(run, file: Path) -> None:
    ran = run("options", file)
    assert ran.code == 0
    listed = yaml.safe_load(ran.out)
    assert len(listed) == 5
    assert sum(option == {"outline": "result", "turned": option["turned"]} for option in listed) == 1
    assert file.read_bytes() == CORNER.read_bytes()
    head = file.read_text(encoding="utf-8").split("options:")[0]
    file.write_text(f"{head}options:\n{ran.out}", encoding="utf-8")
    solution = solve(read_item(file))
    assert solution.sound and len(solution.verdicts) == 5


def test_the_same_seed_prints_the_same_and_another_prints_others(run, file: Path) -> None:
    first = run("options", file, "--seed", 7).out
    assert run("options", file, "--seed", 7).out == first
    assert run("options", file, "--seed", 8).out != first


@pytest.mark.parametrize("make", [2, 5])
def test_as_many_as_asked_for(run, file: Path, make: int) -> None:
    assert len(yaml.safe_load(run("options", file, "--make", make).out)) == make + 1


def test_what_the_file_asks_for_is_the_default(run, file: Path) -> None:
    head = file.read_text(encoding="utf-8").split("options:")[0]
    file.write_text(f"{head}options: {{make: 3, seed: 11}}\n", encoding="utf-8")
    ran = run("options", file)
    assert len(yaml.safe_load(ran.out)) == 4
    assert ran.out == run("options", file, "--make", 3, "--seed", 11).out


def test_writing_replaces_the_options_and_nothing_else(run, file: Path) -> None:
    head = file.read_text(encoding="utf-8").split("options:")[0]
    printed = run("options", file, "--seed", 3).out
    ran = run("options", file, "--seed", 3, "--write")
    assert (ran.code, ran.out) == (0, f"{file}\n")
    assert file.read_text(encoding="utf-8") == f"{head}options:\n{printed}"
    assert [path.name for path in file.parent.iterdir()] == [file.name]
    assert run("check", file).code == 0


def test_writing_keeps_line_ends_a_mark_at_the_start_and_rights(run, file: Path) -> None:
    file.write_bytes(b"\xef\xbb\xbf" + CORNER.read_bytes().replace(b"\n", b"\r\n"))
    os.chmod(file, 0o640)
    assert run("options", file, "--write").code == 0
    raw = file.read_bytes()
    assert raw.startswith(b"\xef\xbb\xbf# A corner") and raw.count(b"\n") == raw.count(b"\r\n")
    assert file.stat().st_mode & 0o777 == 0o640
    assert run("check", file).code == 0


def test_options_that_are_faulty_or_not_there_are_no_hindrance(run, file: Path) -> None:
    head = file.read_text(encoding="utf-8").split("options:")[0]
    for options in ("", "options: 5\n", "options:\n  - {outline: reslt}\n"):
        file.write_text(head + options, encoding="utf-8")
        assert run("options", file, "--write").code == 0
        assert solve(read_item(file)).sound


def test_a_file_in_which_they_cannot_be_put_is_left_as_it_was(run, file: Path) -> None:
    data = yaml.safe_load(file.read_text(encoding="utf-8"))
    file.write_text(yaml.safe_dump(data, default_flow_style=True, width=10000), encoding="utf-8")
    before = file.read_bytes()
    ran = run("options", file, "--write")
    assert ran.code == 2 and "To mend it: run this without --write" in ran.err
    assert file.read_bytes() == before
    assert [path.name for path in file.parent.iterdir()] == [file.name]


def test_faults_elsewhere_are_told_with_their_lines(run, refused: Path) -> None:
    ran = run("options", refused)
    assert ran.code == 2 and ran.out == ""
    assert [line.split(": ")[0] for line in ran.err.splitlines()] == [f"{refused}:5", f"{refused}:8"]


def test_where_there_are_too_few_it_says_why_at_the_line(run, file: Path) -> None:
    text = file.read_text(encoding="utf-8").replace("[[0, 0], [2, 0], [0, 2]]", "[[0, 0], [0.2, 0], [0, 0.2]]")
    text = text.replace("side: [[0, 0], [2, 0]]", "side: [[0, 0], [0.2, 0]]")
    text = text.replace("meets: [[4, 0], [4, 2]]", "meets: [[4, 1], [4, 1.2]]")
    file.write_text(f"{text.split('options:')[0]}options: {{make: 4, seed: 7}}\n", encoding="utf-8")
    for command in ("options", "check", "solve"):
        ran = run(command, file)
        assert ran.code == 2
        assert f"{file}:14: options.make: slips give only" in ran.err and "too near the finished outline" in ran.err


@pytest.mark.parametrize("arguments", [["--make", 1], ["--make", 6], ["--seed", -1], ["--seed", 2**31]])
def test_numbers_out_of_range_are_wrong_usage(run, file: Path, arguments: list[object]) -> None:
    assert (LEAST_OPTIONS, MOST_OPTIONS, MAX_SEED) == (3, 6, 2**31 - 1)
    ran = run("options", file, *arguments)
    assert ran.code == 2 and ran.err.count("Error: ") == 1


def test_an_item_that_asks_for_options_makes_a_lesson(run, file: Path, tmp_path: Path) -> None:
    head = file.read_text(encoding="utf-8").split("options:")[0]
    file.write_text(f"{head}options: {{make: 4, seed: 7}}\n", encoding="utf-8")
    assert run("check", file).code == 0
    assert run("cues", file, "--to", tmp_path / "out").code == 0
