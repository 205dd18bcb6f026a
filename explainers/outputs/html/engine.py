"""The deck's way of drawing and moving figures as a module of its own, for a page that is no deck.

The script is the deck's, to the letter; what it expects of the deck around it stands before it, reduced to one picture
that is laid out as the stage is.
"""

from __future__ import annotations

from functools import cache
from importlib import resources

from ...figure.model import Figure
from ...storyboard.model import Step
from .body import SEEN
from .motions import motions_data
from .pictures import NumberedNames, Shelf, page_figure, view_box

__all__ = ["moving_picture", "picture_engine", "seen_figure"]

_BEFORE = """\
// Made from the deck's own script: see explainers/outputs/html/engine.py.
const shapes = [];
const figures = [];
const stacked = null;
const deck = {};
const parts = {
  picture: document.createElementNS("http://www.w3.org/2000/svg", "svg"),
  "in-words": document.createElement("div"),
};
const byId = (id) => parts[id];
const isPanel = () => false;
const framesOf = () => [];
const shiftEntries = () => {};
const shiftAt = () => [0, 0];
const middleOf = () => [0, 0];
const element = (tag, attributes, text) => {
  const made = document.createElement(tag);
  made.textContent = text;
  return made;
};
"""
_AFTER = """
// Put other shapes and figures in the place of those that there are.
export const filled = (data) => {
  stopMotion();
  shapes.splice(0, shapes.length, ...data.shapes);
  figures.splice(0, figures.length, ...data.figures);
  deck.svg.setAttribute("viewBox", data.view.join(" "));
  data.colours.forEach((each, number) => deck.svg.style.setProperty(`--c${number}`, each));
};
export { LEAD_MS, REST_MS, deck, staged };
"""


@cache
def picture_engine() -> str:
    """The module: it exports what fills, shows and moves one picture."""
    script = (resources.files(__package__) / "static" / "deck" / "picture.js").read_text(encoding="utf-8")
    return f"{_BEFORE}{script}{_AFTER}"


def seen_figure(figure: Figure) -> Figure:
    """A figure as that picture shows it; the part of the stage that is seen is ``SEEN``."""
    return page_figure(figure)


def moving_picture(step: Step) -> dict[str, object]:
    """What one step shows, before and after and on the way.

    Returns : view, colours, shapes, figures; before and after, numbers of figures; motions as in a deck
    """
    colours = NumberedNames()
    shelf = Shelf(colours, NumberedNames())
    before, after = shelf.figure(step.stills[0]), shelf.figure(step.picture)
    motions = motions_data(step, shelf)
    return {
        "view": view_box(SEEN),
        "before": before,
        "after": after,
        "motions": motions,
        "colours": list(colours.numbers),
        **shelf.data(),
    }
