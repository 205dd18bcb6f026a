"""The lesson of an item on the table: told as it would be built, its words put into its file, built from the page."""

from __future__ import annotations

import time
from collections.abc import Iterator
from pathlib import Path
from shutil import copy
from typing import Any
from xml.etree import ElementTree

import pytest
from asking import Page, drawn_on
from outputs.html_pages import CHROMIUM, ITEMS
from playwright.sync_api import Browser, expect
from test_sitting import CORNER

from explainers.batch import timeline_of
from explainers.document.text_places import CannotEdit
from explainers.intake.reader import read_lesson
from explainers.table.lesson_words import WordsClash, put_words, with_words
from explainers.table.lessons_beside import LessonsBeside
from explainers.table.server import TableServer

LESSON = """\
# Ours, for the spring term.
lesson: spring
parts:
  - {show: corner-block.yaml, as: worked-example}   # the easy one
  - show: border-block.yaml
    as: your-turn
words:
  # said on Mondays
  corner-block.flag.marks: "Find the leaves."   # short
"""
TURN = "corner-block.flag.turn"


@pytest.fixture
def path(tmp_path: Path) -> Path:
    made = tmp_path / "corner-block.yaml"
    made.write_text(CORNER, encoding="utf-8")
    return made


@pytest.fixture
def lesson(path: Path) -> Path:
    made = path.with_name("spring.yaml")
    made.write_text(LESSON, encoding="utf-8")
    copy(ITEMS / "border-block.yaml", path.parent)
    return made


@pytest.fixture
def server(path: Path) -> Iterator[TableServer]:
    with drawn_on(path) as served:
        yield served


def steps_of(page: Page) -> dict[str, dict[str, Any]]:
    return {step["id"]: step for step in page.get("strip")["steps"]}


def test_an_item_alone_is_told_as_it_would_be_built(server: TableServer, path: Path) -> None:
    page = Page(server)
    strip = page.get("strip")
    told = [(step["id"], step["said"]) for step in strip["steps"]]
    assert told == [(step.id, " ".join(step.narration)) for step in timeline_of(path).storyboard.steps]
    assert strip["lesson"] == "" and strip["lessons"] == [] and strip["offer"] == "corner-block-lesson.yaml"
    keys = [step["key"] for step in strip["steps"]]
    for key in (keys[0], keys[4]):
        status, svg = page.asked("GET", f"/{server.secret}/still/{key}")
        assert status == 200 and ElementTree.fromstring(svg).tag.endswith("svg")
    page.edit({"do": "set", "at": "pieces[0].turned", "value": 100})
    after = {step["id"]: step["key"] for step in page.get("strip")["steps"]}
    same = [step["id"] for step in strip["steps"] if after.get(step["id"]) == step["key"]]
    assert "corner-block.outline" in same and TURN in after and TURN not in same


def test_a_step_moves_as_its_motions_do(server: TableServer, path: Path) -> None:
    page = Page(server)
    step = steps_of(page)[TURN]
    planned = next(each for each in timeline_of(path).storyboard.steps if each.id == TURN)
    status, told = page.post("motion", {"key": step["key"]})
    moved = told["motion"]
    assert status == 200 and step["moves"]
    assert [each["seconds"] for each in moved["motions"]] == [
        beat.seconds for beat in planned.beats if hasattr(beat, "seconds")
    ]
    assert moved["motions"][-1]["to"] == moved["after"] and len(moved["figures"]) >= 2
    assert all(colour.startswith("#") for colour in moved["colours"])
    assert page.post("motion", {"key": "0" * 32})[0] == 422 and page.post("motion", {"key": "../x"})[0] == 422


def test_nothing_is_told_of_what_is_not_sound(server: TableServer) -> None:
    page = Page(server)
    page.edit({"do": "marry", "piece": 0, "meets": [[0, 0], [4, 0]]})
    strip = page.get("strip")
    assert strip["steps"] == [] and strip["why"]
    assert page.post("build", {"outputs": ["page"]})[0] == 422


def test_of_a_lesson_the_part_of_the_item_is_told(lesson: Path, server: TableServer) -> None:
    page = Page(server)
    strip = page.get("strip")
    assert strip["lesson"] == "spring.yaml" and strip["lessons"] == ["spring.yaml"]
    planned = [step for step in timeline_of(lesson).storyboard.steps if step.item == "corner-block"]
    assert [(step["id"], step["said"]) for step in strip["steps"]] == [
        (step.id, " ".join(step.narration)) for step in planned
    ]
    assert page.post("lesson", {"lesson": "../spring.yaml"})[0] == 422
    assert page.post("lesson", {"lesson": ""})[0] == 200
    assert page.get("strip")["steps"][0]["id"] == "corner-block.opening"


def test_words_go_into_the_lesson_and_are_held_against_the_picture(lesson: Path, server: TableServer) -> None:
    page = Page(server)
    strip = page.get("strip")
    asked = {"lesson": "spring.yaml", "step": TURN, "said": "Turn the flag by 90 degrees.", "was": ""}
    assert page.post("words", asked)[0] == 200
    step = steps_of(page)[TURN]
    assert step["own"] == step["said"] == asked["said"] and "135" in step["warnings"][0]["message"]
    assert step["key"] == next(each["key"] for each in strip["steps"] if each["id"] == TURN)  # the picture is the same
    assert lesson.read_text() == f'{LESSON}  {TURN}: "Turn the flag by 90 degrees."\n'
    assert page.post("words", {**asked, "said": "x" * 3000, "was": asked["said"]})[0] == 422
    assert page.post("words", {**asked, "step": "corner-block.nothing"})[0] == 422
    assert page.post("words", {**asked, "lesson": "corner-block.yaml"})[0] == 422
    assert page.post("words", {**asked, "said": "", "was": asked["said"]})[0] == 200
    assert lesson.read_text() == LESSON
    assert steps_of(page)[TURN]["own"] == ""


def test_words_that_others_changed_meanwhile_are_asked_about(lesson: Path, server: TableServer) -> None:
    page = Page(server)
    page.get("strip")
    theirs = LESSON.replace('"Find the leaves."', "Theirs.").replace("# Ours", "# Yours")
    lesson.write_text(theirs, encoding="utf-8")
    asked = {"lesson": "spring.yaml", "step": "corner-block.flag.marks", "said": "Mine.", "was": "Find the leaves."}
    status, told = page.post("words", asked)
    assert status == 409 and told["why"] == "clash" and told["theirs"] == "Theirs."
    assert lesson.read_text() == theirs
    assert page.post("words", {**asked, "was": "Theirs."})[0] == 200
    assert lesson.read_text() == theirs.replace("Theirs.", '"Mine."')
    assert page.post("words", {**asked, "step": TURN, "was": ""})[0] == 200  # another step's are nobody's business
    assert "# Yours" in lesson.read_text()


def test_an_item_alone_becomes_a_lesson_under_a_free_name(server: TableServer, path: Path) -> None:
    page = Page(server)
    assert page.post("words", {"lesson": "", "step": TURN, "said": "Mine.", "was": ""})[0] == 422
    offer = page.get("strip")["offer"]
    assert page.post("new-lesson", {"name": "../escaped.yaml"})[0] == 422
    path.with_name(offer).write_text("# somebody's\n", encoding="utf-8")
    assert page.post("new-lesson", {"name": offer})[0] == 422  # taken meanwhile
    status, told = page.post("new-lesson", {"name": page.get("strip")["offer"]})
    assert status == 200 and told["lesson"] == "corner-block-lesson-2.yaml"
    assert path.with_name(offer).read_text() == "# somebody's\n"
    made = read_lesson(path.with_name(told["lesson"]))
    assert made.title == "The corner block" and [part.show.name for part in made.parts] == [path.name]
    assert page.get("strip")["lesson"] == told["lesson"]
    assert page.post("words", {"lesson": told["lesson"], "step": TURN, "said": "Mine.", "was": ""})[0] == 200
    assert steps_of(page)[TURN]["own"] == "Mine."
    assert sorted(each.name for each in path.parent.glob("*.yaml")) == sorted([path.name, offer, told["lesson"]])


@pytest.mark.parametrize(
    "text",
    [
        "lesson: a\nparts:\n  - {show: b.yaml}\n",
        "# one\nlesson: a   # two\nparts: [{show: b.yaml}]\n\n# three\n",
        "lesson: a\r\nparts:\r\n  - {show: b.yaml}\r\n",
        "lesson: a\nparts:\n  - {show: b.yaml}\nwords: {a.b: One}\n",
        "lesson: a\nparts:\n  - {show: b.yaml}\nwords:\n  # of the club\n  a.b: One   # two\npace: slow\n",
    ],
)
def test_words_put_in_and_taken_out_leave_every_byte(text: str) -> None:
    put = with_words(text, TURN, 'Say "no": # 1')
    assert put != text and with_words(put, TURN, "") == text
    assert all(remark in put for remark in ("# one", "# two", "# three", "# of the club") if remark in text)


def test_the_last_words_go_and_remarks_around_them_stay() -> None:
    text = f"lesson: a\nwords:\n  # said on Mondays\n  {TURN}: One   # short\n# end\nparts: []\n"
    assert with_words(text, TURN, "") == "lesson: a\nwords: {}   # short\n  # said on Mondays\n# end\nparts: []\n"


def test_words_are_read_anew_and_never_written_over_others(lesson: Path) -> None:
    with pytest.raises(WordsClash):
        put_words(lesson, TURN, "Mine.", "what I saw")
    with pytest.raises(CannotEdit):
        put_words(lesson, TURN, "bad \u202e words" * 400, "")
    lesson.unlink()
    with pytest.raises(CannotEdit):
        put_words(lesson, TURN, "Mine.", "")
    assert not lesson.exists()


def test_lessons_that_show_the_item_are_found_whatever_else_is_wrong_in_them(lesson: Path, path: Path) -> None:
    folder = path.parent
    (folder / "broken.yaml").write_text("lesson: broken\nparts:\n  - {show: corner-block.yaml}\nfoo: 1\n")
    (folder / "other.yaml").write_text("lesson: other\nparts:\n  - {show: border-block.yaml}\n# corner-block.yaml\n")
    (folder / "odd.yaml").write_bytes(b"lesson: odd # corner-block.yaml\nparts: {\n")
    elsewhere = folder / "more" / "autumn.yaml"
    elsewhere.parent.mkdir()
    elsewhere.write_text("lesson: autumn\nparts:\n  - {show: ../corner-block.yaml}\n")
    assert list(LessonsBeside(path).found()) == ["broken.yaml", "spring.yaml"]
    assert list(LessonsBeside(path, elsewhere).found()) == ["more/autumn.yaml", "broken.yaml", "spring.yaml"]
    with drawn_on(path) as served:
        strip = Page(served).get("strip")
        assert strip["lesson"] == "broken.yaml" and strip["steps"] == [] and "foo" in strip["why"][0]


def built(page: Page) -> dict[str, Any]:
    for _ in range(600):
        told: dict[str, Any] = page.get("builds")
        if told["state"] != "making":
            return told
        time.sleep(0.1)
    raise AssertionError("the build does not end")


@pytest.mark.full
def test_what_is_built_is_named_and_nothing_of_anybodys_is_written_over(server: TableServer, path: Path) -> None:
    page = Page(server)
    assert page.post("build", {"outputs": []})[0] == 422 and page.post("build", {"outputs": ["../x"]})[0] == 422
    assert page.post("build", {"outputs": ["page", "sheets"], "folder": "/tmp/elsewhere"})[0] == 200
    assert page.post("build", {"outputs": ["page"]})[0] == 409
    told = built(page)
    folder = path.parent / "render_out" / "corner-block"
    assert told["state"] == "made" and told["folder"] == str(folder)
    assert {each["output"]: each["state"] for each in told["outputs"]} == {"page": "made", "sheets": "made"}
    for each in told["outputs"]:
        assert each["files"] and all((folder / name).is_file() for name in each["files"])
    page.post("build", {"outputs": ["page"]})
    assert built(page)["outputs"][0]["state"] == "kept"
    (folder / "corner-block.html").write_text("mine", encoding="utf-8")
    page.edit({"do": "set", "at": "title", "value": "Another"})
    page.post("build", {"outputs": ["page"]})
    told = built(page)
    assert told["state"] == "made" and (folder / "kept-1" / "corner-block.html").read_text() == "mine"
    assert any("kept-1" in line for line in told["said"])


@pytest.mark.full
def test_a_build_is_stopped_and_a_fault_of_its_lesson_is_told(lesson: Path, server: TableServer) -> None:
    page = Page(server)
    assert page.post("build", {"outputs": ["clip"]})[0] == 200
    page.post("stop-build", {})
    told = built(page)
    assert told["state"] == "stopped" and told["outputs"][0]["state"] == "not made"
    lesson.write_text(LESSON.replace("your-turn", "my-turn"), encoding="utf-8")
    page.post("build", {"outputs": ["page"]})
    told = built(page)
    assert told["state"] == "failed" and "spring.yaml:6" in told["said"][0] and "To mend it" in told["said"][0]


@pytest.mark.skipif(not CHROMIUM.exists(), reason="Chromium is not installed")
def test_words_are_changed_in_place_and_a_step_moves(browser: Browser, path: Path) -> None:
    with drawn_on(path) as server:
        page = browser.new_page(viewport={"width": 1280, "height": 720})
        errors: list[str] = []
        page.on("pageerror", lambda error: errors.append(str(error)))
        page.on("console", lambda said: errors.append(said.text))
        page.goto(server.address)
        page.locator("#steps").scroll_into_view_if_needed()
        page.get_by_role("button", name="Make a lesson of it: corner-block-lesson.yaml").press("Enter")
        change = page.locator(f'[data-key="words-{TURN}"]')
        change.press("Enter")
        words = page.locator(f'[data-key="said-{TURN}"]')
        expect(words).to_be_focused()
        words.fill("Turn the flag by 90 degrees.")
        words.press("Control+Enter")
        expect(page.locator("#status")).to_contain_text("Look at it again")
        expect(page.locator(".step", has=change)).to_contain_text("Warning: the words say")
        expect(change).to_be_focused()
        assert f'{TURN}: "Turn the flag by 90 degrees."' in path.with_name("corner-block-lesson.yaml").read_text()
        page.locator(f'[data-key="still-{TURN}"]').press("Enter")
        pause = page.locator('[data-key="player-play"]')
        expect(page.locator("#player h2")).to_be_focused()
        expect(pause).to_have_text("Pause")
        expect(page.locator("#player svg g[transform*='rotate']")).not_to_have_count(0)
        pause.press("Enter")
        expect(pause).to_have_text("Play")
        page.keyboard.press("Escape")
        expect(page.locator(f'[data-key="still-{TURN}"]')).to_be_focused()
        assert not errors
        page.close()


ODD: list[Any] = [None, 3, [], "x", {}, {"lesson": 3, "name": [], "key": {}, "step": None, "outputs": "page"}]
ODD += [{"outputs": [["page"], {}]}, {"outputs": ["page"] * 3 + [None]}, {"key": "0" * 5000}, {"name": "\u0000"}]
SAID = [
    "\u0000",
    "\ud800",
    ": - [",
    "*a",
    "&a b",
    "!!x",
    "# no",
    "'",
    '"',
    "\\",
    "null",
    "~",
    "1e3",
    "yes",
    "<b>bold</b>",
    "{a: b}",
]


def test_what_is_no_request_changes_nothing_and_any_words_are_words(lesson: Path, server: TableServer) -> None:
    page = Page(server)
    page.get("strip")
    for name in ("lesson", "new-lesson", "words", "motion", "build"):
        for body in ODD:
            assert page.post(name, body)[0] == 422, (name, body)
    assert lesson.read_text() == LESSON and not (lesson.parent / "render_out").exists()
    for said in SAID:
        status, _ = page.post("words", {"lesson": lesson.name, "step": TURN, "said": said, "was": ""})
        assert status in (200, 422), said
        if status == 200:
            assert dict(read_lesson(lesson).words)[TURN] == said
            assert page.post("words", {"lesson": lesson.name, "step": TURN, "said": "", "was": said})[0] == 200
        assert lesson.read_text() == LESSON
