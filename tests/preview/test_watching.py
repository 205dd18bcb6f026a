"""Watched as a teacher works: saved in all the ways of editors, a fault appears and goes, files come and go."""

from __future__ import annotations

import hashlib
import random
import threading
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from looked_at import CORNER, FIXTURES
from mutations import mutated

from explainers.preview.subject import PreviewSubject, subject_of
from explainers.preview.watching import keep_looking

GOOD = (FIXTURES / "pocket-block.yaml").read_bytes()
BROKEN = GOOD.replace(b"does: cut", b"does: fold")

Until = Callable[[Callable[[PreviewSubject], object]], PreviewSubject]


class Watched:
    """A path that is watched in a thread; what was told last can be waited for."""

    def __init__(self, path: Path) -> None:
        self.now = subject_of(path)
        self._told = threading.Condition()
        self._stop = threading.Event()
        self._thread = threading.Thread(target=keep_looking, args=(self.now, self._take, self._stop), daemon=True)
        self._thread.start()

    def _take(self, now: PreviewSubject) -> None:
        with self._told:
            self.now = now
            self._told.notify_all()

    def until(self, holds: Callable[[PreviewSubject], object]) -> PreviewSubject:
        with self._told:
            assert self._told.wait_for(lambda: holds(self.now), 20.0), "this never came"
            return self.now

    def end(self) -> None:
        self._stop.set()
        self._thread.join(20.0)
        assert not self._thread.is_alive(), "it does not stop"


@pytest.fixture
def watch() -> Iterator[Callable[[Path], Watched]]:
    started: list[Watched] = []

    def start(path: Path) -> Watched:
        started.append(Watched(path))
        return started[-1]

    yield start
    for watched in started:
        watched.end()


def is_fine(subject: PreviewSubject) -> bool:
    return not subject.items[0].faults and not subject.faults


def in_place(path: Path, data: bytes) -> None:
    path.write_bytes(data)


def by_rename(path: Path, data: bytes) -> None:
    other = path.with_name(f".{path.name}.swp")
    other.write_bytes(data)
    other.replace(path)


def with_a_backup(path: Path, data: bytes) -> None:
    path.rename(path.with_name(f"{path.name}~"))
    path.write_bytes(data)


def gone_for_a_moment(path: Path, data: bytes) -> None:
    path.unlink()
    time.sleep(0.05)
    path.write_bytes(data)


def half_and_half(path: Path, data: bytes) -> None:
    with path.open("wb") as stream:
        stream.write(data[: len(data) // 2])
        stream.flush()
        time.sleep(0.05)
        stream.write(data[len(data) // 2 :])


@pytest.mark.parametrize("save", [in_place, by_rename, with_a_backup, gone_for_a_moment, half_and_half])
def test_a_save_of_any_kind_shows_a_fault_and_mends_it(item: Path, watch, save: Callable[[Path, bytes], None]) -> None:
    watched = watch(item)
    good = watched.now.items[0].good
    save(item, BROKEN)
    held = watched.until(lambda now: any("fold" in fault.message for fault in now.items[0].faults))
    assert held.items[0].good == good
    save(item, GOOD)
    assert watched.until(is_fine).items[0].good == good


def test_a_file_that_goes_and_comes_back(item: Path, watch) -> None:
    watched = watch(item)
    item.unlink()
    watched.until(lambda now: now.items[0].faults)
    item.write_bytes(GOOD)
    watched.until(is_fine)


def test_a_folder_that_is_put_in_anothers_place(tmp_path: Path, watch) -> None:
    folder = tmp_path / "blocks"
    folder.mkdir()
    path = folder / "pocket-block.yaml"
    path.write_bytes(GOOD)
    watched = watch(path)
    folder.rename(tmp_path / "old")
    watched.until(lambda now: now.items[0].faults)
    folder.mkdir()
    path.write_bytes(BROKEN)
    watched.until(lambda now: any("fold" in fault.message for fault in now.items[0].faults))
    path.write_bytes(GOOD)
    watched.until(is_fine)


def test_items_come_and_go_in_a_folder(item: Path, watch) -> None:
    watched = watch(item.parent)
    other = item.parent / "corner-block.yaml"
    other.write_bytes(CORNER.read_bytes())
    watched.until(lambda now: [seen.slug for seen in now.items] == ["corner-block", "pocket-block"])
    other.unlink()
    watched.until(lambda now: [seen.slug for seen in now.items] == ["pocket-block"])


def test_a_lesson_takes_up_items_of_another_folder(item: Path, watch) -> None:
    inner = item.parent / "inner"
    inner.mkdir()
    other = inner / "corner-block.yaml"
    other.write_bytes(CORNER.read_bytes())
    lesson = item.parent / "first-blocks.yaml"
    head = "lesson: first-blocks\nparts:\n  - {show: pocket-block.yaml, as: worked-example}\n"
    lesson.write_text(head, encoding="utf-8")
    watched = watch(lesson)
    lesson.write_text(f"{head}  - {{show: inner/corner-block.yaml, as: your-turn}}\n", encoding="utf-8")
    watched.until(lambda now: len(now.items) == 2)
    other.write_bytes(b"item: torn\n")
    watched.until(lambda now: len(now.items) == 2 and now.items[1].faults)


def test_broken_files_one_after_the_other_leave_no_fault_behind(item: Path, watch, cases) -> None:
    watched = watch(item)
    good, rng = watched.now.items[0].good, random.Random(7)
    for number in range(cases(4, 1000)):
        by_rename(item, mutated(GOOD, rng))
        time.sleep(rng.choice((0.0, 0.01, 0.1)))
        mended = GOOD + f"# round {number}\n".encode()
        in_place(item, mended)
        digest = hashlib.sha256(mended).hexdigest()
        # Seen as it is now, and not as it was before the round began.
        seen = watched.until(lambda now: digest in (now.items[0].stamp or ())).items[0]  # noqa: B023 - called at once
        assert not seen.faults and seen.good == good, number
    in_place(item, BROKEN)
    watched.until(lambda now: any("fold" in fault.message for fault in now.items[0].faults))
