"""The soundness certificate in words: plain lines for a teacher, each true by a fact or a figure of the certificate."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from ...words.names import a_turn_in_words, is_no_turn, list_in_words, sentence_case, the_option
from ..certificate import AcceptedWarning, Alignment, Certificate, Difference, OptionProof
from ..features import LEAST_S, MOST_S, TURNING_DEG_PER_S, PausePart
from ..model import Verdict
from ..printed import OPTION_MM
from .report import reason_in_brief

__all__ = [
    "PAUSE_SOURCE",
    "PAUSE_SOURCE_IN_BRIEF",
    "certificate_lines",
    "difference_in_brief",
    "pause_in_brief",
    "print_scale",
    "repeat_line",
]

PAUSE_SOURCE_IN_BRIEF = (
    "Pauses are estimates from published turning rates (Shepard & Metzler 1971, Cooper 1975); more with --certificate."
)
PAUSE_SOURCE = (
    f"Pauses are estimates: turning in the mind at about {TURNING_DEG_PER_S:g} degrees a second (Shepard & Metzler "
    "1971, rate quoted from memory), whatever the number of corners (Cooper 1975); the time for reading and comparing "
    "is judgement, set so that a typical item gets about 30 s, which is common practice without a source."
)

_INDENT = "   "


def certificate_lines(certificate: Certificate) -> list[str]:
    """The whole certificate, a heading and indented lines."""
    solution = certificate.solution
    lines = [f"{solution.item.title} ({solution.item.name}): {_verdict(certificate)}"]
    lines += [_INDENT + reason for reason in solution.unsound_because]
    lines += [_INDENT + _proof(proof) for proof in certificate.proofs]
    lines.append(_INDENT + _symmetry(solution.symmetry_order, outline_given=solution.item.outline_given))
    lines += [_INDENT + line for line in _unfair(certificate)]
    asked_for = list(certificate.features.told())
    if asked_for:
        lines.append(f"{_INDENT}It asks for {list_in_words(asked_for)}.")
    lines.append(_INDENT + _pause(certificate.pause_s, certificate.features.pause_parts()))
    return lines


def print_scale(*, outline_given: bool) -> str:
    """What millimetres are measured on, said once below certificates.

    outline_given : as `Question.outline_given`, of any of the questions
    """
    what = "outline" if outline_given else "finished outline"
    return f"Millimetres are those of an A4 sheet on which the {what} is {OPTION_MM:g} mm across."


def pause_in_brief(pause_s: float) -> str:
    """The suggested pause, as a phrase that says what it is."""
    return f"a pause to try first: about {pause_s:g} s (an estimate)"


def repeat_line(name: str, earlier: str, *, flipped: bool) -> str:
    """Two items that ask the same."""
    how = "flipped over" if flipped else "up to turning, scale and names"
    return f"{name} is the same question as {earlier}, {how}."


def difference_in_brief(verdict: Verdict, difference: Difference) -> str:
    """The proof that an option is not the outline, as a phrase."""
    if difference.fact is None:
        return "no turn, shift and scale lays it on the outline, but no place is far enough off to be pointed at"
    return reason_in_brief(replace(verdict, reasons=(difference.fact,), slip=None))


def _verdict(certificate: Certificate) -> str:
    solution = certificate.solution
    if not solution.sound:
        return "not sound"
    if not certificate.holds:
        return f"{the_option(str(solution.key))} fits, but a proof did not hold when it was gone over again"
    return f"sound; {the_option(str(solution.key))} alone is right"


def _proof(proof: OptionProof) -> str:
    verdict = proof.verdict
    if proof.alignment is not None:
        return f"{verdict.label} is right: {_alignment(proof.alignment)}."
    assert proof.difference is not None
    text = f"{verdict.label} is wrong: {difference_in_brief(verdict, proof.difference)}; "
    text += f"laid on as well as it can be, it is up to {_about_mm(proof.difference.gap_mm)} off."
    if proof.difference.slip is not None:
        text += f" What gives it: {proof.difference.slip.in_brief()}."
    return text


def _alignment(alignment: Alignment) -> str:
    turn = "without a turn" if is_no_turn(alignment.turn_deg) else f"after {a_turn_in_words(alignment.turn_deg)}"
    scale = f"at {alignment.scale:.4g} times its size" if abs(alignment.scale - 1.0) > 1e-6 else "at its own size"
    return f"{turn}, {scale}, no corner is more than {_at_most_mm(alignment.corners_off_mm)} from its partner"


def _about_mm(length_mm: float) -> str:
    """One decimal for what is told apart by eye, two for less."""
    return f"about {length_mm:.1f} mm" if length_mm >= 1.0 else f"about {length_mm:.2g} mm"


def _at_most_mm(length_mm: float) -> str:
    """Hundredths, rounded up, so that "no more than" stays true; what is left of rounding errors is 0."""
    hundredths = math.ceil(length_mm * 100.0 - 1e-6)
    return f"{hundredths / 100:g} mm"


def _symmetry(order: int, *, outline_given: bool) -> str:
    what = "The outline" if outline_given else "The finished outline"
    positions = "one turned position only" if order == 1 else f"{order} turned positions"
    return f"{what} looks the same in {positions} (symmetry order {order})."


def _unfair(certificate: Certificate) -> Iterator[str]:
    warnings = certificate.solution.warnings
    if not warnings:
        yield "What could make it unfair: nothing" + (" beside what is accepted." if certificate.accepted else ".")
    else:
        yield "What could make it unfair:"
    for warning in warnings:
        yield f"{_INDENT}{warning.kind}: {warning.field}: {warning.told}"
    for accepted in certificate.accepted:
        yield _accepted(accepted)


def _accepted(accepted: AcceptedWarning) -> str:
    entry = accepted.entry
    if not accepted.warnings:
        return f"Accepted, but not needed: {entry.kind} ({entry.reason}); nothing of that kind is found."
    what = "; ".join(f"{warning.field}: {warning.message}" for warning in accepted.warnings)
    return f"Accepted: {entry.kind} ({entry.reason}), which silences: {what}."


def _pause(pause_s: float, parts: tuple[PausePart, ...]) -> str:
    sums = list_in_words([f"{part.words} {part.seconds:.0f}" for part in parts if part.seconds >= 0.5])
    return (
        f"{sentence_case(pause_in_brief(pause_s))}; in seconds: {sums}; in whole fives, from {LEAST_S:g} to {MOST_S:g}."
    )
