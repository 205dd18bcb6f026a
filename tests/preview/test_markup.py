"""Text never becomes markup, whatever it is made of."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st
from pages_read import read_page

from explainers.preview.markup import Markup, element, joined, text


@given(words=st.text(), value=st.text())
def test_text_and_attributes_come_back_as_they_were_and_add_no_element(words: str, value: str) -> None:
    page = read_page(element("p", words, title=value))
    assert page.well_nested
    assert [tag for tag, _ in page.elements] == ["p"]
    shown = str(text(words))
    assert "<" not in shown and ">" not in shown and '"' not in shown


@given(words=st.text(alphabet=st.characters(categories=("L", "N", "P", "S")), min_size=1))
def test_what_can_be_shown_is_shown(words: str) -> None:
    page = read_page(element("p", words, title=words))
    assert "".join(data for _, data in page.texts) == words
    assert page.elements[0][1]["title"] == words


def test_only_finished_markup_is_left_as_it_is() -> None:
    made = element("b", "1 < 2")
    assert element("p", made) == "<p><b>1 &lt; 2</b></p>"
    assert element("p", str(made)) == "<p>&lt;b&gt;1 &amp;lt; 2&lt;/b&gt;</p>"
    assert joined(["<", Markup("<i></i>")]) == "&lt;<i></i>"


def test_half_a_pair_of_surrogates_can_be_sent() -> None:
    assert element("p", "\ud800 name").encode("utf-8")
