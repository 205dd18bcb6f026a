"""Shared by the tests of the commands: the fixture items, a way to run a command inside this process."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest
from typer.testing import CliRunner

from explainers.cli.main import app

FIXTURES = Path(__file__).parent / "fixtures"

FAULTY = """\
item: torn-block
title: The torn block
base:
  corners: [[0, 0], [3, 0], [3, 3], [0, 3]]
  colour: blue
pieces:
  - piece: pocket
    does: fold
    corners: [[0, 0], [1, 0], [0, 2]]
    side: [[0, 0], [1, 0]]
    meets: [[1, 0], [2, 0]]
options:
  - {outline: result}
  - {outline: result, slip: flipped}
  - {corners: [[0, 0], [3, 0], [3, .inf], [0, 3]]}
"""


@dataclass(frozen=True)
class Ran:
    code: int
    out: str
    err: str


@pytest.fixture
def sound() -> Path:
    return FIXTURES / "pocket-block.yaml"


@pytest.fixture
def unsound() -> Path:
    return FIXTURES / "lost-block.yaml"


@pytest.fixture
def refused(tmp_path: Path) -> Path:
    """A file with three faults, on lines 5, 8, 15."""
    path = tmp_path / "torn-block.yaml"
    path.write_text(FAULTY, encoding="utf-8")
    return path


@pytest.fixture
def run() -> Callable[..., Ran]:
    """``run("check", path)``: a command run in this process."""

    def run_(*arguments: object) -> Ran:
        result = CliRunner().invoke(app, [str(argument) for argument in arguments], prog_name="explainers")
        if result.exception is not None and not isinstance(result.exception, SystemExit):
            raise result.exception
        return Ran(result.exit_code, result.stdout, result.stderr)

    return run_


@pytest.fixture
def shell() -> Callable[..., Ran]:
    """``shell("check", path, env={...})``: a command run in a process of its own, through its real way in."""

    def shell_(*arguments: object, env: dict[str, str] | None = None, **settings: object) -> Ran:
        code = "from explainers.cli.main import main; main()"
        result = subprocess.run(
            [sys.executable, "-c", code, *map(str, arguments)],
            capture_output=True,
            text=True,
            check=False,
            env={**os.environ, **(env or {})},
            timeout=120,
            **settings,  # type: ignore[call-overload]
        )
        return Ran(result.returncode, result.stdout, result.stderr)

    return shell_
