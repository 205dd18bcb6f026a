"""What becomes of errors: foreseen ones are said plainly, unforeseen ones without a traceback unless asked for."""

from __future__ import annotations

from pathlib import Path

import pytest
import typer

from explainers.cli.door import at_the_door, tell
from explainers.errors import TRACEBACK_VARIABLE, FactError, Fault, ItemError, OutputError, UnsoundItemError

FAULT = Fault(file="x.yaml", line=3, field="base.corners", message="too few\ncorners", fix="add one")


@pytest.mark.parametrize(
    ("error", "code", "said"),
    [
        (ItemError([FAULT]), 2, "x.yaml:3: base.corners: too few corners. To mend it: add one."),
        (ItemError([FAULT, FAULT]), 2, "To mend it"),
        (UnsoundItemError("x.yaml: not sound"), 1, "x.yaml: not sound"),
        (OutputError("out/deck.pptx: the disk is full"), 2, "out/deck.pptx: the disk is full"),
        (FactError("no corner there"), 2, "no corner there"),
        (FileNotFoundError(2, "No such file or directory", "gone"), 2, "No such file or directory (gone)"),
        (ZeroDivisionError("division by zero"), 2, "the program itself failed here (ZeroDivisionError: division"),
        (MemoryError(), 2, "the program itself failed here (MemoryError)"),
    ],
)
def test_each_error_is_told_in_lines_with_its_code(capsys, monkeypatch, error: Exception, code: int, said: str) -> None:
    monkeypatch.delenv(TRACEBACK_VARIABLE, raising=False)
    assert tell(error, Path("item.yaml")) == code
    lines = capsys.readouterr().err.splitlines()
    assert len(lines) == (len(error.faults) if isinstance(error, ItemError) else 1)
    assert said in lines[0]


def test_a_developer_can_ask_for_the_traceback(monkeypatch) -> None:
    monkeypatch.setenv(TRACEBACK_VARIABLE, "1")
    with pytest.raises(ZeroDivisionError):
        tell(ZeroDivisionError("division by zero"))


@pytest.mark.parametrize(("error", "code"), [(KeyboardInterrupt(), 130), (BrokenPipeError(), 141), (OSError(), 2)])
def test_a_command_leaves_by_the_code_of_its_error(capsys, error: BaseException, code: int) -> None:
    @at_the_door
    def command() -> int:
        raise error

    with pytest.raises(typer.Exit) as left:
        command()
    assert left.value.exit_code == code


def test_one_item_that_the_program_fails_on_does_not_stop_the_others(run, monkeypatch, sound: Path) -> None:
    from explainers.intake.workspace import Workspace

    whole = Workspace.solution
    calls = []

    def fails_once(workspace: Workspace, path: Path, **how: bool) -> object:
        calls.append(path)
        if len(calls) == 1:
            raise ZeroDivisionError("division by zero")
        return whole(workspace, path, **how)

    monkeypatch.setattr(Workspace, "solution", fails_once)
    monkeypatch.delenv(TRACEBACK_VARIABLE, raising=False)
    ran = run("check", sound, sound)
    assert ran.code == 2
    assert "sound      key C" in ran.out
    assert ran.err.startswith(f"{sound}: the program itself failed here (ZeroDivisionError: division by zero)")
