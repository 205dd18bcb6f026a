"""What must hold for a theme to be used: contrast that is seen by all eyes, signs that do not lean on hue.

Contrast: WCAG 2.2, success criteria 1.4.3 and 1.4.11, unrounded, in full colour; and the ratio of 1.4.11 again as eyes
without one kind of cone see the pair (``contrast_seen``). In greyscale contrast is what it is in full colour. Beside
their colours, fabrics are told apart by pattern, outline and word, the finished outline by its weight, right and
wrong by tick, cross and ring.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Iterator
from itertools import combinations

from ..document.notation import listed, shown
from ..errors import Fault, FontError
from ..style import DIFFERENCE_SHOWN, ENTRIES, FABRICS, PATTERNS, PLACES, is_colour
from ..typeface.faces import FAMILY, face
from .contrast import DEFICIENCIES, GRAPHICS, TEXT, contrast_ratio, contrast_seen
from .model import PX_PER_UNIT
from .theme import Theme

__all__ = ["LEAST_TYPE", "PAIRS", "faults_of_theme"]

LEAST_TYPE = 32 / PX_PER_UNIT  # nothing smaller is written, in stage units
_LEAST_WEIGHT = 3 / PX_PER_UNIT  # thinner saturated lines lose their colour in a clip's halved colour planes
_SHADES = 64  # tried between a colour and black or white, for advice

_MATERIAL = ("base", *(f"{name}.fill" for name in FABRICS), "outline", "option")
_GROUND = ("paper", "table", "tray")
_WEIGHTS = (
    "side_width",
    "outline_width",
    "mark_width",
    "pointer_width",
    "agree_width",
    "differ_width",
    "tick_width",
    "hatch_width",
    "seam_width",
    "sign_width",
    "arrow_width",
)
_MOST_TYPE = {  # larger type has no room in every picture
    "heading_size": 0.7,
    "word_size": 0.45,
    "mark_size": 0.5,
    "option_size": 0.5,
    "degrees_size": 0.42,
    "small_size": 0.36,
}
_NUMBERS = tuple(
    name for keys in ENTRIES.values() for name, kind in keys.values() if kind in ("length", "angle", "pair")
)
_WIDEST_WORD = 4.9  # ems: of the smallest type, six of them and the base find room in a row of the sheet
# (the heavier, the lighter, how many times as much, why): emphasis that is still seen without colour.
_HEAVIER = (
    ("outline_width", "side_width", 1.5, "the finished outline is told by its weight"),
    ("pointer_width", "mark_width", 1.5, "a mark that is pointed at is told by its weight"),
    ("agree_width", "outline_width", 1.5, "sides that agree are told by their weight"),
    ("differ_width", "outline_width", 1.5, "a side that differs is told by its weight"),
)


def _pairs() -> Iterator[tuple[str, str, float]]:
    for below in (*_GROUND, *_MATERIAL):  # words stand on grounds and cloth, degrees and signs too
        yield "ink", below, TEXT
        yield "attention", below, TEXT
        for sign in ("right", "wrong"):
            yield sign, below, TEXT if below in _GROUND else GRAPHICS
    for below in _GROUND:
        yield "quiet", below, TEXT
    for name in FABRICS:
        yield f"{name}.pattern", f"{name}.fill", GRAPHICS
    yield f"{FABRICS[0]}.pattern", "paper", GRAPHICS  # the patches of a countdown
    yield "stitch_done", "paper", GRAPHICS  # how far the lesson has gone
    yield "stitch_done", "stitch_to_come", GRAPHICS


PAIRS = tuple(_pairs())  # (what is drawn, on what or beside what, least contrast)
_NEEDED_BY = {TEXT: "words need (WCAG 2.2, 1.4.3)", GRAPHICS: "signs and patterns need (WCAG 2.2, 1.4.11)"}


def faults_of_theme(theme: Theme, written: Collection[str] = ()) -> tuple[Fault, ...]:
    """Everything for which a theme cannot be used, each fault with its field as in a theme's file.

    written : names of the entries that a file holds, so that a fault of two entries is told where one of them stands
    """
    told = _Told(theme, written)
    faults: list[Fault] = []
    colours = sorted({name for pair in PAIRS for name in pair[:2]} | {"panel_stroke", "patch_seam"})
    odd = [name for name in colours if not is_colour(theme.entry(name))]
    for name in odd:
        message = f"{theme.entry(name)!r} is not a colour"
        faults.append(told.at(name)(message, 'write it as "#RRGGBB", such as "#1F2A37"'))
    if not odd:
        faults += _faults_of_contrast(theme, told)
    faults += _faults_of_numbers(theme, told)
    faults += _faults_of_emphasis(theme, told)
    faults += _faults_of_patterns(theme, told)
    faults += _faults_of_words(theme, told)
    return tuple(faults)


class _Told:
    """At which entry a fault is told."""

    def __init__(self, theme: Theme, written: Collection[str]) -> None:
        self.theme = theme
        self.written = written

    def place(self, *names: str) -> str:
        """Of the entries that a fault is about, the one that stands in the file."""
        return next((name for name in names if name in self.written), names[0])

    def at(self, *names: str) -> Callable[[str, str], Fault]:
        """A fault at one of these entries, from its message and its fix."""
        field = PLACES[self.place(*names)]
        return lambda message, fix: Fault(field=field, message=message, fix=fix)


def _faults_of_contrast(theme: Theme, told: _Told) -> Iterator[Fault]:
    """One fault for each colour, criterion and kind of eyes, with all the others that it is too near to."""
    grouped: dict[tuple[str, float, str], dict[str, float]] = {}
    for upper, below, least in PAIRS:
        for eyes, ratio, needed in _ratios(theme, upper, below, least):
            if ratio < needed:
                place = told.place(upper, below)
                other = below if place == upper else upper
                grouped.setdefault((place, needed, eyes), {})[other] = ratio
                break  # what is too faint in full colour need not be told for other eyes, too
    for (place, needed, eyes), near in grouped.items():
        names = listed([f"{_key(other)} ({ratio:.4f})" for other, ratio in near.items()], "and")
        seen = f", as {eyes} eyes see it," if eyes else ""
        yield told.at(place)(
            f"the contrast of {theme.entry(place)} with {names}{seen} is less than the {needed:g} that "
            f"{_NEEDED_BY[needed]}",
            _better(theme, place),
        )


def _ratios(theme: Theme, upper: str, below: str, least: float) -> Iterator[tuple[str, float, float]]:
    """(whose eyes, contrast, least contrast) of a pair, full colour first."""
    one, other = theme.entry(upper), theme.entry(below)
    yield "", contrast_ratio(one, other), least
    for eyes in DEFICIENCIES:
        yield eyes, contrast_seen(one, other, eyes), GRAPHICS


def _better(theme: Theme, place: str) -> str:
    """Advice: the nearest shade of the colour that has contrast enough with all that it meets."""
    colour = theme.entry(place)
    channels = [int(colour[i : i + 2], 16) for i in (1, 3, 5)]
    meets = [pair for pair in PAIRS if place in pair[:2]]
    for step in range(1, _SHADES + 1):
        for end, way in ((0, "darker"), (255, "lighter")):
            shade = "#" + "".join(f"{round(value + (end - value) * step / _SHADES):02X}" for value in channels)
            changed = theme.having({place: shade})
            if all(
                ratio >= needed
                for upper, below, least in meets
                for _, ratio, needed in _ratios(changed, upper, below, least)
            ):
                return f'write a {way} colour, such as "{shade}"'
    return "change the colours that it meets, too: no shade of this one will do with them"


def _faults_of_numbers(theme: Theme, told: _Told) -> Iterator[Fault]:
    for name in _NUMBERS:
        value = theme.entry(name)
        for number in value if isinstance(value, tuple) else (value,):
            if not math.isfinite(number) or (number <= 0.0 and name != "hatch_deg"):
                yield told.at(name)(f"{number:g} is not a number above 0", "write a number above 0")
        if name.endswith("_size") and value < LEAST_TYPE:
            yield told.at(name)(
                f"type of {shown(value)} is smaller than 32 px at 1080p", f"write {LEAST_TYPE:.3f} or more"
            )
        if name in _MOST_TYPE and value > _MOST_TYPE[name]:
            yield told.at(name)(
                f"type of {shown(value)} has no room in every picture", f"write {_MOST_TYPE[name]:g} or less"
            )
        if name in _WEIGHTS and value < _LEAST_WEIGHT:
            yield told.at(name)(
                f"a weight of {shown(value)} is thinner than 3 px at 1080p", f"write {_LEAST_WEIGHT:g} or more"
            )


def _faults_of_emphasis(theme: Theme, told: _Told) -> Iterator[Fault]:
    for heavy, light, times, why in _HEAVIER:
        thick, thin = getattr(theme, heavy), getattr(theme, light)
        if thick < times * thin * (1 - 1e-9):
            yield told.at(heavy, light)(
                f"{_key(heavy)} ({shown(thick)}) is less than {times:g} times {_key(light)} ({shown(thin)}); {why}",
                f"make {_key(heavy)} {shown(times * thin)} or more",
            )
    if theme.dash[1] < 2 * theme.side_width:
        yield told.at("dash", "side_width")(
            f"the gap {shown(theme.dash[1])} is less than twice the weight of a side ({shown(theme.side_width)}), "
            "so that the dashes run together",
            f"make the gap {shown(2 * theme.side_width)} or more",
        )


def _faults_of_patterns(theme: Theme, told: _Told) -> Iterator[Fault]:
    patterns = {name: theme.fabrics[name].pattern_name for name in FABRICS}
    for name, pattern_name in patterns.items():
        if pattern_name not in PATTERNS:
            yield told.at(f"{name}.pattern_name")(f"{pattern_name!r} is not a pattern", f"write {listed(PATTERNS)}")
    if theme.differs_pattern not in DIFFERENCE_SHOWN:
        yield told.at("differs_pattern")(
            f"{theme.differs_pattern!r} shows no difference", f"write {listed(DIFFERENCE_SHOWN)}"
        )
    for one, other in combinations(FABRICS, 2):
        at, both = told.at(f"{other}.pattern_name", f"{one}.pattern_name"), {patterns[one], patterns[other]}
        if len(both) == 1:
            yield at(
                f"{one} and {other} both wear {patterns[other]}; they must be told apart by their pattern",
                f"give one of them another one: {listed([name for name in PATTERNS if name != patterns[other]])}",
            )
        if both == {"lines", "checks"}:
            yield at("lines and checks are too much alike on a narrow piece", "give one of them dots, crosses or plain")
    for name, least, what in (
        ("dots", 3 * theme.dot_radius, "dots"),
        ("crosses", 2.5 * theme.cross_reach, "crosses"),
        ("lines", 3 * theme.hatch_width, "lines"),
        ("checks", 3 * theme.hatch_width, "lines"),
    ):
        if name in (*patterns.values(), theme.differs_pattern) and theme.pattern_spacing < least:
            yield told.at("pattern_spacing", "dot_radius", "cross_reach", "hatch_width")(
                f"at a spacing of {shown(theme.pattern_spacing)} the {what} of a pattern run together",
                f"make the spacing {least:.3f} or more, or the {what} smaller",
            )


def _faults_of_words(theme: Theme, told: _Told) -> Iterator[Fault]:
    words = {name: theme.fabrics[name].word.strip() for name in FABRICS}
    for one, other in combinations(FABRICS, 2):
        if not words[one] or not words[other] or words[one].casefold() == words[other].casefold():
            yield told.at("words")(f"{one} and {other} need a word each, and not the same one", "write two words")
    if theme.typeface != FAMILY:
        yield told.at("typeface")(
            f"the typeface {theme.typeface} does not come with this package", f"write {FAMILY}, or leave the key out"
        )
        return
    for word in words.values():
        try:
            if face(bold=True).width(word, 1.0) > _WIDEST_WORD:
                yield told.at("words")(
                    f"the word {word} is too wide to stand under each of six pieces", "write a shorter one, such as sew"
                )
        except FontError as error:
            yield told.at("words")(str(error).partition(";")[0], "use another character there")


def _key(name: str) -> str:
    """An entry as a file calls it, without its group."""
    return PLACES[name].rpartition(".")[2]
