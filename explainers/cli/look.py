"""`explainers look`: everything about an item on one page, once or whenever it is saved."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from .door import REFUSED, SOUND, UNSOUND, at_the_door, worst

if TYPE_CHECKING:
    from collections.abc import Callable

    from ..choice.panels.view import View
    from ..errors import Fault
    from ..figure.theme import Theme
    from ..intake.workspace import Workspace

__all__ = ["app"]

EPILOG = """\b
Examples:
  explainers look items/corner-block.yaml                one page of it
  explainers look items/corner-block.yaml --watch        at every save
  explainers look items/ --watch --open                  a whole folder
  explainers look items/corner-block.yaml --to look.svg  as one picture

The page shows the answer: it is for you, not for learners."""

app = typer.Typer(add_completion=False, rich_markup_mode=None)


@app.command(epilog=EPILOG)
@at_the_door
def look(
    item: Annotated[Path, typer.Argument(metavar="ITEM", help="An item's file, a lesson's, or a folder of items.")],
    to: Annotated[
        Path | None,
        typer.Option("--to", metavar="FILE", help="Where to write: .html or .svg; else render_out/NAME/look.html."),
    ] = None,
    watch: Annotated[
        bool, typer.Option("--watch", help="Serve it on this machine and redraw at each save; Ctrl-C ends it.")
    ] = False,
    open_: Annotated[bool, typer.Option("--open", help="Open it in the browser.")] = False,
) -> int:
    """Draw an item on a grid: sides, steps, options, warnings."""
    from ..errors import OutputError
    from ..intake.workspace import Workspace

    if watch:
        if to is not None:
            raise OutputError("--watch shows the page and writes nothing. To mend it: leave out --to or --watch.")
        return _watch(item, open_)
    if to is not None and to.suffix.lower() not in (".html", ".svg"):
        raise OutputError(f"{to}: no such format is known. To mend it: end the name in .html or .svg.")
    workspace = Workspace()
    files, theme = _items_of(item, workspace)
    if to is not None and len(files) > 1:
        raise OutputError(f"{to}: {len(files)} items do not go into one file. To mend it: leave out --to.")
    return worst([_write(file, workspace, theme, to, open_ and number == 0) for number, file in enumerate(files)])


def _items_of(path: Path, workspace: Workspace) -> tuple[list[Path], Theme]:
    """The items that a path stands for, and the theme that they are looked at in: their lesson's."""
    from ..errors import ItemError, LessonError
    from ..figure.theme import DEFAULT_THEME
    from ..figure.theme_choice import chosen_theme
    from ..item.folder import item_files, nothing_in

    if not path.is_dir() and workspace.kind(path) == "lesson":
        reading = workspace.lesson(path)
        if reading.lesson is None:
            raise LessonError(reading.faults)
        files = list(dict.fromkeys(part.show for part in reading.lesson.parts))
        return files, chosen_theme(reading.lesson.theme)
    files = item_files([path], workspace.opened)
    if not files:
        raise ItemError([nothing_in(path, "item")])
    return files, DEFAULT_THEME


def _write(file: Path, workspace: Workspace, theme: Theme, to: Path | None, opened: bool) -> int:
    from ..figure.theme import DEFAULT_THEME
    from ..made_folder import MadeFolder, key_of
    from ..safe_write import write_text
    from ..sentences.variants import THEME, variant_name
    from .door import tell
    from .reports import tell_aside, tell_warnings
    from .streams import complain, say
    from .writing import DEFAULT_FOLDER

    try:
        from ..preview.item_view import item_view

        solution, written = workspace.solution(file), workspace.item(file).source
        view = item_view(solution, written.line_of, theme)
    except Exception as error:  # told like any other, so that the items after this one are still drawn
        return tell(error, file)
    # Of a lesson in a theme of its own the page is another than that of the item alone.
    named = variant_name("look", {THEME: theme.name if theme != DEFAULT_THEME else None})
    path = to or DEFAULT_FOLDER / view.name / f"{named}.html"
    page = _writer(path)(view)
    made = MadeFolder(path.parent, (file,))
    with made.writing(key_of(view.name, path.name.removesuffix(".html")), [Path(theme.file)] if theme.file else ()):
        write_text(path, page)
    tell_aside(made.aside)
    tell_warnings(file, [solution], written)
    for reason in solution.unsound_because:
        complain(f"{file}: unsound: {reason}")
    say(str(path))
    if opened:
        _open(path.resolve().as_uri())
    return SOUND if solution.sound else UNSOUND


def _writer(path: Path) -> Callable[[View], str]:
    if path.suffix.lower() == ".svg":
        from ..preview.one_svg import whole_svg

        return whole_svg
    from ..preview.page import standalone_page, view_part

    return lambda view: standalone_page(view.title, view_part(view), view.theme)


def _watch(path: Path, opened: bool) -> int:
    import sys
    import threading

    from ..preview.board import Board
    from ..preview.drawing_apart import DrawingApart
    from ..preview.server import PreviewServer
    from ..preview.subject import pages, subject_of
    from ..preview.watching import keep_looking
    from .reports import tell_faults
    from .streams import complain, say

    if not path.exists():
        tell_faults([_not_there(path)])
        return REFUSED
    draw = DrawingApart()
    try:
        subject = subject_of(path, draw)
        board = Board(pages(subject))
        server = PreviewServer(board)
        server.start()
        complain(f"explainers: looking at {path}; Ctrl-C ends it")
        say(server.address)
        sys.stdout.flush()
        if opened:
            _open(server.address)
        keep_looking(subject, lambda now: board.publish(pages(now)), threading.Event(), draw)
    except KeyboardInterrupt:  # the way in which it is meant to end
        pass
    finally:
        draw.close()
    return SOUND


def _not_there(path: Path) -> Fault:
    from ..errors import Fault

    return Fault(file=str(path), field="", message="there is no such file or folder", fix="check the name")


def _open(address: str) -> None:
    import webbrowser

    webbrowser.open(address)
