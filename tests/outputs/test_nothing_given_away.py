"""Nothing that a learner can open tells the answer before the solution does, whichever output it is."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from demo_items import demo_items
from outputs.learner_views import READERS, Find, before_solution, of_picture
from PIL import Image
from PIL.PngImagePlugin import PngInfo
from strategies import random_case

from explainers.batch import write_output
from explainers.choice.model import Solution
from explainers.errors import FactError
from explainers.figure.model import Area, Entry, Figure, Label
from explainers.figure.subject import Thing
from explainers.intake.workspace import load_solution
from explainers.item.model import Lesson, LessonPart, Manner
from explainers.item.stops import Stop
from explainers.kinds.join_and_cut.slips.registry import SLIPS
from explainers.kinds.join_and_cut.solving.solver import solve
from explainers.lesson.planner import plan_lesson
from explainers.outputs.clip import stills
from explainers.outputs.clip import writer as clip
from explainers.outputs.clip.drawing_job import DrawingJob, png_path
from explainers.outputs.registry import WRITERS
from explainers.storyboard.model import Beat, Step, Still
from explainers.storyboard.pacing import pace
from explainers.storyboard.timeline import Timeline
from explainers.video.assembly import CodedFrame
from explainers.video.encoder import EncoderOptions, SegmentEncoder
from scenes.png import png_bytes

ITEMS = demo_items("join-and-cut")

SLIP_NAMES = "|".join(sorted(slip.replace("-", "[- ]") for slip in SLIPS))
YET = "(?! yet)"  # a piece on the tray is "not turned yet", and nobody has slipped
# In words, before the solution. To turn is no slip, and that outlines may not be flipped is a rule of the game.
# What lies on the right lies there, unless it is said of an option.
TELLING_WORDS = re.compile(
    rf"\b(?:results?|right(?! angle)(?<!\bon the right)|on the right (?:option|one|answer|outline)|correct\w*"
    rf"|wrong\w*|true|false|key|same|mirror\w*|flipped|slip\w*|mistake\w*"
    rf"|error\w*|(?:[A-F]|it|one) fits|ruled|kept?|rule-out|answer is|distractor\w*|verdict\w*|{SLIP_NAMES})\b{YET}",
    re.IGNORECASE,
)
# In ids, names of shapes and files, chapter titles, properties, at any time. Parts of words count: names are joined.
TELLING_NAMES = re.compile(
    rf"result|right|correct|wrong|mirror|flip|slip|mistake|distractor|verdict|same|keep|kept|rule-?out|(?<!\w)key"
    rf"|answer-|solution|(?<![a-z])(?:{SLIP_NAMES})(?![a-z])",
    re.IGNORECASE,
)


def told_by(find: Find, labels: set[str], marks: set[str]) -> Iterator[str]:
    """What tells the answer at one place: telling words, or one option spoken of otherwise than the others.

    labels : of the options;  marks : of the pieces
    """
    for words in find.said:
        if found := TELLING_WORDS.search(words):
            yield f"{find.place}: {found[0]!r} in {words!r}"
    for name in find.names:
        if found := TELLING_NAMES.search(name):
            yield f"{find.place}: {found[0]!r} in {name!r}"
    # Of every option as much is said as of any other, whatever it is.
    told = " \n".join(find.said)
    named = Counter(re.findall(r"\b[Oo]ption ([A-F])\b", told))
    if len({named[label] for label in labels}) > 1:
        yield f"{find.place}: options are named {dict(named)} times"
    letters = Counter(re.findall(r"\b[A-F]\b", told))
    if len({letters[label] for label in labels - marks - {"A"}}) > 1:  # A is an article too
        yield f"{find.place}: letters stand {dict(letters)} times"
    shapes: dict[str, set[str]] = {}
    for name in find.names if find.place.startswith("slide") or find.place.endswith(".svg") else ():
        if found := re.fullmatch(r"option-([a-f])\b(.*)", name):
            shapes.setdefault(found[1], set()).add(found[2])
    # Where one is in use its cloth is not on the tray, so names are compared only before that.
    if find.said and len({frozenset(parts) for parts in shapes.values()}) > 1:
        yield f"{find.place}: options are drawn of different shapes: {shapes}"


def leaks(output: str, timeline: Timeline, folder: Path) -> list[str]:
    """All that tells the answer in one output of a lesson."""
    more = {"preview": True} if output == "clip" else {}
    if output == "index":  # with a clip, whose captions and chapters it has
        folder.mkdir(parents=True, exist_ok=True)
        (folder / f"{timeline.storyboard.name}.mp4").write_bytes(b"clip")
    paths = write_output(output, timeline, folder, **more)
    words = [e for step in timeline.storyboard.steps for e in step.picture.entries if isinstance(e, Label)]
    labels = {entry.text for entry in words if entry.subject is not None and entry.subject.thing == Thing.OPTION}
    marks = {entry.text for entry in words if entry.id.endswith(".letter")}
    assert len(labels) >= 3
    return [told for find in joined(READERS[output](paths, timeline)) for told in told_by(find, labels, marks)]


def joined(finds: Iterator[Find]) -> list[Find]:
    """What is found at one place taken together, so that options are compared within a picture."""
    by_place: dict[str, Find] = {}
    for find in finds:
        before = by_place.get(find.place, Find(find.place))
        by_place[find.place] = replace(before, said=before.said + find.said, names=before.names + find.names)
    return list(by_place.values())


@pytest.fixture(autouse=True)
def undrawn(monkeypatch: pytest.MonkeyPatch) -> None:
    """Pictures without a content, but files of the real writers: what is told is not in the pixels."""
    white = png_bytes(np.full((9, 16, 3), 255, dtype=np.uint8))

    def have_drawn(job: DrawingJob, work: Path, progress: object = None) -> int:
        for shot in job.shots:
            if shot.png:
                png_path(work, shot.key).write_bytes(white)
        return 0

    def coded_frames(timeline: Timeline, options: EncoderOptions, *_: object) -> Iterator[CodedFrame]:
        packets = blank_packets(options)
        return (CodedFrame(packet=packets[number % 2], is_idr=True) for number in range(timeline.frames))

    for module in (clip, stills):
        monkeypatch.setattr(module, "have_drawn", have_drawn)
    monkeypatch.setattr(clip, "coded_frames", coded_frames)


@cache
def blank_packets(options: EncoderOptions) -> tuple[bytes, ...]:
    packets = []
    for idr_id in (0, 1):
        encoder = SegmentEncoder(options, idr_id=idr_id)
        encoder.add(np.full((options.height, options.width, 4), 255, dtype=np.uint8))
        packets.append(encoder.finish().packets[0])
    return tuple(packets)


@cache
def solved(path: Path) -> Solution:
    return load_solution(path, pairs=True)


def lesson_of(solutions: list[Solution], manners: list[Manner]) -> Timeline:
    parts = tuple(
        LessonPart(
            show=Path(f"{solution.item.name}.yaml"),
            manner=manner,
            asks=(Stop("outline"), Stop("options")) * manner.works_through,
        )
        for solution, manner in zip(solutions, manners, strict=True)
    )
    return pace(plan_lesson(Lesson(name="one-lesson", title="One lesson", parts=parts), solutions))


@cache
def demo_lessons() -> tuple[Timeline, ...]:
    """Every manner of telling, each with a demo item of its own; one of another kind of question besides."""
    turned = demo_items("turned-outline")[0]
    told = [*zip(ITEMS, Manner, strict=False), (turned, Manner.YOUR_TURN)]
    return tuple(lesson_of([solved(path)], [manner]) for path, manner in told)


def test_every_output_has_a_reader() -> None:
    """A new output says here what a learner can find in it."""
    assert set(READERS) == {name for name, spec in WRITERS.items() if not spec.certifies}


# On paper stands what stands in the pages: of these every manner is read with --full only, the first and last always.
PAPER = {"deck-pdf", "handout", "script"}


@pytest.mark.parametrize("output", sorted(READERS))
def test_no_output_gives_anything_away(output: str, tmp_path: Path, cases: Callable[[int, int], int]) -> None:
    lessons = demo_lessons()
    found = [
        told
        for number, timeline in enumerate(lessons[:: cases(len(lessons) - 1, 1)] if output in PAPER else lessons)
        for told in leaks(output, timeline, tmp_path / str(number))
    ]
    assert found == []


def test_a_name_that_the_teacher_gives_an_option_is_for_the_teacher(
    tmp_path: Path, cases: Callable[[int, int], int]
) -> None:
    """It is part of step ids, which stand in the cue sheet for whoever speaks; no learner sees one."""
    item = solved(ITEMS[1]).item
    named = tuple(replace(option, name=f"the-{option.slip or 'result'}-one") for option in item.options)
    timeline = lesson_of([solve(replace(item, options=named))], [Manner.YOUR_TURN])
    assert any("the-result-one" in step.id for step in timeline.storyboard.steps)
    for output in sorted(READERS) if cases(0, 1) else sorted(set(READERS) - PAPER):
        assert leaks(output, timeline, tmp_path / output) == []


def test_no_generated_item_gives_anything_away(tmp_path: Path, cases: Callable[[int, int], int]) -> None:
    told = 0
    for seed in range(cases(2, 200)):
        manner = (Manner.YOUR_TURN, Manner.QUICK_CHECK, Manner.QUESTION)[seed % 3]
        try:
            timeline = lesson_of([solve(random_case(seed).item)], [manner])
        except FactError:
            continue
        told += 1
        for output in ("cues", "deck", "description", "transcript"):
            assert leaks(output, timeline, tmp_path / f"{seed}-{output}") == []
    assert told


# Leaks planted by hand: each must be caught in every output that shows it.


def with_steps(timeline: Timeline, change: Callable[[Step], Step]) -> Timeline:
    """Those steps changed that come before the solution."""
    board = timeline.storyboard
    early = before_solution(board)
    steps = tuple(change(step) if step.id in early else step for step in board.steps)
    return pace(replace(board, steps=steps))


def with_figures(timeline: Timeline, change: Callable[[Figure], Figure]) -> Timeline:
    def of_step(step: Step) -> Step:
        beats: list[Beat] = [Still(figure=change(figure)) for figure in step.stills[:1]]
        return replace(step, beats=tuple(beats))

    poster_ = timeline.storyboard.poster
    assert poster_ is not None
    changed = with_steps(timeline, of_step)
    return replace(changed, storyboard=replace(changed.storyboard, poster=change(poster_)))


def renamed(figure: Figure, old: str, new: str) -> Figure:
    entries = tuple(
        replace(entry, id=entry.id.replace(old, new), group=entry.group.replace(old, new)) for entry in figure.entries
    )
    return replace(figure, entries=entries)


def with_alt(figure: Figure, prefix: str, alt: str) -> Figure:
    def told(entry: Entry) -> Entry:
        return replace(entry, alt=alt) if entry.id == prefix and isinstance(entry, Area) else entry

    return replace(figure, entries=tuple(told(entry) for entry in figure.entries))


PICTURES = {"deck", "stills", "poster"}
PAGES = {"deck-html", "deck-pdf", "handout"}
CAPTIONED = {"clip", "cues", "deck", "index", "script", "transcript"} | PAGES
CHAPTERED = {"clip", "cues", "deck", "deck-html", "description", "index", "script", "transcript"}
PLANTS: dict[str, tuple[Callable[[Timeline], Timeline], set[str]]] = {
    "an id": (lambda t: with_figures(t, lambda f: renamed(f, "option-c", "option-c-key")), PICTURES),
    "a shape too many": (
        lambda t: with_figures(t, lambda f: renamed(f, "option-c-cloth", "option-c-lining")),
        PICTURES,
    ),
    "a shape's alt text": (
        lambda t: with_figures(t, lambda f: with_alt(f, "option-c", "Option C, the result")),
        PICTURES,
    ),
    "a shape that is told of alone": (
        lambda t: with_figures(t, lambda f: with_alt(f, "option-c", "Option C")),
        PICTURES,
    ),
    "a picture's alt text": (
        lambda t: with_figures(t, lambda f: replace(f, alt=f"{f.alt} Option B is flipped.")),
        PICTURES | PAGES | {"cues", "script", "transcript"},
    ),
    "a chapter": (lambda t: with_steps(t, lambda s: replace(s, chapter="C is right")), CHAPTERED),
    "a heading": (
        lambda t: with_steps(t, lambda s: replace(s, heading="The right option")),
        {"deck", "script", "transcript"} | PAGES,
    ),
    "a sentence": (lambda t: with_steps(t, lambda s: replace(s, narration=("It is the left-out one.",))), CAPTIONED),
    "a letter": (lambda t: with_steps(t, lambda s: replace(s, narration=("Well, C it is.",))), CAPTIONED),
    "an option alone": (lambda t: with_steps(t, lambda s: replace(s, narration=("Look at option C now.",))), CAPTIONED),
    "a note": (lambda t: with_steps(t, lambda s: replace(s, note="Option C is correct.")), {"deck", "deck-html"}),
    "a title": (
        lambda t: replace(t, storyboard=replace(t.storyboard, title="Find the flipped one")),
        {"clip", "deck", "description", "index", "script", "transcript"} | PAGES,
    ),
    "a file name": (
        lambda t: replace(t, storyboard=replace(t.storyboard, name="answer-c-correct")),
        {"clip", "cues", "deck", "description", "index", "poster", "script", "transcript"} | PAGES,
    ),
    "a licence": (
        lambda t: replace(t, storyboard=replace(t.storyboard, imprint=replace(t.storyboard.imprint, licence="key: C"))),
        {"clip", "deck", "deck-html", "handout", "index", "transcript"},
    ),
}


@cache
def question() -> Timeline:
    """The first demo item as a question, short to write."""
    return lesson_of([solved(ITEMS[1])], [Manner.QUESTION])


def test_the_question_itself_is_clean(tmp_path: Path) -> None:
    for output in READERS:
        assert leaks(output, question(), tmp_path / output) == []


@pytest.mark.parametrize(
    ("plant", "output"),
    [(plant, output) for plant, (_, outputs) in PLANTS.items() for output in sorted(outputs)],
)
def test_a_planted_leak_is_caught(plant: str, output: str, tmp_path: Path) -> None:
    change, _ = PLANTS[plant]
    assert leaks(output, change(question()), tmp_path), f"{plant} is not seen in the {output}"


def test_a_leak_in_a_description_is_caught_there(tmp_path: Path) -> None:
    plant, _ = PLANTS["a picture's alt text"]
    found = leaks("cues", plant(question()), tmp_path)
    assert any(told.startswith("description ") for told in found)


def test_a_word_in_a_pngs_own_text_is_caught(tmp_path: Path) -> None:
    text = PngInfo()
    text.add_text("Comment", "option C, the result")
    Image.new("RGB", (2, 2)).save(tmp_path / "001-one.png", pnginfo=text)
    assert list(told_by(of_picture(tmp_path / "001-one.png", early=True), set(), set()))


def test_every_output_has_a_planted_leak() -> None:
    assert set(READERS) == {output for _, outputs in PLANTS.values() for output in outputs}
