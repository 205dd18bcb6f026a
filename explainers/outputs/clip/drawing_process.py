"""A second process that draws, so that only clips and pictures pay for loading the animation library.

The process is told what to do by a folder and says on its standard output how far it is. Whatever stops it, or us, it
does not outlive the call; the folder is the caller's to remove.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

from ...errors import FontError, OutputError
from ...safe_write import reported
from .drawing_job import DrawingJob, write_job

__all__ = ["Progress", "draw"]

Progress = Callable[[int, int], None]  # pictures drawn, pictures in all

# Where the C library is glibc: large pictures are given back as soon as they are not needed, which keeps the peak flat.
_GIVE_BACK = {"MALLOC_MMAP_THRESHOLD_": "4000000"}  # bytes; mallopt(3)

_LAST_WORDS = 400  # characters of what a failed process said last


def draw(job: DrawingJob, folder: Path, progress: Progress | None = None) -> None:
    """Have every shot of the job drawn into `folder`, an empty one.

    Raises : FontError for a typeface or a character that is missing; OutputError for any other failure
    """
    with reported(folder.parent):
        write_job(folder, job)
    complaints = folder / "complaints.txt"
    # In the folder, so that no file of the current one is taken for a module or for settings of the animation library.
    command = [sys.executable, "-P", "-m", "scenes.worker", str(folder.resolve())]
    failure: dict[str, str] = {}
    with complaints.open("wb") as errors:
        process = subprocess.Popen(
            command,
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            stderr=errors,
            cwd=folder,
            text=True,
            env=_GIVE_BACK | os.environ,
        )
        try:
            assert process.stdout is not None
            for line in process.stdout:
                if not line.startswith("{"):
                    continue  # some library's own talk
                said = json.loads(line)
                if "error" in said:
                    failure = said
                elif progress is not None:
                    progress(said["done"], said["total"])
            code = process.wait()
        finally:
            process.kill()  # does nothing to one that has ended
            process.wait()
            if process.stdout is not None:
                process.stdout.close()
    if failure:
        raise (FontError if failure["error"] == "FontError" else OutputError)(failure["message"])
    if code != 0:
        raise OutputError(_said(code, complaints.read_text(encoding="utf-8", errors="replace")))


def _said(code: int, complaints: str) -> str:
    if code < 0:
        return (
            f"the process that draws was ended by signal {-code}, and nothing was written. "
            "To mend it: run it again with less else running, since the system ends what takes too much memory."
        )
    words = complaints.strip()[-_LAST_WORDS:] or "nothing"
    return (
        f"the process that draws stopped with exit code {code}, and nothing was written; its last words: {words}. "
        "To mend it: if these words do not help, report them together with the item or lesson."
    )
