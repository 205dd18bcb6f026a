"""Texts far longer than any file needs: each command ends, with one short error at its line.

The commands run in processes of their own, whose time limit is there for a hang alone.
"""

from __future__ import annotations

from pathlib import Path

import pytest

LONG = "9" * 100_000 + "a"
BELOW_THE_CAP = "9" * 19_990 + "a"
LONGEST_LINE = 600  # of what is told: path, field, message and fix

ITEM = """\
item: {name}
title: {title}
base:
  corners: [[0, 0], [4, 0], [4, 2], [2, 2], [2, 4], [0, 4]]
pieces:
  - piece: flag
    does: join
    {outline}
    turned: {turned}
    side: {side}
    meets: [[4, 0], [4, 2]]
    mark: {mark}
{more}options: {{make: 4, seed: 7}}
"""
SOUND = {
    "title": "The corner block",
    "outline": "corners: [[0, 0], [2, 0], [0, 2]]",
    "turned": "135",
    "side": "[[0, 0], [2, 0]]",
    "mark": "K",
    "more": "",
}
# name of the file -> (what is written instead, line of the error)
HOSTILE: dict[str, tuple[dict[str, str], int]] = {
    "number": ({"turned": LONG}, 9),
    "number-below-the-cap": ({"turned": BELOW_THE_CAP}, 9),
    "corner": ({"outline": f"corners: [[0, 0], [{LONG}, 0], [0, 2]]"}, 8),
    "corner-below-the-cap": ({"outline": f"corners: [[0, 0], [{BELOW_THE_CAP}, 0], [0, 2]]"}, 8),
    "side": ({"side": LONG}, 10),
    "side-below-the-cap": ({"side": BELOW_THE_CAP}, 10),
    "walk": ({"outline": f"walk: right {LONG}"}, 8),
    "walk-below-the-cap": ({"outline": f"walk: right {BELOW_THE_CAP}"}, 8),
    "walk-of-blanks": ({"outline": f'walk: "right 1{" " * 100_000}x"'}, 8),
    "name": ({"name": LONG}, 1),
    "title": ({"title": LONG}, 2),
    "title-of-letters": ({"title": "a" * 100_000}, 2),
    "mark": ({"mark": LONG}, 12),
    "key": ({"more": f"{LONG}: 1\n"}, 13),
    "key-in-quotes": ({"more": f'"{LONG}": 1\n'}, 13),
    "key-of-its-own": ({"more": f"? {LONG}\n: 1\n"}, 13),
    "key-of-300": ({"more": f"{'k' * 300}: 1\n"}, 13),
    "anchor": ({"mark": f"*{LONG}"}, 12),
    "tag": ({"mark": f"!{LONG} K"}, 12),
}
LESSON = f"lesson: first\nparts:\n  - {{show: sound.yaml, as: worked-example}}\ncredit: {LONG}\n"


@pytest.fixture
def hostile(tmp_path: Path) -> dict[Path, int]:
    """The files, each with the line of its error."""
    found = {}
    for name, (entries, line) in HOSTILE.items():
        path = tmp_path / f"{name}.yaml"
        path.write_text(ITEM.format_map({"name": name, **SOUND, **entries}), encoding="utf-8")
        found[path] = line
    return found


@pytest.mark.parametrize("command", ["check", "solve", "fmt"])
def test_every_file_gets_one_short_error_at_its_line(shell, hostile: dict[Path, int], command: str) -> None:
    ran = shell(command, *hostile)
    assert ran.code == 2 and "Traceback" not in ran.err
    told = [line for line in (ran.out + ran.err).splitlines() if "To mend it: " in line]
    for path, line in hostile.items():
        (fault,) = (each for each in told if each.startswith(f"{path}:"))
        assert fault.startswith(f"{path}:{line}: ")
    assert len(told) == len(hostile)
    assert max(map(len, (ran.out + ran.err).splitlines())) < LONGEST_LINE


@pytest.mark.parametrize("name", ["number", "number-below-the-cap", "key"])
def test_nothing_is_drawn_of_such_a_file(shell, hostile: dict[Path, int], tmp_path: Path, name: str) -> None:
    path = tmp_path / f"{name}.yaml"
    ran = shell("look", path, "--to", tmp_path / "look.html")
    assert (ran.code, ran.out) == (2, "") and not (tmp_path / "look.html").exists()
    (line,) = ran.err.splitlines()
    assert line.startswith(f"{path}:{hostile[path]}: ") and len(line) < LONGEST_LINE


def test_a_lesson_is_refused_in_the_same_way(shell, tmp_path: Path) -> None:
    (tmp_path / "sound.yaml").write_text(ITEM.format_map({"name": "sound", **SOUND}), encoding="utf-8")
    path = tmp_path / "first.yaml"
    path.write_text(LESSON, encoding="utf-8")
    ran = shell("check", path)
    (told,) = [line for line in (ran.out + ran.err).splitlines() if "To mend it: " in line]
    assert ran.code == 2 and told.startswith(f"{path}:4: credit: ") and len(told) < LONGEST_LINE


SVG = '<svg xmlns="http://www.w3.org/2000/svg">\n{}</svg>'
DRAWINGS = {
    "points": (SVG.format(f'<polygon points="{LONG}"/>'), 2),
    "many-points": (SVG.format(f'<polygon points="{"0,0 " * 100_000}"/>'), 2),
    "path": (SVG.format(f'<path d="M{LONG}"/>'), 2),
    "closings": (SVG.format(f'<path d="M0,0{"L1,1z" * 50_000}"/>'), 2),
    "segments": (SVG.format(f'<path d="M0,0{"h1" * 100_000}"/>'), 2),
    "width": (SVG.format(f'<rect width="{LONG}" height="2"/>'), 2),
    "blanks": (SVG.format(f'<rect width="1{" " * 100_000}x" height="2"/>'), 2),
    "transform": (SVG.format(f'<polygon transform="scale({LONG})" points="0,0 2,0 0,2"/>'), 2),
    "short-transform": (SVG.format(f'<polygon transform="matrix({"1-1 " * 40}!)" points="0,0 2,0 0,2"/>'), 2),
    "id": (SVG.format(f'<circle id="{LONG}" r="2"/>'), 2),
    "document-types": ("<!DOCTYPE" * 100_000, 1),
    "comments": ("<svg>\n" + "<!--" * 100_000, 2),
    "sections": ("<svg>\n" + "<![CDATA[" * 100_000, 2),
    "instructions": ("<svg>\n" + "<?a" * 100_000, 2),
    "entities": (f'<!DOCTYPE svg [\n<!ENTITY a "{LONG}">]>{SVG.format("&a;")}', 1),
    "references": (SVG.format("&a;" * 100_000), 2),
    "tag": (f"<{LONG}", 1),
    "groups": ("<svg>\n" + "<g>" * 100_000, 2),
}


@pytest.mark.parametrize("name", DRAWINGS)
def test_a_drawing_gets_one_short_error_at_its_line(shell, tmp_path: Path, name: str) -> None:
    text, line = DRAWINGS[name]
    path = tmp_path / f"{name}.svg"
    path.write_text(text, encoding="utf-8")
    ran = shell("outline", path)
    assert (ran.code, ran.out) == (2, "")
    (told,) = ran.err.splitlines()
    assert told.startswith(f"{path}:{line}: ") and len(told) < LONGEST_LINE and "To mend it: " in told
