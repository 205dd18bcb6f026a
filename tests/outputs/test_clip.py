"""The clip decoded: every frame is there, in time, and shows what was planned; a failure leaves nothing behind."""

from __future__ import annotations

import os
import shutil
import signal
import subprocess
import time
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise
from pathlib import Path

import av
import numpy as np
import pytest
from storyboard.short_clip import short_timeline

from explainers.errors import FontError, OutputError
from explainers.figure.model import CAPTION_TOP, STAGE_HEIGHT, Figure, Label, Role
from explainers.outputs.clip import drawing_process
from explainers.outputs.clip import writer as clip
from explainers.outputs.clip.stills import write_stills
from explainers.outputs.clip.writer import KeyFrames, write_clip
from explainers.outputs.shared import captions
from explainers.storyboard.model import Step, Still, Storyboard
from explainers.storyboard.timeline import Span, TimedChapter, Timeline
from explainers.video.encoder import EncoderOptions
from explainers.video.plain_encoding import segments_can_be_joined
from explainers.video.skip_packets import skip_packets

TIMELINE = short_timeline()


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("render")
    seen: list[tuple[int, int]] = []
    paths = write_clip(TIMELINE, folder / "out", progress=lambda done, total: seen.append((done, total)))
    assert [path.name for path in paths] == ["sample-lesson.mp4", "sample-lesson.vtt", "sample-lesson.srt"]
    assert sorted(path.name for path in (folder / "out").iterdir()) == sorted(path.name for path in paths)
    assert seen == [(number, 31) for number in range(1, 32)]  # pictures drawn, not frames shown
    return folder / "out"


@pytest.fixture(scope="module")
def frames(folder: Path) -> list[av.VideoFrame]:
    with av.open(str(folder / "sample-lesson.mp4")) as container:
        video = container.streams.video[0]
        video.codec_context.options = {"err_detect": "explode"}
        return list(container.decode(video))


def planes(frame: av.VideoFrame) -> list[np.ndarray]:
    return [
        np.frombuffer(plane, dtype=np.uint8).reshape(plane.height, plane.line_size)[:, : plane.width].astype(int)
        for plane in frame.planes
    ]


def test_every_frame_of_the_timeline_is_there_at_its_time(frames: list[av.VideoFrame]) -> None:
    assert len(frames) == TIMELINE.frames
    assert [frame.pts * frame.time_base for frame in frames] == [Fraction(k, 30) for k in range(TIMELINE.frames)]


def test_a_hold_is_one_picture_to_the_last_bit(frames: list[av.VideoFrame]) -> None:
    for span in TIMELINE.spans:
        if isinstance(span.shows, Figure):
            held = {b"".join(bytes(plane) for plane in frame.planes) for frame in frames[span.start : span.end]}
            assert len(held) == 1, span.step_id


def test_no_frame_of_a_motion_is_like_the_one_before(frames: list[av.VideoFrame]) -> None:
    for span in TIMELINE.spans:
        if not isinstance(span.shows, Figure):
            shown = [bytes(frame.planes[0]) for frame in frames[span.start : span.end + 1]]
            assert all(a != b for a, b in pairwise(shown))


def above_the_words(plane: np.ndarray) -> np.ndarray:
    """All but the strip at the foot, where stills bear what the clip says aloud."""
    return plane[: int(plane.shape[0] * (1 - CAPTION_TOP / STAGE_HEIGHT))]


def test_what_is_held_is_what_the_stills_show(folder: Path, frames: list[av.VideoFrame], tmp_path: Path) -> None:
    from PIL import Image

    written = {path.name: path for path in write_stills(TIMELINE, tmp_path)}
    options = EncoderOptions()
    for name, frame in (
        ("001-sample.task.png", 0),
        ("003-sample.flag.turn.png", 74),  # the first frame after the turn
        ("005-sample.flag.meet.png", 91),  # and after the shift
        ("006-sample.end.png", 120),
        ("007-sample.end.png", 147),
    ):
        pixels = np.asarray(Image.open(written[name]).convert("RGBA"))
        for whole, still in zip(planes(frames[frame]), planes(options.converted(pixels)), strict=True):
            shown, meant = above_the_words(whole), above_the_words(still)
            assert np.abs(shown - meant).mean() < 0.5, name
            assert (np.abs(shown - meant) > 24).mean() < 1e-4, name
    wrong = planes(options.converted(np.asarray(Image.open(written["001-sample.task.png"]).convert("RGBA"))))
    assert np.abs(planes(frames[91])[0] - wrong[0]).mean() > 2.0  # the measure tells pictures apart


def test_the_stream_is_what_players_expect(folder: Path) -> None:
    with av.open(str(folder / "sample-lesson.mp4")) as container:
        video = container.streams.video[0]
        context = video.codec_context
        assert (context.name, context.profile, context.pix_fmt) == ("h264", "Main", "yuv420p")
        assert (context.width, context.height) == (1920, 1080)
        assert bytes(context.extradata or b"")[3] == 40  # avcC: level 4.0, as the macroblock arithmetic has it
        # ITU-T H.273: 1 is BT.709, for primaries, transfer and matrix; range 1 is limited.
        assert (context.color_primaries, context.color_trc, context.colorspace, context.color_range) == (1, 1, 1, 1)
        assert video.average_rate == 30
        assert not context.has_b_frames
        keys = [round(packet.pts * packet.time_base * 30) for packet in container.demux(video) if packet.is_keyframe]
    assert {span.start for span in TIMELINE.spans} <= set(keys)  # so a chapter starts where a player can jump to
    assert max(b - a for a, b in zip(keys, [*keys[1:], TIMELINE.frames], strict=True)) <= 60


def test_chapters_and_captions_are_those_of_the_timeline(folder: Path) -> None:
    with av.open(str(folder / "sample-lesson.mp4")) as container:
        assert container.metadata["title"] == "Blocks & holes"
        found = [(c["metadata"]["title"], float(c["start"] * c["time_base"])) for c in container.chapters()]
        assert found == [(c.title, pytest.approx(c.start / 30, abs=0.001)) for c in TIMELINE.chapters]
        text = container.streams.subtitles[0]
        cues = [packet for packet in container.demux(text) if packet.size > 2]
        assert [(float(cue.pts * cue.time_base), bytes(cue)[2:].decode()) for cue in cues] == [
            (cue.start_s, "\n".join(cue.lines)) for cue in TIMELINE.cues
        ]
        assert [float(cue.duration * cue.time_base) for cue in cues] == [
            pytest.approx(cue.end_s - cue.start_s) for cue in TIMELINE.cues
        ]
    assert (folder / "sample-lesson.vtt").read_text() == captions.vtt_text(TIMELINE)
    assert (folder / "sample-lesson.srt").read_text() == captions.srt_text(TIMELINE)


def test_a_strict_decoder_has_nothing_to_say(folder: Path) -> None:
    if shutil.which("ffmpeg") is None:
        pytest.skip("no ffmpeg command on this machine")
    command = ["ffmpeg", "-v", "error", "-xerror", "-err_detect", "explode", "-i", str(folder / "sample-lesson.mp4")]
    done = subprocess.run([*command, "-f", "null", "-"], capture_output=True, text=True, check=False)
    assert (done.returncode, done.stderr) == (0, "")


def test_seeking_finds_the_first_frame_of_every_span(folder: Path, frames: list[av.VideoFrame]) -> None:
    with av.open(str(folder / "sample-lesson.mp4")) as container:
        video = container.streams.video[0]
        for span in TIMELINE.spans:
            container.seek(span.start * 512, stream=video)
            first = next(container.decode(video))
            assert first.pts == span.start * 512
            assert bytes(first.planes[0]) == bytes(frames[span.start].planes[0])


def test_a_preview_is_small(tmp_path: Path) -> None:
    paths = write_clip(TIMELINE, tmp_path, preview=True)
    assert [path.name for path in paths] == [f"sample-lesson.{suffix}" for suffix in ("mp4", "vtt", "srt")]
    with av.open(str(paths[0])) as container:
        video = container.streams.video[0]
        assert (video.codec_context.width, video.codec_context.height) == (640, 360)
        assert sum(1 for _ in container.decode(video)) == TIMELINE.frames


def test_one_key_frame_a_hold_makes_a_smaller_file_of_the_same_pictures(tmp_path: Path) -> None:
    seeking, *_ = write_clip(TIMELINE, tmp_path / "a", preview=True)
    holds, *_ = write_clip(TIMELINE, tmp_path / "b", preview=True, key_frames=KeyFrames.HOLDS)
    assert holds.stat().st_size < seeking.stat().st_size
    assert key_frames_of(holds) == [span.start for span in TIMELINE.spans]
    assert key_frames_of(seeking) == sorted({31, *key_frames_of(holds)})  # the first still is held for 61 frames
    assert all_planes(holds) == all_planes(seeking)


def test_a_long_motion_can_be_jumped_into(tmp_path: Path) -> None:
    turn = TIMELINE.spans[2]
    after = replace(TIMELINE.spans[3], start=130, frames=2)
    long = replace(
        TIMELINE,
        spans=(replace(turn, start=0, frames=130), after),
        cues=(),
        chapters=(TimedChapter(title="A", start=0, end=132),),
    )
    seeking, *_ = write_clip(long, tmp_path / "a", preview=True)
    holds, *_ = write_clip(long, tmp_path / "b", preview=True, key_frames=KeyFrames.HOLDS)
    assert key_frames_of(seeking) == [0, 44, 87, 130]
    assert key_frames_of(holds) == [0, 130]
    assert holds.stat().st_size < seeking.stat().st_size


OWN = EncoderOptions(width=640, height=360)


@pytest.mark.parametrize(
    ("x264", "reordered"),
    [
        (f"{OWN.x264}:intra-refresh=1", False),  # unmoving frames depend on the picture: a run of them is repeated
        (OWN.x264.replace("bframes=0", "bframes=2:b-adapt=0"), True),  # segments cannot be joined: one encoder for all
    ],
    ids=["repeated", "plain"],
)
def test_an_encoder_of_another_kind_gives_the_same_clip(tmp_path: Path, x264: str, reordered: bool) -> None:
    ours, *_ = write_clip(TIMELINE, tmp_path / "a", options=OWN)
    options = replace(OWN, x264=x264)
    assert skip_packets(options) is None and segments_can_be_joined(options) is not reordered
    other, *_ = write_clip(TIMELINE, tmp_path / "b", options=options)
    with av.open(str(other)) as container:
        video = container.streams.video[0]
        assert bool(video.codec_context.has_b_frames) is reordered
        video.codec_context.options = {"err_detect": "explode"}
        shown = list(container.decode(video))
        assert [frame.pts * frame.time_base for frame in shown] == [Fraction(k, 30) for k in range(TIMELINE.frames)]
        assert len(container.chapters()) == 2
    with av.open(str(ours)) as container:
        for number, (one, two) in enumerate(zip(container.decode(video=0), shown, strict=True)):
            assert np.abs(planes(one)[0] - planes(two)[0]).mean() < 0.6, number
    assert {span.start for span in TIMELINE.spans} <= set(key_frames_of(other))
    again, *_ = write_clip(TIMELINE, tmp_path / "c", options=options)
    assert again.read_bytes() == other.read_bytes()


def key_frames_of(path: Path) -> list[int]:
    with av.open(str(path)) as container:
        video = container.streams.video[0]
        return [round(p.pts * p.time_base * 30) for p in container.demux(video) if p.size and p.is_keyframe]


def all_planes(path: Path) -> list[bytes]:
    with av.open(str(path)) as container:
        return [b"".join(bytes(plane) for plane in frame.planes) for frame in container.decode(video=0)]


# What goes wrong -------------------------------------------------------------------------------------------------


@pytest.fixture
def processes(monkeypatch: pytest.MonkeyPatch) -> list[subprocess.Popen[str]]:
    """Every process that is started to draw."""
    started: list[subprocess.Popen[str]] = []
    start = subprocess.Popen

    def remembered(*args: object, **kwargs: object) -> subprocess.Popen[str]:
        process: subprocess.Popen[str] = start(*args, **kwargs)  # type: ignore[call-overload]
        started.append(process)
        return process

    monkeypatch.setattr(drawing_process.subprocess, "Popen", remembered)
    return started


def test_a_killed_process_leaves_nothing_half_written(tmp_path: Path, processes: list[subprocess.Popen[str]]) -> None:
    (tmp_path / "sample-lesson.mp4").write_bytes(b"the clip of yesterday")
    with pytest.raises(OutputError, match="ended by signal 9"):
        write_clip(TIMELINE, tmp_path, preview=True, progress=lambda done, total: processes[0].kill())
    assert [(path.name, path.read_bytes()) for path in tmp_path.iterdir()] == [
        ("sample-lesson.mp4", b"the clip of yesterday")
    ]


def test_ctrl_c_stops_the_process_and_leaves_nothing(tmp_path: Path, processes: list[subprocess.Popen[str]]) -> None:
    def interrupted(done: int, total: int) -> None:
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        write_clip(TIMELINE, tmp_path, preview=True, progress=interrupted)
    assert list(tmp_path.iterdir()) == []
    assert processes[0].poll() is not None


def test_a_process_whose_asker_is_gone_cleans_up(tmp_path: Path) -> None:
    code = (
        "import os, signal\n"
        "from pathlib import Path\n"
        "from storyboard.short_clip import short_timeline\n"
        "from explainers.outputs.clip.writer import write_clip\n"
        f"write_clip(short_timeline(), Path({str(tmp_path)!r}), preview=True,"
        " progress=lambda done, total: os.kill(os.getpid(), signal.SIGKILL))\n"
    )
    tests = str(Path(__file__).parent.parent)
    done = subprocess.run(
        [drawing_process.sys.executable, "-c", code], env={**os.environ, "PYTHONPATH": tests}, check=False
    )
    assert done.returncode == -signal.SIGKILL
    deadline = time.monotonic() + 60
    while list(tmp_path.iterdir()) and time.monotonic() < deadline:
        time.sleep(0.1)
    assert list(tmp_path.iterdir()) == []


def test_a_full_disk_is_said_and_leaves_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    if not Path("/dev/full").exists():
        pytest.skip("no /dev/full on this machine")
    write: Callable[..., int] = clip.write_mp4
    monkeypatch.setattr(clip, "write_mp4", lambda path, *rest: write(Path("/dev/full"), *rest))
    with pytest.raises(OutputError, match="the disk is full"):
        write_clip(TIMELINE, tmp_path, preview=True)
    assert list(tmp_path.iterdir()) == []


def test_a_clip_that_is_not_what_was_planned_is_not_kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    frames = clip.coded_frames
    monkeypatch.setattr(clip, "coded_frames", lambda *given: list(frames(*given))[:-1])
    with pytest.raises(OutputError, match="147 frames, 2 chapters and 3 captions were written where 148, 2 and 3"):
        write_clip(TIMELINE, tmp_path, preview=True)
    assert list(tmp_path.iterdir()) == []


def one_still(text: str) -> Timeline:
    label = Label(id="word", group="word", role=Role.WORD, text=text, at=(8, 4), size=0.5, colour="#1F2A37")
    figure = Figure(background="#FAF6EC", entries=(label,))
    step = Step(stage="one", chapter="One", heading="One", beats=(Still(figure=figure),), narration=())
    return Timeline(
        storyboard=Storyboard(name="one", title="One", language="en", steps=(step,)),
        spans=(Span(step_id="one", shows=figure, start=0, frames=1),),
        cues=(),
        chapters=(TimedChapter(title="One", start=0, end=1),),
    )


def test_a_clip_of_one_frame_without_a_word_is_a_clip(tmp_path: Path) -> None:
    path, *_ = write_clip(one_still("Good"), tmp_path, preview=True)
    with av.open(str(path)) as container:
        assert sum(1 for _ in container.decode(video=0)) == 1


def test_a_missing_character_is_named(tmp_path: Path) -> None:
    with pytest.raises(FontError, match="no glyph for '漢'"):
        write_clip(one_still("漢"), tmp_path)
    assert list(tmp_path.iterdir()) == []


def test_settings_of_the_folder_do_not_reach_the_clip(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "manim.cfg").write_text("[CLI]\nframe_rate = 5\nbackground_opacity = 0\n")
    (tmp_path / "scenes").mkdir()
    (tmp_path / "scenes" / "__init__.py").write_text("raise RuntimeError('another package of that name')")
    monkeypatch.chdir(tmp_path)
    short = replace(TIMELINE, spans=TIMELINE.spans[1:3], cues=(), chapters=(TimedChapter(title="A", start=0, end=13),))
    moved = tuple(replace(span, start=span.start - 61) for span in short.spans)
    path, *_ = write_clip(replace(short, spans=moved), Path("out"), preview=True)
    with av.open(str(path)) as container:
        assert sum(1 for _ in container.decode(video=0)) == 13
