"""Refreshing: the last good picture stays, faults are those of now, nothing that a file can hold ends it."""

from __future__ import annotations

import os
import random
from pathlib import Path

import pytest
from looked_at import CORNER, FIXTURES
from mutations import mutated
from pages_read import read_page

from explainers.errors import Fault, ItemError
from explainers.figure.theme import DEFAULT_THEME
from explainers.figure.themes import DARK
from explainers.intake.workspace import load_solution
from explainers.preview.item_view import sketch_of
from explainers.preview.seen import Seen, looked_again, not_seen_yet
from explainers.preview.subject import PreviewSubject, look_again, pages, subject_of, watched_files

GOOD = (FIXTURES / "pocket-block.yaml").read_bytes()


def again(before: Seen) -> Seen:
    return looked_again(before, patience_s=0.0)


def first(path: Path) -> Seen:
    return again(not_seen_yet(path, ""))


def faults_of(path: Path) -> tuple[Fault, ...]:
    """Read and solved by another way in than the preview's."""
    try:
        load_solution(path)
    except ItemError as error:
        return error.faults
    return ()


def test_a_thousand_broken_files_leave_no_crash_and_no_stale_fault(item: Path, cases) -> None:
    whole = first(item)
    assert whole.good is not None and not whole.faults
    seen, broken, rng = whole, 0, random.Random(20261125)
    for number in range(cases(35, 1000)):
        text = mutated(GOOD, rng)
        item.write_bytes(text)
        before, seen = seen, again(seen)
        now = faults_of(item)
        assert seen.faults == now, number
        assert seen.good == before.good or not now, number
        broken += bool(now)
        sketch_of(item, now)  # raises for nothing either
        for fault in seen.faults:
            assert fault.message and fault.fix and fault.file == str(item), number
            assert "the program itself" not in fault.message, (number, text)
        assert read_page(pages(PreviewSubject(path=item, kind="item", items=(seen,)))["/"].part).well_nested
        item.write_bytes(GOOD)
        seen = again(seen)
        assert not seen.faults, number
        assert seen.good == whole.good, number
    assert broken > cases(35, 1000) // 2


def test_an_unchanged_file_is_not_drawn_again(item: Path) -> None:
    seen = first(item)
    assert again(seen) is seen


def test_a_file_of_the_same_size_and_date_is_known_by_what_it_holds(item: Path) -> None:
    seen = first(item)
    state = item.stat()
    item.write_bytes(GOOD.replace(b"does: cut", b"does: fld"))
    os.utime(item, ns=(state.st_atime_ns, state.st_mtime_ns))
    assert again(seen).faults


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (b"", "the file is empty"),
        (GOOD[: len(GOOD) // 2], ""),
        (GOOD.decode().replace("pocket", "p\u00f6cket").encode("latin-1"), "not UTF-8"),
        (GOOD.decode().encode("utf-16"), "UTF-16"),
        (b"x" * 10_000_000, "10,000,000 bytes"),
        (GOOD.replace(b"[0, 0]", b"[.nan, 0]", 1), "nan"),
        (b"[" * 100_000, ""),
        (b"a: &a [1]\nb: [*a, *a]\n", ""),
        (b"\x00" * 100, ""),
    ],
)
def test_what_an_editor_or_a_bad_day_may_leave(item: Path, text: bytes, said: str) -> None:
    good = first(item)
    item.write_bytes(text)
    held = again(good)
    assert held.faults and held.good == good.good
    assert any(said in fault.message for fault in held.faults)
    part = read_page(pages(PreviewSubject(path=item, kind="item", items=(held,)))["/"].part).text
    assert said in part and held.faults[0].fix in part and f"drawn at {good.good_at}" in part
    item.write_bytes(GOOD)
    assert not again(held).faults


def test_gone_renamed_over_made_a_folder_unreadable(item: Path, tmp_path: Path) -> None:
    seen = good = first(item)
    item.unlink()
    seen = again(seen)
    assert "no such file" in seen.faults[0].message and seen.good == good.good
    item.mkdir()
    seen = again(seen)
    assert "a folder" in seen.faults[0].message
    item.rmdir()
    other = tmp_path / "other.tmp"
    other.write_bytes(GOOD)
    other.rename(item)
    seen = again(seen)
    assert not seen.faults and seen.good == good.good
    os.mkfifo(other)
    assert "plain file" in first(other).faults[0].message


def test_a_file_that_vanishes_for_a_moment_while_it_is_saved_is_no_fault(item: Path) -> None:
    import threading

    good = first(item)
    item.unlink()
    threading.Timer(0.05, item.write_bytes, [GOOD]).start()
    assert not looked_again(good, patience_s=0.5).faults


def test_all_faults_of_a_file_are_shown_with_line_field_message_and_fix(item: Path) -> None:
    text = GOOD.replace(b"does: cut", b"does: fold").replace(b"title:", b"titel:")
    item.write_bytes(text)
    seen = first(item)
    assert len(seen.faults) >= 2
    part = read_page(pages(PreviewSubject(path=item, kind="item", items=(seen,)))["/"].part).text
    for fault in seen.faults:
        assert f"line {fault.line}" in part and fault.field in part
        assert " ".join(fault.message.split()) in part and " ".join(fault.fix.split()) in part


def test_a_file_that_never_was_good_shows_what_can_be_read_of_it(item: Path) -> None:
    item.write_bytes(GOOD.replace(b"outline: result", b"outline: reslut", 1))
    seen = first(item)
    assert seen.faults and seen.good is None and seen.draft is not None
    assert "What can be read of the file" in read_page(seen.draft).text
    item.write_bytes(GOOD)
    seen = again(seen)
    assert seen.good is not None and seen.draft is None and not seen.faults


def test_a_fault_of_the_program_itself_does_not_end_the_watching(item: Path, monkeypatch) -> None:
    good = first(item)
    with monkeypatch.context() as patch:
        patch.setattr("explainers.preview.item_view.item_view", lambda *_: 1 / 0)
        item.write_bytes(GOOD + b"# changed\n")
        seen = again(good)
    assert "the program itself failed" in seen.faults[0].message and seen.good == good.good
    item.write_bytes(GOOD)
    assert not again(seen).faults


def lesson_of(folder: Path, *names: str) -> Path:
    path = folder / "first-blocks.yaml"
    parts = "".join(f"  - {{show: {name}, as: worked-example}}\n" for name in names)
    path.write_text(f"lesson: first-blocks\ntitle: First blocks\nparts:\n{parts}", encoding="utf-8")
    return path


def test_a_lesson_keeps_its_items_while_its_own_file_is_broken(item: Path, tmp_path: Path) -> None:
    other = tmp_path / "corner-block.yaml"
    other.write_bytes(CORNER.read_bytes())
    path = lesson_of(tmp_path, item.name, other.name)
    subject = subject_of(path)
    assert subject.kind == "lesson" and [seen.path.name for seen in subject.items] == [item.name, other.name]
    assert set(pages(subject)) == {"/", "/item/pocket-block/", "/item/corner-block/"}
    whole = path.read_bytes()
    path.write_bytes(whole.replace(b"as: worked-example", b"as: werked-example", 1))
    broken = look_again(subject)
    assert broken.faults and broken.items == subject.items
    assert "werked-example" in read_page(pages(broken)["/"].part).text
    path.write_bytes(whole)
    assert look_again(broken) == subject


def test_the_items_of_a_lesson_wear_its_theme_as_long_as_it_can_be_read(item: Path, tmp_path: Path) -> None:
    own = tmp_path / "club.yaml"
    own.write_text("theme: club\nlike: dark\n", encoding="utf-8")
    path = lesson_of(tmp_path, item.name)
    plain = path.read_text(encoding="utf-8")
    subject = subject_of(path)
    assert subject.theme is DEFAULT_THEME and DARK.base not in (subject.items[0].good or "")
    path.write_text(f"theme: {own.name}\n{plain}", encoding="utf-8")
    subject = look_again(subject)
    assert not subject.faults and subject.theme.base == DARK.base and own in watched_files(subject)
    assert all(page.theme == subject.theme for page in pages(subject).values())
    assert DARK.base in (subject.items[0].good or "") and DARK.outline in (subject.items[0].small or "")
    own.write_text("theme: club\nlike: drak\n", encoding="utf-8")
    broken = look_again(subject)
    assert broken.faults and broken.theme == subject.theme and broken.items == subject.items
    assert "drak" in read_page(pages(broken)["/"].part).text
    path.write_text(plain, encoding="utf-8")
    assert look_again(broken).theme is DEFAULT_THEME


def test_a_folder_shows_what_is_in_it_now(item: Path, tmp_path: Path) -> None:
    subject = subject_of(tmp_path)
    assert subject.kind == "folder" and len(subject.items) == 1
    (tmp_path / "torn block!.yaml").write_bytes(b"item: torn\n")
    (tmp_path / "first.yaml").write_bytes(b"lesson: first\nparts: []\n")
    subject = look_again(subject)
    assert [seen.slug for seen in subject.items] == ["pocket-block", "torn-block"]
    text = read_page(pages(subject)["/"].part).text
    assert "to mend" in text and "sound: the answer is C" in text
    item.unlink()
    assert [seen.slug for seen in look_again(subject).items] == ["torn-block"]
    subject = subject_of(tmp_path / "nowhere")
    assert subject.items[0].faults


def test_two_items_of_one_name_have_pages_of_their_own(item: Path, tmp_path: Path) -> None:
    inner = tmp_path / "inner"
    inner.mkdir()
    (inner / item.name).write_bytes(GOOD)
    path = lesson_of(tmp_path, item.name, f"inner/{item.name}")
    assert len(pages(subject_of(path))) == 3
