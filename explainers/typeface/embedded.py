"""The typeface as a page carries it: `@font-face` rules with the letters in them, so that none asks a machine for one.

A page shows its own words, those that its script puts together, and a teacher's. All of Latin-1 and the punctuation of
print are carried whatever stands there, further letters where the page has them. Signs that the typeface lacks, such as
arrows and ticks, come in a small face of our own. Hints and tables that no browser asks for are left out: a page pays
about 30 kB for both weights.

A style sheet names ``FAMILIES``, never a font that a machine would have to bring, and no script measures words. A page
or a script that shows a new sign which the typeface lacks needs it drawn in ``sign_shapes``.
"""

from __future__ import annotations

import base64
import io
from functools import cache
from typing import Any

from .faces import FAMILY, face
from .sign_shapes import SIGNS, sign_font

__all__ = ["FAMILIES", "SIGNS", "SIGN_FAMILY", "face_css"]

SIGN_FAMILY = "Page Signs"
# What a style sheet names; the last is for a letter that none has, such as one in a fault that quotes it.
FAMILIES = f'"{FAMILY}", "{SIGN_FAMILY}", sans-serif'

_ALWAYS = frozenset(map(chr, (*range(0x20, 0x7F), *range(0xA0, 0x100), *range(0x2010, 0x2040))))
_FEATURES = ["kern", "tnum", "ccmp", "mark", "mkmk", "locl"]  # figures of one width, where a clock is shown
_NAMES = [0, 1, 2, 3, 4, 5, 6, 13, 14]  # the last two are the licence, which goes with every copy
_REGULAR, _BOLD = "400", "700"


def face_css(shown: str) -> str:
    """The rules, to stand at the head of a page's style sheet; the policy of the page must allow `font-src data:`.

    shown : all that may be seen on the page, markup and scripts included, for the letters that are in it
    Raises : FontError where the typeface is missing
    """
    letters = frozenset(shown)
    more = "".join(sorted(sign for sign in letters - _ALWAYS if face(False).has(sign)))
    rules = [_rule(FAMILY, weight, _subset(more, bold)) for weight, bold in ((_REGULAR, False), (_BOLD, True))]
    if letters & SIGNS.keys():
        rules.append(_rule(SIGN_FAMILY, f"{_REGULAR} {_BOLD}", _signs()))
    return "\n".join((*rules, ""))


def _rule(family: str, weight: str, data: str) -> str:
    return (
        f'@font-face {{ font-family: "{family}"; font-weight: {weight}; font-display: block; '
        f'src: url("data:font/woff2;base64,{data}") format("woff2"); }}'
    )


@cache
def _subset(more: str, bold: bool) -> str:
    """One weight with what is always there and these letters besides, in base64. One process makes each set once."""
    from fontTools import subset

    options = subset.Options(hinting=False, layout_features=_FEATURES, name_IDs=_NAMES, notdef_outline=True)
    font = subset.load_font(face(bold).path, options)
    cutter = subset.Subsetter(options)
    cutter.populate(text="".join(sorted(_ALWAYS)) + more)
    cutter.subset(font)
    return _written(font)


@cache
def _signs() -> str:
    return _written(sign_font(SIGN_FAMILY))


def _written(font: Any) -> str:
    font.flavor = "woff2"
    file = io.BytesIO()
    font.save(file)
    return base64.b64encode(file.getvalue()).decode()
