"""What the PDF library leaves open in the tags of a document, mended before the file is written.

These are the scopes of header cells, the boxes of figures, and the feet of pages, which WeasyPrint 70 marks as text of
elements that nothing holds: here they become artifacts.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

import pydyf

__all__ = ["mend_tags"]

_Objects = Mapping[int, Any]  # of a PDF, by their numbers


def mend_tags(_: Any, pdf: Any) -> None:
    """Headers of tables say what they head, figures where they are; what stands in margins is no part of the text.

    To be handed to the library, which calls it with its document and the PDF.
    """
    objects: dict[int, Any] = {entry.number: entry for entry in pdf.objects}
    elements = [entry for entry in objects.values() if isinstance(entry, pydyf.Dictionary)]
    for entry in elements:
        if entry.get("S") == "/TR":
            _scope_headers([objects[_number_of(reference)] for reference in entry["K"]])
        elif entry.get("S") == "/Figure":
            _place_box(entry, objects[_number_of(entry["Pg"])])
    _margins_as_artifacts(pdf, objects)


def _scope_headers(cells: Sequence[Any]) -> None:
    """Each header of a row with a plain cell heads that row; a row of headers alone heads columns."""
    scope = "/Row" if any(cell["S"] == "/TD" for cell in cells) else "/Column"
    for cell in cells:
        if cell["S"] == "/TH":
            cell.setdefault("A", pydyf.Dictionary({"O": "/Table"}))["Scope"] = scope


def _place_box(figure: Any, page: Any) -> None:
    """A figure's box in points from the lower left of the page, as ISO 32000 has it; it comes in pixels."""
    left, top, right, bottom = (value * 0.75 for value in figure["A"]["BBox"])
    height = page["MediaBox"][3]
    figure["A"]["BBox"] = pydyf.Array([left, height - bottom, right, height - top])


def _margins_as_artifacts(pdf: Any, objects: _Objects) -> None:
    """The library marks what stands in margins as text of elements that nothing holds; it is furniture of a page."""
    root = objects[_number_of(pdf.catalog["StructTreeRoot"])]
    held = {entry.number for entry in _held(root, objects)}
    rows = objects[_number_of(root["ParentTree"])]["Nums"]
    for page in (entry for entry in objects.values() if isinstance(entry, pydyf.Dictionary)):
        if page.get("Type") != "/Page" or "StructParents" not in page:
            continue
        owners = rows[rows.index(page["StructParents"]) + 1]
        loose = {mcid for mcid, owner in enumerate(owners) if _number_of(owner) not in held}
        for mcid in loose:
            owners[mcid] = "null"
        content = objects[_number_of(page["Contents"])].stream
        for index, operator in enumerate(content):
            if operator == b"BDC" and content[index - 1].get("MCID") in loose:
                content[index - 2 : index] = ["/Artifact", pydyf.Dictionary({"Type": "/Pagination"})]


def _held(element: Any, objects: _Objects) -> Iterator[Any]:
    """Everything that an element holds, and what is in that."""
    for kid in element.get("K", ()):
        if isinstance(kid, str | bytes) and (inner := objects[_number_of(kid)]):
            yield inner
            yield from _held(inner, objects)


def _number_of(reference: str | bytes) -> int:
    return int(reference.split()[0])
