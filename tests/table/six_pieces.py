"""A question of six pieces and five options, as large as one may be asked for: for the bench and the tests."""

from __future__ import annotations

__all__ = ["SIX"]

SIX = """\
# Six pieces along one strip.
item: six-pieces
title: Six pieces
base:
  corners: [[0, 0], [12, 0], [12, 4], [0, 4]]
pieces:
  - piece: flag
    does: join
    corners: [[0, 0], [2, 0], [0, 2]]
    turned: 35
    side: [[0, 0], [2, 0]]
    meets: [[12, 0], [12, 2]]
  - piece: fin
    does: join
    corners: [[0, 0], [3, 0], [3, 1]]
    turned: 60
    side: [[0, 0], [3, 0]]
    meets: [[12, 4], [9, 4]]
  - piece: tab
    does: cut
    corners: [[0, 0], [2, 0], [2, 1], [0, 1]]
    turned: 20
    side: [[0, 0], [2, 0]]
    meets: [[5, 4], [7, 4]]
  - piece: wing
    does: join
    corners: [[0, 0], [2, 0], [1, 2]]
    turned: 140
    side: [[0, 0], [2, 0]]
    meets: [[1, 4], [3, 4]]
  - piece: notch
    does: cut
    corners: [[0, 0], [2, 0], [0, 1]]
    turned: 70
    side: [[0, 0], [2, 0]]
    meets: [[0, 1], [0, 3]]
  - piece: foot
    does: join
    corners: [[0, 0], [3, 0], [2, 1], [0, 1]]
    turned: 200
    side: [[0, 0], [3, 0]]
    meets: [[2, 0], [5, 0]]
options:
  - {outline: result, slip: left-out, piece: flag, turned: 285}
  - {outline: result, slip: flipped, turned: 180}
  - {outline: result, slip: other-way-round, piece: foot, turned: 315}
  - {outline: result, slip: other-way-round, piece: wing, turned: 240}
  - {outline: result, turned: 45}
"""
