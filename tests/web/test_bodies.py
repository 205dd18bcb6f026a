"""What a page sends is taken only where it is plain JSON of a bounded depth."""

from __future__ import annotations

import json
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from explainers.web.bodies import MOST_DEPTH, BadBody, json_in

PLAIN = st.recursive(
    st.none() | st.booleans() | st.integers(-(10**12), 10**12) | st.floats(-1e6, 1e6) | st.text(max_size=20),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=8), inner, max_size=4),
    max_leaves=12,
)


@given(PLAIN)
def test_what_is_plain_is_taken_as_it_is(value: Any) -> None:
    assert json_in(json.dumps(value).encode()) == value


@pytest.mark.parametrize(
    "body",
    [b"", b"{", b"[1, NaN]", b"Infinity", b"-Infinity", b"1e999", b"9" * 5000, b"0." + b"1" * 5000, b"\xff\xfe{}",
     b'{"a": 1, "a": 2}', b"[" * 100_000, b"[" * 17 + b"]" * 17, b'{"a":' * 17 + b"1" + b"}" * 17,
     b'["a\\"[[", ' + b"[" * 17 + b"]" * 17 + b"]", b"[1,]", b"'a'", b"\x00"],
)  # fmt: skip
def test_what_is_not_is_refused(body: bytes) -> None:
    with pytest.raises(BadBody):
        json_in(body)


def test_brackets_within_a_text_are_no_depth() -> None:
    assert json_in(json.dumps("[" * 200 + '"{{').encode()) == "[" * 200 + '"{{'
    assert json_in(b"[" * MOST_DEPTH + b"]" * MOST_DEPTH) is not None
