"""What a check of many corners takes: `python tests/bench/many_corners.py [--made]`, about a minute on an idle core.

Items of one piece with five options drawn by hand, every outline with so many corners, of three kinds: jagged, with
teeth all alike, with long teeth. Seconds are processor time of the whole command, loading included; both columns of
ratios are against the item of 50 corners of the same kind. Prints a table; asserts nothing.
"""

from __future__ import annotations

import argparse
import json
import subprocess
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

TESTS = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(TESTS))  # as pytest has it

from jagged_items import KINDS, jagged_item

CORNERS = (50, 100, 200, 300)


def main() -> None:
    """The table."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--made", action="store_true", help="let the options be made instead")
    made = parser.parse_args().made
    print(f"{'kind':8}{'corners':>8}{'seconds':>9}{'ratio':>7}{'MB':>7}{'ratio':>7}")
    with TemporaryDirectory(prefix="corners-") as name:
        for kind in KINDS:
            first: dict[str, float] = {}
            for corners in CORNERS:
                path = Path(name) / "torn-patch.yaml"
                path.write_text(jagged_item(corners, kind=kind, made=made), encoding="utf-8")
                run = [sys.executable, str(TESTS / "measured_child.py"), "check", str(path)]
                found = json.loads(subprocess.run(run, check=True, capture_output=True).stdout)
                first = first or found
                seconds, megabytes = found["seconds"], found["megabytes"]
                ratios = seconds / first["seconds"], megabytes / first["megabytes"]
                said = "" if found["code"] == 0 else f"  exit code {found['code']}"
                print(f"{kind:8}{corners:8}{seconds:9.1f}{ratios[0]:7.1f}{megabytes:7.0f}{ratios[1]:7.1f}{said}")


if __name__ == "__main__":
    main()
