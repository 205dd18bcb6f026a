"""`explainers check`: to the end over several items, a reason for each wrong option, exit codes."""

from __future__ import annotations

import json
import os
import pty
import subprocess
import sys
from pathlib import Path

import pytest


def test_a_sound_item_with_a_reason_for_each_wrong_option(run, sound: Path) -> None:
    ran = run("check", sound)
    assert ran.code == 0
    first, *reasons, pause, source = ran.out.splitlines()
    assert first.split() == ["pocket-block", "sound", "key", "C"]
    assert "(an estimate)" in pause
    assert "Shepard & Metzler 1971" in source
    assert [line.strip()[:2] for line in reasons] == ["A:", "B:"]
    assert all(len(line.strip()) > 8 for line in reasons)


def test_an_unsound_item_says_why(run, unsound: Path) -> None:
    ran = run("check", unsound)
    assert ran.code == 1
    assert "lost-block  not sound  key -" in ran.out
    assert [line.strip()[:2] for line in ran.out.splitlines()[2:]] == ["A:", "B:", "C:"]


@pytest.mark.parametrize(
    ("names", "code"),
    [
        (["sound"], 0),
        (["sound", "unsound"], 1),
        (["unsound", "sound"], 1),
        (["refused", "sound"], 2),
        (["unsound", "refused", "sound"], 2),
    ],
)
def test_the_worst_of_several_decides_and_all_are_checked(run, request, names: list[str], code: int) -> None:
    paths = [request.getfixturevalue(name) for name in names]
    ran = run("check", *paths, "--json")
    assert ran.code == code
    assert len(ran.out.splitlines()) == len(names)


def test_json_has_a_reason_for_every_option(run, sound: Path) -> None:
    found = json.loads(run("check", sound, "--json").out)
    assert list(found) == ["item", "sound", "key", "because", "options", "closing", "warnings", "pause"]
    assert [option["label"] for option in found["options"]] == ["A", "B", "C"]
    assert all(option["reason"] for option in found["options"])


def test_warnings_go_to_stderr_and_change_no_exit_code(run, sound: Path, tmp_path: Path) -> None:
    path = tmp_path / "warned.yaml"
    path.write_text(sound.read_text(encoding="utf-8").replace("mark: K", "mark: N"), encoding="utf-8")
    ran = run("check", path)
    assert ran.code == 0
    assert "warning" not in ran.out
    line = 1 + path.read_text(encoding="utf-8").splitlines().index("    mark: N")
    assert f"{path}:{line}: warning: pocket-block: pieces[0].mark: " in ran.err


def test_nothing_is_cut_short_in_a_pipe(shell, sound: Path) -> None:
    narrow = shell("check", sound, env={"COLUMNS": "20", "TERM": "dumb"})
    assert narrow.code == 0
    assert narrow.out == shell("check", sound).out
    assert "…" not in narrow.out and "\x1b" not in narrow.out


@pytest.mark.parametrize(("encoding", "frame"), [("utf-8", "┏"), ("ascii", "+")])
def test_a_terminal_gets_a_table(sound: Path, unsound: Path, encoding: str, frame: str) -> None:
    inner, outer = pty.openpty()
    code = "from explainers.cli.main import main; main()"
    environment = {**os.environ, "PYTHONIOENCODING": encoding, "COLUMNS": "70", "TERM": "xterm"}
    arguments = [sys.executable, "-c", code, "check", str(sound), str(unsound)]
    with subprocess.Popen(arguments, stdout=outer, stderr=subprocess.PIPE, env=environment) as process:
        os.close(outer)
        shown = b""
        while True:
            try:
                part = os.read(inner, 65536)
            except OSError:  # how Linux says that the other end is closed
                break
            if not part:
                break
            shown += part
        os.close(inner)
    text = shown.decode(encoding)
    assert process.returncode == 1
    assert frame in text
    for word in ("pocket-block", "sound", "lost-block", "not sound"):
        assert word in text


@pytest.mark.parametrize("certificate", [[], ["--certificate"]])
def test_json_says_why_an_item_is_sound_and_why_it_is_not(
    run, sound: Path, unsound: Path, certificate: list[str]
) -> None:
    found = json.loads(run("check", sound, "--json", *certificate).out)
    right, others, *flipped = found["because"]
    assert right.startswith(f"Option {found['key']} is the finished outline: it fits ")
    assert all(option["label"] in others for option in found["options"] if not option["same"])
    assert f" {found['key']}" not in others and len(flipped) == 1
    (why,) = json.loads(run("check", unsound, "--json", *certificate).out)["because"]
    assert "all fit" in why or "No option is right" in why
