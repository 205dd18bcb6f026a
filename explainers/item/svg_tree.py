"""An SVG file as a tree of elements, each with its line; refused by its size, its encoding, or what it declares.

Nothing is fetched: what a document type points to is never opened, and one that declares anything of its own is
refused where it begins, so that no entity is ever expanded.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from xml.etree import ElementTree
from xml.parsers import expat

from ..plain_file import opened_plain

__all__ = ["MAX_BYTES", "Refused", "Tree", "local_name", "tree_in", "tree_of_file", "tree_of_text"]

MAX_BYTES = 2_000_000

_SAVE = "save the drawing as plain SVG"


class Refused(Exception):
    """Why a drawing, or a shape of it, cannot be an outline."""

    def __init__(self, message: str, fix: str, line: int = 0) -> None:
        super().__init__(message)
        self.message, self.fix, self.line = message, fix, line


@dataclass(frozen=True, slots=True)
class Tree:
    """The elements of a drawing."""

    root: ElementTree.Element
    lines: Mapping[ElementTree.Element, int]  # on which each begins, counted from 1


def tree_of_file(path: Path) -> Tree:
    """The elements of a file.

    Raises: Refused where it is no drawing that can be read
    """
    try:
        with opened_plain(path) as stream:
            raw = stream.read(MAX_BYTES + 1)
    except OSError as error:
        raise Refused(f"the file cannot be opened: {error.strerror or error}", "check its name") from error
    return tree_in(raw)


def tree_in(raw: bytes) -> Tree:
    """The elements of a drawing that has been read.

    Raises: Refused where it is no drawing that can be read
    """
    if len(raw) > MAX_BYTES:
        raise Refused(f"the drawing has more than {MAX_BYTES:,} bytes", "keep only the outline in it")
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise Refused("the drawing is not UTF-8", _SAVE, raw.count(b"\n", 0, error.start) + 1) from error
    tree = tree_of_text(text)
    if local_name(tree.root) != "svg":
        raise Refused("the file is not an SVG drawing", "name a file that ends in .svg", tree.lines[tree.root])
    return tree


def local_name(element: ElementTree.Element) -> str:
    """The name of an element without its namespace."""
    return element.tag.rsplit("}", 1)[-1] if isinstance(element.tag, str) else ""


def tree_of_text(text: str | bytes) -> Tree:
    """The elements of any XML.

    Raises: Refused where it is not XML, or declares anything of its own
    """
    parser = expat.ParserCreate(namespace_separator="}")
    builder = ElementTree.TreeBuilder()
    lines: dict[ElementTree.Element, int] = {}

    def whole(name: str) -> str:
        return f"{{{name}" if "}" in name else name

    def start(name: str, attributes: dict[str, str]) -> None:
        element = builder.start(whole(name), {whole(key): value for key, value in attributes.items()})
        lines[element] = parser.CurrentLineNumber

    def document_type(name: str, system: str | None, public: str | None, declares: int) -> None:
        if declares:
            raise Refused("the drawing declares entities of its own", _SAVE, parser.CurrentLineNumber)

    parser.StartElementHandler = start
    parser.EndElementHandler = lambda name: builder.end(whole(name))
    parser.CharacterDataHandler = builder.data
    parser.StartDoctypeDeclHandler = document_type
    try:
        parser.Parse(text, True)
        return Tree(builder.close(), lines)
    except expat.ExpatError as error:
        what = expat.ErrorString(error.code)
        raise Refused(f"the file is not XML as an SVG drawing is ({what})", _SAVE, error.lineno) from error
    except ValueError as error:
        raise Refused(f"the file is not XML as an SVG drawing is ({error})", _SAVE) from error
