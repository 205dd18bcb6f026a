"""What is laid end to end plays: exact times, chapters, captions, index first."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import av
import numpy as np
import pytest

from explainers.video.assembly import ChapterMark, CodedFrame, Labels, TextCue, write_mp4, written_parts
from explainers.video.encoder import EncoderOptions, SegmentEncoder

OPTIONS = EncoderOptions(width=320, height=192)


def lone_pictures(count: int) -> list[CodedFrame]:
    """One IDR picture after the other, their ids taking turns."""
    frames = []
    for number in range(count):
        encoder = SegmentEncoder(OPTIONS, idr_id=number % 2)
        encoder.add(np.full((OPTIONS.height, OPTIONS.width, 4), 20 * number, dtype=np.uint8))
        frames.append(CodedFrame(packet=encoder.finish().packets[0], is_idr=True))
    return frames


def boxes(path: Path) -> list[bytes]:
    """Kinds of the file's outermost boxes, in order (ISO/IEC 14496-12)."""
    data, place, kinds = path.read_bytes(), 0, []
    while place < len(data):
        kinds.append(data[place + 4 : place + 8])
        place += int.from_bytes(data[place : place + 4], "big")
    return kinds


LABELS = Labels(
    title="Blocks & holes ½",
    language="de-AT",
    chapters=[ChapterMark(title="One", start=0, end=4), ChapterMark(title="Two °", start=4, end=10)],
    cues=[
        TextCue(start_s=0.0, end_s=0.1, text="now\ntwo lines"),
        TextCue(start_s=0.1, end_s=0.15, text="½ & <b>"),
        TextCue(start_s=0.2, end_s=0.333, text="end"),
    ],
)


@pytest.fixture(scope="module")
def clip(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("clip") / "clip.mp4"
    assert write_mp4(path, OPTIONS, lone_pictures(10), LABELS) == 10
    return path


def test_the_index_comes_before_the_pictures(clip: Path) -> None:
    kinds = boxes(clip)
    assert kinds[0] == b"ftyp"
    assert kinds.index(b"moov") < kinds.index(b"mdat")


def test_every_frame_stands_at_its_time_and_is_decoded(clip: Path) -> None:
    with av.open(str(clip)) as container:
        video = container.streams.video[0]
        video.codec_context.options = {"err_detect": "explode"}
        frames = list(container.decode(video))
        assert [Fraction(frame.pts) * video.time_base for frame in frames] == [Fraction(k, 30) for k in range(10)]
        lumas = [np.frombuffer(frame.planes[0], dtype=np.uint8)[0] for frame in frames]
        assert lumas == sorted(set(lumas))


def test_chapters_title_and_language_are_kept(clip: Path) -> None:
    with av.open(str(clip)) as container:
        assert container.metadata["title"] == LABELS.title
        chapters = container.chapters()
        assert [chapter["metadata"]["title"] for chapter in chapters] == ["One", "Two °"]
        assert [round(float(c["start"] * c["time_base"]) * 30) for c in chapters] == [0, 4]
        assert [round(float(c["end"] * c["time_base"]) * 30) for c in chapters] == [4, 10]
        assert container.streams.subtitles[0].language == "deu"


def test_who_made_it_and_what_others_may_do_are_kept(tmp_path: Path) -> None:
    labels = Labels(title="Rings", artist="Ada & Bo ½", copyright="CC BY 4.0", album="Quilt blocks", track=3)
    write_mp4(tmp_path / "a.mp4", OPTIONS, lone_pictures(2), labels)
    with av.open(str(tmp_path / "a.mp4")) as container:
        kept = {name: container.metadata.get(name) for name in ("title", "artist", "copyright", "album", "track")}
    assert kept == {
        "title": "Rings", "artist": "Ada & Bo ½", "copyright": "CC BY 4.0", "album": "Quilt blocks", "track": "3",
    }  # fmt: skip


def test_captions_stand_at_their_times(clip: Path) -> None:
    with av.open(str(clip)) as container:
        text = container.streams.subtitles[0]
        samples = [(packet.pts * packet.time_base, bytes(packet)) for packet in container.demux(text) if packet.size]
    spoken = [(float(time), data[2:].decode()) for time, data in samples if data[:2] != b"\0\0"]
    assert spoken == [(cue.start_s, cue.text) for cue in LABELS.cues]
    assert all(int.from_bytes(data[:2], "big") == len(data) - 2 for _, data in samples)
    empty = [float(time) for time, data in samples if data[:2] == b"\0\0"]
    assert 0.15 in empty  # the second caption ends before the third begins
    parts = written_parts(clip)
    assert (parts.frames, parts.chapters, parts.captions) == (10, 2, 3)


def test_a_clip_without_captions_has_no_caption_track(tmp_path: Path) -> None:
    write_mp4(tmp_path / "a.mp4", OPTIONS, lone_pictures(2), Labels(title="Silent"))
    with av.open(str(tmp_path / "a.mp4")) as container:
        assert not container.streams.subtitles
    assert written_parts(tmp_path / "a.mp4").captions == 0
