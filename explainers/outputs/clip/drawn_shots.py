"""The shots of a job had: from the cache what was drawn before, from the drawing process what was not.

Whatever is asked for lies in the job's folder afterwards, wherever it came from. When nothing is missing no process is
started. What the process finishes is kept at once, so that a run that is stopped has not drawn in vain; what another
run is drawing at this moment is waited for, not drawn a second time.
"""

from __future__ import annotations

import hashlib
import time
from collections import deque
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from ...cache.claims import Claims
from ...cache.place import shared_store
from ...cache.store import Store
from ...frames.content_key import content_key, drawing_key
from ...safe_write import reported
from ...video.segment import Segment, write_segment
from ...video.skip_packets import skip_packets
from .drawing_job import DrawingJob, Shot, png_path, segment_path, skips_path
from .drawing_process import Progress, draw
from .drawn_by import drawn_by

__all__ = ["have_drawn"]

_LOOK_AGAIN_S = 0.05
_LONGEST_WAIT_S = 300.0  # for another run, which may have been put to sleep; then it is drawn here as well


def have_drawn(job: DrawingJob, folder: Path, progress: Progress | None = None, store: Store | None = None) -> int:
    """Put every file that the job asks for into `folder`, an empty one; the number of pictures drawn is handed back.

    progress : called with the pictures drawn so far and the pictures to draw in this run; never, if there are none
    store    : the cache; without one, that which all runs of this user share
    Raises   : FontError for a typeface or a character that is missing; OutputError for any other failure
    """
    with reported(folder.parent):
        return _Run(job, folder, progress, shared_store() if store is None else store).pictures_drawn()


@dataclass(frozen=True, slots=True)
class _Wanted:
    """A shot with the files that it asks for, each with its key in the cache."""

    shot: Shot
    files: tuple[tuple[Path, str], ...]

    @property
    def claim(self) -> str:
        """What stands for the shot while it is drawn."""
        return self.files[0][1]


class _Run:
    def __init__(self, job: DrawingJob, folder: Path, progress: Progress | None, store: Store) -> None:
        self._job = job
        self._folder = folder
        self._progress = progress
        self._store = store
        self._options_key = content_key(job.options)
        self._drawn = 0

    def pictures_drawn(self) -> int:
        encoded = any(shot.idr_ids for shot in self._job.shots)
        skips = (skips_path(self._folder), _key("skips", self._options_key))
        skips_known = encoded and self._fetched(*skips)
        shots = [_Wanted(shot, self._files(shot)) for shot in self._job.shots if shot.idr_ids or shot.png]
        missing = [wanted for wanted in shots if not self._all_fetched(wanted)]
        if missing and self._store.bound > 0:
            with Claims(self._store.folder) as claims:
                self._draw_once(missing, claims)
        elif missing:
            self._draw(missing, None)
        if encoded and not skips_known:
            if not self._drawn:  # else the drawing process has done it
                self._derive_skips()
            self._keep(*skips)
        if self._drawn:
            self._store.trim()
        return self._drawn

    def _draw_once(self, missing: Sequence[_Wanted], claims: Claims) -> None:
        """Draw what no other run is drawing, then wait for what others are."""
        mine: list[_Wanted] = []
        others: list[_Wanted] = []
        for wanted in missing:
            (mine if claims.take(wanted.claim) else others).append(wanted)
        # Another run may have finished a shot between our look into the cache and our claim.
        self._draw([wanted for wanted in mine if not self._all_fetched(wanted)], claims)
        for wanted in mine:
            claims.give_back(wanted.claim)
        left = []
        last = time.monotonic() + _LONGEST_WAIT_S
        for wanted in others:
            while not claims.take(wanted.claim) and time.monotonic() < last and not self._all_kept(wanted):
                time.sleep(_LOOK_AGAIN_S)
            if not self._all_fetched(wanted):
                left.append(wanted)
        self._draw(left, claims)

    def _draw(self, missing: Sequence[_Wanted], claims: Claims | None) -> None:
        """Draw in the drawing process; whatever it has finished is kept, even if it fails later."""
        if not missing:
            return
        unkept = deque(missing)
        before = self._drawn

        def keep(wanted: _Wanted) -> None:
            for path, key in wanted.files:
                self._keep(path, key)
            if claims is not None:
                claims.give_back(wanted.claim)

        def news(done: int, total: int) -> None:
            while unkept and _is_made(unkept[0]):  # they come about in this order
                keep(unkept.popleft())
            if self._progress is not None:
                self._progress(before + done, before + total)

        try:
            draw(replace(self._job, shots=tuple(wanted.shot for wanted in missing)), self._folder, news)
            self._drawn += sum(wanted.shot.frames for wanted in missing)
        finally:
            for wanted in filter(_is_made, unkept):
                keep(wanted)

    def _derive_skips(self) -> None:
        skips = skip_packets(self._job.options)
        if skips is not None:
            write_segment(skips_path(self._folder), Segment(header=b"", packets=skips))

    def _files(self, shot: Shot) -> tuple[tuple[Path, str], ...]:
        shows = shot.key or drawing_key(shot.shows)
        options = self._job.options
        files = []
        for idr_id in shot.idr_ids:
            key = _key("segment", shows, shot.frames, shot.key_frames, idr_id, self._options_key)
            files.append((segment_path(self._folder, shot.name, idr_id), key))
        if shot.png:
            files.append((png_path(self._folder, shot.name), _key("png", shows, options.width, options.height)))
        return tuple(files)

    def _all_fetched(self, wanted: _Wanted) -> bool:
        return all(self._fetched(path, key) for path, key in wanted.files)

    def _all_kept(self, wanted: _Wanted) -> bool:
        return all(self._store.has(key) for _, key in wanted.files)

    def _fetched(self, path: Path, key: str) -> bool:
        """Whether a file is in the folder, now that the cache has been asked for it."""
        if path.exists():
            return True
        data = self._store.get(key)
        if data is None:
            return False
        path.write_bytes(data)
        return True

    def _keep(self, path: Path, key: str) -> None:
        if path.exists():
            self._store.put(key, path.read_bytes())


def _is_made(wanted: _Wanted) -> bool:
    return all(path.exists() for path, _ in wanted.files)  # each is renamed when whole


def _key(*parts: object) -> str:
    """64 hexadecimal digits for something made by what draws now."""
    return hashlib.sha256("\0".join([drawn_by(), *map(str, parts)]).encode()).hexdigest()
