"""Files that mean harm, or came to harm: 200 of them, each with what it is."""

from __future__ import annotations

import io
import random
import struct
import zipfile
import zlib
from collections.abc import Iterator

import cv2
import numpy as np

SVG = '<svg xmlns="http://www.w3.org/2000/svg">'
_A = 'xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main"'
_P = 'xmlns:p="http://schemas.openxmlformats.org/presentationml/2006/main"'
_R = 'xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"'


def hostile_sources() -> Iterator[tuple[str, bytes]]:
    """(what it is, its bytes)"""
    yield from _drawings()
    yield from _slides()
    yield from _pictures()


def _drawings() -> Iterator[tuple[str, bytes]]:
    shape = '<polygon points="0,0 4,0 0,4"/>'
    whole = f"{SVG}{shape * 3}</svg>".encode()
    for cut in range(1, 21):
        yield f"a drawing cut at {cut}", whole[: len(whole) * cut // 21]
    yield (
        "entities",
        b'<!DOCTYPE svg [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;">]>' + whole.replace(b"<poly", b"&b;<poly", 1),
    )
    yield "an entity of a file", b'<!DOCTYPE svg [<!ENTITY a SYSTEM "file:///etc/passwd">]>' + whole
    yield "deep groups", f"{SVG}{'<g>' * 200_000}".encode()
    yield "deep groups that close", f"{SVG}{'<g>' * 100_000}{'</g>' * 100_000}</svg>".encode()
    yield "many shapes", f"{SVG}{shape * 5_000}</svg>".encode()
    yield "many elements", f"{SVG}{'<g/>' * 300_000}</svg>".encode()
    yield "many points", f'{SVG}<polygon points="{"0,0 1,1 2,0 " * 100_000}"/></svg>'.encode()
    yield "too large", f"{SVG}{' ' * 3_000_000}</svg>".encode()
    for number in ("NaN", "inf", "-inf", "1e999", "1e308", "9" * 5_000, "0x10", "--1", "1e", ""):
        yield f"a point at {number[:9]}", f'{SVG}<polygon points="0,0 {number},0 0,4"/></svg>'.encode()
        yield f"a width of {number[:9]}", f'{SVG}<rect width="{number}" height="2"/></svg>'.encode()
        yield f"a scale of {number[:9]}", f'{SVG}<g transform="scale({number})">{shape}</g></svg>'.encode()
        yield f"a path to {number[:9]}", f'{SVG}<path d="M0 0 L{number} 0 0 4Z"/></svg>'.encode()
    yield "a bow tie", f'{SVG}<polygon points="0,0 4,4 4,0 0,4"/></svg>'.encode()
    yield "only words", f'{SVG}<text x="NaN" y="1">K</text></svg>'.encode()
    yield "other markup", b"<html><body>no</body></html>"
    yield "no file at all", b""
    yield "UTF-16", whole.decode().encode("utf-16")


def _deck(slide: str, *, extra: dict[str, bytes] | None = None, method: int = zipfile.ZIP_DEFLATED) -> bytes:
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", method) as archive:
        archive.writestr(
            "ppt/presentation.xml",
            f'<p:presentation {_P} {_R}><p:sldIdLst><p:sldId id="256" r:id="r1"/></p:sldIdLst></p:presentation>',
        )
        archive.writestr(
            "ppt/_rels/presentation.xml.rels",
            '<Relationships xmlns="x"><Relationship Id="r1" Target="slides/slide1.xml"/></Relationships>',
        )
        archive.writestr("ppt/slides/slide1.xml", slide)
        for name, data in (extra or {}).items():
            archive.writestr(name, data)
    return packed.getvalue()


def _tree(inner: str) -> str:
    return f"<p:sld {_P} {_A}><p:cSld><p:spTree>{inner}</p:spTree></p:cSld></p:sld>"


def _box(x: str = "0", wide: str = "720000", rot: str = "0", kind: str = "rect", inner: str = "") -> str:
    return (
        f'<p:sp><p:nvSpPr><p:cNvPr id="1" name="one"/><p:cNvSpPr/></p:nvSpPr><p:spPr><a:xfrm rot="{rot}">'
        f'<a:off x="{x}" y="0"/><a:ext cx="{wide}" cy="720000"/></a:xfrm><a:prstGeom prst="{kind}">{inner}</a:prstGeom>'
        "</p:spPr></p:sp>"
    )


def _slides() -> Iterator[tuple[str, bytes]]:
    whole = _deck(_tree(_box()))
    for cut in range(1, 31):
        yield f"slides cut at {cut}", whole[: len(whole) * cut // 31]
    yield "a bomb", _deck(_tree(" " * 80_000_000))
    yield "a bomb of elements", _deck(_tree("<p:sp/>" * 450_000))
    yield "entities", _deck('<!DOCTYPE a [<!ENTITY a "aaaa">]>' + _tree(_box()))
    yield "bzip2", _deck(_tree(_box()), method=zipfile.ZIP_BZIP2)
    yield "lzma", _deck(_tree(_box()), method=zipfile.ZIP_LZMA)
    yield "many parts", _deck(_tree(_box()), extra={f"part{number}": b"" for number in range(11_000)})
    yield "deep groups", _deck(_tree("<p:grpSp>" * 300 + _box() + "</p:grpSp>" * 300))
    yield "very deep groups", _deck(_tree("<p:grpSp>" * 100_000 + "</p:grpSp>" * 100_000))
    yield "deep elements", _deck(_tree("<a>" * 300_000 + "</a>" * 300_000))
    yield "many shapes", _deck(_tree(_box() * 4_000))
    yield "no shapes", _deck(_tree(""))
    yield "no tree", _deck("<a/>")
    for number in ("NaN", "inf", "1e999", "9" * 400, "", "-1e300"):
        yield f"a place of {number[:9]}", _deck(_tree(_box(x=number)))
        yield f"a width of {number[:9]}", _deck(_tree(_box(wide=number)))
        yield f"a turn of {number[:9]}", _deck(_tree(_box(rot=number)))
        grip = f'<a:avLst><a:gd name="adj" fmla="val {number}"/></a:avLst>'
        yield f"a grip of {number[:9]}", _deck(_tree(_box(kind="hexagon", inner=grip, x=number)))
    yield "an unknown shape", _deck(_tree(_box(kind="cloud")))
    outside = zipfile.ZipFile(io.BytesIO(whole)).read("ppt/_rels/presentation.xml.rels")
    for target in ("http://127.0.0.1/x", "../../etc/passwd", "/etc/passwd"):
        packed = io.BytesIO()
        with zipfile.ZipFile(packed, "w") as archive:
            archive.writestr("ppt/presentation.xml", zipfile.ZipFile(io.BytesIO(whole)).read("ppt/presentation.xml"))
            archive.writestr("ppt/_rels/presentation.xml.rels", outside.replace(b"slides/slide1.xml", target.encode()))
        yield f"slides at {target}", packed.getvalue()
    other = io.BytesIO()
    with zipfile.ZipFile(other, "w") as archive:
        archive.writestr("word/document.xml", "<a/>")
    yield "another document", other.getvalue()


def _png(wide: int, high: int, pixels: bytes) -> bytes:
    def part(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    head = struct.pack(">IIBBBBB", wide, high, 8, 2, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + part(b"IHDR", head) + part(b"IDAT", pixels) + part(b"IEND", b"")


def _pictures() -> Iterator[tuple[str, bytes]]:
    chance = random.Random(1)
    sheet = np.full((300, 400, 3), 250, np.uint8)
    cv2.rectangle(sheet, (80, 80), (260, 200), (20, 20, 20), 4)
    (_, png), (_, jpeg) = cv2.imencode(".png", sheet), cv2.imencode(".jpg", sheet)
    for name, whole in (("PNG", png.tobytes()), ("JPEG", jpeg.tobytes())):
        for cut in range(1, 16):
            yield f"a {name} cut at {cut}", whole[: len(whole) * cut // 16]
    for size in ((60_000, 60_000), (2**31 - 1, 1), (1, 2**31 - 1), (0, 0), (20, 20), (7_800, 7_800)):
        yield f"a PNG that says it is {size[0]} x {size[1]}", _png(*size, zlib.compress(b"\0" * 100_000))
    yield "a PNG bomb", _png(400, 300, zlib.compress(b"\0" * 150_000_000, 1))
    yield "a PNG without pixels", _png(400, 300, b"")
    large = jpeg.tobytes().replace(struct.pack(">HH", 300, 400), struct.pack(">HH", 65_000, 65_000), 1)
    yield "a JPEG that says it is huge", large
    for number in range(10):
        broken = bytearray(png.tobytes())
        broken[chance.randrange(8, len(broken))] ^= 0xFF
        yield f"a PNG with a wrong byte, {number}", bytes(broken)
    yield "plain black", cv2.imencode(".png", np.zeros((300, 400, 3), np.uint8))[1].tobytes()
    yield "plain white", cv2.imencode(".png", np.full((300, 400, 3), 255, np.uint8))[1].tobytes()
    noise = np.random.default_rng(1).integers(0, 255, (700, 900, 3), np.uint8)
    yield "noise", cv2.imencode(".png", noise)[1].tobytes()
    tiles = np.full((1000, 1000, 3), 255, np.uint8)
    tiles[::10] = tiles[:, ::10] = 0
    yield "ten thousand tiles", cv2.imencode(".png", tiles)[1].tobytes()
    yield "a GIF", b"GIF89a" + b"\0" * 100
    yield "a TIFF", b"II*\0" + b"\0" * 100
    yield "bytes", bytes(chance.randrange(256) for _ in range(1_000))
