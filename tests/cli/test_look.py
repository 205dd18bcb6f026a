"""`explainers look`: one page or one picture an item, exit codes as everywhere, nothing half-written."""

from __future__ import annotations

import signal
import subprocess
import sys
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest


@pytest.fixture(autouse=True)
def _in_a_folder_of_its_own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


def test_a_sound_item_is_written_where_outputs_go(run, sound: Path, tmp_path: Path) -> None:
    ran = run("look", sound)
    assert ran.code == 0 and ran.out == "render_out/pocket-block/look.html\n"
    page = (tmp_path / ran.out.strip()).read_text(encoding="utf-8")
    assert page.startswith("<!doctype html>") and "the answer is C" in page


def test_as_one_picture(run, sound: Path, tmp_path: Path) -> None:
    ran = run("look", sound, "--to", tmp_path / "out" / "pocket.svg")
    assert ran.code == 0
    assert ET.parse(tmp_path / "out" / "pocket.svg").getroot().tag.endswith("svg")


def test_an_unsound_item_is_drawn_all_the_same(run, unsound: Path, tmp_path: Path) -> None:
    ran = run("look", unsound, "--to", tmp_path / "page.html")
    assert ran.code == 1 and "unsound:" in ran.err
    assert "not sound" in (tmp_path / "page.html").read_text(encoding="utf-8")


def test_a_refused_item_tells_every_fault_and_leaves_the_page_before_it(run, refused: Path, tmp_path: Path) -> None:
    page = tmp_path / "page.html"
    page.write_text("as it was", encoding="utf-8")
    ran = run("look", refused, "--to", page)
    assert ran.code == 2 and not ran.out
    assert [line.split(":")[1] for line in ran.err.splitlines()] == ["5", "8", "15"]
    assert page.read_text(encoding="utf-8") == "as it was"
    assert [path.name for path in tmp_path.iterdir() if path.name.startswith(".")] == []


def test_a_folder_and_a_lesson_give_a_page_an_item(run, sound: Path, unsound: Path, tmp_path: Path) -> None:
    folder = tmp_path / "items"
    folder.mkdir()
    for path in (sound, unsound):
        (folder / path.name).write_bytes(path.read_bytes())
    lesson = folder / "first.yaml"
    lesson.write_text("lesson: first\nparts:\n  - {show: pocket-block.yaml, as: worked-example}\n", encoding="utf-8")
    ran = run("look", folder)
    assert ran.code == 1
    assert ran.out.split() == ["render_out/lost-block/look.html", "render_out/pocket-block/look.html"]
    assert run("look", lesson).out.split() == ["render_out/pocket-block/look.html"]
    ran = run("look", folder, "--to", "page.html")
    assert ran.code == 2 and "2 items" in ran.err and not (tmp_path / "page.html").exists()


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["nowhere.yaml"], "no such file"),
        (["nowhere.yaml", "--watch"], "no such file"),
        (["ITEM", "--to", "page.pdf"], ".html or .svg"),
        (["ITEM", "--to", "page.html", "--watch"], "--watch"),
        (["."], "no item"),
    ],
)
def test_what_cannot_be_done_is_said_with_what_to_do(run, sound: Path, arguments: list[str], said: str) -> None:
    ran = run("look", *[str(sound) if word == "ITEM" else word for word in arguments])
    assert ran.code == 2
    assert said in ran.err
    assert "To mend it" in ran.err and "Traceback" not in ran.err


@pytest.mark.parametrize(("signal_", "code"), [(signal.SIGINT, 0), (signal.SIGTERM, 0)])
def test_watching_ends_quietly_when_it_is_told_to(sound: Path, signal_: signal.Signals, code: int) -> None:
    program = "from explainers.cli.main import main; main()"
    process = subprocess.Popen(
        [sys.executable, "-c", program, "look", str(sound), "--watch"],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    assert process.stdout is not None
    assert process.stdout.readline().startswith("http://127.0.0.1:")
    process.send_signal(signal_)
    _, said = process.communicate(timeout=30)
    assert process.returncode == code
    assert said.splitlines() == [f"explainers: looking at {sound}; Ctrl-C ends it"]


def test_looking_loads_neither_manim_nor_slides(sound: Path) -> None:
    code = (
        "import sys\nfrom explainers.cli.main import main\n"
        "try: main()\nexcept SystemExit: pass\n"
        "sys.exit(repr([n for n in ('manim', 'pptx', 'av', 'cairo', 'watchfiles') if n in sys.modules]))"
    )
    ran = subprocess.run([sys.executable, "-c", code, "look", str(sound)], capture_output=True, text=True, check=False)
    assert ran.stderr.splitlines()[-1] == "[]"


FINE = """\
item: long-block
base:
  corners: [[0, 0], [12, 0], [12, 4], [0, 4]]
pieces:
  - {piece: tab, does: join, corners: [[0, 0], [1, 0], [0, 3]], turned: 50, side: 1, meets: [[3, 4], [4, 4]]}
options:
  - {outline: result}
  - {outline: result, slip: flipped}
  - {outline: result, slip: left-out, piece: tab}
"""


def test_fine_options_are_told_where_options_are_looked_at_and_once_on_the_page(run, tmp_path: Path) -> None:
    path = tmp_path / "long-block.yaml"
    text = FINE.replace("[[0, 0], [1, 0], [0, 3]]", "[[0, 0], [1, 0], [1, 0.6], [0, 0.6]]")
    path.write_text(text, encoding="utf-8")
    fine = "too fine to be seen well"
    (told,) = [line for line in run("check", path).err.splitlines() if fine in line]
    assert told.startswith(f"{path}:7: warning: ") and "To mend it: draw those sides longer" in told
    assert 'accepted: {fine-options: "your reason"}' in told
    run("look", path, "--to", tmp_path / "look.html")
    page = (tmp_path / "look.html").read_text(encoding="utf-8")
    assert page.count(fine) == 1 and page.count(", as told at the top") == 2  # two options are ringed
    assert fine not in run("cues", path).err and fine not in run("build", path, "--only", "description").err
    path.write_text(text + "accepted: {fine-options: they are seen in print}\n", encoding="utf-8")
    assert fine not in run("check", path).err
