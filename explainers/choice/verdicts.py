"""Each option kept or ruled out, laid on the outline as well as it can be."""

from __future__ import annotations

from ..geometry import overlay
from ..geometry.angles import wrapped_deg
from ..geometry.congruence import Congruence, Match, congruence
from ..geometry.fit import best_fit
from ..geometry.outline import Outline
from ..geometry.rigid_motion import Similarity
from .fact import Fact
from .fit import Fit
from .model import Judgement, Verdict
from .option_codes import option_codes
from .question import OPTION_LABELS, Option, Question
from .reasons import reasons
from .same import SameFact
from .slip import FLIPPED, SlipCase, SlipFact, Slips

__all__ = ["judgements", "verdicts"]


def judgements(outlines: tuple[Outline, ...], outline: Outline, tolerance: float) -> tuple[Judgement, ...]:
    """Which options are the finished outline, which are it turned over; no more than that.

    outlines : of the options, in their own coordinates
    """
    return tuple(
        _judged(label, shape, congruence(shape, outline, tolerance))
        for label, shape in zip(OPTION_LABELS, outlines, strict=False)
    )


def _judged(label: str, shape: Outline, relation: Congruence) -> Judgement:
    return Judgement(
        label=label,
        outline=shape,
        same=relation.kind is Match.BY_TURNING,
        mirrored=relation.kind is Match.MIRROR_ONLY,
    )


def verdicts(
    item: Question, outlines: tuple[Outline, ...], slips: Slips, *, pairs: bool = False
) -> tuple[Verdict, ...]:
    """One verdict an option, in their order.

    outlines : of the options, in their own coordinates
    slips    : of the item
    pairs    : whether pairs of slips are sought for options that no single one makes
    """
    codes = option_codes(item, outlines)
    return tuple(
        _verdict(label, code, option, shape, slips, pairs=pairs)
        for label, code, option, shape in zip(OPTION_LABELS, codes, item.options, outlines, strict=False)
    )


def _verdict(label: str, code: str, option: Option, shape: Outline, slips: Slips, *, pairs: bool) -> Verdict:
    outline, tolerance = slips.outline, slips.tolerance
    relation = congruence(shape, outline, tolerance)
    judged = _judged(label, shape, relation)
    drawn = Similarity(turn_deg=wrapped_deg(option.turned), scale=option.scale)
    if judged.same:
        fit, fact = _laid_on(label, option, shape, outline, relation.motions, tolerance)
        because: tuple[Fact, ...] = (fact,)
        slip = None
    else:
        fit, mirrored = _as_well_as_can_be(option, shape, outline, tolerance), judged.mirrored
        because = reasons(label=label, option=shape, outline=outline, fit=fit, mirrored=mirrored, tolerance=tolerance)
        slip = _slip(label, option, shape, slips, mirrored=mirrored, pairs=pairs)
    return Verdict(
        label=label,
        code=code,
        outline=shape,
        drawn=drawn,
        same=judged.same,
        mirrored=judged.mirrored,
        fit=fit,
        reasons=because,
        slip=slip,
    )


def _slip(label: str, option: Option, shape: Outline, slips: Slips, *, mirrored: bool, pairs: bool) -> SlipFact | None:
    """The slip that the file names, or the one that makes an outline drawn by hand."""
    if option.slip is not None:
        return slips.fact_of(label, (SlipCase(slip=option.slip, subject=option.slip_subject),), shape)
    if mirrored:
        return slips.fact_of(label, (SlipCase(slip=FLIPPED),), shape)
    return slips.diagnosed(label, shape, pairs=pairs)


def _laid_on(
    label: str,
    option: Option,
    shape: Outline,
    outline: Outline,
    motions: tuple[Similarity, ...],
    tolerance: float,
) -> tuple[Fit, SameFact]:
    """A right option on the outline, by the shortest turn from the way the sheet shows it."""

    def turn_deg(motion: Similarity) -> float:
        return wrapped_deg(motion.turn_deg - option.turned)

    motion = min(motions, key=lambda motion: (round(abs(turn_deg(motion)), 6), -turn_deg(motion)))
    fact = SameFact(
        tolerance=tolerance,
        label=label,
        option=shape,
        outline=outline,
        motion=motion,
        shown_turn_deg=option.turned,
        turn_deg=turn_deg(motion),
    )
    fit = Fit(motion=motion, laid=shape.moved(motion), extra=(), missing=(), difference=0.0)
    return fit, fact


def _as_well_as_can_be(option: Option, shape: Outline, outline: Outline, tolerance: float) -> Fit:
    best = best_fit(shape, outline, scales=(1.0, option.scale), shown_turn_deg=option.turned)
    laid = overlay.drawn_to(shape.moved(best.motion), outline, tolerance)
    extra = overlay.regions(laid, outline, tolerance)
    missing = overlay.regions(outline, laid, tolerance)
    if not extra and not missing:  # they differ by slivers only, a nearly right option: show the widest
        extra = overlay.regions(laid, outline, 0.0)[:1]
        missing = () if extra else overlay.regions(outline, laid, 0.0)[:1]
    difference = sum(place.area for place in (*extra, *missing))
    return Fit(motion=best.motion, laid=laid, extra=extra, missing=missing, difference=difference)
