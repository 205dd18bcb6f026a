"""Stage units on a page."""

from __future__ import annotations

from explainers.frames.page import HD_PX, SLIDE_EMU, SLIDE_PT, Page


def test_the_corners_of_the_stage_are_the_corners_of_the_page() -> None:
    assert HD_PX.point((0.0, 9.0)) == (0.0, 0.0)
    assert HD_PX.point((16.0, 0.0)) == (1920.0, 1080.0)
    assert (HD_PX.unit, HD_PX.height) == (120.0, 1080.0)


def test_a_slide_is_13_333_by_7_5_inches() -> None:
    assert (SLIDE_EMU.width / 914_400, SLIDE_EMU.height / 914_400) == (40 / 3, 7.5)
    assert (SLIDE_PT.width, SLIDE_PT.height) == (960.0, 540.0)


def test_type_of_32_px_is_16_points_on_a_slide() -> None:
    assert SLIDE_PT.length(32 / 120) == 16.0


def test_a_stage_may_lie_anywhere_on_a_page() -> None:
    page = Page(800.0, left=100.0, top=50.0)
    assert page.unit == 50.0
    assert page.point((0.0, 9.0)) == (100.0, 50.0)
    assert page.point((16.0, 0.0)) == (900.0, 50.0 + page.height)
    assert page.length(2.0) == 100.0, "lengths know no place"
