"""Files that must be refused, as data: one good item, and what each row changes in it.

A row names the line and the field where the fault must be found, with a part of its message. Each file is one that a
teacher, an editor program or a bad day could produce.
"""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["BAD_ITEMS", "GOOD_ITEM", "BadFile"]

GOOD_ITEM = """\
item: corner-block
title: The corner block
base:
  corners: [[0, 0], [4, 0], [4, 2], [2, 2], [2, 4], [0, 4]]
  holes: []
pieces:
  - piece: flag
    does: join
    corners: [[0, 0], [2, 0], [0, 2]]
    turned: 135
    side: [[0, 0], [2, 0]]
    meets: [[4, 0], [4, 2]]
    of: base
    mark: K
  - piece: notch
    does: cut
    corners: [[0, 0], [1, 0], [1, 1], [0, 1]]
    side: [[0, 0], [1, 0]]
    meets: [[1, 0], [2, 0]]
options:
  - {outline: result, turned: 90}
  - {corners: [[0, 0], [6, 0], [6, 2], [2, 2], [2, 4], [0, 4]], turned: 30}
  - {corners: [[0, 0], [3, 0], [0, 3]], turned: 180, scale: 1.5, name: plain}
"""


@dataclass(frozen=True)
class BadFile:
    """One file, and the fault that must be found in it."""

    why: str
    text: bytes
    line: int  # 0: the file as a whole
    field: str
    message: str
    faults: int = 1


def _changed(old: str, new: str, *, line: int, field: str, message: str, faults: int = 1) -> BadFile:
    assert GOOD_ITEM.count(old) == 1, f"{old!r} must stand in the good item once"
    return BadFile(f"{old} -> {new}"[:90], GOOD_ITEM.replace(old, new).encode(), line, field, message, faults)


def _whole(why: str, text: str | bytes, *, line: int, field: str = "", message: str, faults: int = 1) -> BadFile:
    return BadFile(why, text if isinstance(text, bytes) else text.encode(), line, field, message, faults)


BASE_CORNERS = "corners: [[0, 0], [4, 0], [4, 2], [2, 2], [2, 4], [0, 4]]\n"
FLAG_CORNERS = "corners: [[0, 0], [2, 0], [0, 2]]"
HAND_CORNERS = "corners: [[0, 0], [6, 0], [6, 2], [2, 2], [2, 4], [0, 4]], turned: 30"


def _base(corners: str, message: str, field: str = "base.corners") -> BadFile:
    return _changed(BASE_CORNERS, f"corners: {corners}\n", line=4, field=field, message=message)


def _hole(holes: str, message: str, field: str = "base.holes[0]", faults: int = 1) -> BadFile:
    return _changed("holes: []", f"holes: {holes}", line=5, field=field, message=message, faults=faults)


def _turned(value: str, message: str) -> BadFile:
    return _changed("turned: 135", f"turned: {value}", line=10, field="pieces[0].turned", message=message)


def _side(side: str, message: str) -> BadFile:
    return _changed("side: [[0, 0], [2, 0]]", f"side: {side}", line=11, field="pieces[0].side", message=message)


def _meets(meets: str, message: str, field: str = "pieces[0].meets") -> BadFile:
    return _changed("meets: [[4, 0], [4, 2]]", f"meets: {meets}", line=12, field=field, message=message)


def _of(of: str, message: str) -> BadFile:
    return _changed("of: base", f"of: {of}", line=13, field="pieces[0].of", message=message)


def _mark(mark: str, message: str) -> BadFile:
    return _changed("mark: K", f"mark: {mark}", line=14, field="pieces[0].mark", message=message)


def _option(option: str, field: str, message: str, faults: int = 1) -> BadFile:
    old = "{outline: result, turned: 90}"
    return _changed(old, option, line=21, field=f"options[0]{field}", message=message, faults=faults)


THE_FILE = [
    _whole("empty", "", line=0, message="the file is empty"),
    _whole("only a remark", "# an item, one day\n", line=0, message="the file is empty"),
    _whole("a list at the top", "- item: a\n", line=1, message="holds a list where keys"),
    _whole("a text at the top", "corner-block\n", line=1, message="holds a single text"),
    _whole("two documents", GOOD_ITEM + "---\nitem: second\n", line=24, message="a second document begins here"),
    _whole("UTF-16", GOOD_ITEM.encode("utf-16"), line=1, message="saved as UTF-16"),
    _whole("Latin-1", GOOD_ITEM.replace("The", "Thé").encode("latin-1"), line=2, message="not UTF-8"),
    _whole("a bell", GOOD_ITEM.replace("The", "\a"), line=2, message="cannot be shown (U+0007)"),
    _whole("too long", GOOD_ITEM + "#" * 1_000_000, line=0, message="an item never needs more than 1,000,000"),
    _whole("a lesson", "lesson: first\nparts: []\n", line=1, message="this is a lesson, not an item"),
    _whole("a series", "series: one\n", line=1, message="this is a series, not an item"),
    _whole("lists too deep", "item: " + "[" * 40 + "]" * 40, line=1, message="nested more than 12 deep"),
    _whole("lists without end", "item: " + "[" * 500_000, line=1, message="nested more than 12 deep"),
    _whole("mappings too deep", "item: " + "{a: " * 40 + "1" + "}" * 40, line=1, message="nested more than 12 deep"),
    _whole("too many values", "item: [" + "1, " * 60_000 + "1]", line=1, message="more than 50,000 values"),
    _whole(
        "repeats of repeats",
        "a: &a [1, 1, 1, 1, 1, 1, 1, 1, 1]\n"
        + "".join(f"{b}: &{b} [{', '.join([f'*{a}'] * 9)}]\n" for a, b in zip("abcdefgh", "bcdefghi", strict=True)),
        line=5,
        message="more than 50,000 values",
    ),
    _whole("an open bracket", GOOD_ITEM.replace("[0, 4]]\n  holes", "[0, 4]\n  holes"), line=4, message="not closed"),
    _changed("title: The corner block", "title: Join: and cut", line=2, field="", message="a colon stands where"),
    _changed("title: The corner block", "\ttitle: The corner", line=2, field="", message="begins with a tab"),
    _changed("  holes: []", " holes: []", line=5, field="", message="the indentation of this line"),
    _changed("title: The corner block", " title: The corner", line=2, field="", message="a colon stands where"),
    _changed("title: The corner block", ": a", line=2, field="", message="no key before its colon"),
    _changed("title: The corner block", "title: *bold*", line=2, field="", message="begins with * or &"),
    _changed("title: The corner block", "title The corner", line=2, field="", message="has no colon after it"),
    _changed("title: The corner block", 'title: "The corner', line=2, field="", message="never closed"),
    _changed("title: The corner block", "title: @corner", line=2, field="", message="keeps for itself"),
]  # fmt: skip

# The parser is one line ahead at the end of a file: the fault must not stand on a line that is not there.
THE_FILE.append(_whole("a scrap at the end", GOOD_ITEM + "0", line=24, message="has no colon after it"))

KEYS = [
    _changed("title: The", "titel: The", line=2, field="titel", message='an item has no key called "titel"'),
    _changed("title: The", "difficulty: The", line=2, field="difficulty", message="has no key called"),
    _changed("title: The", "1: The", line=2, field="1", message='no key called "1"'),
    _changed("  holes: []", "  hole: []", line=5, field="base.hole", message='the base has no key called "hole"'),
    _changed("turned: 135", "angle: 135", line=10, field="pieces[0].angle", message="no key called"),
    _changed("does: join", "dose: join", line=8, field="pieces[0].dose", message="no key called"),
    _changed("of: base", "off: base", line=13, field="pieces[0].off", message="no key called"),
    _option("{outline: result, rotated: 90}", ".rotated", "the option has no key called"),
    _option("{outline: result, mirrored: yes}", ".mirrored", "the option has no key called"),
    _changed("title: The", "item: two\ntitle: The", line=2, field="item", message="twice, on line 1 and on line 2"),
    _changed(
        "mark: K", "mark: K\n    does: cut", line=15, field="pieces[0].does", message="twice, on line 8 and on line 15"
    ),
    _changed("title: The corner block", "<<: {title: a}", line=2, field="<<", message="merge key"),
    _changed("title: The corner block", "? [title]\n: a", line=2, field="", message="where a key is due"),
    _changed("title: The corner block", '"": a', line=2, field="", message="no key before its colon"),
    _changed(
        "title: The corner block", "title: !!python/object:os.x a", line=2, field="title", message="tag !!python/object"
    ),
    _changed("title: The corner block", "title: *bold", line=2, field="title", message="*bold repeats something"),
    _changed("item: corner-block\n", "", line=1, field="item", message="the key item is missing from the file"),
    _changed("    does: join\n", "", line=7, field="pieces[0].does", message="the key does is missing from flag"),
    _changed("    " + FLAG_CORNERS + "\n", "", line=7, field="pieces[0].corners", message="corners is missing"),
    _changed("    side: [[0, 0], [2, 0]]\n", "", line=7, field="pieces[0].side", message="the key side is missing"),
    _changed("    meets: [[4, 0], [4, 2]]\n", "", line=7, field="pieces[0].meets", message="the key meets is missing"),
    _changed("  " + BASE_CORNERS, "", line=3, field="base.corners", message="corners is missing from the base"),
    _whole(
        "no options", GOOD_ITEM.split("options:")[0], line=1, field="options", message="options is missing"
    ),
    _whole(
        "no pieces",
        GOOD_ITEM[: GOOD_ITEM.index("pieces:")] + GOOD_ITEM[GOOD_ITEM.index("options:") :],
        line=1, field="pieces", message="pieces is missing from the file",
    ),
]  # fmt: skip

NAMES = [
    _changed("item: corner-block", "item: Corner Block", line=1, field="item", message="only lower-case letters"),
    _changed("item: corner-block", "item: corner_block", line=1, field="item", message="only lower-case letters"),
    _changed("item: corner-block", "item: ../corner", line=1, field="item", message="only lower-case letters"),
    _changed("item: corner-block", f"item: {'a' * 61}", line=1, field="item", message="61 characters; at most 60"),
    _changed("item: corner-block", "item:", line=1, field="item", message="nothing is written here"),
    _changed("item: corner-block", "item: [a]", line=1, field="item", message="a list stands here where a text"),
    _changed("title: The corner block", "title:", line=2, field="title", message="nothing is written here"),
    _changed("title: The corner block", 'title: ""', line=2, field="title", message="nothing is written here"),
    _changed("title: The corner block", f"title: {'a' * 121}", line=2, field="title", message="121 characters"),
    _changed("title: The corner block", r'title: "a\x00b"', line=2, field="title", message="(U+0000)"),
    _changed("piece: flag", "piece: base", line=7, field="pieces[0].piece", message="cannot be called base"),
    _changed("piece: notch", "piece: flag", line=15, field="pieces[1].piece", message="two pieces are called flag"),
    _mark("ABCD", "the mark has 4 characters"),
    _mark("'A B'", "white space"),
    _mark("leaf", "leaf is a sign"),
    _changed("mark: K", "sign: lief", line=14, field="pieces[0].sign", message='"lief" stands here where leaf, button'),
    _changed("mark: K", "sign: leaf\n    mark: K", line=14, field="pieces[0].sign", message="mark on line 15 and"),
    _changed("mark: K", "mark: K\n    sign: leaf", line=15, field="pieces[0].sign", message="mark on line 14 and"),
    _mark("", "nothing is written here"),
    _mark(r'"\u0301"', "cannot be shown by itself"),
    _changed(
        "meets: [[1, 0], [2, 0]]", "meets: [[1, 0], [2, 0]]\n    mark: K",
        line=20, field="pieces[1].mark", message="the mark K is also that of flag",
    ),
]  # fmt: skip

NUMBERS = [
    _turned('"135"', "stands in quotation marks"),
    _turned("yes", '"yes" is not a number'),
    _turned("", "nothing is written here where a number is due"),
    _turned("null", "nothing is written here where a number is due"),
    _turned("[135]", "a list stands here where a number is due"),
    _turned("{deg: 135}", "a set of keys with values stands here"),
    _turned("2024-01-01", "is not a number"),
    _turned("1:30", "is not a number"),
    _turned("1/2", "is a fraction"),
    _turned('"1,5"', "comma where a full stop is due"),
    _turned(".nan", "is not a finite number"),
    _turned("-.inf", "is not a finite number"),
    _turned("1e400", "too large"),
    _turned("1e9", "too large: numbers go up to 1,000,000"),
    _turned("-1e7", "too large: numbers go up to 1,000,000"),
    _turned("010", "begins with a zero"),
    _turned("0x10", "is not a number"),
    _turned("1_000", "not written as a plain number"),
    _turned("135°", "not written as a plain number"),
    _turned("\N{MINUS SIGN}45", "not written as a plain number"),
    _turned("sqrt(2)", "is not a number"),
]

OUTLINES = [
    _base("[[0, 0], [4, 0]]", "at least 3 corners; this one has 2 corners"),
    _base("[]", "at least 3 corners; this one has no corner"),
    _base("square", 'the text "square" stands here where a list of corners'),
    _base("[[0, 0, 0], [4, 0], [4, 4]]", "this one has 3", field="base.corners[0]"),
    _base("[[0, 0], [4], [4, 4]]", "a point has two numbers; this one has 1", field="base.corners[1]"),
    _base("[[0, 0], [4, x], [4, 4]]", '"x" is not a number', field="base.corners[1][1]"),
    _base("[[0, 0], {x: 1}, [4, 4]]", "where a point [x, y] is due", field="base.corners[1]"),
    _base(f"[{', '.join(f'[{i}, {i * i}]' for i in range(301))}]", "the list has 301 corners; at most 300"),
    _base("[[0, 0], [4, 0], [4, 2], [0, 2], [0, 0]]", "is the first corner again", field="base.corners[4]"),
    _base("[[0, 0], [4, 0], [4, 0], [4, 2], [0, 2]]", "stands here twice", field="base.corners[2]"),
    _base("[[0, 0], [4, 0], [4, 4], [2, -1], [0, 4]]", "crosses itself: the side (0, 0) to (4, 0)"),
    _base("[[0, 0], [4, 4], [4, 0], [0, 4]]", "crosses itself"),
    _base("[[0, 0], [4, 0], [4, 2], [2, 0], [2, 4], [0, 4]]", "touches itself at (2, 0)"),
    _base("[[0, 0], [4, 0], [4, 2], [2, 0.001], [2, 4], [0, 4]]", "touches itself"),
    _base("[[0, 0], [2, 2], [4, 0], [4, 4], [2, 2], [0, 4]]", "touches itself at (2, 2)"),
    _base("[[0, 0], [4, 0], [4, 2], [4, 4], [4, 3], [0, 4]]", "doubles back"),
    _base("[[0, 0], [2, 0], [4, 0]]", "encloses nothing"),
    _base("[[0, 0], [0, 0], [0, 0]]", "stands here twice", field="base.corners[1]"),
    _base("[[0, 0], [1e-9, 0], [0, 1e-9]]", "is only 1e-09 across"),
    _base("[[999999, 0], [999999.5, 0], [999999, 0.5]]", "very far from (0, 0)"),
    _hole("", "nothing stands here where a list of holes is due", field="base.holes"),
    _hole("[[1, 1], [2, 1], [1, 2]]", "without the brackets of the list of holes", field="base.holes"),
    _hole("[[[1, 1], [2, 1]]]", "at least 3 corners"),
    _hole("[[[1, 1], [2, 2], [2, 1], [1, 2]]]", "crosses itself"),
    _hole("[[[6, 6], [7, 6], [6, 7]]]", "the hole lies outside the base"),
    _hole("[[[1, 1], [5, 1], [1, 1.5]]]", "the hole reaches outside the base at (4, 1"),
    _hole("[[[1, 0], [2, 1], [1, 1.5]]]", "the hole touches the outline of the base at (1, 0)"),
    _hole("[[[3, 3], [3.5, 3], [3, 3.5]]]", "the hole lies outside the base"),
    _hole(
        "[[[0.5, 0.5], [1.5, 0.5], [0.5, 1.5]], [[0.7, 0.7], [3, 1.5], [1, 1.9]]]",
        "the hole overlaps hole number 1", field="base.holes[1]",
    ),
    _hole(
        "[[[0.5, 0.5], [3, 0.5], [0.5, 3]], [[0.7, 0.7], [1, 0.7], [0.7, 1]]]",
        "the hole overlaps hole number 1", field="base.holes[1]",
    ),
    _hole(
        "[[[0.5, 0.5], [1, 0.5], [1, 1]], [[1, 1], [1.5, 1], [1.5, 1.5]]]",
        "the hole touches hole number 1", field="base.holes[1]",
    ),
    _changed(
        FLAG_CORNERS, "corners: [[0, 0], [2, 0], [0, 2], [2, 2]]",
        line=9, field="pieces[0].corners", message="crosses itself",
    ),
    _changed(HAND_CORNERS, "corners: [[0, 0], [6, 0], [3, 0]]", line=22, field="options[1].corners", message="nothing"),
]  # fmt: skip

PIECES = [
    _whole("pieces: none", GOOD_ITEM[: GOOD_ITEM.index("  - piece")].replace("pieces:", "pieces: []")
           + GOOD_ITEM[GOOD_ITEM.index("options:") :],
           line=6, field="pieces", message="the list has no pieces; at least 1 is allowed"),
    _whole("seven pieces", GOOD_ITEM.replace("options:", "".join(
        f"  - {{piece: p{i}, does: cut, corners: [[0, 0], [1, 0], [0, 1]], side: [[0, 0], [1, 0]], "
        "meets: [[0, 0], [1, 0]]}\n" for i in range(5)) + "options:"),
        line=6, field="pieces", message="7 pieces; at most 6"),
    _whole("pieces without a dash", "item: a\nbase: {corners: [[0, 0], [1, 0], [0, 1]]}\npieces: {piece: flag}\n"
                "options: {make: 4}\n", line=3, field="pieces", message="where a list of pieces is due"),
    _changed("does: join", "does: jion", line=8, field="pieces[0].does", message="where join or cut is due"),
    _changed("does: join", "does: yes", line=8, field="pieces[0].does", message="where join or cut is due"),
    _side("[[0, 0], [3, 0]]", "is not on a side of flag: that side ends at (2, 0)"),
    _side("[[0, 0], [1, 1]]", "the two points lie on different sides"),
    _side("[[0, 0], [0.5, 0.5]]", "(0.5, 0.5) is not on its outline"),
    _side("[[5, 5], [7, 5]]", "neither point is on its outline"),
    _side("[[1, 0], [1, 0]]", "has no length"),
    _side("[0, 0, 2, 0]", "a side has two points"),
    _side("[[0, 0], [1, 0], [2, 0]]", "a side has two points; this list has 3 points"),
    _side("[]", "a side has two points"),
    _side("long", "where two points are due"),
    _meets("[[4, 0], [4, 3]]", "(4, 0) to (4, 3) is not on a side of the base: that side ends at (4, 2)"),
    _meets("[[4, 2], [4, 4]]", "is already the end of that side"),
    _meets("[[0, 0], [4, 2]]", "the two points lie on different sides"),
    _meets("[[4, 0], [4, 1]]", "is 2 long, but the side that it must meet is 1 long"),
    _meets("[[4, 0], [4, 1.995]]", "is 2 long, but the side that it must meet is 1.995 long"),
    _meets("[[4, 0], [4, 1,5]]", "a point has two numbers; this one has 3", field="pieces[0].meets[1]"),
    _of("flag", "flag cannot meet itself"),
    _of("notch", "notch comes later"),
    _of("sash", "there is no piece called sash"),
    _of("Base", "only lower-case letters"),
    _changed(
        "meets: [[1, 0], [2, 0]]", "meets: [[0, 0], [0, 1]]\n    of: flag\n  - {piece: dot, does: join, "
        "corners: [[0, 0], [1, 0], [0, 1]], side: [[0, 0], [1, 0]], meets: [[0, 0], [1, 0]], of: notch}",
        line=21, field="pieces[2].of", message="notch is cut away",
    ),
    _changed(
        "meets: [[1, 0], [2, 0]]", "meets: [[0, 0], [0, 3]]\n    of: flag",
        line=19, field="pieces[1].meets", message="is not on a side of flag: that side ends at (0, 2)",
    ),
]  # fmt: skip

OPTIONS = [
    _whole("two options", GOOD_ITEM[: GOOD_ITEM.index("  - {corners: [[0, 0], [3")], line=20, field="options",
           message="the list has 2 options; at least 3"),
    _whole("seven options", GOOD_ITEM + "  - {outline: result}\n" * 4, line=20, field="options",
           message="the list has 7 options; at most 6"),
    _whole("options: text", GOOD_ITEM[: GOOD_ITEM.index("options:")] + "options: five\n", line=20, field="options",
           message="where a list of options is due"),
    _whole("too many made", GOOD_ITEM[: GOOD_ITEM.index("options:")] + "options: {make: 9, seed: 7}\n", line=20,
           field="options.make", message="out of range"),
    _whole("a seed too large", GOOD_ITEM[: GOOD_ITEM.index("options:")] + "options: {make: 4, seed: 1e99}\n", line=20,
           field="options.seed", message="out of range"),
    _whole("half an option made", GOOD_ITEM[: GOOD_ITEM.index("options:")] + "options: {make: 2.5}\n", line=20,
           field="options.make", message="not a whole number"),
    _whole("made and misspelt", GOOD_ITEM[: GOOD_ITEM.index("options:")] + "options: {make: 4, sead: 7}\n", line=20,
           field="options.sead", message="no key called"),
    _option("{turned: 90}", "", "neither outline nor corners"),
    _option("result", "", "where keys with values are due"),
    _option("{outline: key}", ".outline", "where result is due"),
    _option("{slip: flipped}", ".outline", "the key outline is missing"),
    _option("{outline: result, corners: [[0, 0], [1, 0], [0, 1]]}", ".outline", "cannot have outline beside corners"),
    _option("{slip: flipped, corners: [[0, 0], [1, 0], [0, 1]]}", ".slip", "cannot have slip beside corners"),
    _option("{outline: result, holes: []}", ".holes", "cannot have holes beside outline"),
    _option("{holes: []}", ".corners", "corners is missing"),
    _option("{outline: result, piece: flag}", ".piece", "no slip that happens to it"),
    _option("{outline: result, slip: flipped, piece: flog}", ".piece", "there is no piece called flog"),
    _option("{outline: result, slip: Flipped}", ".slip", "only lower-case letters"),
    _option("{outline: result, scale: 0}", ".scale", "out of range"),
    _option("{outline: result, scale: -1}", ".scale", "out of range"),
    _option("{outline: result, scale: big}", ".scale", "is not a number"),
    _option("{outline: result, turned: left}", ".turned", "is not a number"),
    _option("{outline: result, name: Right One}", ".name", "only lower-case letters"),
    _changed(
        HAND_CORNERS, HAND_CORNERS + ", name: plain", line=23, field="options[2].name", message="have the same name"
    ),
]  # fmt: skip

BAD_ITEMS = [*THE_FILE, *KEYS, *NAMES, *NUMBERS, *OUTLINES, *PIECES, *OPTIONS]
