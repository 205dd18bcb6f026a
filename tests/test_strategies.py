"""The generated items are items: written down, they can be read, and every piece meets a side that it may name."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from strategies import random_case

from explainers.intake.reader import scan_item
from explainers.intake.writing import item_yaml


def test_every_generated_item_can_be_read(tmp_path: Path, cases: Callable[[int, int], int]) -> None:
    path = tmp_path / "generated.yaml"
    met = set()
    for seed in range(cases(60, 2000)):
        made = random_case(seed).item
        path.write_text(item_yaml(made), encoding="utf-8")
        assert scan_item(path).faults == (), seed
        met.update("piece" if piece.of != "base" else "base" for piece in made.pieces)
    assert met == {"base", "piece"}
