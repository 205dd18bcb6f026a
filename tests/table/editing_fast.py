"""A process that edits a file as fast as it can and says each revision once it has been answered: to be killed."""

from __future__ import annotations

import sys
from pathlib import Path
from random import Random

from explainers.editing.field_commands import Remove, SetField
from explainers.editing.outline_commands import MoveCorner
from explainers.table.sitting import Sitting


def main(path: Path, seed: int) -> None:
    """Edit until killed; every title has the number that was said before it."""
    rng = Random(seed)
    sitting = Sitting(path)
    number, whole = 0, sitting.text
    while True:
        number += 1
        sitting.edit([SetField(at="title", value=f"Edit {number}")], sitting.revision)
        print(number, flush=True)
        kind = rng.randrange(4)
        if kind == 0:
            sitting.edit([MoveCorner(at="base", corner=0, to=(-rng.random(), -rng.random()))], sitting.revision)
        elif kind == 1:
            sitting.edit([Remove(at="pieces[0]")], sitting.revision)  # not sound to read: in the journal only
        elif kind == 2:
            sitting.edit([MoveCorner(at="base", corner=0, to=(-1.0, -2.0))], sitting.revision)
            sitting.undo(sitting.revision)
        elif "pieces" not in sitting.text:
            sitting.write(whole.replace("The corner block", f"Edit {number}"), sitting.revision)


if __name__ == "__main__":
    main(Path(sys.argv[1]), int(sys.argv[2]))
