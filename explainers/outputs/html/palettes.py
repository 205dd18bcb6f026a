"""The colours of a page that can be looked at in several ways: light, dark, high contrast.

Pictures name their colours by number; a palette gives each number a value. A writer knows only the colours that are in
the figures: where they are those of one of our themes, each is given the value that the other themes have for the same
thing. Greys are turned round, dark for light. Where the colours are a teacher's own, or one stands for things that
would need two, there is no second palette.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace

from ...figure.contrast import relative_luminance
from ...figure.theme import Theme
from ...figure.themes import DARK, LIGHT
from ...style import ENTRIES
from .pictures import colour_name

__all__ = ["HIGH_CONTRAST", "OWN", "Palette", "palette_css", "palettes_for"]

OWN = "own"

# Everything that carries a meaning reaches 7 to 1 (WCAG 2.2, 1.4.6) on every ground that it may stand on.
HIGH_CONTRAST = replace(
    LIGHT.having(
        {
            "join.fill": "#EFF8EF",
            "join.pattern": "#0B4A38",
            "cut.fill": "#FBEFEA",
            "cut.pattern": "#6B2114",
        }
    ),
    name="contrast",
    paper="#FFFFFF",
    ink="#000000",
    quiet="#000000",
    table="#FFFFFF",
    tray="#FFFFFF",
    panel_stroke="#000000",
    base="#EAF3FA",
    outline="#FFF3CC",
    option="#F7F4EC",
    attention="#43137F",
    right="#0A4A22",
    wrong="#8A0F0A",
    patch_seam="#FFFFFF",
    stitch_done="#43137F",
    stitch_to_come="#8C8C8C",
)

_PALETTES: dict[str, Theme] = {"light": LIGHT, "dark": DARK, "contrast": HIGH_CONTRAST}
# What the page itself is coloured with, after fields of the theme.
_OF_PAGE = ("paper", "ink", "quiet", "table", "tray", "panel_stroke", "attention", "right", "wrong", "stitch_to_come")


@dataclass(frozen=True, slots=True, kw_only=True)
class Palette:
    """One way to colour a page.

    of_page     : "paper", "ink" and so on, as custom properties of the page are called
    of_pictures : the colour of a figure -> what is shown in its place
    """

    name: str
    dark: bool
    of_page: Mapping[str, str]
    of_pictures: Mapping[str, str]


def palettes_for(colours: Collection[str], *, paper: str, ink: str) -> tuple[Palette, ...]:
    """The palettes in which figures of these colours can be shown; the first shows them as they are.

    paper, ink : of the figures, for the page round them
    """
    own = next((theme for theme in (LIGHT, DARK) if set(colours) <= {*_values(theme).values()}), None)
    if own is None or any(_mapped(own, theme, colours) is None for theme in _PALETTES.values()):
        if all(_is_grey(colour) for colour in (*colours, paper, ink)):
            return _of_greys(colours, paper, ink)
        return (_own_palette(OWN, colours, paper, ink),)
    ordered = sorted(_PALETTES.items(), key=lambda named: named[1] is not own)
    return tuple(
        Palette(
            name=name,
            dark=theme is DARK,
            of_page={field: _values(theme)[field] for field in _OF_PAGE},
            of_pictures=_mapped(own, theme, colours) or {},
        )
        for name, theme in ordered
    )


def palette_css(palettes: Collection[Palette], numbers: Mapping[str, int]) -> str:
    """The rules that give each custom property its value.

    The first palette is shown unless the reader's device asks for another, or the reader chooses one by the attribute
    ``data-palette``; on paper it is the first light one.
    """
    first, *others = palettes
    rules = [f":root{{{_values_css(first, numbers)}}}"]
    by_name = {palette.name: palette for palette in palettes}
    asked = (("(prefers-color-scheme: dark)", "dark"), ("(prefers-contrast: more)", "contrast"))
    for query, name in asked:
        if name in by_name and by_name[name] is not first:
            rules.append(f"@media {query}{{:root:not([data-palette]){{{_values_css(by_name[name], numbers)}}}}}")
    if others:
        rules += [f':root[data-palette="{p.name}"]{{{_values_css(p, numbers)}}}' for p in palettes]
        on_paper = next((palette for palette in palettes if not palette.dark), first)
        rules.append(f"@media print{{:root:root:root{{{_values_css(on_paper, numbers)}}}}}")  # above the others
    return "\n".join(rules)


def _own_palette(name: str, colours: Collection[str], paper: str, ink: str) -> Palette:
    of_page = dict.fromkeys(_OF_PAGE, ink) | dict.fromkeys(("paper", "table", "tray", "stitch_to_come"), paper)
    dark = relative_luminance(paper) < relative_luminance(ink)
    return Palette(name=name, dark=dark, of_page=of_page, of_pictures={colour: colour for colour in colours})


def _of_greys(colours: Collection[str], paper: str, ink: str) -> tuple[Palette, ...]:
    """Black on white and white on black, both of high contrast; what is told is told by line and pattern."""
    own = _own_palette("light", colours, paper, ink)
    turned = _own_palette("dark", colours, _turned(paper), _turned(ink))
    turned = replace(turned, of_pictures={colour: _turned(colour) for colour in colours})
    if own.dark:
        return replace(own, name="dark"), replace(turned, name="light")
    return own, turned


def _is_grey(colour: str) -> bool:
    return colour[1:3] == colour[3:5] == colour[5:7]


def _turned(grey: str) -> str:
    """The grey that is as light as this one is dark."""
    return "#" + 3 * f"{255 - int(grey[1:3], 16):02X}"


def _values(theme: Theme) -> dict[str, str]:
    """Its colours by entry."""
    return {name: theme.entry(name) for name, _ in ENTRIES["colours"].values()}


def _mapped(own: Theme, other: Theme, colours: Collection[str]) -> dict[str, str] | None:
    """Each colour as the other theme has it; None where one would need two values."""
    theirs = _values(other)
    mapped: dict[str, str] = {}
    for name, value in _values(own).items():
        if value in colours and mapped.setdefault(value, theirs[name]) != theirs[name]:
            return None
    return mapped


def _values_css(palette: Palette, numbers: Mapping[str, int]) -> str:
    scheme = "dark" if palette.dark else "light"
    own = [f"--{name.replace('_', '-')}:{value}" for name, value in palette.of_page.items()]
    pictures = [f"{colour_name(number)}:{palette.of_pictures[colour]}" for colour, number in numbers.items()]
    return ";".join((f"color-scheme:{scheme}", *own, *pictures))
