"""The cue sheet and its two caption files agree; chapters and descriptions stand beside them."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from oracles.webvtt_rules import chapter_faults, read_strictly, seconds
from storyboard.sample_board import board, one_step, sheet

from explainers.batch import timeline_of
from explainers.outputs.text.cues import write_cues
from explainers.storyboard.model import Still
from explainers.storyboard.paces import PACES
from explainers.storyboard.pacing import pace
from explainers.storyboard.spoken import words_a_minute
from explainers.storyboard.timeline import Timeline

KINDS = ("csv", "vtt", "srt", "chapters.vtt", "descriptions.vtt")


def rows_of(path: Path) -> list[dict[str, str]]:
    text = path.read_bytes().decode("utf-8-sig")
    return list(csv.DictReader(io.StringIO(text, newline="")))


@pytest.fixture(scope="module")
def timeline() -> Timeline:
    return pace(board())


def test_five_files_of_the_lessons_name(timeline: Timeline, tmp_path: Path) -> None:
    paths = write_cues(timeline, tmp_path / "new")
    assert [path.name for path in paths] == [f"sample-block.cues.{kind}" for kind in KINDS]
    assert sorted(path.name for path in (tmp_path / "new").iterdir()) == sorted(path.name for path in paths)


def demo() -> Timeline:
    """With figures that are read out, a pause, chapters."""
    return timeline_of(Path(__file__).parents[2] / "items" / "first-blocks.yaml")


@pytest.mark.parametrize("made", [lambda: pace(board()), demo, lambda: pace(demo().storyboard, PACES["slow"])])
def test_counts_times_and_words_agree_in_all_three(made: Callable[[], Timeline], tmp_path: Path) -> None:
    timeline = made()
    table, vtt, srt, _, _ = write_cues(timeline, tmp_path)
    spoken = [row for row in rows_of(table) if row["words"]]
    cues, wrong = read_strictly(vtt.read_text(encoding="utf-8"))
    blocks = srt.read_text(encoding="utf-8").strip().split("\n\n")
    assert wrong == []
    assert len(spoken) == len(cues) == len(blocks) == len(timeline.cues)
    for row, cue, block in zip(spoken, cues, blocks, strict=True):
        _, timing, *lines = block.split("\n")
        assert (seconds(row["start"]), seconds(row["end"])) == (cue.start, cue.end)
        assert timing.replace(",", ".") == f"{row['start']} --> {row['end']}"
        assert row["words"] == " ".join(cue.lines) == " ".join(lines)


def test_each_row_says_where_it_stands_and_what_is_seen(timeline: Timeline, tmp_path: Path) -> None:
    table = write_cues(timeline, tmp_path)[0]
    assert table.read_bytes().startswith(b"\xef\xbb\xbf"), "spreadsheet programs need the mark"
    rows = rows_of(table)
    assert ",".join(rows[0]) == "step,start,end,chapter,on screen,words,words a minute,whose words"
    assert rows[0]["step"] == "sample-block.task"
    assert rows[0]["chapter"] == "The block"
    assert rows[0]["on screen"] == "A ring, a strip, a flag"
    for row in rows:
        if row["words"]:
            start, end = seconds(row["start"]), seconds(row["end"])
            assert start is not None
            assert end is not None
            assert int(row["words a minute"]) == round(words_a_minute(row["words"], end - start))
            assert int(row["words a minute"]) <= 140


def test_chapters_and_descriptions_keep_to_the_steps_of_the_table(tmp_path: Path) -> None:
    table, _, _, chapters, descriptions = write_cues(demo(), tmp_path)
    rows = rows_of(table)
    starts = {row["chapter"]: seconds(row["start"]) for row in reversed(rows)}
    text = chapters.read_text(encoding="utf-8")
    assert chapter_faults(text) == []
    assert {cue.lines[0]: cue.start for cue in read_strictly(text)[0]} == starts
    cues, wrong = read_strictly(descriptions.read_text(encoding="utf-8"))
    assert wrong == []
    told = [cue.lines[0] for cue in cues]
    assert all(any(row["on screen"].endswith(line) for line in told) for row in rows)


def test_a_silent_step_has_a_row_without_words(timeline: Timeline, tmp_path: Path) -> None:
    (row,) = [row for row in rows_of(write_cues(timeline, tmp_path)[0]) if row["step"] == "sample-block.quiet"]
    assert (row["words"], row["words a minute"]) == ("", "")
    start, end = seconds(row["start"]), seconds(row["end"])
    assert start is not None
    assert end == pytest.approx(start + 2.0, abs=0.001)


@pytest.mark.parametrize("start", ["=", "+", "-", "@"])
def test_no_cell_starts_a_formula(start: str, tmp_path: Path) -> None:
    figure = replace(sheet(), alt=f"{start}A1 is seen")
    storyboard = one_step(f"{start}SUM(1, 2) it says.", beats=(Still(figure=figure),))
    (row,) = rows_of(write_cues(pace(storyboard), tmp_path)[0])
    for cell in row.values():
        assert not cell.startswith(("=", "+", "-", "@"))
    assert f"{start}A1 is seen" in row["on screen"]


def test_the_teachers_own_words_are_marked(timeline: Timeline, tmp_path: Path) -> None:
    whose = {row["step"]: row["whose words"] for row in rows_of(write_cues(timeline, tmp_path)[0])}
    assert whose["sample-block.pause"] == "teacher"
    assert whose["sample-block.task"] == ""
