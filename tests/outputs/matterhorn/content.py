"""Failure conditions of what is on a page, of the file about itself, of what else may be in it."""

from __future__ import annotations

from collections.abc import Iterator

import pikepdf
from outputs.matterhorn.table import condition
from outputs.pdf_opened import Opened
from pikepdf import Name


@condition("01-003")
def _artifact_in_tagged(file: Opened) -> Iterator[str]:
    assert file.painted is not None  # so that all content has been read
    for page, marks in file.marked:
        if marks[-1].tag == "Artifact" and any(mark.mcid is not None for mark in marks[:-1]):
            yield f"an artifact inside tagged content on page {page + 1}"


@condition("01-004")
def _tagged_in_artifact(file: Opened) -> Iterator[str]:
    assert file.painted is not None
    for page, marks in file.marked:
        if marks[-1].mcid is not None and any(mark.tag == "Artifact" for mark in marks[:-1]):
            yield f"tagged content inside an artifact on page {page + 1}"


@condition("01-005")
def _neither(file: Opened) -> Iterator[str]:
    """Ink that is not marked, or whose mark no element has, by the element itself and by the parent tree."""
    told = set()
    held = {(n.element.get("/Pg", pikepdf.Dictionary()).objgen, mcid) for n in file.nodes for mcid in n.mcids}
    for ink in file.painted:
        if any(mark.tag == "Artifact" for mark in ink.marks):
            continue
        mark = next((mark for mark in reversed(ink.marks) if mark.mcid is not None), None)
        mcid = None if mark is None else mark.mcid
        place = file.pdf.pages[ink.page].obj
        known = mark is not None and file.owner(mark.holder, mark.mcid) is not None and (place.objgen, mcid) in held
        if not known and (ink.page, mcid) not in told:
            told.add((ink.page, mcid))
            yield f"ink that is neither tagged nor an artifact on page {ink.page + 1}"


@condition("01-007")
def _suspects(file: Opened) -> Iterator[str]:
    if file.root.get("/MarkInfo", {}).get("/Suspects", False):
        yield "its tags are suspect"


@condition("06-001")
def _no_metadata(file: Opened) -> Iterator[str]:
    if "/Metadata" not in file.root:
        yield "no metadata"


@condition("06-002")
def _no_part(file: Opened) -> Iterator[str]:
    with file.pdf.open_metadata() as metadata:
        if metadata.get("pdfuaid:part", "") != "1":
            yield "it does not say that it is PDF/UA-1"


@condition("06-003")
def _no_title(file: Opened) -> Iterator[str]:
    with file.pdf.open_metadata() as metadata:
        if not metadata.get("dc:title", ""):
            yield "no title"


@condition("07-001")
def _no_wish_for_the_title(file: Opened) -> Iterator[str]:
    if "/DisplayDocTitle" not in file.root.get("/ViewerPreferences", {}):
        yield "it does not say whether its title is to be shown"


@condition("07-002")
def _title_not_shown(file: Opened) -> Iterator[str]:
    if not file.root.get("/ViewerPreferences", {}).get("/DisplayDocTitle", True):
        yield "its title is not to be shown"


@condition("11-001", "11-002", "11-003", "11-004", "11-005", "11-006")
def _no_language(file: Opened) -> Iterator[str]:
    """A language of the whole file is that of its text, alt texts, bookmarks, annotations, fields and title."""
    if not str(file.root.get("/Lang", "")):
        yield "no language"


@condition("26-002")
def _kept_from_readers(file: Opened) -> Iterator[str]:
    if file.pdf.is_encrypted and not file.pdf.allow.accessibility:
        yield "programs that read out are kept out"


@condition("20-001")
def _unnamed_layers(file: Opened) -> Iterator[str]:
    for settings in file.root.get("/OCProperties", {}).get("/Configs", []):
        if not str(settings.get("/Name", "")):
            yield "settings of layers without a name"


@condition("20-002")
def _unnamed_first_layers(file: Opened) -> Iterator[str]:
    layers = file.root.get("/OCProperties", {})
    if "/D" in layers and not str(layers.D.get("/Name", "")):
        yield "the first settings of layers without a name"


@condition("20-003")
def _layers_by_themselves(file: Opened) -> Iterator[str]:
    layers = file.root.get("/OCProperties", {})
    for settings in [*layers.get("/Configs", []), *([layers.D] if "/D" in layers else [])]:
        if "/AS" in settings:
            yield "layers that come and go by themselves"


@condition("21-001")
def _unnamed_files(file: Opened) -> Iterator[str]:
    for entry in file.pdf.objects:
        if isinstance(entry, pikepdf.Dictionary) and "/EF" in entry and not {"/F", "/UF"} <= set(entry):
            yield "a file inside without its name"


@condition("30-001")
def _reference(file: Opened) -> Iterator[str]:
    for entry in file.pdf.objects:
        if isinstance(entry, pikepdf.Stream) and entry.get("/Subtype") == Name.Form and "/Ref" in entry:
            yield "a picture of another file"


@condition("30-002")
def _drawn_twice(file: Opened) -> Iterator[str]:
    assert file.painted is not None
    yield from (f"tagged content drawn {count} times" for count in file.drawn.values() if count > 1)
