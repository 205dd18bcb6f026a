"""`explainers trace`: a question begun from a drawing, a slide or a picture."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from .door import SOUND, at_the_door

__all__ = ["app"]

EPILOG = """\b
Examples:
  explainers trace sheet.jpg --to my-block.yaml     a photo of squared paper
  explainers trace blocks.svg --unit 10 --to my-block.yaml
  explainers trace lesson.pptx --slide 3 --base quilt --to my-block.yaml
  explainers trace blocks.svg                       printed, nothing written

The largest shape, or the one named base, is the base; the others are pieces. A
piece that lies along a side is joined there, one that lies inside is cut; else
the same letter beside a side of it and of the base says where it goes. What
cannot be decided is left open in remarks. Beside the file stands a picture of
what was read: compare it with the original. `--unit` says how long 1 is: in an
SVG's units, in centimetres of a slide, in squares of the paper on a photo.
Photos need OpenCV: pip install 'explainers[trace]'."""

app = typer.Typer(add_completion=False, rich_markup_mode=None)


@app.command(epilog=EPILOG)
@at_the_door
def trace(
    source: Annotated[Path, typer.Argument(metavar="FILE", help="An SVG drawing, PPTX slides, a PNG or JPEG picture.")],
    to: Annotated[Path | None, typer.Option("--to", metavar="NEW.yaml", help="The item to write.")] = None,
    base: Annotated[str, typer.Option("--base", metavar="NAME", help="What the base is called in it.")] = "base",
    slide: Annotated[int, typer.Option("--slide", metavar="N", help="Which slide of a PPTX.")] = 1,
    grid: Annotated[float, typer.Option("--grid", help="Corners near multiples of this go there.")] = 0.5,
    unit: Annotated[float, typer.Option("--unit", help="How long 1 is in it (0.000001 to 1000000).")] = 1.0,
) -> int:
    """Begin a question from a drawing, a slide or a photo."""
    from ..authoring.new_files import checked_name
    from ..document.notation import shown
    from ..errors import Fault, ItemError, OutputError
    from ..safe_write import reported, write_files
    from ..tracing.file_read import MOST_BYTES, read_whole
    from ..tracing.sketch import Refused
    from ..tracing.source import proposal_in, shown_with
    from ..tracing.written import item_text
    from .streams import complain, say

    for option, value, least, most in (("--grid", grid, 0.001, 1e3), ("--unit", unit, 1e-6, 1e6)):
        if not least <= value <= most:  # so that nan, which is neither below a bound nor above one, is told too
            message = f"{option} {value:g} is no number from {shown(least)} to {shown(most)}"
            raise OutputError(f"{message}. To mend it: write one, such as 0.5")
    if to is not None and to.suffix != ".yaml":
        raise OutputError(f"{to}: an item's file ends in .yaml. To mend it: write --to {to.stem}.yaml.")
    name = checked_name(to.name) if to is not None else "my-block"
    try:
        data = read_whole(source, MOST_BYTES)
        kind, proposal = proposal_in(data, unit=unit, grid=grid, base=base, slide=slide)
        picture = shown_with(data, kind, proposal)
    except Refused as stop:
        fault = Fault(file=str(source), line=stop.line, field="", message=stop.message, fix=stop.fix)
        raise ItemError([fault]) from stop
    if to is None:
        say(item_text(proposal, name=name, source=source.name).rstrip("\n"))
    else:
        beside = f"{to.stem}-read{picture.suffix}"
        with reported(to):
            for path in (to, to.with_name(beside)):
                if path.exists() or path.is_symlink():
                    raise OutputError(f"{path}: is there already. To mend it: take another name.")
        text = item_text(proposal, name=name, source=source.name, picture=beside)
        for path in write_files(to.parent, {to.name: text, beside: picture.data}):
            say(str(path))
    for each in proposal.open:
        about = f"{each.about}: " if each.about else ""
        complain(f"{source}: to be decided: {about}{each.message}. To mend it: {each.fix}.")
    for passed in proposal.passed:
        line = f":{passed.line}" if passed.line else ""
        complain(f"{source}{line}: not taken: {passed.name}: {passed.message}. To mend it: {passed.fix}.")
    return SOUND
