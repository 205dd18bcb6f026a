"""An item as its teacher sees it while writing: every corner, side and mark by name, every step, every verdict."""
