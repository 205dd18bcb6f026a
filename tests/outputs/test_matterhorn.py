"""Every condition that is looked for is found when it is planted, in a sheet that fails none of them."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pikepdf
import pytest
from outputs.matterhorn.failed import CONDITIONS, failed
from pikepdf import Array, Dictionary, Name

from explainers.figure.paper import Printing
from explainers.figure.themes import PRINT
from explainers.intake.workspace import load_solution
from explainers.lesson.sheet_plan import plan_sheets
from explainers.outputs.pdf.sheets import write_sheets
from explainers.sentences.sheets import SheetKind

ITEMS = Path(__file__).parents[2] / "items"
QUESTIONS, ANSWERS, MARKING = SheetKind.QUESTION, SheetKind.ANSWER, SheetKind.MARKING

Change = Callable[[pikepdf.Pdf], Any]  # what it returns is passed on to saving where it is a dictionary


@dataclass(frozen=True)
class Plant:
    """A fault to plant in one of the sheets."""

    change: Change
    sheet: SheetKind = QUESTIONS


@pytest.fixture(scope="module")
def sheets(tmp_path_factory: pytest.TempPathFactory) -> dict[SheetKind, Path]:
    """Two questions, so that there is a table of answers too."""
    kinds = (QUESTIONS, ANSWERS, MARKING)
    planned = plan_sheets(
        [load_solution(ITEMS / f"{name}-block.yaml") for name in ("flag", "corner")],
        name="two",
        title="Two blocks",
        theme=PRINT,
        printing=Printing(),
        only=kinds,
    )
    return dict(zip(kinds, write_sheets([planned], tmp_path_factory.mktemp("sheets")), strict=True))


def elements(pdf: pikepdf.Pdf, tag: str) -> list[Any]:
    return [entry for entry in pdf.objects if isinstance(entry, Dictionary) and entry.get("/S") == Name("/" + tag)]


def tagged(old: str, new: str, count: int = 1, **keys: object) -> Change:
    def change(pdf: pikepdf.Pdf) -> None:
        for element in elements(pdf, old)[:count]:
            element.S = Name("/" + new)
            for key, value in keys.items():
                element["/" + key] = value

    return change


def without(tag: str, *keys: str) -> Change:
    """The first such element without what is named, which may stand in its attributes."""

    def change(pdf: pikepdf.Pdf) -> None:
        element = elements(pdf, tag)[0]
        for holder in (element, element.get("/A", Dictionary())):
            for key in keys:
                if "/" + key in holder:
                    del holder["/" + key]

    return change


def root(**keys: object) -> Change:
    def change(pdf: pikepdf.Pdf) -> None:
        for key, value in keys.items():
            if value is None:
                del pdf.Root["/" + key]
            else:
                pdf.Root["/" + key] = value

    return change


def drawn(content: bytes) -> Change:
    """More on the first page, after what is there."""

    def change(pdf: pikepdf.Pdf) -> None:
        pdf.pages[0].contents_add(content)

    return change


def written(code: str) -> Change:
    """A glyph more in the first font of the first page."""

    def change(pdf: pikepdf.Pdf) -> None:
        name = next(iter(pdf.pages[0].resources.Font.keys()))
        text = f"/P <</MCID 0>> BDC BT {name} 10 Tf <{code}> Tj ET EMC"
        pdf.pages[0].contents_add(text.encode())

    return change


def fonts(change: Callable[[Any, Any], object]) -> Change:
    """Done to every composite font and the one below it."""

    def change_all(pdf: pikepdf.Pdf) -> None:
        for font in [e for e in pdf.objects if isinstance(e, Dictionary) and e.get("/Subtype") == Name.Type0]:
            change(font, font.DescendantFonts[0])

    return change_all


def characters(value: str) -> Change:
    """Every glyph stands for the character of this number."""

    def change(pdf: pikepdf.Pdf) -> None:
        for font in [e for e in pdf.objects if isinstance(e, Dictionary) and "/ToUnicode" in e]:
            text = font.ToUnicode.read_bytes()
            font.ToUnicode.write(
                re.sub(rb"(<[0-9a-fA-F]+>\s*)<[0-9a-fA-F]+>(?=\s*\n)", rb"\1<" + value.encode() + b">", text)
            )

    return change


def drop_metadata(key: str) -> Change:
    def change(pdf: pikepdf.Pdf) -> None:
        with pdf.open_metadata(update_docinfo=False) as metadata:
            del metadata[key]

    return change


def note(kind: str, *, tabs: str | None = "S", held: bool = False, **keys: object) -> Change:
    """An annotation on the first page."""

    def change(pdf: pikepdf.Pdf) -> None:
        page = pdf.pages[0].obj
        made = Dictionary(Type=Name.Annot, Subtype=Name("/" + kind), Rect=[0, 0, 9, 9])
        for key, value in keys.items():
            made["/" + key] = value
        if held:
            made.StructParent = 999
            pikepdf.NumberTree(pdf.Root.StructTreeRoot.ParentTree)[999] = elements(pdf, "P")[0]
        page.Annots = Array([pdf.make_indirect(made)])
        if tabs:
            page.Tabs = Name("/" + tabs)
        elif "/Tabs" in page:
            del page["/Tabs"]

    return change


def form(content: bytes, times: int, **keys: object) -> Change:
    """A form that is drawn so many times on the first page."""

    def change(pdf: pikepdf.Pdf) -> None:
        made = pdf.make_stream(content)
        made.Type, made.Subtype, made.BBox = Name.XObject, Name.Form, Array([0, 0, 9, 9])
        for key, value in keys.items():
            made["/" + key] = value
        page = pdf.pages[0]
        resources = page.obj.Resources
        resources.XObject = Dictionary({**dict(resources.get("/XObject", {})), "/Planted": pdf.make_indirect(made)})
        page.contents_add(b"/Artifact BMC " + times * b"/Planted Do " + b"EMC")

    return change


def closed(pdf: pikepdf.Pdf) -> dict[str, object]:
    allow = pikepdf.Permissions(accessibility=False)
    return {"encryption": pikepdf.Encryption(owner="o", user="", R=3, aes=False, metadata=False, allow=allow)}


def parentless(pdf: pikepdf.Pdf) -> None:
    del pdf.Root.StructTreeRoot["/ParentTree"]


def roles(**names: Name) -> Change:
    def change(pdf: pikepdf.Pdf) -> None:
        pdf.Root.StructTreeRoot.RoleMap = Dictionary(**names)

    return change


def attached(pdf: pikepdf.Pdf) -> None:
    pdf.Root.Held = pdf.make_indirect(Dictionary(EF=Dictionary()))


def put(*, below: bool = False, **keys: object) -> Callable[[Any, Any], None]:
    """Entries of a font, or of the one below it; None takes one out."""

    def change(font: Any, inner: Any) -> None:
        for key, value in keys.items():
            holder = inner if below else font
            if value is None:
                del holder["/" + key]
            else:
                holder["/" + key] = value

    return change


def wider(_: Any, below: Any) -> None:
    below.W = Array([0, 65535, 333])


PLANTS: dict[str, list[Plant]] = {
    "01-003": [Plant(drawn(b"/P <</MCID 0>> BDC /Artifact BMC 0 0 1 1 re f EMC EMC"))],
    "01-004": [Plant(drawn(b"/Artifact BMC /P <</MCID 0>> BDC 0 0 1 1 re f EMC EMC"))],
    "01-005": [
        Plant(drawn(b"0 0 1 1 re f")),
        Plant(drawn(b"/P <</MCID 9999>> BDC 0 0 1 1 re f EMC")),
        Plant(parentless),
        Plant(without("P", "K")),
    ],
    "01-007": [Plant(root(MarkInfo=Dictionary(Marked=True, Suspects=True)))],
    "02-001": [Plant(tagged("P", "Lesson"))],
    "02-003": [Plant(roles(A=Name.B, B=Name.A))],
    "02-004": [Plant(roles(P=Name.Span))],
    "06-001": [Plant(root(Metadata=None))],
    "06-002": [Plant(drop_metadata("pdfuaid:part"))],
    "06-003": [Plant(drop_metadata("dc:title"))],
    "07-001": [Plant(root(ViewerPreferences=Dictionary()))],
    "07-002": [Plant(root(ViewerPreferences=Dictionary(DisplayDocTitle=False)))],
    "09-004": [Plant(tagged("TR", "P"), MARKING), Plant(tagged("TD", "P"), MARKING), Plant(tagged("P", "TBody"))],
    "09-005": [Plant(tagged("LI", "P"), ANSWERS), Plant(tagged("L", "Div"), ANSWERS)],
    "09-006": [Plant(tagged("P", "TOCI"))],
    "09-007": [Plant(tagged("P", "RB"))],
    "09-008": [Plant(tagged("P", "WT"))],
    "10-001": [Plant(fonts(lambda font, _: font.ToUnicode.write(b"")))],
    **{f"11-00{number}": [Plant(root(Lang=None))] for number in range(1, 7)},
    "13-004": [Plant(without("Figure", "Alt"))],
    "14-002": [Plant(tagged("H1", "H2"))],
    "14-003": [Plant(tagged("H2", "H3"))],
    "14-006": [Plant(tagged("P", "H", 9))],
    "14-007": [Plant(tagged("H2", "H"))],
    "15-003": [Plant(without("TH", "Scope"), MARKING)],
    "17-002": [Plant(tagged("P", "Formula"))],
    "19-003": [Plant(tagged("P", "Note"))],
    "19-004": [Plant(tagged("P", "Note", 2, ID=pikepdf.String("one")))],
    "20-001": [Plant(root(OCProperties=Dictionary(Configs=[Dictionary()])))],
    "20-002": [Plant(root(OCProperties=Dictionary(D=Dictionary())))],
    "20-003": [Plant(root(OCProperties=Dictionary(D=Dictionary(Name=pikepdf.String("a"), AS=[]))))],
    "21-001": [Plant(attached)],
    "26-002": [Plant(closed)],
    "28-002": [Plant(note("Text", Contents=pikepdf.String("Look")))],
    "28-004": [Plant(note("Text"))],
    "28-005": [Plant(note("Widget"))],
    "28-006": [Plant(note("Sticker"))],
    "28-007": [Plant(note("TrapNet"))],
    "28-008": [Plant(note("Text", tabs=None))],
    "28-009": [Plant(note("Text", tabs="R"))],
    "28-010": [Plant(note("Widget"))],
    "28-011": [Plant(note("Link", held=True))],
    "28-012": [Plant(note("Link"))],
    "28-017": [Plant(note("PrinterMark", held=True))],
    "30-001": [Plant(form(b"", 1, Ref=Dictionary()))],
    "30-002": [Plant(form(b"/P <</MCID 0>> BDC 0 0 1 1 re f EMC", 2))],
    "31-004": [Plant(fonts(put(below=True, CIDToGIDMap=Name.Other)))],
    "31-005": [Plant(fonts(put(below=True, CIDToGIDMap=None)))],
    "31-006": [Plant(fonts(put(Encoding=Name("/Own-H"))))],
    "31-009": [Plant(fonts(put(below=True, FontDescriptor=Dictionary())))],
    "31-011": [Plant(written("FFFE"))],
    "31-016": [Plant(fonts(wider))],
    "31-027": [Plant(fonts(put(ToUnicode=None)))],
    "31-028": [Plant(characters("0000"))],
    "31-029": [Plant(characters("FEFF"))],
    "31-030": [Plant(written("0000"))],
}  # fmt: skip


def test_sheets_fail_none(sheets: dict[SheetKind, Path]) -> None:
    for path in sheets.values():
        assert failed(path) == []


def test_each_condition_has_its_fault() -> None:
    assert set(PLANTS) == set(CONDITIONS)
    assert len(CONDITIONS) == 61, "the number told where they are described"


PLANTED = [
    pytest.param(number, plant, id=f"{number}-{count}")
    for number, plants in PLANTS.items()
    for count, plant in enumerate(plants, start=1)
]


@pytest.mark.filterwarnings("ignore:This document has")  # a field that belongs to no form
@pytest.mark.parametrize(("number", "plant"), PLANTED)
def test_a_planted_fault_is_found(sheets: dict[SheetKind, Path], number: str, plant: Plant, tmp_path: Path) -> None:
    broken = tmp_path / "broken.pdf"
    with pikepdf.open(sheets[plant.sheet]) as pdf:
        how = plant.change(pdf)
        pdf.save(broken, **(how if isinstance(how, dict) else {}))
    assert number in {found.partition(":")[0] for found in failed(broken)}
