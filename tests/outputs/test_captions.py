"""Caption files obey the strict rules, checked by an oracle of their own."""

from __future__ import annotations

import re
import shutil
import subprocess
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from oracles.webvtt_rules import chapter_faults, faults, read_strictly, seconds
from storyboard.sample_board import board

from explainers.outputs.shared.captions import chapters_vtt_text, clock, srt_text, vtt_text
from explainers.storyboard.pacing import pace
from explainers.storyboard.timeline import Cue

TIMELINE = pace(board())


def test_captions_conform_and_carry_every_cue() -> None:
    cues, wrong = read_strictly(vtt_text(TIMELINE))
    assert wrong == []
    assert [cue.lines for cue in cues] == [cue.lines for cue in TIMELINE.cues]
    for written, cue in zip(cues, TIMELINE.cues, strict=True):
        assert (written.start, written.end) == (round(cue.start_s, 3), round(cue.end_s, 3))
    assert cues[-1].end <= TIMELINE.seconds + 0.0005
    assert "&amp; cut the" in vtt_text(TIMELINE)


def test_identifiers_say_nothing() -> None:
    identifiers = [cue.identifier for cue in read_strictly(vtt_text(TIMELINE))[0]]
    assert identifiers == [str(n) for n in range(1, len(TIMELINE.cues) + 1)]


def test_chapters_cover_the_clip_without_gap_or_overlap() -> None:
    text = chapters_vtt_text(TIMELINE)
    assert chapter_faults(text) == []
    cues, _ = read_strictly(text)
    assert [cue.lines for cue in cues] == [("The block",), ("Your turn",)]
    assert [cue.start for cue in cues] == [0.0, *[cue.end for cue in cues[:-1]]]
    assert cues[-1].end == pytest.approx(TIMELINE.seconds, abs=0.0006)


def test_srt_differs_from_vtt_in_the_comma_the_header_and_escapes_only() -> None:
    blocks = srt_text(TIMELINE).strip().split("\n\n")
    cues, _ = read_strictly(vtt_text(TIMELINE))
    assert len(blocks) == len(cues)
    for number, (block, cue) in enumerate(zip(blocks, cues, strict=True), start=1):
        counter, timing, *lines = block.split("\n")
        assert counter == str(number)
        assert re.fullmatch(r"\d\d:\d\d:\d\d,\d{3} --> \d\d:\d\d:\d\d,\d{3}", timing)
        start, end = (seconds(stamp.replace(",", ".")) for stamp in timing.split(" --> "))
        assert (start, end, tuple(lines)) == (cue.start, cue.end, cue.lines)


@pytest.mark.skipif(shutil.which("ffmpeg") is None, reason="ffmpeg is not installed")
def test_what_a_player_of_srt_would_obey_stays_text_to_it(tmp_path: Path) -> None:
    words = ("Cut <i>here</i>, then {\\an8} there.", "<font color=red>5 < 6</font>, {y:b} { so } <")
    timeline = replace(TIMELINE, cues=tuple(replace(cue, lines=words) for cue in TIMELINE.cues))
    (tmp_path / "a.srt").write_text(srt_text(timeline), encoding="utf-8")
    subprocess.run(["ffmpeg", "-loglevel", "error", "-i", tmp_path / "a.srt", tmp_path / "a.ass"], check=True)
    read = (tmp_path / "a.ass").read_text(encoding="utf-8").partition("[Events]")[2]
    assert "{" not in read  # such as would begin an order in that format
    wide = str.maketrans("{}", "\uff5b\uff5d")
    for line in words:
        assert line.translate(wide) in read.replace("\N{WORD JOINER}", "")


TEXT = st.text(alphabet="ab &<>-\n\r\t=\u2028é", min_size=1, max_size=20).map(lambda t: f"x{t}-->y")
TIMES = st.lists(st.floats(min_value=0.0, max_value=400_000.0), min_size=2, max_size=8).map(sorted)


@given(times=TIMES, lines=st.lists(TEXT, min_size=1, max_size=2))
@settings(max_examples=100, deadline=None)
def test_any_cue_is_written_by_the_rules(times: list[float], lines: list[str]) -> None:
    cues = tuple(
        Cue(id=f"s/{n}", step_id="s", start_s=start, end_s=end, lines=tuple(lines))
        for n, (start, end) in enumerate(pairwise(times))
    )
    assert faults(vtt_text(replace(TIMELINE, cues=cues))) == []


def test_hours_are_always_written_and_may_be_many() -> None:
    assert clock(0) == "00:00:00.000"
    assert clock(59_999) == "00:00:59.999"
    assert clock(216_000_000, ",") == "60:00:00,000"  # WPT timings-60: a first field of 60 is 60 hours


# Vectors of web-platform-tests webvtt/parsing/file-parsing (references.md, 2.1): what a parser drops must not be
# written, and hours of one digit, which a lenient parser takes, do not conform either.
@pytest.mark.parametrize(
    "stamp", ["00:00:00.00", "00:00:00.0000", "0:00.000", "000:00.000", "00:0:00.000", "0:00:00.000", "00:60:00.000"]
)
def test_the_oracle_refuses_what_may_not_be_written(stamp: str) -> None:
    assert seconds(stamp) is None
    assert faults(f"WEBVTT\n\n1\n{stamp} --> 00:00:09.000\nx\n") != []


def test_the_oracle_takes_what_conforms() -> None:
    assert seconds("60:00:00.000") == 216_000.0  # WPT timings-60
    assert seconds("00:01.000") == 1.0  # WPT timings-omitted-hours
    assert faults("WEBVTT\n\n00:00.000 --> 00:01.000\nx\n") == []


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("WEBVTT\n1\n00:00:00.000 --> 00:00:01.000\nx\n", "blank line"),
        ("WEBVTT\n\n1\n00:00:01.000 --> 00:00:01.000\nx\n", "does not end after"),
        ("WEBVTT\n\n1\n00:00:01.000 --> 00:00:02.000\na --> b\n", "holds -->"),
        ("WEBVTT\n\n1\n00:00:01,000 --> 00:00:02,000\nx\n", "does not conform"),
        ("WEBVTT\n\n1\n00:00:01.000 --> 00:00:02.000\nx & y\n", "bare &"),
        (
            "WEBVTT\n\n1\n00:00:01.000 --> 00:00:02.000\nx\n\n1\n00:00:02.000 --> 00:00:03.000\nx\n",
            "one identifier",
        ),
        (
            "WEBVTT\n\n1\n00:00:01.000 --> 00:00:02.000\nx\n\n2\n00:00:00.000 --> 00:00:03.000\nx\n",
            "starts before",
        ),
    ],
)
def test_the_oracle_names_each_fault(text: str, fault: str) -> None:
    assert any(fault in found for found in faults(text))


def test_the_oracle_refuses_the_example_of_partly_overlapping_chapters() -> None:
    # The specification's own example: 0 to 60 s against 30 to 90 s.
    text = "WEBVTT\n\n1\n00:00.000 --> 01:00.000\nA\n\n2\n00:30.000 --> 01:30.000\nB\n"
    assert any("overlap in part" in found for found in chapter_faults(text))


def test_a_note_stands_before_the_teachers_own_words_and_no_others() -> None:
    text = vtt_text(TIMELINE)
    assert faults(text) == []
    own = [step.id for step in TIMELINE.storyboard.steps if step.teachers_own and step.narration]
    assert own
    blocks = text.strip().split("\n\n")[1:]
    noted = [int(blocks[at + 1].split("\n")[0]) for at, block in enumerate(blocks) if block.startswith("NOTE")]
    first = {cue.step_id: number for number, cue in reversed(list(enumerate(TIMELINE.cues, start=1)))}
    assert noted == [first[step_id] for step_id in own]
