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

The file is written as soon as it reads without a fault; until then, what you do
is kept in a journal beside it. The page shows the answer: it is for you."""

app = typer.Typer(add_completion=False, rich_markup_mode=None)


@app.command(epilog=EPILOG)
@at_the_door
def draw(
    file: Annotated[
        Path | None, typer.Argument(metavar="FILE", help="An item's file; a new one where there is none.")
    ] = None,
    kind: Annotated[str | None, typer.Option("--kind", help="The kind of question of a new item.")] = None,
    open_: Annotated[bool, typer.Option("--open", help="Open the page in the browser.")] = False,
) -> int:
    """Draw a question on a page on this machine; Ctrl-C ends it."""
    import sys
    import threading
    import webbrowser

    from ..preview.watching import keep_watching
    from ..table.desk import Desk
    from ..table.judging import JudgingApart
    from ..table.server import TableServer
    from .streams import complain, say

    path = file if file is not None else _free_name()
    sitting = _sitting(path, kind)
    judges = JudgingApart(), JudgingApart()
    desk = Desk(sitting, *judges)
    server = TableServer(desk)
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
        keep_watching(lambda: [real], lambda: [real.parent], desk.look_at_file, threading.Event())
    except KeyboardInterrupt:  # the way in which it is meant to end
        pass
    finally:
        server.stop()
        for judge in judges:
            judge.close()
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


def _free_name() -> Path:
    names = (Path(f"new-item{number}.yaml") for number in ("", *(f"-{count}" for count in range(2, 1000))))
    return next(path for path in names if not path.exists())
