"""`explainers present`: a lesson's slides in the browser of this machine."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from .door import REFUSED, SOUND, at_the_door, tell
from .manner_options import PaceOption, ThemeOption, pace_given, theme_given

__all__ = ["app"]

EPILOG = """\b
Examples:
  explainers present items/first-blocks.yaml            the lesson
  explainers present items/corner-block.yaml            an item alone
  explainers present items/first-blocks.yaml --page     clip and files
  explainers present items/first-blocks.yaml --no-open  only make them

The slides are made again only if the lesson has changed. In them, P opens the
presenter view. They work without a network, from a USB stick too."""

app = typer.Typer(add_completion=False, rich_markup_mode=None)

_SLIDES, _PAGE = "deck-html", "index"


@app.command(epilog=EPILOG)
@at_the_door
def present(
    lesson: Annotated[Path, typer.Argument(metavar="LESSON", help="A lesson, or an item alone.")],
    page: Annotated[bool, typer.Option("--page", help="Open the page of the lesson's folder instead.")] = False,
    no_open: Annotated[bool, typer.Option("--no-open", help="Open nothing, only say where it is.")] = False,
    to: Annotated[Path | None, typer.Option("--to", metavar="FOLDER", help="Its folder; else render_out/NAME.")] = None,
    theme: ThemeOption = None,
    pace: PaceOption = None,
) -> int:
    """Open the slides that learners handle, with a presenter view."""
    from ..batch import Built, jobs_of, run_job
    from ..intake.workspace import Workspace
    from ..item.series_folder import is_many
    from ..outputs.html.index_page import INDEX_NAME
    from .reports import tell_aside, tell_voice, tell_warnings_of, tell_words
    from .streams import complain, say
    from .writing import DEFAULT_FOLDER

    look, speed = theme_given(theme), pace_given(pace)
    workspace = Workspace()
    if is_many([lesson], workspace.opened):
        complain(f"{lesson}: one lesson is presented at a time. To mend it: name the lesson's file.")
        return REFUSED
    (found,) = jobs_of([lesson], look, speed, workspace=workspace)
    if isinstance(found, Built):
        return tell(found.error, found.source) if found.error else SOUND
    tell_warnings_of(found)
    folder = to or DEFAULT_FOLDER / found.name
    built = run_job(found, folder, (_SLIDES, _PAGE) if page else (_SLIDES,))
    tell_aside(built.aside)
    if built.error:
        return tell(built.error, built.source)
    tell_words(found)
    tell_voice(found)
    shown = next(
        path for path in (*built.made, *built.kept) if path.suffix == ".html" and (path.name == INDEX_NAME) == page
    )
    say(str(shown))
    if not no_open and not _opened(shown.resolve().as_uri()):
        complain("explainers: no browser could be opened here. To see it, open this file in one.")
    return SOUND


def _opened(address: str) -> bool:
    import webbrowser

    try:
        return webbrowser.open(address)
    except (webbrowser.Error, OSError):
        return False
