"""`explainers clip`: the captioned clip of a lesson."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from ..outputs.clip.key_frames import KeyFrames
from .door import at_the_door
from .manner_options import PaceOption, ThemeOption, pace_given, theme_given

__all__ = ["app"]

EPILOG = """\b
Examples:
  explainers clip items/first-blocks.yaml            a lesson
  explainers clip items/corner-block.yaml --preview  an item, fast
  explainers clip items/ --to out/                   each in out/NAME/
  explainers clip items/ --keyframes holds           smaller files
  explainers clip items/first-blocks.yaml --step corner-block.flag
                                                     one piece alone

What was drawn before is not drawn again: see the command cache."""

app = typer.Typer(add_completion=False, rich_markup_mode=None)


@app.command(epilog=EPILOG)
@at_the_door
def clip(
    paths: Annotated[list[Path], typer.Argument(metavar="PATH", help="Items, lessons, or folders of them.")],
    to: Annotated[
        Path | None, typer.Option("--to", metavar="FOLDER", help="Where to write; else render_out/NAME.")
    ] = None,
    preview: Annotated[bool, typer.Option("--preview", help="Small and fast, to look at.")] = False,
    keyframes: Annotated[
        KeyFrames, typer.Option("--keyframes", help="For quick seeking, or one a hold for a small file.")
    ] = KeyFrames.SEEKING,
    step: Annotated[
        str | None,
        typer.Option("--step", metavar="ID", help="One step by its id, or all of a piece: corner-block.flag."),
    ] = None,
    theme: ThemeOption = None,
    pace: PaceOption = None,
) -> int:
    """Draw the clip alone: a preview, one step, or with fewer key frames."""
    from ..sentences.variants import FEW_KEY_FRAMES, PREVIEW, STEP, step_word
    from .writing import write_each

    look, speed = theme_given(theme), pace_given(pace)
    by_hand = {PREVIEW: preview, FEW_KEY_FRAMES: keyframes is KeyFrames.HOLDS, STEP: step and step_word(step)}
    return write_each(
        "clip", paths, to, theme=look, pace=speed, by_hand=by_hand, preview=preview, key_frames=keyframes, step=step
    )
