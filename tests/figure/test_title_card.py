"""The card of a title: every line on the stage, none over another, however long they are."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from explainers.figure.cards import title_figure
from explainers.figure.model import CAPTION_TOP, STAGE_WIDTH, Area, Figure, Label
from explainers.figure.theme import DEFAULT_THEME
from explainers.figure.theme_checks import LEAST_TYPE
from explainers.typeface.faces import label_box

WORDS = st.text(alphabet="abcdefgmw ", min_size=1, max_size=120).map(lambda text: text.strip() or "a")


def rows(figure: Figure) -> list[Label]:
    return [entry for entry in figure.entries if isinstance(entry, Label)]


@pytest.mark.parametrize("lines", [("A",), ("A title", "a line"), ("mw " * 40,), ("mw " * 40, *["mw " * 27] * 4)])
def test_all_rows_fit(lines: tuple[str, ...]) -> None:
    check(lines)


@settings(max_examples=40, deadline=None)
@given(st.lists(WORDS, min_size=1, max_size=5).map(tuple))
def test_any_lines_fit(lines: tuple[str, ...]) -> None:
    check(lines)


def check(lines: tuple[str, ...]) -> None:
    figure = title_figure(lines, "", DEFAULT_THEME)
    labels = rows(figure)
    assert " ".join(label.text for label in labels).split() == " ".join(lines).split(), "no word is lost"
    boxes = [label_box(label) for label in labels]
    for label, (left, bottom, right, _) in zip(labels, boxes, strict=True):
        assert label.size >= LEAST_TYPE
        if " " in label.text:  # a single word cannot be cut
            assert left > 0.2 and right < STAGE_WIDTH - 0.2
        assert bottom > CAPTION_TOP
    for above, below in pairwise(boxes):
        assert below[3] <= above[1] + 1e-6
    foot = min(y for entry in figure.entries if isinstance(entry, Area) for ring in entry.rings for _, y in ring)
    top = max(y for entry in figure.entries if isinstance(entry, Area) for ring in entry.rings for _, y in ring)
    assert boxes[0][3] < foot and top < 8.0
