"""Equal content, equal key; any change that can be seen, another key."""

from __future__ import annotations

from dataclasses import replace

import pytest
from storyboard.sample_board import sheet, shifted, slid

from explainers.figure.model import Area
from explainers.frames.content_key import content_key, drawing_key, drawing_keys


def test_the_key_is_the_same_in_every_run_and_on_every_machine() -> None:
    # A known answer: str hashes differ from run to run, this must not.
    assert content_key(("a", 1.5, None)) == "a5a34e878ea57519815dcec7"


def test_noise_in_the_last_digits_redraws_nothing() -> None:
    figure = sheet()
    assert content_key(shifted(figure, (1e-9, -1e-9))) == content_key(figure)
    assert content_key(shifted(figure, (1e-5, 0.0))) != content_key(figure)
    assert content_key(-0.0) == content_key(0.0) == content_key(0) == content_key(-1e-9)


def test_every_field_of_a_figure_counts() -> None:
    figure = sheet()
    cloth = figure.entry("base.cloth")
    assert isinstance(cloth, Area)
    keys = {content_key(figure), content_key(replace(figure, background="#000000"))}
    for changed in (
        replace(cloth, fill="#FFFFFF"),
        replace(cloth, opacity=0.5),
        replace(cloth, dash=(0.1, 0.1)),
        replace(cloth, alt="Another"),
        replace(cloth, rings=cloth.rings[:1]),
        replace(cloth, id="other"),
    ):
        entries = tuple(changed if entry is cloth else entry for entry in figure.entries)
        keys.add(content_key(replace(figure, entries=entries)))
    assert len(keys) == 8


def test_what_is_only_read_is_not_drawn_again() -> None:
    figure = sheet()
    assert drawing_key(replace(figure, alt="Other words")) == drawing_key(figure)
    assert content_key(replace(figure, alt="Other words")) != content_key(figure)
    motion = slid(figure)
    assert drawing_key(replace(motion, seconds=9.0)) == drawing_key(motion)
    assert drawing_key(replace(motion, end=figure)) != drawing_key(motion)


def test_trees_of_other_shapes_have_other_keys() -> None:
    assert (
        len({content_key(v) for v in (("ab", "c"), ("a", "bc"), (("a", "bc"),), ("a", ("bc",)), "abc", True, 1)}) == 7
    )


def test_what_has_no_content_is_refused() -> None:
    with pytest.raises(TypeError, match="no content"):
        content_key(object())


def test_values_that_share_parts_have_the_keys_that_each_has_alone() -> None:
    figure = sheet()
    first = figure.entries[0]
    values = [
        figure,
        slid(figure),
        replace(figure, background="#000000"),
        replace(figure, entries=(first,)),
        first,
    ]
    assert list(drawing_keys([*values, *values])) == [drawing_key(value) for value in [*values, *values]]
