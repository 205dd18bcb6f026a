"""`explainers prompter`: a page to read a lesson from while it is recorded."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from .door import REFUSED, SOUND, at_the_door, tell

__all__ = ["app"]

EPILOG = """\b
Examples:
  explainers prompter items/first-blocks.yaml
  explainers prompter items/corner-block.yaml
  explainers prompter items/first-blocks.yaml --to read.html

Open the page in a browser, start any recorder, read. At the end the page
saves NAME.log.json: give it to the command fit, with the recording."""

app = typer.Typer(add_completion=False, rich_markup_mode=None)


@app.command(epilog=EPILOG)
@at_the_door
def prompter(
    lesson: Annotated[Path, typer.Argument(metavar="LESSON", help="A lesson, or an item alone.")],
    to: Annotated[
        Path | None, typer.Option("--to", metavar="FILE.html", help="Else render_out/NAME/NAME.prompter.html.")
    ] = None,
) -> int:
    """Write a page to read from while you record."""
    from ..batch import Built, jobs_of, keep_page_true
    from ..intake.workspace import Workspace
    from ..item.series_folder import is_many
    from ..made_folder import MadeFolder, key_of
    from ..outputs.html.prompter import write_prompter
    from ..storyboard.pacing import pace
    from .reports import tell_aside, tell_warnings_of, tell_words
    from .streams import complain, say
    from .writing import DEFAULT_FOLDER

    workspace = Workspace()
    if is_many([lesson], workspace.opened):
        complain(f"{lesson}: a page is read for one lesson. To mend it: name the lesson's file.")
        return REFUSED
    (found,) = jobs_of([lesson], workspace=workspace)
    if isinstance(found, Built):
        return tell(found.error, found.source) if found.error else SOUND
    tell_warnings_of(found)
    # Planned from the words, whatever voice was fitted before: that is the pace to aim at.
    timeline = pace(found.storyboard(), found.profile)
    path = to or DEFAULT_FOLDER / found.name / f"{found.name}.prompter.html"
    made = MadeFolder(path.parent, (found.source,))
    with made.writing(key_of(found.name, "prompter" if to is None else path.name)):
        write_prompter(timeline, path)
    tell_aside(made.aside)
    say(str(path))
    if to is None:
        keep_page_true(found.source, path.parent, workspace)
    tell_words(found)
    return SOUND
