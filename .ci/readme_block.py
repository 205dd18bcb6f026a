"""Print one fenced `sh` block of the README, so that CI runs the very commands that a reader is given.

Usage: readme_block.py README.md NUMBER          (blocks are counted from 1)
"""

from __future__ import annotations

import re
import sys
from pathlib import Path

FENCE = re.compile(r"^```sh[ \t]*\n(.*?)^```[ \t]*$", re.DOTALL | re.MULTILINE)


def block(text: str, number: int) -> str:
    """The commands of the block of that number.

    Raises : LookupError if there is no such block, or it holds no command
    """
    blocks = FENCE.findall(text)
    if len(blocks) < number:
        raise LookupError(f"block {number} was asked for, but there are only {len(blocks)} fenced sh blocks")
    commands = [line for line in blocks[number - 1].splitlines() if line.strip() and not line.lstrip().startswith("#")]
    if not commands:
        raise LookupError(f"block {number} holds no command")
    return "\n".join(commands)


def main(arguments: list[str]) -> int:
    """Print the block that the arguments name; on a mistake say which, for exit code 1."""
    if len(arguments) != 2 or not arguments[1].isdigit() or int(arguments[1]) < 1:
        print(__doc__, file=sys.stderr)
        return 2
    try:
        print(block(Path(arguments[0]).read_text(encoding="utf-8"), int(arguments[1])))
    except (OSError, LookupError) as error:
        print(f"{arguments[0]}: {error}", file=sys.stderr)
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
