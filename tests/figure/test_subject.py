"""Whatever is drawn of one thing says of which, so that nobody has to read it out of the names of groups and ids."""

from __future__ import annotations

from collections import defaultdict
from functools import cache
from pathlib import Path

import pytest

from explainers.figure.model import Entry, Figure, Label, Role
from explainers.figure.subject import THE_OUTLINE, Subject, Thing, option_subject
from explainers.intake.workspace import load_solution
from explainers.kinds.join_and_cut.drawing.assembly_drawing import THE_BASE, piece_subject
from explainers.lesson.planner import plan_item

ITEMS = Path(__file__).parents[2] / "items"
CLOTH = {
    "base": "base",
    Role.SEAM: "base",
    "join": "piece",
    "cut": "piece",
    Role.OUTLINE: Thing.OUTLINE,
    Role.OPTION: Thing.OPTION,
}
# One piece; a piece that meets a piece, so that marks lie on pieces too; options that are slips.
NAMES = ("corner-block", "gate-block", "twin-block")


@cache
def stills(name: str) -> tuple[Figure, ...]:
    return tuple(still for step in plan_item(load_solution(ITEMS / f"{name}.yaml")).steps for still in step.stills)


def test_the_group_of_a_thing_is_made_from_it() -> None:
    assert [piece_subject(0).group, option_subject("B").group] == ["piece-1", "option-b"]
    assert [THE_BASE.group, THE_OUTLINE.group] == ["base", "outline"]


@pytest.mark.parametrize("name", NAMES)
def test_all_cloth_says_whose_it_is(name: str) -> None:
    seen = set()
    for entry in (entry for figure in stills(name) for entry in figure.entries if entry.role in CLOTH):
        assert entry.subject is not None and entry.subject.thing == CLOTH[entry.role], entry.id
        assert entry.group == entry.subject.group, entry.id
        seen.add(entry.role)
    assert {"base", Role.OUTLINE, Role.OPTION} < seen


@pytest.mark.parametrize("name", NAMES)
def test_what_moves_with_a_thing_belongs_to_it(name: str) -> None:
    for figure in stills(name):
        groups: dict[str, set[Subject | None]] = defaultdict(set)
        for entry in figure.entries:
            groups[entry.group].add(entry.subject)
        for group, subjects in groups.items():
            own = {subject for subject in subjects if subject is not None and subject.group == group}
            assert not own or own == subjects, f"{group} holds {subjects}"


@pytest.mark.parametrize("name", NAMES)
def test_the_letter_of_an_option_is_its_subjects_name(name: str) -> None:
    def letters(entries: tuple[Entry, ...]) -> list[tuple[str, str]]:
        labels = (entry for entry in entries if isinstance(entry, Label) and entry.subject is not None)
        return [(label.text, label.subject.name) for label in labels if label.subject.thing == Thing.OPTION]

    found = [letters(figure.entries) for figure in stills(name)]
    assert any(len(each) == 5 for each in found)
    assert all(text == of for each in found for text, of in each)
