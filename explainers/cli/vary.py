"""`explainers vary`: new questions of the same build, with other outlines."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from .door import REFUSED, SOUND, UNSOUND, at_the_door

__all__ = ["app"]

EPILOG = """\b
Examples:
  explainers vary items/corner-block.yaml --count 5 --seed 7
  explainers vary items/kite-block.yaml --count 3 --easier
  explainers vary items/kite-block.yaml --harder --to bank/

Exit codes: 0 all written, 1 fewer than asked for, 2 refused."""

app = typer.Typer(add_completion=False, rich_markup_mode=None)


@app.command(epilog=EPILOG)
@at_the_door
def vary(
    item: Annotated[Path, typer.Argument(metavar="ITEM", help="The file of one item.")],
    count: Annotated[int, typer.Option("--count", min=1, max=200, help="How many.")] = 4,
    seed: Annotated[int, typer.Option("--seed", min=0, max=2**31 - 1, help="Another seed, other questions.")] = 1,
    easier: Annotated[bool, typer.Option("--easier", help="Plainer outlines or turns, nothing flipped.")] = False,
    harder: Annotated[bool, typer.Option("--harder", help="Odder outlines or turns, a flipped option.")] = False,
    to: Annotated[
        Path | None, typer.Option("--to", metavar="FOLDER", help="Where to write; else render_out/NAME/siblings.")
    ] = None,
    force: Annotated[bool, typer.Option("--force", help="Write over files that are there.")] = False,
) -> int:
    """Write new questions of the same build, all outlines other."""
    from ..choice.variations import Level
    from ..errors import OutputError
    from ..intake.workspace import load_solution
    from ..intake.writing import item_yaml
    from ..kinds.registry import kind_of
    from ..made_folder import MadeFolder, key_of
    from ..safe_write import write_files
    from .reports import tell_aside
    from .streams import complain, say
    from .writing import DEFAULT_FOLDER

    if easier and harder:
        complain("explainers: --easier and --harder at once. To mend it: give one of the two.")
        return REFUSED
    level = Level.EASIER if easier else Level.HARDER if harder else Level.SAME
    original = load_solution(item)
    made = kind_of(original.item).vary(original, count=count, seed=seed, level=level)
    folder = to if to is not None else DEFAULT_FOLDER / original.item.name / "siblings"
    files: dict[str, bytes | str] = {}
    for new in made.found:
        files[f"{new.question.name}.yaml"] = item_yaml(new.question, comment=new.comment)
    there = [folder / name for name in files if (folder / name).exists()]
    if there and not force:
        raise OutputError(
            f"{there[0]}: is there already{f', with {len(there) - 1} more' if len(there) > 1 else ''}. "
            "To mend it: choose another --seed or --to, or give --force to write over"
        )
    kept = MadeFolder(folder, (item,))
    with kept.writing(key_of(original.item.name, "siblings")):
        written = write_files(folder, files)
    tell_aside(kept.aside)
    for path, new in zip(written, made.found, strict=True):
        say(str(path))
        for change in new.changes:
            say(f"    {change}")
    if made.too_few:
        complain(f"{item}: {made.too_few}.")
        return REFUSED if made.nothing_to_change else UNSOUND
    return SOUND
