"""Widths, outlines and boxes of text."""

from __future__ import annotations

import hashlib
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from explainers.errors import FontError
from explainers.figure.model import Align, Label, Role
from explainers.typeface import faces
from explainers.typeface.faces import face, label_box, label_disc_radius

# Measured with another shaper (HarfBuzz, in Chromium's canvas measureText at 1000 px), rounded to whole units; it gave
# each within 0.02. Without kerning "AVATAR" would be wider, so that a lost kerning table is seen.
MEASURED = [
    ("AVATAR", 3377, 3709),
    ("Turn the flag by 135°.", 9188, 10142),
    ("To join: W, Y, T.", 6587, 7262),
    ("Which outline is it?", 8405, 9246),
    ("“Kite” – Ky", 4610, 5134),
    ("fi ffi AWAY rv.", 5868, 6648),
]
WORDS = st.text(alphabet="ABKMRVWaefgjlpy 0123456789°.,?", min_size=1, max_size=12)


def label(text: str, *, at: tuple[float, float] = (3.0, 4.0), align: Align = Align.MIDDLE, size: float = 0.5) -> Label:
    return Label(
        id="x", group="x", role=Role.WORD, text=text, at=at, size=size, colour="#000000", bold=True, align=align
    )


@pytest.mark.parametrize(("text", "regular", "bold"), MEASURED)
def test_widths_agree_with_another_shaper(text: str, regular: int, bold: int) -> None:
    assert face(False).width(text, 1000.0) == pytest.approx(regular, abs=0.5)
    assert face(True).width(text, 1000.0) == pytest.approx(bold, abs=0.5)


def test_kerning_draws_letters_together() -> None:
    regular = face()
    assert regular.width("AV", 1.0) < regular.width("A", 1.0) + regular.width("V", 1.0)
    assert regular.width("HH", 1.0) == pytest.approx(2 * regular.width("H", 1.0))


def test_a_missing_glyph_is_named() -> None:
    with pytest.raises(FontError, match=r"'→' \(U\+2192\)"):
        face().width("turn → join", 1.0)


def test_a_missing_package_says_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(faces, "_PACKAGE", "no_such_typeface")
    face.cache_clear()
    try:
        with pytest.raises(FontError, match="pip install fontpkg-atkinson-hyperlegible"):
            face()
    finally:
        face.cache_clear()


def test_the_hash_is_that_of_the_file() -> None:
    bold = face(True)
    assert bold.file_hash == hashlib.sha256(bold.path.read_bytes()).hexdigest()
    assert bold.file_hash != face(False).file_hash


def test_a_weight_is_opened_once() -> None:
    assert face(True) is face(True)


def test_outlines_fill_the_ink_box(cases: Callable[[int, int], int]) -> None:
    @settings(max_examples=cases(40, 600), deadline=None)
    @given(text=WORDS, size=st.floats(0.1, 3.0))
    def law(text: str, size: float) -> None:
        bold = face(True)
        points = [point for _, points in bold.glyph_paths(text, size) for point in points]
        left, bottom, right, top = bold.ink(text, size)
        if not points:
            assert not text.strip()
            return
        xs, ys = zip(*points, strict=True)
        assert (min(xs), min(ys), max(xs), max(ys)) == pytest.approx((left, bottom, right, top))

    law()


def test_every_outline_is_closed() -> None:
    verbs = [verb for verb, _ in face().glyph_paths("Bag 8°", 1.0)]
    assert verbs.count("M") == verbs.count("Z") > 6  # letters with holes have several contours
    assert verbs[0] == "M"
    assert verbs[-1] == "Z"


def test_the_box_grows_from_the_named_end() -> None:
    width = face(True).width("Join", 0.5)
    boxes = {align: label_box(label("Join", align=align)) for align in Align}
    assert boxes[Align.START][0] == pytest.approx(3.0)
    assert boxes[Align.END][2] == pytest.approx(3.0)
    assert boxes[Align.MIDDLE][0] == pytest.approx(3.0 - width / 2)
    assert {round(box[2] - box[0], 9) for box in boxes.values()} == {round(width, 9)}


def test_a_capital_is_centred_on_its_place() -> None:
    _, bottom, _, top = label_box(label("K"))
    assert (bottom + top) / 2 == pytest.approx(4.0, abs=0.002)
    assert top - bottom == pytest.approx(face(True).cap_height(0.5), abs=0.004)


def test_hanging_letters_reach_below_the_baseline() -> None:
    assert label_box(label("Kg"))[1] < label_box(label("K"))[1] - 0.05
    assert face(True).descent(1.0) < 0 < face(True).cap_height(1.0) < face(True).ascent(1.0)


def test_the_disc_holds_the_box(cases: Callable[[int, int], int]) -> None:
    @settings(max_examples=cases(40, 600), deadline=None)
    @given(text=WORDS, align=st.sampled_from(list(Align)))
    def law(text: str, align: Align) -> None:
        drawn = label(text, align=align)
        left, bottom, right, top = label_box(drawn)
        radius = label_disc_radius(drawn)
        for x in (left, right):
            for y in (bottom, top):
                assert (x - 3.0) ** 2 + (y - 4.0) ** 2 <= radius**2 * (1 + 1e-9)

    law()
