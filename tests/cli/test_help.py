"""Help: examples in every command, nothing heavy loaded, versions told."""

from __future__ import annotations

import subprocess
import sys
from importlib.metadata import version

import pytest

from explainers.cli.lazy_group import COMMANDS, GROUPS, HIDDEN

HEAVY = ("manim", "shapely", "yaml", "numpy", "av", "pptx", "fontTools", "starlette", "uvicorn", "rich.markdown")


def test_the_front_page_lists_every_command_by_what_it_is_for(run) -> None:
    ran = run("--help")
    assert ran.code == 0
    listed = ran.out.split("Show this message and exit.")[1].split("Examples:")[0]
    headings = [line.rstrip(":") for line in listed.splitlines() if line and not line.startswith(" ")]
    assert headings == list(GROUPS)
    words = ("write", "look", "check", "make", "speak", "print", "many")
    assert all(word in " ".join(headings).lower() for word in words)
    for heading, group in GROUPS.items():
        below = listed.split(f"{heading}:\n")[1].split("\n\n")[0]
        assert [line.split()[0] for line in below.splitlines()] == list(group), "a line is folded"
    assert "..." not in listed, "a command's help line is cut short"


def test_no_command_is_listed_that_only_does_what_another_does(run) -> None:
    listed = run("--help").out
    for name in HIDDEN:
        assert f"\n  {name} " not in listed
        assert f"build --only {name}" in run(name, "--help").out  # it goes on working, and says what does the same


@pytest.mark.parametrize("command", ["", *COMMANDS])
def test_every_help_has_examples_that_fit_a_terminal(run, command: str) -> None:
    ran = run(*([command] if command else []), "--help")
    assert ran.code == 0
    examples = [line.strip() for line in ran.out.split("Examples:")[1].splitlines() if " explainers " in line]
    assert len(examples) >= 3
    assert all(line.startswith(f"explainers {command}".strip()) for line in examples)
    assert all(len(line) <= 80 for line in ran.out.splitlines())


@pytest.mark.parametrize("command", COMMANDS)
def test_every_example_is_a_command_line_that_parses(run, command: str) -> None:
    """The words of each example are taken by the command: only then may they end in `--help`."""
    ran = run(command, "--help")
    for line in ran.out.split("Examples:")[1].splitlines():
        if "explainers " not in line:
            continue
        words = line.strip().split("  ")[0].split()[1:]
        assert run(*words, "--help").code == 0


@pytest.mark.parametrize("arguments", [["--help"], ["--version"], ["build", "--help"], ["check", "--help"], []])
def test_help_loads_nothing_heavy(arguments: list[str]) -> None:
    code = (
        "import sys\n"
        "from explainers.cli.main import main\n"
        "try: main()\n"
        "except SystemExit: pass\n"
        f"sys.exit(repr([name for name in {HEAVY!r} if name in sys.modules]))"
    )
    run = subprocess.run([sys.executable, "-c", code, *arguments], capture_output=True, text=True, check=False)
    assert run.stderr.splitlines()[-1] == "[]"


def test_the_version_is_the_packages(run) -> None:
    assert run("--version").out == f"explainers {version('explainers')}\n"


def test_an_unknown_command_names_the_nearest(run) -> None:
    ran = run("chek", "items")
    assert ran.code == 2
    assert "Did you mean 'check'" in ran.err
    assert ran.out == ""


@pytest.mark.parametrize("arguments", [["check"], ["check", "--jsn", "x"], ["build", "--to"]])
def test_wrong_usage_is_one_clear_message(run, arguments: list[str]) -> None:
    ran = run(*arguments)
    assert ran.code == 2
    assert ran.err.count("Error: ") == 1 and "Traceback" not in ran.err


def test_completion_offers_the_commands(shell) -> None:
    ran = shell(env={"_EXPLAINERS_COMPLETE": "complete_bash", "COMP_WORDS": "explainers c", "COMP_CWORD": "1"})
    assert {"check", "clip", "cues"} <= set(ran.out.split())
