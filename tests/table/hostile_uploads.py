"""Files dropped on the page that mean harm: those of tracing, and what only a page can be sent."""

from __future__ import annotations

import io
import os
import time
import zipfile
from collections.abc import Iterator
from random import Random
from typing import Any

from tracing.hostile_sources import SVG, hostile_sources

from explainers.table import read_apart
from explainers.table.read_apart import Asked

__all__ = ["NAMES", "dies", "hostile_uploads", "hungry", "never_done"]

_SHAPES = '<polygon points="0,0 8,0 8,8 0,8"/><polygon points="8,0 12,0 8,4"/>'

NAMES = (
    "../../../etc/passwd", "C:\\Windows\\system32\\x.svg", "/etc/shadow", "a\x00b.png", "x" * 5000, "line\nitem: evil",
    "\u202egnp.exe", "<script>alert(1)</script>.svg", "': [", "# remark", "..", "con", "%2e%2e%2f", "\ufeff", "a.svg",
)  # fmt: skip
"""What the files are called."""


def hostile_uploads() -> Iterator[tuple[str, bytes]]:
    """(what it is, its bytes)"""
    yield from _active_drawings()
    yield from _polyglots()
    yield from _archives()
    chance = Random(3)
    for number in range(20):
        yield f"random bytes {number}", chance.randbytes(chance.choice((1, 10, 1_000, 100_000)))
    for start in (b"\x89PNG\r\n\x1a\n", b"\xff\xd8\xff\xe0", b"PK\x03\x04", b"<svg "):
        for number in range(5):
            yield (
                f"{start[:4]!r} and random bytes {number}",
                start + chance.randbytes(chance.choice((10, 1_000, 50_000))),
            )
    yield from hostile_sources()


def _active_drawings() -> Iterator[tuple[str, bytes]]:
    for name, inside in {
        "a script": "<script>parent.document.title='taken'</script>",
        "a handler": '<rect width="2" height="2" onload="alert(1)" onclick="alert(2)"/>',
        "a page within": '<foreignObject width="9" height="9"><iframe src="https://example.org/"/></foreignObject>',
        "a picture elsewhere": '<image href="https://example.org/a.png" width="9" height="9"/>',
        "a file as picture": '<image href="file:///etc/passwd" width="9" height="9"/>',
        "a style elsewhere": '<style>@import url("https://example.org/a.css");</style>',
        "a use of elsewhere": '<use href="https://example.org/a.svg#b"/>',
        "a use of itself": '<g id="a"><use href="#a"/></g>',
        "uses that double": "".join(
            f'<g id="u{n}"><use href="#u{n + 1}"/><use href="#u{n + 1}"/></g>' for n in range(30)
        ),
        "a link": '<a href="javascript:alert(1)"><rect width="1" height="1"/></a>',
        "markup as its name": '<rect id="&lt;img src=x onerror=alert(1)&gt;" x="20" width="4" height="4"/>',
        "YAML as its name": '<rect id="x&#10;item: evil" x="20" width="4" height="4"/>',
        "an animation": '<animate attributeName="href" values="javascript:alert(1)"/>',
    }.items():
        yield f"a drawing with {name}", f"{SVG}{_SHAPES}{inside}</svg>".encode()
    sheet = b'<?xml-stylesheet href="https://example.org/a.xsl" type="text/xsl"?>'
    yield "a drawing with a style sheet", sheet + f"{SVG}{_SHAPES}</svg>".encode()
    laughs = "".join(f'<!ENTITY l{n} "{f"&l{n - 1};" * 10}">' for n in range(1, 20))
    yield "a billion laughs", f'<!DOCTYPE svg [<!ENTITY l0 "ha">{laughs}]>{SVG}<text>&l19;</text></svg>'.encode()
    yield "a drawing of another encoding", b'<?xml version="1.0" encoding="UTF-7"?>' + f"{SVG}{_SHAPES}</svg>".encode()


def _polyglots() -> Iterator[tuple[str, bytes]]:
    drawing = f"{SVG}{_SHAPES}</svg>".encode()
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w") as archive:
        archive.writestr("ppt/presentation.xml", "<a/>")
    yield "a PNG that is an SVG", b"\x89PNG\r\n\x1a\n" + drawing
    yield "a JPEG that is an SVG", b"\xff\xd8\xff\xfe\x00\x10" + drawing
    yield "an SVG that is an archive", drawing + packed.getvalue()
    yield "an archive that is an SVG", packed.getvalue() + drawing
    yield "a page that is an archive", b"<!doctype html><script>alert(1)</script>" + packed.getvalue()
    yield "a PDF that is an SVG", b"%PDF-1.7\n" + drawing


def _archives() -> Iterator[tuple[str, bytes]]:
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("ppt/presentation.xml", b" " * 60_000_000)
    yield "an archive with a bomb", packed.getvalue()
    outer = io.BytesIO()
    with zipfile.ZipFile(outer, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("../../ppt/presentation.xml", packed.getvalue())
        archive.writestr("/etc/passwd", "x")
    yield "an archive in an archive, with paths", outer.getvalue()


def never_done(data: bytes, asked: object) -> None:
    """Reads for ever, or near it."""
    time.sleep(600)


def dies(data: bytes, asked: object) -> None:
    """Brings its process down."""
    os._exit(7)


def hungry(data: bytes, asked: Asked) -> dict[str, Any]:
    """Asks for more memory than a file gets."""

    def too_much(data: bytes, asked: Asked) -> dict[str, Any]:
        return {"kind": str(len(bytearray(4_000_000_000)))}

    read_apart._proposed = too_much  # of the process that it runs in
    return read_apart.proposed(data, asked)
