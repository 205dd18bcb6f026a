"""The outputs by name, each loaded when it is first asked for.

Listing them imports neither a slide library nor a video library.

To add an output, write a module with a writer and put a row here. ``themed``, ``timed`` and ``on_paper`` are held by a
test to what the writers do; variants of an output have names by them. A writer that ``lists_folder`` is made last, and
kept only while the names and sizes in the folder are as they were. A writer calls its files by ``storyboard.name``,
which has the words of the variant already.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from importlib import import_module
from pathlib import Path
from typing import Any

from ..errors import OutputError

__all__ = ["SHEETS", "WRITERS", "Writer", "WriterSpec", "spec", "writer"]

Writer = Callable[..., Path | Sequence[Path]]  # (timeline, folder, **options) -> what it wrote


@dataclass(frozen=True, slots=True, kw_only=True)
class WriterSpec:
    """Where a writer is found."""

    target: str  # "module:function"
    makes: str  # for a reader: what it makes
    reports: bool = False  # takes `progress`, for work of more than a few seconds
    lays_on_template: bool = False  # takes `template`, the slide file that a lesson names
    certifies: bool = False  # takes `certificates` and their `scale`, and gives the answers away: for teachers alone
    themed: bool = True  # looks otherwise in another theme; words of the theme's own are in all outputs
    timed: bool = True  # tells times, or sounds: another pace or voice makes another
    captioned: bool = False  # takes `captions`: false where those of the clip stand beside it
    on_paper: bool = False  # printed: black on white, unless a theme is given by hand
    inside: str = ""  # a folder of its own inside the lesson's, for an output of many files
    lists_folder: bool = False  # tells what is in the folder: made last, and again whenever that has changed

    def load(self) -> Writer:
        """The writer itself.

        Raises OutputError where a library that it stands on is not installed.
        """
        module, _, function = self.target.partition(":")
        try:
            loaded: Any = getattr(import_module(module), function)
        except ModuleNotFoundError as error:
            if error.name is not None and error.name.split(".")[0] == "explainers":
                raise  # ours: a mistake in the table, not in the installation
            raise OutputError(
                f"making the {self.makes} needs the Python library {error.name!r}, which is not installed; "
                f"install this package again with pip, which brings it"
            ) from error
        return loaded  # type: ignore[no-any-return]


WRITERS: dict[str, WriterSpec] = {
    "clip": WriterSpec(target="explainers.outputs.clip.writer:write_clip", makes="clip", reports=True),
    "deck": WriterSpec(target="explainers.outputs.pptx.deck:write_deck", makes="deck", lays_on_template=True),
    "deck-pdf": WriterSpec(target="explainers.outputs.pdf.deck:write_pdf_deck", makes="deck as PDF", timed=False),
    "deck-html": WriterSpec(target="explainers.outputs.html.deck:write_html_deck", makes="deck as a page"),
    "handout": WriterSpec(
        target="explainers.outputs.pdf.handout:write_handout", makes="handout", timed=False, on_paper=True
    ),
    "cues": WriterSpec(
        target="explainers.outputs.text.cues:write_cues", makes="cue sheet", themed=False, captioned=True
    ),
    "script": WriterSpec(target="explainers.outputs.script:write_script", makes="recording script"),
    "transcript": WriterSpec(
        target="explainers.outputs.html.transcript:write_transcript", makes="transcript", themed=False
    ),
    "stills": WriterSpec(
        target="explainers.outputs.clip.stills:write_stills", makes="stills", reports=True, inside="stills", timed=False
    ),
    "poster": WriterSpec(
        target="explainers.outputs.clip.stills:write_poster", makes="poster", reports=True, timed=False
    ),
    "description": WriterSpec(
        target="explainers.outputs.text.description:write_description", makes="description", themed=False
    ),
    "certificate": WriterSpec(
        target="explainers.outputs.text.certificate:write_certificate",
        makes="certificate",
        certifies=True,
        themed=False,
        timed=False,
    ),
    "index": WriterSpec(
        target="explainers.outputs.html.index_page:write_index", makes="page of the folder", lists_folder=True
    ),
}

# Made of solutions alone, not of a lesson that is told: its writer takes sets of sheets, not a timeline.
SHEETS = WriterSpec(target="explainers.outputs.pdf.sheets:write_sheets", makes="sheets")


def spec(name: str) -> WriterSpec:
    """What is known of the output called `name`, without loading it.

    Raises OutputError for a name that is not in the table.
    """
    if name not in WRITERS:
        raise OutputError(f"no output called {name!r}; choose from {', '.join(sorted(WRITERS))}")
    return WRITERS[name]


def writer(name: str) -> Writer:
    """The writer called `name`.

    Raises OutputError for a name that is not in the table, or a library that is missing.
    """
    return spec(name).load()
