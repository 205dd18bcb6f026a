"""The clip is played: by PyAV, by a strict ffmpeg, and by a browser that shows its captions and finds its chapters."""

from __future__ import annotations

import json
import shutil
import subprocess
from pathlib import Path
from typing import Any

import av
import pytest
from outputs.chromium import CHROMIUM, opened_page

from explainers.outputs.shared import captions
from explainers.storyboard.timeline import Timeline

# Captions come from the file beside the clip: browsers ignore text tracks inside MP4. A page opened from a folder may
# not fetch another file, so the words stand in the page's own script. `mediaTime` is the time stamp of the very frame
# that is shown, so a seek that lands one frame beside a chapter is seen.
PAGE = """<!doctype html><meta charset="utf-8"><title>clip</title><video muted width="640"></video>
<script>
const video = document.querySelector('video');
const once = name => new Promise((done, fail) => {
  video.addEventListener(name, done, {once: true});
  video.addEventListener('error', () => fail(new Error(video.error.message)), {once: true});
});
const shownFrame = () => new Promise(done => video.requestVideoFrameCallback((now, frame) => done(frame.mediaTime)));
async function seek(to) {
  const sought = once('seeked'), shown = shownFrame();
  video.currentTime = to;
  await sought;
  return shown;
}
async function open(words) {
  const track = document.createElement('track');
  track.kind = 'captions'; track.default = true;
  const loaded = new Promise((done, fail) => { track.onload = done; track.onerror = fail; });
  track.src = URL.createObjectURL(new Blob([words], {type: 'text/vtt'}));
  const ready = once('loadeddata');
  video.append(track);
  track.track.mode = 'showing';
  video.src = CLIP;
  await ready;
  await loaded;
  return {seconds: video.duration, width: video.videoWidth, height: video.videoHeight,
          cues: [...track.track.cues].map(cue => [cue.startTime, cue.endTime, cue.text])};
}
async function played(seconds) {
  await video.play();
  while (video.currentTime < seconds && !video.ended) await new Promise(done => setTimeout(done, 50));
  video.pause();
  const quality = video.getVideoPlaybackQuality();
  return {time: video.currentTime, frames: quality.totalVideoFrames, broken: quality.corruptedVideoFrames};
}
async function framesAt(times) {
  const shown = [];
  for (const time of times) shown.push(await seek(time));
  return shown;
}
async function wordsAt(times) {
  const seen = [], list = video.textTracks[0];
  for (const time of times) {
    await seek(time);
    await new Promise(done => setTimeout(done, 30));  // captions follow the picture a moment later
    seen.push([...list.activeCues].map(cue => cue.text));
  }
  return seen;
}
</script>"""


def codecs(clip: Path) -> str:
    """The name of the stream as RFC 6381 writes it: profile, constraints and level from the file's own header."""
    with av.open(str(clip)) as container:
        header = bytes(container.streams.video[0].codec_context.extradata or b"")
    return f"avc1.{header[1:4].hex()}"


@pytest.fixture(params=["short_clip", "demo_preview"])
def made(request: pytest.FixtureRequest) -> tuple[Timeline, Path]:
    made: tuple[Timeline, Path] = request.getfixturevalue(request.param)
    return made


def test_pyav_decodes_every_frame(made: tuple[Timeline, Path]) -> None:
    timeline, clip = made
    with av.open(str(clip)) as container:
        video = container.streams.video[0]
        video.codec_context.options = {"err_detect": "explode"}
        times = [frame.time for frame in container.decode(video)]
    assert times == [number / timeline.fps for number in range(timeline.frames)]


def test_a_strict_ffmpeg_has_nothing_to_say(made: tuple[Timeline, Path]) -> None:
    if shutil.which("ffmpeg") is None:
        pytest.skip("no ffmpeg command on this machine")
    command = ["ffmpeg", "-v", "warning", "-xerror", "-err_detect", "explode", "-i", str(made[1]), "-f", "null", "-"]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert (done.returncode, done.stderr) == (0, "")


def test_a_strict_ffmpeg_does_complain_of_a_damaged_clip(short_clip: tuple[Timeline, Path], tmp_path: Path) -> None:
    if shutil.which("ffmpeg") is None:
        pytest.skip("no ffmpeg command on this machine")
    data = bytearray(short_clip[1].read_bytes())
    middle = data.index(b"mdat") + 4000  # within the first picture
    data[middle : middle + 64] = bytes(64)
    damaged = tmp_path / "damaged.mp4"
    damaged.write_bytes(data)
    command = ["ffmpeg", "-v", "warning", "-xerror", "-err_detect", "explode", "-i", str(damaged), "-f", "null", "-"]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert done.returncode != 0 and done.stderr


def test_a_browser_plays_seeks_and_shows_the_captions(made: tuple[Timeline, Path], tmp_path: Path) -> None:
    if not CHROMIUM.exists():
        pytest.skip(f"no {CHROMIUM} on this machine")
    timeline, clip = made
    page_file = tmp_path / "page.html"
    page_file.write_text(PAGE.replace("CLIP", json.dumps(clip.as_uri())), encoding="utf-8")
    with opened_page(page_file.as_uri(), tmp_path / "profile") as page:
        if page.answer(f"video.canPlayType('video/mp4; codecs=\"{codecs(clip)}\"')") != "probably":
            pytest.skip("this Chromium was built without H.264")
        words = clip.with_suffix(".vtt").read_text(encoding="utf-8")
        opened: dict[str, Any] = page.answer(f"open({json.dumps(words)})")
        played = page.answer("played(1.0)")
        starts = [chapter.start for chapter in timeline.chapters]
        frames = page.answer(f"framesAt({json.dumps([(start + 0.5) / timeline.fps for start in starts])})")
        middles = [(cue.start_s + cue.end_s) / 2 for cue in timeline.cues]
        seen = page.answer(f"wordsAt({json.dumps(middles)})")
    assert opened["seconds"] == pytest.approx(timeline.seconds, abs=0.01)
    with av.open(str(clip)) as container:
        context = container.streams.video[0].codec_context
        assert (opened["width"], opened["height"]) == (context.width, context.height)
    planned = [(cue.start_ms / 1000, cue.end_ms / 1000, cue.lines) for cue in captions.timed_captions(timeline)]
    shown = [(start, end, unescaped(text)) for start, end, text in opened["cues"]]
    assert shown == [(pytest.approx(start), pytest.approx(end), "\n".join(lines)) for start, end, lines in planned]
    assert [[unescaped(text) for text in texts] for texts in seen] == [["\n".join(lines)] for _, _, lines in planned]
    assert played["time"] >= 1.0 and played["frames"] > 1 and played["broken"] == 0
    assert [round(time * timeline.fps, 3) for time in frames] == starts


def unescaped(text: str) -> str:
    """A cue's words as they are seen; `cue.text` is as the file writes them."""
    return text.replace("&lt;", "<").replace("&gt;", ">").replace("&amp;", "&")
