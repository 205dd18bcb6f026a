"""`explainers draw` as it is used: a real process, its address, its end."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any
from urllib.request import Request, urlopen

import pytest

Drawing = subprocess.Popen[str]


@pytest.fixture
def block(sound: Path, tmp_path: Path) -> Path:
    """A file of one's own to change."""
    made = tmp_path / "own" / sound.name
    made.parent.mkdir()
    made.write_bytes(sound.read_bytes())
    return made


@pytest.fixture
def draw(tmp_path: Path) -> Iterator[Callable[..., Drawing]]:
    started: list[Drawing] = []

    def start(*arguments: str | Path) -> Drawing:
        code = "from explainers.cli.main import main; main()"
        started.append(
            subprocess.Popen(
                [sys.executable, "-c", code, "draw", *map(str, arguments)],
                stdout=subprocess.PIPE,
                stderr=subprocess.PIPE,
                text=True,
                cwd=tmp_path,
                env={**os.environ, "PYTHONUNBUFFERED": "1", "PYTHONPATH": str(Path(__file__).parents[2])},
            )
        )
        return started[-1]

    yield start
    for process in started:
        process.kill()
        process.wait()


def asked(address: str, path: str, body: Any = None) -> Any:
    sent = None if body is None else json.dumps(body).encode()
    request = Request(address + path, sent, {"Content-Type": "application/json"} if sent else {})
    with urlopen(request, timeout=30) as answer:
        return json.loads(answer.read())


def address_of(process: Drawing) -> str:
    assert process.stdout is not None
    return process.stdout.readline().strip()


def ended(process: Drawing) -> tuple[int, str]:
    process.send_signal(signal.SIGINT)
    _, said = process.communicate(timeout=30)
    return process.returncode, said


def test_a_file_is_drawn_and_an_editor_may_change_it_meanwhile(draw: Callable[..., Drawing], block: Path) -> None:
    process = draw(block)
    address = address_of(process)
    assert asked(address, "state")["verdict"]["state"] == "sound"
    told = asked(address, "edit", {"revision": 1, "commands": [{"do": "set", "at": "title", "value": "Drawn"}]})
    assert told["done"] and "title: Drawn" in block.read_text()
    block.write_text(block.read_text().replace("title: Drawn", "title: Typed"), encoding="utf-8")
    with urlopen(address + "news", timeout=30) as news:
        while asked(address, "state")["title"] != "Typed":
            news.readline()
    code, said = ended(process)
    assert code == 0 and "Traceback" not in said and "Ctrl-C ends it" in said
    assert sorted(os.listdir(block.parent)) == [block.name]


def test_without_a_name_a_new_item_is_begun_and_nothing_is_left_of_one_untouched(
    draw: Callable[..., Drawing], tmp_path: Path
) -> None:
    process = draw("--kind", "turned-outline")
    state = asked(address_of(process), "state")
    assert state["file"]["name"] == "new-item.yaml" and state["kind"] == "turned-outline"
    assert ended(process)[0] == 0
    assert not (tmp_path / "new-item.yaml").exists()
    assert not [name for name in os.listdir(tmp_path) if "journal" in name]


def test_what_was_left_unfinished_is_taken_up_and_told(draw: Callable[..., Drawing], block: Path) -> None:
    process = draw(block)
    asked(address_of(process), "edit", {"revision": 1, "text": "item: [half"})
    process.kill()
    process.wait()
    again = draw(block)
    state = asked(address_of(again), "state")
    assert state["text"] == "item: [half" and state["file"]["taken_up"] and not state["readable"]
    assert "taken up again" in ended(again)[1]


@pytest.mark.parametrize(
    ("arguments", "why"),
    [
        (["--kind", "nothing"], "no kind"),
        (["."], "folder"),
        (["lesson.yaml"], "shows no item"),
        (["several.yaml"], "add --item one-block or two-block"),
        (["several.yaml", "--item", "three-block"], "shows no item three-block"),
        (["several.yaml", "--item", "two-block"], "there is no file"),
        (["item.yaml", "--item", "item"], "is no lesson"),
    ],
)
def test_what_cannot_be_drawn_is_refused(run: Any, tmp_path: Path, arguments: list[str], why: str) -> None:
    (tmp_path / "lesson.yaml").write_text("lesson: one\nparts: []\n", encoding="utf-8")
    parts = "parts: [{show: one-block.yaml}, {show: two-block.yaml}]"
    (tmp_path / "several.yaml").write_text(f"lesson: several\n{parts}\n", encoding="utf-8")
    given = [str(tmp_path / word) if "." in word else word for word in arguments]
    ran = run("draw", *given)
    assert ran.code == 2 and why in ran.err and "To mend it" in ran.err
    assert not list(tmp_path.glob(".*journal"))


@pytest.mark.full
def test_an_item_of_a_lesson_is_drawn_with_that_lesson_told(draw: Callable[..., Drawing], block: Path) -> None:
    lesson = block.parent / "more" / "spring.yaml"
    lesson.parent.mkdir()
    lesson.write_text(f"lesson: spring\nparts:\n  - {{show: ../{block.name}}}\n", encoding="utf-8")
    process = draw(lesson, "--to", block.parent / "made")
    address = address_of(process)
    assert asked(address, "state")["file"]["name"] == block.name
    strip = asked(address, "strip")
    assert strip["lesson"] == "more/spring.yaml" and strip["steps"][0]["id"] == "spring.opening"
    assert strip["folder"] == str(block.parent / "made")
    with urlopen(f"{address}still/{strip['steps'][0]['key']}", timeout=30) as answer:
        assert answer.read().startswith(b"<svg")
    assert asked(address, "motion", {"key": strip["steps"][-1]["key"]})["done"]
    lesson.write_text(lesson.read_text() + "words:\n  spring.opening: Hello.\n", encoding="utf-8")
    assert asked(address, "strip")["steps"][0]["said"] == "Hello."
    asked(address, "build", {"outputs": ["clip"]})
    assert ended(process)[0] == 0
    assert not list((block.parent / "made").rglob("*.mp4"))
