"""The deck as a page, read as text: what stands in it, what is packed, and that no word of it can become markup."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from outputs.html_pages import ITEMS, Tags, deck_file, demo, moments_of, open_data, parts, slides_told

from explainers.batch import timeline_of, write_output
from explainers.figure.contrast import GRAPHICS, TEXT, contrast_ratio
from explainers.figure.model import Figure
from explainers.figure.motion import Motion
from explainers.figure.theme import Theme
from explainers.figure.theme_checks import faults_of_theme
from explainers.figure.themes import DARK, LIGHT, PRINT
from explainers.outputs.html.deck import deck_page
from explainers.outputs.html.palettes import HIGH_CONTRAST, palette_css, palettes_for
from explainers.outputs.html.pictures import NumberedNames, Shelf, page_figure
from explainers.storyboard.timeline import Timeline
from explainers.style import ENTRIES

NASTY = "<img src=x onerror=alert(1)></script><script>alert(2)</script>\"'&"


def nasty(timeline: Timeline) -> Timeline:
    """A lesson whose every word tries to be markup."""
    board = timeline.storyboard
    steps = tuple(
        replace(step, heading=NASTY, chapter=NASTY, narration=(NASTY, *step.narration), note=NASTY)
        for step in board.steps
    )
    imprint = replace(board.imprint, credit=NASTY, licence=NASTY, series=NASTY)
    return replace(timeline, storyboard=replace(board, title=NASTY, steps=steps, imprint=imprint))


def text_of(name: str) -> str:
    return deck_file(name).read_text(encoding="utf-8")


def test_words_of_a_lesson_stay_words() -> None:
    tags = Tags(deck_page(nasty(demo("first-blocks")))).seen
    kinds = [tag for tag, _ in tags]
    assert not {"img", "link", "iframe", "object", "form", "base"} & {*kinds}
    own = [attrs for tag, attrs in tags if tag == "script"]
    assert [attrs for attrs in own if not attrs] == [{}], "one script that runs; the others are data"
    assert not [name for _, attrs in tags for name in attrs if name.startswith("on") or name in ("src", "style")]


def test_it_may_ask_nothing_of_any_network_and_runs_its_own_script_alone() -> None:
    text = text_of("first-blocks")
    policy = next(
        attrs["content"] for _, attrs in Tags(text).seen if attrs.get("http-equiv") == "Content-Security-Policy"
    )
    assert policy is not None and policy.startswith("default-src 'none'") and "unsafe" not in policy
    rules = dict(rule.strip().split(" ", 1) for rule in policy.split(";"))
    assert {*rules} == {"default-src", "style-src", "font-src", "script-src", "base-uri", "form-action"}
    assert rules.pop("font-src") == "data:"
    assert all(value == "'none'" or value.startswith("'sha256-") for value in rules.values())
    assert {*re.findall(r"https?:[^\s\"'<>]*", text)} == {"http://www.w3.org/2000/svg"}


def test_everything_of_the_worked_example_is_open_and_the_solution_of_the_other_is_packed() -> None:
    text = text_of("first-blocks")
    data, packed = open_data(text), parts(text)
    told = slides_told(demo("first-blocks"))
    steps = demo("first-blocks").storyboard.steps
    closed = [slide for slide, shown in zip(told, data["slides"], strict=True) if "closed" in shown]
    names = [step.id for step in steps]
    after = names.index("border-block.pause") + 1
    assert [step.id for slide in closed for step in slide] == [
        step.id for step in steps[after:] if step.item == "border-block"
    ]
    slides = dict(packed["1"]["slides"])
    said = [[moment["said"] for moment in slides[told.index(slide)]["moments"]] for slide in closed]
    assert said == [[list(step.narration) for step in slide] for slide in closed]
    of_options = [step for step in steps if step.stage in ("rule-out", "keep") or step.stage.startswith("sift.")]
    telling = " ".join(sentence for step in of_options for sentence in step.narration)
    said_before = " ".join(sentence for moment in moments_of(data["slides"]) for sentence in moment["said"])
    new = [sentence for sentence in re.findall(r"[^.]+\.", telling) if sentence not in said_before]
    assert len(new) > 10 and not [sentence for sentence in new if sentence in text]


def test_the_question_can_be_read_as_long_as_its_choice_lasts() -> None:
    """The pause is silent; what is asked stands beside the options, on the same slide."""
    (slide,) = (slide for slide in slides_told(demo("first-blocks")) if any(step.choice for step in slide))
    assert [step.id for step in slide] == ["border-block.task", "border-block.pause"]
    assert slide[0].narration and not slide[1].narration


def test_what_is_open_shows_nothing_that_only_the_solution_draws() -> None:
    text = text_of("first-blocks")
    data, packed = open_data(text), parts(text)["1"]
    assert packed["firstShape"] == len(data["shapes"]) and packed["firstFigure"] == len(data["figures"])
    open_shapes = {repr(shape) for shape in data["shapes"]}
    assert not open_shapes & {repr(shape) for shape in packed["shapes"]}
    used = {entry[0] for _, entries in data["figures"] for entry in entries}
    assert used <= set(range(len(data["shapes"])))
    for moment in moments_of([slide for _, slide in packed["slides"]]):
        assert moment["figure"] < packed["firstFigure"] + len(packed["figures"])


def test_a_shape_is_kept_once_however_many_figures_show_it() -> None:
    data = open_data(text_of("first-blocks"))
    keys = [repr(shape) for shape in data["shapes"]]
    assert len(set(keys)) == len(keys)
    drawn = sum(len(entries) for _, entries in data["figures"])
    assert drawn > 1.5 * len(keys)  # options compared are drawn at a size of their own


def test_every_drawing_of_a_figure_can_be_found_again() -> None:
    """The figure that the data says is the figure of the step: as many entries, in groups that part them alike."""
    data = open_data(text_of("corner-block"))
    for step, slide in zip(demo("corner-block").storyboard.steps, moments_of(data["slides"]), strict=True):
        alt, entries = data["figures"][slide["figure"]]
        figure = page_figure(step.stills[0] if step.pause_s else step.picture)
        assert alt == figure.alt == slide["alt"]
        assert len(entries) == len(figure.entries)
        named = {(entry.group, drawn[1]) for entry, drawn in zip(figure.entries, entries, strict=True)}
        assert len(named) == len({group for group, _ in named}) == len({number for _, number in named})
        assert [len(drawn) == 3 for drawn in entries] == [entry.opacity < 1.0 for entry in figure.entries]


def test_a_lesson_without_a_choice_has_nothing_to_pack() -> None:
    text = text_of("corner-block")
    assert {*parts(text)} <= {"0"}, "the notes for the presenter"
    assert not [slide for slide in open_data(text)["slides"] if "closed" in slide]


def test_a_step_that_moves_has_its_motions_in_order() -> None:
    data = open_data(text_of("corner-block"))
    for step, slide in zip(demo("corner-block").storyboard.steps, moments_of(data["slides"]), strict=True):
        moving = [beat for beat in step.beats if isinstance(beat, Motion)]
        motions = slide.get("motions", [])
        assert [motion["seconds"] for motion in motions] == [motion.seconds for motion in moving]
        ends = [data["figures"][motion["to"]][0] for motion in motions]
        assert ends == [motion.end.alt for motion in moving]
        if motions:
            assert motions[0]["from"] == slide["before"] and motions[-1]["to"] == slide["figure"]


def test_the_same_lesson_makes_the_same_page_and_is_written_under_its_name(tmp_path: Path) -> None:
    timeline = timeline_of(ITEMS / "corner-block.yaml")
    (path,) = write_output("deck-html", timeline, tmp_path)
    assert path == tmp_path / "corner-block.html"
    assert path.read_text(encoding="utf-8") == deck_page(timeline) == deck_page(timeline)


def test_it_is_small(cases: Callable[[int, int], int]) -> None:
    """At most 2 MB for ten minutes; the demo lessons last four to nine."""
    for name in ("first-blocks", "cutting-out", "looking-closely")[: cases(1, 3)]:
        timeline = demo(name)
        assert len(text_of(name).encode()) < 200_000 * max(1.0, timeline.seconds / 60.0)


def test_a_draft_of_a_language_is_said_to_be_one_and_the_page_speaks_it() -> None:
    lesson = demo("corner-block")
    draft = replace(
        lesson,
        storyboard=replace(
            lesson.storyboard, language="de", imprint=replace(lesson.storyboard.imprint, draft="Language de: draft")
        ),
    )
    text = deck_page(draft)
    assert '<html lang="de">' in text and ">Weiter</button>" in text
    assert '<p id="draft">Language de: draft</p>' in text


# Palettes ---------------------------------------------------------------------------------------------------------

LETTERS = ("ink", "quiet", "attention", "right", "wrong")
GROUNDS = ("paper", "table", "tray")


@pytest.mark.parametrize("theme", [LIGHT, DARK])
def test_every_palette_of_our_themes_can_be_read(theme: Theme) -> None:
    colours = set(vars_of(theme).values())
    palettes = palettes_for(colours, paper=vars_of(theme)["paper"], ink=vars_of(theme)["ink"])
    assert {palette.name for palette in palettes} == {"light", "dark", "contrast"}
    assert palettes[0].of_pictures == {colour: colour for colour in colours}, "the first shows figures as they are"
    for palette in palettes:
        least = 7.0 if palette.name == "contrast" else TEXT
        shown = {name: palette.of_pictures[value] for name, value in vars_of(theme).items()}
        for ground in GROUNDS:
            for letters in LETTERS:
                assert contrast_ratio(shown[letters], shown[ground]) >= least, (palette.name, letters, ground)
                assert palette.of_page[letters] == shown[letters]
        for cloth in ("base", "join.fill", "cut.fill", "outline", "option"):
            assert contrast_ratio(shown["ink"], shown[cloth]) >= least, (palette.name, cloth)
        for pattern, cloth in (("join.pattern", "join.fill"), ("cut.pattern", "cut.fill")):
            assert contrast_ratio(shown[pattern], shown[cloth]) >= GRAPHICS, (palette.name, pattern)


def test_high_contrast_is_a_theme_that_could_be_used() -> None:
    assert not faults_of_theme(HIGH_CONTRAST)


def test_colours_that_are_no_theme_of_ours_are_left_as_they_are() -> None:
    own = palettes_for({"#FFFFFF", "#112233"}, paper="#FFFFFF", ink="#112233")
    assert [palette.name for palette in own] == ["own"]
    assert "prefers-color-scheme" not in palette_css(own, {"#FFFFFF": 0, "#112233": 1})
    assert "own colours" not in text_of("first-blocks")


def test_black_on_white_can_be_white_on_black() -> None:
    colours = {PRINT.paper, PRINT.ink, PRINT.stitch_to_come}
    light, dark = palettes_for(colours, paper=PRINT.paper, ink=PRINT.ink)
    assert (light.name, dark.name) == ("light", "dark") and dark.dark and not light.dark
    assert dark.of_pictures == {"#FFFFFF": "#000000", "#000000": "#FFFFFF", "#BBBBBB": "#444444"}
    assert dark.of_page["ink"] == "#FFFFFF" and dark.of_page["paper"] == "#000000"
    assert open_data(text_of("looking-closely"))["palettes"] == ["light", "dark"]


def vars_of(theme: Theme) -> dict[str, str]:
    return {name: theme.entry(name) for name, _ in ENTRIES["colours"].values()}


def test_a_shelf_that_rests_on_another_gives_no_number_twice() -> None:
    step = demo("corner-block").storyboard.steps
    first, second, third = (page_figure(step[number].picture) for number in (1, 2, 5))
    colours, groups = NumberedNames(), NumberedNames()
    under = Shelf(colours, groups)
    numbers = [under.figure(first)]
    one = Shelf(colours, groups, rests_on=under, numbers_from=under)
    two = Shelf(colours, groups, rests_on=under, numbers_from=one)
    assert one.figure(first) == numbers[0], "what lies open is used"
    numbers += [one.figure(second)]
    late = Shelf(colours, groups, rests_on=under, numbers_from=one)
    numbers += [late.figure(second), late.figure(third)]
    assert len(set(numbers)) == 4, "what is sealed apart is kept apart"
    assert isinstance(first, Figure) and two.data()["firstFigure"] == 1
