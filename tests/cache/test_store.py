"""What is kept comes back, or is made anew: damage, full folders, folders that cannot be used, several processes."""

from __future__ import annotations

import hashlib
import logging
import multiprocessing
import os
import time
from pathlib import Path

import pytest

from explainers.cache.place import cache_folder, shared_store
from explainers.cache.store import Store


def key(name: str) -> str:
    return hashlib.sha256(name.encode()).hexdigest()


@pytest.fixture
def store(tmp_path: Path) -> Store:
    return Store(tmp_path / "cache", 1_000_000)


def files(store: Store) -> list[Path]:
    return [path for path in store.folder.rglob("*") if path.is_file()]


def test_what_was_kept_comes_back_and_nothing_else_does(store: Store) -> None:
    store.put(key("a"), b"drawn")
    store.put(key("b"), b"")
    assert (store.get(key("a")), store.get(key("b")), store.get(key("c"))) == (b"drawn", b"", None)
    store.put(key("a"), b"drawn again")
    assert store.get(key("a")) == b"drawn again"
    assert store.contents().entries == len(files(store)) == 2


@pytest.mark.parametrize("damage", ["cut", "flipped", "empty", "magic"])
def test_a_damaged_entry_is_dropped(store: Store, damage: str) -> None:
    store.put(key("a"), b"drawn" * 100)
    (path,) = files(store)
    data = path.read_bytes()
    spoilt = {
        "cut": data[:-1],
        "flipped": data[:-1] + bytes([data[-1] ^ 1]),
        "empty": b"",
        "magic": b"E" + data[1:],
    }[damage]
    path.write_bytes(spoilt)
    assert store.get(key("a")) is None
    assert files(store) == []


def test_the_least_recently_used_are_dropped(tmp_path: Path) -> None:
    store = Store(tmp_path, 11_000)
    for age, name in enumerate("abcdefghij"):
        store.put(key(name), b"x" * 1000)
        path = tmp_path / key(name)[:2] / key(name)
        os.utime(path, (time.time() - 1000 + age, time.time() - 1000 + age))
    store.trim()
    assert store.contents().entries == 10  # 10 x 1051 bytes: just too many only with one more
    assert store.get(key("a")) is not None  # now the latest
    store.put(key("k"), b"x" * 1000)
    store.trim()
    left = {name for name in "abcdefghijk" if store.has(key(name))}
    assert {"a", "k", "j"} <= left and not {"b", "c"} & left
    assert store.contents().bytes <= 11_000


def test_a_bound_of_nothing_keeps_nothing(tmp_path: Path) -> None:
    store = Store(tmp_path / "cache", 0)
    store.put(key("a"), b"drawn")
    store.trim()
    assert store.get(key("a")) is None and not store.has(key("a"))
    assert not store.folder.exists()


def test_clearing_leaves_what_is_not_ours(store: Store) -> None:
    store.put(key("a"), b"drawn")
    own = store.folder / key("a")[:2] / "letter.txt"
    own.write_text("a user's own")
    assert store.clear().entries == 1
    assert files(store) == [own]
    assert store.contents().entries == 0


def test_a_file_that_a_killed_process_left_is_dropped_in_the_end(store: Store) -> None:
    store.put(key("a"), b"drawn")
    left = store.folder / key("a")[:2] / f"{key('b')}-12345678.part"
    left.write_bytes(b"half")
    store.trim()
    assert left.exists()  # another process may be writing it
    os.utime(left, (time.time() - 7200, time.time() - 7200))
    store.trim()
    assert not left.exists() and store.has(key("a"))


def test_a_folder_that_cannot_be_used_is_passed_over_with_one_warning(
    tmp_path: Path, caplog: pytest.LogCaptureFixture
) -> None:
    (tmp_path / "file").write_text("no folder")
    store = Store(tmp_path / "file" / "cache", 1_000_000)
    with caplog.at_level(logging.WARNING):
        for name in "abc":
            store.put(key(name), b"drawn")
            assert store.get(key(name)) is None
    store.trim()
    assert store.clear().entries == store.contents().entries == 0
    assert len(caplog.records) == 1 and str(store.folder) in caplog.text


def _writes(folder: Path, seed: int) -> None:
    store = Store(folder, 60_000)
    for number in range(200):
        name = str((number * seed) % 40)
        store.put(key(name), name.encode() * 1000)
        found = store.get(key(str(number % 40)))
        assert found in (None, str(number % 40).encode() * 1000)
        if number % 20 == 0:
            store.trim()


def test_several_processes_share_a_folder(tmp_path: Path) -> None:
    context = multiprocessing.get_context("spawn")
    processes = [context.Process(target=_writes, args=(tmp_path, seed)) for seed in (1, 3, 7)]
    for process in processes:
        process.start()
    for process in processes:
        process.join(60)
    assert [process.exitcode for process in processes] == [0, 0, 0]
    store = Store(tmp_path, 60_000)
    assert all(store.get(key(str(n))) in (None, str(n).encode() * 1000) for n in range(40))
    assert not list(tmp_path.rglob("*.part"))


def test_the_folder_is_where_the_environment_says(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("EXPLAINERS_CACHE", str(tmp_path / "named"))
    assert cache_folder() == tmp_path / "named"
    monkeypatch.delenv("EXPLAINERS_CACHE")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "xdg"))
    assert cache_folder() == tmp_path / "xdg" / "explainers"
    monkeypatch.setenv("XDG_CACHE_HOME", "relative")  # to be ignored, XDG Base Directory Specification 0.8
    monkeypatch.setenv("HOME", str(tmp_path))
    assert cache_folder() == tmp_path / ".cache" / "explainers"


@pytest.mark.parametrize(("said", "bound"), [("", 2_000_000_000), ("1.5", 1_500_000), ("0", 0)])
def test_the_bound_is_what_the_environment_says(monkeypatch: pytest.MonkeyPatch, said: str, bound: int) -> None:
    monkeypatch.setenv("EXPLAINERS_CACHE_MB", said)
    assert shared_store().bound == bound


@pytest.mark.parametrize("said", ["much", "-1", "nan", "inf"])
def test_a_bound_that_is_no_number_is_said(
    monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture, said: str
) -> None:
    monkeypatch.setenv("EXPLAINERS_CACHE_MB", said)
    assert shared_store().bound == 2_000_000_000
    assert "EXPLAINERS_CACHE_MB" in caplog.text
