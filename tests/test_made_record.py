"""The note beside outputs: whatever stands in it, it is read without a fault, and names nothing outside its folder."""

from __future__ import annotations

import json
import os
from pathlib import Path

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from explainers.made_folder import MadeFolder, key_of
from explainers.made_record import (
    NO_RECORD,
    RECORD_NAME,
    FileNote,
    MadeRecord,
    OutputNote,
    is_plain_name,
    read_record,
    write_record,
)
from explainers.safe_write import write_text

JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=8),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=8), inner, max_size=3),
    max_leaves=12,
)
ODD = ["a.pptx", "stills/a.png", "../a", "/a", "a/b/c", ".a", "a/.b", "a\0b", ""]
NAMES = st.text(max_size=12) | st.sampled_from(ODD)
FILES = st.dictionaries(
    NAMES, st.fixed_dictionaries({"of": st.text(max_size=8) | JSON, "size": st.integers() | JSON, "sha256": JSON})
)
NOTES = st.fixed_dictionaries(
    {"format": st.just(2) | JSON, "files": FILES | JSON, "outputs": JSON, "sources": JSON}
) | st.fixed_dictionaries({"outputs": st.dictionaries(st.text(max_size=8), st.dictionaries(NAMES, st.integers()))})


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("made")


@given(note=NOTES | JSON)
def test_any_json_is_a_note_or_none(folder: Path, note: object) -> None:
    (folder / RECORD_NAME).write_text(json.dumps(note), encoding="utf-8")
    record = read_record(folder)
    assert all(is_plain_name(name) for name in record.files)
    assert all((folder / name).resolve().is_relative_to(folder.resolve()) for name in record.files)


@given(data=st.binary(max_size=60))
@example(data=b"[" * 200_000)
@example(data=b'{"files":' * 200_000)
@example(data=b"9" * 200_000)
@example(data=b"1e400")
@example(data=b"\xff")
@example(data=b"null")
def test_any_bytes_are_a_note_or_none(folder: Path, data: bytes) -> None:
    (folder / RECORD_NAME).write_bytes(data)
    assert read_record(folder) == NO_RECORD


def test_what_is_written_is_read_again(tmp_path: Path) -> None:
    record = MadeRecord(
        files={"stills/001-a.png": FileNote(key="a:stills", size=3, prints=("ab", "cd"))},
        outputs={"a:stills": OutputNote(made_from="x"), "a:index": OutputNote(made_from="y", beside="z")},
        sources={"a:stills": ("../../a.yaml",)},
    )
    write_record(tmp_path, record)
    assert read_record(tmp_path) == record


def test_a_note_that_knew_sizes_alone_lets_files_be_written_over_and_nothing_be_removed(tmp_path: Path) -> None:
    for name in ("a.txt", "b.txt", "edited.txt"):
        (tmp_path / name).write_text("old")
    sizes = {"a.txt": 3, "b.txt": 3, "edited.txt": 2}
    note = {"made_from": "x", "outputs": {"stills": sizes}, "beside": ""}
    (tmp_path / RECORD_NAME).write_text(json.dumps(note), encoding="utf-8")
    made, key = MadeFolder(tmp_path, [tmp_path / "item.yaml"]), key_of("item", "stills")
    with made.writing(key):
        paths = [write_text(tmp_path / name, "new") for name in ("a.txt", "edited.txt")]
    made.finish(key, "x", paths)
    assert made.aside == [(tmp_path / "edited.txt", tmp_path / "kept-1" / "edited.txt")]
    assert (tmp_path / "b.txt").read_text() == "old" and (tmp_path / "a.txt").read_text() == "new"


def test_a_file_with_two_names_loses_only_ours(tmp_path: Path) -> None:
    """A second name elsewhere for what we wrote: removing ours leaves that one."""
    made, key = MadeFolder(tmp_path / "out", [tmp_path / "item.yaml"]), key_of("item", "stills")
    with made.writing(key):
        paths = [write_text(tmp_path / "out" / "stills" / name, name) for name in ("a.svg", "b.svg")]
    made.finish(key, "x", paths)
    os.link(paths[1], tmp_path / "mine.svg")
    with made.writing(key):
        (again,) = [write_text(paths[0], "new")]
    made.finish(key, "y", [again])
    assert not paths[1].exists() and (tmp_path / "mine.svg").read_text() == "b.svg"
    assert made.aside == [] and made.holds(key, "y") and not made.holds(key, "x")
