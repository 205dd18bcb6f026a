"""Facts: one true statement each, with the geometry that proves it.

Every class here carries the *places* it speaks of (corners, sides, regions), the *figures* it states, and enough of the
outlines for ``holds()`` to recompute the statement from scratch, by a way of its own where there is one, without
trusting whoever built the fact. Move the place, and ``holds()`` is false. No words here: sentences are made from facts
in ``explainers.wording``.

All places stand in the base's coordinates. Lengths are in the teacher's own units ("squares" on the sheet's grid).
"""
