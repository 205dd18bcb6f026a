"""An item that takes minutes, for those who must not wait for it."""

from __future__ import annotations


def slow_item() -> str:
    """Allowed by every limit of the reader, yet minutes of work: wrong options made from a base of 300 corners."""
    zigzag = [[round(20 - 20 * n / 297, 4), 20.5 + 0.4 * (n % 2)] for n in range(1, 297)]
    pieces = "".join(
        f"  - {{piece: tab-{n}, does: join, corners: [[0, 0], [2, 0], [2, 1], [0, 2]], turned: {17 * n + 10}, "
        f"side: [[0, 0], [2, 0]], meets: [[{1 + 3 * n}, 0], [{3 + 3 * n}, 0]]}}\n"
        for n in range(6)
    )
    corners = [[0, 0], [20, 0], [20, 20], *zigzag, [0, 20]]
    return f"item: slow-block\nbase:\n  corners: {corners}\npieces:\n{pieces}options: {{make: 5, seed: 7}}\n"
