"""What a learner can find in each output: words, alt texts, names of shapes and files, ids, properties.

One reader for each output of the registry. What is found before the solution starts is told apart from what is seen at
all times, such as file names, chapter titles, ids.
"""

from __future__ import annotations

import csv
import html
import io
import json
import re
import zipfile
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import av
import pikepdf
from outputs.html_pages import open_data, parts, slides_told
from outputs.pdf_read import elements, page_read
from PIL import Image
from pptx import Presentation

from explainers.choice.words.choosing import choosing_words
from explainers.outputs.shared.steps import with_dividers
from explainers.sentences.deck_page import deck_words, hearing_words, presenting_words
from explainers.storyboard.model import Step, Storyboard
from explainers.storyboard.timeline import Timeline
from explainers.words.messages import speaking

__all__ = ["READERS", "Find", "before_solution", "of_picture"]

DRAWING = "{http://schemas.openxmlformats.org/drawingml/2006/main}"
SECTION = "{http://schemas.microsoft.com/office/powerpoint/2010/main}section"
PRESENTATION = "{http://schemas.openxmlformats.org/presentationml/2006/main}"


@dataclass(frozen=True)
class Find:
    """What is found at one place: one picture with all that belongs to it, or one list of names."""

    place: str
    said: tuple[str, ...] = ()  # words, found before the solution
    names: tuple[str, ...] = ()  # ids, names, titles, properties: read at any time, so neutral at all times


def before_solution(board: Storyboard) -> set[str]:
    """The ids of the steps in which no option has been tried."""
    before: set[str] = set()
    tried: set[str] = set()
    for step in board.steps:
        if step.stage in ("rule-out", "keep", "answer") or step.stage.startswith("sift."):
            tried.add(step.item)
        if step.item not in tried and step.stage != "closing":
            before.add(step.id)
    return before


def steps_before(board: Storyboard) -> list[Step]:
    early = before_solution(board)
    return [step for step in board.steps if step.id in early]


def file_names(paths: Iterable[Path]) -> Find:
    return Find("file names", names=tuple(path.name for path in paths))


def cue_blocks(text: str) -> list[tuple[str, str]]:
    """(identifier, words) of each cue of a VTT or SRT file; what stands before the first is its header."""
    blocks = [block.split("\n") for block in text.strip().split("\n\n") if "-->" in block]
    return [(block[0] if "-->" not in block[0] else "", " ".join(block[1:])) for block in blocks]


OF_OTHER_KINDS = (".chapters.vtt", ".descriptions.vtt")  # cues that are not captions


def captions(paths: Iterable[Path], timeline: Timeline) -> Iterator[Find]:
    early = before_solution(timeline.storyboard)
    for path in paths:
        if path.suffix not in (".vtt", ".srt") or path.name.endswith(OF_OTHER_KINDS):
            continue
        text = path.read_text(encoding="utf-8")
        blocks = cue_blocks(text)
        assert len(blocks) == len(timeline.cues)
        yield Find(
            path.suffix, names=(*(name for name, _ in blocks), text.split("\n\n")[0] if path.suffix == ".vtt" else "")
        )
        for cue, (_, words) in zip(timeline.cues, blocks, strict=True):
            if cue.step_id in early:
                yield Find(f"{path.suffix} {cue.id}", said=(re.sub(r"[\d:.,]+ --> [\d:.,]+", "", words),))


def in_clip(paths: Sequence[Path], timeline: Timeline) -> Iterator[Find]:
    yield file_names(paths)
    yield from captions(paths, timeline)
    early = before_solution(timeline.storyboard)
    (clip,) = (path for path in paths if path.suffix == ".mp4")
    with av.open(str(clip)) as container:
        names = [*container.metadata.values()]
        names += [value for stream in container.streams for value in stream.metadata.values()]
        names += [value for chapter in container.chapters() for value in chapter["metadata"].values()]
        yield Find("properties of the clip", names=tuple(names))
        packets = [p for p in container.demux() if p.stream.type == "subtitle" and p.size and bytes(p)[:2] != b"\0\0"]
        texts = [bytes(packet)[2:].decode("utf-8") for packet in packets]
    assert len(texts) == len(timeline.cues)
    for cue, text in zip(timeline.cues, texts, strict=True):
        if cue.step_id in early:
            yield Find(f"caption in the clip {cue.id}", said=(text,))


def in_cues(paths: Sequence[Path], timeline: Timeline) -> Iterator[Find]:
    yield file_names(paths)
    yield from captions(paths, timeline)
    early = before_solution(timeline.storyboard)
    table = next(path for path in paths if path.suffix == ".csv").read_bytes().decode("utf-8-sig")
    for row in csv.DictReader(io.StringIO(table, newline="")):
        if row["step id"] in early:
            yield Find(f"cue sheet {row['step id']}", said=tuple(row.values()))
    yield from other_cues(paths, timeline)


def other_cues(paths: Sequence[Path], timeline: Timeline) -> Iterator[Find]:
    """Chapters, which are read at any time, and descriptions, which are read while their step lasts."""
    early = before_solution(timeline.storyboard)
    chapters, descriptions = (
        next(path for path in paths if path.name.endswith(kind)).read_text(encoding="utf-8") for kind in OF_OTHER_KINDS
    )
    assert len(cue_blocks(chapters)) == len(timeline.chapters)
    yield Find("chapters", names=(chapters,))
    starts = [(timeline.step_span(step.id)[0] / timeline.fps, step.id) for step in timeline.storyboard.steps]
    told = 0
    for name, words in cue_blocks(descriptions):
        timing, said = re.match(r"([\d:.]+) --> [\d:.]+ (.*)", words).groups()  # type: ignore[union-attr]
        hours, minutes, seconds = timing.split(":")
        at_s = int(hours) * 3600 + int(minutes) * 60 + float(seconds)
        step_id = [step_id for start_s, step_id in starts if start_s <= at_s + 0.001][-1]
        yield Find(f"description {name}", names=(name,), said=(said,) if step_id in early else ())
        told += 1
    assert told


def in_deck(paths: Sequence[Path], timeline: Timeline) -> Iterator[Find]:
    yield file_names(paths)
    (path,) = paths
    deck = Presentation(str(path))
    core = deck.core_properties
    yield Find(
        "properties of the deck",
        names=(core.title, core.subject, core.keywords, core.comments, core.author, core.category, core.content_status),
    )
    with zipfile.ZipFile(path) as parts:
        yield Find("parts of the deck", names=tuple(parts.namelist()))
    sections = [node.get("name", "") for node in deck.element.iter(SECTION)]
    assert sections, "the chapters of the lesson"
    yield Find("sections of the deck", names=tuple(sections))
    early = before_solution(timeline.storyboard)
    for slide, step in zip(deck.slides, with_dividers(timeline.storyboard.steps), strict=True):
        tree = ElementTree.fromstring(zipped_slide(path, slide.part.partname))
        properties = [*tree.iter(f"{PRESENTATION}cNvPr")]
        yield Find(f"slide {step.id}", names=tuple(node.get("name", "") for node in properties))
        if step.id in early:
            told = [node.get(key, "") for node in properties for key in ("descr", "title")]
            told += ["".join(run.text or "" for run in body.iter(f"{DRAWING}t")) for body in tree.iter(f"{DRAWING}p")]
            told.append(slide.notes_slide.notes_text_frame.text)
            yield Find(f"slide {step.id}", said=tuple(told))


def zipped_slide(path: Path, name: str) -> bytes:
    with zipfile.ZipFile(path) as parts:
        return parts.read(name.lstrip("/"))


def of_picture(path: Path, *, early: bool) -> Find:
    """An SVG or PNG file."""
    if path.suffix == ".png":
        with Image.open(path) as image:
            image.load()
            return Find(path.name, names=tuple(f"{key} {value}" for key, value in image.info.items()))
    tree = ElementTree.fromstring(path.read_text(encoding="utf-8"))
    ids = tuple(node.get(key, "") for node in tree.iter() for key in ("id", "class"))
    told = [node.get("aria-label", "") for node in tree.iter()]
    told += [node.text or "" for node in tree.iter() if node.tag.endswith(("title", "desc", "text", "tspan"))]
    assert "<!--" not in path.read_text(encoding="utf-8")
    return Find(path.name, said=tuple(told) if early else (), names=ids)


def in_stills(paths: Sequence[Path], timeline: Timeline) -> Iterator[Find]:
    yield file_names(paths)
    early = before_solution(timeline.storyboard)
    of_stills = [step.id for step in timeline.storyboard.steps for _ in step.stills]
    for suffix in (".svg", ".png"):
        pictures = sorted(path for path in paths if path.suffix == suffix)
        for path, step_id in zip(pictures, of_stills, strict=True):
            yield of_picture(path, early=step_id in early)


def in_poster(paths: Sequence[Path], timeline: Timeline) -> Iterator[Find]:
    yield file_names(paths)
    for path in paths:
        yield of_picture(path, early=True)


def in_description(paths: Sequence[Path], timeline: Timeline) -> Iterator[Find]:
    yield file_names(paths)
    (path,) = paths
    yield Find("description", said=tuple(path.read_text(encoding="utf-8").split("\n")))


def in_pdf(paths: Sequence[Path], timeline: Timeline) -> Iterator[Find]:
    """Steps on pages: each begins with its heading."""
    yield file_names(paths)
    (path,) = paths
    with pikepdf.open(path) as pdf, pdf.open_metadata() as metadata, pdf.open_outline() as outline:
        names = [str(value) for value in pdf.docinfo.values()] + [str(value) for value in metadata.values()]
        names += [entry.title for entry in outline.root]
    board = timeline.storyboard
    footer = page_read(path, 0).text.splitlines()[-1] if path.name.endswith(".handout.pdf") else ""
    yield Find("properties of the pages", names=(*names, footer))
    early = before_solution(board)
    at = [element.page for element in elements(path, frozenset()) if element.tag in ("H1", "H2")]
    pages = frozenset(page for page, step in zip(at, board.steps, strict=True) if step.id in early)
    by_step: list[list[str]] = []
    for element in elements(path, pages):
        if element.tag in ("H1", "H2"):
            by_step.append([])
        by_step[-1].append(element.text or element.alt)
    for step, told in zip(board.steps, by_step, strict=True):
        if step.id in early:
            assert told[0] == step.heading
            yield Find(f"page of {step.id}", said=tuple(told))


def in_transcript(paths: Sequence[Path], timeline: Timeline) -> Iterator[Find]:
    """Blocks of plain text, and the same lines as elements of a page."""
    yield file_names(paths)
    board = timeline.storyboard
    early = before_solution(board)
    text, page = (path.read_text(encoding="utf-8") for path in paths)
    blocks = text.rstrip("\n").split("\n\n")
    chapters = [number for number, block in enumerate(blocks) if block.endswith("=")]
    steps = [block for number, block in enumerate(blocks) if number > chapters[0] and number not in chapters]
    yield Find("around the transcript", names=(*blocks[: chapters[0]], *(blocks[number] for number in chapters)))
    yield Find("under the transcript", names=(*steps[len(board.steps) :],))
    for step, block in zip(board.steps, steps, strict=False):
        heading, *lines = block.split("\n")
        assert heading == step.heading
        if step.id in early:
            yield Find(f"transcript {step.id}", said=(heading, *lines))
    told = [re.sub(r"<[^>]*>", "", line) for line in page.split("\n") if line.startswith(("<h3", "<p class"))]
    assert [html.unescape(line) for line in told] == [
        line for block in steps[: len(board.steps)] for line in block.split("\n")
    ]
    hidden = re.findall(r'(?:id|class|data-\w+|title|aria-label|alt)="([^"]*)"', page)
    assert "<!--" not in page
    yield Find("inside the page", names=(*hidden, *re.findall(r"<title>(.*)</title>", page)))


def in_script(paths: Sequence[Path], timeline: Timeline) -> Iterator[Find]:
    """Cues on a page, each with its picture, and the same on paper."""
    yield file_names(paths)
    steps = timeline.storyboard.steps
    early = before_solution(timeline.storyboard)
    page, pdf = paths[0].read_text(encoding="utf-8"), paths[1]
    assert "<!--" not in page
    _, *cues = re.split(r"<section [^>]*>", page)
    yield Find("around the script", names=tuple(re.findall(r"<(?:title|h1|h2)>([^<]*)<", page)))
    yield Find("inside the script", names=tuple(re.findall(r' (?:id|class|data-\w+)="([^"]*)"', page)))
    for step, cue in zip(steps, cues, strict=True):
        if step.id in early:
            own = re.sub(r"</section>.*", "", cue, flags=re.DOTALL)
            told = re.findall(r">([^<>]+)<", own) + re.findall(r'(?:aria-label|alt|title)="([^"]*)"', own)
            yield Find(f"script {step.id}", said=tuple(html.unescape(text) for text in told))
    with pikepdf.open(pdf) as read, read.open_metadata() as metadata, read.open_outline() as outline:
        names = [str(value) for value in (*read.docinfo.values(), *metadata.values())]
        yield Find("properties of the script", names=(*names, *(entry.title for entry in outline.root)))
    at = [element.page for element in elements(pdf, frozenset()) if element.tag == "H3"]
    pages = frozenset(number for number, step in zip(at, steps, strict=True) if step.id in early)
    by_step: list[list[str]] = [[]]
    for element in elements(pdf, pages):
        if element.tag == "H3":
            by_step.append([])
        if element.tag not in ("H1", "H2"):  # seen with the names above
            by_step[-1].append(element.text or element.alt)
    for step, told in zip(steps, by_step[1:], strict=True):
        if step.id in early:
            assert step.heading in told[0]
            yield Find(f"printed script {step.id}", said=tuple(told))


def in_html_deck(paths: Sequence[Path], timeline: Timeline) -> Iterator[Find]:
    """A page: what stands in it, what is open in its data, and, of what is packed, that it is."""
    yield file_names(paths)
    (path,) = paths
    page = path.read_text(encoding="utf-8")
    data, packed = open_data(page), parts(page)
    board = timeline.storyboard
    yield from around_html_deck(page, data, board)
    early = before_solution(board)
    notes = packed["0"]["notes"]  # of every slide, for the presenter
    told_later: list[str] = []
    for steps, slide, slide_notes in zip(slides_told(timeline), data["slides"], notes, strict=True):
        assert [note["step"] for note in slide_notes] == [step.id for step in steps], "the teacher finds every step"
        if "closed" in slide:
            assert set(slide) == {"id", "chapter", "part", "closed"}
            for step, note in zip(steps, slide_notes, strict=True):
                told_later += [step.heading, *step.narration, step.picture.alt, *note["note"]]
            continue
        for step, moment, note in zip(steps, slide["moments"], slide_notes, strict=True):
            shown = {moment["figure"], *(motion[end] for motion in moment.get("motions", ()) for end in ("from", "to"))}
            alts = {data["figures"][number - data["firstFigure"]][0] for number in shown}
            assert moment["said"] == list(step.narration) and moment["alt"] in alts
            yield Find(f"step in the page {step.id}", names=(moment["step"],))
            if step.id in early:
                choice = list(strings_in([moment.get("choice"), moment.get("loose")]))
                # What is said of a piece laid by hand is said of where a learner laid it, while an example is told.
                assert "handling" not in moment or (step.item, "pause") not in {(s.item, s.stage) for s in board.steps}
                said = (moment["heading"], *alts, *moment["said"], *note["note"], *choice)
                yield Find(f"slide of the page {step.id}", said=said)
            else:
                told_later += note["note"]
    # What is closed is not to be read in the page, and what is open is not kept beside it in another form.
    open_words = {*strings_in(data["slides"]), *strings_in(data["figures"]), *data["words"].values()}
    for words in {*told_later, *strings_in(list(packed.values()))} - open_words:
        is_path = not NO_PATH.search(words)
        assert is_path or len(words) < 12 or (words not in page and html.escape(words) not in page), words


def in_index(paths: Sequence[Path], timeline: Timeline) -> Iterator[Find]:
    """The page of a folder: what stands in it at any time, and the captions that its script holds."""
    yield file_names(paths)
    (path,) = paths
    page = path.read_text(encoding="utf-8")
    assert "<!--" not in page
    body = re.sub(r"<(script|style)\b.*?</\1>", "", page, flags=re.DOTALL)
    hidden = re.findall(r' (?:id|class|data-[\w-]+|aria-[\w-]+|href|src|poster)="([^"]*)"', body)
    about = re.findall(r"<p>(.*?)</p>", body[: body.index("</header>")])  # tells the rules, as a description does
    yield Find("what the page tells of the lesson", said=tuple(html.unescape(text) for text in about))
    words = {html.unescape(text) for text in re.findall(r">([^<>]+)<", body)} - {html.unescape(text) for text in about}
    yield Find("words of the page", names=tuple(sorted(words)))
    yield Find("inside the page", names=tuple(html.unescape(text) for text in hidden))
    told = re.search(r'<script type="application/json" id="cues">(.*?)</script>', page)
    cues = json.loads(told[1])["cues"] if told else []
    assert not told or len(cues) == len(timeline.cues)
    early = before_solution(timeline.storyboard)
    for cue, (_, _, words) in zip(timeline.cues, cues, strict=False):
        if cue.step_id in early:
            yield Find(f"caption in the page {cue.id}", said=(html.unescape(words),))


NO_PATH = re.compile(r"[^-\d. MLQCZaz]")


def around_html_deck(page: str, data: dict[str, Any], board: Storyboard) -> Iterator[Find]:
    """What does not belong to any slide: the words of the page itself, which are the same for every lesson."""
    with speaking(board.language):
        own = {**deck_words(), **dict(board.page_words), **choosing_words(), **presenting_words()}
        hearing = {**hearing_words(scratch=False), **hearing_words(scratch=True)}
    assert own.items() <= data["words"].items() and {*data["words"]} <= {*own, *hearing}
    body = re.sub(r"<(script|style)\b.*?</\1>", "", page, flags=re.DOTALL)
    assert "<!--" not in page
    yield Find("inside the page", names=tuple(re.findall(r' (?:id|class|data-[\w-]+|name|value)="([^"]*)"', body)))
    seen = {html.unescape(text).strip() for text in re.findall(r">([^<>]+)<", body)} - {*own.values(), ""}
    first = {board.steps[0].heading, *board.steps[0].narration}
    yield Find("words round the slides", names=tuple(seen - first))
    yield Find("chapters of the page", names=tuple({slide["chapter"] for slide in data["slides"]}))
    yield Find("names in the page", names=(data["lesson"], data["title"], *(slide["id"] for slide in data["slides"])))
    assert {*data} == {
        *("lesson", "title", "language", "words", "view", "palettes", "slides", "eased"),
        *("firstShape", "shapes", "firstFigure", "figures"),
    }
    assert not [text for text in strings_in(data["shapes"]) if NO_PATH.search(text)]


def strings_in(value: object) -> Iterator[str]:
    """Every text in a tree of plain data, but not the names of its fields."""
    if isinstance(value, str):
        yield value
    for inside in value.values() if isinstance(value, dict) else value if isinstance(value, list) else ():
        yield from strings_in(inside)


Reader = Callable[[Sequence[Path], Timeline], Iterator[Find]]

READERS: dict[str, Reader] = {
    "clip": in_clip,
    "cues": in_cues,
    "deck": in_deck,
    "deck-html": in_html_deck,
    "deck-pdf": in_pdf,
    "description": in_description,
    "handout": in_pdf,
    "index": in_index,
    "poster": in_poster,
    "script": in_script,
    "stills": in_stills,
    "transcript": in_transcript,
}
