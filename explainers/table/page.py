"""The page: an empty frame, filled by the modules in ``static`` with what the addresses of ``server`` tell.

No word of an item is written into it here; where its modules show one, it is text. Colours are those of our themes,
light and dark.
"""

from __future__ import annotations

from functools import cache
from importlib import resources
from typing import Any

from ..figure.contrast import relative_luminance
from ..figure.mark_signs import SIGNS
from ..figure.theme import Theme
from ..figure.themes import DARK, LIGHT
from ..item.ready_outlines import READY, ReadyOutline
from ..kinds.registry import DEFAULT_KIND, kind_names
from ..outputs.html.engine import picture_engine
from ..preview.markup import Markup, element
from ..typeface.embedded import face_css
from ..typeface.faces import face

__all__ = ["STATIC", "choices", "page", "static_file"]

_MODULES = (
    "app", "beginning", "change", "dom", "draft_seen", "draw", "frames", "going", "hands", "inspector", "keys", "main",
    "marry", "mends", "moving_lists", "names", "next", "notes_here", "options", "original", "own_options", "places",
    "plane", "ready", "report", "scene", "sheet_grips", "size_grips", "store", "trace", "trace_seen", "turns",
    "underlay", "view",
)  # fmt: skip
_OF_LESSON = ("build", "engine", "lesson", "player", "sending")
_STYLES = ("table.css", "grips.css", "mends.css", "trace.css", "lesson.css", "colours.css")
STATIC = (*(f"{name}.js" for name in (*_MODULES, *_OF_LESSON)), *_STYLES)
"""What the page is made of, besides itself: nothing else is ever served."""


def page(name: str) -> str:
    """The frame of the page of a file."""
    head = element(
        "head",
        element("meta", charset="utf-8"),
        element("meta", name="viewport", content="width=device-width, initial-scale=1"),
        element("meta", name="color-scheme", content="light dark"),
        element("title", name),
        element("link", rel="icon", href="data:,"),
        element("link", rel="stylesheet", href="colours.css"),
        element("link", rel="stylesheet", href="table.css"),
        element("link", rel="stylesheet", href="grips.css"),
        element("link", rel="stylesheet", href="mends.css"),
        element("link", rel="stylesheet", href="trace.css"),
        element("link", rel="stylesheet", href="lesson.css"),
        element("script", type="module", src="main.js"),
    )
    paper = Markup('<svg id="paper" role="group" aria-label="The paper"></svg><svg id="over" aria-hidden="true"></svg>')
    top = element(
        "header",
        element("div", element("h1", name, id="title"), element("p", "", id="file")),
        element("div", id="tools"),
        element("a", "Lesson", href="#lesson", id="to-lesson"),
        element("button", "Light or dark", type="button", id="look"),
    )
    drawing = element(
        "div",
        element("div", paper, _part("marks"), element("div", id="paper-tools"), id="paper-room"),
        _part("hand"),
        id="drawing",
    )
    told = element("div", *map(_part, ("verdict", "sheet", "options", "text")), id="told")
    lesson = element("div", *map(_part, ("steps", "build")), id="lesson")
    body = element(
        "body",
        top,
        element("div", id="banner"),
        element("main", drawing, told),
        lesson,
        element("footer", element("p", "", id="status", role="status")),
    )
    return f"<!doctype html>\n{element('html', head, body, lang='en-GB')}\n"


def choices() -> dict[str, Any]:
    """What there is to choose from, whatever the file holds."""
    others = [kind for kind in kind_names() if kind != DEFAULT_KIND]
    ready = [_ready(name, ready) for name, ready in READY.items()]
    return {"signs": list(SIGNS), "ready": ready, "kinds": [DEFAULT_KIND, *others]}


@cache
def static_file(name: str) -> tuple[str, str]:
    """(media type, text) of one of ``STATIC``."""
    if name == "colours.css":
        return "text/css", _colours()
    if name == "engine.js":
        return "text/javascript", picture_engine()
    text = (resources.files(__package__) / "static" / name).read_text(encoding="utf-8")
    if name == "table.css":
        return "text/css", face_css(face(False).letters) + text
    return ("text/css" if name.endswith(".css") else "text/javascript"), text


def _part(name: str) -> Markup:
    return element("div", id=name)


def _ready(name: str, ready: ReadyOutline) -> dict[str, Any]:
    example = dict(pair.split(": ") for pair in ready.example.strip("{}").split(", "))
    sizes = [
        {"name": size.name, "what": size.what, "optional": size.optional, "example": example.get(size.name)}
        for size in ready.sizes
    ]
    return {"name": name, "what": ready.what, "sizes": sizes}


def _colours() -> str:
    light, dark = _values(LIGHT), _values(DARK)
    return (
        f":root {{ {light} }}\n"
        f"@media (prefers-color-scheme: dark) {{ :root:not([data-theme='light']) {{ {dark} }} }}\n"
        f":root[data-theme='dark'] {{ {dark} }}\n"
    )


def _values(theme: Theme) -> str:
    join, cut = theme.fabrics["join"], theme.fabrics["cut"]
    colours = {
        "paper": theme.paper, "ink": theme.ink, "quiet": theme.quiet, "table": theme.table, "tray": theme.tray,
        "edge": theme.panel_stroke, "base": theme.base, "result": theme.outline, "attention": theme.attention,
        "right": theme.right, "wrong": theme.wrong, "join": join.fill, "join-edge": join.pattern, "cut": cut.fill,
        "cut-edge": cut.pattern, "sheet": LIGHT.table, "sheet-grip": LIGHT.attention,
    }  # fmt: skip
    scheme = "dark" if relative_luminance(theme.paper) < relative_luminance(theme.ink) else "light"
    return f"color-scheme: {scheme}; " + " ".join(f"--{name}: {colour};" for name, colour in colours.items())
