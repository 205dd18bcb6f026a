"""Items to look at: the demo, the fixtures of the commands, and one that has nearly everything to be warned of."""

from __future__ import annotations

from pathlib import Path

from demo_items import demo_items

__all__ = ["BORDER", "CORNER", "DEMO", "FIXTURES", "ROOT", "WARNED"]

ROOT = Path(__file__).parents[2]
DEMO = demo_items()
BORDER, CORNER = (ROOT / "items" / f"{name}-block.yaml" for name in ("border", "corner"))
FIXTURES = ROOT / "tests" / "cli" / "fixtures"

WARNED = """\
item: warned-block
title: "The <img src=x onerror=alert(1)> block </title><script>alert(2)</script> & \\"friends\\""
base:
  corners: [[0, 4], [10, 4], [10, 0], [5.1, 0], [5, 0.1], [4.9, 0], [0, 0]]
  holes: [[[1, 1], [3, 1], [3, 3], [1, 3]]]
pieces:
  - piece: flag
    does: join
    corners: [[0, 0], [1.9, 0], [1.9, 1.9], [0, 1.9]]
    side: [[0, 0], [1.9, 0]]
    meets: [[8, 4], [9.9, 4]]
    mark: N
  - piece: tab
    does: cut
    corners: [[0, 0], [1.9, 0], [0, 1]]
    turned: 17
    side: [[0, 0], [1.9, 0]]
    meets: [[10, 0.05], [10, 1.95]]
    mark: "<b>"
options:
  - {outline: result, slip: flipped, turned: 45}
  - {outline: result, turned: 90}
  - {outline: result, slip: left-out, piece: tab, turned: -60}
  - {outline: result, slip: left-out, piece: flag, turned: 10, scale: 0.5}
"""
