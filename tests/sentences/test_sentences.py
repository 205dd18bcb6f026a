"""Every sentence: made of facts that hold, right as English, and the same figures when read back."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from itertools import product

import fact_samples as samples
import pytest
from hypothesis import given
from hypothesis import strategies as st
from oracles.sentence_parser import (
    amounts_of,
    counts_of,
    faults_of,
    marks_of,
    moved_part_of,
    options_of,
    piece_named_in,
    ratios_of,
    turn_of,
)
from told import narrated

from explainers.choice.differences.corner_angle import CornerAngleFact
from explainers.choice.differences.corner_count import CornerCountFact
from explainers.choice.differences.hole import HoleFact
from explainers.choice.differences.part_elsewhere import PartElsewhereFact
from explainers.choice.differences.side_length import SideLengthFact
from explainers.choice.differences.side_ratio import SideRatioFact
from explainers.choice.fact import Fact, verified
from explainers.choice.words import choices
from explainers.choice.words import task as asked
from explainers.errors import FactError
from explainers.item.model import Manner
from explainers.kinds.join_and_cut.facts.strategy import PieceStrategyFact
from explainers.kinds.join_and_cut.model import Does
from explainers.kinds.join_and_cut.words import framing, steps, task
from explainers.kinds.join_and_cut.words.turning import size_of_turn
from explainers.sentences import lesson, notes, published

NAMES = ["flag", "big-corner-patch", "block-2", "p1", "x", "arrow", "the-star", "hour-glass"]
# Words that would answer a question before its solution.
TELLING = ("answer", "result", "flipped", "mirror", "correct", "wrong", "key", "slip", "same")


# How the parts of a lesson may follow each other.
ROWS = [tuple(Manner(name) for name in row) for size in range(4) for row in product(map(str, Manner), repeat=size)][:60]


def every_sentence() -> list[tuple[str, ...]]:
    """What every function says about every sample."""
    told: list[tuple[str, ...]] = [asked.pause_over()]
    for name in NAMES:
        told += [
            task.task([samples.piece_fact(name)]),
            task.close_up([samples.piece_fact(name)]),
            task.close_up([samples.piece_fact(name), samples.piece_fact("border")]),
            task.close_up([samples.piece_fact(other) for other in NAMES[:6]]),
            *(narrated(samples.piece_fact(name, of=of)) for of in ("base", "long-border-strip")),
            *(narrated(samples.turn_fact(float(turn), name)) for turn in (0, 1, -45, 90, -135, 180, 37.5)),
            *(fact.narration() for fact in samples.strategies(name)),
        ]
        for does in Does:
            told += [narrated(samples.meet_fact(name, does)), narrated(samples.change_fact(name, does))]
    told += [steps.outline(samples.outline_fact(shape)) for shape in (samples.SQUARE, samples.RING, samples.NOTCHED)]
    told += [choices.options_shown(sifted=sifted) for sifted in (True, False)]
    told += [choices.reason(fact) for fact in samples.reasons()]
    told += [choices.keep(samples.same_fact(turn_deg)) for turn_deg in (0.0, 45.0, -90.0, 180.0)]
    told += [choices.answer(label) for label in "ABCDEF"]
    told += [asked.your_turn(pause_s) for pause_s in (0, 1, 20, 30, 59.7, 60, 75, 90, 120, 150)]
    told += [
        lesson.opening(title, manners)
        for title, manners in product(("Joining and cutting blocks", "Which block?", " A  title! "), ROWS)
    ]
    told += [framing.about(does) for does in ((), tuple(Does), tuple(Does)[:1], (Does.CUT,))]
    told += [(published.lasts(seconds),) for seconds in (0.4, 59.7, 60.0, 121.0, 529.0)]
    told += [asked.check(sizes_differ=differ) for differ in (False, True)]
    told += [
        asked.recall(),
        asked.compare(),
        asked.ask_options(),
        asked.try_options(sifted=True),
        asked.try_options(sifted=False),
    ]
    told += [steps.ask_outline(samples.outline_fact(shape)) for shape in (samples.SQUARE, samples.RING)]
    told += [ask(samples.piece_fact(name)) for name in NAMES for ask in (steps.ask_turn, steps.ask_meet)]
    told += [framing.routine(manners) for manners in ROWS]
    return told


@pytest.mark.parametrize("sentences", every_sentence(), ids=lambda sentences: " ".join(sentences)[:60])
def test_every_sentence_is_plain_english(sentences: tuple[str, ...]) -> None:
    for sentence in sentences:
        assert faults_of(sentence) == [], sentence


def broken(fact: Fact) -> list[Fact]:
    """The same fact with the place or figure that it speaks of moved."""
    moves: dict[str, Callable[[object], object]] = {
        "turn_deg": lambda turn: -turn / 2 - 30,  # type: ignore[operator]
        "partner": lambda _: ((0.0, 0.0), (2.0, 0.0)),
        "after": lambda _: samples.WIDE,
        "corners": lambda count: count + 1,  # type: ignore[operator]
        "option": lambda _: samples.WIDE.moved(samples.Similarity(shift=(0.5, 0.5))),
        "angle_deg": lambda angle: angle + 10,  # type: ignore[operator]
        "length": lambda length: length + 1,  # type: ignore[operator]
        "option_corners": lambda count: count + 1,  # type: ignore[operator]
        "ratio": lambda ratio: ratio + 0.5,  # type: ignore[operator]
        "other_ratio": lambda ratio: ratio + 0.5,  # type: ignore[operator]
        "home": lambda _: samples.HOLE,
        "adjacent": lambda adjacent: not adjacent,
        "option_holes": lambda count: count + 1,  # type: ignore[operator]
        "ring_centre": lambda _: (0.5, 0.5),
        "evidence": lambda _: (),
    }
    fields = [name for name in moves if hasattr(fact, name) and not (name == "turn_deg" and hasattr(fact, "evidence"))]
    return [replace(fact, **{name: moves[name](getattr(fact, name))}) for name in fields]  # type: ignore[arg-type]


def sayings() -> list[tuple[Fact, Callable[..., tuple[str, ...]]]]:
    """A fact, and what puts it into words."""
    return [
        (samples.turn_fact(45.0), narrated),
        (samples.meet_fact(), narrated),
        (samples.change_fact(), narrated),
        (samples.outline_fact(), steps.outline),
        (samples.outline_fact(), steps.ask_outline),
        (samples.same_fact(90.0), choices.keep),
        *((fact, choices.reason) for fact in samples.reasons()),
        *((fact, PieceStrategyFact.narration) for fact in samples.strategies()),
    ]


@pytest.mark.parametrize(("fact", "say"), sayings(), ids=lambda given: getattr(given, "kind", type(given).__name__))
def test_a_fact_that_does_not_hold_is_never_said(fact: Fact, say: Callable[..., tuple[str, ...]]) -> None:
    assert say(fact)
    wrong_ones = [wrong for wrong in broken(fact) if not wrong.holds()]
    assert wrong_ones, "no way of breaking this fact was tried"
    for wrong in wrong_ones:
        with pytest.raises(FactError, match="does not hold"):
            say(wrong)


def test_a_task_stops_at_a_piece_whose_marks_cannot_meet() -> None:
    fact = samples.piece_fact(meets=((4.0, 0.0), (4.0, 3.0)))
    for say in (task.task, task.close_up):
        with pytest.raises(FactError):
            say([samples.piece_fact("star"), fact])
    with pytest.raises(FactError):
        narrated(fact)
    for ask in (steps.ask_turn, steps.ask_meet):
        with pytest.raises(FactError):
            ask(fact)


def test_the_gate_hands_on_just_what_it_was_given() -> None:
    assert verified(samples.outline_fact(), ["One.", "Two."]) == ("One.", "Two.")


@pytest.mark.parametrize(("joins", "cuts"), [(1, 0), (0, 1), (2, 0), (1, 1), (3, 2), (0, 6)])
def test_the_task_asks_for_every_piece_and_counts_more_than_two(joins: int, cuts: int) -> None:
    doings = [Does.JOIN] * joins + [Does.CUT] * cuts
    words = task.task([samples.piece_fact(name, does) for name, does in zip(NAMES, doings, strict=False)])
    if joins + cuts > 2:
        assert counts_of(words[0].replace("to join", ""), "piece") == [count for count in (joins, cuts) if count]
        words = words[1:]
    for name, sentence in zip(NAMES, words[: joins + cuts], strict=False):
        assert piece_named_in(sentence, name)
        assert marks_of(sentence) == ["K"]
    assert words[-1].endswith("?")


@pytest.mark.parametrize("does", list(Does))
def test_the_task_names_the_piece_that_another_piece_meets(does: Does) -> None:
    words = task.task([samples.piece_fact(), samples.piece_fact("notch", does, of="flag")])
    assert words[1].startswith("Then") and "the notch" in words[1] and "the flag" in words[1]
    assert task.task([samples.piece_fact("notch", Does.CUT)])[0] == "Cut the notch away where the marks K meet."


def test_the_task_keeps_the_order_of_the_pieces() -> None:
    facts = [samples.piece_fact("flag"), samples.piece_fact("star", of="flag"), samples.piece_fact("bite", Does.CUT)]
    assert task.task(facts)[1:4] == (
        "First, join the flag to the base where the marks K meet.",
        "Then join the star to the flag where the marks K meet.",
        "Last, cut the bite away where the marks K meet.",
    )


def test_nothing_is_given_away_before_the_solution() -> None:
    before = [
        *task.task([samples.piece_fact("flag"), samples.piece_fact("bite", Does.CUT)], sizes_differ=True),
        *asked.your_turn(30),
        *task.close_up([samples.piece_fact("flag")]),
        *lesson.opening("Joining and cutting", list(Manner)),
        *framing.about(list(Does)),
        *lesson.what_happens(list(Manner)),
        *asked.check(sizes_differ=True),
        *asked.recall(),
        *asked.compare(),
        *steps.ask_turn(samples.piece_fact("flag")),
        *steps.ask_meet(samples.piece_fact("flag")),
        *steps.ask_outline(samples.outline_fact()),
        *(lesson.chapter(kind) for kind in (lesson.Chapter.QUESTION, lesson.Chapter.YOUR_TURN, lesson.Chapter.OPTIONS)),
        *(lesson.heading(kind) for kind in (lesson.Heading.QUESTION, lesson.Heading.YOUR_TURN, lesson.Heading.OPTIONS)),
        *(lesson.heading(lesson.Heading.OPTION, label=label) for label in "ABCDEF"),
    ]
    for words in before:
        assert not [telling for telling in TELLING if telling in words.lower()], words


@pytest.mark.parametrize(
    ("pause_s", "sentence"),
    [
        (30, "Take about 30 seconds."),
        (1, "Take about 1 second."),
        (60, "Take about 1 minute."),
        (90, "Take about 1 and a half minutes."),
        (120, "Take about 2 minutes."),
        (75, "Take about 75 seconds."),
        (0.2, "Take about 1 second."),
    ],
)
def test_the_time_of_a_pause_is_said(pause_s: float, sentence: str) -> None:
    assert asked.your_turn(pause_s)[-1] == sentence


def test_a_pause_without_a_time_names_none() -> None:
    assert amounts_of(" ".join(asked.your_turn(0))) == []


@given(st.floats(-180, 180, exclude_min=True), st.sampled_from(NAMES))
def test_a_turn_is_read_back_out_of_its_sentences(turn_deg: float, name: str) -> None:
    words = narrated(samples.turn_fact(turn_deg, name))
    for sentence in words:
        assert faults_of(sentence) == [], sentence
    assert piece_named_in(words[0], name)
    found = turn_of(words[0])
    assert found is not None
    value, about = found
    assert abs((value - turn_deg + 180) % 360 - 180) <= (0.501 if about else 0.101)


def test_a_number_in_a_name_is_kept_apart_from_the_degrees() -> None:
    assert narrated(samples.turn_fact(2.0, "block-2"))[0] == "Turn block 2 by 2 degrees anticlockwise."
    assert narrated(samples.turn_fact(-45.0, "flag"))[0] == "Turn the flag 45 degrees clockwise."


def test_the_size_of_a_turn_is_told_in_quarters() -> None:
    told = {turn: size_of_turn(turn) for turn in (30.0, -45.0, 90.0, 100.0, -135.0, 126.87)}
    assert told == {
        30.0: "That is 30 degrees, less than a quarter turn.",
        -45.0: "That is 45 degrees, half of a quarter turn.",
        90.0: "That is 90 degrees, a quarter turn.",
        100.0: "That is 100 degrees: a quarter turn plus 10 degrees.",
        -135.0: "That is 135 degrees: a quarter turn and half of another.",
        126.87: "That is about 127 degrees: a quarter turn plus about 37 degrees.",
    }


def test_a_cut_lies_on_top_where_a_join_lies_beside() -> None:
    assert "side by side" in " ".join(narrated(samples.meet_fact()))
    assert "on top" in " ".join(narrated(samples.meet_fact(does=Does.CUT)))


def test_the_corners_of_a_hole_are_counted_in_the_open() -> None:
    assert steps.outline(samples.outline_fact(samples.RING))[1:] == (
        "It has 1 hole.",
        "With the corners of the hole, it has 8 corners in all.",
    )
    assert steps.outline(samples.outline_fact(samples.CLIPPED))[1:] == ("It has 5 corners.",)


@pytest.mark.parametrize("fact", samples.reasons(), ids=lambda fact: type(fact).__name__)
def test_a_reason_states_the_figures_of_its_fact(fact: Fact) -> None:
    text = " ".join(choices.reason(fact))
    assert options_of(text)
    assert set(options_of(text)) == {"B"}
    assert "same" not in text
    match fact:
        case CornerCountFact():
            assert counts_of(text, "corner") == [fact.option_corners]
            assert [amount.value for amount in amounts_of(text)] == [fact.option_corners, fact.outline_corners]
        case CornerAngleFact():
            degrees = {amount.value for amount in amounts_of(text) if amount.unit == "degrees"}
            assert degrees == {fact.angle_deg}
            assert ("points into" in text) == (fact.angle_deg > 180)
        case SideLengthFact():
            assert amounts_of(text) == [], "no length in units: none is written in the picture"
            assert ("longer" in text, "shorter" in text) == (
                fact.length > fact.other_length,
                fact.length < fact.other_length,
            )
        case SideRatioFact():
            assert ratios_of(choices.reason(fact)) == [fact.ratio, fact.other_ratio]
        case PartElsewhereFact():
            assert moved_part_of(choices.reason(fact)) == ("part" if fact.filled else "gap", fact.adjacent)
        case HoleFact():
            assert counts_of(text, "hole") == [fact.option_holes]


def test_every_reason_has_words_of_its_own() -> None:
    told = [choices.reason(fact) for fact in samples.reasons()]
    assert len(set(told)) == len(told)


def test_an_option_with_as_many_corners_in_a_hole_is_counted_in_all() -> None:
    [fact, _] = samples.hole_facts()
    told = samples.CornerCountFact(
        label="B", option=fact.option, outline=fact.outline, place=fact.place, ring_centre=fact.ring_centre,
        option_corners=8, outline_corners=4, corner=(1.0, 1.0), on_option=True, tolerance=fact.tolerance,
    )  # fmt: skip
    assert choices.reason(told)[1] == "Option B has 8 corners in all, but the outline has 4."


def test_the_right_option_is_turned_the_shorter_way() -> None:
    fits = "it fits all the way round."
    assert choices.keep(samples.same_fact(-90.0)) == (f"Give C a quarter turn clockwise, and {fits}",)
    assert choices.keep(samples.same_fact(135.0)) == (f"Turn C anticlockwise, and {fits}",)
    assert choices.keep(samples.same_fact(0.0)) == (f"Option C needs no turn: {fits}",)


def test_two_different_strategies_never_share_a_text() -> None:
    facts = samples.strategies()
    told = [sentence for fact in facts for sentence in (fact.headline(), *fact.narration()[:-1])]
    assert len(set(told)) == len(told)
    for fact in facts:
        assert len(fact.headline()) <= lesson.HEADING_LENGTH


@pytest.mark.parametrize("name", [*NAMES, "a-very-long-name-of-a-piece-indeed"])
def test_a_heading_fits_its_line(name: str) -> None:
    told = [framing.piece_heading(kind, name=name, mark="KLM") for kind in framing.PieceHeading]
    for words in (*told, *(lesson.heading(kind, label="B") for kind in lesson.Heading)):
        assert 0 < len(words) <= lesson.HEADING_LENGTH
        assert words[0].isupper()
        assert "  " not in words


def test_a_lesson_of_several_items_names_the_item_in_its_chapters() -> None:
    assert lesson.chapter(lesson.Chapter.QUESTION) == "The question"
    assert lesson.chapter(lesson.Chapter.QUESTION, title="The corner block") == "The corner block: the question"


def test_a_title_too_long_to_say_is_left_out() -> None:
    words = lesson.opening("one two three four five six seven eight nine ten eleven", [Manner.WORKED_EXAMPLE])
    assert words == ("We work through one question together.",)


@pytest.mark.parametrize(
    ("manners", "told"),
    [
        ("W", "We work through one question together."),
        ("WWY", "We work through two questions together. Then you try one question yourself."),
        ("YW", "You try one question yourself. Then we work through one question together."),
        ("WYW", "We work through two questions together. You try one question yourself."),
        ("WYC", "We work through one question together. Then you try one question yourself. "
         "Then there is one quick check."),
        ("CC", "There are two quick checks."),
        ("SQ", "We work through one question together. Then you try one question yourself."),
    ],
)  # fmt: skip
def test_then_is_said_only_of_what_comes_after_all_that_is_told_before(manners: str, told: str) -> None:
    letters = dict(zip("WYQHSC", Manner, strict=True))
    assert " ".join(lesson.what_happens([letters[letter] for letter in manners])) == told


def test_times_are_written_as_players_show_them() -> None:
    shown = [published.clock(seconds) for seconds in (0, 7.9, 59.999, 60, 754.2, 3599.99, 3600, 36610)]
    assert shown == ["0:00", "0:07", "0:59", "1:00", "12:34", "59:59", "1:00:00", "10:10:10"]


def test_notes_are_whole_sentences_too() -> None:
    told = [
        notes.task_note(),
        notes.compare_note(),
        asked.stop_note(),
        notes.your_turn_note(),
        samples.piece_fact().note(),
        *(samples.turn_fact(turn).note() for turn in (0.0, 45.0, 180.0)),
        *(samples.meet_fact(does=does).note() for does in Does),
        *(samples.change_fact(does=does).note() for does in Does),
        notes.outline_note(),
        notes.rule_out_note("B"),
        notes.keep_note(samples.same_fact(90.0)),
        notes.remember_note(),
    ]
    for note in told:
        assert faults_of(note, most_words=40) == [], note
