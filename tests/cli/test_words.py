"""`explainers words`, and what is told of a teacher's words whenever something is made of the lesson."""

from __future__ import annotations

import json
import os
import shutil
from pathlib import Path

import pytest

DEMO = Path(__file__).parents[2] / "items"
WORDS = """\
words:
  corner-block.flag.turn: "Give the flag its turn."
  corner-block.flag.meet: "Bring one leaf to the other leaf."
"""


@pytest.fixture
def lesson(tmp_path: Path) -> Path:
    """The corner block alone, with few options, and two sentences of the teacher's."""
    shutil.copy(DEMO / "corner-block.yaml", tmp_path)
    item = tmp_path / "corner-block.yaml"
    head, options, rest = item.read_text(encoding="utf-8").partition("options:\n")
    few = [line for line in rest.splitlines() if "turned-back" not in line and "next-side" not in line]
    item.write_text(head + options + "\n".join(few) + "\n", encoding="utf-8")
    path = tmp_path / "one-block.yaml"
    path.write_text(f"lesson: one-block\nparts:\n  - {{show: corner-block.yaml}}\n{WORDS}", encoding="utf-8")
    return path


def note_of(lesson: Path) -> Path:
    return lesson.with_name("one-block.words.json")


def edit(path: Path, old: str, new: str) -> None:
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")


def turn_further(lesson: Path) -> None:
    """The sheet shows the flag 15 degrees further round."""
    edit(lesson.with_name("corner-block.yaml"), "turned: 135", "turned: 150")


def test_words_that_stand_are_not_told_of_and_are_noted_when_something_is_made(run, lesson: Path):
    before = lesson.read_bytes()
    ran = run("cues", lesson, "--to", lesson.parent / "out")
    assert (ran.code, ran.err) == (0, "")
    noted = json.loads(note_of(lesson).read_text(encoding="utf-8"))["words"]
    assert noted["corner-block.flag.turn"]["facts"] == [
        "the flag: a turn of 135 degrees anticlockwise",
        "the flag: its marked side slants down, the piece below it; its partner is upright, to lie right of it",
    ]
    assert lesson.read_bytes() == before, "the teacher's own file is never written to"


def test_looking_alone_notes_nothing(run, lesson: Path):
    assert run("check", lesson.parent).code == 0
    assert run("words", lesson).code == 0
    assert not note_of(lesson).exists()


def test_a_lesson_without_words_gets_no_note(run, lesson: Path):
    edit(lesson, WORDS, "")
    assert run("cues", lesson, "--to", lesson.parent / "out").code == 0
    assert not note_of(lesson).exists()


@pytest.mark.parametrize("command", ["cues", "deck", "build", "check"])
def test_changed_facts_are_told_at_their_line_with_old_and_new(run, lesson: Path, command: str):
    run("cues", lesson, "--to", lesson.parent / "out")
    turn_further(lesson)
    more = ["--to", lesson.parent / "out"] + (["--only", "description"] if command == "build" else [])
    ran = run(command, *([lesson.parent] if command == "check" else [lesson, *more]))
    assert ran.code == 0
    (told,) = [line for line in ran.err.splitlines() if "facts have changed" in line]
    assert told.startswith(f"{lesson}:5: warning: words.corner-block.flag.turn: ")
    then = "the flag: a turn of 135 degrees anticlockwise; the flag: its marked side slants down, the piece below it; "
    now = "the flag: a turn of 120 degrees anticlockwise; the flag: its marked side slants, the piece below it; "
    partner = "its partner is upright, to lie right of it"
    assert f"then: {then}{partner}; now: {now}{partner}. To mend it:" in told
    assert "corner-block.flag.meet" not in ran.err


def test_changed_facts_are_told_until_they_are_accepted(run, lesson: Path):
    run("cues", lesson, "--to", lesson.parent / "out")
    turn_further(lesson)
    for _ in range(2):
        assert "facts have changed" in run("cues", lesson, "--to", lesson.parent / "out").err
    assert "the facts have changed" in run("words", lesson, "--own").out
    ran = run("words", lesson, "--own", "--accept", "corner-block.flag.turn")
    assert ran.code == 0 and "noted in" in ran.err and "facts have changed" not in ran.out
    assert "facts have changed" not in run("words", lesson).err


def test_words_whose_step_is_gone_are_told_with_the_nearest_id_and_the_lesson_is_made_without_them(run, lesson: Path):
    edit(lesson, "flag.meet", "flag.met")
    ran = run("cues", lesson, "--to", lesson.parent / "out")
    assert ran.code == 0
    assert f"{lesson}:6: warning: words.corner-block.flag.met: no step of this lesson has that id" in ran.err
    assert "did you mean corner-block.flag.meet?" in ran.err
    assert "Bring one leaf" not in (lesson.parent / "out" / "one-block.cues.csv").read_text(encoding="utf-8-sig")


def test_gone_words_keep_the_facts_that_they_were_written_for(run, lesson: Path):
    run("cues", lesson, "--to", lesson.parent / "out")
    item = lesson.with_name("corner-block.yaml")
    item.write_text(item.read_text(encoding="utf-8").replace("flag", "tab"), encoding="utf-8")
    ran = run("cues", lesson, "--to", lesson.parent / "out")
    assert ran.code == 0
    assert "its facts were: the flag: a turn of 135 degrees anticlockwise" in ran.err
    assert "corner-block.flag.turn" in note_of(lesson).read_text(encoding="utf-8")


def test_a_contradiction_is_a_warning_at_its_line(run, lesson: Path):
    edit(lesson, "Give the flag its turn.", "Give the flag a quarter turn clockwise.")
    for arguments in (("check", lesson.parent), ("cues", lesson, "--to", lesson.parent / "out"), ("words", lesson)):
        ran = run(*arguments)
        assert ran.code == 0
        assert f'{lesson}:5: warning: words.corner-block.flag.turn: the words say "quarter turn"' in ran.err


def test_each_step_is_listed_with_its_words_and_facts(run, lesson: Path):
    out = run("words", lesson).out
    lines = out.splitlines()
    at = lines.index("corner-block.flag.turn  (yours)")
    assert lines[at + 1 : at + 5] == [
        "    yours: Give the flag its turn.",
        "    instead of: The marked side slants, but its partner is upright. The flag belongs outside, on the right. "
        "Turn it anticlockwise until the marked side is upright. Not clockwise: that would put it on the left. "
        "That is 135 degrees: a quarter turn and half of another.",
        "    fact: the flag: a turn of 135 degrees anticlockwise",
        "    fact: the flag: its marked side slants down, the piece below it; "
        "its partner is upright, to lie right of it",
    ]
    assert "corner-block.outline" in lines
    assert len([line for line in run("words", lesson, "--own").out.splitlines() if not line.startswith(" ")]) == 2


def test_the_ids_of_an_item_alone_are_listed_too(run):
    assert "corner-block.flag.turn\n" in run("words", DEMO / "corner-block.yaml").out


def test_an_unknown_step_cannot_be_accepted(run, lesson: Path):
    ran = run("words", lesson, "--accept", "corner-block.flag.trun")
    assert ran.code == 2 and "there are no words of yours for corner-block.flag.trun" in ran.err
    assert not note_of(lesson).exists()


@pytest.mark.parametrize(
    "note", ["", "{", "[]", '{"words": []}', '{"words": {"a.b": {"said": 1, "facts": [], "print": ""}}}', "\udcff" * 3]
)
def test_a_note_that_cannot_be_read_is_told_and_left_as_it_is(run, lesson: Path, note: str):
    data = note.encode("utf-8", "surrogateescape")
    note_of(lesson).write_bytes(data)
    ran = run("cues", lesson, "--to", lesson.parent / "out")
    assert ran.code == 0
    assert "one-block.words.json: warning: the note of what was true" in ran.err and "delete it" in ran.err
    assert note_of(lesson).read_bytes() == data


@pytest.mark.skipif(os.name != "posix" or os.geteuid() == 0, reason="root may write anywhere")
def test_a_folder_that_cannot_be_written_to_stops_nothing(run, lesson: Path, tmp_path_factory):
    out = tmp_path_factory.mktemp("out")
    lesson.parent.chmod(0o555)
    try:
        ran = run("cues", lesson, "--to", out)
    finally:
        lesson.parent.chmod(0o755)
    assert ran.code == 0 and "could not be noted" in ran.err


def test_what_cannot_be_noted_stops_nothing(run, lesson: Path, monkeypatch):
    from explainers import own_words
    from explainers.errors import OutputError

    def full(*_: object) -> None:
        raise OutputError("the disk is full")

    monkeypatch.setattr(own_words, "write_text", full)
    ran = run("cues", lesson, "--to", lesson.parent / "out")
    assert ran.code == 0 and "could not be noted" in ran.err
    assert (lesson.parent / "out" / "one-block.cues.csv").exists()


def test_what_is_said_is_printed_as_a_block_that_can_be_pasted(run, lesson: Path):
    edit(lesson, WORDS, "")
    ran = run("words", lesson, "--paste", "all")
    assert ran.code == 0 and ran.err == ""
    told = run("words", lesson).out
    lesson.write_text(lesson.read_text(encoding="utf-8") + ran.out, encoding="utf-8")
    ran = run("words", lesson)
    assert (ran.code, ran.err) == (0, ""), "the tool's own sentences are true as the teacher's too"
    assert ran.out.count("(yours)") == told.count("    says: ") - told.count("(nothing is said)") > 5
    ran = run("words", lesson, "--paste", "all")
    assert ran.out.splitlines() == ["# For one-block.yaml, which has words: already: these lines go below it."]


def test_one_step_is_printed_alone_beside_the_words_that_are_there(run, lesson: Path):
    ran = run("words", lesson, "--paste", "corner-block.flag.join", "--paste", "corner-block.flag.turn")
    head, *lines = ran.out.splitlines()
    assert head.startswith("# ") and "words: already" in head
    assert lines[0] == '  corner-block.flag.turn: "Give the flag its turn."'  # the teacher's own
    assert lines[1].startswith('  corner-block.flag.join: "') and len(lines) == 2
    ran = run("words", lesson, "--paste", "corner-block.sail.turn")
    assert ran.code == 2 and ran.out == "" and "To mend it" in ran.err
