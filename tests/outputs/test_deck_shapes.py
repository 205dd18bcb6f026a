"""Every shape of the demo's deck is the entry it stands for; every slide is titled, told, numbered, in order."""

from __future__ import annotations

import copy
import re
from pathlib import Path
from typing import Any

import pytest
from outputs.figure_oracle import drawn
from outputs.picture_agreement import apart
from outputs.slide_shapes import A, P, faults_of, leaves_of
from pptx import Presentation
from pptx.oxml import parse_xml

from explainers.batch import timeline_of
from explainers.figure.model import Entry, Figure, Role
from explainers.outputs.pptx.deck import ONE_PER_IDEA, write_deck
from explainers.outputs.shared.said_below import slide_picture
from explainers.outputs.shared.steps import with_dividers
from explainers.storyboard.ideas import ideas
from explainers.storyboard.model import Step
from explainers.storyboard.timeline import Timeline

DEMO = Path(__file__).resolve().parents[2] / "items" / "first-blocks.yaml"
SECTION = "{http://schemas.microsoft.com/office/powerpoint/2010/main}section"
MEMBER = "{http://schemas.microsoft.com/office/powerpoint/2010/main}sldId"


@pytest.fixture(scope="module")
def timeline() -> Timeline:
    return timeline_of(DEMO)


@pytest.fixture(scope="module")
def deck(timeline: Timeline, tmp_path_factory: pytest.TempPathFactory) -> Any:
    (path,) = write_deck(timeline, tmp_path_factory.mktemp("deck"))
    return Presentation(str(path))


def picture(step: Step) -> Figure:
    return slide_picture(step)


def laid(step: Step) -> list[Entry]:
    entries = picture(step).entries
    stitches = [entry for entry in entries if entry.role == Role.PROGRESS]
    return [entry for entry in entries if entry.role not in (Role.HEADING, Role.PROGRESS)] + stitches


def faults(slide: Any, step: Step) -> list[str]:
    return list(faults_of(slide.shapes._spTree, laid(step), step.heading))


def test_every_shape_of_every_slide_is_its_entry(deck: Any, timeline: Timeline) -> None:
    for slide, step in zip(deck.slides, with_dividers(timeline.storyboard.steps), strict=True):
        assert faults(slide, step) == [], step.id


def test_a_slide_with_any_one_shape_deleted_is_found_out(deck: Any, timeline: Timeline) -> None:
    deleted = 0
    for slide, step in zip(deck.slides, with_dividers(timeline.storyboard.steps), strict=True):
        tree = slide.shapes._spTree
        for number, shape in enumerate(leaves_of(tree)):
            parent = shape.getparent()
            place = parent.index(shape)
            parent.remove(shape)
            assert any(faults_of(tree, laid(step), step.heading)), f"{step.id}: shape {number} is not missed"
            parent.insert(place, shape)
            deleted += 1
        assert faults(slide, step) == [], "all are back"
    assert deleted > 500


def moved(shape: Any) -> None:
    off = shape.find(f".//{A}off")
    off.set("x", str(int(off.get("x")) + 3 * 6350))  # 3 pixels at 1080p


def thicker(shape: Any) -> None:
    line = shape.find(f".//{A}ln")
    if line.get("w"):
        line.set("w", str(int(line.get("w")) * 2))


def recoloured(shape: Any) -> None:
    for colour in shape.iter(f"{A}srgbClr"):
        colour.set("val", "123456")


def reworded(shape: Any) -> None:
    for text in shape.iter(f"{A}t"):
        text.text = "other"


@pytest.mark.parametrize("change", [moved, thicker, recoloured, reworded])
def test_a_shape_that_is_changed_is_found_out(deck: Any, timeline: Timeline, change: Any) -> None:
    """On a slide with patterns, marks, an arrow, a dashed outline and words."""
    (number,) = (n for n, step in enumerate(timeline.storyboard.steps) if step.id == "border-block.dart.turn")
    tree, step = deck.slides[number].shapes._spTree, with_dividers(timeline.storyboard.steps)[number]
    changed = 0
    for place in range(1, len(leaves_of(tree)) - 1):
        broken = copy.deepcopy(tree)
        change(leaves_of(broken)[place])
        if change not in (thicker, reworded) or broken.xpath("string(.)") != tree.xpath("string(.)"):
            assert any(faults_of(broken, laid(step), step.heading)), f"shape {place}"
            changed += 1
    assert changed or change is thicker


def test_every_group_and_picture_says_what_it_is(deck: Any, timeline: Timeline) -> None:
    for slide, step in zip(deck.slides, with_dividers(timeline.storyboard.steps), strict=True):
        groups = [(g.find(f".//{P}cNvPr").get("name"), g.find(f".//{P}cNvPr").get("descr")) for g in groups_of(slide)]
        for name, said in groups:
            assert name[0].isupper(), f"{step.id}: {name} is an id, not a name"
            assert said, f"{step.id}: {name} says nothing"
            assert said == picture(step).alt.rstrip(".") or said.startswith(name)
        told = [node.get("descr") for node in slide.element.iter(f"{P}cNvPr") if node.get("descr")]
        assert told[0] == picture(step).alt.rstrip("."), "the whole picture first"
        entries = {entry.id: entry for entry in laid(step)}
        for shape in leaves_of(slide.shapes._spTree)[1:-1]:
            entry = entries[name_of(shape)]
            if entry.role in ("base", Role.OUTLINE, Role.OPTION) and shape.getparent().tag != f"{P}grpSp":
                assert shape.find(f".//{P}cNvPr").get("descr"), f"{step.id}: {entry.id} alone says nothing"


def groups_of(slide: Any) -> list[Any]:
    return list(slide.shapes._spTree.iter(f"{P}grpSp"))


def name_of(shape: Any) -> str:
    return str(shape.find(f".//{P}cNvPr").get("name"))


def test_what_belongs_together_is_one_group(deck: Any, timeline: Timeline) -> None:
    """By hand: a base with its marks and seam, pieces with their words, options with their letters and signs."""
    groups = {
        step.id: {name_of(group): {name_of(shape) for shape in leaves_of(group)} for group in groups_of(slide)}
        for slide, step in zip(deck.slides, with_dividers(timeline.storyboard.steps), strict=True)
    }
    task = groups["border-block.task"]
    assert task["Option B"] == {"option-b-cloth", "option-b", "option-b-letter"}
    assert {"piece-1", "piece-1-own.bar", "piece-1-own.letter", "piece-1-word"} <= task["Piece 1, to join"]
    assert "base" in task["The base"]
    assert {shape for shape in task["The base"] if shape != "base"} == {
        f"piece-{number}-partner.{part}" for number in (1, 2) for part in ("bar", "ends", "ticks", "letter")
    }
    turning = groups["border-block.dart.turn"]
    assert {"base", "seam-1", "piece-2-partner.bar"} <= turning["The base"]
    assert {"piece-1", "list-1", "list-1-done"} <= turning["Piece 1, to join"]
    assert {"piece-2", "list-2"} <= turning["Piece 2, to cut away"]
    told = groups["border-block.answer"]
    assert told["Option A"] == {"option-a-cloth", "option-a", "option-a-letter", "option-a-sign"}
    assert told["Option B"] == {"option-b-cloth", "option-b", "option-b-letter", "option-b-sign"}, "the one laid over"


def test_a_thing_is_in_one_place_of_each_slide(deck: Any, timeline: Timeline) -> None:
    """Whatever is drawn of one thing stands in one group, with nothing of another thing; groups are named apart."""
    for slide, step in zip(deck.slides, with_dividers(timeline.storyboard.steps), strict=True):
        entries = {entry.id: entry for entry in laid(step)}
        homes: dict[str, set[int]] = {}
        for number, shape in enumerate(list(slide.shapes._spTree)):
            things = {thing_of(entries[name_of(leaf)]) for leaf in leaves_of(shape) if name_of(leaf) in entries}
            assert len(things) <= 1, f"{step.id}: {things} in one group"
            for thing in things:
                homes.setdefault(thing, set()).add(number)
        assert {thing for thing, places in homes.items() if len(places) > 1} == set(), step.id
        names = [name_of(group) for group in groups_of(slide)]
        assert len(set(names)) == len(names), step.id


def thing_of(entry: Entry) -> str:
    """What an entry is drawn of: what it carries, but panels lie under everything."""
    return entry.group if entry.subject is None or entry.role == Role.PANEL else entry.subject.group


@pytest.mark.parametrize(("lesson", "most"), [("first-blocks", 6), ("cutting-out", 6), ("looking-closely", 120)])
def test_bringing_things_together_changes_no_picture(lesson: str, most: int, tmp_path: Path) -> None:
    """What lies over what is as in the figure; at most the end of a line is tucked under its neighbour."""
    told = timeline_of(DEMO.with_name(f"{lesson}.yaml"))
    (path,) = write_deck(told, tmp_path)
    moved_down = 0
    for slide, step in zip(Presentation(str(path)).slides, with_dividers(told.storyboard.steps), strict=True):
        entries = {entry.id: entry for entry in laid(step)}
        order = [entries[name_of(shape)] for shape in leaves_of(slide.shapes._spTree)[1:-1]]
        if order == [entry for entry in entries.values() if entry.opacity > 0.0]:
            continue
        moved_down += 1
        figure, small = picture(step), {"size": (960, 540), "unit": 60.0}
        differ = apart(drawn(figure, entries=order, **small), drawn(figure, entries=laid(step), **small), 1)
        assert differ.sum() <= most, step.id
    assert moved_down > 5


def test_what_is_taught_first_is_read_first(deck: Any, timeline: Timeline) -> None:
    """The title; the picture as a whole; base, pieces and options in their order; the number last.

    A base with a seam is read after the pieces that the seam holds, since it lies over them.
    """
    for slide, step in zip(deck.slides, with_dividers(timeline.storyboard.steps), strict=True):
        shapes = leaves_of(slide.shapes._spTree)
        assert shapes[0].find(f".//{P}ph").get("type") == "title"
        assert shapes[-1].find(f".//{P}ph").get("type") == "sldNum"
        entries = {entry.id: entry for entry in laid(step)}
        things = [thing_of(entries[name]) for name in map(name_of, shapes) if name in entries]
        ranks = [rank for thing in dict.fromkeys(things) if (rank := rank_of(thing)) is not None]
        sewn = any(entry.role == Role.SEAM for entry in entries.values())
        told = [rank for rank in ranks if not (sewn and rank[1] == "base")]
        assert told == sorted(told), step.id


def rank_of(group: str) -> tuple[int, str] | None:
    """Where a group is due: table, base, outline, pieces and options by number and letter."""
    for rank, start in enumerate(("panels", "base", "outline", r"piece-\d", "option-[a-f]")):
        if re.fullmatch(start, group):
            return rank, group
    return None


def test_notes_have_what_is_said_and_when(deck: Any, timeline: Timeline) -> None:
    for slide, step in zip(deck.slides, with_dividers(timeline.storyboard.steps), strict=True):
        notes = slide.notes_slide.notes_text_frame.text
        for sentence in step.narration:
            assert sentence in notes
        assert step.note in notes
        assert re.search(r"In the clip: \d+:\d\d to \d+:\d\d\.$", notes) or notes == step.picture.alt
        languages = {run.get("lang") for run in slide.notes_slide.element.iter(f"{A}rPr") if run.get("lang")}
        assert "en-GB" in languages


def test_every_slide_shows_its_number(deck: Any) -> None:
    for number, slide in enumerate(deck.slides, start=1):
        (field,) = slide.element.iter(f"{A}fld")
        assert (field.get("type"), field.find(f"{A}t").text) == ("slidenum", str(number))


def test_chapters_are_sections(deck: Any, timeline: Timeline) -> None:
    sections = list(deck.element.iter(SECTION))
    names = [section.get("name") for section in sections]
    assert names == list(dict.fromkeys(step.chapter for step in timeline.storyboard.steps))
    assert len({section.get("id") for section in sections}) == len(names)
    members = [member.get("id") for section in sections for member in section.iter(MEMBER)]
    assert members == [slide_id.get("id") for slide_id in deck.slides._sldIdLst]
    chapters = [section.get("name") for section in sections for _ in section.iter(MEMBER)]
    assert chapters == [step.chapter for step in with_dividers(timeline.storyboard.steps)]
    assert deck.element[-1].tag == f"{P}extLst", "where the format wants it: last"


def test_one_slide_an_idea_leaves_nothing_unsaid(timeline: Timeline, tmp_path: Path) -> None:
    (path,) = write_deck(timeline, tmp_path, slides=ONE_PER_IDEA)
    few = Presentation(str(path))
    steps = with_dividers(timeline.storyboard.steps)
    rows = ideas(steps)
    assert len(few.slides) == len(rows) < len(timeline.storyboard.steps)
    assert [step for row in rows for step in row] == list(steps)
    for slide, row in zip(few.slides, rows, strict=True):
        assert faults(slide, row[-1]) == []
        notes = slide.notes_slide.notes_text_frame.text
        assert all(sentence in notes for step in row for sentence in step.narration)
        assert notes.count("In the clip") == 1 or notes == row[0].picture.alt
    named = [[step.id for step in row] for row in rows]
    assert [f"corner-block.flag.{stage}" for stage in ("marks", "turn", "meet", "join")] in named
    assert ["border-block.task", "border-block.pause"] in named
    assert all(len({step.chapter for step in row}) == 1 for row in rows)
    assert all(step.pause_s == 0.0 for row in rows for step in row[:-1]), "a pause ends its idea"


def test_nothing_of_a_theme_or_master_can_leak_in(deck: Any) -> None:
    """Every look that a theme, a master or a list style could give is given by the shape itself."""
    for slide in deck.slides:
        assert "schemeClr" not in slide.element.xml
        for shape in leaves_of(slide.shapes._spTree):
            assert shape.find(f"{P}style") is None
            looks = shape.find(f"{P}spPr")
            if shape.find(f".//{P}ph") is None:
                assert looks.find(f"{A}ln") is not None
                assert looks.find(f"{A}effectLst") is not None
                assert looks.find(f"{A}solidFill") is not None or looks.find(f"{A}noFill") is not None
            for words in shape.iter(f"{A}pPr"):
                assert (words.get("marL"), words.get("indent")) == ("0", "0")
                assert words.find(f"{A}buNone") is not None
                assert words.find(f"{A}spcBef") is not None
            for run in shape.iter(f"{A}rPr"):
                assert (run.get("cap"), run.get("u"), run.get("spc"), run.get("i")) == ("none", "none", "0", "0")
                assert run.find(f"{A}effectLst") is not None


def test_shapes_are_what_the_format_says(deck: Any) -> None:
    """Children in the order of the schema; a program that is strict repairs or refuses anything else."""
    order = {
        "spPr": ["xfrm", "custGeom", "prstGeom", "noFill", "solidFill", "ln", "effectLst"],
        "ln": ["noFill", "solidFill", "prstDash", "round", "headEnd", "tailEnd"],
        "rPr": ["ln", "noFill", "solidFill", "effectLst", "latin", "ea", "cs"],
        "pPr": ["lnSpc", "spcBef", "spcAft", "buNone"],
        "custGeom": ["avLst", "gdLst", "ahLst", "cxnLst", "rect", "pathLst"],
    }
    for slide in deck.slides:
        tree = parse_xml(slide.element.xml)
        for node in tree.iter():
            kind = str(node.tag).split("}")[-1]
            if kind in order:
                children = [str(child.tag).split("}")[-1] for child in node]
                assert children == sorted(children, key=order[kind].index), kind
        ids = [node.get("id") for node in tree.iter(f"{P}cNvPr")]
        assert len(set(ids)) == len(ids)
