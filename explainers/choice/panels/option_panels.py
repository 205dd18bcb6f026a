"""What the options are: each as the sheet shows it, and laid on the outline, with its verdict."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from ...document.notation import shown
from ...figure.model import Role
from ...figure.theme import Theme
from ...geometry.outline import Outline
from ...geometry.rings import extent
from ...words.names import sentence_case
from ..differences.difference import DifferenceFact
from ..model import Solution, Verdict
from ..question import Option
from ..words.choices import reasons_known
from ..words.report import reason_in_brief
from .grid import scale_to_fit
from .named_sides import closing_lines
from .plot import Plot
from .remarks import Remarks
from .view import Panel, PanelPicture

__all__ = ["option_panels"]

_SHOWN = 2.24  # room for the largest option
_LAID = (3.0, 2.8)


def option_panels(solution: Solution, remarks: Remarks, line_of: Callable[[str], int], theme: Theme) -> Iterator[Panel]:
    """One panel an option, in the order of the file; all are drawn at one scale, as on the sheet."""
    drawn = [verdict.outline.moved(verdict.drawn) for verdict in solution.verdicts]
    boxes = [extent(outline.exterior) for outline in drawn]
    largest = max((max(right - left, top - bottom) for left, bottom, right, top in boxes), default=1.0)
    made = solution.item.made is not None
    called = "the outline" if solution.item.outline_given else "the finished outline"
    for index, (verdict, outline, option) in enumerate(
        zip(solution.verdicts, drawn, solution.item.options, strict=True)
    ):
        name = f"option-{verdict.label}"
        word, sign = _verdict(verdict)
        yield Panel(
            name=name,
            heading=f"Option {verdict.label}",
            word=word,
            sign=sign,
            line=line_of("options" if made else f"options[{index}]"),
            pictures=(
                _as_shown(verdict, outline, option, _SHOWN / largest, remarks, name, theme),
                _laid(verdict, solution.outline, called, remarks, name, theme),
            ),
            lines=(
                f"{sentence_case(reason_in_brief(verdict))}.",
                _given(option, called, made),
                *closing_lines(solution.item, f"options[{index}]"),
            ),
            remarks=remarks.of(name),
        )


def _verdict(verdict: Verdict) -> tuple[str, str]:
    if verdict.same:
        return "fits", "right"
    return ("out: flipped over" if verdict.mirrored else "out"), "wrong"


def _given(option: Option, called: str, made: bool) -> str:
    how = "made for you" if made else "written in the file"
    if option.corners is not None:
        what = f"drawn by its {len(option.corners)} corners"
    elif option.slip is None:
        what = called
    else:
        of = f" of {option.slip_subject}" if option.slip_subject else ""
        what = f"the slip {option.slip}{of}"
    size = "" if option.scale == 1.0 else f", scale {shown(option.scale)}"
    return f"{sentence_case(how)}: {what}, turned {shown(option.turned)}°{size}."


def _as_shown(
    verdict: Verdict, outline: Outline, option: Option, scale: float, remarks: Remarks, name: str, theme: Theme
) -> PanelPicture:
    # Room for the numbers of corners, and for a ring at a corner.
    margin = 0.48 if option.corners or remarks.of(name) else 0.16
    plot = Plot(outline.rings, scale, theme, grid=False, margin=margin)
    plot.material(outline, Role.OPTION, theme.option)
    if option.corners is not None:
        remarks.keep_free(plot, name)
        plot.corners(verdict.drawn.apply(option.corners))
    remarks.draw(plot, name)
    return plot.picture(f"Option {verdict.label} as the sheet shows it", "as the sheet shows it")


def _laid(verdict: Verdict, result: Outline, called: str, remarks: Remarks, name: str, theme: Theme) -> PanelPicture:
    laid, fit = verdict.fit.laid, verdict.fit
    rings = (*result.rings, *laid.rings)
    plot = Plot(rings, scale_to_fit(rings, *_LAID), theme, margin=0.32)
    plot.material(result, Role.OUTLINE, theme.outline, width=0.024)
    for places, pattern_name in ((fit.extra, "lines"), (fit.missing, "dots")):
        for place in places:
            plot.material(place, Role.WRONG, theme.table, width=0.0)
            plot.pattern(place, pattern_name, theme.wrong, Role.WRONG, fine=True)
    if verdict.same:
        plot.material(laid, Role.OPTION, stroke=theme.right, width=theme.outline_width)
    else:
        plot.material(laid, Role.OPTION, width=0.048, dash=theme.dash)
    facts = () if verdict.same else reasons_known(verdict)
    if facts and isinstance(facts[-1], DifferenceFact):
        plot.ring(facts[-1].ring_centre)
    remarks.draw(plot, name, "laid")
    told = ["lines: too much"] * bool(fit.extra) + ["dots: missing"] * bool(fit.missing)
    caption = f"laid on {called}" + (f" ({', '.join(told)})" if told and not verdict.same else "")
    return plot.picture(f"Option {verdict.label} laid on {called}", caption)
