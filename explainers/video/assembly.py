"""Packets laid end to end in one MP4 file, with its chapters, captions and title.

Nothing is encoded here: one packet is one frame, the frame shown k-th stands at k / fps exactly, and the file opens
with its index (`moov`), so that it starts to play before it is all there. Chapters and captions are given in plain
values; this module does not know where they come from.

One segment is held in memory at a time.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

import av
from av.audio.stream import AudioStream
from av.container.output import OutputContainer
from av.packet import Packet
from av.stream import Stream
from av.video.stream import VideoStream

from .encoder import EncoderOptions

__all__ = [
    "ChapterMark",
    "ClipContents",
    "CodedFrame",
    "CodedSound",
    "Labels",
    "TextCue",
    "stream_header",
    "write_mp4",
    "written_parts",
]

_TICKS = 512  # of the file's clock in one frame; a multiple of what any player rounds to
_TEXT_CLOCK = 1000  # captions are timed in milliseconds, as in WebVTT

# A mov_text encoder opens only after it has been shown the styles of an ASS file.
_ASS_HEADER = b"""[Script Info]
ScriptType: v4.00+
PlayResX: 384
PlayResY: 288

[V4+ Styles]
Format: Name, Fontname, Fontsize, PrimaryColour, SecondaryColour, OutlineColour, BackColour, Bold, Italic, Underline, \
StrikeOut, ScaleX, ScaleY, Spacing, Angle, BorderStyle, Outline, Shadow, Alignment, MarginL, MarginR, MarginV, Encoding
Style: Default,sans-serif,16,&Hffffff,&Hffffff,&H0,&H0,0,0,0,0,100,100,0,0,1,1,0,2,10,10,10,0

[Events]
Format: Layer, Start, End, Style, Name, MarginL, MarginR, MarginV, Effect, Text
"""

# ISO 639-2 codes, which an MP4 file asks for, of the ISO 639-1 codes that a language tag starts with.
_LANGUAGES = {
    "cy": "cym", "da": "dan", "de": "deu", "en": "eng", "es": "spa", "fi": "fin", "fr": "fra", "ga": "gle", "it": "ita",
    "nb": "nob", "nl": "nld", "no": "nor", "pl": "pol", "pt": "por", "ro": "ron", "sv": "swe", "tr": "tur", "uk": "ukr",
}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class CodedFrame:
    """One frame: its packet, whether it is an IDR picture, and when it is its turn."""

    packet: bytes
    is_idr: bool
    shown: int | None = None  # as which frame of the clip; None: in the order in which the frames are given
    decoded: int | None = None  # the same for the decoder; may be below 0, where frames are shown in another order


@dataclass(frozen=True, slots=True, kw_only=True)
class CodedSound:
    """A track of AAC-LC, stereo, coded already."""

    packets: Sequence[bytes]  # in order, each of `samples` samples
    run_up: int  # samples of the first packets that lie before the start of the clip
    rate: int = 48_000
    samples: int = 1024
    bit_rate: int = 128_000


@dataclass(frozen=True, slots=True, kw_only=True)
class ChapterMark:
    """A chapter, in frames; the last is the first frame after it."""

    title: str
    start: int
    end: int


@dataclass(frozen=True, slots=True, kw_only=True)
class TextCue:
    """A caption, in seconds."""

    start_s: float
    end_s: float
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Labels:
    """What the file says of itself, and the words that run along with it."""

    title: str
    language: str = "en"  # a language tag such as en-GB
    chapters: Sequence[ChapterMark] = ()
    cues: Sequence[TextCue] = ()  # in order, not overlapping
    artist: str = ""  # who made it
    copyright: str = ""  # what others may do with it
    album: str = ""  # the series it belongs to
    track: int | None = None  # its number in the series
    comment: str = ""  # what else must be said of it


@dataclass(frozen=True, slots=True, kw_only=True)
class ClipContents:
    """What a file turns out to hold when it is opened again."""

    frames: int
    chapters: int
    captions: int  # cues, the pauses between them left out
    sounds: int = 0  # packets of sound


def stream_header(options: EncoderOptions) -> bytes:
    """The parameter sets that every segment of a clip must share."""
    return bytes(options.opened_context().extradata or b"")


def write_mp4(
    path: Path,
    options: EncoderOptions,
    frames: Iterable[CodedFrame],
    labels: Labels,
    sound: CodedSound | None = None,
) -> int:
    """Write the file; the number of frames is handed back.

    Raises : OSError if it cannot be written
    """
    with av.open(str(path), "w", format="mp4", options={"movflags": "+faststart"}) as container:
        container.metadata["title"] = labels.title
        further = {"artist": labels.artist, "copyright": labels.copyright, "album": labels.album,
                   "comment": labels.comment}  # fmt: skip
        container.metadata.update({name: words for name, words in further.items() if words})
        if labels.track is not None:
            container.metadata["track"] = str(labels.track)
        _set_chapters(container, labels.chapters, options.fps)
        video = container.add_stream("libx264", rate=options.fps)
        options.apply_to(video.codec_context)
        video.time_base = Fraction(1, options.fps * _TICKS)
        audio = _audio_stream(container, labels, sound) if sound is not None else None
        text = _text_stream(container, labels) if labels.cues else None
        container.start_encoding()  # opens the encoder for its parameter sets alone
        captions = _caption_packets(labels.cues, text) if text is not None else iter(())
        waiting = next(captions, None)
        sounds = _sound_packets(sound, audio) if sound is not None and audio is not None else iter(())
        sounding = next(sounds, None)
        clock = Fraction(1, options.fps * _TICKS)
        count = 0
        for frame in frames:
            while waiting is not None and (waiting.pts or 0) * options.fps <= count * _TEXT_CLOCK:
                container.mux_one(waiting)
                waiting = next(captions, None)
            while (
                sounding is not None and sound is not None and (sounding.pts or 0) * options.fps <= count * sound.rate
            ):
                container.mux_one(sounding)
                sounding = next(sounds, None)
            container.mux_one(_video_packet(video, frame, count, clock))
            count += 1
        while waiting is not None:
            container.mux_one(waiting)
            waiting = next(captions, None)
        while sounding is not None:
            container.mux_one(sounding)
            sounding = next(sounds, None)
    return count


def written_parts(path: Path) -> ClipContents:
    """Open a clip again and count its frames, chapters and captions; nothing is decoded."""
    with av.open(str(path)) as container:
        video = container.streams.video[0]
        frames = captions = sounds = 0
        for packet in container.demux():
            if packet.size == 0:
                continue
            if packet.stream_index == video.index:
                frames += 1
            elif bytes(packet)[:2] != b"\0\0" and packet.stream.type == "subtitle":
                captions += 1
            elif packet.stream.type == "audio":
                sounds += 1
        return ClipContents(frames=frames, chapters=len(container.chapters()), captions=captions, sounds=sounds)


def _set_chapters(container: OutputContainer, chapters: Sequence[ChapterMark], fps: int) -> None:
    """Before the first packet: later ones are not written."""
    container.set_chapters(
        [
            {
                "id": number,
                "start": chapter.start,
                "end": chapter.end,
                "time_base": Fraction(1, fps),
                "metadata": {"title": chapter.title},
            }
            for number, chapter in enumerate(chapters, start=1)
        ]
    )


def _audio_stream(container: OutputContainer, labels: Labels, sound: CodedSound) -> AudioStream:
    stream = container.add_stream("aac", rate=sound.rate, layout="stereo")
    stream.codec_context.bit_rate = sound.bit_rate
    stream.codec_context.options = {"flags": "+bitexact"}
    stream.time_base = Fraction(1, sound.rate)
    stream.metadata["language"] = _language_code(labels.language)
    return stream


def _sound_packets(sound: CodedSound, stream: AudioStream) -> Iterator[Packet[Stream]]:
    """The first ones stand before the start of the clip; the file tells players to leave these samples out."""
    for number, coded in enumerate(sound.packets):
        packet = Packet(coded)
        packet.stream = stream
        packet.time_base = Fraction(1, sound.rate)
        packet.pts = packet.dts = number * sound.samples - sound.run_up
        packet.duration = sound.samples
        packet.is_keyframe = True
        yield packet


def _language_code(tag: str) -> str:
    return _LANGUAGES.get(tag.split("-")[0].lower(), "und")


def _text_stream(container: OutputContainer, labels: Labels) -> Stream:
    stream = container.add_stream("mov_text")
    stream.codec_context.subtitle_header = _ASS_HEADER
    stream.time_base = Fraction(1, _TEXT_CLOCK)
    stream.metadata["language"] = _language_code(labels.language)
    return stream


def _video_packet(stream: VideoStream, frame: CodedFrame, number: int, clock: Fraction) -> Packet[Stream]:
    packet = Packet(frame.packet)
    packet.stream = stream
    packet.time_base = clock
    packet.pts = (number if frame.shown is None else frame.shown) * _TICKS
    packet.dts = (number if frame.decoded is None else frame.decoded) * _TICKS
    packet.duration = _TICKS
    packet.is_keyframe = frame.is_idr
    return packet


def _caption_packets(cues: Sequence[TextCue], stream: Stream) -> Iterator[Packet[Stream]]:
    """One sample a cue. The pauses between them need samples too, empty ones: FFmpeg adds these by itself."""
    for cue in cues:
        yield _caption_packet(cue.text, round(cue.start_s * _TEXT_CLOCK), round(cue.end_s * _TEXT_CLOCK), stream)


def _caption_packet(text: str, start_ms: int, end_ms: int, stream: Stream) -> Packet[Stream]:
    words = text.encode("utf-8")
    packet = Packet(len(words).to_bytes(2, "big") + words)
    packet.stream = stream
    packet.time_base = Fraction(1, _TEXT_CLOCK)
    packet.pts = packet.dts = start_ms
    packet.duration = end_ms - start_ms
    packet.is_keyframe = True
    return packet
