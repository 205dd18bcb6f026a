"""`explainers new`: files that build, named, never written over."""

from __future__ import annotations

import os
from pathlib import Path

import pytest


@pytest.mark.parametrize("kind", ["item", "lesson", "series"])
def test_a_new_file_is_named_and_goes_through_the_other_commands(run, kind: str, tmp_path: Path) -> None:
    ran = run("new", kind, "mine", "--to", tmp_path / "blocks")
    assert (ran.code, ran.err) == (0, "")
    paths = [Path(line) for line in ran.out.splitlines()]
    assert paths[-1] == tmp_path / "blocks" / "mine.yaml" and all(path.is_file() for path in paths)
    ran = run("check", tmp_path / "blocks")
    assert (ran.code, ran.err) == (0, "")
    if kind != "series":
        ran = run("build", paths[-1], "--only", "deck", "--only", "cues", "--to", tmp_path / "out")
        assert ran.code == 0
        made = {path.name for path in (tmp_path / "out" / "mine").iterdir()}
        assert {"mine.pptx", "mine.cues.csv"} <= made


def test_it_is_written_where_one_stands(run, tmp_path: Path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    assert run("new", "item", "my-block", "--like", "kite-block").out == "my-block.yaml\n"
    assert "wing" in (tmp_path / "my-block.yaml").read_text(encoding="utf-8")


@pytest.mark.parametrize("kind", ["item", "lesson", "series"])
def test_nothing_is_written_over(run, kind: str, tmp_path: Path) -> None:
    (tmp_path / "mine.yaml").write_text("my own", encoding="utf-8")
    (tmp_path / "mine.yaml").rename(tmp_path / "kept.txt")
    (tmp_path / "mine.yaml").symlink_to(tmp_path / "nowhere")
    ran = run("new", kind, "mine", "--to", tmp_path)
    assert ran.code == 2 and ran.out == "" and "mine.yaml: is there already. To mend it" in ran.err
    (tmp_path / "mine.yaml").unlink()
    (tmp_path / "mine.yaml").write_text("theme: mine\n", encoding="utf-8")
    ran = run("new", kind, "mine", "--to", tmp_path)
    assert ran.code == 2 and (tmp_path / "mine.yaml").read_text(encoding="utf-8") == "theme: mine\n"
    assert sorted(path.name for path in tmp_path.iterdir()) == ["kept.txt", "mine.yaml"]


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["item", "My Block"], "write my-block"),
        (["item", "a/b"], "--to names the folder"),
        (["item", "mine", "--like", "kite"], "write --like kite-block"),
        (["item", "mine", "--like", "../items/kite-block"], "no demo item called"),
        (["item", "mine", "--like", "zebra"], "with one of basket-block"),
        (["series", "mine", "--like", "kite-block"], "leave --like out"),
    ],
)
def test_what_cannot_be_made_is_said_in_one_line(run, arguments: list[str], said: str, tmp_path: Path) -> None:
    ran = run("new", *arguments, "--to", tmp_path)
    assert ran.code == 2 and said in ran.err and ran.err.count("\n") == 1
    assert list(tmp_path.iterdir()) == []


def test_a_place_that_cannot_be_written_to_is_said(run, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    for kind in ("item", "lesson", "series"):
        ran = run("new", kind, "mine", "--to", tmp_path / "file")
        assert ran.code == 2 and "cannot be written" in ran.err and "To mend it" in ran.err
    assert (tmp_path / "file").read_text(encoding="utf-8") == ""


@pytest.mark.skipif(os.geteuid() == 0, reason="the administrator may write anywhere")
def test_a_folder_without_the_right_to_write_is_said(run, tmp_path: Path) -> None:
    tmp_path.chmod(0o500)
    ran = run("new", "item", "mine", "--to", tmp_path)
    tmp_path.chmod(0o700)
    assert ran.code == 2 and "cannot be written" in ran.err
