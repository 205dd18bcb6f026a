"""A slide file as a strict program takes it: parts, types, relationships, ids, the order of elements.

Source : ECMA-376, 5th edition: part 1, 19.3 and A.3 (PresentationML), 20.1, 21.1 and A.4 (DrawingML); part 2, 9 and 10
         (parts, relationships, content types). A program that is strict repairs or refuses what is told here.
"""

from __future__ import annotations

import posixpath
import re
import zipfile
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from lxml import etree

__all__ = ["package_faults"]

_MAIN = "http://schemas.openxmlformats.org/"
_PREFIXES = {
    f"{_MAIN}drawingml/2006/main": "a",
    f"{_MAIN}presentationml/2006/main": "p",
    f"{_MAIN}officeDocument/2006/relationships": "r",
}
_R = f"{{{_MAIN}officeDocument/2006/relationships}}"
_RELS = f"{{{_MAIN}package/2006/relationships}}Relationship"
_TYPES = f"{{{_MAIN}package/2006/content-types}}"
_GUID = re.compile(r"\{[0-9A-F]{8}(-[0-9A-F]{4}){3}-[0-9A-F]{12}\}")

_FILL = "a:noFill a:solidFill a:gradFill a:blipFill a:pattFill a:grpFill"
_EFFECT = "a:effectLst a:effectDag"
_SHAPES = {"p:sp", "p:grpSp", "p:graphicFrame", "p:cxnSp", "p:pic", "p:contentPart"}
_TREE = "p:nvGrpSpPr p:grpSpPr * p:extLst"
_RUN = f"a:ln {_FILL} {_EFFECT} a:highlight a:uLnTx a:uLn a:uFillTx a:uFill a:latin a:ea a:cs a:sym a:hlinkClick \
a:hlinkMouseOver a:rtl a:extLst"
_PARAGRAPH = "a:lnSpc a:spcBef a:spcAft a:buClrTx a:buClr a:buSzTx a:buSzPct a:buSzPts a:buFontTx a:buFont a:buNone \
a:buAutoNum a:buChar a:buBlip a:tabLst a:defRPr a:extLst"

# Element -> its children in the order of the schema; "*" stands for what _FREE has, in any order.
_ORDER: dict[str, str] = {
    "p:presentation": "p:sldMasterIdLst p:notesMasterIdLst p:handoutMasterIdLst p:sldIdLst p:sldSz p:notesSz \
p:smartTags p:embeddedFontLst p:custShowLst p:photoAlbum p:custDataLst p:kinsoku p:defaultTextStyle p:modifyVerifier \
p:extLst",
    "p:sld": "p:cSld p:clrMapOvr p:transition p:timing p:extLst",
    "p:sldLayout": "p:cSld p:clrMapOvr p:transition p:timing p:hf p:extLst",
    "p:sldMaster": "p:cSld p:clrMap p:sldLayoutIdLst p:transition p:timing p:hf p:txStyles p:extLst",
    "p:notes": "p:cSld p:clrMapOvr p:extLst",
    "p:notesMaster": "p:cSld p:clrMap p:hf p:notesStyle p:extLst",
    "p:cSld": "p:bg p:spTree p:custDataLst p:controls p:extLst",
    "p:bg": "p:bgPr p:bgRef",
    "p:bgPr": f"{_FILL} {_EFFECT} p:extLst",
    "p:spTree": _TREE,
    "p:grpSp": _TREE,
    "p:nvGrpSpPr": "p:cNvPr p:cNvGrpSpPr p:nvPr",
    "p:nvSpPr": "p:cNvPr p:cNvSpPr p:nvPr",
    "p:cNvPr": "a:hlinkClick a:hlinkHover a:extLst",
    "p:cNvSpPr": "a:spLocks a:extLst",
    "p:nvPr": "p:ph a:audioCd a:wavAudioFile a:audioFile a:videoFile a:quickTimeFile p:custDataLst p:extLst",
    "p:sp": "p:nvSpPr p:spPr p:style p:txBody p:extLst",
    "p:spPr": f"a:xfrm a:custGeom a:prstGeom {_FILL} a:ln {_EFFECT} a:scene3d a:sp3d a:extLst",
    "p:grpSpPr": f"a:xfrm {_FILL} {_EFFECT} a:scene3d a:extLst",
    "p:txBody": "a:bodyPr a:lstStyle a:p",
    "p:timing": "p:tnLst p:bldLst p:extLst",
    "p:par": "p:cTn",
    "p:seq": "p:cTn p:prevCondLst p:nextCondLst p:extLst",
    "p:cTn": "p:stCondLst p:endCondLst p:endSync p:iterate p:childTnLst p:subTnLst",
    "p:txStyles": "p:titleStyle p:bodyStyle p:otherStyle p:extLst",
    "p:clrMapOvr": "a:masterClrMapping a:overrideClrMapping",
    "p:sldIdLst": "p:sldId",
    "a:xfrm": "a:off a:ext a:chOff a:chExt",
    "a:custGeom": "a:avLst a:gdLst a:ahLst a:cxnLst a:rect a:pathLst",
    "a:prstGeom": "a:avLst",
    "a:pathLst": "a:path",
    "a:path": "*",
    "a:ln": "a:noFill a:solidFill a:gradFill a:pattFill a:prstDash a:custDash a:round a:bevel a:miter a:headEnd \
a:tailEnd a:extLst",
    "a:bodyPr": "a:prstTxWarp a:noAutofit a:normAutofit a:spAutoFit a:scene3d a:sp3d a:flatTx a:extLst",
    "a:p": "a:pPr * a:endParaRPr",
    "a:r": "a:rPr a:t",
    "a:br": "a:rPr",
    "a:fld": "a:rPr a:pPr a:t",
    **dict.fromkeys(("a:rPr", "a:defRPr", "a:endParaRPr"), _RUN),
    **dict.fromkeys(("a:pPr", "a:defPPr", *(f"a:lvl{level}pPr" for level in range(1, 10))), _PARAGRAPH),
    "a:tbl": "a:tblPr a:tblGrid a:tr",
    "a:tr": "a:tc a:extLst",
    "a:tc": "a:txBody a:tcPr a:extLst",
    "a:tcPr": f"a:lnL a:lnR a:lnT a:lnB a:lnTlToBr a:lnBlToTr a:cell3D {_FILL} a:headers a:extLst",
    "a:theme": "a:themeElements a:objectDefaults a:extraClrSchemeLst a:custClrLst a:extLst",
    "a:themeElements": "a:clrScheme a:fontScheme a:fmtScheme a:extLst",
    "a:clrScheme": "a:dk1 a:lt1 a:dk2 a:lt2 a:accent1 a:accent2 a:accent3 a:accent4 a:accent5 a:accent6 a:hlink \
a:folHlink a:extLst",
}
_FREE: dict[str, set[str]] = {
    **dict.fromkeys(("p:spTree", "p:grpSp"), _SHAPES),
    "a:path": {"a:close", "a:moveTo", "a:lnTo", "a:arcTo", "a:quadBezTo", "a:cubicBezTo"},
    "a:p": {"a:r", "a:br", "a:fld"},
}
_MANY = {"a:p", "a:path", "a:tr", "a:tc", "p:sldId"}  # may come again and again; anything else of an order, once

_DUE: dict[str, tuple[str, ...]] = {
    "p:sld": ("p:cSld",),
    "p:cSld": ("p:spTree",),
    "p:sp": ("p:nvSpPr", "p:spPr"),
    "p:grpSp": ("p:nvGrpSpPr", "p:grpSpPr"),
    "p:nvSpPr": ("p:cNvPr", "p:cNvSpPr", "p:nvPr"),
    "p:txBody": ("a:bodyPr", "a:p"),
    "a:custGeom": ("a:pathLst",),
    "a:r": ("a:t",),
    "p:presentation": ("p:notesSz",),
}

# Element -> attribute -> least and most
_NUMBERS: dict[str, dict[str, tuple[int, int]]] = {
    "a:off": dict.fromkeys("xy", (-27_273_042_329_600, 27_273_042_316_900)),
    "a:ext": dict.fromkeys(("cx", "cy"), (0, 27_273_042_316_900)),
    "a:ln": {"w": (0, 20_116_800)},
    "a:rPr": {"sz": (100, 400_000)},
    "a:alpha": {"val": (0, 100_000)},
    "a:path": dict.fromkeys("wh", (0, 27_273_042_316_900)),
    "a:arcTo": dict.fromkeys(("stAng", "swAng"), (-21_600_000, 21_600_000)),
    "p:sldId": {"id": (256, 2_147_483_647)},
    "p:sldMasterId": {"id": (2_147_483_648, 4_294_967_295)},
    "p:sldLayoutId": {"id": (2_147_483_648, 4_294_967_295)},
}


def package_faults(path: Path) -> list[str]:
    """What is wrong with it, each with its part."""
    with zipfile.ZipFile(path) as package:
        names = package.namelist()
        parts = {name: package.read(name) for name in names}
    faults = [f"{name} is there twice" for name, count in Counter(names).items() if count > 1]
    trees: dict[str, Any] = {}
    for name, blob in parts.items():
        if name.endswith((".xml", ".rels")):
            try:
                trees[name] = etree.fromstring(blob)
            except etree.XMLSyntaxError as error:
                faults.append(f"{name}: {error}")
    faults += _types(parts, trees)
    faults += _relations(parts, trees)
    for name, tree in trees.items():
        if name.startswith("ppt/") and name.endswith(".xml"):
            faults += (f"{name}: {fault}" for fault in _elements(tree))
            faults += (f"{name}: {fault}" for fault in _ids(tree))
    return [*faults, *_slides(trees)]


def _types(parts: dict[str, bytes], trees: dict[str, Any]) -> Iterator[str]:
    types = trees.get("[Content_Types].xml")
    if types is None:
        yield "no content types"
        return
    by_ending = {entry.get("Extension").lower() for entry in types.iter(f"{_TYPES}Default")}
    by_name = [entry.get("PartName") for entry in types.iter(f"{_TYPES}Override")]
    yield from (f"two types of {name}" for name, count in Counter(by_name).items() if count > 1)
    yield from (f"a type of {name}, which is not there" for name in by_name if name.removeprefix("/") not in parts)
    for name in parts:
        ending = name.rpartition(".")[2].lower()
        if name != "[Content_Types].xml" and f"/{name}" not in by_name and ending not in by_ending:
            yield f"no type of {name}"
        # A part in XML would be taken for any XML by its ending alone.
        if name.startswith("ppt/") and name.endswith(".xml") and f"/{name}" not in by_name:
            yield f"no type of its own of {name}"


def _relations(parts: dict[str, bytes], trees: dict[str, Any]) -> Iterator[str]:
    reached = {"[Content_Types].xml", *(name for name in parts if name.endswith(".rels"))}
    for name, tree in trees.items():
        if not name.endswith(".rels"):
            continue
        folder, file = posixpath.split(name)
        owner = posixpath.join(posixpath.dirname(folder), file.removesuffix(".rels"))
        if file != ".rels" and owner not in parts:
            yield f"{name} belongs to no part"
        ids = [relation.get("Id") for relation in tree.iter(_RELS)]
        yield from (f"{name}: two relationships {key}" for key, count in Counter(ids).items() if count > 1)
        for relation in tree.iter(_RELS):
            if relation.get("TargetMode") == "External":
                continue
            target = posixpath.normpath(posixpath.join(posixpath.dirname(owner), relation.get("Target")))
            target = relation.get("Target").removeprefix("/") if relation.get("Target").startswith("/") else target
            reached.add(target)
            if target not in parts:
                yield f"{name}: {target} is not there"
        if owner in trees:
            asked = {value for node in trees[owner].iter() for key, value in node.attrib.items() if key.startswith(_R)}
            yield from (f"{owner}: no relationship {key}" for key in sorted(asked - set(ids)))
    for name in parts:
        rels = posixpath.join(posixpath.dirname(name), "_rels", f"{posixpath.basename(name)}.rels")
        used = any(key.startswith(_R) for node in trees[name].iter() for key in node.attrib) if name in trees else False
        if used and rels not in parts:
            yield f"{name} has no relationships"
    yield from (f"nothing leads to {name}" for name in parts if name not in reached)


def _elements(tree: Any) -> Iterator[str]:
    for node in tree.iter(etree.Element):
        name, children = _called(node), [_called(child) for child in node.iterchildren(etree.Element)]
        if name in _ORDER:
            yield from _out_of_order(name, children)
        yield from (f"{name} lacks {due}" for due in _DUE.get(name, ()) if due not in children)
        for key, (least, most) in _NUMBERS.get(name, {}).items():
            value = node.get(key)
            if value is not None and not (re.fullmatch(r"-?\d+", value) and least <= int(value) <= most):
                yield f"{name} {key}={value!r}"
        if name == "a:srgbClr" and not re.fullmatch("[0-9A-Fa-f]{6}", node.get("val", "")):
            yield f"the colour {node.get('val')!r}"
        if name == "a:t" and not node.text:
            yield "a run without a text"
        if name == "a:path" and children and children[0] != "a:moveTo":
            yield "a path that starts nowhere"
        if name.endswith(":section") and not _GUID.fullmatch(node.get("id", "")):
            yield f"the id {node.get('id')!r} of a section"


def _out_of_order(name: str, children: list[str]) -> Iterator[str]:
    order, free = _ORDER[name].split(), _FREE.get(name, set())
    places = []
    for child in children:
        kind = "*" if child in free else child
        if kind not in order:
            if child[:2] in ("a:", "p:"):
                yield f"{child} in {name}"
            continue
        places.append(order.index(kind))
    if places != sorted(places):
        yield f"{name} has its children in another order: {' '.join(children)}"
    for child, count in Counter(children).items():
        if count > 1 and child in order and child not in _MANY:
            yield f"{name} has {count} of {child}"


def _ids(tree: Any) -> Iterator[str]:
    for kind in ("cNvPr", "sldId", "sldLayoutId"):
        ids = [node.get("id") for node in tree.iter(f"{{{_MAIN}presentationml/2006/main}}{kind}")]
        yield from (f"two {kind} with the id {key}" for key, count in Counter(ids).items() if count > 1)
        if kind == "cNvPr":
            yield from (f"the id {key!r} of a shape" for key in ids if not re.fullmatch(r"\d{1,10}", key or ""))


def _slides(trees: dict[str, Any]) -> Iterator[str]:
    """Each slide listed once, with a layout; its notes and it know each other."""
    kinds: dict[str, list[tuple[str, str]]] = {}  # part -> kinds and targets of its relationships
    for name, tree in trees.items():
        if name.endswith(".rels"):
            owner = name.replace("_rels/", "").removesuffix(".rels")
            kinds[owner] = [
                (r.get("Type").rpartition("/")[2], posixpath.basename(r.get("Target"))) for r in tree.iter(_RELS)
            ]
    listed = len(list(trees["ppt/presentation.xml"].iter(f"{{{_MAIN}presentationml/2006/main}}sldId")))
    slides = [name for name in trees if re.fullmatch(r"ppt/slides/slide\d+\.xml", name)]
    if listed != len(slides):
        yield f"{listed} slides are listed, {len(slides)} are there"
    for slide in slides:
        rows = kinds.get(slide, [])
        if [kind for kind, _ in rows].count("slideLayout") != 1:
            yield f"{slide} has no layout"
        for notes in (target for kind, target in rows if kind == "notesSlide"):
            back = kinds.get(f"ppt/notesSlides/{notes}", [])
            if ("slide", posixpath.basename(slide)) not in back:
                yield f"the notes of {slide} do not lead back"


def _called(node: Any) -> str:
    name = etree.QName(node)
    if name.localname == "path" and etree.QName(node.getparent()).localname != "pathLst":
        return "a:path of a shade"  # another type under the same name
    return f"{_PREFIXES.get(name.namespace, name.namespace)}:{name.localname}"
