"""Kinds of difference: each stands in one module, has every voice, and a new one needs no other module."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, fields, replace
from importlib import import_module
from pathlib import Path
from typing import Any

import pytest
from sentences import fact_samples as samples

from explainers.choice import differences
from explainers.choice import reasons as search
from explainers.choice.differences.difference import VOICES, Compared, DifferenceFact, Marks, ReasonFact
from explainers.choice.drawing.choices import Choices
from explainers.choice.drawing.chosen import chosen
from explainers.choice.fact import Fact
from explainers.choice.fingerprint import FingerprintParts
from explainers.choice.fit import Fit
from explainers.choice.model import Verdict
from explainers.choice.words import choices, choosing, marking, report
from explainers.figure.theme import DEFAULT_THEME
from explainers.geometry.outline import Outline
from explainers.geometry.rigid_motion import Similarity
from explainers.intake.workspace import load_solution

# What several kinds stand on; every other module is one kind.
SHARED = {"__init__", "difference", "bare_part"}


@dataclass(frozen=True, slots=True, kw_only=True)
class LeanFact(DifferenceFact):
    """A made-up kind: the option leans."""

    degrees: int

    def figures(self) -> FingerprintParts:
        return ("lean", self.degrees)

    def marks_over_outline(self) -> Marks:
        return Marks(spot=self.ring_centre, corner=self.ring_centre)

    def marks_of_choice(self) -> Marks:
        return self.marks_over_outline()

    def heading(self) -> str:
        return f"{self.label}: it leans"

    def over_outline(self) -> tuple[str, ...]:
        return ("Here it leans.", f"It leans by {self.degrees}.")

    def of_choice(self, *, outline_given: bool = False) -> tuple[str, ...]:
        return (f"In the ring, it leans by {self.degrees}.",)

    def in_marking(self) -> str:
        return "It leans."

    def practise(self) -> str:
        return "Practise standing upright."

    def in_report(self) -> str:
        return f"leaning by {self.degrees}"

    def as_line(self) -> str:
        return f"option {self.label}: leaning"


def leaning(label: str = "B", degrees: int = 5) -> LeanFact:
    return LeanFact(
        label=label, option=samples.CLIPPED, outline=samples.SQUARE, place=samples.TIP, ring_centre=(3.8, 3.8),
        tolerance=samples.TOLERANCE, degrees=degrees,
    )  # fmt: skip


def verdict(fact: ReasonFact) -> Verdict:
    fit = Fit(motion=Similarity(), laid=fact.option, extra=(), missing=(samples.TIP,), difference=0.5)
    return Verdict(
        label=fact.label, outline=fact.option, same=False, mirrored=False, code=fact.label.lower(),
        drawn=Similarity(), fit=fit, reasons=(fact,),
    )  # fmt: skip


def test_every_module_of_the_folder_is_a_kind_in_the_table() -> None:
    folder = Path(differences.__file__).parent
    names = sorted(path.stem for path in folder.glob("*.py") if path.stem not in SHARED)
    homes = [kind.__module__.rpartition(".")[2] for kind in differences.KINDS]
    assert sorted(homes) == names
    for name in names:
        module = import_module(f"{differences.__name__}.{name}")
        kinds = [
            value
            for value in vars(module).values()
            if isinstance(value, type) and issubclass(value, Fact) and value.__module__ == module.__name__
        ]
        assert len(kinds) == 1, f"{name} has several kinds"


def test_each_kind_that_has_a_place_is_looked_for() -> None:
    homes = {find.__module__ for find in differences.FINDERS}
    assert homes == {kind.__module__ for kind in differences.KINDS if issubclass(kind, DifferenceFact)}


def test_each_kind_has_every_voice_and_no_two_sound_alike() -> None:
    told: dict[str, set[str]] = {voice: set() for voice in VOICES}
    facts = {type(fact): fact for fact in samples.reasons()}
    assert set(facts) == set(differences.KINDS)
    for fact in facts.values():
        for voice in VOICES:
            words = getattr(fact, voice)()
            text = words if isinstance(words, str) else " ".join(words)
            assert text and text == " ".join(text.split()), (type(fact).__name__, voice)
            assert (text[-1] == ".") is (voice not in ("in_report", "as_line")), (type(fact).__name__, voice)
            told[voice].add(text)
    for voice, texts in told.items():
        # A part too many and a part missing are practised alike.
        assert len(texts) == len(facts) - (voice == "practise"), voice


@pytest.mark.parametrize("voice", [voice for voice in VOICES if voice != "as_line"])
def test_a_kind_without_one_of_its_voices_cannot_be_made(voice: str) -> None:
    dumb = type("DumbFact", (LeanFact,), {"__slots__": (), voice: getattr(ReasonFact, voice)})
    given: dict[str, Any] = {field.name: getattr(leaning(), field.name) for field in fields(LeanFact)}
    with pytest.raises(TypeError, match=voice):
        dumb(**given)


def test_a_made_up_kind_speaks_in_every_voice() -> None:
    fact = leaning()
    wrong = verdict(fact)
    assert choices.rule_out(wrong)[1:3] == ("Here it leans.", "It leans by 5.")
    assert choices.place_said(fact) == "Here it leans."
    assert choosing.not_this(wrong, fact) == (("Not B.", "In the ring, it leans by 5."), (fact,))
    entry = marking.marking_entry(wrong, ask_why="")
    assert entry.did.endswith(" It leans.") and entry.practise == "Practise standing upright."
    assert marking.reason_on_sheet(wrong) == "It leans."
    assert report.reason_in_brief(wrong) == "leaning by 5"
    assert fact.as_line() == "option B: leaning"


def test_a_made_up_kind_has_a_fingerprint_of_its_figures_and_its_place() -> None:
    fact = leaning()
    others = [leaning(degrees=6), leaning("C"), replace(fact, place=samples.HOLE)]
    assert len({other.fingerprint((0.0, 0.0)) for other in (fact, *others)}) == 4
    assert replace(fact, tolerance=1.0).fingerprint((0.0, 0.0)) == fact.fingerprint((0.0, 0.0))


def test_a_made_up_kind_is_marked_in_both_pictures() -> None:
    solution = load_solution(Path(__file__).parents[2] / "items" / "corner-block.yaml")
    wrong = next(each for each in solution.verdicts if not each.same)
    known = next(fact for fact in wrong.reasons if isinstance(fact, DifferenceFact))
    given: dict[str, Any] = {field.name: getattr(known, field.name) for field in fields(DifferenceFact)}
    fact, pictures = LeanFact(**given, degrees=5), Choices(solution=solution, theme=DEFAULT_THEME)
    laid = pictures.figure("An option on the outline.", laid=wrong, reason=fact)
    assert {"differs-ring", "differs-corner"} <= {entry.id for entry in laid.entries}
    alone = chosen(pictures.figure("The options."), pictures.cells, wrong, DEFAULT_THEME, "One is out.", fact=fact)
    assert {"chosen-ring", "chosen-corner"} <= {entry.id for entry in alone.entries}


def test_a_made_up_kind_is_found_at_its_rank(monkeypatch: pytest.MonkeyPatch) -> None:
    def leans(pair: Compared, place: Outline) -> Iterator[LeanFact]:
        yield LeanFact(**pair.at(place, (3.8, 3.8)), degrees=5)

    monkeypatch.setattr(search, "FINDERS", (leans, *differences.FINDERS))
    fit = Fit(motion=Similarity(), laid=samples.CLIPPED, extra=(), missing=(samples.TIP,), difference=0.5)
    found = search.reasons(
        label="B", option=samples.CLIPPED, outline=samples.SQUARE, fit=fit, mirrored=False, tolerance=samples.TOLERANCE
    )
    assert isinstance(found[0], LeanFact) and len({type(fact) for fact in found}) == len(found) > 1
