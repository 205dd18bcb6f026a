"""Sequences of edits drawn at random: what is shown is what the file says, undoing gives back every byte."""

from __future__ import annotations

import os
import re
from collections import Counter
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import HealthCheck, Phase, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, precondition, rule, run_state_machine_as_test
from test_sitting import CORNER

from explainers.editing.command import Command
from explainers.editing.field_commands import AddOption, ExchangeOption, MakeOptions, Remove, Reorder, SetField
from explainers.editing.outline_commands import (
    AddHole,
    InsertCorner,
    MoveCorner,
    RemoveCorner,
    SetCorners,
    SetReady,
    SetWalk,
)
from explainers.editing.outlines import ring_at
from explainers.editing.sheet import CannotEdit, Sheet
from explainers.intake.reader import scan_item
from explainers.kinds.registry import DEFAULT_KIND, kind_named
from explainers.table.sitting import Changed, Sitting

KIND = {command.asks: command for command in kind_named(DEFAULT_KIND).tools.commands}
REMARKED = CORNER.replace("title:", "# what it is called\ntitle:").replace("135\n", "135  # as it lies\n")
REMARKED = REMARKED.replace("  - piece: flag", "  # the flag\n  - piece: flag")

OWNERS = st.sampled_from(["base", "flag", None])
NUMBERS = st.sampled_from([0.0, 1.0, 2.0, 2.5, -1.0, 4.0, 2.8284271247])
POINTS = st.tuples(NUMBERS, NUMBERS)
RINGS = st.lists(POINTS, min_size=3, max_size=6).map(tuple)
OUTLINES = st.sampled_from(["base", "pieces[0]", "pieces[1]", "options[1]"])
SMALL = st.integers(0, 5)
SIDES = st.tuples(POINTS, POINTS) | st.integers(1, 4)
COMMANDS = st.one_of(
    st.builds(SetCorners, at=OUTLINES, corners=RINGS),
    st.builds(MoveCorner, at=OUTLINES, corner=SMALL, to=POINTS),
    st.builds(InsertCorner, at=OUTLINES, corner=SMALL, to=POINTS),
    st.builds(RemoveCorner, at=OUTLINES, corner=SMALL),
    st.builds(AddHole, at=st.just("base"), corners=RINGS),
    st.builds(SetWalk, at=OUTLINES, walk=st.just("right 4, up 2, left 4, close")),
    st.builds(SetReady, at=OUTLINES, ready=st.just("rectangle"), sizes=st.just({"wide": 3.0, "high": 2.0})),
    st.builds(SetField, at=st.sampled_from(["pieces[0].turned", "options[0].turned"]), value=NUMBERS),
    st.builds(SetField, at=st.just("title"), value=st.sampled_from(["A title", "yes", "a: b # c", 'say "it"', None])),
    st.builds(SetField, at=st.just("pieces[0].does"), value=st.sampled_from(["join", "cut"])),
    st.builds(Remove, at=st.sampled_from(["pieces[0]", "pieces[1]", "options[1]", "base.holes[0]"])),
    st.builds(Reorder, at=st.sampled_from(["pieces", "options"]), from_=SMALL, to=SMALL),
    st.builds(AddOption, slip=st.sampled_from(["flipped", "too-large", None]), turned=NUMBERS),
    st.builds(ExchangeOption, option=SMALL, corners=RINGS | st.none()),
    st.builds(MakeOptions, seed=SMALL),
    st.builds(KIND["add-piece"], corners=RINGS | st.none()),
    st.builds(KIND["rename-piece"], piece=SMALL, name=st.sampled_from(["wing", "fin"])),
    st.builds(KIND["marry"], piece=SMALL, side=SIDES, meets=SIDES | st.none(), of=OWNERS),
    st.builds(KIND["set-mark"], piece=SMALL, sign=st.sampled_from(["bell", None])),
    st.builds(KIND["set-mark"], piece=SMALL, mark=st.sampled_from(["K", "Q2"])),
)


def remarks(text: str) -> Counter[str]:
    return Counter(re.findall(r"# (?:A corner|what it|as it|the flag).*", text))


class Drawing(RuleBasedStateMachine):
    """One file, drawn on."""

    folder: Path
    count = 0

    def __init__(self) -> None:
        super().__init__()
        Drawing.count += 1
        self.path = self.folder / f"block-{Drawing.count}.yaml"
        self.path.write_text(REMARKED, encoding="utf-8")
        self.sitting = Sitting(self.path)
        self.texts = [REMARKED]  # as they stood after each change that can be undone
        self.place = 0

    @rule(command=COMMANDS)
    def edits(self, command: Command) -> None:
        before = self.sitting.text
        try:
            outcome = self.sitting.edit([command], self.sitting.revision)
        except CannotEdit:
            assert self.sitting.text == before
            return
        assert isinstance(outcome, Changed)
        if self.sitting.text != before:
            self.texts[self.place + 1 :] = [self.sitting.text]
            self.place += 1
        if not isinstance(command, Remove | ExchangeOption | MakeOptions):
            assert remarks(self.sitting.text) >= remarks(before), (command, before, self.sitting.text)
        if isinstance(command, MoveCorner):
            ring = ring_at(Sheet(text=self.sitting.text, order=self.sitting.order), command.at)
            assert ring is not None
            assert all(abs(a - b) <= 1e-3 for a, b in zip(ring[command.corner], command.to, strict=True))

    @precondition(lambda self: self.place > 0)
    @rule()
    def undoes(self) -> None:
        self.sitting.undo(self.sitting.revision)
        self.place -= 1

    @precondition(lambda self: self.place < len(self.texts) - 1)
    @rule()
    def does_again(self) -> None:
        self.sitting.redo(self.sitting.revision)
        self.place += 1

    @rule()
    def opens_again(self) -> None:
        text = self.sitting.text
        self.sitting.close()
        self.sitting = Sitting(self.path)
        assert self.sitting.text == text
        self.texts, self.place = [text], 0

    @invariant()
    def what_is_shown_is_what_the_file_says(self) -> None:
        sitting = self.sitting
        assert sitting.text == self.texts[self.place]
        reading, file = sitting.reading(), scan_item(self.path)
        assert not file.faults and file.item is not None
        if not reading.faults:
            assert sitting.is_saved and self.path.read_text(encoding="utf-8") == sitting.text
            assert file.item == reading.item

    def teardown(self) -> None:
        while self.place:
            self.undoes()
            assert self.sitting.text == self.texts[self.place]
        while self.place < len(self.texts) - 1:
            self.does_again()
            assert self.sitting.text == self.texts[self.place]
        self.sitting.close()


def test_what_is_shown_is_what_is_read_back(
    tmp_path: Path, cases: Callable[[int, int], int], monkeypatch: pytest.MonkeyPatch
) -> None:
    # The disk is waited for in test_killed; here that would be most of the time.
    monkeypatch.setattr(os, "fsync", lambda handle: None)
    Drawing.folder = tmp_path
    run_state_machine_as_test(
        Drawing,
        settings=settings(
            max_examples=cases(60, 2000),
            stateful_step_count=20,
            deadline=None,
            phases=[Phase.generate],  # what fails is short as it is
            suppress_health_check=list(HealthCheck),
        ),
    )
