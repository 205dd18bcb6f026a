"""Terminals and pipes: closed, full, gone away, or not UTF-8."""

from __future__ import annotations

import json
import os
import re
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from explainers.cli.streams import SPOKEN

MAIN = [sys.executable, "-c", "from explainers.cli.main import main; main()"]


def test_a_reader_that_goes_away_ends_the_run_quietly(sound: Path) -> None:
    reading, writing = os.pipe()
    os.close(reading)
    run = subprocess.run([*MAIN, "solve", *[str(sound)] * 3], stdout=writing, stderr=subprocess.PIPE, check=False)
    os.close(writing)
    assert run.returncode == 141
    assert run.stderr == b""


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no /dev/full on this system")
@pytest.mark.parametrize("arguments", [["solve"], ["--help"]])
def test_a_full_disk_under_the_output_is_one_line(sound: Path, arguments: list[str]) -> None:
    words = [*arguments, *([str(sound)] if arguments == ["solve"] else [])]
    with open("/dev/full", "wb") as full:
        run = subprocess.run([*MAIN, *words], stdout=full, stderr=subprocess.PIPE, text=True, check=False)
    assert run.returncode == 2
    assert "Traceback" not in run.stderr
    assert run.stderr.count("\n") == 1 and "No space left on device" in run.stderr


def test_a_closed_output_changes_no_exit_code(sound: Path, unsound: Path) -> None:
    for path, code in ((sound, 0), (unsound, 1)):
        run = subprocess.run(
            ["sh", "-c", '"$@" >&- ', "sh", *MAIN, "check", str(path)], stderr=subprocess.PIPE, text=True, check=False
        )
        assert run.returncode == code
        assert "Traceback" not in run.stderr


def test_a_terminal_that_is_not_utf_8_gets_words_for_signs(shell, sound: Path) -> None:
    ran = shell("solve", sound, env={"PYTHONIOENCODING": "ascii"})
    assert ran.code == 0
    assert ran.out.isascii() and "?" not in ran.out and "\\" not in ran.out
    with_signs = shell("solve", sound, env={"PYTHONIOENCODING": "utf-8"}).out
    for sign, spoken in SPOKEN.items():
        with_signs = with_signs.replace(sign, spoken)
    assert ran.out == with_signs


@pytest.mark.parametrize("stop", [signal.SIGINT, signal.SIGTERM])
def test_stopping_it_is_one_line(tmp_path: Path, stop: signal.Signals) -> None:
    fifo = tmp_path / "waiting.yaml"
    code = (
        "import sys, time, explainers.checking.items as checked\n"
        "def wait(paths, workspace):\n"
        "    print('ready', flush=True)\n"
        "    time.sleep(60)\n"
        "checked.solved_each = wait\n"
        "from explainers.cli.main import main; main()"
    )
    with subprocess.Popen(
        [sys.executable, "-c", code, "check", str(fifo)], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    ) as process:
        assert process.stdout is not None and process.stderr is not None
        assert process.stdout.readline() == "ready\n"
        time.sleep(0.05)
        process.send_signal(stop)
        said = process.stderr.read()
        process.wait(timeout=60)
    assert process.returncode == 130
    assert said == "explainers: stopped; what was not yet whole has been left out\n"


EVIL = "a\x1b[31mred\x07\x9b\r\u202eback"


def test_no_key_and_no_name_of_a_file_commands_a_terminal(shell, sound: Path, tmp_path: Path) -> None:
    named = tmp_path / f"{EVIL}.yaml"
    named.write_bytes(sound.read_bytes())
    key = tmp_path / "key.yaml"
    key.write_text(sound.read_text(encoding="utf-8") + '"a\\e[31mred\\a\\x9b\\r\\u202eback": 1\n', encoding="utf-8")
    runs = [
        shell(*words)
        for words in (
            ["check", named], ["check", "--json", named], ["check", key], ["look", f"{named}x"], ["build", f"{named}x"],
            ["new", f"{EVIL}.yaml"],
        )
    ]  # fmt: skip
    for ran in runs:
        for text in (ran.out, ran.err):
            assert not re.search("[\x00-\x08\x0b-\x1f\x7f-\x9f\u202a-\u202e]", text), text
    assert json.loads(runs[1].out)
    assert "\\u001b[31mred" in runs[2].err


def test_an_empty_name_is_not_this_folder(shell, tmp_path: Path) -> None:
    for words in (["check", ""], ["build", "x.yaml", "--to", ""]):
        ran = shell(*words, cwd=tmp_path)
        assert (ran.code, ran.out) == (2, "") and "is empty. To mend it: " in ran.err
    assert list(tmp_path.iterdir()) == []
