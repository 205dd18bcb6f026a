"""What `explainers check --certificate` prints: a certificate an item, for a reader or for a program."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from .check_report import warning_json
from .outcomes import Outcome
from .streams import say

if TYPE_CHECKING:
    from ..solution.certificate import Certificate, OptionProof

__all__ = ["certificate_json", "show_certificate", "show_footnotes", "show_repeats", "with_repeats"]

Repeated = tuple[Outcome, bool]  # the first file that asks the same, whether it must be flipped for that


def with_repeats(outcomes: Iterable[Outcome]) -> Iterator[tuple[Outcome, Repeated | None]]:
    """Each outcome as it comes, with the earlier one whose question is the same."""
    from ..solution.same_question import Asked

    asked = Asked()
    solved: list[Outcome] = []
    for outcome in outcomes:
        if outcome.solution is None:
            yield outcome, None
            continue
        repeat = asked.again(outcome.solution)
        solved.append(outcome)
        yield outcome, None if repeat is None else (solved[repeat.earlier], repeat.likeness.flipped)


def certificate_json(outcome: Outcome, repeated: Repeated | None) -> dict[str, Any]:
    """One item's certificate as plain values; or its faults."""
    if outcome.solution is None:
        return outcome.refusal()
    from ..solution.certificate import certificate
    from ..solution.printed import OPTION_MM
    from ..wording.certificate import PAUSE_SOURCE

    made = certificate(outcome.solution)
    solution = made.solution
    return {
        "item": solution.item.name,
        "sound": solution.sound,
        "key": solution.key,
        "because": list(solution.unsound_because),
        "holds": made.holds,
        "outline_mm": OPTION_MM,
        "options": [_option(proof) for proof in made.proofs],
        "symmetry_order": solution.symmetry_order,
        "warnings": [warning_json(warning) for warning in solution.warnings],
        "accepted": _accepted(made),
        "features": asdict(made.features),
        "pause": {
            "seconds": made.pause_s,
            "estimate": True,
            "source": PAUSE_SOURCE,
            "parts": {part.work: round(part.seconds, 3) for part in made.pause_parts},
        },
        "same_question_as": None if repeated is None else _same(*repeated),
    }


def _option(proof: OptionProof) -> dict[str, Any]:
    from ..wording.certificate import difference_in_brief

    shown: dict[str, Any] = {"label": proof.verdict.label, "same": proof.verdict.same}
    if proof.alignment is not None:
        shown["alignment"] = asdict(proof.alignment)
    if proof.difference is not None:
        slip = proof.difference.slip
        shown["difference"] = {
            "reason": difference_in_brief(proof.verdict, proof.difference),
            "gap_mm": proof.difference.gap_mm,
            "slips": [] if slip is None else [{"slip": case.slip, "piece": case.piece} for case in slip.cases],
        }
    return shown


def _accepted(made: Certificate) -> list[dict[str, Any]]:
    return [
        {
            "kind": accepted.entry.kind.value,
            "reason": accepted.entry.reason,
            "warnings": [warning_json(warning) for warning in accepted.warnings],
        }
        for accepted in made.accepted
    ]


def _same(earlier: Outcome, flipped: bool) -> dict[str, Any]:
    assert earlier.solution is not None
    return {"item": earlier.solution.item.name, "file": str(earlier.path), "flipped": flipped}


def show_certificate(outcome: Outcome) -> None:
    """One item's certificate, for a reader."""
    if outcome.solution is None:
        count = len(outcome.faults)
        say(f"{outcome.path.stem}: refused, {count} {'fault' if count == 1 else 'faults'}")
        return
    from ..solution.certificate import certificate
    from ..wording.certificate import certificate_lines

    for line in certificate_lines(certificate(outcome.solution)):
        say(line)


def show_repeats(found: Iterable[tuple[Outcome, Repeated | None]]) -> None:
    """The items that ask what an earlier one asks."""
    from ..wording.certificate import repeat_line

    for outcome, repeated in found:
        if repeated is not None:
            say(repeat_line(str(outcome.path), str(repeated[0].path), flipped=repeated[1]))


def show_footnotes() -> None:
    """What millimetres and pauses mean; once, below all certificates."""
    from ..wording.certificate import PAUSE_SOURCE, PRINT_SCALE

    say(PRINT_SCALE)
    say(PAUSE_SOURCE)
