"""`explainers new`: files that build, named, never written over."""

from __future__ import annotations

import json
import os
from pathlib import Path

import pytest
from demo_items import demo_items

from explainers.kinds.registry import kind_names


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


@pytest.mark.parametrize("kind", kind_names())
def test_an_item_and_the_first_one_of_a_lesson_are_of_the_kind_asked_for(run, kind: str, tmp_path: Path) -> None:
    for what, name in (("item", "mine"), ("lesson", "my-block")):
        ran = run("new", what, "mine", "--kind", kind, "--to", tmp_path / what)
        assert (ran.code, ran.err) == (0, "")
        path = tmp_path / what / f"{name}.yaml"
        assert f"\nkind: {kind}\n" in path.read_text(encoding="utf-8").replace("#kind", "kind")
        ran = run("check", path)
        assert (ran.code, ran.err) == (0, "")
    ran = run("new", "lesson", "another", "--kind", kind, "--to", tmp_path / "lesson")
    assert ran.code == 2 and "items lie in" in ran.err and "leave --kind out" in ran.err


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
        (["series", "mine", "--kind", "turned-outline"], "leave --kind out"),
        (["item", "mine", "--kind", "turned-outlin"], "write --kind turned-outline"),
        (["item", "mine", "--kind", "zebra"], "the kinds are join-and-cut and turned-outline"),
        (
            ["item", "mine", "--kind", "turned-outline", "--like", "kite-block"],
            "kite-block is of the kind join-and-cut",
        ),
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


HULL = "  walk: right 4, up-right 2, left 8, close\n"
SAIL_AND_PORT = """\
  - piece: sail
    does: join
    corners: [[0, 0], [3, 0], [0, 4]]
    turned: 90
    side: 1
    meets: [[1, 2], [4, 2]]
  - piece: port
    does: cut
    walk: right 2, up 1, left 1, close
    turned: 45
    side: 1
    meets: [[1, 0], [3, 0]]
"""


def test_from_a_new_item_to_a_lesson_of_ones_own_design(run, tmp_path: Path, monkeypatch) -> None:
    """The steps that the README tells, without the clip."""
    monkeypatch.chdir(tmp_path)

    def edit(name: str, old: str, new: str) -> None:
        text = Path(name).read_text(encoding="utf-8")
        assert text.count(old) == 1
        Path(name).write_text(text.replace(old, new), encoding="utf-8")

    steps = [
        ("new", "item", "boat-block"),
        ("look", "boat-block.yaml"),
        lambda: edit("boat-block.yaml", "  corners: [[0, 0], [4, 0], [4, 2], [2, 2], [2, 4], [0, 4]]\n", HULL),
        lambda: edit("boat-block.yaml", boat_pieces(), SAIL_AND_PORT),
        ("check", "--certificate", "boat-block.yaml"),
        ("options", "boat-block.yaml", "--seed", 3, "--write"),
        ("new", "lesson", "boats"),
        lambda: edit("boats.yaml", "as: worked-example}", "as: your-turn, ask: every-piece}"),
        ("build", "boats.yaml", "--only", "deck", "--only", "cues"),
    ]

    def boat_pieces() -> str:
        text = Path("boat-block.yaml").read_text(encoding="utf-8")
        return text[text.index("  - piece: flag") : text.index("\n# 3 to 6 options")]

    assert len(steps) <= 10
    for step in steps:
        if callable(step):
            step()
        else:
            ran = run(*step)
            assert ran.code == 0, step
            assert ran.err == "" or step[0] == "options", step  # which says what it chose, and what else there is
    assert (tmp_path / "render_out" / "boats" / "boats.pptx").is_file()


def _warnings(run, *paths: Path) -> dict[str, list[object]]:
    ran = run("check", "--json", *paths)
    assert ran.code == 0, ran.err
    return {row["item"]: row["warnings"] for row in map(json.loads, ran.out.splitlines()) if row["warnings"]}


def test_demo_items_pass_their_own_warnings(run) -> None:
    assert _warnings(run, *demo_items()) == {}


def test_new_items_pass_their_own_warnings(run, tmp_path: Path) -> None:
    """Of each kind, and those that are like a demo item."""
    for kind in kind_names():
        assert run("new", "item", f"my-{kind}", "--kind", kind, "--to", tmp_path).code == 0
    for like in demo_items():
        assert run("new", "item", f"my-{like.stem}", "--like", like.stem, "--to", tmp_path).code == 0
    written = sorted(tmp_path.glob("*.yaml"))
    assert len(written) == len(kind_names()) + len(demo_items())
    assert _warnings(run, *written) == {}
