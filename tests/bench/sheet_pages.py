"""What a printed page costs at 10 items and at 100: `python tests/bench/sheet_pages.py`.

Items are those of the demo and new ones of their build. Planning and writing are timed apart, each in processor
seconds of this process, question sheets and answer sheets together; solving is left out. Prints a table; asserts
nothing.
"""

from __future__ import annotations

import sys
import tempfile
import time
from dataclasses import replace
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

import pikepdf

from explainers.choice.model import Solution
from explainers.figure.paper import Printing
from explainers.figure.themes import PRINT
from explainers.intake.workspace import load_solution
from explainers.lesson.sheet_plan import plan_sheets
from explainers.outputs.pdf.sheets import write_sheets
from explainers.sentences.sheets import SheetKind

KINDS = (SheetKind.QUESTION, SheetKind.ANSWER, SheetKind.MARKING, SheetKind.CUTOUT)


def named(solution: Solution, number: int) -> Solution:
    """The same question under another name: the mix of items is the same at every count."""
    item = replace(solution.item, name=f"{solution.item.name}-{number}", title=f"{solution.item.title} {number}")
    return replace(solution, item=item)


def main() -> None:
    """The table."""
    demo = [load_solution(path) for path in sorted((ROOT / "items").glob("*-block.yaml"))][:10]
    print(f"{'items':>6} {'pages':>6} {'plan s':>8} {'write s':>8} {'s a page':>9}")
    costs = []
    for count in (10, 100):
        solutions = [named(demo[number % len(demo)], number) for number in range(count)]
        with tempfile.TemporaryDirectory() as folder:
            start = time.process_time()
            planned = plan_sheets(solutions, name="x", title="X", theme=PRINT, printing=Printing(), only=KINDS)
            middle = time.process_time()
            paths = write_sheets([planned], Path(folder))
            end = time.process_time()
            pages = 0
            for path in paths:
                with pikepdf.open(path) as pdf:
                    pages += len(pdf.pages)
        costs.append((end - start) / pages)
        print(f"{count:6d} {pages:6d} {middle - start:8.2f} {end - middle:8.2f} {costs[-1]:9.4f}")
    print(f"a page at 100 items costs {costs[1] / costs[0]:.2f} times that at 10 (goal: at most 1.2)")


if __name__ == "__main__":
    main()
