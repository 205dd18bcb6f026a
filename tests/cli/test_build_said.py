"""What `explainers build` says: a line an output, what was not made again, where to look, what an old name left."""

from __future__ import annotations

from pathlib import Path

import pytest

LESSON = "lesson: {name}\nparts:\n  - {{show: pocket-block.yaml, as: worked-example}}\n"
QUICK = ("--only", "cues", "--only", "description", "--only", "index")


@pytest.fixture
def lesson(sound: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    (tmp_path / sound.name).write_bytes(sound.read_bytes())
    path = tmp_path / "first.yaml"
    path.write_text(LESSON.format(name="first"), encoding="utf-8")
    return path


def test_a_line_an_output_then_where_to_look_first(run, lesson: Path) -> None:
    ran = run("build", lesson, *QUICK)
    folder = Path("render_out/first")
    cues = "first.cues.csv, first.cues.vtt, first.cues.srt, first.cues.chapters.vtt, first.cues.descriptions.vtt"
    assert ran.code == 0 and ran.err == ""
    assert ran.out.splitlines() == [
        f"cues: {folder}/{cues}",
        f"description: {folder}/first.txt",
        f"index: {folder}/index.html",
        f"look first: {folder}/index.html",
    ]


def test_what_is_not_made_again_is_said_with_why(run, lesson: Path) -> None:
    assert run("build", lesson, "--only", "cues").code == 0
    ran = run("build", lesson, *QUICK)
    assert [line.split(":")[0] for line in ran.out.splitlines()] == ["description", "index", "look first"]
    assert ran.err == f"{lesson}: made before from the same files, so not made again: cues\n"


def test_many_files_of_one_output_are_one_line(run, lesson: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def stills(timeline: object, folder: Path, **options: object) -> list[Path]:
        folder.mkdir(parents=True)
        files = [folder / f"{number:03d}.svg" for number in range(94)]
        for file in files:
            file.write_text("<svg/>", encoding="utf-8")
        return files

    monkeypatch.setattr("explainers.outputs.clip.stills.write_stills", stills)
    assert run("build", lesson, "--only", "stills").out == "stills: render_out/first/stills/ (94 files)\n"


def test_the_folder_of_an_old_name_is_mentioned_and_left(run, lesson: Path) -> None:
    assert run("build", lesson, "--only", "description").err == ""
    other = lesson.with_name("other.yaml")
    other.write_text(LESSON.format(name="other"), encoding="utf-8")
    assert run("build", other, "--only", "description").err == ""  # another lesson's folder is nobody's leftover
    lesson.write_text(LESSON.format(name="renamed"), encoding="utf-8")
    ran = run("build", lesson, "--only", "description")
    assert ran.code == 0 and "render_out/renamed/renamed.txt" in ran.out
    (told,) = ran.err.splitlines()
    assert told.startswith("render_out/first: left over from when ") and "render_out/renamed" in told
    assert Path("render_out/first/first.txt").is_file()
    assert "render_out/first" in run("build", lesson, "--only", "description").err


def test_captions_that_stand_beside_the_clip_are_not_written_under_a_second_name(
    run, lesson: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from explainers.outputs.shared.captions import srt_text, vtt_text

    def clip(timeline, folder: Path, **options: object) -> list[Path]:
        folder.mkdir(parents=True, exist_ok=True)
        name = timeline.storyboard.name
        files = {f"{name}.mp4": "a clip", f"{name}.vtt": vtt_text(timeline), f"{name}.srt": srt_text(timeline)}
        for file, text in files.items():
            (folder / file).write_text(text, encoding="utf-8", newline="")
        return [folder / file for file in files]

    monkeypatch.setattr("explainers.outputs.clip.writer.write_clip", clip)
    folder = Path("render_out/first")
    assert run("build", lesson, "--only", "cues").code == 0
    assert (folder / "first.cues.vtt").is_file()
    ran = run("build", lesson, "--only", "cues", "--only", "clip")
    assert [line.split(":")[0] for line in ran.out.splitlines()] == ["clip", "cues"]
    texts = [path.read_bytes() for path in folder.iterdir() if not path.name.startswith(".")]
    assert len(texts) == len(set(texts)) == 6  # clip, captions twice, table, chapters, descriptions
    assert not (folder / "first.cues.vtt").exists() and not (folder / "first.cues.srt").exists()
    assert "nothing to do" in run("build", lesson, "--only", "cues", "--only", "clip").err
    (folder / "first.mp4").unlink()
    assert run("cues", lesson).code == 0
    assert (folder / "first.cues.vtt").is_file()
