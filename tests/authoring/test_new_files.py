"""New files: each reads, is sound, tells every key, and keeps doing so with every example taken up."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pytest
from demo_items import demo_items

from explainers.authoring.demo import demo_names, demo_text, sections_of
from explainers.authoring.new_files import Files, checked_name, new_item, new_lesson, new_series
from explainers.errors import OutputError
from explainers.intake.item_reader import format_of_kind
from explainers.intake.lesson_reader import LESSON, PART
from explainers.intake.workspace import load_lesson, load_solution
from explainers.intake.writing import rewritten
from explainers.item.model import Manner
from explainers.item.option_reader import MADE, option_format
from explainers.item.ready_outlines import READY
from explainers.item.series_reader import SERIES, scan_series
from explainers.kinds.join_and_cut.fields.item_reader import BASE, KEYS
from explainers.kinds.join_and_cut.fields.piece_reader import PIECE
from explainers.kinds.join_and_cut.slips.registry import SLIPS

ITEM = format_of_kind("join-and-cut")
OPTION = option_format(KEYS.slip_keys, KEYS.result)
ROOT = Path(__file__).parents[2]


def put(files: Files, folder: Path) -> list[Path]:
    folder.mkdir(parents=True, exist_ok=True)
    for name, text in files.items():
        (folder / name).write_text(text, encoding="utf-8")
    return [folder / name for name in files]


def told(text: str) -> dict[str, str]:
    """The remarks above each top-level key, whether it is in use or stands in a remark itself."""
    found: dict[str, str] = {}
    block: list[str] = []
    for line in text.splitlines():
        if key := re.match(r"#?([a-z-]+):", line):
            found[key[1]] = "\n".join(block)
            block = []
        elif line.startswith("# "):
            block.append(line)
        elif not line:
            block = []
    return found


def names_of(remarks: str) -> set[str]:
    return set(re.findall(r"[A-Za-z-]+", remarks))


def taken_up(text: str) -> str:
    """The file with every example in use: remarks lose their # where nothing stands between it and a key."""
    return re.sub(r"^#(?=\S|  )(?! )", "", re.sub(r"^#(  \S.*: \")", r"\1", text, flags=re.M), flags=re.M)


def test_each_demo_item_is_found_and_its_parts_make_it_whole() -> None:
    assert set(demo_names()) == {path.stem for path in demo_items()}
    for name in demo_names():
        head, keys = sections_of(demo_text(name))
        assert head and not head.startswith("#")
        form = format_of_kind(load_solution(ROOT / "items" / f"{name}.yaml").item.kind)
        assert list(keys) == [key for key in form.keys if key in keys]


def test_the_demo_items_go_with_an_installed_package() -> None:
    settings = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    assert settings["tool"]["hatch"]["build"]["targets"]["wheel"]["force-include"]["items"] == "explainers/demo"


@pytest.mark.parametrize("like", [None, *demo_names()])
def test_a_new_item_is_sound_and_in_the_house_form(like: str | None, tmp_path: Path) -> None:
    (path,) = put(new_item("my-block", like), tmp_path)
    solution = load_solution(path)
    assert solution.sound
    assert (solution.item.name, solution.item.title) == ("my-block", "My block")
    assert not rewritten(path).changes
    if like is not None:
        original = load_solution(ROOT / "items" / f"{like}.yaml")
        likeness = solution.posed().likeness(original.posed())
        assert likeness is not None and not likeness.flipped
        assert solution.item.accepted == original.item.accepted


def test_what_a_new_item_begins_from_draws_no_warning(tmp_path: Path) -> None:
    (path,) = put(new_item("my-block"), tmp_path)
    solution = load_solution(path)
    assert solution.item.made is not None and solution.warnings == ()


@pytest.mark.parametrize("like", [None, "flag-block", "kite-block"])
def test_a_new_item_tells_every_key_once(like: str | None) -> None:
    keys = told(new_item("my-block", like)["my-block.yaml"])
    assert sorted(keys) == sorted(ITEM.keys)
    assert all(keys.values())
    assert names_of(keys["base"]) >= {*BASE.keys, *READY}
    assert names_of(keys["pieces"]) >= set(PIECE.keys)
    assert names_of(keys["options"]) >= {*OPTION.keys, *MADE.keys, *SLIPS}
    assert names_of(keys["accepted"]) >= set(KEYS.warnings)


def test_a_new_lesson_and_a_new_series_tell_every_key_once(tmp_path: Path) -> None:
    keys = told(new_lesson("mine", tmp_path)["mine.yaml"])
    assert sorted(keys) == sorted(LESSON.keys) and all(keys.values())
    assert names_of(keys["parts"]) >= {*PART.keys, *Manner}
    keys = told(new_series("ours", tmp_path)["ours.yaml"])
    assert sorted(keys) == sorted(SERIES.keys) and all(keys.values())


def test_every_example_can_be_taken_up(tmp_path: Path) -> None:
    (tmp_path / "club.pptx").write_bytes(b"PK\x03\x04")
    put({"my-block.yaml": taken_up(new_item("my-block")["my-block.yaml"])}, tmp_path)
    assert [entry.kind for entry in load_solution(tmp_path / "my-block.yaml").item.accepted] == ["no-turn"]
    put({"series.yaml": "series: ours\n"}, tmp_path / "with")
    put(new_item("my-block"), tmp_path / "with")
    (tmp_path / "blocks").mkdir()
    (tmp_path / "with" / "club.pptx").write_bytes(b"PK\x03\x04")
    text = taken_up(new_lesson("first-blocks", tmp_path / "with")["first-blocks.yaml"])
    put({"first-blocks.yaml": text}, tmp_path / "with")
    lesson, _ = load_lesson(tmp_path / "with" / "first-blocks.yaml")
    assert lesson.words == (("first-blocks.opening", "Good morning, everybody."),)
    assert lesson.voice and lesson.template and lesson.credit and lesson.series
    put({"all.yaml": taken_up(new_series("ours", tmp_path / "none")["ours.yaml"])}, tmp_path / "with")
    series = scan_series(tmp_path / "with" / "all.yaml").series
    assert series is not None and len(series.lessons) == 1 and series.theme == "dark"


def test_a_lesson_where_nothing_lies_comes_with_an_item(tmp_path: Path) -> None:
    files = new_lesson("mine", tmp_path, "gate-block")
    assert list(files) == ["my-block.yaml", "mine.yaml"]
    put(files, tmp_path)
    lesson, (solution,) = load_lesson(tmp_path / "mine.yaml")
    assert lesson.title == "Mine" and solution.sound and solution.item.base.holes


def test_a_lesson_shows_the_sound_items_beside_it_and_says_of_the_others_why_not(tmp_path: Path) -> None:
    for name in ("b", "c", "d", "e"):
        put(new_item(name), tmp_path)
    put({"a.yaml": "item: a\npieces: []\n"}, tmp_path)
    keyless = "{outline: result, slip: left-out, piece: pennant}"
    put({"f.yaml": demo_text("flag-block").replace("{outline: result, turned: -90}", keyless)}, tmp_path)
    put({"other.yaml": "lesson: other\nparts:\n  - {show: b.yaml}\n"}, tmp_path)
    put({"series.yaml": "series: ours\nlessons: [other.yaml]\n"}, tmp_path)
    put(new_lesson("mine", tmp_path), tmp_path)
    text = (tmp_path / "mine.yaml").read_text(encoding="utf-8")
    lesson, _ = load_lesson(tmp_path / "mine.yaml")
    assert [(part.show.name, part.manner.value) for part in lesson.parts] == [
        ("b.yaml", "worked-example"),
        ("c.yaml", "your-turn"),
        ("d.yaml", "your-turn"),
    ]
    assert "\n  # - {show: e.yaml, as: your-turn}\n" in text
    assert "# a.yaml is left out: it cannot be read" in text
    assert "# f.yaml is left out: it has not exactly one right option" in text
    assert lesson.series is not None and lesson.series.name == "ours"
    with pytest.raises(OutputError, match="leave --like out"):
        new_lesson("again", tmp_path, "kite-block")


def test_a_lesson_that_could_show_nothing_is_not_written(tmp_path: Path) -> None:
    put({"a.yaml": "item: a\n"}, tmp_path)
    with pytest.raises(OutputError, match=r"a\.yaml: it cannot be read or solved\. To mend it"):
        new_lesson("mine", tmp_path)


def test_a_series_lists_the_lessons_beside_it_and_they_are_numbered_once_they_name_it(tmp_path: Path) -> None:
    put(new_lesson("one", tmp_path), tmp_path)
    put(new_lesson("two", tmp_path), tmp_path)
    put(new_series("ours", tmp_path), tmp_path)
    series = scan_series(tmp_path / "ours.yaml").series
    assert series is not None and [path.name for path in series.lessons] == ["one.yaml", "two.yaml"]
    put(new_lesson("three", tmp_path), tmp_path)
    lesson, _ = load_lesson(tmp_path / "three.yaml")
    assert lesson.series is not None and lesson.number is None


@pytest.mark.parametrize("name", ["my-block", "my-block.yaml", "7", "a" * 60])
def test_a_name_that_the_reader_takes(name: str, tmp_path: Path) -> None:
    found = checked_name(name)
    (path,) = put(new_item(found), tmp_path)
    assert load_solution(path).item.name == found == name.removesuffix(".yaml")


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("My Block", "write my-block"),
        ("../block", "write block"),
        ("Größe", "only lower-case letters"),
        ("a" * 61, "61 characters"),
        ("", "nothing is written"),
        ("-", "only lower-case letters"),
        ("a\x00b", "cannot be shown"),
        ("a\nb", "write a-b"),
    ],
)
def test_a_name_that_it_does_not_take_is_refused_with_one_that_it_does(name: str, said: str) -> None:
    with pytest.raises(OutputError, match=re.escape(said)) as refused:
        checked_name(name)
    assert "To mend it" in str(refused.value) and str(refused.value).isprintable()
