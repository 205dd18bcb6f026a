"""`cues` at the door: every file that a recording is made from."""

from __future__ import annotations

from pathlib import Path

from explainers.made_record import RECORD_NAME

SHEET = tuple(f"cues.{kind}" for kind in ("csv", "vtt", "srt", "chapters.vtt", "descriptions.vtt"))
SCRIPT = ("script.html", "script.pdf")


def test_cues_writes_the_sheet_and_the_script(run, sound: Path, tmp_path: Path) -> None:
    ran = run("cues", sound, "--to", tmp_path / "out")
    paths = [tmp_path / "out" / f"pocket-block.{kind}" for kind in (*SHEET, *SCRIPT)]
    assert ran.code == 0 and ran.out.splitlines() == [str(path) for path in paths]
    assert sorted((tmp_path / "out").iterdir()) == sorted([*paths, tmp_path / "out" / RECORD_NAME])
    assert all(path.stat().st_size > 100 for path in paths)


def test_where_the_script_cannot_be_written_the_sheet_is_there_and_the_code_is_2(
    run, sound: Path, tmp_path: Path
) -> None:
    (tmp_path / "pocket-block.script.pdf").mkdir()
    ran = run("cues", sound, "--to", tmp_path)
    assert ran.code == 2 and ran.err.count("\n") == 1 and "pocket-block.script" in ran.err
    assert ran.out.splitlines() == [str(tmp_path / f"pocket-block.{kind}") for kind in SHEET]
    assert (tmp_path / "pocket-block.cues.csv").is_file()
    assert not (tmp_path / "pocket-block.script.html").exists(), "both or none"
