"""Our own themes: a quilter's work table by day, the same by lamplight, and one in black and white to print."""

from __future__ import annotations

from dataclasses import replace

from ..style import THEME_NAMES
from .theme import DEFAULT_THEME, Theme

__all__ = ["DARK", "LIGHT", "PRINT", "THEMES"]

LIGHT = DEFAULT_THEME

DARK = replace(
    LIGHT.having(
        {
            "join.fill": "#1F4237",
            "join.pattern": "#8FDDBB",
            "cut.fill": "#4F2A27",
            "cut.pattern": "#F2A491",
        }
    ),
    name="dark",
    paper="#12161C",
    ink="#F4EFE2",
    quiet="#A9B1BC",
    table="#1B2129",
    tray="#222A34",
    panel_stroke="#3A4552",
    base="#27475E",
    outline="#54461C",
    option="#3B3D48",
    attention="#CDB4FF",
    right="#86E0A6",
    wrong="#FFA394",
    patch_seam="#12161C",
    stitch_done="#CDB4FF",
    stitch_to_come="#3D4753",
    # Light lines on dark look thinner on a projector than dark ones on light.
    side_width=0.038,
    outline_width=0.062,
    hatch_width=0.030,
)

# White cloth: what a fill tells elsewhere is told here by outline, pattern and weight, and saves toner.
PRINT = replace(
    LIGHT.having(
        {
            "join.fill": "#FFFFFF",
            "join.pattern": "#000000",
            "cut.fill": "#FFFFFF",
            "cut.pattern": "#000000",
        }
    ),
    name="print",
    paper="#FFFFFF",
    ink="#000000",
    quiet="#000000",
    table="#FFFFFF",
    tray="#FFFFFF",
    panel_stroke="#000000",
    base="#FFFFFF",
    outline="#FFFFFF",
    option="#FFFFFF",
    attention="#000000",
    right="#000000",
    wrong="#000000",
    patch_seam="#000000",
    stitch_done="#000000",
    stitch_to_come="#BBBBBB",
    differs_pattern="checks",
    side_width=0.030,
    outline_width=0.090,
    pointer_width=0.180,
    agree_width=0.170,
    differ_width=0.150,
    mark_width=0.095,
)

THEMES: dict[str, Theme] = dict(zip(THEME_NAMES, (LIGHT, DARK, PRINT), strict=True))
