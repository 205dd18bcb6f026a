"""A PDF file as a checker takes it: every painting operator with the marks round it, every element of the structure."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any

import pikepdf
from fontTools.ttLib import TTFont
from pikepdf import Name

__all__ = ["Mark", "Node", "Opened", "Painted", "descendant", "glyphs_of", "to_unicode"]

_TEXT = {"Tj", "TJ", "'", '"'}
_INK = {"S", "s", "f", "F", "f*", "B", "B*", "b", "b*", "sh", "INLINE IMAGE"}


@dataclass(frozen=True)
class Mark:
    """Marked content that something stands in."""

    tag: str  # "Artifact", "P", ...
    mcid: int | None
    holder: Any = field(repr=False)  # the page or the form whose content it is


@dataclass(frozen=True)
class Painted:
    """One operator that puts ink on a page."""

    page: int  # from 0
    marks: tuple[Mark, ...]  # outermost first
    font: Any = None  # of text
    codes: bytes = b""


@dataclass(frozen=True)
class Node:
    """One element of the structure."""

    element: Any
    tag: str  # by the role map, such as "Figure"
    above: tuple[str, ...]  # tags of what holds it, outermost first
    kids: tuple[str, ...]  # tags of the elements in it
    mcids: tuple[int, ...]


class Opened:
    """What the checks ask of an open file, each read once."""

    def __init__(self, pdf: pikepdf.Pdf) -> None:
        self.pdf = pdf
        self.root = pdf.Root
        self.marked: list[tuple[int, tuple[Mark, ...]]] = []  # every mark that is opened, with those round it
        self.drawn: dict[tuple[int, int], int] = {}  # forms with MCIDs in them: how often each is drawn

    @cached_property
    def nodes(self) -> list[Node]:
        """In the order in which they are read out."""
        tree = self.root.get("/StructTreeRoot")
        return [] if tree is None else list(_nodes(tree.get("/K"), self.role, ()))

    def role(self, tag: str) -> str:
        """What a tag comes to by the role map; itself where that leads nowhere."""
        seen = {tag}
        roles = self.roles
        while tag in roles and roles[tag] not in seen:
            tag = roles[tag]
            seen.add(tag)
        return tag

    @cached_property
    def roles(self) -> dict[str, str]:
        """The role map."""
        tree = self.root.get("/StructTreeRoot", {})
        return {_plain(key): _plain(str(value)) for key, value in dict(tree.get("/RoleMap", {})).items()}

    @cached_property
    def painted(self) -> list[Painted]:
        """All ink of all pages, forms that they draw included."""
        found: list[Painted] = []
        for number, page in enumerate(self.pdf.pages):
            found += self._content(number, page.obj, page.obj.get("/Resources", {}), ())
        return found

    @cached_property
    def parents(self) -> dict[int, Any]:
        """The parent tree."""
        tree = self.root.get("/StructTreeRoot", {}).get("/ParentTree")
        return {} if tree is None else dict(pikepdf.NumberTree(tree).items())

    def owner(self, holder: Any, mcid: int) -> Any:
        """The element that the parent tree has for marked content; None where it has none."""
        row = self.parents.get(int(holder.get("/StructParents", -1)))
        if not isinstance(row, pikepdf.Array) or not 0 <= mcid < len(row):
            return None
        return row[mcid] if isinstance(row[mcid], pikepdf.Dictionary) else None

    @cached_property
    def annotations(self) -> list[tuple[Any, Any]]:
        """Each with its page."""
        return [(page.obj, note) for page in self.pdf.pages for note in page.obj.get("/Annots", [])]

    def holder_of(self, note: Any) -> Any:
        """The element that holds an annotation; None where none does."""
        found = self.parents.get(int(note.get("/StructParent", -1)))
        return found if isinstance(found, pikepdf.Dictionary) else None

    def _content(self, page: int, holder: Any, resources: Any, marks: tuple[Mark, ...]) -> Iterator[Painted]:
        font: Any = None
        kept: list[Any] = []
        open_marks = list(marks)
        for instruction in pikepdf.parse_content_stream(holder):
            operator, operands = str(instruction.operator), instruction.operands
            if operator in ("BMC", "BDC"):
                mark = Mark(_plain(str(operands[0])), _mcid(operands, resources), holder)
                self.marked.append((page, (*open_marks, mark)))
                open_marks.append(mark)
            elif operator == "EMC":
                open_marks.pop()
            elif operator == "q":
                kept.append(font)
            elif operator == "Q":
                font = kept.pop()
            elif operator == "Tf":
                font = resources.Font[str(operands[0])]
            elif operator in _TEXT:
                yield Painted(page, tuple(open_marks), font, _codes(operands))
            elif operator in _INK:
                yield Painted(page, tuple(open_marks))
            elif operator == "Do":
                form = resources.XObject[str(operands[0])]
                if form.get("/Subtype") != Name.Form:
                    yield Painted(page, tuple(open_marks))
                    continue
                before = len(self.marked)
                yield from self._content(page, form, form.get("/Resources", resources), tuple(open_marks))
                if any(inner[-1].mcid is not None for _, inner in self.marked[before:]):
                    self.drawn[form.objgen] = self.drawn.get(form.objgen, 0) + 1


def _mcid(operands: Any, resources: Any) -> int | None:
    if len(operands) < 2:
        return None
    properties = operands[1]
    if isinstance(properties, pikepdf.Name):
        properties = resources.Properties[str(properties)]
    found = properties.get("/MCID")
    return None if found is None else int(found)


def _codes(operands: Any) -> bytes:
    last = operands[-1]
    if isinstance(last, pikepdf.Array):
        return b"".join(bytes(part) for part in last if isinstance(part, pikepdf.String))
    return bytes(last)


def _nodes(kids: Any, role: Any, above: tuple[str, ...]) -> Iterator[Node]:
    for kid in kids if isinstance(kids, pikepdf.Array) else [kids]:
        if not isinstance(kid, pikepdf.Dictionary) or "/S" not in kid:
            continue
        inner = kid.get("/K", pikepdf.Array())
        row = list(inner) if isinstance(inner, pikepdf.Array) else [inner]
        tag = role(_plain(str(kid.S)))
        tags = [role(_plain(str(k.S))) for k in row if isinstance(k, pikepdf.Dictionary) and "/S" in k]
        mcids = [int(k) for k in row if isinstance(k, int)]
        mcids += [int(k.MCID) for k in row if isinstance(k, pikepdf.Dictionary) and "/MCID" in k]
        yield Node(kid, tag, above, tuple(tags), tuple(mcids))
        yield from _nodes(inner, role, (*above, tag))


def _plain(name: str) -> str:
    return name.removeprefix("/")


def descendant(font: Any) -> Any:
    """The font that holds the glyphs: of a composite font the one below it."""
    return font.DescendantFonts[0] if font.get("/Subtype") == Name.Type0 else font


def to_unicode(font: Any) -> dict[int, str]:
    """What its ToUnicode map has for each code; empty without one."""
    if "/ToUnicode" not in font:
        return {}
    text = font.ToUnicode.read_bytes().decode("latin-1")
    found: dict[int, str] = {}
    for block in re.findall(r"beginbfchar(.*?)endbfchar", text, re.DOTALL):
        for code, value in re.findall(r"<([0-9a-fA-F]+)>\s*<([0-9a-fA-F]*)>", block):
            found[int(code, 16)] = _text(value)
    for block in re.findall(r"beginbfrange(.*?)endbfrange", text, re.DOTALL):
        for first, last, value in re.findall(r"<([0-9a-fA-F]+)>\s*<([0-9a-fA-F]+)>\s*<([0-9a-fA-F]+)>", block):
            start = _text(value)
            for step in range(int(last, 16) - int(first, 16) + 1):
                found[int(first, 16) + step] = start[:-1] + chr(ord(start[-1]) + step)
    return found


def _text(digits: str) -> str:
    return bytes.fromhex(digits).decode("utf-16-be", "surrogatepass")


def glyphs_of(font: Any) -> TTFont | None:
    """The font program that is embedded; None where there is none."""
    described = descendant(font).get("/FontDescriptor", {})
    for key in ("/FontFile2", "/FontFile3"):
        if key in described:
            return TTFont(io.BytesIO(described[key].read_bytes()), lazy=True)
    return None
