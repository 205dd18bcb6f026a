"""`explainers cache`: shown, cleared, told to a program."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from explainers.cache.place import shared_store


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("EXPLAINERS_CACHE", str(tmp_path / "kept"))
    monkeypatch.setenv("EXPLAINERS_CACHE_MB", "12")
    store = shared_store()
    for number in range(3):
        store.put(f"{number:064x}", b"x" * 500_000)
    return tmp_path / "kept"


def test_it_says_where_and_how_much(run, folder: Path) -> None:
    ran = run("cache")
    assert (ran.code, ran.err) == (0, "")
    assert ran.out.splitlines() == [
        f"folder:  {folder}",
        "entries: 3",
        "size:    1.5 MB",
        "bound:   12.0 MB",
    ]
    assert json.loads(run("cache", "--json").out) == {
        "folder": str(folder),
        "entries": 3,
        "bytes": 1_500_153,
        "bound_bytes": 12_000_000,
    }


def test_it_is_cleared(run, folder: Path) -> None:
    ran = run("cache", "--clear", "--json")
    assert json.loads(ran.out)["dropped"] == {"entries": 3, "bytes": 1_500_153}
    assert json.loads(ran.out)["entries"] == 0
    assert [path for path in folder.rglob("*") if path.is_file()] == []
    assert run("cache", "--clear").code == 0


def test_a_cache_that_is_not_there_is_empty(run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("EXPLAINERS_CACHE", str(tmp_path / "none"))
    monkeypatch.setenv("EXPLAINERS_CACHE_MB", "0")
    ran = run("cache")
    assert ran.code == 0 and "entries: 0" in ran.out and "nothing is kept" in ran.out
    assert not (tmp_path / "none").exists()
