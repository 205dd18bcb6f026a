"""The command ``explainers``: its front page, its version, its exit.

Imports typer alone, so that help is as quick as typer; the rooms are loaded inside the command that needs them.
"""

from __future__ import annotations

import gc
import signal
import sys
from typing import Annotated

import typer

from .door import INTERRUPTED, PIPE_CLOSED, REFUSED
from .lazy_group import LazyGroup
from .streams import complain, make_safe, silence

__all__ = ["app", "main"]

EPILOG = """\b
Examples:
  explainers new item my-block              a question to change
  explainers check items/                   is every item sound?
  explainers look items/corner-block.yaml   what it says, in pictures
  explainers build items/first-blocks.yaml  a whole lesson

Exit codes: 0 sound, 1 unsound (not exactly one right option), 2 refused (cannot be read, solved or written)."""

app = typer.Typer(
    cls=LazyGroup,
    name="explainers",
    rich_markup_mode=None,
    no_args_is_help=True,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"]},
)


def _print_version(wanted: bool) -> None:
    if wanted:
        from importlib.metadata import version

        print(f"explainers {version('explainers')}")
        raise typer.Exit


@app.callback(epilog=EPILOG)
def explainers(
    version: Annotated[
        bool, typer.Option("--version", help="Print the version.", is_eager=True, callback=_print_version)
    ] = False,
) -> None:
    """Lessons that explain questions about outlines: proven, drawn, captioned."""


def main() -> None:
    """Run the command line of this process, then leave by its exit code."""
    make_safe()
    # What is loaded stays, and looking through it again and again for what may go takes a tenth of a short command.
    gc.set_threshold(50_000)
    # Being told to stop is like Ctrl-C: half-written files are removed, the drawing process is ended.
    signal.signal(signal.SIGTERM, signal.default_int_handler)
    code: int | str | None = 0
    if "" in sys.argv[1:]:  # such as of "$FILE" where nothing is in it: it would mean this folder
        complain("explainers: a name on the command line is empty. To mend it: write the file's or folder's name")
        sys.exit(REFUSED)
    try:
        try:
            app(prog_name="explainers")
        except SystemExit as leaving:
            code = leaving.code
        sys.stdout.flush()
    except BrokenPipeError:
        silence()
        code = PIPE_CLOSED
    except KeyboardInterrupt:
        complain("explainers: stopped")
        code = INTERRUPTED
    except OSError as error:  # such as a full disk under `> file`
        silence()
        complain(f"explainers: standard output: {error.strerror or error}")
        code = REFUSED
    sys.exit(code)
