"""Printed sheets, read back from the PDF files: sizes, tags, order, type, the line to measure, versions, marking."""

from __future__ import annotations

import itertools
import math
import subprocess
from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path

import pdfua
import pikepdf
import pytest
from demo_items import demo_items
from outputs.matterhorn.failed import failed
from outputs.pdf_read import content_faults, elements, pages_read, spoken
from outputs.test_nothing_given_away import Find, told_by
from pikepdf import Name
from strategies import random_case

from explainers.choice.model import Solution
from explainers.choice.presentation import MOST_VERSIONS, orders
from explainers.choice.sieves.sifting import sifting_of, walk_of
from explainers.choice.slip import SlipCase
from explainers.choice.stages.sheet_model import SheetSet
from explainers.choice.words.marking import marking_entry
from explainers.errors import FactError, UnsoundItemError
from explainers.figure.model import Area, Label, Role
from explainers.figure.paper import MM_PER_PT, Paper, Picture, Printing, paper_theme
from explainers.figure.subject import option_subject
from explainers.figure.themes import PRINT
from explainers.geometry.congruence import motions_onto
from explainers.geometry.outline import Outline
from explainers.geometry.rings import signed_area
from explainers.intake.workspace import load_solution
from explainers.kinds.join_and_cut.paper import QuestionOnPaper
from explainers.kinds.join_and_cut.solving.solver import solve
from explainers.kinds.join_and_cut.words.slips import practise
from explainers.lesson.sheet_plan import plan_sheets, plan_versions
from explainers.outputs.pdf.sheets import write_sheets
from explainers.sentences import sheets as words
from explainers.sentences.sheets import SheetKind
from explainers.storyboard.model import Imprint
from explainers.words.messages import speaking

ITEMS = Path(__file__).parents[2] / "items"
DEMO = demo_items("join-and-cut")
NAMES = ("border-block", "comet-block")  # two pieces, one of them cut away; three pieces on pieces, six options
SHUFFLED = ("border-block", "corner-block")
KINDS = ("questions", "answers", "marking", "cutout")
IMPRINT = Imprint(credit="Made by Ada", licence="CC BY 4.0")


@cache
def solved(name: str) -> Solution:
    return load_solution(ITEMS / f"{name}.yaml", pairs=True)


@cache
def planned(paper: Paper, large: bool) -> SheetSet:
    printing = Printing(paper=paper, large=large)
    solutions = [solved(name) for name in NAMES]
    return plan_sheets(
        solutions, name="two", title="Two blocks", theme=PRINT, printing=printing, imprint=IMPRINT, language="en-US"
    )


@pytest.fixture(scope="module")
def written(tmp_path_factory: pytest.TempPathFactory) -> dict[tuple[Paper, bool], dict[str, Path]]:
    """One set on A4, one on Letter in large print."""
    folder = tmp_path_factory.mktemp("sheets")
    found = {}
    for paper, large in ((Paper.A4, False), (Paper.LETTER, True)):
        paths = write_sheets([planned(paper, large)], folder / f"{paper}-{large}")
        assert [path.name for path in paths] == [f"two.{kind}.pdf" for kind in KINDS]
        found[paper, large] = dict(zip(KINDS, paths, strict=True))
    return found


@pytest.fixture(params=[(Paper.A4, False), (Paper.LETTER, True)], ids=["a4", "letter-large"])
def sheets(request: pytest.FixtureRequest, written: dict[tuple[Paper, bool], dict[str, Path]]) -> dict[str, Path]:
    return written[request.param]


@pytest.fixture
def a4(written: dict[tuple[Paper, bool], dict[str, Path]]) -> dict[str, Path]:
    return written[Paper.A4, False]


@pytest.fixture
def large(written: dict[tuple[Paper, bool], dict[str, Path]]) -> dict[str, Path]:
    return written[Paper.LETTER, True]


# Tags


def pdfua_findings(path: Path) -> list[str]:
    """What the library finds: 12 checks, of 16 of the 106 machine-checkable rules of PDF/UA-1."""
    return [f"{finding.rule_id}: {finding.message}" for finding in pdfua.validate(str(path)).findings]


@pytest.mark.parametrize("kind", KINDS)
def test_every_sheet_keeps_the_rules_of_pdf_ua(sheets: dict[str, Path], kind: str) -> None:
    assert content_faults(sheets[kind], "en-US") == []
    assert failed(sheets[kind]) == []
    assert pdfua_findings(sheets[kind]) == []


def drop_alt(pdf: pikepdf.Pdf) -> None:
    for entry in pdf.objects:
        if isinstance(entry, pikepdf.Dictionary) and entry.get("/S") == Name.Figure:
            del entry["/Alt"]


def change_tag(old: Name, new: Name) -> Callable[[pikepdf.Pdf], None]:
    def change(pdf: pikepdf.Pdf) -> None:
        for entry in pdf.objects:
            if isinstance(entry, pikepdf.Dictionary) and entry.get("/S") == old:
                entry.S = new

    return change


def drop_title(pdf: pikepdf.Pdf) -> None:
    with pdf.open_metadata(update_docinfo=False) as metadata:
        del metadata["dc:title"]


def drop_fonts(pdf: pikepdf.Pdf) -> None:
    for entry in pdf.objects:
        if isinstance(entry, pikepdf.Dictionary):
            for key in ("/FontFile", "/FontFile2", "/FontFile3"):
                if key in entry:
                    del entry[key]


def drop_scopes(pdf: pikepdf.Pdf) -> None:
    for entry in pdf.objects:
        if isinstance(entry, pikepdf.Dictionary) and entry.get("/S") == Name.TH:
            del entry.A["/Scope"]


def drop(key: str) -> Callable[[pikepdf.Pdf], None]:
    def change(pdf: pikepdf.Pdf) -> None:
        del pdf.Root[key]

    return change


FAULTS: dict[str, tuple[str, Callable[[pikepdf.Pdf], None]]] = {
    "no alternative text": ("questions", drop_alt),
    "no language": ("questions", drop("/Lang")),
    "no tags": ("questions", drop("/StructTreeRoot")),
    "not marked": ("questions", drop("/MarkInfo")),
    "title not shown": ("questions", drop("/ViewerPreferences")),
    "no title": ("questions", drop_title),
    "a level left out": ("answers", change_tag(Name.H2, Name.H3)),
    "no first heading": ("answers", change_tag(Name.H1, Name.P)),
    "two first headings": ("answers", change_tag(Name.H2, Name.H1)),
    "a font of the machine": ("marking", drop_fonts),
    "header cells of nothing": ("marking", drop_scopes),
}


@pytest.mark.parametrize("fault", FAULTS)
def test_a_planted_fault_is_found(a4: dict[str, Path], fault: str, tmp_path: Path) -> None:
    kind, plant = FAULTS[fault]
    broken = tmp_path / "broken.pdf"
    with pikepdf.open(a4[kind]) as pdf:
        plant(pdf)
        pdf.save(broken)
    assert content_faults(broken, "en-US"), fault


def test_what_is_read_out_comes_in_order(a4: dict[str, Path]) -> None:
    """By the structure, and by a program that knows only places on the page."""
    item = planned(Paper.A4, False).questions[0]
    expected = [
        "Two blocks: questions",
        "Name",
        item.heading,
        *item.task,
        item.picture.figure.alt,
        "Ring one letter: A B",
    ]
    text = spoken(a4["questions"])
    places = [text.index(words) for words in expected]
    assert places == sorted(places)
    out = subprocess.run(["pdftotext", str(a4["questions"]), "-"], capture_output=True, text=True, check=True).stdout
    flowing = " ".join(out.split())
    places = [flowing.index(words) for words in ("Two blocks: questions", item.heading, "Here is a base", "Ring one")]
    assert places == sorted(places)


def test_the_alternative_texts_are_those_of_the_figures(a4: dict[str, Path]) -> None:
    sheet_set = planned(Paper.A4, False)
    alts = [e.alt for e in elements(a4["questions"]) if e.tag == "Figure"]
    assert alts == [item.picture.figure.alt for item in sheet_set.questions]
    assert len(set(alts)) == len(alts) and all("Option" in alt or "option" in alt for alt in alts)


# Sizes


def test_pages_have_the_size_of_the_paper(a4: dict[str, Path], large: dict[str, Path]) -> None:
    for paths, size in ((a4, (595.28, 841.89)), (large, (612.0, 792.0))):
        for path in paths.values():
            with pikepdf.open(path) as pdf:
                for page in pdf.pages:
                    left, bottom, right, top = (float(value) for value in page.MediaBox)
                    assert (right - left, top - bottom) == pytest.approx(size, abs=0.01)


def least_type(path: Path) -> float:
    return min(size for page in pages_read(path) for _, size, _ in page.chars)


def pictures_of(sheet_set: SheetSet) -> Iterator[Picture]:
    for asked in sheet_set.questions:
        yield asked.picture
        if asked.options is not None:
            yield asked.options
    for answered in sheet_set.answers:
        yield from (still.picture for still in answered.stills)
    for cut_out in sheet_set.cut_outs:
        yield cut_out.line
        yield from cut_out.pages


def least_letter(sheet_set: SheetSet) -> float:
    """The smallest type inside a picture, in points: letters are outlines there, which no reader of text sees."""
    return min(
        entry.size * picture.mm_per_unit / MM_PER_PT
        for picture in pictures_of(sheet_set)
        for entry in picture.figure.entries
        if isinstance(entry, Label)
    )


@pytest.mark.parametrize("kind", KINDS)
def test_no_type_is_too_small(a4: dict[str, Path], large: dict[str, Path], kind: str) -> None:
    assert least_type(a4[kind]) >= 11.0 - 1e-3
    assert least_type(large[kind]) >= 18.0 - 1e-3


def test_no_letter_in_a_picture_is_too_small() -> None:
    assert least_letter(planned(Paper.A4, False)) >= 11.0
    assert least_letter(planned(Paper.LETTER, True)) >= 18.0


def test_small_letters_would_be_found() -> None:
    small = replace(planned(Paper.LETTER, True).questions[0].picture, mm_per_unit=10.0)
    asked = replace(planned(Paper.LETTER, True).questions[0], picture=small)
    assert least_letter(replace(planned(Paper.LETTER, True), questions=(asked,))) < 18.0


def test_letters_in_pictures_come_out_as_large_as_planned(large: dict[str, Path]) -> None:
    """The option's letter as it is inked on the page: its capital is as high as the typeface says."""
    from explainers.typeface.faces import face

    options = planned(Paper.LETTER, True).questions[0].options
    assert options is not None
    label = options.figure.entry("option-a-letter")
    assert isinstance(label, Label)
    high = face(bold=True).cap_height(label.size) * options.mm_per_unit
    heights = [height * MM_PER_PT for _, height in pages_read(large["questions"])[1].sizes]
    assert any(abs(height - high) < 0.1 for height in heights)


def test_a_question_is_never_broken(a4: dict[str, Path]) -> None:
    texts = [page.text for page in pages_read(a4["questions"])]
    assert len(texts) == len(NAMES) + 1  # the table of answers
    for number, name in enumerate(NAMES, start=1):
        assert f"{number}. {solved(name).item.title}" in texts[number - 1] and "Ring one" in texts[number - 1]
        assert "Name" in texts[number - 1] and "Date" in texts[number - 1]
    assert "My answers" in texts[-1]


def test_in_large_print_options_may_have_a_page_of_their_own_with_the_heading_again(large: dict[str, Path]) -> None:
    texts = [page.text for page in pages_read(large["questions"])]
    asked = planned(Paper.LETTER, True).questions
    assert all(item.options is not None for item in asked)
    assert len(texts) == 2 * len(NAMES) + 1
    for number, item in enumerate(asked):
        first, second = texts[2 * number : 2 * number + 2]
        assert item.heading in first and "on the next page" in first and "Ring one" not in first
        assert f"{item.heading}: options" in second and "Ring one" in second
        assert all("Name" in page and "Date" in page for page in (first, second))
    figures = [e for e in elements(large["questions"]) if e.tag == "Figure"]
    assert [e.alt for e in figures] == [p.figure.alt for i in asked for p in (i.picture, i.options) if p is not None]
    for item in asked:
        assert item.options is not None
        told = item.picture.figure.alt + item.options.figure.alt
        assert all(f"Option {label}" in item.options.figure.alt for label in item.labels)
        assert " is on side " in item.picture.figure.alt and "option" not in item.picture.figure.alt.lower()
        assert told == told.strip()


@pytest.mark.parametrize("path", DEMO[::3], ids=lambda path: path.stem)
def test_no_shape_is_smaller_in_large_print(path: Path) -> None:
    """Measured on the paper, as pieces and options are drawn there."""

    def across(printing: Printing) -> dict[str, float]:
        (asked,) = plan_sheets(
            [solved(path.stem)], name="one", title="One", theme=PRINT, printing=printing, only=[SheetKind.QUESTION]
        ).questions
        pictures = [asked.picture, *([asked.options] if asked.options else [])]
        return {
            entry.id: picture.mm_per_unit * max(math.dist(a, b) for a in entry.rings[0] for b in entry.rings[0])
            for picture in pictures
            for entry in picture.figure.entries
            if isinstance(entry, Area) and entry.role in ("base", "join", "cut", Role.OPTION)
        }

    for paper in Paper:
        usual, large_print = across(Printing(paper=paper)), across(Printing(paper=paper, large=True))
        assert set(usual) == set(large_print)
        assert all(large_print[name] >= 0.97 * size for name, size in usual.items())


def test_an_answer_that_goes_on_is_named_again_and_broken_between_entries(large: dict[str, Path]) -> None:
    """The comet block's has four pictures, more than a page of large print holds."""
    pages, found = pages_read(large["answers"]), elements(large["answers"])
    answered = planned(Paper.LETTER, True).answers[-1]
    start = next(e.page for e in found if e.text == answered.heading)
    assert start < len(pages) - 1
    assert all(answered.heading in page.text for page in pages[start:])
    assert [e.page for e in found if e.text == answered.heading] == [start], "in a margin it is not part of the text"
    figures = [e for e in found if e.tag == "Figure"][-len(answered.stills) :]
    for figure, still in zip(figures, answered.stills, strict=True):
        assert still.caption in " ".join(pages[figure.page].text.split())
    (reasons,) = {e.page for e in found if e.page >= start and (e.tag == "LI" or e.text.startswith("Why the others"))}
    assert reasons == len(pages) - 1
    assert figures[0].page == start, "a heading stands over more than itself"


def test_credit_licence_and_numbers_stand_on_every_page(sheets: dict[str, Path]) -> None:
    for path in sheets.values():
        pages = pages_read(path)
        for number, page in enumerate(pages, start=1):
            assert f"Page {number} of {len(pages)}" in page.text
            assert "Made by Ada" in page.text and "CC BY 4.0" in page.text


def test_no_generated_question_is_broken(tmp_path: Path, cases: Callable[[int, int], int]) -> None:
    solutions = generated(cases(2, 60))
    for paper, large_print in ((Paper.LETTER, True), (Paper.LETTER, False), (Paper.A4, True))[: cases(1, 3)]:
        printing = Printing(paper=paper, large=large_print)
        planned_set = plan_sheets(
            solutions, name="made", title="Made", theme=PRINT, printing=printing, only=[SheetKind.QUESTION]
        )
        (path,) = write_sheets([planned_set], tmp_path / f"{paper}-{large_print}")
        found = elements(path)
        headings = [(e.page, e.text) for e in found if e.tag == "H2"]
        expected = [
            heading
            for item in planned_set.questions
            for heading in [item.heading, *([f"{item.heading}: options"] if item.options is not None else [])]
        ]
        asked = list(enumerate(expected))
        assert headings[: len(asked)] == asked
        # After them only tables of answers, each on a page with its own heading.
        tables = headings[len(asked) :]
        assert tables == [(len(asked) + number, "My answers") for number in range(len(tables))]
        with pikepdf.open(path) as pdf:
            assert len(pdf.pages) == len(headings)
        numbers = [e.text for e in found if e.tag == "TH" and e.scope == "Row"]
        assert numbers == [str(number) for number in range(1, len(solutions) + 1)]
        assert all(picture.height_mm < printing.height_mm for picture in pictures_of(planned_set))


def generated(count: int) -> list[Solution]:
    found: list[Solution] = []
    for seed in itertools.count():
        try:
            solution = solve(replace(random_case(seed).item, name=f"made-{seed}", title=f"Made {seed}"), pairs=True)
        except FactError:
            continue
        if solution.sound:
            found.append(solution)
        if len(found) == count:
            return found
    raise AssertionError


# Cut-outs


def test_the_line_to_measure_is_100_mm_long_on_every_page(sheets: dict[str, Path]) -> None:
    for page in pages_read(sheets["cutout"]):
        lengths = [length for length, rise in page.straight if rise < 1e-3]
        assert min(abs(length - 283.46) for length in lengths) < 0.02


def test_pieces_are_cut_at_the_scale_that_is_told(sheets: dict[str, Path]) -> None:
    """The base of the border block is 6 units wide and 3 high."""
    paper = Paper.A4 if "a4" in str(sheets["cutout"]) else Paper.LETTER
    item = planned(paper, paper is Paper.LETTER).cut_outs[0]
    assert item.unit_mm >= 15.0
    assert f"1 unit is {item.unit_mm:g} mm" in spoken(sheets["cutout"])
    sizes = [(wide * MM_PER_PT, high * MM_PER_PT) for wide, high in pages_read(sheets["cutout"])[0].sizes]
    extent = solved("border-block").item.base.exterior
    wide = max(x for x, _ in extent) - min(x for x, _ in extent)
    high = max(y for _, y in extent) - min(y for _, y in extent)
    assert any(size == pytest.approx((wide * item.unit_mm, high * item.unit_mm), abs=0.1) for size in sizes)


def test_the_caution_stands_before_anything_to_cut(sheets: dict[str, Path]) -> None:
    found = elements(sheets["cutout"])
    pages = {element.page for element in found}
    for page in pages:
        here = [element for element in found if element.page == page]
        told_at = next(number for number, element in enumerate(here) if element.text == words.caution())
        assert all(element.tag != "Figure" for element in here[:told_at])


@pytest.mark.parametrize("path", DEMO, ids=lambda path: path.stem)
def test_letters_are_cut_out_with_their_pieces(path: Path) -> None:
    """A letter outside its outline would be lost."""
    import shapely

    printing = Printing()
    item = plan_sheets(
        [solved(path.stem)], name="one", title="One", theme=PRINT, printing=printing, only=[SheetKind.CUTOUT]
    ).cut_outs[0]
    for picture in item.pages:
        cloth = {e.group: e for e in picture.figure.entries if isinstance(e, Area)}
        for letter in picture.figure.entries:
            if isinstance(letter, Label) and letter.id.endswith(".letter"):
                area = cloth[letter.group]
                shape = shapely.Polygon(area.rings[0], area.rings[1:])
                assert shape.contains(shapely.Point(letter.at).buffer(0.2 * letter.size)), letter.id


# Answers and marking


def test_the_answers_have_a_still_a_piece_and_a_reason_a_wrong_option(a4: dict[str, Path]) -> None:
    found = elements(a4["answers"])
    figures = [e for e in found if e.tag == "Figure"]
    assert len(figures) == sum(len(solved(name).placements) + 1 for name in NAMES)
    reasons = [e.text.split(" ", 1) for e in found if e.tag == "LI"]
    wrong = [verdict.label for name in NAMES for verdict in solved(name).verdicts if not verdict.same]
    assert [label for label, _ in reasons] == wrong and all(why.endswith(".") for _, why in reasons)
    keys = [e.text for e in found if e.text.startswith("The answer is")]
    assert keys == [f"The answer is {solved(name).key}." for name in NAMES]


def marked(path: Path) -> list[list[str]]:
    """Rows of the marking sheet as they are read from the page."""
    cells = [e for e in elements(path) if e.tag in ("TH", "TD")]
    rows: list[list[str]] = []
    for cell in cells:
        if cell.scope == "Row":
            rows.append([])
        if rows and cell.scope != "Column":
            rows[-1].append(cell.text)
    return [row for row in rows if len(row) == 3]


def test_every_line_of_the_marking_sheet_is_the_slip_that_made_the_option(a4: dict[str, Path]) -> None:
    rows = iter(marked(a4["marking"]))
    told = 0
    for name in NAMES:
        solution = solved(name)
        for option, verdict in zip(solution.item.options, solution.verdicts, strict=True):
            label, did, practice = next(rows)
            assert label == verdict.label
            if option.slip is not None:
                case = SlipCase(slip=option.slip, subject=option.slip_subject)
                with speaking("en-US"):
                    sieve, walk = sifting_of(solution).of(verdict.label), walk_of(solution, verdict)
                    entry = marking_entry(verdict, ask_why="", sieve=sieve, walk=walk)
                    to_practise = practise(case)
                assert entry.cases == (case,) and practice == to_practise
                assert did == entry.did and (option.slip_subject or "outline") in did
                told += 1
    assert told >= 8


# In words of the slip alone: so that no two entries of the table are mistaken for one another.
SAID = {
    "flipped": "flipped the finished outline over",
    "piece-flipped": "flipped the {} over",
    "not-turned": "without turning",
    "turned-back": "turned the {} the wrong way",
    "next-side": "next side",
    "side-before": "side before",
    "slid": "slid the {} along",
    "other-way-round": "which should be",
    "left-out": "left the {} out",
    "too-large": "too large",
    "too-small": "too small",
    "swapped": "change places",
}


def test_every_option_of_the_demo_made_by_a_slip_is_marked_with_it() -> None:
    seen = set()
    for path in DEMO:
        solution = solved(path.stem)
        for option, verdict in zip(solution.item.options, solution.verdicts, strict=True):
            if option.slip is not None:
                entry = marking_entry(verdict, ask_why="")
                assert entry.cases == (SlipCase(slip=option.slip, subject=option.slip_subject),)
                assert SAID[option.slip].format(option.slip_subject) in entry.did
                seen.add(option.slip)
            elif not verdict.same and verdict.slip is None:
                entry = marking_entry(verdict, ask_why="")
                assert entry.cases == () and entry.practise
    assert len(seen) >= 10


def test_made_options_are_marked_with_the_slips_they_are_made_of(cases: Callable[[int, int], int]) -> None:
    from explainers.choice.question import MadeOptions
    from explainers.errors import ItemError

    made = 0
    for seed in range(cases(3, 60)):
        try:
            solution = solve(replace(random_case(seed).item, options=(), made=MadeOptions(make=3, seed=seed)))
        except ItemError:
            continue
        for option, verdict in zip(solution.item.options, solution.verdicts, strict=True):
            if option.slip is not None:
                assert marking_entry(verdict, ask_why="").cases == (
                    SlipCase(slip=option.slip, subject=option.slip_subject),
                )
                made += 1
    assert made


# Versions


@pytest.mark.parametrize("count", range(3, 7))
def test_no_order_comes_twice_and_the_right_one_moves(count: int) -> None:
    for key, seed in itertools.product(range(count), range(4)):
        found = orders(count, key, MOST_VERSIONS, seed=seed, name="a-block")
        assert found[0] == tuple(range(count)) and len(set(found)) == MOST_VERSIONS
        assert all(sorted(order) == list(range(count)) for order in found)
        places = [order.index(key) for order in found]
        assert len(set(places[:count])) == min(count, MOST_VERSIONS)
    assert orders(count, 0, 3, seed=1, name="a") == orders(count, 0, 3, seed=1, name="a")
    shuffled = {tuple(orders(count, 0, 3, seed=seed, name="a")) for seed in range(20)}
    assert len(shuffled) > 1


@pytest.fixture(scope="module")
def versions(tmp_path_factory: pytest.TempPathFactory) -> tuple[list[SheetSet], dict[str, Path]]:
    kinds = [SheetKind.QUESTION, SheetKind.ANSWER, SheetKind.MARKING]
    sets = list(
        plan_versions(
            [solved(name) for name in SHUFFLED],
            3,
            7,
            only=kinds,
            name="two",
            title="Two",
            theme=PRINT,
            printing=Printing(),
        )
    )
    folder = tmp_path_factory.mktemp("versions")
    return sets, {path.name: path for path in write_sheets(sets, folder)}


def drawn_options(picture: Picture) -> dict[str, Outline]:
    """What is drawn for each option on a question sheet."""
    found = {}
    for entry in picture.figure.entries:
        if isinstance(entry, Area) and entry.role == Role.OPTION and entry.fill is not None:
            exterior = entry.rings[0] if signed_area(entry.rings[0]) > 0 else entry.rings[0][::-1]
            found[entry.subject.name] = Outline(exterior=exterior, holes=entry.rings[1:])
    return found


def strip_letters(path: Path) -> list[str]:
    found = elements(path)
    start = next(number for number, e in enumerate(found) if e.tag == "H2" and e.text.startswith("Marking strip"))
    return [e.text for e in found[start:] if e.tag == "TD"]


def test_each_version_has_the_right_key(versions: tuple[list[SheetSet], dict[str, Path]]) -> None:
    """Read from the strip of the version, held against the outlines drawn on its question sheet."""
    sets, paths = versions
    keys = set()
    for number, sheet_set in enumerate(sets, start=1):
        letters = strip_letters(paths[f"two.version-{number}.marking.pdf"])
        keys.add(tuple(letters))
        answers = spoken(paths[f"two.version-{number}.answers.pdf"])
        for name, asked, letter in zip(SHUFFLED, sheet_set.questions, letters, strict=True):
            goal = solved(name).outline
            fits = [
                label
                for label, outline in drawn_options(asked.picture).items()
                if motions_onto(outline, goal, 1e-3 * goal.larger_extent)
            ]
            assert fits == [letter]
            assert f"The answer is {letter}." in answers
    assert len(keys) == 3


def test_no_version_is_like_another(versions: tuple[list[SheetSet], dict[str, Path]]) -> None:
    sets, _ = versions
    for one, other in itertools.combinations(sets, 2):
        for mine, yours in zip(one.questions, other.questions, strict=True):
            here, there = drawn_options(mine.picture), drawn_options(yours.picture)
            alike = [bool(motions_onto(here[label], there[label], 1e-3 * there[label].larger_extent)) for label in here]
            assert not all(alike)


def test_the_marking_of_a_version_goes_with_its_letters(versions: tuple[list[SheetSet], dict[str, Path]]) -> None:
    sets, paths = versions
    by_practice = []
    for number, sheet_set in enumerate(sets, start=1):
        rows = marked(paths[f"two.version-{number}.marking.pdf"])
        assert [row[0] for row in rows] == [e.label for item in sheet_set.marking for e in item.entries]
        right = [row[0] for row in rows if row[1].startswith("Right")]
        assert right == list(sheet_set.keys)
        by_practice.append(sorted(tuple(row[1:]) for row in rows))
    assert by_practice[0] == by_practice[1] == by_practice[2]


def test_the_strip_has_the_pitch_of_the_table_of_answers(a4: dict[str, Path]) -> None:
    def pitch(path: Path, *, in_bold: bool) -> float:
        words = reversed(pages_read(path)[-1].words)  # so that the page number comes first, and is overwritten
        tops = {word: top for word, top, bold in words if word in ("1", "2") and bold is in_bold}
        return tops["2"] - tops["1"]

    slip, strip = pitch(a4["questions"], in_bold=True), pitch(a4["marking"], in_bold=False)
    assert slip == pytest.approx(strip, abs=0.1)
    assert slip * MM_PER_PT == pytest.approx(10.0, abs=0.3)


# Nothing given away


def finds(path: Path) -> list[Find]:
    """What a learner can find in a sheet: each page, and the file's own properties."""
    found = elements(path)
    pages = {element.page for element in found}
    said = [
        Find(f"page {page}", said=tuple(e.text or e.alt for e in found if e.page == page)) for page in sorted(pages)
    ]
    with pikepdf.open(path) as pdf, pdf.open_metadata() as metadata:
        names = [str(value) for value in pdf.docinfo.values()] + [str(value) for value in metadata.values()]
        with pdf.open_outline() as outline:
            names += [entry.title for entry in outline.root]
    return [*said, Find("names", names=(path.name, *names))]


def told(path: Path) -> list[str]:
    labels, marks = set("ABCDEF"), {p.piece.mark for name in NAMES for p in solved(name).placements}
    out = []
    for find in finds(path):
        here = {label for label in labels if any(f"option {label}" in s or f"Option {label}" in s for s in find.said)}
        out += list(told_by(find, here, marks))
    return out


def test_question_sheets_and_cut_outs_give_nothing_away(
    sheets: dict[str, Path], versions: tuple[list[SheetSet], dict[str, Path]]
) -> None:
    for path in (sheets["questions"], sheets["cutout"], versions[1]["two.version-2.questions.pdf"]):
        assert told(path) == []


def test_answers_would_be_seen(sheets: dict[str, Path]) -> None:
    assert told(sheets["answers"]) and told(sheets["marking"])


@pytest.mark.parametrize("leak", ["Option B is flipped.", "The answer is C.", "Look at option C."])
def test_a_planted_leak_is_caught(leak: str, tmp_path: Path) -> None:
    whole = planned(Paper.A4, False)
    asked = whole.questions[0]
    figure = replace(asked.picture.figure, alt=f"{asked.picture.figure.alt} {leak}")
    leaky = replace(asked, picture=replace(asked.picture, figure=figure))
    (path,) = write_sheets([replace(whole, questions=(leaky,), answers=(), marking=(), cut_outs=())], tmp_path)
    assert told(path)


def test_the_question_as_drawn_is_alike_for_every_option() -> None:
    """Shapes of each option are called alike, in the same order."""
    for asked in planned(Paper.A4, False).questions:
        per_option = [
            [entry.id.removeprefix(own.group) for entry in asked.picture.figure.entries if entry.subject == own]
            for own in map(option_subject, asked.labels)
        ]
        assert all(parts == per_option[0] for parts in per_option)


# What cannot be printed


def test_an_unsound_item_is_not_printed() -> None:
    item = solved("border-block").item
    twice = solve(replace(item, options=tuple(option for option in item.options if option.slip is not None)))
    assert not twice.sound
    with pytest.raises(UnsoundItemError):
        plan_sheets([twice], name="x", title="X", theme=PRINT, printing=Printing())


def test_a_kind_of_question_may_have_nothing_to_cut_out(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(QuestionOnPaper, "cut_outs", lambda paper, heading: None)
    plain = plan_sheets(
        [solved("corner-block")],
        name="x",
        title="X",
        theme=PRINT,
        printing=Printing(),
        only=(SheetKind.MARKING, SheetKind.CUTOUT),
    )
    assert [path.name for path in write_sheets([plain], tmp_path)] == ["x.marking.pdf"]


def test_the_same_items_give_the_same_files(tmp_path: Path) -> None:
    one = replace(planned(Paper.A4, False), answers=(), marking=(), cut_outs=())
    first, second = write_sheets([one], tmp_path / "1")[0], write_sheets([one], tmp_path / "2")[0]
    assert first.read_bytes() == second.read_bytes()


def test_the_theme_of_paper_never_shrinks_type() -> None:
    larger = replace(PRINT, mark_size=0.9)
    assert paper_theme(larger).mark_size == 0.9 and paper_theme(PRINT).word_size >= 0.4
