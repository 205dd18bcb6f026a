"""`explainers trace`: an item that tells what was read, a picture beside it, and nothing written over."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml

DRAWING = """\
<svg xmlns="http://www.w3.org/2000/svg">
<polygon id="base" points="10,50 50,50 50,30 30,30 30,10 10,10"/>
<polygon points="50,50 70,30 50,30"><title>Flag</title></polygon>
<rect id="notch" x="10" y="40" width="10" height="10"/>
<circle id="dot" r="3"/><text x="51" y="42" font-size="4">K</text>
</svg>
"""


@pytest.fixture
def drawing(tmp_path: Path) -> Path:
    path = tmp_path / "blocks.svg"
    path.write_text(DRAWING, encoding="utf-8")
    return path


def test_what_is_written_can_be_checked(run, drawing: Path) -> None:
    to = drawing.with_name("my-block.yaml")
    ran = run("trace", drawing, "--unit", 10, "--to", to)
    assert ran.code == 0
    assert ran.out.splitlines() == [str(to), str(to.with_name("my-block-read.svg"))]
    assert ran.err == (
        f"{drawing}:5: not taken: dot: it is a circle. To mend it: draw it with straight sides; "
        "curves cannot be outlines here.\n"
    )
    item = yaml.safe_load(to.read_text(encoding="utf-8"))
    assert [(piece["piece"], piece["does"]) for piece in item["pieces"]] == [("flag", "join"), ("notch", "cut")]
    assert run("check", to).code == 0


def test_the_item_is_printed_where_no_file_is_named(run, drawing: Path) -> None:
    ran = run("trace", drawing, "--unit", 10)
    assert ran.code == 0
    assert yaml.safe_load(ran.out)["base"]["corners"][0] == [0, 0]
    assert list(drawing.parent.iterdir()) == [drawing]


@pytest.mark.parametrize("there", ["my-block.yaml", "my-block-read.svg"])
def test_nothing_is_written_over(run, drawing: Path, there: str) -> None:
    drawing.with_name(there).write_text("mine\n", encoding="utf-8")
    ran = run("trace", drawing, "--to", drawing.with_name("my-block.yaml"))
    assert ran.code == 2
    assert "is there already" in ran.err
    assert sorted(path.name for path in drawing.parent.iterdir()) == ["blocks.svg", there]
    assert drawing.with_name(there).read_text(encoding="utf-8") == "mine\n"


@pytest.mark.parametrize("option", [("--unit", "nan"), ("--grid", "0"), ("--to", "my-block.svg"), ("--to", "Ö.yaml")])
def test_an_option_that_cannot_be_is_refused(run, drawing: Path, option: tuple[str, str]) -> None:
    ran = run("trace", drawing, *option)
    assert ran.code == 2
    assert "To mend it" in ran.err
    assert list(drawing.parent.iterdir()) == [drawing]


def test_a_file_that_is_not_there_is_one_fault(run, tmp_path: Path) -> None:
    ran = run("trace", tmp_path / "none.svg")
    assert ran.code == 2
    assert len(ran.err.splitlines()) == 1 and "cannot be opened" in ran.err


def test_how_to_install_the_library_for_pictures_is_told(run, tmp_path: Path, monkeypatch) -> None:
    import struct
    import zlib

    def part(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    head = struct.pack(">IIBBBBB", 200, 200, 8, 0, 0, 0, 0)
    pixels = zlib.compress(b"\xff" * 201 * 200)
    path = tmp_path / "sheet.png"
    path.write_bytes(b"\x89PNG\r\n\x1a\n" + part(b"IHDR", head) + part(b"IDAT", pixels) + part(b"IEND", b""))
    monkeypatch.setitem(__import__("sys").modules, "cv2", None)
    ran = run("trace", path)
    assert ran.code == 2
    assert len(ran.err.splitlines()) == 1
    assert "pip install 'explainers[trace]'" in ran.err
