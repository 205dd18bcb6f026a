"""The cue sheet and its two caption files agree; chapters and descriptions stand beside them."""

from __future__ import annotations

import csv
import io
import subprocess
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from lxml import etree
from oracles.webvtt_rules import chapter_faults, read_strictly, seconds
from outputs.opened_slides import SOFFICE
from storyboard.sample_board import board, one_step, sheet

from explainers.batch import timeline_of
from explainers.outputs.text.cues import write_cues
from explainers.storyboard.model import Imprint, Step, Still
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
    spoken = rows_of(table)
    cues, wrong = read_strictly(vtt.read_text(encoding="utf-8"))
    blocks = srt.read_text(encoding="utf-8").strip().split("\n\n")
    assert wrong == []
    assert len(spoken) == len(cues) == len(blocks) == len(timeline.cues)
    for row, cue, block in zip(spoken, cues, blocks, strict=True):
        _, timing, *lines = block.split("\n")
        assert (seconds(row["start"]), seconds(row["end"])) == (cue.start, cue.end)
        assert timing.replace(",", ".") == f"{row['start']} --> {row['end']}"
        assert row["words"] == " ".join(cue.lines) == " ".join(lines)


COLUMNS = ["number", "step id", "start", "end", "duration", "chapter", "words", "words a minute",
           "what changes on screen", "whose words"]  # fmt: skip


def test_one_row_a_caption_each_with_a_cell_for_every_column(timeline: Timeline, tmp_path: Path) -> None:
    for made in (timeline, demo()):
        table = write_cues(made, tmp_path)[0]
        assert table.read_bytes().startswith(b"\xef\xbb\xbf"), "spreadsheet programs need the mark"
        head, *cells = csv.reader(io.StringIO(table.read_bytes().decode("utf-8-sig"), newline=""))
        assert head == COLUMNS
        assert {len(row) for row in cells} == {len(COLUMNS)}
        assert [row[0] for row in cells] == [str(number) for number in range(1, len(made.cues) + 1)]
        assert [row[1] for row in cells] == [cue.step_id for cue in made.cues]


def test_each_row_says_where_it_stands_how_long_and_how_fast(timeline: Timeline, tmp_path: Path) -> None:
    rows = rows_of(write_cues(timeline, tmp_path)[0])
    assert rows[0]["step id"] == "sample-block.task"
    assert rows[0]["chapter"] == "The block"
    for row in rows:
        start, end, duration = (seconds(row[name]) for name in ("start", "end", "duration"))
        assert start is not None and end is not None and duration is not None
        assert duration == pytest.approx(end - start, abs=1e-9)
        assert int(row["words a minute"]) == round(words_a_minute(row["words"], end - start))
        assert int(row["words a minute"]) <= 140


def test_what_changes_on_the_screen_is_told_in_few_words_where_it_changes(tmp_path: Path) -> None:
    rows = rows_of(write_cues(demo(), tmp_path)[0])
    told: dict[str, list[str]] = {}
    for row in rows:
        told.setdefault(row["step id"], []).append(row["what changes on screen"])
        assert 0 < len(row["what changes on screen"]) <= 160
    assert told["corner-block.flag.turn"] == [
        "Heading: Turn the flag.",
        "Nothing changes.",
        "New: The turn. Changed: Piece 1.",
        *["Nothing changes."] * 3,
    ]
    assert told["corner-block.flag.meet"][0] == (
        "Heading: The leaves meet. Gone: The turn. Changed: The base and Piece 1."
    )
    assert told["corner-block.ahead"][0] == "Heading: Count the corners. New: Places that are pointed at."
    assert told["corner-block.options"][0].startswith("Heading: The options. New: Option A, Option B, Option C,")
    # A verdict comes into the heading with the last caption, which tells it.
    for step, before, verdict in (
        ("corner-block.sift.corners", "Heading: Count the corners.", "Heading: B, D and E: not 6 corners."),
        ("corner-block.option-k3218.rule-out", "Heading: Option A.", "Heading: A: flipped over."),
    ):
        assert told[step][0].startswith(before)
        assert [row.startswith(verdict) for row in told[step]].index(True) > 0


def test_chapters_and_whole_pictures_stand_in_files_of_their_own(tmp_path: Path) -> None:
    made = demo()
    table, _, _, chapters, descriptions = write_cues(made, tmp_path)
    starts = {row["chapter"]: seconds(row["start"]) for row in reversed(rows_of(table))}
    text = chapters.read_text(encoding="utf-8")
    assert chapter_faults(text) == []
    assert {cue.lines[0]: cue.start for cue in read_strictly(text)[0]} == starts
    cues, wrong = read_strictly(descriptions.read_text(encoding="utf-8"))
    assert wrong == []
    told = [cue.lines[0] for cue in cues]
    for step in made.storyboard.steps:
        assert any(" ".join(step.picture.alt.split()).endswith(line) for line in told), step.id


def test_a_step_in_which_nothing_is_said_has_no_row(timeline: Timeline, tmp_path: Path) -> None:
    rows = rows_of(write_cues(timeline, tmp_path)[0])
    assert "sample-block.quiet" in [step.id for step in timeline.storyboard.steps]
    assert "sample-block.quiet" not in [row["step id"] for row in rows]


def test_what_must_be_said_of_the_words_is_a_cell_and_no_row(timeline: Timeline, tmp_path: Path) -> None:
    draft = replace(timeline.storyboard, imprint=Imprint(draft="Language xx: nobody has read this."))
    rows = rows_of(write_cues(replace(timeline, storyboard=draft), tmp_path)[0])
    assert len(rows) == len(timeline.cues)
    assert {row["whose words"] for row in rows} == {"Language xx: nobody has read this.", "teacher"}


# As the first signs of a cell, or behind what a program may take away before it looks.
FORMULAS = (
    *("=1+1", "+1+1", "-1+1", "@SUM(1)", "\t=1+1", "\r=1+1", '"=1+1"', " '=1+1'", "＝1+1", "−1"),
    "=cmd|' /C calc'!A0",
)
UTF_8_COMMAS = "--infilter=Text - txt - csv (StarCalc):44,34,76,1"  # what the program offers when it opens such a table
NO_TEXT = ("90", "1/2", "3-4", "2026-01-02", "12:30", "5 %")


def hostile(tmp_path: Path) -> tuple[Path, list[str]]:
    """A cue sheet of which chapters and words all begin like that."""
    texts, still = [*FORMULAS, *NO_TEXT], Still(figure=sheet())
    steps = tuple(
        Step(
            item=f"item-{number}",
            stage="task",
            chapter=text,
            heading="Look",
            beats=(still,),
            narration=(f"{text} is said here",),
        )
        for number, text in enumerate(texts)
    )
    return write_cues(pace(replace(one_step("Look."), steps=steps)), tmp_path)[0], texts


def test_no_cell_starts_a_formula(tmp_path: Path) -> None:
    table, texts = hostile(tmp_path)
    rows = rows_of(table)
    assert len(rows) == len(texts)
    for row, text in zip(rows, texts, strict=True):
        for cell in row.values():
            assert cell.lstrip(" \t\r\n\"'“”‘’")[:1] not in tuple("=+-@＝＋－＠−") or cell.startswith("'"), cell
        tidy = " ".join(text.split())
        assert row["chapter"].removeprefix("'") == tidy.removeprefix("'") or row["chapter"] == f"'{tidy}"
        assert tidy in row["words"]


def test_a_spreadsheet_program_shows_text_as_text_and_figures_as_figures(tmp_path: Path) -> None:
    """Opened by LibreOffice and saved in its own form, in which each cell has its type."""
    table, texts = hostile(tmp_path)
    head, *rows = spreadsheet_cells(table, tmp_path)
    assert [text for text, _ in head] == COLUMNS
    assert len(rows) == len(texts)
    for row, text in zip(rows, texts, strict=True):
        assert len(row) == len(COLUMNS) - 1, "the last one is empty"
        for name, (shown, kind) in zip(COLUMNS, row, strict=False):
            if name in ("number", "words a minute"):
                assert kind == "float", (name, shown)
            elif name not in ("start", "end", "duration"):
                assert kind == "string", (name, shown, kind)
        words, chapter = (row[COLUMNS.index(name)][0] for name in ("words", "chapter"))
        assert " ".join(text.split()) in words and chapter.endswith(" ".join(text.split()))


def spreadsheet_cells(table: Path, folder: Path) -> list[list[tuple[str, str]]]:
    """Every cell as it is shown and of what type it is, row by row; a formula is of type "formula"."""
    if SOFFICE is None:
        pytest.skip("needs soffice (libreoffice-calc)")
    profile = f"-env:UserInstallation={(folder / 'profile').as_uri()}"
    told = subprocess.run(
        [SOFFICE, "--headless", profile, UTF_8_COMMAS, "--convert-to", "fods", "--outdir", str(folder), str(table)],
        check=False,
        capture_output=True,
        text=True,
        timeout=240,
    )
    if "could not be loaded" in told.stderr + told.stdout:
        pytest.skip("needs libreoffice-calc beside soffice")
    opened = etree.parse(folder / f"{table.stem}.fods")
    office, cell_of = (f"{{urn:oasis:names:tc:opendocument:xmlns:{name}:1.0}}" for name in ("office", "table"))
    found = []
    for row in opened.iter(f"{cell_of}table-row"):
        cells = []
        for cell in row.iter(f"{cell_of}table-cell"):
            kind = cell.get(f"{office}value-type")
            if kind:
                shown = "".join(cell.itertext()).strip()
                times = int(cell.get(f"{cell_of}number-columns-repeated", "1"))
                cells += [(shown, "formula" if cell.get(f"{cell_of}formula") else kind)] * times
        found += [cells] if cells else []
    return found


def test_the_teachers_own_words_are_marked(timeline: Timeline, tmp_path: Path) -> None:
    whose = {row["step id"]: row["whose words"] for row in rows_of(write_cues(timeline, tmp_path)[0])}
    assert whose["sample-block.pause"] == "teacher"
    assert whose["sample-block.task"] == ""
