"""From files to outputs: what is made, what is left alone, what is reported."""

from __future__ import annotations

import hashlib
import json
import os
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path
from types import ModuleType

import pytest
from stand_in_timeline import StandInTimeline, stand_in_timeline

from explainers import batch, made_record
from explainers.batch import Built, Job, build
from explainers.cache.place import shared_store
from explainers.choice.words.certificate import PAUSE_SOURCE, print_scale
from explainers.errors import ItemError, OutputError, UnsoundItemError
from explainers.outputs import registry
from explainers.outputs.registry import WriterSpec

DEMO = Path(__file__).parents[1] / "items"
FIXTURES = Path(__file__).parent / "cli" / "fixtures"
OUTPUTS = ("deck", "cues")


class Writers:
    """Stand-ins for the writers: small files, every call noted, a failure on request."""

    def __init__(self) -> None:
        self.calls: list[str] = []
        self.fail: dict[str, Exception] = {}
        self.steps = ["one", "two"]

    def deck(self, timeline: StandInTimeline, folder: Path) -> Path:
        return self.write("deck", timeline, folder, [f"{timeline.storyboard.name}.pptx"])[0]

    def cues(self, timeline: StandInTimeline, folder: Path, progress: object = None) -> list[Path]:
        if progress is not None:
            progress(1, 2)  # type: ignore[operator]
        return self.write("cues", timeline, folder, [f"steps/{step}.txt" for step in self.steps])

    def write(self, output: str, timeline: StandInTimeline, folder: Path, names: list[str]) -> list[Path]:
        self.calls.append(f"{timeline.storyboard.name} {output}")
        if output in self.fail:
            raise self.fail[output]
        for name in names:
            (folder / name).parent.mkdir(parents=True, exist_ok=True)
            (folder / name).write_text(name, encoding="utf-8")
        return [folder / name for name in names]


@pytest.fixture
def writers(monkeypatch: pytest.MonkeyPatch) -> Writers:
    stand_in = Writers()
    module = ModuleType("stand_in_writers")
    module.deck, module.cues = stand_in.deck, stand_in.cues  # type: ignore[attr-defined]
    monkeypatch.setitem(sys.modules, "stand_in_writers", module)
    monkeypatch.setitem(registry.WRITERS, "deck", WriterSpec(target="stand_in_writers:deck", makes="deck"))
    cues = WriterSpec(target="stand_in_writers:cues", makes="cue sheet", reports=True)
    monkeypatch.setitem(registry.WRITERS, "cues", cues)
    monkeypatch.setattr(Job, "timeline", stand_in_timeline)
    return stand_in


@pytest.fixture
def items(tmp_path: Path) -> Path:
    """A folder with one sound item, a lesson that shows it, and a series file, which is no input of its own."""
    folder = tmp_path / "items"
    folder.mkdir()
    shutil.copy(FIXTURES / "pocket-block.yaml", folder)
    (folder / "first.yaml").write_text(
        "lesson: first\ntitle: First blocks\nparts:\n  - {show: pocket-block.yaml, as: worked-example}\n",
        encoding="utf-8",
    )
    (folder / "series.yaml").write_text("series: quilts\n", encoding="utf-8")
    return folder


def made(results: list[Built]) -> dict[str, list[str]]:
    return {result.folder.name: [path.name for path in result.made] for result in results if result.folder is not None}


def test_a_folder_gives_every_lesson_and_item_its_own_folder(writers: Writers, items: Path, tmp_path: Path) -> None:
    results = list(build([items], tmp_path / "out", OUTPUTS))
    assert [result.error for result in results] == [None, None]
    assert made(results) == {
        "first": ["first.pptx", "one.txt", "two.txt"],
        "pocket-block": ["pocket-block.pptx", "one.txt", "two.txt"],
    }
    assert all(path.is_file() for result in results for path in result.made)


def test_a_second_run_does_nothing(writers: Writers, items: Path, tmp_path: Path) -> None:
    first = list(build([items], tmp_path / "out", OUTPUTS))
    writers.calls.clear()
    again = list(build([items], tmp_path / "out", OUTPUTS))
    assert writers.calls == []
    assert all(result.unchanged for result in again)
    assert [set(result.kept) for result in again] == [set(result.made) for result in first]


def test_a_changed_item_is_made_again_with_the_lesson_that_shows_it(
    writers: Writers, items: Path, tmp_path: Path
) -> None:
    list(build([items], tmp_path / "out", OUTPUTS))
    writers.calls.clear()
    item = items / "pocket-block.yaml"
    item.write_text(item.read_text(encoding="utf-8").replace("turned: 90", "turned: 45"), encoding="utf-8")
    list(build([items], tmp_path / "out", OUTPUTS))
    assert writers.calls == ["first deck", "first cues", "pocket-block deck", "pocket-block cues"]


def test_a_changed_lesson_leaves_its_item_alone(writers: Writers, items: Path, tmp_path: Path) -> None:
    list(build([items], tmp_path / "out", OUTPUTS))
    writers.calls.clear()
    lesson = items / "first.yaml"
    lesson.write_text(lesson.read_text(encoding="utf-8").replace("First blocks", "Our first blocks"), encoding="utf-8")
    list(build([items], tmp_path / "out", OUTPUTS))
    assert writers.calls == ["first deck", "first cues"]


def test_a_changed_series_makes_its_lessons_again_in_folders_that_sort(
    writers: Writers, items: Path, tmp_path: Path
) -> None:
    lesson, series = items / "first.yaml", items / "series.yaml"
    lesson.write_text(lesson.read_text(encoding="utf-8") + "series: series.yaml\n", encoding="utf-8")
    series.write_text("series: quilts\nlessons: [first.yaml]\n", encoding="utf-8")
    results = list(build([items], tmp_path / "out", OUTPUTS))
    assert list(made(results)) == ["01-first", "pocket-block"]
    assert made(results)["01-first"][0] == "01-first.pptx"
    writers.calls.clear()
    series.write_text("series: quilts\nlessons: [first.yaml]\ncredit: Ada\n", encoding="utf-8")
    list(build([items], tmp_path / "out", OUTPUTS))
    assert writers.calls == ["01-first deck", "01-first cues"]


@pytest.mark.parametrize("damage", ["missing", "cut short"])
def test_only_the_output_that_was_damaged_is_made_again(
    writers: Writers, items: Path, tmp_path: Path, damage: str
) -> None:
    item = items / "pocket-block.yaml"
    list(build([item], tmp_path / "out", OUTPUTS))
    writers.calls.clear()
    deck = tmp_path / "out" / "pocket-block" / "pocket-block.pptx"
    if damage == "missing":
        deck.unlink()
    else:
        deck.write_bytes(deck.read_bytes()[:-1])
    (result,) = build([item], tmp_path / "out", OUTPUTS)
    assert writers.calls == ["pocket-block deck"]
    assert result.made == (deck,) and not result.unchanged


def test_an_output_asked_for_later_is_added(writers: Writers, items: Path, tmp_path: Path) -> None:
    item = items / "pocket-block.yaml"
    list(build([item], tmp_path / "out", ["deck"]))
    list(build([item], tmp_path / "out", OUTPUTS))
    assert writers.calls == ["pocket-block deck", "pocket-block cues"]
    assert next(build([item], tmp_path / "out", ["cues"])).unchanged


def test_a_new_version_of_the_program_or_of_a_library_makes_all_again(
    writers: Writers, items: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    item = items / "pocket-block.yaml"
    list(build([item], tmp_path / "out", ["deck"]))
    monkeypatch.setattr(made_record, "_program", lambda: "another version")
    assert not next(build([item], tmp_path / "out", ["deck"])).unchanged
    assert len(writers.calls) == 2


def test_the_program_is_known_by_its_source_and_its_libraries(monkeypatch: pytest.MonkeyPatch) -> None:
    before = made_record._program.__wrapped__()
    monkeypatch.setattr(made_record.metadata, "version", lambda library: "999")
    assert made_record._program.__wrapped__() != before


def test_what_an_earlier_run_made_too_much_is_taken_away(writers: Writers, items: Path, tmp_path: Path) -> None:
    item = items / "pocket-block.yaml"
    steps = tmp_path / "out" / "pocket-block" / "steps"
    list(build([item], tmp_path / "out", OUTPUTS))
    (steps / "own.txt").write_text("a teacher's own file", encoding="utf-8")
    item.write_text(item.read_text(encoding="utf-8").replace("turned: 90", "turned: 45"), encoding="utf-8")
    writers.steps = ["two", "three"]
    list(build([item], tmp_path / "out", OUTPUTS))
    assert sorted(path.name for path in steps.iterdir()) == ["own.txt", "three.txt", "two.txt"]


def _note(**changed: object) -> str:
    """A note as it is written, with something else in it."""
    note = {
        "format": 2,
        "outputs": {"pocket-block:deck": {"made_from": "x"}},
        "files": {"pocket-block.pptx": {"of": "pocket-block:deck", "size": 17, "sha256": ["0" * 64]}},
        "sources": {"pocket-block:deck": ["../../items/pocket-block.yaml"]},
    }
    return json.dumps({**note, **changed})


DAMAGED = {
    "nothing": "",
    "a list": "[]",
    "no key": "{}",
    "a number": "7",
    "nothing of that name": "null",
    "no JSON": "{made",
    "cut short": _note()[:40],
    "of another kind": '{"made_from": 3}',
    "a number for files": '{"made_from": "x", "outputs": {"deck": 7}}',
    "an infinite size": '{"made_from": "x", "outputs": {"deck": {"pocket-block.pptx": 1e400}}}',
    "an infinite size now": _note().replace("17", "1e400"),
    "no number as a size": _note().replace("17", "NaN"),
    "a size of many digits": _note().replace("17", "9" * 5000),
    "a size below nothing": _note().replace("17", "-1"),
    "deep nesting": '{"format": 2, "files": ' + "[" * 100_000 + "]" * 100_000 + "}",
    "deep nesting of keys": '{"a":' * 100_000,
    "a NUL in a name": _note(files={"a\0b": {"of": "pocket-block:deck", "size": 1, "sha256": []}}),
    "half a surrogate pair": _note().replace("pocket-block.pptx", "\\ud800.pptx"),
    "a way up": _note().replace("pocket-block.pptx", "../pocket-block.pptx"),
    "a hidden file": _note().replace("pocket-block.pptx", ".profile"),
    "an absolute name": _note().replace("pocket-block.pptx", "/etc/passwd"),
    "a source that is no text": _note(sources={"pocket-block:deck": [7]}),
    "a source with a NUL": _note(sources={"pocket-block:deck": ["a\0b"]}),
    "bytes that are no text": "\xff\xfe",
    "a format to come": _note(format=3),
}


@pytest.mark.parametrize("note", DAMAGED.values(), ids=DAMAGED.keys())
def test_a_note_that_makes_no_sense_is_not_believed(writers: Writers, items: Path, tmp_path: Path, note: str) -> None:
    item = items / "pocket-block.yaml"
    list(build([item], tmp_path / "out", ["deck"]))
    path = tmp_path / "out" / "pocket-block" / made_record.RECORD_NAME
    path.write_bytes(note.encode("latin-1") if note == "\xff\xfe" else note.encode("utf-8"))
    (result,) = build([item], tmp_path / "out", ["deck"])
    assert result.error is None and result.made
    assert next(build([item], tmp_path / "out", ["deck"])).unchanged, "and the new note is believed"


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="pipes with a name are those of Unix")
@pytest.mark.parametrize("what", ["a pipe", "a folder", "a link to a device", "a large file"])
def test_a_note_that_is_no_plain_file_hangs_nothing(writers: Writers, items: Path, tmp_path: Path, what: str) -> None:
    folder = tmp_path / "out" / "pocket-block"
    folder.mkdir(parents=True)
    note = folder / made_record.RECORD_NAME
    if what == "a pipe":
        os.mkfifo(note)
    elif what == "a folder":
        note.mkdir()
    elif what == "a link to a device":
        note.symlink_to("/dev/zero")
    else:
        with note.open("wb") as file:
            file.truncate(1 << 40)  # a hole: it takes no room
    (result,) = build([items / "pocket-block.yaml"], tmp_path / "out", ["deck"])
    if what == "a folder":
        assert isinstance(result.error, OutputError)
    else:
        assert result.error is None and result.made


def test_a_note_from_elsewhere_cannot_have_a_file_outside_removed(
    writers: Writers, items: Path, tmp_path: Path
) -> None:
    """Neither by its name, nor through a folder that is a link, whether the note knows its content or not."""
    outside = tmp_path / "precious.txt"
    outside.write_text("keep", encoding="utf-8")
    folder = tmp_path / "out" / "pocket-block"
    folder.mkdir(parents=True)
    (folder / "away").symlink_to(tmp_path)
    (folder / "link.txt").symlink_to(outside)
    print_ = hashlib.sha256(b"keep").hexdigest()
    for name in ("../../precious.txt", str(outside), "away/precious.txt", "link.txt", "away"):
        for note in (
            {"made_from": "x", "outputs": {"deck": {name: 4}}},
            {
                "format": 2,
                "outputs": {"pocket-block:deck": {"made_from": "x"}},
                "files": {name: {"of": "pocket-block:deck", "size": 4, "sha256": [print_]}},
                "sources": {},
            },
        ):
            (folder / made_record.RECORD_NAME).write_text(json.dumps(note), encoding="utf-8")
            (result,) = build([items / "pocket-block.yaml"], tmp_path / "out", ["deck"])
            assert result.error is None and result.made
            assert outside.read_text(encoding="utf-8") == "keep"
            assert (folder / "away").is_symlink() and (folder / "link.txt").is_symlink()


def test_what_is_out_of_date_goes_only_if_it_is_as_it_was_written(
    writers: Writers, items: Path, tmp_path: Path
) -> None:
    item = items / "pocket-block.yaml"
    steps = tmp_path / "out" / "pocket-block" / "steps"
    writers.steps = ["one", "two", "three"]
    list(build([item], tmp_path / "out", OUTPUTS))
    (steps / "two.txt").write_text("a teacher's own words", encoding="utf-8")
    item.write_text(item.read_text(encoding="utf-8").replace("turned: 90", "turned: 45"), encoding="utf-8")
    writers.steps = ["three"]
    (result,) = build([item], tmp_path / "out", OUTPUTS)
    assert result.error is None
    assert {path.name: path.read_text(encoding="utf-8") for path in steps.iterdir()} == {
        "two.txt": "a teacher's own words",
        "three.txt": "steps/three.txt",
    }


def test_a_failed_output_is_reported_and_the_others_go_on(writers: Writers, items: Path, tmp_path: Path) -> None:
    writers.fail["deck"] = OutputError("the disk is full")
    results = list(build([items], tmp_path / "out", OUTPUTS))
    assert [type(result.error) for result in results] == [OutputError, OutputError]
    assert writers.calls == ["first deck", "pocket-block deck"]
    writers.fail.clear()
    assert all(result.made for result in build([items], tmp_path / "out", OUTPUTS))


def test_a_stopped_run_goes_on_where_it_was(writers: Writers, items: Path, tmp_path: Path) -> None:
    item = items / "pocket-block.yaml"
    writers.fail["cues"] = KeyboardInterrupt()  # type: ignore[assignment]
    with pytest.raises(KeyboardInterrupt):
        list(build([item], tmp_path / "out", OUTPUTS))
    writers.fail.clear()
    writers.calls.clear()
    list(build([item], tmp_path / "out", OUTPUTS))
    assert writers.calls == ["pocket-block cues"]


def test_refused_and_unsound_inputs_are_reported_first_and_the_others_made(
    writers: Writers, items: Path, tmp_path: Path
) -> None:
    shutil.copy(FIXTURES / "lost-block.yaml", items)
    torn = items / "zz-torn.yaml"
    torn.write_text("item: zz-torn\n", encoding="utf-8")
    results = list(build([items], tmp_path / "out", ["deck"]))
    assert [type(result.error) for result in results[:2]] == [UnsoundItemError, ItemError]
    assert str(items / "lost-block.yaml") in str(results[0].error)
    assert sorted(made(results)) == ["first", "pocket-block"]
    assert not (tmp_path / "out" / "lost-block").exists()


def test_a_lesson_of_a_refused_item_is_reported_with_the_items_file(
    writers: Writers, items: Path, tmp_path: Path
) -> None:
    (items / "pocket-block.yaml").write_text("item: pocket-block\n", encoding="utf-8")
    results = list(build([items], tmp_path / "out", ["deck"]))
    assert len(results) == 2 and writers.calls == []
    for result in results:
        assert isinstance(result.error, ItemError)
        assert {fault.file for fault in result.error.faults} == {str(items / "pocket-block.yaml")}


def test_two_inputs_of_one_name_are_an_error_before_anything_is_drawn(
    writers: Writers, items: Path, tmp_path: Path
) -> None:
    second = items / "zz-second.yaml"
    shutil.copy(items / "pocket-block.yaml", second)
    results = list(build([items], tmp_path / "out", ["deck"]))
    assert isinstance(results[0].error, ItemError)
    assert str(results[0].error).startswith(f"{second}")
    assert "'pocket-block' is taken" in str(results[0].error)
    assert writers.calls == ["first deck", "pocket-block deck"]


def test_the_same_file_named_twice_is_made_once(writers: Writers, items: Path, tmp_path: Path) -> None:
    item = items / "pocket-block.yaml"
    results = list(build([item, items, items / ".." / "items" / "first.yaml"], tmp_path / "out", ["deck"]))
    assert [result.error for result in results] == [None, None]
    assert writers.calls == ["pocket-block deck", "first deck"]


def test_a_series_file_named_outright_is_refused(writers: Writers, items: Path, tmp_path: Path) -> None:
    (result,) = build([items / "series.yaml"], tmp_path / "out", ["deck"])
    assert isinstance(result.error, ItemError)


def test_an_unknown_output_is_said_before_any_work(writers: Writers, items: Path, tmp_path: Path) -> None:
    known = ", ".join(sorted(registry.WRITERS))
    with pytest.raises(OutputError, match=f"no output called 'film'; choose from {known}"):
        list(build([items], tmp_path / "out", ["deck", "film"]))
    assert writers.calls == []


def test_progress_names_the_lesson_and_the_output(writers: Writers, items: Path, tmp_path: Path) -> None:
    seen: list[tuple[str, int, int]] = []
    list(build([items / "first.yaml"], tmp_path / "out", OUTPUTS, lambda *news: seen.append(news)))
    assert seen == [("first: cues", 1, 2)]


def test_a_missing_library_is_an_output_error_that_names_it(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "pptx_is_gone", None)
    spec = WriterSpec(target="pptx_is_gone:write", makes="deck")
    with pytest.raises(OutputError, match="deck needs the Python library 'pptx_is_gone'"):
        spec.load()


def test_a_certificate_holds_the_proof_of_each_item_once(tmp_path: Path) -> None:
    """What `check --certificate` prints; an item that is shown twice is proved once."""
    (result,) = build([DEMO / "first-blocks.yaml"], tmp_path, ("certificate",))
    (path,) = result.made
    text = path.read_text(encoding="utf-8")
    assert path.name.endswith(".certificate.txt")
    for solution in result.job.solutions:
        assert text.count(f"({solution.item.name}): sound; option {solution.key} alone is right\n") == 1
    assert text.endswith(f"{print_scale(outline_given=False)}\n{PAUSE_SOURCE}\n")


@pytest.mark.parametrize("name", batch.ALL_OUTPUTS)
def test_every_output_of_the_table_can_be_loaded(name: str) -> None:
    assert callable(registry.writer(name))


# Several at a time: real writers, since a stand-in does not reach another process ---------------------------------


def test_several_at_a_time_make_the_same_files_in_the_same_order(items: Path, tmp_path: Path) -> None:
    shutil.copy(FIXTURES / "lost-block.yaml", items)
    alone = list(build([items], tmp_path / "a", OUTPUTS))
    overall: list[tuple[str, int, int]] = []
    together = list(build([items], tmp_path / "b", OUTPUTS, workers=2, overall=lambda *news: overall.append(news)))
    assert [result.source for result in together] == [result.source for result in alone]
    assert isinstance(together[0].error, UnsoundItemError) and not any(result.error for result in together[1:])
    assert made(together) == made(alone)
    for result in together:
        for path in result.made:
            if path.suffix != ".pptx":  # a deck bears the time at which it was made
                assert path.read_bytes() == (tmp_path / "a" / path.relative_to(tmp_path / "b")).read_bytes()
    assert overall[0] == ("", 0, 2) and sorted(overall[1:])[0][0] == "first"
    assert [news[1:] for news in overall] == [(0, 2), (1, 2), (2, 2)]
    assert all(result.unchanged for result in build([items], tmp_path / "b", OUTPUTS, workers=2) if not result.error)


# The run itself tells which processes make its lessons: a list of processes need not be to be had on every machine.
BUILD = """
import sys
from pathlib import Path
from explainers import process_pool
from explainers.cli.main import main
if __name__ == "__main__":
    started, lessons = process_pool._started, Path(sys.argv[3])
    def told(*call):
        one = started(*call)
        with lessons.open("a") as note:
            note.write(f"{one.process.pid}\\n")
        return one
    process_pool._started = told
    sys.argv = ["explainers", "build", sys.argv[1], "--to", sys.argv[2], "--workers", "2", "--only", "clip"]
    main()
"""


@pytest.mark.skipif(os.name != "posix", reason="signals are those of Unix")
@pytest.mark.parametrize("how", ["the run is told to end", "one lesson is killed"])
def test_a_stopped_bank_leaves_whole_files_and_a_good_cache(items: Path, tmp_path: Path, how: str) -> None:
    out = tmp_path / "out"
    script = tmp_path / "run.py"
    script.write_text(BUILD, encoding="utf-8")
    lessons = tmp_path / "lessons"
    run = subprocess.Popen(
        [sys.executable, str(script), str(items), str(out), str(lessons)],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    store = shared_store()
    while store.contents().entries < 3 and run.poll() is None:
        time.sleep(0.02)
    if how == "one lesson is killed":
        os.kill(int(lessons.read_text().split()[0]), signal.SIGKILL)
    else:
        run.send_signal(signal.SIGTERM)
    said, complained = run.communicate(timeout=300)
    assert "Traceback" not in complained
    if how == "one lesson is killed":
        assert run.returncode == 2 and "ended by signal 9" in complained
        assert (
            len(said.splitlines()) == 1 and said.count(", ") == 2
        )  # the other lesson: its clip, two files of captions
    else:
        assert run.returncode == 130 and said == ""
    deadline = time.monotonic() + 60  # the process that draws for a killed one notices a little later
    while time.monotonic() < deadline and any(path.name.startswith(".") for path in unfinished(out)):
        time.sleep(0.1)
    assert unfinished(out) == []
    kept = [path.name for path in store.folder.glob("??/*")]
    assert len(kept) >= 3 and all(store.get(key) is not None for key in kept)


def unfinished(out: Path) -> list[Path]:
    """Whatever is neither a whole output nor the note of what was made."""
    whole = {".mp4", ".vtt", ".srt"}
    return [
        path
        for path in out.rglob("*")
        if not (path.is_dir() and not path.name.startswith("."))
        and not (path.suffix in whole and not path.name.startswith("."))
        and path.name != made_record.RECORD_NAME
    ]
