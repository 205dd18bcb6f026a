"""A WebVTT file as a browser takes it: an implementation that shares nothing with the writer or the strict rules."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from outputs.chromium import CHROMIUM, opened_page

__all__ = ["cues_in_browser"]

# A page opened from a folder may not fetch another file, so the words are handed to its script.
PAGE = """<!doctype html><meta charset="utf-8"><title>tracks</title><video></video><script>
function read(kind, words) {
  const track = document.createElement('track');
  track.kind = kind;
  const loaded = new Promise((done, fail) => { track.onload = done; track.onerror = () => fail(new Error(kind)); });
  track.src = URL.createObjectURL(new Blob([words], {type: 'text/vtt'}));
  document.querySelector('video').append(track);
  track.track.mode = 'hidden';
  return loaded.then(() => [...track.track.cues].map(
    cue => [cue.startTime, cue.endTime, cue.getCueAsHTML().textContent]));
}
</script>"""


def cues_in_browser(tracks: dict[str, Path], folder: Path) -> dict[str, list[tuple[float, float, str]]]:
    """Start, end and text as it is shown of every cue, for files by the kind of their track."""
    if not CHROMIUM.exists():
        pytest.skip(f"no {CHROMIUM} on this machine")
    page_file = folder / "tracks.html"
    page_file.write_text(PAGE, encoding="utf-8")
    found = {}
    with opened_page(page_file.as_uri(), folder / "profile") as page:
        for kind, path in tracks.items():
            words = path.read_text(encoding="utf-8")
            found[kind] = [tuple(cue) for cue in page.answer(f"read({json.dumps(kind)}, {json.dumps(words)})")]
    return found
