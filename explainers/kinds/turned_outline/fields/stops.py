"""Where a lesson may stop within an item of the turned outline and ask."""

from __future__ import annotations

from ....item.stops import Stops

__all__ = ["STOPS"]

STOPS = Stops(names=("options",), example="options")
