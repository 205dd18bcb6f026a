"""`explainers draw`: an item's file drawn on a page, with its verdict beside it."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from .door import SOUND, at_the_door

if TYPE_CHECKING:
    from ..table.sitting import Sitting

__all__ = ["app"]

EPILOG = """\b
Examples:
  explainers draw items/corner-block.yaml           draw on an item
  explainers draw new-block.yaml --open             begin a new one
  explainers draw new-block.yaml --kind turned-outline
  explainers draw items/first-blocks.yaml --item corner-block

Of a lesson the item is opened, with that lesson told below it; --item says which one where it shows several.
The file is written as soon as it reads without a fault; until then, what you do
is kept in a journal beside it. The page shows the answer: it is for you."""

app = typer.Typer(add_completion=False, rich_markup_mode=None)


@app.command(epilog=EPILOG)
@at_the_door
def draw(
    file: Annotated[
        Path | None, typer.Argument(metavar="FILE", help="An item's file, new or not; or a lesson's.")
    ] = None,
    kind: Annotated[str | None, typer.Option("--kind", help="The kind of question of a new item.")] = None,
    item: Annotated[str | None, typer.Option("--item", metavar="NAME", help="Which item of a lesson is drawn.")] = None,
    to: Annotated[
        Path | None, typer.Option("--to", metavar="FOLDER", help="Where the page builds; else render_out beside it.")
    ] = None,
    open_: Annotated[bool, typer.Option("--open", help="Open the page in the browser.")] = False,
) -> int:
    """Draw a question on a page on this machine; Ctrl-C ends it."""
    import sys
    import threading
    import webbrowser

    from ..preview.watching import keep_watching
    from ..table.desk import Desk
    from ..table.judging import JudgingApart
    from ..table.lesson_desk import LessonDesk
    from ..table.server import TableServer
    from ..table.telling import ToldApart
    from .streams import complain, say

    path, lesson = _item_of(file, item) if file is not None else (_free_name(), None)
    sitting = _sitting(path, kind)
    judges, tell = (JudgingApart(), JudgingApart()), ToldApart()
    desk = Desk(sitting, *judges)
    server = TableServer(desk, LessonDesk(desk, tell, given=lesson, out=to))
    try:
        server.start()
        if desk.sitting.taken_up:
            complain(f"explainers: {path}: what was left unfinished is taken up again")
        complain(f"explainers: drawing {path}; Ctrl-C ends it")
        say(server.address)
        sys.stdout.flush()
        if open_:
            webbrowser.open(server.address)
        real = desk.sitting.path

        def look() -> None:
            desk.look_at_file()
            server.lesson.look_at_files()

        keep_watching(lambda: [real], lambda: [real.parent], look, threading.Event())
    except KeyboardInterrupt:  # the way in which it is meant to end
        pass
    finally:
        server.stop()
        for apart in (*judges, tell):
            apart.close()
    return SOUND


def _sitting(path: Path, kind: str | None) -> Sitting:
    from ..cache.place import shared_store
    from ..document.notation import listed
    from ..errors import OutputError
    from ..kinds.registry import kind_names
    from ..table.kept_steps import KeptSteps
    from ..table.sitting import Sitting

    if kind is not None and kind not in kind_names():
        raise OutputError(f"--kind: there is no kind called {kind}. To mend it: write {listed(kind_names())}.")
    if path.is_dir():
        raise OutputError(f"{path}: this is a folder. To mend it: name the file of one item.")
    return Sitting(path, kind=kind, kept=KeptSteps(shared_store()))


def _item_of(file: Path, named: str | None) -> tuple[Path, Path | None]:
    """The item that is drawn, and the lesson that it was named by, if any."""
    from ..document.notation import listed
    from ..errors import OutputError
    from ..intake.reader import kind_of_file
    from ..table.lessons_beside import shown_items

    if not file.is_file() or kind_of_file(file) != "lesson":
        if named is not None:
            raise OutputError(f"--item: {file} is no lesson. To mend it: leave --item out.")
        return file, None
    items = shown_items(file)
    if named is None and len(items) > 1:
        raise OutputError(f"{file}: this lesson shows {len(items)} items. To mend it: add --item {' or '.join(items)}.")
    wanted = named.removesuffix(".yaml") if named is not None else next(iter(items))
    if wanted not in items:
        raise OutputError(f"--item: {file} shows no item {wanted}. To mend it: write {listed(tuple(items))}.")
    if not items[wanted].is_file():
        raise OutputError(f"{file}: there is no file {items[wanted]}. To mend it: correct the lesson's parts.")
    return items[wanted], file


def _free_name() -> Path:
    names = (Path(f"new-item{number}.yaml") for number in ("", *(f"-{count}" for count in range(2, 1000))))
    return next(path for path in names if not path.exists())
