"""What a school's slide file fetches from elsewhere, taken out of a deck before it is handed on.

A linked picture, sound or document is asked for whenever the deck is opened, on the machine of whoever opens it, and
whoever holds the address learns of it. Links to be clicked lead away without a word of ours.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from pptx.opc.oxml import serialize_part_xml
from pptx.oxml import parse_xml

if TYPE_CHECKING:
    from pptx.presentation import Presentation as Deck

__all__ = ["drop_outside_links"]

_R = "{http://schemas.openxmlformats.org/officeDocument/2006/relationships}"
_A = "http://schemas.openxmlformats.org/drawingml/2006/main"
_CLICKED = ("hlinkClick", "hlinkHover", "hlinkMouseOver")
_SHAPES = ("pic", "graphicFrame", "sp", "cxnSp", "contentPart")


def drop_outside_links(deck: Deck) -> int:
    """Take every relation out whose target lies outside the file, with what stands on it; how many there were."""
    gone = 0
    for part in list(deck.part.package.iter_parts()):
        outside = [key for key, relation in part.rels.items() if relation.is_external]
        if not outside:
            continue
        root = getattr(part, "_element", None)
        blob_root = None if root is not None else _parsed(part)
        for use in _uses(root if root is not None else blob_root, set(outside)):
            _drop(use, set(outside))
        if blob_root is not None:
            part._blob = serialize_part_xml(blob_root)
        for key in outside:
            part.rels.pop(key)
        gone += len(outside)
    for key, relation in list(deck.part.package._rels.items()):
        if relation.is_external:
            deck.part.package._rels.pop(key)
            gone += 1
    return gone


def _parsed(part: Any) -> Any:
    if not part.content_type.endswith("xml"):
        return None
    return parse_xml(part.blob)


def _uses(root: Any, outside: set[str]) -> list[Any]:
    if root is None:
        return []
    return [each for each in root.iter("*") if any(_is_link(name, value, outside) for name, value in each.items())]


def _is_link(name: str, value: str, outside: set[str]) -> bool:
    return name.startswith(_R) and value in outside


def _name(element: Any) -> str:
    return str(element.tag).rpartition("}")[2]


def _drop(use: Any, outside: set[str]) -> None:
    """The attribute alone where a picture is in the file too; a click; else the whole shape that needs it."""
    kept_inside = use.get(f"{_R}embed") is not None and use.get(f"{_R}embed") not in outside
    name = _name(use)
    if kept_inside:
        for key in [key for key, value in use.items() if _is_link(key, value, outside)]:
            del use.attrib[key]
        return
    goes = use
    if name not in _CLICKED:
        above = [each for each in use.iterancestors() if _name(each) in _SHAPES]
        if above:
            goes = above[0]
        elif name == "blip":  # such as the picture of a background: no fill is left where it was
            goes = next((each for each in use.iterancestors() if _name(each) == "blipFill"), use)
    parent = goes.getparent()
    if parent is None:
        return
    if _name(goes) == "blipFill":
        parent.replace(goes, goes.makeelement(f"{{{_A}}}noFill"))
        return
    parent.remove(goes)
