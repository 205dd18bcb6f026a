"""Pictures become H.264 of the right level, in the right colours."""

from __future__ import annotations

import av
import numpy as np
import pytest

from explainers.video.encoder import EncoderOptions, SegmentEncoder, level_for


@pytest.mark.parametrize(
    ("width", "height", "fps", "level"),
    [
        # ITU-T H.264 Table A-1: 8160 macroblocks x 30 = 244800 of 245760 a second; x 60 = 489600 of 522240.
        (1920, 1080, 30, "4.0"),
        (1920, 1080, 60, "4.2"),
        (1280, 720, 30, "3.1"),  # exactly 108000
        (1280, 720, 60, "3.2"),  # exactly 216000
        (640, 360, 30, "3.0"),
        (3840, 2160, 30, "5.1"),
    ],
)
def test_the_level_is_the_lowest_that_holds_the_macroblocks(width: int, height: int, fps: int, level: str) -> None:
    assert level_for(width, height, fps) == level


def test_more_than_any_level_is_refused() -> None:
    with pytest.raises(ValueError, match="more than any"):
        level_for(7680, 4320, 60)


def test_odd_sides_and_pictures_of_another_size_are_refused() -> None:
    with pytest.raises(ValueError, match="even"):
        EncoderOptions(width=641, height=360)
    with pytest.raises(ValueError, match="does not fit"):
        SegmentEncoder(EncoderOptions(width=64, height=64)).add(np.zeros((64, 32, 4), dtype=np.uint8))


def test_the_header_says_main_profile_and_level_4() -> None:
    header = bytes(EncoderOptions().opened_context().extradata or b"")
    sps = header[header.index(b"\0\0\1\x67") + 4 :]
    assert (sps[0], sps[2]) == (77, 40)  # profile_idc of Main; level_idc is ten times the level


@pytest.mark.parametrize(
    "colour", ["#FAF6EC", "#1F2A37", "#C9DDE8", "#2F6F5E", "#8A3B2E", "#B3261E", "#FF0000", "#000000"]
)
def test_flat_colours_come_out_by_the_arithmetic_of_bt709(colour: str) -> None:
    red, green, blue = (int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5))
    luma = 0.2126 * red + 0.7152 * green + 0.0722 * blue  # ITU-R BT.709, section 3
    expected = (16 + 219 * luma, 128 + 224 * (blue - luma) / 1.8556, 128 + 224 * (red - luma) / 1.5748)
    options = EncoderOptions(width=64, height=64)
    pixels = np.empty((64, 64, 4), dtype=np.uint8)
    pixels[:] = (round(red * 255), round(green * 255), round(blue * 255), 255)
    encoder = SegmentEncoder(options)
    encoder.add(pixels)
    segment = encoder.finish()
    decoder = av.CodecContext.create("h264", "r")
    decoder.extradata = segment.header
    frame = [*decoder.decode(av.Packet(segment.packets[0])), *decoder.decode(None)][0]
    for plane, value in zip(frame.planes, expected, strict=True):
        levels = np.frombuffer(plane, dtype=np.uint8).reshape(plane.height, plane.line_size)[:, : plane.width]
        assert np.abs(levels.astype(float) - value).max() <= 1.0 + 0.5  # a level, and the rounding to whole ones


def test_two_segments_share_their_header() -> None:
    options = EncoderOptions(width=64, height=64)
    headers = set()
    for value, idr_id in ((0, 0), (200, 1)):
        encoder = SegmentEncoder(options, idr_id=idr_id)
        encoder.add(np.full((64, 64, 4), value, dtype=np.uint8))
        segment = encoder.finish()
        assert len(segment.packets) == 1
        headers.add(segment.header)
    assert len(headers) == 1


@pytest.mark.parametrize("idr_id", [0, 1])
def test_key_frames_stand_where_they_are_asked_for(idr_id: int) -> None:
    options = EncoderOptions(width=64, height=64)
    encoder = SegmentEncoder(options, idr_id=idr_id, key_frames=(0, 4, 7))
    for value in range(10):
        encoder.add(np.full((64, 64, 4), 20 * value, dtype=np.uint8))
    kinds = [packet[packet.index(b"\0\0\1") + 3] & 0x1F for packet in encoder.finish().packets[1:]]
    # ITU-T H.264 Table 7-1: 5 is a slice of an IDR picture, 1 one of another picture.
    assert kinds == [1, 1, 1, 5, 1, 1, 5, 1, 1]
