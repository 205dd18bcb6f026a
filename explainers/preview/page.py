"""The page: a view as HTML with one SVG a picture, alone in a file or as the part of a served page that is replaced.

Neither has a script or a style inside that came with an item: every word of one goes through ``markup``.
"""

from __future__ import annotations

import base64
import hashlib
from collections.abc import Collection, Iterable, Sequence
from functools import cache, lru_cache
from importlib import resources
from pathlib import Path

from ..choice.panels.view import Panel, PanelPicture, Remark, View
from ..errors import Fault
from ..figure.contrast import relative_luminance
from ..figure.theme import DEFAULT_THEME, Theme
from ..typeface.embedded import SIGNS, face_css
from ..typeface.faces import face
from .legend import legend_pictures
from .markup import Markup, drawing, element, joined

__all__ = [
    "colour_rules",
    "held_part",
    "served_page",
    "served_stylesheet",
    "standalone_page",
    "static_text",
    "thumbnail",
    "view_part",
    "way_up",
]


_SIGN = 20.0  # width of a sign in the legend, pixels


def view_part(view: View) -> Markup:
    """Everything of one item below the page's own frame."""
    parts = [
        element(
            "header",
            element("h1", view.title),
            element("p", element("span", view.state, class_=f"state {view.sign}"), f" · {view.name}"),
            *(element("p", sentence, class_=view.sign) for sentence in view.because),
            _warning_list(view.remarks),
            *(element("p", note, class_="quiet") for note in view.notes),
            _legend(view.kind, view.theme),
        )
    ]
    for heading, panels in view.groups:
        # Options have small pictures, so that as many as may be stand beside each other.
        wide = not any(panel.name.startswith("option-") for panel in panels)
        drawn = element(
            "div", *(_panel(panel, view.ringed_often) for panel in panels), class_="panels wide" if wide else "panels"
        )
        parts.append(element("section", element("h2", heading), drawn, aria_label=heading))
    return element("div", *parts)


def held_part(faults: Sequence[Fault], shown: Markup | None, since: str, *, file: Path | None = None) -> Markup:
    """Faults over the last good picture, or alone where there never was one.

    since : from when the picture is, or what it is, as the end of a sentence
    file  : whose faults they are; those of another file name it
    """
    count = len(faults)
    heading = f"{count} {'thing' if count == 1 else 'things'} to mend before this can be used"
    told = element(
        "section",
        element("h2", heading),
        element("ol", *(element("li", _fault(fault, file)) for fault in faults)),
        element("p", since, class_="quiet") if since else "",
        class_="faults",
        role="alert",
        tabindex="0",
        aria_label="Faults",
    )
    return element("div", told, *([element("div", shown, class_="held")] if shown is not None else []))


def _fault(fault: Fault, file: Path | None) -> Markup:
    place = [] if file is not None and fault.file in ("", str(file)) else [element("b", Path(fault.file).name), " "]
    if fault.line:
        place += [element("b", f"line {fault.line}"), " "]
    if fault.field:
        place += [element("code", fault.field), " "]
    return joined([*place, f"{fault.message}. ", element("b", "To mend it:"), f" {fault.fix}."])


def _warning_list(remarks: Sequence[Remark]) -> Markup:
    if not remarks:
        return Markup()
    count = len(remarks)
    words = f"{count} {'thing' if count == 1 else 'things'} to look at, ringed in the pictures:"
    return element("div", element("p", words, class_="warning"), *map(_warning, remarks))


def _warning(remark: Remark) -> Markup:
    line = f"line {remark.line}, " if remark.line else ""
    kind = element("code", remark.kind)
    badge = element("b", f"!{remark.number}")
    return element("p", badge, f" {remark.message} ({line}", kind, ")", class_="warning")


def _above(remark: Remark) -> Markup:
    """A warning that several panels have: its words stand once, at the top."""
    badge = element("b", f"!{remark.number}")
    return element("p", badge, " ", element("code", remark.kind), ", as told at the top", class_="warning")


def _panel(panel: Panel, often: Collection[int]) -> Markup:
    return element(
        "article",
        element(
            "header",
            element("h3", panel.heading),
            element("span", _sign(panel.sign), panel.word, class_=f"word {panel.sign}") if panel.word else "",
            element("span", f"line {panel.line}", class_="line") if panel.line else "",
        ),
        element("div", *map(_figure, panel.pictures), class_="pictures"),
        *(_above(remark) if remark.number in often else _warning(remark) for remark in panel.remarks),
        *(element("p", line) for line in panel.lines),
        *(element("p", element("code", line)) for line in panel.typed),
        class_="panel",
        id=panel.name,
    )


def _sign(sign: str) -> str:
    return {"right": "✓ ", "wrong": "✗ "}.get(sign, "")


def _figure(picture: PanelPicture) -> Markup:
    drawn = drawing(picture.figure, picture.box, width=picture.width)
    return element("figure", drawn, *([element("figcaption", picture.caption)] if picture.caption else []))


def thumbnail(view: View) -> Markup | None:
    """A view's small picture."""
    return None if view.small is None else _figure(view.small)


@lru_cache(maxsize=4)
def _legend(kind: str, theme: Theme) -> Markup:
    """What the signs in the pictures stand for."""
    pictures = legend_pictures(kind, theme)
    signs = [element("li", drawing(sign.figure, sign.box, width=_SIGN), sign.caption) for sign in pictures]
    return element("ul", *signs, class_="legend", aria_label="Signs in the pictures")


def served_page(title: str, part: Markup, tag: str, place: str, theme: Theme) -> str:
    """A page that is kept up to date; ``place`` is its own address, ending in a slash."""
    return _document(
        title,
        [element("link", rel="stylesheet", href=href) for href in ("colours.css", f"{way_up(place)}look.css")],
        [
            element("main", part, id="view", data_tag=tag),
            element("footer", element("p", "", id="link", role="status")),
            element("script", src=f"{way_up(place)}look.js"),
        ],
        theme,
    )


def way_up(place: str) -> str:
    """From a page to the first of them, as a link: pages do not know what their addresses begin with."""
    return "../" * (place.count("/") - 1) or "./"


def standalone_page(title: str, part: Markup, theme: Theme = DEFAULT_THEME) -> str:
    """A page that needs nothing beside itself and runs nothing."""
    style = face_css(part) + colour_rules(theme) + static_text("look.css")
    digest = base64.b64encode(hashlib.sha256(style.encode()).digest()).decode()
    policy = f"default-src 'none'; style-src 'sha256-{digest}'; font-src data:; base-uri 'none'; form-action 'none'"
    head = [
        element("meta", http_equiv="Content-Security-Policy", content=policy),
        Markup(f"<style>{style}</style>"),  # our own words only
    ]
    return _document(title, head, [element("main", part)], theme)


def _document(title: str, head: Iterable[Markup], body: Iterable[Markup], theme: Theme) -> str:
    is_dark = relative_luminance(theme.paper) < relative_luminance(theme.ink)
    made = element(
        "html",
        element(
            "head",
            element("meta", charset="utf-8"),
            *head,
            element("meta", name="viewport", content="width=device-width, initial-scale=1"),
            element("meta", name="color-scheme", content="dark" if is_dark else "light"),
            element("title", title),
        ),
        element("body", *body),
        lang="en-GB",
    )
    return f"<!doctype html>\n{made}\n"


def served_stylesheet() -> str:
    """The style sheet of every page that is served, whatever comes to be written on it."""
    return face_css(face(False).letters + "".join(SIGNS)) + static_text("look.css")


def colour_rules(theme: Theme) -> str:
    """What the style sheet needs of a theme."""
    colours = {
        "paper": theme.paper, "ink": theme.ink, "quiet": theme.quiet, "table": theme.table,
        "edge": theme.panel_stroke, "attention": theme.attention, "right": theme.right, "wrong": theme.wrong,
    }  # fmt: skip
    values = " ".join(f"--{name}: {colour};" for name, colour in colours.items())
    return f":root {{ {values} }}\n"


@cache
def static_text(name: str) -> str:
    """A file of the page that belongs to the program."""
    return (resources.files(__package__) / "static" / name).read_text(encoding="utf-8")
